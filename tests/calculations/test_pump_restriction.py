"""Pump restriction: hand-worked numbers, every finding where it belongs, every input answered."""

import math
from dataclasses import fields, replace
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from service.calculations.answer import Answer
from service.calculations.limits import Limit
from service.calculations.pump import Pump
from service.calculations.pump_curve import POINT_LIMITS, CurvePoint
from service.calculations.pump_out import MEASURED_AT, PUMP_OUT_LIMITS, PumpOut
from service.calculations.pump_restriction import LIMITS, TubeOffPumpOut, find_restriction
from service.calculations.pump_restriction_results import CAUSES, PumpRestriction
from service.calculations.pump_run import run_pump
from service.calculations.pump_tube import MOST_ELBOWS, TUBE_LIMITS, Tube
from service.errors import OutOfRange
from service.schemas.writing import write_finding

# straight from 4 m at no flow to none at 4e-5 m3/s; the tube is wide and short, so that by hand
# head asked = lift, flow expected at 2 m: 2e-5 m3/s, less a hair
CURVE = (CurvePoint(lift=4.0, flow=0.0), CurvePoint(lift=0.0, flow=4e-5))
WIDE = Tube(
    bore=0.05,
    length=2.5,
    elbows=0,
    check_valve=True,
    roughness=0.0,
    check_valve_loss_coefficient=0.0,
    check_valve_cracking_head=0.0,
)
SHARP = PumpOut(
    volume=1e-3, time=50.0, measured_at="tube-end", inflow=0.0, volume_uncertainty=1e-6, time_uncertainty=0.05
)
ABOUT = 1e-3
"""What the wide tube's own head, some tenths of a millimetre, leaves of the numbers worked by hand."""


def find(**changes: Any) -> Answer[PumpRestriction]:
    """The installation above, with changes."""
    request: dict[str, Any] = {
        "pump_out": SHARP,
        "lift": 2.0,
        "tube": WIDE,
        "pump": Pump(curve=CURVE),
        "water_temperature": 293.15,
    }
    return find_restriction(**(request | changes))


def codes(answer: Answer[PumpRestriction]) -> list[str]:
    return [finding.code for finding in answer.findings]


def test_nothing_is_missing_where_the_flow_is_what_was_promised() -> None:
    answer = find()
    assert answer.results.expected_flow == pytest.approx(2e-5, rel=ABOUT)
    assert answer.results.missing_head == pytest.approx(0.0, abs=ABOUT)
    assert answer.results.expected_time == pytest.approx(50.0, rel=ABOUT)
    assert codes(answer) == ["no-restriction"]
    assert answer.verdict == "pass"
    assert answer.assumptions == ()
    assert "biological-slime" not in answer.cautions


def test_half_the_flow_by_hand() -> None:
    """1e-5 m3/s: the curve makes 3 m, 2 are asked, 1 is missing, three quarters of shut-off.

    A worn pump: n^2 4 - n 4 (1e-5 / 4e-5) ... n^2 x 4 - n x 1 = 2, n = (1 + sqrt(33)) / 8 = 0.84307. Held up it
    stops at 0.84307^2 x 4 = 2.8431 m, with the tube off it gives 3.3723e-5 m3/s.
    """
    answer = find(pump_out=replace(SHARP, time=100.0))
    results = answer.results
    assert results.flow == pytest.approx(1e-5)
    assert results.flow_over_expected == pytest.approx(0.5, rel=ABOUT)
    assert results.head_made == pytest.approx(3.0)
    assert results.missing_head == pytest.approx(1.0, rel=ABOUT)
    assert results.restriction_head == results.missing_head
    assert results.head_over_shut_off == pytest.approx(0.75)
    assert results.equivalent_speed_ratio == pytest.approx(0.84307, rel=ABOUT)
    assert results.shut_off_head_if_worn == pytest.approx(2.8431, rel=ABOUT)
    assert results.tube_off_flow_if_worn == pytest.approx(3.3723e-5, rel=ABOUT)
    assert (results.shut_off_head_by_leaflet, results.tube_off_flow_by_leaflet) == (4.0, 4e-5)
    assert codes(answer) == ["flow-below-expected", "measurement-cannot-tell"]
    assert answer.verdict == "attention"
    assert "biological-slime" in answer.cautions
    # the pinch: 1 m in a wide tube is 2.9 velocity heads of it, v = sqrt(1 x 19.6133 / 2.914) = 2.594 m/s, and
    # 1e-5 m3/s through that is 3.855e-6 m2, 2.2155 mm
    assert results.equivalent_pinch_bore == pytest.approx(2.2155e-3, rel=3e-3)
    assert results.pinch_velocity_heads == pytest.approx(2.914, rel=3e-3)


def test_volumes_by_hand() -> None:
    """1 L in 50 s with 36 L/h arriving: 10 mL/s more. A tube of 10 mm, 2.5 m holds 0.19635 L, which falls back."""
    inflow = 36e-3 / 3600
    tank = replace(SHARP, measured_at="tank-while-running", inflow=inflow)
    assert find(pump_out=tank).results.flow == pytest.approx(3e-5)
    assert find(pump_out=tank).results.pumped_volume == pytest.approx(1.5e-3)
    open_tube = replace(WIDE, bore=0.01, check_valve=False)
    back = find(pump_out=replace(tank, measured_at="tank-after-fall-back"), tube=open_tube).results
    assert back.pumped_volume == pytest.approx(1.69635e-3, rel=1e-6)
    half = replace(open_tube, fall_back_share=0.5)
    back = find(pump_out=replace(tank, measured_at="tank-after-fall-back"), tube=half).results
    assert back.pumped_volume == pytest.approx(1.598175e-3, rel=1e-6)
    # at the tube's end neither counts
    assert find(pump_out=replace(tank, measured_at="tube-end"), tube=open_tube).results.flow == pytest.approx(2e-5)


def test_the_time_it_should_take_counts_the_inflow_in() -> None:
    """1 L with 1e-5 m3/s arriving against 2e-5 out: 100 s."""
    tank = replace(SHARP, measured_at="tank-while-running", inflow=1e-5, time=400.0)
    assert find(pump_out=tank).results.expected_time == pytest.approx(100.0, rel=ABOUT)
    assert find(pump_out=replace(tank, inflow=2.1e-5)).results.expected_time is None


def test_the_range_is_both_readings_at_their_worst() -> None:
    """(1 - 0.1) L in 55 s to (1 + 0.1) L in 45 s."""
    results = find(pump_out=replace(SHARP, volume_uncertainty=1e-4, time_uncertainty=5.0)).results
    assert results.least_flow == pytest.approx(0.9e-3 / 55)
    assert results.most_flow == pytest.approx(1.1e-3 / 45)


def test_a_range_that_holds_the_expected_flow_proves_nothing() -> None:
    answer = find(pump_out=replace(SHARP, time=55.0, time_uncertainty=6.0))
    assert codes(answer) == ["no-restriction"]
    assert answer.results.flow_over_expected == pytest.approx(50 / 55, rel=ABOUT)
    assert answer.results.cause == "none-shown"
    assert "flow-below-expected" in codes(find(pump_out=replace(SHARP, time=55.0, time_uncertainty=4.0)))


def test_more_than_the_pump_can_is_a_finding() -> None:
    answer = find(pump_out=replace(SHARP, time=30.0))
    assert codes(answer) == ["flow-above-expected"]
    results = answer.results
    assert results.missing_head is not None
    assert results.missing_head < 0.0
    assert results.equivalent_pinch_bore is None
    beyond = find(pump_out=replace(SHARP, time=20.0))
    assert codes(beyond) == ["flow-above-expected"]
    assert (beyond.results.head_made, beyond.results.missing_head) == (None, None)
    cannot_lift = find(lift=5.0, tube=replace(WIDE, length=6.0))
    assert codes(cannot_lift) == ["flow-above-expected"]
    assert (cannot_lift.results.expected_flow, cannot_lift.results.flow_over_expected) == (0.0, None)


def test_near_shut_off() -> None:
    """2e-6 m3/s: the curve makes 3.8 of 4 m."""
    answer = find(pump_out=replace(SHARP, time=500.0))
    assert codes(answer) == ["flow-below-expected", "measurement-cannot-tell", "restriction-near-shut-off"]
    assert answer.verdict == "fail"
    by_itself = find(lift=3.7, tube=replace(WIDE, length=4.0), pump_out=replace(SHARP, time=500.0))
    assert "pump-near-shut-off" in codes(by_itself)
    assert "restriction-near-shut-off" not in codes(by_itself)


# half the flow: alone it would take a pump at 84.3 % of its speed, shut off at 2.843 m
@pytest.mark.parametrize(
    ("shut_off_head", "uncertainty", "cause", "expected"),
    [
        (4.0, 0.05, "restriction", ["restriction-found"]),
        (3.95, 0.1, "restriction", ["restriction-found"]),
        (3.4, 0.1, "restriction-and-worn-pump", ["restriction-found", "pump-worn"]),
        (2.85, 0.1, "worn-pump", ["pump-worn"]),
        (3.4, 0.65, "cannot-tell", ["flow-below-expected", "second-measurement-cannot-tell"]),
        (4.5, 0.1, "restriction", ["restriction-found", "pump-stronger-than-leaflet"]),
    ],
)
def test_a_pump_held_up_tells_which_it_is(
    shut_off_head: float, uncertainty: float, cause: str, expected: list[str]
) -> None:
    answer = find(
        pump_out=replace(SHARP, time=100.0),
        shut_off_head_measured=shut_off_head,
        shut_off_head_uncertainty=uncertainty,
    )
    assert answer.results.cause == cause
    assert codes(answer) == expected
    assert answer.results.measured_speed_ratio == pytest.approx(math.sqrt(shut_off_head / 4.0))


def test_heads_are_shared_out_between_wear_and_restriction() -> None:
    """Shut off at 3.24 m, n = 0.9: at 1e-5 m3/s 0.81 x 4 - 0.9 x 4 / 4 = 2.34 m made, 2 asked, 0.34 left of the 1 m."""
    results = find(pump_out=replace(SHARP, time=100.0), shut_off_head_measured=3.24).results
    assert results.missing_head == pytest.approx(1.0, rel=ABOUT)
    assert results.restriction_head == pytest.approx(0.34, abs=ABOUT)


def test_a_pump_measured_with_the_tube_off() -> None:
    """3.6e-5 of 4e-5 m3/s at the tank: n = 0.9. Let out at 1 m: n^2 4 - n 4 (2.7/4) = 1 ..."""
    tube_off = TubeOffPumpOut(
        volume=3.6e-3, time=100.0, inflow=0.0, lift=0.0, volume_uncertainty=0.0, time_uncertainty=1.0
    )
    answer = find(pump_out=replace(SHARP, time=100.0), tube_off_pump_out=tube_off)
    assert answer.results.measured_speed_ratio == pytest.approx(0.9)
    assert answer.results.least_measured_speed_ratio == pytest.approx(0.9 / 1.01)
    assert answer.results.most_measured_speed_ratio == pytest.approx(0.9 / 0.99)
    assert answer.results.cause == "restriction-and-worn-pump"
    assert answer.assumptions == ()
    # at 1 m: n^2 x 4 - n x 2.7 = 1 has n = (2.7 + sqrt(7.29 + 16)) / 8 = 0.94074
    higher = replace(tube_off, volume=2.7e-3, lift=1.0)
    answer = find(pump_out=replace(SHARP, time=100.0), tube_off_pump_out=higher)
    assert answer.results.measured_speed_ratio == pytest.approx(0.94074, rel=1e-5)


def test_a_curve_that_ends_early_proves_wear_but_never_a_sound_pump() -> None:
    open_end = (CurvePoint(lift=3.0, flow=1e-5), CurvePoint(lift=0.0, flow=4e-5))
    pump = Pump(curve=open_end)
    slow = replace(SHARP, time=100.0)
    assert find(pump=pump, pump_out=slow, shut_off_head_measured=2.5).results.cause == "worn-pump"
    assert find(pump=pump, pump_out=slow, shut_off_head_measured=3.5).results.least_measured_speed_ratio is None
    assert "restriction-found" not in codes(find(pump=pump, pump_out=slow, shut_off_head_measured=3.5))


def test_the_tube_that_fills_first_is_told() -> None:
    tank = replace(SHARP, measured_at="tank-while-running", inflow=0.0)
    open_tube = replace(WIDE, bore=0.01, check_valve=False, fall_back_share=1.0)
    assert "tube-fills-first" in codes(find(pump_out=tank, tube=open_tube))
    assert "tube-fills-first" not in codes(find(tube=open_tube))
    assert "tube-fills-first" not in codes(find(pump_out=replace(tank, volume=0.1, time=5000.0), tube=open_tube))


def test_a_coarse_measurement_is_told() -> None:
    coarse = find(pump_out=replace(SHARP, time=3.0, volume=6e-5, time_uncertainty=1.0))
    assert "measurement-too-coarse" in codes(coarse)
    endless = find(pump_out=replace(SHARP, time_uncertainty=50.0))
    assert endless.results.most_flow is None
    assert codes(endless) == ["measurement-too-coarse"]


def test_slips_of_leaflet_and_tape_are_told() -> None:
    slip = (*CURVE, CurvePoint(lift=3.0, flow=5e-5))
    assert "pump-curve-rises" in codes(find(pump=Pump(curve=slip)))
    late = (CurvePoint(lift=3.0, flow=1e-5), CurvePoint(lift=4.0, flow=0.0))
    assert "pump-curve-starts-late" in codes(find(pump=Pump(curve=late)))
    assert "pump-curve-ends-early" in codes(find(pump=Pump(curve=(CURVE[1], CurvePoint(lift=3.0, flow=1e-5)))))
    assert "pump-tube-shorter-than-lift" in codes(find(tube=replace(WIDE, length=1.0)))


def test_every_default_that_entered_is_recorded_and_no_other() -> None:
    bare = find(
        pump_out=PumpOut(volume=1e-3, time=50.0),
        tube=Tube(bore=0.01, length=2.5),
        water_temperature=None,
        tube_off_pump_out=TubeOffPumpOut(volume=1e-3, time=50.0),
    )
    assert [assumption.pointer for assumption in bare.assumptions] == [
        "/tube/elbows",
        "/tube/check_valve",
        "/tube/roughness",
        "/pump_out/measured_at",
        "/pump_out/inflow",
        "/pump_out/volume_uncertainty",
        "/pump_out/time_uncertainty",
        "/tube/fall_back_share",
        "/water_temperature",
        "/tube_off_pump_out/inflow",
        "/tube_off_pump_out/volume_uncertainty",
        "/tube_off_pump_out/time_uncertainty",
        "/tube_off_pump_out/lift",
    ]
    caught = find(pump_out=PumpOut(volume=1e-3, time=50.0, measured_at="tube-end"), shut_off_head_measured=3.0)
    assert [assumption.pointer for assumption in caught.assumptions] == [
        "/pump_out/volume_uncertainty",
        "/pump_out/time_uncertainty",
        "/shut_off_head_uncertainty",
    ]


def within(limit: Limit) -> st.SearchStrategy[float]:
    """Numbers within a limit, its ends included."""
    return st.floats(limit.low, limit.high)


def optional(limits: dict[str, Limit], *required: str) -> dict[str, st.SearchStrategy[Any]]:
    """A strategy for each limit: a number within, or none where it is not required."""
    return {name: within(limit) if name in required else st.none() | within(limit) for name, limit in limits.items()}


PUMP_OUTS = st.builds(
    PumpOut, **optional(PUMP_OUT_LIMITS, "volume", "time"), measured_at=st.none() | st.sampled_from(MEASURED_AT)
)
POINTS = st.builds(CurvePoint, lift=within(POINT_LIMITS["lift"]), flow=within(POINT_LIMITS["flow"]))
REQUESTS = st.fixed_dictionaries(
    {
        "pump_out": PUMP_OUTS | st.builds(replace, st.just(SHARP), time=st.floats(20.0, 2000.0)),
        "lift": within(LIMITS["lift"]) | st.floats(0.0, 4.0),
        "tube": st.builds(
            Tube,
            **optional(TUBE_LIMITS, "bore", "length"),
            elbows=st.none() | st.integers(0, MOST_ELBOWS),
            check_valve=st.none() | st.booleans(),
        )
        | st.just(WIDE),
        "pump": st.builds(Pump, curve=st.lists(POINTS, min_size=2, max_size=6).map(tuple) | st.just(CURVE)),
    },
    optional={
        "tube_off_pump_out": st.builds(
            TubeOffPumpOut,
            **optional(PUMP_OUT_LIMITS, "volume", "time"),
            lift=st.none() | within(LIMITS["tube_off_lift"]),
        ),
        **{
            name: within(LIMITS[name])
            for name in ("shut_off_head_measured", "shut_off_head_uncertainty", "water_temperature")
        },
    },
)
SIGNED = {"missing_head", "restriction_head", "least_restriction_head", "most_restriction_head"}


@given(REQUESTS)
def test_every_input_within_limits_is_answered_with_finite_numbers_and_readable_findings(
    request: dict[str, Any],
) -> None:
    answer = find_restriction(**request)
    results = answer.results
    assert results.cause in CAUSES
    for field in fields(results):
        value = getattr(results, field.name)
        if value is not None and field.name != "cause":
            assert math.isfinite(value), field.name
            assert value >= 0.0 or field.name in SIGNED, field.name
    assert results.least_flow <= results.flow * (1 + 1e-12)
    assert results.most_flow is None or results.most_flow >= results.flow * (1 - 1e-12)
    for name in ("pinch", "tube"):
        bores = [getattr(results, f"{end}_{name}_bore") for end in ("narrowest", "equivalent", "widest")]
        given_bores = [bore for bore in bores if bore is not None]
        assert all(0.0 <= bore <= request["tube"].bore * (1 + 1e-9) for bore in given_bores)
    for system in ("us", "si"):
        for finding in answer.findings:
            written = write_finding(finding, system)
            assert "{" not in written["message"] + written["remedy"]
    assert len({finding.code for finding in answer.findings}) == len(answer.findings)


@given(REQUESTS)
def test_a_pump_out_at_the_operating_flow_never_shows_a_restriction(request: dict[str, Any]) -> None:
    run = run_pump(
        inflow=0.0,
        lift=request["lift"],
        tube=request["tube"],
        pump=request["pump"],
        water_temperature=request.get("water_temperature"),
    ).results
    volume = min(max(60.0 * run.operating_flow, 1e-5), 1.0)
    if run.operating_flow <= volume / 86400.0 or run.operating_flow > volume:
        return
    timed = PumpOut(volume=volume, time=volume / run.operating_flow, measured_at="tube-end", time_uncertainty=1e-3)
    alone = {name: value for name, value in request.items() if "shut_off" not in name and "tube_off" not in name}
    results = find_restriction(**(alone | {"pump_out": timed})).results
    assert results.cause == "none-shown"
    assert results.expected_flow == pytest.approx(run.operating_flow, rel=1e-9)


@given(REQUESTS, st.floats(1.001, 10.0))
def test_less_flow_is_more_missing_head_and_a_narrower_pinch(request: dict[str, Any], longer: float) -> None:
    alone = {name: value for name, value in request.items() if "shut_off" not in name and "tube_off" not in name}
    fast = replace(request["pump_out"], measured_at="tube-end", time=min(request["pump_out"].time, 8000.0))
    slow = replace(fast, time=fast.time * longer)
    first = find_restriction(**(alone | {"pump_out": fast})).results
    second = find_restriction(**(alone | {"pump_out": slow})).results
    if first.missing_head is not None:
        assert second.missing_head is not None
        assert second.missing_head >= first.missing_head - 1e-12 * (1.0 + abs(first.missing_head))
    for name in ("equivalent_pinch_bore", "equivalent_tube_bore"):
        before, after = getattr(first, name), getattr(second, name)
        if before is not None and after is not None:
            assert after <= before * (1 + 1e-9)


@pytest.mark.parametrize(
    ("name", "changes"),
    [
        ("lift", {"lift": 60.0}),
        ("volume", {"pump_out": replace(SHARP, volume=0.0)}),
        ("time", {"pump_out": replace(SHARP, time=0.5)}),
        ("volume", {"tube_off_pump_out": TubeOffPumpOut(volume=2.0, time=50.0)}),
        ("tube_off_lift", {"tube_off_pump_out": TubeOffPumpOut(volume=1e-3, time=50.0, lift=60.0)}),
        ("shut_off_head_measured", {"shut_off_head_measured": -1.0}),
        ("bore", {"tube": replace(WIDE, bore=1.0)}),
        ("water_temperature", {"water_temperature": math.nan}),
    ],
)
def test_beyond_a_limit_is_refused(name: str, changes: dict[str, Any]) -> None:
    with pytest.raises(OutOfRange, match=name):
        find(**changes)
