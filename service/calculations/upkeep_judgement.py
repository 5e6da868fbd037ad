"""What must be done in one season, or fails in the next."""

from collections.abc import Mapping

from service.calculations.answer import Finding, Value
from service.calculations.dry_out_judgement import in_days
from service.calculations.upkeep_calendar import DAY, CoolingYear
from service.calculations.upkeep_conditions import UpkeepFacts, frost_exposure, seal_state
from service.tables.upkeep.furnace import FROST_WORDS, LARGER_WORDS

CLEANED_EVERY = 12
"""A drain is cleaned before every season of cooling: at least once in so many months. Common practice, no source."""

Values = Mapping[str, Value]


def judge_upkeep(
    facts: UpkeepFacts, held: Mapping[str, str], year: CoolingYear, last_cleaned: int | None, values: Values
) -> list[Finding]:
    """Find what cannot wait, and what was not known.

    Parameters
    ----------
    facts : UpkeepFacts
    held : mapping of str to str
        Conditions that hold, with their pointers.
    year : CoolingYear
    last_cleaned : int or None
        Months since the drain was cleaned.
    values : mapping
        Numbers and words of the checks.

    Returns
    -------
    list of Finding
    """
    findings = _judge_seal(facts, held, values)
    if facts.kept_full and "can-freeze" in held:
        findings.append(Finding(code="full-trap-can-freeze", pointer=held["trap-kept-full"]))
    if facts.furnace is not None:
        findings += _judge_furnace(facts, held)
    if last_cleaned is not None and last_cleaned > CLEANED_EVERY:
        findings.append(Finding(code="cleaning-overdue", pointer="/last_cleaned", values=values))
    if not facts.unit:
        findings.append(Finding(code="upkeep-of-any-unit", pointer="/unit"))
    return findings


def _judge_seal(facts: UpkeepFacts, held: Mapping[str, str], values: Values) -> list[Finding]:
    dry_out, state = facts.dry_out, seal_state(facts)
    if dry_out is None or state is None or not dry_out.holds_when_full:
        return []
    where = "/unit/trap/seal_depth"
    if state == "seal-lasts":
        return [Finding(code="seal-outlasts-off-season", pointer=where, values=values)]
    losing = state in ("seal-lost-by-spring", "seal-may-be-lost")
    interval = dry_out.refill_interval
    if losing and (interval is None or interval < DAY):
        named: dict[str, Value] = {
            "pressure": dry_out.design_pressure,
            "lasting_seal_depth": dry_out.lasting_seal_depth or 0.0,
            "idle": facts.idle_time / DAY,
        }
        return [Finding(code="seal-cannot-be-kept-by-pouring", pointer=where, values=named)]
    if facts.sanitary and (losing or state == "seal-not-followed") and interval is not None:
        named = {**values, "earliest": in_days(dry_out.earliest_loss), "latest": in_days(dry_out.latest_loss)}
        return [Finding(code="sanitary-seal-lasts-for", pointer=where, values={**named, "interval": in_days(interval)})]
    codes = {
        "seal-lost-by-spring": "seal-lost-before-spring",
        "seal-may-be-lost": "seal-may-be-lost-before-spring",
    }
    return [Finding(code=codes[state], pointer=where, values=values)] if losing else []


def _judge_furnace(facts: UpkeepFacts, held: Mapping[str, str]) -> list[Finding]:
    findings: list[Finding] = []
    fuel, shared = facts.fuel, facts.shared
    if fuel is None or not facts.condenses:
        return findings
    values: dict[str, Value] = {"volume_rate": fuel.volume_rate}
    line = facts.unit.get("line")
    if "neutralizer-missing" in held:
        code = "acid-water-not-neutralized"
        if shared is not None:
            code = "acid-water-in-shared-drain"
            if line is not None and line.material is not None and line.material.startswith("copper"):
                code = "acid-water-in-metal-pipe"
        findings.append(Finding(code=code, pointer="/furnace/neutralizer", values=values))
    if "neutralizer-unknown" in held:
        findings.append(Finding(code="neutralizer-not-known", pointer="/furnace/neutralizer"))
    exposed = frost_exposure(facts)
    if exposed:
        where = {**values, "where": FROST_WORDS[exposed]}
        findings.append(Finding(code="furnace-water-can-freeze", pointer=held["furnace-frost"], values=where))
    if shared is None:
        return findings
    if shared.peak_flow is None or shared.carries is None or shared.coil_peak is None:
        brought = {"furnace_peak": shared.furnace_peak}
        return [*findings, Finding(code="shared-drain-not-known", pointer="/unit/cooling", values=brought)]
    named: dict[str, Value] = {
        "peak_flow": shared.peak_flow,
        "coil_peak": shared.coil_peak,
        "furnace_peak": shared.furnace_peak,
        "words": LARGER_WORDS[shared.carries],
    }
    if shared.capacity is not None and shared.capacity < shared.peak_flow:
        carrier = "pump moves" if facts.unit.get("pump") is not None else "clean line carries"
        named = {**named, "capacity": shared.capacity, "carrier": carrier}
        findings.append(Finding(code="shared-drain-too-small", pointer="/furnace/shares_drain", values=named))
    findings.append(Finding(code="shared-drain-carries-larger", pointer="/furnace/shares_drain", values=named))
    return findings
