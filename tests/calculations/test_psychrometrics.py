"""Moist air: inverses, slopes, kinds of argument, limits, work. Values against outside: tests/published."""

import itertools

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from service.calculations import psychrometrics, saturation, virial, water
from service.errors import OutOfRange

dry_bulbs = st.floats(255.0, 333.15)
pressures = st.floats(54e3, 110e3)
humidities = st.floats(0.5, 100.0)


def humidity_ratio(dry_bulb, humidity, pressure):
    return psychrometrics.humidity_ratio_from_relative_humidity(dry_bulb, humidity, pressure)


@given(dry_bulb=dry_bulbs, humidity=humidities, pressure=pressures)
def test_relative_humidity_and_dew_point_come_back(dry_bulb, humidity, pressure):
    ratio = humidity_ratio(dry_bulb, humidity, pressure)
    assert psychrometrics.relative_humidity_percent(dry_bulb, ratio, pressure) == pytest.approx(humidity, rel=1e-12)
    dew_point = psychrometrics.dew_point(ratio, pressure)
    assert dew_point <= dry_bulb + 1e-7
    assert psychrometrics.humidity_ratio_from_dew_point(dew_point, pressure) == pytest.approx(ratio, rel=1e-9)


@given(dry_bulb=dry_bulbs, humidity=humidities, pressure=pressures)
def test_wet_bulb_comes_back_and_lies_between_dew_point_and_dry_bulb(dry_bulb, humidity, pressure):
    ratio = humidity_ratio(dry_bulb, humidity, pressure)
    wet_bulb = psychrometrics.wet_bulb(dry_bulb, ratio, pressure)
    back = psychrometrics.humidity_ratio_from_wet_bulb(dry_bulb, wet_bulb, pressure)
    assert back == pytest.approx(ratio, abs=1e-10)
    assert wet_bulb <= dry_bulb + 1e-6
    if wet_bulb >= saturation.TRIPLE_POINT or humidity < 99.0:
        assert wet_bulb >= psychrometrics.dew_point(ratio, pressure) - 1e-6


@given(dry_bulb=st.floats(278.15, 333.15), depression=st.floats(0.0, 40.0), pressure=pressures)
def test_the_wet_bulb_balance_closes(dry_bulb, depression, pressure):
    # what equation (31) says, put together from its parts
    wet_bulb = max(dry_bulb - depression, 274.0)
    ratio = psychrometrics.humidity_ratio_from_wet_bulb(dry_bulb, wet_bulb, pressure)
    saturated = saturation.saturation_humidity_ratio(wet_bulb, pressure)
    before = virial.specific_enthalpy(dry_bulb, ratio, pressure) + (saturated - ratio) * water.liquid_enthalpy(wet_bulb)
    assert before == pytest.approx(virial.specific_enthalpy(wet_bulb, saturated, pressure), abs=1e-3)


def test_an_impossibly_low_wet_bulb_gives_a_negative_humidity_ratio():
    # bone-dry air of 40 degC at sea level has its wet bulb near 13.5 degC (psychrometric chart, W = 0 line)
    assert psychrometrics.humidity_ratio_from_wet_bulb(313.15, 288.15, 101325.0) > 0.0
    assert psychrometrics.humidity_ratio_from_wet_bulb(313.15, 283.15, 101325.0) < 0.0


def test_arrays_give_what_floats_give_across_freezing():
    cases = itertools.product([260.0, 274.0, 283.0, 323.0], [2.0, 40.0, 100.0], [70e3, 101325.0])
    dry_bulb, humidity, pressure = np.array(list(cases)).T
    ratio = humidity_ratio(dry_bulb, humidity, pressure)
    wet_bulb = dry_bulb - 3.0
    together = {
        "ratio": ratio,
        "relative": psychrometrics.relative_humidity_percent(dry_bulb, ratio, pressure),
        "from_wet_bulb": psychrometrics.humidity_ratio_from_wet_bulb(dry_bulb, wet_bulb, pressure),
        "enthalpy": virial.specific_enthalpy(dry_bulb, ratio, pressure),
        "volume": virial.specific_volume(dry_bulb, ratio, pressure),
    }
    for i, (t, h, p) in enumerate(zip(dry_bulb.tolist(), humidity.tolist(), pressure.tolist(), strict=True)):
        w = humidity_ratio(t, h, p)
        alone = {
            "ratio": w,
            "relative": psychrometrics.relative_humidity_percent(t, w, p),
            "from_wet_bulb": psychrometrics.humidity_ratio_from_wet_bulb(t, t - 3.0, p),
            "enthalpy": virial.specific_enthalpy(t, w, p),
            "volume": virial.specific_volume(t, w, p),
        }
        for name, value in alone.items():
            assert type(value) is float, name
            assert value == pytest.approx(together[name][i], rel=1e-12, abs=1e-15), name


@given(temperature=st.floats(250.0, 333.0), pressure=pressures)
def test_the_slopes_of_saturated_air_are_those_of_its_values(temperature, pressure):
    assume(abs(temperature - saturation.TRIPLE_POINT) > 0.01)
    below, above = (saturation.saturation_curve(temperature + step, pressure) for step in (-1e-3, 1e-3))
    ratio, ratio_slope, enthalpy, enthalpy_slope = saturation.saturation_curve(temperature, pressure)
    assert ratio == pytest.approx(saturation.saturation_humidity_ratio(temperature, pressure), rel=1e-14)
    assert enthalpy == pytest.approx(virial.specific_enthalpy(temperature, ratio, pressure), rel=1e-14)
    assert (above[0] - below[0]) / 2e-3 == pytest.approx(ratio_slope, rel=1e-7)
    assert (above[2] - below[2]) / 2e-3 == pytest.approx(enthalpy_slope, rel=3e-4)


@pytest.mark.parametrize("temperature", [173.0, 343.3, float("nan"), np.array([300.0, 400.0])])
def test_saturation_outside_its_range_is_refused(temperature):
    with pytest.raises(OutOfRange):
        saturation.saturation_pressure(temperature)


@pytest.mark.parametrize("ratio", [0.0, -0.001, 1e-12, float("nan")])
def test_air_too_dry_for_a_dew_point_is_refused(ratio):
    with pytest.raises(OutOfRange):
        psychrometrics.dew_point(ratio, 101325.0)


@pytest.mark.parametrize("celsius", [20.0, 27.0, 35.0])
@pytest.mark.parametrize("humidity", [30.0, 50.0, 80.0, 100.0])
@pytest.mark.parametrize("pressure", [80e3, 101325.0])
def test_a_dew_point_takes_one_look_at_saturated_air_and_a_wet_bulb_two(celsius, humidity, pressure, monkeypatch):
    looks = []
    look = saturation._fraction_and_slope
    monkeypatch.setattr(saturation, "_fraction_and_slope", lambda *state: looks.append(state) or look(*state))
    ratio = humidity_ratio(celsius + 273.15, humidity, pressure)
    dew_point = psychrometrics.dew_point(ratio, pressure)
    assert len(looks) == 1
    psychrometrics.wet_bulb(celsius + 273.15, ratio, pressure, dew_point=dew_point)
    assert len(looks) <= 3
