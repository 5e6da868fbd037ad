"""``POST /v1/pump-restriction``."""

from typing import Any

from service.calculations import pump_restriction
from service.calculations.answer import Answer
from service.routes.blueprint import Blueprint
from service.schemas.pump_restriction import PumpRestrictionAnswer, PumpRestrictionRequest

blueprint = Blueprint("pump-restriction", __name__, description="A pump that moves too little: what holds it back.")


@blueprint.route("/v1/pump-restriction", methods=["POST"])
@blueprint.response(200, PumpRestrictionAnswer)
@blueprint.arguments(PumpRestrictionRequest)
def find_pump_restriction(body: Any) -> Answer[pump_restriction.PumpRestriction]:
    """What takes this pump's head: a pinch, slime, or wear?

    Post a timed pump-out with the lift, the tube and the points of the pump's leaflet. The answer gives the pump's
    flow and the range it lies in, the head that is missing, the bore of a pinch or of a fouled tube that would take
    it, how near to shut-off the motor works, and whether the measurement can tell a restriction from a worn pump. A
    second measurement, of the pump alone, can: with the tube off, or with the tube held up until the water stops.
    """
    return pump_restriction.find_restriction(**body)
