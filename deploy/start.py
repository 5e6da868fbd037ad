"""Starts the service on loopback and shows what it makes of the demo unit; ``deploy/run`` calls it.

Standard library only.
"""

import argparse
import http.client
import json
import os
import shlex
import signal
import socket
import subprocess
import sys
import textwrap
import time
from pathlib import Path
from types import FrameType
from typing import Any

from environment import Trouble, make_environment

ROOT = Path(__file__).resolve().parent.parent
DEMO_UNIT = ROOT / "deploy" / "demo-unit.json"
DEMO_PATH = "/v1/assessment"
HOST = "127.0.0.1"
START_SECONDS = 60.0

# the same words as the container's CMD; a test compares the two
SERVER = ["gunicorn", "-c", "deploy/gunicorn.conf.py", "service.app:create_app()"]


def _read_arguments() -> argparse.Namespace:
    parser = argparse.ArgumentParser(
        prog="deploy/run",
        description="Sets up and starts the condensate drainage service on this machine (loopback only), shows what "
        "it makes of an invented demo unit, and stays up until Ctrl-C.",
        epilog="The first run makes a Python environment in .venv and installs the pinned dependencies there; later "
        "runs start at once. PYTHON=/path/to/python chooses the Python (3.11 or newer).",
    )
    parser.add_argument("--port", type=int, default=8080, help="port on 127.0.0.1 (default: %(default)s)")
    parser.add_argument("--workers", type=int, default=2, help="worker processes (default: %(default)s)")
    parser.add_argument("--once", action="store_true", help="stop after the demo answer instead of staying up")
    arguments = parser.parse_args()
    if not 1 <= arguments.port <= 65535:
        parser.error("--port is from 1 to 65535")
    if not 1 <= arguments.workers <= 64:
        parser.error("--workers is from 1 to 64")
    return arguments


def _require_port(port: int) -> None:
    with socket.socket() as probe:
        probe.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        try:
            probe.bind((HOST, port))
        except PermissionError:
            raise Trouble(f"Port {port} is not open to this user: choose one above 1023 with --port.") from None
        except OSError:
            raise Trouble(
                f"Port {port} on {HOST} is already in use: stop what uses it, or choose another with --port."
            ) from None


def _ask(port: int, method: str, path: str, body: bytes | None = None) -> tuple[int, bytes]:
    connection = http.client.HTTPConnection(HOST, port, timeout=10)
    try:
        connection.request(method, path, body, {"Content-Type": "application/json"} if body else {})
        response = connection.getresponse()
        return response.status, response.read()
    finally:
        connection.close()


def _wait_until_ready(server: subprocess.Popen[bytes], port: int) -> None:
    give_up = time.monotonic() + START_SECONDS
    while time.monotonic() < give_up:
        if server.poll() is not None:
            raise Trouble(f"The service stopped while starting (exit status {server.returncode}); see above.")
        try:
            if _ask(port, "GET", "/readyz")[0] == 200:
                return
        except OSError:
            pass
        time.sleep(0.1)
    raise Trouble(f"The service was not ready within {START_SECONDS:.0f} seconds.")


def _paragraph(text: str, first: str, indent: int) -> str:
    return textwrap.fill(text, 100, initial_indent=first.ljust(indent), subsequent_indent=" " * indent)


def describe(answer: dict[str, Any]) -> str:
    """Write an answer for a person: the verdict, then findings with remedies, then what else to know.

    Parameters
    ----------
    answer : dict
        The envelope of any calculation.
    """
    lines = [f"Verdict: {answer['verdict'].upper()}"]
    for finding in answer["findings"]:
        lines += ["", _paragraph(finding["message"], finding["severity"].upper(), 11)]
        lines += [_paragraph(finding["remedy"], "    to do:", 11)]
        lines += [_paragraph(f"{finding['basis']} ({finding['code']})", "    basis:", 11)]
    for title, rows in (
        ("Assumed, because the request did not say", [f"{a['pointer']}: {a['note']}" for a in answer["assumptions"]]),
        ("Before the work", [caution["message"] for caution in answer["cautions"]]),
    ):
        if rows:
            lines += ["", f"{title}:"] + [_paragraph(row, "  -", 4) for row in rows]
    return "\n".join(lines)


def curl_line(port: int) -> str:
    """The shell command that asks the same."""
    file = os.path.relpath(DEMO_UNIT)
    address = f"http://{HOST}:{port}{DEMO_PATH}"
    return f"curl -s {address} -H 'Content-Type: application/json' -d {shlex.quote('@' + file)}"


def _show_demo(port: int) -> None:
    status, raw = _ask(port, "POST", DEMO_PATH, DEMO_UNIT.read_bytes())
    if status != 200:
        raise Trouble(f"The demo unit was answered with status {status}: {raw.decode(errors='replace')}")
    print(
        f"\nThe demo unit (deploy/demo-unit.json; the building is invented), assessed:\n\n{describe(json.loads(raw))}"
    )
    print(f"\nThe same as JSON:\n  {curl_line(port)}")
    print(f"API reference: http://{HOST}:{port}/docs", flush=True)


def _stop(server: subprocess.Popen[bytes]) -> None:
    """End the one process started here; gunicorn ends its own workers."""
    if server.poll() is None:
        server.terminate()
        try:
            server.wait(30)
        except subprocess.TimeoutExpired:
            server.kill()
            server.wait()


class _Stopped(Exception):
    """A signal asked this process to end."""


def _raise_stopped(number: int, frame: FrameType | None) -> None:
    raise _Stopped


def _serve(arguments: argparse.Namespace) -> None:
    python = make_environment(ROOT / ".venv", ROOT / "deploy" / "requirements.lock")
    _require_port(arguments.port)  # again: the first run installs for a while
    environment = dict(os.environ)
    environment.update(
        BIND=f"{HOST}:{arguments.port}", WEB_CONCURRENCY=str(arguments.workers), LOG_LEVEL="warning", LOG_FORMAT="text"
    )
    # in a session of its own: Ctrl-C reaches this process, which then stops the server in good order
    command = [str(python), "-m", *SERVER]
    server = subprocess.Popen(command, cwd=ROOT, env=environment, start_new_session=True)  # noqa: S603 - words of ours
    try:
        _wait_until_ready(server, arguments.port)
        _show_demo(arguments.port)
        if arguments.once:
            return
        print("\nThe service is up. Ctrl-C stops it.", flush=True)
        status = server.wait()
        raise Trouble(f"The service ended by itself (exit status {status}); see above.")
    finally:
        for number in (signal.SIGTERM, signal.SIGHUP):
            signal.signal(number, signal.SIG_IGN)
        _stop(server)


def main() -> int:
    """Run until stopped; the exit status is 0 after a stop that was asked for."""
    arguments = _read_arguments()
    for number in (signal.SIGINT, signal.SIGTERM, signal.SIGHUP):
        signal.signal(number, _raise_stopped)
    try:
        _require_port(arguments.port)
        _serve(arguments)
    except _Stopped:
        print("\nStopped.", flush=True)
    except Trouble as trouble:
        print(f"deploy/run: {trouble}", file=sys.stderr)
        return 1
    return 0


if __name__ == "__main__":
    sys.exit(main())
