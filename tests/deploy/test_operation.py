"""A real server on loopback: keys, limits, counts, stopping and reloading, read back from its log and its counts."""

import hashlib
import json
import os
import shlex
import signal
import socket
import subprocess
import sys
import threading
import time
from collections import Counter
from collections.abc import Iterator
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path

import pytest
from loading import BODY, PATH, Load, counted, serving
from opentelemetry.proto.collector.trace.v1.trace_service_pb2 import ExportTraceServiceRequest
from starting import HOST, ROOT, SECONDS, ask, container_command, free_port

OLD, NEW = "o" * 40, "n" * 40
UNIT = json.loads((ROOT / "deploy" / "demo-unit.json").read_text())
BATCH = {"units": [{**UNIT, "unit_id": str(number)} for number in range(40)]}


def entry(name: str, key: str) -> str:
    return f"{name}:{hashlib.sha256(key.encode()).hexdigest()}"


def bearer(key: str) -> dict[str, str]:
    return {"Authorization": f"Bearer {key}"}


def refusal(**settings: str) -> str:
    """What the server says instead of starting."""
    environment = {"PATH": os.environ["PATH"], "WEB_CONCURRENCY": "1", **settings}
    ran = subprocess.run(
        container_command(), cwd=ROOT, env=environment, capture_output=True, text=True, timeout=SECONDS, check=False
    )
    assert ran.returncode != 0
    assert "Traceback" not in ran.stdout + ran.stderr
    return ran.stdout + ran.stderr


@pytest.mark.parametrize("address", ["0.0.0.0", "[::]", "", "192.0.2.1"])  # noqa: S104 - to be refused
def test_it_does_not_listen_beyond_loopback_without_keys(address: str) -> None:
    said = refusal(BIND=f"{address}:{free_port()}")
    assert json.loads(said.splitlines()[-1])["level"] == "error"
    assert "Refused to listen on" in said
    assert "API_KEYS" in said
    assert "ALLOW_OPEN" in said


@pytest.mark.parametrize("settings", [{"ALLOW_OPEN": "on"}, {"API_KEYS": entry("dispatch", OLD)}])
def test_it_listens_beyond_loopback_when_told_to_or_with_keys(tmp_path: Path, settings: dict[str, str]) -> None:
    port = free_port()
    with open(tmp_path / "log", "w") as out:
        process = subprocess.Popen(
            container_command(),
            cwd=ROOT,
            env={"PATH": os.environ["PATH"], "BIND": f"0.0.0.0:{port}", "WEB_CONCURRENCY": "1", **settings},
            stdout=out,
            stderr=out,
        )
    try:
        until = time.monotonic() + SECONDS
        while True:
            assert process.poll() is None
            assert time.monotonic() < until
            try:
                assert ask(port, "GET", "/readyz")[0] == 200
                break
            except OSError:
                time.sleep(0.1)
        assert ask(port, "POST", PATH, BODY)[0] == (401 if "API_KEYS" in settings else 200)
    finally:
        process.terminate()
        process.wait(SECONDS)


def test_every_fault_of_the_settings_ends_the_start_at_once() -> None:
    # gunicorn reads WEB_CONCURRENCY too, and before anything of ours: what is no number at all it refuses itself
    said = refusal(BIND="nowhere", WEB_CONCURRENCY="65", API_KEYS="secret-in-clear", RATE_LIMIT="often")
    for name in ("BIND", "WEB_CONCURRENCY", "API_KEYS", "RATE_LIMIT"):
        assert f"  {name}" in said
    assert "secret-in-clear" not in said


def test_telemetry_without_its_extra_ends_the_start(tmp_path: Path) -> None:
    (tmp_path / "opentelemetry.py").write_text("raise ImportError('not installed', name='opentelemetry')\n")
    ran = subprocess.run(
        container_command(),
        cwd=ROOT,
        env={
            "PATH": os.environ["PATH"],
            "WEB_CONCURRENCY": "1",
            "TELEMETRY": "on",
            "PYTHONPATH": str(tmp_path),
            "BIND": f"{HOST}:{free_port()}",
        },
        capture_output=True,
        text=True,
        timeout=SECONDS,
        check=False,
    )
    assert ran.returncode != 0
    assert "the extra is not installed" in ran.stdout + ran.stderr


def test_keys_rotate_on_sighup_under_load_without_a_request_lost(tmp_path: Path) -> None:
    file = tmp_path / "keys"
    file.write_text(entry("dispatch", OLD))
    with serving(tmp_path, API_KEYS_FILE=str(file), WEB_CONCURRENCY="2") as server:

        def status(key: str) -> int:
            return ask(server.port, "POST", PATH, BODY, bearer(key))[0]

        def reload(text: str, words: str) -> None:
            file.write_text(text)
            lines = len(server.lines())
            server.process.send_signal(signal.SIGHUP)
            until = time.monotonic() + SECONDS
            while not any(words in line["message"] for line in server.lines()[lines:]):
                assert time.monotonic() < until
                time.sleep(0.05)

        def settle(key: str, expected: int) -> None:
            """Old workers answer for a moment yet; then it stays so."""
            until = time.monotonic() + SECONDS
            while any(status(key) != expected for _ in range(20)):
                assert time.monotonic() < until

        assert (status(OLD), status(NEW), ask(server.port, "POST", PATH, BODY)[0]) == (200, 401, 401)
        assert ask(server.port, "GET", "/metrics")[0] == 401
        with Load(server.port, path="/problems/key-required").going(0), Load(server.port).going(4) as load:
            reload(f"{entry('dispatch', OLD)}\n{entry('dispatch', NEW)}", "Read 2 keys")
            settle(NEW, 200)
            assert status(OLD) == 200
            reload(entry("dispatch", NEW), "Read 1 keys")
            settle(OLD, 401)
            assert status(NEW) == 200
            reload("what is this", "The keys stay as they are.")
            settle(OLD, 401)
            assert status(NEW) == 200
        assert set(load.outcomes) == {401}, load.outcomes
        counts = counted(server.port, bearer(NEW))
    logged = server.log.read_text()
    assert OLD not in logged
    assert NEW not in logged
    assert hashlib.sha256(NEW.encode()).hexdigest() not in logged
    # nothing was lost, twice or miscounted in three generations of workers
    assert counts == Counter(line["status"] for line in server.requests())
    assert {line["key"] for line in server.requests() if line["status"] == 200} == {"dispatch"}
    assert {line["key"] for line in server.requests() if line["status"] == 401} == {None}


@pytest.mark.parametrize("keep", [False, True], ids=["a connection each", "kept alive"])
def test_sigterm_under_load_loses_no_accepted_request(keep: bool, tmp_path: Path) -> None:
    with serving(tmp_path, WEB_CONCURRENCY="2") as server, Load(server.port, keep=keep).going(24) as load:
        time.sleep(1.0)
        server.process.send_signal(signal.SIGTERM)
        assert server.process.wait(SECONDS) == 0
        time.sleep(0.2)
    assert set(load.outcomes) == {200, "refused"}, load.outcomes
    assert load.outcomes[200] > 50
    # the log has a line for each answer, and for no other
    logged = [line["request_id"] for line in server.requests()]
    assert len(logged) == len(set(logged))
    assert set(logged) == load.sent
    assert {line["pid"] for line in server.requests()} - {server.process.pid}


NEWCOMERS = """
import runpy, socket
take_no_more = runpy.run_path("deploy/gunicorn.conf.py")["take_no_more"]
listener = socket.create_server(("127.0.0.1", 0))
first = socket.create_connection(listener.getsockname())
take_no_more(listener)
first.sendall(b"asked")
try:
    socket.create_connection(listener.getsockname(), timeout=0.3)
except TimeoutError:
    print("nobody new")
accepted = listener.accept()[0]
accepted.sendall(accepted.recv(9))
print(first.recv(9).decode())
"""


@pytest.mark.skipif(sys.platform != "linux", reason="a packet filter of Linux")
def test_who_was_connected_before_the_end_is_answered_and_nobody_new_is_let_in_to_be_reset() -> None:
    ran = subprocess.run([sys.executable, "-c", NEWCOMERS], cwd=ROOT, capture_output=True, text=True, check=True)
    assert ran.stdout == "nobody new\nasked\n"


def test_sigterm_waits_for_long_calculations(tmp_path: Path) -> None:
    with serving(tmp_path) as server, Load(server.port, body=BATCH, path="/v1/assessment/batch").going(3) as load:
        time.sleep(0.5)
        server.process.send_signal(signal.SIGTERM)
        assert server.process.wait(SECONDS) == 0
    assert set(load.outcomes) == {200, "refused"}, load.outcomes


def test_while_it_drains_it_answers_and_is_not_ready(tmp_path: Path) -> None:
    with serving(tmp_path, DRAIN_SECONDS="3") as server:
        began = time.monotonic()
        server.process.send_signal(signal.SIGTERM)
        time.sleep(1.0)
        status, _, body = ask(server.port, "GET", "/readyz")
        assert (status, json.loads(body)["type"]) == (503, "/problems/not-ready")
        assert ask(server.port, "GET", "/livez")[0] == 200
        assert ask(server.port, "POST", PATH, BODY)[0] == 200
        assert server.process.wait(SECONDS) == 0
        assert time.monotonic() - began >= 3.0


HOOKS = """
import runpy, types
conf, new, taken = runpy.run_path("deploy/gunicorn.conf.py"), types.SimpleNamespace, []
metrics = new(take_slot=taken.append, clear_active=lambda slot: taken.append(-slot))
server = new(WORKERS={}, app=new(wsgi=lambda: new(extensions={"metrics": metrics})))
def fork(pid):
    worker = new()
    conf["pre_fork"](server, worker)
    server.WORKERS[pid] = worker
    conf["post_fork"](server, worker)
for pid in range(4):
    fork(pid)
conf["child_exit"](server, server.WORKERS.pop(2))
for pid in range(4, 6):
    fork(pid)
print(taken)
"""


def test_every_living_worker_has_a_place_of_its_own_among_the_counts() -> None:
    ran = subprocess.run([sys.executable, "-c", HOOKS], cwd=ROOT, capture_output=True, text=True, check=True)
    assert ran.stdout == "[0, 1, 2, 3, -2, 2, 4]\n"


def test_what_the_master_loaded_is_not_looked_through_by_every_worker() -> None:
    script = (
        "import gc, runpy, types; conf = runpy.run_path('deploy/gunicorn.conf.py'); "
        "conf['when_ready'](types.SimpleNamespace(LISTENERS=[])); print(gc.get_freeze_count() > 10_000)"
    )
    ran = subprocess.run([sys.executable, "-c", script], cwd=ROOT, capture_output=True, text=True, check=True)
    assert ran.stdout == "True\n"


def test_a_socket_that_somebody_else_opened_beyond_loopback_is_refused_too() -> None:
    """As systemd does it: descriptor 3, LISTEN_FDS and LISTEN_PID."""
    with socket.socket() as opened:
        opened.bind(("0.0.0.0", 0))  # noqa: S104 - to be refused
        opened.listen()
        script = f"exec 3<&{opened.fileno()}; LISTEN_FDS=1 LISTEN_PID=$$ exec {shlex.join(container_command())}"
        ran = subprocess.run(
            ["bash", "-c", script],
            cwd=ROOT,
            env={"PATH": os.environ["PATH"], "WEB_CONCURRENCY": "1"},
            pass_fds=[opened.fileno()],
            capture_output=True,
            text=True,
            timeout=SECONDS,
            check=False,
        )
    assert ran.returncode == 1
    assert "Refused to listen on ('0.0.0.0', " in ran.stdout


def test_a_killed_worker_is_replaced_and_its_counts_stay(tmp_path: Path) -> None:
    with serving(tmp_path, WEB_CONCURRENCY="2") as server:
        for _ in range(20):
            assert ask(server.port, "POST", PATH, BODY)[0] == 200
        pids = {line["pid"] for line in server.requests()}
        os.kill(next(iter(pids)), signal.SIGKILL)
        until = time.monotonic() + SECONDS
        while not server.said("was sent SIGKILL"):
            assert time.monotonic() < until
            time.sleep(0.05)
        for _ in range(20):
            assert ask(server.port, "POST", PATH, BODY)[0] == 200
        assert counted(server.port) == {200: 40}


def test_log_and_counts_tell_what_happened_in_a_burst(tmp_path: Path) -> None:
    with serving(tmp_path, WEB_CONCURRENCY="2", REVISION="abc123") as server:
        bodies = [BODY, {}, {"run": {"value": -1, "unit": "ft"}}]
        sent = {}

        def burst(number: int) -> None:
            for count in range(25):
                name = f"burst-{number}-{count}"
                status, headers, body = ask(
                    server.port, "POST", PATH, bodies[count % 3] or {"x": 1}, {"X-Request-ID": name}
                )
                assert headers["x-request-id"] == name
                sent[name] = (status, len(body))

        threads = [threading.Thread(target=burst, args=(number,)) for number in range(8)]
        for thread in threads:
            thread.start()
        for thread in threads:
            thread.join()
        counts = [counted(server.port) for _ in range(6)]  # whichever worker is asked
        assert json.loads(ask(server.port, "GET", "/livez")[2])["revision"] == "abc123"
    assert len(sent) == 200
    assert {line["request_id"]: (line["status"], line["bytes"]) for line in server.requests()} == sent
    expected = Counter(status for status, _ in sent.values())
    assert set(expected) == {200, 400}
    assert all(count == expected for count in counts)
    assert len({line["pid"] for line in server.requests()}) == 2  # both have worked
    for line in server.lines():  # the server's own lines too
        assert {"time", "level", "message", "pid"} <= set(line)
    assert server.said("Listening at")


def test_limits_hold_on_a_real_server(tmp_path: Path) -> None:
    with serving(tmp_path, RATE_LIMIT="5/3600") as server:
        answers = [ask(server.port, "POST", PATH, BODY) for _ in range(7)]
        assert [status for status, _, _ in answers] == [200] * 5 + [429] * 2
        assert int(answers[-1][1]["retry-after"]) > 600
        assert answers[-1][1]["ratelimit-policy"] == '"caller";q=5;w=3600'
        assert ask(server.port, "GET", "/readyz")[0] == 200


@pytest.fixture
def receiver() -> Iterator[tuple[int, list[ExportTraceServiceRequest]]]:
    """What takes spans by OTLP over HTTP, and what it took."""
    taken: list[ExportTraceServiceRequest] = []

    class Taker(BaseHTTPRequestHandler):
        def do_POST(self) -> None:
            assert self.path == "/v1/traces"
            raw = self.rfile.read(int(self.headers["Content-Length"]))
            taken.append(ExportTraceServiceRequest.FromString(raw))
            self.send_response(200)
            self.end_headers()

        def log_message(self, *words: object) -> None:
            pass

    server = ThreadingHTTPServer((HOST, 0), Taker)
    thread = threading.Thread(target=server.serve_forever)
    thread.start()
    yield server.server_port, taken
    server.shutdown()
    thread.join()
    server.server_close()


def test_spans_of_every_worker_arrive_and_continue_the_callers_trace(
    tmp_path: Path, receiver: tuple[int, list[ExportTraceServiceRequest]]
) -> None:
    port, taken = receiver
    trace, parent = "0af7651916cd43dd8448eb211c80319c", "b7ad6b7169203331"
    settings = {"TELEMETRY": "on", "OTEL_EXPORTER_OTLP_ENDPOINT": f"http://{HOST}:{port}", "WEB_CONCURRENCY": "2"}
    with serving(tmp_path, **settings) as server:
        ask(server.port, "POST", PATH, BODY, {"traceparent": f"00-{trace}-{parent}-01", "X-Request-ID": "job-1"})
        ask(server.port, "POST", PATH, BODY, {"traceparent": f"00-{trace[::-1]}-{parent}-00"})  # not sampled
        with Load(server.port).going(4) as load:
            time.sleep(1.0)
    spans = {}
    for export in taken:
        for resource in export.resource_spans:
            named = {pair.key: pair.value.string_value for pair in resource.resource.attributes}
            assert (named["service.name"], named["service.version"]) == ("condensate-drainage", "0.1.0")
            spans |= {span.trace_id.hex(): span for scope in resource.scope_spans for span in scope.spans}
    lines = server.requests()
    assert len(lines) == load.outcomes[200] + 2
    assert len({line["pid"] for line in lines}) == 2
    assert trace[::-1] not in spans
    assert {line["trace_id"] for line in lines} - {trace[::-1]} <= set(spans)  # all of them, up to the last
    span = spans[trace]
    assert (span.name, span.parent_span_id.hex(), span.kind) == (f"POST {PATH}", parent, span.SPAN_KIND_SERVER)
    line = next(line for line in lines if line["trace_id"] == trace)
    assert line["parent_id"] == parent
    assert abs((span.end_time_unix_nano - span.start_time_unix_nano) / 1e6 - line["duration_ms"]) < 0.01
    said = {pair.key: pair.value.string_value or pair.value.int_value for pair in span.attributes}
    assert said == {
        "http.request.method": "POST",
        "http.response.status_code": 200,
        "http.route": PATH,
        "url.scheme": "http",
        "service.request_id": "job-1",
    }


def test_what_is_not_http_is_logged_escaped(tmp_path: Path) -> None:
    with serving(tmp_path) as server:
        with socket.create_connection((HOST, server.port), timeout=10) as client:
            client.sendall(b'\x1b[2J{"level":"forged"}\x07\r\n\r\n')
            assert client.recv(100).startswith(b"HTTP/1.1 400 ")
        ask(server.port, "GET", "/%1b%5b2J%0a%7b%22level%22:%22forged%22%7d")
    raw = server.log.read_bytes()
    assert b"\x1b" not in raw
    assert b"\x07" not in raw
    assert {line["level"] for line in server.lines()} <= {"info", "warning"}
    assert server.said("Invalid request")
