"""The drawing of a series, measured: heights are rates; the peak, the limit and the months are where they belong."""

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
PATH = "/v1/condensate-rate/series"


def body(dry_bulb: list[float], percent: list[float], **more: Any) -> dict[str, Any]:
    return {
        "start": "2028-02-28T00:00",
        "air_flow": {"value": 1200, "unit": "cfm"},
        "entering_air": {"dry_bulb": {"values": dry_bulb, "unit": "degF"}, "relative_humidity_percent": percent},
        "leaving_air": {"dry_bulb": {"value": 55, "unit": "degF"}, "relative_humidity_percent": 95},
        **more,
    }


def results_of(client: FlaskClient, request: dict[str, Any]) -> dict[str, Any]:
    results: dict[str, Any] = client.post(PATH, json=request).get_json()["results"]
    return results


def stairs(root: ET.Element) -> list[tuple[float, float]]:
    """The line over the tops of all bars: the one with most corners."""
    lines = [points_of(line) for line in root.iter(f"{SVG}polyline") if line.get("stroke") == INK]
    return max(lines, key=len)


def heights(points: list[tuple[float, float]]) -> list[float]:
    """Height of each bar above the base."""
    return [points[0][1] - points[at][1] for at in range(1, len(points) - 1, 2)]


def limits(root: ET.Element) -> list[list[tuple[float, float]]]:
    return [
        points_of(line)
        for line in root.iter(f"{SVG}polyline")
        if line.get("stroke") == WARN and line.get("stroke-dasharray")
    ]


def test_rows_are_as_high_as_their_rates_and_the_limit_stands_among_them(draw: Draw, client: FlaskClient) -> None:
    request = body([70, 80, 90, 95, 85, 60], [70, 70, 60, 55, 60, 40], drain_capacity={"value": 5, "unit": "gal/h"})
    rates = results_of(client, request)["hourly"]["rates"]["values"]
    root = draw(PATH, request)
    tops = heights(stairs(root))
    scale = max(tops) / max(rates)
    assert tops == pytest.approx([rate * scale for rate in rates], abs=0.02)
    base = stairs(root)[0][1]
    chart = max(limits(root), key=lambda line: line[-1][0] - line[0][0])
    assert base - chart[0][1] == pytest.approx(5.0 * scale, abs=0.02)
    dark = [points_of(area) for area in root.iter(f"{SVG}polygon") if area.get("fill") == WARN]
    assert len(dark) - 1 == sum(rate > 5.0 for rate in rates)  # and one in the legend
    circle = next(root.iter(f"{SVG}circle"))
    assert base - float(circle.get("cy", "0")) == pytest.approx(max(tops), abs=0.02)
    assert "the drain or pump takes 5 gal/h" in words_of(root)


def test_a_year_shows_the_largest_rate_and_the_average_of_each_day(draw: Draw, client: FlaskClient) -> None:
    dry_bulb = [
        round(70 + 20 * math.sin(hour / 8784 * 2 * math.pi) + 8 * math.sin(hour / 4), 1) for hour in range(8784)
    ]
    request = body(dry_bulb, [60.0] * 8784, start="2028-01-01")
    results = results_of(client, request)
    root = draw(PATH, request)
    tops = heights(stairs(root))
    assert len(tops) == 366
    peaks = results["daily"]["peak_rates"]["values"]
    scale = max(tops) / max(peaks)
    assert tops == pytest.approx([peak * scale for peak in peaks], abs=0.02)
    water = max((points_of(area) for area in root.iter(f"{SVG}polygon") if area.get("fill") == WATER), key=len)
    averages = [volume / 24.0 for volume in results["daily"]["volumes"]["values"]]
    assert heights(water) == pytest.approx([average * scale for average in averages], abs=0.02)
    words = words_of(root)
    assert f"{results['peak_time'].replace('T', ' ')}" in words
    for name in ("Jan", "Feb", "Dec", "largest rate of a day", "average of a day", "Water of each month"):
        assert name in words


def test_months_are_as_long_as_their_water(draw: Draw, client: FlaskClient) -> None:
    request = body([80.0] * 72, [60.0] * 72)  # 28 February to 1 March of a leap year
    months = results_of(client, request)["monthly"]
    root = draw(PATH, request)
    bars = [
        points_of(area)
        for area in root.iter(f"{SVG}polygon")
        if area.get("fill") == WATER and area.get("stroke") == INK
    ]
    lengths = [bar[1][0] - bar[0][0] for bar in bars]
    assert lengths[0] / lengths[1] == pytest.approx(2.0, abs=0.01)
    assert [month["rows"] for month in months] == [48, 24]
    assert "Feb 28" in words_of(root)
    assert "Mar 28" in words_of(root)


def test_days_too_many_for_the_sheet_are_told_to_be_drawn_together(draw: Draw) -> None:
    request = body([80.0] * 8784, [60.0] * 8784, step={"value": 1, "unit": "day"})
    words = words_of(draw(PATH, request))
    assert "average of 24 days" in words
    assert "Water of each year" in words
    assert "2051" in words


def test_a_row_without_a_rate_is_a_question(draw: Draw) -> None:
    request = body([80, 60, 80], [60] * 3)
    request["entering_air"] = {
        "dry_bulb": {"values": [80, 60, 80], "unit": "degF"},
        "wet_bulb": {"values": [70, 75, 70], "unit": "degF"},
    }
    words = words_of(draw(PATH, request))
    assert "no rate in this row" in words
    assert "1 of them without a rate" in words


def test_a_distant_limit_is_told_in_words(draw: Draw) -> None:
    root = draw(PATH, body([80.0], [60.0], drain_capacity={"value": 500, "unit": "gal/h"}))
    assert limits(root) == []
    assert "takes 500 gal/h, far above what is drawn" in words_of(root)


@settings(max_examples=40, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(
    rows=st.sampled_from([1, 2, 24, 48, 49, 200, 1000, 1500]),
    dry_bulb=st.sampled_from([-40.0, 57.0, 75.0, 140.0]),
    percent=st.sampled_from([1.0, 60.0, 100.0]),
    step=st.sampled_from([1.0, 10.0, 60.0, 360.0, 1440.0]),
    capacity=st.none() | st.sampled_from([0.01, 1.0, 10.0, 9e4]),
    flow=st.sampled_from([11.0, 1200.0, 5e5]),
)
def test_any_series_can_be_drawn(
    draw: Draw, rows: int, dry_bulb: float, percent: float, step: float, capacity: float | None, flow: float
) -> None:
    more: dict[str, Any] = {"step": {"value": step, "unit": "min"}, "air_flow": {"value": flow, "unit": "cfm"}}
    if capacity is not None:
        more["drain_capacity"] = {"value": capacity, "unit": "gal/h"}
    draw(PATH, body([dry_bulb - row % 7 for row in range(rows)], [percent] * rows, **more))
