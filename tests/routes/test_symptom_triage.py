"""``POST /v1/symptom-triage`` and its table as a caller sees them."""

import copy
import json
from typing import Any

import pytest
from flask.testing import FlaskClient

from service.schemas.symptom_triage import SymptomTriageRequest

EXAMPLES = {name: example["value"] for name, example in SymptomTriageRequest.examples.items()}
HELD = EXAMPLES["held-up-by-suction"]


def post(client: FlaskClient, body: Any, query: str = "") -> Any:
    answer = client.post(f"/v1/symptom-triage{query}", json=body)
    assert answer.status_code == 200, answer.data
    return answer.get_json()


@pytest.mark.parametrize(
    ("name", "cause", "verdict"),
    [
        ("held-up-by-suction", "outlet-drop-too-small", "fail"),
        ("smell-in-winter", "trap-dry", "fail"),
        ("pump-runs-on-si", "pump-lift-too-high", "attention"),
        ("nothing-wrong", "no-water-made", "pass"),
        ("symptom-only", "safety-open-on-full-pan", "attention"),
    ],
)
def test_the_examples_are_the_cases_they_name(name: str, cause: str, verdict: str, client: FlaskClient) -> None:
    answer = post(client, EXAMPLES[name])
    assert answer["results"]["causes"][0]["cause"] == cause
    assert answer["verdict"] == verdict


def test_the_ranking_can_be_worked_out_from_the_published_table(client: FlaskClient) -> None:
    """From ``reference/symptoms`` alone: start points plus weights give the points, powers of two the shares."""
    table = client.get("/v1/reference/symptoms").get_json()
    start = {row["word"]: row["points"] for row in table["commonness"]}
    weight = {row["word"]: row["points"] for row in table["strengths"]}
    values = {(row["observation"], value["value"]): value for row in table["observations"] for value in row["values"]}
    body = {
        "symptom": "water-at-pan",
        "observations": {"season": "cooling", "fan_state": "makes-no-difference", "pour_test": "does-not-drain"},
    }
    row = next(row for row in table["symptoms"] if row["symptom"] == body["symptom"])
    points = {}
    for cause in row["causes"]:
        total = start[cause["how_common"]]
        for observed in body["observations"].items():  # type: ignore[attr-defined]
            for side, sign in (("speaks_for", 1), ("speaks_against", -1)):
                says = values[observed][side]
                if says and cause["cause"] in says["causes"]:
                    total += sign * weight[says["strength"]]
        points[cause["cause"]] = total
    answered = post(client, body)["results"]["causes"]
    assert {cause["cause"]: cause["points"] for cause in answered} == points
    whole = 1.0 + sum(2.0**value for value in points.values())
    for cause in answered:
        assert cause["share"] == pytest.approx(2.0 ** points[cause["cause"]] / whole, rel=1e-12)
    assert [cause["points"] for cause in answered] == sorted(points.values(), reverse=True)


def test_evidence_from_the_unit_carries_its_finding_in_the_units_asked_for(client: FlaskClient) -> None:
    for query, symbol in (("", " in"), ("?units=si", " mm")):
        leader = post(client, HELD, query)["results"]["causes"][0]
        findings = [finding for item in leader["evidence_for"] for finding in item["findings"]]
        assert [finding["code"] for finding in findings] == ["outlet-drop-too-small"]
        assert f"{symbol} of water" in findings[0]["message"]
        assert findings[0]["pointer"] == "/unit/trap/outlet_drop"


def test_a_contradiction_in_the_units_data_is_a_finding(client: FlaskClient) -> None:
    air = {"dry_bulb": {"value": 67, "unit": "degF"}, "wet_bulb": {"value": 80, "unit": "degF"}}
    leaving = {"dry_bulb": {"value": 57, "unit": "degF"}, "relative_humidity_percent": 92}
    states = {"air_flow": {"value": 1200, "unit": "cfm"}, "entering_air": air, "leaving_air": leaving}
    answer = post(client, {"symptom": "water-at-pan", "unit": {"air_states": states}})
    found = {finding["code"]: finding["pointer"] for finding in answer["findings"]}
    assert found["wet-bulb-above-dry-bulb"].startswith("/unit/air_states/entering_air")


HOSTILE = [
    "<script>alert(1)</script>",
    '"},{"a":1',
    "{outlet_drop:in|mm}",
    "\u202eevil\x00",
    "x" * 2000,
    "'; --",
    "%s%n",
]


@pytest.mark.parametrize("text", HOSTILE)
def test_the_description_is_not_repeated_and_changes_nothing(text: str, client: FlaskClient) -> None:
    body = {**HELD, "description": text, "unit": {**HELD["unit"], "description": text[:300], "unit_id": text[:80]}}
    answer = client.post("/v1/symptom-triage", json=body)
    assert answer.status_code == 200
    plain = {key: value for key, value in HELD.items() if key != "description"}
    assert answer.get_json() == post(client, plain)
    assert b"<script>" not in answer.data


def test_faults_are_named_with_the_nearest_known_member(client: FlaskClient) -> None:
    body = copy.deepcopy(HELD)
    body["symptom"] = "it-leaks"
    body["observations"] = {"trap_sate": "dry", "filter": "soaked"}
    body["unit"]["pan_presure"] = 1
    answer = client.post("/v1/symptom-triage", json=body)
    assert answer.status_code == 400
    faults = {fault["pointer"]: fault["detail"] for fault in answer.get_json()["errors"]}
    assert set(faults) == {"/symptom", "/observations/trap_sate", "/observations/filter", "/unit/pan_presure"}
    assert 'did you mean "trap_state"?' in faults["/observations/trap_sate"]
    assert "allowed: clean, dirty" in faults["/observations/filter"]


def test_every_cause_leads_to_an_operation_there_is(client: FlaskClient) -> None:
    paths = client.get("/openapi.json").get_json()["paths"]
    causes = client.get("/v1/reference/symptoms").get_json()["causes"]
    named = {cause["operation"] for cause in causes} - {None}
    assert len(named) >= 6
    assert named <= {path for path, methods in paths.items() if "post" in methods}


def test_an_answer_reads_on_a_phone(client: FlaskClient) -> None:
    """Every text is a short sentence: no raw code, no brace, nothing longer than a phone's screen."""
    texts: list[str] = []

    def walk(value: object, key: str = "") -> None:
        if isinstance(value, dict):
            for name, inner in value.items():
                walk(inner, name)
        elif isinstance(value, list):
            for inner in value:
                walk(inner, key)
        elif isinstance(value, str) and key in ("words", "why", "how", "do", "remedy", "question", "message", "name"):
            texts.append(value)

    for body in EXAMPLES.values():
        walk(post(client, body))
    assert len(texts) > 100
    for text in texts:
        assert "{" not in text
        assert "_" not in text
        assert len(text) <= 400, text


def test_the_table_holds_every_member_and_value_of_the_request(client: FlaskClient) -> None:
    table = client.get("/v1/reference/symptoms").get_json()
    document = client.get("/openapi.json").get_json()["components"]["schemas"]
    members = {
        name: document[member["$ref"].rsplit("/", 1)[1]]
        for name, member in document["TriageObservations"]["properties"].items()
    }
    listed = {row["observation"]: [value["value"] for value in row["values"]] for row in table["observations"]}
    assert listed == {name: member["enum"] for name, member in members.items()}
    assert [row["symptom"] for row in table["symptoms"]] == document["Symptom"]["enum"]
    assert {row["basis"] for rows in ("symptoms", "causes", "observations") for row in table[rows]} == {
        "common practice"
    }
    assert len(json.dumps(table)) < 200_000
