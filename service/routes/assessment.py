"""``POST /v1/assessment`` and ``POST /v1/assessment/batch``."""

from typing import Any

from service.calculations import assessment
from service.calculations.answer import Answer
from service.routes.batch import Batch, answer_each
from service.routes.blueprint import Blueprint
from service.schemas.assessment import AssessmentAnswer, AssessmentRequest
from service.schemas.assessment_batch import UNIT_LINES, AssessmentBatchAnswer, AssessmentBatchRequest

BATCH_BODY_LIMIT = 48 * 1024 * 1024
"""The largest unit the schema allows takes 35 kB (every text full of escaped characters, every number 32 digits), so
that a thousand take 33.4 MiB; the rest is room for members to come."""

REPORTS = {
    "text/html": "service.reports.page:write_page",
    "application/pdf": "service.reports.paper:write_paper",
}

blueprint = Blueprint(
    "assessment",
    __name__,
    description="A whole unit at once, or many: everything known of it in, everything that can be said of it out.",
)


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
@blueprint.response(200, AssessmentBatchAnswer, envelope=False, lines=UNIT_LINES)
@blueprint.arguments(AssessmentBatchRequest, body_limit=BATCH_BODY_LIMIT, lines=UNIT_LINES)
def assess_batch(body: Any) -> Batch:
    """Many units, one result or problem for each, order kept.

    Up to 1,000 units. Each is read and assessed by itself: a unit that does not match the schema gets a problem in its
    own row, with pointers from the unit, and the others are answered.

    Up to 100,000 units as `application/x-ndjson`: one unit a line in, one row a line out, each as soon as it is there.
    A line that is not JSON, or no unit, gets a problem with its line number in its own row; empty lines are passed over
    and get none. The answer comes as the units were sent, unless `Accept` says otherwise: units sent as JSON may be
    answered in lines, and up to 1,000 lines as one JSON object.

    Rows in lines leave after the status 200 of the whole. So what ends the answer early is told by a last row, with the
    `index` of the first unit that was not answered: `bad-request` (the body broke off or came too slowly),
    `body-too-large` (too many lines or bytes), `not-ready` (the service was asked to stop) or `internal-error`. All is
    answered where as many rows came as units were sent; otherwise send again from there. Read while you send: a body of
    unknown length, or of more than 8 MiB, is answered while it arrives.
    """
    return answer_each(body["units"], assessment.assess_unit)
