"""``POST /v1/overflow-time``."""

from typing import Any

from service.calculations import overflow_time
from service.calculations.answer import Answer
from service.routes.blueprint import Blueprint
from service.schemas.overflow_time import OverflowTimeAnswer, OverflowTimeRequest

blueprint = Blueprint(
    "overflow-time", __name__, description="How long until water runs over when the drain blocks or the pump dies."
)


@blueprint.route("/v1/overflow-time", methods=["POST"])
@blueprint.response(200, OverflowTimeAnswer)
@blueprint.arguments(OverflowTimeRequest)
def find_overflow_time(body: Any) -> Answer[overflow_time.OverflowTime]:
    """How long until water goes where it should not?

    Post the rate at which condensate arrives, the pan or the room left in it, what protects the building, and the
    pump's tank if there is one. The answer gives the times to cut-out, overflow and building if the drain blocks or
    the pump dies, and says what stops the water.
    """
    return overflow_time.overflow_time(**body)
