"""The closed form against brute-force integration of dx/dt = sum of b / (P + x)."""

import math

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from scipy.integrate import quad, solve_ivp

from service.calculations.level_fall import OpenLeg, fall_after, fall_time

PATHS = st.one_of(st.just(0.0), st.floats(1e-4, 100.0))
COEFFICIENTS = st.floats(1e-13, 1e-8)
LEGS = st.lists(st.builds(OpenLeg, path=PATHS, coefficient=COEFFICIENTS), min_size=1, max_size=2).map(tuple)


def pace(legs, fall):
    """Seconds a metre, 1 / (dx/dt), at a fall; a leg with no column yet takes the water at once."""
    columns = [(leg.coefficient, leg.path + fall) for leg in legs]
    if any(column == 0.0 for _, column in columns):
        return 0.0
    return 1.0 / sum(coefficient / column for coefficient, column in columns)


@given(LEGS, st.floats(0.0, 0.5), st.floats(1e-3, 1.0))
def test_time_is_the_integral_of_the_pace(legs, start, fall):
    expected, _ = quad(lambda x: pace(legs, x), start, start + fall, epsabs=0.0, epsrel=1e-11, limit=200)
    assert fall_time(legs, start, start + fall) == pytest.approx(expected, rel=1e-9)


@pytest.mark.parametrize("paths", [(0.05, 0.0), (0.05, 0.0508), (0.2, 3.0), (0.0, 0.0)])
def test_stepping_through_time_gets_to_the_same_level(paths):
    """Runge-Kutta from a millimetre down: nothing of the closed form is in it."""
    legs = tuple(
        OpenLeg(path=path, coefficient=coefficient) for path, coefficient in zip(paths, (2e-10, 1e-10), strict=True)
    )
    time = fall_time(legs, 0.001, 0.04)
    run = solve_ivp(
        lambda _, x: [1.0 / pace(legs, x[0])], (0.0, time), [0.001], method="DOP853", rtol=1e-10, atol=1e-13
    )
    assert run.y[0, -1] == pytest.approx(0.04, rel=1e-7)


@given(LEGS, st.floats(0.0, 0.5), st.floats(1.0, 3e8))
def test_fall_after_is_the_inverse(legs, start, time):
    end = fall_after(legs, start, time)
    assume(end - start > 1e-3 * start)
    assert fall_time(legs, start, end) == pytest.approx(time, rel=1e-9)


@given(LEGS, st.floats(0.0, 0.3), st.floats(1e-4, 0.3), st.floats(1e-4, 0.3))
def test_times_add_up(legs, start, first, second):
    whole = fall_time(legs, start, start + first + second)
    parts = fall_time(legs, start, start + first) + fall_time(legs, start + first, start + first + second)
    assert parts == pytest.approx(whole, rel=1e-9)


def test_two_like_legs_are_one_leg_with_both_coefficients():
    pair = (OpenLeg(path=0.02, coefficient=1e-10),) * 2
    single = (OpenLeg(path=0.02, coefficient=2e-10),)
    assert fall_time(pair, 0.0, 0.03) == pytest.approx(fall_time(single, 0.0, 0.03), rel=1e-14)
    # by hand: ((0.05 m)^2 - (0.02 m)^2) / (2 x 2e-10 m2/s)
    assert fall_time(single, 0.0, 0.03) == pytest.approx(0.0021 / 4e-10)


def test_a_short_fall_loses_no_digits():
    """From nothing the first column gives the time alone, x^2 / 2b: the other one is a metre long."""
    legs = (OpenLeg(path=1.0, coefficient=1e-10), OpenLeg(path=0.0, coefficient=1e-10))
    for fall in (1e-9, 1e-6, 1e-4):
        assert fall_time(legs, 0.0, fall) == pytest.approx(fall**2 / 2e-10, rel=2.0 * fall + 1e-12)
        assert fall_after(legs, 0.0, fall**2 / 2e-10) == pytest.approx(fall, rel=2.0 * fall + 1e-12)
    assert fall_after(legs, 0.0, 1e-200) >= 0.0


@pytest.mark.parametrize("tiny", [5e-324, 1e-200, 1e-120])
def test_next_to_no_column_is_none(tiny):
    for first in (OpenLeg(path=tiny, coefficient=1e-10), OpenLeg(path=0.0, coefficient=1e-10)):
        legs = (first, OpenLeg(path=tiny, coefficient=1e-10))
        # by hand: (0.1 m)^2 / (2 x 2e-10 m2/s)
        assert fall_time(legs, tiny, 0.1) == fall_time(legs, 0.0, 0.1) == pytest.approx(2.5e7)
        assert fall_after(legs, 0.0, 2.5e7) == pytest.approx(0.1)


def test_limits():
    dry, wet = OpenLeg(path=0.1, coefficient=1e-10), OpenLeg(path=0.0, coefficient=0.0)
    assert fall_time((), 0.0, 0.1) == fall_time((wet,), 0.0, 0.1) == math.inf
    assert fall_after((), 0.02, 1e6) == fall_after((wet, wet), 0.02, 1e6) == 0.02
    assert fall_time((dry, wet), 0.0, 0.1) == fall_time((dry,), 0.0, 0.1)  # a leg that gives nothing
    assert fall_time((dry,), 0.1, 0.1) == fall_time((dry,), 0.2, 0.1) == 0.0
    assert fall_after((dry, dry), 0.05, 0.0) == 0.05
    assert fall_time((OpenLeg(path=0.0, coefficient=1e-320),), 0.0, 1.0) > 1e300
