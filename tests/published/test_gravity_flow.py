"""Flow under a pipe's own fall against handbooks, a plumbing code, `fluids` and the exact laminar solution."""

from math import asin, pi, sin, sqrt

import fluids
import pytest
from scipy.sparse import csr_matrix
from scipy.sparse.linalg import spsolve

from service.calculations.gravity_flow import (
    FULLEST_DEPTH,
    LARGEST_RATIO,
    full_bore_flow,
    laminar_depth,
    part_full_ratio,
    part_full_velocity_ratio,
)
from service.calculations.pipe_flow import velocity

# Chow, Open-Channel Hydraulics, geometric elements of a circular section: flow at a depth over
# full flow with constant n, three decimals (from memory; the hydraulic-elements chart of every
# sewer handbook shows the same). Tolerance: the third decimal.
PART_FULL = {0.1: 0.021, 0.2: 0.088, 0.3: 0.196, 0.4: 0.337, 0.5: 0.500, 0.6: 0.672, 0.7: 0.837, 0.8: 0.977, 0.9: 1.066}


@pytest.mark.parametrize(("depth", "ratio"), PART_FULL.items())
def test_part_full_ratios_of_the_handbook(depth: float, ratio: float) -> None:
    assert part_full_ratio(depth) == pytest.approx(ratio, abs=6e-4)


def test_most_flow_is_1_076_of_full_at_0_938_of_the_bore() -> None:
    # the same chart
    assert pytest.approx(0.938, abs=5e-4) == FULLEST_DEPTH
    assert pytest.approx(1.076, abs=5e-4) == LARGEST_RATIO
    assert part_full_ratio(FULLEST_DEPTH) == pytest.approx(LARGEST_RATIO, rel=1e-12)


@pytest.mark.parametrize("bore", [0.01, 0.0209296, 0.0525])
@pytest.mark.parametrize("pitch", [0.001, 0.0104, 0.0208, 0.1])
def test_full_bore_flow_is_manning_of_fluids_on_a_quarter_of_the_bore(bore: float, pitch: float) -> None:
    speed = fluids.V_Manning(Rh=bore / 4.0, S=pitch, n=0.011)
    flow = full_bore_flow(bore=bore, pitch_ratio=pitch, manning_coefficient=0.011)
    assert velocity(flow, bore) == pytest.approx(speed, rel=1e-12)


# The same table, mean velocity over that of the full bore (from memory, like the above): R^(2/3) ratios
PART_FULL_VELOCITY = {
    0.1: 0.401,
    0.2: 0.615,
    0.3: 0.776,
    0.4: 0.902,
    0.5: 1.000,
    0.6: 1.072,
    0.7: 1.120,
    0.8: 1.140,
    0.9: 1.124,
    1.0: 1.000,
}


@pytest.mark.parametrize(("depth", "ratio"), PART_FULL_VELOCITY.items())
def test_part_full_velocities_of_the_handbook(depth: float, ratio: float) -> None:
    assert part_full_velocity_ratio(depth) == pytest.approx(ratio, abs=6e-4)


def test_the_fastest_water_is_1_140_of_full_at_0_81_of_the_bore() -> None:
    fastest = max((part_full_velocity_ratio(step / 1000), step / 1000) for step in range(1001))
    assert fastest[0] == pytest.approx(1.140, abs=5e-4)
    assert fastest[1] == pytest.approx(0.81, abs=5e-3)


# National Standard Plumbing Code 2009, appendix K: from half-full flow and velocity to another depth
@pytest.mark.parametrize(
    ("depth", "flow", "speed", "digits"),
    [(0.25, 0.274, 0.701, 6e-4), (0.75, 1.82, 1.13, 6e-3), (1.0, 2.00, 1.00, 1e-9)],
)
def test_multipliers_of_the_national_standard_plumbing_code(
    depth: float, flow: float, speed: float, digits: float
) -> None:
    assert part_full_ratio(depth) / part_full_ratio(0.5) == pytest.approx(flow, abs=digits)
    assert part_full_velocity_ratio(depth) / part_full_velocity_ratio(0.5) == pytest.approx(speed, abs=digits)


@pytest.mark.parametrize("depth", [0.003, 0.05, 0.2, 0.5, 0.8, 0.95])
def test_part_full_flow_is_manning_of_fluids_on_its_segment(depth: float) -> None:
    bore, pitch, roughness = 0.0266446, 1 / 48, 0.011
    area = fluids.geometry.A_partial_circle(D=bore, h=depth * bore)
    wall = bore * 2.0 * asin(sqrt(depth))
    speed = fluids.V_Manning(Rh=area / wall, S=pitch, n=roughness)
    full = full_bore_flow(bore=bore, pitch_ratio=pitch, manning_coefficient=roughness)
    assert part_full_ratio(depth) * full == pytest.approx(speed * area, rel=1e-9)
    assert part_full_velocity_ratio(depth) * velocity(full, bore) == pytest.approx(speed, rel=1e-9)


def laminar_flow_of_poisson(depth: float, rows: int) -> float:
    """Laminar flow at a depth in a pipe of bore 1 over pi / 128, that of the full one.

    Solves u_xx + u_yy = -1 (that is -g S / nu) below the surface, u = 0 on the wall at its true place (Shortley and
    Weller's unequal arms), no shear on the surface.
    """
    step = depth / rows
    columns = int(0.5 / step) + 2
    cells = {
        (i, j): None
        for j in range(rows)
        for i in range(-columns, columns)
        if ((i + 0.5) * step) ** 2 + ((j + 0.5) * step - 0.5) ** 2 < 0.25
    }
    number = {cell: index for index, cell in enumerate(cells)}
    entries: list[tuple[int, int, float]] = []
    for (i, j), here in number.items():
        x, y = abs(i + 0.5) * step, (j + 0.5) * step
        half_height, half_width = sqrt(0.25 - x * x), sqrt(0.25 - (y - 0.5) ** 2)

        def arm(cell: tuple[int, int], to_wall: float) -> tuple[float, int | None]:
            return (step, number[cell]) if cell in number else (to_wall, None)

        pairs = [(arm((i - 1, j), half_width - x), arm((i + 1, j), half_width - x))]
        below = arm((i, j - 1), y - 0.5 + half_height)
        diagonal = 0.0
        if j == rows - 1:
            # the flux through the surface is nothing, and through the lower face u' over the cell's height
            weight = 1.0 / (below[0] * (step / 2.0 + below[0] / 2.0))
            diagonal += weight
            if below[1] is not None:
                entries.append((here, below[1], -weight))
        else:
            pairs.append((below, arm((i, j + 1), 0.5 + half_height - y)))
        for one, other in pairs:
            for length, neighbour in (one, other):
                weight = 2.0 / (length * (one[0] + other[0]))
                diagonal += weight
                if neighbour is not None:
                    entries.append((here, neighbour, -weight))
        entries.append((here, here, diagonal))
    lines, places, weights = zip(*entries, strict=True)
    speeds = spsolve(csr_matrix((weights, (lines, places))), [1.0] * len(number))
    angle = 4.0 * asin(sqrt(depth))
    return float(speeds.mean()) * (angle - sin(angle)) / 8.0 / (pi / 128.0)


@pytest.mark.parametrize(
    ("depth", "rows", "tolerance"),
    [(0.1, 24, 0.02), (0.3, 32, 0.02), (0.5, 40, 0.02), (0.7, 48, 0.02), (0.8, 56, 0.03)],
)
def test_laminar_depth_is_near_the_exact_solution(depth: float, rows: int, tolerance: float) -> None:
    found = laminar_depth(laminar_flow_of_poisson(depth, rows))
    assert found == pytest.approx(depth, rel=tolerance)


def test_the_shallowest_laminar_flow_has_62_2_for_64() -> None:
    # film theory: u = g S h^2 / 3 nu under each point of a parabola h = d (1 - x^2/a^2). Over the width the mean of
    # h^3 is 16/35 d^3 and of h is 2/3 d, so V = g S d^2 / nu x (16/35) / (3 x 2/3) = 0.22857; with d_h = 8/3 d,
    # V = 2 g S d_h^2 / (C nu) gives C = 2 x 64/9 / 0.22857 = 62.2, so that the flow is 64/62.2 of the law's
    theta = 1e-3
    depth = theta**2 / 16.0
    law = theta**7 / (432.0 * pi)
    found = laminar_depth(law * 64.0 / (2.0 * 64.0 / 9.0 / (16.0 / 35.0 / 2.0)))
    assert found == pytest.approx(depth, rel=0.01)
