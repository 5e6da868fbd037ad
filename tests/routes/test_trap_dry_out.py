"""``POST /v1/trap-dry-out`` as a caller sees it."""

import pytest
from flask.testing import FlaskClient

URL = "/v1/trap-dry-out"
BODY = {
    "pan_pressure": {"value": -1, "unit": "inH2O"},
    "outlet_drop": {"value": 2, "unit": "in"},
    "seal_depth": {"value": 2, "unit": "in"},
    "unit_side_air": {"dry_bulb": {"value": 70, "unit": "degF"}, "relative_humidity_percent": 30},
    "idle_time": {"value": 26, "unit": "day"},
}


def test_days_in_both_unit_systems(client: FlaskClient) -> None:
    """Half of 1 in of suction stays above the dip of 2 in: 1-1/2 in may go, 38.1 mm."""
    us = client.post(URL, json=BODY).get_json()
    si = client.post(f"{URL}?units=si", json=BODY).get_json()
    assert us["results"]["loss_level"] == {"value": pytest.approx(-1.5), "unit": "in"}
    assert si["results"]["loss_level"] == {"value": pytest.approx(-38.1), "unit": "mm"}
    for name in ("earliest_loss", "latest_loss", "refill_interval"):
        assert us["results"][name]["unit"] == "day"
        assert us["results"][name] == si["results"][name]
    after = us["results"]["after_idle"]
    assert after["idle_time"] == {"value": 26.0, "unit": "day"}
    assert after["outcome"] == "holds"


def test_a_season_too_long_names_the_days_and_the_remedy(client: FlaskClient) -> None:
    body = {**BODY, "idle_time": {"value": 4320, "unit": "h"}}
    answer = client.post(URL, json=body).get_json()
    assert answer["verdict"] == "fail"
    finding = answer["findings"][0]
    assert finding["code"] == "seal-dries-out"
    assert finding["pointer"] == "/idle_time"
    assert "180 days" in finding["message"]
    assert "primer" in finding["remedy"]


def test_wet_air_gives_null_days(client: FlaskClient) -> None:
    wet = {"dry_bulb": {"value": 80, "unit": "degF"}, "relative_humidity_percent": 100}
    body = {**BODY, "unit_side_air": wet, "water_temperature": {"value": 70, "unit": "degF"}}
    answer = client.post(URL, json=body).get_json()
    assert answer["verdict"] == "pass"
    assert answer["results"]["earliest_loss"] is answer["results"]["latest_loss"] is None
    assert answer["results"]["after_idle"]["outcome"] == "holds"


def test_a_dew_point_that_cannot_be_is_a_422(client: FlaskClient) -> None:
    air = {"dry_bulb": {"value": 50, "unit": "degF"}, "dew_point": {"value": 60, "unit": "degF"}}
    problem = client.post(URL, json={**BODY, "outlet_side_air": air})
    assert problem.status_code == 422
    assert problem.get_json()["errors"][0]["pointer"] == "/outlet_side_air/dew_point"


def test_every_fault_is_named_at_once(client: FlaskClient) -> None:
    body = {
        "pan_pressure": {"value": -1, "unit": "inH2O"},
        "seal_depth": {"value": -1, "unit": "in"},
        "open_legs": "none",
        "unit_side_air": {"dry_bulb": {"value": 70, "unit": "degF"}},
        "water_temperature": {"value": 95, "unit": "degC"},
        "idle_time": {"value": 3, "unit": "year"},
    }
    problem = client.post(URL, json=body)
    assert problem.status_code == 400
    assert {fault["pointer"] for fault in problem.get_json()["errors"]} == {
        "/outlet_drop",
        "/seal_depth/value",
        "/open_legs",
        "/unit_side_air",
        "/water_temperature/value",
        "/idle_time/unit",
    }
