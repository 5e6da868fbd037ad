"""``POST /v1/trap-sizing`` as a caller sees it."""

import pytest
from flask.testing import FlaskClient

URL = "/v1/trap-sizing"
BODY = {
    "pan_pressure": {"value": -1.2, "unit": "inH2O"},
    "dirty_filter_allowance": {"value": 0.5, "unit": "inH2O"},
    "pipe_size": "3/4",
    "clearance_below_outlet": {"value": 7, "unit": "in"},
}


def test_the_answer_comes_in_the_units_asked_for(client: FlaskClient) -> None:
    """Drop 1.7 + 1 in and seal half of it (common practice); 25.4 mm an inch, exact."""
    us = client.post(URL, json=BODY).get_json()["results"]
    si = client.post(f"{URL}?units=si", json=BODY).get_json()["results"]
    assert us["outlet_drop"] == {"value": pytest.approx(2.7), "unit": "in"}
    assert us["seal_depth"] == {"value": pytest.approx(1.35), "unit": "in"}
    assert us["design_pressure"] == {"value": pytest.approx(-1.7), "unit": "inH2O"}
    assert si["outlet_drop"] == {"value": pytest.approx(68.58), "unit": "mm"}
    # 249.08891 Pa an inch of conventional water, by hand
    assert si["design_pressure"] == {"value": pytest.approx(-1.7 * 249.08891), "unit": "Pa"}


def test_the_same_trap_asked_for_in_si_is_the_same(client: FlaskClient) -> None:
    body = {
        "pan_pressure": {"value": -1.2 * 0.24908891, "unit": "kPa"},
        "dirty_filter_allowance": {"value": 0.5 * 249.08891, "unit": "Pa"},
        "pipe_size": "3/4",
        "clearance_below_outlet": {"value": 17.78, "unit": "cm"},
    }
    answers = [client.post(URL, json=each).get_json() for each in (BODY, body)]
    assert answers[0]["verdict"] == answers[1]["verdict"] == "pass"
    for name in ("outlet_drop", "seal_depth", "overall_depth", "water_volume"):
        values = [answer["results"][name]["value"] for answer in answers]
        assert values[0] == pytest.approx(values[1], rel=1e-12)


def test_four_states_with_signed_levels(client: FlaskClient) -> None:
    """1.7 in of suction: half up and half down at start-up, all of it on the unit side when running."""
    states = client.post(URL, json=BODY).get_json()["results"]["states"]
    assert [state["state"] for state in states] == ["at_rest", "start_up", "running", "fan_stopped"]
    levels = [(state["unit_side_level"]["value"], state["outlet_side_level"]["value"]) for state in states]
    assert levels == [pytest.approx(pair, abs=1e-9) for pair in [(0, 0), (0.85, -0.85), (1.7, 0), (0, 0)]]
    assert all(state["seal_holds"] is True for state in states)


def test_too_little_room_is_an_answer(client: FlaskClient) -> None:
    body = BODY | {"clearance_below_outlet": {"value": 4, "unit": "in"}}
    answer = client.post(URL, json=body)
    assert answer.status_code == 200
    assert answer.get_json()["verdict"] == "fail"
    finding = answer.get_json()["findings"][0]
    assert finding["code"] == "trap-does-not-fit"
    assert finding["pointer"] == "/clearance_below_outlet"
    assert "4.99 in deep" in finding["message"]  # 2.7 + 1.35 + 0.824 + 0.113
    assert "0.987 in" in finding["remedy"]
    metric = client.post(f"{URL}?units=si", json=body).get_json()["findings"][0]
    assert "127 mm deep" in metric["message"]


def test_every_fault_is_named_at_once(client: FlaskClient) -> None:
    body = {"pan_pressure": {"value": -99, "unit": "inH2O"}, "pipe_size": "3/8", "clearence_below_outlet": 7}
    problem = client.post(URL, json=body)
    assert problem.status_code == 400
    faults = {fault["pointer"]: fault["detail"] for fault in problem.get_json()["errors"]}
    assert set(faults) == {"/pan_pressure/value", "/pipe_size", "/clearence_below_outlet"}
    assert "-99 inH2O" in faults["/pan_pressure/value"]
    assert 'did you mean "clearance_below_outlet"?' in faults["/clearence_below_outlet"]
