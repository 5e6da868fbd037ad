"""Problem answers in the OpenAPI document: what each status means, where it is explained, and a real example."""

from http import HTTPStatus
from typing import Any

from werkzeug.test import Client

from service.routes.problems import MEDIA_TYPE, Problem, problem_document
from service.tables.problems import PROBLEMS

_FIELDS_OF = {
    401: {"WWW-Authenticate": {"description": "How to show a key (RFC 6750).", "schema": {"type": "string"}}},
    429: {
        "Retry-After": {"description": "Seconds to wait.", "schema": {"type": "integer", "minimum": 1}},
        "RateLimit": {"description": "What is left, and when the quota is full.", "schema": {"type": "string"}},
        "RateLimit-Policy": {"description": "The quota and its window.", "schema": {"type": "string"}},
    },
    503: {"Retry-After": {"description": "Seconds to wait.", "schema": {"type": "integer", "minimum": 1}}},
}
"""Header fields that answers of these statuses may have."""

_PATH = "/v1/trap-check"

_WRONG: dict[str, dict[str, Any]] = {
    "schema-mismatch": {
        "json": {
            "pan_pressure": {"value": -1.2, "unit": "inHg"},
            "outlet_drp": {"value": 0.25, "unit": "in"},
            "seal_depth": {"value": 2000, "unit": "in"},
        }
    },
    "malformed-body": {"data": "{'pan_pressure': -1.2}", "content_type": "application/json"},
    "unknown-path": {"path": "/v1/trap-chek", "json": {}},
    "method-not-allowed": {"path": "/v1/reference/units", "json": {}},
    "not-acceptable": {"json": {}, "headers": {"Accept": "text/plain"}},
    "unsupported-media-type": {"data": "pan_pressure=-1.2", "content_type": "application/x-www-form-urlencoded"},
    "contradiction": {
        "path": "/v1/condensate-rate/from-air-states",
        "json": {
            "air_flow": {"value": 1200, "unit": "cfm"},
            "entering_air": {"dry_bulb": {"value": 67, "unit": "degF"}, "wet_bulb": {"value": 80, "unit": "degF"}},
            "leaving_air": {"dry_bulb": {"value": 57, "unit": "degF"}, "relative_humidity_percent": 92},
        },
    },
}
"""Requests that get these problems; what the others need (a key, a limit, a fault of ours) is not there to be had."""


def problem_responses() -> dict[str, dict[str, Any]]:
    """A response of the document for each status, by its name there.

    Returns
    -------
    dict
    """
    responses = {}
    for status in sorted({row.status for row in PROBLEMS.values()}):
        rows = [row for row in PROBLEMS.values() if row.status == status]
        described: dict[str, Any] = {
            "description": " ".join(f"[{row.title}](/problems/{row.slug})." for row in rows),
            "content": {MEDIA_TYPE: {"schema": {"$ref": "#/components/schemas/Problem"}}},
        }
        if fields := _FIELDS_OF.get(status):
            described["headers"] = fields
        responses[HTTPStatus(status).name] = described
    return responses


def add_examples(responses: dict[str, Any], client: Client) -> None:
    """Give each of these responses an example of each problem with its status.

    Parameters
    ----------
    responses : dict
        Of the document's components, by name.
    client : werkzeug.test.Client
        Asks the application itself.
    """
    for row in PROBLEMS.values():
        response = responses.get(HTTPStatus(row.status).name)
        if response is None:
            continue
        if wrong := _WRONG.get(row.slug):
            value = client.post(**{"path": _PATH, **wrong}).get_json() or {}
            value.pop("request_id", None)  # another one each time
        else:
            value = problem_document(Problem(row.slug, detail=row.meaning), _PATH)
        response["content"][MEDIA_TYPE].setdefault("examples", {})[row.slug] = {"summary": row.title, "value": value}
