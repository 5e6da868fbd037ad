"""A unit's year of upkeep: the results."""

from collections.abc import Mapping
from functools import cache

from service.calculations.answer import Sentence, Value
from service.calculations.frozen import dataclass
from service.calculations.fuel_rate import FuelRate
from service.calculations.furnace_drain import SharedDrain
from service.tables.upkeep.row import UpkeepRow


@dataclass(frozen=True, kw_only=True, slots=True)
class Season:
    """One season's work.

    Parameters
    ----------
    season : str
        One of `service.tables.upkeep.row.SEASONS`.
    months : tuple of int
        In which it falls due.
    checks : mapping of UpkeepRow to str
        The checks in order, each with the pointer of the request member that calls for it.
    values : mapping
        What the texts of the checks name.
    high : bool
        Whether the unit stands at a height.
    minutes : float
        All checks together.
    """

    season: str
    months: tuple[int, ...]
    checks: Mapping[UpkeepRow, str]
    values: Mapping[str, Value]
    high: bool
    minutes: float


@cache
def cautions_of(check: UpkeepRow, high: bool) -> tuple[str, ...]:
    """Codes of the cautions to show with a check, where the unit stands at a height or does not."""
    return (*check.cautions, "heights") if high and check.at_unit else check.cautions


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
    """What `service.calculations.season_upkeep.plan_upkeep` answers.

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
