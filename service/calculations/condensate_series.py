"""How much water a coil makes hour by hour: rates, totals, the peak, and what a tank for re-use has to hold."""

from collections.abc import Sequence
from datetime import datetime

import numpy as np

from service.calculations import air_column, timeline, virial
from service.calculations.air_column import AirColumns, MeasuredColumns, Rows, measure_columns, require_column
from service.calculations.air_flow import STANDARD_DENSITY, StationPressure, station_pressure_of
from service.calculations.air_state import LEAVING_AIR_LIMITS, PLAIN_CONTRADICTIONS, AirReading, measure_air
from service.calculations.answer import Answer, Assumption, Finding, Sentence
from service.calculations.coil_column import solve_coil_column
from service.calculations.condensate_checks import taken_otherwise
from service.calculations.condensate_rate import LIMITS as RATE_LIMITS
from service.calculations.condensate_rate import WATER_DENSITY
from service.calculations.condensate_series_checks import (
    SeriesRows,
    judge_capacity,
    judge_lengths,
    judge_peak,
    judge_reuse,
    judge_rows,
)
from service.calculations.condensate_series_results import SeriesRate
from service.calculations.condensate_series_totals import Reuse, total_rows
from service.calculations.frozen import dataclass
from service.calculations.limits import Limit, require
from service.calculations.timeline import HOUR, Timeline
from service.errors import Contradiction

__all__ = ["LIMITS", "MOST_ROWS", "AirColumns", "CoilRating", "Reuse", "SeriesRate", "rate_series"]

MOST_ROWS = 8784
"""The hours of a leap year."""

ALWAYS_ROW_BY_ROW = 48
"""A series no longer than this is answered row by row without being asked."""

LIMITS = {
    "air_flow": RATE_LIMITS["air_flow"],
    "total_capacity": RATE_LIMITS["total_capacity"],
    "bypass_factor": RATE_LIMITS["bypass_factor"],
    "run_fraction": RATE_LIMITS["run_fraction"],
    "elevation": RATE_LIMITS["elevation"],
    "station_pressure": RATE_LIMITS["station_pressure"],
    "step": timeline.LIMITS["step"],
    "off_below": air_column.LIMITS["dry_bulb"],
    "drain_capacity": Limit(1e-8, 0.1),  # 0.01 gal/h, a drip, to 95,000 gal/h, a storm drain
    "daily_demand": Limit(1e-4, 1e3),  # a flower pot, to a large cooling tower, by the day
    "tank_volume": Limit(1e-3, 1e4),  # a litre, to a cistern of 2.6 million gallons
}

_AIR_SOURCES = ("ashrae-psychrometrics", "ashrae-enhancement", "moist-air-virial", "iapws-liquid-water")


@dataclass(frozen=True, kw_only=True, slots=True)
class CoilRating:
    """What a coil does whenever it runs.

    Parameters
    ----------
    total_capacity : float
        Heat the coil takes out [W].
    bypass_factor : float
        Part of the air that misses the surface.
    """

    total_capacity: float
    bypass_factor: float


def rate_series(
    *,
    start: datetime,
    air_flow: float,
    entering_air: AirColumns,
    leaving_air: AirReading | None = None,
    coil: CoilRating | None = None,
    run_fraction: Sequence[float] | None = None,
    off_below: float | None = None,
    step: float | None = None,
    air_flow_basis: str | None = None,
    elevation: float | None = None,
    station_pressure: float | None = None,
    drain_capacity: float | None = None,
    reuse: Reuse | None = None,
    hourly: bool = False,
) -> Answer[SeriesRate]:
    """Water made hour by hour, from columns of entering air.

    Parameters
    ----------
    start : datetime.datetime
        Local standard time at which the first row begins.
    air_flow : float
        Volume flow of air over the coil; an actual flow is that of the entering air [m3/s].
    entering_air : AirColumns
        Readings before the coil, a row each step; the shortest column tells how many rows are computed.
    leaving_air : AirReading or None
        Air after the coil, the same whenever it runs; this or ``coil``.
    coil : CoilRating or None
        Capacity and bypass factor; this or ``leaving_air``.
    run_fraction : sequence of float or None
        Part of each row in which the coil runs [-], or one value for all rows; all of it by default.
    off_below : float or None
        Entering dry bulb below which the cooling is off [K]; never by default.
    step : float or None
        Length of a row; an hour by default [s].
    air_flow_basis : str or None
        ``actual`` flow as it passes, by default, or ``standard``: of air of 0.075 lb/ft3, 1.2 kg/m3.
    elevation, station_pressure : float or None
        Height [m], or pressure of the place [Pa], not both; sea level by default.
    drain_capacity : float or None
        What the drain line or the pump carries away [m3/s].
    reuse : Reuse or None
        Demand that the water is to meet, and the tank for it.
    hourly : bool
        Answer every row too; up to `ALWAYS_ROW_BY_ROW` rows are answered in any case.

    Returns
    -------
    Answer of SeriesRate
        A row whose readings no air has, or whose air cannot give up so much heat, has no rate and adds nothing; a
        finding counts and names such rows.

    Raises
    ------
    OutOfRange
        For an argument outside `LIMITS`, `air_column.LIMITS` or `LEAVING_AIR_LIMITS`.
    Contradiction
        For a leaving wet bulb or dew point above the leaving dry bulb by more than hand-held instruments err.
    ValueError
        Unless exactly one of ``leaving_air`` and ``coil`` is given.

    Notes
    -----
    A row's rate is that of `condensate_rate.rate_from_air_states` or `rate_from_coil` for its air, while the coil runs;
    its volume is the rate times run fraction and step, and belongs to the day in which the row begins. Entering air
    with no more water than the leaving air makes none.

    Examples
    --------
    The handbook's example, 5 m3/s from 30 degC and 50 % to saturated 10 degC, about 0.0325 kg/s, for two hours:

    >>> results = rate_series(
    ...     start=datetime(2026, 7, 14, 15),
    ...     air_flow=5.0,
    ...     entering_air=AirColumns(dry_bulb=[303.15, 303.15], relative_humidity_percent=[50.0, 50.0]),
    ...     leaving_air=AirReading(dry_bulb=283.15, relative_humidity_percent=100.0),
    ... ).results
    >>> round(results.total_volume * 999.7 / 7200.0, 4), results.peak_time
    (0.0325, '2026-07-14T15:00')
    """
    if (leaving_air is None) == (coil is None):
        raise ValueError("give exactly one of leaving_air and coil")
    require(
        LIMITS,
        air_flow=air_flow,
        off_below=off_below,
        step=step,
        elevation=elevation,
        station_pressure=station_pressure,
        drain_capacity=drain_capacity,
        total_capacity=coil.total_capacity if coil else None,
        bypass_factor=coil.bypass_factor if coil else None,
        daily_demand=reuse.daily_demand if reuse else None,
        tank_volume=reuse.tank_volume if reuse else None,
    )
    lengths = {f"/entering_air/{name}": length for name, length in entering_air.lengths().items()}
    if run_fraction is not None and len(run_fraction) != 1:
        lengths["/run_fraction"] = len(run_fraction)
    rows = min(lengths.values())
    time = Timeline(start=start, step=HOUR if step is None else step, rows=rows)
    running = np.full(rows, 1.0 if run_fraction is None else run_fraction[0])
    if run_fraction is not None and len(run_fraction) != 1:
        running = np.asarray(run_fraction[:rows], dtype=np.float64)
    require_column(LIMITS, run_fraction=running)
    site = station_pressure_of(elevation, station_pressure)
    air = measure_columns(entering_air, rows=rows, pressure=site.pressure)
    off = running == 0.0
    if off_below is not None:
        off |= air.dry_bulb < off_below
    made = _make_rows(air, off, air_flow, air_flow_basis, leaving_air, coil, site)
    results = total_rows(
        made,
        time,
        running=np.where(off, 0.0, running),
        drain_capacity=drain_capacity,
        reuse=reuse,
        hourly=hourly or rows <= ALWAYS_ROW_BY_ROW,
    )
    findings = [
        *judge_lengths(lengths),
        *made.findings,
        *judge_rows(made, time),
        *judge_capacity(results, made, time, drain_capacity),
        *judge_peak(results, coil.total_capacity if coil else None),
        *(judge_reuse(results.storage, reuse.daily_demand, reuse.tank_volume) if reuse and results.storage else ()),
    ]
    return Answer(
        results=results,
        findings=tuple(findings),
        assumptions=(
            *_assumptions(step, air_flow_basis, run_fraction, off_below, reuse),
            *site.assumptions,
        ),
        sources=(*_AIR_SOURCES, *(("ripple", "sequent-peak") if reuse else ())),
    )


def _make_rows(
    air: MeasuredColumns,
    off: Rows,
    air_flow: float,
    air_flow_basis: str | None,
    leaving_air: AirReading | None,
    coil: CoilRating | None,
    site: StationPressure,
) -> SeriesRows:
    """The rate of every row, and what is to be said of it."""
    pressure = site.pressure
    at = np.flatnonzero(~off & ~air.misread)  # rows that are computed
    dry_bulb, ratio = air.dry_bulb[at], air.humidity_ratio[at]
    if air_flow_basis == "standard":
        mass_flow = np.full(at.shape, air_flow * STANDARD_DENSITY)
    else:
        mass_flow = air_flow / virial.specific_volume(dry_bulb, ratio, np.full(at.shape, pressure))
    findings: tuple[Finding, ...] = ()
    impossible = np.zeros(off.shape, dtype=np.bool_)
    beyond, frosting, fogged, reheated = (impossible.copy() for _ in range(4))
    removed = np.zeros(at.shape)
    if coil is not None:
        solved = solve_coil_column(
            dry_bulb,
            ratio,
            pressure=pressure,
            specific_capacity=coil.total_capacity / mass_flow,
            bypass_factor=coil.bypass_factor,
        )
        removed = solved.removed
        beyond[at] = solved.beyond
        frosting[at] = solved.wet & (solved.surface_temperature < virial.ICE_POINT)
        fogged[at] = solved.fogged
    elif leaving_air is not None:
        try:
            leaving = measure_air(leaving_air, limits=LEAVING_AIR_LIMITS, pressure=pressure, pointer="/leaving_air")
        except Contradiction as fault:
            if fault.code in PLAIN_CONTRADICTIONS:
                raise
            findings = (Finding.of(fault),)
            impossible[at] = True
        else:
            findings = taken_otherwise(leaving)
            removed = np.maximum(ratio - leaving.state.humidity_ratio, 0.0)
            reheated[at] = (removed > 0.0) & (dry_bulb < leaving.state.dry_bulb)
    rates = np.zeros(off.shape)
    rates[at] = mass_flow * removed / WATER_DENSITY
    rates[impossible | beyond] = 0.0
    return SeriesRows(
        air=air,
        rates=rates,
        off=off,
        misread=(air.misread & ~off) | impossible,
        beyond=beyond,
        frosting=frosting,
        fogged=fogged,
        reheated=reheated,
        findings=findings,
    )


def _assumptions(
    step: float | None,
    air_flow_basis: str | None,
    run_fraction: Sequence[float] | None,
    off_below: float | None,
    reuse: Reuse | None,
) -> tuple[Assumption, ...]:
    assumptions = []
    if step is None:
        assumptions.append(Assumption(pointer="/step", value=HOUR, note="Not given: a row each hour.", symbols="h|h"))
    if air_flow_basis is None:
        note = "Not given: the flow as it passes, at the entering air's own density."
        assumptions.append(Assumption(pointer="/air_flow_basis", value="actual", note=note))
    if run_fraction is None:
        note = "Not given: the coil runs all the time in every row, the most water there can be."
        if off_below is not None:
            note = "Not given: the coil runs all the time whenever the cooling is not off, the most water there can be."
        assumptions.append(Assumption(pointer="/run_fraction", value=1.0, note=note))
    if reuse is not None:
        note = "The series repeats itself, year after year if it is a year; the demand is drawn evenly, day and night."
        assumptions.append(
            Assumption(pointer="/reuse", value=Sentence(text="repeating series, even demand"), note=note)
        )
    return tuple(assumptions)
