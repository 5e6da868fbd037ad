"""What goes wrong around a service, done to a real one: who else asks is answered, and afterwards it is as before."""

import concurrent.futures
import contextlib
import http.client
import json
import os
import shutil
import signal
import socket
import subprocess
import sys
import threading
import time
from collections.abc import Callable
from contextlib import ExitStack
from pathlib import Path

import pytest
from loading import BODY, PATH, Load, Server, counted, serving
from starting import HOST, ROOT, SECONDS, ask, container_command
from test_lines import CHUNKED, UNIT, Answer, chunk, connect, memory_of

from deploy import client_sockets

pytestmark = pytest.mark.skipif(sys.platform != "linux", reason="reads /proc")

DEMO = json.loads((ROOT / "deploy" / "demo-unit.json").read_text())
BATCH = {"units": [{**DEMO, "unit_id": str(number)} for number in range(1000)]}
HEAD = "POST {path} HTTP/1.1\r\nHost: loopback\r\nContent-Type: {kind}\r\n{framing}\r\n\r\n"
TICKS = os.sysconf("SC_CLK_TCK")


def hastier(folder: Path, **bounds: float) -> list[str]:
    """The container's command with some of the server's bounds made shorter, so that a test need not wait as long."""
    conf = folder / "hastier.conf.py"
    plain = str(ROOT / "deploy" / "gunicorn.conf.py")
    changed = "".join(
        f"{'client_sockets' if hasattr(client_sockets, name) else 'patient_worker'}.{name} = {value}\n"
        if name.isupper()
        else f"{name} = {value}\n"
        for name, value in bounds.items()
    )
    conf.write_text(
        f"__file__ = {plain!r}\nexec(compile(open(__file__).read(), __file__, 'exec'))\n"
        f"from deploy import client_sockets, patient_worker\n{changed}"
    )
    return [str(conf) if word == "deploy/gunicorn.conf.py" else word for word in container_command()]


def limited(limit: str, command: list[str] | None = None) -> list[str]:
    """The command under a limit of the shell's ``ulimit``."""
    return ["bash", "-c", f'ulimit {limit}; exec "$@"', "bash", *(command or container_command())]


def workers_of(server: Server) -> set[int]:
    children = Path(f"/proc/{server.process.pid}/task/{server.process.pid}/children").read_text()
    return {int(word) for word in children.split()}


def is_zombie(pid: int) -> bool:
    """Whether a process is dead, seen to by its master or not yet."""
    try:
        return Path(f"/proc/{pid}/stat").read_text().rpartition(")")[2].split()[0] == "Z"
    except (FileNotFoundError, ProcessLookupError):
        return True


def processor_time(pid: int) -> float:
    words = Path(f"/proc/{pid}/stat").read_text().rpartition(")")[2].split()
    return (int(words[11]) + int(words[12])) / TICKS


def wait_until(true: Callable[[], bool], what: str) -> None:
    give_up = time.monotonic() + SECONDS
    while not true():
        assert time.monotonic() < give_up, what
        time.sleep(0.05)


def send(port: int, path: str, body: bytes = b"", kind: str = "application/json", framing: str = "") -> socket.socket:
    """A connection on which a request, or the beginning of one, has been sent."""
    client = socket.create_connection((HOST, port), timeout=SECONDS)
    head = HEAD.format(path=path, kind=kind, framing=framing or f"Content-Length: {len(body)}")
    client.sendall(head.encode() + body)
    return client


def reset(client: socket.socket) -> None:
    """End a connection the rude way."""
    client.setsockopt(socket.SOL_SOCKET, socket.SO_LINGER, b"\1\0\0\0\0\0\0\0")
    client.close()


def all_well(server: Server, workers: int) -> bool:
    """As many workers as there should be, and none that died and was not seen to."""
    there = workers_of(server)
    return len(there) == workers and not any(map(is_zombie, there))


def check_sound(server: Server, workers: int) -> None:
    """As many workers as there should be, none of them a zombie; log and counts agree on every request."""
    wait_until(lambda: all_well(server, workers), "old workers stay")
    assert ask(server.port, "POST", PATH, BODY)[0] == 200
    logged: dict[int, int] = {}
    for line in server.requests():
        logged[line["status"]] = logged.get(line["status"], 0) + 1
    assert counted(server.port) == logged
    assert not server.said("Traceback")


def test_many_reloads_in_a_row_lose_nothing(tmp_path: Path) -> None:
    """200 requests at the least, by as many as wait at once for two workers that are replaced again and again."""
    with serving(tmp_path, WEB_CONCURRENCY="2") as server, Load(server.port).going(24) as load:
        before = workers_of(server)
        for _ in range(6):
            server.process.send_signal(signal.SIGHUP)
            time.sleep(0.25)
        wait_until(lambda: len(workers_of(server)) == 2 and not workers_of(server) & before, "no new workers")
        wait_until(lambda: load.outcomes[200] >= 200, "too few answers")
        load.stop.set()
        time.sleep(0.5)
        assert set(load.outcomes) == {200}, load.outcomes
        names = [line["request_id"] for line in server.requests()]
        assert len(names) == len(set(names))
        assert load.sent <= set(names)
        check_sound(server, workers=2)


def test_many_killed_workers_in_a_row_cost_only_what_they_had_in_hand(tmp_path: Path) -> None:
    with serving(tmp_path, WEB_CONCURRENCY="2") as server:
        with Load(server.port).going(8) as load:
            for _ in range(6):
                wait_until(lambda: len(workers_of(server)) == 2, "no other worker")
                os.kill(min(workers_of(server)), signal.SIGKILL)
                answered = load.outcomes[200]
                wait_until(lambda: load.outcomes[200] > answered + 20, "nobody is answered")  # noqa: B023 - at once
        lost = sum(count for outcome, count in load.outcomes.items() if outcome != 200)
        assert lost <= 6 * 8, load.outcomes
        wait_until(lambda: all_well(server, 2), "no other worker")
        with Load(server.port).going(4) as again:
            wait_until(lambda: again.outcomes[200] > 50, "nobody is answered")
        assert set(again.outcomes) == {200}


def test_without_their_master_the_workers_end_and_the_port_is_free_for_another(tmp_path: Path) -> None:
    with serving(tmp_path, WEB_CONCURRENCY="2") as server:
        workers = workers_of(server)
        with Load(server.port).going(4):
            time.sleep(0.3)
            server.process.kill()
            server.process.wait(SECONDS)
            wait_until(
                lambda: not any(Path(f"/proc/{pid}/exe").exists() and not is_zombie(pid) for pid in workers),
                "workers stay without their master",
            )
    with serving(tmp_path, port=server.port) as another:
        assert ask(another.port, "POST", PATH, BODY)[0] == 200


def test_who_does_not_read_the_answer_holds_a_thread_for_the_time_to_write_and_no_longer(tmp_path: Path) -> None:
    """One of either kind first, beside which others are answered; then as many as there are threads."""
    whole = json.dumps(BATCH).encode()
    lines = (json.dumps(DEMO).encode() + b"\n") * 700
    command = hastier(tmp_path, WRITE_SECONDS=3.0)
    with serving(tmp_path, command=command, THREADS="3") as server, ExitStack() as held:
        pid = min(workers_of(server))

        def hold(body: bytes, kind: str) -> None:
            client = socket.socket()
            client.setsockopt(socket.SOL_SOCKET, socket.SO_RCVBUF, 4096)
            client.settimeout(SECONDS)
            client.connect((HOST, server.port))
            head = HEAD.format(path="/v1/assessment/batch", kind=kind, framing=f"Content-Length: {len(body)}")
            client.sendall(head.encode() + body)
            held.callback(client.close)

        hold(whole, "application/json")
        hold(lines, "application/x-ndjson")
        assert ask(server.port, "POST", PATH, BODY)[0] == 200
        for _ in range(3):
            hold(lines, "application/x-ndjson")
        with socket.create_connection((HOST, server.port), timeout=SECONDS) as client:
            client.sendall(b"GET /livez HTTP/1.1\r\nHost: loopback\r\nConnection: close\r\n\r\n")
            assert client.recv(100).startswith(b"HTTP/1.1 200")
        wait_until(lambda: not active(server), "a thread is held")
        assert workers_of(server) == {pid}


def active(server: Server) -> int:
    """Requests being answered, that for the counts left out."""
    text = ask(server.port, "GET", "/metrics")[2].decode()
    values = [float(line.split()[-1]) for line in text.splitlines() if line.startswith("http_server_active_requests ")]
    return int(sum(values)) - 1


def test_who_dribbles_is_given_up_and_others_are_answered(tmp_path: Path) -> None:
    """More of them than threads; each sends a byte more often than a silence may be long."""
    with serving(tmp_path, command=hastier(tmp_path, REQUEST_SECONDS=3.0)) as server:
        clients = [send(server.port, PATH, b"{", framing="Content-Length: 99") for _ in range(6)]
        over = threading.Event()

        def dribble() -> None:
            while not over.wait(0.3):
                for client in clients:
                    try:
                        client.sendall(b" ")
                    except OSError:
                        return

        dribbling = threading.Thread(target=dribble)
        dribbling.start()
        try:
            with send(server.port, PATH, json.dumps(BODY).encode()) as client:
                assert client.recv(100).startswith(b"HTTP/1.1 200")
        finally:
            over.set()
            dribbling.join()
            for client in clients:
                client.close()
        wait_until(lambda: not active(server), "a thread is held")
        assert {line["status"] for line in server.requests()} == {200, 400}


@pytest.mark.parametrize(
    ("limit", "bounds"),
    [
        ("-n 1024", {"worker_connections": 40}),
        ("-n 80", {}),
        ("-n 80", {"SPARE_DESCRIPTORS": -1000}),
    ],
    ids=["more than it keeps", "few descriptors", "none left"],
)
def test_connections_on_which_nothing_is_sent_take_no_thread_and_no_place(
    limit: str, bounds: dict[str, float], tmp_path: Path
) -> None:
    with serving(tmp_path, command=limited(limit, hastier(tmp_path, **bounds))) as server, ExitStack() as idle:
        pid = min(workers_of(server))
        for _ in range(200):
            idle.enter_context(socket.create_connection((HOST, server.port), timeout=SECONDS))
        for _ in range(5):
            assert ask(server.port, "POST", PATH, BODY)[0] == 200
        before, began = processor_time(pid), time.monotonic()
        time.sleep(2.0)
        assert processor_time(pid) - before < 0.5 * (time.monotonic() - began)  # it waits, and does not spin
        idle.close()
        for _ in range(20):
            assert ask(server.port, "POST", PATH, BODY)[0] == 200
        assert workers_of(server) == {pid}
        check_sound(server, workers=1)


def test_clients_that_leave_midway_leave_nothing_behind(tmp_path: Path) -> None:
    whole = json.dumps(BATCH).encode()
    with serving(tmp_path) as server:
        pid = min(workers_of(server))
        ask(server.port, "POST", "/v1/assessment/batch", BATCH)  # what is made once
        before = memory_of(pid)
        descriptors = len(list(Path(f"/proc/{pid}/fd").iterdir()))
        for number in range(6):
            path = "/v1/assessment/batch"
            sent = whole if number % 3 == 0 else whole[: len(whole) // 2]
            client = send(server.port, path, sent, framing=f"Content-Length: {len(whole)}")
            if number % 3 == 0:
                client.recv(1000)  # the answer has begun
            reset(client)
        wait_until(lambda: not active(server), "a thread is held")
        assert ask(server.port, "POST", PATH, BODY)[0] == 200
        wait_until(lambda: len(list(Path(f"/proc/{pid}/fd").iterdir())) <= descriptors, "descriptors stay open")
        assert memory_of(pid) - before < 48 * 1024
        assert workers_of(server) == {pid}
        check_sound(server, workers=1)


def test_nothing_is_written_to_disk_so_that_a_full_one_harms_nobody(tmp_path: Path) -> None:
    """No file may grow by a byte; what the server says goes into a pipe."""
    pipe = tmp_path / "pipe"
    os.mkfifo(pipe)
    command = ["bash", "-c", 'ulimit -f 0; exec "$@" > "$0" 2>&1', str(pipe), *container_command()]
    taken: list[bytes] = []
    taking = threading.Thread(target=lambda: taken.append(pipe.read_bytes()))
    taking.start()
    asked = [
        (PATH, json.dumps(BODY).encode(), "*/*", "application/json"),
        ("/v1/assessment", json.dumps(DEMO).encode(), "application/pdf", "application/json"),
        ("/v1/assessment", json.dumps(DEMO).encode(), "text/html", "application/json"),
        ("/v1/trap-check", TRAP, "image/svg+xml", "application/json"),
        ("/v1/assessment/batch", json.dumps({"units": [DEMO]}).ljust(5_000_000).encode(), "*/*", "application/json"),
        ("/v1/assessment/batch", (UNIT + b"\n") * 500, "*/*", "application/x-ndjson"),
    ]
    with serving(tmp_path, command=command) as server:
        for path, body, accept, kind in asked:
            assert raw(server.port, path, body, {"Accept": accept}, kind) == 200
    taking.join(SECONDS)
    said = [json.loads(line) for line in taken[0].splitlines()]
    assert sum(line.get("route") in {path for path, *_ in asked} for line in said) == len(asked)
    assert {line["level"] for line in said} == {"info"}


TRAP = (
    b'{"pan_pressure":{"value":-1.2,"unit":"inH2O"},"outlet_drop":{"value":0.25,"unit":"in"},'
    b'"seal_depth":{"value":2,"unit":"in"}}'
)


def raw(port: int, path: str, body: bytes, fields: dict[str, str] | None = None, kind: str = "application/json") -> int:
    """One request with a body as it is; its status, once the whole answer is there."""
    connection = http.client.HTTPConnection(HOST, port, timeout=SECONDS)
    connection.request("POST", path, body, {"Content-Type": kind, **(fields or {})})
    answer = connection.getresponse()
    answer.read()
    connection.close()
    return answer.status


SHIM = r"""
#define _GNU_SOURCE
#include <dlfcn.h>
#include <fcntl.h>
#include <stdlib.h>
#include <sys/time.h>
#include <time.h>
#include <unistd.h>
static long shift(void) {
    char text[32] = {0};
    int file = open(getenv("CLOCK_SHIFT"), O_RDONLY);
    if (file < 0) return 0;
    ssize_t got = read(file, text, sizeof text - 1);
    close(file);
    return got > 0 ? atol(text) : 0;
}
int clock_gettime(clockid_t clock, struct timespec *at) {
    static int (*real)(clockid_t, struct timespec *);
    if (!real) real = dlsym(RTLD_NEXT, "clock_gettime");
    int result = real(clock, at);
    if (clock == CLOCK_REALTIME) at->tv_sec += shift();
    return result;
}
int gettimeofday(struct timeval *restrict at, void *restrict zone) {
    struct timespec now;
    clock_gettime(CLOCK_REALTIME, &now);
    at->tv_sec = now.tv_sec;
    at->tv_usec = now.tv_nsec / 1000;
    return 0;
}
time_t time(time_t *at) {
    struct timespec now;
    clock_gettime(CLOCK_REALTIME, &now);
    if (at) *at = now.tv_sec;
    return now.tv_sec;
}
"""


@pytest.mark.skipif(not shutil.which("gcc"), reason="needs a C compiler, to stand between the server and its clock")
def test_a_clock_that_jumps_days_changes_the_time_of_log_lines_and_nothing_else(tmp_path: Path) -> None:
    (tmp_path / "shim.c").write_text(SHIM)
    shim, shift = tmp_path / "shim.so", tmp_path / "shift"
    subprocess.run(["gcc", "-shared", "-fPIC", "-o", shim, tmp_path / "shim.c", "-ldl"], check=True)
    shift.write_text("0")
    settings = {"LD_PRELOAD": str(shim), "CLOCK_SHIFT": str(shift), "RATE_LIMIT": "6/86400"}
    day = 86400
    with serving(tmp_path, **settings) as server, connect(server.port, CHUNKED) as stream:
        pid = min(workers_of(server))
        kept = http.client.HTTPConnection(HOST, server.port, timeout=SECONDS)
        line = chunk(UNIT + b"\n")
        stream.sendall(line)
        answer = Answer(stream)
        assert answer.row()
        statuses, days = [], []
        for jump in (0, 30, -30, 3650, 0):
            shift.write_text(str(jump * day))
            time.sleep(1.2)  # the server looks after its connections and workers once a second
            kept.request("POST", PATH, json.dumps(BODY), {"Content-Type": "application/json"})
            with kept.getresponse() as told:
                told.read()
                statuses.append(told.status)
                wait = int(told.headers.get("Retry-After", 0))
            stream.sendall(line)
            assert answer.row()
            days.append(jump)
        stream.sendall(b"0\r\n\r\n")
        assert answer.row() is None
        assert answer.whole
        answer.stream.close()
        kept.close()
        assert statuses == [200] * 5
        assert raw(server.port, PATH, json.dumps(BODY).encode()) == 429  # a quota of six, the stream took one
        assert wait == 0
        assert workers_of(server) == {pid}
        text = ask(server.port, "GET", "/metrics")[2].decode()
        sums = [
            float(row.split()[-1])
            for row in text.splitlines()
            if row.startswith("http_server_request_duration_seconds_sum")
        ]
        assert all(0.0 <= total < SECONDS for total in sums)
        lines = server.requests()
        assert all(0.0 <= entry["duration_ms"] < 1000.0 * SECONDS for entry in lines)
        years = {entry["time"][:4] for entry in lines}
        assert len(years) >= 2
    assert server.process.returncode == 0


def over(kind: str) -> tuple[str, str, bytes]:
    """Path, media type and body one byte beyond the limit, or as near to it as makes no other fault."""
    if kind == "csv":
        return "/v1/condensate-rate/series", "text/csv", b"a" * (2 * 1024 * 1024 + 1)
    if kind == "batch":
        return "/v1/assessment/batch", "application/json", b" " * (48 * 1024 * 1024 + 1)
    return PATH, "application/json", json.dumps(BODY).ljust(256 * 1024 + 1).encode()


@pytest.mark.parametrize("chunked", [False, True], ids=["announced", "chunked"])
@pytest.mark.parametrize("kind", ["json", "csv", "batch"])
def test_one_byte_too_many_is_told_though_the_client_goes_on_sending(kind: str, chunked: bool, port: int) -> None:
    path, media_type, body = over(kind)
    framing = CHUNKED if chunked else f"Content-Length: {len(body)}"
    with send(port, path, b"", media_type, framing) as client:
        with contextlib.suppress(ConnectionError):  # the answer is there before all is sent
            client.sendall(chunk(body) + b"0\r\n\r\n" if chunked else body)
        assert client.recv(100).startswith(b"HTTP/1.1 413")
    assert ask(port, "GET", "/readyz")[0] == 200


def test_a_line_one_byte_too_long_costs_its_own_row(port: int) -> None:
    with connect(port, CHUNKED) as client:
        client.sendall(chunk(UNIT.ljust(256 * 1024) + b"\n" + UNIT.ljust(256 * 1024 + 1) + b"\n" + UNIT) + b"0\r\n\r\n")
        assert [row["status"] for row in Answer(client).rows()] == [200, 413, 200]


@pytest.mark.parametrize(
    ("body", "status"),
    [
        (b"[" * 1_500_000, 400),
        (b'{"units":' * 500_000, 400),
        (b'{"units":[' + b"[" * 1_000_000 + b"]" * 1_000_000 + b"]}", 400),
        (b"[" * 40_000_000, 413),
    ],
    ids=["arrays", "objects", "closed", "more than there may be"],
)
def test_nesting_without_end_is_refused(body: bytes, status: int, port: int) -> None:
    assert raw(port, "/v1/assessment/batch", body) == status
    assert ask(port, "GET", "/readyz")[0] == 200


def test_a_bomb_is_not_unpacked(port: int) -> None:
    for coding in ("gzip", "deflate", "br", "zstd", "gzip, gzip"):
        assert raw(port, PATH, b"\x1f\x8b" + b"\0" * 1000, {"Content-Encoding": coding}) == 415
    with send(port, PATH, b"0\r\n\r\n", framing="Transfer-Encoding: gzip, chunked") as client:
        assert client.recv(100)[:12] in (b"HTTP/1.1 400", b"HTTP/1.1 501")


def test_batches_in_parallel_are_all_answered_and_so_is_who_asks_meanwhile(tmp_path: Path) -> None:
    body = json.dumps(BATCH).ljust(13 * 1024 * 1024).encode()  # of which one has room at a time
    with serving(tmp_path, THREADS="6") as server, concurrent.futures.ThreadPoolExecutor(4) as pool:
        pid = min(workers_of(server))
        one = raw(server.port, "/v1/assessment/batch", body)
        before = memory_of(pid)
        batches = [pool.submit(raw, server.port, "/v1/assessment/batch", body) for _ in range(3)]
        meanwhile = 0
        while not all(batch.done() for batch in batches):
            meanwhile += ask(server.port, "POST", PATH, BODY)[0] == 200
        assert [one, *(batch.result() for batch in batches)] == [200] * 4
        assert meanwhile > 1
        wait_until(lambda: memory_of(pid) - before < 200 * 1024, "memory stays taken")
        check_sound(server, workers=1)


@pytest.mark.parametrize("how", ["reload", "replacement"])
def test_an_answer_in_lines_outlives_its_workers_time(how: str, tmp_path: Path) -> None:
    """Longer than a worker that stops waits; meanwhile others are answered, after it the worker is another."""
    command = hastier(tmp_path, graceful_timeout=1)
    arguments = "--max-requests 20 --max-requests-jitter 0 --timeout 4" if how == "replacement" else "--timeout 4"
    line = chunk(UNIT + b"\n")
    with serving(tmp_path, command=command, GUNICORN_CMD_ARGS=arguments) as server:
        before = workers_of(server)
        with connect(server.port, CHUNKED) as client:
            client.sendall(line)
            answer = Answer(client)
            assert answer.row()
            if how == "reload":
                server.process.send_signal(signal.SIGHUP)
            for _ in range(30):
                assert ask(server.port, "POST", PATH, BODY)[0] == 200
                client.sendall(line)
                row = answer.row()
                assert row is not None
                assert row["status"] == 200
                time.sleep(0.2)
            client.sendall(b"0\r\n\r\n")
            assert answer.row() is None
            assert answer.whole

        def replaced() -> bool:
            return ask(server.port, "POST", PATH, BODY)[0] == 200 and not before & workers_of(server)

        wait_until(replaced, "the worker stays")
