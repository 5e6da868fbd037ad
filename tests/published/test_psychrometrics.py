"""Moist air against CoolProp's humid air (ASHRAE RP-1485) and PsychroLib, over the whole domain.

Tolerances: 0.1 % in humidity ratio is what the service promises. Elsewhere they are the known
differences between the formulations: saturation pressure of Hyland and Wexler (1983) sits up
to 0.02 % below IAPWS-95, and virial terms beyond the second are left out.
"""

import itertools

import numpy as np
import psychrolib
import pytest
from CoolProp.HumidAirProp import HAPropsSI

from service.calculations import psychrometrics, saturation, virial

psychrolib.SetUnitSystem(psychrolib.SI)

PRESSURES = [70e3, 80e3, 90e3, 101325.0, 105e3]
TEMPERATURES = [273.17, *np.arange(275.65, 323.15, 2.5), 323.15]
HUMIDITIES = [1.0, 2.0, 5.0, 10.0, 25.0, 50.0, 75.0, 90.0, 100.0]
DOMAIN = list(itertools.product(PRESSURES, TEMPERATURES, HUMIDITIES))


def humid_air(output, dry_bulb, pressure, humidity_percent):
    return HAPropsSI(output, "T", dry_bulb, "P", pressure, "R", humidity_percent / 100.0)


@pytest.fixture(scope="module")
def domain():
    pressure, dry_bulb, humidity = np.array(DOMAIN).T
    reference = {name: HAPropsSI(name, "T", dry_bulb, "P", pressure, "R", humidity / 100.0) for name in "WHVBD"}
    return dry_bulb, pressure, humidity, reference


def test_humidity_ratio_agrees_within_a_tenth_of_a_percent_everywhere(domain):
    dry_bulb, pressure, humidity, reference = domain
    ours = psychrometrics.humidity_ratio_from_relative_humidity(dry_bulb, humidity, pressure)
    assert np.abs(ours / reference["W"] - 1.0).max() < 0.0003  # the promise is 0.001
    assert np.abs(ours / reference["W"] - 1.0).max() > 1e-6  # and it is not the same formulation


@pytest.mark.parametrize("pressure", PRESSURES)
@pytest.mark.parametrize("celsius", [10.0, 20.0, 30.0, 40.0])
def test_the_ideal_gas_sits_half_a_percent_low_and_ours_does_not(celsius, pressure):
    # PsychroLib follows the handbook's ideal-gas equations, without the enhancement factor
    truth = humid_air("W", celsius + 273.15, pressure, 50.0)
    ideal = psychrolib.GetHumRatioFromRelHum(celsius, 0.5, pressure)
    ours = psychrometrics.humidity_ratio_from_relative_humidity(celsius + 273.15, 50.0, pressure)
    assert -0.007 < ideal / truth - 1.0 < -0.003
    assert abs(ours / truth - 1.0) < 0.0003


def test_enhancement_factor_agrees_with_the_virial_model(domain):
    dry_bulb, pressure, _, _ = domain
    fraction = HAPropsSI("Y", "T", dry_bulb, "P", pressure, "R", 1.0)
    saturation_pressure = HAPropsSI("P_w", "T", dry_bulb, "P", pressure, "R", 1.0) / (
        saturation.enhancement_factor(dry_bulb, pressure)
    )
    assert fraction.min() > 0.0
    # p_w = f p_ws, so this is IAPWS p_ws up to the error of our f
    assert np.abs(saturation_pressure / saturation.saturation_pressure(dry_bulb) - 1.0).max() < 0.0004


def test_enthalpy_and_volume_agree_with_the_real_gas(domain):
    dry_bulb, pressure, _, reference = domain
    # 35 J/kg is the third virial coefficients' work at 50 degC, saturated and 70 kPa: 0.01 % of it
    enthalpy = virial.specific_enthalpy(dry_bulb, reference["W"], pressure)
    assert np.abs(enthalpy - reference["H"]).max() < 35.0
    volume = virial.specific_volume(dry_bulb, reference["W"], pressure)
    assert np.abs(volume / reference["V"] - 1.0).max() < 5e-5


def test_dew_point_agrees(domain):
    _, pressure, _, reference = domain
    ours = np.vectorize(psychrometrics.dew_point)(reference["W"], pressure)
    # 0.03 % in saturation is 0.005 K; frost points of the driest air come from another ice formula
    assert np.abs(ours - reference["D"]).max() < 0.006


def test_wet_bulb_agrees_away_from_freezing(domain):
    dry_bulb, pressure, _, reference = domain
    ours = np.vectorize(psychrometrics.wet_bulb)(dry_bulb, reference["W"], pressure)
    # around freezing a wet and an iced wick both balance and the choice is arbitrary
    clear = np.abs(reference["B"] - 273.15) > 1.0
    assert clear.sum() > 0.9 * len(DOMAIN)
    assert np.abs(ours - reference["B"])[clear].max() < 0.006
    assert np.abs(ours - reference["B"]).max() < 1.0


def test_humidity_ratio_from_wet_bulb_agrees_within_three_hundredths_of_a_percent_of_saturation(domain):
    dry_bulb, pressure, humidity, reference = domain
    ours = psychrometrics.humidity_ratio_from_wet_bulb(dry_bulb, reference["B"], pressure)
    error = np.abs(ours - reference["W"])
    # CoolProp's own wet bulb for 273.15 to 273.16 K belongs to ice or water by turns
    clear = np.abs(reference["B"] - 273.155) > 0.02
    saturated = HAPropsSI("W", "T", reference["B"], "P", pressure, "R", 1.0)
    assert (error / saturated)[clear].max() < 0.0003
    # in the wet-bulb plane 0.1 % of the humidity ratio itself holds from 10 % relative humidity up;
    # at 1 % the dry bulb's share of the balance is so large that the same error makes 0.9 %
    relative = error / reference["W"]
    assert relative[clear & (humidity >= 10.0)].max() < 0.001
    assert relative[clear].max() < 0.01


def test_the_closed_wet_bulb_equation_is_coarser_than_ours():
    # PsychroLib, equation (33), at 35 degC and 30 %: 0.7 % low; ours within 0.05 %
    wet_bulb = humid_air("B", 308.15, 101325.0, 30.0)
    truth = humid_air("W", 308.15, 101325.0, 30.0)
    closed = psychrolib.GetHumRatioFromTWetBulb(35.0, wet_bulb - 273.15, 101325.0)
    ours = psychrometrics.humidity_ratio_from_wet_bulb(308.15, wet_bulb, 101325.0)
    assert abs(ours / truth - 1.0) < 0.0005 < 0.003 < abs(closed / truth - 1.0)


@pytest.mark.parametrize("temperature", np.arange(178.15, 343.15, 5.0))
def test_saturation_pressure_equals_the_handbook_equations(temperature):
    # PsychroLib codes equations (5) and (6) independently
    theirs = psychrolib.GetSatVapPres(temperature - 273.15)
    assert saturation.saturation_pressure(temperature) == pytest.approx(theirs, rel=1e-12)


@pytest.mark.parametrize("elevation", [-300.0, 0.0, 200.0, 1524.0, 3000.0, 5000.0])
def test_station_pressure_equals_the_handbook_equation(elevation):
    # PsychroLib codes equation (3) independently
    theirs = psychrolib.GetStandardAtmPressure(elevation)
    assert psychrometrics.station_pressure(elevation) == pytest.approx(theirs, rel=1e-12)


@pytest.mark.parametrize(
    ("celsius", "humidity_ratio", "volume", "enthalpy"),
    [
        # ASHRAE Fundamentals 2017 chapter 1, table 2, saturated air at 101.325 kPa: from memory
        (0.0, 0.003789, 0.7781, 9.473),
        (10.0, 0.007661, 0.8116, 29.352),
        (20.0, 0.014758, 0.8498, 57.555),
        (30.0, 0.027329, 0.8962, 99.983),
    ],
)
def test_handbook_table_of_saturated_air(celsius, humidity_ratio, volume, enthalpy):
    dry_bulb = celsius + 273.15
    ours = saturation.saturation_humidity_ratio(dry_bulb, 101325.0)
    assert ours == pytest.approx(humidity_ratio, rel=0.0004)
    assert virial.specific_volume(dry_bulb, ours, 101325.0) == pytest.approx(volume, abs=0.0001)
    assert virial.specific_enthalpy(dry_bulb, ours, 101325.0) / 1e3 == pytest.approx(enthalpy, abs=0.03)
