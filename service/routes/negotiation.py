"""Content negotiation and the header fields every answer carries.

References
----------
.. [1] RFC 9110, HTTP Semantics, 12.5.1 (Accept), 12.5.4 (Accept-Language).
.. [2] RFC 4647, Matching of Language Tags, 3.4 (Lookup).
"""

from collections.abc import Mapping, Sequence
from functools import lru_cache
from typing import TYPE_CHECKING

from flask import Flask, Request, Response, request
from werkzeug.datastructures import Headers, LanguageAccept, MIMEAccept
from werkzeug.http import parse_accept_header

from service.routes.problems import Problem
from service.tables.languages import ENGLISH, LANGUAGES

if TYPE_CHECKING:
    from _typeshed.wsgi import WSGIEnvironment

_ANYTHING = ("", "*/*", "application/json")

LANGUAGE_PARAMETER = {
    "name": "Accept-Language",
    "description": "The language to answer in (RFC 9110): `en`, US English, the default, or `es`, Spanish. A regional "
    "tag stands for its language; where neither is asked for the answer is in English.",
    "schema": {"type": "string"},
    "examples": {"english": {"summary": "US English", "value": "en"}, "spanish": {"summary": "Spanish", "value": "es"}},
}
"""What the document says of the field; operations name it `AcceptLanguage`."""

LANGUAGE_HEADER = {
    "description": "The language of the answer's texts.",
    "schema": {"type": "string", "enum": list(LANGUAGES)},
}
"""What the document says of the answer's field; operations name it `ContentLanguage`."""

_HEADERS = {
    "X-Content-Type-Options": "nosniff",
    "Content-Security-Policy": "default-src 'none'; frame-ancestors 'none'",
    "Referrer-Policy": "no-referrer",
    "Cache-Control": "no-store",
}


def chosen(received: Request, offered: Sequence[str]) -> str:
    """Choose what to answer with by the Accept field [1]_: the first offered, unless another is preferred.

    Parameters
    ----------
    received : flask.Request
    offered : sequence of str
        Media types, the default first.

    Returns
    -------
    str

    Raises
    ------
    Problem
        406 when the field leaves out all of them.
    """
    accept = received.environ.get("HTTP_ACCEPT", "")
    if accept in _ANYTHING and offered[0] == "application/json":
        return offered[0]
    if not accept:
        return offered[0]
    # parameters are dropped: no type answered with has any that matter, and clients do send charset=utf-8
    ranges = MIMEAccept([(name.partition(";")[0].strip(), quality) for name, quality in received.accept_mimetypes])
    best = max(offered, key=ranges.quality)  # the first of equals
    if not ranges.quality(best):  # zero for what is left out or has q=0
        raise Problem("not-acceptable", detail=f"This path answers with {' or '.join(offered)} only.")
    return best


def language_of(received: Request) -> str:
    """Choose the language to answer in by the Accept-Language field [1]_: English, unless another is preferred.

    A regional tag stands for its language [2]_: ``es-MX`` asks for ``es``. Where none is left that we have, the answer
    is in English all the same: a technician reads that better than a refusal.

    Parameters
    ----------
    received : flask.Request

    Returns
    -------
    str
        One of `service.tables.languages.LANGUAGES`.
    """
    field = received.environ.get("HTTP_ACCEPT_LANGUAGE")
    return _preferred(field) if field else ENGLISH


@lru_cache(maxsize=256)  # clients send few different ones, and a server bounds their length
def _preferred(field: str) -> str:
    wanted: dict[str, float] = {}
    for tag, quality in parse_accept_header(field, LanguageAccept):
        tag = tag.replace("_", "-").lower()
        language = tag.partition("-")[0]
        # the plain tag says more of a language than one of its regions does
        wanted[language] = quality if tag == language else max(quality, wanted.get(language, 0.0))
    qualities = [wanted.get(language, wanted.get("*", 0.0)) for language in LANGUAGES]
    return LANGUAGES[qualities.index(max(qualities))]  # the first of equals


class _SoundHeaders(Headers):
    """Header fields of ours, in which no line break has to be looked for."""

    def __init__(self, fields: list[tuple[str, str]]) -> None:
        self._list = fields


class PlainAnswer(Response):
    """An answer of bytes whose header fields are all there from the start, so that nothing has to look at them again.

    Parameters
    ----------
    content : bytes
    status : int
    fields : mapping
        Header fields of its own.
    """

    def __init__(self, content: bytes, status: int, fields: Mapping[str, str]) -> None:
        headers = _SoundHeaders([*fields.items(), *_HEADERS.items(), ("Content-Length", str(len(content)))])
        super().__init__([content], status, headers, direct_passthrough=True)
        self._length = len(content)

    @property
    def content_length(self) -> int:  # type: ignore[override]
        """Bytes of the content."""
        return self._length

    def get_wsgi_headers(self, environ: "WSGIEnvironment") -> Headers:
        """The fields as they are: there is no location to complete."""
        return self.headers


def _finish(response: Response) -> Response:
    if isinstance(response, PlainAnswer):
        return response
    headers = response.headers
    present = {name for name, _ in headers}  # views spell these names as here; `setdefault` would search for each
    for name, value in _HEADERS.items():
        if name not in present:
            headers.add(name, value)
    if request.method == "OPTIONS" and response.status_code == 200:  # Flask's own: Allow and nothing else
        response.status_code = 204
        del response.headers["Content-Type"]
    return response


def install(app: Flask) -> None:
    """Give every answer of ``app``, errors included, its common header fields."""
    app.after_request(_finish)
