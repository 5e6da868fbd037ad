"""The water of a condensing furnace or boiler, and the drain it shares with the cooling coil."""

from service.calculations.answer import Answer, Assumption
from service.calculations.frozen import dataclass
from service.calculations.fuel_rate import CombustionAir, FuelRate, rate_from_fuel

NEUTRALIZERS = ("fitted", "missing", "unknown")
"""Whether the furnace's water goes through a neutralizer."""

CARRIED = ("coil", "furnace", "both")
"""Whose water a shared drain has to carry."""


@dataclass(frozen=True, kw_only=True, slots=True)
class Furnace:
    """A condensing furnace or boiler, and where its water goes.

    Parameters
    ----------
    fuel_input : float
        Fuel burned, by its higher heating value [W].
    fuel, exhaust_temperature, excess_air_percent, combustion_air, elevation, station_pressure, run_fraction
        As `service.calculations.fuel_rate.rate_from_fuel` takes them.
    shares_drain : bool or None
        Whether its water runs into the coil's drain.
    neutralizer : str or None
        One of `NEUTRALIZERS`.
    runs_with_cooling : bool or None
        Whether it reheats the air while the coil takes the moisture out.
    """

    fuel_input: float
    fuel: str | None = None
    exhaust_temperature: float | None = None
    excess_air_percent: float | None = None
    combustion_air: CombustionAir | None = None
    elevation: float | None = None
    station_pressure: float | None = None
    run_fraction: float | None = None
    shares_drain: bool | None = None
    neutralizer: str | None = None
    runs_with_cooling: bool | None = None


@dataclass(frozen=True, kw_only=True, slots=True)
class SharedDrain:
    """What a drain shared by coil and furnace has to carry.

    Parameters
    ----------
    coil_peak : float or None
        Condensate of the coil in its peak hour [m3/s].
    furnace_peak : float
        Water of the furnace while it burns [m3/s].
    carries : str or None
        One of `CARRIED`: whose water counts; None where the coil's is not known.
    peak_flow : float or None
        That water [m3/s].
    capacity : float or None
        What the pump moves, or the clean line carries [m3/s], where it was worked out.
    """

    coil_peak: float | None
    furnace_peak: float
    carries: str | None
    peak_flow: float | None
    capacity: float | None


def burn_in(furnace: Furnace, elevation: float | None, station_pressure: float | None) -> Answer[FuelRate]:
    """Work out the furnace's water; it stands where the unit does, unless it says otherwise.

    Parameters
    ----------
    furnace : Furnace
    elevation : float or None
        Of the unit's site [m].
    station_pressure : float or None
        Instead of it [Pa].

    Returns
    -------
    Answer of FuelRate

    Raises
    ------
    OutOfRange
        As `service.calculations.fuel_rate.rate_from_fuel`.
    """
    if furnace.elevation is not None or furnace.station_pressure is not None:
        elevation, station_pressure = furnace.elevation, furnace.station_pressure
    return rate_from_fuel(
        fuel_input=furnace.fuel_input,
        fuel=furnace.fuel,
        exhaust_temperature=furnace.exhaust_temperature,
        excess_air_percent=furnace.excess_air_percent,
        combustion_air=furnace.combustion_air,
        elevation=elevation,
        station_pressure=station_pressure,
        run_fraction=furnace.run_fraction,
    )


def share_drain(
    furnace: Furnace, rate: FuelRate, coil_peak: float | None, capacity: float | None
) -> tuple[SharedDrain, tuple[Assumption, ...]]:
    """Find what the shared drain has to carry.

    Parameters
    ----------
    furnace : Furnace
    rate : FuelRate
        Its water.
    coil_peak : float or None
        Of the coil in its peak hour [m3/s].
    capacity : float or None
        What the drain carries [m3/s].

    Returns
    -------
    tuple of (SharedDrain, tuple of Assumption)
        A thermostat calls for heating or for cooling, so that the larger of the two counts; where the furnace reheats
        while the coil takes moisture out, both run and their sum counts.
    """
    if coil_peak is None:
        drain = SharedDrain(
            coil_peak=None, furnace_peak=rate.volume_rate, carries=None, peak_flow=None, capacity=capacity
        )
        return drain, ()
    assumptions: tuple[Assumption, ...] = ()
    if furnace.runs_with_cooling is None:
        note = "Not given: heating and cooling do not run together, so that the larger of the two counts."
        assumptions = (Assumption(pointer="/furnace/runs_with_cooling", value=False, note=note),)
    if furnace.runs_with_cooling:
        carries, flow = "both", coil_peak + rate.volume_rate
    else:
        carries = "coil" if coil_peak >= rate.volume_rate else "furnace"
        flow = max(coil_peak, rate.volume_rate)
    return (
        SharedDrain(
            coil_peak=coil_peak, furnace_peak=rate.volume_rate, carries=carries, peak_flow=flow, capacity=capacity
        ),
        assumptions,
    )
