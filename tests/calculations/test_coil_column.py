"""A column of coils is what solving them one by one gives."""

import numpy as np
import pytest

from service.calculations import psychrometrics, virial
from service.calculations.air_state import air_state
from service.calculations.coil import solve_coil
from service.calculations.coil_column import solve_coil_column

ROWS = 250


@pytest.mark.parametrize("bypass_factor", [0.0, 0.12, 0.6, 0.9])
@pytest.mark.parametrize("pressure", [50e3, 101325.0])
def test_each_row_is_solved_as_one_coil(bypass_factor: float, pressure: float) -> None:
    """Dry, wet, frosting, fogged and impossible coils alike; the one-by-one solver brackets, this one does not."""
    random = np.random.default_rng(int(1000 * bypass_factor) + int(pressure))
    dry_bulb = random.uniform(250.0, 330.0, ROWS)
    percent = random.uniform(1.0, 100.0, ROWS)
    percent[:60] = 100.0
    ratio = psychrometrics.humidity_ratio_from_relative_humidity(dry_bulb, percent, np.full(ROWS, pressure))
    capacity = random.uniform(100.0, 80e3, ROWS) * (1.0 - bypass_factor)
    column = solve_coil_column(
        dry_bulb, ratio, pressure=pressure, specific_capacity=capacity, bypass_factor=bypass_factor
    )
    seen = set()
    for row in range(ROWS):
        air = air_state(float(dry_bulb[row]), float(ratio[row]), pressure)
        one = solve_coil(air, pressure=pressure, specific_capacity=float(capacity[row]), bypass_factor=bypass_factor)
        assert column.beyond[row] == (one is None)
        if one is None:
            seen.add("beyond")
            assert column.removed[row] == 0.0
            continue
        assert column.wet[row] == one.wet
        removed = max(air.humidity_ratio - one.humidity_ratio, 0.0)
        assert column.removed[row] == pytest.approx(removed, abs=2e-7 * air.humidity_ratio)
        if one.wet:
            assert column.surface_temperature[row] == pytest.approx(one.surface_temperature, abs=2e-5)
            assert bypass_factor == 0.0 or column.fogged[row] == one.fogged
        seen.add("wet" if one.wet else "dry")
        if one.fogged:
            seen.add("fogged")
    assert seen >= {"beyond", "wet", "dry"}
    assert bypass_factor == 0.0 or "fogged" in seen


def test_nothing_to_solve() -> None:
    nothing = np.zeros(0)
    column = solve_coil_column(nothing, nothing, pressure=1e5, specific_capacity=nothing, bypass_factor=0.1)
    assert column.removed.size == column.wet.size == 0


def test_the_driest_air_is_dry_or_beyond_by_the_heat_it_holds() -> None:
    """At 223 K and 1 % the dew point lies below any coil: what is left is the sensible heat down to -20 degC."""
    dry_bulb, ratio = np.array([283.15, 283.15]), np.array([1e-4, 1e-4])
    held = virial.specific_enthalpy(283.15, 1e-4, 101325.0) - virial.specific_enthalpy(253.15, 1e-4, 101325.0)
    column = solve_coil_column(
        dry_bulb, ratio, pressure=101325.0, specific_capacity=np.array([0.99, 1.01]) * held * 0.9, bypass_factor=0.1
    )
    assert column.beyond.tolist() == [False, True]
    assert not column.wet.any()
