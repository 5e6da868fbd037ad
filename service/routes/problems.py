"""Errors on the wire: RFC 9457 problem details, and a page for each problem type.

References
----------
.. [1] RFC 9457, Problem Details for HTTP APIs.
.. [2] RFC 9110, HTTP Semantics (status names).
"""

from collections.abc import Mapping
from typing import Any
from urllib.parse import quote

import orjson
from flask import Response, request
from werkzeug.exceptions import HTTPException, MethodNotAllowed

from service.tables.languages import ENGLISH, said
from service.tables.problems import PROBLEMS

MEDIA_TYPE = "application/problem+json"


class Problem(Exception):
    """An error answer, by the slug of its type.

    Parameters
    ----------
    slug : str
        Key of `service.tables.problems.PROBLEMS`.
    detail : str
        What is wrong with this request, in plain language.
    errors : list of dict
        Every fault, each with ``detail`` and ``pointer`` or ``parameter``.
    headers : mapping
        Further header fields of the answer.
    language : str
        Language of ``detail`` and of the title.
    """

    def __init__(
        self,
        slug: str,
        *,
        detail: str,
        errors: list[dict[str, Any]] | None = None,
        headers: Mapping[str, str] | None = None,
        language: str = ENGLISH,
    ) -> None:
        super().__init__(detail)
        self.slug, self.detail, self.errors, self.headers = slug, detail, errors or [], dict(headers or {})
        self.language = language


def problem_document(problem: Problem, instance: str) -> dict[str, Any]:
    """Compose the problem details object [1]_ of one problem."""
    row = PROBLEMS[problem.slug]
    return {
        "type": f"/problems/{row.slug}",
        "title": said(row.title, problem.language),
        "status": row.status,
        "detail": problem.detail,
        "instance": instance,
        "errors": problem.errors,
    }


def answer_problem(problem: Problem) -> Response:
    """Answer with a problem."""
    # the path again percent-encoded: it may hold anything a client sent
    document = problem_document(problem, quote(request.path, safe="/"))
    if request_id := request.environ.get("service.request_id"):
        document["request_id"] = request_id
    response = Response(orjson.dumps(document), status=PROBLEMS[problem.slug].status, mimetype=MEDIA_TYPE)
    response.headers.extend(problem.headers)
    return response


# a 400 that is not raised as a `Problem` is not about a body: it could not be read at all
_SLUG_OF_STATUS = {row.status: row.slug for row in reversed(tuple(PROBLEMS.values()))} | {400: "bad-request"}


def answer_http_exception(error: HTTPException) -> Response:
    """Turn what Flask or werkzeug raised into a problem, keeping its header fields (Allow, Retry-After)."""
    status = error.code or 500
    if status < 400:
        return error.get_response()  # type: ignore[return-value]
    slug = _SLUG_OF_STATUS.get(status, "bad-request" if status < 500 else "internal-error")
    row = PROBLEMS[slug]
    if isinstance(error, MethodNotAllowed):  # a set, so that every process would name them in an order of its own
        error.valid_methods = sorted(error.valid_methods or ())
    kept = {
        name: value for name, value in error.get_headers() if name.lower() not in ("content-type", "content-length")
    }
    return answer_problem(Problem(slug, detail=row.meaning, headers=kept))
