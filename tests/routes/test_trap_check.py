"""``POST /v1/trap-check`` as a caller sees it."""

import pytest
from flask.testing import FlaskClient

URL = "/v1/trap-check"
BODY = {
    "pan_pressure": {"value": -1.2, "unit": "inH2O"},
    "outlet_drop": {"value": 0.25, "unit": "in"},
    "seal_depth": {"value": 2, "unit": "in"},
    "pan_area": {"value": 400, "unit": "in2"},
    "pan_depth": {"value": 1.5, "unit": "in"},
}


def test_a_drop_too_small_in_both_unit_systems(client: FlaskClient) -> None:
    """0.95 in over 400 in2 are 380 in3; 231 in3 a US gallon, 25.4 mm an inch."""
    us = client.post(URL, json=BODY).get_json()
    si = client.post(f"{URL}?units=si", json=BODY).get_json()
    assert us["verdict"] == si["verdict"] == "fail"
    assert us["results"]["held_water_depth"] == {"value": pytest.approx(0.95), "unit": "in"}
    assert us["results"]["release_volume"] == {"value": pytest.approx(380 / 231), "unit": "gal"}
    assert us["results"]["drains_running"] is False
    assert si["results"]["held_water_depth"] == {"value": pytest.approx(0.95 * 25.4), "unit": "mm"}
    assert si["results"]["release_volume"] == {"value": pytest.approx(380 * 0.0254**3 * 1000), "unit": "L"}
    finding = us["findings"][0]
    assert finding["code"] == "outlet-drop-too-small"
    assert finding["pointer"] == "/outlet_drop"
    assert finding["basis"] == "physics"
    assert "2.2 in" in finding["remedy"]
    assert "55.9 mm" in si["findings"][0]["remedy"]


def test_without_the_pans_area_the_volumes_are_null_and_the_reason_is_told(client: FlaskClient) -> None:
    body = {name: BODY[name] for name in ("pan_pressure", "outlet_drop", "seal_depth")}
    answer = client.post(URL, json=body).get_json()
    assert answer["results"]["release_volume"] is None
    assert answer["results"]["states"][2]["water_volume"] is None
    assert "pan-area-unknown" in [finding["code"] for finding in answer["findings"]]
    pointers = [assumption["pointer"] for assumption in answer["assumptions"]]
    assert pointers == ["/dirty_filter_allowance", "/pipe_size", "/evaporated_depth", "/pan_area", "/pan_depth"]


def test_a_margin_exact_in_inches_is_exact(client: FlaskClient) -> None:
    """1.2 in of suction, 2.2 in of drop, 1.1 in of seal: the rule to the last bit, in any unit."""
    exact = {"pan_pressure": (-1.2, "inH2O"), "outlet_drop": (2.2, "in"), "seal_depth": (1.1, "in")}
    metric = {"pan_pressure": (-0.298906692, "kPa"), "outlet_drop": (55.88, "mm"), "seal_depth": (2.794, "cm")}
    for facts in (exact, metric):
        body = {name: {"value": value, "unit": unit} for name, (value, unit) in facts.items()}
        answer = client.post(URL, json=body).get_json()
        assert answer["verdict"] == "pass"
        assert answer["findings"] == []


def test_legs_of_two_sizes(client: FlaskClient) -> None:
    """PVC Schedule 40 (ASTM D1785): bores 0.824 and 1.049 in. The outlet leg falls by the unit leg's share of area."""
    body = BODY | {
        "outlet_drop": {"value": 3, "unit": "in"},
        "unit_side_pipe_size": "3/4",
        "outlet_side_pipe_size": "1",
    }
    start_up = client.post(URL, json=body).get_json()["results"]["states"][1]
    share = 0.824**2 / (0.824**2 + 1.049**2)
    assert start_up["outlet_side_level"]["value"] == pytest.approx(-1.2 * share)
    assert start_up["unit_side_level"]["value"] == pytest.approx(1.2 * (1 - share))


def test_every_fault_is_named_at_once(client: FlaskClient) -> None:
    body = {"pan_pressure": {"value": -1, "unit": "psig"}, "outlet_drop": 0.25, "pan_area": {"value": 0, "unit": "ft2"}}
    problem = client.post(URL, json=body)
    assert problem.status_code == 400
    pointers = {fault["pointer"] for fault in problem.get_json()["errors"]}
    assert pointers == {"/pan_pressure/unit", "/outlet_drop", "/pan_area/value", "/seal_depth"}
