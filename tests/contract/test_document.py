"""The committed document is the one the code makes, and its examples are what the service answers."""

import json
import re
from pathlib import Path

import pytest
from flask import Flask
from flask.testing import FlaskClient
from jsonschema import Draft202012Validator
from openapi_spec_validator import validate

from service.routes.document import document_bytes, document_of, shortened, write_document
from service.schemas.word_lists import WORD_LISTS

OPENAPI = Path(__file__).parents[2] / "openapi"
EXAMPLES = sorted((OPENAPI / "examples").glob("*.request.json"))

REWRITE = "run: flask --app service.app write-document"


def test_the_committed_document_is_what_the_code_makes(app: Flask) -> None:
    assert (OPENAPI / "openapi.json").read_bytes() == document_bytes(app), REWRITE


def test_the_committed_examples_are_what_the_code_makes(app: Flask, tmp_path: Path) -> None:
    write_document(app, tmp_path)
    fresh = {path.name: path.read_bytes() for path in (tmp_path / "examples").iterdir()}
    committed = {path.name: path.read_bytes() for path in (OPENAPI / "examples").iterdir()}
    assert committed.keys() == fresh.keys(), REWRITE
    for name, content in committed.items():
        if name.endswith(".svg"):  # a coordinate may round the other way on another processor
            assert NUMBER.sub("", content.decode()) == NUMBER.sub("", fresh[name].decode()), REWRITE
            assert numbers(content) == pytest.approx(numbers(fresh[name]), abs=0.011), REWRITE
        else:
            assert content == fresh[name], REWRITE


NUMBER = re.compile(r"-?\d+\.?\d*")


def numbers(drawing: bytes) -> list[float]:
    return [float(text) for text in NUMBER.findall(drawing.decode())]


def test_the_document_is_valid_openapi(app: Flask) -> None:
    validate(document_of(app))


def test_the_served_document_is_the_committed_one(client: FlaskClient) -> None:
    assert client.get("/openapi.json").get_json() == json.loads((OPENAPI / "openapi.json").read_bytes())


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_an_example_request_gives_its_example_answer(path: Path, client: FlaskClient, app: Flask) -> None:
    noun = path.name.split(".")[0]
    paths = {name.removeprefix("/v1/").replace("/", "-"): name for name in document_of(app)["paths"]}
    answer = client.post(paths[noun], json=json.loads(path.read_bytes()))
    expected = path.with_name(path.name.replace(".request.", ".answer."))
    assert answer.status_code == 200
    assert shortened(answer.get_json()) == json.loads(expected.read_bytes())


TABLES = sorted((OPENAPI / "examples").glob("*.request.csv"))


@pytest.mark.parametrize("path", TABLES, ids=lambda path: path.stem)
def test_an_example_in_csv_is_answered(path: Path, client: FlaskClient, app: Flask) -> None:
    """And where there is the same example in JSON, with the same results."""
    noun = path.name.split(".")[0]
    paths = {name.removeprefix("/v1/").replace("/", "-"): name for name in document_of(app)["paths"]}
    answer = client.post(paths[noun], data=path.read_bytes(), headers={"Content-Type": "text/csv"})
    assert answer.status_code == 200
    same = path.with_name(path.name.replace(".request.csv", ".answer.json"))
    if same.exists():
        assert shortened(answer.get_json()["results"]) == json.loads(same.read_bytes())["results"]


LINES = sorted((OPENAPI / "examples").glob("*.request.ndjson"))


@pytest.mark.parametrize("path", LINES, ids=lambda path: path.stem)
def test_an_example_in_lines_is_answered_in_lines(path: Path, client: FlaskClient, app: Flask) -> None:
    document = document_of(app)
    noun = path.name.split(".")[0]
    paths = {name.removeprefix("/v1/").replace("/", "-"): name for name in document["paths"]}
    answer = client.post(paths[noun], data=path.read_bytes(), headers={"Content-Type": "application/x-ndjson"})
    expected = path.with_name(path.name.replace(".request.", ".answer.")).read_bytes()
    assert [shortened(json.loads(row)) for row in answer.data.splitlines()] == [
        json.loads(row) for row in expected.splitlines()
    ]
    content = document["paths"][paths[noun]]["post"]["responses"]["200"]["content"]["application/x-ndjson"]
    schema = {**content["schema"]["contentSchema"], "components": document["components"]}
    Draft202012Validator(schema).validate([json.loads(line) for line in answer.data.splitlines()])


def test_there_are_examples_in_lines() -> None:
    assert LINES


def test_there_are_examples_in_csv_and_some_in_both() -> None:
    assert any(path.with_suffix(".json").exists() for path in TABLES)


def test_every_operation_is_described(app: Flask) -> None:
    document = document_of(app)
    ids = []
    for path, operations in document["paths"].items():
        for method in {"get", "post"} & set(operations):
            operation = operations[method]
            where = f"{method} {path}"
            ids.append(operation["operationId"])
            assert operation["summary"], where
            assert operation["tags"], where
            if method == "post":
                content = operation["requestBody"]["content"]["application/json"]
                assert content["examples"], where
                assert {"400", "406", "413", "415", "422"} < set(operation["responses"]), where
    assert len(ids) == len(set(ids))


def walk(schema: object, where: str = "") -> list[tuple[str, dict[str, object]]]:
    found = []
    if isinstance(schema, dict):
        found.append((where, schema))
        for key, inner in schema.items():
            found += walk(inner, f"{where}/{key}")
    elif isinstance(schema, list):
        for index, inner in enumerate(schema):
            found += walk(inner, f"{where}/{index}")
    return found


def test_every_request_member_is_bounded(app: Flask) -> None:
    """Every number has a minimum and a maximum, every text and array a greatest length, every object is closed."""
    schemas = document_of(app)["components"]["schemas"]

    def units_of(shape: dict[str, object]) -> list[str]:
        return schemas[shape["properties"]["unit"]["$ref"].rsplit("/", 1)[1]]["enum"]  # type: ignore[index]

    seen: set[str] = {"UnreadableUnit"}  # anything at all, for which its row has a problem
    queue = [
        operation["requestBody"]["content"]["application/json"]["schema"]["$ref"].rsplit("/", 1)[1]
        for operations in document_of(app)["paths"].values()
        for method, operation in operations.items()
        if method == "post"
    ]
    while queue:
        name = queue.pop()
        if name in seen:
            continue
        seen.add(name)
        schema = schemas[name]
        if "enum" in schema:
            continue
        assert schema["additionalProperties"] is False, name
        for member, described in schema["properties"].items():
            where = f"{name}.{member}"
            assert described["description"], where
            for at, inner in walk(described, where):
                if "$ref" in inner:
                    target = str(inner["$ref"]).rsplit("/", 1)[1]
                    if "unit" in schemas[target].get("properties", ()):
                        units = units_of(schemas[target])
                        rules = inner["allOf"]
                        assert isinstance(rules, list)
                        assert [rule["if"]["properties"]["unit"]["const"] for rule in rules] == units, at
                        for rule in rules:
                            then = rule["then"]["properties"]
                            bounds = then["value"] if "value" in then else then["values"]["items"]
                            assert bounds["minimum"] < bounds["maximum"], at
                    else:
                        queue.append(target)
                if inner.get("type") in ("number", "integer") and "/if/" not in at:
                    assert inner["minimum"] < inner["maximum"], at  # type: ignore[operator]
                if inner.get("type") == "string":
                    assert "maxLength" in inner or "enum" in inner, at
                if inner.get("type") == "array":
                    assert "maxItems" in inner, at


def test_the_examples_match_the_schema(app: Flask) -> None:
    document = document_of(app)
    for operations in document["paths"].values():
        for operation in (operations[method] for method in {"get", "post"} & set(operations)):
            for side in (operation.get("requestBody"), operation["responses"]["200"]):
                for media in (media for name, media in (side or {}).get("content", {}).items() if "json" in name):
                    schema = {**media["schema"], "components": document["components"]}
                    for example in media.get("examples", {}).values():
                        Draft202012Validator(schema).validate(example["value"])


def test_every_list_of_words_has_a_name_of_its_own(app: Flask) -> None:
    """Generators call a list by the member that holds it where it has no name: one type for each member."""
    document = document_of(app)
    assert not [where for where, inner in walk(document["paths"]) if "enum" in inner]
    named = {}
    for name, schema in document["components"]["schemas"].items():
        for where, inner in walk(schema, name):
            if "enum" not in inner:
                continue
            assert where == name, f"give the words of {where} a name in service/schemas/word_lists.py"
            if not name.startswith("Observed"):  # an observation of a triage has its own, whatever the words
                assert named.setdefault(tuple(inner["enum"]), name) == name  # type: ignore[call-overload]
            assert len(set(inner["x-enum-varnames"])) == len(inner["enum"]), name  # type: ignore[arg-type,call-overload]
    assert {each.name for each in WORD_LISTS.values()} <= set(named.values()), "a name that nothing uses"


def test_no_object_stands_inside_another_without_a_name(app: Flask) -> None:
    for where, inner in walk(document_of(app)["components"]["schemas"]):
        if inner.get("type") == "object" and "/properties/" in where:
            assert not inner.get("properties"), where


def test_json_stands_first_among_the_forms_of_an_answer(app: Flask) -> None:
    """Generators of clients take the first for the answer there is."""
    for path, operations in document_of(app)["paths"].items():
        for operation in (operations[method] for method in {"get", "post"} & set(operations)):
            forms = list(operation["responses"]["200"]["content"])
            assert "application/json" not in forms[1:], path
