"""The mock gives the committed examples, marked, and nothing it made up; it is on loopback only."""

import http.client
import json
import re
import signal
import socket
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from flask.testing import FlaskClient
from jsonschema import Draft202012Validator

from service.app import create_app
from service.settings import Settings

ROOT = Path(__file__).parents[2]
DOCUMENT = json.loads((ROOT / "openapi" / "openapi.json").read_bytes())
CALCULATIONS = {path: operations["post"] for path, operations in DOCUMENT["paths"].items() if "post" in operations}
JSON, LINES, DRAWING = "application/json", "application/x-ndjson", "image/svg+xml"
CASES = [
    (path, media_type, name)
    for path, operation in CALCULATIONS.items()
    for media_type, content in operation["requestBody"]["content"].items()
    for name in content["examples"]
]


@pytest.fixture(scope="module")
def mock() -> FlaskClient:
    sys.path.insert(0, str(ROOT / "deploy"))
    try:
        from mock_service import create_mock
    finally:
        sys.path.pop(0)
    client: FlaskClient = create_mock().test_client()
    return client


def sent(path: str, media_type: str, name: str) -> dict[str, Any]:
    value = CALCULATIONS[path]["requestBody"]["content"][media_type]["examples"][name]["value"]
    return {"data": json.dumps(value) if media_type == JSON else value, "content_type": media_type}


def committed(path: str, name: str, kind: str) -> bytes:
    stem = path.removeprefix("/v1/").replace("/", "-")
    return (ROOT / "openapi" / "examples" / f"{stem}.{name}.{kind}").read_bytes()


@pytest.mark.parametrize(("path", "media_type", "name"), CASES)
def test_an_example_gets_its_committed_answer(path: str, media_type: str, name: str, mock: FlaskClient) -> None:
    answer = mock.post(path, **sent(path, media_type, name))
    assert answer.headers["Mock"] == "true"
    if media_type == "text/csv" and (path, JSON, name) not in CASES:
        assert answer.status_code == 501
        return
    assert (answer.status_code, answer.mimetype) == (200, LINES if media_type == LINES else JSON)
    if media_type == LINES:
        assert answer.data == committed(path, name, "answer.ndjson")
        return
    assert answer.get_json() == json.loads(committed(path, name, "answer.json"))
    schema = CALCULATIONS[path]["responses"]["200"]["content"][JSON]["schema"]
    Draft202012Validator({**schema, "components": DOCUMENT["components"]}).validate(answer.get_json())


@pytest.mark.parametrize(("path", "media_type", "name"), [case for case in CASES if case[1] == JSON])
def test_an_example_gets_its_committed_drawing(path: str, media_type: str, name: str, mock: FlaskClient) -> None:
    answer = mock.post(path, **sent(path, media_type, name), headers={"Accept": DRAWING})
    if DRAWING in CALCULATIONS[path]["responses"]["200"]["content"]:
        assert (answer.status_code, answer.mimetype) == (200, DRAWING)
        assert answer.data == committed(path, name, "drawing.svg")
    else:
        assert answer.status_code == 406


def test_members_in_another_order_are_the_same_request(mock: FlaskClient) -> None:
    body = '{"run": {"unit": "ft", "value": 32.0}, "fall": {"unit": "in", "value": 4}}'
    answer = mock.post("/v1/drain-pitch", data=body, content_type=JSON)
    assert answer.get_json() == json.loads(committed("/v1/drain-pitch", "measured-fall", "answer.json"))


@pytest.mark.parametrize("path", CALCULATIONS)
def test_any_body_but_an_example_gets_no_answer_made_up(path: str, mock: FlaskClient) -> None:
    answer = mock.post(path, json={"run": {"value": 33, "unit": "ft"}})
    assert (answer.status_code, answer.content_type) == (501, "application/problem+json")
    document = answer.get_json()
    assert (document["status"], document["type"], document["instance"]) == (501, "about:blank", path)
    schema = {"$ref": "#/components/schemas/Problem", "components": DOCUMENT["components"]}
    Draft202012Validator(schema).validate(document)
    answers = CALCULATIONS[path]["responses"]["200"]["content"].values()
    assert set(document["examples"]) == {name for content in answers for name in content.get("examples", {})}
    assert all(name in document["detail"] for name in document["examples"])


def test_an_example_can_be_preferred(mock: FlaskClient) -> None:
    """RFC 7240: the preference, and that it was applied."""
    answer = mock.post("/v1/drain-pitch", json={}, headers={"Prefer": "example=uphill"})
    assert answer.get_json() == json.loads(committed("/v1/drain-pitch", "uphill", "answer.json"))
    assert answer.headers["Preference-Applied"] == "example=uphill"
    answer = mock.post("/v1/drain-pitch", json={}, headers={"Prefer": "example=no-such"})
    assert answer.status_code == 501
    assert "no-such" in answer.get_json()["detail"]
    assert "Preference-Applied" not in answer.headers


def test_an_example_is_in_spanish_where_the_document_shows_it_so(mock: FlaskClient) -> None:
    shown = CALCULATIONS["/v1/assessment"]["responses"]["200"]["content"][JSON]["examples"]
    case = sent("/v1/assessment", JSON, "attic-unit")
    spanish = mock.post("/v1/assessment", **case, headers={"Accept-Language": "es-MX"})
    assert spanish.headers["Content-Language"] == "es"
    assert spanish.get_json() == shown["attic-unit-in-spanish"]["value"]
    preferred = mock.post("/v1/assessment", json={}, headers={"Prefer": "example=attic-unit-in-spanish"})
    assert (preferred.headers["Content-Language"], preferred.data) == ("es", spanish.data)
    other = mock.post(
        "/v1/assessment", **sent("/v1/assessment", JSON, "little-known"), headers={"Accept-Language": "es"}
    )
    assert (other.status_code, other.headers["Content-Language"]) == (200, "en")


STATUSES = [(path, int(status)) for path, op in CALCULATIONS.items() for status in op["responses"] if status != "200"]


@pytest.mark.parametrize(("path", "status"), STATUSES)
def test_a_problem_can_be_preferred(path: str, status: int, mock: FlaskClient) -> None:
    answer = mock.post(path, json={}, headers={"Prefer": f"code={status}"})
    assert (answer.status_code, answer.content_type) == (status, "application/problem+json")
    assert answer.headers["Preference-Applied"] == f"code={status}"
    assert answer.get_json()["status"] == status
    assert mock.get(answer.get_json()["type"]).status_code == 200
    assert ("WWW-Authenticate" in answer.headers) is (status == 401)
    assert ("Retry-After" in answer.headers) is (status in (429, 503))


def test_a_problem_no_operation_has_is_not_given(mock: FlaskClient) -> None:
    assert mock.post("/v1/drain-pitch", json={}, headers={"Prefer": "code=418"}).status_code == 501


def test_what_is_no_calculation_is_the_service_itself(mock: FlaskClient) -> None:
    service = create_app(Settings(log_level="error")).test_client()
    for path in ("/v1/reference/units", "/openapi.json", "/livez", "/problems/contradiction"):
        answer = mock.get(path)
        assert (answer.status_code, answer.data) == (200, service.get(path).data)
        assert answer.headers["Mock"] == "true"
    for answer, slug, status in (
        (mock.post("/v1/no-such-noun", json={}), "unknown-path", 404),
        (mock.get("/v1/drain-pitch"), "method-not-allowed", 405),
        (mock.post("/v1/drain-pitch", data="{", content_type=JSON), "malformed-body", 400),
        (mock.post("/v1/drain-pitch", data="[" * 100_000, content_type=JSON), "malformed-body", 400),
        (mock.post("/v1/drain-pitch", data="a", content_type="text/csv"), "unsupported-media-type", 415),
    ):
        assert answer.status_code == status
        assert answer.get_json()["type"] == f"/problems/{slug}"
        assert answer.headers["Mock"] == "true"


def test_the_examples_are_in_us_units_only(mock: FlaskClient) -> None:
    case = sent("/v1/drain-pitch", JSON, "uphill")
    assert mock.post("/v1/drain-pitch?units=us", **case).status_code == 200
    assert mock.post("/v1/drain-pitch?units=si", **case).status_code == 501


@pytest.fixture
def process() -> Iterator[subprocess.Popen[str]]:
    command = [sys.executable, "deploy/mock_service.py", "--port", "0"]
    started = subprocess.Popen(command, cwd=ROOT, stdout=subprocess.PIPE, text=True)
    yield started
    started.kill()
    started.communicate()


def test_it_listens_on_loopback_and_stops_quietly(process: subprocess.Popen[str]) -> None:
    assert process.stdout is not None
    line = process.stdout.readline()
    port = int(re.fullmatch(r"A mock of the service answers at http://127\.0\.0\.1:(\d+) until Ctrl-C\.\n", line)[1])  # type: ignore[index]
    connection = http.client.HTTPConnection("127.0.0.1", port)
    connection.request("GET", "/livez")
    assert connection.getresponse().headers["Mock"] == "true"
    connection.close()
    # 127.0.0.2 is this machine too: what listens on every address would answer there
    with pytest.raises(ConnectionRefusedError):
        socket.create_connection(("127.0.0.2", port)).close()
    process.send_signal(signal.SIGINT)
    assert process.wait() == 0


def test_no_other_address_can_be_asked_for() -> None:
    command = [sys.executable, "deploy/mock_service.py", "--host", "0.0.0.0"]  # noqa: S104 refused
    ran = subprocess.run(command, cwd=ROOT, capture_output=True, text=True)
    assert ran.returncode == 2
    assert "unrecognized arguments: --host" in ran.stderr
