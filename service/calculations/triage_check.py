"""Chooses the next check: the one that tells the leading causes apart best for the time it takes.

What a check is worth is the information expected from it about the leading causes, less a price for each minute. A
check that tells the first two causes apart comes before one that does not, and then one that can change which cause
leads.
"""

from dataclasses import dataclass
from functools import cache
from math import log2

from service.calculations.triage_ranking import Fact, in_order, points_of
from service.tables.triage.causes import CAUSES
from service.tables.triage.observations import OBSERVATIONS
from service.tables.triage.scale import STRENGTHS, ObservationRow, SymptomRow

PRICE_OF_A_MINUTE = 0.01
"""Bits of information that a minute of the technician's time is worth: a quarter hour costs 0.15 of a bit. "
"Judgement."""

LEADING_POINTS = 3
"""Causes no more than this below the first are told apart too: one eighth of its odds. Judgement."""

FEWEST_LEADERS, MOST_LEADERS = 2, 4

LEAST_INFORMATION = 0.02
"""A check that is expected to tell less [bit] is not worth naming. Judgement."""

MINUTE = 60.0


@dataclass(frozen=True, kw_only=True, slots=True)
class NamedCause:
    """A cause by its code and name."""

    cause: str
    name: str


@dataclass(frozen=True, kw_only=True, slots=True)
class Outcome:
    """One outcome of a check, and the order of the leading causes after it."""

    value: str
    words: str
    leading_cause: str
    leading_name: str
    order: tuple[str, ...]


@dataclass(frozen=True, kw_only=True, slots=True)
class Check:
    """A check that has not been made: what it asks, what it takes, and what it would tell. Time in s."""

    check: str
    question: str
    how: str
    time: float
    information: float
    splits_first_two: bool
    changes_leader: bool
    tells_apart: tuple[NamedCause, ...]
    outcomes: tuple[Outcome, ...]
    basis: str


def leaders(points: dict[str, int]) -> tuple[str, ...]:
    """The causes worth telling apart: the first, and those that lie close behind it; two where there are two.

    Examples
    --------
    >>> leaders({"a": 6, "b": 5, "c": 3, "d": 2})
    ('a', 'b', 'c')
    """
    order = in_order(points)
    near = [cause for cause in order if points[cause] >= points[order[0]] - LEADING_POINTS]
    return order[: min(MOST_LEADERS, max(FEWEST_LEADERS, len(near)))]


def chances(row: ObservationRow, cause: str) -> dict[str, float]:
    """Chance of each value of an observation under a cause.

    A value that speaks for a cause 16 to 1 can show in no more than one case in 16 without it, because with it no
    chance is above 1. So a value starts at 2^-(points it gives for a cause), what it says of this cause is added to
    the exponent, and the chances of the values are made to add up to 1.

    Examples
    --------
    A filter that says 4 points either way is dirty in 16 of 17 cases where a dirty filter is the cause:

    >>> round(17 * chances(OBSERVATIONS["filter"], "dirty-filter")["dirty"], 9)
    16.0
    """
    weights = {}
    for value in row.values:
        start = STRENGTHS[value.speaks_for.strength] if value.speaks_for else 0
        weights[value.value] = 2.0 ** (points_of(value, cause) - start)
    return _normal(weights)


@cache
def _chances(name: str, cause: str) -> dict[str, float]:
    return chances(OBSERVATIONS[name], cause)


def information(row: ObservationRow, points: dict[str, int]) -> float:
    """Information expected from a check about these causes [bit].

    The information of an outcome is the divergence of the shares after it from the shares before it (Kullback and
    Leibler), which is never negative; outcomes count by their chance.
    """
    top = max(points.values())
    before = _normal({cause: 2.0 ** (value - top) for cause, value in points.items()})
    chance = {cause: _chances(row.name, cause) for cause in points}
    expected = 0.0
    for value in row.values:
        after = _normal({cause: before[cause] * 2.0 ** points_of(value, cause) for cause in points})
        likely = sum(before[cause] * chance[cause][value.value] for cause in points)
        expected += likely * sum(share * log2(share / before[cause]) for cause, share in after.items())
    return max(0.0, expected)


def open_checks(
    symptom: SymptomRow, facts: tuple[Fact, ...], points: dict[str, int], barred: tuple[str, ...] = ()
) -> tuple[Check, ...]:
    """The checks that could still be made and would tell the leading causes apart, most useful first.

    Parameters
    ----------
    symptom : SymptomRow
    facts : tuple of Fact
        What is known, what the symptom itself says included.
    points : dict
        Points of each cause.
    barred : tuple of str
        Checks that cannot be made at this unit.

    Returns
    -------
    tuple of Check
        None that a fact answers, and none that makes no sense with what is known.
    """
    if len(points) < FEWEST_LEADERS:
        return ()
    leading = leaders(points)
    among = {cause: points[cause] for cause in leading}
    checks = [_check(row, points, among) for row in OBSERVATIONS.values() if _is_open(row, symptom, facts)]
    useful = [check for check in checks if check.check not in barred and check.information >= LEAST_INFORMATION]
    return tuple(
        sorted(useful, key=lambda check: (not check.splits_first_two, not check.changes_leader, -worth(check)))
    )


def worth(check: Check) -> float:
    """Information of a check less the price of its time [bit]."""
    return check.information - PRICE_OF_A_MINUTE * check.time / MINUTE


def next_check(checks: tuple[Check, ...]) -> Check | None:
    """The most useful of the open checks, if it tells the first two causes apart."""
    return checks[0] if checks and checks[0].splits_first_two else None


def _check(row: ObservationRow, points: dict[str, int], among: dict[str, int]) -> Check:
    outcomes = []
    for value in row.values:
        after = {cause: points[cause] + points_of(value, cause) for cause in points}
        order = in_order(after)
        outcomes.append(
            Outcome(
                value=value.value,
                words=value.words,
                leading_cause=order[0],
                leading_name=CAUSES[order[0]].name,
                order=order[: len(among)],
            )
        )
    moved = {cause for cause in among if len({points_of(value, cause) for value in row.values}) > 1}
    still = [cause for cause in among if cause not in moved]
    apart = [cause for cause in among if cause in moved or cause in still[:1]] if moved else []
    first, second = tuple(among)[:2]
    return Check(
        check=row.name,
        question=row.question,
        how=row.how,
        time=row.minutes * MINUTE,
        information=information(row, among),
        splits_first_two=len({points_of(value, first) - points_of(value, second) for value in row.values}) > 1,
        changes_leader=len({outcome.leading_cause for outcome in outcomes}) > 1,
        tells_apart=tuple(NamedCause(cause=cause, name=CAUSES[cause].name) for cause in apart),
        outcomes=tuple(outcomes),
        basis="common practice",
    )


def _is_open(row: ObservationRow, symptom: SymptomRow, facts: tuple[Fact, ...]) -> bool:
    known = {(fact.observation, fact.value) for fact in facts}
    names = {fact.observation for fact in facts}
    shows_pump = bool({("pump", "fitted"), ("water_shows", "pump-tank")} & known)
    pumped = shows_pump or any(OBSERVATIONS[name].needs_pump for name in names)
    without_pump, without_trap = ("pump", "none") in known, ("trap_state", "missing") in known
    return (
        row.name not in names
        and row.counts_for(symptom.code)
        and not (row.needs_pump and (without_pump or not pumped))
        and not (row.needs_trap and without_trap)
        and not (row.name == "pump" and pumped)
    )


def _normal(weights: dict[str, float]) -> dict[str, float]:
    whole = sum(weights.values())
    return {name: value / whole for name, value in weights.items()}
