"""``POST /v1/assessment`` and its batch as a caller sees them."""

import json

import pytest
from flask.testing import FlaskClient

from service.schemas.assessment import AssessmentRequest

ATTIC = AssessmentRequest.examples["attic-unit"]["value"]


def test_findings_come_worst_first_and_make_the_verdict(client: FlaskClient) -> None:
    answer = client.post("/v1/assessment", json=ATTIC).get_json()
    rank = {"fail": 0, "attention": 1, "info": 2}
    order = [rank[finding["severity"]] for finding in answer["findings"]]
    assert order == sorted(order)
    assert answer["verdict"] == "fail"
    assert all(finding["remedy"] for finding in answer["findings"])


def resolve(body: object, pointer: str) -> object:
    for token in pointer.split("/")[1:]:
        body = body[int(token)] if isinstance(body, list) else body[token]  # type: ignore[index]
    return body


@pytest.mark.parametrize("name", list(AssessmentRequest.examples))
def test_every_finding_points_into_the_request_or_at_a_member_it_could_have(name: str, client: FlaskClient) -> None:
    body = AssessmentRequest.examples[name]["value"]
    answer = client.post("/v1/assessment", json=body).get_json()
    known = AssessmentRequest().fields
    for note in answer["findings"] + answer["assumptions"]:
        tokens = note["pointer"].split("/")[1:]
        fields, at = known, None
        for token in tokens:
            if token.isdigit():
                continue
            assert token in fields, note["pointer"]
            at = fields[token]
            inner = getattr(at, "inner", at)
            fields = getattr(getattr(inner, "schema", None), "fields", {})


def test_a_batch_keeps_its_order_and_a_bad_unit_spoils_only_its_own_row(client: FlaskClient) -> None:
    units = [{**ATTIC, "unit_id": f"AHU-{number}"} for number in range(20)]
    units[7] = {"unit_id": "AHU-7", "pan_presure": 1}
    units[11] = {**ATTIC, "trap": {"outlet_drop": {"value": 9, "unit": "m"}}}
    rows = client.post("/v1/assessment/batch", json={"units": units}).get_json()["rows"]
    assert [row["index"] for row in rows] == list(range(20))
    assert [row["index"] for row in rows if row["status"] != 200] == [7, 11]
    for row in rows:
        if row["status"] == 200:
            assert row["answer"]["results"]["unit_id"] == f"AHU-{row['index']}"
            assert row["problem"] is None
        else:
            assert row["answer"] is None
    faults = {fault["pointer"]: fault["detail"] for fault in rows[7]["problem"]["errors"]}
    assert 'did you mean "pan_pressure"?' in faults["/pan_presure"]
    assert {fault["pointer"] for fault in rows[11]["problem"]["errors"]} == {
        "/trap/outlet_drop/value",
        "/trap/seal_depth",
    }


def test_a_row_answers_what_the_unit_would_alone(client: FlaskClient) -> None:
    alone = client.post("/v1/assessment?units=si", json=ATTIC).get_json()
    row = client.post("/v1/assessment/batch?units=si", json={"units": [ATTIC]}).get_json()["rows"][0]
    assert row["answer"] == alone


@pytest.mark.parametrize("count", [1, 1000])
def test_a_batch_takes_up_to_a_thousand_units(count: int, client: FlaskClient) -> None:
    body = {"units": [{"pan_pressure": {"value": -1, "unit": "inH2O"}}] * count}
    answer = client.post("/v1/assessment/batch", json=body)
    assert answer.status_code == 200
    assert len(answer.get_json()["rows"]) == count


@pytest.mark.parametrize("units", [[], [{}] * 1001])
def test_a_batch_outside_its_bounds_is_refused(units: list[dict[str, object]], client: FlaskClient) -> None:
    answer = client.post("/v1/assessment/batch", data=json.dumps({"units": units}), content_type="application/json")
    assert answer.status_code == 400
    assert answer.get_json()["errors"] == [
        {"pointer": "/units", "detail": f"Received {len(units)} elements; allowed 1 to 1000."}
    ]
