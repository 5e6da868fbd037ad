"""The counts, read by the parser of Prometheus' own client and compared with what was asked."""

import multiprocessing
import os
import re

import pytest
from flask import Flask
from flask.testing import FlaskClient
from prometheus_client.parser import text_string_to_metric_families

from service.app import create_app
from service.routes.document import CONTRACT_VERSION
from service.routes.metrics import BOUNDS, SLOTS, Metrics, metrics_of
from service.settings import SERVICE_VERSION, Settings

NAME = "http_server_request_duration_seconds"
PATH, BODY = "/v1/drain-pitch", {"run": {"value": 32, "unit": "ft"}}


def samples(text: str) -> dict[tuple[str, str, str, str, str], float]:
    """Value of every sample by name, route, method, status and bound."""
    return {
        (
            sample.name,
            sample.labels.get("http_route", ""),
            sample.labels.get("http_request_method", ""),
            sample.labels.get("http_response_status_code", ""),
            sample.labels.get("le", ""),
        ): sample.value
        for family in text_string_to_metric_families(text)
        for sample in family.samples
    }


@pytest.fixture
def own() -> FlaskClient:
    """A client of an application nobody else asks."""
    return create_app(Settings(testing=True, log_level="error")).test_client()


def test_every_request_is_counted_once(own: FlaskClient) -> None:
    for _ in range(3):
        own.post(PATH, json=BODY)
    own.post(PATH, json={})
    own.get("/problems/contradiction")
    own.get("/problems/no-such")
    own.get("/nothing/1")
    own.get("/nothing/2")
    own.open("/nothing", method="BREW")
    answer = own.get("/metrics")
    assert answer.headers["Content-Type"] == "text/plain; version=0.0.4; charset=utf-8"
    found = samples(answer.text)
    counts = {key[1:4]: value for key, value in found.items() if key[0] == f"{NAME}_count"}
    assert counts == {
        (PATH, "POST", "200"): 3,
        (PATH, "POST", "400"): 1,
        ("/problems/{slug}", "GET", "200"): 1,
        ("/problems/{slug}", "GET", "404"): 1,
        ("unknown", "GET", "404"): 2,
        ("unknown", "_OTHER", "404"): 1,
    }
    assert found["http_server_active_requests", "", "", "", ""] == 1  # this one
    build = re.search(r"condensate_build_info\{(.*)\} 1", answer.text)
    assert build
    assert build[1] == f'version="{SERVICE_VERSION}",contract_version="{CONTRACT_VERSION}"'


def test_nothing_runs_afterwards_whatever_came_of_it(own: FlaskClient) -> None:
    for path in ("/livez", "/nothing", "/v1/reference/units"):
        for method in ("GET", "HEAD", "OPTIONS", "POST"):
            own.open(path, method=method)
    tag = own.get("/v1/reference/units").headers["ETag"]
    own.get("/v1/reference/units", headers={"If-None-Match": tag})
    assert "\nhttp_server_active_requests 0\n" in "\n".join(own.application.extensions["metrics"].lines())


def test_a_histogram_by_hand() -> None:
    metrics = Metrics({"/a": ["GET"], "unknown": ["_OTHER"]})
    for seconds in (0.001, 0.0011, 0.3, 20.0):
        metrics.leave("/a", "GET", 200, seconds)
    metrics.leave("/a", "PUT", 200, 0.1)  # not of this route
    metrics.leave("/a", "GET", 299, 0.1)  # not a status there is
    found = samples("\n".join(metrics.lines()) + "\n")
    buckets = {key[4]: value for key, value in found.items() if key[:4] == (f"{NAME}_bucket", "/a", "GET", "200")}
    assert list(map(float, buckets)) == [*BOUNDS, float("inf")]
    # a bucket holds what is at most its bound, and all before it
    assert list(buckets.values()) == [1, 2, 2, 2, 2, 2, 2, 2, 3, 3, 3, 3, 3, 4]
    assert found[f"{NAME}_sum", "/a", "GET", "200", ""] == pytest.approx(20.3021, abs=1e-12)
    assert found[f"{NAME}_count", "unknown", "_OTHER", "200", ""] == 1
    assert found[f"{NAME}_count", "/a", "GET", "500", ""] == 1


def test_processes_add_up_and_a_dead_one_leaves_its_counts() -> None:
    metrics = Metrics({"/a": ["GET"], "unknown": ["_OTHER"]})

    def work(slot: int) -> None:
        metrics.take_slot(slot)
        metrics.enter()
        for _ in range(1000):
            metrics.enter()
            metrics.leave("/a", "GET", 200, 0.002)
        os._exit(9)  # without leaving

    forking = multiprocessing.get_context("fork")
    for _ in range(2):  # the second lot takes the places of the first
        workers = [forking.Process(target=work, args=(slot,)) for slot in (0, 1, SLOTS - 1)]
        for worker in workers:
            worker.start()
        for worker in workers:
            worker.join()
    found = samples("\n".join(metrics.lines()) + "\n")
    assert found[f"{NAME}_count", "/a", "GET", "200", ""] == 6000
    assert found[f"{NAME}_sum", "/a", "GET", "200", ""] == pytest.approx(12.0)
    assert found["http_server_active_requests", "", "", "", ""] == 3  # the second lot, killed at work
    for slot in (0, 1, SLOTS - 1):
        metrics.clear_active(slot)
    assert "\nhttp_server_active_requests 0\n" in "\n".join(metrics.lines())


def test_more_workers_than_there_are_places_share_the_last() -> None:
    metrics = Metrics({"/a": ["GET"], "unknown": ["_OTHER"]})
    for slot in (SLOTS - 1, SLOTS, SLOTS + 1000):
        metrics.take_slot(slot)
        metrics.leave("/a", "GET", 200, 0.002)
    assert samples("\n".join(metrics.lines()) + "\n")[f"{NAME}_count", "/a", "GET", "200", ""] == 3


def test_no_caller_can_add_a_series(app: Flask) -> None:
    """Which there may be follows from the routes; some ten times as many never occur."""
    metrics = metrics_of(app)
    before = len(metrics._cells)
    for number in range(1000):
        metrics.leave(f"/v1/{number}", f"M{number}", number, 0.1)
    assert len(metrics._cells) == before
    assert before * 8 < 64 * 2**20  # of address space; a page is used when something is counted in it
