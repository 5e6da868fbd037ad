"""The closing test against hand-worked cases, another solver for the depth, and the pump watched second by second."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.optimize import brentq

from service.calculations.closing_test import (
    CAUGHT_SHARE,
    LATE,
    PROOF_TIME,
    PumpedPart,
    WettedLine,
    choose_pour_rate,
    plan_closing_test,
    time_to_fill_tube,
    wet_line,
)

FOOT, INCH = 0.3048, 0.0254
GALLON_HOUR = 3.785411784e-3 / 3600


def segment(height, bore):
    """Area and wetted perimeter of water ``height`` deep in a round bore, from the chord: another form than ours."""
    radius = bore / 2
    half = math.acos((radius - height) / radius)
    return radius**2 * half - (radius - height) * math.sqrt(2 * radius * height - height**2), 2 * radius * half


def manning(height, bore, pitch, n):
    area, perimeter = segment(height, bore)
    return area * (area / perimeter) ** (2 / 3) * math.sqrt(pitch) / n


@pytest.mark.parametrize("pour", [2 * GALLON_HOUR, 16 * GALLON_HOUR, 60 * GALLON_HOUR])
@pytest.mark.parametrize("pitch", [1 / 96, 1 / 48, 0.3])
def test_hold_up_and_time_are_those_of_another_solver(pour, pitch):
    bore, length, n = 0.824 * INCH, 32 * FOOT, 0.011
    height = brentq(lambda height: manning(height, bore, pitch, n) - pour, 1e-7, 0.8 * bore, xtol=1e-14)
    area, _ = segment(height, bore)
    line = wet_line(pour_rate=pour, bore=bore, length=length, pitch_ratio=pitch, manning_coefficient=n)
    assert line.depth_fraction == pytest.approx(height / bore, rel=1e-8)
    assert line.hold_up == pytest.approx(area * length, rel=1e-7)
    assert line.time == pytest.approx(length / (pour / area), rel=1e-7)
    assert not line.fills


def test_a_gravity_line_by_hand():
    # 0.824 in bore half full: full-bore flow by Manning at 1/8 in per ft, n 0.011:
    # A 3.4404e-4 m2, R 5.2324e-3 m, R^(2/3) 0.030139, sqrt(S) 0.102062: v = 0.27964 m/s, Q = 9.6207e-5 m3/s
    # half full at half of it: 10 m take 10/0.27964 = 35.76 s and hold 1.7202 L
    line = wet_line(
        pour_rate=9.6207e-5 / 2, bore=0.824 * INCH, length=10.0, pitch_ratio=1 / 96, manning_coefficient=0.011
    )
    assert line.depth_fraction == pytest.approx(0.5, abs=1e-3)
    assert line.time == pytest.approx(35.76, rel=1e-3)
    assert line.hold_up * 1e3 == pytest.approx(1.7202, rel=1e-3)
    test = plan_closing_test(
        pour_place="pan",
        pour_rate=9.6207e-5 / 2,
        peak_flow=9.6207e-6,
        trap_volume=2e-4,
        line=line,
        falls=True,
        pumped=None,
    )
    # a minute of 48.10 mL/s after it shows: 2.886 L, and 1.720 and 0.2 L before
    assert test.rate_to_peak == pytest.approx(5.0)
    assert test.time_to_show == pytest.approx(35.76, rel=1e-3)
    assert test.proof_volume * 1e3 == pytest.approx(2.886, rel=1e-3)
    assert test.pour_volume * 1e3 == pytest.approx(4.806, rel=1e-3)
    assert test.pour_time == pytest.approx(35.76 + 60, rel=1e-3)
    assert test.least_caught * 1e3 == pytest.approx(0.9 * (1.720 + 2.886), rel=1e-3)
    assert test.tank_volume is test.tube_volume is test.tank_fill_time is test.tube_fill_time is None


@pytest.mark.parametrize("pitch", [0.0, -0.02])
def test_a_line_that_does_not_fall_fills_its_bore(pitch):
    line = wet_line(pour_rate=1e-5, bore=0.02, length=10.0, pitch_ratio=pitch, manning_coefficient=0.011)
    # pi/4 x 0.02^2 x 10 = 3.1416 L at 10 mL/s: 314.16 s
    assert line.fills
    assert line.hold_up == pytest.approx(3.1416e-3, rel=1e-5)
    assert line.time == pytest.approx(314.16, rel=1e-5)
    assert line.depth_fraction == 1.0


def test_a_pumped_unit_by_hand():
    # pour 10 mL/s; line 20 s; tank 900 mL: 90 s; tube 600 mL at 50 mL/s: 12 s; shows after 122 s
    line = WettedLine(hold_up=2e-4, depth_fraction=0.3, velocity=0.5, time=20.0, fills=False)
    pumped = PumpedPart(tank_volume=9e-4, tube_volume=6e-4, flow=5e-5, holds=True)
    test = plan_closing_test(
        pour_place="pan", pour_rate=1e-5, peak_flow=2e-6, trap_volume=5e-5, line=line, falls=True, pumped=pumped
    )
    assert (test.tank_fill_time, test.tube_fill_time) == (pytest.approx(90.0), pytest.approx(12.0))
    assert test.time_to_show == pytest.approx(122.0)
    assert test.latest_time == pytest.approx(183.0)
    # poured by then 1.22 L, all of the trap's 50 mL before, then a tankful and a minute: 0.9 + 0.6
    assert test.pour_volume == pytest.approx(1.22e-3 + 5e-5 + 1.5e-3 - 2e-4 + 2e-4)
    assert test.least_caught == pytest.approx(0.9 * 6e-4)


def test_without_a_flow_there_is_no_time_but_water_enough():
    line = WettedLine(hold_up=2e-4, depth_fraction=0.3, velocity=0.5, time=20.0, fills=False)
    for flow in (None, 0.0):
        pumped = PumpedPart(tank_volume=9e-4, tube_volume=6e-4, flow=flow, holds=True)
        test = plan_closing_test(
            pour_place="pan", pour_rate=1e-5, peak_flow=0.0, trap_volume=0.0, line=line, falls=True, pumped=pumped
        )
        assert test.time_to_show is test.latest_time is test.tube_fill_time is test.rate_to_peak is None
        assert test.pour_volume == pytest.approx(2e-4 + 9e-4 + 6e-4 + 6e-4 + 9e-4)
        assert "about" not in test.pass_when.text


def watched(pumped, pour, step):
    """Time until the tube is full, the tank and tube watched in small steps from the pump's first start."""
    tank, tube, on, time = pumped.tank_volume, 0.0, True, 0.0
    while tube < pumped.tube_volume and time < 1e5:
        tank += pour * step
        if on:
            moved = min(pumped.flow * step, tank)
            tank, tube = tank - moved, tube + moved
        if on and tank <= 1e-12:
            on = False
            if not pumped.holds:
                tank, tube = tank + tube, 0.0
        if not on and tank >= pumped.tank_volume:
            on = True
        time += step
    return time


@pytest.mark.parametrize(
    ("tube", "holds"),
    [(0.3e-3, True), (0.3e-3, False), (0.9e-3, True), (2.9e-3, True), (5.3e-3, True), (2.0e-3, False)],
)
def test_the_tube_fills_as_it_does_when_watched(tube, holds):
    pumped = PumpedPart(tank_volume=8e-4, tube_volume=tube, flow=6e-5, holds=holds)
    time, seen = time_to_fill_tube(pumped, 1e-5), watched(pumped, 1e-5, 0.02)
    if tube <= 0.96e-3 or holds:  # one run moves 0.8 x 6/5 = 0.96 L
        assert time == pytest.approx(seen, rel=5e-3, abs=0.1)
    else:
        # falling back, every start lifts the same water again: water shows no later than the closed form says
        assert seen <= time * 1.001
        assert seen >= (tube - 0.8e-3) / 1e-5


def test_a_pour_faster_than_the_pump_keeps_it_running():
    pumped = PumpedPart(tank_volume=1e-3, tube_volume=5e-3, flow=1e-5, holds=False)
    assert time_to_fill_tube(pumped, 2e-5) == pytest.approx(500.0)


@given(
    st.floats(1e-6, 2e-3),
    st.floats(0.01, 0.11),
    st.floats(0.05, 300.0),
    st.floats(-1.0, 10.0),
    st.floats(0.007, 0.03),
    st.none()
    | st.builds(
        PumpedPart,
        tank_volume=st.floats(1e-5, 1.0),
        tube_volume=st.floats(1e-7, 1.5),
        flow=st.none() | st.just(0.0) | st.floats(1e-9, 5e-3),
        holds=st.booleans(),
    ),
)
def test_the_test_is_finite_and_its_water_adds_up(pour, bore, length, pitch, n, pumped):
    line = wet_line(pour_rate=pour, bore=bore, length=length, pitch_ratio=pitch, manning_coefficient=n)
    assert 0.0 < line.hold_up <= math.pi / 4 * bore**2 * length * (1 + 1e-9)
    assert line.hold_up == pytest.approx(pour * line.time, rel=1e-9)
    test = plan_closing_test(
        pour_place="pan",
        pour_rate=pour,
        peak_flow=1e-6,
        trap_volume=1e-4,
        line=line,
        falls=pitch > 0.0,
        pumped=pumped,
    )
    if test.time_to_show is not None:
        # what has been poured by then, the trap, and the proof: nothing else
        assert test.pour_volume == pytest.approx(1e-4 + pour * test.time_to_show + test.proof_volume, rel=1e-9)
        assert test.latest_time == pytest.approx(LATE * test.time_to_show)
        assert math.isfinite(test.time_to_show)
    assert math.isfinite(test.pour_volume)
    assert 0.0 < test.least_caught <= CAUGHT_SHARE * (test.pour_volume - 1e-4) * (1 + 1e-9)
    assert test.proof_volume >= pour * PROOF_TIME


@given(st.floats(0.0, 2e-3), st.none() | st.floats(0.0, 5e-3))
def test_the_pour_proves_the_peak_and_spares_the_pump(peak, flow):
    rate = choose_pour_rate(peak, flow)
    assert rate >= peak
    assert rate > 0.0
    assert rate >= 1e-6
    if flow and 1e-6 < flow / 2 > peak:
        assert rate <= flow / 2 * (1 + 1e-12)
