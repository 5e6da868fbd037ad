"""From a symptom and what was observed to ranked causes, the next check, and what to make safe first.

The knowledge lies in ``service.tables.triage``; here it is weighed. Basis: common practice, and physics where the
unit's data are assessed.

References
----------
.. [1] I. J. Good, *Probability and the Weighing of Evidence*, Griffin, 1950: weight of evidence as a logarithm of odds
   (from memory).
.. [2] D. J. C. MacKay, *Information Theory, Inference, and Learning Algorithms*, Cambridge, 2003: expected information
   of an experiment (from memory).
"""

from collections.abc import Mapping
from typing import Any

from service.calculations.answer import Answer, Assumption, Finding
from service.calculations.frozen import dataclass
from service.calculations.triage_check import Check, OpenCheck, next_check, open_checks
from service.calculations.triage_ranking import (
    COMPUTED,
    IMPLIED,
    Fact,
    Known,
    RankedCause,
    by_value,
    counted,
    rank,
    shares,
    weigh,
)
from service.calculations.triage_safety import make_safe_first
from service.calculations.triage_unit import UnitReading, read_unit
from service.tables.triage.conflicts import CONFLICTS
from service.tables.triage.make_safe import FACT_CAUTIONS, SafeStep
from service.tables.triage.observations import OBSERVATIONS
from service.tables.triage.scale import (
    EQUALLY_LIKELY,
    EXPLANATION,
    IMPLIED_BY_SYMPTOM,
    SAID_BY_SYMPTOM,
    SAYS_NOTHING_HERE,
    SOMETHING_ELSE_POINTS,
    SymptomRow,
)
from service.tables.triage.symptoms import SYMPTOMS

CLOSE_POINTS = 1
"""Two causes no further apart than this are called close: the odds are 2 to 1 at most. Judgement."""


@dataclass(frozen=True, kw_only=True, slots=True)
class WithoutWeight:
    """Something known that tells no causes of this symptom apart, and why."""

    observation: str
    value: str
    words: str
    why: str


@dataclass(frozen=True, kw_only=True, slots=True)
class Triage:
    """What `triage_symptom` answers.

    Parameters
    ----------
    symptom, symptom_words : str
        The symptom by its code and in words.
    causes : tuple of RankedCause
        Best first.
    something_else_share : float
        Share of what is not listed for this symptom.
    next_check : Check or None
        None where no check moves the first two causes apart.
    make_safe : tuple of SafeStep
        Before anything else, in order.
    not_known : tuple of OpenCheck
        Checks not made that would help, most useful first.
    without_weight : tuple of WithoutWeight
        What was sent and tells no causes apart.
    explanation : str
        How the ranking comes about.
    """

    symptom: str
    symptom_words: str
    causes: tuple[RankedCause, ...]
    something_else_share: float
    next_check: Check | None
    make_safe: tuple[SafeStep, ...]
    not_known: tuple[OpenCheck, ...]
    without_weight: tuple[WithoutWeight, ...]
    explanation: str


def triage_symptom(
    *,
    symptom: str,
    observations: Mapping[str, str] | None = None,
    water_near_electrical: bool | None = None,
    building_getting_wet: bool | None = None,
    unit: Mapping[str, Any] | None = None,
    description: str | None = None,
) -> Answer[Triage]:
    """Rank the causes of a symptom by what was observed, and name the check that tells the leading ones apart.

    Parameters
    ----------
    symptom : str
        Code of a symptom.
    observations : mapping of str to str or None
        Name of an observation to what was found.
    water_near_electrical : bool or None
        Whether water reaches electrical parts.
    building_getting_wet : bool or None
        Whether water is getting into the building.
    unit : mapping or None
        Arguments of `service.calculations.assessment.assess_unit`; its findings count as observations.
    description : str or None
        For the caller's own records; neither read nor repeated.

    Returns
    -------
    Answer of Triage

    Raises
    ------
    KeyError
        For a symptom, an observation or a value that the tables do not hold.

    Notes
    -----
    Points of a cause = how common it is + what each observation adds; one point is a factor of 2 of the odds. Each
    value of an observation speaks for causes with one strength and against causes with one strength, therefore what
    speaks for a cause can lower neither its share nor its rank: after it every other cause has gained no more. Where
    the unit's data and an observation say two things, both count and a finding says so.

    Examples
    --------
    Water that comes when the fan stops, and a drain that takes water with the fan off: suction held it up.

    >>> answer = triage_symptom(symptom="water-when-fan-stops", observations={"pour_test": "drains-freely"})
    >>> answer.results.causes[0].cause, answer.results.next_check.check
    ('outlet-drop-too-small', 'trap_state')
    """
    row = SYMPTOMS[symptom]
    reading = read_unit(unit)
    said = tuple(Fact(observation=name, value=value) for name, value in (observations or {}).items())
    named = {fact.observation for fact in said}
    implied = tuple(Fact(observation=name, value=value, origin=IMPLIED) for name, value in row.implied)
    known = by_value((*said, *reading.facts, *implied))
    relevant = counted(row, known)
    points = weigh(row, relevant)
    share_of = shares(points)
    causes = rank(row, relevant, points, share_of)
    checks = open_checks(row, known, points, reading.barred)
    check = next_check(checks, points)
    steps = make_safe_first(
        symptom=row,
        known=known,
        water_near_electrical=water_near_electrical,
        building_getting_wet=building_getting_wet,
        unit=unit,
    )
    results = Triage(
        symptom=symptom,
        symptom_words=row.words,
        causes=causes,
        something_else_share=1.0 - sum(share_of.values()),
        next_check=check,
        make_safe=steps,
        not_known=checks,
        without_weight=_without_weight(row, said, points),
        explanation=EXPLANATION,
    )
    dangers = _dangers(known, water_near_electrical, building_getting_wet)
    judged = _judge(relevant, causes, check) + _conflicts(known, building_getting_wet)
    return Answer(
        results=results,
        findings=dangers + judged + reading.findings + _left_out(reading),
        assumptions=tuple(
            Assumption(pointer=f"/observations/{fact.observation}", value=fact.value, note=IMPLIED_BY_SYMPTOM)
            for fact in implied
            if fact.observation not in named
        )
        + reading.assumptions,
        cautions=_cautions(steps, check, causes, known),
        sources=tuple(dict.fromkeys(("common-practice", *reading.sources))),
    )


def _dangers(known: Known, electrical: bool | None, building: bool | None) -> tuple[Finding, ...]:
    """What must not wait."""
    found = []
    if electrical:
        found.append(Finding(code="water-at-electrical-parts", pointer="/water_near_electrical"))
    if building:
        found.append(Finding(code="water-in-the-building", pointer="/building_getting_wet"))
    smelt = known.get(("smell", "sewer"))
    if smelt:
        found.append(Finding(code="sewer-gas-in-the-building", pointer=smelt.pointer))
    floatless = known.get(("float_state", "none-fitted"))
    if floatless:
        found.append(Finding(code="no-safety-float", pointer=floatless.pointer))
    return tuple(found)


def _judge(relevant: tuple[Fact, ...], causes: tuple[RankedCause, ...], check: Check | None) -> tuple[Finding, ...]:
    """Say which cause leads, and how sure that is."""
    first = causes[0]
    if first.points <= SOMETHING_ELSE_POINTS:
        return (Finding(code="no-cause-fits", pointer="/observations", values={"cause": first.name}),)
    values: dict[str, float | int | str] = {
        "cause": first.name,
        "commonness": first.how_common,
        "count_for": len(first.evidence_for),
        "count_against": len(first.evidence_against),
        "remedy": first.remedy,
    }
    code = "most-likely-nothing-wrong" if first.row.harmless else "most-likely-cause"
    found = [Finding(code=code, pointer="/symptom", values=values)]
    if check and len(causes) > 1 and first.points - causes[1].points <= CLOSE_POINTS:
        close = {"first": first.name, "second": causes[1].name, "check": check.how}
        found.append(Finding(code="leading-causes-close", pointer="/symptom", values=close))
    if not relevant:
        found.append(Finding(code="symptom-only", pointer="/observations"))
    return tuple(found)


def _conflicts(known: Known, building_getting_wet: bool | None) -> tuple[Finding, ...]:
    """Name the facts that do not go together."""
    ordered = tuple(known.values())
    together = [
        (fact, other)
        for index, fact in enumerate(ordered)
        for other in ordered[index + 1 :]
        if other.observation == fact.observation
    ]
    together += [(known[one], known[two]) for one, two in CONFLICTS if one in known and two in known]
    # what the unit's data say twice is of different places, and the assessment has judged it
    pairs = [(fact, other.row.words) for fact, other in together if {fact.origin, other.origin} != {COMPUTED}]
    without = known.get(("pump", "none"))
    if without:
        pairs += [(fact, without.row.words) for fact in ordered if OBSERVATIONS[fact.observation].needs_pump]
    nowhere = known.get(("water_shows", "nowhere"))
    if nowhere and building_getting_wet:
        pairs.append((nowhere, "Water is getting into the building."))
    return tuple(
        Finding(code="observations-disagree", pointer=fact.pointer, values={"first": fact.row.words, "second": other})
        for fact, other in pairs
    )


def _left_out(reading: UnitReading) -> tuple[Finding, ...]:
    if not reading.left_out:
        return ()
    return (Finding(code="unit-has-other-findings", pointer="/unit", values={"count": reading.left_out}),)


def _without_weight(
    symptom: SymptomRow, said: tuple[Fact, ...], points: Mapping[str, int]
) -> tuple[WithoutWeight, ...]:
    rows = []
    for fact in said:
        if (fact.observation, fact.value) in symptom.implied:
            why = SAID_BY_SYMPTOM
        elif not OBSERVATIONS[fact.observation].counts_for(symptom.code):
            why = SAYS_NOTHING_HERE
        elif not points.keys().isdisjoint(fact.row.weights):
            continue
        else:
            why = EQUALLY_LIKELY
        rows.append(WithoutWeight(observation=fact.observation, value=fact.value, words=fact.row.words, why=why))
    return tuple(rows)


def _cautions(
    steps: tuple[SafeStep, ...], check: Check | None, causes: tuple[RankedCause, ...], known: Known
) -> tuple[str, ...]:
    """Each once: for steps that make safe, for the next check, for the first cause's remedy, for what is known."""
    codes = [code for step in steps for code in step.cautions]
    codes += OBSERVATIONS[check.check].cautions if check else ()
    codes += causes[0].row.cautions
    codes += [code for fact, code in FACT_CAUTIONS.items() if fact in known]
    return tuple(dict.fromkeys((*codes, "local-code")))
