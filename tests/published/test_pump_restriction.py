"""Restrictions put into an EPANET network and found again; the pinch against ISO 5167 and Borda and Carnot.

EPANET solves pump, tube and a known minor loss (or a known narrower tube, or a slower pump) with its own code. The
flow it finds is posted as a pump-out; loss, bore or speed must come back.
"""

import math
from dataclasses import replace
from pathlib import Path

import fluids
import pytest
import wntr.epanet.toolkit
from fluids.fittings import contraction_sharp, diffuser_sharp
from fluids.flow_meter import C_Reader_Harris_Gallagher, discharge_coefficient_to_K
from wntr.epanet.util import EN

from service.calculations.pinch import pinch_bore, pinch_loss
from service.calculations.pump import Pump
from service.calculations.pump_curve import CurvePoint, read_curve
from service.calculations.pump_out import PumpOut
from service.calculations.pump_point import operating_flow
from service.calculations.pump_restriction import PumpRestriction, TubeOffPumpOut, find_restriction
from service.calculations.pump_tube import Tube, TubeSection, settle_tube
from service.calculations.water import density, dynamic_viscosity

FOOT = 0.3048
GALLON_AN_HOUR = 3.785411784e-3 / 3600.0
DAY = 86400.0
EPANET_VISCOSITY = 1.1e-5 * FOOT**2
"""What EPANET multiplies its viscosity option by: 1.1e-5 ft2/s (EPANET source, VISCOS)."""
KINEMATIC = dynamic_viscosity(293.15) / density(293.15)

# an invented pump: (lift [ft], flow [gal/h])
CURVE = tuple(
    CurvePoint(lift=lift * FOOT, flow=flow * GALLON_AN_HOUR)
    for lift, flow in ((0, 80.0), (5, 65.0), (10, 45.0), (15, 20.0), (18, 0.0))
)
TUBE = Tube(bore=0.009525, length=8.5, elbows=0, check_valve=True, roughness=1.5e-6, check_valve_loss_coefficient=2.0)
LIFT = 1.8

# EPANET's gravity is 32.2 ft/s2, ours 9.80665 m/s2: 0.08 % of any velocity head. The rest is how a head of
# a few per cent of the whole hangs on the flow.
AGREE = 5e-3


def epanet(
    folder: Path,
    *,
    lift: float = LIFT,
    length: float = 8.5,
    bore: float = 0.009525,
    loss: float = 2.0,
    speed: float = 1,
) -> float:
    """Flow [m3/s] of the pump through the tube, by EPANET."""
    points = "\n".join(f"C {point.flow * DAY:.12g} {point.lift:.12g}" for point in CURVE[::-1])
    network = folder / "pump.inp"
    network.write_text(
        f"[JUNCTIONS]\nJ 0\n[RESERVOIRS]\nTANK 0\nEND {lift:.12g}\n"
        f"[PIPES]\nTUBE J END {length:.12g} {bore * 1000:.12g} 0.0015 {loss:.12g} OPEN\n"
        f"[PUMPS]\nPUMP TANK J HEAD C SPEED {speed}\n[CURVES]\n{points}\n"
        f"[OPTIONS]\nUNITS CMD\nHEADLOSS D-W\nVISCOSITY {KINEMATIC / EPANET_VISCOSITY:.12g}\n"
        "TRIALS 1000\nACCURACY 1e-8\n[TIMES]\nDURATION 0\n[REPORT]\nSTATUS NO\n[END]\n"
    )
    engine = wntr.epanet.toolkit.ENepanet()
    engine.ENopen(str(network), str(folder / "pump.rpt"), str(folder / "pump.bin"))
    try:
        engine.ENopenH()
        engine.ENinitH(0)
        engine.ENrunH()
        return float(engine.ENgetlinkvalue(engine.ENgetlinkindex("TUBE"), EN.FLOW)) / DAY
    finally:
        engine.ENclose()


def timed(flow: float) -> PumpOut:
    """A sharp pump-out of that flow: a litre, caught at the tube's end, right to a thousandth."""
    return PumpOut(
        volume=1e-3,
        time=1e-3 / flow,
        measured_at="tube-end",
        volume_uncertainty=1e-6,
        time_uncertainty=1e-3 / flow / 1e3,
    )


def found(flow: float, tube_off: TubeOffPumpOut | None = None) -> PumpRestriction:
    """What our own calculation makes of that flow."""
    return find_restriction(
        pump_out=timed(flow),
        lift=LIFT,
        tube=TUBE,
        pump=Pump(curve=CURVE),
        tube_off_pump_out=tube_off,
        water_temperature=293.15,
    ).results


@pytest.mark.parametrize("loss", [60.0, 200.0, 1000.0, 5000.0, 40000.0])
def test_a_known_loss_is_found_again(tmp_path: Path, loss: float) -> None:
    flow = epanet(tmp_path, loss=2.0 + loss)
    results = found(flow)
    assert results.tube_velocity_heads == pytest.approx(loss, rel=AGREE)
    assert results.cause == "cannot-tell"
    assert results.least_restriction_head is not None
    # and the pinch named is one of that loss
    assert results.equivalent_pinch_bore is not None
    share = (results.equivalent_pinch_bore / TUBE.bore) ** 2
    assert pinch_loss(share) / share**2 == pytest.approx(loss, rel=AGREE)


@pytest.mark.parametrize("bore", [0.0085, 0.0075, 0.006, 0.0045, 0.003])
def test_a_tube_fouled_to_a_known_bore_is_found_again(tmp_path: Path, bore: float) -> None:
    results = found(epanet(tmp_path, bore=bore))
    assert results.equivalent_tube_bore == pytest.approx(bore, rel=AGREE)
    assert results.narrowest_tube_bore < bore * (1 + AGREE)
    assert results.widest_tube_bore > bore * (1 - AGREE)


@pytest.mark.parametrize("speed", [0.95, 0.85, 0.75, 0.65])
def test_a_pump_at_a_known_speed_is_found_again(tmp_path: Path, speed: float) -> None:
    # EPANET's own speed setting follows the affinity laws
    results = found(epanet(tmp_path, speed=speed))
    assert results.equivalent_speed_ratio == pytest.approx(speed, rel=AGREE)
    assert results.cause == "cannot-tell"


@pytest.mark.parametrize(("speed", "loss"), [(1.0, 500.0), (0.9, 500.0), (0.8, 100.0), (0.8, 0.0), (1.0, 0.0)])
def test_with_the_pump_measured_alone_both_are_told_apart(tmp_path: Path, speed: float, loss: float) -> None:
    # a metre of wide pipe up to 0.3 m stands for the tube taken off
    alone = epanet(tmp_path, lift=0.3, length=1.0, bore=0.05, loss=0.0, speed=speed)
    one = timed(alone)
    tube_off = TubeOffPumpOut(
        volume=one.volume,
        time=one.time,
        lift=0.3,
        inflow=0.0,
        volume_uncertainty=one.volume_uncertainty,
        time_uncertainty=one.time_uncertainty,
    )
    results = found(epanet(tmp_path, speed=speed, loss=2.0 + loss), tube_off)
    assert results.measured_speed_ratio == pytest.approx(speed, rel=AGREE)
    expected = {
        (True, True): "restriction-and-worn-pump",
        (False, True): "restriction",
        (True, False): "worn-pump",
        (False, False): "none-shown",
    }[speed < 1.0, loss > 0.0]
    assert results.cause == expected
    if loss:
        # the loss is what is left of two heads: their errors add
        assert results.tube_velocity_heads == pytest.approx(loss, rel=0.03)


def test_an_untouched_installation_shows_nothing(tmp_path: Path) -> None:
    results = found(epanet(tmp_path))
    assert results.cause == "none-shown"
    assert results.flow_over_expected == pytest.approx(1.0, rel=1e-3)
    assert results.missing_head == pytest.approx(0.0, abs=0.005 * LIFT)


@pytest.mark.parametrize("share", [0.2, 0.35, 0.5, 0.65])
@pytest.mark.parametrize("reynolds", [1e4, 1e5])
def test_the_pinch_takes_what_an_orifice_plate_of_iso_5167_takes(share: float, reynolds: float) -> None:
    bore = share * TUBE.bore
    plate = discharge_coefficient_to_K(
        D=TUBE.bore,
        Do=bore,
        C=C_Reader_Harris_Gallagher(
            D=TUBE.bore,
            Do=bore,
            rho=998.2,
            mu=1.0016e-3,
            m=reynolds * math.pi / 4 * TUBE.bore * 1.0016e-3,
            taps="corner",
        ),
    )
    # two independent correlations of measurements, the plate's for pipes of 50 mm and up: 20 % of the loss, which is
    # less than 5 % of the bore
    assert pinch_loss(share**2) / share**4 == pytest.approx(plate, rel=0.2)


@pytest.mark.parametrize("share", [0.1, 0.3, 0.5, 0.7, 0.9])
def test_a_short_pinch_takes_more_than_contraction_and_expansion_of_a_long_one(share: float) -> None:
    # a long pinch is a sudden contraction and Borda and Carnot's expansion, both by fluids on the pinch's bore
    long_pinch = contraction_sharp(TUBE.bore, share * TUBE.bore) + diffuser_sharp(share * TUBE.bore, TUBE.bore)
    assert 1.3 * long_pinch < pinch_loss(share**2) < 2.6 * long_pinch


def test_a_hole_in_a_wide_wall_is_the_textbooks_jet() -> None:
    # Idelchik prints 2.9 for an orifice in a large wall; by the vena contracta, 1/0.61^2 = 2.69 for the jet's own
    # velocity head and a little for what the contraction takes
    assert pinch_loss(0.0) == pytest.approx(2.9, abs=0.05)


@pytest.mark.parametrize("bore", [0.0005, 0.002, 0.004, 0.007, 0.0094])
@pytest.mark.parametrize("flow", [1e-6, 2e-5, 1e-4])
def test_the_pinchs_bore_is_the_inverse_of_its_loss(bore: float, flow: float) -> None:
    # forward with fluids: dP = K rho v^2 / 2, v in the pinch
    speed = flow / (math.pi / 4 * bore**2)
    head = fluids.head_from_P(fluids.dP_from_K(pinch_loss((bore / TUBE.bore) ** 2), rho=1000.0, V=speed), 1000.0)
    assert pinch_bore(head=head, flow=flow, tube_bore=TUBE.bore) == pytest.approx(bore, rel=1e-6)


def test_the_range_holds_the_truth_whatever_the_readings_are_out_by(tmp_path: Path) -> None:
    flow = epanet(tmp_path, loss=2.0 + 800.0)
    for volume_off in (-0.05, 0.0, 0.05):
        for time_off in (-2.0, 0.0, 2.0):
            read = PumpOut(
                volume=1e-3 * (1 + volume_off),
                time=1e-3 / flow + time_off,
                measured_at="tube-end",
                volume_uncertainty=0.055e-3,
                time_uncertainty=2.0,
            )
            results = find_restriction(
                pump_out=read, lift=LIFT, tube=TUBE, pump=Pump(curve=CURVE), water_temperature=293.15
            ).results
            assert results.most_flow is not None
            assert results.least_flow <= flow <= results.most_flow
            assert results.least_restriction_head is not None
            assert results.most_restriction_head is not None
            velocity_head = (flow / (math.pi / 4 * TUBE.bore**2)) ** 2 / (2 * 9.80665)
            assert results.least_restriction_head <= 800.0 * velocity_head * (1 + AGREE)
            assert results.most_restriction_head >= 800.0 * velocity_head * (1 - AGREE)


def test_a_tube_that_fills_first_is_bounded_by_stepping_through_the_fill() -> None:
    # without a check valve: fill the empty tube step by step, the riser first, each step at the operating flow of the
    # part that is full (which test_pump_run holds to EPANET); then run steady. The mean flow of the whole is above the
    # steady one, and the steady one must lie in the range.
    open_tube = replace(TUBE, check_valve=False)
    run, _ = settle_tube(open_tube, 293.15)
    curve = read_curve(CURVE)
    area, steps, filling = math.pi / 4 * TUBE.bore**2, 400, 0.0
    for step in range(steps):
        full = (step + 0.5) / steps * TUBE.length
        part = replace(run, sections=(replace(run.sections[0], length=full),))
        rate = operating_flow(curve, part, min(full, LIFT))
        filling += area * TUBE.length / steps / rate
    steady = operating_flow(curve, run, LIFT)
    for volume in (0.8e-3, 1.5e-3, 4e-3):
        time = filling + (volume - area * TUBE.length) / steady
        read = PumpOut(
            volume=volume, time=time, measured_at="tank-while-running", volume_uncertainty=0.0, time_uncertainty=0.0
        )
        results = find_restriction(
            pump_out=read, lift=LIFT, tube=open_tube, pump=Pump(curve=CURVE), water_temperature=293.15
        ).results
        assert results.flow > steady
        assert results.least_flow <= steady
        assert results.least_flow > 0.5 * steady
        assert results.cause == "none-shown"


def test_a_tube_of_two_bores_fouled_by_one_film_takes_the_head_found() -> None:
    # every section with the same film on its wall, run afresh: the flow is the one that was timed
    tube = replace(TUBE, further_sections=(TubeSection(length=6.0, bore=1.3 * TUBE.bore, elbows=0),))
    timed = PumpOut(volume=1e-3, time=60.0, measured_at="tube-end", volume_uncertainty=0.0, time_uncertainty=0.0)
    results = find_restriction(
        pump_out=timed, lift=LIFT, tube=tube, pump=Pump(curve=CURVE), water_temperature=293.15
    ).results
    assert results.equivalent_tube_bore is not None
    film = TUBE.bore - results.equivalent_tube_bore
    assert film > 0.0
    run, _ = settle_tube(tube, 293.15)
    sections = tuple(replace(section, bore=section.bore - film) for section in run.sections)
    flow = operating_flow(read_curve(CURVE), replace(run, sections=sections), LIFT)
    assert flow == pytest.approx(results.flow, rel=1e-9)
