"""How a cooling load splits."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from service.calculations import virial, water
from service.calculations.air_state import air_state
from service.calculations.cooling_process import cool_air
from service.calculations.psychrometrics import humidity_ratio_from_relative_humidity

SEA_LEVEL = 101325.0


@given(
    dry_bulb=st.floats(285.0, 330.0),
    humidity=st.floats(2.0, 100.0),
    leaving=st.floats(273.15, 318.0),
    share=st.floats(0.0, 0.95),
    mass_flow=st.floats(0.01, 100.0),
    pressure=st.floats(55e3, 108e3),
)
def test_the_parts_make_up_the_balance(dry_bulb, humidity, leaving, share, mass_flow, pressure):
    ratio = humidity_ratio_from_relative_humidity(dry_bulb, humidity, pressure)
    entering = air_state(dry_bulb, ratio, pressure)
    removed = share * ratio
    process = cool_air(entering, leaving_dry_bulb=leaving, removed=removed, mass_flow=mass_flow, pressure=pressure)
    # ASHRAE Handbook - Fundamentals, Psychrometrics: q = m_da [(h1 - h2) - (W1 - W2) h_w]
    after = virial.specific_enthalpy(leaving, ratio - removed, pressure)
    balance = mass_flow * (entering.specific_enthalpy - after - removed * water.liquid_enthalpy(leaving))
    scale = mass_flow * 1e6
    assert process.latent_load + process.sensible_load == process.total_load
    assert process.total_load == pytest.approx(balance, abs=1e-9 * scale)
    assert process.mass_rate == mass_flow * removed
    assert (process.sensible_heat_ratio is None) == (process.total_load <= 0.0)


@pytest.mark.parametrize(
    ("celsius", "latent_heat"),
    # heat of evaporation, ASHRAE Handbook - Fundamentals, Psychrometrics, table 3 (from memory) [kJ/kg]
    [(5.0, 2489.1), (10.0, 2477.2), (15.0, 2465.4), (20.0, 2453.5)],
)
def test_the_latent_load_is_the_heat_of_evaporation_at_the_leaving_temperature(celsius, latent_heat):
    entering = air_state(303.15, 0.0134, SEA_LEVEL)
    process = cool_air(entering, leaving_dry_bulb=celsius + 273.15, removed=0.004, mass_flow=2.0, pressure=SEA_LEVEL)
    assert process.latent_load / process.mass_rate / 1e3 == pytest.approx(latent_heat, rel=0.002)


def test_air_that_keeps_its_water_has_no_latent_load():
    entering = air_state(303.15, 0.0134, SEA_LEVEL)
    process = cool_air(entering, leaving_dry_bulb=293.15, removed=0.0, mass_flow=2.0, pressure=SEA_LEVEL)
    assert process.latent_load == 0.0
    assert process.sensible_heat_ratio == 1.0
    # 1.006 + 1.86 x 0.0134 kJ/(kg K), handbook equation (30)
    assert process.sensible_load == pytest.approx(2.0 * 10.0 * (1006.0 + 1860.0 * 0.0134), rel=0.002)
