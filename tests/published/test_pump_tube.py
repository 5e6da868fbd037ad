"""Losses at changes of bore against `fluids`; tubes of several bores against the EPANET engine, pipes in series."""

from dataclasses import replace
from pathlib import Path

import fluids
import pytest

from service.calculations.pump import Pump, PumpRun
from service.calculations.pump_curve import CurvePoint
from service.calculations.pump_run import run_pump
from service.calculations.pump_tube import Tube, TubeSection, change_of_bore
from service.calculations.water import density, dynamic_viscosity
from tests.published.epanet import curve_lines, flows

GALLON_AN_HOUR = 3.785411784e-3 / 3600.0
TEMPERATURE = 293.15
VISCOSITY = dynamic_viscosity(TEMPERATURE) / density(TEMPERATURE)

BORES = (0.004, 0.00635, 0.009525, 0.0127, 0.019)
PAIRS = [(before, after) for before in BORES for after in BORES if before != after]

# an invented pump: (lift [m], flow [gal/h])
CURVE = tuple(
    CurvePoint(lift=lift, flow=flow * GALLON_AN_HOUR)
    for lift, flow in ((0.0, 80.0), (1.5, 65.0), (3.0, 45.0), (4.5, 20.0), (5.5, 0.0))
)

ROUGHNESS = 1.5e-6
FIRST = {"elbows": 2, "check_valve": True, "roughness": ROUGHNESS, "check_valve_cracking_head": 0.0}
COEFFICIENTS = {"elbow_loss_coefficient": 0.9, "check_valve_loss_coefficient": 2.5}

# bore [m] and length [m] of each section
SERIES = (
    ((0.009525, 4.0), (0.00635, 12.0)),
    ((0.00635, 12.0), (0.009525, 4.0)),
    ((0.012, 3.0), (0.006, 2.0), (0.012, 20.0)),
    ((0.006, 1.0), (0.012, 40.0), (0.008, 5.0), (0.004, 0.6)),
    ((0.019, 30.0), (0.019, 30.0), (0.0043, 6.0)),
    ((0.004, 25.0), (0.003, 4.0)),
)
LIFTS = (0.0, 1.8, 4.9)

# the acceleration of gravity is 32.2 ft/s2 there and 9.80665 m/s2 here: 0.08 % in head
AGREE = 1e-3


def tube_of(bores: tuple[tuple[float, float], ...], elbows: int = 1) -> Tube:
    """A tube with fittings everywhere."""
    (bore, length), *others = bores
    sections = tuple(TubeSection(bore=b, length=a, elbows=elbows, roughness=ROUGHNESS) for b, a in others)
    return Tube(bore=bore, length=length, further_sections=sections, **FIRST, **COEFFICIENTS)  # type: ignore[arg-type]


def run(tube: Tube, lift: float, inflow: float = 1e-6) -> PumpRun:
    """Our own results."""
    pump = Pump(curve=CURVE)
    return run_pump(inflow=inflow, lift=lift, tube=tube, pump=pump, water_temperature=TEMPERATURE).results


def epanet(folder: Path, tube: Tube, lift: float) -> float:
    """Flow [m3/s] by EPANET: one pipe a section, each with the losses counted on its own velocity."""
    sections = [(tube.bore, tube.length, 0.9 * (tube.elbows or 0) + 2.5)]
    for section in tube.further_sections:
        assert section.bore is not None
        before = sections[-1][0]
        # Crane and Borda-Carnot by fluids, on the narrower bore; EPANET takes them on the pipe they are given to
        if section.bore < before:
            change = fluids.fittings.contraction_sharp(Di1=before, Di2=section.bore, method="Crane")
        else:
            change = fluids.fittings.change_K_basis(
                K1=fluids.fittings.diffuser_sharp(Di1=before, Di2=section.bore), D1=before, D2=section.bore
            )
        sections.append((section.bore, section.length, 0.9 * (section.elbows or 0) + change))
    nodes = [f"J{index}" for index in range(len(sections))] + ["END"]
    pipes = "\n".join(
        f"P{index} {nodes[index]} {nodes[index + 1]} {length:.12g} {bore * 1000:.12g} {ROUGHNESS * 1000:.12g} "
        f"{losses:.12g} OPEN"
        for index, (bore, length, losses) in enumerate(sections)
    )
    junctions = "\n".join(f"{node} 0" for node in nodes[:-1])
    network = (
        f"[JUNCTIONS]\n{junctions}\n[RESERVOIRS]\nTANK 0\nEND {lift:.12g}\n[PIPES]\n{pipes}\n"
        f"[PUMPS]\nPUMP TANK J0 HEAD C\n[CURVES]\n{curve_lines('C', CURVE)}"
    )
    return flows(folder, network, VISCOSITY, "P0")[0]


@pytest.mark.parametrize("lift", LIFTS)
@pytest.mark.parametrize("bores", SERIES)
def test_the_flow_through_several_bores_is_epanets(
    tmp_path: Path, bores: tuple[tuple[float, float], ...], lift: float
) -> None:
    tube = tube_of(bores)
    assert run(tube, lift).operating_flow == pytest.approx(epanet(tmp_path, tube, lift), rel=AGREE)


def test_those_cases_cover_laminar_transitional_and_turbulent_flow_even_in_one_tube() -> None:
    numbers = [[row.reynolds for row in run(tube_of(bores), lift).sections] for bores in SERIES for lift in LIFTS]
    kinds = [{"laminar" if n < 2000 else "turbulent" if n > 4000 else "between" for n in row} for row in numbers]
    assert {"laminar", "between"} in kinds
    assert {"laminar", "turbulent"} in kinds
    assert {"between", "turbulent"} in kinds


@pytest.mark.parametrize("bores", SERIES)
def test_at_the_largest_lift_and_with_the_longest_tube_epanet_finds_inflow_times_margin(
    tmp_path: Path, bores: tuple[tuple[float, float], ...]
) -> None:
    tube, inflow = tube_of(bores), 3e-6
    results = run(tube, 0.5, inflow)
    assert results.largest_lift is not None
    assert epanet(tmp_path, tube, results.largest_lift) == pytest.approx(1.5 * inflow, rel=AGREE)
    assert results.longest_tube is not None
    times = results.longest_tube / sum(row.length for row in results.sections)
    sections = tuple(replace(section, length=section.length * times) for section in tube.further_sections)
    longest = replace(tube, length=tube.length * times, further_sections=sections)
    assert epanet(tmp_path, longest, 0.5) == pytest.approx(1.5 * inflow, rel=AGREE)


@pytest.mark.parametrize(("before", "after"), [pair for pair in PAIRS if pair[0] < pair[1]])
def test_a_wider_bore_loses_what_borda_and_carnot_say(before: float, after: float) -> None:
    # fluids counts on the velocity in the narrow bore; ours on that in the section that begins
    on_narrow = fluids.fittings.diffuser_sharp(Di1=before, Di2=after)
    expected = fluids.fittings.change_K_basis(K1=on_narrow, D1=before, D2=after)
    assert change_of_bore(before, after) == pytest.approx(expected, rel=1e-12)


@pytest.mark.parametrize(("before", "after"), [pair for pair in PAIRS if pair[0] > pair[1]])
def test_a_narrower_bore_loses_what_crane_says_and_another_handbook_little_more(before: float, after: float) -> None:
    crane = fluids.fittings.contraction_sharp(Di1=before, Di2=after, method="Crane")
    assert change_of_bore(before, after) == pytest.approx(crane, rel=1e-9)
    rennels = fluids.fittings.contraction_sharp(Di1=before, Di2=after, method="Rennels")
    assert crane < rennels < crane + 0.125


def test_what_is_left_out_at_the_open_end_is_small() -> None:
    """A narrower end carries away more velocity head than the leaflet's tube did: less than 1 % of the flow here."""
    results = run(tube_of(SERIES[0]), 1.8)
    first, last = results.sections[0], results.sections[-1]
    left_out = (last.velocity**2 - first.velocity**2) / (2 * 9.80665)
    assert left_out < 40 * last.bore * last.friction_head / last.length
    without = run(tube_of(SERIES[0]), 1.8 + left_out).operating_flow
    assert without == pytest.approx(results.operating_flow, rel=0.015)
