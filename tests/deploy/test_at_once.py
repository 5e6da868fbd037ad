"""Requests answered by the thread that reads them: which those are, and that no client can hold that thread."""

import http.client
import json
import socket
import sys
from contextlib import ExitStack
from pathlib import Path

import pytest
from loading import BODY, PATH, serving
from starting import HOST, SECONDS, ask
from test_faults import active, wait_until

from deploy.client_sockets import AT_ONCE_BYTES, HeldSocket, bytes_missing

pytestmark = pytest.mark.skipif(sys.platform != "linux", reason="the server is for Linux")

SHORT = json.dumps(BODY).encode()


def post(body: bytes, *fields: str, length: int | None = None) -> bytes:
    """A request with its body."""
    lines = [f"POST {PATH} HTTP/1.1", "Host: loopback", "Content-Type: application/json", *fields]
    if length is not None:
        lines.append(f"Content-Length: {length}")
    return "\r\n".join([*lines, "", ""]).encode() + body


WHOLE = post(SHORT, length=len(SHORT))


@pytest.mark.parametrize(
    ("request_", "missing"),
    [
        (WHOLE, 0),
        (post(SHORT, f"content-length:\t{len(SHORT)} "), 0),
        (b"GET /readyz HTTP/1.1\r\nHost: loopback\r\n\r\n", 0),
        (WHOLE[:-1], 1),
        (post(b"", length=99), 99),
        (b"", None),
        (WHOLE + b"G", None),
        (WHOLE[:60], None),
        (post(SHORT), None),
        (post(SHORT, f"Content-Length: {len(SHORT)}", length=len(SHORT)), None),
        (post(SHORT, f"Content-Length : {len(SHORT)}"), None),
        (post(SHORT, f"X-Content-Length: {len(SHORT)}"), None),
        (post(SHORT, f"Content-Length: +{len(SHORT)}"), None),
        (post(b"0\r\n\r\n", "Transfer-Encoding: chunked"), None),
        (post(SHORT, "Transfer-Encoding: chunked", length=len(SHORT)), None),
        (post(SHORT, "Accept: application/pdf", length=len(SHORT)), None),
        (post(SHORT, "Accept: text/html, */*", length=len(SHORT)), None),
        (post(b"", length=AT_ONCE_BYTES), None),
        (post(b"", length=10**30), None),
    ],
)
def test_what_is_answered_at_once_is_plain_and_says_its_length(request_: bytes, missing: int | None) -> None:
    assert bytes_missing(request_) == missing


def test_what_is_sent_meanwhile_is_kept_and_nothing_is_waited_for() -> None:
    ours, theirs = socket.socketpair()
    with ours, theirs:
        held = HeldSocket(ours)
        held.settimeout(5.0)
        held.sendall(b"one")
        assert held.send(b"two") == 3
        assert held.held == [b"one", b"two"]
        assert held.gettimeout() == 0.0
        assert ours.gettimeout() is None
        assert held.fileno() == ours.fileno()
        theirs.setblocking(False)
        with pytest.raises(BlockingIOError):
            theirs.recv(1)


def answers(client: socket.socket, count: int) -> list[int]:
    """Status of each of so many answers."""
    statuses = []
    file = client.makefile("rb")
    for _ in range(count):
        statuses.append(int(file.readline().split()[1]))
        fields = http.client.parse_headers(file)
        file.read(int(fields["Content-Length"]))
    return statuses


@pytest.mark.parametrize("cut", [1, 20, len(WHOLE) - len(SHORT), len(WHOLE) - 1])
def test_a_request_in_pieces_is_answered_like_one_that_is_whole(cut: int, tmp_path: Path) -> None:
    """And so is what comes with the end of another, before and after whole ones on the same connection."""
    with serving(tmp_path) as server, socket.create_connection((HOST, server.port), timeout=SECONDS) as client:
        client.setsockopt(socket.IPPROTO_TCP, socket.TCP_NODELAY, 1)
        client.sendall(WHOLE)
        assert answers(client, 1) == [200]
        for piece in (WHOLE[:cut], WHOLE[cut:] + WHOLE + WHOLE):
            client.sendall(piece)
        assert answers(client, 3) == [200, 200, 200]
        client.sendall(WHOLE)
        client.sendall(post(b"{", length=1))
        assert answers(client, 2) == [200, 400]


def test_who_asks_and_does_not_read_holds_nobody_up(tmp_path: Path) -> None:
    """Short requests with long answers, until the system takes no more of them; then they are read after all."""
    page = b"GET /openapi.json HTTP/1.1\r\nHost: loopback\r\n\r\n"
    with serving(tmp_path, THREADS="8") as server, ExitStack() as stack:
        slow = []
        for _ in range(3):
            client = stack.enter_context(socket.socket())
            client.setsockopt(socket.SOL_SOCKET, socket.SO_RCVBUF, 4096)
            client.settimeout(SECONDS)
            client.connect((HOST, server.port))
            for _ in range(8):
                client.sendall(page)
            slow.append(client)
        for _ in range(20):
            assert ask(server.port, "POST", PATH, BODY)[0] == 200
        for client in slow:
            assert answers(client, 8) == [200] * 8


def test_who_leaves_the_closing_to_the_server_holds_nobody_up(tmp_path: Path) -> None:
    """A connection that is over stays open until the client closes it, two seconds at most; others are answered."""
    with serving(tmp_path) as server, ExitStack() as stack:
        for _ in range(40):
            client = stack.enter_context(socket.create_connection((HOST, server.port), timeout=SECONDS))
            client.sendall(post(SHORT, "Connection: close", length=len(SHORT)))
            assert answers(client, 1) == [200]
            assert client.recv(1) == b""
        assert ask(server.port, "POST", PATH, BODY)[0] == 200
        assert len(server.requests()) == 41


def test_with_a_limit_to_calculations_at_once_a_request_on_its_way_counts(tmp_path: Path) -> None:
    with serving(tmp_path, CONCURRENCY_LIMIT="1") as server, ExitStack() as stack:
        first, second = (
            stack.enter_context(socket.create_connection((HOST, server.port), timeout=SECONDS)) for _ in range(2)
        )
        first.sendall(WHOLE[:-1])
        wait_until(lambda: active(server) == 1, "it has not begun")
        second.sendall(WHOLE)
        assert answers(second, 1) == [503]
        first.sendall(WHOLE[-1:])
        assert answers(first, 1) == [200]
