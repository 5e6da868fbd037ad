"""A pump over time: every case of filling, pumping, falling back and standing."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from service.calculations.pump_cycle import cycle_pump, time_to_fill

FLOW = st.floats(0.0, 2e-3)


@given(
    inflow=FLOW,
    operating_flow=FLOW,
    tank_volume=st.none() | st.floats(1e-5, 1.0),
    fall_back_volume=st.floats(0.0, 2.0) | st.just(0.0),
)
def test_every_case_is_finite_and_a_share_is_a_share(**case: float) -> None:
    cycle = cycle_pump(**case)
    for number in (cycle.fill_time, cycle.pump_out_time, cycle.cycles_per_hour, cycle.duty):
        assert number is None or (math.isfinite(number) and number >= 0.0)
    assert cycle.duty is None or cycle.duty <= 1.0


@given(st.floats(1e-8, 1e-5), st.floats(2e-5, 1e-3), st.floats(1e-4, 1e-2), st.floats(0.0, 0.9))
def test_over_a_cycle_as_much_leaves_as_arrives(inflow: float, flow: float, tank: float, share: float) -> None:
    back = share * tank
    cycle = cycle_pump(inflow=inflow, operating_flow=flow, tank_volume=tank, fall_back_volume=back)
    assert cycle.fill_time is not None
    assert cycle.pump_out_time is not None
    arrived = inflow * (cycle.fill_time + cycle.pump_out_time)
    left = flow * cycle.pump_out_time - back
    assert left == pytest.approx(arrived, rel=1e-6, abs=1e-9 * tank)


def test_without_fall_back_the_duty_does_not_need_the_tank() -> None:
    cycle = cycle_pump(inflow=1e-6, operating_flow=4e-6, tank_volume=None, fall_back_volume=0.0)
    assert cycle.duty == pytest.approx(0.25)
    assert (cycle.fill_time, cycle.pump_out_time, cycle.cycles_per_hour) == (None, None, None)
    # with fall-back it does
    assert cycle_pump(inflow=1e-6, operating_flow=4e-6, tank_volume=None, fall_back_volume=1e-4).duty is None


def test_fall_back_shortens_filling_and_adds_starts() -> None:
    # by hand: 1 L between floats, 0.4 L back, 2 mL/s in, 12 mL/s out: fills 0.6/0.002 = 300 s, out 1/0.010 = 100 s
    cycle = cycle_pump(inflow=2e-6, operating_flow=12e-6, tank_volume=1e-3, fall_back_volume=4e-4)
    assert cycle.fill_time == pytest.approx(300.0)
    assert cycle.pump_out_time == pytest.approx(100.0)
    assert cycle.cycles_per_hour == pytest.approx(9.0)
    assert cycle.duty == pytest.approx(0.25)


def test_fall_back_that_fills_the_tank_keeps_the_pump_running() -> None:
    cycle = cycle_pump(inflow=0.0, operating_flow=1e-5, tank_volume=1e-3, fall_back_volume=2e-3)
    assert (cycle.fill_time, cycle.pump_out_time, cycle.duty) == (0.0, pytest.approx(100.0), 1.0)
    assert cycle.cycles_per_hour == pytest.approx(36.0)


@pytest.mark.parametrize("flow", [0.0, 0.5e-6, 1e-6])
def test_a_pump_that_is_outpaced_never_stops(flow: float) -> None:
    cycle = cycle_pump(inflow=1e-6, operating_flow=flow, tank_volume=1e-3, fall_back_volume=0.0)
    assert (cycle.fill_time, cycle.pump_out_time, cycle.cycles_per_hour, cycle.duty) == (
        pytest.approx(1000.0),
        None,
        0.0,
        1.0,
    )


@pytest.mark.parametrize("flow", [0.0, 1e-5])
def test_with_no_inflow_a_pump_stands(flow: float) -> None:
    cycle = cycle_pump(inflow=0.0, operating_flow=flow, tank_volume=1e-3, fall_back_volume=0.0)
    assert (cycle.fill_time, cycle.cycles_per_hour, cycle.duty) == (None, 0.0, 0.0)


def test_time_to_fill() -> None:
    assert time_to_fill(1e-3, 1e-6) == pytest.approx(1000.0)
    assert time_to_fill(None, 1e-6) is None
    assert time_to_fill(1e-3, 0.0) is None
