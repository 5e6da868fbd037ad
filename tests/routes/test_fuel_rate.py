"""``POST /v1/condensate-rate/from-fuel`` as a caller sees it."""

import pytest
from flask.testing import FlaskClient

URL = "/v1/condensate-rate/from-fuel"


def test_a_furnace_in_both_unit_systems(client: FlaskClient) -> None:
    body = {"fuel_input": {"value": 80000, "unit": "Btu/h"}, "run_fraction": 0.5}
    us = client.post(URL, json=body).get_json()
    si = client.post(f"{URL}?units=si", json=body).get_json()
    assert us["results"]["volume_rate"]["value"] * 3.785411784 == pytest.approx(si["results"]["volume_rate"]["value"])
    assert us["results"]["daily_volume"]["value"] == pytest.approx(us["results"]["volume_rate"]["value"] * 12)
    assert [finding["code"] for finding in us["findings"]] == ["flue-condensate-is-acid"]
    assert [caution["code"] for caution in us["cautions"]] == ["acid-condensate", "flue-gas", "local-code"]
    assert {assumption["pointer"] for assumption in us["assumptions"]} == {
        "/fuel",
        "/exhaust_temperature",
        "/excess_air_percent",
        "/combustion_air",
        "/elevation",
    }


def test_a_dry_flue_makes_no_water_and_warns_of_no_acid(client: FlaskClient) -> None:
    body = {"fuel_input": {"value": 20, "unit": "kW"}, "exhaust_temperature": {"value": 90, "unit": "degC"}}
    answer = client.post(URL, json=body).get_json()
    assert answer["results"]["mass_rate"]["value"] == 0
    assert answer["results"]["condensed_share"] == 0
    assert [finding["code"] for finding in answer["findings"]] == ["flue-gas-stays-dry"]
    assert "acid-condensate" not in [caution["code"] for caution in answer["cautions"]]


def test_faults_are_named(client: FlaskClient) -> None:
    body = {"fuel_input": {"value": 0, "unit": "kW"}, "fuel": "coal", "excess_air_percent": -1}
    answer = client.post(URL, json=body)
    assert answer.status_code == 400
    assert {fault["pointer"] for fault in answer.get_json()["errors"]} == {
        "/fuel_input/value",
        "/fuel",
        "/excess_air_percent",
    }
