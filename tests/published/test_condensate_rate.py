"""Condensate rates against the handbook's example, CoolProp balances and the field's shorthand."""

import pytest
from CoolProp.CoolProp import PropsSI
from CoolProp.HumidAirProp import HAPropsSI

from service.calculations.condensate_rate import (
    AirReading,
    rate_from_air_states,
    rate_from_capacity,
    rate_from_coil,
)

CFM = 0.3048**3 / 60.0
POUND_PER_HOUR = 0.45359237 / 3600.0
BTU_PER_HOUR = 1055.05585262 / 3600.0
FOOT = 0.3048
GRAIN_PER_POUND = 1.0 / 7000.0
GALLON_PER_HOUR = 3.785411784e-3 / 3600.0

# ASHRAE Handbook - Fundamentals, Psychrometrics, standard atmosphere [ft, kPa]: table 1, from memory
SITES = [(0.0, 101.325), (2000.0, 94.213), (5000.0, 84.307), (8000.0, 75.262)]


def kelvin(fahrenheit):
    return (fahrenheit - 32.0) / 1.8 + 273.15


def liquid_enthalpy(temperature):
    """Liquid water at 0.1 MPa, IAPWS-95."""
    return PropsSI("H", "T", temperature, "P", 1e5, "Water")


def humid_air(output, dry_bulb, pressure, **humidity):
    (name, value), *_ = humidity.items()
    return HAPropsSI(output, "T", dry_bulb, "P", pressure, name, value)


def test_handbook_example_of_cooling_and_dehumidifying():
    # ASHRAE Handbook - Fundamentals, Psychrometrics: 5 m3/s at 30 degC and 50 % to saturated 10 degC.
    # Its chart readings give about 0.0325 kg/s and 198 kW.
    results = rate_from_air_states(
        air_flow=5.0,
        entering_air=AirReading(dry_bulb=303.15, relative_humidity_percent=50.0),
        leaving_air=AirReading(dry_bulb=283.15, relative_humidity_percent=100.0),
    ).results
    assert results.mass_rate == pytest.approx(0.0325, rel=0.005)
    assert results.total_load == pytest.approx(198e3, rel=0.005)
    assert results.entering_air.specific_volume == pytest.approx(0.877, abs=0.001)
    assert results.entering_air.specific_enthalpy == pytest.approx(64.3e3, rel=0.005)


@pytest.mark.parametrize(("elevation", "kilopascal"), SITES)
@pytest.mark.parametrize(
    ("entering", "leaving"),
    [
        ({"dry_bulb": kelvin(80), "wet_bulb": kelvin(67)}, {"dry_bulb": kelvin(57), "relative_humidity_percent": 92.0}),
        ({"dry_bulb": kelvin(95), "wet_bulb": kelvin(78)}, {"dry_bulb": kelvin(55), "wet_bulb": kelvin(54)}),
        ({"dry_bulb": kelvin(75), "wet_bulb": kelvin(62.5)}, {"dry_bulb": kelvin(55), "wet_bulb": kelvin(54)}),
        ({"dry_bulb": kelvin(72), "dew_point": kelvin(60)}, {"dry_bulb": kelvin(50), "dew_point": kelvin(48)}),
    ],
)
@pytest.mark.parametrize("measured_at", ["entering", "leaving"])
def test_air_states_agree_with_coolprop_at_elevation(entering, leaving, elevation, kilopascal, measured_at):
    answer = rate_from_air_states(
        air_flow=1200.0 * CFM,
        entering_air=AirReading(**entering),
        leaving_air=AirReading(**leaving),
        elevation=elevation * FOOT,
        air_flow_measured_at=measured_at,
    )
    pressure = kilopascal * 1e3
    coolprop_names = {"wet_bulb": "B", "dew_point": "D", "relative_humidity_percent": "R"}

    def reference(output, reading):
        name = next(name for name in coolprop_names if name in reading)
        value = reading[name] / (100.0 if name == "relative_humidity_percent" else 1.0)
        return humid_air(output, reading["dry_bulb"], pressure, **{coolprop_names[name]: value})

    ratios = reference("W", entering), reference("W", leaving)
    flow = 1200.0 * CFM / reference("V", entering if measured_at == "entering" else leaving)
    removed = ratios[0] - ratios[1]
    total = flow * (reference("H", entering) - reference("H", leaving) - removed * liquid_enthalpy(leaving["dry_bulb"]))
    results = answer.results
    # humidity ratios agree within 0.05 %; of a difference a third of their size that makes 0.15 %
    assert results.entering_air.humidity_ratio == pytest.approx(ratios[0], rel=5e-4)
    assert results.leaving_air.humidity_ratio == pytest.approx(ratios[1], rel=5e-4)
    assert results.mass_rate == pytest.approx(flow * removed, rel=2e-3)
    assert results.total_load == pytest.approx(total, rel=1e-3)


def solve_by_halving(function, low, high):
    """Root of a rising function."""
    for _ in range(60):
        middle = 0.5 * (low + high)
        low, high = (middle, high) if function(middle) < 0.0 else (low, middle)
    return middle


@pytest.mark.parametrize(("elevation", "kilopascal"), SITES)
@pytest.mark.parametrize("bypass", [0.0, 0.05, 0.12, 0.3])
@pytest.mark.parametrize(
    ("dry_bulb", "humidity", "tons"), [(kelvin(80), 51.0, 3.0), (kelvin(75), 60.0, 2.5), (kelvin(95), 45.0, 4.0)]
)
def test_coil_agrees_with_a_coolprop_solve(dry_bulb, humidity, tons, bypass, elevation, kilopascal):
    pressure, capacity = kilopascal * 1e3, tons * 12000.0 * BTU_PER_HOUR
    ratio, enthalpy, volume = (humid_air(name, dry_bulb, pressure, R=humidity / 100.0) for name in "WHV")
    flow = 1200.0 * CFM / volume

    def leaving(surface):
        saturated = humid_air("W", surface, pressure, R=1.0)
        mixed = bypass * ratio + (1.0 - bypass) * saturated
        heat = bypass * enthalpy + (1.0 - bypass) * humid_air("H", surface, pressure, R=1.0)
        return mixed, heat, HAPropsSI("T", "H", heat, "P", pressure, "W", mixed)

    def lacking(surface):
        mixed, heat, temperature = leaving(surface)
        return capacity - flow * (enthalpy - heat - (ratio - mixed) * liquid_enthalpy(temperature))

    surface = solve_by_halving(lacking, 274.0, humid_air("D", dry_bulb, pressure, R=humidity / 100.0))
    mixed, _, temperature = leaving(surface)
    results = rate_from_coil(
        air_flow=1200.0 * CFM,
        entering_air=AirReading(dry_bulb=dry_bulb, relative_humidity_percent=humidity),
        total_capacity=capacity,
        bypass_factor=bypass,
        elevation=elevation * FOOT,
    ).results
    assert results.apparatus_dew_point == pytest.approx(surface, abs=0.01)
    assert results.leaving_air.dry_bulb == pytest.approx(temperature, abs=0.01)
    # 0.03 % in either humidity ratio, against a difference that may be a fifth of them
    assert results.mass_rate == pytest.approx(flow * (ratio - mixed), rel=3e-3, abs=1e-6)
    assert results.total_load == pytest.approx(capacity, rel=1e-9)


def test_field_shorthand_at_sea_level():
    # Common practice, no source: latent Btu/h = 0.68 x cfm x grains, or 4840 x cfm x humidity-ratio difference.
    # They imply 1060 and 1076 Btu/lb and so differ by 1.5 %; both take air of 0.075 lb/ft3.
    results = rate_from_air_states(
        air_flow=1200.0 * CFM,
        entering_air=AirReading(dry_bulb=kelvin(80), wet_bulb=kelvin(67)),
        leaving_air=AirReading(dry_bulb=kelvin(57), relative_humidity_percent=92.0),
        air_flow_basis="standard",
    ).results
    difference = results.entering_air.humidity_ratio - results.leaving_air.humidity_ratio
    latent = results.latent_load / BTU_PER_HOUR
    assert latent == pytest.approx(0.68 * 1200.0 * difference / GRAIN_PER_POUND, rel=0.015)
    assert latent == pytest.approx(4840.0 * 1200.0 * difference, rel=0.015)


def test_shorthand_fails_at_five_thousand_feet_and_the_balance_does_not():
    # the same volume of air holds a sixth less dry air there: 84.3 of 101.3 kPa
    results = rate_from_air_states(
        air_flow=1200.0 * CFM,
        entering_air=AirReading(dry_bulb=kelvin(80), wet_bulb=kelvin(67)),
        leaving_air=AirReading(dry_bulb=kelvin(55), relative_humidity_percent=92.0),
        air_flow_basis="actual",
        elevation=5000.0 * FOOT,
    ).results
    difference = results.entering_air.humidity_ratio - results.leaving_air.humidity_ratio
    shorthand = 0.68 * 1200.0 * difference / GRAIN_PER_POUND
    assert 0.79 < results.latent_load / BTU_PER_HOUR / shorthand < 0.87


@pytest.mark.parametrize(
    ("btu_per_hour", "ratio", "pounds_per_hour"),
    [
        # latent / (1060 Btu/lb), the rating's own definition (ASHRAE Standard 37, from memory), by hand
        (36000.0, 0.75, 9000.0 / 1060.0),
        (60000.0, 0.70, 18000.0 / 1060.0),
        (12000.0, 1.0, 0.0),
    ],
)
def test_rated_capacity_is_inverted_with_the_ratings_constant(btu_per_hour, ratio, pounds_per_hour):
    results = rate_from_capacity(total_capacity=btu_per_hour * BTU_PER_HOUR, sensible_heat_ratio=ratio).results
    assert results.mass_rate == pytest.approx(pounds_per_hour * POUND_PER_HOUR, rel=1e-9)
    # a gallon of water at 10 degC weighs 8.343 lb: 999.70 kg/m3 (IAPWS-95)
    assert results.volume_rate == pytest.approx(pounds_per_hour / 8.343 * GALLON_PER_HOUR, rel=1e-4)


def test_a_home_system_makes_what_the_trade_says():
    # Common practice: 5 to 20 gal a day for a home system, 0.1 to 0.3 gal per ton-hour on average
    results = rate_from_capacity(
        total_capacity=36000.0 * BTU_PER_HOUR, sensible_heat_ratio=0.78, run_fraction=0.5
    ).results
    assert 5.0 < results.daily_volume / 3.785411784e-3 < 20.0
    assert 0.1 < results.rate_per_ton / GALLON_PER_HOUR < 0.3
