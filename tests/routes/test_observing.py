"""One line for each request, with what finds it again and nothing that a caller could abuse."""

import json
import logging
import re
from collections.abc import Iterator
from typing import Any

import pytest
from flask import Flask, Response
from flask.testing import FlaskClient

from service.app import create_app
from service.log_lines import JsonLines, RequestLog, TextLines, set_up_logging
from service.routes.document import CONTRACT_VERSION
from service.routes.observing import trace_of
from service.settings import Settings

PATH, BODY = "/v1/drain-pitch", {"run": {"value": 32, "unit": "ft"}}
TRACE, PARENT = "0af7651916cd43dd8448eb211c80319c", "b7ad6b7169203331"  # the example of W3C Trace Context, 3.2


FORMS = ("json", "text")


@pytest.fixture(params=FORMS)
def form(request: pytest.FixtureRequest) -> str:
    """Each form of the log."""
    return str(request.param)


class Log:
    """What the service has written since it was last looked at."""

    def __init__(self, capture: pytest.CaptureFixture[str], handler: logging.StreamHandler[Any]) -> None:
        self._capture, self._handler = capture, handler

    def text(self) -> str:
        self._handler.flush()
        return self._capture.readouterr().out

    def lines(self) -> list[dict[str, Any]]:
        return [json.loads(line) for line in self.text().splitlines()]


@pytest.fixture
def log(form: str, capfd: pytest.CaptureFixture[str]) -> Iterator[Log]:
    """The log in that form, all of it."""
    root, logger = logging.getLogger(), logging.getLogger("service")
    kept = root.handlers, logger.level
    handler = set_up_logging("info", form)
    assert isinstance(handler, logging.StreamHandler)
    handler.setStream(open(1, "w", closefd=False))  # noqa: SIM115 - not ours to close
    yield Log(capfd, handler)
    root.handlers = kept[0]
    logger.setLevel(kept[1])


APPS = {form: create_app(Settings(testing=True, log_format=form)) for form in FORMS}


@pytest.fixture
def client(form: str) -> FlaskClient:
    """A client of an application that logs in that form."""
    return APPS[form].test_client()


only_json = pytest.mark.parametrize("form", ["json"], indirect=True)


@only_json
def test_a_request_has_one_line_that_tells_it_all(client: FlaskClient, log: Log) -> None:
    answer = client.post(
        f"{PATH}?units=si",
        json=BODY,
        headers={"X-Request-ID": "job-17", "traceparent": f"00-{TRACE}-{PARENT}-01", "Authorization": "Bearer secret"},
    )
    (line,) = log.lines()
    assert re.fullmatch(r"\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d\.\d{6}Z", line.pop("time"))
    assert 0.0 < line.pop("duration_ms") < 10000.0
    assert line.pop("pid") > 0
    assert line == {
        "level": "info",
        "message": "request",
        "method": "POST",
        "route": PATH,
        "status": 200,
        "bytes": len(answer.data),
        "request_id": "job-17",
        "trace_id": TRACE,
        "parent_id": PARENT,
        "key": None,
        "contract_version": CONTRACT_VERSION,
    }
    assert answer.headers["X-Request-ID"] == "job-17"


@only_json
@pytest.mark.parametrize(
    ("method", "path", "status", "route"),
    [
        ("GET", "/problems/contradiction", 200, "/problems/{slug}"),
        ("HEAD", "/v1/reference/units", 200, "/v1/reference/units"),
        ("OPTIONS", PATH, 204, PATH),
        ("POST", PATH, 415, PATH),
        ("GET", PATH, 405, None),
        ("GET", "/nothing", 404, None),
        ("BREW", "/livez", 405, None),
    ],
)
def test_every_kind_of_answer_has_its_line(
    method: str, path: str, status: int, route: str | None, client: FlaskClient, log: Log
) -> None:
    answer = client.open(path, method=method)
    (line,) = log.lines()
    assert (answer.status_code, line["status"], line["route"]) == (status, status, route)
    assert line["bytes"] == len(answer.data)
    assert line["method"] == (method if method != "BREW" else "_OTHER")
    assert ("path" in line) is (route is None)


HOSTILE = ["\r\nX: y", "a\nb", "\x1b[31m", "a b", "é", "\u202e", '"', "<b>", "a" * 129, "", "{}", "\x00", "\x9b"]


@pytest.mark.parametrize("text", HOSTILE, ids=ascii)
def test_a_hostile_identifier_is_replaced(text: str, client: FlaskClient) -> None:
    answer = client.get("/livez", environ_overrides={"HTTP_X_REQUEST_ID": text.encode().decode("latin-1")})
    assert re.fullmatch("[0-9a-f]{32}", answer.headers["X-Request-ID"])


@pytest.mark.parametrize("text", HOSTILE, ids=ascii)
def test_what_a_caller_sends_reaches_the_log_escaped(text: str, form: str, client: FlaskClient, log: Log) -> None:
    raw = text.encode().decode("latin-1")  # as WSGI has it
    client.get("/nothing", environ_overrides={"PATH_INFO": f"/nothing{raw}", "HTTP_TRACEPARENT": raw})
    client.open("/livez", environ_overrides={"REQUEST_METHOD": f"X{raw}"})
    logging.getLogger("service.other").error("from outside: %s", text)
    logged = log.text()
    assert logged.isascii()
    assert len(logged.splitlines()) == 3
    assert all(character == "\n" or " " <= character <= "~" for character in logged)
    if form == "json":
        assert json.loads(logged.splitlines()[2])["message"] == f"from outside: {text}"


def test_identifiers_differ(client: FlaskClient) -> None:
    assert len({client.get("/livez").headers["X-Request-ID"] for _ in range(100)}) == 100


@pytest.mark.parametrize(
    ("field", "trace"),
    [
        (f"00-{TRACE}-{PARENT}-01", (TRACE, PARENT)),
        (f"cc-{TRACE}-{PARENT}-01-what-the-future-brings", (TRACE, PARENT)),  # 3.2.4: a later version may go on
        (f"cc-{TRACE}-{PARENT}-01.no", None),
        (f"00-{TRACE}-{PARENT}-01-more", None),
        (f"ff-{TRACE}-{PARENT}-01", None),
        (f"00-{'0' * 32}-{PARENT}-01", None),
        (f"00-{TRACE}-{'0' * 16}-01", None),
        (f"00-{TRACE.upper()}-{PARENT}-01", None),
        (f"00-{TRACE[1:]}-{PARENT}-01", None),
        (f" 00-{TRACE}-{PARENT}-01", None),
        (f"00-{TRACE}-{PARENT}-01\n", None),
        ("", None),
    ],
)
def test_a_traceparent_is_read_as_w3c_has_it(field: str, trace: tuple[str, str] | None) -> None:
    assert trace_of(field) == trace


@pytest.fixture
def broken(form: str) -> Flask:
    """An application with a fault of its own, run as in production."""
    return broken_app(Settings(log_format=form))


def broken_app(settings: Settings) -> Flask:
    app = create_app(settings)

    def fail() -> Response:
        raise RuntimeError("first\n{'forged': 1}\x1b[2J")

    def stream() -> Response:
        return Response((part for part in ("one\n", "two\n")), mimetype="application/x-ndjson")

    # as if they had been there when the application was built
    app.add_url_rule("/fail", view_func=fail)
    app.add_url_rule("/stream", view_func=stream)
    return app


def test_a_fault_is_a_problem_without_a_trace_and_two_lines_with_one_identifier(
    broken: Flask, form: str, log: Log
) -> None:
    answer = broken.test_client().get("/fail", headers={"X-Request-ID": "job-18"})
    document = answer.get_json()
    assert (answer.status_code, answer.content_type) == (500, "application/problem+json")
    assert (document["type"], document["request_id"]) == ("/problems/internal-error", "job-18")
    for word in ("Traceback", "RuntimeError", "forged"):
        assert word not in answer.text
    assert answer.headers["X-Content-Type-Options"] == "nosniff"
    logged = log.text()
    assert logged.count("job-18") == 2
    assert "\x1b" not in logged
    if form == "json":
        fault, line = (json.loads(line) for line in logged.splitlines())
        assert (fault["level"], fault["route"], fault["request_id"]) == ("error", "/fail", "job-18")
        assert "RuntimeError: first" in fault["exception"]
        assert (line["level"], line["status"], line["request_id"]) == ("error", 500, "job-18")
    else:
        assert all(re.match(r"\d{4}-|    ", line) for line in logged.splitlines())


@only_json
def test_a_streamed_answer_has_its_line_when_it_is_through(broken: Flask, log: Log) -> None:
    answer = broken.test_client().get("/stream")
    counts = broken.extensions["metrics"]
    assert not log.text()
    assert "\nhttp_server_active_requests 1\n" in "\n".join(counts.lines())
    assert answer.text == "one\ntwo\n"
    answer.close()
    assert "\nhttp_server_active_requests 0\n" in "\n".join(counts.lines())
    assert [line["status"] for line in log.lines()] == [200]


@only_json
def test_switched_off_is_off(log: Log) -> None:
    client = create_app(Settings(testing=True, request_ids=False, metrics=False)).test_client()
    answer = client.get("/nothing", headers={"X-Request-ID": "job-19"})
    assert "X-Request-ID" not in answer.headers
    assert "request_id" not in answer.get_json()
    assert log.lines()[0]["request_id"] is None
    assert client.get("/metrics").status_code == 404


@only_json
def test_below_its_level_nothing_is_logged_and_a_fault_still_is(log: Log) -> None:
    client = broken_app(Settings(log_level="warning")).test_client()
    client.get("/livez")
    client.get("/nothing")
    assert not log.text()
    client.get("/fail")
    assert [line["level"] for line in log.lines()] == ["error", "error"]


@only_json
def test_making_the_document_is_no_request(log: Log) -> None:
    create_app(Settings(testing=True)).test_client().get("/openapi.json")
    assert len(log.lines()) == 1


def test_a_log_that_cannot_be_written_costs_no_request(form: str) -> None:
    with open("/dev/full", "wb", buffering=0) as full:
        RequestLog("info", form, full.fileno()).write(logging.INFO, {"status": 200})
    RequestLog("info", form, 10_000).write(logging.INFO, {"status": 200})


def test_both_forms_write_any_record() -> None:
    record = logging.LogRecord("gunicorn.error", logging.INFO, "", 0, "Booting worker %s %r", (1, "\ud800"), None)
    assert json.loads(JsonLines().format(record))["message"] == "Booting worker 1 '\\ud800'"
    assert TextLines().format(record).endswith("INFO Booting worker 1 '\\\\ud800'")
