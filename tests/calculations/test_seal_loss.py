"""The level at which the seal is lost, against the states that follow the water the other way."""

import math
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from service.calculations.seal_loss import lowest_holding_level
from service.calculations.trap_water import Trap, trap_states

INCH, INH2O = 0.0254, 249.08891

TRAPS = st.builds(
    Trap,
    outlet_drop=st.floats(0.0, 1.5),
    seal_depth=st.floats(0.001, 1.0),
    unit_side_bore=st.floats(0.012, 0.1),
    outlet_side_bore=st.floats(0.012, 0.1),
    pan_area=st.floats(0.01, 50.0),
    pan_depth=st.one_of(st.just(math.inf), st.floats(0.002, 0.5)),
)


@given(TRAPS, st.floats(-3750.0, 2500.0))
def test_from_there_start_up_leaves_nothing_and_from_anything_lower_it_breaks(trap, pressure):
    level = lowest_holding_level(trap, pressure)
    _, full, running, _ = trap_states(trap, pressure)
    if level is None:
        assert min(full.seal_remaining, running.seal_remaining) < 1e-6
        return
    assert -trap.seal_depth - 1e-12 <= level <= 0.0
    _, start_up, running, _ = trap_states(replace(trap, evaporated_depth=-level), pressure)
    assert start_up.seal_remaining == pytest.approx(0.0, abs=2e-7)
    assert running.seal_remaining > -2e-7  # what condensate then fills holds as well
    _, lower, _, _ = trap_states(replace(trap, evaporated_depth=-level + 0.001), pressure)
    assert lower.seal_remaining < 0.0


def trap(seal, drop=3.0, unit=0.824, outlet=0.824):
    return Trap(
        outlet_drop=drop * INCH,
        seal_depth=seal * INCH,
        unit_side_bore=unit * INCH,
        outlet_side_bore=outlet * INCH,
        pan_area=0.25,
    )


@pytest.mark.parametrize(
    ("pressure", "seal", "level"),
    [
        (0.0, 2.0, -2.0),  # the dip itself
        (-1.0, 2.0, -1.5),  # half the suction stands above the dip
        (1.0, 2.0, -1.5),  # likewise under pressure
        (-4.0, 2.0, 0.0),  # just holds when full
        (2.0, 2.0, -1.0),
        (2.1, 2.0, None),  # blown out over the outlet when full
        (-4.1, 2.0, None),
    ],
)
def test_equal_legs_by_hand(pressure, seal, level):
    found = lowest_holding_level(trap(seal), pressure * INH2O)
    assert found == (None if level is None else pytest.approx(level * INCH, abs=1e-9))


def test_unequal_legs_by_hand():
    """PVC 1 in and 3/4 in, bores 1.049 and 0.824 in: the column of 1 in stands in the wider unit-side leg."""
    share = 1.049**2 / (1.049**2 + 0.824**2)
    found = lowest_holding_level(trap(2.0, unit=1.049), -INH2O)
    assert found == pytest.approx((-2.0 + share) * INCH)
