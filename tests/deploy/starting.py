"""Starts the container's command outside a container, and stops it again."""

import http.client
import json
import os
import re
import signal
import socket
import subprocess
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

ROOT = Path(__file__).parents[2]
HOST = "127.0.0.1"
SECONDS = 40.0


def container_command() -> list[str]:
    """The last CMD of the Dockerfile, in its exec form."""
    return json.loads(re.findall(r"^CMD (\[.*\])$", (ROOT / "Dockerfile").read_text(), re.MULTILINE)[-1])


def free_port() -> int:
    """A port of loopback nobody listens on."""
    with socket.socket() as probe:
        probe.bind((HOST, 0))
        return probe.getsockname()[1]


def ask(
    port: int, method: str, path: str, body: dict | None = None, fields: dict[str, str] | None = None
) -> tuple[int, dict, bytes]:
    """One request; status, header fields and body."""
    connection = http.client.HTTPConnection(HOST, port, timeout=10)
    headers = {**({"Content-Type": "application/json"} if body else {}), **(fields or {})}
    connection.request(method, path, json.dumps(body) if body else None, headers)
    response = connection.getresponse()
    answer = response.status, {name.lower(): value for name, value in response.getheaders()}, response.read()
    connection.close()
    return answer


def wait_until_ready(process: subprocess.Popen, port: int) -> None:
    """Return once ``/readyz`` passes."""
    give_up = time.monotonic() + SECONDS
    while time.monotonic() < give_up:
        assert process.poll() is None, f"ended while starting: {process.returncode}"
        try:
            if ask(port, "GET", "/readyz")[0] == 200:
                return
        except OSError:
            time.sleep(0.1)
    raise AssertionError("not ready in time")


@contextmanager
def started(
    folder: Path,
    log: Path,
    without: Path,
    *,
    port: int | None = None,
    command: list[str] | None = None,
    **settings: str,
) -> Iterator[tuple[subprocess.Popen, int]]:
    """Run the container's command in ``folder`` with next to nothing in the environment.

    Parameters
    ----------
    folder : Path
        Holds what the image holds.
    log : Path
        Takes what the server says.
    without : Path
        Folder put first on the import path; a module there that raises stands for one that is not installed.
    port : int or None
        Where to listen; any free one by default.
    command : list of str or None
        Instead of the container's.
    settings : str
        Further variables of the environment.
    """
    port = port or free_port()
    environment = {
        "PATH": f"{Path(sys.executable).parent}:/usr/bin:/bin",
        "PYTHONPATH": str(without),
        "PYTHONDONTWRITEBYTECODE": "1",
        "BIND": f"{HOST}:{port}",
        "WEB_CONCURRENCY": "1",
        "TMPDIR": "/nonexistent",
        **settings,
    }
    assert "HOME" not in environment
    os.makedirs(without, exist_ok=True)
    # the image does not hold SciPy (deploy/requirements.lock), though a dependency declares it
    (without / "scipy.py").write_text("raise ImportError('SciPy is for the tests only')\n")
    with log.open("w") as out:
        process = subprocess.Popen(command or container_command(), cwd=folder, env=environment, stdout=out, stderr=out)
        try:
            wait_until_ready(process, port)
            yield process, port
        finally:
            if process.poll() is None:
                process.send_signal(signal.SIGTERM)
                process.wait(SECONDS)
