"""``POST /v1/trap-sizing``."""

from typing import Any

from service.calculations import trap_sizing
from service.calculations.answer import Answer
from service.routes.blueprint import Blueprint
from service.schemas.trap_sizing import TrapSizingAnswer, TrapSizingRequest

blueprint = Blueprint(
    "trap-sizing",
    __name__,
    description="A trap is a bend of pipe that stays full of water and keeps air out of the drain: its size.",
)


@blueprint.route("/v1/trap-sizing", methods=["POST"])
@blueprint.response(200, TrapSizingAnswer, renderings={"image/svg+xml": "service.drawings.trap:draw_trap_sizing"})
@blueprint.arguments(TrapSizingRequest)
def size_trap(body: Any) -> Answer[trap_sizing.TrapSize]:
    """Dimensions a trap needs for the pressure in its pan.

    Post the pressure in the pan with the fan on (below zero where the fan sucks), with an allowance for a dirty filter
    and the room under the pan outlet. The answer gives outlet drop (how much lower the trap ends than the pan's
    outlet), seal depth (the water that keeps the air out) and overall depth, where the water stands in the trap in each
    of four states, and says whether it fits and what would.
    """
    return trap_sizing.size_trap(**body)
