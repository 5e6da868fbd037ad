"""The cleaning plan: every combination of access, tools and fouling, held to the rules of the work."""

import itertools
import math
from dataclasses import fields, is_dataclass, replace
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from service.calculations.answer import Answer, Sentence
from service.calculations.cleaning_gas import CartridgeGun, Cylinder
from service.calculations.cleaning_plan import CleaningPlan, plan_cleaning
from service.calculations.cleaning_site import FLOAT_SWITCHES, FOULED, Access, Brush, Equipment
from service.calculations.drain_profile import Station
from service.calculations.installation import CLEANOUTS, LOCATIONS, Discharge, LineAsBuilt, PumpAsBuilt, TrapAsBuilt
from service.calculations.overflow_protection import WaterPan
from service.calculations.pump import Pump
from service.calculations.pump_curve import CurvePoint
from service.calculations.pump_tube import Tube
from service.calculations.served_unit import ServedUnit
from service.errors import OutOfRange
from service.schemas.writing import fill, write_finding
from service.tables.pipe_sizes import MATERIALS, NOMINAL_SIZES

FOOT, INCH, PSI = 0.3048, 0.0254, 6894.757293168361
LIMIT = 30 * PSI

CURVE = tuple(CurvePoint(lift=lift, flow=flow) for lift, flow in ((0.0, 8e-5), (3.0, 4.5e-5), (5.0, 0.0)))
PUMP = PumpAsBuilt(
    lift=2.5,
    tube=Tube(bore=0.0095, length=8.0, elbows=2, check_valve=True),
    pump=Pump(curve=CURVE, tank_volume_between_floats=9e-4, volume_to_safety_float=4e-4, safety_float="wired"),
)
BOX, BOTTLE = CartridgeGun(cartridges=20), Cylinder(full_content=1.13)
TRUCKS = {
    "everything": Equipment(brush=Brush(), cartridge_gun=BOX, cylinder=BOTTLE, wet_dry_vacuum=True, jug=True, plugs=9),
    "gas": Equipment(brush=Brush(), cartridge_gun=BOX, cylinder=BOTTLE, jug=True, plugs=1),
    "gas without plugs": Equipment(cartridge_gun=BOX, jug=True),
    "cartridges": Equipment(brush=Brush(length=1.0), cartridge_gun=BOX, jug=True, plugs=4),
    "vacuum": Equipment(wet_dry_vacuum=True),
    "brush": Equipment(brush=Brush(length=20.0)),
    "nothing": Equipment(),
}
PLACES = (None, Discharge(place="outdoors"), Discharge(place="sanitary-line"))
FOULINGS = (("line", "trap", "pan", "pump-tank", "pump-tube"), ("trap",), ("pan",))
GAS = {"push-regulated-gas": "regulated-gas", "push-cartridge-gas": "cartridge-gas"}
PULL = "pull-with-vacuum"
BRUSHES = {"brush-from-cleanout", "brush-through-union", "brush-from-pan-outlet", "brush-from-far-end"}
COMBINATIONS = list(
    itertools.product(CLEANOUTS, (True, False), (True, False), (True, False), ("in-drain", "none"), (0, 2), PLACES)
)


def needs(tools: Equipment) -> set[str]:
    """Words for tools that the truck can give; what needs nothing is always there."""
    found = {"hands", "hand-tools", "building-water"}
    if tools.brush:
        found.add("brush")
    if tools.cartridge_gun:
        found.add("cartridge-gun")
    if tools.cylinder:
        found.add("regulated-gas")
    if tools.wet_dry_vacuum:
        found.add("wet-dry-vacuum")
    if tools.jug:
        found.add("jug")
    if tools.plugs:
        found.add("plugs")
    return found


def check_order(plan: CleaningPlan) -> None:
    """Safe first, float out before anything strong, plugs before gas, trap full before the proof, safety back last."""
    codes = [step.code for step in plan.steps]
    at = {code: index for index, code in enumerate(codes)}
    assert [step.order for step in plan.steps] == list(range(1, len(codes) + 1))
    assert codes[0] == "make-safe"
    assert codes.count("closing-test") == 1
    strong = [at[code] for code in codes if code in GAS or code == PULL or code in BRUSHES]
    if "float-switch-out" in at:
        assert all(at["float-switch-out"] < index for index in strong)
        assert at["closing-test"] < at["float-switch-back"] < at["power-back"] < at["trip-test"]
    else:
        assert "float-switch-back" not in at
    for code in codes:
        if code in GAS:
            assert at["close-openings"] == at[code] - 1
            assert all(at[brush] < at[code] for brush in BRUSHES & set(codes))
    if "take-plugs-out" in at:
        assert max(strong) < at["take-plugs-out"] < at["rinse"] < at["closing-test"]
    opened = {"open-union": "close-union", "line-out-of-tank": "line-back-into-tank"}
    for opening, closing in opened.items():
        assert (opening in at) == (closing in at)
        if opening in at and not (opening == "open-union" and plan.closing_test.pour_place == "union"):
            assert at[opening] < at[closing] < at["closing-test"]
            # the gun stands on an open union; suction would draw its air there, so it is closed before
            pulled = {at[PULL]} if PULL in at and opening == "open-union" else set()
            assert all(index < at[closing] for index in strong if index not in pulled)
            assert all(at[closing] < index for index in pulled)
    if "open-cleanout" in at or "open-up" in at:
        # closed at the latest after the water of the test; a cap put on for gas or suction is on
        capped = "cap-cleanout" in at or any("cleanout" in step.plug_first for step in plan.steps)
        assert capped
    if "refill-trap" in at:
        assert all(index < at["refill-trap"] for index in strong)
        assert at.get("rinse", 0) < at["refill-trap"] < at["closing-test"]
    if "clean-tank" in at:
        assert at["unplug-pump"] < at["clean-tank"] < at["plug-pump-in"] < at["closing-test"]
    assert codes[-1] in ("trip-test", "power-back")
    assert "power-back" in codes[-3:]


def check_steps(plan: CleaningPlan, tools: Equipment) -> None:
    """Nothing that is not on the truck; gas only where it was chosen, under its limit, with plugs enough."""
    for step in plan.steps:
        assert step.tool in needs(tools), step.code
        assert step.minutes >= 0.0
        if step.code in GAS:
            assert plan.method == GAS[step.code]
            assert step.pressure_limit is not None
            assert 0.0 < step.pressure_limit <= LIMIT
            assert {"compressed-gas", "biological-slime"} <= set(step.cautions)
        else:
            assert step.pressure_limit is None
    codes = {step.code for step in plan.steps}
    for code, method in (*GAS.items(), (PULL, "wet-dry-vacuum")):
        assert (code in codes) == (plan.method == method)
    refused = {row.method for row in plan.refused_methods}
    assert plan.method not in refused
    assert not refused & set(plan.alternatives)


def check_texts(answer: Answer[CleaningPlan]) -> None:
    """Every sentence fills in both unit systems; every caution of a step is in the envelope, each once."""
    plan = answer.results
    assert len(set(answer.cautions)) == len(answer.cautions)
    for step in plan.steps:
        assert set(step.cautions) <= set(answer.cautions)
    sentences = [text for step in plan.steps for text in (step.instruction, step.look_for)]
    sentences += [*plan.reasons, *(row.explanation for row in plan.refused_methods), plan.closing_test.pass_when]
    for system in ("us", "si"):
        for sentence in sentences:
            written = fill(sentence.text, sentence.values, system)
            assert written.endswith((".", "?"))
            assert "{" not in written
            assert "  " not in written
            assert ", ," not in written
        for finding in answer.findings:
            write_finding(finding, system)
    assert len({finding.code for finding in answer.findings}) == len(answer.findings)
    assert len({assumption.pointer for assumption in answer.assumptions}) == len(answer.assumptions)


@pytest.mark.parametrize("pumped", [False, True])
@pytest.mark.parametrize("truck", TRUCKS)
def test_every_access_gives_a_plan_that_keeps_the_rules_of_the_work(truck: str, pumped: bool) -> None:
    tools = TRUCKS[truck]
    for cleanout, union, pan, far_end, float_switch, vents, place in COMBINATIONS:
        for fouled in FOULINGS:
            answer = plan_cleaning(
                access=Access(
                    union=union, pan_reachable=pan, far_end_reachable=far_end, float_switch=float_switch, vents=vents
                ),
                line=LineAsBuilt(pipe_size="3/4", run=6.0, fall=0.1, cleanout=cleanout),
                fouled=fouled if pumped else tuple(part for part in fouled if not part.startswith("pump")),
                pump=PUMP if pumped else None,
                discharge=place,
                peak_flow=1.5e-6,
                equipment=tools,
            )
            plan = answer.results
            check_order(plan)
            check_steps(plan, tools)
            check_texts(answer)
            check_choice(plan, tools, (cleanout, union, pan, far_end, vents, place), pumped, fouled)


def check_choice(
    plan: CleaningPlan, tools: Equipment, access: tuple[Any, ...], pumped: bool, fouled: tuple[str, ...]
) -> None:
    """What may be used, reasoned anew from the trade's rules and compared with what was refused."""
    cleanout, union, pan, far_end, vents, place = access
    cut_in = not union and not pan and cleanout == "none"
    straight = not pumped and place is not None and place.place == "sanitary-line"
    # the way back to the pan can be closed where a union takes the pan off, or where a hand gets at the pan outlet; a
    # union or the pan outlet itself needs no plug for that
    closable = union or cut_in or pan
    plugs_enough = (tools.plugs or 0) >= vents
    somebody_sees_the_end = far_end or (not pumped and place is not None)
    gas = closable and plugs_enough and not straight and somebody_sees_the_end
    expected = {
        "wet-dry-vacuum": bool(tools.wet_dry_vacuum) and far_end and not straight,
        "regulated-gas": tools.cylinder is not None and gas,
        "cartridge-gas": tools.cartridge_gun is not None and gas,
        "brush": tools.brush is not None,
    }
    refused = {row.method for row in plan.refused_methods}
    assert {method for method, may in expected.items() if not may} == refused
    reasons = {row.reason for row in plan.refused_methods}
    assert ("bypasses-trap" in reasons) == (not closable)
    if fouled == ("pan",):
        assert plan.method == "by-hand"
    elif fouled == ("trap",) and expected["brush"]:
        assert plan.method == "brush"
    else:
        assert plan.method == next((method for method, may in expected.items() if may), "water-rinse")
    # nothing lets water in above the trap: the plan cuts, and says so
    blind = cleanout != "removable" and not union and not pan
    assert any(step.code == "open-up" for step in plan.steps) == blind
    for step in plan.steps:
        if step.code in GAS:
            assert step.place in ("union", "cleanout", "pan-outlet")
            needed = vents + ("pan-outlet" in step.plug_first)
            assert needed <= (tools.plugs or 0)
            # whatever is open between gun and blockage is closed: vents, the way to the pan, the cleanout
            assert ("vents" in step.plug_first) == (vents > 0)
            if step.place == "cleanout":
                assert "pan-outlet" in step.plug_first
            elif cleanout == "removable":
                assert "cleanout" in step.plug_first
        if step.place == "union":
            assert union or cut_in
        if step.code in ("clean-pan", "brush-from-pan-outlet"):
            assert pan
        if step.place == "far-end":
            assert far_end


def plan_of(**changes: Any) -> Answer[CleaningPlan]:
    """A unit with good access and a full truck, with changes."""
    request: dict[str, Any] = {
        "access": Access(union=True, pan_reachable=True, far_end_reachable=True, float_switch="in-pan", vents=0),
        "line": LineAsBuilt(
            pipe_size="3/4",
            material="pvc-schedule-40",
            run=6.0,
            fall=0.1,
            cleanout="removable",
            manning_coefficient=0.011,
        ),
        "trap": TrapAsBuilt(outlet_drop=0.05, seal_depth=0.05, pipe_size="3/4"),
        "fouled": ("line", "trap", "pan"),
        "discharge": Discharge(place="outdoors"),
        "peak_flow": 1.5e-6,
        "pour_rate": 2e-5,
        "equipment": Equipment(brush=Brush(length=1.5), wet_dry_vacuum=True, jug=True, plugs=2),
    }
    return plan_cleaning(**(request | changes))


def codes(answer: Answer[CleaningPlan]) -> set[str]:
    return {finding.code for finding in answer.findings}


def access(**changes: Any) -> Access:
    given: dict[str, Any] = {
        "union": True,
        "pan_reachable": True,
        "far_end_reachable": True,
        "float_switch": "in-pan",
        "vents": 0,
    }
    return Access(**(given | changes))


def test_a_sound_unit_passes_with_nothing_assumed() -> None:
    answer = plan_of()
    assert answer.verdict == "pass"
    assert answer.findings == ()
    assert answer.assumptions == ()
    assert answer.results.method == "wet-dry-vacuum"
    assert answer.results.total_minutes == answer.results.good_access_minutes


def test_nothing_known_is_a_plan_with_everything_assumed_and_a_step_to_find_out() -> None:
    answer = plan_cleaning()
    assert answer.verdict == "pass"
    assert "cleaning-facts-assumed" in codes(answer)
    assert "find-out" in {step.code for step in answer.results.steps}
    pointers = {assumption.pointer for assumption in answer.assumptions}
    assert {"/line/cleanout", "/access/union", "/equipment", "/fouled", "/peak_flow", "/pour_rate"} <= pointers
    check_order(answer.results)


@pytest.mark.parametrize(("cleanout", "union"), [("solvent-welded", True), ("removable", False), ("none", False)])
def test_bad_access_makes_the_visit_about_four_times_as_long(cleanout: str, union: bool) -> None:
    # common practice, no source: about four times; the pour of the closing test is not stretched
    answer = plan_of(access=access(union=union), line=LineAsBuilt(pipe_size="3/4", run=6.0, cleanout=cleanout))
    plan = answer.results
    assert 3.8 <= plan.total_minutes / plan.good_access_minutes <= 4.0
    assert plan.total_minutes == pytest.approx(math.fsum(step.minutes for step in plan.steps))
    assert "cleaning-takes-longer" in codes(answer)


def test_bad_access_does_not_matter_to_a_pan() -> None:
    plan = plan_of(access=access(union=False), fouled=("pan",)).results
    assert plan.total_minutes == plan.good_access_minutes


def test_no_way_in_begins_with_cutting_and_names_the_clause() -> None:
    nowhere = access(union=False, pan_reachable=False, far_end_reachable=False)
    answer = plan_of(access=nowhere, line=LineAsBuilt(pipe_size="3/4", run=6.0, cleanout="none"))
    assert answer.verdict == "fail"
    assert "cleaning-starts-with-cutting" in codes(answer)
    assert {"imc-cleanable", "irc-cleanable"} <= set(answer.sources)
    opening = next(step for step in answer.results.steps if step.code == "open-up")
    assert opening.tool == "hand-tools"
    assert "solvent-cement" in opening.cautions
    items = {carried.item for carried in answer.results.carry}
    assert {"cleanout-fittings", "union", "primer-and-cement"} <= items
    # once there is a cleanout the same drain is an ordinary one
    later = plan_of(access=nowhere, line=LineAsBuilt(pipe_size="3/4", run=6.0, cleanout="removable"))
    assert "cleaning-starts-with-cutting" not in codes(later)


def test_gas_at_the_cleanout_alone_would_bypass_the_trap() -> None:
    tools = Equipment(cylinder=Cylinder(), jug=True, plugs=9)
    hidden = access(union=False, pan_reachable=False)
    answer = plan_of(access=hidden, equipment=tools)
    reasons = {(row.method, row.reason) for row in answer.results.refused_methods}
    assert ("regulated-gas", "bypasses-trap") in reasons
    assert answer.results.method == "water-rinse"
    assert {"line-not-reached", "trap-not-reached"} <= codes(answer)
    # a union, or a hand at the pan outlet, makes it possible
    assert plan_of(access=access(pan_reachable=False), equipment=tools).results.method == "regulated-gas"
    assert plan_of(access=access(union=False), equipment=tools).results.method == "regulated-gas"


def test_gas_goes_in_at_the_pan_outlet_where_a_plug_is_wanting() -> None:
    tools = Equipment(cylinder=Cylinder(), jug=True)
    step = next(
        step
        for step in plan_of(access=access(union=False), equipment=tools).results.steps
        if step.code == "push-regulated-gas"
    )
    assert (step.place, step.plug_first) == ("pan-outlet", ("cleanout",))
    with_plug = Equipment(cylinder=Cylinder(), jug=True, plugs=1)
    step = next(
        step
        for step in plan_of(access=access(union=False), equipment=with_plug).results.steps
        if step.code == "push-regulated-gas"
    )
    assert (step.place, step.plug_first) == ("cleanout", ("pan-outlet",))


def test_every_other_unit_on_the_line_is_an_opening() -> None:
    line = LineAsBuilt(
        pipe_size="3/4", run=6.0, cleanout="removable", shared_with=(ServedUnit(total_capacity=1e4),) * 3
    )
    tools = Equipment(cylinder=Cylinder(), jug=True, plugs=2)
    short = plan_of(line=line, equipment=tools)
    assert ("regulated-gas", "openings-left-open") in {
        (row.method, row.reason) for row in short.results.refused_methods
    }
    enough = plan_of(line=line, equipment=Equipment(cylinder=Cylinder(), jug=True, plugs=3))
    step = next(step for step in enough.results.steps if step.code == "push-regulated-gas")
    assert "other-units" in step.plug_first


@pytest.mark.parametrize("size", NOMINAL_SIZES)
def test_gas_suits_three_quarters_to_one_inch(size: str) -> None:
    tools = Equipment(cylinder=Cylinder(), cartridge_gun=CartridgeGun(cartridges=500), brush=Brush(), plugs=9)
    answer = plan_of(line=LineAsBuilt(pipe_size=size, run=6.0, cleanout="removable"), equipment=tools)
    unsuited = {row.method for row in answer.results.refused_methods if row.reason == "bore-not-suited"}
    assert unsuited == (set() if size in ("3/4", "1") else {"regulated-gas", "cartridge-gas"})
    assert ("brush" in {row.method for row in answer.results.refused_methods}) == (size == "1/2")


def test_gas_is_refused_where_there_is_not_enough() -> None:
    for tools in (
        Equipment(cylinder=Cylinder(internal_volume=1e-3, pressure=3e5), plugs=2),
        Equipment(cartridge_gun=CartridgeGun(cartridges=0), plugs=2),
        # 300 ft of 1 in line takes dozens of cartridges
        Equipment(cartridge_gun=CartridgeGun(cartridges=5), plugs=2),
    ):
        line = LineAsBuilt(pipe_size="1", run=90.0, cleanout="removable")
        refused = {(row.method, row.reason) for row in plan_of(line=line, equipment=tools).results.refused_methods}
        assert ("cartridge-gas" if tools.cartridge_gun else "regulated-gas", "not-enough-gas") in refused


def test_a_cartridge_in_a_short_line_is_a_finding_and_a_regulator_goes_before_it() -> None:
    both = Equipment(cylinder=Cylinder(), cartridge_gun=CartridgeGun(cartridges=9), brush=Brush(), plugs=2)
    assert plan_of(equipment=both).results.method == "regulated-gas"
    answer = plan_of(equipment=Equipment(cartridge_gun=CartridgeGun(cartridges=9), brush=Brush(), plugs=2))
    assert answer.results.method == "cartridge-gas"
    assert "cartridge-bursts-only" in codes(answer)


def test_gas_that_displaces_air_is_cautioned_in_closed_places_only() -> None:
    def cautions(gas: str, location: str) -> tuple[set[str], set[str]]:
        tools = Equipment(cylinder=Cylinder(gas=gas), plugs=2)
        answer = plan_of(location=location, equipment=tools)
        return set(answer.cautions), codes(answer)

    for gas in ("nitrogen", "carbon-dioxide"):
        for location in LOCATIONS:
            warned, found = cautions(gas, location)
            assert ("gas-displaces-air" in warned) == (location not in ("roof", "outdoors"))
            assert ("gas-in-small-room" in found) == (location in ("attic", "crawl-space", "above-ceiling", "closet"))
    warned, found = cautions("air", "attic")
    assert "gas-displaces-air" not in warned
    assert "gas-in-small-room" not in found


def test_a_line_into_a_sanitary_drain_is_neither_blown_nor_pulled() -> None:
    answer = plan_of(discharge=Discharge(place="sanitary-line"), equipment=TRUCKS["everything"])
    assert answer.results.method == "brush"
    assert "discharge-into-sanitary" in codes(answer)
    assert "sewer-gas" in answer.cautions
    gap = plan_of(discharge=Discharge(place="sanitary-line", air_gap=True), equipment=TRUCKS["everything"])
    assert gap.results.method == "wet-dry-vacuum"


def test_a_pumped_unit_gets_tank_tube_and_trip_test() -> None:
    answer = plan_of(pump=PUMP, fouled=FOULED, access=access(float_switch="none"))
    steps = [step.code for step in answer.results.steps]
    assert {"unplug-pump", "line-out-of-tank", "clean-tank", "clean-tube", "plug-pump-in", "trip-test"} <= set(steps)
    test = answer.results.closing_test
    assert test.tank_volume == 9e-4
    # pi/4 x 0.0095^2 x 8 = 5.6706e-4
    assert test.tube_volume == pytest.approx(5.6706e-4, rel=1e-4)
    trip = answer.results.steps[-1]
    assert "1.3 L" in fill(trip.instruction.text, trip.instruction.values, "si")  # 0.9 to the float, 0.4 to the safety


def test_a_pump_that_cannot_lift_or_keep_up_is_said() -> None:
    high = plan_of(pump=replace(PUMP, lift=6.0))
    assert "pump-cannot-lift" in codes(high)
    assert high.results.closing_test.time_to_show is None
    assert "closing-test-outruns-pump" in codes(plan_of(pump=PUMP, pour_rate=1e-4))
    unwired = replace(PUMP, pump=replace(PUMP.pump, safety_float="unwired"))
    assert "pump-safety-float-unwired" in codes(plan_of(pump=unwired))
    assert "pump-leaflet-not-given" in codes(plan_of(pumped=True))
    assert "pump-parts-without-pump" in codes(plan_of(pumped=False, fouled=("pump-tank",)))


def test_a_trap_above_its_pan_fills_the_pan_first() -> None:
    # 0.3 m2 of pan, 10 mm up: 3 L and the trap itself
    answer = plan_of(
        trap=TrapAsBuilt(outlet_drop=-0.01, seal_depth=0.05, pipe_size="3/4"), pan=WaterPan(area=0.3, depth=0.05)
    )
    assert answer.results.closing_test.trap_volume == pytest.approx(3e-3, rel=0.02)
    shallow = plan_of(
        trap=TrapAsBuilt(outlet_drop=-0.06, seal_depth=0.05, pipe_size="3/4"), pan=WaterPan(area=0.3, depth=0.05)
    )
    assert "closing-test-pan-overflows" in codes(shallow)


def test_a_surveyed_line_gives_its_own_length_and_fall() -> None:
    stations = (Station(distance=0.0, invert=1.0), Station(distance=6.0, invert=0.9))
    given = plan_of().results.closing_test
    surveyed = plan_of(
        line=LineAsBuilt(
            pipe_size="3/4",
            material="pvc-schedule-40",
            cleanout="removable",
            manning_coefficient=0.011,
            stations=stations,
        )
    )
    assert surveyed.results.closing_test.line_hold_up == pytest.approx(given.line_hold_up, rel=1e-9)
    assert surveyed.assumptions == ()


def test_without_a_trap_nothing_is_refilled() -> None:
    answer = plan_of(trap=TrapAsBuilt(outlet_drop=0.05, seal_depth=0.0, pipe_size="3/4"))
    assert "refill-trap" not in {step.code for step in answer.results.steps}
    assert answer.results.closing_test.trap_volume == pytest.approx(0.0, abs=1e-12)
    assert "no-trap-to-refill" in codes(answer)


def test_the_closing_test_is_judged() -> None:
    assert "closing-test-below-peak" in codes(plan_of(peak_flow=3e-5))
    assert "closing-test-line-fills" in codes(
        plan_of(line=LineAsBuilt(pipe_size="3/4", run=6.0, fall=0.0, cleanout="removable"))
    )
    # a level line of 344 mL/m fills at 1 mL/s: 6 m take 34 min
    level = LineAsBuilt(pipe_size="3/4", run=6.0, fall=0.0, cleanout="removable")
    assert "closing-test-slow" in codes(plan_of(pour_rate=1e-6, line=level))
    assert "closing-test-misses-pan" in codes(plan_of(access=access(pan_reachable=False), fouled=("line",)))


def test_what_is_carried_is_what_the_steps_use() -> None:
    plan = plan_of(equipment=Equipment(brush=Brush(), cylinder=Cylinder(), plugs=2)).results
    carried = {item.item: item for item in plan.carry}
    assert carried["regulated-gas"].free_gas == plan.gas.cylinder.gas_per_drain  # type: ignore[union-attr]
    assert carried["jug"].on_truck is False
    # rinse of trap and line, the test, nothing else: 6 m of 0.824 in hold 2.064 L
    assert carried["water"].volume == pytest.approx(plan.gas.volume + plan.closing_test.pour_volume)  # type: ignore[union-attr]
    assert "wet-dry-vacuum" not in carried
    assert "cartridges" not in carried


@pytest.mark.parametrize(
    ("changes", "name"),
    [
        ({"working_pressure": 31 * PSI}, "working_pressure"),
        ({"peak_flow": 1.0}, "peak_flow"),
        ({"pour_rate": 0.0}, "pour_rate"),
        ({"trap": TrapAsBuilt(outlet_drop=9.0, seal_depth=0.1)}, "outlet_drop"),
        ({"line": LineAsBuilt(run=1e4)}, "run"),
        ({"pan": WaterPan(area=1e4, depth=0.1)}, "area"),
        ({"equipment": Equipment(brush=Brush(length=1e3))}, "brush_length"),
        ({"equipment": Equipment(cylinder=Cylinder(pressure=1e9))}, "pressure"),
        ({"equipment": Equipment(cartridge_gun=CartridgeGun(cartridge_mass=5.0))}, "cartridge_mass"),
    ],
)
def test_beyond_a_limit_is_refused(changes: dict[str, Any], name: str) -> None:
    with pytest.raises(OutOfRange, match=name):
        plan_of(**changes)


MAYBE = st.none() | st.booleans()
REQUESTS = st.fixed_dictionaries(
    {},
    optional={
        "location": st.sampled_from(LOCATIONS),
        "access": st.builds(
            Access,
            union=MAYBE,
            pan_reachable=MAYBE,
            far_end_reachable=MAYBE,
            float_switch=st.none() | st.sampled_from(FLOAT_SWITCHES),
            vents=st.none() | st.integers(0, 50),
        ),
        "fouled": st.lists(st.sampled_from(FOULED), max_size=5).map(tuple),
        "trap": st.builds(
            TrapAsBuilt,
            outlet_drop=st.floats(-0.3, 1.5),
            seal_depth=st.floats(0.0, 1.0),
            pipe_size=st.none() | st.sampled_from(NOMINAL_SIZES),
            unit_side_pipe_size=st.none() | st.sampled_from(NOMINAL_SIZES),
        ),
        "line": st.builds(
            LineAsBuilt,
            pipe_size=st.none() | st.sampled_from(NOMINAL_SIZES),
            material=st.none() | st.sampled_from(MATERIALS),
            run=st.none() | st.floats(0.05, 300.0),
            fall=st.none() | st.floats(-10.0, 30.0),
            cleanout=st.none() | st.sampled_from(CLEANOUTS),
            stations=st.just(())
            | st.lists(
                st.builds(Station, distance=st.floats(0.0, 300.0), invert=st.floats(-100.0, 100.0)),
                min_size=2,
                max_size=5,
            ).map(tuple),
        ),
        "pan": st.builds(WaterPan, area=st.floats(0.01, 50.0), depth=st.floats(0.002, 0.5)),
        "discharge": st.sampled_from(PLACES[1:]),
        "peak_flow": st.floats(0.0, 2e-3),
        "pour_rate": st.floats(1e-6, 2e-3),
        "working_pressure": st.floats(2 * PSI, LIMIT),
        "sweeps": st.floats(0.0, 50.0),
        "gas_temperature": st.floats(253.15, 333.15),
        "equipment": st.builds(
            Equipment,
            brush=st.none() | st.builds(Brush, length=st.none() | st.floats(0.1, 60.0)),
            cartridge_gun=st.none() | st.builds(CartridgeGun, cartridges=st.none() | st.integers(0, 10_000)),
            cylinder=st.none()
            | st.builds(
                Cylinder,
                gas=st.none() | st.sampled_from(("nitrogen", "air", "carbon-dioxide")),
                pressure=st.none() | st.floats(0.0, 21e6),
            ),
            wet_dry_vacuum=MAYBE,
            jug=MAYBE,
            plugs=st.none() | st.integers(0, 200),
        ),
        "pump": st.just(PUMP),
    },
)


def numbers(value: Any) -> list[float]:
    """Every float among results, however deep."""
    if isinstance(value, Sentence):
        return [number for number in value.values.values() if isinstance(number, float)]
    if is_dataclass(value):
        return [number for field in fields(value) for number in numbers(getattr(value, field.name))]
    if isinstance(value, tuple):
        return [number for item in value for number in numbers(item)]
    return [value] if isinstance(value, float) else []


@given(REQUESTS)
def test_every_request_within_limits_gets_a_finite_plan_that_keeps_the_rules(request: dict[str, Any]) -> None:
    answer = plan_cleaning(**request)
    plan = answer.results
    assert all(math.isfinite(number) for number in numbers(plan))
    assert all(number >= 0.0 for number in numbers(plan.closing_test))
    check_order(plan)
    check_texts(answer)
    if "equipment" in request:
        check_steps(plan, request["equipment"])
    assert plan.total_minutes >= plan.good_access_minutes * (1 - 1e-12)
