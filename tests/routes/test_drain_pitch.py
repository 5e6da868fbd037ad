"""``POST /v1/drain-pitch`` as a caller sees it."""

import pytest
from flask.testing import FlaskClient

BODY = {"run": {"value": 32, "unit": "ft"}, "fall": {"value": 4, "unit": "in"}}


def test_the_answer_comes_in_the_units_asked_for(client: FlaskClient) -> None:
    us = client.post("/v1/drain-pitch", json=BODY).get_json()["results"]
    si = client.post("/v1/drain-pitch?units=si", json=BODY).get_json()["results"]
    assert us["fall"] == {"value": pytest.approx(4.0), "unit": "in"}
    assert si["fall"] == {"value": pytest.approx(101.6), "unit": "mm"}  # 25.4 mm an inch, exact
    assert us["pitch_ratio"] == si["pitch_ratio"] == pytest.approx(4 / (32 * 12))


def test_a_message_is_in_the_units_asked_for(client: FlaskClient) -> None:
    us = client.post("/v1/drain-pitch", json=BODY).get_json()["findings"][0]["message"]
    si = client.post("/v1/drain-pitch?units=si", json=BODY).get_json()["findings"][0]["message"]
    assert "4 in over 32 ft" in us
    assert "102 mm over 9.75 m" in si


def test_every_fault_is_named_at_once(client: FlaskClient) -> None:
    body = {"runn": 1, "fall": {"value": 99, "unit": "m"}, "pitch_ratio": "0.02"}
    problem = client.post("/v1/drain-pitch", json=body).get_json()
    faults = {fault["pointer"]: fault["detail"] for fault in problem["errors"]}
    assert set(faults) == {"", "/run", "/runn", "/fall/value", "/pitch_ratio"}
    assert faults["/fall/value"] == "Received 99 m; allowed -10 to 30 m."
    assert 'did you mean "run"?' in faults["/runn"]
