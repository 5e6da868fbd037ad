"""Days of work: nobody is at two units at once, nobody works longer than a day, and the time adds up."""

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from service.calculations.working_days import plan_days

LENGTHS = st.lists(st.one_of(st.none(), st.floats(0.5, 900.0)), max_size=40)


def test_two_technicians_share_a_day() -> None:
    """By hand: 60, 50, 40 and 30 min, two people, 10 min apart. The first two begin at once; the 50 min are done first,
    and 10 min later the third begins, at 60; the 60 min are done at 60, and the fourth begins at 70."""
    plan = plan_days([60.0, 50.0, 40.0, 30.0], minutes_available=480.0, technicians=2, travel_minutes=10.0)
    found = [(slot.day, slot.technician, slot.start_minute) for slot in plan.slots if slot]
    assert found == [(1, 1, 0.0), (1, 2, 0.0), (1, 2, 60.0), (1, 1, 70.0)]
    assert (plan.travel_minutes, plan.days) == (20.0, 1)


def test_a_visit_longer_than_a_day_takes_several() -> None:
    """By hand: 250 min in days of 100 end on the third day at 50; 10 min on the way, then 40 fill it."""
    plan = plan_days([250.0, 40.0, 1.0], minutes_available=100.0, technicians=1, travel_minutes=10.0)
    assert [(slot.day, slot.start_minute) for slot in plan.slots if slot] == [(1, 0.0), (3, 60.0), (4, 0.0)]
    assert plan.days == 4


def test_a_visit_of_exactly_a_day_ends_with_it() -> None:
    plan = plan_days([100.0, 100.0], minutes_available=100.0, technicians=1, travel_minutes=10.0)
    assert [(slot.day, slot.start_minute) for slot in plan.slots if slot] == [(1, 0.0), (2, 0.0)]
    assert (plan.days, plan.travel_minutes) == (2, 0.0)


def test_nothing_to_do_takes_no_day() -> None:
    plan = plan_days([None], minutes_available=100.0, technicians=1, travel_minutes=10.0)
    assert (plan.slots, plan.days, plan.travel_minutes) == ((None,), 0, 0.0)


@given(LENGTHS, st.floats(30.0, 1440.0), st.integers(1, 5), st.floats(0.0, 120.0))
def test_nobody_is_at_two_units_at_once_or_works_on_after_the_day(
    lengths: list[float | None], available: float, technicians: int, travel: float
) -> None:
    plan = plan_days(lengths, minutes_available=available, technicians=technicians, travel_minutes=travel)
    assert [slot is None for slot in plan.slots] == [length is None for length in lengths]
    spans: dict[int, list[tuple[float, float]]] = {}
    ways = 0
    for slot, length in zip(plan.slots, lengths, strict=True):
        if slot is None or length is None:
            continue
        assert 0.0 <= slot.start_minute < available
        assert slot.start_minute == 0.0 or slot.start_minute + length <= available + 1e-6
        ways += slot.start_minute > 0.0
        begin = (slot.day - 1) * available + slot.start_minute  # minutes worked, days laid end to end
        spans.setdefault(slot.technician, []).append((begin, begin + length))
    assert plan.travel_minutes == pytest.approx(ways * travel)
    for taken in spans.values():
        for (_, ended), (began, _) in pairwise(sorted(taken)):
            assert began >= ended - 1e-6
    last = max((ended for taken in spans.values() for _, ended in taken), default=0.0)
    assert (plan.days - 1) * available < last + 1e-6 <= plan.days * available + 1e-3 or plan.days == 0
