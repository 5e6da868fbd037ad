"""``POST /v1/cleaning-plan`` as a caller sees it."""

import copy
from typing import Any

import pytest
from flask.testing import FlaskClient

from service.schemas.cleaning_plan import CleaningPlanRequest
from service.tables.cautions import CAUTIONS

PATH = "/v1/cleaning-plan"
EXAMPLES: dict[str, Any] = {name: example["value"] for name, example in CleaningPlanRequest.examples.items()}


def post(client: FlaskClient, body: Any, query: str = "") -> dict[str, Any]:
    response = client.post(PATH + query, json=body)
    assert response.status_code == 200, response.get_json()
    answer: dict[str, Any] = response.get_json()
    return answer


def test_the_contracts_results_are_all_there(client: FlaskClient) -> None:
    results = post(client, EXAMPLES["closet-unit"])["results"]
    assert set(results) >= {
        "method",
        "reasons",
        "refused_methods",
        "steps",
        "total_minutes",
        "carry",
        "gas",
        "closing_test",
    }
    assert set(results["steps"][0]) >= {
        "order",
        "code",
        "place",
        "plug_first",
        "tool",
        "pressure_limit",
        "instruction",
        "look_for",
        "minutes",
        "cautions",
    }


def test_an_empty_request_is_a_plan(client: FlaskClient) -> None:
    answer = post(client, {})
    assert answer["verdict"] == "pass"
    assert answer["results"]["steps"][0]["code"] == "make-safe"
    assert answer["assumptions"]


def test_the_pressure_limit_is_30_psi_and_is_written_so(client: FlaskClient) -> None:
    answer = post(client, EXAMPLES["attic-unit-pushed"])
    step = next(step for step in answer["results"]["steps"] if step["code"] == "push-regulated-gas")
    assert step["pressure_limit"] == {"value": pytest.approx(30.0, rel=1e-12), "unit": "psi"}
    assert "30 psi" in step["instruction"]
    assert {"compressed-gas", "gas-displaces-air", "hose-carried-water", "biological-slime"} <= set(step["cautions"])
    metric = post(client, EXAMPLES["attic-unit-pushed"], "?units=si")
    step = next(step for step in metric["results"]["steps"] if step["code"] == "push-regulated-gas")
    assert step["pressure_limit"] == {"value": pytest.approx(206.8427, rel=1e-6), "unit": "kPa"}
    assert "207 kPa" in step["instruction"]


def test_more_than_30_psi_is_refused_with_the_range(client: FlaskClient) -> None:
    for pressure, status in (({"value": 30, "unit": "psi"}, 200), ({"value": 30.01, "unit": "psi"}, 400)):
        response = client.post(PATH, json={"working_pressure": pressure})
        assert response.status_code == status
    assert "2 to 30 psi" in str(response.get_json())


def test_numbers_in_sentences_are_in_the_units_asked_for(client: FlaskClient) -> None:
    us, si = (
        {step["code"]: step["instruction"] for step in post(client, EXAMPLES["closet-unit"], query)["results"]["steps"]}
        for query in ("", "?units=si")
    )
    # by hand: two legs of 2 in and the tightest bend, of 0.824 in bore: 2.133 + 0.690 = 2.82 in3, 46.3 mL
    assert "2.82 in3" in us["refill-trap"]
    assert "46.3 mL" in si["refill-trap"]
    assert "1 L/min" in si["closing-test"]


def test_every_caution_of_a_step_is_in_the_envelope_once_with_its_text(client: FlaskClient) -> None:
    for body in EXAMPLES.values():
        answer = post(client, body)
        codes = [caution["code"] for caution in answer["cautions"]]
        assert len(set(codes)) == len(codes)
        assert {code for step in answer["results"]["steps"] for code in step["cautions"]} <= set(codes)
        assert all(caution["message"] == CAUTIONS[caution["code"]] for caution in answer["cautions"])


def test_no_way_in_fails_by_the_code(client: FlaskClient) -> None:
    answer = post(client, EXAMPLES["no-way-in"])
    assert answer["verdict"] == "fail"
    first = next(row for row in answer["findings"] if row["code"] == "cleaning-starts-with-cutting")
    assert first["basis"] == "IMC 2021 307.2.5, IRC 2021 M1411.3.3"


def test_the_records_of_an_assessment_serve_here(client: FlaskClient) -> None:
    from service.schemas.assessment import AssessmentRequest

    for example in AssessmentRequest.examples.values():
        record = example["value"]
        shared = ("unit_id", "location", "trap", "line", "pan", "pump", "discharge")
        post(client, {name: copy.deepcopy(record[name]) for name in shared if name in record})


def test_a_pump_known_and_a_pump_unknown_exclude_each_other(client: FlaskClient) -> None:
    body = copy.deepcopy(EXAMPLES["pumped-unit-si"]) | {"pumped": True}
    assert client.post(PATH, json=body).status_code == 400


@pytest.mark.parametrize(
    "hostile",
    ["{brush_length:ft|m}", "{0.__class__}", "<script>alert(1)</script>", "%s%n", "\u202e\u0000", "{" * 80],
)
def test_hostile_text_comes_back_as_it_was(client: FlaskClient, hostile: str) -> None:
    assert post(client, {"unit_id": hostile})["results"]["unit_id"] == hostile
