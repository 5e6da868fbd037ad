"""``POST /v1/condensate-rate/...``."""

from typing import Any

from service.calculations import condensate_rate, fuel_rate
from service.calculations.answer import Answer
from service.routes.blueprint import Blueprint
from service.schemas.condensate_rate import (
    AirStatesRateAnswer,
    AirStatesRateRequest,
    CapacityRateAnswer,
    CapacityRateRequest,
    CoilRateAnswer,
    CoilRateRequest,
)
from service.schemas.fuel_rate import FuelRateAnswer, FuelRateRequest

blueprint = Blueprint(
    "condensate-rate",
    __name__,
    description="How much water a cold coil takes out of the air, or a condensing burner out of its flue gas.",
)


@blueprint.route("/v1/condensate-rate/from-capacity", methods=["POST"])
@blueprint.response(200, CapacityRateAnswer)
@blueprint.arguments(CapacityRateRequest)
def rate_from_capacity(body: Any) -> Answer[condensate_rate.CapacityRate]:
    """Water made, from rated capacity and sensible heat ratio.

    Post what the unit's rating says: its capacity, and the sensible heat ratio, the share of it that cools the air. The
    rest takes water out of the air. The answer gives the water made while running, in a day and by the ton, with the
    1060 Btu/lb that ratings themselves are made with.
    """
    return condensate_rate.rate_from_capacity(**body)


@blueprint.route("/v1/condensate-rate/from-air-states", methods=["POST"])
@blueprint.response(200, AirStatesRateAnswer)
@blueprint.arguments(AirStatesRateRequest)
def rate_from_air_states(body: Any) -> Answer[condensate_rate.AirStatesRate]:
    """Water made, from air flow and the air on both sides of the coil.

    Post the air flow and, before and behind the coil, the temperature (dry bulb) with what tells how moist the air is:
    the temperature of a wetted thermometer (wet bulb), relative humidity or dew point. The answer gives the water made,
    the latent, sensible and total load, and both air states in full; it says when the readings lie too close together
    for hand-held instruments to tell.
    """
    return condensate_rate.rate_from_air_states(**body)


@blueprint.route("/v1/condensate-rate/from-coil", methods=["POST"])
@blueprint.response(200, CoilRateAnswer)
@blueprint.arguments(CoilRateRequest)
def rate_from_coil(body: Any) -> Answer[condensate_rate.CoilRate]:
    """Water made, from entering air and the coil's capacity.

    Post the air flow, the entering air, the capacity and the bypass factor, the share of the air that passes the coil
    untouched. The temperature of the coil's surface (the apparatus dew point) is solved for, and with it the leaving
    air, the water and the loads; the answer says when the coil stays dry, when it frosts, and when so little air cannot
    give up so much heat.
    """
    return condensate_rate.rate_from_coil(**body)


@blueprint.route("/v1/condensate-rate/from-fuel", methods=["POST"])
@blueprint.response(200, FuelRateAnswer)
@blueprint.arguments(FuelRateRequest)
def rate_from_fuel(body: Any) -> Answer[fuel_rate.FuelRate]:
    """Water made by a condensing furnace or boiler, from its fuel.

    Post the input of the rating plate, with fuel, flue gas temperature and excess air if known. The answer gives the
    water that condenses out of the flue gas by the chemistry of the fuel, and the temperature at which it begins to;
    that water is acid, and often shares a drain with the cooling coil.
    """
    return fuel_rate.rate_from_fuel(**body)
