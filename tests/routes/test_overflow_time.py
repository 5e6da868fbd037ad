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


def test_a_frozen_coil_is_told_with_its_remedy(client: FlaskClient) -> None:
    """20 L of ice in an hour on a drain of 4 L/h into 10 L of pan: 6 L are lost; (20 - 10) / 4 = 2.5 h would do."""
    body = {
        "inflow": {"value": 0, "unit": "L/h"},
        "pan": {
            "area": {"value": 0.25, "unit": "m2"},
            "depth": {"value": 40, "unit": "mm"},
            "water_depth": {"value": 0, "unit": "mm"},
        },
        "drain_capacity": {"value": 4, "unit": "L/h"},
        "ice": {"water_volume": {"value": 20, "unit": "L"}, "melt_time": {"value": 1, "unit": "h"}},
        "protection": {"kind": "none"},
    }
    answer = client.post(f"{URL}?units=si", json=body).get_json()
    assert answer["verdict"] == "fail"
    melt = answer["results"]["melt"]
    assert melt["lost_volume"] == {"value": pytest.approx(6.0), "unit": "L"}
    assert melt["safe_melt_time"] == {"value": pytest.approx(150.0), "unit": "min"}
    (finding,) = [finding for finding in answer["findings"] if finding["severity"] == "fail"]
    assert finding["code"] == "melt-too-fast-for-drain"
    assert "150 min" in finding["remedy"]
    assert "towels" in finding["remedy"]


@pytest.mark.parametrize(
    ("members", "pointer"),
    [
        (
            {
                "line": {"pipe_size": "3/4", "length_to_blockage": {"value": 6, "unit": "ft"}},
                "line_volume": {"value": 1, "unit": "L"},
            },
            "",
        ),
        ({"line": {"pipe_size": "3/4"}}, "/line/length_to_blockage"),
        ({"ice": {}}, "/ice"),
        (
            {
                "ice": {
                    "water_volume": {"value": 1, "unit": "L"},
                    "melt_time": {"value": 1, "unit": "h"},
                    "melting_power": {"value": 1, "unit": "kW"},
                }
            },
            "/ice",
        ),
    ],
)
def test_members_that_exclude_each_other(client: FlaskClient, members: dict[str, object], pointer: str) -> None:
    problem = client.post(URL, json=BODY | members)
    assert problem.status_code == 400
    assert [fault["pointer"] for fault in problem.get_json()["errors"]] == [pointer]
