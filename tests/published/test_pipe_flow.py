"""Pressure flow in pipes against Hagen-Poiseuille and the `fluids` library."""

from math import pi

import fluids
import pytest

from service.calculations.pipe_flow import friction_factor, friction_head


@pytest.mark.parametrize("reynolds", [1.0, 50.0, 700.0, 1999.0])
def test_laminar_head_is_hagen_poiseuille(reynolds: float) -> None:
    bore, length, viscosity = 0.009525, 8.5, 1.004e-6
    flow = reynolds * viscosity * pi * bore / 4.0
    # h = 128 nu L Q / (pi g d^4)
    expected = 128.0 * viscosity * length * flow / (pi * 9.80665 * bore**4)
    found = friction_head(flow=flow, bore=bore, length=length, roughness=1.5e-6, kinematic_viscosity=viscosity)
    assert found == pytest.approx(expected, rel=1e-12)


@pytest.mark.parametrize("roughness", [1e-6, 1.5e-4, 1e-3, 1e-2])
@pytest.mark.parametrize("reynolds", [4000.0, 5e3, 1e4, 1e5, 1e6])
def test_turbulent_factor_is_swamee_and_jain_of_fluids(reynolds: float, roughness: float) -> None:
    # fluids writes 5.74 as 6.97^0.9 = 5.7396
    expected = fluids.Swamee_Jain_1976(reynolds, roughness)
    assert friction_factor(reynolds, roughness) == pytest.approx(expected, rel=1e-4)


@pytest.mark.parametrize(("reynolds", "tolerance"), [(4e3, 0.02), (6e3, 0.01), (1e4, 0.01), (1e5, 0.01), (1e6, 0.01)])
@pytest.mark.parametrize("roughness", [0.0, 1.5e-5, 1.6e-4])
def test_turbulent_factor_stays_near_colebrook(reynolds: float, tolerance: float, roughness: float) -> None:
    # Swamee and Jain claim 1 % of Colebrook from Re 5000; smooth tube just above the transition is 2 %
    assert friction_factor(reynolds, roughness) == pytest.approx(fluids.Colebrook(reynolds, roughness), rel=tolerance)


def test_transition_rises_from_laminar_to_turbulent() -> None:
    # Churchill (1977), an independent blend of the three regimes, lies on the same side everywhere: the
    # two differ by up to 30 % near Re 3000, which is what the flow itself does there
    for reynolds in (2200.0, 2600.0, 3000.0, 3400.0, 3800.0):
        ratio = friction_factor(reynolds, 1.5e-4) / fluids.Churchill_1977(reynolds, 1.5e-4)
        assert 0.7 < ratio < 1.05
