"""Which checks belong to spring start-up, mid-season, autumn and winter for one unit, and why.

The checks are rows of ``service.tables.upkeep``; here it is decided which apply. Their numbers come from the service's
own calculations: the assessment, the drying out of the trap, and the water of the furnace.
"""

import math
from collections.abc import Mapping
from dataclasses import replace
from typing import Any

from service.calculations.answer import Answer, Assumption, Sentence, Value
from service.calculations.assessment import Assessment, assess_unit
from service.calculations.assessment_dry_out import judge_dry_out
from service.calculations.dry_out_results import TrapDryOut
from service.calculations.fuel_rate import FuelRate
from service.calculations.furnace_drain import Furnace, SharedDrain, burn_in, share_drain
from service.calculations.gathering import Gathering
from service.calculations.installation import OffSeason, TrapAsBuilt
from service.calculations.limits import Limit, require
from service.calculations.triage_safety import HIGH_PLACES
from service.calculations.upkeep_calendar import DAY, DAYS, CoolingYear, growth_since, read_year
from service.calculations.upkeep_conditions import WHERE, UpkeepFacts, held_conditions
from service.calculations.upkeep_judgement import judge_upkeep
from service.calculations.upkeep_results import DaysToDryOut, GrowthSeason, Season, SeasonUpkeep, cautions_of
from service.calculations.upkeep_values import upkeep_values
from service.tables.findings.row import INFO
from service.tables.upkeep.checks import BY_SEASON
from service.tables.upkeep.drain import A_MONTH, GROWTH_NOTE, GROWTH_SINCE, SOME_MONTHS

LIMITS = {
    "cooling_starts": Limit(1, 12),
    "cooling_ends": Limit(1, 12),
    "last_cleaned": Limit(0, 600),  # just now, to fifty years: never
}

_LONGEST_MONTH = DAY * max(DAYS)

_SAID_HERE = {
    "trap-dries-out-off-season",
    "sanitary-seal-lasts-for",
    "seal-outlasts-off-season",
    "seal-does-not-dry-out",
}
"""Findings of the assessment that are told here of the full trap, as the autumn's check leaves it."""


def plan_upkeep(
    *,
    unit: Mapping[str, Any] | None = None,
    furnace: Furnace | None = None,
    cooling_starts: int | None = None,
    cooling_ends: int | None = None,
    last_cleaned: int | None = None,
) -> Answer[SeasonUpkeep]:
    """Choose the checks of each season for one unit, with its numbers and the reasons.

    Parameters
    ----------
    unit : mapping or None
        Arguments of `service.calculations.assessment.assess_unit`.
    furnace : Furnace or None
        A condensing furnace or boiler.
    cooling_starts, cooling_ends : int or None
        First and last month with cooling, 1 to 12.
    last_cleaned : int or None
        Months since the drain was cleaned.

    Returns
    -------
    Answer of SeasonUpkeep

    Raises
    ------
    OutOfRange
        For an argument outside `LIMITS`, or as `service.calculations.assessment.assess_unit`.

    Notes
    -----
    A check applies if and only if the condition of its row holds. The drying out starts from a full trap, as the
    autumn's check leaves it, and lasts until the first month with cooling.

    Examples
    --------
    It cools from May to September. By hand: of a leap year's 366 days, 366 - 153 = 213 remain.

    >>> results = plan_upkeep(cooling_starts=5, cooling_ends=9).results
    >>> [season.season for season in results.seasons], results.idle_time / 86400.0
    (['spring-start-up', 'mid-season', 'autumn-shut-down', 'winter'], 213.0)
    """
    require(LIMITS, cooling_starts=cooling_starts, cooling_ends=cooling_ends, last_cleaned=last_cleaned)
    known = dict(unit or {})
    year = read_year(cooling_starts, cooling_ends)
    gathering = Gathering()
    for assumption in year.assumptions:
        gathering.assume(assumption)
    months_given = cooling_starts is not None or cooling_ends is not None
    idle_time = _idle_time(gathering, year, months_given, known.get("off_season"))
    assessed, codes = _assess(gathering, known, idle_time)
    dry_out = _dry_out_from_full(gathering, known, assessed, idle_time)
    fuel = _burn(gathering, furnace, known)
    facts = UpkeepFacts(
        unit=known,
        assessed=assessed,
        codes=codes,
        dry_out=dry_out,
        idle_time=idle_time,
        furnace=furnace,
        fuel=fuel,
        shared=_share(gathering, furnace, fuel, known, assessed),
    )
    held = held_conditions(facts)
    growth = _growth(year, last_cleaned)
    values = {**upkeep_values(gathering, facts), **growth.note.values}
    seasons = _seasons(held, values, year, known.get("location"))
    gathering.findings += judge_upkeep(facts, held, year, last_cleaned, values)
    gathering.cite("common-practice")
    results = SeasonUpkeep(
        unit_id=known.get("unit_id"),
        seasons=seasons,
        minutes=math.fsum(season.minutes for season in seasons),
        idle_time=idle_time,
        days_to_dry_out=_days(facts.dry_out),
        growth_season=growth,
        furnace_condensate=facts.fuel,
        shared_drain=facts.shared,
    )
    cautions = dict.fromkeys(
        code for season in seasons for row in season.checks for code in cautions_of(row, season.high)
    )
    return Answer(
        results=results,
        findings=tuple(gathering.findings),
        assumptions=tuple(gathering.assumptions),
        cautions=(*cautions, "local-code"),
        sources=tuple(gathering.sources),
    )


def _idle_time(gathering: Gathering, year: CoolingYear, months_given: bool, off_season: OffSeason | None) -> float:
    """Time without condensate: as sent, by the months, or the longer of the two."""
    sent = off_season.idle_time if off_season else None
    if sent is None:
        return year.idle_time
    if not months_given:
        return sent
    if abs(sent - year.idle_time) > _LONGEST_MONTH:
        values = {"by_months": year.idle_time / DAY, "sent": sent / DAY}
        gathering.note("idle-times-differ", f"{WHERE}/off_season/idle_time", **values)
    return max(sent, year.idle_time)


def _assess(
    gathering: Gathering, unit: Mapping[str, Any], idle_time: float
) -> tuple[Assessment | None, dict[str, str]]:
    """Assess the unit with the idle time of its year; take over what asks for something."""
    if not unit:
        return None, {}
    answer = assess_unit(**{**unit, "off_season": _off_season(unit, idle_time)}, root=WHERE)
    findings = [finding for finding in answer.findings if finding.code not in _SAID_HERE]
    gathering.findings += [finding for finding in findings if finding.severity != INFO]
    notes = sum(finding.severity == INFO for finding in findings)
    if notes:
        gathering.note("unit-has-notes", WHERE, count=notes)
    for assumption in answer.assumptions:
        gathering.assume(assumption)
    gathering.cite(*answer.sources)
    return answer.results, {finding.code: finding.pointer for finding in reversed(findings)}


def _off_season(unit: Mapping[str, Any], idle_time: float) -> OffSeason | None:
    """The unit's time without cooling, with the idle time of its year."""
    season: OffSeason | None = unit.get("off_season")
    if idle_time <= 0.0:
        return season
    return replace(season, idle_time=idle_time) if season else OffSeason(idle_time=idle_time)


def _dry_out_from_full(
    gathering: Gathering, unit: Mapping[str, Any], assessed: Assessment | None, idle_time: float
) -> TrapDryOut | None:
    """How long the full trap keeps its seal: as assessed, or anew where it was measured with water missing."""
    trap: TrapAsBuilt | None = unit.get("trap")
    if assessed is None or assessed.trap_dry_out is None or trap is None or not trap.evaporated_depth:
        return assessed.trap_dry_out if assessed else None
    note = (
        "It was measured with water missing; the season is counted from a full trap, as the autumn's check leaves it."
    )
    gathering.assume(Assumption(pointer=f"{WHERE}/trap/evaporated_depth", value=0.0, note=note, symbols="in|mm"))
    return judge_dry_out(
        Gathering(),  # said once, of the trap as it was measured
        replace(trap, evaporated_depth=0.0),
        _off_season(unit, idle_time),
        unit.get("discharge"),
        unit.get("line"),
        unit.get("pan"),
        unit.get("pan_pressure"),
        unit.get("dirty_filter_allowance"),
        unit.get("elevation"),
        unit.get("station_pressure"),
    )


def _burn(gathering: Gathering, furnace: Furnace | None, unit: Mapping[str, Any]) -> FuelRate | None:
    """The furnace's water."""
    if furnace is None:
        return None
    return gathering.take(
        "water of the furnace",
        lambda: burn_in(furnace, unit.get("elevation"), unit.get("station_pressure")),
        prefix="/furnace",
        moves={},
    )


def _share(
    gathering: Gathering,
    furnace: Furnace | None,
    fuel: FuelRate | None,
    unit: Mapping[str, Any],
    assessed: Assessment | None,
) -> SharedDrain | None:
    """The drain that the furnace shares with the coil."""
    if furnace is None or fuel is None or not furnace.shares_drain:
        return None
    capacity = None
    if assessed and assessed.pump_run:
        capacity = assessed.pump_run.operating_flow
    elif assessed and assessed.drain_sizing and unit.get("pump") is None:
        capacity = assessed.drain_sizing.full_bore_capacity
    shared, assumptions = share_drain(furnace, fuel, assessed.peak_rate if assessed else None, capacity)
    for assumption in assumptions:
        gathering.assume(assumption)
    return shared


def _days(dry_out: TrapDryOut | None) -> DaysToDryOut | None:
    if dry_out is None:
        return None
    return DaysToDryOut(
        earliest_loss=dry_out.earliest_loss,
        latest_loss=dry_out.latest_loss,
        refill_interval=dry_out.refill_interval,
        outcome=dry_out.after_idle.outcome if dry_out.after_idle else None,
    )


def _growth(year: CoolingYear, last_cleaned: int | None) -> GrowthSeason:
    count = len(year.cooling)
    values: dict[str, Value] = {"growth": _months(count)}
    if last_cleaned is None:
        note = Sentence(text=GROWTH_NOTE, values=values)
        return GrowthSeason(months=year.cooling, least_months_since=None, most_months_since=None, note=note)
    least, most = growth_since(year, last_cleaned)
    values |= {"since": _months(last_cleaned), "least": least, "most": most}
    note = Sentence(text=GROWTH_SINCE if last_cleaned else GROWTH_NOTE, values=values)
    return GrowthSeason(months=year.cooling, least_months_since=least, most_months_since=most, note=note)


def _months(count: int) -> Sentence:
    return Sentence(text=A_MONTH if count == 1 else SOME_MONTHS, values={"count": count})


def _seasons(
    held: Mapping[str, str], values: Mapping[str, Value], year: CoolingYear, location: str | None
) -> tuple[Season, ...]:
    seasons = []
    for name, rows in BY_SEASON.items():
        checks = {row: held[row.condition] for row in rows if row.condition in held}
        seasons.append(
            Season(
                season=name,
                months=year.months_of(name),
                checks=checks,
                values=values,
                high=location in HIGH_PLACES,
                minutes=math.fsum([row.minutes for row in checks]),
            )
        )
    return tuple(seasons)
