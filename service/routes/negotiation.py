"""Content negotiation and the header fields every answer carries.

References
----------
.. [1] RFC 9110, HTTP Semantics, 12.5.1 (Accept).
"""

from collections.abc import Sequence

from flask import Flask, Request, Response, request
from werkzeug.datastructures import MIMEAccept

from service.routes.problems import Problem

_ANYTHING = ("", "*/*", "application/json")

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
    accept = received.headers.get("Accept", "")
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


def _finish(response: Response) -> Response:
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
