"""``POST /v1/pump-run/compare`` as a caller sees it."""

import copy
from typing import Any

import pytest
from flask.testing import FlaskClient

from service.schemas.pump_compare import PumpCompareRequest

PATH = "/v1/pump-run/compare"
THREE: dict[str, Any] = PumpCompareRequest.examples["which-of-three"]["value"]
TWO: dict[str, Any] = PumpCompareRequest.examples["two-in-one-tank-si"]["value"]


def test_the_best_comes_first_and_each_says_why_it_is_where_it_is(client: FlaskClient) -> None:
    answer = client.post(PATH, json=THREE).get_json()
    assert answer["verdict"] == "pass"
    assert answer["results"]["best"] == "middling"
    rows = answer["results"]["pumps"]
    assert [(row["rank"], row["index"], row["decided_by"]) for row in rows] == [
        (1, 1, None),
        (2, 2, "safety-float"),
        (3, 0, "flow"),
    ]
    assert answer["results"]["together"] is None
    assert "Pump 'middling' comes first of 3" in answer["findings"][0]["message"]
    assert "behind 'middling': its safety float is not wired" in rows[1]["answer"]["findings"][-1]["message"]


def test_each_pump_has_the_answer_pump_run_gives(client: FlaskClient) -> None:
    rows = client.post(PATH + "?units=si", json=THREE).get_json()["results"]["pumps"]
    for row in rows:
        pump = copy.deepcopy(THREE["pumps"][row["index"]])
        del pump["name"]
        single = {name: value for name, value in THREE.items() if name != "pumps"} | {"pump": pump}
        alone = client.post("/v1/pump-run?units=si", json=single).get_json()
        assert row["answer"]["results"] == alone["results"]
        assert row["answer"]["verdict"] == alone["verdict"]


def test_two_in_one_tank(client: FlaskClient) -> None:
    results = client.post(PATH + "?units=si", json=TWO).get_json()["results"]
    together = results["together"]
    assert together["operating_flow"]["unit"] == "L/h"
    shares = [row["flow_together"]["value"] for row in results["pumps"]]
    assert sum(shares) == pytest.approx(together["operating_flow"]["value"])
    assert together["flow_one_failed"]["value"] < together["operating_flow"]["value"]
    turns = client.post(PATH, json=TWO | {"run_together": "alternating"}).get_json()
    assert turns["findings"][0]["code"] == "pumps-in-turn-margin-small"


@pytest.mark.parametrize(
    ("change", "pointer"),
    [
        ({"pumps": []}, "/pumps"),
        ({"pumps": [{"name": "x"}]}, "/pumps/0/curve"),
        ({"pumps": [{"curve": TWO["pumps"][0]["curve"]}]}, "/pumps/0/name"),
        ({"pumps": TWO["pumps"] * 6}, "/pumps"),
        ({"run_together": "both"}, "/run_together"),
        ({"pump": TWO["pumps"][0]}, "/pump"),
    ],
)
def test_a_fault_is_named_where_it_is(client: FlaskClient, change: dict[str, Any], pointer: str) -> None:
    problem = client.post(PATH, json=TWO | change)
    assert problem.status_code == 400
    assert [fault["pointer"] for fault in problem.get_json()["errors"]] == [pointer]
