"""Time to overflow: volumes and times by hand, what stops the water, and that nothing is left unsaid."""

import dataclasses
import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from service.calculations.overflow_protection import (
    AUXILIARY_PAN_LIMITS,
    PAN_LIMITS,
    PROTECTION_LIMITS,
    PROTECTIONS,
)
from service.calculations.overflow_time import (
    LIMITS,
    STOPPERS,
    AuxiliaryPan,
    Protection,
    PumpTank,
    WaterPan,
    overflow_time,
)
from service.calculations.pump_cycle import PUMP_LIMITS, SAFETY_FLOATS
from service.errors import OutOfRange
from service.schemas.writing import fill
from service.tables.findings.catalogue import FINDINGS

INCH = 0.0254
GALLON = 231 * INCH**3  # US gallon, by definition
GALLON_PER_HOUR = GALLON / 3600
MINUTE = 60.0

PAN = WaterPan(area=462 * INCH**2, depth=1.5 * INCH, water_depth=0.0)  # 3 gal, by hand: 462 x 1.5 / 231
AUXILIARY = AuxiliaryPan(area=924 * INCH**2, depth=2 * INCH, larger_than_unit=3 * INCH)  # 8 gal


def codes(answer):
    return {finding.code for finding in answer.findings}


def test_a_blocked_drain_fills_the_pan():
    """3 gal of pan at 2 gal/h: 90 min."""
    results = overflow_time(inflow=2 * GALLON_PER_HOUR, pan=PAN).results
    assert results.free_volume / GALLON == pytest.approx(3.0)
    assert results.time_to_overflow / MINUTE == pytest.approx(90.0)
    assert results.time_to_building / MINUTE == pytest.approx(90.0)
    assert results.stopped_by == "nothing"


def test_water_already_there_leaves_less_room_and_an_empty_line_more():
    """1/2 in of water takes 1 gal, the line gives 1/4 gal: 2-1/4 gal, 67.5 min."""
    pan = dataclasses.replace(PAN, water_depth=0.5 * INCH)
    results = overflow_time(inflow=2 * GALLON_PER_HOUR, pan=pan, line_volume=0.25 * GALLON).results
    assert results.free_volume / GALLON == pytest.approx(2.25)
    assert results.time_to_overflow / MINUTE == pytest.approx(67.5)


def test_a_measured_room_counts_instead_of_the_pans_dimensions():
    results = overflow_time(inflow=2 * GALLON_PER_HOUR, pan=PAN, free_volume=GALLON).results
    assert results.time_to_overflow / MINUTE == pytest.approx(30.0)


def test_a_cut_out_in_the_pan_stops_the_water():
    """At 3/4 in half the pan is full: 45 min, and 1.5 gal still fit."""
    protection = Protection(kind="drain-cut-out", cut_out_depth=0.75 * INCH)
    answer = overflow_time(inflow=2 * GALLON_PER_HOUR, pan=PAN, line_volume=0.0, protection=protection)
    assert answer.results.time_to_cut_out / MINUTE == pytest.approx(45.0)
    assert answer.results.room_after_cut_out / GALLON == pytest.approx(1.5)
    assert answer.results.time_to_building is None
    assert answer.results.stopped_by == "cut-out"
    assert answer.verdict == "pass"
    assert not answer.findings
    assert not answer.assumptions
    assert "water-damage" not in answer.cautions


def test_a_cut_out_above_the_rim_stops_nothing():
    protection = Protection(kind="drain-cut-out", cut_out_depth=1.5 * INCH)
    answer = overflow_time(inflow=2 * GALLON_PER_HOUR, pan=PAN, protection=protection)
    assert codes(answer) == {"cut-out-too-high"}
    assert answer.verdict == "fail"
    assert answer.results.time_to_cut_out is None
    assert answer.results.time_to_building / MINUTE == pytest.approx(90.0)
    assert answer.results.stopped_by == "nothing"
    assert "water-damage" in answer.cautions


def test_an_auxiliary_pan_with_a_cut_out_fills_after_the_units_own():
    """90 min to run over, then 1 in of 924 in2, 4 gal, 120 min; 4 gal still fit."""
    protection = Protection(kind="auxiliary-pan-cut-out", cut_out_depth=1.0 * INCH, auxiliary_pan=AUXILIARY)
    results = overflow_time(inflow=2 * GALLON_PER_HOUR, pan=PAN, protection=protection).results
    assert results.time_to_cut_out / MINUTE == pytest.approx(210.0)
    assert results.time_in_auxiliary_pan / MINUTE == pytest.approx(240.0)
    assert results.room_after_cut_out / GALLON == pytest.approx(4.0)
    assert results.stopped_by == "cut-out"


def test_an_auxiliary_pan_alone_only_delays():
    """90 min and 240 min."""
    protection = Protection(kind="none", auxiliary_pan=AUXILIARY)
    answer = overflow_time(inflow=2 * GALLON_PER_HOUR, pan=PAN, protection=protection)
    assert answer.results.time_to_building / MINUTE == pytest.approx(330.0)
    assert codes(answer) == {"auxiliary-pan-only-delays"}


def test_a_secondary_drain_runs_before_the_pan_does():
    """At 1 in two thirds of 3 gal: 60 min."""
    protection = Protection(kind="secondary-drain", secondary_drain_depth=1.0 * INCH)
    answer = overflow_time(inflow=2 * GALLON_PER_HOUR, pan=PAN, protection=protection)
    assert answer.results.time_to_secondary_drain / MINUTE == pytest.approx(60.0)
    assert answer.results.time_to_cut_out is None
    assert answer.results.time_to_building is None
    assert answer.results.stopped_by == "secondary-drain"


def test_a_dead_pump_fills_its_tank():
    """1/4 gal to the float, 1/2 gal to the rim, at 2 gal/h: 7.5 and 15 min."""
    tank = PumpTank(volume_to_safety_float=0.25 * GALLON, volume_to_overflow=0.5 * GALLON, safety_float="wired")
    answer = overflow_time(inflow=2 * GALLON_PER_HOUR, pump_tank=tank)
    times = answer.results.pump_tank
    assert times.time_to_safety_float / MINUTE == pytest.approx(7.5)
    assert times.time_to_overflow / MINUTE == pytest.approx(15.0)
    assert times.stopped_by == "cut-out"
    assert answer.verdict == "pass"
    assert answer.results.stopped_by is None
    assert not answer.assumptions


@pytest.mark.parametrize(
    ("safety_float", "to_float", "stopped_by"),
    [
        ("wired", 2e-3, "cut-out"),
        ("wired", None, "cut-out"),
        ("wired", 3e-3, "nothing"),  # as high as the rim
        ("unwired", 2e-3, "nothing"),
        ("none", None, "nothing"),
        (None, 2e-3, "unknown"),
        (None, 4e-3, "unknown"),
    ],
)
def test_what_stops_a_dead_pumps_water(safety_float, to_float, stopped_by):
    tank = PumpTank(volume_to_safety_float=to_float, volume_to_overflow=3e-3, safety_float=safety_float)
    answer = overflow_time(inflow=1e-6, pump_tank=tank)
    assert answer.results.pump_tank.stopped_by == stopped_by
    assert ("water-damage" in answer.cautions) == (stopped_by == "nothing")


TANK = PumpTank(volume_to_safety_float=2e-3, volume_to_overflow=3e-3)
SMALL = AuxiliaryPan(area=0.5, depth=1.4 * INCH, larger_than_unit=2.9 * INCH)

CASES = [
    ({"pan": PAN}, {"overflow-protection-unknown"}),
    ({}, {"overflow-room-unknown"}),
    ({"pan": PAN, "protection": Protection(kind="none")}, {"overflow-protection-none"}),
    ({"pan": PAN, "protection": Protection(kind="drain-cut-out")}, {"cut-out-depth-unknown"}),
    (
        {"free_volume": 0.01, "protection": Protection(kind="drain-cut-out", cut_out_depth=0.01)},
        {"cut-out-depth-unknown"},
    ),
    ({"pan": PAN, "protection": Protection(kind="secondary-drain")}, {"secondary-drain-depth-unknown"}),
    (
        {"pan": PAN, "protection": Protection(kind="secondary-drain", secondary_drain_depth=1.6 * INCH)},
        {"secondary-drain-too-high"},
    ),
    (
        {
            "pan": dataclasses.replace(PAN, water_depth=0.5 * INCH),
            "protection": Protection(kind="secondary-drain", secondary_drain_depth=0.5 * INCH),
        },
        {"secondary-drain-under-water"},
    ),
    (
        {
            "pan": dataclasses.replace(PAN, water_depth=0.5 * INCH),
            "protection": Protection(kind="drain-cut-out", cut_out_depth=0.4 * INCH),
        },
        {"cut-out-under-water"},
    ),
    (
        # 0.15 in of 462 in2 is 0.3 gal, and ten minutes of 2 gal/h a third of a gallon
        {"pan": PAN, "protection": Protection(kind="drain-cut-out", cut_out_depth=1.35 * INCH)},
        {"little-room-after-cut-out"},
    ),
    ({"pan": PAN, "protection": Protection(kind="drain-cut-out", cut_out_depth=1.33 * INCH)}, set()),
    ({"pan": PAN, "protection": Protection(kind="auxiliary-pan-drain")}, {"auxiliary-pan-unknown"}),
    ({"pan": PAN, "protection": Protection(kind="auxiliary-pan-drain", auxiliary_pan=AUXILIARY)}, set()),
    (
        {"pan": PAN, "protection": Protection(kind="auxiliary-pan-drain", auxiliary_pan=SMALL)},
        {"auxiliary-pan-shallow", "auxiliary-pan-small"},
    ),
    (
        {
            "pan": PAN,
            "protection": Protection(kind="auxiliary-pan-cut-out", cut_out_depth=2 * INCH, auxiliary_pan=AUXILIARY),
        },
        {"cut-out-too-high"},
    ),
    (
        # 462 x 0.5 / 231 = 1 gal left: 30 min; a hair less is too little
        {"pan": dataclasses.replace(PAN, water_depth=1.01 * INCH), "protection": Protection(kind="none")},
        {"overflow-protection-none", "little-time-to-overflow"},
    ),
    (
        {"pan": dataclasses.replace(PAN, water_depth=2 * INCH), "protection": Protection(kind="none")},
        {"overflow-protection-none", "little-time-to-overflow", "pan-already-full"},
    ),
    ({"pump_tank": TANK}, {"tank-float-unknown"}),
    ({"pump_tank": dataclasses.replace(TANK, safety_float="none")}, {"tank-float-missing"}),
    ({"pump_tank": dataclasses.replace(TANK, safety_float="unwired")}, {"tank-float-unwired"}),
    (
        {"pump_tank": dataclasses.replace(TANK, safety_float="wired", volume_to_safety_float=3e-3)},
        {"tank-float-too-high"},
    ),
]


@pytest.mark.parametrize(("facts", "expected"), CASES)
def test_findings(facts, expected):
    assert codes(overflow_time(inflow=2 * GALLON_PER_HOUR, **facts)) == expected


def test_the_numbers_a_remedy_names():
    """Room above 1.35 in: 0.15 in x 462 in2 = 0.3 gal; ten minutes of 2 gal/h: 1/3 gal; the difference over 462 in2 is
    1/60 in. An auxiliary pan 2.9 in larger has to grow by 0.1 in."""
    protection = Protection(kind="drain-cut-out", cut_out_depth=1.35 * INCH, auxiliary_pan=SMALL)
    answer = overflow_time(inflow=2 * GALLON_PER_HOUR, pan=PAN, protection=protection)
    values = {finding.code: finding.values for finding in answer.findings}
    assert values["little-room-after-cut-out"]["room"] / GALLON == pytest.approx(0.3)
    assert values["little-room-after-cut-out"]["drip_volume"] / GALLON == pytest.approx(1 / 3)
    assert values["little-room-after-cut-out"]["lower_by"] / INCH == pytest.approx(1 / 60)
    assert values["auxiliary-pan-small"]["wider_by"] / INCH == pytest.approx(0.1)


def test_on_the_mark_counts_as_there():
    """A pan full to its rim is full; an auxiliary pan of 1-1/2 in and 3 in larger is what the code asks for."""
    full = dataclasses.replace(PAN, water_depth=PAN.depth)
    assert "pan-already-full" in codes(overflow_time(inflow=1e-6, pan=full))
    asked_for = AuxiliaryPan(area=0.5, depth=0.0381, larger_than_unit=0.0762)  # 25.4 mm an inch, exact
    protection = Protection(kind="auxiliary-pan-drain", auxiliary_pan=asked_for)
    assert codes(overflow_time(inflow=1e-6, pan=PAN, protection=protection)) == set()


def test_without_inflow_nothing_ever_runs_over():
    answer = overflow_time(inflow=0.0, pan=PAN, pump_tank=TANK, protection=Protection(kind="none"))
    assert answer.results.time_to_overflow is None
    assert answer.results.time_to_building is None
    assert answer.results.pump_tank.time_to_overflow is None
    assert answer.results.free_volume / GALLON == pytest.approx(3.0)
    assert "overflow-no-inflow" in codes(answer)


def test_only_defaults_that_enter_are_assumed():
    def pointers(**facts):
        return [assumption.pointer for assumption in overflow_time(inflow=1e-6, **facts).assumptions]

    bare = dataclasses.replace(PAN, water_depth=None)
    assert pointers(pan=bare) == ["/pan/water_depth", "/line_volume", "/protection"]
    assert pointers(pan=bare, free_volume=0.01) == ["/line_volume", "/protection"]
    assert pointers(pump_tank=TANK) == []


def numbers(limits, *names):
    return {name: st.floats(limits[name].low, limits[name].high) for name in names}


AUXILIARY_PANS = st.builds(
    AuxiliaryPan,
    **numbers(AUXILIARY_PAN_LIMITS, "area", "depth"),
    larger_than_unit=st.none() | st.floats(-2.0, 5.0),
)
REQUESTS = st.fixed_dictionaries(
    {"inflow": st.floats(0.0, LIMITS["inflow"].high) | st.floats(0.0, 1e-6)},
    optional={
        "pan": st.builds(WaterPan, **numbers(PAN_LIMITS, "area", "depth"), water_depth=st.none() | st.floats(0.0, 0.5)),
        **numbers(LIMITS, "free_volume", "line_volume"),
        "protection": st.builds(
            Protection,
            kind=st.sampled_from(PROTECTIONS),
            cut_out_depth=st.none() | st.floats(0.0, 0.5),
            secondary_drain_depth=st.none() | st.floats(0.0, 0.5),
            auxiliary_pan=st.none() | AUXILIARY_PANS,
        ),
        "pump_tank": st.builds(
            PumpTank,
            volume_to_safety_float=st.none() | st.floats(1e-6, 1.0),
            volume_to_overflow=st.none() | st.floats(1e-6, 1.0),
            safety_float=st.none() | st.sampled_from(SAFETY_FLOATS),
        ),
    },
)


@given(REQUESTS)
def test_every_request_has_finite_results_and_whole_sentences(request):
    answer = overflow_time(**request)
    values = [
        getattr(answer.results, name) for name in answer.results.__slots__ if name not in ("pump_tank", "stopped_by")
    ]
    if tank := answer.results.pump_tank:
        values += [tank.time_to_safety_float, tank.time_to_overflow]
        assert tank.stopped_by in STOPPERS
    assert all(value is None or (math.isfinite(value) and value >= 0.0) for value in values)
    assert answer.results.stopped_by in (*STOPPERS, None)
    for finding in answer.findings:
        row = FINDINGS[finding.code]
        for system in ("us", "si"):
            assert fill(row.message, finding.values, system)
            assert fill(row.remedy, finding.values, system)


@given(REQUESTS)
def test_what_acts_acts_before_the_water_is_lost(request):
    results = overflow_time(**request).results
    over = results.time_to_overflow
    if results.time_to_secondary_drain is not None:
        assert results.time_to_secondary_drain <= over
    if results.time_to_cut_out is not None:
        assert results.time_to_cut_out <= over + (results.time_in_auxiliary_pan or 0.0)
        # by the clock: what has come in until the cut-out acts, and what still fits, is the whole room
        whole = results.free_volume
        if request["protection"].kind == "auxiliary-pan-cut-out":
            whole += request["protection"].auxiliary_pan.area * request["protection"].auxiliary_pan.depth
        used = results.time_to_cut_out * request["inflow"] + results.room_after_cut_out
        assert used == pytest.approx(whole, rel=1e-9, abs=1e-15)
    if results.time_to_building is not None:
        assert results.stopped_by == "nothing"
        assert results.time_to_building >= over


@given(REQUESTS)
def test_a_building_that_gets_wet_never_passes(request):
    answer = overflow_time(**request)
    tank = answer.results.pump_tank
    if answer.results.stopped_by == "nothing" or (tank and tank.stopped_by == "nothing"):
        assert answer.verdict in ("attention", "fail")
        assert "water-damage" in answer.cautions


REFUSED = [
    *[("inflow", {"inflow": value}) for value in (-1e-6, 3e-3, math.nan)],
    ("free_volume", {"free_volume": -1.0}),
    ("line_volume", {"line_volume": 2.0}),
    ("depth", {"pan": WaterPan(area=0.3, depth=1.0)}),
    ("area", {"pan": WaterPan(area=0.0, depth=0.1)}),
    ("water_depth", {"pan": WaterPan(area=0.3, depth=0.1, water_depth=-0.1)}),
    *[(name, {"protection": Protection(kind="none", **{name: 1.0})}) for name in PROTECTION_LIMITS],
    (
        "larger_than_unit",
        {"protection": Protection(kind="none", auxiliary_pan=AuxiliaryPan(area=0.3, depth=0.1, larger_than_unit=9.0))},
    ),
    *[(name, {"pump_tank": PumpTank(**{name: 2.0})}) for name in PUMP_LIMITS if name.startswith("volume")],
]


@pytest.mark.parametrize(("name", "facts"), REFUSED)
def test_outside_its_limits_an_argument_is_refused(name, facts):
    with pytest.raises(OutOfRange) as refused:
        overflow_time(**({"inflow": 1e-6} | facts))
    assert refused.value.name == name
