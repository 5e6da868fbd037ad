"""Reads a unit's data as observations: the assessment's findings, and what they leave out."""

from collections.abc import Mapping
from typing import Any

from service.calculations.answer import Assumption, Finding
from service.calculations.assessment import Assessment, assess_unit
from service.calculations.frozen import dataclass
from service.calculations.triage_ranking import COMPUTED, Fact
from service.tables.findings.row import FAIL
from service.tables.triage.unit_evidence import UNIT_EVIDENCE

WHERE = "/unit"

_DOUBT = (
    "segments-near",
    "segments-within",
    "pond-",
    "survey-",
    "outlet-under-water",
    "fall-differs",
    "pipe-bore-unknown",
)
"""How the codes begin that leave open whether a surveyed line falls all the way."""


@dataclass(frozen=True, kw_only=True, slots=True)
class UnitReading:
    """What a unit's data say: facts, findings to repeat and how many were left out, checks that cannot be made."""

    facts: tuple[Fact, ...] = ()
    findings: tuple[Finding, ...] = ()
    left_out: int = 0
    barred: tuple[str, ...] = ()
    assumptions: tuple[Assumption, ...] = ()
    sources: tuple[str, ...] = ()


def read_unit(unit: Mapping[str, Any] | None) -> UnitReading:
    """Assess the unit and read its findings as observations.

    Parameters
    ----------
    unit : mapping or None
        Arguments of `service.calculations.assessment.assess_unit`.

    Returns
    -------
    UnitReading
        Repeated are the findings that became facts and those that are a failure in themselves.
    """
    if unit is None:
        return UnitReading()
    answer = assess_unit(**unit, root=WHERE)
    findings = answer.findings
    found_codes = {finding.code for finding in findings}
    facts = [
        Fact(
            observation=observation,
            value=value,
            origin=COMPUTED,
            findings=tuple([finding for finding in findings if finding.code in codes]),
        )
        for observation, value, codes in UNIT_EVIDENCE
        if not found_codes.isdisjoint(codes)
    ]
    seen = {fact.observation for fact in facts}
    for observation, value in _sound(unit, answer.results, found_codes):
        if observation not in seen:
            facts.append(Fact(observation=observation, value=value, origin=COMPUTED))
            seen.add(observation)
    used = {finding.code for fact in facts for finding in fact.findings}
    repeated = tuple(finding for finding in findings if finding.code in used or finding.severity == FAIL)
    return UnitReading(
        facts=tuple(facts),
        findings=repeated,
        left_out=len(findings) - len(repeated),
        barred=_barred(unit),
        assumptions=answer.assumptions,
        sources=answer.sources,
    )


def _sound(unit: Mapping[str, Any], results: Assessment, codes: set[str]) -> list[tuple[str, str]]:
    """What was assessed or stated, and gave no finding against it."""
    trap, line, pump, discharge = (unit.get(name) for name in ("trap", "line", "pump", "discharge"))
    sound = []
    if results.trap_check is not None and "trap-without-seal" not in codes:
        sound += [("outlet_drop", "enough"), ("seal_depth", "enough")]
    if trap is not None and trap.kept_full_off_season:
        sound.append(("off_season_seal", "lasts"))
    if trap is not None and trap.serves_one_unit:
        sound.append(("trap_shared", "one-unit"))
    if unit.get("can_freeze") is False:
        sound.append(("frost_exposure", "none"))
    if line is not None and line.pipe_size and results.drain_sizing is not None and results.drain_sizing.pipe_size:
        sound.append(("line_size", "enough"))
    if results.drain_survey is not None and not any(code.startswith(_DOUBT) for code in codes):
        sound.append(("line_course", "falls"))
    if line is not None and line.second_trap_unvented is False:
        sound.append(("second_trap", "none"))
    if line is not None and line.support_spacing is not None:
        sound.append(("supports", "close-enough"))
    if discharge is not None and discharge.air_gap:
        sound.append(("discharge_into", "air-gap"))
    if results.measured_to_predicted is not None and results.rate_from_air_states is not None:
        sound.append(("water_amount", "as-computed"))
    if pump is not None:
        sound.append(("pump", "fitted"))
    if results.pump_run is not None and results.peak_rate:
        sound.append(("pump_lift", "within-its-curve"))
    if results.pump_run is not None and results.pump_run.cycles_per_hour is not None:
        sound.append(("pump_floats", "far-enough"))
    return sound


def _barred(unit: Mapping[str, Any]) -> tuple[str, ...]:
    """Checks that need what this unit has not: a cleanout that opens by hand."""
    line = unit.get("line")
    return ("cleanout_test",) if line is not None and line.cleanout in ("none", "solvent-welded") else ()
