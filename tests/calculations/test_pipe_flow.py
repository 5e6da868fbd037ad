"""Flow in pipes: shape of the laws over their whole domain."""

from math import pi

import pytest
from hypothesis import given
from hypothesis import strategies as st

from service.calculations.pipe_flow import (
    FULLEST_DEPTH,
    LARGEST_RATIO,
    friction_factor,
    friction_head,
    full_bore_flow,
    part_full_depth,
    part_full_ratio,
    velocity,
)

ROUGHNESS = st.floats(0.0, 0.05)


@given(st.floats(1e-3, 1e6), st.floats(1.0001, 2.0), ROUGHNESS)
def test_head_loss_rises_with_flow_everywhere_also_across_the_transition(
    reynolds: float, step: float, roughness: float
) -> None:
    # head ~ f Re^2 in one pipe: a solver has one root only if that never falls
    lower = friction_factor(reynolds, roughness) * reynolds**2
    higher = friction_factor(reynolds * step, roughness) * (reynolds * step) ** 2
    assert higher > lower


@pytest.mark.parametrize("joint", [2000.0, 4000.0])
@given(roughness=ROUGHNESS)
def test_friction_factor_meets_its_neighbours_in_value_and_slope(joint: float, roughness: float) -> None:
    below, at, above = (friction_factor(joint + step, roughness) for step in (-0.01, 0.0, 0.01))
    assert below == pytest.approx(at, rel=1e-5)
    assert above == pytest.approx(at, rel=1e-5)
    # slopes of either side over 0.01 in Re; the laws bend by less than 1e-7 per Re here
    assert (at - below) / 0.01 == pytest.approx((above - at) / 0.01, abs=1e-8)


@given(st.floats(0.0, 1e-2), st.floats(2e-3, 0.1), st.floats(0.05, 500.0), st.floats(0.0, 1e-4))
def test_friction_head_grows_with_length_and_is_never_negative(
    flow: float, bore: float, length: float, roughness: float
) -> None:
    arguments = {"flow": flow, "bore": bore, "roughness": roughness, "kinematic_viscosity": 1e-6}
    once = friction_head(length=length, **arguments)
    assert once >= 0.0
    assert friction_head(length=2.0 * length, **arguments) == pytest.approx(2.0 * once, rel=1e-12)


def test_no_flow_takes_no_head() -> None:
    assert friction_head(flow=0.0, bore=0.01, length=10.0, roughness=0.0, kinematic_viscosity=1e-6) == 0.0


def test_velocity_is_flow_over_area() -> None:
    assert velocity(pi / 4.0, 1.0) == pytest.approx(1.0, rel=1e-15)


@given(st.floats(0.0, 1.0))
def test_depth_and_flow_ratio_are_inverses_up_to_the_fullest_depth(share: float) -> None:
    depth = share * FULLEST_DEPTH
    found = part_full_depth(part_full_ratio(depth))
    assert found is not None
    # near the maximum the flow hardly changes with depth: a root there has half the digits
    assert found == pytest.approx(depth, abs=1e-9 if share < 0.99 else 1e-6)


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
