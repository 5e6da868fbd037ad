"""The API reference in a browser: it opens under its own policy, shows every operation, and tries one."""

import json
import time
from collections.abc import Callable, Iterator
from contextlib import AbstractContextManager
from hashlib import sha256
from pathlib import Path
from typing import Any
from urllib.parse import urlsplit

import pytest
from flask import Flask

from service.pages.shell import PAGES
from service.routes.document import document_of
from service.tables.problems import PROBLEMS

PICTURES = Path(__file__).parents[2] / "reports" / "browser"
DESKTOP, PHONE = (1280, 900), (360, 740)
OPERATIONS = "document.querySelectorAll('.opblock').length"
SIDEWAYS = "document.documentElement.scrollWidth > window.innerWidth"
KEY = "a-key-of-nobody-for-the-browser-tests"

# WCAG 2.1, 1.4.3: contrast of every text that is shown, where neither it nor what is behind it is a picture
PALE = """
(() => {
  const parts = colour => colour.match(/[\\d.]+/g).map(Number);
  const linear = part => (part /= 255) <= 0.04045 ? part / 12.92 : ((part + 0.055) / 1.055) ** 2.4;
  const luminance = ([r, g, b]) => 0.2126 * linear(r) + 0.7152 * linear(g) + 0.0722 * linear(b);
  const over = (front, back) => {
    const alpha = front.length > 3 ? front[3] : 1;
    return [0, 1, 2].map(index => front[index] * alpha + back[index] * (1 - alpha));
  };
  const behind = element => {
    if (!element) return [255, 255, 255];
    const colour = parts(getComputedStyle(element).backgroundColor);
    return colour[3] === 0 ? behind(element.parentElement) : over(colour, behind(element.parentElement));
  };
  const pale = new Set();
  const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  while (walker.nextNode()) {
    const element = walker.currentNode.parentElement;
    if (!walker.currentNode.data.trim() || !element.checkVisibility({visibilityProperty: true})) continue;
    if (element.closest("svg, script, style, noscript, option") || !element.getClientRects().length) continue;
    const style = getComputedStyle(element), back = behind(element);
    const [one, other] = [luminance(over(parts(style.color), back)), luminance(back)];
    const contrast = (Math.max(one, other) + 0.05) / (Math.min(one, other) + 0.05);
    const size = parseFloat(style.fontSize), large = size >= 24 || size >= 18.66 && style.fontWeight >= 700;
    if (contrast < (large ? 3 : 4.5)) pale.add(contrast.toFixed(2) + " " + walker.currentNode.data.trim().slice(0, 40));
  }
  return [...pale];
})()
"""

Server = tuple[str, int]


@pytest.fixture
def docs(page: Any, server: Server) -> Iterator[Any]:
    """The reference, freshly opened and drawn."""
    PICTURES.mkdir(parents=True, exist_ok=True)
    open_docs(page, server)
    yield page
    page.resize(*DESKTOP)


def open_docs(page: Any, server: Server) -> None:
    page.complaints.clear()
    page.requests.clear()
    page.open("about:blank")
    page.open(f"http://{server[0]}:{server[1]}/docs")
    page.wait_for(OPERATIONS)


def block(path: str) -> str:
    """JavaScript for the part of the page that an operation has."""
    return (
        "[...document.querySelectorAll('.opblock')].find(block => "
        f"block.querySelector('.opblock-summary-path').dataset.path === '{path}')"
    )


def open_operation(page: Any, path: str) -> str:
    page.evaluate(f"{block(path)}.querySelector('.opblock-summary-control').click()")
    # the parts come one after the other
    for part in (".execute", "textarea", ".response-control-media-type select"):
        page.wait_for(f"!!{block(path)}.querySelector('{part}')")
    return block(path)


def choose(page: Any, choice: str, value: str) -> None:
    """Choose in a list, as a person does."""
    page.evaluate(
        f"(() => {{ const choice = {choice};"
        "Object.getOwnPropertyDescriptor(HTMLSelectElement.prototype, 'value').set.call(choice, "
        f"{json.dumps(value)}); choice.dispatchEvent(new Event('change', {{bubbles: true}})); }})()"
    )


def write(page: Any, field: str, value: str) -> None:
    """Write into a field, as a person does."""
    page.evaluate(
        f"(() => {{ const field = {field};"
        "Object.getOwnPropertyDescriptor(Object.getPrototypeOf(field), 'value').set.call(field, "
        f"{json.dumps(value)}); field.dispatchEvent(new Event('input', {{bubbles: true}})); }})()"
    )


def execute(page: Any, path: str, accept: str = "") -> str:
    """Execute an operation that is open, and return the JavaScript for where its answer stands."""
    if accept:
        choose(page, f"{block(path)}.querySelector('.response-control-media-type select')", accept)
    page.evaluate(f"{block(path)}.querySelector('.execute').click()")
    return f"{block(path)}.querySelector('.live-responses-table')"


def outside(page: Any, server: Server) -> list[str]:
    """Requests that went anywhere but to the service."""
    own = f"{server[0]}:{server[1]}"
    return [
        url
        for url in page.requests
        if urlsplit(url).scheme not in ("data", "about", "blob") and urlsplit(url).netloc != own
    ]


def test_the_reference_opens_and_shows_every_operation(docs: Any, server: Server, app: Flask) -> None:
    paths = document_of(app)["paths"]
    operations = {f"{method.upper()} {path}" for path, item in paths.items() for method in {"get", "post"} & set(item)}
    shown = docs.evaluate(
        "[...document.querySelectorAll('.opblock')].map(block => "
        "block.querySelector('.opblock-summary-method').textContent + ' ' + "
        "block.querySelector('.opblock-summary-path').dataset.path)"
    )
    assert set(shown) == operations
    assert len(shown) == len(operations)
    # no key is asked for here, and nothing speaks of one
    assert not docs.evaluate("document.querySelector('.authorize').checkVisibility()")
    docs.photograph(PICTURES / "docs-desktop.png")
    assert docs.complaints == []
    assert outside(docs, server) == []


def test_the_policy_is_the_strictest_that_works(docs: Any, server: Server) -> None:
    """No inline script or style runs, and the complaint of the browser proves that complaints are heard here."""
    docs.evaluate(
        "document.body.appendChild(Object.assign(document.createElement('script'), {textContent: 'window.ran = 1'}));"
        "document.body.appendChild(Object.assign(document.createElement('style'), {textContent: 'a {color: red}'}));"
        "fetch('http://127.0.0.1:9/').catch(() => 0)"
    )
    docs.wait_for("true")
    assert docs.evaluate("window.ran") is None
    text = " ".join(docs.complaints)
    for directive in ("script-src 'self'", "style-src 'self'", "connect-src 'self'"):
        assert directive in text


@pytest.mark.parametrize("size", [DESKTOP, PHONE], ids=["desktop", "phone"])
def test_an_example_is_tried_and_its_answer_shown(docs: Any, server: Server, size: tuple[int, int]) -> None:
    docs.resize(*size)
    operation = open_operation(docs, "/v1/drain-pitch")
    sent = json.loads(docs.evaluate(f"{operation}.querySelector('textarea').value"))
    assert sent == {"run": {"value": 32, "unit": "ft"}, "fall": {"value": 4, "unit": "in"}}
    answered = execute(docs, "/v1/drain-pitch")
    answer = json.loads(docs.wait_for(f"({answered}?.querySelector('.highlight-code code') || {{}}).textContent"))
    # 4 in over 32 ft is 1 in 96, half of the usual 1/4 in per ft: by hand
    assert answer["results"]["pitch_ratio"] == pytest.approx(1 / 96, rel=1e-12)
    assert answer["verdict"] == "attention"
    said = docs.evaluate(f"{answered}.querySelector('.said').textContent")
    assert said.startswith("Verdict: attention")
    assert answer["findings"][0]["message"] in said
    link = docs.evaluate(f"{answered}.querySelector('.said a').getAttribute('href')")
    assert link == f"/docs/findings#{answer['findings'][0]['code']}"
    assert not docs.evaluate(SIDEWAYS)
    assert docs.evaluate(PALE) == []
    docs.evaluate(f"{operation}.querySelector('.responses-wrapper').scrollIntoView()")
    docs.photograph(PICTURES / f"try-{size[0]}.png")
    assert docs.complaints == []
    assert outside(docs, server) == []


def test_another_example_fills_the_body(docs: Any, app: Flask) -> None:
    operation = open_operation(docs, "/v1/trap-check")
    post = document_of(app)["paths"]["/v1/trap-check"]["post"]
    for name, example in post["requestBody"]["content"]["application/json"]["examples"].items():
        choose(docs, f"{operation}.querySelector('.opblock-section-request-body .examples-select-element')", name)
        body = f"{operation}.querySelector('textarea').value"
        docs.wait_for(f"JSON.stringify(JSON.parse({body})) === JSON.stringify({json.dumps(example['value'])})")


def test_a_drawing_is_shown_as_a_picture(docs: Any, server: Server) -> None:
    open_operation(docs, "/v1/trap-check")
    answered = execute(docs, "/v1/trap-check", "image/svg+xml")
    docs.wait_for(f"({answered}?.querySelector('.said img') || {{}}).naturalWidth > 0")
    docs.evaluate(f"{answered}.scrollIntoView()")
    docs.photograph(PICTURES / "try-drawing.png")
    assert docs.complaints == []
    assert outside(docs, server) == []


def test_a_report_is_shown_and_saved(docs: Any, server: Server, tmp_path: Path) -> None:
    open_operation(docs, "/v1/assessment")
    answered = execute(docs, "/v1/assessment", "text/html")
    docs.wait_for(f"!!{answered}?.querySelector('.said iframe')")
    docs.evaluate(f"{answered}.scrollIntoView()")
    docs.photograph(PICTURES / "try-report.png")
    docs.ask("Page.setDownloadBehavior", behavior="allow", downloadPath=str(tmp_path))
    answered = execute(docs, "/v1/assessment", "application/pdf")
    docs.wait_for(f"!!{answered}?.querySelector('.said a[download]')")
    docs.evaluate(f"{answered}.querySelector('.said a[download]').click()")
    saved = tmp_path / "report.pdf"
    deadline = time.monotonic() + 30
    while not saved.exists():
        assert time.monotonic() < deadline, "nothing was saved"
        time.sleep(0.1)
    assert saved.read_bytes().startswith(b"%PDF-")
    # the report's own style sheet was let in, and nothing was refused
    assert docs.complaints == []
    assert outside(docs, server) == []


def test_a_fault_is_told_in_words_and_leads_to_its_page(docs: Any) -> None:
    operation = open_operation(docs, "/v1/drain-pitch")
    write(docs, f"{operation}.querySelector('textarea')", '{"run": 32}')
    answered = execute(docs, "/v1/drain-pitch")
    docs.wait_for(f"!!{answered}?.querySelector('.said')")
    said = docs.evaluate(f"{answered}.querySelector('.said').textContent")
    assert said.startswith(PROBLEMS["schema-mismatch"].title)
    assert "/run: Received 32" in said
    assert docs.evaluate(f"{answered}.querySelector('.said a').pathname") == "/problems/schema-mismatch"
    explained = docs.evaluate(
        f"[...{operation}.querySelectorAll('tr.response[data-code] a')].map(link => link.pathname.split('/').pop())"
    )
    assert {"schema-mismatch", "malformed-body", "contradiction", "key-required"} <= set(explained) <= set(PROBLEMS)


def test_the_keyboard_is_enough(docs: Any) -> None:
    """Tab to an operation, open it, tab to the button, execute; whatever has the keyboard shows it."""

    def tab_to(target: str) -> None:
        for _ in range(150):
            docs.press("Tab")
            width = docs.evaluate("parseFloat(getComputedStyle(document.activeElement).outlineWidth)")
            assert width >= 2, docs.evaluate("document.activeElement.outerHTML.slice(0, 200)")
            if docs.evaluate(f"document.activeElement === {target}"):
                return
        raise AssertionError(f"{target} is not reached")

    operation = block("/v1/drain-pitch")
    tab_to(f"{operation}.querySelector('.opblock-summary-control')")
    docs.press("Enter", "\r")
    docs.wait_for(f"!!{operation}.querySelector('.execute')")
    tab_to(f"{operation}.querySelector('textarea')")
    tab_to(f"{operation}.querySelector('.execute')")
    docs.press("Enter", "\r")
    docs.wait_for(f"!!{operation}.querySelector('.live-responses-table .said')")
    tab_to(f"{operation}.querySelector('.said a')")


def test_everything_that_is_worked_has_a_name(docs: Any) -> None:
    """By the browser's own accessibility tree, which is what a screen reader is told."""
    open_operation(docs, "/v1/trap-check")
    answered = execute(docs, "/v1/trap-check")
    docs.wait_for(f"!!{answered}?.querySelector('.said')")
    docs.wait_for("!document.querySelector('select:not([aria-label])')")
    nodes = docs.ask("Accessibility.getFullAXTree")["nodes"]
    worked = [node for node in nodes if node["role"]["value"] in ("button", "link", "combobox", "textbox")]
    assert len(worked) > 60
    assert [node for node in worked if not node.get("name", {}).get("value")] == []


def test_a_service_with_keys_is_tried_with_a_key(
    page: Any, start_server: Callable[..., AbstractContextManager[Server]]
) -> None:
    with start_server(API_KEYS=f"browser:{sha256(KEY.encode()).hexdigest()}") as server:
        open_docs(page, server)
        open_operation(page, "/v1/drain-pitch")
        answered = execute(page, "/v1/drain-pitch")
        page.wait_for(f"({answered}?.querySelector('.said') || {{}}).textContent?.startsWith('A key is needed')")
        page.evaluate("document.querySelector('.btn.authorize').click()")
        page.wait_for("!!document.querySelector('.auth-container input')")
        write(page, "document.querySelector('.auth-container input')", KEY)
        page.evaluate("document.querySelector('.auth-container button[type=submit]').click()")
        page.wait_for("!document.querySelector('.auth-container input')")
        page.evaluate("document.querySelector('.auth-container .btn-done').click()")
        answered = execute(page, "/v1/drain-pitch")
        page.wait_for(f"({answered}?.querySelector('.said') || {{}}).textContent?.startsWith('Verdict: attention')")
        # the browser itself remarks on the 401
        assert [text for text in page.complaints if "401" not in text] == []


@pytest.mark.parametrize("address", [*(f"/docs/{name}" for name in PAGES), *(f"/problems/{slug}" for slug in PROBLEMS)])
def test_a_page_fits_a_phone(address: str, page: Any, server: Server) -> None:
    PICTURES.mkdir(parents=True, exist_ok=True)
    page.complaints.clear()
    page.requests.clear()
    page.resize(*PHONE)
    page.open(f"http://{server[0]}:{server[1]}{address}")
    page.wait_for(f"location.pathname === '{address}' && document.readyState === 'complete'")
    assert "`" not in page.evaluate("document.querySelector('main').innerText")
    assert (
        page.evaluate("getComputedStyle(document.querySelector('h1')).lineHeight") != "normal"
    )  # the style was let in
    assert page.evaluate("[...document.images].every(image => image.naturalWidth > 0)")
    assert not page.evaluate(SIDEWAYS)
    assert page.evaluate(PALE) == []
    page.photograph(PICTURES / f"{address.rpartition('/')[2]}-phone.png")
    assert page.complaints == []
    assert outside(page, server) == []
    page.resize(*DESKTOP)
