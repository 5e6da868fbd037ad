"""The tube's head: it never falls with the flow, whatever the sections, so that the operating point is the only one."""

import math

import pytest
from hypothesis import assume, example, given
from hypothesis import strategies as st

from service.calculations.pump_curve import POINT_LIMITS, CurvePoint, read_curve
from service.calculations.pump_cycle import NO_FLOW
from service.calculations.pump_point import operating_flow
from service.calculations.pump_tube import TUBE_LIMITS, Tube, TubeRun, TubeSection, settle_tube
from tests.calculations.test_pump_run import TUBES, within

WATER = st.floats(273.15, 323.15)
FLOWS = st.floats(0.0, 1e-2) | st.floats(0.0, 1e-4) | st.floats(0.0, 1e-6)


def settled(tube: Tube, temperature: float = 293.15) -> TubeRun:
    return settle_tube(tube, temperature)[0]


@given(TUBES, WATER, FLOWS, FLOWS)
def test_head_never_falls_with_the_flow(tube: Tube, temperature: float, one: float, other: float) -> None:
    run = settled(tube, temperature)
    less, more = sorted((one, other))
    for head in (run.friction, run.check_valve, run.bends, run.fittings):
        assert head(less) <= head(more) * (1.0 + 1e-12)


@given(TUBES, WATER, st.floats(1900.0, 4100.0), st.floats(1e-6, 0.05))
@example(Tube(bore=0.002, length=1.0, roughness=2e-4), 293.15, 1999.9999, 1e-6)
def test_not_even_across_the_change_from_laminar_to_turbulent_flow(
    tube: Tube, temperature: float, reynolds: float, step: float
) -> None:
    """Every section in turn is brought to the change; 64/Re to a turbulent law would jump there."""
    run = settled(tube, temperature)
    for section in run.sections:
        flow = reynolds * math.pi * section.bore * section.kinematic_viscosity / 4.0
        assert run.friction(flow) <= run.friction(flow * (1.0 + step))
        # and no jump upward either: twice the slope of turbulent flow at the most, 1.25 more at Dunlop's steepest
        if section.length:
            assert section.friction(flow * (1.0 + step)) <= section.friction(flow) * (1.0 + step) ** 6


@given(
    TUBES,
    st.lists(
        # a nanometre of head is finer than anything; below, products of floats underflow
        st.builds(
            CurvePoint,
            lift=within(POINT_LIMITS["lift"]).map(lambda lift: round(lift, 9)),
            flow=within(POINT_LIMITS["flow"]),
        ),
        min_size=2,
        max_size=8,
    ),
    st.floats(0.0, 50.0).map(lambda lift: round(lift, 9)),
)
def test_the_operating_point_is_the_only_one(tube: Tube, points: list[CurvePoint], lift: float) -> None:
    """Below it the pump gives more than is asked, above it less."""
    curve, run = read_curve(tuple(points)), settled(tube)
    flow = operating_flow(curve, run, lift)
    if flow <= 0.0:
        assert lift + run.fittings(0.0) >= curve.shut_off - 1e-12
        return
    assume(flow > NO_FLOW)  # below, a float has no digits left for a little more or less
    for share in (0.999999, 0.9, 0.5, 0.01):
        given_head, asked = (
            curve.lift_at(flow * share),
            lift + run.friction(flow * share) + run.fittings(flow * share),
        )
        assert given_head is not None
        assert given_head >= asked * (1 - 1e-9)
    for times in (1.000001, 1.1, 3.0):
        given_head = curve.lift_at(flow * times)
        asked = lift + run.friction(flow * times) + run.fittings(flow * times)
        assert given_head is None or given_head <= asked * (1 + 1e-9)


@given(TUBES, st.floats(0.0, 1.0))
def test_water_within_is_what_the_bores_hold(tube: Tube, share: float) -> None:
    run = settled(tube)
    whole = sum(math.pi * section.bore**2 / 4.0 * section.length for section in run.sections)
    assert run.water_within(run.length) == pytest.approx(whole, rel=1e-12)
    assert 0.0 <= run.water_within(share * run.length) <= whole * (1.0 + 1e-12)


def test_the_losses_of_a_bare_reducer_are_counted() -> None:
    # 0.5 (1 - 0.25) v^2/2g in the 5 mm bore: 1e-5 m3/s is 0.50930 m/s; 0.375 x 0.013225 = 0.0049595 m, by hand
    plain = settled(Tube(bore=0.01, length=1.0, elbows=0, check_valve=False))
    reduced = settled(
        Tube(
            bore=0.01,
            length=1.0,
            elbows=0,
            check_valve=False,
            further_sections=(TubeSection(length=0.0, bore=0.005),),
        )
    )
    assert plain.bends(1e-5) == 0.0
    assert reduced.bends(1e-5) == pytest.approx(0.0049595, rel=1e-4)
    assert reduced.friction(1e-5) == plain.friction(1e-5)


def test_the_longest_and_narrowest_tube_of_all_still_answers() -> None:
    low, high = TUBE_LIMITS["bore"].low, TUBE_LIMITS["length"].high
    tube = Tube(bore=low, length=high, further_sections=tuple(TubeSection(length=high) for _ in range(9)))
    curve = read_curve((CurvePoint(lift=0.0, flow=5e-3), CurvePoint(lift=100.0, flow=0.0)))
    # Hagen-Poiseuille by hand: 128 nu L Q / (pi g d^4) = 100 m at 5000 m of 2 mm: about 7.7e-9 m3/s x ...
    nu = settled(tube).sections[0].kinematic_viscosity
    expected = 100.0 / (128.0 * nu * 5000.0 / (math.pi * 9.80665 * low**4) + 100.0 / 5e-3)
    assert operating_flow(curve, settled(tube), 0.0) == pytest.approx(expected, rel=1e-9)
