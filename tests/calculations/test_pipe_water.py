"""Still water in a slanted round pipe: by hand, by slices, and at its limits."""

from math import acos, asin, cos, hypot, isfinite, pi, sin, sqrt

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import quad

from service.calculations.pipe_water import segment_area, water_in_pipe

BORE = 0.0209296  # 3/4 in PVC Schedule 40, 0.824 in, ASTM D1785
FULL = pi / 4.0 * BORE**2


def volume(run: float, first_depth: float, last_depth: float, bore: float = BORE) -> float:
    return water_in_pipe(bore=bore, run=run, first_depth=first_depth, last_depth=last_depth).volume


def by_slices(run: float, first_depth: float, last_depth: float, bore: float = BORE, slices: int = 200_000) -> float:
    """Slices square to the axis, each with the schoolbook area R^2 acos((R - h)/R) - (R - h) sqrt(2 R h - h^2)."""
    slant = hypot(run, first_depth - last_depth) / run
    shares = (np.arange(slices) + 0.5) / slices
    radius = bore / 2.0
    depth = np.clip((first_depth + (last_depth - first_depth) * shares) * slant, 0.0, bore)
    inside = radius - depth
    area = radius**2 * np.arccos(np.clip(inside / radius, -1.0, 1.0))
    area -= inside * np.sqrt(np.maximum(2.0 * radius * depth - depth**2, 0.0))
    return float(np.mean(area)) * run * slant


@pytest.mark.parametrize("depth", [1e-5, 0.0001, 0.001, 0.005, BORE / 2, 0.015, 0.0209, BORE, 0.03])
def test_the_segment_is_the_schoolbooks(depth: float) -> None:
    radius, h = BORE / 2.0, min(depth, BORE)
    area = radius**2 * acos((radius - h) / radius) - (radius - h) * sqrt(2 * radius * h - h**2)
    assert segment_area(bore=BORE, depth=depth) == pytest.approx(area, rel=1e-8, abs=0.0)


@pytest.mark.parametrize("depth", [1e-6, 1e-5, 1.2e-5, 1.4e-5, 1e-3, 0.02])
def test_the_closed_form_is_the_integral_of_the_segment(depth: float) -> None:
    # SciPy's quadrature over the depth, of the area written with the angle, a - sin a cos a = (2a - sin 2a) / 2; below
    # an angle of 0.3 that difference is summed as its series, 2/3 a^3 (1 - a^2/5 + 2 a^4/105 - a^6/945 ...)
    def area(h: float) -> float:
        angle = 2.0 * asin(sqrt(h / BORE))
        if angle < 0.3:
            share = 2 / 3 * angle**3 * (1 - angle**2 / 5 + 2 * angle**4 / 105 - angle**6 / 945 + angle**8 * 2 / 51975)
        else:
            share = (2.0 * angle - sin(2.0 * angle)) / 2.0
        return (BORE / 2.0) ** 2 * share

    integral, _ = quad(area, 0.0, depth, epsabs=0.0, epsrel=1e-12)
    # a pipe so long that the slant of its axis is lost in the last digits
    assert volume(300.0, 0.0, depth) == pytest.approx(integral / depth * 300.0, rel=2e-8, abs=0.0)


def test_half_full_at_one_end_is_the_hoof_of_archimedes() -> None:
    # The Method, proposition 11: a sixth of the prism around the whole drum, 2/3 R^2 times its height. Here the
    # height is the wet length of the pipe, 5 m, nearly level so that the slant of the cut does not count.
    radius = BORE / 2.0
    assert volume(5.0, 0.0, radius) == pytest.approx(2.0 / 3.0 * radius**2 * 5.0, rel=1e-5)


def test_from_nothing_to_just_full_is_half_the_pipe() -> None:
    # by symmetry: turned over, the air has the same shape as the water
    assert volume(5.0, 0.0, BORE) == pytest.approx(FULL / 2.0 * 5.0, rel=1e-4)


def test_a_level_pipe_full_to_a_depth() -> None:
    assert volume(2.0, BORE / 2, BORE / 2) == pytest.approx(FULL / 2.0 * 2.0, rel=1e-12)
    assert volume(2.0, 0.1, 0.1) == pytest.approx(FULL * 2.0, rel=1e-12)
    assert volume(2.0, 0.0, 0.0) == volume(2.0, -0.1, -0.001) == 0.0


def test_a_vertical_pipe_holds_its_area_times_the_height_of_the_water() -> None:
    assert volume(0.0, 0.3, -0.5) == pytest.approx(FULL * 0.3, rel=1e-12)
    assert volume(0.0, 0.1, 0.4) == pytest.approx(FULL * 0.3, rel=1e-12)
    # and so does one that is next to vertical: no jump between the two
    assert volume(1e-9, 0.3, -0.5) == pytest.approx(FULL * 0.3, rel=1e-6)


def test_the_full_run_is_where_the_depth_is_the_bore_or_more() -> None:
    # depth goes from 0 to 2 bores over 6 m: full over the last 3
    stretch = water_in_pipe(bore=0.02, run=6.0, first_depth=0.0, last_depth=0.04)
    assert stretch.full_run == pytest.approx(3.0)
    assert water_in_pipe(bore=0.02, run=6.0, first_depth=0.02, last_depth=0.04).full_run == 6.0
    assert water_in_pipe(bore=0.02, run=6.0, first_depth=0.0, last_depth=0.0199).full_run == 0.0


@pytest.mark.parametrize(
    ("run", "first", "last"),
    [
        (1.2, 0.0, 0.004),
        (1.2, 0.003, 0.0031),
        (1.2, 0.003, 0.0030001),
        (0.4, -0.01, 0.018),
        (2.4, 0.012, 0.06),
        (2.4, 0.3, -0.1),
        (0.1, 0.1, -0.2),  # 3 in 1
        (0.5, 0.0, 1e-5),
        (0.5, 0.02092, 0.02093),
    ],
)
def test_the_closed_form_is_the_sum_of_the_slices(run: float, first: float, last: float) -> None:
    assert volume(run, first, last) == pytest.approx(by_slices(run, first, last), rel=2e-6)


@given(
    bore=st.floats(0.01, 0.11),
    run=st.floats(0.001, 300.0),
    first=st.floats(-0.3, 0.3),
    last=st.floats(-0.3, 0.3),
)
def test_any_piece_is_the_sum_of_its_slices(bore: float, run: float, first: float, last: float) -> None:
    # the slices' own error: two of them, cut by the edge of the water or the crown, of at most the full area
    slack = 2.0 * bore**2 * hypot(run, first - last) / 20_000
    assert volume(run, first, last, bore) == pytest.approx(
        by_slices(run, first, last, bore, slices=20_000), rel=1e-4, abs=slack
    )


@given(
    bore=st.floats(0.01, 0.11),
    run=st.one_of(st.just(0.0), st.floats(0.0, 300.0)),
    first=st.floats(-200.0, 200.0),
    last=st.floats(-200.0, 200.0),
    share=st.floats(0.0, 1.0),
)
def test_two_parts_make_the_whole_and_no_part_is_more_than_full(
    bore: float, run: float, first: float, last: float, share: float
) -> None:
    whole = water_in_pipe(bore=bore, run=run, first_depth=first, last_depth=last)
    middle = first + (last - first) * share
    parts = [
        water_in_pipe(bore=bore, run=run * share, first_depth=first, last_depth=middle),
        water_in_pipe(bore=bore, run=run * (1.0 - share), first_depth=middle, last_depth=last),
    ]
    capacity = pi / 4.0 * bore**2 * hypot(run, first - last)
    assert isfinite(whole.volume)
    assert 0.0 <= whole.volume <= capacity * (1.0 + 1e-9)
    assert 0.0 <= whole.full_run <= run * (1.0 + 1e-12)
    # where a part is cut off so short that its slope is lost in the last bits, its length is lost with it
    assert sum(part.volume for part in parts) == pytest.approx(whole.volume, rel=1e-6, abs=1e-9 * capacity + 1e-15)
    assert sum(part.full_run for part in parts) == pytest.approx(whole.full_run, rel=1e-6, abs=1e-6 * run)


@given(depth=st.floats(0.0, 0.03), more=st.floats(0.0, 0.01))
def test_more_depth_is_never_less_water(depth: float, more: float) -> None:
    assert segment_area(bore=BORE, depth=depth + more) >= segment_area(bore=BORE, depth=depth) * (1.0 - 1e-9)
    assert volume(1.0, depth + more, 0.002) >= volume(1.0, depth, 0.002) * (1.0 - 1e-9)


def test_the_slope_lengthens_the_pipe() -> None:
    # full throughout: the length along the axis is the run over the cosine of the slope
    slope = 0.1
    assert volume(1.0, 1.0, 1.1) == pytest.approx(FULL * hypot(1.0, slope), rel=1e-12)
    assert hypot(1.0, slope) == pytest.approx(1.0 / cos(np.arctan(slope)))
