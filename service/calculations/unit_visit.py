"""One unit of a round: how soon it wants a visit, how long that takes, and what it takes."""

from collections.abc import Sequence
from dataclasses import replace
from typing import Any

from service.calculations.answer import Answer, Assumption, Finding
from service.calculations.assessment import assess_unit
from service.calculations.cleaning_plan import CleaningPlan, plan_cleaning
from service.calculations.cleaning_site import RUN_TO_PUMP, USUAL_RUN, USUAL_SIZE, Access, Brush, Equipment
from service.calculations.frozen import dataclass
from service.calculations.gas_supply import CartridgeGun, Cylinder
from service.calculations.limits import Limit, require
from service.calculations.round_parts import UnitPart, list_unit_parts
from service.calculations.visit_urgency import Reason, SoonestFailure, Urgency, judge_urgency
from service.errors import Contradiction, OutOfRange
from service.tables.findings.row import ATTENTION, FAIL, INFO
from service.tables.round_facts import FACTS, RoundFact

LIMITS = {"months_since_cleaning": Limit(0.0, 600.0)}  # today, to fifty years

CONSUMING = ("wet-dry-vacuum", "regulated-gas", "cartridge-gas", "brush")
"""Methods a round is stocked for."""

OF_THE_TRUCK = ("not-on-truck", "not-enough-gas", "openings-left-open")
"""Reasons against a method that another load of the truck would lift."""

_ROUND_MEMBERS = ("equipment", "working_pressure", "sweeps", "gas_temperature")


@dataclass(frozen=True, kw_only=True, slots=True)
class FindingCounts:
    """How many findings of each severity the assessment made."""

    fail: int
    attention: int
    info: int


@dataclass(frozen=True, kw_only=True, slots=True)
class UnitVisit:
    """One unit of a round.

    Parameters
    ----------
    unit_id : str or None
        As sent.
    urgency : str
        One of `service.tables.urgency.URGENCIES`.
    reasons : tuple of Reason
        Why, the most urgent first.
    soonest_failure : SoonestFailure
        What brings water into the building soonest.
    verdict : str
        Of its assessment.
    finding_counts : FindingCounts
        Of its assessment.
    findings : tuple of Finding
        Those behind the reasons, worst first.
    method : str or None
        What clears its drain; None where no cleaning could be planned.
    minutes, good_access_minutes : float or None
        Of cleaning and closing test [min], as it is and with good access.
    suited_methods : tuple of str
        Methods of `CONSUMING` that its access and its line allow, whatever the truck holds.
    cartridges : int or None
        Whole cartridges its drain takes.
    free_gas : float or None
        Gas its drain takes, at one atmosphere, from a cylinder [m3].
    water : float or None
        Water of the visit [m3].
    openings : int
        Most openings to close: vents, other units, the pan outlet.
    parts : tuple of UnitPart
        Parts its findings ask for.
    not_known : tuple of str
        Members of `service.tables.round_facts.FACTS` that were not sent.
    standing : Urgency
        What it is placed by.
    """

    unit_id: str | None
    urgency: str
    reasons: tuple[Reason, ...]
    soonest_failure: SoonestFailure
    verdict: str
    finding_counts: FindingCounts
    findings: tuple[Finding, ...]
    method: str | None
    minutes: float | None
    good_access_minutes: float | None
    suited_methods: tuple[str, ...]
    cartridges: int | None
    free_gas: float | None
    water: float | None
    openings: int
    parts: tuple[UnitPart, ...]
    not_known: tuple[str, ...]
    standing: Urgency


def visit_unit(
    *,
    equipment: Equipment,
    access: Access | None = None,
    fouled: tuple[str, ...] | None = None,
    pumped: bool | None = None,
    pour_rate: float | None = None,
    months_since_cleaning: float | None = None,
    **known: Any,
) -> Answer[UnitVisit]:
    """Assess one unit of a round, plan its cleaning, and judge how soon it wants a visit.

    Parameters
    ----------
    equipment : Equipment
        What is on the truck.
    access : Access or None
        What of the drain can be got at.
    fouled : tuple of str or None
        What was reported fouled.
    pumped : bool or None
        Whether there is a pump, where nothing more is known of it.
    pour_rate : float or None
        Of the closing test [m3/s].
    months_since_cleaning : float or None
        Since the drain was last cleaned [months].
    **known : Any
        What `service.calculations.assessment.assess_unit` takes.

    Returns
    -------
    Answer of UnitVisit
        Its findings and assumptions point into the unit.

    Raises
    ------
    OutOfRange
        For months outside `LIMITS`; every other limit belongs to its calculation.
    """
    require(LIMITS, months_since_cleaning=months_since_cleaning)
    assessed = assess_unit(**known)
    line, pump, trap, pan = (known.get(name) for name in ("line", "pump", "trap", "pan"))
    try:
        planned = plan_cleaning(
            unit_id=known.get("unit_id"),
            location=known.get("location"),
            access=access,
            fouled=fouled,
            trap=trap,
            line=line,
            pan=pan,
            pump=pump,
            pumped=None if pump else pumped,
            discharge=known.get("discharge"),
            peak_flow=assessed.results.peak_rate,
            equipment=_measuring(equipment),
            pour_rate=pour_rate,
        )
    except (Contradiction, OutOfRange):  # as in an assessment it costs its part only; the round counts these units
        planned = None
    plan = planned.results if planned else None
    standing = judge_urgency(
        assessment=assessed.results,
        findings=assessed.findings,
        below=known.get("below"),
        pan=pan,
        protection=known.get("overflow_protection"),
        pump=pump,
        pumped=pumped,
        fouled=fouled,
        months_since_cleaning=months_since_cleaning,
    )
    behind = {code for reason in standing.reasons for code in reason.findings}
    severities = [finding.severity for finding in assessed.findings]
    survey = assessed.results.drain_survey
    run = (line.run if line else None) or (survey.run if survey else 0.0)
    others = len(line.shared_with) if line else 0
    visit = UnitVisit(
        unit_id=assessed.results.unit_id,
        urgency=standing.urgency,
        reasons=standing.reasons,
        soonest_failure=standing.soonest_failure,
        verdict=assessed.verdict,
        finding_counts=FindingCounts(
            fail=severities.count(FAIL), attention=severities.count(ATTENTION), info=severities.count(INFO)
        ),
        findings=tuple(finding for finding in assessed.ordered() if finding.code in behind),
        method=plan.method if plan else None,
        minutes=plan.total_minutes if plan else None,
        good_access_minutes=plan.good_access_minutes if plan else None,
        suited_methods=_suited(plan) if plan else (),
        cartridges=plan.gas.cartridges.cartridges_for_this_drain if plan and plan.gas and plan.gas.cartridges else None,
        free_gas=plan.gas.cylinder.gas_per_drain if plan and plan.gas and plan.gas.cylinder else None,
        water=next((item.volume for item in plan.carry if item.item == "water"), None) if plan else None,
        openings=((access.vents if access else None) or 0) + others + 1,
        parts=list_unit_parts(
            findings=assessed.findings,
            line=line,
            trap=trap,
            pump=pump,
            run=run or (RUN_TO_PUMP if pump or pumped else USUAL_RUN),
            usual_size=USUAL_SIZE,
            carried=[item.item for item in plan.carry] if plan else (),
        ),
        not_known=_not_known(
            {
                **known,
                "access": access,
                "fouled": fouled,
                "pumped": pumped,
                "months_since_cleaning": months_since_cleaning,
            }
        ),
        standing=standing,
    )
    answers = (assessed, planned) if planned else (assessed,)
    return Answer(
        results=visit,
        findings=assessed.findings,
        assumptions=_defaults(answers),
        cautions=tuple(dict.fromkeys(code for answer in answers for code in answer.cautions)),
        sources=tuple(dict.fromkeys(key for answer in answers for key in answer.sources)),
    )


def usual_equipment(plugs: int) -> Equipment:
    """What most trucks carry: brush, wet/dry vacuum, jug and plugs; no gas is counted on.

    Parameters
    ----------
    plugs : int
        How many.
    """
    return Equipment(brush=Brush(), wet_dry_vacuum=True, jug=True, plugs=plugs)


def _measuring(equipment: Equipment) -> Equipment:
    """The same truck, with an empty cylinder or no cartridge in the gun where it has none: neither can be chosen, and
    the plan tells what they would take."""
    return replace(
        equipment,
        cartridge_gun=equipment.cartridge_gun or CartridgeGun(cartridges=0),
        cylinder=equipment.cylinder or Cylinder(pressure=0.0),
    )


def _suited(plan: CleaningPlan) -> tuple[str, ...]:
    """Methods that nothing at the unit forbids."""
    forbidden = {refusal.method for refusal in plan.refused_methods if refusal.reason not in OF_THE_TRUCK}
    return tuple(method for method in CONSUMING if method not in forbidden)


def _defaults(answers: Sequence[Answer[Any]]) -> tuple[Assumption, ...]:
    """Defaults of assessment and cleaning, each member once; those of truck and gas are the round's to tell."""
    notes: dict[str, Assumption] = {}
    for answer in answers:
        for note in answer.assumptions:
            if note.pointer == "/peak_flow":  # not a member of a unit: it comes of what the rate is computed from
                note = replace(note, pointer="/cooling")
            if note.pointer[1:].split("/", 1)[0] not in _ROUND_MEMBERS:
                notes.setdefault(note.pointer, note)
    return tuple(notes.values())


def _not_known(members: dict[str, Any]) -> tuple[str, ...]:
    """Facts of `FACTS` of which nothing was sent."""
    return tuple(
        [
            fact.member
            for fact in FACTS
            if (not fact.only_with or members.get(fact.only_with[1:])) and not _is_known(fact, members)
        ]
    )


def _is_known(fact: RoundFact, members: dict[str, Any]) -> bool:
    for head, *rest in fact.paths:
        value = members.get(head)
        for name in rest:
            value = getattr(value, name, None)
        # a line without stations has an empty tuple of them; an empty list of what is fouled tells something
        if value is not None and (value != () or head == "fouled"):
            return True
    return False
