"""Pump run: every finding where it belongs, every default recorded, every input answered."""

import math
from dataclasses import fields, replace
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from service.calculations.answer import Answer
from service.calculations.limits import Limit
from service.calculations.pump import Pump, PumpRun
from service.calculations.pump_curve import POINT_LIMITS, CurvePoint
from service.calculations.pump_cycle import PUMP_LIMITS, SAFETY_FLOATS
from service.calculations.pump_run import LIMITS, run_pump
from service.calculations.pump_tube import (
    MOST_ELBOWS,
    MOST_FURTHER_SECTIONS,
    SECTION_LIMITS,
    TUBE_LIMITS,
    Tube,
    TubeSection,
)
from service.errors import OutOfRange
from service.schemas.writing import write_finding

CURVE = tuple(
    CurvePoint(lift=lift, flow=flow * 1e-6) for lift, flow in ((0.0, 80.0), (2.0, 60.0), (4.0, 30.0), (5.0, 0.0))
)
TUBE = Tube(bore=0.0095, length=9.0, elbows=2, check_valve=True)
PUMP = Pump(
    curve=CURVE,
    tank_volume_between_floats=1e-3,
    volume_to_safety_float=3e-4,
    volume_to_overflow=8e-4,
    safety_float="wired",
)


def run(**changes: Any) -> Answer[PumpRun]:
    """A sound installation, with changes."""
    request: dict[str, Any] = {"inflow": 1.5e-6, "lift": 2.0, "tube": TUBE, "pump": PUMP}
    return run_pump(**(request | changes))


def codes(answer: Answer[PumpRun]) -> set[str]:
    """Codes of the findings that are no mere information."""
    return {finding.code for finding in answer.findings if finding.severity != "info"}


def within(limit: Limit) -> st.SearchStrategy[float]:
    """Numbers within a limit, its ends included."""
    return st.floats(limit.low, limit.high)


def optional(limits: dict[str, Limit]) -> dict[str, st.SearchStrategy[float | None]]:
    """A strategy for each limit: none given, or a number within."""
    return {name: st.none() | within(limit) for name, limit in limits.items()}


SECTIONS = st.builds(
    TubeSection,
    **(
        optional(SECTION_LIMITS)
        | {"length": within(SECTION_LIMITS["length"]), "elbows": st.none() | st.integers(0, MOST_ELBOWS)}
    ),
)
TUBES = st.builds(
    Tube,
    **(
        optional(TUBE_LIMITS)
        | {
            "bore": within(TUBE_LIMITS["bore"]),
            "length": within(TUBE_LIMITS["length"]),
            "elbows": st.none() | st.integers(0, MOST_ELBOWS),
            "check_valve": st.none() | st.booleans(),
            "further_sections": st.just(()) | st.lists(SECTIONS, min_size=1, max_size=MOST_FURTHER_SECTIONS).map(tuple),
        }
    ),
)
PUMPS = st.builds(
    Pump,
    curve=st.lists(
        st.builds(CurvePoint, lift=within(POINT_LIMITS["lift"]), flow=within(POINT_LIMITS["flow"])),
        min_size=2,
        max_size=8,
    ).map(tuple),
    safety_float=st.none() | st.sampled_from(SAFETY_FLOATS),
    **optional(PUMP_LIMITS),
)
REQUESTS = st.fixed_dictionaries(
    {"inflow": within(LIMITS["inflow"]), "lift": within(LIMITS["lift"]), "tube": TUBES, "pump": PUMPS},
    optional={
        "water_temperature": within(LIMITS["water_temperature"]),
        "flow_margin": within(LIMITS["flow_margin"]),
    },
)


@given(REQUESTS)
def test_every_input_within_limits_is_answered_with_finite_numbers_and_readable_findings(
    request: dict[str, Any],
) -> None:
    answer = run_pump(**request)
    results = answer.results
    assert len(results.sections) == 1 + len(request["tube"].further_sections)
    for part in (results, *results.sections):
        for field in fields(part):
            number = getattr(part, field.name)
            assert field.name == "sections" or number is None or (math.isfinite(number) and number >= 0.0), field.name
    for system in ("us", "si"):
        for finding in answer.findings:
            assert "{" not in write_finding(finding, system)["message"]
    assert len({finding.code for finding in answer.findings}) == len(answer.findings)


@given(REQUESTS)
def test_pump_and_tube_agree_at_the_operating_point(request: dict[str, Any]) -> None:
    results = run_pump(**request).results
    if results.operating_flow == 0.0:
        return
    asked = request["lift"] + results.friction_head + results.fittings_head
    assert results.operating_head == pytest.approx(asked, rel=1e-12)
    # the pump's own curve at that head, read backwards by hand: the flow lies between what neighbouring points allow
    at_or_above = [point.flow for point in request["pump"].curve if point.lift <= results.operating_head * (1 - 1e-9)]
    assert not at_or_above or results.operating_flow <= min(at_or_above) * (1 + 1e-9)


@given(REQUESTS, st.floats(0.0, 1.0), st.floats(1.0, 2.0))
def test_more_lift_or_a_longer_tube_never_moves_more_water(
    request: dict[str, Any], lower: float, longer: float
) -> None:
    # a femtolitre a second is nothing, and below it floats lose their digits
    nothing = 1e-18
    base = run_pump(**request).results.operating_flow
    lowered = run_pump(**(request | {"lift": request["lift"] * lower})).results.operating_flow
    assert lowered >= base * (1 - 1e-9) - nothing
    length = min(request["tube"].length * longer, TUBE_LIMITS["length"].high)
    lengthened = run_pump(**(request | {"tube": replace(request["tube"], length=length)})).results.operating_flow
    assert lengthened <= base * (1 + 1e-9) + nothing


def test_a_sound_installation_passes() -> None:
    answer = run()
    assert codes(answer) == set()
    assert answer.verdict == "pass"
    assert {finding.code for finding in answer.findings} == {
        "pump-dead-time-to-safety-float",
        "pump-dead-time-to-overflow",
    }


@pytest.mark.parametrize("lift", [5.0, 6.0, 50.0])
def test_a_lift_at_or_beyond_shut_off_moves_nothing(lift: float) -> None:
    answer = run(lift=lift, tube=replace(TUBE, length=60.0))
    assert codes(answer) == {"pump-cannot-lift"}
    results = answer.results
    assert (results.operating_flow, results.friction_head, results.flow_ratio, results.duty) == (0.0, 0.0, 0.0, 1.0)
    assert results.operating_head == 5.0
    assert results.pump_out_time is None


def test_just_below_shut_off_the_motor_labours() -> None:
    answer = run(lift=4.9, inflow=1e-7)
    assert answer.results.operating_flow > 0.0
    assert codes(answer) == {"pump-near-shut-off"}


def test_flow_is_judged_against_the_inflow_and_the_margin() -> None:
    flow = run().results.operating_flow
    slower = run(inflow=1.01 * flow)
    assert codes(slower) >= {"pump-slower-than-inflow"}
    assert slower.results.flow_ratio == pytest.approx(1 / 1.01)
    assert (slower.results.pump_out_time, slower.results.cycles_per_hour, slower.results.duty) == (None, 0.0, 1.0)
    assert codes(run(inflow=flow / 1.4)) >= {"pump-margin-small"}
    assert "pump-margin-small" not in codes(run(inflow=flow / 1.6))
    assert "pump-margin-small" in codes(run(inflow=flow / 1.6, flow_margin=2.0))


def test_a_shortfall_names_what_takes_the_flow_away() -> None:
    assert "pump-too-small" in codes(run(inflow=70e-6))
    long_tube = run(inflow=15e-6, tube=replace(TUBE, length=150.0))
    assert "pump-tube-too-long" in codes(long_tube)
    assert long_tube.results.longest_tube is not None
    assert long_tube.results.longest_tube < 150.0
    high = run(inflow=15e-6, lift=4.5)
    assert "pump-lift-too-high" in codes(high)
    assert high.results.longest_tube is None


def test_at_the_largest_lift_and_the_longest_tube_the_margin_is_just_kept() -> None:
    results = run(inflow=15e-6).results
    assert results.largest_lift is not None
    assert results.longest_tube is not None
    assert run(inflow=15e-6, lift=results.largest_lift).results.flow_ratio == pytest.approx(1.5, rel=1e-9)
    longer = replace(TUBE, length=results.longest_tube)
    assert run(inflow=15e-6, tube=longer).results.flow_ratio == pytest.approx(1.5, rel=1e-9)


def test_a_pump_held_at_its_only_lift_does_not_work_below_it() -> None:
    # where the tube takes all that one lift leaves, the head is that lift, to the last bits either way
    pump = replace(PUMP, curve=(CurvePoint(lift=3.7, flow=9e-5), CurvePoint(lift=3.7, flow=9e-5)))
    for length in range(20, 60):
        answer = run(pump=pump, tube=replace(TUBE, length=float(length)))
        assert answer.results.operating_head == pytest.approx(3.7, rel=1e-12)
        assert "pump-curve-starts-late" not in {finding.code for finding in answer.findings}


def test_a_tube_that_eats_the_head_or_cannot_reach_is_pointed_out() -> None:
    assert "pump-tube-bore-small" in codes(run(tube=replace(TUBE, bore=0.004)))
    assert "pump-tube-shorter-than-lift" in codes(run(tube=replace(TUBE, length=1.0)))


def test_a_tube_that_would_have_to_be_shorter_than_the_lift_is_too_narrow() -> None:
    narrow = run(inflow=15e-6, lift=2.5, tube=replace(TUBE, bore=0.0045, length=30.0))
    assert narrow.results.longest_tube is not None
    assert narrow.results.longest_tube < 2.5
    assert "pump-tube-too-narrow" in codes(narrow)


def test_of_several_sections_the_one_that_eats_the_head_is_pointed_out() -> None:
    old_line = TubeSection(length=25.0, bore=0.0045)
    answer = run(inflow=1e-6, tube=replace(TUBE, further_sections=(TubeSection(length=3.0), old_line)))
    found = next(finding for finding in answer.findings if finding.code == "pump-section-bore-small")
    assert found.pointer == "/tube/further_sections/1/bore"
    assert (found.values["bore"], found.values["length"]) == (0.0045, 37.0)
    first = run(
        inflow=1e-6, tube=Tube(bore=0.0045, length=25.0, further_sections=(TubeSection(length=3.0, bore=0.01),))
    )
    assert {"/tube/bore"} == {found.pointer for found in first.findings if found.code == "pump-section-bore-small"}


def test_sections_make_up_the_whole() -> None:
    sections = (TubeSection(length=12.0, bore=0.006, elbows=3), TubeSection(length=2.0, bore=0.012))
    results = run(tube=replace(TUBE, further_sections=sections, check_valve_cracking_head=0.2)).results
    assert sum(row.friction_head for row in results.sections) == pytest.approx(results.friction_head, rel=1e-12)
    assert sum(row.fittings_head for row in results.sections) == pytest.approx(results.fittings_head, rel=1e-12)
    assert [row.bore for row in results.sections] == [0.0095, 0.006, 0.012]
    # one flow: velocity as the inverse square of the bore, Reynolds number as the inverse
    first, narrow, wide = results.sections
    assert narrow.velocity / first.velocity == pytest.approx((0.0095 / 0.006) ** 2)
    assert wide.reynolds / narrow.reynolds == pytest.approx(0.5)
    assert (results.velocity, results.reynolds) == (narrow.velocity, narrow.reynolds)


def test_one_bore_in_two_sections_is_one_tube() -> None:
    whole = run().results
    parts = run(tube=replace(TUBE, length=4.0, further_sections=(TubeSection(length=5.0),))).results
    for field in fields(whole):
        if field.name != "sections":
            assert getattr(parts, field.name) == pytest.approx(getattr(whole, field.name), rel=1e-12), field.name


def test_fall_back_of_several_sections_counts_each_bore_from_the_pump_on() -> None:
    # by hand: 9 m of 9.5 mm hold pi/4 x 0.0095^2 x 9 = 6.379e-4 m3; 9 m of 6 mm 2.545e-4 m3
    tube = replace(TUBE, check_valve=False, further_sections=(TubeSection(length=9.0, bore=0.006),))
    assert run(tube=tube).results.fall_back_volume == pytest.approx(6.379e-4 + 2.545e-4, rel=1e-3)
    # half of the whole length is the first section, three quarters half of the second as well
    half = run(tube=replace(tube, fall_back_share=0.5)).results
    assert half.fall_back_volume == pytest.approx(6.379e-4, rel=1e-3)
    more = run(tube=replace(tube, fall_back_share=0.75)).results
    assert more.fall_back_volume == pytest.approx(6.379e-4 + 2.545e-4 / 2, rel=1e-3)


def test_the_tubes_head_at_the_needed_flow() -> None:
    results = run(inflow=15e-6).results
    assert results.needed_flow == pytest.approx(22.5e-6)
    assert results.shut_off_head == 5.0
    # there the pump has what the largest lift and the losses leave: by hand, 4 + (30 - 22.5)/30 = 4.25 m
    assert results.largest_lift is not None
    assert results.needed_head - 2.0 + results.largest_lift == pytest.approx(4.25)


def test_fall_back_without_a_check_valve() -> None:
    # by hand: pi/4 x 0.0095^2 x 9 = 6.379e-4 m3, 63.8 % of the litre between the floats
    none = run(inflow=1e-6, tube=replace(TUBE, check_valve=False))
    assert none.results.fall_back_volume == pytest.approx(6.379e-4, rel=1e-3)
    assert codes(none) == {"pump-falls-back-each-cycle"}
    assert none.results.fill_time == pytest.approx((1e-3 - 6.379e-4) / 1e-6, rel=1e-3)
    half = run(tube=replace(TUBE, check_valve=False, fall_back_share=0.5))
    assert half.results.fall_back_volume == pytest.approx(3.190e-4, rel=1e-3)
    endless = run(tube=replace(TUBE, check_valve=False, length=20.0))
    assert codes(endless) == {"pump-restarts-on-fall-back", "pump-short-cycling"}
    assert endless.results.fill_time == 0.0
    assert run().results.fall_back_volume == 0.0


def test_short_cycling_is_counted() -> None:
    answer = run(pump=replace(PUMP, tank_volume_between_floats=2e-4))
    assert codes(answer) == {"pump-short-cycling"}


@pytest.mark.parametrize(
    ("safety_float", "code"),
    [("unwired", "pump-safety-float-unwired"), ("none", "pump-safety-float-missing"), ("wired", None)],
)
def test_the_safety_float_must_be_wired(safety_float: str, code: str | None) -> None:
    answer = run(pump=replace(PUMP, safety_float=safety_float))
    assert codes(answer) == ({code} if code else set())
    if safety_float == "none":
        assert answer.results.time_to_safety_float is None


def test_a_float_above_the_overflow_acts_too_late() -> None:
    answer = run(pump=replace(PUMP, volume_to_safety_float=9e-4))
    assert codes(answer) == {"pump-safety-float-above-overflow"}


def test_what_is_not_given_is_information_and_null() -> None:
    answer = run(pump=Pump(curve=CURVE), tube=Tube(bore=0.0095, length=9.0))
    assert {finding.code for finding in answer.findings} == {"pump-tank-not-given", "pump-safety-float-not-given"}
    results = answer.results
    assert (results.fill_time, results.pump_out_time, results.cycles_per_hour) == (None, None, None)
    assert (results.time_to_safety_float, results.time_to_overflow) == (None, None)
    assert answer.verdict == "pass"


def test_no_inflow() -> None:
    answer = run(inflow=0.0)
    results = answer.results
    assert results.flow_ratio is None
    assert results.longest_tube is None
    assert (results.time_to_safety_float, results.time_to_overflow) == (None, None)
    assert {finding.code for finding in answer.findings} == {"pump-has-no-inflow"}


def test_curves_with_a_slip_or_an_open_end() -> None:
    slip = (*CURVE, CurvePoint(lift=3.0, flow=70e-6))
    assert codes(run(pump=replace(PUMP, curve=slip))) == {"pump-curve-rises"}
    rises = next(found for found in run(pump=replace(PUMP, curve=slip)).findings if found.code == "pump-curve-rises")
    assert rises.pointer == "/pump/curve/4"
    short = run(pump=replace(PUMP, curve=CURVE[:2]))
    assert "pump-curve-ends-early" in {finding.code for finding in short.findings}
    # the tube asks more than the last point's 2 m of head: nothing beyond it is counted on
    assert short.results.operating_flow == 0.0
    late = run(pump=replace(PUMP, curve=CURVE[2:]))
    assert "pump-curve-starts-late" in {finding.code for finding in late.findings}
    assert late.results.operating_flow == pytest.approx(30e-6)


def test_every_default_that_entered_is_recorded_and_no_other() -> None:
    bare = run(tube=Tube(bore=0.0095, length=9.0))
    assert [assumption.pointer for assumption in bare.assumptions] == [
        "/tube/elbows",
        "/tube/check_valve",
        "/tube/roughness",
        "/tube/fall_back_share",
        "/water_temperature",
        "/flow_margin",
    ]
    sections = (TubeSection(length=1.0), TubeSection(length=1.0, bore=0.01, elbows=0, roughness=0.0))
    assert [assumption.pointer for assumption in run(tube=replace(TUBE, further_sections=sections)).assumptions] == [
        "/tube/roughness",
        "/tube/further_sections/0/bore",
        "/tube/further_sections/0/elbows",
        "/tube/further_sections/0/roughness",
        "/tube/elbow_loss_coefficient",
        "/tube/check_valve_loss_coefficient",
        "/tube/check_valve_cracking_head",
        "/water_temperature",
        "/flow_margin",
    ]
    full = Tube(
        bore=0.0095,
        length=9.0,
        elbows=1,
        check_valve=True,
        roughness=0.0,
        elbow_loss_coefficient=1.0,
        check_valve_loss_coefficient=1.0,
        check_valve_cracking_head=0.1,
    )
    assert run(tube=full, water_temperature=288.15, flow_margin=2.0).assumptions == ()


def test_the_check_valves_spring_is_part_of_the_lift() -> None:
    sprung = replace(TUBE, check_valve_cracking_head=0.5)
    assert run(tube=sprung, lift=2.0).results.operating_flow == pytest.approx(
        run(lift=2.5).results.operating_flow, rel=1e-12
    )
    assert codes(run(tube=sprung, lift=4.6)) == {"pump-cannot-lift"}


@pytest.mark.parametrize(
    ("changes", "name"),
    [
        ({"inflow": -1e-6}, "inflow"),
        ({"tube": replace(TUBE, bore=1e-3)}, "bore"),
        ({"tube": replace(TUBE, further_sections=(TubeSection(length=600.0),))}, "length"),
        ({"tube": replace(TUBE, further_sections=(TubeSection(length=6.0, bore=0.1),))}, "bore"),
        ({"pump": replace(PUMP, curve=(CurvePoint(lift=0.0, flow=1.0), *CURVE))}, "flow"),
        ({"pump": replace(PUMP, volume_to_overflow=5.0)}, "volume_to_overflow"),
        ({"water_temperature": math.nan}, "water_temperature"),
    ],
)
def test_beyond_a_limit_is_refused(changes: dict[str, Any], name: str) -> None:
    with pytest.raises(OutOfRange, match=name):
        run(**changes)
