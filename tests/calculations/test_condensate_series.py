"""Water hour by hour: row by row the single calculation, by day and month the calendar's sums."""

import math
from collections.abc import Callable
from dataclasses import asdict
from datetime import datetime, timedelta
from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from service.calculations import air_column
from service.calculations.air_state import LEAVING_AIR_LIMITS, AirReading
from service.calculations.answer import Answer
from service.calculations.condensate_rate import rate_from_air_states, rate_from_coil
from service.calculations.condensate_series import (
    LIMITS,
    MOST_ROWS,
    AirColumns,
    CoilRating,
    Reuse,
    SeriesRate,
    rate_series,
)
from service.calculations.limits import Limit
from service.errors import Contradiction, OutOfRange
from service.schemas.writing import fill

START = datetime(2026, 7, 14)
LEAVING = AirReading(dry_bulb=286.15, relative_humidity_percent=92.0)
COIL = CoilRating(total_capacity=10.5e3, bypass_factor=0.12)


def celsius(*values: float) -> list[float]:
    return [value + 273.15 for value in values]


def year(rows: int = MOST_ROWS) -> AirColumns:
    """A year of invented weather: a sine of the year, one of the day, and noise; dew points below."""
    random = np.random.default_rng(7)
    hour = np.arange(rows)
    dry_bulb = (
        286.0
        + 12.0 * np.sin((hour / 8766.0 - 0.3) * 2.0 * math.pi)
        + 5.0 * np.sin((hour % 24 - 9) / 24.0 * 2.0 * math.pi)
        + random.normal(0.0, 1.5, rows)
    )
    dew_point = dry_bulb - np.abs(random.normal(3.0, 2.5, rows))
    return AirColumns(dry_bulb=dry_bulb.tolist(), dew_point=dew_point.tolist())


def series(entering_air: AirColumns | None = None, **changes: Any) -> Answer[SeriesRate]:
    given: dict[str, Any] = {
        "start": START,
        "air_flow": 0.6,
        "entering_air": entering_air or AirColumns(dry_bulb=celsius(30, 28), relative_humidity_percent=[50.0, 60.0]),
        "leaving_air": LEAVING,
    }
    if "coil" in changes:
        del given["leaving_air"]
    return rate_series(**(given | changes))


def codes(answer: Answer[SeriesRate]) -> dict[str, Any]:
    return {finding.code: finding for finding in answer.findings}


@pytest.mark.parametrize("humidity", ["wet_bulb", "relative_humidity_percent", "dew_point"])
@pytest.mark.parametrize("basis", [None, "standard"])
@pytest.mark.parametrize("site", [{}, {"elevation": 1600.0}, {"station_pressure": 9e4}])
def test_each_row_is_the_single_calculation(humidity: str, basis: str | None, site: dict[str, float]) -> None:
    random = np.random.default_rng(11)
    dry_bulb = random.uniform(284.0, 315.0, 60)
    reading = {
        "wet_bulb": dry_bulb - random.uniform(0.0, 8.0, 60),
        "dew_point": dry_bulb - random.uniform(0.0, 15.0, 60),
        "relative_humidity_percent": random.uniform(25.0, 100.0, 60),
    }[humidity]
    reading = np.clip(reading, 273.2 if humidity != "relative_humidity_percent" else 1.0, 303.0)
    columns = AirColumns(dry_bulb=dry_bulb.tolist(), **{humidity: reading.tolist()})
    for single, rating in ((rate_from_air_states, {"leaving_air": LEAVING}), (rate_from_coil, asdict(COIL))):
        answer = series(
            columns,
            **({"coil": COIL} if "total_capacity" in rating else rating),
            air_flow_basis=basis,
            hourly=True,
            **site,
        )
        assert answer.results.hourly is not None
        for row, (rate, status) in enumerate(
            zip(answer.results.hourly.rates, answer.results.hourly.statuses, strict=True)
        ):
            air = AirReading(dry_bulb=float(dry_bulb[row]), **{humidity: float(reading[row])})
            try:
                one = single(air_flow=0.6, entering_air=air, air_flow_basis=basis, **rating, **site)  # type: ignore[operator]
            except Contradiction as fault:
                refused = fault.code
            else:
                refused = ""
            if refused:
                # one pair of readings at one time contradicts itself; among many hours drier air meets a resting coil
                assert refused.startswith("leaving-air")
                assert (rate, status) == (0.0, "dry")
                continue
            expected = one.results.volume_rate
            if expected is None and "leaving-air-wetter" in [finding.code for finding in one.findings]:
                assert (rate, status) == (0.0, "dry")
            elif expected is None:
                assert rate is None
                assert status in ("misread", "beyond-air")
            else:
                assert rate == pytest.approx(expected, rel=1e-6, abs=1e-15)
                assert status == ("wet" if expected > 0.0 else "dry")


@pytest.mark.parametrize("rows", [8760, 8784])
@pytest.mark.parametrize("start", [datetime(2028, 1, 1), datetime(2026, 7, 1, 0, 30)])
def test_totals_are_the_sums_of_the_rows_by_the_calendar(rows: int, start: datetime) -> None:
    """Brute force with the standard library's calendar, leap day included."""
    fractions = np.random.default_rng(3).uniform(0.0, 1.0, rows)
    fractions[fractions < 0.2] = 0.0
    capacity = 1e-6
    results = series(
        year(rows), start=start, run_fraction=fractions.tolist(), hourly=True, drain_capacity=capacity
    ).results
    assert results.hourly is not None
    days: dict[str, float] = {}
    months: dict[str, float] = {}
    peaks: dict[str, float] = {}
    wet = above = 0.0
    for row, rate in enumerate(results.hourly.rates):
        assert rate is not None
        begin = start + timedelta(hours=row)
        volume = rate * fractions[row] * 3600.0
        day, month = begin.date().isoformat(), begin.strftime("%Y-%m")
        days[day] = days.get(day, 0.0) + volume
        months[month] = months.get(month, 0.0) + volume
        peaks[day] = max(peaks.get(day, 0.0), rate)
        wet += 3600.0 * fractions[row] * (rate > 0.0)
        above += 3600.0 * fractions[row] * (rate > capacity)
        assert (rate == 0.0) or fractions[row] > 0.0  # a resting coil makes no water and has no peak
    assert list(results.daily.dates) == sorted(days)
    assert dict(zip(results.daily.dates, results.daily.volumes, strict=True)) == pytest.approx(days, rel=1e-9)
    assert dict(zip(results.daily.dates, results.daily.peak_rates, strict=True)) == pytest.approx(peaks)
    assert {month.month: month.volume for month in results.monthly} == pytest.approx(months, rel=1e-9)
    assert sum(month.rows for month in results.monthly) == rows
    assert results.total_volume == pytest.approx(sum(days.values()), rel=1e-9)
    assert results.average_daily_volume == pytest.approx(sum(days.values()) / rows * 24.0)
    assert results.wet_time == pytest.approx(wet)
    assert sum(month.wet_time for month in results.monthly) == pytest.approx(wet)
    assert results.time_above_capacity == pytest.approx(above)
    top = max(results.hourly.rates, key=lambda rate: rate or 0.0)
    assert results.peak_rate == top
    assert results.peak_index == results.hourly.rates.index(top)
    assert results.peak_time == (start + timedelta(hours=results.peak_index)).isoformat(timespec="minutes")
    assert results.peak_day is not None
    assert results.peak_day.volume == pytest.approx(max(days.values()))
    assert days[results.peak_day.date] == pytest.approx(max(days.values()))


def test_rows_that_cannot_be_cost_only_themselves() -> None:
    """Row 1 has its columns swapped, row 2 a wet bulb of bone-dry air, row 3 a mist, its wet bulb high by
    no more than readings err."""
    air = AirColumns(dry_bulb=celsius(30, 20, 40, 25, 30), wet_bulb=celsius(24, 29, 5, 25.6, 24))
    answer = series(air, hourly=True)
    hourly = answer.results.hourly
    assert hourly is not None
    assert hourly.statuses == ("wet", "misread", "misread", "wet", "wet")
    assert [rate is None for rate in hourly.rates] == [False, True, True, False, False]
    found = codes(answer)
    assert found["rows-above-dry-bulb"].pointer == "/entering_air/wet_bulb/values/1"
    assert found["rows-above-dry-bulb"].values["named"] == "1 (2026-07-14T01:00)"
    assert found["rows-too-dry"].pointer == "/entering_air/wet_bulb/values/2"
    assert found["rows-taken-as-saturated"].values["count"] == 1
    assert found["too-few-rows-with-rate"].values["percent"] == pytest.approx(40.0)
    assert answer.results.rows_without_rate == 2
    alone = series(AirColumns(dry_bulb=celsius(30, 25, 30), wet_bulb=celsius(24, 25.6, 24))).results
    assert answer.results.total_volume == pytest.approx(alone.total_volume)


def test_a_finding_names_ten_rows_and_counts_all() -> None:
    air = AirColumns(dry_bulb=celsius(*[20.0] * 50), dew_point=celsius(*[25.0] * 50))
    named = fill("{named}", codes(series(air))["rows-above-dry-bulb"].values, "us")
    assert named.startswith("0 (2026-07-14T00:00), 1 (2026-07-14T01:00)")
    assert named.count("(") == 10
    assert named.endswith(" and 40 more")


def test_without_any_rate_there_are_no_totals() -> None:
    answer = series(AirColumns(dry_bulb=celsius(20, 20), dew_point=celsius(25, 25)), reuse=Reuse(daily_demand=0.1))
    results = answer.results
    assert results.rows_without_rate == 2
    for name in ("total_volume", "peak_rate", "peak_time", "peak_day", "wet_time", "storage"):
        assert getattr(results, name) is None
    assert answer.verdict == "fail"


def test_a_leaving_reading_no_air_has_leaves_no_rate_and_a_plain_contradiction_is_refused() -> None:
    answer = series(leaving_air=AirReading(dry_bulb=299.0, wet_bulb=269.0))
    assert "wet-bulb-too-low" in codes(answer)
    assert answer.results.total_volume is None
    with pytest.raises(Contradiction, match="wet-bulb-above-dry-bulb"):
        series(leaving_air=AirReading(dry_bulb=280.0, wet_bulb=285.0))


def test_columns_of_different_length_are_computed_as_far_as_all_go() -> None:
    air = AirColumns(dry_bulb=celsius(30, 29, 28), relative_humidity_percent=[50.0, 55.0, 60.0])
    short = series(air, run_fraction=[1.0, 0.5])
    assert short.results.rows == 2
    assert codes(short)["columns-of-different-length"].pointer == "/run_fraction"
    assert codes(short)["columns-of-different-length"].values["lost"] == 1
    assert short.verdict == "fail"
    assert "columns-of-different-length" not in codes(series(air, run_fraction=[0.5]))


def test_a_run_fraction_scales_the_volume_and_not_the_rate() -> None:
    whole, half, mixed = series().results, series(run_fraction=[0.5]).results, series(run_fraction=[0.0, 1.0]).results
    assert half.total_volume == pytest.approx(0.5 * (whole.total_volume or 0.0))
    assert half.peak_rate == whole.peak_rate
    assert half.wet_time == pytest.approx(3600.0)
    assert mixed.hourly is not None
    assert mixed.hourly.statuses == ("off", "wet")
    assert mixed.hourly.rates[0] == 0.0


def test_the_cooling_rests_below_a_temperature() -> None:
    air = AirColumns(dry_bulb=celsius(30, 18, 17.9), relative_humidity_percent=[50.0, 95.0, 95.0])
    results = series(air, off_below=291.15).results
    assert results.hourly is not None
    assert results.hourly.statuses == ("wet", "wet", "off")


def test_a_longer_step_holds_more_water() -> None:
    hour, quarter = series().results, series(step=900.0).results
    assert quarter.total_volume == pytest.approx((hour.total_volume or 0.0) / 4.0)
    assert quarter.average_daily_volume == pytest.approx(hour.average_daily_volume)
    assert quarter.peak_rate == hour.peak_rate


def test_a_drain_that_is_too_small_is_told_with_its_hours() -> None:
    rates = series().results.hourly
    assert rates is not None
    low, high = sorted(rate for rate in rates.rates if rate is not None)
    answer = series(drain_capacity=(low + high) / 2.0)
    assert answer.results.time_above_capacity == 3600.0
    assert codes(answer)["peak-above-capacity"].values["peak_rate"] == high
    enough = series(drain_capacity=high)
    assert enough.results.time_above_capacity == 0.0
    assert "peak-within-capacity" in codes(enough)


def test_the_coil_in_cold_air() -> None:
    air = AirColumns(dry_bulb=celsius(-5, 15, 32), relative_humidity_percent=[60.0, 70.0, 60.0])
    answer = series(air, coil=CoilRating(total_capacity=20e3, bypass_factor=0.1))
    hourly = answer.results.hourly
    assert hourly is not None
    assert hourly.statuses == ("beyond-air", "wet", "wet")
    assert "rows-will-frost" in codes(answer)
    assert codes(answer)["rows-beyond-air"].values["count"] == 1


def test_air_that_leaves_warmer_than_it_enters_is_told() -> None:
    air = AirColumns(dry_bulb=celsius(18, 30), relative_humidity_percent=[100.0, 50.0])
    answer = series(air, leaving_air=AirReading(dry_bulb=293.15, relative_humidity_percent=40.0))
    assert codes(answer)["rows-leaving-warmer"].values["named"] == "0 (2026-07-14T00:00)"


def test_dry_air_makes_no_water() -> None:
    answer = series(AirColumns(dry_bulb=celsius(35, -20), relative_humidity_percent=[10.0, 80.0]))
    assert "series-without-condensate" in codes(answer)
    assert (answer.results.total_volume, answer.results.peak_rate, answer.results.peak_time) == (0.0, 0.0, None)


def test_re_use_of_a_wet_day_and_a_dry_day() -> None:
    """By hand: a wet day gives V, a dry one nothing; a demand of V / 2 a day needs V / 2 carried over, more or less
    the day's own: drawn evenly over the wet day half of it passes through."""
    air = AirColumns(dry_bulb=celsius(*[30.0] * 48), relative_humidity_percent=[60.0] * 24 + [5.0] * 24)
    wet = series(air).results.total_volume or 0.0
    answer = series(air, reuse=Reuse(daily_demand=wet / 2.0, tank_volume=wet))
    storage = answer.results.storage
    assert storage is not None
    assert storage.needed_volume == pytest.approx(wet / 2.0, rel=1e-9)
    assert storage.sustainable_daily_demand == pytest.approx(wet / 2.0)
    assert storage.shortfall == pytest.approx(0.0, abs=1e-9)
    assert "tank-large-enough" in codes(answer)
    small = series(air, reuse=Reuse(daily_demand=wet / 2.0, tank_volume=wet / 4.0))
    assert small.results.storage is not None
    assert small.results.storage.shortfall == pytest.approx(wet / 4.0)
    assert small.results.storage.met_fraction == pytest.approx(0.75)
    assert small.results.storage.short_time == pytest.approx(12 * 3600.0)
    assert "tank-too-small" in codes(small)
    more = series(air, reuse=Reuse(daily_demand=wet))
    assert more.results.storage is not None
    assert more.results.storage.needed_volume is None
    assert codes(more)["demand-beyond-condensate"].severity == "fail"
    only = series(air, reuse=Reuse(daily_demand=wet / 2.0))
    assert "tank-needed" in codes(only)


def test_every_default_is_recorded() -> None:
    pointers = [assumption.pointer for assumption in series().assumptions]
    assert pointers == ["/step", "/air_flow_basis", "/run_fraction", "/elevation"]
    full = series(step=3600.0, air_flow_basis="actual", run_fraction=[1.0], elevation=0.0)
    assert full.assumptions == ()


@pytest.mark.parametrize("name", ["air_flow", "off_below", "step", "elevation", "station_pressure", "drain_capacity"])
def test_limits_are_enforced(name: str) -> None:
    for value in (LIMITS[name].low - 1.0, LIMITS[name].high + 1.0, math.nan):
        with pytest.raises(OutOfRange):
            series(**{name: value})


def test_limits_of_the_parts_are_enforced() -> None:
    with pytest.raises(OutOfRange):
        series(coil=CoilRating(total_capacity=1.0, bypass_factor=0.1))
    with pytest.raises(OutOfRange):
        series(reuse=Reuse(daily_demand=0.0))
    with pytest.raises(OutOfRange):
        series(run_fraction=[1.0, 1.1])
    with pytest.raises(ValueError, match="exactly one"):
        series(coil=COIL, leaving_air=LEAVING)


def within(limit: Limit) -> st.SearchStrategy[float]:
    return st.sampled_from([limit.low, limit.high]) | st.floats(limit.low, limit.high)


def numbers_of(value: Any) -> list[float]:
    if isinstance(value, dict):
        return [number for inner in value.values() for number in numbers_of(inner)]
    if isinstance(value, (list, tuple)):
        return [number for inner in value for number in numbers_of(inner)]
    return [float(value)] if isinstance(value, (int, float)) else []


@settings(deadline=None)
@given(data=st.data())
def test_anything_within_the_limits_has_a_finite_answer(data: st.DataObject) -> None:
    humidity = data.draw(st.sampled_from(["wet_bulb", "dew_point", "relative_humidity_percent"]))
    columns = {
        name: data.draw(st.lists(within(air_column.LIMITS[name]), min_size=1, max_size=6))
        for name in ("dry_bulb", humidity)
    }
    changes: dict[str, Any] = {"air_flow": data.draw(within(LIMITS["air_flow"]))}
    if data.draw(st.booleans()):
        changes["coil"] = CoilRating(
            total_capacity=data.draw(within(LIMITS["total_capacity"])),
            bypass_factor=data.draw(within(LIMITS["bypass_factor"])),
        )
    else:
        changes["leaving_air"] = AirReading(
            dry_bulb=data.draw(within(LEAVING_AIR_LIMITS["dry_bulb"])),
            relative_humidity_percent=data.draw(within(LEAVING_AIR_LIMITS["relative_humidity_percent"])),
        )
    for name in ("station_pressure", "step", "off_below", "drain_capacity"):
        if data.draw(st.booleans()):
            changes[name] = data.draw(within(LIMITS[name]))
    if data.draw(st.booleans()):
        changes["reuse"] = Reuse(
            daily_demand=data.draw(within(LIMITS["daily_demand"])), tank_volume=data.draw(within(LIMITS["tank_volume"]))
        )
    if data.draw(st.booleans()):
        changes["run_fraction"] = data.draw(st.lists(within(LIMITS["run_fraction"]), min_size=1, max_size=6))
    answer = series(AirColumns(**columns), **changes)
    results = answer.results
    assert all(math.isfinite(number) for number in numbers_of(asdict(results)))
    assert results.hourly is not None
    assert all(rate is None or rate >= 0.0 for rate in results.hourly.rates)
    assert len(results.hourly.rates) == results.rows
    if results.total_volume is not None:
        assert sum(results.daily.volumes) == pytest.approx(results.total_volume)
        assert sum(month.volume for month in results.monthly) == pytest.approx(results.total_volume)
    if results.storage and results.storage.used is not None:
        storage = results.storage
        kept = (storage.end_volume or 0.0) - (storage.start_volume or 0.0)
        assert storage.used + (storage.spilled or 0.0) + kept == pytest.approx(results.total_volume, rel=1e-6, abs=1e-9)


@pytest.mark.parametrize("cooling", [{}, {"coil": COIL, "off_below": 288.15}], ids=["leaving air", "coil"])
def test_a_year_is_calculated_as_a_whole_and_not_row_by_row(
    cooling: dict[str, Any], count_calls: Callable[..., int]
) -> None:
    """Days and months have calls of their own; row by row there would be several for each of the 8,784 rows."""
    air = year()
    assert count_calls(lambda: series(air, start=datetime(2028, 1, 1), **cooling)) < MOST_ROWS
