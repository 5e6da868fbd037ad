"""Starts servers on loopback for the measuring programs, and reads from ``/proc`` (Linux) what they take."""

import http.client
import json
import os
import re
import signal
import socket
import subprocess
import sys
import time
from collections.abc import Iterator, Mapping, Sequence
from contextlib import contextmanager
from pathlib import Path

ROOT = Path(__file__).parents[2]
HOST = "127.0.0.1"
START_SECONDS = 30.0
STOP_SECONDS = 30.0
TICKS = os.sysconf("SC_CLK_TCK")


def container_command() -> list[str]:
    """The command the container runs."""
    words: list[str] = json.loads(re.findall(r"^CMD (\[.*\])$", (ROOT / "Dockerfile").read_text(), re.MULTILINE)[-1])
    return words


def free_port() -> int:
    """A port of loopback nobody listens on."""
    with socket.socket() as probe:
        probe.bind((HOST, 0))
        return int(probe.getsockname()[1])


@contextmanager
def started(
    command: Sequence[str], port: int, environment: Mapping[str, str], *, folder: Path = ROOT, files: Sequence[int] = ()
) -> Iterator[int]:
    """A server that answers on a port, until the end of the block.

    Parameters
    ----------
    command : sequence of str
    port : int
        Where it listens.
    environment : mapping
        What is set beside this process' own variables.
    folder : pathlib.Path
        Where it runs.
    files : sequence of int
        Descriptors it inherits.

    Yields
    ------
    int
        Process id of the master.
    """
    path = f"{Path(sys.executable).parent}:{os.environ['PATH']}"
    with subprocess.Popen(
        command,
        cwd=folder,
        env={**os.environ, "PATH": path, **environment},
        pass_fds=files,
        stdout=subprocess.DEVNULL,
        stderr=subprocess.DEVNULL,
    ) as server:
        try:
            give_up = time.monotonic() + START_SECONDS
            while not answers(port):
                if server.poll() is not None or time.monotonic() > give_up:
                    sys.exit("A server did not start; try deploy/run --once to see why.")
                time.sleep(0.01)
            yield server.pid
        finally:
            server.send_signal(signal.SIGTERM)
            try:
                server.wait(STOP_SECONDS)
            except subprocess.TimeoutExpired:
                server.kill()


def answers(port: int) -> bool:
    """Whether something answers there."""
    connection = http.client.HTTPConnection(HOST, port, timeout=5)
    try:
        connection.request("GET", "/readyz")
        connection.getresponse().read()
    except OSError:
        return False
    finally:
        connection.close()
    return True


def workers_of(master: int) -> list[int]:
    """Process ids of the workers."""
    return [int(word) for word in Path(f"/proc/{master}/task/{master}/children").read_text().split()]


def processor_time(process: int) -> float:
    """Processor time a process has used [s]: fields 14 and 15 of proc(5), counted behind the name."""
    after_name = Path(f"/proc/{process}/stat").read_text().rpartition(")")[2].split()
    return (int(after_name[11]) + int(after_name[12])) / TICKS


def memory(process: int) -> tuple[float, float]:
    """Resident memory, and what of it no other process shares [MiB]."""
    rows = dict(re.findall(r"^(\w+): +(\d+) kB", Path(f"/proc/{process}/smaps_rollup").read_text(), re.MULTILINE))
    return int(rows["Rss"]) / 1024, (int(rows["Private_Clean"]) + int(rows["Private_Dirty"])) / 1024
