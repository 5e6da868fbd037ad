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

FALLS_SHORT = {
    "line-runs-uphill",
    "line-is-level",
    "pitch-below-minimum",
    "segments-back-fall",
    "segments-flat",
    "segments-below-minimum",
    "pond-reaches-pan",
    "pond-fills-bore",
    "pond-may-fill-bore",
}
"""Findings of the assessment that a line does not fall all the way, or holds water."""

_CLEANOUTS = {
    "removable": "cleanout-removable",
    "solvent-welded": "cleanout-welded",
    "none": "no-cleanout",
    None: "cleanout-unknown",
}
_SAFETY_FLOATS = {
    "wired": "pump-float-wired",
    "unwired": "pump-float-to-wire",
    "none": "pump-float-to-wire",
    None: "pump-float-unknown",
}
_SEAL_POINTERS = {"trap-kept-full": "/unit/trap/kept_full_off_season", "drained-trap": "/unit/can_freeze"}

Condition = tuple[str, str]
"""A condition that holds, and the pointer of what makes it hold."""


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
    held = {"always": ""}
    for hold in (_line, _trap, _pressure, _water, _pump, _protection, _frost, _furnace):
        held.update(hold(facts))
    return held


def _line(facts: UpkeepFacts) -> Iterator[Condition]:
    line = facts.unit.get("line")
    yield _CLEANOUTS[line.cleanout if line else None], "/unit/line/cleanout"
    fault = next((pointer for code, pointer in facts.codes.items() if code in FALLS_SHORT), None)
    if fault is not None:
        yield "line-falls-short", fault
    if "supports-too-far-apart" in facts.codes:
        yield "supports-too-wide", "/unit/line/support_spacing"


def _trap(facts: UpkeepFacts) -> Iterator[Condition]:
    where, seal = "/unit/trap", "/unit/trap/seal_depth"
    if facts.unit.get("trap") is None:
        yield "trap-unknown", where
        return
    state = seal_state(facts)
    if state is None:
        yield "no-seal", seal
    else:
        yield state, _SEAL_POINTERS.get(state, seal)
    interval = facts.dry_out.refill_interval if facts.dry_out else None
    if state in ("seal-lost-by-spring", "seal-may-be-lost") and interval is not None and interval >= DAY:
        yield "refill-helps", seal
    checked = facts.assessed.trap_check if facts.assessed else None
    if checked is not None and checked.held_water_depth > MEASURABLE:
        yield "held-water", f"{where}/outlet_drop"
    if checked is not None and state is not None and checked.seal_margin < -SLACK:
        yield "seal-broken", seal


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
    yield "pressure-unknown" if pressure is None else "pressure-known", where
    yield "suction" if pressure is not None and pressure < 0.0 else "no-suction", where


def _water(facts: UpkeepFacts) -> Iterator[Condition]:
    discharge = facts.unit.get("discharge")
    if facts.unit.get("pump") is None:
        known = facts.assessed is not None and bool(facts.assessed.peak_rate)
        yield "gravity-peak-known" if known else "gravity-peak-unknown", "/unit" if facts.unit else ""
    if discharge is None:
        yield "discharge-unknown", "/unit/discharge"
    elif discharge.place in OUTDOOR_PLACES:
        yield "ends-outdoors", "/unit/discharge/place"
    if facts.sanitary:
        yield "sanitary-direct", "/unit/discharge/place"


def _pump(facts: UpkeepFacts) -> Iterator[Condition]:
    pump, where = facts.unit.get("pump"), "/unit/pump"
    if pump is None:
        if facts.unit.get("line") is None and facts.unit.get("discharge") is None:
            yield "pump-unknown", where
        return
    tank = pump.pump.tank_volume_between_floats
    yield "tank-unknown" if tank is None else "tank-known", f"{where}/pump/tank_volume_between_floats"
    run = facts.assessed.pump_run if facts.assessed else None
    yield "cycles-unknown" if run is None or run.cycles_per_hour is None else "cycles-known", where
    yield _SAFETY_FLOATS[pump.pump.safety_float], f"{where}/pump/safety_float"


def _protection(facts: UpkeepFacts) -> Iterator[Condition]:
    protection, where = facts.unit.get("overflow_protection"), "/unit/overflow_protection"
    if protection is None:
        yield "protection-unknown", where
        return
    kind = protection.kind
    if kind == "none":
        yield "protection-none", f"{where}/kind"
    elif kind in SECOND_WAYS:
        yield "second-way-out", f"{where}/kind"
    elif kind in CUT_OUTS:
        depth = protection.cut_out_depth
        yield "cut-out-depth-unknown" if depth is None else "cut-out-depth-known", f"{where}/cut_out_depth"
    if kind in AUXILIARY_PANS or protection.auxiliary_pan is not None:
        yield "auxiliary-pan", where


def _frost(facts: UpkeepFacts) -> Iterator[Condition]:
    can_freeze, where = facts.unit.get("can_freeze"), "/unit/can_freeze"
    if can_freeze is None:
        yield "frost-unknown", where
    elif can_freeze:
        yield "can-freeze", where
        yield "drain-for-winter" if facts.drained_for_winter else "frost-and-water", where


def _furnace(facts: UpkeepFacts) -> Iterator[Condition]:
    furnace, where = facts.furnace, "/furnace"
    if furnace is None:
        yield "furnace-unknown", where
        return
    yield "has-furnace", where
    shares = f"{where}/shares_drain"
    if furnace.shares_drain is None:
        yield "sharing-unknown", shares
    if facts.fuel is not None and not facts.condenses:
        yield "furnace-stays-dry", f"{where}/exhaust_temperature"
    if not facts.condenses:
        return
    yield "furnace-condenses", f"{where}/fuel_input"
    yield f"neutralizer-{furnace.neutralizer or 'unknown'}", f"{where}/neutralizer"
    if furnace.shares_drain is False:
        yield "own-drain", shares
    if facts.shared is None:
        return
    yield "shared-peak-unknown" if facts.shared.peak_flow is None else "shared-peak-known", shares
    if facts.unit.get("pump") is not None:
        yield "acid-into-pump", shares
    exposed = frost_exposure(facts)
    if exposed is not None:
        yield "furnace-frost", "/unit/can_freeze" if exposed == "can-freeze" else "/unit/discharge/place"


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
