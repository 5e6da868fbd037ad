"""Compressed gas against reference equations of state, compressible-flow tables and brute-force integration."""

import math
from dataclasses import replace

import fluids
import numpy as np
import pytest
from CoolProp import CoolProp
from scipy.integrate import solve_ivp
from scipy.optimize import minimize_scalar

from service.calculations.gas import (
    ATMOSPHERE,
    critical_pressure_ratio,
    fill_time,
    free_volume,
    molar_density,
    nozzle_mass_flow,
    smallest_room,
)
from service.calculations.gas_supply import LARGEST_PRESSURE, PSI
from service.tables.gases import AIR, CARBON_DIOXIDE, GASES, NITROGEN

COOLPROP = {"nitrogen": "Nitrogen", "air": "Air", "carbon-dioxide": "CO2"}
TEMPERATURES = np.linspace(253.15, 333.15, 9)

# NACA Report 1135 (1953), table I, ratio of heat capacities 1.4: Mach number, p/pt, A/A* (from memory; the formulas
# in the same report give them again below)
NACA_1135 = ((0.30, 0.9395, 2.0351), (0.50, 0.8430, 1.3398), (0.80, 0.6560, 1.0382), (1.00, 0.5283, 1.0))


@pytest.mark.parametrize("gas", GASES.values(), ids=lambda gas: gas.name)
def test_constants_are_those_of_the_reference_equations(gas):
    fluid = COOLPROP[gas.name]
    assert gas.molar_mass == pytest.approx(CoolProp.PropsSI("M", fluid), rel=2e-5)
    ratio = CoolProp.PropsSI("C", "T", 293.15, "P", ATMOSPHERE, fluid) / CoolProp.PropsSI(
        "O", "T", 293.15, "P", ATMOSPHERE, fluid
    )
    assert gas.heat_capacity_ratio == pytest.approx(ratio, abs=6e-4)


@pytest.mark.parametrize("gas", [NITROGEN, AIR], ids=lambda gas: gas.name)
def test_cylinders_hold_what_the_reference_equations_say(gas):
    # the table claims 0.17 %; reference: Span et al. (2000) and Lemmon et al. (2000) as CoolProp has them
    for temperature in TEMPERATURES:
        for pressure in np.geomspace(2e4, 21e6, 25):
            expected = CoolProp.PropsSI("Dmolar", "T", temperature, "P", pressure, COOLPROP[gas.name])
            assert molar_density(gas, pressure, temperature) == pytest.approx(expected, rel=1.75e-3)


def test_carbon_dioxide_in_a_line_is_what_the_reference_equation_says():
    for temperature in TEMPERATURES:
        for pressure in np.linspace(5e4, CARBON_DIOXIDE.highest_pressure, 12):
            expected = CoolProp.PropsSI("Dmolar", "T", temperature, "P", pressure, "CO2")
            assert molar_density(CARBON_DIOXIDE, pressure, temperature) == pytest.approx(expected, rel=1e-3)


def test_a_cartridge_is_so_much_gas():
    # 16 g of liquid, warmed to 20 degC at one atmosphere
    expected = 0.016 / CoolProp.PropsSI("D", "T", 293.15, "P", ATMOSPHERE, "CO2")
    assert free_volume(CARBON_DIOXIDE, 0.016 / CARBON_DIOXIDE.molar_mass, 293.15) == pytest.approx(expected, rel=1e-3)
    # ideal, by hand: 16/44.01 x 8.314 x 293.15 / 101325 = 8.745 L, half a percent more than the real gas
    assert expected * 1e3 == pytest.approx(8.745, rel=6e-3)


def test_at_2200_psi_nitrogen_departs_two_percent_from_the_ideal_gas():
    pressure = 2200 * PSI + ATMOSPHERE
    compressibility = pressure / (8.314462618 * 293.15 * molar_density(NITROGEN, pressure, 293.15))
    assert compressibility == pytest.approx(CoolProp.PropsSI("Z", "T", 293.15, "P", pressure, "Nitrogen"), rel=1.75e-3)
    assert compressibility == pytest.approx(1.022, abs=0.002)


@pytest.mark.parametrize("ratio", [1.1, 1.297, 1.4, 1.6667])
def test_the_critical_ratio_is_that_of_an_independent_library(ratio):
    assert critical_pressure_ratio(ratio) == pytest.approx(fluids.P_critical_flow(1.0, ratio), rel=1e-12)


@pytest.mark.parametrize(("mach", "pressure_ratio", "area_ratio"), NACA_1135)
def test_subsonic_flow_follows_the_compressible_flow_tables(mach, pressure_ratio, area_ratio):
    gas = replace(AIR, heat_capacity_ratio=1.4)
    # the report's own equations, eq. 44 and 80, give the table's numbers
    assert (1 + 0.2 * mach**2) ** -3.5 == pytest.approx(pressure_ratio, abs=5.1e-5)
    assert ((5 + mach**2) / 6) ** 3 / mach == pytest.approx(area_ratio, abs=5.1e-5)

    def through(downstream):
        return nozzle_mass_flow(
            gas=gas, upstream=1.0e5, downstream=downstream, temperature=300.0, bore=0.01, discharge_coefficient=1.0
        )

    # A/A* is choked flow over the flow at this Mach number through the same throat
    assert through(0.0) / through(pressure_ratio * 1e5) == pytest.approx(area_ratio, rel=4e-4)


@pytest.mark.parametrize("gas", GASES.values(), ids=lambda gas: gas.name)
def test_choked_flow_is_that_of_the_real_gas(gas):
    # brute force: the largest rho v along the isentrope of the reference equation of state
    pressure, temperature = ATMOSPHERE + LARGEST_PRESSURE, 293.15
    fluid = COOLPROP[gas.name]
    enthalpy = CoolProp.PropsSI("H", "T", temperature, "P", pressure, fluid)
    entropy = CoolProp.PropsSI("S", "T", temperature, "P", pressure, fluid)

    def flux(throat):
        left = enthalpy - CoolProp.PropsSI("H", "P", throat, "S", entropy, fluid)
        return CoolProp.PropsSI("D", "P", throat, "S", entropy, fluid) * math.sqrt(2 * left)

    best = minimize_scalar(lambda share: -flux(share * pressure), bounds=(0.4, 0.7), method="bounded")
    flow = nozzle_mass_flow(
        gas=gas,
        upstream=pressure,
        downstream=ATMOSPHERE,
        temperature=temperature,
        bore=0.003,
        discharge_coefficient=1.0,
    )
    assert flow == pytest.approx(-best.fun * math.pi / 4 * 0.003**2, rel=0.01)  # ideal against real at 3 bar
    assert best.x == pytest.approx(critical_pressure_ratio(gas.heat_capacity_ratio), rel=0.01)


@pytest.mark.parametrize("gas", GASES.values(), ids=lambda gas: gas.name)
@pytest.mark.parametrize("end", [0.4, 0.8, 0.9999, 1.0])
def test_the_time_to_fill_is_the_integral(gas, end):
    upstream, volume, temperature = ATMOSPHERE + LARGEST_PRESSURE, 3.4e-3, 293.15
    common = {"gas": gas, "upstream": upstream, "temperature": temperature, "bore": 0.003}

    def rise(_, pressure):
        flow = nozzle_mass_flow(downstream=pressure[0], discharge_coefficient=0.8, **common)
        return [flow * 8.314462618 * temperature / (gas.molar_mass * volume)]

    def reached(_, pressure):
        # the very end, where the flow dies away with a square root, is approached from below: 0.1 % of the time is left
        return pressure[0] - min(end, 0.999999) * upstream

    reached.terminal = True
    solved = solve_ivp(rise, (0.0, 60.0), [ATMOSPHERE], events=reached, rtol=1e-9, atol=1e-3, max_step=0.05)
    time = fill_time(volume=volume, start=ATMOSPHERE, end=end * upstream, discharge_coefficient=0.8, **common)
    assert time == pytest.approx(solved.t_events[0][0], rel=2e-3 if end == 1.0 else 1e-5)


def test_a_room_is_flushed_as_a_stirred_tank():
    # brute force: a room of 10 m3 in a thousand puffs, each mixed in before the next
    room, puffs, let_go = 10.0, 100_000, 0.693
    oxygen = 0.209
    for _ in range(puffs):
        oxygen *= 1 - let_go / puffs / room
    needed = smallest_room(NITROGEN, let_go)
    assert needed is not None
    assert 0.209 * math.exp(-let_go / needed) == pytest.approx(0.195, rel=1e-9)
    assert (needed > room) == (oxygen < 0.195)
    assert smallest_room(AIR, 1.0) is None
