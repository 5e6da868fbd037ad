"""``POST /v1/trap-check``."""

from typing import Any

from service.calculations import trap_check
from service.calculations.answer import Answer
from service.routes.blueprint import Blueprint
from service.schemas.trap_check import TrapCheckAnswer, TrapCheckRequest

blueprint = Blueprint(
    "trap-check", __name__, description="Whether a trap that is there drains with the fan running and keeps its water."
)


@blueprint.route("/v1/trap-check", methods=["POST"])
@blueprint.response(200, TrapCheckAnswer, renderings={"image/svg+xml": "service.drawings.trap:draw_trap_check"})
@blueprint.arguments(TrapCheckRequest)
def check_trap(body: Any) -> Answer[trap_check.TrapCheck]:
    """Will this built trap drain and hold its seal?

    Post outlet drop (how much lower the trap ends than the pan's outlet), seal depth (the water that keeps the air out)
    and the pressure in the pan with the fan on, below zero where it sucks; and whatever else is known. The answer
    follows the water through rest, start-up, running and fan stop, and says what the pan holds back, what lets go when
    the fan stops, how much seal is left at the worst moment, and what to rebuild.
    """
    return trap_check.check_trap(**body)
