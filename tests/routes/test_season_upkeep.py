"""``POST /v1/season-upkeep`` as a caller sees it."""

import copy
from typing import Any

import pytest
from flask.testing import FlaskClient

from service.schemas.season_upkeep import SeasonUpkeepRequest

EXAMPLES = {name: example["value"] for name, example in SeasonUpkeepRequest.examples.items()}
ATTIC = EXAMPLES["attic-unit-with-furnace"]


def post(client: FlaskClient, body: Any, query: str = "") -> Any:
    answer = client.post(f"/v1/season-upkeep{query}", json=body)
    assert answer.status_code == 200, answer.data
    return answer.get_json()


@pytest.mark.parametrize(
    ("name", "verdict"),
    [
        ("attic-unit-with-furnace", "fail"),
        ("sound-pumped-unit-si", "pass"),
        ("sewer-connection", "fail"),
        ("nothing-known", "pass"),
    ],
)
def test_the_examples_are_the_cases_they_name(name: str, verdict: str, client: FlaskClient) -> None:
    answer = post(client, EXAMPLES[name])
    assert answer["verdict"] == verdict
    seasons = answer["results"]["seasons"]
    assert [row["season"] for row in seasons] == ["spring-start-up", "mid-season", "autumn-shut-down", "winter"]
    assert all(row["checks"] for row in seasons)
    assert answer["results"]["minutes"] == sum(row["minutes"] for row in seasons)


@pytest.mark.parametrize("query", ["", "?units=si"])
def test_the_furnaces_numbers_are_those_of_from_fuel(query: str, client: FlaskClient) -> None:
    furnace = ATTIC["furnace"]
    plain = {name: value for name, value in furnace.items() if name not in ("shares_drain", "neutralizer")}
    alone = client.post(f"/v1/condensate-rate/from-fuel{query}", json=plain).get_json()
    answer = post(client, ATTIC, query)
    assert answer["results"]["furnace_condensate"] == alone["results"]
    assumed = {row["pointer"] for row in answer["assumptions"]}
    assert {f"/furnace{row['pointer']}" for row in alone["assumptions"]} <= assumed


def test_the_drying_out_is_that_of_the_assessment(client: FlaskClient) -> None:
    body = EXAMPLES["sewer-connection"]
    alone = client.post("/v1/assessment", json=body["unit"]).get_json()["results"]["trap_dry_out"]
    here = post(client, body)["results"]["days_to_dry_out"]
    for name in ("earliest_loss", "latest_loss", "refill_interval"):
        assert here[name]["unit"] == "day"
        assert here[name]["value"] == pytest.approx(
            alone[name]["value"] / {"min": 1440.0, "day": 1.0}[alone[name]["unit"]]
        )


def test_texts_and_numbers_follow_the_units_asked_for(client: FlaskClient) -> None:
    us, si = post(client, ATTIC), post(client, ATTIC, "?units=si")

    def text(answer: Any) -> str:
        return " ".join(
            check[member]
            for season in answer["results"]["seasons"]
            for check in season["checks"]
            for member in ("check", "why")
        )

    assert " gal/h" in text(us)
    assert " in3" in text(us)
    assert not {" L/h", " mL", " mm"} & {symbol for symbol in (" L/h", " mL", " mm") if symbol in text(us)}
    assert " L/h" in text(si)
    assert " mL" in text(si)
    assert " gal/h" not in text(si)
    assert us["results"]["idle_time"] == si["results"]["idle_time"] == {"value": 213.0, "unit": "day"}


@pytest.mark.parametrize("name", EXAMPLES)
@pytest.mark.parametrize("query", ["", "?units=si"])
def test_an_answer_reads_on_a_phone(name: str, query: str, client: FlaskClient) -> None:
    answer = post(client, EXAMPLES[name], query)
    said = [
        check[member]
        for season in answer["results"]["seasons"]
        for check in season["checks"]
        for member in ("check", "why")
    ]
    said += [row[member] for row in answer["findings"] for member in ("message", "remedy")]
    for sentence in said:
        assert not {"{", "}", "_"} & set(sentence), sentence
        assert len(sentence) <= 400, sentence
    codes = {row["code"] for row in answer["cautions"]}
    assert len(codes) == len(answer["cautions"])
    tied = {code for season in answer["results"]["seasons"] for check in season["checks"] for code in check["cautions"]}
    assert codes == tied | {"local-code"}


def test_pointers_lead_to_members_of_the_request_or_to_where_they_would_stand(client: FlaskClient) -> None:
    members = {"unit", "furnace", "cooling_starts", "cooling_ends", "last_cleaned"}
    for body in EXAMPLES.values():
        answer = post(client, body)
        pointers = [row["pointer"] for row in (*answer["findings"], *answer["assumptions"])]
        pointers += [check["pointer"] for season in answer["results"]["seasons"] for check in season["checks"]]
        assert {pointer.split("/")[1] for pointer in pointers if pointer} <= members


HOSTILE = [
    "<script>alert(1)</script>",
    '"},{"a":1',
    "{trap_volume:in3|mL}",
    "\u202eevil\x00",
    "x" * 300,
    "'; --",
    "%s%n",
]


@pytest.mark.parametrize("text", HOSTILE)
def test_the_description_is_not_repeated_and_changes_nothing(text: str, client: FlaskClient) -> None:
    body = copy.deepcopy(ATTIC)
    body["unit"]["description"] = text
    answer = client.post("/v1/season-upkeep", json=body)
    assert answer.status_code == 200
    assert answer.get_json() == post(client, ATTIC)
    body["unit"]["unit_id"] = text[:80]
    assert post(client, body)["results"]["unit_id"] == text[:80]


def test_faults_are_named_with_the_nearest_known_member(client: FlaskClient) -> None:
    body = copy.deepcopy(ATTIC)
    body["cooling_starts"], body["cooling_ends"], body["last_cleaned"] = 0, 13, 2.5
    body["furnace"]["neutraliser"] = "fitted"
    body["furnace"]["fuel_input"] = {"value": 0, "unit": "kW"}
    body["unit"]["pan_presure"] = 1
    answer = client.post("/v1/season-upkeep", json=body)
    assert answer.status_code == 400
    faults = {fault["pointer"]: fault["detail"] for fault in answer.get_json()["errors"]}
    assert set(faults) == {
        "/cooling_starts",
        "/cooling_ends",
        "/last_cleaned",
        "/furnace/neutraliser",
        "/furnace/fuel_input/value",
        "/unit/pan_presure",
    }
    assert 'did you mean "neutralizer"?' in faults["/furnace/neutraliser"]


def test_elevation_and_station_pressure_of_the_furnace_exclude_each_other(client: FlaskClient) -> None:
    body = {"furnace": {**ATTIC["furnace"], "elevation": {"value": 1, "unit": "m"}}}
    body["furnace"]["station_pressure"] = {"value": 100, "unit": "kPa"}
    assert client.post("/v1/season-upkeep", json=body).status_code == 400
