"""A batch in lines through a real server: promptly, in flat memory, for longer than a worker may be silent."""

import json
import re
import socket
import threading
import time
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from starting import HOST, ROOT, ask, started

LINES = "application/x-ndjson"
UNIT = b'{"unit_id":"A","pan_pressure":{"value":-1,"unit":"inH2O"}}'
SILENCE = 2.5
MANY = 20_000
GROWTH = 24 * 1024
"""How much a worker may grow over `MANY` units, of whose answers there are tens of megabytes [kB]."""


def connect(port: int, *fields: str, timeout: float = 60.0) -> socket.socket:
    """A connection on which the head of a batch in lines has been sent."""
    head = ["POST /v1/assessment/batch HTTP/1.1", "Host: loopback", f"Content-Type: {LINES}", *fields]
    client = socket.create_connection((HOST, port), timeout=timeout)
    client.setsockopt(socket.IPPROTO_TCP, socket.TCP_NODELAY, 1)
    client.sendall("\r\n".join([*head, "", ""]).encode())
    return client


def chunk(data: bytes) -> bytes:
    return b"%x\r\n%s\r\n" % (len(data), data)


CHUNKED = "Transfer-Encoding: chunked"


class Answer:
    """Reads a chunked answer row by row."""

    def __init__(self, client: socket.socket) -> None:
        self.stream = client.makefile("rb")
        self.status = int(self.stream.readline().split()[1])
        self.fields = dict(self._head())
        self.whole = False

    def _head(self) -> Iterator[tuple[str, str]]:
        while line := self.stream.readline().strip().decode():
            name, _, value = line.partition(": ")
            yield name.lower(), value

    def row(self) -> dict[str, Any] | None:
        """The next row; None after the last chunk, which makes the answer whole."""
        size = int(self.stream.readline() or b"0", 16) if not self.whole else 0
        data = self.stream.read(size)
        self.whole = (self.stream.readline() == b"\r\n" and not size) or self.whole
        return json.loads(data) if data else None

    def rows(self) -> Iterator[dict[str, Any]]:
        while row := self.row():
            yield row


@pytest.mark.parametrize("framing", [CHUNKED, "Content-Length"])
def test_a_row_comes_before_the_next_line_is_sent(port: int, framing: str) -> None:
    """With a length, of a body too long to be taken in first: the rest of it is never sent."""
    line = UNIT + b"\n"
    with connect(port, framing if framing == CHUNKED else f"{framing}: {9 * 1024 * 1024}") as client:
        answer: Answer | None = None
        for number in range(30):
            client.sendall(chunk(line) if framing == CHUNKED else line)
            answer = answer or Answer(client)
            row = answer.row()
            assert row is not None
            assert (row["index"], row["status"]) == (number, 200)
        assert answer is not None
        assert answer.fields["content-type"] == LINES
        if framing == CHUNKED:
            client.sendall(b"0\r\n\r\n")
            assert answer.row() is None
            assert answer.whole
        else:
            client.shutdown(socket.SHUT_WR)
            row = answer.row()
            assert row is not None
            assert (row["index"], row["problem"]["type"]) == (30, "/problems/bad-request")
            assert row["problem"]["detail"] == f"The body ended after {30 * len(line)} of {9 * 1024 * 1024} bytes."


def test_a_line_may_come_in_pieces_and_the_last_without_its_end(port: int) -> None:
    with connect(port, CHUNKED) as client:
        for piece in (UNIT[:10], UNIT[10:], b"\n" + UNIT[:1], UNIT[1:]):
            client.sendall(chunk(piece))
            time.sleep(0.05)
        client.sendall(b"0\r\n\r\n")
        answer = Answer(client)
        assert [row["status"] for row in answer.rows()] == [200, 200]
        assert answer.whole


def test_the_connection_goes_on_with_the_next_request(port: int) -> None:
    """Also where the next request comes in one packet with the end of the body."""
    line = UNIT + b"\n"
    with connect(port, f"Content-Length: {len(line)}") as client:
        client.sendall(line + b"GET /livez HTTP/1.1\r\nHost: loopback\r\nConnection: close\r\n\r\n")
        answer = Answer(client)
        assert len(list(answer.rows())) == 1
        assert answer.stream.readline().startswith(b"HTTP/1.1 200")


def test_broken_chunks_end_the_answer_with_a_row(port: int) -> None:
    with connect(port, CHUNKED) as client:
        client.sendall(chunk(UNIT + b"\n") + b"nonsense\r\n")
        answer = Answer(client)
        rows = list(answer.rows())
        assert [row["status"] for row in rows] == [200, 400]
        assert rows[1]["problem"]["type"] == "/problems/bad-request"
        assert answer.whole


def test_a_client_that_gives_up_midway_leaves_the_service_as_it_was(port: int) -> None:
    """More of them than there are threads."""
    for _ in range(8):
        client = connect(port, CHUNKED)
        client.sendall(chunk((UNIT + b"\n") * 50 + UNIT[:20]))
        Answer(client).row()
        client.setsockopt(socket.SOL_SOCKET, socket.SO_LINGER, b"\1\0\0\0\0\0\0\0")  # a reset, not an end
        client.close()
    assert ask(port, "GET", "/readyz")[0] == 200


def test_silence_within_a_body_ends_it(port: int) -> None:
    with connect(port, CHUNKED) as client:
        client.sendall(chunk(UNIT + b"\n"))
        answer = Answer(client)
        began = time.monotonic()
        rows = list(answer.rows())
        assert time.monotonic() - began > 14.0
        assert [row["status"] for row in rows] == [200, 400]
        assert "did not come in time" in rows[1]["problem"]["detail"]


def memory_of(pid: int, kind: str = "VmRSS") -> int:
    """What a process has in memory [kB]."""
    found = re.search(rf"{kind}:\s+(\d+) kB", Path(f"/proc/{pid}/status").read_text())
    assert found
    return int(found[1])


def child_of(pid: int) -> int:
    return int(Path(f"/proc/{pid}/task/{pid}/children").read_text().split()[0])


@pytest.fixture(scope="module")
def impatient(tmp_path_factory: pytest.TempPathFactory) -> Iterator[tuple[int, int]]:
    """A server that kills a worker after two silent seconds; its worker and its port."""
    folder = tmp_path_factory.mktemp("impatient")
    with started(ROOT, folder / "log", folder / "without", GUNICORN_CMD_ARGS="--timeout 2") as (process, port):
        yield child_of(process.pid), port


@pytest.mark.parametrize("announced", [False, True])
def test_many_units_leave_the_worker_as_small_as_it_was(impatient: tuple[int, int], announced: bool) -> None:
    """For many times as long as a worker may be silent; with a length, of a body too long to be taken in first."""
    pid, port = impatient
    line = (UNIT.ljust(4000) if announced else UNIT) + b"\n"
    many = MANY // 5 if announced else MANY
    assert ask(port, "GET", "/readyz")[0] == 200
    with connect(port, CHUNKED) as client:  # what is made once, on the first unit
        client.sendall(chunk(line) + b"0\r\n\r\n")
        assert len(list(Answer(client).rows())) == 1
    before = memory_of(pid)
    Path(f"/proc/{pid}/clear_refs").write_text("5")  # the peak, from here on
    began = time.monotonic()
    with connect(port, f"Content-Length: {many * len(line)}" if announced else CHUNKED) as client:

        def send() -> None:
            for number in range(many // 100):
                if number == many // 200:
                    time.sleep(SILENCE)  # so that it lasts longer than a worker may be silent, however fast it is
                client.sendall(line * 100 if announced else chunk(line * 100))
            client.sendall(b"" if announced else b"0\r\n\r\n")

        sending = threading.Thread(target=send)
        sending.start()
        answer = Answer(client)
        count = 0
        received = 0
        for row in answer.rows():
            assert (row["index"], row["status"]) == (count, 200)
            count += 1
            received += len(json.dumps(row))
        sending.join()
    seconds = time.monotonic() - began
    peak = memory_of(pid, "VmHWM")
    print(f"{count} rows of {received // 1_000_000} MB in {seconds:.0f} s; {before} kB before, {peak} kB at most")
    assert (count, answer.whole) == (many, True)
    assert seconds > SILENCE
    assert peak - before < GROWTH
    assert Path(f"/proc/{pid}").exists()
    assert ask(port, "GET", "/readyz")[0] == 200


def test_a_client_that_sends_all_before_it_reads_is_answered(port: int) -> None:
    """As most libraries do: up to 8 MiB are taken in first, or both sides would wait for each other."""
    body = (UNIT.ljust(4000) + b"\n") * 2000
    assert 7 * 1024 * 1024 < len(body) < 8 * 1024 * 1024
    with connect(port, f"Content-Length: {len(body)}") as client:
        client.sendall(body)
        answer = Answer(client)
        assert sum(1 for _ in answer.rows()) == 2000
        assert answer.whole


def test_a_service_that_stops_ends_a_long_answer_with_a_row(tmp_path: Path) -> None:
    with started(ROOT, tmp_path / "log", tmp_path / "without") as (process, port):
        with connect(port, CHUNKED) as client:
            line = chunk(UNIT + b"\n")
            client.sendall(line)
            answer = Answer(client)
            assert answer.row()
            process.terminate()
            began = time.monotonic()
            last = None
            while time.monotonic() - began < 24.0:
                client.sendall(line)
                row = answer.row()
                if row is None:
                    break
                last = row
                time.sleep(0.05)
        assert last is not None
        assert last["problem"]["type"] == "/problems/not-ready"
        assert answer.whole
        assert process.wait(15.0) == 0
