"""How much water a condensing furnace or boiler makes of its fuel.

References
----------
.. [1] NIST Chemistry WebBook, standard enthalpies of combustion (gas, water as liquid) of methane, 890.7 kJ/mol, and
   propane, 2219.2 kJ/mol (from memory).
.. [2] Dry air: 20.946 % oxygen by volume, US Standard Atmosphere 1976.
"""

from collections.abc import Mapping
from types import MappingProxyType

from service.calculations.air_flow import LIMITS as SITE_LIMITS
from service.calculations.air_flow import station_pressure_of
from service.calculations.answer import Answer, Assumption, Finding
from service.calculations.frozen import dataclass
from service.calculations.limits import Limit, require
from service.calculations.psychrometrics import humidity_ratio_from_relative_humidity
from service.calculations.running import running_time
from service.calculations.saturation import dew_point, vapour_fraction
from service.calculations.trap_water import WATER_DENSITY
from service.calculations.virial import MASS_RATIO, WATER_MOLAR_MASS

OXYGEN_IN_DRY_AIR = 0.20946
"""Share of dry air by volume [2]_."""

LOW_EXCESS_AIR_PERCENT = 20.0
"""Low end of what burners run at; less excess air leaves more water to condense. Common practice, no source."""

COOL_EXHAUST = 311.0
"""Flue gas of a condensing appliance at its coolest, 100 degF [K]; cooler gas keeps less water. Common practice."""

WINTER_AIR = (283.15, 80.0)
"""Combustion air taken for granted: 10 degC (50 degF) and 80 % relative humidity."""

_METHANE = Assumption(
    pointer="/fuel",
    value="natural-gas",
    note="Not given: natural gas, taken as methane, which makes the most water for its heat.",
)
_COOL = Assumption(
    pointer="/exhaust_temperature",
    value=COOL_EXHAUST,
    note="Not given: 100 degF, the coolest of condensing appliances, which condenses most. Common practice.",
    symbols="degF|degC",
)
_LOW_EXCESS = Assumption(
    pointer="/excess_air_percent",
    value=LOW_EXCESS_AIR_PERCENT,
    note="Not given: 20 %, the low end of what burners run at, which condenses most. Common practice.",
)
_MILD_WINTER = Assumption(
    pointer="/combustion_air",
    value=WINTER_AIR[0],
    note="Not given: at 80 % relative humidity, mild winter air. It brings a few percent of the water.",
    symbols="degF|degC",
)

LIMITS: Mapping[str, Limit] = MappingProxyType(
    {
        "fuel_input": Limit(100.0, 2e6),  # a pilot light, to a large boiler
        "excess_air_percent": Limit(0.0, 300.0),  # none, to a burner far out of adjustment
        "exhaust_temperature": Limit(278.15, 523.15),  # as cold as a basement, to an old non-condensing furnace
        "dry_bulb": Limit(233.15, 323.15),  # outdoor air of the coldest places, to a hot boiler room
        "relative_humidity_percent": Limit(0.0, 100.0),
        "elevation": SITE_LIMITS["elevation"],
        "station_pressure": SITE_LIMITS["station_pressure"],
        "run_fraction": Limit(0.0, 1.0),
    }
)


@dataclass(frozen=True, slots=True)
class Fuel:
    """What a mole of fuel burns to.

    Parameters
    ----------
    carbon, hydrogen : int
        Atoms in a molecule.
    heat : float
        Higher heating value [J/mol].
    """

    carbon: int
    hydrogen: int
    heat: float


FUELS = MappingProxyType({"natural-gas": Fuel(1, 4, 890.7e3), "propane": Fuel(3, 8, 2219.2e3)})
"""Natural gas as methane, most of it; with its ethane it makes up to 2 % less water for its heat."""


@dataclass(frozen=True, kw_only=True, slots=True)
class CombustionAir:
    """Air the burner draws.

    Parameters
    ----------
    dry_bulb : float
        [K]
    relative_humidity_percent : float
        [%]
    """

    dry_bulb: float
    relative_humidity_percent: float


@dataclass(frozen=True, kw_only=True, slots=True)
class FuelRate:
    """Water made of fuel.

    Parameters
    ----------
    mass_rate : float
        Water that condenses while the burner runs [kg/s].
    volume_rate : float
        The same by volume [m3/s].
    daily_volume : float
        Water in a day at the run fraction [m3].
    water_vapour_rate : float
        All water vapour in the flue gas before any condenses: formed, and brought by the combustion air [kg/s].
    condensed_share : float
        Part of that vapour that condenses [-].
    flue_dew_point : float
        Temperature below which the flue gas begins to condense [K].
    """

    mass_rate: float
    volume_rate: float
    daily_volume: float
    water_vapour_rate: float
    condensed_share: float
    flue_dew_point: float


def rate_from_fuel(
    *,
    fuel_input: float,
    fuel: str | None = None,
    exhaust_temperature: float | None = None,
    excess_air_percent: float | None = None,
    combustion_air: CombustionAir | None = None,
    elevation: float | None = None,
    station_pressure: float | None = None,
    run_fraction: float | None = None,
) -> Answer[FuelRate]:
    """Work out the water a condensing furnace or boiler makes, by the chemistry of its fuel.

    Parameters
    ----------
    fuel_input : float
        Fuel burned, by its higher heating value [W]: the input of the rating plate.
    fuel : str or None
        A key of `FUELS`; natural gas by default.
    exhaust_temperature : float or None
        Of the flue gas where it leaves the appliance [K].
    excess_air_percent : float or None
        Air beyond what the fuel needs [%].
    combustion_air : CombustionAir or None
        Air the burner draws.
    elevation : float or None
        Of the site [m].
    station_pressure : float or None
        Instead of the elevation [Pa].
    run_fraction : float or None
        Share of the day the burner runs [-].

    Returns
    -------
    Answer of FuelRate

    Raises
    ------
    OutOfRange
        For an argument outside `LIMITS`.

    Notes
    -----
    CxHy + (x + y/4) O2 -> x CO2 + y/2 H2O (1). Dry flue gas, in moles for one of fuel: x + a [(1 + e)/0.20946 - 1] (2),
    with the oxygen a = x + y/4 and the excess e. It leaves saturated at the exhaust temperature where that lies
    below its dew point; what it cannot hold condenses (3).

    Examples
    --------
    By hand: all the water of 100,000 Btu/h of methane is 2 x 18.015 g for 890.7 kJ, 9.4 lb/h or 1.13 gal/h; at 100
    degF some 70 % of it condenses.

    >>> rate = rate_from_fuel(fuel_input=1e5 * 0.29307107, fuel="natural-gas", excess_air_percent=0.0).results
    >>> round(rate.volume_rate / 3.785411784e-3 * 3600, 1), round(rate.condensed_share, 2)
    (0.8, 0.72)
    """
    require(
        LIMITS,
        fuel_input=fuel_input,
        exhaust_temperature=exhaust_temperature,
        excess_air_percent=excess_air_percent,
        elevation=elevation,
        station_pressure=station_pressure,
        run_fraction=run_fraction,
    )
    if combustion_air:
        require(
            LIMITS,
            dry_bulb=combustion_air.dry_bulb,
            relative_humidity_percent=combustion_air.relative_humidity_percent,
        )
    site = station_pressure_of(elevation, station_pressure)
    burned = FUELS[fuel or "natural-gas"]
    excess = (LOW_EXCESS_AIR_PERCENT if excess_air_percent is None else excess_air_percent) / 100.0
    exhaust = COOL_EXHAUST if exhaust_temperature is None else exhaust_temperature
    drawn = combustion_air or CombustionAir(dry_bulb=WINTER_AIR[0], relative_humidity_percent=WINTER_AIR[1])
    humidity = humidity_ratio_from_relative_humidity(drawn.dry_bulb, drawn.relative_humidity_percent, site.pressure)
    oxygen = burned.carbon + burned.hydrogen / 4.0
    dry_air = oxygen * (1.0 + excess) / OXYGEN_IN_DRY_AIR
    dry_gas = burned.carbon + dry_air - oxygen  # (2)
    vapour = burned.hydrogen / 2.0 + dry_air * humidity / MASS_RATIO  # (1)
    dew = dew_point(vapour / dry_gas * MASS_RATIO, site.pressure)
    left = vapour
    if exhaust < dew:
        held = vapour_fraction(exhaust, site.pressure)
        left = min(dry_gas * held / (1.0 - held), vapour)
    condensed = vapour - left  # (3)
    molar_rate = fuel_input / burned.heat
    mass_rate = molar_rate * condensed * WATER_MOLAR_MASS
    running, run_assumptions = running_time(run_fraction)
    results = FuelRate(
        mass_rate=mass_rate,
        volume_rate=mass_rate / WATER_DENSITY,
        daily_volume=mass_rate / WATER_DENSITY * running,
        water_vapour_rate=molar_rate * vapour * WATER_MOLAR_MASS,
        condensed_share=condensed / vapour,
        flue_dew_point=dew,
    )
    return Answer(
        results=results,
        findings=_findings(results, exhaust),
        assumptions=(
            *_assumptions(fuel, exhaust_temperature, excess_air_percent, combustion_air),
            *site.assumptions,
            *run_assumptions,
        ),
        cautions=("acid-condensate", "flue-gas", "local-code") if mass_rate > 0.0 else ("flue-gas", "local-code"),
        sources=("combustion", "ashrae-psychrometrics", "common-practice"),
    )


def _findings(rate: FuelRate, exhaust: float) -> tuple[Finding, ...]:
    """Say whether water condenses, and what kind of water it is."""
    values = {"dew_point": rate.flue_dew_point, "exhaust": exhaust, "volume_rate": rate.volume_rate}
    if rate.mass_rate <= 0.0:
        return (Finding(code="flue-gas-stays-dry", pointer="/exhaust_temperature", values=values),)
    return (Finding(code="flue-condensate-is-acid", pointer="/fuel_input", values=values),)


def _assumptions(
    fuel: str | None,
    exhaust_temperature: float | None,
    excess_air_percent: float | None,
    combustion_air: CombustionAir | None,
) -> list[Assumption]:
    """Record every default."""
    defaults = (
        (fuel, _METHANE),
        (exhaust_temperature, _COOL),
        (excess_air_percent, _LOW_EXCESS),
        (combustion_air, _MILD_WINTER),
    )
    return [assumption for given, assumption in defaults if given is None]
