"""The glossary has every member, finding and problem type there is, in words, and what it says of them holds."""

import json
import re
from pathlib import Path
from typing import Any

import pytest
from flask.testing import FlaskClient

from service.tables.findings.catalogue import FINDINGS
from service.tables.problems import PROBLEMS

DOCUMENT = json.loads((Path(__file__).parents[2] / "openapi" / "openapi.json").read_bytes())
PATH = "/v1/reference/glossary"
TRAP = {"pan_pressure": {"value": -1.2, "unit": "inH2O"}, "outlet_drop": {"value": 2, "unit": "in"}}


def glossary(client: FlaskClient, query: str = "", **fields: str) -> Any:
    answer = client.get(f"{PATH}?{query}", headers=fields)
    assert answer.status_code == 200
    return answer.get_json()


def resolved(entry: dict[str, Any]) -> dict[str, Any]:
    target = DOCUMENT
    for token in entry.get("$ref", "").split("/")[1:]:
        target = target[token]
    return entry if target is DOCUMENT else target


def test_every_member_the_document_describes_is_explained(client: FlaskClient) -> None:
    told = {(row["term"], name, row["meaning"]) for row in glossary(client)["members"] for name in row["objects"]}
    described = {
        (term, name, member["description"])
        for name, schema in DOCUMENT["components"]["schemas"].items()
        for term, member in schema.get("properties", {}).items()
    }
    assert len(described) > 1000
    assert told == described


def test_every_parameter_and_header_field_is_explained(client: FlaskClient) -> None:
    told = {(row["term"], row["side"]) for row in glossary(client)["members"] if not row["objects"]}
    expected = set()
    for operations in DOCUMENT["paths"].values():
        for parameter in operations.get("parameters", []):
            expected.add((resolved(parameter)["name"], "request"))
        for operation in (operations[method] for method in {"get", "post"} & set(operations)):
            expected |= {(resolved(each)["name"], "request") for each in operation.get("parameters", [])}
            for response in operation["responses"].values():
                expected |= {(name, "answer") for name in resolved(response).get("headers", {})}
    assert told == expected


def test_every_member_names_the_operations_that_have_it(client: FlaskClient) -> None:
    members = glossary(client)["members"]
    assert {path for row in members if row["term"] == "outlet_drop" for path in row["operations"]} >= {
        "/v1/trap-check",
        "/v1/trap-sizing",
        "/v1/assessment",
    }
    assert {tuple(row["operations"]) for row in members if row["objects"] == ["TrapCheckRequest"]} == {
        ("/v1/trap-check",)
    }


def test_a_meaning_is_a_sentence(client: FlaskClient) -> None:
    for row in glossary(client)["members"]:
        assert re.match(r"[A-Z0-9`]", row["meaning"]), row
        assert row["meaning"].rstrip("`").endswith((".", "?")), row


def test_the_kind_says_what_else_there_is(client: FlaskClient) -> None:
    for row in glossary(client)["members"]:
        assert bool(row["words"]) is (row["kind"] == "choice"), row
        assert (row["quantity"] is not None) is (row["kind"] in ("quantity", "column")), row
        if row["quantity"]:
            assert row["units"], row
        if row["side"] == "answer":
            assert row["allowed"] == [], row
        elif row["quantity"]:
            assert [each["unit"] for each in row["allowed"]] == row["units"], row


@pytest.mark.parametrize("unit", ["in", "ft", "mm", "cm", "m"])
def test_the_allowed_range_is_the_one_that_is_accepted(unit: str, client: FlaskClient) -> None:
    [row] = [row for row in glossary(client, "term=seal_depth")["members"] if row["objects"][0] == "TrapCheckRequest"]
    [allowed] = [each for each in row["allowed"] if each["unit"] == unit]
    statuses = [
        client.post("/v1/trap-check", json=TRAP | {"seal_depth": {"value": value, "unit": unit}}).status_code
        for value in (
            allowed["minimum"],
            allowed["maximum"],
            allowed["minimum"] - 0.01,
            allowed["maximum"] + 0.01,
        )
    ]
    assert statuses == [200, 200, 400, 400]


def test_every_finding_is_told_as_a_technician_reads_it(client: FlaskClient) -> None:
    rows = {row["code"]: row for row in glossary(client)["findings"]}
    assert set(rows) == set(FINDINGS) == set(DOCUMENT["components"]["schemas"]["FindingCode"]["enum"])
    for code, row in rows.items():
        assert row["severity"] == FINDINGS[code].severity
        for name in ("message", "remedy"):
            template = getattr(FINDINGS[code], name)
            pieces = [re.escape(piece) for piece in re.split(r"\{[^}]*\}", template)]
            assert re.fullmatch(r"… ?[\w/%]*".join(pieces), row[name]), (template, row[name])
            assert not re.search(r"[{}|]", row[name]), row[name]


@pytest.mark.parametrize(("system", "pressure", "length"), [("us", "inH2O", "in"), ("si", "Pa", "mm")])
def test_a_message_has_the_units_asked_for(system: str, pressure: str, length: str, client: FlaskClient) -> None:
    [row] = glossary(client, f"term=outlet-drop-too-small&units={system}")["findings"]
    assert row["message"] == (
        f"The fan pulls … {pressure} on the pan, so that water has to stand … {length} above the trap's outlet before "
        f"any leaves. The outlet drop is … {length}, less than that: the pan holds … {length} of water while the fan "
        "runs."
    )


def test_findings_are_told_in_spanish_with_as_many_gaps(client: FlaskClient) -> None:
    english, spanish = glossary(client)["findings"], glossary(client, **{"Accept-Language": "es"})["findings"]
    for first, second in zip(english, spanish, strict=True):
        assert first["message"] != second["message"]
        assert first["message"].count("…") == second["message"].count("…")


def test_every_problem_type_is_told(client: FlaskClient) -> None:
    rows = {row["slug"]: row for row in glossary(client)["problems"]}
    assert set(rows) == set(PROBLEMS)
    for slug, row in rows.items():
        page = client.get(f"/problems/{slug}").get_data(as_text=True)
        assert str(row["status"]) in page
        assert row["title"] in page


def test_one_name_is_picked_out_whatever_it_names(client: FlaskClient) -> None:
    whole = glossary(client)
    for part, key in (("members", "term"), ("findings", "code"), ("problems", "slug")):
        name = whole[part][0][key]
        picked = glossary(client, f"term={name}")
        assert picked[part] == [row for row in whole[part] if row[key] == name]
    assert glossary(client, "term=no-such-thing") == {"members": [], "findings": [], "problems": []}


@pytest.mark.parametrize(
    ("query", "said"),
    [
        ("term=a&term=b", "stands more than once"),
        (f"term={'x' * 101}", "Received 101 characters; allowed 0 to 100."),
        ("name=a", "known: units, term."),
        ("units=imperial", "allowed: us, si"),
    ],
)
def test_a_wrong_query_is_refused(query: str, said: str, client: FlaskClient, check_problem: Any) -> None:
    problem = check_problem(client.get(f"{PATH}?{query}"), "schema-mismatch")
    assert said in problem["errors"][0]["detail"]


def test_other_tables_do_not_take_a_term(client: FlaskClient, check_problem: Any) -> None:
    problem = check_problem(client.get("/v1/reference/findings?term=a"), "schema-mismatch")
    assert problem["errors"][0]["detail"] == 'Unknown query parameter "term"; known: units.'


def test_it_is_kept_by_whoever_asks_again(client: FlaskClient) -> None:
    tag = client.get(PATH).headers["ETag"]
    assert client.get(PATH, headers={"If-None-Match": tag}).status_code == 304
    assert client.get(f"{PATH}?term=bore").headers["ETag"] != tag
