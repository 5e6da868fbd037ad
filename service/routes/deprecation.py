"""Tells callers of an operation that it will go, in every answer of it and in the document.

References
----------
.. [1] RFC 9745, The Deprecation HTTP Response Header Field (a Date of RFC 9651, and the link relation).
.. [2] RFC 8594, The Sunset HTTP Header Field. RFC 5829 (successor-version).
"""

import functools
from collections.abc import Callable
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from flask import Response, after_this_request
from werkzeug.http import http_date

_FIELDS = {
    "Deprecation": "Since when this operation is deprecated (RFC 9745).",
    "Sunset": "When it may be gone (RFC 8594).",
    "Link": "What to do about it, and what takes its place.",
}


@dataclass(frozen=True, kw_only=True, slots=True)
class Deprecation:
    """When an operation was, or will be, deprecated, and what takes its place.

    Parameters
    ----------
    since : datetime.datetime
        With its time zone.
    notice : str
        URI reference of the page that says what to do.
    sunset : datetime.datetime or None
        When the operation may be gone, with its time zone; not before ``since``.
    successor : str or None
        URI reference of the operation to use instead.

    Raises
    ------
    ValueError
        For a time without a zone, or a sunset before the deprecation [1]_.
    """

    since: datetime
    notice: str
    sunset: datetime | None = None
    successor: str | None = None

    def __post_init__(self) -> None:
        if any(moment is not None and moment.tzinfo is None for moment in (self.since, self.sunset)):
            raise ValueError("a time without its zone")
        if self.sunset is not None and self.sunset < self.since:
            raise ValueError("a sunset before the deprecation")

    def fields(self) -> dict[str, str]:
        """The header fields."""
        links = [f'<{self.notice}>; rel="deprecation"; type="text/html"']
        if self.successor:
            links.append(f'<{self.successor}>; rel="successor-version"')
        fields = {"Deprecation": f"@{int(self.since.timestamp())}", "Link": ", ".join(links)}
        return fields | ({"Sunset": http_date(self.sunset)} if self.sunset else {})

    def of(self, view: Callable[..., Any]) -> Callable[..., Any]:
        """Make a view tell it, also with a problem, and document it."""
        fields = self.fields()

        def tell(response: Response) -> Response:
            for name, value in fields.items():
                response.headers.add(name, value)
            return response

        @functools.wraps(view)
        def telling(**path: Any) -> Any:
            after_this_request(tell)
            return view(**path)

        documented: dict[str, Any] = telling.__dict__.setdefault("_apidoc", {})
        documented.setdefault("manual_doc", {})["deprecated"] = True
        described = {name: {"description": _FIELDS[name], "schema": {"type": "string"}} for name in sorted(fields)}
        for written in documented.get("response", {}).get("responses", {}).values():
            for media in written:
                media["headers"] = described
        return telling
