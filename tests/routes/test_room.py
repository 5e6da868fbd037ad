"""Large bodies wait for each other; what would take more memory than any sound body is refused unparsed."""

import json
import threading
from collections.abc import Callable
from typing import Any

import pytest
from flask import Flask
from flask.testing import FlaskClient

from service.app import create_app
from service.routes import reading, room
from service.routes.assessment import BATCH_BODY_LIMIT
from service.routes.reading import BYTES_A_VALUE
from service.routes.room import BODY_ROOM, LARGE_BODY, Room
from service.settings import Settings

BATCH = "/v1/assessment/batch"
UNIT = {"unit_id": "A", "pan_pressure": {"value": -1, "unit": "inH2O"}}
LARGE = json.dumps({"units": [UNIT]}).ljust(2 * LARGE_BODY).encode()
JSON = {"Content-Type": "application/json"}
MOST_VALUES = BATCH_BODY_LIMIT // BYTES_A_VALUE

Check = Callable[..., dict[str, Any]]


def test_who_finds_no_room_waits_until_there_is() -> None:
    hall = Room(10)
    assert hall.enter(6, 0.0)
    assert not hall.enter(5, 0.0)
    assert hall.enter(4, 0.0)
    entered = threading.Event()

    def wait() -> None:
        if hall.enter(10, 30.0):
            entered.set()

    waiting = threading.Thread(target=wait)
    waiting.start()
    hall.leave(6)
    assert not entered.wait(0.05)
    hall.leave(4)
    assert entered.wait(30.0)
    waiting.join()


@pytest.fixture
def app() -> Flask:
    """One of its own, whose room a test may fill."""
    return create_app(Settings(testing=True, log_level="error"))


@pytest.mark.parametrize(
    ("body", "status"),
    [
        (LARGE, 200),
        (LARGE.replace(b"-1", b'"x'), 400),
        (LARGE.replace(b"units", b"unit"), 400),
        (b"{" + b" " * 2 * LARGE_BODY, 400),
        (b"[" + b"[]," * MOST_VALUES, 413),
    ],
    ids=["sound", "not JSON", "not as the schema", "not whole", "too many values"],
)
@pytest.mark.parametrize("lines", [False, True])
def test_whatever_becomes_of_a_large_body_its_room_is_free_again(
    body: bytes, status: int, lines: bool, client: FlaskClient, app: Flask
) -> None:
    fields = {**JSON, **({"Accept": "application/x-ndjson"} if lines else {})}
    answer = client.post(BATCH, data=body, headers=fields)
    assert answer.status_code == status
    answer.get_data()
    answer.close()
    assert app.extensions["room"].enter(BODY_ROOM, 0.0)


def test_a_large_body_without_room_is_told_when_to_come_again_and_a_small_one_needs_none(
    client: FlaskClient, app: Flask, check_problem: Check, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(room, "PATIENCE", 0.01)
    hall = app.extensions["room"]
    assert hall.enter(BODY_ROOM - LARGE_BODY, 0.0)
    answer = client.post(BATCH, data=LARGE, headers=JSON)
    check_problem(answer, "overloaded")
    assert int(answer.headers["Retry-After"]) >= 1
    assert client.post(BATCH, json={"units": [UNIT]}).status_code == 200
    hall.leave(BODY_ROOM - LARGE_BODY)
    assert client.post(BATCH, data=LARGE, headers=JSON).status_code == 200


def test_more_values_than_any_sound_body_has_are_refused_before_they_are_parsed(
    client: FlaskClient, check_problem: Check, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(reading, "parse", lambda *_: pytest.fail("it was parsed"))
    for junk in (b"[]", b"{}", b'{"a":0}', b"[0,0]", b'"[",""'):
        body = b'{"units":[' + b",".join([junk] * (MOST_VALUES + 1))
        check_problem(client.post(BATCH, data=body, headers=JSON), "body-too-large")


def test_marks_within_texts_are_no_values(client: FlaskClient) -> None:
    """However they are escaped."""
    text = "{[," * MOST_VALUES
    for value in (text, '"' + text, "\\" + text):
        rows = client.post(BATCH, json={"units": [{**UNIT, "unit_id": value}]}).get_json()["rows"]
        assert [fault["pointer"] for fault in rows[0]["problem"]["errors"]] == ["/unit_id"]
