"""What every drawing is held to."""

import math
import re
from collections.abc import Callable
from xml.etree import ElementTree as ET

import pytest
from flask.testing import FlaskClient

from service.drawings.sheet import WIDTH

SVG = "{http://www.w3.org/2000/svg}"
ELEMENTS = {"svg", "title", "desc", "rect", "line", "polyline", "polygon", "path", "circle", "text", "g"}
SMALLEST_TYPE = 12.0
"""On a phone 320 pixels wide that is 10.7 pixels."""

NARROWEST_LETTER = 0.44
"""Mean width of a letter of running English over the size of the type, in the usual sans-serif faces (about 0.5)."""


def points_of(element: ET.Element) -> list[tuple[float, float]]:
    """The corners of a polyline or polygon."""
    numbers = [float(text) for text in re.findall(r"-?\d+(?:\.\d+)?(?:e-?\d+)?", element.get("points", ""))]
    return list(zip(numbers[::2], numbers[1::2], strict=True))


@pytest.fixture(scope="session")
def check_drawing() -> Callable[[bytes], ET.Element]:
    """Proves that a drawing is safe to show anywhere, stays on its sheet and can be read; returns its root."""

    def check(drawing: bytes) -> ET.Element:
        root = ET.fromstring(drawing)  # noqa: S314  our own output
        assert root.tag == f"{SVG}svg"
        assert root.get("role") == "img"
        assert [child.tag for child in root][:2] == [f"{SVG}title", f"{SVG}desc"]
        assert all(len(child.text or "") > 10 for child in list(root)[:2])
        left, top, width, height = map(float, root.get("viewBox", "").split())
        assert (left, top, width) == (0.0, 0.0, WIDTH)
        assert 0.0 < height < 4000.0
        for element in root.iter():
            assert element.tag.removeprefix(SVG) in ELEMENTS, element.tag
            for name in element.attrib:
                assert not name.startswith("on"), name
                assert name not in ("style", "class", "href", "{http://www.w3.org/1999/xlink}href"), name
            for x, y in points_of(element):
                assert math.isfinite(x), element.attrib
                assert math.isfinite(y), element.attrib
                assert -1.0 <= x <= WIDTH + 1.0, element.attrib
                assert -1.0 <= y <= height + 1.0, element.attrib
            if element.tag == f"{SVG}text":
                size = float(element.get("font-size", "0"))
                assert size >= SMALLEST_TYPE
                x, y = float(element.get("x", "nan")), float(element.get("y", "nan"))
                assert 0.0 <= y <= height, element.text
                reach = NARROWEST_LETTER * size * len(element.text or "")
                share = {"start": 0.0, "middle": 0.5, "end": 1.0}[element.get("text-anchor", "start")]
                assert x - share * reach >= -1.0, element.text
                assert x + (1.0 - share) * reach <= WIDTH + 1.0, element.text
        return root

    return check


@pytest.fixture
def draw(client: FlaskClient, check_drawing: Callable[[bytes], ET.Element]) -> Callable[..., ET.Element]:
    """Asks an operation for its drawing, checks it and returns its root."""

    def ask(path: str, body: object) -> ET.Element:
        answer = client.post(path, json=body, headers={"Accept": "image/svg+xml"})
        assert answer.status_code == 200, answer.data
        assert answer.mimetype == "image/svg+xml"
        return check_drawing(answer.data)

    return ask


def words_of(root: ET.Element) -> str:
    """All that is written on a drawing."""
    return " ".join(element.text or "" for element in root.iter(f"{SVG}text"))
