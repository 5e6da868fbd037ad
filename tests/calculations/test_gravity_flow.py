"""Flow under a pipe's own fall: shape of the laws over their whole domain."""

from math import acos, pi, sin, sqrt

import pytest
from hypothesis import given
from hypothesis import strategies as st

from service.calculations.gravity_flow import (
    FULLEST_DEPTH,
    LARGEST_RATIO,
    full_bore_flow,
    hydraulic_diameter,
    laminar_depth,
    laminar_full_bore_flow,
    part_full_depth,
    part_full_ratio,
    part_full_velocity_ratio,
)


@given(st.floats(0.0, 1.0))
def test_depth_and_flow_ratio_are_inverses_up_to_the_fullest_depth(share: float) -> None:
    depth = share * FULLEST_DEPTH
    found = part_full_depth(part_full_ratio(depth))
    assert found is not None
    # near the maximum the flow hardly changes with depth: a root there has half the digits
    assert found == pytest.approx(depth, abs=1e-9 if share < 0.99 else 1e-6)


@given(st.floats(1e-12, 1.07))
def test_the_depth_found_carries_the_flow(ratio: float) -> None:
    depth = part_full_depth(ratio)
    assert depth is not None
    assert part_full_ratio(depth) == pytest.approx(ratio, rel=1e-9)


@given(st.floats(1e-6, 1.34))
def test_the_laminar_depth_found_carries_the_flow(ratio: float) -> None:
    depth = laminar_depth(ratio)
    assert depth is not None
    # Hagen and Poiseuille with the hydraulic diameter: area times its square, over those of the full bore
    angle = 2.0 * acos(1.0 - 2.0 * depth)
    area = (angle - sin(angle)) / (2.0 * pi)
    assert area * hydraulic_diameter(bore=1.0, depth_fraction=depth) ** 2 == pytest.approx(ratio, rel=1e-6)


def test_part_full_ends() -> None:
    assert part_full_ratio(0.0) == 0.0
    assert part_full_ratio(1.0) == pytest.approx(1.0, rel=1e-12)
    assert part_full_depth(0.0) == 0.0
    assert part_full_depth(LARGEST_RATIO) == pytest.approx(FULLEST_DEPTH, abs=1e-6)
    assert part_full_depth(LARGEST_RATIO * 1.000001) is None


@given(st.floats(1e-15, 1e-3))
def test_a_trickle_keeps_its_digits(ratio: float) -> None:
    depth = part_full_depth(ratio)
    assert depth is not None
    assert part_full_ratio(depth) == pytest.approx(ratio, rel=1e-6)


@pytest.mark.parametrize("pitch", [0.0, -0.01, -1.0])
def test_a_line_that_does_not_fall_carries_nothing_by_its_own_fall(pitch: float) -> None:
    assert full_bore_flow(bore=0.02, pitch_ratio=pitch, manning_coefficient=0.01) == 0.0


def test_flow_goes_with_the_root_of_the_pitch_and_the_eight_thirds_of_the_bore() -> None:
    base = full_bore_flow(bore=0.02, pitch_ratio=0.01, manning_coefficient=0.01)
    assert full_bore_flow(bore=0.02, pitch_ratio=0.04, manning_coefficient=0.01) == pytest.approx(2.0 * base)
    assert full_bore_flow(bore=0.16, pitch_ratio=0.01, manning_coefficient=0.01) == pytest.approx(256.0 * base)


def segment_area(depth: float) -> float:
    """Area below a depth in a circle of diameter 1, over the whole circle: (theta - sin theta) / 2 pi."""
    strips = 4000
    # by the midpoint rule over strips across the pipe, not by that formula
    width = depth / strips
    area = sum(2.0 * sqrt(max(y * (1.0 - y), 0.0)) * width for y in (width * (k + 0.5) for k in range(strips)))
    return area / (pi / 4.0)


@pytest.mark.parametrize("depth", [0.02, 0.1, 0.35, 0.5, 0.75, 0.938, 1.0])
def test_flow_is_velocity_times_area(depth: float) -> None:
    carried = part_full_velocity_ratio(depth) * segment_area(depth)
    assert carried == pytest.approx(part_full_ratio(depth), rel=1e-4)


@given(st.floats(0.0, 1.0))
def test_hydraulic_diameter_is_four_areas_over_the_wet_wall(depth: float) -> None:
    # never more than 1.22 of the bore (0.304 x 4, at 0.81 of the depth: the handbooks' largest hydraulic radius)
    assert 0.0 <= hydraulic_diameter(bore=1.0, depth_fraction=depth) <= 1.2175
    # a shallow segment is a parabola: two thirds of its depth, four times
    if 0.0 < depth < 1e-4:
        assert hydraulic_diameter(bore=1.0, depth_fraction=depth) == pytest.approx(8.0 / 3.0 * depth, rel=1e-3)


@given(st.floats(0.0, 1.0), st.floats(0.0, 1.0))
def test_more_laminar_flow_stands_deeper(one: float, other: float) -> None:
    less, more = sorted((one, other))
    low, high = laminar_depth(less), laminar_depth(more)
    assert low is not None
    assert high is not None
    assert low <= high <= 0.8874


@given(st.floats(1e-300, 1e-3))
def test_a_laminar_trickle_goes_with_two_sevenths_of_the_flow(ratio: float) -> None:
    # depth = theta^2 / 16 and flow ratio = theta^7 / (432 pi), leading terms
    depth = laminar_depth(ratio)
    assert depth is not None
    assert depth == pytest.approx((432.0 * pi * ratio) ** (2.0 / 7.0) / 16.0, rel=0.06)


def test_laminar_ends() -> None:
    assert laminar_depth(0.0) == 0.0
    assert laminar_depth(1.36) is None
    assert laminar_full_bore_flow(bore=0.02, pitch_ratio=-0.1, kinematic_viscosity=1e-6) == 0.0
