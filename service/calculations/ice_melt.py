"""An iced coil that melts: how much water, and how fast.

References
----------
.. [1] IAPWS R10-06(2009), *Revised Release on the Equation of State 2006 for H2O Ice Ih*: density and
   enthalpy of ice at its melting point.
.. [2] ASHRAE Handbook - Fundamentals 2017, chapter 1, Psychrometrics: enthalpy and volume of moist air.
"""

from service.calculations import psychrometrics, saturation, virial, water
from service.calculations.air_flow import LIMITS as AIR_LIMITS
from service.calculations.answer import Assumption
from service.calculations.frozen import dataclass
from service.calculations.limits import Limit, require_members

MELTING_POINT = 273.15
"""Temperature of melting ice at atmospheric pressure [K]."""

WATER_DENSITY, WATER_ENTHALPY = water.density(MELTING_POINT), water.liquid_enthalpy(MELTING_POINT)
"""Of the water that ice gives [kg/m3] and [J/kg]."""

HEAT_OF_MELTING = WATER_ENTHALPY - water.ice_enthalpy(MELTING_POINT)
"""Heat that a kilogram of ice takes up as it melts [J/kg] [1]_: 333.4 kJ/kg."""

ICE_DENSITY = 916.7
"""Clear ice at its melting point [kg/m3] [1]_; frost is lighter, which `ice_share` tells."""

ROOM_HUMIDITY_PERCENT = 50.0
"""Relative humidity of air in a conditioned room. Common practice, no source."""

NO_MELT = 1e-12
"""Rate [m3/s] up to which ice does not melt to speak of: a tenth of a millilitre a day."""

ICE_LIMITS = {
    "water_volume": Limit(0.0, 1.0),  # none, to the coil of a built-up unit
    "melt_time": Limit(60.0, 1e6),  # hot gas through the coil, to eleven days in a cold space
    "melting_power": Limit(0.0, 1e6),
}

LAYER_LIMITS = {
    "face_area": Limit(0.0, 50.0),
    "thickness": Limit(0.0, 0.5),  # none, to a deep coil packed solid
    "ice_share": Limit(0.0, 1.0),
}

THAW_AIR_LIMITS = {
    "air_flow": Limit(0.0, 250.0),  # a fan at rest, to half a million cfm
    "air_temperature": Limit(253.15, 333.15),  # a freezer's air, to a warm-air furnace behind the coil
    "relative_humidity_percent": Limit(0.0, 100.0),
    "elevation": AIR_LIMITS["elevation"],
}


@dataclass(frozen=True, kw_only=True, slots=True)
class IceLayer:
    """Ice over the face of a coil.

    Parameters
    ----------
    face_area : float
        Area of the iced face [m2].
    thickness : float
        Thickness of ice, or of the iced part of the coil, in the direction of the air [m].
    ice_share : float or None
        Share of that thickness that is ice, 0 to 1; the rest is air, fins and tubes.
    """

    face_area: float
    thickness: float
    ice_share: float | None = None


@dataclass(frozen=True, kw_only=True, slots=True)
class ThawAir:
    """Air that the fan blows over the ice.

    Parameters
    ----------
    air_flow : float
        As it enters [m3/s].
    air_temperature : float
        Entering [K].
    relative_humidity_percent : float or None
        Entering [%].
    elevation : float or None
        Of the site [m].
    """

    air_flow: float
    air_temperature: float
    relative_humidity_percent: float | None = None
    elevation: float | None = None


@dataclass(frozen=True, kw_only=True, slots=True)
class Ice:
    """The ice on a coil, and what melts it.

    Parameters
    ----------
    water_volume : float or None
        Water it melts to [m3].
    layer : IceLayer or None
        Its size, where the volume is not known.
    melt_time : float or None
        How long it takes to melt [s].
    melting_power : float or None
        Heat that reaches it [W].
    thaw_air : ThawAir or None
        The air that brings the heat.
    """

    water_volume: float | None = None
    layer: IceLayer | None = None
    melt_time: float | None = None
    melting_power: float | None = None
    thaw_air: ThawAir | None = None


@dataclass(frozen=True, kw_only=True, slots=True)
class Melt:
    """Water that ice gives.

    Parameters
    ----------
    volume : float
        Water the ice melts to [m3].
    power : float or None
        Heat that melts it [W]; None where nothing tells the time.
    time : float or None
        How long it takes [s]; None where it does not melt, or nothing tells.
    rate : float or None
        Water of the ice as it melts [m3/s]; None as the time.
    air_water_rate : float
        Water that the thawing air gives up on the ice [m3/s].
    """

    volume: float
    power: float | None
    time: float | None
    rate: float | None
    air_water_rate: float = 0.0


def melt_ice(ice: Ice) -> tuple[Melt, tuple[Assumption, ...]]:
    """Work out how much water the ice gives, and how fast.

    Parameters
    ----------
    ice : Ice

    Returns
    -------
    Melt and tuple of Assumption

    Raises
    ------
    OutOfRange
        For an argument outside `ICE_LIMITS`, `LAYER_LIMITS` or `THAW_AIR_LIMITS`.

    Notes
    -----
    time = mass x heat of melting / power (1). Air gives most when it leaves at the ice's own temperature and
    saturated: power = dry air x [(h1 - h2) - (W1 - W2) h_w] (2), and W1 - W2 comes down as water besides. A coil
    leaves some of that unused, so the melt is no faster than this.

    Examples
    --------
    By hand: 10 L of water were 9.998 kg of ice; 1 kW melts them in 9.998 x 333.4 / 1 = 3330 s:

    >>> melt, _ = melt_ice(Ice(water_volume=0.01, melting_power=1000.0))
    >>> round(melt.time, -1)
    3330.0
    """
    require_members(ICE_LIMITS, ice)
    assumptions: list[Assumption] = []
    volume = ice.water_volume or 0.0
    if ice.layer:
        require_members(LAYER_LIMITS, ice.layer)
        share = ice.layer.ice_share
        if share is None:
            note = "Taken as solid clear ice, which gives the most water; frost and fins leave less."
            assumptions.append(Assumption(pointer="/ice/layer/ice_share", value=1.0, note=note))
            share = 1.0
        volume = ice.layer.face_area * ice.layer.thickness * share * ICE_DENSITY / WATER_DENSITY
    energy = volume * WATER_DENSITY * HEAT_OF_MELTING
    if ice.melt_time is not None:
        power, rate = energy / ice.melt_time, volume / ice.melt_time
        if rate <= NO_MELT:
            return _none(volume, power), tuple(assumptions)
        return Melt(volume=volume, power=power, time=ice.melt_time, rate=rate), tuple(assumptions)
    melting_power, air_water = ice.melting_power, 0.0
    if ice.thaw_air:
        melting_power, air_water, assumed = _air_power(ice.thaw_air)
        assumptions += assumed
    if melting_power is None:
        return _none(volume, None), tuple(assumptions)
    rate = melting_power / (WATER_DENSITY * HEAT_OF_MELTING)
    if volume <= 0.0 or rate <= NO_MELT:
        return _none(volume, melting_power), tuple(assumptions)
    return (
        Melt(volume=volume, power=melting_power, time=volume / rate, rate=rate, air_water_rate=air_water),
        tuple(assumptions),
    )


def _none(volume: float, power: float | None) -> Melt:
    """Ice that does not melt, or of which nothing tells how fast."""
    return Melt(volume=volume, power=power, time=None, rate=None)


def _air_power(air: ThawAir) -> tuple[float, float, list[Assumption]]:
    """Heat [W] that air gives to ice at most, and water [m3/s] that it gives up with it; equation (2)."""
    require_members(THAW_AIR_LIMITS, air)
    assumptions, pointer = [], "/ice/thaw_air"
    percent, elevation = air.relative_humidity_percent, air.elevation
    if percent is None:
        percent = ROOM_HUMIDITY_PERCENT
        note = "Air of a conditioned room. Common practice."
        assumptions.append(Assumption(pointer=f"{pointer}/relative_humidity_percent", value=percent, note=note))
    if elevation is None:
        elevation = 0.0
        note = "Not given: sea level, where air is densest and melts fastest."
        assumptions.append(Assumption(pointer=f"{pointer}/elevation", value=0.0, note=note, symbols="ft|m"))
    if air.air_temperature <= MELTING_POINT:
        return 0.0, 0.0, assumptions
    pressure = psychrometrics.station_pressure(elevation)
    entering = psychrometrics.humidity_ratio_from_relative_humidity(air.air_temperature, percent, pressure)
    # what is drier than the ice's surface keeps its water
    leaving = min(entering, saturation.saturation_humidity_ratio(MELTING_POINT, pressure))
    dry_air = air.air_flow / virial.specific_volume(air.air_temperature, entering, pressure)
    given_up = virial.specific_enthalpy(air.air_temperature, entering, pressure) - virial.specific_enthalpy(
        MELTING_POINT, leaving, pressure
    )
    power = dry_air * (given_up - (entering - leaving) * WATER_ENTHALPY)
    return power, dry_air * (entering - leaving) / WATER_DENSITY, assumptions
