"""The table of saturated air keeps to the formulas it is made from."""

import numpy as np
import pytest

from service.calculations import saturation, virial, water
from service.calculations.coil import LOWEST_SURFACE_TEMPERATURE
from service.calculations.saturated_air import HIGHEST, LOWEST, tabulate_saturated_air


@pytest.mark.parametrize("pressure", [50e3, 84e3, 101325.0, 110e3])
def test_every_temperature_is_as_near_as_is_said(pressure: float) -> None:
    accuracy = 1e-8 if pressure > 1e5 else 1e-7
    edge = saturation.TRIPLE_POINT
    temperature = np.concatenate(
        [np.linspace(LOWEST, HIGHEST, 30001), edge + np.array([-0.2, -0.1, -1e-9, 0.0, 1e-9, 0.1, 0.2])]
    )
    temperature = np.append(temperature, [np.nextafter(edge, 0.0), np.nextafter(edge, 400.0)])
    ratio, enthalpy, liquid = tabulate_saturated_air(pressure).look_up(temperature)
    pressures = np.full(temperature.shape, pressure)
    expected = saturation.saturation_humidity_ratio(temperature, pressures)
    drains = temperature >= LOWEST_SURFACE_TEMPERATURE
    assert liquid[drains] == pytest.approx(water.liquid_enthalpy(temperature[drains]), rel=1e-8, abs=1e-3)
    assert ratio == pytest.approx(expected, rel=accuracy)
    assert enthalpy == pytest.approx(virial.specific_enthalpy(temperature, expected, pressures), rel=accuracy, abs=1e-3)


def test_it_reaches_over_every_surface_a_coil_can_have() -> None:
    assert LOWEST < LOWEST_SURFACE_TEMPERATURE
    assert HIGHEST > 333.15
