"""``POST /v1/pump-run`` as a caller sees it."""

import copy
from typing import Any

import pytest
from flask.testing import FlaskClient

from service.schemas.pump_run import PumpRunRequest

PATH = "/v1/pump-run"
SOUND: dict[str, Any] = PumpRunRequest.examples["sound"]["value"]


def changed(**members: Any) -> dict[str, Any]:
    """The sound example with members changed; a name may reach into an object: ``tube__bore``."""
    body = copy.deepcopy(SOUND)
    for name, value in members.items():
        *path, last = name.split("__")
        part = body
        for step in path:
            part = part[step]
        part[last] = value
    return body


def test_the_contracts_results_are_all_there(client: FlaskClient) -> None:
    answer = client.post(PATH, json=SOUND).get_json()
    assert set(answer["results"]) >= {
        "operating_flow",
        "operating_head",
        "friction_head",
        "velocity",
        "reynolds",
        "flow_ratio",
        "fill_time",
        "pump_out_time",
        "cycles_per_hour",
        "duty",
        "fall_back_volume",
        "time_to_safety_float",
        "time_to_overflow",
        "largest_lift",
        "longest_tube",
    }
    assert answer["verdict"] == "pass"


def test_the_answer_comes_in_the_units_asked_for_and_is_the_same_whatever_units_were_sent(client: FlaskClient) -> None:
    us = client.post(PATH, json=SOUND).get_json()["results"]
    metric = changed(
        inflow={"value": 1.6 * 3.785411784, "unit": "L/h"},
        lift={"value": 2.7432, "unit": "m"},
        tube__bore={"value": 9.525, "unit": "mm"},
        tube__length={"value": 853.44, "unit": "cm"},
    )
    si = client.post(PATH + "?units=si", json=metric).get_json()["results"]
    assert us["operating_flow"]["unit"] == "gal/h"
    assert si["operating_flow"]["unit"] == "L/h"
    assert si["operating_flow"]["value"] == pytest.approx(us["operating_flow"]["value"] * 3.785411784, rel=1e-9)
    assert si["largest_lift"]["value"] == pytest.approx(us["largest_lift"]["value"] * 0.3048, rel=1e-9)
    assert si["fill_time"] == {"value": pytest.approx(11.25), "unit": "min"}  # 0.3 gal at 1.6 gal/h, by hand


def test_an_unwelcome_answer_is_an_answer(client: FlaskClient) -> None:
    response = client.post(PATH, json=changed(lift={"value": 30, "unit": "ft"}))
    assert response.status_code == 200
    answer = response.get_json()
    assert answer["verdict"] == "fail"
    assert answer["results"]["operating_flow"]["value"] == 0.0
    assert answer["findings"][0]["code"] == "pump-cannot-lift"
    assert "30 ft" in answer["findings"][0]["message"]
    assert "18 ft" in answer["findings"][0]["message"]


def test_findings_come_worst_first_and_point_into_the_request(client: FlaskClient) -> None:
    body = changed(pump__safety_float="unwired", tube__check_valve=False)
    findings = client.post(PATH, json=body).get_json()["findings"]
    assert [finding["severity"] for finding in findings] == ["fail", "attention", "info", "info"]
    assert [finding["pointer"] for finding in findings[:2]] == ["/pump/safety_float", "/tube/check_valve"]


@pytest.mark.parametrize(
    ("body", "pointer"),
    [
        (changed(tube__bore={"value": 3, "unit": "in"}), "/tube/bore/value"),
        (changed(tube__elbows=2.5), "/tube/elbows"),
        (changed(tube__check_valve="yes"), "/tube/check_valve"),
        (changed(pump__curve=SOUND["pump"]["curve"][:1]), "/pump/curve"),
        (changed(pump__safety_float="cut"), "/pump/safety_float"),
        (changed(water_temperature={"value": 250, "unit": "degF"}), "/water_temperature/value"),
        (changed(head=1), "/head"),
    ],
)
def test_a_fault_is_named_where_it_is(client: FlaskClient, body: dict[str, Any], pointer: str) -> None:
    problem = client.post(PATH, json=body)
    assert problem.status_code == 400
    assert [fault["pointer"] for fault in problem.get_json()["errors"]] == [pointer]


def test_a_tube_of_several_bores(client: FlaskClient) -> None:
    sections = [{"length": {"value": 2, "unit": "m"}, "bore": {"value": 6, "unit": "mm"}, "elbows": 1}]
    answer = client.post(PATH + "?units=si", json=changed(tube__further_sections=sections)).get_json()
    rows = answer["results"]["sections"]
    assert [row["bore"] for row in rows] == [
        {"value": pytest.approx(9.525), "unit": "mm"},
        {"value": pytest.approx(6.0), "unit": "mm"},
    ]
    assert rows[1]["length"] == {"value": pytest.approx(2.0), "unit": "m"}
    assert "/tube/further_sections/0/roughness" in [row["pointer"] for row in answer["assumptions"]]
    single = client.post(PATH + "?units=si", json=SOUND).get_json()["results"]
    assert len(single["sections"]) == 1
    assert single["operating_flow"]["value"] > answer["results"]["operating_flow"]["value"]


@pytest.mark.parametrize(
    ("section", "pointer"),
    [
        ({"bore": {"value": 6, "unit": "mm"}}, "/tube/further_sections/0/length"),
        ({"length": {"value": 501, "unit": "m"}}, "/tube/further_sections/0/length/value"),
        ({"length": {"value": 1, "unit": "m"}, "check_valve": True}, "/tube/further_sections/0/check_valve"),
    ],
)
def test_a_fault_of_a_section_is_named_where_it_is(client: FlaskClient, section: dict[str, Any], pointer: str) -> None:
    problem = client.post(PATH, json=changed(tube__further_sections=[section]))
    assert problem.status_code == 400
    assert [fault["pointer"] for fault in problem.get_json()["errors"]] == [pointer]
