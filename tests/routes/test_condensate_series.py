"""``POST /v1/condensate-rate/series`` as a caller sees it."""

from typing import Any

import pytest
from flask.testing import FlaskClient

PATH = "/v1/condensate-rate/series"
BODY: dict[str, Any] = {
    "start": "2026-07-14T22:00",
    "air_flow": {"value": 1200, "unit": "cfm"},
    "entering_air": {
        "dry_bulb": {"values": [80, 79, 78, 77], "unit": "degF"},
        "relative_humidity_percent": [60, 62, 64, 66],
    },
    "leaving_air": {"dry_bulb": {"value": 57, "unit": "degF"}, "relative_humidity_percent": 92},
}


def post(client: FlaskClient, body: Any, units: str = "us", status: int = 200) -> Any:
    answer = client.post(f"{PATH}?units={units}", json=body)
    assert answer.status_code == status, answer.get_json()
    return answer.get_json()


def entering(**changes: Any) -> dict[str, Any]:
    return BODY | {"entering_air": BODY["entering_air"] | changes}


def faults_of(client: FlaskClient, body: Any) -> dict[str, str]:
    return {fault["pointer"]: fault["detail"] for fault in post(client, body, status=400)["errors"]}


def test_the_same_water_as_the_single_operation_makes(client: FlaskClient) -> None:
    hourly = post(client, BODY)["results"]["hourly"]
    for row, rate in enumerate(hourly["rates"]["values"]):
        single = {
            "air_flow": BODY["air_flow"],
            "entering_air": {
                "dry_bulb": {"value": BODY["entering_air"]["dry_bulb"]["values"][row], "unit": "degF"},
                "relative_humidity_percent": BODY["entering_air"]["relative_humidity_percent"][row],
            },
            "leaving_air": BODY["leaving_air"],
        }
        one = client.post("/v1/condensate-rate/from-air-states", json=single).get_json()["results"]
        assert {"value": rate, "unit": hourly["rates"]["unit"]} == {
            "value": pytest.approx(one["volume_rate"]["value"], rel=1e-9),
            "unit": one["volume_rate"]["unit"],
        }


def test_days_months_and_the_peak(client: FlaskClient) -> None:
    results = post(client, BODY)["results"]
    rates = results["hourly"]["rates"]["values"]
    assert results["daily"]["dates"] == ["2026-07-14", "2026-07-15"]
    assert results["daily"]["volumes"]["values"] == pytest.approx([sum(rates[:2]), sum(rates[2:])])
    assert [month["month"] for month in results["monthly"]] == ["2026-07"]
    assert results["total_volume"] == {"value": pytest.approx(sum(rates)), "unit": "gal"}
    assert results["peak_rate"]["value"] == max(rates)
    assert results["peak_index"] == rates.index(max(rates))
    assert results["wet_time"] == {"value": pytest.approx(4.0), "unit": "h"}


def test_both_unit_systems_tell_of_the_same_water(client: FlaskClient) -> None:
    us, si = post(client, BODY)["results"], post(client, BODY, "si")["results"]
    gallon = 3.785411784
    assert si["daily"]["volumes"]["unit"] == "L"
    assert si["daily"]["volumes"]["values"] == pytest.approx(
        [value * gallon for value in us["daily"]["volumes"]["values"]]
    )
    assert si["hourly"]["rates"]["unit"] == "L/h"


def test_rows_are_answered_where_asked_for_or_few(client: FlaskClient) -> None:
    columns = {"dry_bulb": {"values": [80] * 49, "unit": "degF"}, "relative_humidity_percent": [60] * 49}
    assert post(client, entering(**columns))["results"]["hourly"] is None
    asked = post(client, entering(**columns) | {"hourly": True})["results"]["hourly"]
    assert len(asked["rates"]["values"]) == len(asked["statuses"]) == 49


def test_a_year_is_answered(client: FlaskClient) -> None:
    rows = 8784
    columns = {
        "dry_bulb": {"values": [70 + row % 24 for row in range(rows)], "unit": "degF"},
        "relative_humidity_percent": [60] * rows,
    }
    answer = post(client, entering(**columns) | {"start": "2028-01-01", "hourly": True})
    results = answer["results"]
    assert (results["rows"], len(results["daily"]["dates"]), len(results["monthly"])) == (8784, 366, 12)
    assert [month["rows"] for month in results["monthly"]] == [
        24 * days for days in (31, 29, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31)
    ]
    refused = columns | {"relative_humidity_percent": [60] * (rows + 1)}
    assert faults_of(client, entering(**refused)) == {
        "/entering_air/relative_humidity_percent": "Received 8785 elements; allowed 1 to 8784."
    }


def test_a_malformed_row_is_named_by_its_number(client: FlaskClient) -> None:
    body = entering(
        dry_bulb={"values": [80, "79", 780, 77], "unit": "degF"}, relative_humidity_percent=[60, 62, None, -1]
    )
    assert faults_of(client, body) == {
        "/entering_air/dry_bulb/values/1": 'Received "79", which is not a number; allowed -58 to 140 degF.',
        "/entering_air/dry_bulb/values/2": "Received 780 degF; allowed -58 to 140 degF.",
        "/entering_air/relative_humidity_percent/2": "Received null, which is not a number; allowed 1 to 100.",
        "/entering_air/relative_humidity_percent/3": "Received -1; allowed 1 to 100.",
    }


def test_many_malformed_rows_give_a_small_answer(client: FlaskClient) -> None:
    columns = {"dry_bulb": {"values": [1e9] * 8784, "unit": "K"}, "relative_humidity_percent": ["x"] * 8784}
    answer = client.post(PATH, json=entering(**columns))
    assert answer.status_code == 400
    assert len(answer.data) < 40_000
    faults = answer.get_json()["errors"]
    assert len(faults) == 202
    assert {"pointer": "/entering_air/dry_bulb/values", "detail": faults[100]["detail"]} == faults[100]
    assert "8684 more" in faults[100]["detail"]


def test_a_row_that_cannot_be_is_an_answer(client: FlaskClient) -> None:
    columns = {
        "dry_bulb": {"values": [80, 60, 80], "unit": "degF"},
        "wet_bulb": {"values": [67, 70, 67], "unit": "degF"},
    }
    body = {name: value for name, value in BODY.items() if name != "entering_air"} | {"entering_air": columns}
    answer = post(client, body)
    assert answer["results"]["hourly"]["statuses"] == ["wet", "misread", "wet"]
    assert answer["results"]["hourly"]["rates"]["values"][1] is None
    found = {finding["code"]: finding for finding in answer["findings"]}
    assert found["rows-above-dry-bulb"]["pointer"] == "/entering_air/wet_bulb/values/1"
    assert "1 (2026-07-14T23:00)" in found["rows-above-dry-bulb"]["message"]


def test_a_finding_speaks_the_callers_units(client: FlaskClient) -> None:
    body = BODY | {"drain_capacity": {"value": 1, "unit": "gal/h"}}
    message = {f["code"]: f["message"] for f in post(client, body, "si")["findings"]}["peak-above-capacity"]
    assert "the 3.79 L/h that the drain or pump takes; for 4 h in 4 rows" in message


@pytest.mark.parametrize(
    ("change", "pointer", "said"),
    [
        ({"leaving_air": None}, "/leaving_air", "null"),
        (
            {"coil": {"total_capacity": {"value": 3, "unit": "ton"}, "bypass_factor": 0.1}},
            "",
            "exactly one of leaving_air, coil; received leaving_air, coil",
        ),
        ({"start": "2026-02-30"}, "/start", "a date that exists"),
        ({"step": {"value": 30, "unit": "s"}}, "/step/value", "allowed 60 to 86400 s"),
        ({"run_fraction": [1, 2]}, "/run_fraction/1", "allowed 0 to 1"),
        ({"reuse": {}}, "/reuse/daily_demand", "required"),
        ({"hourly": 1}, "/hourly", "allowed: true, false"),
    ],
)
def test_a_fault_is_named_where_it_is(client: FlaskClient, change: dict[str, Any], pointer: str, said: str) -> None:
    assert said in faults_of(client, BODY | change)[pointer]


def test_a_leaving_wet_bulb_above_its_dry_bulb_contradicts_itself(client: FlaskClient) -> None:
    leaving = {"dry_bulb": {"value": 55, "unit": "degF"}, "wet_bulb": {"value": 60, "unit": "degF"}}
    problem = post(client, BODY | {"leaving_air": leaving}, status=422)
    assert problem["errors"][0]["pointer"] == "/leaving_air/wet_bulb"


TABLE = """air_flow,1200,cfm
leaving_air.dry_bulb,57,degF
leaving_air.relative_humidity_percent,92

time,dry_bulb degF,relative_humidity_percent
2026-07-14T22:00,80,60
2026-07-14T23:00,79,62
2026-07-15T00:00,78,64
2026-07-15T01:00,77,66
"""


def send(client: FlaskClient, text: str | bytes, content_type: str = "text/csv") -> Any:
    return client.post(PATH, data=text, headers={"Content-Type": content_type})


@pytest.mark.parametrize("content_type", ["text/csv", "text/csv; charset=utf-8", "Text/CSV;header=present"])
def test_a_table_gets_the_answer_of_the_same_json(client: FlaskClient, content_type: str) -> None:
    answer = send(client, TABLE, content_type)
    assert answer.status_code == 200
    assert answer.get_json()["results"] == post(client, BODY)["results"]


def test_a_malformed_cell_of_a_table_is_named_by_line_and_column(client: FlaskClient) -> None:
    answer = send(client, TABLE.replace("79,62", "seventy,162"))
    assert answer.status_code == 400
    assert answer.get_json()["errors"] == [
        {
            "pointer": "/entering_air/dry_bulb/values/1",
            "line": 7,
            "column": "dry_bulb",
            "detail": 'Line 7, dry_bulb: Received "seventy", which is not a number; allowed -58 to 140 degF.',
        },
        {
            "pointer": "/entering_air/relative_humidity_percent/1",
            "line": 7,
            "column": "relative_humidity_percent",
            "detail": "Line 7, relative_humidity_percent: Received 162.0; allowed 1 to 100.",
        },
    ]


def test_a_missing_setting_is_named_as_the_member_it_is(client: FlaskClient) -> None:
    answer = send(client, TABLE.replace("air_flow,1200,cfm\n", ""))
    assert answer.get_json()["errors"] == [
        {"pointer": "/air_flow", "detail": "This member is required and is missing."}
    ]


@pytest.mark.parametrize(
    ("body", "said"),
    [
        (b"", "empty"),
        (b"a,b", "no header line"),
        (b"\xff\xfe", "not UTF-8"),
        (b'"', "not CSV"),
        (b"{}", "no header line"),
    ],
)
def test_what_is_no_table_is_malformed(client: FlaskClient, body: bytes, said: str) -> None:
    answer = send(client, body)
    assert answer.status_code == 400
    assert answer.get_json()["type"] == "/problems/malformed-body"
    assert said in answer.get_json()["detail"]


def test_only_json_and_csv_are_read_and_csv_only_here(client: FlaskClient) -> None:
    answer = send(client, TABLE, "text/tab-separated-values")
    assert answer.status_code == 415
    assert answer.headers["Accept"] == "application/json, text/csv"
    assert send(client, TABLE, "text/csv; charset=latin-1").status_code == 415
    elsewhere = client.post("/v1/drain-pitch", data=TABLE, headers={"Content-Type": "text/csv"})
    assert elsewhere.status_code == 415
    assert elsewhere.headers["Accept"] == "application/json"
    assert send(client, b"a" * (2 * 1024 * 1024 + 1)).status_code == 413
