"""Chooses the next check: the one that tells the leading causes apart best for the time it takes.

What a check is worth is the information expected from it about the leading causes, less a price for each minute. A
check that tells the first two causes apart comes before one that does not, and then one that can change which cause
leads.
"""

from collections.abc import Mapping, Sequence
from functools import cache
from math import inf, log2

from service.calculations.frozen import dataclass
from service.calculations.triage_ranking import Known, after, in_order, points_of
from service.tables.triage.causes import CAUSES
from service.tables.triage.observations import OBSERVATIONS
from service.tables.triage.scale import BASIS, ObservationRow, SymptomRow, ValueRow

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
class OpenCheck:
    """A check that has not been made: what it asks, what it takes, and how much it would tell. Time in s."""

    check: str
    question: str
    how: str
    time: float
    information: float
    splits_first_two: bool
    changes_leader: bool


@dataclass(frozen=True, kw_only=True, slots=True)
class Check(OpenCheck):
    """A check to make next, and what its outcomes would mean."""

    tells_apart: tuple[NamedCause, ...]
    outcomes: tuple[Outcome, ...]
    basis: str


def leaders(points: Mapping[str, int]) -> tuple[str, ...]:
    """The causes worth telling apart: the first, and those that lie close behind it; two where there are two.

    Examples
    --------
    >>> leaders({"a": 6, "b": 5, "c": 3, "d": 2})
    ('a', 'b', 'c')
    """
    order = in_order(points)
    near = [cause for cause in order if points[cause] >= points[order[0]] - LEADING_POINTS]
    return tuple(order[: min(MOST_LEADERS, max(FEWEST_LEADERS, len(near)))])


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
    whole = _whole(row.name, cause)
    return {value.value: _weight(value, cause) / whole for value in row.values}


def _weight(value: ValueRow, cause: str) -> float:
    return 2.0 ** (points_of(value, cause) - value.most)


@cache
def _whole(name: str, cause: str) -> float:
    """What the weights of an observation's values add up to under a cause."""
    return sum(_weight(value, cause) for value in OBSERVATIONS[name].values)


def information(row: ObservationRow, before: Mapping[str, float]) -> float:
    """Information expected from a check about some causes [bit].

    The information of an outcome is the divergence of the shares after it from the shares before it (Kullback and
    Leibler), which is never negative; outcomes count by their chance. An outcome that adds d points to each cause of
    share p leaves the shares q = p 2^d / S, where S = sum of p 2^d, so that

    sum of q log2(q / p) = (sum of p d 2^d) / S - log2(S).

    Where d is 0 nothing is to be summed but p, and the p add up to 1.

    Parameters
    ----------
    row : ObservationRow
    before : mapping of str to float
        Share of each cause among these.
    """
    among = [(cause, share, share / _whole(row.name, cause)) for cause, share in before.items()]
    untold = sum([weight for _, _, weight in among])
    expected = 0.0
    for value in row.values:
        whole, gained, likely, points_for = 1.0, 0.0, untold, value.weights.get
        for cause, share, weight in among:
            points = points_for(cause)
            if points:
                factor = 2.0**points
                whole += share * (factor - 1.0)
                gained += share * factor * points
                likely += weight * (factor - 1.0)
        expected += likely * 2.0**-value.most * (gained / whole - log2(whole))
    return max(0.0, expected)


def open_checks(
    symptom: SymptomRow, known: Known, points: Mapping[str, int], barred: tuple[str, ...] = ()
) -> tuple[OpenCheck, ...]:
    """The checks that could still be made and would tell the leading causes apart, most useful first.

    Parameters
    ----------
    symptom : SymptomRow
    known : mapping
        What is known, what the symptom itself says included.
    points : mapping of str to int
        Points of each cause.
    barred : tuple of str
        Checks that cannot be made at this unit.

    Returns
    -------
    tuple of OpenCheck
        None that a fact answers, and none that makes no sense with what is known.
    """
    if len(points) < FEWEST_LEADERS:
        return ()
    order = in_order(points)
    leading = leaders(points)
    before = _normal({cause: 2.0 ** (points[cause] - points[order[0]]) for cause in leading})
    standing = {cause: points[cause] - place / len(points) for place, cause in enumerate(points)}
    checks = []
    for row in _open_rows(symptom, known, barred):
        told = 0.0 if row.tells_of.isdisjoint(leading) else information(row, before)
        if told >= LEAST_INFORMATION:
            gaps = {points_of(value, leading[0]) - points_of(value, leading[1]) for value in row.values}
            checks.append(
                OpenCheck(
                    check=row.name,
                    question=row.question,
                    how=row.how,
                    time=row.minutes * MINUTE,
                    information=told,
                    splits_first_two=len(gaps) > 1,
                    changes_leader=len({_leader(value, standing, order) for value in row.values}) > 1,
                )
            )
    checks.sort(key=lambda check: (not check.splits_first_two, not check.changes_leader, -worth(check)))
    return tuple(checks)


def worth(check: OpenCheck) -> float:
    """Information of a check less the price of its time [bit]."""
    return check.information - PRICE_OF_A_MINUTE * check.time / MINUTE


def next_check(checks: tuple[OpenCheck, ...], points: Mapping[str, int]) -> Check | None:
    """The most useful of the open checks, if it tells the first two causes apart, with what it would tell.

    Parameters
    ----------
    checks : tuple of OpenCheck
        The most useful first.
    points : mapping of str to int
        Points of each cause.
    """
    if not checks or not checks[0].splits_first_two:
        return None
    check = checks[0]
    values = OBSERVATIONS[check.check].values
    leading = leaders(points)
    moved = {cause for cause in leading if len({points_of(value, cause) for value in values}) > 1}
    still = [cause for cause in leading if cause not in moved]
    outcomes = []
    for value in values:
        order = in_order(after(points, value))
        outcomes.append(
            Outcome(
                value=value.value,
                words=value.words,
                leading_cause=order[0],
                leading_name=CAUSES[order[0]].name,
                order=tuple(order[: len(leading)]),
            )
        )
    return Check(
        check=check.check,
        question=check.question,
        how=check.how,
        time=check.time,
        information=check.information,
        splits_first_two=check.splits_first_two,
        changes_leader=check.changes_leader,
        tells_apart=tuple(
            NamedCause(cause=cause, name=CAUSES[cause].name)
            for cause in leading
            if cause in moved or cause in still[:1]
        ),
        outcomes=tuple(outcomes),
        basis=BASIS,
    )


def _leader(value: ValueRow, standing: Mapping[str, float], order: Sequence[str]) -> str:
    """The cause that an outcome brings to the front, or leaves there.

    Parameters
    ----------
    value : ValueRow
    standing : mapping of str to float
        Points of each cause, less a fraction of one that grows with its place: of two with equal points the one that
        comes first in the symptom's order leads.
    order : sequence of str
        The causes, most points first.
    """
    leader, most = "", -inf
    for cause in order:
        if standing[cause] + value.most < most:  # neither this one nor any after it can come to the front
            break
        reached = standing[cause] + points_of(value, cause)
        if reached > most:
            leader, most = cause, reached
    return leader


def _open_rows(symptom: SymptomRow, known: Known, barred: tuple[str, ...]) -> list[ObservationRow]:
    """The observations that nobody has made, and that make sense with what is known."""
    names = {name for name, _ in known}
    shows_pump = ("pump", "fitted") in known or ("water_shows", "pump-tank") in known
    pumped = shows_pump or any(OBSERVATIONS[name].needs_pump for name in names)
    without_pump, without_trap = ("pump", "none") in known, ("trap_state", "missing") in known
    return [
        row
        for row in OBSERVATIONS.values()
        if row.name not in names
        and row.counts_for(symptom.code)
        and not (row.needs_pump and (without_pump or not pumped))
        and not (row.needs_trap and without_trap)
        and not (row.name == "pump" and pumped)
        and row.name not in barred
    ]


def _normal(weights: dict[str, float]) -> dict[str, float]:
    whole = sum(weights.values())
    return {name: value / whole for name, value in weights.items()}
