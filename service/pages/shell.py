"""The frame around every text: where else to read, what is on the page, one style sheet, nothing from elsewhere."""

import re
from base64 import b64encode
from collections.abc import Iterable
from functools import cache
from hashlib import sha256
from importlib.resources import files

from jinja2 import Environment, Template
from markupsafe import Markup, escape

FOLDER = files("service.pages")

TEXTS = {
    "guide": "Guide",
    "book": "Curl book",
    "mistakes": "Ten commonest mistakes",
}
"""Pages written in Markdown, by the name of their file."""

PAGES = {**TEXTS, "findings": "All findings"}
"""Pages under ``/docs``."""


@cache
def _style() -> str:
    return FOLDER.joinpath("shell.css").read_text(encoding="utf-8")


@cache
def template(name: str) -> Template:
    """The template in a file of this folder; whatever is filled in is escaped."""
    environment = Environment(autoescape=True, trim_blocks=True, lstrip_blocks=True)
    return environment.from_string(FOLDER.joinpath(name).read_text(encoding="utf-8"))


@cache
def policy() -> str:
    """Content security policy of a page: its own style sheet, pictures inside it, and nothing else from anywhere."""
    digest = b64encode(sha256(_style().encode()).digest()).decode()
    return (
        f"default-src 'none'; style-src 'sha256-{digest}'; img-src data:; base-uri 'none'; form-action 'none'; "
        "frame-ancestors 'none'"
    )


def prose(text: str) -> Markup:
    """Escape a sentence, and show what stands in backticks as code."""
    return Markup(re.sub("`([^`]+)`", r"<code>\1</code>", str(escape(text))))  # noqa: S704  escaped here


def lay_out(
    title: str, body: Markup, *, lead: str = "", contents: Iterable[tuple[str, str]] = (), here: str = ""
) -> str:
    """Set a text into the frame.

    Parameters
    ----------
    title : str
        Of the page.
    body : markupsafe.Markup
    lead : markupsafe.Markup or str
        What stands above the list of contents.
    contents : iterable of (str, str)
        Anchor and words of each section.
    here : str
        Address of the page.

    Returns
    -------
    str
        The page.
    """
    pages = [("/docs", "API reference"), *((f"/docs/{name}", words) for name, words in PAGES.items())]
    style = Markup(_style())  # noqa: S704  our own file
    return template("shell.html").render(
        title=title, style=style, pages=pages, here=here, lead=lead, contents=list(contents), body=body
    )
