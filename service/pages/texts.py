"""A text in Markdown as a page: sections to link to, links between the texts, pictures inside the page."""

import re
from base64 import b64encode
from collections.abc import Sequence
from itertools import pairwise

from markdown_it import MarkdownIt
from markdown_it.token import Token
from markupsafe import Markup

from service.pages.shell import FOLDER, TEXTS, lay_out


def write_text(name: str) -> str:
    """Write the page of a text.

    Parameters
    ----------
    name : str
        Key of `service.pages.shell.TEXTS`.

    Returns
    -------
    str
    """
    reader = MarkdownIt("commonmark", {"html": False}).enable("table")
    tokens = reader.parse(FOLDER.joinpath(f"{name}.md").read_text(encoding="utf-8"))
    contents = []
    for opening, words in pairwise(tokens):
        if opening.type == "heading_open":
            anchor = re.sub(r"[^a-z0-9]+", "-", words.content.lower()).strip("-")
            opening.attrSet("id", anchor)
            if opening.tag == "h2":
                contents.append((anchor, words.content))
        for inline in words.children or ():
            _settle(inline)
    first = next(index for index, token in enumerate(tokens) if token.tag == "h2")

    def rendered(part: Sequence[Token]) -> Markup:
        return Markup(reader.renderer.render(part, reader.options, {}))  # noqa: S704  our own file, HTML in it escaped

    return lay_out(
        f"Condensate drainage service: {TEXTS[name]}",
        rendered(tokens[first:]),
        lead=rendered(tokens[:first]),
        contents=contents,
        here=f"/docs/{name}",
    )


def _settle(inline: Token) -> None:
    """Make what leads to a file beside the text lead to its page, and take a picture into the page."""
    target = str(inline.attrs.get("href", ""))
    if target.endswith(".md"):
        inline.attrSet("href", f"/docs/{target.removesuffix('.md')}")
    if inline.type == "image":
        picture = FOLDER.joinpath(str(inline.attrs["src"])).read_bytes()
        inline.attrSet("src", f"data:image/svg+xml;base64,{b64encode(picture).decode()}")
