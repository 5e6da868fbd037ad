"""A leaflet's points: order, slips, ends."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.interpolate import PchipInterpolator

from service.calculations.pump_curve import MOST_POINTS, POINT_LIMITS, CurvePoint, PumpCurve, read_curve

POINTS = st.builds(
    CurvePoint,
    lift=st.floats(POINT_LIMITS["lift"].low, POINT_LIMITS["lift"].high) | st.integers(0, 5).map(float),
    flow=st.floats(POINT_LIMITS["flow"].low, POINT_LIMITS["flow"].high) | st.integers(0, 5).map(lambda n: n * 1e-5),
)
CURVES = st.lists(POINTS, min_size=2, max_size=MOST_POINTS).map(tuple)


def curve(*rows: tuple[float, float]) -> PumpCurve:
    """A curve from (lift, flow)."""
    return read_curve(tuple(CurvePoint(lift=lift, flow=flow) for lift, flow in rows))


@given(CURVES)
def test_the_curve_used_rises_in_lift_and_never_in_flow(given_points: tuple[CurvePoint, ...]) -> None:
    used = read_curve(given_points).points
    lifts, flows = [point.lift for point in used], [point.flow for point in used]
    assert lifts == sorted(set(lifts))
    assert flows == sorted(flows, reverse=True)


@given(CURVES, st.randoms())
def test_the_order_of_the_points_does_not_matter(given_points: tuple[CurvePoint, ...], random) -> None:  # type: ignore[no-untyped-def]
    shuffled = list(given_points)
    random.shuffle(shuffled)
    assert read_curve(tuple(shuffled)).points == read_curve(given_points).points


@given(CURVES)
def test_the_curve_used_never_promises_more_than_a_point_given(given_points: tuple[CurvePoint, ...]) -> None:
    used = read_curve(given_points)
    for point in given_points:
        at = next(kept for kept in used.points if kept.lift == point.lift)
        assert at.flow <= point.flow


@given(CURVES, st.floats(0.0, 5e-3), st.floats(0.0, 5e-3))
def test_a_larger_flow_never_has_a_larger_lift(given_points: tuple[CurvePoint, ...], one: float, other: float) -> None:
    used = read_curve(given_points)
    smaller, larger = sorted((one, other))
    low, high = used.lift_at(larger), used.lift_at(smaller)
    if low is not None:
        assert high is not None
        assert low <= high + 1e-9 * abs(high)
        assert math.isfinite(low)


def test_lift_between_points_lies_on_the_straight_line() -> None:
    used = curve((0.0, 4e-5), (2.0, 3e-5), (4.0, 0.0))
    # by hand: half way from 3e-5 to 0 is half way from 2 to 4 m
    assert used.lift_at(1.5e-5) == pytest.approx(3.0)
    assert used.lift_at(3.5e-5) == pytest.approx(1.0)
    assert used.lift_at(3e-5) == pytest.approx(2.0)


def test_ends() -> None:
    used = curve((0.0, 4e-5), (4.0, 0.0), (6.0, 0.0))
    assert used.lift_at(4.1e-5) is None
    assert used.lift_at(0.0) == used.shut_off == 4.0
    assert used.reaches_zero


def test_a_curve_that_stops_short_is_not_stretched() -> None:
    used = curve((0.0, 4e-5), (3.0, 1e-5))
    assert not used.reaches_zero
    assert used.shut_off == 3.0
    assert used.lift_at(0.5e-5) == 3.0


def test_a_rising_point_is_brought_down_and_named() -> None:
    used = curve((0.0, 3e-5), (2.0, 4e-5), (4.0, 0.0))
    assert used.rising == CurvePoint(lift=2.0, flow=4e-5)
    assert used.points[1].flow == 3e-5
    assert curve((0.0, 3e-5), (2.0, 2e-5)).rising is None


def test_two_flows_at_one_lift_leave_the_smaller() -> None:
    used = curve((1.0, 4e-5), (1.0, 2e-5), (3.0, 0.0))
    assert used.points[0] == CurvePoint(lift=1.0, flow=2e-5)
    assert used.rising == CurvePoint(lift=1.0, flow=4e-5)
    assert curve((1.0, 2e-5), (1.0, 2e-5)).rising is None


def test_a_curve_of_no_flow_has_no_shut_off_head() -> None:
    assert curve((2.0, 0.0), (5.0, 0.0)).shut_off == 0.0


@given(st.floats(1.1, 4.0), st.integers(3, 8), st.floats(0.0, 1.0))
def test_straight_lines_never_promise_more_than_the_pump_a_leaflet_was_read_from(
    bulge: float, count: int, share: float
) -> None:
    """Why straight lines, as network solvers draw them, and no smoother curve through the points.

    A centrifugal pump's head falls the faster the more it moves: H = 1 - Q^bulge, so that Q bulges outward over H.
    A chord lies inside such a curve; a monotone cubic through the same points passes outside it near shut-off, by
    up to 3 % of the greatest flow (below), where the answer is nearest to "cannot lift".
    """
    lifts = [index / (count - 1) for index in range(count)]
    used = curve(*((lift, 1e-3 * (1.0 - lift) ** (1.0 / bulge)) for lift in lifts))
    flow = 1e-3 * share
    lift = used.lift_at(flow)
    assert lift is not None
    assert lift <= 1.0 - share**bulge + 1e-9


def test_a_monotone_cubic_does_promise_more() -> None:
    # Fritsch and Carlson's, by SciPy, through three points of Q = sqrt(1 - H)
    lifts = np.array([0.0, 0.5, 1.0])
    between = np.linspace(0.0, 1.0, 1001)
    surplus = PchipInterpolator(lifts, np.sqrt(1.0 - lifts))(between) - np.sqrt(1.0 - between)
    assert 0.02 < surplus.max() < 0.035
