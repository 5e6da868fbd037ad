"""The report as a page and on paper: complete, safe whatever is sent, and needing nothing from elsewhere."""

import io
import json
from collections.abc import Iterator
from html import escape
from html.parser import HTMLParser
from itertools import pairwise
from pathlib import Path
from typing import Any

import pytest
from flask.testing import FlaskClient
from pypdf import PdfReader

from service.schemas.assessment import AssessmentRequest
from service.tables.languages import texts

ROOT = Path(__file__).parents[2]
DEMO: dict[str, Any] = json.loads((ROOT / "deploy" / "demo-unit.json").read_text())
HOSTILE = (
    "</style></title><script>alert(1)</script>",
    '"><img src=x onerror=alert(1)>',
    "{{ 7*7 }}{% raw %}",
    '#read("paper.typ") #import "x": * $x$ *bold* _it_ `raw` @ref <label> \\u{41} = head',
    "\u202eright to left \u0007 bell \ud7ff 漢字 😀",
    "a" * 80,
)
VOID = {"meta", "br", "img", "input", "hr", "link"}


class Outline(HTMLParser):
    """Tags, attributes and text of a page; proves that every tag is closed."""

    def __init__(self, page: str) -> None:
        super().__init__()
        self.tags: list[tuple[str, dict[str, str | None]]] = []
        self.text: list[str] = []
        self._open: list[str] = []
        self.feed(page)
        assert not self._open, self._open

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append((tag, dict(attrs)))
        if tag not in VOID:
            self._open.append(tag)

    def handle_endtag(self, tag: str) -> None:
        assert self._open.pop() == tag

    def handle_data(self, data: str) -> None:
        self.text.append(data)


def ask(client: FlaskClient, media_type: str, unit: dict[str, Any], query: str = "") -> Any:
    answer = client.post(f"/v1/assessment{query}", json=unit, headers={"Accept": media_type})
    assert (answer.status_code, answer.mimetype) == (200, media_type), answer.data[:300]
    return answer


def words(text: str) -> str:
    return "".join(text.split())


def headings(outline: Outline) -> Iterator[int]:
    return (int(tag[1]) for tag, _ in outline.tags if tag in ("h1", "h2", "h3", "h4"))


def test_the_page_says_everything(client: FlaskClient) -> None:
    page = ask(client, "text/html", DEMO).get_data(as_text=True)
    said = words("".join(Outline(page).text))
    answer = client.post("/v1/assessment", json=DEMO).get_json()
    for row in answer["findings"]:
        assert words(row["message"]) in said
        assert words(row["remedy"]) in said
    for row in answer["cautions"] + answer["sources"]:
        assert words(row.get("message") or row["label"]) in said
    assert words("What was assumed") in said
    assert DEMO["unit_id"] in said


def test_the_page_can_be_found_ones_way_in(client: FlaskClient) -> None:
    outline = Outline(ask(client, "text/html", DEMO).get_data(as_text=True))
    tags = dict(reversed(outline.tags))
    assert tags["html"]["lang"] == "en-US"
    assert "main" in tags
    levels = list(headings(outline))
    assert levels[0] == 1
    assert all(after - before <= 1 for before, after in pairwise(levels))
    for svg in (attributes for tag, attributes in outline.tags if tag == "svg"):
        assert svg["role"] == "img"
    assert sum(tag == "svg" for tag, _ in outline.tags) == sum(tag == "figure" for tag, _ in outline.tags) > 0
    rows = [attributes for tag, attributes in outline.tags if tag == "th"]
    assert rows
    assert all(row["scope"] == "row" for row in rows)


def test_the_page_needs_nothing_from_elsewhere_and_runs_nothing(client: FlaskClient) -> None:
    answer = ask(client, "text/html", DEMO)
    outline = Outline(answer.get_data(as_text=True))
    assert not {"script", "img", "link", "iframe", "object", "form", "a"} & {tag for tag, _ in outline.tags}
    for _, attributes in outline.tags:
        assert not {"style", "src", "href"} & set(attributes)
        assert not any(name.startswith("on") for name in attributes)
    policy = answer.headers["Content-Security-Policy"]
    assert policy.startswith("default-src 'none'; style-src 'unsafe-inline'")
    assert "script" not in policy
    assert "url(" not in answer.get_data(as_text=True)
    assert "@import" not in answer.get_data(as_text=True)


@pytest.mark.parametrize("text", HOSTILE, ids=range(len(HOSTILE)))
def test_what_is_sent_stays_text(text: str, client: FlaskClient) -> None:
    unit = {**DEMO, "unit_id": text[:80], "description": text}
    plain_tags = [tag for tag, _ in Outline(ask(client, "text/html", DEMO).get_data(as_text=True)).tags]
    outline = Outline(ask(client, "text/html", unit).get_data(as_text=True))
    assert [tag for tag, _ in outline.tags] == plain_tags
    assert words(text) in words("".join(outline.text))
    paper = PdfReader(io.BytesIO(ask(client, "application/pdf", unit).data))
    said = words(paper.pages[0].extract_text())
    if text.isascii():
        assert words(text[:40]) in said


@pytest.mark.parametrize(("query", "width", "height"), [("", 612.0, 792.0), ("?units=si", 595.28, 841.89)])
def test_the_paper_is_letter_or_a4_and_says_everything(
    query: str, width: float, height: float, client: FlaskClient
) -> None:
    paper = PdfReader(io.BytesIO(ask(client, "application/pdf", DEMO, query).data))
    box = paper.pages[0].mediabox
    assert (float(box.width), float(box.height)) == (pytest.approx(width, abs=0.1), pytest.approx(height, abs=0.1))
    said = words(" ".join(page.extract_text() for page in paper.pages))
    answer = client.post(f"/v1/assessment{query}", json=DEMO).get_json()
    for row in answer["findings"]:
        assert words(row["message"]).replace("-", "") in said.replace("-", ""), row["code"]
    for row in answer["cautions"]:
        assert words(row["message"]).replace("-", "") in said.replace("-", "")
    owner = words(paper.pages[0].extract_text())
    assert words("What we recommend") in owner
    assert words("For the technician:") not in owner
    assert words("For the technician:") in words(paper.pages[1].extract_text())


def test_the_paper_is_tagged_and_the_same_every_time(client: FlaskClient) -> None:
    first, second = (ask(client, "application/pdf", DEMO).data for _ in range(2))
    assert first == second
    catalog: Any = PdfReader(io.BytesIO(first)).trailer["/Root"]
    assert catalog["/MarkInfo"]["/Marked"]
    assert "/StructTreeRoot" in catalog
    assert catalog["/Lang"].lower().startswith("en")


def test_a_unit_with_every_finding_there_is_still_makes_a_page(client: FlaskClient) -> None:
    for example in (
        client.get("/openapi.json")
        .get_json()["paths"]["/v1/assessment"]["post"]["requestBody"]["content"]["application/json"]["examples"]
        .values()
    ):
        Outline(ask(client, "text/html", example["value"]).get_data(as_text=True))
        assert len(PdfReader(io.BytesIO(ask(client, "application/pdf", example["value"]).data)).pages) >= 2


@pytest.mark.parametrize("name", AssessmentRequest.examples)
def test_a_report_in_spanish_has_no_sentence_in_english(name: str, client: FlaskClient) -> None:
    unit, asked = AssessmentRequest.examples[name]["value"], {"Accept-Language": "es-US"}
    answer = client.post("/v1/assessment", json=unit, headers={"Accept": "text/html", **asked})
    outline = Outline(answer.get_data(as_text=True))
    assert dict(reversed(outline.tags))["html"]["lang"] == "es"
    pages = [answer.get_data(as_text=True)]
    paper = client.post("/v1/assessment", json=unit, headers={"Accept": "application/pdf", **asked})
    pages.append(" ".join(page.extract_text() for page in PdfReader(io.BytesIO(paper.data)).pages))
    written = client.post("/v1/assessment", json=unit, headers=asked).get_json()
    sentences = [text for text in texts("es") if text.count(" ") > 2 and "{" not in text]
    for page in map(words, pages):
        assert not [text for text in sentences if words(escape(text)) in page]
    for row in written["findings"]:
        assert words(escape(row["message"])) in words(pages[0])
