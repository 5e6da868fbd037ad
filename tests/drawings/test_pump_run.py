"""The pump's drawing, measured: points of leaflet, operating point and margin lie where their numbers say."""

from collections.abc import Callable
from typing import Any
from xml.etree import ElementTree as ET

import pytest
from flask.testing import FlaskClient
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from service.drawings.sheet import INK, WARN
from service.schemas.pump_run import PumpRunRequest
from tests.drawings.conftest import SVG, points_of, words_of

Draw = Callable[..., ET.Element]
PATH = "/v1/pump-run"
SOUND: dict[str, Any] = PumpRunRequest.examples["sound"]["value"]
TWO_BORES: dict[str, Any] = PumpRunRequest.examples["two-bores"]["value"]
# its leaflet: 80 gal/h at 0 ft, 0 gal/h at 18 ft
MOST, SHUT_OFF = 80.0, 18.0


def said(root: ET.Element) -> str:
    return words_of(root).replace("\N{NO-BREAK SPACE}", " ")


def circles(root: ET.Element, *, filled: bool) -> list[tuple[float, float]]:
    return [
        (float(circle.get("cx", "nan")), float(circle.get("cy", "nan")))
        for circle in root.iter(f"{SVG}circle")
        if (circle.get("fill") == INK) == filled
    ]


def scale(root: ET.Element) -> Callable[[tuple[float, float]], tuple[float, float]]:
    """From the sheet to (gal/h, ft), by the leaflet's points at no lift and at no flow."""
    leaflet = circles(root, filled=False)
    left, top = min(leaflet)
    right, bottom = max(leaflet)
    return lambda at: ((at[0] - left) / (right - left) * MOST, (bottom - at[1]) / (bottom - top) * SHUT_OFF)


def test_the_leaflets_points_are_to_scale(draw: Draw) -> None:
    root = draw(PATH, SOUND)
    to_numbers = scale(root)
    drawn = sorted(to_numbers(at) for at in circles(root, filled=False))
    given_points = sorted((row["flow"]["value"], row["lift"]["value"]) for row in SOUND["pump"]["curve"])
    for one, other in zip(drawn, given_points, strict=True):
        assert one == pytest.approx(other, abs=0.05)


def test_the_operating_point_and_the_flow_wanted_are_where_the_answer_says(draw: Draw, client: FlaskClient) -> None:
    body = SOUND | {"inflow": {"value": 20, "unit": "gal/h"}}
    results = client.post(PATH, json=body).get_json()["results"]
    root = draw(PATH, body)
    to_numbers = scale(root)
    (at,) = circles(root, filled=True)
    expected = (results["operating_flow"]["value"], results["operating_head"]["value"])
    assert to_numbers(at) == pytest.approx(expected, rel=5e-3)
    (diamond,) = [area for area in root.iter(f"{SVG}polygon") if area.get("stroke") == WARN]
    corners = points_of(diamond)
    middle = (sum(x for x, _ in corners) / 4, sum(y for _, y in corners) / 4)
    assert to_numbers(middle) == pytest.approx((30.0, results["needed_head"]["value"]), rel=5e-3)
    # the tube's line, dashed, starts at the lift, passes the operating point and the diamond
    (dashed,) = [line for line in root.iter(f"{SVG}polyline") if line.get("stroke-dasharray") == "7.0 4.0"]
    line = [to_numbers(point) for point in points_of(dashed)]
    assert line[0] == pytest.approx((0.0, 9.0), abs=0.05)
    for flow, head in (expected, (30.0, results["needed_head"]["value"])):
        below = max(point for point in line if point[0] <= flow)
        above = min(point for point in line if point[0] >= flow)
        assert below[1] - 0.05 <= head <= above[1] + 0.05


def test_what_is_to_spare_is_told_and_what_is_short_too(draw: Draw, client: FlaskClient) -> None:
    flow = client.post(PATH, json=SOUND).get_json()["results"]["operating_flow"]["value"]
    assert f"{flow - 2.4:.3g} gal/h to spare" in said(draw(PATH, SOUND))
    short = said(draw(PATH, SOUND | {"inflow": {"value": 40, "unit": "gal/h"}}))
    assert f"{60 - flow:.3g} gal/h short of what is wanted" in short
    assert "less than the 40 gal/h that arrives" in short
    little = said(draw(PATH, SOUND | {"inflow": {"value": 30, "unit": "gal/h"}}))
    assert "of the 45 gal/h wanted" in little
    assert "wanted: 600 gal/h, off the sheet" in said(draw(PATH, SOUND | {"inflow": {"value": 400, "unit": "gal/h"}}))


def test_a_lift_beyond_the_pump_is_drawn_above_it(draw: Draw) -> None:
    root = draw(PATH, SOUND | {"lift": {"value": 24, "unit": "ft"}})
    assert not circles(root, filled=True)
    to_numbers = scale(root)
    (lift,) = [line for line in root.iter(f"{SVG}polyline") if line.get("stroke-width") == "2.0"]
    assert to_numbers(points_of(lift)[0])[1] == pytest.approx(24.0, abs=0.05)
    words = said(root)
    for text in (
        "cannot lift the water",
        "6 ft more than the pump has",
        "lift 24 ft: nothing flows",
        "shut off at 18 ft",
    ):
        assert text in words


def test_several_bores_are_told_apart_by_what_they_take(draw: Draw, client: FlaskClient) -> None:
    rows = client.post(PATH, json=TWO_BORES).get_json()["results"]["sections"]
    root = draw(PATH, TWO_BORES)
    assert "150 ft of 0.17 in bore" in said(root)
    bars = [points_of(area) for area in root.iter(f"{SVG}polygon")][-2:]
    widths = [max(x for x, _ in bar) - min(x for x, _ in bar) for bar in bars]
    taken = [row["friction_head"]["value"] + row["fittings_head"]["value"] for row in rows]
    assert widths[0] / widths[1] == pytest.approx(taken[0] / taken[1], rel=0.02)
    assert "Head each section" not in said(draw(PATH, SOUND))


def test_units_follow_the_query(client: FlaskClient, check_drawing: Callable[[bytes], ET.Element]) -> None:
    answer = client.post(PATH + "?units=si", json=SOUND, headers={"Accept": "image/svg+xml"})
    words = said(check_drawing(answer.data))
    assert "head, m" in words
    assert "flow, L/h" in words
    # 18 ft and 2.4 gal/h, by hand
    assert "shut off at 5.49 m" in words
    assert "wanted: 9.08 L/h" in words


LENGTH = st.floats(0.0, 50.0)
FLOW = st.floats(0.0, 0.005) | st.just(0.0) | st.floats(0.0, 1e-6)


@settings(deadline=None, max_examples=200, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(
    inflow=st.floats(0.0, 0.002) | st.floats(0.0, 1e-6) | st.just(0.0),
    lift=LENGTH | st.just(0.0),
    bore=st.floats(0.002, 0.06),
    length=st.floats(0.05, 500.0),
    curve=st.lists(st.tuples(LENGTH, FLOW), min_size=2, max_size=6),
    sections=st.lists(st.tuples(st.floats(0.002, 0.06), st.floats(0.0, 500.0)), max_size=3),
    cracking=st.floats(0.0, 5.0),
)
def test_every_pump_stays_on_its_sheet(
    inflow: float,
    lift: float,
    bore: float,
    length: float,
    curve: list[tuple[float, float]],
    sections: list[tuple[float, float]],
    cracking: float,
    draw: Draw,
) -> None:
    def metres(value: float) -> dict[str, Any]:
        return {"value": value, "unit": "m"}

    def flow(value: float) -> dict[str, Any]:
        return {"value": min(value * 3.6e6, 7199.0), "unit": "L/h"}

    draw(
        PATH,
        {
            "inflow": flow(inflow),
            "lift": metres(lift),
            "tube": {
                "bore": metres(bore),
                "length": metres(length),
                "check_valve": True,
                "check_valve_cracking_head": metres(cracking),
                "further_sections": [{"bore": metres(b), "length": metres(a)} for b, a in sections],
            },
            "pump": {"curve": [{"lift": metres(a), "flow": flow(b)} for a, b in curve]},
        },
    )
