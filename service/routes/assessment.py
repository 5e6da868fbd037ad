"""``POST /v1/assessment`` and ``POST /v1/assessment/batch``."""

from typing import Any

from service.calculations import assessment
from service.calculations.answer import Answer
from service.routes.batch import Batch, answer_each
from service.routes.blueprint import Blueprint
from service.schemas.assessment import AssessmentAnswer, AssessmentRequest
from service.schemas.assessment_batch import AssessmentBatchAnswer, AssessmentBatchRequest

BATCH_BODY_LIMIT = 48 * 1024 * 1024
"""The largest unit the schema allows takes 35 kB (every text full of escaped characters, every number 32 digits), so
that a thousand take 33.4 MiB; the rest is room for members to come."""

REPORTS = {
    "text/html": "service.reports.page:write_page",
    "application/pdf": "service.reports.paper:write_paper",
}

blueprint = Blueprint("assessment", __name__, description="Everything known of a unit, one answer.")


@blueprint.route("/v1/assessment", methods=["POST"])
@blueprint.response(200, AssessmentAnswer, renderings=REPORTS)
@blueprint.arguments(AssessmentRequest)
def assess_unit(body: Any) -> Answer[assessment.Assessment]:
    """Everything known of one unit, one answer.

    Post whatever is known: capacity or readings, pan, trap, line, pump, place of disposal, overflow protection, a rate
    caught in a jug. The answer holds every calculation that could be made, the cross-checks between them, and a
    finding for each part that could not be assessed. A contradiction is a finding here, and costs only its part.
    """
    return assessment.assess_unit(**body)


@blueprint.route("/v1/assessment/batch", methods=["POST"])
@blueprint.response(200, AssessmentBatchAnswer, envelope=False)
@blueprint.arguments(AssessmentBatchRequest, body_limit=BATCH_BODY_LIMIT)
def assess_batch(body: Any) -> Batch:
    """Many units, one result or problem for each, order kept.

    Up to 1,000 units. Each is read and assessed by itself: a unit that does not match the schema gets a problem in its
    own row, with pointers from the unit, and the others are answered.
    """
    return answer_each(body["units"], assessment.assess_unit)
