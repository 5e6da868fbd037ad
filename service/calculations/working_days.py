"""Days of work: units in their visiting order, given to whoever is free first."""

from collections.abc import Sequence
from math import fsum

from service.calculations.frozen import dataclass

SAME = 1e-9
"""Minutes that rounding may take off a day."""


@dataclass(frozen=True, kw_only=True, slots=True)
class Slot:
    """When a unit is visited, and by whom.

    Parameters
    ----------
    day, technician : int
        From 1.
    start_minute : float
        Minutes into that day at which the work begins.
    """

    day: int
    technician: int
    start_minute: float


@dataclass(frozen=True, kw_only=True, slots=True)
class WorkingDays:
    """The days of a round.

    Parameters
    ----------
    slots : tuple of Slot or None
        One for each visit, in the order given; None for a visit of unknown length.
    travel_minutes : float
        On the way between units, of all technicians [min].
    days : int
        Until the last is done.
    """

    slots: tuple[Slot | None, ...]
    travel_minutes: float
    days: int


def plan_days(
    minutes: Sequence[float | None], *, minutes_available: float, technicians: int, travel_minutes: float
) -> WorkingDays:
    """Give visits to technicians, each to the one who can begin it first.

    Parameters
    ----------
    minutes : sequence of float or None
        Length of each visit, in visiting order [min].
    minutes_available : float
        Of one technician in one day, ways between units included [min].
    technicians : int
        Who work at the same time.
    travel_minutes : float
        From one unit to the next [min]; a day begins and ends at a unit.

    Returns
    -------
    WorkingDays
        A visit that no longer fits waits for the next day; one longer than a day begins a day and goes on the next.

    Examples
    --------
    By hand: visits of 50, 40 and 30 min in days of 100 min, 10 min apart. 50 + 10 + 40 fill the first day.

    >>> plan = plan_days([50.0, 40.0, 30.0], minutes_available=100.0, technicians=1, travel_minutes=10.0)
    >>> [(slot.day, slot.start_minute) for slot in plan.slots if slot], plan.travel_minutes, plan.days
    ([(1, 0.0), (1, 60.0), (2, 0.0)], 10.0, 2)
    """
    clocks = [(1, 0.0)] * technicians  # day, and minutes of it that are gone
    slots: list[Slot | None] = []
    travelled, days = [], 0
    for length in minutes:
        if length is None:
            slots.append(None)
            continue
        starts = [_start(clock, length, minutes_available, travel_minutes) for clock in clocks]
        begin = min(starts)
        technician = starts.index(begin)
        day, start = begin
        if start > 0.0:
            travelled.append(travel_minutes)
        slots.append(Slot(day=day, technician=technician + 1, start_minute=start))
        more, rest = divmod(start + length, minutes_available)
        if rest <= SAME and more:
            more, rest = more - 1.0, minutes_available
        clocks[technician] = (day + int(more), rest)
        days = max(days, day + int(more))
    return WorkingDays(slots=tuple(slots), travel_minutes=fsum(travelled), days=days)


def _start(clock: tuple[int, float], length: float, available: float, travel: float) -> tuple[int, float]:
    """Earliest day and minute at which somebody with this clock can begin."""
    day, gone = clock
    if gone == 0.0:
        return day, 0.0
    start = gone + travel
    return (day, start) if start + length <= available + SAME else (day + 1, 0.0)
