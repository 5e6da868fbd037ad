"""``POST /v1/drain-sizing``."""

from typing import Any

from service.calculations import drain_sizing
from service.calculations.answer import Answer
from service.routes.blueprint import Blueprint
from service.schemas.drain_sizing import DrainSizingAnswer, DrainSizingRequest

blueprint = Blueprint("drain-sizing", __name__, description="Pipe size of a drain line.")


@blueprint.route("/v1/drain-sizing", methods=["POST"])
@blueprint.response(200, DrainSizingAnswer)
@blueprint.arguments(DrainSizingRequest)
def size_drain(body: Any) -> Answer[drain_sizing.DrainSizing]:
    """Pipe size for one or several units, and how much slime it may take.

    Post the units that share the line with their capacities, and the pan outlet and pitch if known. The answer gives
    the size by the codes' table, what the clean line carries, how deep the peak hour runs in it, and what share of
    the bore may foul before it backs up.
    """
    return drain_sizing.size_drain(**body)
