"""What a person should know about a cleaning plan."""

from collections.abc import Iterator

from service.calculations.answer import Finding, Value
from service.calculations.cleaning_carry import water_needed
from service.calculations.cleaning_job import Job, Work
from service.calculations.cleaning_method import GAS_METHODS, is_slow
from service.calculations.cleaning_site import PUMP_PARTS
from service.calculations.cleaning_steps import count_cartridges
from service.calculations.cleaning_water import WaterPlan
from service.calculations.frozen import dataclass
from service.calculations.gas_supply import DRAINS_PER_CARTRIDGE, Cylinder
from service.calculations.installation import Discharge, PumpAsBuilt, TrapAsBuilt
from service.calculations.overflow_protection import WaterPan
from service.calculations.pump_curve import read_curve
from service.tables.cleaning_methods import CLOSED_PLACES, UNKNOWNS
from service.tables.cleaning_step_row import IN_WORDS

SLOW_TEST = 1800.0
"""Closing test [s] that is longer than anybody waits for. Common practice, no source."""

RULE_FACTOR = 2.0
"""How far cartridges may stand from the rule of two drains a cartridge before it is worth a word."""


@dataclass(frozen=True, kw_only=True, slots=True)
class Facts:
    """What a plan is judged by.

    Parameters
    ----------
    job : Job
        What is to be done.
    work : Work
        Its steps and time.
    water : WaterPlan
        Its water.
    discharge : Discharge or None
        As requested.
    pump : PumpAsBuilt or None
        As requested.
    pumped : bool or None
        As requested.
    pan : WaterPan or None
        As requested.
    trap : TrapAsBuilt or None
        As requested.
    cylinder : Cylinder or None
        As requested.
    """

    job: Job
    work: Work
    water: WaterPlan
    discharge: Discharge | None
    pump: PumpAsBuilt | None
    pumped: bool | None
    pan: WaterPan | None
    trap: TrapAsBuilt | None
    cylinder: Cylinder | None


def judge_plan(facts: Facts) -> tuple[Finding, ...]:
    """Judge a plan: access, reach, gas, closing test, pump.

    Parameters
    ----------
    facts : Facts
        The plan and what it was made from.

    Returns
    -------
    tuple of Finding
    """
    return (
        *_access_findings(facts),
        *_reach_findings(facts),
        *_gas_findings(facts),
        *_test_findings(facts),
        *_pump_findings(facts),
        *_closing_findings(facts),
    )


def _access_findings(facts: Facts) -> Iterator[Finding]:
    """What the way in costs."""
    site, way, work = facts.job.site, facts.job.way, facts.work
    good, total = 60.0 * work.good_minutes, 60.0 * work.minutes
    if way.opening:
        yield Finding(
            code="cleaning-starts-with-cutting", pointer="/line/cleanout", values={"good": good, "total": total}
        )
    elif site.cleanout == "none" and not site.union:
        yield Finding(code="line-not-cleanable", pointer="/line/cleanout")
    if site.cleanout == "solvent-welded":
        yield Finding(code="cleanout-welded", pointer="/line/cleanout")
    missing = [
        *(["a cleanout that opens by hand"] if site.cleanout != "removable" else []),
        *(["a union at the unit"] if not site.union else []),
    ]
    if missing and not way.opening and is_slow(site, way, facts.job.choice.method):
        values: dict[str, Value] = {"good": good, "total": total, "missing": missing}
        yield Finding(code="cleaning-takes-longer", pointer="/access", values=values)
    if site.unknown:
        unknowns = [UNKNOWNS[key] for key in site.unknown]
        yield Finding(code="cleaning-facts-assumed", pointer="", values={"unknowns": unknowns})
    if site.size_not_made:
        values = {"pipe_size": site.pipe_size, "material": site.size_not_made, "where": ""}
        yield Finding(code="pipe-size-not-made", pointer="/line/material", values=values)


def _reach_findings(facts: Facts) -> Iterator[Finding]:
    """What is fouled and stays so."""
    site, choice = facts.job.site, facts.job.choice
    left = site.run - choice.reached
    if "line" in site.fouled and left > 0.0:
        yield Finding(code="line-not-reached", pointer="/access", values={"left": left, "run": site.run})
    if "trap" in site.fouled and not choice.trap_reached and facts.water.has_trap:
        yield Finding(code="trap-not-reached", pointer="/equipment", values={"pipe_size": site.pipe_size})
    if "pan" in site.fouled and not site.pan_reachable:
        yield Finding(code="pan-not-reached", pointer="/access/pan_reachable")
    if site.pumped and not site.far_end_reachable:
        yield Finding(code="pump-not-reached", pointer="/access/far_end_reachable")
    if facts.pumped is False and any(part in site.fouled for part in PUMP_PARTS):
        yield Finding(code="pump-parts-without-pump", pointer="/pumped")
    if site.end is None:
        yield Finding(code="far-end-not-known", pointer="/discharge")
    if site.end_closed and facts.discharge:
        place = facts.discharge.place.replace("-", " ")
        yield Finding(code="discharge-into-sanitary", pointer="/discharge/place", values={"place": place})


def _gas_findings(facts: Facts) -> Iterator[Finding]:
    """Pressure, room and count of the gas that is used."""
    job, gas, method = facts.job, facts.job.gas, facts.job.choice.method
    if facts.cylinder and facts.cylinder.gas == "carbon-dioxide" and facts.cylinder.pressure is not None:
        yield Finding(code="carbon-dioxide-gauge", pointer="/equipment/cylinder/pressure")
    if gas is None or method not in GAS_METHODS:
        return
    use = gas.cartridges
    if method == "cartridge-gas" and use:
        if use.share_into_blocked_line < 1.0:
            values: dict[str, Value] = {
                "percent": 100.0 * use.share_into_blocked_line,
                "working_pressure": gas.working_pressure,
            }
            yield Finding(code="cartridge-bursts-only", pointer="/equipment/cartridge_gun", values=values)
        if use.cartridges_per_drain > RULE_FACTOR / DRAINS_PER_CARTRIDGE:
            values = {
                "volume": gas.volume,
                "count": use.cartridges_per_drain,
                "cartridges": count_cartridges(use.cartridges_for_this_drain),
            }
            yield Finding(code="cartridges-not-as-rule", pointer="/equipment/cartridge_gun", values=values)
    name = gas.cylinder.gas if method == "regulated-gas" and gas.cylinder else "carbon-dioxide"
    chosen = gas.cylinder if method == "regulated-gas" else gas.cartridges
    if chosen and chosen.smallest_room and job.site.location in CLOSED_PLACES:
        values = {"gas": chosen.gas_per_drain, "room": chosen.smallest_room, "gas_name": name.replace("-", " ")}
        yield Finding(code="gas-in-small-room", pointer="/location", values=values)


def _test_findings(facts: Facts) -> Iterator[Finding]:
    """What the closing test cannot show, or takes too long to."""
    site, water, test = facts.job.site, facts.water, facts.water.test
    if water.line.fills:
        yield Finding(code="closing-test-line-fills", pointer="/line/fall", values={"hold_up": test.line_hold_up})
    if not site.pan_reachable:
        values: dict[str, Value] = {"pour_place": IN_WORDS[test.pour_place]}
        yield Finding(code="closing-test-misses-pan", pointer="/access/pan_reachable", values=values)
    if test.pour_time > SLOW_TEST:
        values = {"time": test.pour_time, "volume": test.pour_volume}
        yield Finding(code="closing-test-slow", pointer="/pour_rate", values=values)
    if test.pour_rate < water.peak_flow:
        values = {"rate": test.pour_rate, "peak": water.peak_flow}
        yield Finding(code="closing-test-below-peak", pointer="/pour_rate", values=values)
    above = -facts.trap.outlet_drop if facts.trap else 0.0
    if facts.pan and above >= facts.pan.depth:
        values = {"above": above, "depth": facts.pan.depth}
        yield Finding(code="closing-test-pan-overflows", pointer="/trap/outlet_drop", values=values)
    if not water.has_trap:
        yield Finding(code="no-trap-to-refill", pointer="/trap/seal_depth")


def _pump_findings(facts: Facts) -> Iterator[Finding]:
    """What the pump does to the test."""
    pumped, rate = facts.water.pumped, facts.water.test.pour_rate
    if pumped is None:
        return
    if pumped.flow is None:
        yield Finding(code="pump-leaflet-not-given", pointer="/pump")
    elif pumped.flow <= 0.0 and facts.pump:
        values = {
            "lift": facts.pump.lift,
            "shut_off": read_curve(facts.pump.pump.curve).shut_off,
            "needed": facts.water.peak_flow,
        }
        yield Finding(code="pump-cannot-lift", pointer="/pump/lift", values=values)
    elif rate >= pumped.flow:
        values = {"rate": rate, "flow": pumped.flow, "half": pumped.flow / 2.0}
        yield Finding(code="closing-test-outruns-pump", pointer="/pour_rate", values=values)
    unsafe = {"unwired": "pump-safety-float-unwired", "none": "pump-safety-float-missing"}
    code = unsafe.get(facts.job.safety_float or "")
    if code:
        yield Finding(code=code, pointer="/pump/pump/safety_float")


def _closing_findings(facts: Facts) -> Iterator[Finding]:
    """Safety and water at the end of the visit."""
    site = facts.job.site
    if all(step.row.code != "trip-test" for step in facts.work.steps):
        yield Finding(code="nothing-to-trip", pointer="/access/float_switch")
    if not site.equipment.jug:
        yield Finding(code="water-not-on-truck", pointer="/equipment/jug", values={"volume": water_needed(facts.job)})
