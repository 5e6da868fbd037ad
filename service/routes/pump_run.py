"""``POST /v1/pump-run`` and ``POST /v1/pump-run/compare``."""

from typing import Any

from service.calculations import pump_compare, pump_run
from service.calculations.answer import Answer
from service.routes.blueprint import Blueprint
from service.schemas.pump_compare import PumpCompareAnswer, PumpCompareRequest
from service.schemas.pump_run import PumpRunAnswer, PumpRunRequest

blueprint = Blueprint(
    "pump-run",
    __name__,
    description="Where water cannot run down, a small pump lifts it: whether it can, and which one to take.",
)


@blueprint.route("/v1/pump-run", methods=["POST"])
@blueprint.response(200, PumpRunAnswer, renderings={"image/svg+xml": "service.drawings.pump_run:draw_pump_run"})
@blueprint.arguments(PumpRunRequest)
def run_pump(body: Any) -> Answer[pump_run.PumpRun]:
    """Can this pump push this water there?

    Post the water that arrives, the lift, the tube and the points of the pump's leaflet; the volumes of its tank if
    known. The answer gives the operating point, flow against inflow, starts and duty, what runs back when the pump
    stops, how long there is when it dies, and how far lift and tube might go. A tube may change its bore on the way.
    """
    return pump_run.run_pump(**body)


@blueprint.route("/v1/pump-run/compare", methods=["POST"])
@blueprint.response(200, PumpCompareAnswer)
@blueprint.arguments(PumpCompareRequest)
def compare_pumps(body: Any) -> Answer[pump_compare.PumpComparison]:
    """Which of these pumps, or what do these pumps do together?

    Post the water that arrives, the lift, the tube and up to ten pumps. Each is answered as `pump-run` would, and they
    are ranked, each with what puts it behind the one before. With `run_together` they stand in one tank and push
    through one tube: the answer gives what they move at once or in turn, and what is left when one of them dies. The
    verdict is that of the choice or of the tank; each pump has its own.
    """
    return pump_compare.compare_pumps(**body)
