"""Which conditions of the upkeep table hold for a unit, and the request member each comes from."""

from collections.abc import Iterator, Mapping
from typing import Any

from service.calculations.assessment import Assessment
from service.calculations.assessment_checks import SANITARY
from service.calculations.dry_out_results import TrapDryOut
from service.calculations.frozen import dataclass
from service.calculations.fuel_rate import FuelRate
from service.calculations.furnace_drain import Furnace, SharedDrain
from service.calculations.overflow_protection import AUXILIARY_PANS
from service.calculations.trap_sizing import MEASURABLE
from service.calculations.trap_water import SLACK
from service.calculations.upkeep_calendar import DAY

WHERE = "/unit"
"""Where the unit's data stand in the request."""

OUTDOOR_PLACES = ("outdoors", "roof-surface", "walkway", "storm-drain", "dry-well")
"""Ends of a line that stand in the open."""

CUT_OUTS = ("auxiliary-pan-cut-out", "drain-cut-out")
SECOND_WAYS = ("auxiliary-pan-drain", "secondary-drain")

FALLS_SHORT = (
    "line-runs-uphill",
    "line-is-level",
    "pitch-below-minimum",
    "segments-back-fall",
    "segments-flat",
    "segments-below-minimum",
    "pond-reaches-pan",
    "pond-fills-bore",
    "pond-may-fill-bore",
)
"""Findings of the assessment that a line does not fall all the way, or holds water."""

Condition = tuple[str, bool, str]


@dataclass(frozen=True, kw_only=True, slots=True)
class UpkeepFacts:
    """What is known of a unit, its furnace and its year.

    Parameters
    ----------
    unit : mapping
        Arguments of `service.calculations.assessment.assess_unit`; empty where nothing was sent.
    assessed : Assessment or None
        Its results.
    codes : mapping of str to str
        Codes of its findings, each with the pointer of the first one.
    dry_out : TrapDryOut or None
        How long its trap, full at first, keeps its seal.
    idle_time : float
        Time without condensate [s].
    furnace : Furnace or None
    fuel : FuelRate or None
        Its water.
    shared : SharedDrain or None
        The drain it shares with the coil.
    """

    unit: Mapping[str, Any]
    assessed: Assessment | None
    codes: Mapping[str, str]
    dry_out: TrapDryOut | None
    idle_time: float
    furnace: Furnace | None
    fuel: FuelRate | None
    shared: SharedDrain | None

    @property
    def sanitary(self) -> bool:
        """Whether the drain connects directly to a sanitary or soil line."""
        discharge = self.unit.get("discharge")
        return discharge is not None and discharge.place in SANITARY and discharge.air_gap is not True

    @property
    def has_seal(self) -> bool:
        """Whether there is a trap with water in its dip."""
        trap = self.unit.get("trap")
        return trap is not None and trap.seal_depth > SLACK

    @property
    def kept_full(self) -> bool:
        """Whether something refills the trap out of season."""
        return self.has_seal and bool(self.unit["trap"].kept_full_off_season)

    @property
    def condenses(self) -> bool:
        """Whether the furnace makes water."""
        return self.fuel is not None and self.fuel.mass_rate > 0.0

    @property
    def drained_for_winter(self) -> bool:
        """Whether the drain can freeze, and may stand empty: none needs its water or its seal in the winter."""
        may_share = self.furnace is not None and self.furnace.shares_drain is not False
        needed = self.sanitary or self.kept_full or (may_share and self.condenses)
        return bool(self.unit.get("can_freeze")) and self.idle_time > 0.0 and not needed


def held_conditions(facts: UpkeepFacts) -> dict[str, str]:
    """Find the conditions that hold.

    Parameters
    ----------
    facts : UpkeepFacts

    Returns
    -------
    dict
        Key of `service.tables.upkeep.row.CONDITIONS` to the RFC 6901 pointer of what makes it hold.
    """
    conditions = (
        ("always", True, ""),
        *_line(facts),
        *_trap(facts),
        *_pressure(facts),
        *_water(facts),
        *_pump(facts),
        *_protection(facts),
        *_frost(facts),
        *_furnace(facts),
    )
    return {name: pointer for name, holds, pointer in conditions if holds}


def _line(facts: UpkeepFacts) -> Iterator[Condition]:
    line = facts.unit.get("line")
    cleanout = line.cleanout if line else None
    where = "/unit/line/cleanout"
    yield "cleanout-removable", cleanout == "removable", where
    yield "cleanout-welded", cleanout == "solvent-welded", where
    yield "no-cleanout", cleanout == "none", where
    yield "cleanout-unknown", cleanout is None, where
    fault = next((pointer for code, pointer in facts.codes.items() if code in FALLS_SHORT), None)
    yield "line-falls-short", fault is not None, fault or ""
    yield "supports-too-wide", "supports-too-far-apart" in facts.codes, "/unit/line/support_spacing"


def _trap(facts: UpkeepFacts) -> Iterator[Condition]:
    trap, where = facts.unit.get("trap"), "/unit/trap"
    yield "trap-unknown", trap is None, where
    yield "no-seal", trap is not None and not facts.has_seal, f"{where}/seal_depth"
    state = seal_state(facts)
    yield "trap-kept-full", state == "trap-kept-full", f"{where}/kept_full_off_season"
    yield "drained-trap", state == "drained-trap", "/unit/can_freeze"
    for name in ("seal-lost-by-spring", "seal-may-be-lost", "seal-lasts", "seal-not-followed"):
        yield name, state == name, f"{where}/seal_depth"
    drying = state in ("seal-lost-by-spring", "seal-may-be-lost")
    interval = facts.dry_out.refill_interval if facts.dry_out else None
    yield "refill-helps", drying and interval is not None and interval >= DAY, f"{where}/seal_depth"
    checked = facts.assessed.trap_check if facts.assessed else None
    held = checked is not None and checked.held_water_depth > MEASURABLE
    yield "held-water", held, f"{where}/outlet_drop"
    broken = checked is not None and facts.has_seal and checked.seal_margin < -SLACK
    yield "seal-broken", broken, f"{where}/seal_depth"


def seal_state(facts: UpkeepFacts) -> str | None:
    """What becomes of the seal between two seasons of cooling.

    Parameters
    ----------
    facts : UpkeepFacts

    Returns
    -------
    str or None
        The one condition that tells it; None without a seal.
    """
    if not facts.has_seal:
        return None
    if facts.kept_full:
        return "trap-kept-full"
    if facts.drained_for_winter:
        return "drained-trap"
    dry_out = facts.dry_out
    if dry_out is None or dry_out.after_idle is None or not dry_out.holds_when_full:
        return "seal-not-followed"
    states = {"holds": "seal-lasts", "uncertain": "seal-may-be-lost", "lost": "seal-lost-by-spring"}
    return states[dry_out.after_idle.outcome]


def _pressure(facts: UpkeepFacts) -> Iterator[Condition]:
    pressure, where = facts.unit.get("pan_pressure"), "/unit/pan_pressure"
    yield "pressure-known", pressure is not None, where
    yield "pressure-unknown", pressure is None, where
    suction = pressure is not None and pressure < 0.0
    yield "suction", suction, where
    yield "no-suction", not suction, where


def _water(facts: UpkeepFacts) -> Iterator[Condition]:
    discharge, pump = facts.unit.get("discharge"), facts.unit.get("pump")
    known = facts.assessed is not None and bool(facts.assessed.peak_rate)
    where = "/unit" if facts.unit else ""
    yield "gravity-peak-known", pump is None and known, where
    yield "gravity-peak-unknown", pump is None and not known, where
    yield "ends-outdoors", discharge is not None and discharge.place in OUTDOOR_PLACES, "/unit/discharge/place"
    yield "sanitary-direct", facts.sanitary, "/unit/discharge/place"
    yield "discharge-unknown", discharge is None, "/unit/discharge"


def _pump(facts: UpkeepFacts) -> Iterator[Condition]:
    pump, where = facts.unit.get("pump"), "/unit/pump"
    drains = facts.unit.get("line") is not None or facts.unit.get("discharge") is not None
    yield "pump-unknown", pump is None and not drains, where
    between = pump is not None and pump.pump.tank_volume_between_floats is not None
    yield "tank-known", between, f"{where}/pump/tank_volume_between_floats"
    yield "tank-unknown", pump is not None and not between, f"{where}/pump/tank_volume_between_floats"
    run = facts.assessed.pump_run if facts.assessed else None
    cycles = run is not None and run.cycles_per_hour is not None
    yield "cycles-known", pump is not None and cycles, where
    yield "cycles-unknown", pump is not None and not cycles, where
    safety = pump.pump.safety_float if pump else None
    where = f"{where}/pump/safety_float"
    yield "pump-float-wired", safety == "wired", where
    yield "pump-float-to-wire", safety in ("unwired", "none"), where
    yield "pump-float-unknown", pump is not None and safety is None, where


def _protection(facts: UpkeepFacts) -> Iterator[Condition]:
    protection, where = facts.unit.get("overflow_protection"), "/unit/overflow_protection"
    kind = protection.kind if protection else None
    depth = protection is not None and protection.cut_out_depth is not None
    yield "cut-out-depth-known", kind in CUT_OUTS and depth, f"{where}/cut_out_depth"
    yield "cut-out-depth-unknown", kind in CUT_OUTS and not depth, f"{where}/cut_out_depth"
    yield "second-way-out", kind in SECOND_WAYS, f"{where}/kind"
    pan = protection is not None and (kind in AUXILIARY_PANS or protection.auxiliary_pan is not None)
    yield "auxiliary-pan", pan, where
    yield "protection-none", kind == "none", f"{where}/kind"
    yield "protection-unknown", kind is None, where


def _frost(facts: UpkeepFacts) -> Iterator[Condition]:
    can_freeze, where = facts.unit.get("can_freeze"), "/unit/can_freeze"
    drained = facts.drained_for_winter
    yield "drain-for-winter", drained, where
    yield "frost-and-water", bool(can_freeze) and not drained, where
    yield "can-freeze", bool(can_freeze), where
    yield "frost-unknown", can_freeze is None, where


def _furnace(facts: UpkeepFacts) -> Iterator[Condition]:
    furnace, where = facts.furnace, "/furnace"
    yield "furnace-unknown", furnace is None, where
    yield "has-furnace", furnace is not None, where
    if furnace is None:
        return
    condenses = facts.condenses
    yield "furnace-condenses", condenses, f"{where}/fuel_input"
    dry = facts.fuel is not None and not condenses
    yield "furnace-stays-dry", dry, f"{where}/exhaust_temperature"
    shares = f"{where}/shares_drain"
    yield "sharing-unknown", furnace.shares_drain is None, shares
    yield "own-drain", furnace.shares_drain is False and condenses, shares
    shared = facts.shared is not None and condenses
    known = facts.shared is not None and facts.shared.peak_flow is not None
    yield "shared-peak-known", shared and known, shares
    yield "shared-peak-unknown", shared and not known, shares
    yield "acid-into-pump", shared and facts.unit.get("pump") is not None, shares
    neutralizer, where = furnace.neutralizer, f"{where}/neutralizer"
    yield "neutralizer-fitted", condenses and neutralizer == "fitted", where
    yield "neutralizer-missing", condenses and neutralizer == "missing", where
    yield "neutralizer-unknown", condenses and neutralizer in (None, "unknown"), where
    exposed = frost_exposure(facts)
    pointer = "/unit/can_freeze" if exposed == "can-freeze" else "/unit/discharge/place"
    yield "furnace-frost", exposed is not None, pointer


def frost_exposure(facts: UpkeepFacts) -> str | None:
    """Why the furnace's water can freeze in the drain it shares: a key of the table's words, or None.

    Parameters
    ----------
    facts : UpkeepFacts

    Returns
    -------
    str or None
        An end in the open counts where nothing says that it cannot freeze.
    """
    if facts.shared is None or not facts.condenses:
        return None
    can_freeze, discharge = facts.unit.get("can_freeze"), facts.unit.get("discharge")
    if can_freeze:
        return "can-freeze"
    if can_freeze is None and discharge is not None and discharge.place in OUTDOOR_PLACES:
        return "outdoors"
    return None
