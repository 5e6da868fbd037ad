"""The examples of problems in the document are what the service answers."""

from typing import Any

import pytest
from flask import Flask
from jsonschema import Draft202012Validator

from service.routes.document import document_of
from service.routes.problem_answers import add_examples
from service.tables.problems import PROBLEMS


@pytest.fixture(scope="module")
def responses(app: Flask) -> dict[str, Any]:
    found: dict[str, Any] = document_of(app)["components"]["responses"]
    return found


def test_every_problem_of_the_document_has_its_example_and_its_page(responses: dict[str, Any], app: Flask) -> None:
    schemas = document_of(app)["components"]["schemas"]
    validator = Draft202012Validator({"$ref": "#/components/schemas/Problem", "components": {"schemas": schemas}})
    shown = set()
    for response in responses.values():
        for slug, example in response["content"]["application/problem+json"]["examples"].items():
            row = PROBLEMS[slug]
            assert f"[{row.title}](/problems/{slug})." in response["description"]
            validator.validate(example["value"])
            value = example["value"]
            assert (value["type"], value["title"], value["status"]) == (f"/problems/{slug}", row.title, row.status)
            shown.add(slug)
    statuses = {PROBLEMS[slug].status for slug in shown}
    assert shown == {slug for slug, row in PROBLEMS.items() if row.status in statuses}


def test_an_example_names_faults(responses: dict[str, Any]) -> None:
    def value(name: str, slug: str) -> Any:
        return responses[name]["content"]["application/problem+json"]["examples"][slug]["value"]

    assert len(value("BAD_REQUEST", "schema-mismatch")["errors"]) == 4
    assert value("UNPROCESSABLE_ENTITY", "contradiction")["errors"][0]["pointer"] == "/entering_air/wet_bulb"
    assert "application/x-www-form-urlencoded" in value("UNSUPPORTED_MEDIA_TYPE", "unsupported-media-type")["detail"]


def test_examples_are_answered_by_the_application_asked(app: Flask) -> None:
    responses: dict[str, Any] = {"METHOD_NOT_ALLOWED": {"content": {"application/problem+json": {}}}}
    add_examples(responses, app.test_client())
    example = responses["METHOD_NOT_ALLOWED"]["content"]["application/problem+json"]["examples"]["method-not-allowed"]
    assert example["value"]["instance"] == "/v1/reference/units"
