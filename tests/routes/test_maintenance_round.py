"""``POST /v1/maintenance-round`` as a dispatcher's software sees it."""

import json
from typing import Any

import pytest
from flask.testing import FlaskClient

from service.schemas.assessment import AssessmentRequest
from service.schemas.maintenance_round import MaintenanceRoundRequest

PATH = "/v1/maintenance-round"
SIX = MaintenanceRoundRequest.examples["six-units"]["value"]
ATTIC = AssessmentRequest.examples["attic-unit"]["value"]
PUMP = AssessmentRequest.examples["pumped-unit"]["value"]["pump"]
FULL = {**ATTIC, "pump": PUMP, "access": {"union": True, "vents": 1}, "months_since_cleaning": 9, "fouled": ["line"]}


def post(client: FlaskClient, body: dict[str, Any], query: str = "") -> dict[str, Any]:
    answer = client.post(PATH + query, json=body)
    assert answer.status_code == 200, answer.data[:500]
    document: dict[str, Any] = answer.get_json()
    return document


def test_the_worked_round_comes_in_the_order_any_dispatcher_would_agree_with(client: FlaskClient) -> None:
    """By hand: AHU-06 runs over electrical equipment; AHU-03's line is level and nothing stops it over a ceiling; of
    FC-02 nobody said what stops it; FC-04 holds water up behind a cut-out; RTU-05 is due over a bare roof; FC-01 is
    sound."""
    results = post(client, SIX)["results"]
    assert [stop["unit_id"] for stop in results["order"]] == ["AHU-06", "AHU-03", "FC-02", "FC-04", "RTU-05", "FC-01"]
    units = [row["visit"]["unit_id"] for row in results["units"]]
    assert units == [unit["unit_id"] for unit in SIX["units"]]
    first = results["units"][5]["visit"]
    assert first["urgency"] == "now"
    assert first["soonest_failure"] == {
        "failure": "running-over",
        "stop": "not-stopped",
        "time_to_building": {"value": 0.0, "unit": "min"},
        "would_wet": "electrical-equipment",
    }
    assert "the electrical equipment" in first["reasons"][0]["explanation"]


def test_each_reason_names_findings_that_stand_below_it(client: FlaskClient) -> None:
    for row in post(client, SIX)["results"]["units"]:
        visit = row["visit"]
        there = {finding["code"] for finding in visit["findings"]}
        assert there == {code for reason in visit["reasons"] for code in reason["findings"]}
        alone = client.post("/v1/assessment", json=strip(SIX["units"][row["index"]])).get_json()
        told = {finding["code"]: finding for finding in alone["findings"]}
        assert all(told[finding["code"]] == finding for finding in visit["findings"])
        severities = [finding["severity"] for finding in alone["findings"]]
        assert visit["finding_counts"] == {name: severities.count(name) for name in ("fail", "attention", "info")}
        assert visit["verdict"] == alone["verdict"]


def strip(unit: dict[str, Any]) -> dict[str, Any]:
    further = ("access", "fouled", "pumped", "pour_rate", "months_since_cleaning")
    return {name: value for name, value in unit.items() if name not in further}


def test_minutes_and_method_are_those_of_the_unit_alone(client: FlaskClient) -> None:
    for row in post(client, SIX)["results"]["units"]:
        unit = SIX["units"][row["index"]]
        members = ("unit_id", "location", "access", "fouled", "trap", "line", "pan", "pump", "pumped", "discharge")
        body = {name: unit[name] for name in members if name in unit} | {"equipment": SIX["equipment"]}
        peak = client.post("/v1/assessment", json=strip(unit)).get_json()["results"]["peak_rate"]
        alone = client.post("/v1/cleaning-plan", json={**body, "peak_flow": peak}).get_json()["results"]
        assert row["visit"]["method"] == alone["method"]
        assert row["visit"]["minutes"] == pytest.approx(alone["total_minutes"])


def test_a_bad_unit_spoils_only_its_own_row(client: FlaskClient) -> None:
    good = post(client, SIX)["results"]
    units = [*SIX["units"], {"unit_id": "x", "pan_presure": 1}, {"unit_id": 7}, {"trap": {"outlet_drop": 1}}]
    results = post(client, {**SIX, "units": units})["results"]
    assert [row["index"] for row in results["units"]] == list(range(9))
    assert [row["status"] for row in results["units"]] == [200] * 6 + [400] * 3
    assert results["units"][:6] == good["units"]
    assert results["order"] == good["order"]
    assert results["parts"] == good["parts"]
    assert results["consumables"] == good["consumables"]
    for row in results["units"][6:]:
        assert row["visit"] is None
        assert row["problem"]["errors"]
    assert 'did you mean "pan_pressure"?' in results["units"][6]["problem"]["errors"][0]["detail"]


@pytest.mark.parametrize("units", [[], [{}] * 1001])
def test_a_round_outside_its_bounds_is_refused(units: list[Any], client: FlaskClient) -> None:
    answer = client.post(PATH, data=json.dumps({"units": units}), content_type="application/json")
    assert answer.status_code == 400
    assert answer.get_json()["errors"] == [
        {"pointer": "/units", "detail": f"Received {len(units)} elements; allowed 1 to 1000."}
    ]


def test_a_unit_of_which_nothing_is_known_is_not_called_safe(client: FlaskClient) -> None:
    visit = post(client, {"units": [{}]})["results"]["units"][0]["visit"]
    assert visit["urgency"] == "this-month"
    assert {reason["condition"] for reason in visit["reasons"]} >= {"nothing-assessed", "stop-not-known"}
    assert visit["minutes"] > 0.0


def test_a_thousand_full_units_are_planned(client: FlaskClient) -> None:
    body = json.dumps({"units": [{**FULL, "unit_id": f"AHU-{number}"} for number in range(1000)]})
    results = client.post(PATH, data=body, content_type="application/json").get_json()["results"]
    assert [stop["index"] for stop in results["order"]] == list(range(1000))
    assert results["totals"]["units_read"] == 1000
    assert len(results["consumables"][0]["units"]) <= 1000


def test_units_follow_the_query_and_the_order_does_not(client: FlaskClient) -> None:
    us, si = post(client, SIX)["results"], post(client, SIX, "?units=si")["results"]
    assert us["order"] == si["order"]
    gas = [next(row for row in results["consumables"] if row["free_gas"])["free_gas"] for results in (us, si)]
    assert [amount["unit"] for amount in gas] == ["ft3", "L"]
    assert gas[0]["value"] * 28.316846592 == pytest.approx(gas[1]["value"])  # litres in a cubic foot: 0.3048^3 m3


HOSTILE = [
    "<script>alert(1)</script>",
    "{below} {months} {0} {__class__}",
    "%s %n %(x)s",
    "=cmd|' /C calc'!A0",
    '"; DROP TABLE units; --',
    "\u202eright to left\u202c",
    "\x00\x07\x1b[31m",
    "line\r\nSet-Cookie: a=b",
    "\U0001d54c\U0001d55f \U0001f6b0",
    "\ufffe\uffff",
    "../../etc/passwd",
    "",
]


@pytest.mark.parametrize("text", HOSTILE)
def test_a_hostile_text_is_repeated_back_as_it_is_and_goes_nowhere_else(text: str, client: FlaskClient) -> None:
    unit = {**FULL, "unit_id": text, "description": text}
    plain = post(client, {"units": [{**unit, "unit_id": "plain", "description": "plain"}]})
    answer = post(client, {"units": [unit]})
    assert answer["results"]["units"][0]["visit"]["unit_id"] == text
    assert answer["results"]["order"][0]["unit_id"] == text
    assert (
        json.loads(json.dumps(answer).replace(json.dumps(text), '"plain"')) == plain
        if text
        else answer["findings"] == plain["findings"]
    )


def test_hostile_text_where_no_text_belongs_is_named_in_its_row(client: FlaskClient) -> None:
    for name in ("below", "location", "unit_id"):
        wrong = {"unit_id": 7} if name == "unit_id" else {name: "<script>{below}"}
        row = post(client, {"units": [wrong]})["results"]["units"][0]
        assert row["status"] == 400
        assert row["problem"]["errors"][0]["pointer"] == f"/{name}"


@pytest.mark.parametrize("name", list(MaintenanceRoundRequest.examples))
def test_every_pointer_of_the_round_leads_to_a_member_it_has_or_could_have(name: str, client: FlaskClient) -> None:
    answer = post(client, MaintenanceRoundRequest.examples[name]["value"])
    for note in answer["findings"] + answer["assumptions"]:
        fields: dict[str, Any] = MaintenanceRoundRequest().fields
        for token in note["pointer"].split("/")[1:]:
            if token.isdigit():
                continue
            assert token in fields, note["pointer"]
            field = getattr(fields[token], "inner", fields[token])
            fields = getattr(getattr(field, "schema", None), "fields", {})
