"""``POST /v1/drain-survey``."""

from typing import Any

from service.calculations import drain_survey
from service.calculations.answer import Answer
from service.routes.blueprint import Blueprint
from service.schemas.drain_survey import DrainSurveyAnswer, DrainSurveyRequest

BODY_LIMIT = 512 * 1024
"""Two thousand stations take up to 293 KiB."""

blueprint = Blueprint(
    "drain-survey",
    __name__,
    description="A drain line measured point by point: where it rises, and where water stands in it.",
)


@blueprint.route("/v1/drain-survey", methods=["POST"])
@blueprint.response(
    200, DrainSurveyAnswer, renderings={"image/svg+xml": "service.drawings.drain_survey:draw_drain_survey"}
)
@blueprint.arguments(DrainSurveyRequest, body_limit=BODY_LIMIT)
def survey_drain(body: Any) -> Answer[drain_survey.DrainSurvey]:
    """Stations along a line: pitch, back-falls, standing water.

    Post distance and height of the pipe's inside bottom (its invert) at two to two thousand stations, as inverts above
    one datum or as drops below a level line. The answer gives the pitch of every segment against the code minimum and
    the usual one, where water stands when the drain has stopped, how deep and how much, whether it fills the bore and
    so makes a second trap, and what to raise or lower by how much. Readings inside the measurement tolerance are told
    apart.
    """
    return drain_survey.survey_drain(**body)
