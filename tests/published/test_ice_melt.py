"""Ice and its melt against IAPWS by ``iapws``, and thawing air against CoolProp."""

import pytest
from CoolProp.HumidAirProp import HAPropsSI
from hypothesis import given
from hypothesis import strategies as st
from iapws import IAPWS95
from iapws._iapws import _Ice

from service.calculations.ice_melt import HEAT_OF_MELTING, ICE_DENSITY, Ice, IceLayer, ThawAir, melt_ice


def test_heat_of_melting_and_density_are_those_of_iapws() -> None:
    ice, liquid = _Ice(273.152519, 0.101325), IAPWS95(T=273.152519, P=0.101325)
    assert pytest.approx(liquid.h - ice["h"], rel=1e-4) == HEAT_OF_MELTING / 1e3
    assert pytest.approx(ice["rho"], rel=1e-4) == ICE_DENSITY


def test_a_layer_is_ice_by_its_weight() -> None:
    """1 m2, 10 mm, half ice: 5 L of ice, 4.584 kg, 4.585 L of water at 999.84 kg/m3."""
    melt, assumptions = melt_ice(Ice(layer=IceLayer(face_area=1.0, thickness=0.01, ice_share=0.5)))
    assert melt.volume * 1e3 == pytest.approx(4.5843, rel=1e-3)
    assert (melt.time, melt.rate, melt.power) == (None, None, None)
    assert assumptions == ()
    solid, assumptions = melt_ice(Ice(layer=IceLayer(face_area=1.0, thickness=0.01)))
    assert solid.volume == pytest.approx(2 * melt.volume)
    assert [assumption.pointer for assumption in assumptions] == ["/ice/layer/ice_share"]


@pytest.mark.parametrize("temperature", [275.0, 285.0, 297.0, 313.0])
@pytest.mark.parametrize("percent", [0.0, 20.0, 50.0, 90.0])
@pytest.mark.parametrize("pressure_and_elevation", [(101325.0, 0.0), (84556.0, 1500.0)])
def test_thawing_air_gives_up_what_coolprop_says(
    temperature: float, percent: float, pressure_and_elevation: tuple[float, float]
) -> None:
    pressure, elevation = pressure_and_elevation
    air = ThawAir(air_flow=0.2, air_temperature=temperature, relative_humidity_percent=percent, elevation=elevation)
    melt, assumptions = melt_ice(Ice(water_volume=0.01, thaw_air=air))
    assert assumptions == ()
    entering = {"T": temperature, "P": pressure, "R": percent / 100.0}

    def state(what: str, **given: float) -> float:
        pairs = [item for pair in given.items() for item in pair]
        return float(HAPropsSI(what, *pairs))

    saturated = state("W", T=273.15, P=pressure, R=1.0)
    ratio = state("W", **entering)
    left = min(ratio, saturated)
    dry_air = 0.2 / state("Vda", **entering)
    # water condensing on ice leaves at the melting point, where its enthalpy is none to speak of
    power = dry_air * (state("H", **entering) - state("H", T=273.15, P=pressure, W=left * (1 - 1e-9)))
    assert melt.power == pytest.approx(power, rel=2e-3)
    assert melt.air_water_rate == pytest.approx(dry_air * (ratio - left) / 999.84, rel=2e-3, abs=1e-12)
    assert melt.rate == pytest.approx(power / 333.43e3 / 999.84, rel=2e-3)
    assert melt.time == pytest.approx(0.01 / (power / 333.43e3 / 999.84), rel=2e-3)


def test_air_at_freezing_melts_nothing() -> None:
    for temperature in (255.0, 273.15):
        melt, _ = melt_ice(Ice(water_volume=0.01, thaw_air=ThawAir(air_flow=0.2, air_temperature=temperature)))
        assert (melt.power, melt.time, melt.rate, melt.air_water_rate) == (0.0, None, None, 0.0)


def test_what_was_not_said_of_the_air_is_recorded() -> None:
    _, assumptions = melt_ice(Ice(water_volume=0.01, thaw_air=ThawAir(air_flow=0.2, air_temperature=295.0)))
    assert [assumption.pointer for assumption in assumptions] == [
        "/ice/thaw_air/relative_humidity_percent",
        "/ice/thaw_air/elevation",
    ]


@given(
    st.floats(0.0, 250.0),
    st.floats(253.15, 333.15),
    st.none() | st.floats(0.0, 100.0),
    st.none() | st.floats(-500.0, 5000.0),
)
def test_more_air_never_melts_more_slowly(
    air_flow: float, temperature: float, percent: float | None, elevation: float | None
) -> None:
    def power(flow: float) -> float:
        air = ThawAir(
            air_flow=flow, air_temperature=temperature, relative_humidity_percent=percent, elevation=elevation
        )
        found = melt_ice(Ice(water_volume=0.01, thaw_air=air))[0].power
        assert found is not None
        return found

    assert 0.0 <= power(air_flow / 2) <= power(air_flow) * (1 + 1e-12)
