"""How much dry air passes: station pressure, and mass flow from a volume flow."""

from service.calculations import psychrometrics
from service.calculations.air_state import AirState
from service.calculations.answer import Assumption
from service.calculations.frozen import dataclass
from service.calculations.limits import Limit

STANDARD_DENSITY = 0.075 * 0.45359237 / 0.3048**3
"""Dry air in standard air: 0.075 lb/ft3, 1.2 kg/m3 rounded (ASHRAE Handbook - Fundamentals, fan ratings) [kg/m3]."""

BASES = ("actual", "standard")
"""Volume flow as it passes, or what the same mass would be as standard air (a fan table's figure)."""

PLACES = ("entering", "leaving")
"""Where an actual flow was measured."""

LIMITS = {
    "air_flow": Limit(0.005, 250.0),  # 10 cfm, a small dehumidifier, to half a million cfm
    "elevation": Limit(-500.0, 5000.0),  # the Dead Sea's shore, to the highest towns
    "station_pressure": Limit(50e3, 110e3),  # above the highest towns, to a deep mine
}


@dataclass(frozen=True, kw_only=True, slots=True)
class StationPressure:
    """Pressure of the place, and what was assumed to know it.

    Parameters
    ----------
    pressure : float
        Absolute [Pa].
    assumptions : tuple of Assumption
        Sea level, when nothing was given.
    """

    pressure: float
    assumptions: tuple[Assumption, ...] = ()


_SEA_LEVEL = Assumption(
    pointer="/elevation",
    value=0.0,
    note="Not given: sea level. Every 1,000 ft (300 m) of height thins the air by about 3.5 %.",
    symbols="ft|m",
)
_AT_SEA_LEVEL = StationPressure(pressure=psychrometrics.SEA_LEVEL_PRESSURE, assumptions=(_SEA_LEVEL,))


@dataclass(frozen=True, kw_only=True, slots=True)
class DryAirFlow:
    """Mass flow of dry air, and what was assumed to know it.

    Parameters
    ----------
    mass_flow : float
        Dry air [kg/s].
    assumptions : tuple of Assumption
        Basis and place of the measurement, when not given.
    """

    mass_flow: float
    assumptions: tuple[Assumption, ...] = ()


def station_pressure_of(elevation: float | None, station_pressure: float | None) -> StationPressure:
    """Station pressure as given, or of the standard atmosphere at an elevation, sea level by default.

    Parameters
    ----------
    elevation : float or None
        Height above sea level [m].
    station_pressure : float or None
        Absolute pressure, not reduced to sea level [Pa].

    Returns
    -------
    StationPressure

    Raises
    ------
    ValueError
        When both are given.
    """
    if elevation is not None and station_pressure is not None:
        raise ValueError("elevation and station_pressure exclude each other")
    if station_pressure is not None:
        return StationPressure(pressure=station_pressure)
    if elevation is not None:
        return StationPressure(pressure=psychrometrics.station_pressure(elevation))
    return _AT_SEA_LEVEL


def dry_air_flow(
    air_flow: float, *, basis: str | None, measured_at: str | None, entering: AirState, leaving: AirState | None
) -> DryAirFlow:
    """Mass flow of dry air in a volume flow.

    Parameters
    ----------
    air_flow : float
        Volume flow [m3/s].
    basis : str or None
        One of `BASES`; an actual flow by default.
    measured_at : str or None
        One of `PLACES`; the entering side by default. Does not matter to a standard flow.
    entering, leaving : AirState
        Air on both sides; without a leaving state the flow is that of the entering air.

    Returns
    -------
    DryAirFlow

    Examples
    --------
    >>> from service.calculations.air_state import air_state
    >>> air = air_state(303.15, 0.01337, 101325.0)
    >>> round(dry_air_flow(5.0, basis="actual", measured_at="entering", entering=air, leaving=None).mass_flow, 2)
    5.7
    """
    assumptions = []
    if basis is None:
        note = "Not given: the flow as it passes, at the air's own density."
        assumptions.append(Assumption(pointer="/air_flow_basis", value="actual", note=note))
    if basis == "standard":
        return DryAirFlow(mass_flow=air_flow * STANDARD_DENSITY)
    if leaving is not None and measured_at is None:
        note = "Not given: measured in the entering air."
        assumptions.append(Assumption(pointer="/air_flow_measured_at", value="entering", note=note))
    place = leaving if leaving is not None and measured_at == "leaving" else entering
    return DryAirFlow(mass_flow=air_flow / place.specific_volume, assumptions=tuple(assumptions))
