"""Air as measured: the state that follows, and readings that cannot be."""

import dataclasses

import pytest
from hypothesis import given
from hypothesis import strategies as st

from service.calculations import psychrometrics, saturation
from service.calculations.air_state import (
    ENTERING_AIR_LIMITS,
    HUMIDITIES,
    LEAVING_AIR_LIMITS,
    AirReading,
    air_state,
    measure_air,
)
from service.errors import Contradiction, OutOfRange

SEA_LEVEL = 101325.0


def kelvin(fahrenheit):
    return (fahrenheit - 32.0) / 1.8 + 273.15


def measure(limits=ENTERING_AIR_LIMITS, pressure=SEA_LEVEL, **reading):
    return measure_air(AirReading(**reading), limits=limits, pressure=pressure, pointer="/entering_air")


@pytest.mark.parametrize("humidities", [{}, {"wet_bulb": 290.0, "dew_point": 285.0}, dict.fromkeys(HUMIDITIES, 50.0)])
def test_a_reading_has_exactly_one_humidity(humidities):
    with pytest.raises(ValueError, match="exactly one"):
        AirReading(dry_bulb=300.0, **humidities)


@given(
    dry_bulb=st.floats(285.0, 325.0),
    humidity=st.floats(5.0, 99.0),
    pressure=st.floats(60e3, 108e3),
)
def test_the_three_humidities_of_one_air_give_one_state(dry_bulb, humidity, pressure):
    ratio = psychrometrics.humidity_ratio_from_relative_humidity(dry_bulb, humidity, pressure)
    state = air_state(dry_bulb, ratio, pressure)
    for name in HUMIDITIES:
        value = getattr(state, name)
        if ENTERING_AIR_LIMITS[name].admits(value) and value <= (100.0 if "percent" in name else dry_bulb):
            again = measure(pressure=pressure, dry_bulb=dry_bulb, **{name: value})
            assert again.finding is None
            assert dataclasses.astuple(again.state) == pytest.approx(dataclasses.astuple(state), rel=1e-6)
            # what was read is repeated exactly
            assert getattr(again.state, name) == value


@pytest.mark.parametrize("limits", [ENTERING_AIR_LIMITS, LEAVING_AIR_LIMITS])
@pytest.mark.parametrize("name", ["dry_bulb", *HUMIDITIES])
def test_every_member_has_both_limits(limits, name):
    for beyond in (limits[name].low - 0.1, limits[name].high + 0.1):
        reading = {"dry_bulb": 290.0, name: beyond} if name != "dry_bulb" else {name: beyond, "dew_point": 280.0}
        with pytest.raises(OutOfRange):
            measure(limits=limits, **reading)


@pytest.mark.parametrize(
    ("dry_bulb", "humidity"),
    [
        (50, {"relative_humidity_percent": 85.0}),  # wine cellar
        (75, {"wet_bulb": kelvin(62.5)}),  # comfort cooling, dry end
        (115, {"relative_humidity_percent": 5.0}),  # desert
        (115, {"wet_bulb": kelvin(64)}),
        (125, {"dew_point": kelvin(50)}),
        (95, {"wet_bulb": kelvin(78)}),  # outdoor-air unit
        (84, {"dew_point": kelvin(80)}),  # tropical coast
    ],
)
def test_real_entering_air_is_inside_the_limits(dry_bulb, humidity):
    assert measure(dry_bulb=kelvin(dry_bulb), **humidity).finding is None


@pytest.mark.parametrize(
    ("dry_bulb", "humidity"),
    [
        (35, {"relative_humidity_percent": 98.0}),
        (40, {"dew_point": kelvin(38)}),
        (55, {"wet_bulb": kelvin(54)}),
        (75, {"wet_bulb": kelvin(65)}),
    ],
)
def test_real_leaving_air_is_inside_the_limits(dry_bulb, humidity):
    assert measure(limits=LEAVING_AIR_LIMITS, dry_bulb=kelvin(dry_bulb), **humidity).finding is None


@pytest.mark.parametrize("name", ["wet_bulb", "dew_point"])
def test_a_humidity_above_the_dry_bulb_is_saturated_within_two_instruments_error(name):
    # two thermometers off by 0.5 K each, opposite ways: common practice
    just = measure(dry_bulb=295.0, **{name: 295.9})
    assert just.finding.code == "air-taken-as-saturated"
    assert just.finding.pointer == f"/entering_air/{name}"
    assert (just.state.wet_bulb, just.state.dew_point, just.state.relative_humidity_percent) == (295.0, 295.0, 100.0)
    assert just.state.humidity_ratio == saturation.saturation_humidity_ratio(295.0, SEA_LEVEL)
    with pytest.raises(Contradiction) as caught:
        measure(dry_bulb=295.0, **{name: 296.1})
    assert caught.value.code == f"{name.replace('_', '-')}-above-dry-bulb"
    assert caught.value.pointer == f"/entering_air/{name}"


def test_a_wet_bulb_too_low_for_any_air():
    # CoolProp: at 40 degC and sea level bone-dry air has a wet bulb of 14.56 degC, air of 1 % one of 14.98 degC
    near = measure(dry_bulb=313.15, wet_bulb=287.5)
    assert near.finding.code == "air-taken-as-driest"
    assert near.state.relative_humidity_percent == pytest.approx(1.0)
    assert near.state.wet_bulb == pytest.approx(273.15 + 14.98, abs=0.01)
    with pytest.raises(Contradiction) as caught:
        measure(dry_bulb=313.15, wet_bulb=283.15)
    assert caught.value.code == "wet-bulb-too-low"
    assert caught.value.values["lowest"] == pytest.approx(near.state.wet_bulb)


@pytest.mark.parametrize(
    ("humidity", "least", "most"),
    [
        # by hand from saturation near 300 K: a kelvin is 6 % of it, so 3 % of humidity and 0.5 K on 50 % make
        # 6 + 3 % of the humidity ratio; 0.5 K in the wet bulb and 0.5 K in the dry bulb: 7 % of 11 g/kg at 20 degC
        ({"relative_humidity_percent": 50.0}, 0.085, 0.10),
        ({"dew_point": 288.15}, 0.06, 0.07),
        ({"wet_bulb": 292.5}, 0.05, 0.10),
    ],
)
def test_the_doubt_is_what_the_instruments_err(humidity, least, most):
    air = measure(dry_bulb=300.0, **humidity)
    assert least < air.doubt / air.state.humidity_ratio < most
