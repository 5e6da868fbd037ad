"""How soon: what any dispatcher would agree with, and coherence. The classes are common practice, no source."""

from dataclasses import replace
from itertools import combinations
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from service.calculations.answer import Finding
from service.calculations.assessment import assess_unit
from service.calculations.cleaning_site import Equipment
from service.calculations.installation import BELOW, Cooling, Discharge, LineAsBuilt, PumpAsBuilt, TrapAsBuilt
from service.calculations.maintenance_round import settle_truck
from service.calculations.overflow_protection import Protection, WaterPan
from service.calculations.pump import Pump
from service.calculations.pump_curve import CurvePoint
from service.calculations.pump_tube import Tube
from service.calculations.unit_visit import UnitVisit, visit_unit
from service.calculations.visit_urgency import judge_urgency
from service.tables.findings.catalogue import FINDINGS
from service.tables.urgency import RULES, URGENCIES

INCH, FOOT, INCH_OF_WATER = 0.0254, 0.3048, 249.08891
GALLON, HOUR, TON = 3.785411784e-3, 3600.0, 3516.852842066667

TRUCK: Equipment = settle_truck(None)
GOOD: dict[str, Any] = {
    "location": "closet",
    "below": "finished-ceiling",
    "cooling": Cooling(total_capacity=3 * TON, sensible_heat_ratio=0.75),
    "pan": WaterPan(area=0.3, depth=2 * INCH),
    "pan_pressure": -0.8 * INCH_OF_WATER,
    "trap": TrapAsBuilt(outlet_drop=2.5 * INCH, seal_depth=2 * INCH, pipe_size="3/4"),
    "line": LineAsBuilt(pipe_size="3/4", run=20 * FOOT, fall=5 * INCH, pan_outlet="3/4", cleanout="removable"),
    "discharge": Discharge(place="mop-sink", air_gap=True),
    "overflow_protection": Protection(kind="drain-cut-out", cut_out_depth=1 * INCH),
    "months_since_cleaning": 4.0,
}
PUMP = PumpAsBuilt(
    lift=2.5,
    tube=Tube(bore=0.375 * INCH, length=6.0, elbows=2, check_valve=True),
    pump=Pump(
        curve=(CurvePoint(lift=0.0, flow=80 * GALLON / HOUR), CurvePoint(lift=6.0, flow=0.0)),
        tank_volume_between_floats=0.25 * GALLON,
        volume_to_overflow=0.5 * GALLON,
        safety_float="wired",
    ),
)


def visit(**members: Any) -> UnitVisit:
    known = {name: value for name, value in {**GOOD, **members}.items() if value is not None}
    return visit_unit(equipment=TRUCK, **known).results


def rank(found: UnitVisit) -> int:
    """0 is the most urgent."""
    return URGENCIES.index(found.urgency)


def conditions(found: UnitVisit) -> set[str]:
    return {reason.condition for reason in found.reasons}


def test_a_unit_in_good_order_waits_for_its_turn() -> None:
    found = visit()
    assert found.urgency == "next-visit"
    assert conditions(found) == {"nothing-urgent"}
    assert (found.soonest_failure.stop, found.soonest_failure.time_to_building) == ("stopped", None)


CASES: dict[str, tuple[dict[str, Any], str, str]] = {
    "the pan runs over": ({"pan": WaterPan(area=0.3, depth=0.05, water_depth=0.05)}, "now", "running-over"),
    "water stands at the cut-out": (
        {"pan": WaterPan(area=0.3, depth=0.05, water_depth=0.03)},
        "now",
        "water-at-cut-out",
    ),
    "water stands and nothing stops it": (
        {"pan": WaterPan(area=0.3, depth=0.05, water_depth=0.01), "overflow_protection": Protection(kind="none")},
        "now",
        "water-standing-unstopped",
    ),
    "water stands below the cut-out": (
        {"pan": WaterPan(area=0.3, depth=0.05, water_depth=0.01)},
        "this-week",
        "water-standing",
    ),
    "sewer gas with a lost seal": (
        {
            "discharge": Discharge(place="sanitary-line", air_gap=False),
            "trap": TrapAsBuilt(outlet_drop=2.5 * INCH, seal_depth=0.2 * INCH),
        },
        "now",
        "sewer-gas-seal-lost",
    ),
    "sewer gas with no trap known": (
        {"discharge": Discharge(place="soil-stack"), "trap": None},
        "now",
        "sewer-gas-open",
    ),
    "sewer behind a good seal": (
        {"discharge": Discharge(place="sanitary-line", air_gap=False)},
        "this-week",
        "sewer-connection",
    ),
    "a level line and nothing that stops": (
        {"line": replace(GOOD["line"], fall=0.0), "overflow_protection": Protection(kind="none")},
        "this-week",
        "blocks-soon-unstopped",
    ),
    "nothing stops, cleaned lately": ({"overflow_protection": Protection(kind="none")}, "this-month", "not-stopped"),
    "nothing stops, cleaned nobody knows when": (
        {"overflow_protection": Protection(kind="none"), "months_since_cleaning": None},
        "this-week",
        "not-stopped-cleaning-not-known",
    ),
    "nothing known that stops": ({"overflow_protection": None}, "this-month", "stop-not-known"),
    "a cut-out above the rim": (
        {"overflow_protection": Protection(kind="drain-cut-out", cut_out_depth=3 * INCH)},
        "this-month",
        "not-stopped",
    ),
    "a trap that holds the water up": (
        {"trap": TrapAsBuilt(outlet_drop=0.25 * INCH, seal_depth=2 * INCH)},
        "this-month",
        "held-up",
    ),
    "a season since the last cleaning": ({"months_since_cleaning": 12.0}, "this-month", "cleaning-overdue"),
    "reported fouled": ({"fouled": ("trap",)}, "this-month", "fouled"),
    "a pump that cannot lift, its float not wired": (
        {"pump": replace(PUMP, lift=7.0, pump=replace(PUMP.pump, safety_float="unwired"))},
        "now",
        "pump-overwhelmed-unstopped",
    ),
    "a pump that cannot lift, its float wired": ({"pump": replace(PUMP, lift=7.0)}, "this-week", "pump-overwhelmed"),
    "a good pump, its float not wired": (
        {"pump": replace(PUMP, pump=replace(PUMP.pump, safety_float="unwired"))},
        "this-week",
        "pump-not-stopped-over-damage",
    ),
    "a good pump, nothing known of its float": (
        {"pump": replace(PUMP, pump=replace(PUMP.pump, safety_float=None))},
        "this-month",
        "pump-stop-not-known",
    ),
}


@pytest.mark.parametrize("name", CASES)
def test_a_case_has_its_class_and_says_why(name: str) -> None:
    members, urgency, condition = CASES[name]
    found = visit(**members)
    assert found.urgency == urgency
    assert condition in conditions(found)
    assert found.reasons[0].urgency == urgency  # the most urgent first


def test_a_readings_fault_alone_does_not_send_a_truck() -> None:
    codes = [code for rule in RULES if rule.name == "readings-in-doubt" for code in rule.findings]
    assessment = assess_unit(**{name: value for name, value in GOOD.items() if name != "months_since_cleaning"}).results
    for code in codes:
        found = judge_urgency(
            assessment=assessment,
            findings=[Finding(code=code)],
            below="finished-ceiling",
            protection=GOOD["overflow_protection"],
            months_since_cleaning=1.0,
        )
        assert found.urgency == "next-visit"


@pytest.mark.parametrize("below", [*BELOW, None])
def test_protection_not_known_stands_between_protection_there_and_protection_missing(below: str | None) -> None:
    """Over anything that water damages, or may damage, what nobody has said counts as less than safe."""
    there = visit(below=below)
    not_known = visit(below=below, overflow_protection=None)
    missing = visit(below=below, overflow_protection=Protection(kind="none"))
    if below == "nothing-to-damage":
        assert rank(there) == rank(not_known) == rank(missing)
    else:
        assert rank(there) > rank(not_known) >= rank(missing)
    fouled = {"below": below, "months_since_cleaning": 24.0}
    later = [visit(**fouled), visit(**fouled, overflow_protection=None)]
    assert rank(later[0]) >= rank(later[1])


def test_the_time_that_nobody_can_tell_does_not_put_a_unit_last() -> None:
    """220 minutes of room are less hurry than a pan of which nobody knows how much it holds; 10 minutes are more."""
    unprotected = {"overflow_protection": Protection(kind="none")}
    known, small, unknown = visit(**unprotected), visit(**unprotected, pan=WaterPan(area=0.05, depth=0.012)), None
    unknown = visit(**unprotected, pan=None)
    assert small.soonest_failure.time_to_building is not None
    assert small.soonest_failure.time_to_building < 1800.0
    assert small.standing.order[:2] < unknown.standing.order[:2] < known.standing.order[:2]


def test_the_soonest_of_drain_and_pump_is_told_with_its_time() -> None:
    """By hand: 3 tons at 0.25 latent are 2637.6 W; over 1060 Btu/lb (2.4656 MJ/kg) 1.0698 g/s, 1.0717e-6 m3/s at 998.2
    kg/m3. The tank's half gallon lasts 1.8927e-3 / 1.0717e-6 = 1766 s, the pan's 0.3 x 0.0508 = 15.24 L four hours."""
    pump = replace(PUMP, pump=replace(PUMP.pump, safety_float="none"))
    found = visit(pump=pump, overflow_protection=Protection(kind="none")).soonest_failure
    assert (found.failure, found.stop, found.would_wet) == ("pump-dies", "not-stopped", "finished-ceiling")
    assert found.time_to_building == pytest.approx(1766.0, rel=2e-3)
    without = visit(overflow_protection=Protection(kind="none")).soonest_failure
    assert without.failure == "drain-blocks"
    assert without.time_to_building == pytest.approx(0.3 * 0.0508 / 1.0717e-6, rel=2e-3)


WORSE: dict[str, dict[str, Any]] = {
    "protection gone": {"overflow_protection": Protection(kind="none")},
    "water in the pan": {"pan": WaterPan(area=0.3, depth=2 * INCH, water_depth=0.5 * INCH)},
    "level line": {"line": replace(GOOD["line"], fall=0.0)},
    "outlet drop too small": {"trap": TrapAsBuilt(outlet_drop=0.25 * INCH, seal_depth=2 * INCH, pipe_size="3/4")},
    "connected to the sewer": {"discharge": Discharge(place="sanitary-line", air_gap=False)},
    "two years since cleaning": {"months_since_cleaning": 24.0},
    "freezes": {"can_freeze": True},
    "fouled": {"fouled": ("line",)},
    "pump cannot lift": {"pump": replace(PUMP, lift=7.0)},
    "pump float not wired": {"pump": replace(PUMP, pump=replace(PUMP.pump, safety_float="unwired"))},
}


@pytest.mark.parametrize("size", [1, 2, 3])
def test_a_further_failure_never_lowers_the_class_of_a_real_unit(size: int) -> None:
    """Every set of up to three failures, against each set of one less."""
    ranks: dict[frozenset[str], int] = {}

    def of(names: frozenset[str]) -> int:
        if names not in ranks:
            members: dict[str, Any] = {}
            for name in sorted(names):
                members |= WORSE[name]
            ranks[names] = rank(visit(**members))
        return ranks[names]

    for names in combinations(WORSE, size):
        if len({member for name in names for member in WORSE[name]}) < size:
            continue  # two that change the same member
        for left in names:
            assert of(frozenset(names)) <= of(frozenset(names) - {left}), (names, left)


CODES = sorted(code for code, row in FINDINGS.items())
ASSESSMENT = assess_unit(**{name: value for name, value in GOOD.items() if name != "months_since_cleaning"}).results


@settings(max_examples=300, deadline=None)
@given(
    st.lists(st.sampled_from(CODES), max_size=12),
    st.sampled_from(CODES),
    st.sampled_from([*BELOW, None]),
    st.sampled_from([None, Protection(kind="none"), Protection(kind="drain-cut-out")]),
    st.sampled_from([None, 0.0, 11.9, 12.0, 600.0]),
    st.sampled_from([None, (), ("line",)]),
    st.sampled_from([None, True]),
)
def test_a_further_finding_never_lowers_the_class_nor_takes_a_reason(
    codes: list[str],
    further: str,
    below: str | None,
    protection: Protection | None,
    months: float | None,
    fouled: tuple[str, ...] | None,
    pumped: bool | None,
) -> None:
    def judge(found: list[str]) -> Any:
        return judge_urgency(
            assessment=ASSESSMENT,
            findings=[Finding(code=code) for code in found],
            below=below,
            protection=protection,
            months_since_cleaning=months,
            fouled=fouled,
            pumped=pumped,
        )

    before, after = judge(codes), judge([*codes, further])
    assert URGENCIES.index(after.urgency) <= URGENCIES.index(before.urgency)
    kept = {reason.condition for reason in before.reasons} - {"nothing-urgent"}
    assert kept <= {reason.condition for reason in after.reasons}


LESS_KNOWN = ["below", "overflow_protection", "months_since_cleaning", "pan", "cooling"]


@pytest.mark.parametrize("size", [1, 2, 3, 4, 5])
def test_what_is_not_said_never_makes_a_good_unit_safer(size: int) -> None:
    for names in combinations(LESS_KNOWN, size):
        assert rank(visit(**dict.fromkeys(names))) <= rank(visit()), names
