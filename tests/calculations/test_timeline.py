"""Rows in time: held to Python's own calendar, leap years and half hours included."""

from datetime import datetime, timedelta

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from service.calculations.timeline import Timeline


def expected(start: datetime, seconds: int, values: list[float], form: str) -> dict[str, float]:
    """Sums by the calendar of the standard library, one row at a time."""
    sums: dict[str, float] = {}
    for index, value in enumerate(values):
        name = (start + timedelta(seconds=seconds * index)).strftime(form)
        sums[name] = sums.get(name, 0.0) + value
    return sums


@pytest.mark.parametrize(
    ("start", "days", "rows"),
    [
        (datetime(2028, 1, 1), 366, 8784),  # a leap year
        (datetime(2026, 1, 1), 365, 8760),
        (datetime(2000, 1, 1), 366, 8784),  # divisible by 400
        (datetime(1900, 1, 1), 365, 8760),  # by 100 but not by 400
        (datetime(2027, 7, 1, 13, 30), 366, 8760),  # across the new year, from the middle of a day to its middle
    ],
)
def test_a_year_of_hours_has_its_days_and_months(start: datetime, days: int, rows: int) -> None:
    time = Timeline(start=start, step=3600.0, rows=rows)
    values = np.arange(rows, dtype=np.float64)
    for periods, form in ((time.days(), "%Y-%m-%d"), (time.months(), "%Y-%m")):
        assert dict(zip(periods.names, periods.sums(values).tolist(), strict=True)) == expected(
            start, 3600, values.tolist(), form
        )
    assert len(time.days().names) == days


@given(
    st.datetimes(datetime(1900, 1, 1), datetime(2090, 12, 31)).map(lambda time: time.replace(microsecond=0)),
    st.sampled_from([60, 600, 900, 1800, 3600, 5400, 10800, 86400]),
    st.integers(1, 300),
)
def test_rows_fall_into_the_days_they_begin_in(start: datetime, seconds: int, rows: int) -> None:
    time = Timeline(start=start, step=float(seconds), rows=rows)
    ones = np.ones(rows)
    for periods, form in ((time.days(), "%Y-%m-%d"), (time.months(), "%Y-%m")):
        counted = {name: count for name, count in zip(periods.names, periods.sums(ones).tolist(), strict=True) if count}
        assert counted == expected(start, seconds, [1.0] * rows, form)
        assert list(periods.names) == sorted(periods.names)


def test_a_step_given_in_hours_does_not_drift_off_the_minutes() -> None:
    # 0.1 h is 360 s but for the last bits, and a third of an hour is 1200 s
    for step, seconds in ((0.1 * 3600.0, 360), (3600.0 / 3.0, 1200)):
        time = Timeline(start=datetime(2026, 3, 1), step=step, rows=2000)
        for index in (1, 3, 239, 240, 241, 1999):
            begin = datetime(2026, 3, 1) + timedelta(seconds=seconds * index)
            assert time.text(index) == begin.isoformat(timespec="minutes")


def test_the_time_of_a_row_shows_seconds_only_where_there_are_any() -> None:
    assert Timeline(start=datetime(2026, 12, 31, 23, 30), step=3600.0, rows=9).text(1) == "2027-01-01T00:30"
    assert Timeline(start=datetime(2026, 12, 31, 23, 30, 5), step=60.0, rows=9).text(0) == "2026-12-31T23:30:05"


def test_the_largest_of_each_day() -> None:
    time = Timeline(start=datetime(2026, 7, 14, 22), step=3600.0, rows=5)
    assert time.days().largest(np.array([1.0, 3.0, 0.5, 0.0, 2.0])).tolist() == [3.0, 2.0]
