"""Every drawing of every worked example: safe, on its sheet, legible, and loaded only when asked for."""

import json
import re
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path
from xml.etree import ElementTree as ET

import pytest
from flask.testing import FlaskClient

from service.tables.spanish.drawings import TEXTS

OPENAPI = Path(__file__).parents[2] / "openapi"
DOCUMENT = json.loads((OPENAPI / "openapi.json").read_bytes())
DRAWN = [
    path
    for path, operations in DOCUMENT["paths"].items()
    if "image/svg+xml" in operations.get("post", {}).get("responses", {}).get("200", {}).get("content", {})
]
DRAWINGS = sorted((OPENAPI / "examples").glob("*.drawing.svg"))


def test_there_are_drawings() -> None:
    assert len(DRAWINGS) >= 3 * len(DRAWN) > 0


@pytest.mark.parametrize("path", DRAWINGS, ids=lambda path: path.stem)
def test_an_example_drawing_can_be_shown_and_read(path: Path, check_drawing: Callable[[bytes], ET.Element]) -> None:
    root = check_drawing(path.read_bytes())
    answer = json.loads(path.with_name(path.name.replace(".drawing.svg", ".answer.json")).read_bytes())
    words = re.sub(r"\s+", " ", " ".join(element.text or "" for element in root.iter() if element.tag.endswith("text")))
    for finding in answer["findings"]:
        assert (finding["message"] in words) == (finding["severity"] != "info"), finding["code"]


@pytest.mark.parametrize("path", DRAWINGS, ids=lambda path: path.stem)
def test_an_example_drawing_in_spanish_has_no_english_word(
    path: Path, client: FlaskClient, check_drawing: Callable[[bytes], ET.Element]
) -> None:
    noun = path.name.split(".")[0]
    url = next(name for name in DRAWN if name.removeprefix("/v1/").replace("/", "-") == noun)
    body = json.loads(path.with_name(path.name.replace(".drawing.svg", ".request.json")).read_bytes())
    answer = client.post(url, json=body, headers={"Accept": "image/svg+xml", "Accept-Language": "es"})
    told = [
        element.text or "" for element in check_drawing(answer.data).iter() if element.tag.endswith(("text", "desc"))
    ]
    for text in told:
        assert text not in TEXTS
        assert not re.search(r"\b(the|and|of|is|are|with|in all|fan|pan|pump|trap|seal|water)\b", text), text
    english, spanish = (
        sorted(re.findall(r"\d+(?:\.\d+)?", drawing.partition("<title>")[2].partition("</desc>")[0]))
        for drawing in (path.read_text(encoding="utf-8"), answer.get_data(as_text=True))
    )
    assert english == spanish


@pytest.mark.parametrize("path", DRAWN)
def test_the_caller_chooses(path: str, client: FlaskClient) -> None:
    body = next(
        iter(DOCUMENT["paths"][path]["post"]["requestBody"]["content"]["application/json"]["examples"].values())
    )
    for accept, expected in (
        ("image/svg+xml", "image/svg+xml"),
        ("image/*", "image/svg+xml"),
        ("application/json;q=0.5, image/svg+xml", "image/svg+xml"),
        ("image/svg+xml;q=0.5, application/json", "application/json"),
        ("text/html, */*;q=0.8", "application/json"),
        ("*/*", "application/json"),
        ("image/svg+xml, application/json", "application/json"),
    ):
        answer = client.post(path, json=body["value"], headers={"Accept": accept})
        assert (answer.status_code, answer.mimetype) == (200, expected), accept
        assert answer.headers["Vary"] == "Accept, Accept-Language"
    refused = client.post(path, json=body["value"], headers={"Accept": "image/png"})
    assert (refused.status_code, refused.mimetype) == (406, "application/problem+json")
    assert "image/svg+xml" in refused.get_json()["detail"]


@pytest.mark.parametrize("path", DRAWN)
def test_a_fault_is_a_problem_whatever_was_asked_for(path: str, client: FlaskClient) -> None:
    answer = client.post(path, json={"no": 1}, headers={"Accept": "image/svg+xml"})
    assert (answer.status_code, answer.mimetype) == (400, "application/problem+json")


def test_nothing_of_it_is_loaded_before() -> None:
    loaded = "print('svg' in sys.modules, 'service.drawings' in sys.modules)"
    code = f"import sys, service.app; service.app.create_app(); {loaded}"
    ran = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert ran.stdout.split() == ["False", "False"]
