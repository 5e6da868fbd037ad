"""Pump operating points against the EPANET engine, Darcy-Weisbach, curves of many points.

EPANET solves the same hydraulics with its own code: a reservoir, a pump with a curve of four or more
points (straight lines between them), a pipe, and a second reservoir at the lift.
"""

import math
from dataclasses import replace
from pathlib import Path

import fluids
import pytest

from service.calculations.pump import Pump, PumpRun
from service.calculations.pump_curve import CurvePoint
from service.calculations.pump_run import run_pump
from service.calculations.pump_tube import Tube
from service.calculations.water import density, dynamic_viscosity
from tests.published.epanet import curve_lines, flows

GALLON_AN_HOUR = 3.785411784e-3 / 3600.0
FOOT = 0.3048

Rows = tuple[tuple[float, float], ...]

# invented pumps: (lift [ft], flow [gal/h])
SMALL = ((0, 12.0), (8, 9.5), (16, 6.0), (24, 2.5), (30, 0.0))
USUAL = ((0, 80.0), (5, 65.0), (10, 45.0), (15, 20.0), (18, 0.0))
STRONG = ((0, 220.0), (10, 190.0), (25, 120.0), (35, 60.0), (42, 0.0))

# bores of tube in use, 1/4 in and thereabouts to 1/2 in
BORES = (0.006, 0.00635, 0.008, 0.009525, 0.012)


def epanet(
    folder: Path, curve: tuple[CurvePoint, ...], tube: Tube, lift: float, losses: float, kinematic: float
) -> float:
    """Flow [m3/s] through the pipe by EPANET."""
    roughness = 1000.0 * (tube.roughness or 0.0)
    network = (
        f"[JUNCTIONS]\nJ 0\n[RESERVOIRS]\nTANK 0\nEND {lift:.12g}\n"
        f"[PIPES]\nTUBE J END {tube.length:.12g} {tube.bore * 1000:.12g} {roughness:.12g} {losses} OPEN\n"
        f"[PUMPS]\nPUMP TANK J HEAD C\n[CURVES]\n{curve_lines('C', curve)}"
    )
    return flows(folder, network, kinematic, "TUBE")[0]


def points(rows: Rows) -> tuple[CurvePoint, ...]:
    """Curve points from feet and gallons an hour."""
    return tuple(CurvePoint(lift=lift * FOOT, flow=flow * GALLON_AN_HOUR) for lift, flow in rows)


def run(rows: Rows, tube: Tube, lift: float, temperature: float) -> PumpRun:
    """Our own results for the same case."""
    pump = Pump(curve=points(rows))
    return run_pump(inflow=1e-6, lift=lift, tube=tube, pump=pump, water_temperature=temperature).results


def viscosity(temperature: float) -> float:
    """Kinematic viscosity [m2/s], given to both."""
    return dynamic_viscosity(temperature) / density(temperature)


CASES = [
    (pump, bore, length, lift, roughness)
    for pump in (SMALL, USUAL, STRONG)
    for bore in BORES
    for length, lift, roughness in ((3.0, 0.0, 0.0), (8.5, 2.7, 1.5e-6), (30.0, 1.0, 1e-5), (120.0, 4.5, 1.5e-6))
]

# the two differ in the acceleration of gravity, 32.2 ft/s2 to 9.80665 m/s2: 0.08 %
AGREE = 1e-3


@pytest.mark.parametrize(("pump", "bore", "length", "lift", "roughness"), CASES)
def test_operating_flow_is_epanets(
    tmp_path: Path, pump: Rows, bore: float, length: float, lift: float, roughness: float
) -> None:
    tube = Tube(bore=bore, length=length, elbows=0, check_valve=False, roughness=roughness)
    expected = epanet(tmp_path, points(pump), tube, lift, 0.0, viscosity(293.15))
    assert run(pump, tube, lift, 293.15).operating_flow == pytest.approx(expected, rel=AGREE)


def test_those_cases_cover_laminar_transitional_and_turbulent_flow() -> None:
    numbers = [
        run(pump, Tube(bore=bore, length=length, elbows=0, check_valve=False), lift, 293.15).reynolds
        for pump, bore, length, lift, _ in CASES
    ]
    assert sum(number < 2000.0 for number in numbers) >= 10
    assert sum(2000.0 < number < 4000.0 for number in numbers) >= 8
    assert sum(number > 4000.0 for number in numbers) >= 10


@pytest.mark.parametrize("temperature", [274.15, 283.15, 313.15])
@pytest.mark.parametrize("elbows", [0, 3, 12])
@pytest.mark.parametrize("pump", [SMALL, USUAL, STRONG])
def test_operating_flow_is_epanets_with_fittings_cold_and_warm(
    tmp_path: Path, pump: Rows, elbows: int, temperature: float
) -> None:
    tube = Tube(
        bore=0.009525,
        length=15.0,
        elbows=elbows,
        check_valve=True,
        roughness=1.5e-6,
        elbow_loss_coefficient=0.9,
        check_valve_loss_coefficient=2.5,
        check_valve_cracking_head=0.0,
    )
    expected = epanet(tmp_path, points(pump), tube, 1.2, 0.9 * elbows + 2.5, viscosity(temperature))
    assert run(pump, tube, 1.2, temperature).operating_flow == pytest.approx(expected, rel=AGREE)


@pytest.mark.parametrize("margin", [1.5, 2.0, 4.0])
def test_at_the_largest_lift_and_with_the_longest_tube_epanet_finds_inflow_times_margin(
    tmp_path: Path, margin: float
) -> None:
    inflow = 4.0 * GALLON_AN_HOUR
    tube = Tube(bore=0.00635, length=12.0, elbows=0, check_valve=False, roughness=1.5e-6)
    results = run_pump(
        inflow=inflow, lift=1.5, tube=tube, pump=Pump(curve=points(USUAL)), flow_margin=margin, water_temperature=293.15
    ).results
    assert results.largest_lift is not None
    assert results.longest_tube is not None
    higher = epanet(tmp_path, points(USUAL), tube, results.largest_lift, 0.0, viscosity(293.15))
    assert higher == pytest.approx(margin * inflow, rel=AGREE)
    longer = epanet(tmp_path, points(USUAL), replace(tube, length=results.longest_tube), 1.5, 0.0, viscosity(293.15))
    assert longer == pytest.approx(margin * inflow, rel=AGREE)


@pytest.mark.parametrize("bore", [0.004, 0.006])
def test_laminar_operating_point_in_closed_form(bore: float) -> None:
    # Hagen-Poiseuille against a straight curve H = shut_off (1 - Q/most): linear, so
    # Q = (shut_off - lift) / (128 nu L / (pi g d^4) + shut_off/most)
    shut_off, most, lift, length = 2.0, 4e-6, 0.8, 20.0
    resistance = 128.0 * viscosity(288.15) * length / (math.pi * 9.80665 * bore**4)
    expected = (shut_off - lift) / (resistance + shut_off / most)
    tube = Tube(bore=bore, length=length, elbows=0, check_valve=False)
    line = (CurvePoint(lift=shut_off, flow=0.0), CurvePoint(lift=0.0, flow=most))
    results = run_pump(inflow=1e-7, lift=lift, tube=tube, pump=Pump(curve=line), water_temperature=288.15).results
    assert results.reynolds < 2000.0
    assert results.operating_flow == pytest.approx(expected, rel=1e-9)


@pytest.mark.parametrize("bore", [0.0079, 0.009525, 0.0127])
def test_heads_at_the_operating_point_are_those_of_fluids(bore: float) -> None:
    tube = Tube(bore=bore, length=10.0, elbows=4, check_valve=True)
    results = run(STRONG, tube, 1.5, 293.15)
    density_, speed = density(293.15), results.operating_flow / (math.pi / 4 * bore**2)
    assert results.velocity == pytest.approx(speed, rel=1e-12)
    assert results.reynolds == pytest.approx(fluids.Reynolds(V=speed, D=bore, nu=viscosity(293.15)), rel=1e-12)
    assert results.reynolds > 5000.0
    # Colebrook by fluids, which Swamee and Jain follow to 1.3 % above Re 5000; K of the textbook
    factor = fluids.Colebrook(results.reynolds, 1.5e-6 / bore)
    wall = fluids.dP_from_K(fluids.K_from_f(fd=factor, L=10.0, D=bore), rho=density_, V=speed)
    assert results.friction_head == pytest.approx(fluids.head_from_P(wall, density_), rel=0.013)
    fittings = fluids.dP_from_K(4 * 1.5 + 2.0, rho=density_, V=speed)
    assert results.fittings_head == pytest.approx(fluids.head_from_P(fittings, density_), rel=1e-9)
    assert results.operating_head == pytest.approx(1.5 + results.friction_head + results.fittings_head, rel=1e-12)


def test_time_to_fill_and_cycles_by_hand() -> None:
    # 1.6 gal/h into 0.3 gal between floats: 0.3/1.6 h = 675 s; 0.1 gal to the safety float: 225 s; 0.25 to
    # overflow: 562.5 s
    gallon = 3.785411784e-3
    pump = Pump(
        curve=points(USUAL),
        tank_volume_between_floats=0.3 * gallon,
        volume_to_safety_float=0.1 * gallon,
        volume_to_overflow=0.25 * gallon,
        safety_float="wired",
    )
    tube = Tube(bore=0.009525, length=8.5, elbows=3, check_valve=True)
    results = run_pump(inflow=1.6 * GALLON_AN_HOUR, lift=2.7, tube=tube, pump=pump).results
    assert results.fill_time == pytest.approx(675.0, rel=1e-9)
    assert results.time_to_safety_float == pytest.approx(225.0, rel=1e-9)
    assert results.time_to_overflow == pytest.approx(562.5, rel=1e-9)
    # water in equals water out over a cycle: duty is inflow over flow
    assert results.duty == pytest.approx(1.6 * GALLON_AN_HOUR / results.operating_flow, rel=1e-9)
