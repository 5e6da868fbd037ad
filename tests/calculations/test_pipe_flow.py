"""Flow in pipes: shape of the laws over their whole domain."""

from math import log, pi

import pytest
from hypothesis import given
from hypothesis import strategies as st

from service.calculations.pipe_flow import friction_factor, friction_head, velocity, wall_loss

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


@given(st.floats(1e-7, 1e-2), st.floats(2e-3, 0.1), st.floats(0.0, 1e-4))
def test_the_exponent_is_how_steeply_the_head_rises(flow: float, bore: float, roughness: float) -> None:
    below, head, above = (
        wall_loss(velocity(flow * (1.0 + step), bore), bore, 10.0, roughness, 1e-6) for step in (-1e-5, 0.0, 1e-5)
    )
    # by definition d ln head / d ln flow, as a difference; it bends at the ends of the transition
    assert head[1] == pytest.approx(log(above[0] / below[0]) / log((1.0 + 1e-5) / (1.0 - 1e-5)), abs=1e-3)


def test_no_flow_takes_no_head() -> None:
    assert friction_head(flow=0.0, bore=0.01, length=10.0, roughness=0.0, kinematic_viscosity=1e-6) == 0.0


def test_velocity_is_flow_over_area() -> None:
    assert velocity(pi / 4.0, 1.0) == pytest.approx(1.0, rel=1e-15)
