"""The round as CSV: what JSON says, in a form a spreadsheet opens, and nothing a spreadsheet would run."""

import csv
import io
from typing import Any

import pytest
from flask.testing import FlaskClient

from service.reports.round_table import COLUMNS
from service.schemas.maintenance_round import MaintenanceRoundRequest

PATH = "/v1/maintenance-round"
EXAMPLES = MaintenanceRoundRequest.examples


def table(client: FlaskClient, body: dict[str, Any]) -> list[dict[str, str]]:
    answer = client.post(PATH, json=body, headers={"Accept": "text/csv"})
    assert answer.status_code == 200
    assert answer.mimetype == "text/csv"
    assert answer.headers["Vary"] == "Accept, Accept-Language"
    text = answer.get_data(as_text=True)
    assert text.split("\r\n", 1)[0] == ",".join(COLUMNS)
    return list(csv.DictReader(io.StringIO(text, newline="")))


@pytest.mark.parametrize("name", list(EXAMPLES))
def test_the_table_says_what_json_says(name: str, client: FlaskClient) -> None:
    body = EXAMPLES[name]["value"]
    results = client.post(PATH, json=body).get_json()["results"]
    lines = table(client, body)
    assert len(lines) == len(results["units"])
    placed = [line for line in lines if line["place"]]
    assert [int(line["index"]) for line in placed] == [stop["index"] for stop in results["order"]]
    for line, stop in zip(placed, results["order"], strict=True):
        visit = results["units"][stop["index"]]["visit"]
        assert (line["unit_id"], line["urgency"]) == (stop["unit_id"] or "", stop["urgency"])
        assert (int(line["day"]), int(line["technician"])) == (stop["slot"]["day"], stop["slot"]["technician"])
        assert float(line["minutes"]) == pytest.approx(stop["minutes"], abs=0.5)
        assert line["method"] == visit["method"]
        assert line["reasons"] == " ".join(reason["explanation"] for reason in visit["reasons"])
        assert (int(line["fails"]), line["problem"]) == (visit["finding_counts"]["fail"], "")
    for line in lines[len(placed) :]:
        problem = results["units"][int(line["index"])]["problem"]
        assert problem["errors"][0]["detail"] in line["problem"]


@pytest.mark.parametrize(
    "text",
    ["=1+1", "+1", "-1", "@SUM(A1)", "\t=1", "\r=1", "\n=1", "\uff1d1", "a,b", 'a"b', "a\r\nb", "\x00", "", "'x"],
)
def test_a_hostile_name_stays_one_cell_and_no_formula(text: str, client: FlaskClient) -> None:
    (line,) = table(client, {"units": [{"unit_id": text}]})
    cell = line["unit_id"]
    assert cell in (text, f"'{text}")
    assert not cell.startswith(("=", "+", "-", "@", "\t", "\r", "\n", "\uff1d"))
    assert line["urgency"] == "this-month"


def test_json_is_what_anything_gets(client: FlaskClient) -> None:
    for accept in ("*/*", "application/json", ""):
        answer = client.post(PATH, json={"units": [{}]}, headers={"Accept": accept})
        assert answer.mimetype == "application/json"
