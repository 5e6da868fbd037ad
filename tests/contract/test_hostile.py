"""Hostile requests to every operation the document names: a problem of the right kind, never a 500.

The first half speaks to the application, the second to a real server, where bodies come chunked and cut short.
"""

import http.client
import json
import re
import socket
from collections.abc import Callable
from typing import Any

import pytest
from flask import Flask
from flask.testing import FlaskClient

from service.app import create_app
from service.routes.document import document_of
from service.settings import Settings
from service.tables.problems import PROBLEMS

Check = Callable[..., dict[str, Any]]

DOCUMENT = document_of(create_app(Settings(log_level="error")))
CALCULATIONS = sorted(path for path, operations in DOCUMENT["paths"].items() if "post" in operations)
TABLES = sorted(path for path in DOCUMENT["paths"] if path.startswith("/v1/reference/"))
PATH = "/v1/drain-pitch"
JSON = {"Content-Type": "application/json"}

BYTES_PER_CHARACTER = 12  # beyond the basic plane, both halves escaped: \\ud83d\\udea0
BYTES_PER_NUMBER = 32


def body_of(path: str) -> dict[str, Any]:
    examples = DOCUMENT["paths"][path]["post"]["requestBody"]["content"]["application/json"]["examples"]
    value: dict[str, Any] = next(iter(examples.values()))["value"]
    return value


def text_of(path: str) -> str:
    return json.dumps(body_of(path))


def largest(schema: dict[str, Any]) -> int:
    """Most bytes a value of ``schema`` takes, written without blanks."""
    if "$ref" in schema:
        return largest(DOCUMENT["components"]["schemas"][schema["$ref"].rsplit("/", 1)[1]])
    for key in ("anyOf", "oneOf"):
        if key in schema:
            # what stands for a unit that is answered with a problem is open, and has no largest
            return max(largest(inner) for inner in schema[key] if not inner.get("$ref", "").endswith("/UnreadableUnit"))
    if "enum" in schema:
        return max(len(json.dumps(value)) for value in schema["enum"])
    kind = schema["type"]
    if kind == "string":
        return 2 + BYTES_PER_CHARACTER * int(schema["maxLength"])
    if kind in ("number", "integer"):
        return BYTES_PER_NUMBER
    if kind == "boolean":
        return len("false")
    if kind == "array":
        return 2 + int(schema["maxItems"]) * (largest(schema["items"]) + 1)
    assert kind == "object"
    assert schema["additionalProperties"] is False
    members = schema["properties"]
    sizes = {name: len(json.dumps(name)) + 2 + largest(inner) for name, inner in members.items()}
    needed = sum(size for name, size in sizes.items() if name in schema.get("required", ()))
    others = sorted((size for name, size in sizes.items() if name not in schema.get("required", ())), reverse=True)
    return 2 + needed + sum(others[: schema.get("maxProperties", len(sizes)) - len(sizes) + len(others)])


def limit_of(client: FlaskClient, path: str) -> int:
    """The body limit, as the problem of a body far beyond it tells."""
    answer = client.post(path, data=b"{}", headers=JSON, environ_overrides={"CONTENT_LENGTH": str(10**12)})
    assert answer.status_code == 413
    return int(re.search(r"larger than (\d+) bytes", answer.get_json()["detail"])[1])  # type: ignore[index]


@pytest.mark.parametrize("path", CALCULATIONS)
def test_the_body_limit_is_larger_than_the_largest_body_the_schema_allows(path: str, client: FlaskClient) -> None:
    schema = DOCUMENT["paths"][path]["post"]["requestBody"]["content"]["application/json"]["schema"]
    most = largest(schema)
    assert len(text_of(path)) < most
    assert most < limit_of(client, path)


@pytest.mark.parametrize("path", CALCULATIONS)
def test_a_body_at_the_limit_is_read_and_one_byte_more_is_not(
    path: str, client: FlaskClient, check_problem: Check
) -> None:
    limit = limit_of(client, path)
    text = text_of(path)
    assert client.post(path, data=text.ljust(limit), headers=JSON).status_code == 200
    check_problem(client.post(path, data=text.ljust(limit + 1), headers=JSON), "body-too-large")


HOSTILE_BODIES = {
    "empty": (b"", "malformed-body"),
    "blank": (b" \n", "malformed-body"),
    "array": (b"[]", "schema-mismatch"),
    "null": (b"null", "schema-mismatch"),
    "nan": (b'{"a":NaN}', "malformed-body"),
    "infinite": (b'{"a":-Infinity}', "malformed-body"),
    "huge": (b'{"a":1e400}', "malformed-body"),
    "long": (b'{"a":' + b"1" * 5000 + b"}", "malformed-body"),
    "deep arrays": (b"[" * 100_000, "malformed-body"),
    "deep objects": (b'{"a":' * 40_000, "malformed-body"),
    "nested": (b'{"a":' + b"[" * 400 + b"]" * 400 + b"}", "schema-mismatch"),
    "twice": (b'{"a":1,"a":1}', "malformed-body"),
    "mark": (b"\xef\xbb\xbf{}", "malformed-body"),
    "utf-16": ("{}".encode("utf-16"), "malformed-body"),
    "bytes": (bytes(range(256)), "malformed-body"),
    "surrogate": (b'{"\\ud800":1}', "malformed-body"),
    "more": (b"{}[]", "malformed-body"),
    "nul": (b'{"\\u0000":"\\u0000"}', "schema-mismatch"),
    "nothing inside": (b'{"":""}', "schema-mismatch"),
    "proto": (b'{"__proto__":{"x":1},"_schema":[]}', "schema-mismatch"),
}


@pytest.mark.parametrize("path", CALCULATIONS)
@pytest.mark.parametrize("name", HOSTILE_BODIES)
def test_a_hostile_body_is_refused_everywhere(name: str, path: str, client: FlaskClient, check_problem: Check) -> None:
    body, slug = HOSTILE_BODIES[name]
    check_problem(client.post(path, data=body, headers=JSON), slug)


def shortened(value: Any) -> Any:
    """The value with two elements an array: one is made wrong beside one that is not; more cost time alone."""
    if isinstance(value, dict):
        return {name: shortened(member) for name, member in value.items()}
    return [shortened(element) for element in value[:2]] if isinstance(value, list) else value


def variants(value: Any, where: str = "") -> list[tuple[str, Any]]:
    """The value with one member at a time made wrong: a pointer and a copy."""
    wrong: list[Any] = [None, "text", True, [], {}, 10**400, [[[]]], {"value": "1", "unit": "in"}, "\x00", -1e308]
    found = []
    if isinstance(value, dict):
        for name, member in value.items():
            pointer = f"{where}/{name}"
            found += [(pointer, {**value, name: bad}) for bad in wrong]
            found += [(inner, {**value, name: copy}) for inner, copy in variants(member, pointer)]
        found.append((f"{where}/no_such_member", {**value, "no_such_member": 1}))
    elif isinstance(value, list):
        for index, element in enumerate(value):
            for inner, copy in variants(element, f"{where}/{index}"):
                found.append((inner, [*value[:index], copy, *value[index + 1 :]]))
    return found


@pytest.mark.parametrize("path", CALCULATIONS)
def test_a_body_with_one_member_made_wrong_never_fails_the_service(path: str, client: FlaskClient) -> None:
    """Most are refused, and then the fault is in, above or below the member; some wrong values happen to be right."""
    refused = 0
    right = shortened(body_of(path))
    assert client.post(path, json=right).status_code == 200
    for pointer, body in variants(right):
        answer = client.post(path, data=json.dumps(body), headers=JSON)
        assert answer.status_code in (200, 400, 422), (pointer, answer.data[:300])
        if answer.status_code == 400:
            refused += 1
            pointers = [fault["pointer"] for fault in answer.get_json()["errors"]]
            assert any(p.startswith(pointer) or pointer.startswith(p) for p in pointers), (pointer, pointers)
    assert refused > 0


ACCEPT = [
    ("application/json", 200),
    ("*/*", 200),
    ("", 200),
    ("application/*", 200),
    ("application/*;q=0.1", 200),
    ("Application/JSON", 200),
    ("application/json;charset=utf-8", 200),
    ("image/png, */*;q=0.1", 200),
    ("text/html, application/xhtml+xml, application/xml;q=0.9, */*;q=0.8", 200),
    ("application/json;q=0.001", 200),
    ("application/json;q=0", 406),
    ("application/json;q=0, */*", 406),
    ("application/*;q=0, */*", 406),
    ("*/*;q=0", 406),
    ("application/xml", 406),
    ("image/*", 406),
    ("application/jsonp", 406),
    ("application/json-seq", 406),
    ("nonsense", 406),
    ("x" * 4000, 406),
]


@pytest.mark.parametrize(("accept", "status"), ACCEPT, ids=[accept[:30] for accept, _ in ACCEPT])
def test_accept_is_respected(accept: str, status: int, client: FlaskClient, check_problem: Check) -> None:
    """RFC 9110 12.5.1: the most specific range decides, and q=0 is a refusal."""
    for answer in (
        client.post(PATH, data=text_of(PATH), headers={**JSON, "Accept": accept}),
        client.get("/v1/reference/units", headers={"Accept": accept}),
        client.get("/openapi.json", headers={"Accept": accept}),
    ):
        if status == 200:
            assert answer.status_code == 200
            assert answer.content_type == "application/json"
        else:
            check_problem(answer, "not-acceptable")


METHODS = ("HEAD", "GET", "PUT", "PATCH", "DELETE", "TRACE", "QUERY", "CONNECT", "PROPFIND", "BREW")


@pytest.mark.parametrize("path", CALCULATIONS)
@pytest.mark.parametrize("method", METHODS)
def test_another_method_on_a_calculation_is_refused_with_allow(
    method: str, path: str, client: FlaskClient, check_problem: Check
) -> None:
    answer = client.open(path, method=method, data=text_of(path), headers=JSON)
    assert set(answer.headers["Allow"].split(", ")) == {"OPTIONS", "POST"}
    if method == "HEAD":
        assert (answer.status_code, answer.data) == (405, b"")
    else:
        check_problem(answer, "method-not-allowed")


@pytest.mark.parametrize("path", TABLES)
@pytest.mark.parametrize("method", [method for method in METHODS if method not in ("HEAD", "GET")] + ["POST"])
def test_another_method_on_a_table_is_refused_with_allow(
    method: str, path: str, client: FlaskClient, check_problem: Check
) -> None:
    answer = client.open(path, method=method)
    assert set(answer.headers["Allow"].split(", ")) == {"GET", "HEAD", "OPTIONS"}
    check_problem(answer, "method-not-allowed")


@pytest.mark.parametrize("path", [*CALCULATIONS, *TABLES, "/openapi.json", "/docs", "/livez", "/readyz"])
def test_options_answers_with_the_methods_and_nothing_else(path: str, client: FlaskClient) -> None:
    answer = client.options(path)
    assert (answer.status_code, answer.data) == (204, b"")
    assert "Content-Type" not in answer.headers
    assert "OPTIONS" in answer.headers["Allow"]


@pytest.mark.parametrize("path", [*TABLES, "/openapi.json", "/docs", "/livez", "/problems/contradiction"])
def test_head_is_get_without_the_body(path: str, client: FlaskClient) -> None:
    """RFC 9110 9.3.2: the same header fields."""
    same = {"X-Request-ID": "one-and-the-same"}
    got, head = client.get(path, headers=same), client.head(path, headers=same)
    assert head.data == b""
    assert head.status_code == got.status_code == 200
    del got.headers["Date"], head.headers["Date"]  # of a table; a second may pass between the two
    assert sorted(head.headers) == sorted(got.headers)


ODD_PATHS = [
    "/",
    "/v1",
    "/v1/",
    "/v1/no-such-noun",
    "/v1/drain-pitch/",
    "//v1/drain-pitch",
    "/v1//drain-pitch",
    "/v1/./drain-pitch",
    "/v1/x/../drain-pitch",
    "/V1/drain-pitch",
    "/v1/drain_pitch",
    "/v1/drain-pitch%00",
    "/v1/drain-pitch%2f",
    "/v1/drain-pitch%20",
    "/v1/drain-pitch;x=1",
    "/%00",
    "/%ff%fe",
    "/%ed%a0%80",
    "/%0d%0aX-Injected:%201",
    "/%f0%9f%9a%b0",
    "/problems",
    "/problems/",
    "/problems/no-such-slug",
    "/problems/%00",
    "/problems/%ff",
    "/problems/contradiction/",
    "/problems/<script>",
    "/docs/",
    "/docs/assets/",
    "/docs/assets/index.html",
    "/docs/assets/%2e%2e%2fapp.py",
    "/docs/assets/..%2f..%2fsettings.py",
    "/static/x",
    "/" + "a" * 3000,
]


@pytest.mark.parametrize("path", ODD_PATHS, ids=lambda path: path[:40])
def test_there_is_nothing_at_an_odd_path(path: str, client: FlaskClient, check_problem: Check) -> None:
    for method in ("GET", "POST"):
        answer = client.open(path, method=method, data=text_of(PATH), headers=JSON)
        if method == "POST" and re.match(r"/(problems|docs/assets)/[^/]+$", path) and "%2f" not in path:
            check_problem(answer, "method-not-allowed")
            continue
        document = check_problem(answer, "unknown-path")
        assert re.fullmatch(r"[!-~]*", document["instance"])
        assert "X-Injected" not in answer.headers


@pytest.mark.parametrize("path", TABLES)
def test_a_table_is_sent_once(path: str, client: FlaskClient) -> None:
    """RFC 9110 13.1.2 and 15.4.5."""
    first = client.get(path)
    tag = first.headers["ETag"]
    assert first.headers["Cache-Control"] == "public, max-age=3600"
    for field, status in (
        (tag, 304),
        (f"W/{tag}", 304),
        ("*", 304),
        (f'"other", {tag}', 304),
        ('"other"', 200),
        ("nonsense", 200),
        ("", 200),
    ):
        answer = client.get(path, headers={"If-None-Match": field})
        assert answer.status_code == status, field
        assert answer.headers["ETag"] == tag
        assert answer.headers["Cache-Control"] == first.headers["Cache-Control"]
        assert answer.data == (b"" if status == 304 else first.data)


def test_the_tag_is_of_the_units_asked_for(client: FlaskClient) -> None:
    tags = {client.get(f"/v1/reference/pipe-sizes{query}").headers["ETag"] for query in ("", "?units=us", "?units=si")}
    assert len(tags) == 2


def test_every_answer_tells_a_browser_to_do_nothing_with_it(client: FlaskClient) -> None:
    for answer in (
        client.get("/"),
        client.get("/livez"),
        client.get("/v1/reference/units"),
        client.post(PATH, data=text_of(PATH), headers=JSON),
        client.post(PATH, data=b"", headers=JSON),
    ):
        assert answer.headers["X-Content-Type-Options"] == "nosniff"
        assert answer.headers["Referrer-Policy"] == "no-referrer"
        assert "default-src 'none'" in answer.headers["Content-Security-Policy"]
        assert "frame-ancestors 'none'" in answer.headers["Content-Security-Policy"]


# ---- through a real server


def exchange(server: tuple[str, int], raw: bytes, *, end: bool = False) -> tuple[int, http.client.HTTPMessage, bytes]:
    """Send bytes, read one answer; with ``end``, say that nothing more will come."""
    with socket.create_connection(server, timeout=15.0) as plain:
        plain.sendall(raw)
        if end:
            plain.shutdown(socket.SHUT_WR)
        answer = http.client.HTTPResponse(plain, method=raw.split(b" ", 1)[0].decode("latin-1"))
        answer.begin()
        return answer.status, answer.headers, answer.read()


def request_of(method: str, path: str, body: bytes, *fields: str) -> bytes:
    head = "\r\n".join([f"{method} {path} HTTP/1.1", "Host: loopback", "Connection: close", *fields])
    return head.encode("latin-1") + b"\r\n\r\n" + body


def chunked(body: bytes, size: int) -> bytes:
    parts = [body[start : start + size] for start in range(0, len(body), size)]
    return b"".join(b"%x\r\n%s\r\n" % (len(part), part) for part in parts) + b"0\r\n\r\n"


def is_problem(answer: tuple[int, http.client.HTTPMessage, bytes], slug: str) -> dict[str, Any]:
    status, headers, body = answer
    assert status == PROBLEMS[slug].status, body[:300]
    assert headers["Content-Type"] == "application/problem+json"
    document: dict[str, Any] = json.loads(body)
    assert document["type"] == f"/problems/{slug}"
    assert b"Traceback" not in body
    return document


CHUNKED = ("Content-Type: application/json", "Transfer-Encoding: chunked")


@pytest.mark.parametrize("size", [1000, 65536, 10**7])
def test_a_chunked_body_is_read_up_to_the_limit_and_no_further(
    size: int, server: tuple[str, int], client: FlaskClient
) -> None:
    limit = limit_of(client, PATH)
    body = text_of(PATH).encode()
    status, _, content = exchange(server, request_of("POST", PATH, chunked(body.ljust(limit), size), *CHUNKED))
    assert status == 200
    assert json.loads(content)["verdict"] in ("pass", "attention", "fail")
    for length in (limit + 1, limit + 2, 2 * limit):
        answer = exchange(server, request_of("POST", PATH, chunked(body.ljust(length), size), *CHUNKED))
        is_problem(answer, "body-too-large")


def test_a_chunked_body_of_one_byte_each_is_read(server: tuple[str, int]) -> None:
    body = text_of(PATH).encode()
    assert exchange(server, request_of("POST", PATH, chunked(body, 1), *CHUNKED))[0] == 200


def test_an_empty_chunked_body_is_empty(server: tuple[str, int]) -> None:
    is_problem(exchange(server, request_of("POST", PATH, b"0\r\n\r\n", *CHUNKED)), "malformed-body")


@pytest.mark.parametrize("length", [10**6, 10**12, 10**30])
def test_a_body_announced_beyond_the_limit_is_refused_unread(length: int, server: tuple[str, int]) -> None:
    fields = ("Content-Type: application/json", f"Content-Length: {length}")
    is_problem(exchange(server, request_of("POST", PATH, b"{}", *fields)), "body-too-large")


@pytest.mark.parametrize("body", [b"", b'{"run":', text_of(PATH).encode()])
def test_a_body_cut_short_is_a_request_that_could_not_be_read(body: bytes, server: tuple[str, int]) -> None:
    """RFC 9112 8: fewer bytes than announced are an incomplete message, also where they happen to be whole JSON."""
    fields = ("Content-Type: application/json", "Content-Length: 500")
    is_problem(exchange(server, request_of("POST", PATH, body, *fields), end=True), "bad-request")


@pytest.mark.parametrize(
    "body",
    [
        b"",  # no chunk at all
        b"5\r\n{}",  # ends inside a chunk
        b"2\r\n{}\r\n",  # no last chunk
        b"zz\r\n{}\r\n0\r\n\r\n",  # no size
        b"-2\r\n{}\r\n0\r\n\r\n",
        b"0x2\r\n{}\r\n0\r\n\r\n",
        b"2\r\n{}xx0\r\n\r\n",  # longer than its size
        b"fffffffffffffffffffff\r\n{}",
    ],
)
def test_a_broken_chunk_is_a_request_that_could_not_be_read(body: bytes, server: tuple[str, int]) -> None:
    """RFC 9112 7.1; not a fault of ours, so not a 500."""
    is_problem(exchange(server, request_of("POST", PATH, body, *CHUNKED), end=True), "bad-request")


@pytest.mark.parametrize(
    "fields",
    [
        ("Content-Length: 2", "Content-Length: 3"),
        ("Content-Length: 2", "Transfer-Encoding: chunked"),
        ("Content-Length: -2",),
        ("Content-Length: two",),
        ("Content-Length: 2, 3",),
        ("Transfer-Encoding: gzip",),
        ("Bad Header: x",),
        ("X: a\x00b",),
    ],
    ids=str,
)
def test_a_request_that_could_smuggle_another_is_refused(fields: tuple[str, ...], server: tuple[str, int]) -> None:
    """RFC 9112 6.3 and 5.1; the server itself answers, in the same form."""
    raw = request_of("POST", PATH, b"{}", "Content-Type: application/json", *fields)
    status, headers, body = exchange(server, raw)
    assert status in (400, 501)
    assert headers["Content-Type"] == "application/problem+json"
    assert b"Traceback" not in body


@pytest.mark.parametrize("name", HOSTILE_BODIES)
def test_a_hostile_body_is_refused_by_the_server_too(name: str, server: tuple[str, int]) -> None:
    body, slug = HOSTILE_BODIES[name]
    fields = ("Content-Type: application/json", f"Content-Length: {len(body)}")
    is_problem(exchange(server, request_of("POST", PATH, body, *fields)), slug)


@pytest.mark.parametrize("method", ["HEAD", "GET", "PUT", "TRACE", "QUERY", "DELETE"])
def test_the_server_answers_another_method_with_allow(method: str, server: tuple[str, int]) -> None:
    status, headers, body = exchange(server, request_of(method, PATH, b""))
    assert (status, set(headers["Allow"].split(", "))) == (405, {"OPTIONS", "POST"})
    assert headers["Content-Type"] == "application/problem+json"
    assert (body == b"") is (method == "HEAD")


def test_the_server_answers_options_without_a_body(server: tuple[str, int]) -> None:
    status, headers, body = exchange(server, request_of("OPTIONS", PATH, b""))
    assert (status, set(headers["Allow"].split(", ")), body) == (204, {"OPTIONS", "POST"}, b"")


@pytest.mark.parametrize(
    "path", ["/v1//drain-pitch", "/%00", "/%ff", "/%0d%0aX:1", "/v1/drain-pitch/", "http://loopback/nothing"]
)
def test_the_server_has_nothing_at_an_odd_path(path: str, server: tuple[str, int]) -> None:
    is_problem(exchange(server, request_of("GET", path, b"")), "unknown-path")


def test_a_client_that_waits_for_a_go_ahead_gets_one(server: tuple[str, int]) -> None:
    """RFC 9110 10.1.1."""
    body = text_of(PATH).encode()
    head = request_of(
        "POST", PATH, b"", "Content-Type: application/json", f"Content-Length: {len(body)}", "Expect: 100-continue"
    )
    with socket.create_connection(server, timeout=15.0) as plain:
        plain.sendall(head)
        assert plain.recv(100).startswith(b"HTTP/1.1 100 ")
        plain.sendall(body)
        assert plain.recv(100).startswith(b"HTTP/1.1 200 ")


def test_after_all_this_the_server_is_well(server: tuple[str, int], app: Flask) -> None:
    assert exchange(server, request_of("GET", "/readyz", b""))[0] == 200
