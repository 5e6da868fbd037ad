"""One application for every test that speaks HTTP, and one real server for those that need a socket."""

import gc
import math
import os
import socket
import subprocess
import sys
import time
from collections.abc import Callable, Iterator
from contextlib import AbstractContextManager, contextmanager
from pathlib import Path
from typing import Any

import pytest
from flask import Flask
from flask.testing import FlaskClient
from hypothesis import settings

from service.app import create_app
from service.settings import Settings
from service.tables.problems import PROBLEMS

# no test fails by the clock: the machine may be busy with something else
settings.register_profile("untimed", deadline=None)
settings.load_profile("untimed")

# programs of their own, and what schemathesis loads by its path: collecting would import them for their docstrings
collect_ignore_glob = ["load/*.py", "clients/main_job.py", "contract/fuzz_hooks.py", "contract/measure_promise.py"]

ROOT = Path(__file__).parents[1]
START_SECONDS = 30.0
STOP_SECONDS = 10.0


@pytest.fixture(scope="session")
def app() -> Flask:
    """The application; a fault of ours raises instead of becoming a 500."""
    return create_app(Settings(testing=True, log_level="error"))


@pytest.fixture
def client(app: Flask) -> FlaskClient:
    """A client of the application, without a server."""
    return app.test_client()


@pytest.fixture
def check_problem(client: FlaskClient) -> Callable[..., dict[str, Any]]:
    """Proves that an answer is the problem it should be, and that its type is a page a person can read."""

    def check(answer: Any, slug: str) -> dict[str, Any]:
        row = PROBLEMS[slug]
        assert answer.status_code == row.status, answer.data[:500]
        assert answer.content_type == "application/problem+json"
        document: dict[str, Any] = answer.get_json()
        assert set(document) == {"type", "title", "status", "detail", "instance", "errors", "request_id"}
        assert document["request_id"] == answer.headers["X-Request-ID"]
        assert document["type"] == f"/problems/{slug}"
        assert document["status"] == row.status
        assert document["title"] == row.title
        assert document["detail"]
        page = client.get(document["type"])
        assert (page.status_code, page.mimetype) == (200, "text/html")
        for word in (b"Traceback", b'File "'):
            assert word not in answer.data
        return document

    return check


@pytest.fixture(scope="session")
def count_calls() -> Callable[[Callable[[], object]], int]:
    """Counts the calls that some work makes, of functions in Python and in C: a cost no busy machine changes."""

    def count(work: Callable[[], object]) -> int:
        calls = 0

        def see(_frame: Any, event: str, _argument: Any) -> None:
            nonlocal calls
            calls += event in ("call", "c_call")

        sys.setprofile(see)
        try:
            work()
        finally:
            sys.setprofile(None)
        return calls

    return count


@pytest.fixture(scope="session")
def check_linear(count_calls: Callable[[Callable[[], object]], int]) -> Callable[..., None]:
    """Proves that four times as much input is about four times the work, and not sixteen.

    The calls are counted. What one call does in C shows in processor time only: both sizes in turn, until the best of
    either are in proportion. A busy machine makes that take longer; quadratic work never gets there.
    """
    most = 8.0  # half way from 4 to 16, as ratios go

    def seconds(work: Callable[[], object]) -> float:
        gc.disable()  # a collection goes through all there is, of other tests too
        try:
            began = time.process_time()
            work()
            return time.process_time() - began
        finally:
            gc.enable()

    def check(prepare: Callable[[int], Callable[[], object]], size: int) -> None:
        small, large = prepare(size), prepare(4 * size)
        small()  # what is made once
        assert count_calls(large) < most * count_calls(small)
        best = [math.inf, math.inf]
        for _ in range(20):
            best = [min(best[0], seconds(small)), min(best[1], seconds(large))]
            if best[1] < most * best[0]:
                return
        raise AssertionError(f"{best[1] / best[0]:.1f} times the processor time")

    return check


@contextmanager
def _running(**environment: str) -> Iterator[tuple[str, int]]:
    with socket.socket() as free:
        free.bind(("127.0.0.1", 0))
        host, port = free.getsockname()
    settings = ROOT / "deploy" / "gunicorn.conf.py"
    command = [sys.executable, "-m", "gunicorn", "-c", str(settings), "-b", f"{host}:{port}"]
    process = subprocess.Popen(
        [*command, "service.app:create_app()"],
        cwd=ROOT,
        env={**os.environ, "WEB_CONCURRENCY": "1", "LOG_LEVEL": "error", **environment},
    )
    try:
        deadline = time.monotonic() + START_SECONDS
        while True:
            try:
                socket.create_connection((host, port), timeout=1.0).close()
                break
            except OSError:
                assert process.poll() is None, "gunicorn ended at once"
                assert time.monotonic() < deadline, "gunicorn did not start"
                time.sleep(0.1)
        yield host, port
    finally:
        process.terminate()
        try:
            process.wait(STOP_SECONDS)
        except subprocess.TimeoutExpired:
            process.kill()
            process.wait()


@pytest.fixture(scope="session")
def start_server() -> Callable[..., AbstractContextManager[tuple[str, int]]]:
    """Starts a gunicorn of our own on a free port of loopback, with further settings; its host and port."""
    return _running


@pytest.fixture(scope="session")
def server(start_server: Callable[..., AbstractContextManager[tuple[str, int]]]) -> Iterator[tuple[str, int]]:
    """The one that most tests ask."""
    with start_server() as address:
        yield address
