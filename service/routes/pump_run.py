"""``POST /v1/pump-run``."""

from typing import Any

from service.calculations import pump_run
from service.calculations.answer import Answer
from service.routes.blueprint import Blueprint
from service.schemas.pump_run import PumpRunAnswer, PumpRunRequest

blueprint = Blueprint("pump-run", __name__, description="Condensate pump, lift and tube.")


@blueprint.route("/v1/pump-run", methods=["POST"])
@blueprint.response(200, PumpRunAnswer)
@blueprint.arguments(PumpRunRequest)
def run_pump(body: Any) -> Answer[pump_run.PumpRun]:
    """Can this pump push this water there?

    Post the water that arrives, the lift, the tube and the points of the pump's leaflet; the volumes of its tank if
    known. The answer gives the operating point, flow against inflow, starts and duty, what runs back when the pump
    stops, how long there is when it dies, and how far lift and tube might go.
    """
    return pump_run.run_pump(**body)
