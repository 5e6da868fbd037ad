"""The pages for people: nothing from elsewhere, no link that leads nowhere, every code and problem explained."""

import re
from base64 import b64encode
from hashlib import sha256
from html.parser import HTMLParser
from urllib.parse import urldefrag, urljoin

import pytest
from flask.testing import FlaskClient

from service.pages.shell import PAGES
from service.tables.findings.catalogue import FINDINGS
from service.tables.problems import PROBLEMS

ADDRESSES = [*(f"/docs/{name}" for name in PAGES), *(f"/problems/{slug}" for slug in PROBLEMS)]
VOID = {"meta", "link", "img", "br", "hr"}


class Reader(HTMLParser):
    """Keeps anchors, links, sources and the style sheet; fails at a tag that is closed by another."""

    def __init__(self, page: str) -> None:
        super().__init__()
        self.anchors: list[str] = []
        self.links: list[str] = []
        self.sources: list[str] = []
        self.words: list[str] = []
        self.open: list[str] = []
        self.style = ""
        self.feed(page)
        self.close()
        assert self.open == []

    def handle_starttag(self, tag: str, attributes: list[tuple[str, str | None]]) -> None:
        assert tag not in ("script", "iframe", "object", "form")
        for name, value in attributes:
            assert not name.startswith("on")
            assert name != "style"
            {"id": self.anchors, "href": self.links, "src": self.sources}.get(name, []).append(value or "")
        if tag not in VOID:
            self.open.append(tag)

    def handle_endtag(self, tag: str) -> None:
        if tag in VOID:  # written as XML would have it
            return
        assert self.open.pop() == tag

    def handle_data(self, data: str) -> None:
        if self.open and self.open[-1] == "style":
            self.style += data
        else:
            self.words.append(data)


def read(client: FlaskClient, address: str) -> Reader:
    answer = client.get(address)
    assert (answer.status_code, answer.mimetype) == (200, "text/html")
    return Reader(answer.get_data(as_text=True))


@pytest.mark.parametrize("address", ADDRESSES)
def test_a_page_holds_all_it_needs_and_its_policy_lets_in_nothing_else(address: str, client: FlaskClient) -> None:
    page = read(client, address)
    assert all(source.startswith("data:image/svg+xml;base64,") for source in page.sources)
    assert all(link.startswith(("/", "#", "data:,")) for link in page.links)
    digest = b64encode(sha256(page.style.encode()).digest()).decode()
    assert client.get(address).headers["Content-Security-Policy"] == (
        f"default-src 'none'; style-src 'sha256-{digest}'; img-src data:; base-uri 'none'; form-action 'none'; "
        "frame-ancestors 'none'"
    )
    assert "url(" not in page.style
    assert "@import" not in page.style


@pytest.mark.parametrize("address", ADDRESSES)
def test_no_link_leads_nowhere(address: str, client: FlaskClient) -> None:
    page = read(client, address)
    assert len(page.anchors) == len(set(page.anchors))
    for link in set(page.links) - {"data:,"}:
        target, anchor = urldefrag(urljoin(address, link))
        answer = client.get(target)
        assert answer.status_code == 200, link
        if anchor:
            assert anchor in Reader(answer.get_data(as_text=True)).anchors, link


@pytest.mark.parametrize("address", ["/docs", *ADDRESSES])
def test_every_page_leads_to_every_text(address: str, client: FlaskClient) -> None:
    page = client.get(address).get_data(as_text=True)
    for name in PAGES:
        assert f'href="/docs/{name}"' in page


def test_every_finding_is_explained_under_its_code(client: FlaskClient) -> None:
    page = read(client, "/docs/findings")
    words = " ".join("".join(page.words).split())
    assert page.anchors == sorted(FINDINGS)
    for row in FINDINGS.values():
        # up to the first value that an answer fills in
        for text in (row.message, row.remedy):
            assert " ".join(text.partition("{")[0].replace("`", "").split()) in words
    assert not re.search(r"\{\w+[:}]", words)


def test_the_guide_names_its_sections(client: FlaskClient) -> None:
    page = read(client, "/docs/guide")
    sections = [link.removeprefix("#") for link in page.links if link.startswith("#")]
    assert len(sections) > 10
    assert sections == [anchor for anchor in page.anchors if anchor in sections]


def test_there_is_no_other_page(client: FlaskClient, check_problem) -> None:
    detail = check_problem(client.get("/docs/shell"), "unknown-path")["detail"]
    assert detail == "There is no such page; known: guide, book, mistakes, findings."
    check_problem(client.get("/docs/guide.md"), "unknown-path")
    check_problem(client.get("/docs/guide", headers={"Accept": "application/json"}), "not-acceptable")
