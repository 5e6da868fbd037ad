"""The API reference in a browser: it opens under its own policy, shows every operation, and tries one."""

import json
from pathlib import Path
from typing import Any
from urllib.parse import urlsplit

import pytest
from flask import Flask

from service.routes.document import document_of
from service.tables.problems import PROBLEMS

PICTURES = Path(__file__).parents[2] / "reports" / "browser"
DESKTOP, PHONE = (1280, 900), (390, 844)
OPERATIONS = "document.querySelectorAll('.opblock').length"
SIDEWAYS = "document.documentElement.scrollWidth > window.innerWidth"


@pytest.fixture
def docs(page: Any, server: tuple[str, int]) -> Any:
    """The reference, freshly opened and drawn."""
    PICTURES.mkdir(parents=True, exist_ok=True)
    page.complaints.clear()
    page.requests.clear()
    page.open(f"http://{server[0]}:{server[1]}/docs")
    page.wait_for(OPERATIONS)
    return page


def outside(page: Any, server: tuple[str, int]) -> list[str]:
    """Requests that went anywhere but to the service."""
    own = f"{server[0]}:{server[1]}"
    return [
        url for url in page.requests if urlsplit(url).scheme not in ("data", "about") and urlsplit(url).netloc != own
    ]


def test_the_reference_opens_and_shows_every_operation(docs: Any, server: tuple[str, int], app: Flask) -> None:
    paths = document_of(app)["paths"]
    operations = {f"{method.upper()} {path}" for path, item in paths.items() for method in {"get", "post"} & set(item)}
    shown = docs.evaluate(
        "[...document.querySelectorAll('.opblock')].map(block => "
        "block.querySelector('.opblock-summary-method').textContent + ' ' + "
        "block.querySelector('.opblock-summary-path').dataset.path)"
    )
    assert set(shown) == operations
    assert len(shown) == len(operations)
    docs.photograph(PICTURES / "docs-desktop.png")
    assert docs.complaints == []
    assert outside(docs, server) == []


def test_the_policy_is_the_strictest_that_works(docs: Any, server: tuple[str, int]) -> None:
    """No inline script or style runs, and the complaint of the browser proves that complaints are heard here."""
    docs.evaluate(
        "document.body.appendChild(Object.assign(document.createElement('script'), {textContent: 'window.ran = 1'}));"
        "fetch('http://127.0.0.1:9/').catch(() => 0)"
    )
    docs.wait_for("true")
    assert docs.evaluate("window.ran") is None
    text = " ".join(docs.complaints)
    assert "script-src 'self'" in text
    assert "connect-src 'self'" in text


@pytest.mark.parametrize("size", [DESKTOP, PHONE], ids=["desktop", "phone"])
def test_an_example_is_tried_and_its_answer_shown(docs: Any, server: tuple[str, int], size: tuple[int, int]) -> None:
    docs.resize(*size)
    block = "document.querySelector('[id$=\"-pitch_drain\"]')"
    docs.evaluate(f"{block}.querySelector('.opblock-summary-control').click()")
    docs.wait_for(f"!!{block}.querySelector('.execute')")
    sent = json.loads(docs.evaluate(f"{block}.querySelector('textarea').value"))
    assert sent == {"run": {"value": 32, "unit": "ft"}, "fall": {"value": 4, "unit": "in"}}
    docs.evaluate(f"{block}.querySelector('.execute').click()")
    answer = json.loads(
        docs.wait_for(f"({block}.querySelector('.live-responses-table .highlight-code code') || {{}}).textContent")
    )
    # 4 in over 32 ft is 1 in 96, half of the usual 1/4 in per ft: by hand
    assert answer["results"]["pitch_ratio"] == pytest.approx(1 / 96, rel=1e-12)
    assert answer["verdict"] == "attention"
    assert not docs.evaluate(SIDEWAYS)
    docs.evaluate(f"{block}.querySelector('.responses-wrapper').scrollIntoView()")
    docs.photograph(PICTURES / f"try-{size[0]}.png")
    assert docs.complaints == []
    assert outside(docs, server) == []
    docs.resize(*DESKTOP)


@pytest.mark.parametrize("slug", PROBLEMS)
def test_the_page_of_a_problem_fits_a_phone(slug: str, page: Any, server: tuple[str, int]) -> None:
    PICTURES.mkdir(parents=True, exist_ok=True)
    page.complaints.clear()
    page.requests.clear()
    page.resize(*PHONE)
    page.open(f"http://{server[0]}:{server[1]}/problems/{slug}")
    page.wait_for(f"location.pathname === '/problems/{slug}' && document.readyState === 'complete'")
    assert page.evaluate("document.querySelector('h1').textContent") == PROBLEMS[slug].title
    assert "`" not in page.evaluate("document.body.textContent")
    assert page.evaluate("getComputedStyle(document.querySelector('dt')).fontWeight") == "600"  # the style was let in
    assert not page.evaluate(SIDEWAYS)
    if slug == "contradiction":
        page.photograph(PICTURES / "problem-phone.png")
    # a browser asks for an icon by itself; a problem page has none
    assert [text for text in page.complaints if "favicon" not in text] == []
    assert outside(page, server) == []
    page.resize(*DESKTOP)
