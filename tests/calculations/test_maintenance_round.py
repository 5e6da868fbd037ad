"""A round is its units: the order any dispatcher would agree with, sums that are sums, gas that lasts as said."""

from collections.abc import Callable
from dataclasses import replace
from math import ceil, fsum
from random import Random
from typing import Any

import pytest

from service.calculations.answer import Answer
from service.calculations.assessment import assess_unit
from service.calculations.cleaning_plan import plan_cleaning
from service.calculations.cleaning_site import Access, Brush, Equipment
from service.calculations.gas_supply import CartridgeGun, Cylinder
from service.calculations.installation import Cooling, Discharge, LineAsBuilt, TrapAsBuilt
from service.calculations.maintenance_round import MaintenanceRound, plan_round, settle_truck
from service.calculations.overflow_protection import Protection, WaterPan
from service.calculations.unit_visit import UnitVisit, visit_unit
from service.errors import OutOfRange
from service.schemas.writing import write_assumption

INCH, FOOT, INCH_OF_WATER, TON, CUBIC_FOOT = 0.0254, 0.3048, 249.08891, 3516.852842066667, 0.3048**3

GAS_TRUCK = Equipment(
    brush=Brush(), cartridge_gun=CartridgeGun(cartridges=3), cylinder=Cylinder(pressure=2e6), jug=True, plugs=4
)
CUT_OUT = Protection(kind="drain-cut-out", cut_out_depth=1 * INCH)
NONE = Protection(kind="none")


def unit(unit_id: str, **members: Any) -> dict[str, Any]:
    """An invented unit in good order, but for what is given."""
    good = {
        "unit_id": unit_id,
        "below": "occupied-space",
        "cooling": Cooling(total_capacity=3 * TON, sensible_heat_ratio=0.75),
        "pan": WaterPan(area=0.3, depth=2 * INCH),
        "pan_pressure": -0.8 * INCH_OF_WATER,
        "trap": TrapAsBuilt(outlet_drop=2.5 * INCH, seal_depth=2 * INCH, pipe_size="3/4"),
        "line": LineAsBuilt(pipe_size="3/4", run=20 * FOOT, fall=5 * INCH, cleanout="removable"),
        "discharge": Discharge(place="mop-sink", air_gap=True),
        "overflow_protection": CUT_OUT,
        "access": Access(union=True, pan_reachable=True, far_end_reachable=True, float_switch="in-pan", vents=0),
        "months_since_cleaning": 4.0,
    }
    return {name: value for name, value in {**good, **members}.items() if value is not None}


SMALL_PAN = WaterPan(area=0.05, depth=1 * INCH)
ROUND = [
    # by hand: what each unit is, and so where any dispatcher would put it
    unit("in good order"),  # last
    unit("nobody said what stops it", overflow_protection=None),  # not safe, but no failure seen
    unit("unprotected, large pan", overflow_protection=NONE, months_since_cleaning=None),  # hours until it is wet
    unit("running over", pan=WaterPan(area=0.3, depth=0.05, water_depth=0.05), overflow_protection=NONE),  # now
    unit("unprotected, small pan", overflow_protection=NONE, pan=SMALL_PAN, months_since_cleaning=None),  # minutes
    unit("over nothing, a season dirty", below="nothing-to-damage", months_since_cleaning=14.0),  # due, no hurry
]
WANTED = [
    "running over",
    "unprotected, small pan",
    "unprotected, large pan",
    "nobody said what stops it",
    "over nothing, a season dirty",
    "in good order",
]


def visits(units: list[dict[str, Any] | None], equipment: Equipment | None = None) -> list[Answer[UnitVisit] | None]:
    return [known and visit_unit(equipment=settle_truck(equipment), **known) for known in units]


def of(units: list[dict[str, Any] | None], **options: Any) -> Answer[MaintenanceRound]:
    return plan_round(visits=visits(units, options.get("equipment")), **options)


def names(answer: Answer[MaintenanceRound]) -> list[str | None]:
    return [stop.unit_id for stop in answer.results.order]


def visit_of(answer: Answer[MaintenanceRound]) -> UnitVisit:
    """The first unit's."""
    first = answer.results.visits[0]
    assert first
    return first


def codes(answer: Answer[Any]) -> set[str]:
    return {finding.code for finding in answer.findings}


def test_the_order_is_the_one_any_dispatcher_would_agree_with() -> None:
    answer = of([*ROUND])
    assert names(answer) == WANTED
    assert [stop.place for stop in answer.results.order] == [1, 2, 3, 4, 5, 6]
    assert [stop.index for stop in answer.results.order] == [3, 4, 2, 1, 5, 0]
    assert [stop.urgency for stop in answer.results.order][:3] == ["now", "this-week", "this-week"]


def test_another_order_of_the_request_changes_nothing_but_ties() -> None:
    random = Random(7)  # noqa: S311
    first = of([*ROUND])
    for _ in range(10):
        shuffled = random.sample(ROUND, len(ROUND))
        again = of([*shuffled])
        assert names(again) == WANTED
        assert again.results.totals == first.results.totals
        assert {row.method: replace(row, units=()) for row in again.results.consumables} == {
            row.method: replace(row, units=()) for row in first.results.consumables
        }
        for visit, known in zip(again.results.visits, shuffled, strict=True):
            assert visit
            assert visit.unit_id == known["unit_id"]


def test_the_work_is_linear_in_the_units(check_linear: Callable[..., None]) -> None:
    six = visits([*ROUND], GAS_TRUCK)

    def prepare(count: int) -> Callable[[], object]:
        units = six * count
        return lambda: plan_round(visits=units, equipment=GAS_TRUCK)

    check_linear(prepare, 40)


def test_ties_keep_the_order_sent() -> None:
    assert names(of([unit(str(number)) for number in range(30)])) == [str(number) for number in range(30)]


def test_more_failures_come_first_where_class_and_time_are_the_same() -> None:
    one = {"trap": TrapAsBuilt(outlet_drop=0.25 * INCH, seal_depth=2 * INCH, pipe_size="3/4")}
    two = {**one, "line": LineAsBuilt(pipe_size="3/4", run=20 * FOOT, fall=0.0)}
    assert names(of([unit("one", **one), unit("two", **two)])) == ["two", "one"]


def test_totals_are_the_sums_of_the_units() -> None:
    answer = of([*ROUND], minutes_available=100.0, technicians=2, travel_minutes=12.0)
    totals, found = answer.results.totals, [visit for visit in answer.results.visits if visit]
    alone = [plan_for(known) for known in ROUND]
    assert [visit.minutes for visit in found] == [plan.total_minutes for plan in alone]
    assert totals.on_site_minutes == pytest.approx(fsum(plan.total_minutes for plan in alone))
    assert totals.good_access_minutes == pytest.approx(fsum(plan.good_access_minutes for plan in alone))
    assert totals.total_minutes == pytest.approx(totals.on_site_minutes + totals.travel_minutes)
    assert sum(row.count for row in totals.urgencies) == totals.units == totals.units_read == 6
    slots = [stop.slot for stop in answer.results.order if stop.slot]
    assert totals.days == max(slot.day for slot in slots)
    assert totals.travel_minutes == 12.0 * sum(slot.start_minute > 0.0 for slot in slots)


def plan_for(known: dict[str, Any], equipment: Equipment | None = None) -> Any:
    """The cleaning alone, with the peak of 3 tons at 0.25 latent, as the assessment computes it."""
    names_ = ("unit_id", "access", "fouled", "trap", "line", "pan", "discharge")
    members = {name: known[name] for name in names_ if name in known}
    peak = visit_peak(known)
    return plan_cleaning(**members, peak_flow=peak, equipment=settle_truck(equipment)).results


def visit_peak(known: dict[str, Any]) -> float | None:
    known = {name: value for name, value in known.items() if name not in ("access", "fouled", "months_since_cleaning")}
    return assess_unit(**known).results.peak_rate


TRUCKS = {
    "the usual": None,
    "gas": GAS_TRUCK,
    "a brush only": Equipment(brush=Brush()),
    "cartridges only": Equipment(cartridge_gun=CartridgeGun(cartridges=40), plugs=9),
    "a cylinder only": Equipment(cylinder=Cylinder(), plugs=9),
    "nothing": Equipment(),
}
PLACES = [
    unit("in reach"),
    unit("far end out of reach", access=Access(union=True, pan_reachable=True, far_end_reachable=False, vents=1)),
    unit("no way in", access=Access(union=False, pan_reachable=False, far_end_reachable=False)),
    unit("long", line=LineAsBuilt(pipe_size="1", run=80 * FOOT, fall=20 * INCH, cleanout="none")),
    unit("wide", line=LineAsBuilt(pipe_size="2", run=30 * FOOT, fall=8 * INCH)),
    unit("sewer", discharge=Discharge(place="sanitary-line", air_gap=False)),
    unit("pumped", pumped=True),
]


@pytest.mark.parametrize("truck", TRUCKS)
def test_what_gas_would_take_is_found_without_changing_the_plan(truck: str) -> None:
    """A truck without gas is planned with an empty cylinder and no cartridge: method and minutes stay."""
    for known in PLACES:
        found = visit_unit(equipment=settle_truck(TRUCKS[truck]), **known).results
        if "pumped" in known:
            continue
        alone = plan_for(known, TRUCKS[truck])
        assert (found.method, found.minutes) == (alone.method, alone.total_minutes), known["unit_id"]
        full = plan_for(known, Equipment(cartridge_gun=CartridgeGun(cartridges=99), cylinder=Cylinder(), plugs=99))
        assert found.cartridges == full.gas.cartridges.cartridges_for_this_drain
        assert found.free_gas == full.gas.cylinder.gas_per_drain


@pytest.mark.parametrize("truck", TRUCKS)
def test_consumables_are_the_sums_over_the_units_a_method_suits(truck: str) -> None:
    answer = of([*PLACES], equipment=TRUCKS[truck])
    found = dict(enumerate(answer.results.visits))
    plenty = Equipment(
        brush=Brush(),
        cartridge_gun=CartridgeGun(cartridges=999),
        cylinder=Cylinder(full_content=15.0),
        wet_dry_vacuum=True,
        jug=True,
        plugs=99,
    )
    for row in answer.results.consumables:
        suited = []
        for index, known in enumerate(PLACES):
            members = {name: value for name, value in known.items() if name in ("access", "trap", "line", "discharge")}
            plan = plan_cleaning(**members, pumped=known.get("pumped"), equipment=plenty).results
            if row.method not in {refusal.method for refusal in plan.refused_methods}:
                suited.append(index)
        assert list(row.units) == suited, row.method
        units = [found[index] for index in suited]
        assert row.water == pytest.approx(fsum(visit.water or 0.0 for visit in units if visit))
        assert row.units_chosen == sum(visit.method == row.method for visit in found.values() if visit)
        if row.method == "cartridge-gas":
            assert row.cartridges == sum(visit.cartridges or 0 for visit in units if visit)
            assert row.cartridges_by_rule == ceil(len(suited) / 2)
        if row.method == "regulated-gas":
            assert row.free_gas == pytest.approx(fsum(visit.free_gas or 0.0 for visit in units if visit))
        assert (row.cartridges is None) == (row.method != "cartridge-gas")
        assert (row.free_gas is None) == (row.method != "regulated-gas")


def test_a_sewer_lets_no_gas_and_no_vacuum_and_a_wide_line_no_gas() -> None:
    by_method = {row.method: row.units for row in of([*PLACES]).results.consumables}
    sewer, wide = 5, 4
    assert sewer not in by_method["wet-dry-vacuum"] + by_method["regulated-gas"] + by_method["cartridge-gas"]
    assert wide not in by_method["regulated-gas"] + by_method["cartridge-gas"]
    assert wide in by_method["wet-dry-vacuum"]


def test_cylinders_and_units_from_the_truck_follow_from_gas_over_content() -> None:
    """By hand, in free gas: 40 ft3 at 2,200 psi; at 290 psi (2 MPa) about an eighth is left. Within 10 %: nitrogen at
    2,200 psi is 2 % off an ideal gas, and what stays behind at 30 psi is not used."""
    units = [unit(str(number), line=LineAsBuilt(pipe_size="1", run=30.0, fall=0.6)) for number in range(60)]
    answer = of(units, equipment=GAS_TRUCK)
    row = next(row for row in answer.results.consumables if row.method == "regulated-gas")
    each = visit_of(answer).free_gas or 0.0
    # a line of 30 m and 1.049 in holds 16.7 L; to 30 psi that takes 2.04 volumes, and two sweeps two more
    assert each == pytest.approx(4.04 * (3.14159 / 4 * (1.049 * INCH) ** 2 * 30.0), rel=0.03)
    usable = 40 * CUBIC_FOOT * (2e6 - 206843.0) / (2200 * 6894.757)
    assert row.units_from_truck == pytest.approx(usable / each, abs=1.0 + 0.1 * usable / each)
    assert row.cylinders == pytest.approx(60 * each / usable, abs=1.0 + 0.1 * 60 * each / usable)
    assert row.free_gas == pytest.approx(60 * each)


def test_a_truck_short_of_cartridges_says_how_many_more() -> None:
    truck = Equipment(cartridge_gun=CartridgeGun(cartridges=5), plugs=9, jug=True)
    answer = of([unit(str(number)) for number in range(6)], equipment=truck)
    found = {finding.code: finding.values for finding in answer.findings}["round-short-of-cartridges"]
    each = visit_of(answer).cartridges or 0
    assert found == {"count": 6, "needed": 6 * each, "held": 5, "short": 6 * each - 5}
    row = next(row for row in answer.results.consumables if row.method == "cartridge-gas")
    assert row.units_from_truck == 5 // each


def test_a_truck_short_of_gas_says_how_many_cylinders() -> None:
    truck = Equipment(cylinder=Cylinder(pressure=2e6), plugs=9, jug=True)
    units = [unit(str(number), line=LineAsBuilt(pipe_size="1", run=30.0, fall=0.6)) for number in range(60)]
    answer = of(units, equipment=truck)
    row = next(row for row in answer.results.consumables if row.method == "regulated-gas")
    found = {finding.code: finding.values for finding in answer.findings}["round-short-of-gas"]
    assert found["cylinders"] == row.cylinders
    assert "round-short-of-gas" not in codes(of(units[:1], equipment=truck))


def test_units_that_could_not_be_read_have_no_place_and_are_counted() -> None:
    answer = of([None, *ROUND[:2], None])
    assert [stop.index for stop in answer.results.order] == [2, 1]
    assert (answer.results.totals.units, answer.results.totals.units_read) == (4, 2)
    assert "round-units-not-read" in codes(answer)
    assert answer.results.visits[0] is None


def test_a_round_of_nothing_readable_is_answered() -> None:
    answer = of([None])
    assert answer.results.order == ()
    assert answer.results.totals.days == 0
    assert answer.verdict == "attention"


def test_the_verdict_is_the_worst_of_the_units() -> None:
    assert of([unit("good")]).verdict == "pass"
    assert of([unit("good"), unit("held up", trap=TrapAsBuilt(outlet_drop=0.0, seal_depth=0.05))]).verdict == "fail"


def test_what_was_not_known_is_told_with_its_units() -> None:
    answer = of([unit("a", below=None), unit("b"), {"unit_id": "c"}])
    rows = {row.member: row.units for row in answer.results.not_known}
    assert rows["/below"] == (0, 2)
    assert rows["/trap"] == (2,)
    assert "/pump" not in rows  # no unit says that it has one
    counts = [row.count for row in answer.results.not_known]
    assert counts == sorted(counts, reverse=True)
    assert of([unit("b")]).results.not_known == ()


def test_defaults_are_told_once_with_the_number_of_units() -> None:
    answer = of([unit("a"), {"unit_id": "b"}, {"unit_id": "c"}])
    notes = {note.pointer: note for note in answer.assumptions}
    note = write_assumption(notes["/units/1/line/run"], "us")["note"]
    assert note.endswith("Taken likewise for 2 units; this is the first of them.")
    assert "/units/2/line/run" not in notes
    assert {"/equipment", "/minutes_available", "/technicians", "/travel_minutes"} <= set(notes)
    assert not any(pointer.startswith("/units/0/equipment") for pointer in notes)
    told = of([unit("a")], equipment=GAS_TRUCK, minutes_available=60.0, technicians=1, travel_minutes=0.0)
    pointers = {note.pointer for note in told.assumptions}
    assert not {"/minutes_available", "/technicians", "/travel_minutes"} & pointers
    assert not any("most trucks" in write_assumption(note, "us")["note"] for note in told.assumptions)
    # pressure, sweeps and temperature of the gas, which no member of a round sets
    assert [note.value for note in told.assumptions if note.pointer == "/equipment"][1:] == [2.0, 293.15]


@pytest.mark.parametrize("member", ["minutes_available", "travel_minutes"])
def test_a_number_out_of_range_is_refused(member: str) -> None:
    with pytest.raises(OutOfRange):
        plan_round(visits=[], **{member: -1.0})
