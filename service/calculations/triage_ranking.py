"""Weighs the causes of a symptom by what is known (naive Bayes in whole points; one point doubles the odds)."""

from collections.abc import Iterable, Mapping, Sequence
from operator import itemgetter

from service.calculations.answer import Finding
from service.calculations.frozen import dataclass
from service.tables.findings.catalogue import FINDINGS
from service.tables.triage.causes import CAUSES
from service.tables.triage.observations import OBSERVATIONS, value_row
from service.tables.triage.scale import (
    BASIS,
    COMMONNESS,
    SOMETHING_ELSE_POINTS,
    STRENGTHS,
    CauseRow,
    Speaks,
    SymptomRow,
    ValueRow,
)

SEEN, COMPUTED, IMPLIED = "observation", "unit-data", "symptom"
"""Where a fact comes from: it was observed, follows from the unit's data, or lies in the symptom itself."""

STANDINGS = ("leading", "likely", "possible", "unlikely")
LIKELY, POSSIBLE = 0.25, 0.03
"""Share of the leading cause's share from which another one is called likely, or possible. Judgement."""


@dataclass(frozen=True, kw_only=True, slots=True)
class Fact:
    """One thing known: the value of an observation, and where it comes from.

    Parameters
    ----------
    observation, value : str
        As in `service.tables.triage.observations`.
    origin : str
        `SEEN`, `COMPUTED` or `IMPLIED`.
    findings : tuple of Finding
        Findings of the assessment it follows from.
    """

    observation: str
    value: str
    origin: str = SEEN
    findings: tuple[Finding, ...] = ()

    @property
    def row(self) -> ValueRow:
        """The value's row in the table."""
        return value_row(self.observation, self.value)

    @property
    def pointer(self) -> str:
        """RFC 6901 pointer to where it was said."""
        return {SEEN: f"/observations/{self.observation}", COMPUTED: "/unit", IMPLIED: "/symptom"}[self.origin]


Known = Mapping[tuple[str, str], Fact]
"""Facts by what they say, each value of an observation once."""


def by_value(facts: Sequence[Fact]) -> Known:
    """Facts by observation and value; of several that say the same the first."""
    latest_first = {(fact.observation, fact.value): fact for fact in reversed(facts)}
    return dict(reversed(latest_first.items()))


@dataclass(frozen=True, kw_only=True, slots=True)
class Evidence:
    """What one fact says of one cause."""

    observation: str
    value: str
    words: str
    why: str
    strength: str
    points: int
    origin: str
    findings: tuple[Finding, ...]
    basis: str


@dataclass(frozen=True, kw_only=True, slots=True)
class RankedCause:
    """One cause with its place, its points, and what speaks for and against it."""

    rank: int
    cause: str
    name: str
    words: str
    standing: str
    share: float
    points: int
    how_common: str
    start_points: int
    evidence_for: tuple[Evidence, ...]
    evidence_against: tuple[Evidence, ...]
    remedy: str
    go_on_with: str | None
    operation: str | None
    basis: str

    @property
    def row(self) -> CauseRow:
        """The cause's row in the table."""
        return CAUSES[self.cause]


def points_of(row: ValueRow, cause: str) -> int:
    """Points that a value adds to a cause: positive for it, negative against it, 0 where it says nothing.

    Examples
    --------
    >>> points_of(value_row("trap_state", "dry"), "trap-dry"), points_of(value_row("trap_state", "dry"), "trap-missing")
    (4, -4)
    """
    return row.weights.get(cause, 0)


def counted(symptom: SymptomRow, known: Known) -> tuple[Fact, ...]:
    """The facts that count for this symptom.

    What the symptom itself says is left out: it is in how common the causes are.
    """
    return tuple(
        fact
        for said, fact in known.items()
        if said not in symptom.implied
        and fact.origin != IMPLIED
        and OBSERVATIONS[fact.observation].counts_for(symptom.code)
    )


def weigh(symptom: SymptomRow, relevant: Iterable[Fact]) -> dict[str, int]:
    """Points of every cause of the symptom: how common it is, plus what each fact that counts adds."""
    points = {cause: COMMONNESS[word] for cause, word in symptom.causes().items()}
    for fact in relevant:
        points = after(points, fact.row)
    return points


def after(points: Mapping[str, int], value: ValueRow) -> dict[str, int]:
    """Points of each cause after a value was found."""
    moved = dict(points)
    for cause, added in value.weights.items():
        if cause in moved:
            moved[cause] += added
    return moved


def shares(points: Mapping[str, int]) -> dict[str, float]:
    """Share of each cause, something else than these included in the whole.

    share_c = 2^p_c / (2^p_else + sum of 2^p), which is Bayes' rule for causes that exclude each other.

    Examples
    --------
    One cause of 1 point against something else of 0: odds 2 to 1.

    >>> round(shares({"a": 1})["a"], 6)
    0.666667
    """
    top = max((SOMETHING_ELSE_POINTS, *points.values()))
    odds = {cause: 2.0 ** (value - top) for cause, value in points.items()}
    whole = sum(odds.values()) + 2.0 ** (SOMETHING_ELSE_POINTS - top)
    return {cause: value / whole for cause, value in odds.items()}


def in_order(points: Mapping[str, int]) -> list[str]:
    """The causes, most points first; equal ones stay in the symptom's order."""
    return sorted(points, key=points.__getitem__, reverse=True)


def rank(
    symptom: SymptomRow, relevant: Iterable[Fact], points: Mapping[str, int], share_of: Mapping[str, float]
) -> tuple[RankedCause, ...]:
    """Rank the causes of a symptom, each with its evidence.

    Parameters
    ----------
    symptom : SymptomRow
    relevant : iterable of Fact
        Those that count.
    points, share_of : mapping of str to number
        Of each cause.

    Returns
    -------
    tuple of RankedCause
        Best first.
    """
    speaks_for = _evidence([(fact, fact.row.speaks_for) for fact in relevant], 1, points)
    speaks_against = _evidence([(fact, fact.row.speaks_against) for fact in relevant], -1, points)
    commonness, order = symptom.causes(), in_order(points)
    ranked = []
    for place, cause in enumerate(order, 1):
        row = CAUSES[cause]
        ranked.append(
            RankedCause(
                rank=place,
                cause=cause,
                name=row.name,
                words=row.words,
                standing=_standing(place, share_of[cause] / share_of[order[0]]),
                share=share_of[cause],
                points=points[cause],
                how_common=commonness[cause],
                start_points=COMMONNESS[commonness[cause]],
                evidence_for=tuple(speaks_for[cause]),
                evidence_against=tuple(speaks_against[cause]),
                remedy=row.remedy,
                go_on_with=row.go_on_with,
                operation=row.operation,
                basis=BASIS,
            )
        )
    return tuple(ranked)


def _standing(place: int, ratio: float) -> str:
    if place == 1:
        return "leading"
    return "likely" if ratio >= LIKELY else "possible" if ratio >= POSSIBLE else "unlikely"


def _evidence(
    spoken: Iterable[tuple[Fact, Speaks | None]], sign: int, causes: Iterable[str]
) -> dict[str, list[Evidence]]:
    """What speaks for each cause, or against it, the strongest first."""
    found: dict[str, list[Evidence]] = {cause: [] for cause in causes}
    said = [(STRENGTHS[says.strength], fact, says) for fact, says in spoken if says]
    for points, fact, says in sorted(said, key=itemgetter(0), reverse=True):
        concerned = [cause for cause in says.causes if cause in found]
        if concerned:
            evidence = Evidence(
                observation=fact.observation,
                value=fact.value,
                words=fact.row.words,
                why=says.why,
                strength=says.strength,
                points=sign * points,
                origin=fact.origin,
                findings=fact.findings,
                basis=FINDINGS[fact.findings[0].code].basis if fact.findings else BASIS,
            )
            for cause in concerned:
                found[cause].append(evidence)
    return found
