"""``POST /v1/drain-survey`` as a caller sees it."""

import json
import math
from typing import Any

import pytest
from flask.testing import FlaskClient

from service.schemas.drain_survey import DrainSurveyRequest

PATH = "/v1/drain-survey"
BELLY: dict[str, Any] = DrainSurveyRequest.examples["belly"]["value"]


def station(feet: float, inches: float) -> dict[str, Any]:
    return {"distance": {"value": feet, "unit": "ft"}, "invert": {"value": inches, "unit": "in"}}


def test_the_contracts_results_are_all_there(client: FlaskClient) -> None:
    answer = client.post(PATH, json=BELLY).get_json()
    results = answer["results"]
    assert set(results) >= {"segments", "ponds", "total_fall", "standing_volume"}
    assert set(results["ponds"][0]) >= {"start", "end", "depth", "volume", "fills_bore"}
    assert len(results["segments"]) == len(BELLY["stations"]) - 1
    assert results["total_fall"] == {"value": pytest.approx(6), "unit": "in"}  # 10 in less 4 in
    assert results["ponds"][0]["start"] == {"value": pytest.approx(6), "unit": "ft"}  # half way from 9 to 6.5 in
    assert answer["verdict"] == "fail"


def test_the_answer_is_the_same_whatever_units_were_sent(client: FlaskClient) -> None:
    metric = {
        **BELLY,
        "stations": [
            {
                "distance": {"value": one["distance"]["value"] * 30.48, "unit": "cm"},
                "invert": {"value": one["invert"]["value"] * 25.4, "unit": "mm"},
            }
            for one in BELLY["stations"]
        ],
    }
    us = client.post(PATH, json=BELLY).get_json()
    si = client.post(PATH + "?units=si", json=metric).get_json()
    assert si["results"]["standing_volume"]["unit"] == "L"
    assert si["results"]["standing_volume"]["value"] == pytest.approx(
        us["results"]["standing_volume"]["value"] * 3.785411784, rel=1e-9
    )
    assert [row["code"] for row in si["findings"]] == [row["code"] for row in us["findings"]]
    assert "m" in si["findings"][0]["message"].split()


def test_findings_point_at_the_station_to_move(client: FlaskClient) -> None:
    findings = client.post(PATH, json=BELLY).get_json()["findings"]
    assert {row["code"]: row["pointer"] for row in findings} == {
        "segments-back-fall": "/stations/3",
        "pond-fills-bore": "/stations/2",
        "pond-holds-water": "/stations/2",
    }
    full = next(row for row in findings if row["code"] == "pond-fills-bore")
    assert "0.824 in" in full["message"]
    assert "raise the line by 1.25 in at 8 ft" in full["remedy"]


def test_two_thousand_stations_and_no_more(client: FlaskClient) -> None:
    stations = [
        station(round(i * 0.4, 1), round(100 - i * 0.1 + 0.3 * math.sin(12.9898 * i * i), 3)) for i in range(2000)
    ]
    answer = client.post(PATH, json={"pipe_size": "1", "stations": stations})
    assert answer.status_code == 200
    body = answer.get_json()
    assert len(body["results"]["segments"]) == 1999
    assert len(body["findings"]) < 12
    problem = client.post(PATH, json={"pipe_size": "1", "stations": [*stations, station(900, 0)]})
    assert problem.status_code == 400
    assert "allowed 2 to 2000" in json.dumps(problem.get_json())


@pytest.mark.parametrize(
    ("stations", "pointer"),
    [
        ([station(0, 1)], "/stations"),
        ([station(0, 1), {"distance": {"value": 4, "unit": "ft"}}], "/stations/1"),
        (
            [station(0, 1), {**station(4, 0), "drop_below_level_line": {"value": 3, "unit": "in"}}],
            "/stations/1",
        ),
        ([station(0, 1), station(-4, 0)], "/stations/1/distance/value"),
        ([station(0, 1), station(4, 9000)], "/stations/1/invert/value"),
    ],
)
def test_a_fault_is_named_where_it_is(client: FlaskClient, stations: list[Any], pointer: str) -> None:
    problem = client.post(PATH, json={"pipe_size": "3/4", "stations": stations})
    assert problem.status_code == 400
    assert [fault["pointer"] for fault in problem.get_json()["errors"]] == [pointer]


@pytest.mark.parametrize(
    "stations",
    [
        [station(5, 1), station(5, 1)],
        [station(5, 1), station(0, 4), station(5, 9)],
        [station(0, 0), station(0, 0), station(0, 0)],
    ],
)
def test_odd_surveys_are_answered(client: FlaskClient, stations: list[Any]) -> None:
    assert client.post(PATH, json={"pipe_size": "4", "stations": stations}).status_code == 200
