"""``POST /v1/assessment/batch`` in lines, without a server: each line for itself, and what ends the whole."""

import io
import json
from collections.abc import Callable, Iterator
from typing import Any

import pytest
from flask import Flask
from flask.testing import FlaskClient
from hypothesis import given
from hypothesis import strategies as st

from service.app import create_app
from service.calculations import assessment
from service.routes import lines as lines_module
from service.routes.lines import _numbered
from service.schemas.assessment import AssessmentRequest
from service.schemas.assessment_batch import LINES_BODY_LIMIT, LONGEST_LINE, MOST_LINES
from service.settings import Settings

PATH = "/v1/assessment/batch"
LINES = "application/x-ndjson"
UNIT = '{"unit_id":"A","pan_pressure":{"value":-1,"unit":"inH2O"}}'
ATTIC = AssessmentRequest.examples["attic-unit"]["value"]

Check = Callable[..., dict[str, Any]]


def send(client: FlaskClient, body: str | bytes, query: str = "", **fields: str) -> Any:
    return client.post(PATH + query, data=body, headers={"Content-Type": LINES, **fields})


def rows_of(answer: Any) -> list[dict[str, Any]]:
    assert answer.status_code == 200, answer.data[:500]
    assert answer.content_type == LINES
    assert not answer.data or answer.data.endswith(b"\n")
    return [json.loads(line) for line in answer.data.splitlines()]


def test_lines_answer_what_the_same_units_answer_as_json(client: FlaskClient) -> None:
    units = [{**ATTIC, "unit_id": "1"}, {"pan_presure": 1}, {}, {"unit_id": "é"}]
    together = client.post(f"{PATH}?units=si", json={"units": units}).get_json()["rows"]
    apart = rows_of(send(client, "\n".join(json.dumps(unit) for unit in units), "?units=si"))
    assert [set(row) for row in apart] == [{"index", "status", "answer", "problem"}] * 4
    for row, same in zip(apart, together, strict=True):
        assert (row["index"], row["status"], row["answer"]) == (same["index"], same["status"], same["answer"])
    assert apart[1]["problem"] == {
        **together[1]["problem"],
        "instance": f"{PATH}#line=2",
        "errors": [
            {"pointer": fault["pointer"], "line": 2, "detail": f"Line 2: {fault['detail']}"}
            for fault in together[1]["problem"]["errors"]
        ],
    }


MALFORMED = {
    "no json": ("pan", "malformed-body", "not JSON: Expecting value at column 1"),
    "cut short": ('{"unit_id":', "malformed-body", "not JSON: Expecting value at column 12"),
    "twice": ('{"unit_id":"A","unit_id":"B"}', "malformed-body", 'The member "unit_id" stands twice'),
    "nan": ('{"pan_pressure":{"value":NaN,"unit":"Pa"}}', "malformed-body", "NaN is not a JSON number"),
    "huge": ('{"elevation":{"value":1e999,"unit":"ft"}}', "malformed-body", "too large"),
    "digits": ('{"elevation":{"value":' + "1" * 5000 + ',"unit":"ft"}}', "malformed-body", "too many digits"),
    "deep": ("[" * 100_000, "malformed-body", "nested too deeply"),
    "surrogate": ('{"unit_id":"\\ud800"}', "malformed-body", "surrogate"),
    "bytes": (b'{"unit_id":"\xff"}', "malformed-body", "not UTF-8 text (byte 12)"),
    "utf-16": (UNIT.encode("utf-16-le").replace(b"\n", b""), "malformed-body", "not"),
    "mark": (b"\xef\xbb\xbf" + UNIT.encode(), "malformed-body", "not JSON"),
    "two units": (UNIT + UNIT, "malformed-body", "Extra data"),
    "array": ("[" + UNIT + "]", "schema-mismatch", "expected a JSON object"),
    "number": ("3", "schema-mismatch", "expected a JSON object"),
    "null": ("null", "schema-mismatch", "expected a JSON object"),
    "batch": ('{"units":[' + UNIT + "]}", "schema-mismatch", 'Unknown member "units"'),
    "out of range": (
        '{"pan_pressure":{"value":-99,"unit":"inH2O"}}',
        "schema-mismatch",
        "Line 2: Received -99 inH2O",
    ),
    "too long": (UNIT.ljust(LONGEST_LINE + 1), "body-too-large", f"longer than {LONGEST_LINE} bytes"),
    "far too long": ("x" * 3 * LONGEST_LINE, "body-too-large", f"longer than {LONGEST_LINE} bytes"),
}


@pytest.mark.parametrize("name", MALFORMED)
def test_a_bad_line_is_answered_by_itself_with_its_number(name: str, client: FlaskClient) -> None:
    text, slug, said = MALFORMED[name]
    line = text if isinstance(text, bytes) else text.encode()
    rows = rows_of(send(client, b"\n".join([UNIT.encode(), line, UNIT.encode()])))
    assert [row["index"] for row in rows] == [0, 1, 2]
    assert [row["status"] for row in rows] == [200, 413 if slug == "body-too-large" else 400, 200]
    problem = rows[1]["problem"]
    assert problem["type"] == f"/problems/{slug}"
    assert problem["status"] == rows[1]["status"]
    assert problem["instance"] == f"{PATH}#line=2"
    assert said in json.dumps(problem["errors"], ensure_ascii=False).replace('\\"', '"')
    assert all(fault["line"] == 2 and fault["detail"].startswith("Line 2: ") for fault in problem["errors"])
    assert rows[0]["answer"] == rows[2]["answer"]


def test_a_line_as_long_as_it_may_be_is_read(client: FlaskClient) -> None:
    rows = rows_of(send(client, UNIT.ljust(LONGEST_LINE) + "\n" + UNIT.ljust(LONGEST_LINE)))
    assert [row["status"] for row in rows] == [200, 200]


@pytest.mark.parametrize(
    ("body", "numbers"),
    [
        (f"{UNIT}", [0]),
        (f"{UNIT}\n", [0]),
        (f"{UNIT}\r\n{UNIT}\r\n", [0, 0]),
        (f"\n\n{UNIT}\n  \r\n\t\n{UNIT}\n\n\n", [0, 0]),
        (f"\n{UNIT}\n\nx\n", [0, 4]),
    ],
)
def test_empty_lines_get_no_row_but_are_counted(body: str, numbers: list[int], client: FlaskClient) -> None:
    rows = rows_of(send(client, body))
    assert [row["index"] for row in rows] == list(range(len(numbers)))
    assert [row["problem"]["errors"][0]["line"] if row["problem"] else 0 for row in rows] == numbers


@pytest.mark.parametrize("body", [b"", b"\n", b" \r\n\n\t"])
def test_a_body_without_a_unit_is_refused(body: bytes, client: FlaskClient, check_problem: Check) -> None:
    check_problem(send(client, body), "malformed-body")


def test_what_is_wrong_before_the_first_line_has_a_status_of_its_own(client: FlaskClient, check_problem: Check) -> None:
    check_problem(send(client, UNIT, "?units=metric"), "schema-mismatch")
    check_problem(send(client, UNIT, Accept="text/html"), "not-acceptable")
    check_problem(send(client, UNIT, **{"Content-Encoding": "gzip"}), "unsupported-media-type")
    check_problem(client.post(PATH, data=UNIT, content_type=f"{LINES}; charset=utf-16"), "unsupported-media-type")
    answer = client.post(PATH, data=UNIT, content_type="application/jsonl")
    check_problem(answer, "unsupported-media-type")
    assert answer.headers["Accept"] == f"application/json, {LINES}"
    much = client.post(
        PATH, data=UNIT, content_type=LINES, environ_overrides={"CONTENT_LENGTH": str(LINES_BODY_LIMIT + 1)}
    )
    check_problem(much, "body-too-large")
    short = client.post(PATH, data=UNIT, content_type=LINES, environ_overrides={"CONTENT_LENGTH": "9999"})
    assert f"ended after {len(UNIT)} of 9999" in check_problem(short, "bad-request")["detail"]
    assert client.post("/v1/assessment", data=UNIT, content_type=LINES).status_code == 415


@pytest.mark.parametrize(
    ("sent", "accept", "answered"),
    [
        (LINES, "", LINES),
        (LINES, "*/*", LINES),
        (LINES, "application/*", LINES),
        (LINES, "application/json, text/plain, */*", LINES),
        (LINES, LINES, LINES),
        (LINES, "application/json", "application/json"),
        (LINES, f"application/json, {LINES};q=0.5", "application/json"),
        ("application/json", "", "application/json"),
        ("application/json", "*/*", "application/json"),
        ("application/json", "application/*", "application/json"),
        ("application/json", f"application/json, {LINES}", "application/json"),
        ("application/json", LINES, LINES),
    ],
)
def test_the_answer_comes_as_it_is_accepted_else_as_it_was_sent(
    sent: str, accept: str, answered: str, client: FlaskClient
) -> None:
    body = f"{UNIT}\n{UNIT}" if sent == LINES else f'{{"units":[{UNIT},{UNIT}]}}'
    answer = client.post(PATH, data=body, content_type=sent, headers={"Accept": accept})
    assert answer.content_type == answered
    assert "Accept" in answer.headers["Vary"]
    rows = rows_of(answer) if answered == LINES else answer.get_json()["rows"]
    assert [row["status"] for row in rows] == [200, 200]


def test_lines_answered_together_are_as_many_as_a_json_batch_has(client: FlaskClient, check_problem: Check) -> None:
    accept = {"Accept": "application/json"}
    assert len(send(client, "{}\n" * 1000, **accept).get_json()["rows"]) == 1000
    document = check_problem(send(client, "{}\n" * 1001, **accept), "body-too-large")
    assert document["errors"] == [{"line": 1001, "detail": "Nothing from line 1001 on was read."}]


def chunked(client: FlaskClient, stream: Any) -> Any:
    """As a server hands over a body of unknown length."""
    environ = {"wsgi.input": stream, "wsgi.input_terminated": True}
    return client.post(PATH, content_type=LINES, environ_overrides=environ)


def test_a_body_of_unknown_length_is_read_to_its_end(client: FlaskClient) -> None:
    assert len(rows_of(chunked(client, io.BytesIO(f"{UNIT}\n{UNIT}\n".encode())))) == 2


def test_without_a_length_or_an_end_there_is_no_body(client: FlaskClient, check_problem: Check) -> None:
    """Nothing says where it ends (PEP 3333, wsgi.input): not read at all."""
    answer = client.post(PATH, content_type=LINES, environ_overrides={"wsgi.input": io.BytesIO(UNIT.encode())})
    check_problem(answer, "malformed-body")


def last_row(answer: Any, slug: str, index: int, line: int) -> dict[str, Any]:
    """Proves that the answer ends with the row that tells why it ends."""
    rows = rows_of(answer)
    assert [row["index"] for row in rows] == list(range(index + 1))
    assert all(row["status"] == 200 for row in rows[:-1])
    problem: dict[str, Any] = rows[-1]["problem"]
    assert rows[-1]["answer"] is None
    assert problem["type"] == f"/problems/{slug}"
    assert problem["status"] == rows[-1]["status"]
    assert problem["errors"] == [{"line": line, "detail": f"Nothing from line {line} on was read."}]
    return problem


def test_more_lines_than_allowed_end_the_answer(client: FlaskClient) -> None:
    body = f"{UNIT}\n".encode() + b"\n" * (MOST_LINES - 2) + f"{UNIT}\n".encode()
    assert len(rows_of(send(client, body))) == 2
    problem = last_row(send(client, body + UNIT.encode()), "body-too-large", 2, MOST_LINES + 1)
    assert problem["detail"] == f"The body has more than {MOST_LINES} lines."


class Endless(io.RawIOBase):
    """A unit, then one line that never ends, unless by an exception."""

    def __init__(self, fault: Exception | None = None) -> None:
        self.fault, self.given = fault, 0

    def read(self, size: int = -1) -> bytes:
        first = self.given == 0
        self.given += size
        if not first and self.fault:
            raise self.fault
        return f"{UNIT}\n{UNIT}\n".encode() if first else b"x" * size


def test_more_bytes_than_allowed_end_the_answer(client: FlaskClient) -> None:
    stream = Endless()
    last_row(chunked(client, stream), "body-too-large", 2, 3)
    assert LINES_BODY_LIMIT < stream.given < LINES_BODY_LIMIT + 300_000


def test_a_body_that_breaks_off_ends_the_answer(client: FlaskClient) -> None:
    last_row(chunked(client, Endless(OSError("reset"))), "bad-request", 2, 3)


def test_a_body_that_breaks_off_before_its_first_line_is_refused(client: FlaskClient, check_problem: Check) -> None:
    class Broken(Endless):
        def read(self, size: int = -1) -> bytes:
            raise OSError("reset")

    check_problem(chunked(client, Broken()), "bad-request")


def test_a_long_body_that_ends_early_does_not_pass_for_whole(
    client: FlaskClient, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Its cut last line is not taken for a unit."""
    monkeypatch.setattr(lines_module, "READ_FIRST", 10)
    body = f"{UNIT}\n{UNIT}\n{UNIT}"
    environ = {"CONTENT_LENGTH": str(len(body) + 1)}
    answer = client.post(PATH, data=body, content_type=LINES, environ_overrides=environ)
    last_row(answer, "bad-request", 2, 3)


def test_a_service_asked_to_stop_ends_long_answers_with_a_row(monkeypatch: pytest.MonkeyPatch) -> None:
    app = create_app(Settings(testing=True))
    app.extensions["stopping"].begin()
    assert len(rows_of(send(app.test_client(), f"{UNIT}\n" * 5))) == 5
    monkeypatch.setattr(lines_module, "STOP_SECONDS", -1.0)
    rows = rows_of(send(app.test_client(), f"{UNIT}\n" * 5))
    assert [row["index"] for row in rows] == [0, 1]
    assert rows[1]["problem"]["type"] == "/problems/not-ready"


def test_a_fault_of_ours_ends_the_answer_and_is_logged(
    monkeypatch: pytest.MonkeyPatch, caplog: pytest.LogCaptureFixture, client: FlaskClient
) -> None:
    def fail(**unit: Any) -> Any:
        if unit.get("unit_id") == "bad":
            raise ZeroDivisionError
        return assess(**unit)

    assess = assessment.assess_unit
    monkeypatch.setattr(assessment, "assess_unit", fail)
    body = f"{UNIT}\n{UNIT.replace('A', 'bad')}\n{UNIT}\n"
    rows = rows_of(send(create_app(Settings()).test_client(), body))
    assert [row["status"] for row in rows] == [200, 500]
    assert rows[1]["problem"]["type"] == "/problems/internal-error"
    assert any(record.exc_info and record.exc_info[0] is ZeroDivisionError for record in caplog.records)
    with pytest.raises(ZeroDivisionError):
        _ = send(client, body).data


def test_rows_are_made_one_by_one_as_they_are_asked_for(app: Flask, monkeypatch: pytest.MonkeyPatch) -> None:
    assessed = []

    def note(**unit: Any) -> Any:
        assessed.append(unit)
        return assess(**unit)

    assess = assessment.assess_unit
    monkeypatch.setattr(assessment, "assess_unit", note)
    answer = app.test_client().post(PATH, data=f"{UNIT}\n" * 100, content_type=LINES, buffered=False)
    rows: Iterator[bytes] = iter(answer.response)
    next(rows)
    next(rows)
    assert len(assessed) <= 3
    answer.close()


@given(st.lists(st.binary(max_size=12)), st.data())
def test_lines_are_the_same_however_the_body_arrives(parts: list[bytes], data: st.DataObject) -> None:
    """Against ``bytes.split`` of the whole; a last line that is empty is none."""
    body = b"\n".join(parts)
    cuts = sorted(data.draw(st.lists(st.integers(0, len(body)), max_size=8)))
    pieces = [body[start:end] for start, end in zip([0, *cuts], [*cuts, len(body)], strict=True)]
    expected = body.split(b"\n")
    if not expected[-1]:
        expected.pop()
    found = list(_numbered(pieces, 1000, 8))
    assert found == [(number, line if len(line) <= 8 else None) for number, line in enumerate(expected, 1)]
