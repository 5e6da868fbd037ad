"""A worn pump's speed: the least at which it still does what it was seen to do."""

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from service.calculations.pump_curve import CurvePoint, read_curve
from service.calculations.pump_speed import FASTEST, head_at_speed, speed_for
from tests.calculations.test_pump_curve import CURVES


@given(CURVES, st.floats(1e-9, 6e-3), st.floats(1e-6, 100.0))
def test_at_that_speed_the_pump_does_it_and_at_less_it_does_not(
    points: tuple[CurvePoint, ...], flow: float, head: float
) -> None:
    curve = read_curve(points)
    speed = speed_for(curve, flow, head)
    if speed is None:
        # by the affinity laws, which `head_at_speed` is written down from
        assert (head_at_speed(curve, flow, FASTEST) or 0.0) <= head * (1.0 + 1e-9)
        return
    # a piece so steep that the last bits of a flow are metres of head has no such neighbours
    assume(all(upper.flow == 0.0 or upper.flow > 1e-12 for upper in curve.points))
    made = head_at_speed(curve, flow, speed * (1.0 + 1e-9))
    assert made is not None
    assert made >= head * (1.0 - 1e-6)
    less = head_at_speed(curve, flow, speed * (1.0 - 1e-9))
    assert less is None or less <= head * (1.0 + 1e-6)


def test_a_still_flow_asks_for_the_speed_of_the_shut_off_head() -> None:
    # head goes with the square of the speed: half of it for a quarter of the head
    curve = read_curve((CurvePoint(lift=4.0, flow=0.0), CurvePoint(lift=0.0, flow=2e-5)))
    assert speed_for(curve, 0.0, 1.0) == pytest.approx(0.5)
    assert speed_for(curve, 0.0, 0.0) == 0.0


def test_less_flow_than_a_curve_that_ends_early_has_is_held_at_its_last_lift() -> None:
    curve = read_curve((CurvePoint(lift=0.0, flow=4e-5), CurvePoint(lift=2.0, flow=2e-5)))
    # 0.5 of the speed makes a quarter of 2 m at 1e-5 m3/s and less
    assert speed_for(curve, 0.5e-5, 0.5) == pytest.approx(0.5)
