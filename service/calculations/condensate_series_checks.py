"""What to tell about an hour-by-hour condensate rate: rows that are lost or doubtful, the peak, the tank."""

from collections.abc import Mapping

import numpy as np

from service.calculations.air_column import Column, MeasuredColumns, Rows
from service.calculations.answer import Finding, Sentence, Value
from service.calculations.coil import LOWEST_SURFACE_TEMPERATURE
from service.calculations.condensate_checks import judge_rate
from service.calculations.condensate_series_results import SeriesRate, Storage
from service.calculations.frozen import dataclass
from service.calculations.timeline import Timeline

MOST_NAMED = 10
"""Rows a finding names one by one; it counts them all."""

MOST_LOST_FRACTION = 0.1
"""Part of the rows that may have no rate before the totals are not to be used. Common practice, no source."""

_ROUNDING = 1e-9


@dataclass(frozen=True, kw_only=True, slots=True)
class SeriesRows:
    """Every row, and what is to be said of it.

    Parameters
    ----------
    air : MeasuredColumns
        Entering air.
    rates : array
        Water made while the coil runs [m3/s]; zero where there is no rate.
    off, misread, beyond : array of bool
        Cooling off; readings that no air has; more heat asked for than the air can give up.
    frosting, fogged, reheated : array of bool
        Rows that make water with a surface below freezing; out of a fog; into air warmer than what enters.
    findings : tuple of Finding
        About what is the same in every row.
    """

    air: MeasuredColumns
    rates: Column
    off: Rows
    misread: Rows
    beyond: Rows
    frosting: Rows
    fogged: Rows
    reheated: Rows
    findings: tuple[Finding, ...] = ()

    @property
    def known(self) -> Rows:
        """Rows that have a rate."""
        return ~(self.misread | self.beyond)


def judge_lengths(lengths: Mapping[str, int]) -> tuple[Finding, ...]:
    """Say that rows are left out because a column ends early.

    Parameters
    ----------
    lengths : mapping of str to int
        Number of values of each column, by its pointer.

    Returns
    -------
    tuple of Finding
    """
    shortest = min(lengths, key=lambda pointer: lengths[pointer])
    most = max(lengths.values())
    if lengths[shortest] == most:
        return ()
    told = ", ".join(f"{pointer.rpartition('/')[2]} {length:,}" for pointer, length in lengths.items())
    lost = most - lengths[shortest]
    values: dict[str, Value] = {"lengths": told, "rows": lengths[shortest], "lost": lost}
    return (Finding(code="columns-of-different-length", pointer=shortest, values=values),)


def judge_rows(made: SeriesRows, time: Timeline) -> tuple[Finding, ...]:
    """Count and name the rows that have no rate, or a doubtful one.

    Parameters
    ----------
    made : SeriesRows
        All rows.
    time : Timeline
        When they begin.

    Returns
    -------
    tuple of Finding
    """
    air = made.air
    name = air.humidity.replace("_", " ")
    findings = []

    def tell(code: str, rows: Rows, pointer: str, **values: float | str) -> None:
        at = np.flatnonzero(rows & ~made.off)
        if at.size:
            told = {"count": int(at.size), "rows": time.rows, "named": _named(at.tolist(), time), **values}
            findings.append(Finding(code=code, pointer=pointer.format(first=int(at[0])), values=told))

    column = f"/entering_air/{air.humidity}" + ("" if air.humidity == "relative_humidity_percent" else "/values")
    tell("rows-above-dry-bulb", air.above_dry_bulb, column + "/{first}", member=name)
    tell("rows-too-dry", air.too_low, column + "/{first}")
    tell("rows-taken-as-saturated", air.taken_as_saturated, column + "/{first}", member=name)
    tell("rows-taken-as-driest", air.taken_as_driest, column + "/{first}")
    tell("rows-beyond-air", made.beyond, "/coil/total_capacity", surface=LOWEST_SURFACE_TEMPERATURE)
    tell("rows-will-frost", made.frosting, "/coil/total_capacity")
    tell("rows-over-saturated", made.fogged, "/entering_air")
    tell("rows-leaving-warmer", made.reheated, "/leaving_air/dry_bulb")
    lost = int((~made.known).sum())
    if lost > MOST_LOST_FRACTION * time.rows:
        values: dict[str, Value] = {"count": lost, "rows": time.rows, "percent": 100.0 * lost / time.rows}
        findings.append(Finding(code="too-few-rows-with-rate", pointer="/entering_air", values=values))
    elif not made.rates.any():
        findings.append(Finding(code="series-without-condensate", values={"rows": time.rows}))
    return tuple(findings)


def judge_capacity(
    results: SeriesRate, made: SeriesRows, time: Timeline, drain_capacity: float | None
) -> tuple[Finding, ...]:
    """Say when more water comes than the drain or the pump takes.

    Parameters
    ----------
    results : SeriesRate
        Peak and time above the capacity.
    made : SeriesRows
        All rows.
    time : Timeline
        When they begin.
    drain_capacity : float or None
        What is carried away [m3/s].

    Returns
    -------
    tuple of Finding
    """
    if drain_capacity is None or results.peak_rate is None:
        return ()
    at = np.flatnonzero(made.rates > drain_capacity)
    values: dict[str, Value] = {
        "drain_capacity": drain_capacity,
        "peak_rate": results.peak_rate,
        "peak_time": results.peak_time or "",
    }
    if not at.size:
        return (Finding(code="peak-within-capacity", pointer="/drain_capacity", values=values),)
    values |= {"count": int(at.size), "named": _named(at.tolist(), time), "time": results.time_above_capacity or 0.0}
    return (Finding(code="peak-above-capacity", pointer="/drain_capacity", values=values),)


def judge_peak(results: SeriesRate, total_capacity: float | None) -> tuple[Finding, ...]:
    """Compare the peak of a coil with what the trade expects of each ton.

    Parameters
    ----------
    results : SeriesRate
        With the peak.
    total_capacity : float or None
        Of the coil [W].

    Returns
    -------
    tuple of Finding
    """
    if total_capacity is None or results.peak_rate is None:
        return ()
    return judge_rate(results.peak_rate, total_capacity, "/coil/total_capacity")


def judge_reuse(storage: Storage, daily_demand: float, tank_volume: float | None) -> tuple[Finding, ...]:
    """Tell whether the water and the tank meet the demand.

    Parameters
    ----------
    storage : Storage
        Needed volume, and how the tank does.
    daily_demand : float
        Water wanted each day [m3].
    tank_volume : float or None
        Of the tank there is [m3].

    Returns
    -------
    tuple of Finding
    """
    values: dict[str, Value] = {
        "daily_demand": daily_demand,
        "sustainable": storage.sustainable_daily_demand,
    }
    if storage.needed_volume is None:
        return (Finding(code="demand-beyond-condensate", pointer="/reuse/daily_demand", values=values),)
    values["needed"] = storage.needed_volume
    if tank_volume is None or storage.shortfall is None:
        return (Finding(code="tank-needed", pointer="/reuse", values=values),)
    values |= {"tank_volume": tank_volume, "shortfall": storage.shortfall, "time": storage.short_time or 0.0}
    if storage.shortfall > _ROUNDING * storage.demand:
        return (Finding(code="tank-too-small", pointer="/reuse/tank_volume", values=values),)
    return (Finding(code="tank-large-enough", pointer="/reuse/tank_volume", values=values),)


def _named(at: list[int], time: Timeline) -> Sentence | str:
    """The first rows by index and time, and how many more there are."""
    named = ", ".join(f"{index} ({time.text(index)})" for index in at[:MOST_NAMED])
    if len(at) <= MOST_NAMED:
        return named
    return Sentence(text="{named} and {count} more", values={"named": named, "count": len(at) - MOST_NAMED})
