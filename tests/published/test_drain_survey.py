"""Standing water against the `fluids` library, SciPy's quadrature, and the words of the code."""

from math import acos, sqrt

import fluids.geometry
import pytest
from scipy.integrate import quad

from service.calculations.drain_profile import Station
from service.calculations.drain_survey import survey_drain
from service.calculations.drain_survey_judgement import PLASTIC_SUPPORT_SPACING
from service.calculations.pipe_water import segment_area, water_in_pipe

FOOT, INCH = 0.3048, 0.0254
BORE = 0.824 * INCH  # 3/4 in PVC Schedule 40, ASTM D1785


@pytest.mark.parametrize("share", [0.001, 0.01, 0.1, 0.3, 0.5, 0.7, 0.9, 0.99, 1.0])
def test_a_level_pipe_holds_what_a_lying_tank_does(share: float) -> None:
    lying = fluids.geometry.V_from_h(h=share * BORE, D=BORE, L=3.0, horizontal=True)
    level = water_in_pipe(bore=BORE, run=3.0, first_depth=share * BORE, last_depth=share * BORE)
    assert level.volume == pytest.approx(lying, rel=1e-9)
    assert segment_area(bore=BORE, depth=share * BORE) * 3.0 == pytest.approx(lying, rel=1e-9)


def test_a_belly_holds_the_integral_of_the_segment_along_the_run() -> None:
    """Inverts of 4, 1, 3 and 0 in at 10 ft: the pond is 2 in deep, its slopes 3 and 2 in in 10 ft.

    The integral is taken by SciPy along the run, over the area of the segment at each depth; the slope of at most 1
    in 40 makes the pipe longer than its run, and deeper square to its axis, by less than one part in a thousand.
    """

    def area(depth: float) -> float:
        radius = BORE / 2.0
        h = min(depth, BORE)
        return radius**2 * acos((radius - h) / radius) - (radius - h) * sqrt(2 * radius * h - h**2)

    down, _ = quad(lambda x: area(2 * INCH * x / (20 / 3 * FOOT)), 0.0, 20 / 3 * FOOT, points=[20 / 3 * FOOT * 0.412])
    up, _ = quad(lambda x: area(2 * INCH * x / (10 * FOOT)), 0.0, 10 * FOOT, points=[10 * FOOT * 0.412])
    line = tuple(Station(distance=10 * FOOT * i, invert=h * INCH) for i, h in enumerate((4, 1, 3, 0)))
    survey = survey_drain(pipe_size="3/4", stations=line).results
    assert survey.standing_volume == pytest.approx(down + up, rel=1e-3)
    assert [pond.volume for pond in survey.ponds] == [survey.standing_volume]


def test_the_code_asks_for_an_eighth_in_a_foot_and_calls_it_one_percent() -> None:
    # IMC 2021 307.2: "not less than one-eighth unit vertical in 12 units horizontal (1-percent slope)"
    def judged(fall_inches: float) -> str:
        line = (Station(distance=0.0, invert=fall_inches * INCH), Station(distance=4 * FOOT, invert=0.0))
        return survey_drain(pipe_size="3/4", stations=line).results.segments[0].judgement

    assert [judged(fall) for fall in (1.0, 0.96, 0.95, 0.5, 0.48, 0.479, 0.0, -0.01)] == [
        "usual",  # 1/4 in per ft, common practice, no source
        "usual",  # two percent
        "minimum",
        "minimum",
        "minimum",
        "below-minimum",
        "flat",
        "back-fall",
    ]


def test_plastic_pipe_is_hung_every_four_feet() -> None:
    # IMC 2021 Table 305.4, PVC: 4 ft horizontally
    assert pytest.approx(4 * FOOT) == PLASTIC_SUPPORT_SPACING
