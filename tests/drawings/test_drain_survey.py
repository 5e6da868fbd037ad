"""The line's profile, measured: distances and heights to their scales, water where it stands."""

import math
from collections.abc import Callable
from typing import Any
from xml.etree import ElementTree as ET

import pytest
from flask.testing import FlaskClient
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from service.drawings.sheet import INK, WARN, WATER
from tests.drawings.conftest import SVG, points_of, words_of

Draw = Callable[..., ET.Element]
PATH = "/v1/drain-survey"


def body(line: list[tuple[float, float]], **more: Any) -> dict[str, Any]:
    """A survey of feet and inches."""
    stations = [
        {"distance": {"value": feet, "unit": "ft"}, "invert": {"value": inches, "unit": "in"}} for feet, inches in line
    ]
    return {"pipe_size": "3/4", "stations": stations, **more}


def lines(root: ET.Element, **attributes: str) -> list[list[tuple[float, float]]]:
    return [
        points_of(line)
        for line in root.iter(f"{SVG}polyline")
        if all(line.get(name.replace("_", "-")) == value for name, value in attributes.items())
    ]


def bottom(root: ET.Element) -> list[tuple[float, float]]:
    return max((line for line in lines(root, stroke=INK, stroke_width="1.6")), key=len)


def crown(root: ET.Element) -> list[tuple[float, float]]:
    return lines(root, stroke=INK, stroke_width="1.2")[0]


def water(root: ET.Element) -> list[list[tuple[float, float]]]:
    """The stretches of water; the key's samples, which stand below, are left out."""
    floor = max(y for _, y in bottom(root))
    areas = (points_of(area) for area in root.iter(f"{SVG}polygon") if area.get("fill") == WATER)
    return [area for area in areas if min(y for _, y in area) <= floor]


SAG = [(0.0, 10.0), (4.0, 8.0), (8.0, 5.0), (12.0, 7.0), (20.0, 4.0)]


def test_distances_and_heights_are_each_to_one_scale(draw: Draw) -> None:
    root = draw(PATH, body(SAG))
    drawn = bottom(root)
    across = (drawn[-1][0] - drawn[0][0]) / 20.0
    up = (drawn[-1][1] - drawn[0][1]) / 6.0
    for (x, y), (feet, inches) in zip(drawn, SAG, strict=True):
        assert x - drawn[0][0] == pytest.approx(across * feet, abs=0.02)
        assert y - drawn[0][1] == pytest.approx(up * (10.0 - inches), abs=0.02)
    for (_, low), (_, high) in zip(drawn, crown(root), strict=True):
        assert low - high == pytest.approx(up * 0.824, abs=0.02)  # the bore, ASTM D1785
    factor = up * 12.0 / across  # sheet units an inch of height over those an inch of distance
    assert f"drawn {factor:.2g} times as large" in words_of(root)


def test_the_water_lies_between_slope_and_sill(draw: Draw) -> None:
    """By hand: up to the sill of 7 in, from a third of the way down from 8 to 5 in: 5 1/3 ft, to 12 ft."""
    root = draw(PATH, body(SAG))
    drawn = bottom(root)
    across = (drawn[-1][0] - drawn[0][0]) / 20.0
    up = (drawn[-1][1] - drawn[0][1]) / 6.0
    (pond,) = water(root)
    assert min(x for x, _ in pond) - drawn[0][0] == pytest.approx(across * 16 / 3, abs=0.03)
    assert max(x for x, _ in pond) - drawn[0][0] == pytest.approx(across * 12, abs=0.03)
    # no higher than the top of the bore at the low point, nor than the sill
    assert min(y for _, y in pond) == pytest.approx(drawn[0][1] + up * 3.0, abs=0.03)
    words = words_of(root)
    for told in ("2 in deep", "bore full", "rises 2 in", "from pan", "to discharge", "a second trap", "back-fall"):
        assert told in words
    assert "Water stands 2 in deep from 5.33 ft to 12 ft" in (root[1].text or "")


def test_the_hatch_lies_where_the_bore_is_full(draw: Draw) -> None:
    """By hand: 1.176 in over 3 in of the 4 ft above the low point, and over 2 in of the 4 ft below it."""
    root = draw(PATH, body(SAG))
    drawn = bottom(root)
    across = (drawn[-1][0] - drawn[0][0]) / 20.0
    floor = max(y for _, y in drawn)
    strokes = [line for line in lines(root, stroke=INK, stroke_width="0.9") if len(line) == 2 and line[0][1] < floor]
    slanted = [line for line in strokes if line[0][0] != line[1][0]]
    feet = [(line[0][0] - drawn[0][0]) / across for line in slanted]
    assert len(feet) > 5
    assert 8 - 4 * 1.176 / 3 - 0.01 <= min(feet) <= max(feet) <= 8 + 4 * 1.176 / 2 + 0.01


def test_back_fall_and_too_little_fall_are_dashed_apart(draw: Draw) -> None:
    root = draw(PATH, body([(0, 10), (4, 9), (8, 9.5), (12, 9.3), (16, 9.3), (20, 5)]))
    dashes = {
        (line.get("stroke"), line.get("stroke-dasharray"))
        for line in root.iter(f"{SVG}polyline")
        if line.get("stroke-dasharray")
    }
    assert len(dashes) == 2
    assert {stroke for stroke, _ in dashes} == {INK, WARN}
    # one that rises and two that fall too little, and a sample of each in the key
    assert len(lines(root, stroke=WARN, stroke_width="4.0")) == 1 + 1
    assert len(lines(root, stroke=INK, stroke_width="4.0")) == 2 + 1
    assert "less than the code minimum" in words_of(root)


def test_a_sound_line_is_told_to_be_sound(draw: Draw) -> None:
    root = draw(PATH, body([(0, 5), (4, 3.9), (8, 2.8), (12, 1.7)]))
    words = words_of(root)
    assert "it falls all the way" in " ".join(words.split())
    assert "Nothing here needs mending." in words
    assert water(root) == []
    assert "back-fall" not in words


def test_a_line_that_rises_shows_its_water_back_to_the_pan(draw: Draw) -> None:
    root = draw(PATH, body([(0, 0), (4, 1), (8, 2)]))
    assert "back to pan" in words_of(root)
    assert min(x for x, _ in water(root)[0]) == pytest.approx(bottom(root)[0][0], abs=0.02)


def test_a_vertical_drop_and_a_riser_are_drawn_as_wide_as_a_pipe(draw: Draw) -> None:
    root = draw(PATH, body([(0, 20), (10, 17), (10, 30), (20, 27), (20, 3), (40, -2)]))
    walls, floor = crown(root), bottom(root)
    assert walls[1][0] < floor[1][0]  # a riser's other wall lies upstream
    assert walls[4][0] > floor[4][0]  # a drop's downstream
    assert any(max(x for x, _ in area) - min(x for x, _ in area) < 6.0 for area in water(root))


def test_water_at_the_discharge_is_drawn(draw: Draw) -> None:
    line = [(0.0, 5.0), (10.0, 2.0), (20.0, 0.0)]
    dry = draw(PATH, body(line))
    wet = draw(PATH, body(line, water_depth_at_outlet={"value": 1, "unit": "in"}))
    assert water(dry) == []
    assert len(water(wet)) == 2  # in the pipe and beyond its end


def test_units_follow_the_query(client: FlaskClient, check_drawing: Callable[[bytes], ET.Element]) -> None:
    answer = client.post(PATH + "?units=si", json=body(SAG), headers={"Accept": "image/svg+xml"})
    words = words_of(check_drawing(answer.data))
    assert "50.8 mm deep" in words  # 2 in
    assert "6.1 m" in words  # 20 ft


@pytest.mark.parametrize("shape", ["noise", "teeth"])
def test_two_thousand_stations_make_a_drawing_of_a_sane_size(
    shape: str, client: FlaskClient, check_drawing: Callable[[bytes], ET.Element]
) -> None:
    wave = {
        "noise": lambda i: 50 - 0.01 * i + 0.3 * math.sin(12.9898 * i * i),
        "teeth": lambda i: (30.0 if i % 2 else 20.0) - 0.005 * i,
    }[shape]
    line = [(round(0.4 * i, 1), round(wave(i), 4)) for i in range(2000)]
    answer = client.post(PATH, json=body(line), headers={"Accept": "image/svg+xml"})
    root = check_drawing(answer.data)
    assert len(answer.data) < 200_000
    assert 300 < len(bottom(root)) < 800
    heights = [y for _, y in bottom(root)]
    scale = (max(heights) - min(heights)) / (max(h for _, h in line) - min(h for _, h in line))
    # highest and lowest are still there: the scale they give is that of the ends
    first, last = bottom(root)[0], bottom(root)[-1]
    assert last[1] - first[1] == pytest.approx(scale * (line[0][1] - line[-1][1]), abs=0.5)
    assert "more than are labelled" in " ".join(words_of(root).split())


@settings(deadline=None, max_examples=120, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(
    line=st.lists(
        st.tuples(
            st.one_of(st.floats(0.0, 300.0), st.sampled_from([0.0, 1.0, 1.0001, 1.0 + 1e-12, 300.0])),
            st.one_of(st.floats(-100.0, 100.0), st.floats(-0.01, 0.01), st.sampled_from([-100.0, 0.0, 100.0])),
        ),
        min_size=2,
        max_size=9,
    ),
    size=st.sampled_from(["1/2", "3/4", "4"]),
    material=st.sampled_from(["pvc-schedule-40", "cpvc-sdr-11"]),
    outlet=st.sampled_from([0.0, 1e-300, 0.01, 10.0]),
)
def test_every_line_stays_on_its_sheet(
    line: list[tuple[float, float]], size: str, material: str, outlet: float, draw: Draw
) -> None:
    stations = [{"distance": {"value": x, "unit": "m"}, "invert": {"value": y, "unit": "m"}} for x, y in line]
    draw(
        PATH,
        {
            "pipe_size": size,
            "material": material,
            "stations": stations,
            "water_depth_at_outlet": {"value": outlet, "unit": "m"},
        },
    )
