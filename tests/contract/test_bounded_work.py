"""What a body may make the service do is bounded, and the bounds are wider than anything the schemas allow."""

import json
import re
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from flask.testing import FlaskClient

from service.routes.reading import BYTES_A_VALUE, MOST_TOLD

DOCUMENT: dict[str, Any] = json.loads((Path(__file__).parents[2] / "openapi" / "openapi.json").read_text())
CALCULATIONS = sorted(path for path, operations in DOCUMENT["paths"].items() if "post" in operations)
JSON = {"Content-Type": "application/json"}


def most_values(schema: dict[str, Any]) -> int:
    """Most values, inner ones too, that a value of ``schema`` holds, itself included."""
    if "$ref" in schema:
        return most_values(DOCUMENT["components"]["schemas"][schema["$ref"].rsplit("/", 1)[1]])
    for key in ("anyOf", "oneOf"):
        if key in schema:  # what stands for a unit that is answered with a problem is open, and has no most
            return max(most_values(one) for one in schema[key] if not one.get("$ref", "").endswith("/UnreadableUnit"))
    if schema.get("type") == "array":
        return 1 + int(schema["maxItems"]) * most_values(schema["items"])
    return 1 + sum(map(most_values, schema.get("properties", {}).values()))


@pytest.mark.parametrize("path", CALCULATIONS)
def test_a_large_body_may_hold_more_values_than_the_schema_allows(path: str, client: FlaskClient) -> None:
    answer = client.post(path, data=b"{}", headers=JSON, environ_overrides={"CONTENT_LENGTH": str(10**12)})
    limit = int(re.search(r"larger than (\d+) bytes", answer.get_json()["detail"])[1])  # type: ignore[index]
    schema = DOCUMENT["paths"][path]["post"]["requestBody"]["content"]["application/json"]["schema"]
    if limit > 1024 * 1024:  # smaller ones need no bound
        assert most_values(schema) < limit // BYTES_A_VALUE


def test_a_thousand_faults_are_not_all_told_but_all_counted(
    client: FlaskClient, check_problem: Callable[..., dict[str, Any]]
) -> None:
    wrong = {"distance": {"value": -1, "unit": "ft"}, "invert": {"value": 1, "unit": "kPa"}}
    document = check_problem(
        client.post("/v1/drain-survey", json={"pipe_size": "3/4", "stations": [wrong] * 900}), "schema-mismatch"
    )
    assert len(document["errors"]) == MOST_TOLD + 1
    assert document["detail"] == "The request has 1800 faults."
    assert document["errors"][-1] == {"pointer": "", "detail": "1300 more faults; the first 500 are named."}


@pytest.mark.parametrize("path", CALCULATIONS)
def test_junk_costs_less_than_a_call_for_every_two_bytes(
    path: str, client: FlaskClient, count_calls: Callable[[Callable[[], object]], int]
) -> None:
    """Counted, so that no busy machine fails it; a batch is answered, with a problem in the row."""
    size = 20_000
    for text in (
        "{" + ",".join(f'"{index:x}":0' for index in range(size)) + "}",
        '{"units":[{' + ",".join(f'"{index:x}":0' for index in range(size)) + "}]}",
        '{"units":[' + ",".join(["{}"] * size) + "]}",
        '{"a":[' + ",".join(['{"a":0}'] * size) + "]}",
        '{"a":"' + "\\u00e9" * size + '"}',
    ):
        answers: list[Any] = []
        calls = count_calls(lambda: answers.append(client.post(path, data=text, headers=JSON)))  # noqa: B023 - at once
        assert answers[0].status_code < 500
        assert calls < len(text) / 2 + 20_000
