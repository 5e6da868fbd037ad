"""A coil: balance, dry, fogging, and out of reach. Against CoolProp: tests/published/test_condensate_rate.py."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from service.calculations import saturation, virial, water
from service.calculations.air_state import air_state
from service.calculations.coil import LOWEST_SURFACE_TEMPERATURE, largest_capacity, solve_coil
from service.calculations.psychrometrics import humidity_ratio_from_relative_humidity

SEA_LEVEL = 101325.0


def air(celsius, percent, pressure=SEA_LEVEL):
    ratio = humidity_ratio_from_relative_humidity(celsius + 273.15, percent, pressure)
    return air_state(celsius + 273.15, ratio, pressure)


def solve(entering, capacity, bypass=0.1, pressure=SEA_LEVEL):
    return solve_coil(entering, pressure=pressure, specific_capacity=capacity, bypass_factor=bypass)


entering_airs = st.builds(
    lambda celsius, percent, pressure: (air(celsius, percent, pressure), pressure),
    st.floats(10.0, 60.0),
    st.floats(1.0, 100.0),
    st.floats(50e3, 110e3),
)


@given(case=entering_airs, share=st.floats(0.001, 1.0), bypass=st.floats(0.0, 0.9))
def test_energy_balances_for_every_capacity_in_reach(case, share, bypass):
    entering, pressure = case
    capacity = share * largest_capacity(entering, pressure=pressure, bypass_factor=bypass)
    coil = solve(entering, capacity, bypass, pressure)
    if coil is None:
        assert share > 0.999999
        return
    # ASHRAE Handbook - Fundamentals, Psychrometrics: q = m_da [(h1 - h2) - (W1 - W2) h_w]
    removed = entering.humidity_ratio - coil.humidity_ratio
    leaving = virial.specific_enthalpy(coil.dry_bulb, coil.humidity_ratio, pressure)
    duty = entering.specific_enthalpy - leaving - removed * water.liquid_enthalpy(coil.dry_bulb)
    assert duty == pytest.approx(capacity, abs=1e-4)
    assert LOWEST_SURFACE_TEMPERATURE <= coil.surface_temperature <= entering.dry_bulb
    assert removed >= -1e-12
    assert coil.wet == (coil.surface_temperature < entering.dew_point)


@given(case=entering_airs, share=st.floats(0.01, 0.99), bypass=st.floats(0.0, 0.9))
def test_leaving_air_is_the_mixture_and_never_over_saturated(case, share, bypass):
    entering, pressure = case
    coil = solve(
        entering, share * largest_capacity(entering, pressure=pressure, bypass_factor=bypass), bypass, pressure
    )
    most = saturation.saturation_humidity_ratio(coil.dry_bulb, pressure)
    assert coil.humidity_ratio <= most * (1.0 + 1e-9)
    if coil.wet and not coil.fogged:
        surface = saturation.saturation_humidity_ratio(coil.surface_temperature, pressure)
        mixed = bypass * entering.humidity_ratio + (1.0 - bypass) * surface
        assert coil.humidity_ratio == pytest.approx(mixed, rel=1e-12)
        enthalpy = bypass * entering.specific_enthalpy + (1.0 - bypass) * virial.specific_enthalpy(
            coil.surface_temperature, surface, pressure
        )
        leaving = virial.specific_enthalpy(coil.dry_bulb, coil.humidity_ratio, pressure)
        assert leaving == pytest.approx(enthalpy, rel=1e-9, abs=1e-5)


@pytest.mark.parametrize(("entering", "capacity"), [(air(27.0, 50.0), 20e3), (air(58.0, 70.0), 60e3)])
def test_without_bypass_the_air_leaves_saturated_at_the_surface(entering, capacity):
    coil = solve(entering, capacity, bypass=0.0)
    assert coil.dry_bulb == pytest.approx(coil.surface_temperature)
    most = saturation.saturation_humidity_ratio(coil.surface_temperature, SEA_LEVEL)
    assert coil.humidity_ratio == pytest.approx(most)
    assert not coil.fogged  # nothing mixes


def test_a_coil_above_the_dew_point_is_dry():
    # 35 degC and 15 % has its dew point near 4.9 degC; 10 kJ/kg cool it by about 10 / (1.006 + 1.86 x 0.0053) K
    entering = air(35.0, 15.0)
    coil = solve(entering, 10e3, bypass=0.2)
    assert not coil.wet
    assert coil.humidity_ratio == entering.humidity_ratio
    heat_capacity = 1006.0 + 1860.0 * entering.humidity_ratio
    assert coil.dry_bulb == pytest.approx(308.15 - 10e3 / heat_capacity, abs=0.03)
    # the surface takes all of it out of 80 % of the air
    assert coil.surface_temperature == pytest.approx(308.15 - 10e3 / heat_capacity / 0.8, abs=0.03)
    assert coil.surface_temperature > entering.dew_point


def test_dry_and_wet_meet_at_the_dew_point():
    entering = air(30.0, 40.0)
    ratio = entering.humidity_ratio
    edge = 0.85 * (entering.specific_enthalpy - virial.specific_enthalpy(entering.dew_point, ratio, SEA_LEVEL))
    dry, wet = solve(entering, edge * (1.0 - 1e-6), 0.15), solve(entering, edge * (1.0 + 1e-6), 0.15)
    assert not dry.wet
    assert wet.wet
    assert wet.surface_temperature == pytest.approx(dry.surface_temperature, abs=1e-3)
    assert wet.humidity_ratio == pytest.approx(ratio, rel=1e-4)


def test_more_capacity_is_a_colder_surface_and_drier_air():
    entering = air(27.0, 55.0)
    coils = [solve(entering, capacity) for capacity in (15e3, 20e3, 25e3, 30e3, 40e3)]
    surfaces = [coil.surface_temperature for coil in coils]
    ratios = [coil.humidity_ratio for coil in coils]
    assert surfaces == sorted(surfaces, reverse=True)
    assert ratios == sorted(ratios, reverse=True)


def test_the_lowest_surface_is_the_end_of_the_reach():
    entering = air(27.0, 50.0)
    largest = largest_capacity(entering, pressure=SEA_LEVEL, bypass_factor=0.1)
    assert solve(entering, largest * 0.9999).surface_temperature == pytest.approx(LOWEST_SURFACE_TEMPERATURE, abs=0.01)
    assert solve(entering, largest * 1.0001) is None


def test_air_drier_than_the_lowest_surface_stays_dry_all_the_way():
    entering = air(20.0, 1.0)  # dew point near -34 degC
    assert entering.dew_point < LOWEST_SURFACE_TEMPERATURE
    largest = largest_capacity(entering, pressure=SEA_LEVEL, bypass_factor=0.1)
    coil = solve(entering, largest * 0.9999)
    assert not coil.wet
    assert coil.surface_temperature == pytest.approx(LOWEST_SURFACE_TEMPERATURE, abs=0.01)
    assert solve(entering, largest * 1.0001) is None


def test_a_saturated_stream_mixed_with_cold_saturated_air_sheds_its_fog():
    # between two points of the saturation curve the mixing line runs above it
    coil = solve(air(32.0, 100.0), 30e3, bypass=0.4)
    assert coil.fogged
    most = saturation.saturation_humidity_ratio(coil.dry_bulb, SEA_LEVEL)
    assert coil.humidity_ratio == pytest.approx(most)
