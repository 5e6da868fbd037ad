"""How much water a coil makes: from its rating, from air measured around it, or from its capacity."""

from collections.abc import Mapping

from service.calculations import air_flow as flow_of_air
from service.calculations.air_flow import dry_air_flow, station_pressure_of
from service.calculations.air_state import (
    ENTERING_AIR_LIMITS,
    LEAVING_AIR_LIMITS,
    PLAIN_CONTRADICTIONS,
    AirReading,
    AirState,
    MeasuredAir,
    air_state,
    measure_air,
)
from service.calculations.answer import Answer, Finding
from service.calculations.coil import largest_capacity, solve_coil
from service.calculations.condensate_checks import (
    compare_air,
    judge_coil,
    judge_moisture,
    judge_rate,
    refuse_capacity,
    taken_otherwise,
)
from service.calculations.condensate_results import AirStatesRate, CapacityRate, CoilRate
from service.calculations.cooling_process import cool_air
from service.calculations.limits import Limit, require
from service.calculations.running import running_time
from service.errors import Contradiction
from service.tables.drain_sizes import TON

__all__ = [
    "ENTERING_AIR_LIMITS",
    "LEAVING_AIR_LIMITS",
    "LIMITS",
    "AirReading",
    "AirState",
    "AirStatesRate",
    "CapacityRate",
    "CoilRate",
    "rate_from_air_states",
    "rate_from_capacity",
    "rate_from_coil",
]

RATING_LATENT_HEAT = 1060.0 * 2326.0
"""1060 Btu/lb, by which a rating's latent capacity is defined from the water removed
(ASHRAE Standard 37, air-enthalpy method; from memory) [J/kg]."""

WATER_DENSITY = 999.70
"""Of condensate at 10 degC, about as it leaves a coil (IAPWS-95); 0.06 % lighter at 15 degC [kg/m3]."""


_AIR_SOURCES = ("ashrae-psychrometrics", "ashrae-enhancement", "moist-air-virial", "iapws-liquid-water")

LIMITS = {
    **flow_of_air.LIMITS,
    "total_capacity": Limit(100.0, 1e7),  # a small dehumidifier, to the largest built-up air handler
    "sensible_heat_ratio": Limit(0.0, 1.0),  # all latent to all sensible
    "run_fraction": Limit(0.0, 1.0),  # part of the day the coil runs
    "bypass_factor": Limit(0.0, 0.9),  # every molecule touches the coil, to a single row with gaps around it
}


def rate_from_capacity(
    *, total_capacity: float, sensible_heat_ratio: float, run_fraction: float | None = None
) -> Answer[CapacityRate]:
    """Water made, from rated capacity and sensible heat ratio.

    Parameters
    ----------
    total_capacity : float
        Total cooling capacity [W].
    sensible_heat_ratio : float
        Sensible over total capacity [-].
    run_fraction : float or None
        Part of the day the coil runs [-]; all of it by default.

    Returns
    -------
    Answer of CapacityRate

    Raises
    ------
    OutOfRange
        For an argument outside `LIMITS`.

    Notes
    -----
    A rating's latent capacity is itself made from the water removed, with 1060 Btu/lb [1]_; so
    the water is found again with the same figure.

    Examples
    --------
    3 tons at 0.75: 9,000 Btu/h latent over 1060 Btu/lb is 8.49 lb/h, by hand.

    >>> results = rate_from_capacity(total_capacity=3 * TON, sensible_heat_ratio=0.75).results
    >>> round(results.mass_rate / 0.45359237 * 3600, 2)
    8.49

    References
    ----------
    .. [1] ANSI/ASHRAE Standard 37, air-enthalpy method (from memory).
    """
    require(LIMITS, total_capacity=total_capacity, sensible_heat_ratio=sensible_heat_ratio, run_fraction=run_fraction)
    latent_capacity = total_capacity * (1.0 - sensible_heat_ratio)
    mass_rate = latent_capacity / RATING_LATENT_HEAT
    volume_rate = mass_rate / WATER_DENSITY
    rate_per_ton = volume_rate * TON / total_capacity
    running, run_assumptions = running_time(run_fraction)
    used = Finding(
        code="rating-latent-heat-used", pointer="/total_capacity", values={"btu": 1060, "megajoule": "2.466"}
    )
    return Answer(
        results=CapacityRate(
            latent_capacity=latent_capacity,
            mass_rate=mass_rate,
            volume_rate=volume_rate,
            daily_volume=volume_rate * running,
            rate_per_ton=rate_per_ton,
        ),
        findings=(used, *judge_rate(volume_rate, total_capacity, "/sensible_heat_ratio")),
        assumptions=run_assumptions,
        sources=("ashrae-37", "common-practice"),
    )


def rate_from_air_states(
    *,
    air_flow: float,
    entering_air: AirReading,
    leaving_air: AirReading,
    air_flow_basis: str | None = None,
    air_flow_measured_at: str | None = None,
    elevation: float | None = None,
    station_pressure: float | None = None,
    run_fraction: float | None = None,
) -> Answer[AirStatesRate]:
    """Water made, from air flow and the air measured on both sides of the coil.

    Parameters
    ----------
    air_flow : float
        Volume flow of air [m3/s].
    entering_air, leaving_air : AirReading
        Readings on both sides.
    air_flow_basis : str or None
        ``actual`` flow as it passes, by default, or ``standard``: of air of 0.075 lb/ft3, 1.2 kg/m3.
    air_flow_measured_at : str or None
        ``entering``, by default, or ``leaving``: whose volume an actual flow is.
    elevation, station_pressure : float or None
        Height [m], or pressure of the place [Pa], not both; sea level by default.
    run_fraction : float or None
        Part of the day the coil runs [-]; all of it by default.

    Returns
    -------
    Answer of AirStatesRate
        Rates and loads are None, with a failing finding, where the entering wet bulb is too low for
        any air, where the leaving reading is one no air can have, or where the air picks up water.
        How the loads are defined: `service.calculations.cooling_process.cool_air`.

    Raises
    ------
    OutOfRange
        For an argument outside `LIMITS`, `ENTERING_AIR_LIMITS` or `LEAVING_AIR_LIMITS`.
    Contradiction
        For an entering wet bulb or dew point above the dry bulb, and for leaving air with more water
        than the entering air could hold at any humidity: both by more than hand-held instruments err.

    Examples
    --------
    ASHRAE Handbook - Fundamentals, Psychrometrics: 5 m3/s at 30 degC and 50 % to saturated
    10 degC makes about 0.0325 kg/s and takes about 198 kW.

    >>> results = rate_from_air_states(
    ...     air_flow=5.0,
    ...     entering_air=AirReading(dry_bulb=303.15, relative_humidity_percent=50.0),
    ...     leaving_air=AirReading(dry_bulb=283.15, relative_humidity_percent=100.0),
    ... ).results
    >>> round(results.mass_rate, 4), round(results.total_load / 1e3)
    (0.0325, 198)
    """
    require(
        LIMITS, air_flow=air_flow, elevation=elevation, station_pressure=station_pressure, run_fraction=run_fraction
    )
    site = station_pressure_of(elevation, station_pressure)
    pressure = site.pressure
    entering = _measure(entering_air, ENTERING_AIR_LIMITS, pressure, "/entering_air")
    if isinstance(entering, Finding):
        return Answer(results=AirStatesRate(), findings=(entering,), assumptions=site.assumptions, sources=_AIR_SOURCES)
    leaving = _measure(leaving_air, LEAVING_AIR_LIMITS, pressure, "/leaving_air")
    if isinstance(leaving, Finding):
        return Answer(
            results=AirStatesRate(entering_air=entering.state),
            findings=(leaving, *taken_otherwise(entering)),
            assumptions=site.assumptions,
            sources=_AIR_SOURCES,
        )
    doubt = entering.doubt + leaving.doubt
    wetter = judge_moisture(entering.state, leaving.state, doubt, pressure)
    if wetter is not None:
        return Answer(
            results=AirStatesRate(entering_air=entering.state, leaving_air=leaving.state),
            findings=(wetter, *taken_otherwise(entering, leaving)),
            assumptions=site.assumptions,
            sources=_AIR_SOURCES,
        )
    flow = dry_air_flow(
        air_flow,
        basis=air_flow_basis,
        measured_at=air_flow_measured_at,
        entering=entering.state,
        leaving=leaving.state,
    )
    process = cool_air(
        entering.state,
        leaving_dry_bulb=leaving.state.dry_bulb,
        removed=max(entering.state.humidity_ratio - leaving.state.humidity_ratio, 0.0),
        mass_flow=flow.mass_flow,
        pressure=pressure,
    )
    volume_rate = process.mass_rate / WATER_DENSITY
    running, run_assumptions = running_time(run_fraction)
    return Answer(
        results=AirStatesRate(
            mass_rate=process.mass_rate,
            volume_rate=volume_rate,
            daily_volume=volume_rate * running,
            latent_load=process.latent_load,
            sensible_load=process.sensible_load,
            total_load=process.total_load,
            sensible_heat_ratio=process.sensible_heat_ratio,
            entering_air=entering.state,
            leaving_air=leaving.state,
        ),
        findings=(
            *taken_otherwise(entering, leaving),
            *compare_air(entering.state, leaving.state, doubt, flow.mass_flow / WATER_DENSITY),
            *judge_rate(volume_rate, process.total_load, ""),
        ),
        assumptions=(*flow.assumptions, *site.assumptions, *run_assumptions),
        sources=_AIR_SOURCES,
    )


def rate_from_coil(
    *,
    air_flow: float,
    entering_air: AirReading,
    total_capacity: float,
    bypass_factor: float,
    air_flow_basis: str | None = None,
    elevation: float | None = None,
    station_pressure: float | None = None,
    run_fraction: float | None = None,
) -> Answer[CoilRate]:
    """Water made, from entering air and the coil's capacity: the apparatus dew point is solved for.

    Parameters
    ----------
    air_flow : float
        Volume flow of air; an actual flow is that of the entering air [m3/s].
    entering_air : AirReading
        Reading before the coil.
    total_capacity : float
        Heat the coil takes out at these conditions [W].
    bypass_factor : float
        Part of the air that misses the surface [-].
    air_flow_basis : str or None
        ``actual`` flow as it passes, by default, or ``standard``: of air of 0.075 lb/ft3, 1.2 kg/m3.
    elevation, station_pressure : float or None
        Height [m], or pressure of the place [Pa], not both; sea level by default.
    run_fraction : float or None
        Part of the day the coil runs [-]; all of it by default.

    Returns
    -------
    Answer of CoilRate
        Rates and loads are None where the air cannot give up so much heat: a finding says how
        much it can. How the loads are defined: `service.calculations.cooling_process.cool_air`.

    Raises
    ------
    OutOfRange
        For an argument outside `LIMITS` or `ENTERING_AIR_LIMITS`.
    Contradiction
        For a wet bulb or dew point above the dry bulb by more than hand-held instruments err.

    Examples
    --------
    The same example turned round: a coil of 198 kW without bypass brings the air to 10 degC.

    >>> results = rate_from_coil(
    ...     air_flow=5.0,
    ...     entering_air=AirReading(dry_bulb=303.15, relative_humidity_percent=50.0),
    ...     total_capacity=198e3,
    ...     bypass_factor=0.0,
    ... ).results
    >>> round(results.apparatus_dew_point - 273.15, 1), round(results.mass_rate, 3)
    (10.0, 0.033)
    """
    require(
        LIMITS,
        air_flow=air_flow,
        total_capacity=total_capacity,
        bypass_factor=bypass_factor,
        elevation=elevation,
        station_pressure=station_pressure,
        run_fraction=run_fraction,
    )
    site = station_pressure_of(elevation, station_pressure)
    pressure = site.pressure
    air = _measure(entering_air, ENTERING_AIR_LIMITS, pressure, "/entering_air")
    if isinstance(air, Finding):
        return Answer(results=CoilRate(), findings=(air,), assumptions=site.assumptions, sources=_AIR_SOURCES)
    entering = air.state
    flow = dry_air_flow(air_flow, basis=air_flow_basis, measured_at=None, entering=entering, leaving=None)
    coil = solve_coil(
        entering,
        pressure=pressure,
        specific_capacity=total_capacity / flow.mass_flow,
        bypass_factor=bypass_factor,
    )
    if coil is None:
        largest = flow.mass_flow * largest_capacity(entering, pressure=pressure, bypass_factor=bypass_factor)
        return Answer(
            results=CoilRate(entering_air=entering),
            findings=(*taken_otherwise(air), refuse_capacity(total_capacity, largest, air_flow)),
            assumptions=(*flow.assumptions, *site.assumptions),
            sources=_AIR_SOURCES,
        )
    process = cool_air(
        entering,
        leaving_dry_bulb=coil.dry_bulb,
        removed=max(entering.humidity_ratio - coil.humidity_ratio, 0.0),
        mass_flow=flow.mass_flow,
        pressure=pressure,
    )
    volume_rate = process.mass_rate / WATER_DENSITY
    running, run_assumptions = running_time(run_fraction)
    return Answer(
        results=CoilRate(
            mass_rate=process.mass_rate,
            volume_rate=volume_rate,
            daily_volume=volume_rate * running,
            latent_load=process.latent_load,
            sensible_load=process.sensible_load,
            total_load=process.total_load,
            sensible_heat_ratio=process.sensible_heat_ratio,
            entering_air=entering,
            leaving_air=air_state(coil.dry_bulb, coil.humidity_ratio, pressure),
            apparatus_dew_point=coil.surface_temperature,
        ),
        findings=(*taken_otherwise(air), *judge_coil(coil, entering), *judge_rate(volume_rate, process.total_load, "")),
        assumptions=(*flow.assumptions, *site.assumptions, *run_assumptions),
        sources=_AIR_SOURCES,
    )


def _measure(reading: AirReading, limits: Mapping[str, Limit], pressure: float, pointer: str) -> MeasuredAir | Finding:
    """Measure air; a reading that no air can have is a finding, unless it plainly contradicts itself."""
    try:
        return measure_air(reading, limits=limits, pressure=pressure, pointer=pointer)
    except Contradiction as fault:
        if fault.code in PLAIN_CONTRADICTIONS:
            raise
        return Finding.of(fault)
