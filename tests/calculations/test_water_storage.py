"""Storage for re-use: by hand, by linear programming, and by the balance of water."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.optimize import linprog

from service.calculations.water_storage import needed_volume, run_tank


def test_a_year_of_seasons_by_hand() -> None:
    """Inflow 0 1 4 9 6 0 with a demand of 3 a season; the dry spell reaches over the end of the year.

    Deficit K = max(0, K + 3 - inflow), from K = 0:
    first year 3, 5, 4, 0 (4 - 6 < 0), 0, 3; second year 6, 8, 7, 1, 0, 3. The largest is 8.
    """
    inflow = np.array([0.0, 1.0, 4.0, 9.0, 6.0, 0.0])
    assert needed_volume(inflow, 3.0) == 8.0
    # with the 8: full after the fifth season; 5, 2, 0, 1, 7, 8 (2 run over) is what is left after each
    run = run_tank(inflow, 3.0, 8.0)
    assert (run.start_volume, run.used, run.spilled, run.shortfall, run.end_volume) == (5.0, 18.0, 2.0, 0.0, 5.0)
    # with 5: 2 left at the end of a year; then 0 (1 short), 0 (2 short), 1, 5 (2 over), 5 (3 over), 2
    short = run_tank(inflow, 3.0, 5.0)
    assert (short.start_volume, short.used, short.spilled) == (2.0, 15.0, 5.0)
    assert (short.shortfall, short.end_volume, short.empty_rows) == (3.0, 2.0, 2)


def smallest_tank(inflow: list[float], demand: float) -> float | None:
    """The same by linear programming: the least volume with a yearly repeating level that stays between 0 and it."""
    rows = len(inflow)
    # unknown: level after each row, what runs over in each row, and the volume
    levels, spills, volume = range(rows), range(rows, 2 * rows), 2 * rows
    balance = np.zeros((rows, 2 * rows + 1))
    below = np.zeros((rows, 2 * rows + 1))
    for row in range(rows):
        balance[row, levels[row]] += 1.0
        balance[row, levels[row - 1]] -= 1.0
        balance[row, spills[row]] = 1.0
        below[row, levels[row]], below[row, volume] = 1.0, -1.0
    cost = np.zeros(2 * rows + 1)
    cost[volume] = 1.0
    found = linprog(cost, A_ub=below, b_ub=np.zeros(rows), A_eq=balance, b_eq=np.array(inflow) - demand)
    return float(found.fun) if found.status == 0 else None


@given(st.lists(st.integers(0, 40), min_size=1, max_size=12), st.integers(1, 40))
def test_the_needed_tank_is_the_least_that_linear_programming_finds(inflow: list[int], demand: int) -> None:
    needed = needed_volume(np.array(inflow, dtype=np.float64), float(demand))
    least = smallest_tank([float(value) for value in inflow], float(demand))
    if sum(inflow) < demand * len(inflow):
        assert needed is None
        assert least is None
    else:
        assert needed == pytest.approx(least, abs=1e-6)


SERIES = st.lists(st.floats(0.0, 10.0), min_size=1, max_size=60)


@given(SERIES, st.floats(0.01, 8.0), st.floats(0.001, 40.0))
def test_no_water_is_made_or_lost(inflow: list[float], demand: float, volume: float) -> None:
    run = run_tank(np.array(inflow), demand, volume)
    stored = run.end_volume - run.start_volume
    assert run.used + run.spilled + stored == pytest.approx(sum(inflow), rel=1e-9, abs=1e-9)
    assert run.used + run.shortfall == pytest.approx(demand * len(inflow), rel=1e-9)
    assert 0.0 <= run.end_volume <= volume
    assert 0.0 <= run.start_volume <= volume
    assert min(run.used, run.spilled, run.shortfall) >= 0.0


@given(SERIES, st.floats(0.01, 8.0))
def test_the_needed_tank_meets_the_demand_and_a_smaller_one_does_not(inflow: list[float], demand: float) -> None:
    water = np.array(inflow)
    needed = needed_volume(water, demand)
    total = demand * len(inflow)
    if needed is None:
        assert run_tank(water, demand, 1e6).shortfall > 0.0
    elif needed > 1e-6:
        assert run_tank(water, demand, needed * 0.9).shortfall > 0.0
        if float(water.sum()) > total * 1.1:  # else it takes many years to fill
            years = np.concatenate([water] * 200)
            assert run_tank(years, demand, needed * (1.0 + 1e-9)).shortfall <= 1e-6 * total


def test_steady_water_needs_no_tank() -> None:
    assert needed_volume(np.full(8760, 0.2), 0.2) == pytest.approx(0.0, abs=1e-9)
