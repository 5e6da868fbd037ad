"""``POST /v1/condensate-rate/...`` as a caller sees it."""

from typing import Any

import pytest
from flask.testing import FlaskClient

PATH = "/v1/condensate-rate/"
STATES = {
    "air_flow": {"value": 1200, "unit": "cfm"},
    "entering_air": {"dry_bulb": {"value": 80, "unit": "degF"}, "wet_bulb": {"value": 67, "unit": "degF"}},
    "leaving_air": {"dry_bulb": {"value": 57, "unit": "degF"}, "relative_humidity_percent": 92},
}
COIL = {
    "air_flow": {"value": 1200, "unit": "cfm"},
    "entering_air": STATES["entering_air"],
    "total_capacity": {"value": 36000, "unit": "Btu/h"},
    "bypass_factor": 0.12,
}


def degrees(value: float) -> dict[str, Any]:
    return {"value": value, "unit": "degF"}


def post(client: FlaskClient, operation: str, body: dict[str, Any], units: str = "us", status: int = 200) -> Any:
    response = client.post(f"{PATH}{operation}?units={units}", json=body)
    assert response.status_code == status, response.get_json()
    return response.get_json()


def test_three_tons_by_hand_in_both_systems(client: FlaskClient) -> None:
    # 9,000 Btu/h over 1060 Btu/lb; a pound is 0.45359237 kg; 8.343 lb to the gallon at 10 degC
    body = {"total_capacity": {"value": 3, "unit": "ton"}, "sensible_heat_ratio": 0.75, "run_fraction": 0.6}
    us = post(client, "from-capacity", body)["results"]
    si = post(client, "from-capacity", body, "si")["results"]
    assert us["mass_rate"] == {"value": pytest.approx(8.4906, abs=1e-4), "unit": "lb/h"}
    assert si["mass_rate"] == {"value": pytest.approx(8.4906 * 0.45359237, abs=1e-4), "unit": "kg/h"}
    assert us["volume_rate"] == {"value": pytest.approx(8.4906 / 8.343, abs=1e-3), "unit": "gal/h"}
    assert us["rate_per_ton"]["value"] == pytest.approx(us["volume_rate"]["value"] / 3)
    assert us["daily_volume"]["unit"] == "gal"
    assert si["daily_volume"]["value"] / us["daily_volume"]["value"] == pytest.approx(3.785411784)


def test_the_handbooks_example_over_the_wire(client: FlaskClient) -> None:
    # ASHRAE Handbook - Fundamentals, Psychrometrics: about 0.0325 kg/s (117 kg/h) and about 198 kW
    body = {
        "air_flow": {"value": 5000, "unit": "L/s"},
        "entering_air": {"dry_bulb": {"value": 30, "unit": "degC"}, "relative_humidity_percent": 50},
        "leaving_air": {"dry_bulb": {"value": 10, "unit": "degC"}, "relative_humidity_percent": 100},
    }
    results = post(client, "from-air-states", body, "si")["results"]
    assert results["mass_rate"] == {"value": pytest.approx(0.0325 * 3600, rel=0.005), "unit": "kg/h"}
    assert results["total_load"] == {"value": pytest.approx(198e3, rel=0.005), "unit": "W"}


def test_the_same_air_in_other_units_gives_the_same_answer(client: FlaskClient) -> None:
    metric = {
        "air_flow": {"value": 1200 * 0.3048**3 / 60 * 3600, "unit": "m3/h"},
        "entering_air": {
            "dry_bulb": {"value": 80 / 1.8 - 32 / 1.8, "unit": "degC"},
            "wet_bulb": {"value": 67 / 1.8 - 32 / 1.8 + 273.15, "unit": "K"},
        },
        "leaving_air": {"dry_bulb": {"value": 57 / 1.8 - 32 / 1.8, "unit": "degC"}, "relative_humidity_percent": 92},
    }
    for name in ("mass_rate", "total_load", "latent_load"):
        there = post(client, "from-air-states", metric)["results"][name]["value"]
        assert there == pytest.approx(post(client, "from-air-states", STATES)["results"][name]["value"], rel=1e-9)


def test_the_coil_gives_its_apparatus_dew_point_and_leaving_air(client: FlaskClient) -> None:
    results = post(client, "from-coil", COIL)["results"]
    assert results["total_load"] == {"value": pytest.approx(36000), "unit": "Btu/h"}
    assert results["apparatus_dew_point"]["unit"] == "degF"
    assert results["apparatus_dew_point"]["value"] < results["leaving_air"]["dew_point"]["value"]
    assert results["leaving_air"]["humidity_ratio"]["unit"] == "gr/lb"


def test_what_a_coil_cannot_do_is_an_answer_in_the_callers_units(client: FlaskClient) -> None:
    body = COIL | {"air_flow": {"value": 150, "unit": "cfm"}}
    us, si = post(client, "from-coil", body), post(client, "from-coil", body, "si")
    assert us["verdict"] == "fail"
    assert us["results"]["mass_rate"] is None
    assert "150 cfm of this air cannot give up 3 ton: a coil as cold as -4 degF" in us["findings"][0]["message"]
    assert "70.8 L/s of this air cannot give up 10.6 kW: a coil as cold as -20 degC" in si["findings"][0]["message"]


@pytest.mark.parametrize(
    ("change", "pointer", "said"),
    [
        (
            {"entering_air": {"dry_bulb": degrees(67), "wet_bulb": degrees(80)}},
            "/entering_air/wet_bulb",
            "wet bulb of 80 degF cannot lie above the dry bulb of 67 degF",
        ),
        (
            {"leaving_air": {"dry_bulb": degrees(55), "wet_bulb": degrees(60)}},
            "/leaving_air/wet_bulb",
            "wet bulb of 60 degF cannot lie above the dry bulb of 55 degF",
        ),
        (
            {"entering_air": {"dry_bulb": degrees(60), "dew_point": degrees(65)}},
            "/entering_air/dew_point",
            "dew point of 65 degF cannot lie above the dry bulb of 60 degF",
        ),
        (
            {
                "entering_air": {"dry_bulb": degrees(57), "relative_humidity_percent": 92},
                "leaving_air": {"dry_bulb": degrees(78), "relative_humidity_percent": 60},
            },
            "/leaving_air",
            "Swap entering and leaving",
        ),
    ],
)
def test_facts_that_contradict_each_other_are_refused(
    client: FlaskClient, change: dict[str, Any], pointer: str, said: str
) -> None:
    problem = post(client, "from-air-states", STATES | change, status=422)
    assert [fault["pointer"] for fault in problem["errors"]] == [pointer]
    assert said in problem["errors"][0]["detail"]


def test_air_that_picks_up_water_is_an_answer_without_a_rate(client: FlaskClient) -> None:
    change = {
        "entering_air": {"dry_bulb": degrees(80), "relative_humidity_percent": 30},
        "leaving_air": {"dry_bulb": degrees(65), "relative_humidity_percent": 75},
    }
    answer = post(client, "from-air-states", STATES | change)
    assert answer["verdict"] == "fail"
    assert answer["findings"][0]["code"] == "leaving-air-wetter"
    assert answer["results"]["volume_rate"] is None
    assert answer["results"]["leaving_air"] is not None


def test_every_fault_of_a_wrong_body_is_named(client: FlaskClient) -> None:
    body = {
        "air_flow": {"value": 1200, "unit": "scfm"},
        "air_flow_basis": "true",
        "entering_air": {"dry_bulb": degrees(180), "humidity": 50},
        "leaving_air": STATES["leaving_air"],
        "elevation": {"value": 10, "unit": "ft"},
        "station_pressure": {"value": 29.92, "unit": "psi"},
    }
    problem = post(client, "from-air-states", body, status=400)
    faults = {fault["pointer"]: fault["detail"] for fault in problem["errors"]}
    assert faults["/entering_air/dry_bulb/value"] == "Received 180 degF; allowed 50 to 140 degF."
    assert "exactly one of wet_bulb" in faults["/entering_air"]
    assert {"/air_flow/unit", "/air_flow_basis", "/entering_air/humidity", "/station_pressure/value"} < set(faults)
    assert "at most one of elevation, station_pressure" in faults[""]


@pytest.mark.parametrize("operation", ["from-capacity", "from-air-states", "from-coil"])
def test_an_empty_body_names_what_is_missing(client: FlaskClient, operation: str) -> None:
    problem = post(client, operation, {}, status=400)
    assert all("required" in fault["detail"] for fault in problem["errors"])
    assert len(problem["errors"]) == {"from-capacity": 2, "from-air-states": 3, "from-coil": 4}[operation]
