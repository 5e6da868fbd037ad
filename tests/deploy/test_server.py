"""What gunicorn alone would do otherwise: endless reads, HTML errors, its name, requests without Host."""

import json
import socket
import time

import pytest
from starting import HOST, ask


def send(port: int, raw: bytes) -> tuple[int, dict[str, str], bytes]:
    """Send bytes, read until the server closes; status, header fields and body."""
    with socket.create_connection((HOST, port), timeout=60) as client:
        client.sendall(raw)
        received = b""
        while chunk := client.recv(65536):
            received += chunk
    head, _, body = received.partition(b"\r\n\r\n")
    first, *lines = head.decode("latin-1").split("\r\n")
    return int(first.split()[1]), {name.lower(): value for name, value in (line.split(": ", 1) for line in lines)}, body


@pytest.mark.parametrize(
    ("raw", "status"),
    [
        (b"NONSENSE\r\n\r\n", 400),
        (b"GET /livez HTTP/1.1\r\n\r\n", 400),  # RFC 9112 3.2: a server answers 400 to HTTP/1.1 without Host
        (b"GET /livez HTTP/1.1\r\nHost: a\r\nHost: b\r\n\r\n", 400),  # the same section, more than one
        (b"GET /livez HTTP/1.1\r\nHost: a\r\nBad Name: b\r\n\r\n", 400),
        (b"POST /livez HTTP/1.1\r\nHost: a\r\nContent-Length: 5\r\nTransfer-Encoding: chunked\r\n\r\n0\r\n\r\n", 400),
        (b"GET /" + b"a" * 5000 + b" HTTP/1.1\r\nHost: a\r\n\r\n", 414),
        (b"GET / HTTP/1.1\r\nHost: a\r\nLong: " + b"a" * 9000 + b"\r\n\r\n", 431),
    ],
)
def test_unreadable_request_is_a_problem_document(port: int, raw: bytes, status: int) -> None:
    answered, headers, body = send(port, raw)
    assert answered == status
    assert headers["content-type"] == "application/problem+json"
    assert "server" not in headers
    document = json.loads(body)
    assert document["status"] == status
    assert document["detail"]
    if document["type"] != "about:blank":
        assert ask(port, "GET", document["type"])[0] == 200


def test_server_is_not_named(port: int) -> None:
    status, headers, _ = ask(port, "GET", "/livez")
    assert status == 200
    assert "server" not in headers


def test_http_1_0_needs_no_host(port: int) -> None:
    assert send(port, b"GET /livez HTTP/1.0\r\n\r\n")[0] == 200


def test_half_sent_requests_cannot_hold_the_service(port: int) -> None:
    body = b'POST /v1/drain-pitch HTTP/1.1\r\nHost: a\r\nContent-Type: application/json\r\nContent-Length: 99\r\n\r\n{"'
    # more than the one worker has threads, for good if reads never ended
    held = [socket.create_connection((HOST, port)) for _ in range(8)]
    for number, client in enumerate(held):
        client.sendall(body if number % 2 else b"GET /livez HT")
    began = time.monotonic()
    status, _, _ = send(port, b"GET /livez HTTP/1.1\r\nHost: a\r\nConnection: close\r\n\r\n")
    for client in held:
        client.close()
    assert status == 200
    assert time.monotonic() - began < 45.0  # a few rounds of the longest silence allowed; unbounded reads hold for good
