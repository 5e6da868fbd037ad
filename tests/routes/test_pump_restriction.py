"""``POST /v1/pump-restriction`` as a caller sees it."""

import copy
from typing import Any

import pytest
from flask.testing import FlaskClient

from service.schemas.pump_restriction import PumpRestrictionRequest

PATH = "/v1/pump-restriction"
SLOW: dict[str, Any] = PumpRestrictionRequest.examples["pinch-or-wear"]["value"]


def changed(**members: Any) -> dict[str, Any]:
    """The example with members changed; a name may reach into an object: ``pump_out__time``."""
    body = copy.deepcopy(SLOW)
    for name, value in members.items():
        *path, last = name.split("__")
        part = body
        for step in path:
            part = part[step]
        part[last] = value
    return body


def test_one_measurement_names_both_explanations_and_how_to_tell_them_apart(client: FlaskClient) -> None:
    answer = client.post(PATH, json=SLOW).get_json()
    assert answer["verdict"] == "attention"
    assert answer["results"]["cause"] == "cannot-tell"
    # by hand: 0.3 gal in 55 s is 19.636 gal/h, and 1.6 gal/h arrived
    assert answer["results"]["flow"] == {"value": pytest.approx(0.3 / 55 * 3600 + 1.6), "unit": "gal/h"}
    # the curve between 10 ft, 45 gal/h and 15 ft, 20 gal/h, by hand at 21.236 gal/h
    assert answer["results"]["head_made"] == {"value": pytest.approx(10 + 5 * (45 - 21.23636) / 25), "unit": "ft"}
    findings = {finding["code"]: finding for finding in answer["findings"]}
    assert set(findings) == {"flow-below-expected", "measurement-cannot-tell"}
    assert "21.2 gal/h" in findings["flow-below-expected"]["message"]
    assert "tie" in findings["flow-below-expected"]["remedy"]
    assert "18 ft is a sound pump" in findings["measurement-cannot-tell"]["remedy"]


def test_a_second_measurement_tells(client: FlaskClient) -> None:
    sound = client.post(PATH, json=changed(shut_off_head_measured={"value": 18, "unit": "ft"})).get_json()
    assert (sound["verdict"], sound["results"]["cause"]) == ("fail", "restriction")
    assert sound["findings"][0]["code"] == "restriction-found"
    worn = client.post(PATH, json=changed(shut_off_head_measured={"value": 12.4, "unit": "ft"})).get_json()
    assert (worn["verdict"], worn["results"]["cause"]) == ("fail", "worn-pump")
    assert worn["findings"][0]["pointer"] == "/shut_off_head_measured"


def test_the_answer_is_the_same_whatever_units_were_sent(client: FlaskClient) -> None:
    us = client.post(PATH, json=SLOW).get_json()["results"]
    metric = changed(
        pump_out__volume={"value": 0.3 * 3.785411784, "unit": "L"},
        pump_out__time={"value": 55 / 60, "unit": "min"},
        lift={"value": 2.7432, "unit": "m"},
    )
    si = client.post(PATH + "?units=si", json=metric).get_json()["results"]
    assert si["missing_head"]["unit"] == "m"
    assert si["missing_head"]["value"] == pytest.approx(us["missing_head"]["value"] * 0.3048, rel=1e-9)
    assert si["equivalent_pinch_bore"]["unit"] == "mm"
    assert si["equivalent_pinch_bore"]["value"] == pytest.approx(us["equivalent_pinch_bore"]["value"] * 25.4, rel=1e-9)
    assert si["expected_time"]["unit"] == us["expected_time"]["unit"] == "s"


@pytest.mark.parametrize(
    ("body", "pointer"),
    [
        (changed(pump_out__time={"value": 0, "unit": "s"}), "/pump_out/time/value"),
        (changed(pump_out__measured_at="jug"), "/pump_out/measured_at"),
        (changed(tube_off_pump_out={"volume": {"value": 1, "unit": "L"}}), "/tube_off_pump_out/time"),
        (changed(shut_off_head_measured={"value": 500, "unit": "ft"}), "/shut_off_head_measured/value"),
        (changed(pump__curve=[]), "/pump/curve"),
        (changed(flow=1), "/flow"),
    ],
)
def test_a_fault_is_named_where_it_is(client: FlaskClient, body: dict[str, Any], pointer: str) -> None:
    problem = client.post(PATH, json=body)
    assert problem.status_code == 400
    assert [fault["pointer"] for fault in problem.get_json()["errors"]] == [pointer]
