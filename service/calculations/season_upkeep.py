"""Which checks belong to spring start-up, mid-season, autumn and winter for one unit, and why.

The checks are rows of ``service.tables.upkeep``; here it is decided which apply. Their numbers come from the service's
own calculations: the assessment, the drying out of the trap, and the water of the furnace.
"""

import math
from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Any

from service.calculations.answer import Answer, Assumption, Finding, Sentence
from service.calculations.assessment import Assessment, assess_unit
from service.calculations.assessment_dry_out import judge_dry_out
from service.calculations.dry_out_judgement import in_days
from service.calculations.dry_out_results import TrapDryOut
from service.calculations.fuel_rate import FuelRate
from service.calculations.furnace_drain import Furnace, SharedDrain, burn_in, share_drain
from service.calculations.gathering import Gathering
from service.calculations.installation import OffSeason, TrapAsBuilt
from service.calculations.limits import Limit, require
from service.calculations.trap_check import TYPICAL_PAN_AREA, trap_legs
from service.calculations.trap_water import Trap
from service.calculations.triage_safety import HIGH_PLACES
from service.calculations.upkeep_calendar import DAY, DAYS, CoolingYear, growth_since, read_year
from service.calculations.upkeep_conditions import UpkeepFacts, frost_exposure, held_conditions
from service.calculations.upkeep_judgement import judge_upkeep
from service.tables.findings.row import INFO
from service.tables.upkeep.checks import CHECKS
from service.tables.upkeep.drain import GROWTH_NOTE, GROWTH_SINCE
from service.tables.upkeep.furnace import FROST_WORDS, LARGER_WORDS
from service.tables.upkeep.row import SEASONS

LIMITS = {
    "cooling_starts": Limit(1, 12),
    "cooling_ends": Limit(1, 12),
    "last_cleaned": Limit(0, 600),  # just now, to fifty years: never
}

WHERE = "/unit"

_LONGEST_MONTH = DAY * max(DAYS)

_SAID_HERE = {
    "trap-dries-out-off-season",
    "sanitary-seal-lasts-for",
    "seal-outlasts-off-season",
    "seal-does-not-dry-out",
}
"""Findings of the assessment that are told here of the full trap, as the autumn's check leaves it."""


@dataclass(frozen=True, kw_only=True, slots=True)
class UpkeepCheck:
    """One check of one season.

    Parameters
    ----------
    code : str
        Stable name.
    check, why : Sentence
        What to do, and the reason.
    minutes : float
        How long it takes.
    basis : str
        Of the check.
    pointer : str
        Request member that calls for it.
    cautions : tuple of str
        Codes.
    """

    code: str
    check: Sentence
    why: Sentence
    minutes: float
    basis: str
    pointer: str
    cautions: tuple[str, ...]


@dataclass(frozen=True, kw_only=True, slots=True)
class Season:
    """One season's work: its months, its checks in order, and their time together [min]."""

    season: str
    months: tuple[int, ...]
    checks: tuple[UpkeepCheck, ...]
    minutes: float


@dataclass(frozen=True, kw_only=True, slots=True)
class DaysToDryOut:
    """How long the trap, full when the cooling ends, keeps its seal; times [s].

    See `service.calculations.dry_out_results.TrapDryOut`.
    """

    earliest_loss: float | None
    latest_loss: float | None
    refill_interval: float | None
    outcome: str | None


@dataclass(frozen=True, kw_only=True, slots=True)
class GrowthSeason:
    """The season in which slime grows.

    Parameters
    ----------
    months : tuple of int
        With cooling.
    least_months_since, most_months_since : int or None
        Of cooling since the last cleaning.
    note : Sentence
        The same in words.
    """

    months: tuple[int, ...]
    least_months_since: int | None
    most_months_since: int | None
    note: Sentence


@dataclass(frozen=True, kw_only=True, slots=True)
class SeasonUpkeep:
    """What `plan_upkeep` answers.

    Parameters
    ----------
    unit_id : str or None
        As sent.
    seasons : tuple of Season
        All four, in the order of the work.
    minutes : float
        Of the whole year.
    idle_time : float
        Without condensate, between two seasons of cooling [s].
    days_to_dry_out : DaysToDryOut or None
        None without a trap with a seal, or with one that is kept full.
    growth_season : GrowthSeason
    furnace_condensate : FuelRate or None
    shared_drain : SharedDrain or None
        Where the furnace shares the drain.
    """

    unit_id: str | None
    seasons: tuple[Season, ...]
    minutes: float
    idle_time: float
    days_to_dry_out: DaysToDryOut | None
    growth_season: GrowthSeason
    furnace_condensate: FuelRate | None
    shared_drain: SharedDrain | None


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
    facts = _with_furnace(
        gathering,
        furnace,
        UpkeepFacts(
            unit=known,
            assessed=assessed,
            codes=codes,
            dry_out=_dry_out_from_full(gathering, known, assessed, idle_time),
            idle_time=idle_time,
            furnace=furnace,
            fuel=None,
            shared=None,
        ),
    )
    held = held_conditions(facts)
    growth = _growth(year, last_cleaned)
    values = {**_values(gathering, facts), **growth.note.values}
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
    cautions = dict.fromkeys(code for season in seasons for check in season.checks for code in check.cautions)
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
    season = unit.get("off_season")
    if idle_time > 0.0:
        season = replace(season or OffSeason(), idle_time=idle_time)
    answer = assess_unit(**{**unit, "off_season": season})
    findings = [finding.under(WHERE) for finding in answer.findings if finding.code not in _SAID_HERE]
    gathering.findings += [finding for finding in findings if finding.severity != INFO]
    notes = sum(finding.severity == INFO for finding in findings)
    if notes:
        gathering.note("unit-has-notes", WHERE, count=notes)
    for assumption in answer.assumptions:
        gathering.assume(assumption.under(WHERE))
    gathering.cite(*answer.sources)
    return answer.results, {finding.code: finding.pointer for finding in reversed(findings)}


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
    season = unit.get("off_season")
    if idle_time > 0.0:
        season = replace(season or OffSeason(), idle_time=idle_time)
    return judge_dry_out(
        Gathering(),  # said once, of the trap as it was measured
        replace(trap, evaporated_depth=0.0),
        season,
        unit.get("discharge"),
        unit.get("line"),
        unit.get("pan"),
        unit.get("pan_pressure"),
        unit.get("dirty_filter_allowance"),
        unit.get("elevation"),
        unit.get("station_pressure"),
    )


def _with_furnace(gathering: Gathering, furnace: Furnace | None, facts: UpkeepFacts) -> UpkeepFacts:
    """Add the furnace's water, and the drain it shares."""
    if furnace is None:
        return facts
    fuel = gathering.take(
        "water of the furnace",
        lambda: burn_in(furnace, facts.unit.get("elevation"), facts.unit.get("station_pressure")),
        prefix="/furnace",
        moves={},
    )
    if fuel is None or not furnace.shares_drain:
        return replace(facts, fuel=fuel)
    assessed = facts.assessed
    capacity = None
    if assessed and assessed.pump_run:
        capacity = assessed.pump_run.operating_flow
    elif assessed and assessed.drain_sizing and facts.unit.get("pump") is None:
        capacity = assessed.drain_sizing.full_bore_capacity
    shared, assumptions = share_drain(furnace, fuel, assessed.peak_rate if assessed else None, capacity)
    for assumption in assumptions:
        gathering.assume(assumption)
    return replace(facts, fuel=fuel, shared=shared)


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
    values: dict[str, float | int | str] = {"growth": _months(count)}
    if last_cleaned is None:
        note = Sentence(text=GROWTH_NOTE, values=values)
        return GrowthSeason(months=year.cooling, least_months_since=None, most_months_since=None, note=note)
    least, most = growth_since(year, last_cleaned)
    values |= {"since": _months(last_cleaned), "least": least, "most": most}
    note = Sentence(text=GROWTH_SINCE, values=values)
    return GrowthSeason(months=year.cooling, least_months_since=least, most_months_since=most, note=note)


def _months(count: int) -> str:
    return "1 month" if count == 1 else f"{count} months"


def _values(gathering: Gathering, facts: UpkeepFacts) -> dict[str, float | int | str]:
    """The numbers and words that the checks name, as far as they are known."""
    unit, dry_out = facts.unit, facts.dry_out
    trap, discharge, protection, pump = (
        unit.get(name) for name in ("trap", "discharge", "overflow_protection", "pump")
    )
    named: dict[str, float | int | str | None] = {"idle": facts.idle_time / DAY}
    if facts.has_seal:
        named |= {"trap_volume": _fill_volume(gathering, unit["trap"]), "seal_depth": unit["trap"].seal_depth}
    if trap is not None:
        named["outlet_drop"] = trap.outlet_drop
    if dry_out is not None:
        interval = dry_out.refill_interval
        named |= {"earliest": in_days(dry_out.earliest_loss), "latest": in_days(dry_out.latest_loss)}
        named["interval"] = _every(interval) if interval is not None and interval >= DAY else None
    if facts.assessed is not None:
        assessed = facts.assessed
        named["peak"] = assessed.peak_rate
        if assessed.trap_check is not None:
            named |= {
                "held_water": assessed.trap_check.held_water_depth,
                "pressure": assessed.trap_check.design_pressure,
            }
        named["starts"] = assessed.pump_run.cycles_per_hour if assessed.pump_run else None
    if facts.fuel is not None:
        named |= {"furnace_rate": facts.fuel.volume_rate, "furnace_daily": facts.fuel.daily_volume}
    if facts.shared is not None and facts.shared.carries is not None:
        named |= {
            "coil_peak": facts.shared.coil_peak,
            "shared_peak": facts.shared.peak_flow,
            "larger_words": LARGER_WORDS[facts.shared.carries],
        }
    exposed = frost_exposure(facts)
    line = unit.get("line")
    named |= {
        "pan_pressure": unit.get("pan_pressure"),
        "support_spacing": line.support_spacing if line else None,
        "place": discharge.place.replace("-", " ") if discharge else None,
        "cut_out_depth": protection.cut_out_depth if protection else None,
        "tank_volume": pump.pump.tank_volume_between_floats if pump else None,
        "frost_words": FROST_WORDS[exposed] if exposed else None,
    }
    return {name: value for name, value in named.items() if value is not None}


def _every(interval: float) -> str:
    """Whole days, never more than the interval [s]."""
    days = math.floor(interval / DAY)
    return "day" if days == 1 else f"{days:,} days"


def _fill_volume(gathering: Gathering, trap: TrapAsBuilt) -> float:
    """Water [m3] that fills the empty trap to its outlet invert, with the tightest bend; none in the pan."""
    assumptions: list[Assumption] = []
    unspoken: list[Finding] = []  # the assessment has said it
    unit_side, outlet_side = trap_legs(
        trap.pipe_size, trap.unit_side_pipe_size, trap.outlet_side_pipe_size, unspoken, assumptions
    )
    for assumption in assumptions:
        gathering.assume(assumption.under(f"{WHERE}/trap"))
    built = Trap(
        outlet_drop=max(trap.outlet_drop, 0.0),
        seal_depth=trap.seal_depth,
        unit_side_bore=unit_side.bore,
        outlet_side_bore=outlet_side.bore,
        pan_area=TYPICAL_PAN_AREA,  # never enters: the water stays below the pan outlet
    )
    return built.water_above_dip(0.0, 0.0) + built.bend_volume


def _seasons(
    held: Mapping[str, str], values: Mapping[str, float | int | str], year: CoolingYear, location: str | None
) -> tuple[Season, ...]:
    high = location in HIGH_PLACES
    seasons = []
    for name in SEASONS:
        checks = tuple(
            UpkeepCheck(
                code=row.code,
                check=Sentence(text=row.check, values=values),
                why=Sentence(text=row.why, values=values),
                minutes=row.minutes,
                basis=row.basis,
                pointer=held[row.condition],
                cautions=(*row.cautions, *(("heights",) if high and row.at_unit else ())),
            )
            for row in CHECKS
            if name in row.seasons and row.condition in held
        )
        seasons.append(
            Season(
                season=name,
                months=year.months_of(name),
                checks=checks,
                minutes=math.fsum(check.minutes for check in checks),
            )
        )
    return tuple(seasons)
