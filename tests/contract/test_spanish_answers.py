"""Answers in Spanish: the same numbers and codes as in English, and no sentence of ours left in English."""

import csv
import io
import json
import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from flask import Flask
from flask.testing import FlaskClient
from jsonschema import Draft202012Validator

from service.routes.document import document_of

EXAMPLES = sorted((Path(__file__).parents[2] / "openapi" / "examples").glob("*.request.json"))

ENGLISH = re.compile(r"\b(the|and|of|is|are|with|that|until|where|there|its|not|for)\b", re.IGNORECASE)

CODE = re.compile(r"[a-z0-9]+(([-_/]|, )[a-z0-9]+)*|(/[a-z0-9_-]+)+|{[a-z]+}|")
"""Codes, names of members, sizes, lists of them, pointers and paths made of them, and a placeholder alone."""

AS_THEY_ARE = re.compile(r"/(unit|basis|clause|label|peak_time)$|/problem/")
"""Where symbols, clauses and titles of works stand, times, and faults of a request, which are told in English."""


def pairs(one: Any, other: Any, where: str = "") -> Iterator[tuple[str, Any, Any]]:
    """Every value of two answers, side by side."""
    assert type(one) is type(other), where
    if isinstance(one, dict):
        assert list(one) == list(other), where
        for name in one:
            yield from pairs(one[name], other[name], f"{where}/{name}")
    elif isinstance(one, list):
        assert len(one) == len(other), where
        for index, inner in enumerate(one):
            yield from pairs(inner, other[index], f"{where}/{index}")
    else:
        yield where, one, other


def figures(text: str) -> list[str]:
    return sorted(re.findall(r"\d+(?:[.,/]\d+)*", text))


def texts_of(value: Any) -> Iterator[str]:
    """Every text that the caller sent."""
    if isinstance(value, dict):
        for inner in value.values():
            yield from texts_of(inner)
    elif isinstance(value, list):
        for inner in value:
            yield from texts_of(inner)
    elif isinstance(value, str):
        yield value


def check_said(english: Any, spanish: Any, sent: set[str]) -> None:
    """Prove that nothing differs but our words, that all of these do, and that they have kept their numbers."""
    said = 0
    for where, one, other in pairs(english, spanish):
        if one == other:
            assert not isinstance(one, str) or one in sent or CODE.fullmatch(one) or AS_THEY_ARE.search(where), one
            continue
        assert isinstance(one, str), where
        assert not CODE.fullmatch(one) or where.endswith(("/basis", "/clause")), where
        assert figures(other) == figures(one), where
        assert not ENGLISH.search(re.sub(r"\{[^}]*\}", "", other)), other
        said += 1
    assert said


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.name.removesuffix(".request.json"))
def test_a_spanish_answer_says_the_same(path: Path, client: FlaskClient, app: Flask) -> None:
    document = document_of(app)
    paths = {name.removeprefix("/v1/").replace("/", "-"): name for name in document["paths"]}
    operation = paths[path.name.split(".")[0]]
    body = json.loads(path.read_bytes())
    english, spanish = (
        client.post(operation, json=body, headers={"Accept-Language": language}).get_json() for language in ("en", "es")
    )
    content = document["paths"][operation]["post"]["responses"]["200"]["content"]["application/json"]
    Draft202012Validator({**content["schema"], "components": document["components"]}).validate(spanish)
    check_said(english, spanish, set(texts_of(body)))


@pytest.mark.parametrize("table", ["cautions", "findings", "symptoms"])
def test_a_table_of_texts_says_the_same(table: str, client: FlaskClient) -> None:
    english, spanish = (
        client.get(f"/v1/reference/{table}", headers={"Accept-Language": language}).get_json()
        for language in ("en", "es")
    )
    check_said(english, spanish, set())


ROUNDS = [path for path in EXAMPLES if path.name.startswith("maintenance-round.")]


@pytest.mark.parametrize("path", ROUNDS, ids=lambda path: path.name.removesuffix(".request.json"))
def test_a_round_is_tabled_in_spanish(path: Path, client: FlaskClient) -> None:
    """Names of columns and codes stay; the reasons are said."""
    body = json.loads(path.read_bytes())
    english, spanish = (
        client.post("/v1/maintenance-round", json=body, headers={"Accept-Language": language, "Accept": "text/csv"})
        for language in ("en", "es")
    )
    assert spanish.content_type == english.content_type
    assert spanish.headers["Content-Language"] == "es"
    one, other = (list(csv.DictReader(io.StringIO(answer.get_data(as_text=True)))) for answer in (english, spanish))
    assert len(one) == len(other) == len(body["units"])
    for told, said in zip(one, other, strict=True):
        assert said.keys() == told.keys()
        assert {name: value for name, value in said.items() if name != "reasons"} == {
            name: value for name, value in told.items() if name != "reasons"
        }
        assert figures(said["reasons"]) == figures(told["reasons"])
        assert not ENGLISH.search(said["reasons"])
        assert bool(said["reasons"]) == (not said["problem"])
