"""Measures what a request costs: ``python tests/load/measure_capacity.py``; deploy/CAPACITY.md has the figures.

It starts one worker of the service on loopback with the container's command, asks it one kind of request at a time over
a few connections, and reads from ``/proc`` (Linux) how much processor time and memory that took. Processor time of a
request says what a core can do also where other work shares the machine; the lowest of several rounds is the least
disturbed. Standard library only. It takes about two minutes, and stops what it started.
"""

import argparse
import dataclasses
import hashlib
import http.client
import json
import sys
import threading
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass

from servers import HOST, ROOT, container_command, free_port, memory, processor_time, started, workers_of

ANSWER_SECONDS = 300.0
HOURS = 8760
UNITS = 1000

KEY = "measuring-" * 5
SVG = "image/svg+xml"
PDF = "application/pdf"
JSON = {"Content-Type": "application/json", "Authorization": f"Bearer {KEY}"}


@dataclass(frozen=True, kw_only=True, slots=True)
class Kind:
    """One kind of request.

    Parameters
    ----------
    name : str
        For the table.
    path : str
    body : bytes
    header_fields : dict
    connections : int
        How many ask at once.
    """

    name: str
    path: str
    body: bytes
    header_fields: dict[str, str]
    connections: int = 4


@dataclass(frozen=True, kw_only=True, slots=True)
class Figures:
    """What the requests of one round took.

    Parameters
    ----------
    requests : int
    processor : float
        Processor time of the worker for each request [s].
    rate : float
        Answers in each second of the clock [1/s].
    median, late : float
        Time to the whole answer, median and 99th percentile [s].
    """

    requests: int
    processor: float
    rate: float
    median: float
    late: float


def year_of_hours() -> bytes:
    """A year of invented air, hour by hour."""
    days = [hour % 24 for hour in range(HOURS)]
    dry_bulb = [70 + 12 * (1 - abs(hour - 15) / 15) + (place % 11) * 0.3 for place, hour in enumerate(days)]
    humidity = [75 - 20 * (1 - abs(hour - 15) / 15) + (place % 7) * 0.5 for place, hour in enumerate(days)]
    return json.dumps(
        {
            "start": "2026-01-01T00:00",
            "air_flow": {"value": 1200, "unit": "cfm"},
            "entering_air": {
                "dry_bulb": {"values": [round(value, 2) for value in dry_bulb], "unit": "degF"},
                "relative_humidity_percent": [round(value, 2) for value in humidity],
            },
            "leaving_air": {"dry_bulb": {"value": 55, "unit": "degF"}, "relative_humidity_percent": 95},
        }
    ).encode()


def kinds() -> list[Kind]:
    """What is measured: the demo unit, and requests as in README.md."""
    unit = json.loads((ROOT / "deploy" / "demo-unit.json").read_text())
    units = [{**unit, "unit_id": f"unit-{number}"} for number in range(UNITS)]
    trap = (
        b'{"pan_pressure":{"value":-1.2,"unit":"inH2O"},"outlet_drop":{"value":0.25,"unit":"in"},'
        b'"seal_depth":{"value":2,"unit":"in"}}'
    )
    pitch = b'{"run":{"value":32,"unit":"ft"},"fall":{"value":4,"unit":"in"}}'
    one = json.dumps(unit).encode()
    return [
        Kind(name="drain-pitch", path="/v1/drain-pitch", body=pitch, header_fields=JSON),
        Kind(name="trap-check", path="/v1/trap-check", body=trap, header_fields=JSON),
        Kind(
            name="trap-check, drawing",
            path="/v1/trap-check",
            body=trap,
            header_fields={**JSON, "Accept": "image/svg+xml"},
        ),
        Kind(name="assessment", path="/v1/assessment", body=one, header_fields=JSON),
        Kind(
            name="assessment, report as PDF",
            path="/v1/assessment",
            body=one,
            header_fields={**JSON, "Accept": PDF},
            connections=1,
        ),
        Kind(
            name=f"batch of {UNITS:,} assessments",
            path="/v1/assessment/batch",
            body=json.dumps({"units": units}).encode(),
            header_fields=JSON,
            connections=1,
        ),
        Kind(
            name=f"series of {HOURS:,} hours",
            path="/v1/condensate-rate/series",
            body=year_of_hours(),
            header_fields=JSON,
            connections=1,
        ),
    ]


@contextmanager
def served(workers: int, threads: int) -> Iterator[tuple[int, int]]:
    """The service with the container's command, and a key; process id of its master, and port."""
    port = free_port()
    environment = {
        "BIND": f"{HOST}:{port}",
        "WEB_CONCURRENCY": str(workers),
        "THREADS": str(threads),
        "API_KEYS": f"measuring:{hashlib.sha256(KEY.encode()).hexdigest()}",  # with all that costs when deployed
    }
    with started(container_command(), port, environment) as master:
        yield master, port


def ask(
    connection: http.client.HTTPConnection,
    method: str,
    path: str,
    body: bytes | None = None,
    header_fields: dict[str, str] | None = None,
) -> int:
    """One request; its status, once the whole answer has been read."""
    connection.request(method, path, body, header_fields or {})
    response = connection.getresponse()
    response.read()
    return response.status


def load(port: int, kind: Kind, seconds: float, used: Callable[[], float]) -> Figures:
    """Ask over and over for some time.

    Parameters
    ----------
    port : int
    kind : Kind
    seconds : float
        How long [s]; a request that has begun is waited for.
    used : callable
        Processor time of the workers so far [s].

    Returns
    -------
    Figures
    """
    times: list[float] = []
    refused: set[int] = set()
    until = time.perf_counter() + seconds

    def client() -> None:
        connection = http.client.HTTPConnection(HOST, port, timeout=ANSWER_SECONDS)
        while (began := time.perf_counter()) < until:
            status = ask(connection, "POST", kind.path, kind.body, kind.header_fields)
            times.append(time.perf_counter() - began)
            assert status == 200, f"{kind.name}: {status}"
        connection.close()

    before, began = used(), time.perf_counter()
    threads = [threading.Thread(target=client) for _ in range(kind.connections)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    took, spent = time.perf_counter() - began, used() - before
    if refused:
        sys.exit(f"{kind.name} was answered with {sorted(refused)}; figures of refusals would mislead.")
    times.sort()
    return Figures(
        requests=len(times),
        processor=spent / len(times),
        rate=len(times) / took,
        median=times[len(times) // 2],
        late=times[min(len(times) - 1, int(len(times) * 0.99))],
    )


def main() -> None:
    """Measure, and print the two tables."""
    parser = argparse.ArgumentParser(description="Measures what a request of each kind costs on this machine.")
    parser.add_argument("--seconds", type=float, default=3.0, help="length of a round (default: %(default)s)")
    parser.add_argument("--rounds", type=int, default=4, help="rounds, the best of which counts (default: %(default)s)")
    parser.add_argument("--workers", type=int, default=1, help="worker processes (default: %(default)s)")
    parser.add_argument("--threads", type=int, default=4, help="threads of each (default: %(default)s)")
    arguments = parser.parse_args()
    with served(arguments.workers, arguments.threads) as (master, port):
        workers = workers_of(master)
        fresh = [memory(process) for process in workers]
        print("| request | body, kB | processor time, ms | a core, 1/s | seen, 1/s | median, ms | p99, ms |")
        print("| --- | ---: | ---: | ---: | ---: | ---: | ---: |")
        grown = []
        for kind in kinds():
            load(port, kind, 0.5, lambda: 0.0)  # what is imported or kept at the first request is not counted
            rounds = [
                load(port, kind, arguments.seconds, lambda: sum(map(processor_time, workers)))
                for _ in range(arguments.rounds)
            ]
            best = min(rounds, key=lambda figures: figures.processor)
            seen = max(figures.rate for figures in rounds)
            median, late = (min(row) * 1e3 for row in zip(*((r.median, r.late) for r in rounds), strict=True))
            print(
                f"| {kind.name} | {len(kind.body) / 1000:.1f} | {best.processor * 1e3:.2f} | {1 / best.processor:.1f} "
                f"| {seen:.1f} | {median:.2f} | {late:.2f} |",
                flush=True,
            )
            if workers_of(master) != workers:
                sys.exit("A worker was replaced while it was measured; run this again.")
            grown.append((kind.name, max(memory(process) for process in workers), memory(master)))
        # every thread at its greatest work: what the memory limit is for
        batch = dataclasses.replace(
            next(kind for kind in kinds() if "batch" in kind.name), connections=arguments.workers * arguments.threads
        )
        load(port, batch, 0.1, lambda: 0.0)
        grown.append(("a batch in every thread at once", max(memory(process) for process in workers), memory(master)))
        print("\n| memory, MiB | worker, resident | worker, its own | master, resident |")
        print("| --- | ---: | ---: | ---: |")
        print(f"| as started | {max(fresh)[0]:.0f} | {max(fresh)[1]:.0f} | |")
        for name, (resident, own), (resident_master, _) in grown:
            print(f"| after {name} | {resident:.0f} | {own:.0f} | {resident_master:.0f} |")


if __name__ == "__main__":
    main()
