"""Volume and level of a pan: against numerical integration of its sections, and each against the other."""

import math
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import dblquad, quad

from service.calculations.overflow_protection import PAN_LIMITS, AuxiliaryPan, WaterPan
from service.calculations.pan_shape import is_plain, lowering, pan_level, pan_volume, room_between

LENGTH, WIDTH, DEPTH = 0.8, 0.5, 0.06


def rectangle(scale: float, fall: float | None = None) -> WaterPan:
    """A rectangular pan whose rim is its bottom, scaled."""
    return WaterPan(area=LENGTH * WIDTH, depth=DEPTH, rim_area=LENGTH * WIDTH * scale * scale, fall=fall)


@pytest.mark.parametrize("scale", [0.0, 0.7, 1.0, 1.05, 1.5])
@pytest.mark.parametrize("level", [0.001, 0.02, 0.045, 0.06])
def test_leaning_walls_are_the_integral_of_their_rectangles(scale: float, level: float) -> None:
    def section(z: float) -> float:
        grown = 1.0 + (scale - 1.0) * z / DEPTH
        return (LENGTH * grown) * (WIDTH * grown)

    expected, _ = quad(section, 0.0, level)
    assert pan_volume(rectangle(scale), level) == pytest.approx(expected, rel=1e-9)


@pytest.mark.parametrize("fall", [0.005, 0.02, 0.06, 0.1])
@pytest.mark.parametrize("level", [0.001, 0.02, 0.045, 0.06])
def test_a_falling_bottom_is_the_integral_of_the_depth_over_it(fall: float, level: float) -> None:
    # depth of the water at a place = level - height of the bottom there, nothing where that is dry
    expected, _ = quad(
        lambda x: WIDTH * max(level - fall * x / LENGTH, 0.0), 0.0, LENGTH, points=[min(level / fall, 1.0) * LENGTH]
    )
    assert pan_volume(rectangle(1.0, fall), level) == pytest.approx(expected, rel=1e-9)


@pytest.mark.parametrize(("scale", "fall"), [(1.3, 0.02), (0.8, 0.05), (1.1, 0.09)])
@pytest.mark.parametrize("level", [0.004, 0.03, 0.06])
def test_both_together_are_the_integral_of_the_sections(scale: float, fall: float, level: float) -> None:
    def section(z: float) -> float:
        grown = 1.0 + (scale - 1.0) * z / DEPTH
        return (LENGTH * grown) * (WIDTH * grown) * min(z / fall, 1.0)

    expected, _ = quad(section, 0.0, level, points=[min(fall, level)])
    assert pan_volume(rectangle(scale, fall), level) == pytest.approx(expected, rel=1e-9)


def test_a_rectangle_whose_four_walls_lean_alike_is_near_enough_a_frustum() -> None:
    # the sections of such a pan are not of one shape; integrated as it is, it differs by less than 0.1 %
    lean = 0.5  # 27 degrees
    sides = (LENGTH + 2 * lean * DEPTH, WIDTH + 2 * lean * DEPTH)
    real, _ = quad(lambda z: (LENGTH + 2 * lean * z) * (WIDTH + 2 * lean * z), 0.0, DEPTH)
    pan = WaterPan(area=LENGTH * WIDTH, depth=DEPTH, rim_area=sides[0] * sides[1])
    assert pan_volume(pan, DEPTH) == pytest.approx(real, rel=1e-3)


def test_a_round_pan_is_a_frustum_too() -> None:
    # radius 200 mm at the bottom, 240 at the rim; integrated over rings
    real, _ = dblquad(lambda r, z: 2 * math.pi * r, 0.0, 0.05, 0.0, lambda z: 0.2 + 0.04 * z / 0.05)
    pan = WaterPan(area=math.pi * 0.2**2, depth=0.05, rim_area=math.pi * 0.24**2)
    assert pan_volume(pan, 0.05) == pytest.approx(real, rel=1e-9)


PANS = st.builds(
    WaterPan,
    area=st.floats(0.01, 50.0),
    depth=st.floats(PAN_LIMITS["depth"].low, PAN_LIMITS["depth"].high),
    rim_area=st.none() | st.floats(0.0, 50.0),
    fall=st.none() | st.floats(0.0, 0.5),
)


@given(PANS, st.floats(0.0, 1.0))
def test_level_and_volume_are_each_others_inverse(pan: WaterPan, share: float) -> None:
    full = pan_volume(pan, pan.depth)
    volume = share * full
    level = pan_level(pan, volume)
    assert 0.0 <= level <= pan.depth
    assert pan_volume(pan, level) == pytest.approx(volume, rel=1e-9, abs=1e-14 * full)


@given(PANS, st.floats(0.0, 1.0), st.floats(0.0, 1.0))
def test_more_level_is_more_water(pan: WaterPan, one: float, other: float) -> None:
    low, high = sorted((one * pan.depth, other * pan.depth))
    assert pan_volume(pan, low) <= pan_volume(pan, high) * (1 + 1e-12)
    assert room_between(pan, low, high) >= 0.0
    assert room_between(pan, high, low) == 0.0


@given(PANS)
def test_an_upright_level_pan_is_area_times_depth(pan: WaterPan) -> None:
    plain = replace(pan, rim_area=pan.area, fall=0.0)
    assert is_plain(plain)
    assert pan_volume(plain, plain.depth) == plain.area * plain.depth
    # and the two shapes meet it where they become upright and level
    nearly = replace(pan, rim_area=pan.area * (1 + 1e-9), fall=1e-9)
    assert pan_volume(nearly, pan.depth) == pytest.approx(pan.area * pan.depth, rel=1e-5)


def test_beyond_the_rim_the_level_is_the_rim() -> None:
    pan = rectangle(1.2, 0.02)
    assert pan_level(pan, 10.0) == DEPTH
    assert pan_level(pan, 0.0) == 0.0


def test_how_far_to_lower_a_cut_out() -> None:
    # half a litre more above 50 mm of a wedge: by hand 0.4 x (z - 0.01) = 0.4 x 0.04 - 0.0005, z = 48.75 mm
    pan = rectangle(1.0, 0.02)
    assert lowering(pan, 0.05, 0.5e-3) == pytest.approx(1.25e-3)
    assert lowering(AuxiliaryPan(area=0.4, depth=0.05), 0.05, 0.5e-3) == pytest.approx(1.25e-3)
