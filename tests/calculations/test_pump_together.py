"""Pumps through one tube: flows add at one head, friction takes part of the gain, no pump is run backwards."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from service.calculations.pump_curve import POINT_LIMITS, CurvePoint, PumpCurve, read_curve
from service.calculations.pump_point import meeting_flow, operating_flow
from service.calculations.pump_together import flows_without_each, shared_flows, starts_in_turn
from service.calculations.pump_tube import Tube, TubeRun, settle_tube
from tests.calculations.test_pump_run import TUBES, within

# a nanometre of head and a billionth of a litre a second are finer than anything; below, products of floats underflow
CURVES = st.lists(
    st.builds(
        CurvePoint,
        lift=within(POINT_LIMITS["lift"]).map(lambda lift: round(lift, 9)),
        flow=within(POINT_LIMITS["flow"]).map(lambda flow: round(flow, 12)),
    ),
    min_size=2,
    max_size=6,
).map(lambda points: read_curve(tuple(points)))
LIFTS = st.floats(0.0, 50.0).map(lambda lift: round(lift, 9))
NOTHING = 1e-15


def settled(tube: Tube) -> TubeRun:
    return settle_tube(tube, 293.15)[0]


def curve(*rows: tuple[float, float]) -> PumpCurve:
    return read_curve(tuple(CurvePoint(lift=lift, flow=flow) for lift, flow in rows))


def behind_valve(one: PumpCurve, tube: TubeRun, head: float) -> float:
    """What one pump gives through its check valve against a head, by the search that serves one pump alone."""

    def loss(flow: float) -> tuple[float, float]:
        valve = tube.check_valve(flow)
        return valve, 2.0 * (valve - tube.cracking_head)

    return meeting_flow(one, head, loss)


@given(st.lists(CURVES, min_size=1, max_size=4), TUBES, LIFTS)
def test_together_they_move_no_less_than_the_strongest_and_no_more_than_all_alone(
    curves: list[PumpCurve], tube: Tube, lift: float
) -> None:
    run = settled(tube)
    shares = shared_flows(curves, run, lift)
    alone = [operating_flow(each, run, lift) for each in curves]
    assert all(share >= 0.0 for share in shares)
    assert sum(shares) >= max(alone) * (1 - 1e-6) - NOTHING
    assert sum(shares) <= sum(alone) * (1 + 1e-6) + NOTHING
    for without in flows_without_each(curves, run, lift):
        assert without <= sum(shares) * (1 + 1e-6) + NOTHING


@given(st.lists(CURVES, min_size=2, max_size=4), TUBES, LIFTS)
def test_all_meet_one_head(curves: list[PumpCurve], tube: Tube, lift: float) -> None:
    """At the head in the tube each pump gives its share, but one on a step of its curve, which gives some of it."""
    run = settled(tube)
    shares = shared_flows(curves, run, lift)
    flow = sum(shares)
    if flow <= NOTHING:
        return
    head = lift + run.friction(flow) + run.bends(flow)
    for each, share in zip(curves, shares, strict=True):
        lower, upper = (behind_valve(each, run, at) for at in (head * (1 + 1e-6), head * (1 - 1e-6)))
        assert lower * (1 - 1e-6) - NOTHING <= share <= upper * (1 + 1e-6) + NOTHING


@given(CURVES, TUBES, LIFTS)
def test_one_pump_is_that_pump(one: PumpCurve, tube: Tube, lift: float) -> None:
    run = settled(tube)
    assert sum(shared_flows((one,), run, lift)) == pytest.approx(operating_flow(one, run, lift), rel=1e-6, abs=NOTHING)
    assert flows_without_each((one,), run, lift) == (0.0,)


@given(CURVES, TUBES, LIFTS, st.integers(2, 4))
def test_pumps_of_a_kind_share_alike_and_are_one_pump_of_added_flow(
    one: PumpCurve, tube: Tube, lift: float, count: int
) -> None:
    # a check valve at each is left out here, so that the sum of the curves can be written down by hand
    run = replace(settled(tube), check_valve_loss_coefficient=0.0, cracking_head=0.0)
    shares = shared_flows((one,) * count, run, lift)
    assert shares == pytest.approx((shares[0],) * count)
    added = PumpCurve(
        points=tuple(CurvePoint(lift=point.lift, flow=count * point.flow) for point in one.points), rising=None
    )
    assert sum(shares) == pytest.approx(operating_flow(added, run, lift), rel=1e-6, abs=NOTHING)


@given(CURVES, TUBES, LIFTS, st.integers(1, 3))
def test_a_pump_that_is_all_but_of_their_kind_changes_next_to_nothing(
    one: PumpCurve, tube: Tube, lift: float, others: int
) -> None:
    """Pumps of a kind are worked out as one, any others each by itself."""
    run = settled(tube)
    almost = PumpCurve(
        points=tuple(CurvePoint(lift=point.lift, flow=point.flow * (1.0 - 1e-9)) for point in one.points), rising=None
    )
    alike, nearly = (sum(shared_flows((last, *(one,) * others), run, lift)) for last in (one, almost))
    assert nearly == pytest.approx(alike, rel=1e-6, abs=NOTHING)


def test_a_pump_below_the_others_head_is_held_shut() -> None:
    low, high = curve((0.0, 6e-5), (1.0, 0.0)), curve((0.0, 8e-5), (9.0, 0.0))
    run = settled(Tube(bore=0.006, length=30.0, elbows=0, check_valve=True))
    assert operating_flow(low, run, 0.5) > 0.0
    shares = shared_flows((low, high), run, 0.5)
    assert shares[0] == 0.0
    assert shares[1] == pytest.approx(operating_flow(high, run, 0.5), rel=1e-9)


def test_two_pumps_on_the_step_of_their_curves_share_what_the_tube_takes() -> None:
    # both stop short of zero at 2 m, where 4e-5 is left of each; the tube takes less than either's 4e-5 there
    short = curve((0.0, 8e-5), (2.0, 4e-5))
    run = settled(Tube(bore=0.006, length=30.0, elbows=0, check_valve=False))
    shares = shared_flows((short, short), run, 0.0)
    assert shares[0] == pytest.approx(shares[1])
    assert sum(shares) == pytest.approx(operating_flow(short, run, 0.0), rel=1e-6)
    assert run.friction(sum(shares)) == pytest.approx(2.0, rel=1e-6)


def test_starts_in_turn_by_hand() -> None:
    # a round of 200 and 400 s: each starts six times an hour
    assert starts_in_turn((200.0, 400.0)) == pytest.approx(6.0)
    assert starts_in_turn((200.0, None)) is None
    assert starts_in_turn(()) is None
