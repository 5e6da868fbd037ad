"""Measures how near the service comes to a bare Flask view: ``python tests/load/measure_speed.py``; about six minutes.

Three servers run at once on loopback: the floor (`floor.py`), the service with logging, metrics and request ids off,
and the service as deployed. Another process (`client.py`) asks them in turn, a short slice each, over and over, so that
whatever else the machine does hurts all of them alike. The floor answers the very documents the service answers, has as
many workers and threads, and runs with gunicorn's own settings and worker, without the checks of
deploy/gunicorn.conf.py: what those cost is the service's. ``--same-worker`` gives it the service's worker, which is
quicker, too. A ratio is what the service makes of what the floor makes, by answers a second, and in brackets by
processor time, which says the same on a crowded machine.

It writes nothing, and stops what it started. ``--soak 60`` also loads a fresh server for a minute.
"""

import argparse
import json
import math
import os
import statistics
import subprocess
import sys
import time
from collections.abc import Callable, Iterator
from contextlib import ExitStack, contextmanager
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

import numpy as np
from measure_capacity import UNITS, year_of_hours
from servers import HOST, ROOT, container_command, free_port, memory, processor_time, started, workers_of

sys.path.insert(0, str(ROOT))

from service.app import create_app
from service.calculations.assessment import assess_unit
from service.schemas.assessment import AssessmentRequest
from service.settings import Settings

FOLDER = Path(__file__).parent
OFF = {"LOG_LEVEL": "warning", "METRICS": "off", "REQUEST_IDS": "off"}
NOT_SINGLE = ("assessment", "assessment-batch", "condensate-rate-series", "maintenance-round")
BUSIER = ("assessment.", "trap-check.")
"""Operations asked over 32 connections too."""


@dataclass(frozen=True, slots=True)
class Request:
    """One request, and the shares of the floor's speed that are asked for with all switched off, and on."""

    name: str
    path: str
    body: str
    targets: tuple[float, float] | None


@dataclass(slots=True)
class Tally:
    """What one server made of its slices."""

    times: list[float] = field(default_factory=list)
    seconds: float = 0.0
    processor: float = 0.0
    rates: list[float] = field(default_factory=list)

    def add(self, times: list[float], seconds: float, processor: float) -> None:
        """Count a slice."""
        self.times += times
        self.seconds += seconds
        self.processor += processor
        self.rates.append(len(times) / seconds)

    @property
    def cost(self) -> float:
        """Processor time of a request [s]."""
        return self.processor / len(self.times)

    @property
    def late(self) -> float:
        """The time that 99 of 100 answers keep [s]."""
        return sorted(self.times)[math.ceil(len(self.times) * 0.99) - 1]


class Server:
    """A running server and what reads its processor time."""

    def __init__(self, master: int, port: int) -> None:
        self.master, self.port = master, port
        self.workers = workers_of(master)

    def used(self) -> float:
        """Processor time of the workers so far [s]."""
        return sum(map(processor_time, self.workers))


def operations() -> dict[str, str]:
    """The path of every operation that takes a body."""
    document = json.loads((ROOT / "openapi" / "openapi.json").read_text())
    return {methods["post"]["operationId"]: path for path, methods in document["paths"].items() if "post" in methods}


def requests(every: bool) -> list[Request]:
    """The first worked example of every operation, or all of them."""
    paths = {path.removeprefix("/v1/").replace("/", "-"): path for path in operations().values()}
    found: dict[str, list[Request]] = {}
    for file in sorted((ROOT / "openapi" / "examples").glob("*.request.json")):
        name = file.name.removesuffix(".request.json")
        operation = name.partition(".")[0]
        targets = (0.5, 0.5) if operation == "assessment" else None if operation in NOT_SINGLE else (0.9, 0.85)
        found.setdefault(operation, []).append(Request(name, paths[operation], file.read_text(), targets))
    return [request for of_one in found.values() for request in (of_one if every else of_one[:1])]


class Client:
    """The asking process."""

    def __init__(self) -> None:
        self._process = subprocess.Popen(
            [sys.executable, FOLDER / "client.py"], stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True
        )

    def ask(self, server: Server, path: str, body: str, *, connections: int, seconds: float, tally: Tally) -> None:
        """Ask one server for some time, and count it."""
        order = {"port": server.port, "path": path, "body": body, "connections": connections, "seconds": seconds}
        before = server.used()
        assert self._process.stdin
        assert self._process.stdout
        self._process.stdin.write(json.dumps(order) + "\n")
        self._process.stdin.flush()
        line = self._process.stdout.readline()
        if not line or workers_of(server.master) != server.workers:
            sys.exit("A server failed while it was measured.")
        tally.add(**json.loads(line), processor=server.used() - before)

    def close(self) -> None:
        """End it."""
        assert self._process.stdin
        self._process.stdin.close()
        self._process.wait()


@contextmanager
def service(arguments: argparse.Namespace, environment: dict[str, str]) -> Iterator[Server]:
    """The service with the container's command."""
    port = free_port()
    settings = {"BIND": f"{HOST}:{port}", "WEB_CONCURRENCY": str(arguments.workers), "THREADS": str(arguments.threads)}
    with started(container_command(), port, settings | environment) as master:
        yield Server(master, port)


@contextmanager
def floor(arguments: argparse.Namespace, answers: dict[str, Any]) -> Iterator[Server]:
    """The bare application, which reads its answers from memory it inherits."""
    port = free_port()
    memory_file = os.memfd_create("answers")
    os.write(memory_file, json.dumps(answers).encode())
    worker = "deploy.patient_worker.PatientWorker" if arguments.same_worker else "gthread"
    command = ["gunicorn", "--bind", f"{HOST}:{port}", "--workers", str(arguments.workers), "--worker-class", worker]
    command += ["--threads", str(arguments.threads), "--keep-alive", "5", "--no-control-socket", "floor:app"]
    environment = {"ANSWERS": f"/proc/self/fd/{memory_file}", "PYTHONPATH": str(ROOT)}
    with started(command, port, environment, folder=FOLDER, files=[memory_file]) as master:
        yield Server(master, port)


def ratio(tally: Tally, bare: Tally) -> tuple[float, float]:
    """What a server makes of what the floor makes: by answers a second, and by processor time."""
    by_rate = statistics.median(one / other for one, other in zip(tally.rates, bare.rates, strict=True))
    return by_rate, bare.cost / tally.cost


def verdict(passed: bool) -> str:
    """One word for a line."""
    return "pass" if passed else "MISS"


def compare(arguments: argparse.Namespace, client: Client) -> None:
    """Single requests against the floor."""
    chosen = [each for each in requests(arguments.every) if arguments.only in each.name]
    application = create_app(Settings(log_level="critical", metrics=False)).test_client()
    answered = {each.name: application.post(each.path, json=json.loads(each.body)).get_json() for each in chosen}
    with ExitStack() as stack:
        bare = stack.enter_context(floor(arguments, {f"/{name}": answer for name, answer in answered.items()}))
        off = stack.enter_context(service(arguments, OFF))
        on = stack.enter_context(service(arguments, {}))
        print("| request | conn. | floor, 1/s | all off | all on | p99 off | p99 on | targets | |")
        print("| --- | ---: | ---: | ---: | ---: | ---: | ---: | --- | --- |")
        plan = [(each, 8) for each in chosen] + [(each, 32) for each in chosen if each.name.startswith(BUSIER)]
        for each, connections in plan:
            tallies = Tally(), Tally(), Tally()
            asked = [(bare, f"/{each.name}"), (off, each.path), (on, each.path)]
            for (server, path), _ in zip(asked, range(3), strict=True):  # what is made at the first request
                client.ask(server, path, each.body, connections=connections, seconds=0.1, tally=Tally())
            for _ in range(arguments.rounds):
                for (server, path), tally in zip(asked, tallies, strict=True):
                    client.ask(server, path, each.body, connections=connections, seconds=arguments.seconds, tally=tally)
            base, without, full = tallies
            (off_rate, off_cost), (on_rate, on_cost) = ratio(without, base), ratio(full, base)
            lates = without.late / base.late, full.late / base.late
            wanted, outcome = "", ""
            if each.targets:
                least_off, least_on = each.targets
                wanted = f"{least_off:.2f}, {least_on:.2f}, p99 2"
                outcome = verdict(off_rate >= least_off and on_rate >= least_on and max(lates) <= 2.0)
            shown = [f"{statistics.median(base.rates):.0f}", f"{off_rate:.2f} ({off_cost:.2f})"]
            shown += [f"{on_rate:.2f} ({on_cost:.2f})", *(f"{late:.2f}" for late in lates), wanted, outcome]
            print(f"| {each.name} | {connections} |", " | ".join(shown), "|", flush=True)


def processor_of(work: Callable[[], Any]) -> float:
    """Processor time of this process for some work [s]."""
    before = time.process_time()
    work()
    return time.process_time() - before


def bare_series(body: str) -> str:
    """The arithmetic of a year alone: humidity ratios of moist air as an ideal gas, their difference times the air."""
    request = json.loads(body)
    entering = request["entering_air"]
    dry_bulb = (np.array(entering["dry_bulb"]["values"]) - 32.0) / 1.8 + 273.15
    humidity = np.array(entering["relative_humidity_percent"]) / 100.0

    def humidity_ratio(temperature: Any, relative: Any) -> Any:
        saturation = np.exp(  # over liquid water, ASHRAE Handbook Fundamentals, Psychrometrics, eq. 6
            -5.8002206e3 / temperature
            + 1.3914993
            - 4.8640239e-2 * temperature
            + 4.1764768e-5 * temperature**2
            - 1.4452093e-8 * temperature**3
            + 6.5459673 * np.log(temperature)
        )
        pressure = relative * saturation
        return 0.621945 * pressure / (101325.0 - pressure)

    ratios = humidity_ratio(dry_bulb, humidity)
    leaving = humidity_ratio(np.array([285.93]), 0.95)
    volume = 287.042 * dry_bulb * (1.0 + 1.607858 * ratios) / 101325.0
    rates = np.maximum(ratios - leaving, 0.0) * 0.566 / volume
    days = np.resize(rates, (365, 24)).sum(axis=1)
    return json.dumps({"days": days.tolist(), "total": float(rates.sum()), "peak": int(rates.argmax())})


def measure_work(arguments: argparse.Namespace, client: Client) -> None:
    """A batch against its calculations alone, and a series against its arithmetic alone, by processor time."""
    unit = json.loads((ROOT / "deploy" / "demo-unit.json").read_text())
    batch = json.dumps({"units": [{**unit, "unit_id": f"unit-{number}"} for number in range(UNITS)]})
    series = year_of_hours().decode()
    schema = AssessmentRequest()
    units = [schema.load(each) for each in json.loads(batch)["units"]]
    assessed = (lambda: [assess_unit(**each) for each in units]), "/v1/assessment/batch", batch, 1.3
    summed = (lambda: bare_series(series)), "/v1/condensate-rate/series", series, 3.0
    names = f"batch of {UNITS:,} against its calculations", "8,760 hours against numpy and JSON"
    print("\n| work | alone, ms | as a request, ms | ratio | target | |")
    print("| --- | ---: | ---: | ---: | ---: | --- |")
    with service(arguments, {}) as server:
        for name, (alone, path, body, most) in zip(names, (assessed, summed), strict=True):
            alone()
            client.ask(server, path, body, connections=1, seconds=0.0, tally=Tally())
            costs, tally = [], Tally()
            for _ in range(arguments.rounds):
                costs.append(processor_of(alone))
                client.ask(server, path, body, connections=1, seconds=arguments.seconds, tally=tally)
            cost = statistics.median(costs)
            found = tally.cost / cost
            shown = f"{cost * 1e3:.1f} | {tally.cost * 1e3:.1f} | {found:.2f} | {most} | {verdict(found <= most)}"
            print(f"| {name} | {shown} |", flush=True)


def measure_start(arguments: argparse.Namespace) -> None:
    """From the command to the first answer, and memory then."""
    seconds = []
    resident = 0.0
    for _ in range(5):
        began = time.perf_counter()
        with service(arguments, {}) as server:
            seconds.append(time.perf_counter() - began)
            resident = max(resident, *(memory(worker)[0] for worker in server.workers))
    quickest = min(seconds)
    print("\n| start | | target | |")
    print("| --- | ---: | ---: | --- |")
    print(f"| from the command to an answer, s | {quickest:.2f} | 1 | {verdict(quickest < 1.0)} |")
    print(f"| resident memory of a worker then, MiB | {resident:.0f} | 90 | {verdict(resident < 90.0)} |")


def soak(arguments: argparse.Namespace, client: Client) -> None:
    """Load one server for long, single calculations and assessments in turn; memory and cost must stay level."""
    chosen = [each for each in requests(every=False) if each.name.startswith(("trap-check", "assessment", "pump-run."))]
    print("\n| after, s | requests | processor time of one, ms | resident, MiB | its own, MiB |")
    print("| ---: | ---: | ---: | ---: | ---: |")
    with service(arguments, {}) as server:
        began, rows = time.perf_counter(), []
        for _ in range(12):
            tally = Tally()
            for each in chosen:
                client.ask(
                    server,
                    each.path,
                    each.body,
                    connections=8,
                    seconds=arguments.soak / 12 / len(chosen),
                    tally=tally,
                )
            resident, own = max(map(memory, server.workers))
            rows.append((tally.cost, resident))
            print(
                f"| {time.perf_counter() - began:.0f} | {len(tally.times)} | {tally.cost * 1e3:.3f} "
                f"| {resident:.1f} | {own:.1f} |",
                flush=True,
            )
    early, late = (statistics.median(cost for cost, _ in part) for part in (rows[1:6], rows[-5:]))
    growth = rows[-1][1] - rows[5][1]
    print(
        f"\nProcessor time of a request, last five against first: {late / early:.2f}; memory in the second half: ",
        end="",
    )
    print(f"{growth:+.1f} MiB: {verdict(late / early < 1.1 and growth < 2.0)}.")


def main() -> None:
    """Measure, and print the tables."""
    parser = argparse.ArgumentParser(description="Measures the service against a bare Flask view, side by side.")
    parser.add_argument("--seconds", type=float, default=0.5, help="length of a slice (default: %(default)s)")
    parser.add_argument("--rounds", type=int, default=7, help="slices of each server (default: %(default)s)")
    parser.add_argument("--workers", type=int, default=1, help="worker processes of each (default: %(default)s)")
    parser.add_argument("--threads", type=int, default=4, help="threads of each worker (default: %(default)s)")
    parser.add_argument("--same-worker", action="store_true", help="the floor on the service's worker, not gunicorn's")
    parser.add_argument("--every", action="store_true", help="every worked example, not the first of each operation")
    parser.add_argument("--only", default="", help="single requests whose name holds this")
    parser.add_argument("--single", action="store_true", help="single requests only")
    parser.add_argument("--soak", type=float, default=0.0, help="seconds of load on one server (default: none)")
    arguments = parser.parse_args()
    client = Client()
    compare(arguments, client)
    if not arguments.single:
        measure_work(arguments, client)
        measure_start(arguments)
    if arguments.soak:
        soak(arguments, client)
    client.close()


if __name__ == "__main__":
    main()
