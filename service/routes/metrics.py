"""Counts of requests for Prometheus, right however many workers there are and whichever of them is asked.

The numbers lie in memory that the workers share: mapped without a file before the first of them is forked, a part of
its own for each worker. So there is no folder to make, empty or run full, nothing to do on a read-only file system, and
a worker that dies leaves its counts to the one that takes its place. Which series there are is settled when the
application is built, by its own routes; nothing a caller sends can add one.

References
----------
.. [1] Prometheus text exposition format 0.0.4.
.. [2] OpenTelemetry semantic conventions for HTTP metrics (``http.server.request.duration``).
"""

import mmap
from bisect import bisect_left
from collections.abc import Iterator, Mapping, Sequence
from threading import Lock

from flask import Flask, Response, current_app

from service.routes.blueprint import Blueprint
from service.routes.document import CONTRACT_VERSION
from service.routes.keys import path_template
from service.routes.problems import Problem
from service.settings import MOST_WORKERS, SERVICE_VERSION
from service.tables.problems import PROBLEMS

blueprint = Blueprint("metrics", __name__, description="For the machines that run the service.")

BOUNDS = (0.001, 0.0025, 0.005, 0.01, 0.025, 0.05, 0.1, 0.25, 0.5, 1.0, 2.5, 5.0, 10.0)
"""Upper bounds of the buckets [s]."""

SLOTS = 2 * MOST_WORKERS
"""Workers at once: while a reload runs, the old ones and the new."""

METHODS = ("GET", "HEAD", "POST", "OPTIONS")
OTHER_METHOD = "_OTHER"
UNKNOWN_ROUTE = "unknown"

MEDIA_TYPE = "text/plain; version=0.0.4; charset=utf-8"

_STATUSES = tuple(sorted({200, 204, 304} | {row.status for row in PROBLEMS.values()}))
_ROW = len(BOUNDS) + 2  # a count for each bucket and for what is beyond, then the sum
_USED, _ACTIVE, _HEAD = 0, 1, 2
_DURATION = "http_server_request_duration_seconds"


class Metrics:
    """Durations of requests by route, method and status, and how many run.

    Parameters
    ----------
    methods_of : mapping
        Methods of every route.
    """

    def __init__(self, methods_of: Mapping[str, Sequence[str]]) -> None:
        pairs = [(route, method) for route, methods in sorted(methods_of.items()) for method in methods]
        self._places = {pair: _HEAD + index * len(_STATUSES) * _ROW for index, pair in enumerate(pairs)}
        self._offsets = {status: index * _ROW for index, status in enumerate(_STATUSES)}
        self._width = _HEAD + len(pairs) * len(_STATUSES) * _ROW
        self._cells = memoryview(mmap.mmap(-1, SLOTS * self._width * 8)).cast("d")
        self._lock = Lock()
        self._start = 0
        self.take_slot(0)

    def take_slot(self, slot: int) -> None:
        """Count in this part of the memory from now on: said by each worker, each with another slot."""
        self._start = self._start_of(slot)
        self._cells[self._start + _USED] = 1.0
        self.clear_active(slot)

    def clear_active(self, slot: int) -> None:
        """Nothing runs in the worker of this slot: it is new, or dead."""
        self._cells[self._start_of(slot) + _ACTIVE] = 0.0

    def _start_of(self, slot: int) -> int:
        return min(slot, SLOTS - 1) * self._width  # workers beyond what the settings allow share the last place

    def enter(self) -> None:
        """A request begins."""
        with self._lock:
            self._cells[self._start + _ACTIVE] += 1.0

    def leave(self, route: str, method: str, status: int, seconds: float) -> None:
        """A request has ended: count it."""
        place = self._places.get((route, method)) or self._places[UNKNOWN_ROUTE, OTHER_METHOD]
        row = self._start + place + self._offsets.get(status, self._offsets[500])
        bucket, cells = row + bisect_left(BOUNDS, seconds), self._cells
        with self._lock:
            cells[self._start + _ACTIVE] -= 1.0
            cells[bucket] += 1.0
            cells[row + _ROW - 1] += seconds

    def lines(self) -> Iterator[str]:
        """Everything counted so far, by all workers, in the text format [1]_."""
        slots = [slot * self._width for slot in range(SLOTS) if self._cells[slot * self._width + _USED]]
        yield "# HELP http_server_active_requests Requests being answered."
        yield "# TYPE http_server_active_requests gauge"
        yield f"http_server_active_requests {sum(self._cells[start + _ACTIVE] for start in slots):.0f}"
        yield "# HELP condensate_build_info What runs here; always 1."
        yield "# TYPE condensate_build_info gauge"
        yield f'condensate_build_info{{version="{SERVICE_VERSION}",contract_version="{CONTRACT_VERSION}"}} 1'
        yield f"# HELP {_DURATION} From the begin of a request until its answer is ready."
        yield f"# TYPE {_DURATION} histogram"
        for (route, method), place in self._places.items():
            for status, offset in self._offsets.items():
                rows = (self._cells[start + place + offset :][:_ROW].tolist() for start in slots)
                *counts, total = map(sum, zip(*rows, strict=True))
                if any(counts):
                    labels = f'http_route="{route}",http_request_method="{method}",http_response_status_code="{status}"'
                    yield from _histogram(labels, counts, total)


def _histogram(labels: str, counts: Sequence[float], total: float) -> Iterator[str]:
    running = 0.0
    for bound, count in zip((*map(repr, BOUNDS), "+Inf"), counts, strict=True):
        running += count
        yield f'{_DURATION}_bucket{{{labels},le="{bound}"}} {running:.0f}'
    yield f"{_DURATION}_count{{{labels}}} {running:.0f}"
    yield f"{_DURATION}_sum{{{labels}}} {total!r}"


def metrics_of(app: Flask) -> Metrics:
    """Make room for the counts of an application; to be called when all routes are there."""
    methods_of: dict[str, Sequence[str]] = {UNKNOWN_ROUTE: (*METHODS, OTHER_METHOD)}
    for rule in app.url_map.iter_rules():
        methods_of[path_template(rule.rule)] = [method for method in METHODS if method in (rule.methods or ())]
    return Metrics(methods_of)


@blueprint.route("/metrics", methods=["GET"])
@blueprint.page("text/plain", "The counts, in the text format of Prometheus.", statuses=(401, 404, 406, 429))
def read_metrics() -> Response:
    """Counts of requests, for Prometheus.

    Of all workers together: durations by route, method and status, and how many requests run. Needs a key where the
    calculations do; `404` where the counting is switched off.
    """
    metrics: Metrics | None = current_app.extensions["metrics"]
    if metrics is None:
        raise Problem("unknown-path", detail="The counting is switched off here (METRICS).")
    return Response("\n".join(metrics.lines()) + "\n", content_type=MEDIA_TYPE)
