"""The language of an answer: chosen by Accept-Language, told by Content-Language, never a reason to refuse."""

from typing import Any

import pytest
from flask.testing import FlaskClient

from service.tables.cautions import CAUTIONS
from service.tables.languages import texts
from service.tables.problems import PROBLEMS

PATH = "/v1/trap-check"
TRAP = {
    "pan_pressure": {"value": -1.2, "unit": "inH2O"},
    "outlet_drop": {"value": 0.25, "unit": "in"},
    "seal_depth": {"value": 2, "unit": "in"},
}


def ask(client: FlaskClient, field: str | None, path: str = PATH, body: Any = TRAP, **headers: str) -> Any:
    told = headers if field is None else {"Accept-Language": field, **headers}
    return client.post(path, json=body, headers=told)


@pytest.mark.parametrize(
    ("field", "language"),
    [
        (None, "en"),
        ("", "en"),
        ("en", "en"),
        ("en-US,en;q=0.9", "en"),
        ("es", "es"),
        ("ES", "es"),
        ("es-MX", "es"),
        ("es-419", "es"),
        ("es-MX,es;q=0.9,en;q=0.8", "es"),
        ("en-US,en;q=0.9,es;q=0.8", "en"),
        ("en;q=0.5, es", "es"),
        ("en;q=0.5, es-US;q=0.6", "es"),
        ("es;q=0.5, en;q=0.5", "en"),  # equals: the default
        ("fr", "en"),
        ("fr, es;q=0.1", "es"),
        ("fr, *;q=0.5", "en"),
        ("*", "en"),
        ("en;q=0, *", "es"),
        ("en;q=0", "en"),  # nothing is left: an answer in English all the same
        ("es;q=0", "en"),
        ("es;q=0, es-MX", "en"),  # what the plain tag says counts
        ("est", "en"),  # Estonian by its three letters is not Spanish
        ("es;q=nonsense", "en"),
        (";;;,,,=;q=", "en"),
        ("\u00f1", "en"),
        ("es," * 20000, "es"),
        ("x" * 100000, "en"),
    ],
)
def test_the_language_preferred_among_those_there_are(field: str | None, language: str, client: FlaskClient) -> None:
    """RFC 9110 12.5.4 with the lookup of RFC 4647 3.4, by hand."""
    answer = ask(client, field)
    assert answer.status_code == 200
    assert answer.headers["Content-Language"] == language
    assert answer.headers["Vary"] == "Accept, Accept-Language"  # a trap is also drawn


def test_only_words_differ(client: FlaskClient) -> None:
    english, spanish = (ask(client, language).get_json() for language in ("en", "es"))
    assert english["results"] == spanish["results"]
    assert english["verdict"] == spanish["verdict"]
    for one, other in zip(english["findings"], spanish["findings"], strict=True):
        for member in ("code", "severity", "pointer"):
            assert one[member] == other[member]
    for one, other in zip(english["cautions"], spanish["cautions"], strict=True):
        assert one["code"] == other["code"]
        assert other["message"] == texts("es")[CAUTIONS[one["code"]]]


def test_a_contradiction_is_told_in_the_language(client: FlaskClient) -> None:
    air = {"dry_bulb": {"value": 50, "unit": "degF"}, "dew_point": {"value": 60, "unit": "degF"}}
    body = {"pan_pressure": TRAP["pan_pressure"], "outlet_drop": TRAP["outlet_drop"], "unit_side_air": air}
    body |= {"seal_depth": TRAP["seal_depth"]}
    answer = ask(client, "es-MX", "/v1/trap-dry-out", body)
    assert answer.status_code == 422
    assert answer.headers["Content-Language"] == "es"
    assert answer.headers["Vary"] == "Accept-Language"
    problem = answer.get_json()
    assert problem["title"] == texts("es")["The facts contradict each other"]
    assert problem["detail"] == f"{problem['title']}."


def test_a_fault_of_the_schema_is_told_in_english(client: FlaskClient) -> None:
    answer = ask(client, "es", body={})
    assert answer.status_code == 400
    assert "Content-Language" not in answer.headers
    assert answer.get_json()["title"] == PROBLEMS["schema-mismatch"].title


@pytest.mark.parametrize("table", ["cautions", "findings", "symptoms", "units", "pipe-sizes", "drain-sizes"])
def test_a_table_has_a_tag_for_each_language(table: str, client: FlaskClient) -> None:
    path = f"/v1/reference/{table}"
    english, spanish = (client.get(path, headers={"Accept-Language": field}) for field in ("en", "es"))
    for answer, language in ((english, "en"), (spanish, "es")):
        assert answer.headers["Content-Language"] == language
        assert answer.headers["Vary"] == "Accept-Language"
    tag = english.headers["ETag"]
    again = client.get(path, headers={"Accept-Language": "en", "If-None-Match": tag})
    assert (again.status_code, again.headers["Vary"]) == (304, "Accept-Language")
