"""Pumps in parallel against the EPANET engine, and two of them by hand."""

from pathlib import Path

import pytest

from service.calculations.pump import Pump
from service.calculations.pump_compare import NamedPump, compare_pumps
from service.calculations.pump_curve import CurvePoint
from service.calculations.pump_run import run_pump
from service.calculations.pump_tube import Tube
from service.calculations.water import density, dynamic_viscosity
from tests.published.epanet import curve_lines, flows

GALLON_AN_HOUR = 3.785411784e-3 / 3600.0
TEMPERATURE = 293.15
VISCOSITY = dynamic_viscosity(TEMPERATURE) / density(TEMPERATURE)
ROUGHNESS = 1.5e-6
CHECK_VALVE = 2.5

Curve = tuple[CurvePoint, ...]


def curve_of(*rows: tuple[float, float]) -> Curve:
    """Curve points from metres and gallons an hour; invented pumps."""
    return tuple(CurvePoint(lift=lift, flow=flow * GALLON_AN_HOUR) for lift, flow in rows)


USUAL = curve_of((0.0, 80.0), (1.5, 65.0), (3.0, 45.0), (4.5, 20.0), (5.5, 0.0))
STRONG = curve_of((0.0, 220.0), (3.0, 190.0), (7.5, 120.0), (10.5, 60.0), (12.8, 0.0))
LOW = curve_of((0.0, 60.0), (1.0, 45.0), (2.0, 25.0), (3.2, 0.0))

# the acceleration of gravity is 32.2 ft/s2 there and 9.80665 m/s2 here
AGREE = 1e-3


def epanet(folder: Path, curves: tuple[Curve, ...], bore: float, length: float, lift: float) -> tuple[float, ...]:
    """Flow of each pump [m3/s]: a pump, a throttle for its check valve, then one pipe for all.

    EPANET's own check on pumps keeps water from running back through them.
    """
    numbers = range(len(curves))
    junctions = "\n".join(f"J{n} 0" for n in numbers)
    pumps = "\n".join(f"PUMP{n} TANK J{n} HEAD C{n}" for n in numbers)
    valves = "\n".join(f"V{n} J{n} MEET {bore * 1000:.12g} TCV {CHECK_VALVE} 0" for n in numbers)
    lines = "\n".join(curve_lines(f"C{n}", curve) for n, curve in enumerate(curves))
    network = (
        f"[JUNCTIONS]\n{junctions}\nMEET 0\n[RESERVOIRS]\nTANK 0\nEND {lift:.12g}\n"
        f"[PIPES]\nTUBE MEET END {length:.12g} {bore * 1000:.12g} {ROUGHNESS * 1000:.12g} 3.6 OPEN\n"
        f"[PUMPS]\n{pumps}\n[VALVES]\n{valves}\n[CURVES]\n{lines}"
    )
    return flows(folder, network, VISCOSITY, *(f"PUMP{n}" for n in numbers))


def tube_of(bore: float, length: float) -> Tube:
    return Tube(
        bore=bore,
        length=length,
        elbows=4,
        check_valve=True,
        roughness=ROUGHNESS,
        elbow_loss_coefficient=0.9,
        check_valve_loss_coefficient=CHECK_VALVE,
        check_valve_cracking_head=0.0,
    )


@pytest.mark.parametrize("curves", [(USUAL, USUAL), (USUAL, STRONG), (STRONG, STRONG, USUAL), (LOW, USUAL)])
@pytest.mark.parametrize(("bore", "length", "lift"), [(0.009525, 9.0, 1.5), (0.006, 20.0, 0.0), (0.0127, 30.0, 2.8)])
def test_pumps_in_parallel_move_what_epanet_says(
    tmp_path: Path, curves: tuple[Curve, ...], bore: float, length: float, lift: float
) -> None:
    pumps = tuple(NamedPump(name=str(index), curve=curve) for index, curve in enumerate(curves))
    results = compare_pumps(
        inflow=1e-6,
        lift=lift,
        tube=tube_of(bore, length),
        pumps=pumps,
        run_together="parallel",
        water_temperature=TEMPERATURE,
    ).results
    expected = epanet(tmp_path, curves, bore, length, lift)
    assert results.together is not None
    assert results.together.operating_flow == pytest.approx(sum(expected), rel=AGREE)
    for row in results.pumps:
        # EPANET leaves a pump held shut with a millionth of its flow
        assert row.flow_together == pytest.approx(expected[row.index], rel=3 * AGREE, abs=1e-10)
        others = (*curves[: row.index], *curves[row.index + 1 :])
        assert row.flow_without == pytest.approx(sum(epanet(tmp_path, others, bore, length, lift)), rel=AGREE)


def test_two_straight_curves_on_a_laminar_tube_by_hand() -> None:
    # each H = 2 - q/2e-6 m, lift 0.8 m, Hagen-Poiseuille R = 128 nu L / (pi g d^4):
    # one: q = 1.2 / (5e5 + R); two alike: Q = 1.2 / (5e5 / 2 + R)
    line = (CurvePoint(lift=2.0, flow=0.0), CurvePoint(lift=0.0, flow=4e-6))
    bore, length = 0.005, 20.0
    resistance = 128.0 * VISCOSITY * length / (3.141592653589793 * 9.80665 * bore**4)
    tube = Tube(bore=bore, length=length, elbows=0, check_valve=False)
    alone = run_pump(inflow=1e-7, lift=0.8, tube=tube, pump=Pump(curve=line), water_temperature=TEMPERATURE).results
    assert alone.operating_flow == pytest.approx(1.2 / (5e5 + resistance), rel=1e-9)
    pumps = (NamedPump(name="one", curve=line), NamedPump(name="two", curve=line))
    both = compare_pumps(
        inflow=1e-7, lift=0.8, tube=tube, pumps=pumps, run_together="parallel", water_temperature=TEMPERATURE
    ).results.together
    assert both is not None
    assert both.operating_flow == pytest.approx(1.2 / (2.5e5 + resistance), rel=1e-9)
    assert both.gain_ratio == pytest.approx((5e5 + resistance) / (2.5e5 + resistance), rel=1e-9)
    assert both.flow_one_failed == pytest.approx(alone.operating_flow, rel=1e-9)
