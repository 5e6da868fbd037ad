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


def test_units_join_along_the_run(client: FlaskClient) -> None:
    def unit(tons: float, joins: str) -> dict[str, object]:
        return {
            "total_capacity": {"value": tons, "unit": "ton"},
            "peak_flow": {"value": 2, "unit": "gal/h"},
            "joins": joins,
        }

    body = {
        "units": [unit(15, "far"), unit(15, "near"), unit(15, "near")],
        "lengths": [
            {"id": "far", "run": {"value": 30, "unit": "ft"}, "installed_pipe_size": "1"},
            {"id": "near", "run": {"value": 20, "unit": "ft"}, "pitch_ratio": 0.0208, "installed_pipe_size": "3/4"},
        ],
        "pitch_ratio": 0.0208,
    }
    answer = client.post(PATH, json=body).get_json()
    results = answer["results"]
    # IMC 2021 Table 307.2.2: 15 tons 3/4 in, 45 tons 1-1/4 in
    assert [row["pipe_size"] for row in results["lengths"]] == ["3/4", "1-1/4"]
    assert [row["peak_flow"]["value"] for row in results["lengths"]] == [pytest.approx(2.0), pytest.approx(6.0)]
    assert results["lengths"][0]["fall"] == {"value": pytest.approx(0.0208 * 360), "unit": "in"}
    assert results["pipe_size"] == "1-1/4"
    assert results["velocity"]["unit"] == "ft/s"
    assert results["tightest_length"] == 1
    assert answer["verdict"] == "fail"
    said = {finding["code"]: finding["message"] for finding in answer["findings"]}
    assert said["length-smaller-than-needed"].startswith('The pipe of length "near" is 3/4 in; 45 ton drain through it')
    assert said["line-shrinks-downstream"].startswith('The pipe of length "near" is 3/4 in, and 1 in runs into it')


def test_the_largest_line_is_answered(client: FlaskClient) -> None:
    units = [
        {"total_capacity": {"value": 0.2, "unit": "ton"}, "joins": str(index % 200), "pan_outlet": "3/4"}
        for index in range(1000)
    ]
    lengths = [{"id": str(index), "run": {"value": 10, "unit": "ft"}} for index in range(200)]
    response = client.post(PATH, json={"units": units, "lengths": lengths, "pitch_ratio": 0.0208})
    assert response.status_code == 200
    results = response.get_json()["results"]
    # 1000 x 0.2 tons, and by the ton 0.5 gal/h each (common practice)
    assert results["lengths"][-1]["peak_flow"]["value"] == pytest.approx(100.0)
    assert results["lengths"][99]["peak_flow"]["value"] == pytest.approx(50.0)
    assert client.post(PATH, json={"units": units, "lengths": [*lengths, {}]}).status_code == 400


def test_a_name_too_long_and_a_number_for_a_name_are_refused(client: FlaskClient) -> None:
    body = {
        "units": [{"total_capacity": {"value": 1, "unit": "ton"}, "joins": "x" * 41}],
        "lengths": [{"id": 3, "installed_pipe_size": "7/8"}],
    }
    problem = client.post(PATH, json=body)
    assert problem.status_code == 400
    assert {fault["pointer"] for fault in problem.get_json()["errors"]} == {
        "/units/0/joins",
        "/lengths/0/id",
        "/lengths/0/installed_pipe_size",
    }
