"""Adds up an hour-by-hour condensate rate: by day and month, the peak, the time above a capacity, the tank."""

import numpy as np

from service.calculations.air_column import Column
from service.calculations.condensate_series_checks import SeriesRows
from service.calculations.condensate_series_results import (
    STATUSES,
    DayTotals,
    MonthTotal,
    PeakDay,
    RowRates,
    SeriesRate,
    Storage,
)
from service.calculations.frozen import dataclass
from service.calculations.timeline import DAY, Timeline
from service.calculations.water_storage import needed_volume, run_tank


@dataclass(frozen=True, kw_only=True, slots=True)
class Reuse:
    """Use of the water at a steady rate.

    Parameters
    ----------
    daily_demand : float
        Water wanted each day, drawn evenly over it [m3].
    tank_volume : float or None
        Of the tank there is [m3].
    """

    daily_demand: float
    tank_volume: float | None = None


def total_rows(
    made: SeriesRows,
    time: Timeline,
    *,
    running: Column,
    drain_capacity: float | None,
    reuse: Reuse | None,
    hourly: bool,
) -> SeriesRate:
    """Add up the rows.

    Parameters
    ----------
    made : SeriesRows
        All rows.
    time : Timeline
        When they begin.
    running : array
        Part of each row in which the coil runs; zero where the cooling is off.
    drain_capacity : float or None
        What is carried away [m3/s].
    reuse : Reuse or None
        Demand that the water is to meet.
    hourly : bool
        Whether every row is answered too.

    Returns
    -------
    SeriesRate
    """
    rates, known = made.rates, made.known
    volumes = rates * running * time.step
    wet_times = np.where(rates > 0.0, running * time.step, 0.0)
    days, months = time.days(), time.months()
    daily = days.sums(volumes)
    peak = int(rates.argmax())
    best = int(daily.argmax())
    any_known, any_water = bool(known.any()), bool(rates[peak] > 0.0)
    above = None
    if drain_capacity is not None:
        above = float((running * time.step)[rates > drain_capacity].sum())
    total = float(volumes.sum())
    columns = zip(
        months.names,
        months.sums(volumes).tolist(),
        months.largest(rates).tolist(),
        months.sums(wet_times).tolist(),
        months.sums(np.ones(time.rows)).tolist(),
        months.sums(~known).tolist(),
        strict=True,
    )
    return SeriesRate(
        rows=time.rows,
        rows_without_rate=int((~known).sum()),
        total_volume=total if any_known else None,
        average_daily_volume=total * DAY / (time.rows * time.step) if any_known else None,
        peak_rate=float(rates[peak]) if any_known else None,
        peak_time=time.text(peak) if any_water else None,
        peak_index=peak if any_water else None,
        peak_day=PeakDay(date=days.names[best], volume=float(daily[best])) if any_water else None,
        wet_time=float(wet_times.sum()) if any_known else None,
        time_above_capacity=above if any_known else None,
        monthly=tuple(
            MonthTotal(
                month=month,
                volume=volume,
                peak_rate=largest,
                wet_time=wet,
                rows=int(count),
                rows_without_rate=int(lost),
            )
            for month, volume, largest, wet, count, lost in columns
        ),
        daily=DayTotals(
            dates=days.names, volumes=tuple(daily.tolist()), peak_rates=tuple(days.largest(rates).tolist())
        ),
        storage=_storage(volumes, time, reuse) if reuse and any_known else None,
        hourly=_row_rates(made) if hourly else None,
    )


def _storage(volumes: Column, time: Timeline, reuse: Reuse) -> Storage:
    demand = reuse.daily_demand * time.step / DAY
    wanted = demand * time.rows
    needed = needed_volume(volumes, demand)
    sustainable = float(volumes.mean()) * DAY / time.step
    if reuse.tank_volume is None:
        return Storage(demand=wanted, needed_volume=needed, sustainable_daily_demand=sustainable)
    run = run_tank(volumes, demand, reuse.tank_volume)
    return Storage(
        demand=wanted,
        needed_volume=needed,
        sustainable_daily_demand=sustainable,
        used=run.used,
        spilled=run.spilled,
        shortfall=run.shortfall,
        start_volume=run.start_volume,
        end_volume=run.end_volume,
        met_fraction=run.used / wanted,
        short_time=run.empty_rows * time.step,
    )


def _row_rates(made: SeriesRows) -> RowRates:
    codes = np.where(made.rates > 0.0, 0, 1)
    for code, flags in ((2, made.off), (3, made.misread), (4, made.beyond)):
        codes[flags] = code
    rates: list[float | None] = made.rates.tolist()
    for index in np.flatnonzero(~made.known).tolist():
        rates[index] = None
    return RowRates(rates=tuple(rates), statuses=tuple([STATUSES[code] for code in codes.tolist()]))
