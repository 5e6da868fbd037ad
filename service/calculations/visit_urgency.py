"""How soon a unit wants a visit, and what fails there soonest.

The rules stand in `service.tables.urgency`; here are the facts they ask for.
"""

from collections.abc import Sequence

from service.calculations.answer import Finding, Sentence, Value
from service.calculations.assessment import Assessment
from service.calculations.assessment_checks import DAMAGED
from service.calculations.frozen import dataclass
from service.calculations.gathering import ASSESSED
from service.calculations.installation import PumpAsBuilt
from service.calculations.overflow_judgement import SHORT_TIME
from service.calculations.overflow_protection import Protection, WaterPan
from service.tables.findings.row import FAIL
from service.tables.urgency import (
    BELOW_WORDS,
    BLOCKING,
    OVERDUE,
    PUMP_NOT_STOPPED,
    RULES,
    URGENCIES,
    WHATEVER_BELOW,
    UrgencyRule,
)

FAILURES = ("running-over", "drain-blocks", "pump-dies")
"""What brings water into the building."""

STOPPED, NOT_STOPPED, NOT_KNOWN = "stopped", "not-stopped", "not-known"
STOPS = (STOPPED, NOT_STOPPED, NOT_KNOWN)
"""Whether something stops the water before it reaches the building."""

RUNNING_OVER = ("pan-already-full", "pan-overflows-before-draining")

NO_DAMAGE = "nothing-to-damage"

_WORSE = (STOPPED, NOT_KNOWN, NOT_STOPPED)


@dataclass(frozen=True, kw_only=True, slots=True)
class SoonestFailure:
    """What brings water into the building soonest.

    Parameters
    ----------
    failure : str
        One of `FAILURES`.
    stop : str
        One of `STOPS`.
    time_to_building : float or None
        From the moment it fails [s]: 0 where it runs over already; where it is not known what stops the water, as if
        nothing did. None where the water is stopped, or the time cannot be said.
    would_wet : str or None
        One of `service.calculations.installation.BELOW`, as sent.
    """

    failure: str
    stop: str
    time_to_building: float | None
    would_wet: str | None


@dataclass(frozen=True, kw_only=True, slots=True)
class Reason:
    """One rule that a unit meets.

    Parameters
    ----------
    condition, urgency : str
        Name and class of the rule.
    explanation : Sentence
        The reason in words.
    findings : tuple of str
        Codes of the unit's findings that met it.
    basis : str
        What the rule rests on.
    """

    condition: str
    urgency: str
    explanation: Sentence
    findings: tuple[str, ...]
    basis: str


@dataclass(frozen=True, kw_only=True, slots=True)
class Urgency:
    """How soon, why, and what fails soonest.

    Parameters
    ----------
    urgency : str
        One of `service.tables.urgency.URGENCIES`.
    reasons : tuple of Reason
        The most urgent first.
    soonest_failure : SoonestFailure
        What brings water into the building soonest.
    stop : str
        One of `STOPS`: the worst of drain and pump.
    damages : bool
        Whether the water would damage something; True where nobody has said what stands below.
    order : tuple of float
        What the unit is placed by, the smallest first: class, time to the building [s], minus the number of failures.
    """

    urgency: str
    reasons: tuple[Reason, ...]
    soonest_failure: SoonestFailure
    stop: str
    damages: bool
    order: tuple[float, float, float]


def judge_urgency(
    *,
    assessment: Assessment,
    findings: Sequence[Finding],
    below: str | None = None,
    pan: WaterPan | None = None,
    protection: Protection | None = None,
    pump: PumpAsBuilt | None = None,
    pumped: bool | None = None,
    fouled: tuple[str, ...] | None = None,
    months_since_cleaning: float | None = None,
) -> Urgency:
    """Judge how soon a unit wants a visit.

    Parameters
    ----------
    assessment : Assessment
        Of the unit.
    findings : sequence of Finding
        Of its assessment.
    below : str or None
        What its water would wet first.
    pan : WaterPan or None
        The unit's own pan.
    protection : Protection or None
        What stops the water.
    pump : PumpAsBuilt or None
        Condensate pump.
    pumped : bool or None
        Whether there is a pump, where nothing more is known of it.
    fouled : tuple of str or None
        What was reported fouled.
    months_since_cleaning : float or None
        Since the drain was last cleaned [months].

    Returns
    -------
    Urgency

    Notes
    -----
    Within a class the time until water reaches the building decides, then the number of failures. A time that nobody
    can tell counts as half an hour, too short for anyone to notice; water that is stopped, or that damages nothing,
    as no hurry.
    """
    codes = {finding.code for finding in findings}
    drain, at_pump = _stop_of_drain(assessment, protection), _stop_of_pump(codes, pump, pumped)
    damages = below is None or below in DAMAGED
    overdue = months_since_cleaning is not None and months_since_cleaning >= OVERDUE
    standing = pan is not None and bool(pan.water_depth)
    facts = {
        "damage": damages,
        "not-stopped": drain == NOT_STOPPED,
        "stop-not-known": drain == NOT_KNOWN,
        "pump-not-stopped": at_pump == NOT_STOPPED,
        "pump-stop-not-known": at_pump == NOT_KNOWN,
        "water-standing": standing,
        "blocks-soon": bool(codes.intersection(BLOCKING)) or overdue or bool(fouled) or standing,
        "cleaning-not-known": months_since_cleaning is None and fouled is None,
        "cleaning-overdue": overdue,
        "fouled": bool(fouled),
        "on-sanitary": "discharge-into-sanitary" in codes,
        "nothing-assessed": all(part.status != ASSESSED for part in assessment.parts),
    }
    words: dict[str, Value] = {
        "below": BELOW_WORDS.get(below or "", WHATEVER_BELOW),
        "months": months_since_cleaning or 0.0,
    }
    met = _met(codes, facts)
    urgency = met[0].urgency
    failure = _soonest(assessment, codes, drain, at_pump, below)
    dry = assessment.peak_rate is not None and assessment.peak_rate <= 0.0
    return Urgency(
        urgency=urgency,
        reasons=tuple(
            Reason(
                condition=rule.name,
                urgency=rule.urgency,
                explanation=Sentence(text=rule.reason, values=words),
                findings=tuple([code for code in rule.findings if code in codes]),
                basis=rule.basis,
            )
            for rule in met
        ),
        soonest_failure=failure,
        stop=max(drain, at_pump or STOPPED, key=_WORSE.index),
        damages=damages,
        order=(
            float(URGENCIES.index(urgency)),
            _hurry(failure, dry),
            -float(sum(finding.severity == FAIL for finding in findings)),
        ),
    )


def _met(codes: set[str], facts: dict[str, bool]) -> tuple[UrgencyRule, ...]:
    """The rules a unit meets, the most urgent first."""
    holding = {fact for fact, holds in facts.items() if holds}
    met = tuple(
        [
            rule
            for rule in RULES
            if not (rule.findings and codes.isdisjoint(rule.findings)) and holding.issuperset(rule.facts)
        ]
    )
    return met or tuple(rule for rule in RULES if rule.facts == ("nothing-urgent",))


def _stop_of_drain(assessment: Assessment, protection: Protection | None) -> str:
    """Whether something stops the water of a blocked drain; a kind that was named counts until shown not to act."""
    overflow = assessment.overflow_time
    if protection is None or (overflow and overflow.stopped_by == "unknown"):
        return NOT_KNOWN
    if protection.kind == "none" or (overflow and overflow.stopped_by == "nothing"):
        return NOT_STOPPED
    return STOPPED


def _stop_of_pump(codes: set[str], pump: PumpAsBuilt | None, pumped: bool | None) -> str | None:
    """Whether a full tank stops the cooling; None without a pump."""
    if pump is None:
        return NOT_KNOWN if pumped else None
    if pump.pump.safety_float is None:
        return NOT_KNOWN
    wired = pump.pump.safety_float == "wired" and not codes.intersection(PUMP_NOT_STOPPED)
    return STOPPED if wired else NOT_STOPPED


def _soonest(
    assessment: Assessment, codes: set[str], drain: str, at_pump: str | None, below: str | None
) -> SoonestFailure:
    """The failure that brings water into the building soonest; of several without a time the drain's."""
    overflow, pumped = assessment.overflow_time, assessment.pump_run
    ways: list[tuple[str, str, float | None]] = []
    if codes.intersection(RUNNING_OVER):
        ways.append(("running-over", NOT_STOPPED, 0.0))
    if drain != STOPPED:
        time = None
        if overflow:
            time = overflow.time_to_overflow if drain == NOT_KNOWN else overflow.time_to_building
        ways.append(("drain-blocks", drain, time))
    if at_pump in (NOT_STOPPED, NOT_KNOWN):
        ways.append(("pump-dies", at_pump, pumped.time_to_overflow if pumped else None))
    ways.sort(key=lambda way: SHORT_TIME if way[2] is None else way[2])
    failure, stop, time = ways[0] if ways else ("drain-blocks", STOPPED, None)
    return SoonestFailure(failure=failure, stop=stop, time_to_building=time, would_wet=below)


def _hurry(failure: SoonestFailure, dry: bool) -> float:
    """Time [s] that a unit is placed by within its class."""
    if failure.failure != "running-over" and (failure.stop == STOPPED or failure.would_wet == NO_DAMAGE or dry):
        return float("inf")
    return SHORT_TIME if failure.time_to_building is None else failure.time_to_building
