"""The water of a trap: none appears or vanishes, it balances the pressure, and the trade's rules follow from it."""

import math

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from service.calculations.trap_water import (
    STATES,
    Trap,
    head,
    head_pressure,
    seal_at_start_up,
    trap_states,
    water_when_full,
)

INCH = 0.0254
WATER_COLUMN_INCH = 249.08891  # Pa; 1000 kg/m3 x 9.80665 m/s2 x 0.0254 m, by hand
BORES = st.floats(0.015, 0.06)


@st.composite
def traps(draw, *, deep_pan=False, full=False):
    depth = math.inf if deep_pan else draw(st.one_of(st.just(math.inf), st.floats(0.002, 0.5)))
    return Trap(
        outlet_drop=draw(st.floats(-0.3, 0.5)),
        seal_depth=draw(st.floats(0.0, 0.5)),
        unit_side_bore=draw(BORES),
        outlet_side_bore=draw(BORES),
        pan_area=draw(st.one_of(st.floats(0.01, 50.0), st.floats(0.0005, 0.005))),  # a cup at times, that overflows
        pan_depth=depth,
        evaporated_depth=0.0 if full else draw(st.one_of(st.just(0.0), st.floats(0.0, 0.6))),
    )


PRESSURES = st.one_of(st.just(0.0), st.floats(-3750.0, 2500.0), st.floats(-300.0, 300.0))


def filled(trap):
    """Water can reach the bend at all."""
    return trap.pan_depth + trap.outlet_drop > -trap.seal_depth


def accounted(trap, state):
    """All the water, added up from the geometry: leg below the pan outlet, pan above it, outlet leg, bend."""
    unit_area, outlet_area = (math.pi * bore**2 / 4 for bore in (trap.unit_side_bore, trap.outlet_side_bore))
    drop, seal, level = trap.outlet_drop, trap.seal_depth, state.unit_side_level
    leg = unit_area * max(min(level, drop) + seal, 0.0)
    pan = trap.pan_area * max(level - drop, 0.0)
    # half a ring about the dip (Pappus): area x pi x bore / 2, with the mean area and bore of the legs
    bend = (unit_area + outlet_area) / 2 * math.pi * (trap.unit_side_bore + trap.outlet_side_bore) / 4
    return leg + pan + outlet_area * (state.outlet_side_level + seal) + bend


@given(traps(), PRESSURES)
def test_every_drop_is_accounted_for_through_the_cycle(trap, pressure):
    assume(filled(trap))
    before = None
    for state in trap_states(trap, pressure):
        # 1e-9 m of level over the pan is beyond what the levels are known to
        tolerance = 1e-12 + 1e-9 * trap.pan_area
        assert state.water_volume == pytest.approx(accounted(trap, state), abs=tolerance)
        for volume in (state.water_added, state.water_spilled, state.water_overflowed):
            assert volume >= 0.0
        if before is not None:
            expected = before.water_volume + state.water_added - state.water_spilled - state.water_overflowed
            assert state.water_volume == pytest.approx(expected, abs=tolerance)
        before = state


@given(traps(), PRESSURES)
def test_the_cycle_closes_with_water_that_arrives(trap, pressure):
    """Fan stopped to full at rest takes condensate, or nothing: a trap never ends a cycle with more than it holds."""
    assume(filled(trap))
    *_, stopped = trap_states(trap, pressure)
    full = trap_states(Trap(**{**given_of(trap), "evaporated_depth": 0.0}), pressure)[0]
    assert water_when_full(trap) == full.water_volume
    assert stopped.water_volume <= full.water_volume + 1e-12 + 1e-9 * trap.pan_area
    if 0.0 <= -pressure / 9806.65 <= trap.outlet_drop + trap.pan_depth:
        # suction spills nothing at start-up, and the pan holds what it lifts: the cycle closes by itself
        assert stopped.unit_side_level == pytest.approx(full.unit_side_level, abs=1e-9)
        assert stopped.outlet_side_level == pytest.approx(full.outlet_side_level, abs=1e-9)


def given_of(trap):
    names = ("outlet_drop", "seal_depth", "unit_side_bore", "outlet_side_bore", "pan_area", "pan_depth")
    return {name: getattr(trap, name) for name in names}


@given(traps(), PRESSURES)
def test_the_difference_in_level_balances_the_pressure(trap, pressure):
    assume(filled(trap))
    column = -pressure / 9806.65
    for state in trap_states(trap, pressure):
        wanted = column if state.state in ("start_up", "running") else 0.0
        difference = state.unit_side_level - state.outlet_side_level
        if state.seal_remaining >= 0.0:
            assert difference == pytest.approx(wanted, abs=1e-9)
        else:  # air passes: one leg is down to the dip, and the water left holds less than the pressure
            lower = min(state.unit_side_level, state.outlet_side_level)
            assert lower == pytest.approx(-trap.seal_depth, abs=1e-9)
            assert abs(difference) <= abs(wanted) + 1e-9
            assert difference * wanted >= -1e-12
            assert not state.seal_holds or state.seal_remaining > -1e-6


@given(traps(), PRESSURES)
def test_water_stays_inside_the_trap_and_the_pan(trap, pressure):
    for state in trap_states(trap, pressure):
        rim = trap.outlet_drop + trap.pan_depth
        assert -trap.seal_depth <= state.outlet_side_level <= 1e-12
        assert state.unit_side_level <= rim
        assert state.unit_side_level >= min(-trap.seal_depth, rim) - 1e-12
        assert state.pan_water_depth == pytest.approx(max(state.unit_side_level - trap.outlet_drop, 0.0), abs=1e-12)
        if state.water_spilled > 1e-12:
            assert state.outlet_side_level == 0.0
        if state.water_overflowed > 1e-12:
            assert state.unit_side_level == rim
        assert all(math.isfinite(value) for value in numbers(state))


def numbers(state):
    return [getattr(state, name) for name in state.__slots__ if name not in ("state", "seal_holds")]


@given(traps(), PRESSURES)
def test_the_four_states_come_in_order_and_start_up_alone_agrees(trap, pressure):
    states = trap_states(trap, pressure)
    assert tuple(state.state for state in states) == STATES
    assert seal_at_start_up(trap, pressure, evaporated_depth=trap.evaporated_depth) == states[1].seal_remaining


@given(traps())
def test_without_pressure_nothing_moves(trap):
    at_rest, start_up, *_ = trap_states(trap, 0.0)
    assert start_up.unit_side_level == pytest.approx(at_rest.unit_side_level, abs=1e-12)
    assert start_up.outlet_side_level == pytest.approx(at_rest.outlet_side_level, abs=1e-12)


# The trade's rules, each against its closed form over random traps


@given(traps(deep_pan=True, full=True), st.floats(1.0, 3750.0))
def test_a_pan_under_suction_drains_only_if_drop_is_at_least_suction(trap, suction):
    running = trap_states(trap, -suction)[2]
    height = suction / 9806.65
    assert running.unit_side_level == pytest.approx(height, abs=1e-12)
    assert running.pan_water_depth == pytest.approx(max(height - trap.outlet_drop, 0.0), abs=1e-12)
    assert (running.pan_water_depth == 0.0) == (trap.outlet_drop >= height)


@given(st.floats(0.0, 0.4), BORES, BORES, st.floats(1.0, 3750.0))
def test_start_up_survives_if_the_seal_covers_the_share_of_the_suction(seal, unit_bore, outlet_bore, suction):
    """No water reaches the pan (drop of 0.4 m): unit area x rise = outlet area x fall and rise + fall = S give
    fall = S x unit area / (unit area + outlet area); with equal legs S / 2."""
    trap = Trap(outlet_drop=0.4, seal_depth=seal, unit_side_bore=unit_bore, outlet_side_bore=outlet_bore, pan_area=0.3)
    height = suction / 9806.65
    fall = height * unit_bore**2 / (unit_bore**2 + outlet_bore**2)
    start_up = trap_states(trap, -suction)[1]
    assert start_up.seal_remaining == pytest.approx(seal - fall, abs=1e-9)
    if abs(seal - fall) > 1e-6:
        assert start_up.seal_holds == (seal > fall)
    if seal > fall:
        assert start_up.outlet_side_level == pytest.approx(-fall, abs=1e-9)
        assert start_up.unit_side_level == pytest.approx(height - fall, abs=1e-9)


@given(st.floats(0.001, 0.4), st.floats(0.0, 0.2), BORES, st.floats(1.0, 3750.0))
def test_what_has_evaporated_comes_off_the_seal(seal, evaporated, bore, suction):
    assume(evaporated < seal)
    trap = Trap(
        outlet_drop=0.4,
        seal_depth=seal,
        unit_side_bore=bore,
        outlet_side_bore=bore,
        pan_area=0.3,
        evaporated_depth=evaporated,
    )
    remaining = trap_states(trap, -suction)[1].seal_remaining
    assert remaining == pytest.approx(seal - evaporated - suction / 9806.65 / 2, abs=1e-9)


@given(traps(deep_pan=True, full=True), st.floats(1.0, 2500.0))
def test_a_pan_under_pressure_keeps_its_seal_if_the_seal_is_at_least_the_pressure(trap, pressure):
    assume(trap.outlet_drop > -trap.seal_depth)
    height = pressure / 9806.65
    _, start_up, running, _ = trap_states(trap, pressure)
    assert start_up.seal_remaining == pytest.approx(trap.seal_depth - height, abs=1e-12)
    assert running.seal_remaining == pytest.approx(trap.seal_depth - height, abs=1e-12)
    if abs(trap.seal_depth - height) > 1e-6:
        assert start_up.seal_holds == running.seal_holds == (trap.seal_depth > height)
    if trap.seal_depth > height and trap.outlet_drop > 0.0:
        # the unit side's water down to -P spills, once; then the rest shares itself out when the fan stops
        unit_area, outlet_area = trap.unit_side_bore**2, trap.outlet_side_bore**2
        assert start_up.water_spilled == pytest.approx(math.pi / 4 * unit_area * height, rel=1e-9)
        assert running.water_added == pytest.approx(0.0, abs=1e-15)
        level = -height * unit_area / (unit_area + outlet_area)
        assert trap_states(trap, pressure)[3].unit_side_level == pytest.approx(level, abs=1e-9)


@given(traps(full=True), st.floats(1.0, 3750.0))
def test_what_the_pan_held_runs_out_when_the_fan_stops(trap, suction):
    assume(trap.outlet_drop >= 0.0)
    stopped = trap_states(trap, -suction)[3]
    height = suction / 9806.65
    assume(height <= trap.outlet_drop + trap.pan_depth)
    in_leg = math.pi / 4 * trap.unit_side_bore**2 * min(height, trap.outlet_drop)
    in_pan = trap.pan_area * max(height - trap.outlet_drop, 0.0)
    assert stopped.water_spilled == pytest.approx(in_leg + in_pan, rel=1e-9, abs=1e-9 * trap.pan_area)


# Single cases, by hand


def one_inch_trap(*, pan_area=144.0, **changes):
    """Legs of 1 in bore, one square foot of pan, and dimensions in inches."""
    inches = {"outlet_drop": 2.0, "seal_depth": 1.0, "unit_side_bore": 1.0, "outlet_side_bore": 1.0} | changes
    return Trap(**{name: value * INCH for name, value in inches.items()}, pan_area=pan_area * INCH**2)


def levels(state):
    return pytest.approx((state.unit_side_level / INCH, state.outlet_side_level / INCH), abs=1e-9)


def test_start_up_that_reaches_the_pan_raises_the_pan_instead_of_the_leg():
    """2 in of suction, 1/4 in of drop: half of it, 1 in, would be above the pan outlet. The leg takes 1/4 in,
    then the pan: leg x 1/4 + pan x rise = leg x (2 - 1/4 - rise); leg = pi / 4 in2, pan = 144 in2."""
    leg = math.pi / 4
    rise = leg * (2 - 0.25 - 0.25) / (144 + leg)
    start_up = trap_states(one_inch_trap(outlet_drop=0.25, seal_depth=3.0), -2 * WATER_COLUMN_INCH)[1]
    assert (0.25 + rise, 0.25 + rise - 2.0) == levels(start_up)
    assert start_up.seal_holds
    # so a drop too small costs seal as well: 1.742 in of it, not the 1 in that half the suction suggests
    assert start_up.seal_remaining / INCH == pytest.approx(3.0 - (1.75 - rise), abs=1e-9)


def test_a_seal_pulled_out_leaves_all_its_water_on_the_unit_side():
    """4 in of suction on a seal of 1 in: the outlet leg's 1 in goes up the unit side, air follows."""
    _, start_up, running, stopped = trap_states(one_inch_trap(outlet_drop=5.0), -4 * WATER_COLUMN_INCH)
    assert levels(start_up) == (1.0, -1.0)
    assert not start_up.seal_holds
    assert start_up.seal_remaining / INCH == pytest.approx(-1.0)  # half of 4 in is 2 in
    # condensate fills it again: unit side from 1 in to 4 in, outlet side from -1 in to 0
    assert levels(running) == (4.0, 0.0)
    assert running.water_added == pytest.approx(math.pi / 4 * 4 * INCH**3)
    assert levels(stopped) == (0.0, 0.0)
    assert stopped.water_spilled == pytest.approx(math.pi / 4 * 4 * INCH**3)


def test_a_seal_pulled_out_may_end_up_in_the_pan():
    """9 in of suction, 1/4 in of drop, seal of 2 in: of 2 x 2 in of leg 2.25 in stay in it, 1.75 in spread over a
    pan of 10 in2."""
    trap = one_inch_trap(outlet_drop=0.25, seal_depth=2.0, pan_area=10.0)
    start_up = trap_states(trap, -9 * WATER_COLUMN_INCH)[1]
    assert levels(start_up) == (0.25 + 1.75 * math.pi / 4 / 10, -2.0)
    assert start_up.pan_water_depth / INCH == pytest.approx(1.75 * math.pi / 4 / 10)


def test_start_up_may_lift_water_over_the_rim():
    """4 in of suction, level ends, a cup of leg size 1 in deep: the unit side stops at the rim, 1 in up, the outlet
    side goes down 3 in: 3 in of leg less the 1 in that stays run over."""
    trap = one_inch_trap(outlet_drop=0.0, seal_depth=5.0, pan_depth=1.0, pan_area=math.pi / 4)
    _, start_up, running, stopped = trap_states(trap, -4 * WATER_COLUMN_INCH)
    assert levels(start_up) == (1.0, -3.0)
    assert levels(running) == (1.0, -3.0)
    assert start_up.water_overflowed == pytest.approx(2 * math.pi / 4 * INCH**3)
    assert start_up.water_spilled == 0.0
    assert start_up.seal_remaining / INCH == pytest.approx(2.0)
    # 1 in above and 3 in below make two legs of 1 in down
    assert levels(stopped) == (-1.0, -1.0)


def test_a_seal_blown_out_keeps_what_the_outlet_side_holds():
    """3 in of pressure on a seal of 1 in: the unit side's 1 in spills, air follows; the outlet side's is shared
    out when the fan stops."""
    at_rest, start_up, running, stopped = trap_states(one_inch_trap(), 3 * WATER_COLUMN_INCH)
    assert levels(at_rest) == (0.0, 0.0)
    assert levels(start_up) == (-1.0, 0.0)
    assert levels(running) == (-1.0, 0.0)
    assert start_up.water_spilled == pytest.approx(math.pi / 4 * INCH**3)
    assert not start_up.seal_holds
    assert not running.seal_holds
    assert levels(stopped) == (-0.5, -0.5)
    assert stopped.seal_holds


def test_a_narrow_outlet_leg_loses_its_seal_sooner():
    """Unit side of twice the area: 2/3 of the suction comes off the outlet side."""
    trap = one_inch_trap(unit_side_bore=math.sqrt(2.0), seal_depth=2.5)
    assert levels(trap_states(trap, -3 * WATER_COLUMN_INCH)[1]) == (1.0, -2.0)


def test_an_outlet_above_the_pan_leaves_water_in_the_pan():
    """Outlet 1/2 in above the pan outlet, 1 in of suction: 1/2 in at rest, 1-1/2 in running, 1/2 in after."""
    states = trap_states(one_inch_trap(outlet_drop=-0.5, seal_depth=2.0), -1 * WATER_COLUMN_INCH)
    depths = [state.pan_water_depth / INCH for state in states]
    assert depths[0] == depths[3] == pytest.approx(0.5)
    assert depths[2] == pytest.approx(1.5)
    # at start-up the pan, 183 times the leg, hardly rises: nearly all of the inch comes off the outlet side
    assert states[1].outlet_side_level / INCH == pytest.approx(-144 / (144 + math.pi / 4), abs=1e-9)


def test_a_shallow_pan_runs_over_before_the_water_can_leave():
    """3 in of suction, 1 in of drop, pan 1 in deep: the rim is 2 in up, and the outlet side stays 1 in down."""
    trap = one_inch_trap(outlet_drop=1.0, seal_depth=2.0, pan_depth=1.0)
    running = trap_states(trap, -3 * WATER_COLUMN_INCH)[2]
    assert levels(running) == (2.0, -1.0)
    assert running.seal_holds


def test_a_rim_below_the_dip_never_fills_the_trap():
    """Outlet 6 in above a pan 1 in deep, seal of 2 in: the pan runs over 3 in below the dip."""
    trap = one_inch_trap(outlet_drop=-6.0, seal_depth=2.0, pan_depth=1.0)
    for state in trap_states(trap, -1 * WATER_COLUMN_INCH):
        assert levels(state) == (-5.0, -2.0)
        assert not state.seal_holds
        assert state.water_volume == pytest.approx(144 * INCH**3)
        assert state.seal_remaining / INCH == pytest.approx(-3.0)
    assert seal_at_start_up(trap, -1 * WATER_COLUMN_INCH, evaporated_depth=0.0) / INCH == pytest.approx(-3.0)


def test_a_trap_dried_out_below_its_dip_says_how_much_is_missing():
    at_rest, start_up, *_ = trap_states(one_inch_trap(evaporated_depth=1.5), -1 * WATER_COLUMN_INCH)
    assert levels(at_rest) == (-1.0, -1.0)
    assert at_rest.seal_remaining / INCH == pytest.approx(-0.5)
    assert start_up.seal_remaining / INCH == pytest.approx(-1.0)  # half the suction on top
    assert not at_rest.seal_holds


@pytest.mark.parametrize("pressure", [0.0, -100.0, 100.0])
def test_without_a_dip_there_is_no_seal(pressure):
    assert not any(state.seal_holds for state in trap_states(one_inch_trap(seal_depth=0.0), pressure))


@given(st.floats(-3750.0, 3750.0))
def test_head_and_its_inverse(pressure):
    assert head(pressure) / INCH == pytest.approx(pressure / WATER_COLUMN_INCH, abs=1e-12)
    assert head_pressure(head(pressure)) == pytest.approx(pressure, abs=1e-9)
