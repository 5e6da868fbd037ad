"""``POST /v1/overflow-time`` as a caller sees it."""

import pytest
from flask.testing import FlaskClient

URL = "/v1/overflow-time"
PAN = {"area": {"value": 462, "unit": "in2"}, "depth": {"value": 1.5, "unit": "in"}}  # 3 gal of 231 in3
BODY = {
    "inflow": {"value": 2, "unit": "gal/h"},
    "pan": PAN,
    "protection": {"kind": "drain-cut-out", "cut_out_depth": {"value": 0.75, "unit": "in"}},
}


def test_the_answer_comes_in_the_units_asked_for(client: FlaskClient) -> None:
    """3 gal at 2 gal/h run over in 90 min; the cut-out half-way up acts in 45."""
    us = client.post(URL, json=BODY).get_json()
    si = client.post(f"{URL}?units=si", json=BODY).get_json()
    assert us["verdict"] == "pass"
    assert us["results"]["free_volume"] == {"value": pytest.approx(3.0), "unit": "gal"}
    assert us["results"]["time_to_overflow"] == {"value": pytest.approx(90.0), "unit": "min"}
    assert us["results"]["time_to_cut_out"] == {"value": pytest.approx(45.0), "unit": "min"}
    assert us["results"]["stopped_by"] == "cut-out"
    assert us["results"]["pump_tank"] is None
    # 3.785411784 L a US gallon, exact
    assert si["results"]["free_volume"] == {"value": pytest.approx(3 * 3.785411784), "unit": "L"}
    assert si["results"]["time_to_overflow"] == us["results"]["time_to_overflow"]


def test_an_unwired_safety_float_is_for_the_owner_in_writing(client: FlaskClient) -> None:
    body = {
        "inflow": {"value": 6, "unit": "L/h"},
        "pump_tank": {"volume_to_overflow": {"value": 900, "unit": "mL"}, "safety_float": "unwired"},
    }
    answer = client.post(URL, json=body).get_json()
    assert answer["verdict"] == "fail"
    # 0.9 L at 6 L/h
    assert answer["results"]["pump_tank"]["time_to_overflow"] == {"value": pytest.approx(9.0), "unit": "min"}
    (finding,) = answer["findings"]
    assert finding["code"] == "tank-float-unwired"
    assert "in writing" in finding["remedy"]
    assert {caution["code"] for caution in answer["cautions"]} == {
        "water-damage",
        "water-and-electricity",
        "local-code",
    }


def test_pointers_reach_into_the_parts(client: FlaskClient) -> None:
    body = BODY | {"protection": {"kind": "drain-cut-out", "cut_out_depth": {"value": 2, "unit": "in"}}}
    (finding,) = client.post(URL, json=body).get_json()["findings"]
    assert finding["pointer"] == "/protection/cut_out_depth"
    assert finding["severity"] == "fail"


@pytest.mark.parametrize(
    ("body", "pointers"),
    [
        ({"inflow": BODY["inflow"]}, {""}),
        ({"inflow": BODY["inflow"], "protection": BODY["protection"]}, {""}),
        (BODY | {"free_volume": {"value": 1, "unit": "gal"}}, {""}),
        ({"pan": {"area": PAN["area"]}}, {"/inflow", "/pan/depth"}),
        (BODY | {"protection": {"kind": "luck"}}, {"/protection/kind"}),
        (BODY | {"pump_tank": {"safety_flaot": "wired"}}, {"/pump_tank/safety_flaot"}),
    ],
)
def test_what_the_schema_forbids_is_named(client: FlaskClient, body: dict[str, object], pointers: set[str]) -> None:
    problem = client.post(URL, json=body)
    assert problem.status_code == 400
    assert {fault["pointer"] for fault in problem.get_json()["errors"]} == pointers
