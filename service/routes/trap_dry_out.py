"""``POST /v1/trap-dry-out``."""

from typing import Any

from service.calculations import trap_dry_out
from service.calculations.answer import Answer
from service.calculations.dry_out_results import TrapDryOut
from service.routes.blueprint import Blueprint
from service.schemas.trap_dry_out import TrapDryOutAnswer, TrapDryOutRequest

blueprint = Blueprint("trap-dry-out", __name__, description="A trap that gets no water dries out: how long that takes.")


@blueprint.route("/v1/trap-dry-out", methods=["POST"])
@blueprint.response(200, TrapDryOutAnswer)
@blueprint.arguments(TrapDryOutRequest)
def find_dry_out_time(body: Any) -> Answer[TrapDryOut]:
    """How many days until the trap's seal is lost?

    Post the trap, the fan-on pressure in the pan and what is known of the air at its two ends; the idle time, to be
    told what is left of the seal after it. The answer gives the earliest day (moving air sweeps the ends of the trap)
    and the latest (the air in it stands still) on which the seal no longer holds as the fan starts, the same for the
    top of the bend, how often to refill it, and how deep a seal would last.
    """
    return trap_dry_out.dry_out_trap(**body)
