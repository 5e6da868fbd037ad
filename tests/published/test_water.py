"""Liquid water against the IAPWS formulations, as the `iapws` package computes them."""

import numpy as np
import pytest
from iapws import IAPWS95, IAPWS97
from iapws._iapws import _Ice, _Liquid

from service.calculations import water

# inside the range by a hair, because `iapws` excludes its ends
TEMPERATURES = np.linspace(253.16, 383.14, 53)


@pytest.mark.parametrize("temperature", TEMPERATURES)
def test_every_property_equals_the_release_itself(temperature):
    # IAPWS SR6-08(2011) as coded independently in `iapws`; the same equations, so the last bits only.
    # Enthalpy passes through zero at the triple point: hence the absolute 1e-4 J/kg.
    reference = _Liquid(temperature)
    assert water.density(temperature) == pytest.approx(reference["rho"], rel=1e-10)
    assert water.dynamic_viscosity(temperature) == pytest.approx(reference["mu"], rel=1e-10)
    assert water.liquid_enthalpy(temperature) == pytest.approx(reference["h"] * 1e3, rel=1e-8, abs=1e-4)


@pytest.mark.parametrize("temperature", [273.2, 283.15, 298.15, 323.15, 353.15, 372.0])
def test_density_and_enthalpy_equal_the_scientific_formulation(temperature):
    # IAPWS-95 at 0.1 MPa, the formulation the release was fitted to: 1 ppm in density. Its own heat
    # capacity is uncertain by 0.1 %, that is 4 J/kg for each kelvin from the triple point.
    reference = IAPWS95(T=temperature, P=0.1)
    assert water.density(temperature) == pytest.approx(reference.rho, rel=1e-6)
    assert water.liquid_enthalpy(temperature) == pytest.approx(reference.h * 1e3, abs=4.0)


@pytest.mark.parametrize("temperature", [278.15, 298.15, 323.15])
def test_viscosity_agrees_with_the_general_viscosity_formulation(temperature):
    # IAPWS R12-08, whose uncertainty here is 1 %; the two releases differ by far less
    assert water.dynamic_viscosity(temperature) == pytest.approx(IAPWS97(T=temperature, P=0.1).mu, rel=1e-3)


@pytest.mark.parametrize("pressure", [0.07, 0.105, 0.13])
def test_other_pressures_in_reach_change_the_density_by_less_than_a_hundredth_of_a_percent(pressure):
    # 70 kPa at altitude, 105 kPa, and 3 m of lift on top of the atmosphere; IAPWS-95
    assert water.density(293.15) == pytest.approx(IAPWS95(T=293.15, P=pressure).rho, rel=1e-4)


@pytest.mark.parametrize("temperature", np.linspace(233.15, 273.15, 9))
def test_ice_enthalpy_equals_the_release_on_ice(temperature):
    # IAPWS R10-06(2009) as coded in `iapws`; the fit states 2 J/kg
    assert water.ice_enthalpy(temperature) == pytest.approx(_Ice(temperature, 0.101325)["h"] * 1e3, abs=2.0)
