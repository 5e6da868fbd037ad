"""A running server with what it wrote and counted, and a load on it that keeps account of every request."""

import http.client
import json
import re
import subprocess
import threading
from collections import Counter
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from starting import HOST, ROOT, ask, started

PATH, BODY = "/v1/drain-pitch", {"run": {"value": 32, "unit": "ft"}}


@dataclass
class Server:
    """A running server and what it has written."""

    process: subprocess.Popen
    port: int
    log: Path

    def lines(self) -> list[dict]:
        return [json.loads(line) for line in self.log.read_text().splitlines()]

    def requests(self) -> list[dict]:
        return [line for line in self.lines() if line["message"] == "request" and line["route"] not in PROBES]

    def said(self, words: str) -> bool:
        return any(words in line["message"] for line in self.lines())


PROBES = ("/livez", "/readyz", "/metrics")


@contextmanager
def serving(folder: Path, **settings: Any) -> Iterator[Server]:
    """A server with the arguments of `started`."""
    with started(ROOT, folder / "log", folder / "without", **settings) as (process, port):
        yield Server(process, port, folder / "log")


@dataclass
class Load:
    """Threads that ask one after the other, on a connection each time or on one kept alive, until told to stop."""

    port: int
    keep: bool = False
    body: dict = field(default_factory=lambda: BODY)
    path: str = PATH
    outcomes: Counter = field(default_factory=Counter)
    sent: set = field(default_factory=set)
    stop: threading.Event = field(default_factory=threading.Event)

    def run(self, number: int) -> None:
        connection = None
        count = 0
        while not self.stop.is_set():
            count += 1
            name = f"{number}-{count}"
            if connection is None:
                connection = http.client.HTTPConnection(HOST, self.port, timeout=40)
                try:
                    connection.connect()
                except ConnectionRefusedError:
                    self.outcomes["refused"] += 1
                    return
                except ConnectionResetError:  # asked while the last listener closed: not accepted
                    self.outcomes["refused"] += 1
                    return
            try:
                headers = {"Content-Type": "application/json", "X-Request-ID": name}
                if not self.keep:
                    headers["Connection"] = "close"
                connection.request("POST", self.path, json.dumps(self.body), headers)
                answer = connection.getresponse()
                json.loads(answer.read())
                self.outcomes[answer.status] += 1
                self.sent.add(name)
                if not self.keep or answer.will_close:
                    connection.close()
                    connection = None
            except (OSError, http.client.HTTPException, ValueError) as fault:
                self.outcomes[f"lost: {type(fault).__name__}"] += 1
                connection.close()
                connection = None

    @contextmanager
    def going(self, threads: int = 8) -> Iterator["Load"]:
        running = [threading.Thread(target=self.run, args=(number,)) for number in range(threads)]
        for thread in running:
            thread.start()
        try:
            yield self
        finally:
            self.stop.set()
            for thread in running:
                thread.join()


def counted(port: int, headers: dict[str, str] | None = None) -> Counter:
    """Requests by status, from the counts of all workers, without those of the probes."""
    status, _, text = ask(port, "GET", "/metrics", fields=headers)
    assert status == 200
    found: Counter = Counter()
    for route, code, value in re.findall(
        r'^http_server_request_duration_seconds_count\{http_route="([^"]*)".*code="(\d+)"\} (\d+)$',
        text.decode(),
        re.MULTILINE,
    ):
        if route not in PROBES:
            found[int(code)] += int(value)
    return found
