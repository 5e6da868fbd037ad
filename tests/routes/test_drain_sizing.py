"""``POST /v1/drain-sizing`` as a caller sees it."""

import pytest
from flask.testing import FlaskClient

PATH = "/v1/drain-sizing"


def post(client: FlaskClient, capacity: float, unit: str, query: str = "", **more: object) -> dict[str, object]:
    """The answer for one unit."""
    body = {"units": [{"total_capacity": {"value": capacity, "unit": unit}}], **more}
    response = client.post(PATH + query, json=body)
    assert response.status_code == 200, response.get_json()
    answer: dict[str, object] = response.get_json()
    return answer


@pytest.mark.parametrize(
    ("capacity", "unit", "size"),
    [
        # IMC 2021 Table 307.2.2, at its edges, in every unit of power: 20 tons is 240,000 Btu/h and 70.337 kW
        (20, "ton", "3/4"),
        (240_000, "Btu/h", "3/4"),
        (240, "kBtu/h", "3/4"),
        (70.337, "kW", "3/4"),
        (70_337, "W", "3/4"),
        (20.01, "ton", "1"),
        (240_100, "Btu/h", "1"),
        (40, "ton", "1"),
        (480_000, "Btu/h", "1"),
        (40.01, "ton", "1-1/4"),
        (90, "ton", "1-1/4"),
        (125, "ton", "1-1/2"),
        (1500, "kBtu/h", "1-1/2"),
        (250, "ton", "2"),
        (3_000_000, "Btu/h", "2"),
        (250.1, "ton", None),
    ],
)
def test_the_codes_table_at_its_edges_in_any_unit(
    client: FlaskClient, capacity: float, unit: str, size: str | None
) -> None:
    results = post(client, capacity, unit)["results"]
    assert isinstance(results, dict)
    assert results["pipe_size"] == size


def test_the_answer_comes_in_the_units_asked_for(client: FlaskClient) -> None:
    us = post(client, 10, "ton", pitch_ratio=0.02)["results"]
    si = post(client, 10, "ton", "?units=si", pitch_ratio=0.02)["results"]
    assert isinstance(us, dict)
    assert isinstance(si, dict)
    assert us["bore"] == {"value": pytest.approx(0.824), "unit": "in"}  # ASTM D1785
    assert si["bore"] == {"value": pytest.approx(20.9296), "unit": "mm"}
    # common practice: 0.5 gal/h a ton; 3.785411784 L a gallon, exact
    assert us["peak_flow"] == {"value": pytest.approx(5.0), "unit": "gal/h"}
    assert si["peak_flow"] == {"value": pytest.approx(5.0 * 3.785411784), "unit": "L/h"}
    assert si["total_capacity"] == {"value": pytest.approx(35.1685, abs=1e-3), "unit": "kW"}


def test_a_thousand_units_are_one_line(client: FlaskClient) -> None:
    unit = {"total_capacity": {"value": 0.25, "unit": "ton"}, "sensible_heat_ratio": 0.7}
    response = client.post(PATH, json={"units": [unit] * 1000})
    assert response.status_code == 200
    # 1000 x 0.25 tons is the last edge of the table
    assert response.get_json()["results"]["pipe_size"] == "2"
    assert client.post(PATH, json={"units": [unit] * 1001}).status_code == 400


def test_every_fault_is_named_at_once(client: FlaskClient) -> None:
    body = {
        "units": [{"total_capacity": {"value": 5, "unit": "hp"}}, {"sensible_heat_ratio": 1.2}],
        "pan_outlet": "7/8",
        "slope": 0.02,
    }
    problem = client.post(PATH, json=body)
    assert problem.status_code == 400
    assert {fault["pointer"] for fault in problem.get_json()["errors"]} == {
        "/units/0/total_capacity/unit",
        "/units/1/total_capacity",
        "/units/1/sensible_heat_ratio",
        "/pan_outlet",
        "/slope",
    }
