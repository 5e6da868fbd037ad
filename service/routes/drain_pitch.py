"""``POST /v1/drain-pitch``."""

from typing import Any

from service.calculations import drain_pitch
from service.calculations.answer import Answer
from service.routes.blueprint import Blueprint
from service.schemas.drain_pitch import DrainPitchAnswer, DrainPitchRequest

blueprint = Blueprint("drain-pitch", __name__, description="Whether a drain line falls enough for water to run.")


@blueprint.route("/v1/drain-pitch", methods=["POST"])
@blueprint.response(200, DrainPitchAnswer)
@blueprint.arguments(DrainPitchRequest)
def pitch_drain(body: Any) -> Answer[drain_pitch.DrainPitch]:
    """Fall for a run, or pitch from a fall.

    Post the length of a line with its measured fall, or with its pitch, or alone. The answer gives pitch and
    fall, the fall the code minimum asks for and the fall the trade installs, and says whether the line will drain.
    """
    return drain_pitch.pitch_drain(**body)
