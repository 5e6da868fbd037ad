"""The numbers of one unit that the texts of its upkeep name."""

import math

from service.calculations.answer import Assumption, Finding, Sentence, Value
from service.calculations.dry_out_judgement import in_days
from service.calculations.gathering import Gathering
from service.calculations.installation import TrapAsBuilt
from service.calculations.trap_check import TYPICAL_PAN_AREA, trap_legs
from service.calculations.trap_water import Trap
from service.calculations.upkeep_calendar import DAY
from service.calculations.upkeep_conditions import WHERE, UpkeepFacts, frost_exposure
from service.tables.upkeep.furnace import FROST_WORDS, LARGER_WORDS
from service.tables.upkeep.trap import EVERY_DAY, EVERY_DAYS


def upkeep_values(gathering: Gathering, facts: UpkeepFacts) -> dict[str, Value]:
    """The numbers and words that the checks name, as far as they are known.

    Parameters
    ----------
    gathering : Gathering
        Takes the pipe sizes that had to be assumed.
    facts : UpkeepFacts

    Returns
    -------
    dict
        SI floats, counts and words.
    """
    unit, dry_out = facts.unit, facts.dry_out
    trap, discharge, protection, pump = (
        unit.get(name) for name in ("trap", "discharge", "overflow_protection", "pump")
    )
    named: dict[str, Value | None] = {"idle": facts.idle_time / DAY}
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


def _every(interval: float) -> Sentence:
    """Whole days, never more than the interval [s]."""
    days = math.floor(interval / DAY)
    return Sentence(text=EVERY_DAY if days == 1 else EVERY_DAYS, values={"days": days})


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
