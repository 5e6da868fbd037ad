"""Limits: the arithmetic of a bucket by hand, bounded memory, and what a caller is told."""

import hashlib
import threading
from collections.abc import Callable
from typing import Any

import pytest
from flask import Flask

from service.app import create_app
from service.routes import drain_pitch
from service.routes.limiting import MOST_CALLERS, ConcurrencyLimiter, RateLimiter, caller_at
from service.settings import Key, Rate, Settings

PATH, BODY = "/v1/drain-pitch", {"run": {"value": 32, "unit": "ft"}}


class Clock:
    """Time that the test moves."""

    def __init__(self) -> None:
        self.now = 1000.0

    def __call__(self) -> float:
        return self.now


def test_a_bucket_by_hand() -> None:
    """3 in 6 s: one token comes back every 2 s."""
    clock = Clock()
    limiter = RateLimiter(Rate(3, 6), clock)
    taken = [limiter.take("a") for _ in range(4)]
    assert [standing.allowed for standing in taken] == [True, True, True, False]
    assert [standing.remaining for standing in taken] == [2, 1, 0, 0]
    assert [standing.full_in for standing in taken] == [2, 4, 6, 6]
    assert taken[-1].retry_in == 2
    clock.now += 1.0
    refused = limiter.take("a")
    assert (refused.allowed, refused.retry_in, refused.full_in) == (False, 1, 5)
    clock.now += 1.0
    assert limiter.take("a").allowed
    assert not limiter.take("a").allowed
    assert limiter.take("b").remaining == 2  # another caller, another bucket
    clock.now += 1e6
    assert limiter.take("a").remaining == 2  # never more than the quota


def test_waiting_as_told_is_always_enough() -> None:
    clock = Clock()
    limiter = RateLimiter(Rate(7, 60), clock)
    for _ in range(50):
        standing = limiter.take("a")
        if not standing.allowed:
            clock.now += standing.retry_in
            assert limiter.take("a").allowed


def test_the_memory_is_bounded_and_a_busy_caller_is_not_forgotten() -> None:
    clock = Clock()
    limiter = RateLimiter(Rate(2, 3600), clock)
    limiter.take("busy")
    limiter.take("busy")
    for number in range(3 * MOST_CALLERS):
        limiter.take(f"caller {number}")
        if number % 1000 == 0:
            assert not limiter.take("busy").allowed
    assert len(limiter._buckets) == MOST_CALLERS


def test_threads_together_get_no_more_than_the_quota() -> None:
    limiter, allowed = RateLimiter(Rate(100, 86400)), []

    def ask() -> None:
        allowed.extend(limiter.take("a").allowed for _ in range(50))

    threads = [threading.Thread(target=ask) for _ in range(8)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert sum(allowed) == 100


def test_a_site_cannot_multiply_itself_by_its_addresses() -> None:
    assert caller_at("2001:db8:0:1::1") == caller_at("2001:db8:0:1:ffff::2") != caller_at("2001:db8:0:2::1")
    assert caller_at("192.0.2.1") != caller_at("192.0.2.2")
    assert caller_at("fe80::1%eth0") == "fe80::/64"
    assert caller_at("not:an:address") == "unknown"


def test_a_caller_is_told_how_it_stands_and_how_long_to_wait(check_problem: Callable[..., Any]) -> None:
    client = create_app(Settings(testing=True, rate_limit=Rate(2, 60))).test_client()
    first, second, third = (client.post(PATH, json=BODY) for _ in range(3))
    assert [answer.status_code for answer in (first, second, third)] == [200, 200, 429]
    check_problem(third, "too-many-requests")
    assert 29 <= int(third.headers["Retry-After"]) <= 30
    for answer, remaining in ((first, 1), (second, 0), (third, 0)):
        assert answer.headers["RateLimit-Policy"] == '"caller";q=2;w=60'
        assert answer.headers["RateLimit"].startswith(f'"caller";r={remaining};t=')
    for path in ("/livez", "/readyz", "/openapi.json", "/problems/too-many-requests"):
        answer = client.get(path)
        assert answer.status_code == 200
        assert "RateLimit" not in answer.headers


def test_each_key_has_its_own_quota_and_a_wrong_one_uses_the_address_up() -> None:
    words = ["a" * 40, "b" * 40]
    keys = tuple(Key(word[0], hashlib.sha256(word.encode()).digest()) for word in words)
    client = create_app(Settings(testing=True, rate_limit=Rate(1, 60), keys=keys)).test_client()

    def status(word: str) -> int:
        return client.post(PATH, json=BODY, headers={"Authorization": f"Bearer {word}"}).status_code

    assert [status(word) for word in (words[0], words[0], words[1], "x" * 40, "y" * 40)] == [200, 429, 200, 401, 429]


def test_a_limiter_lets_in_as_many_as_it_may() -> None:
    limiter = ConcurrencyLimiter(2)
    assert [limiter.enter(), limiter.enter(), limiter.enter()] == [True, True, False]
    limiter.leave()
    assert (limiter.enter(), limiter.enter()) == (True, False)


@pytest.fixture
def busy(monkeypatch: pytest.MonkeyPatch) -> tuple[Flask, threading.Event, threading.Event]:
    """An application of which one calculation may run at once, and takes until it is told."""
    began, go_on = threading.Event(), threading.Event()
    plain = drain_pitch.drain_pitch.pitch_drain

    def slow(**body: Any) -> Any:
        began.set()
        assert go_on.wait(20)
        return plain(**body)

    app = create_app(Settings(testing=True, concurrency_limit=1))
    monkeypatch.setattr(drain_pitch.drain_pitch, "pitch_drain", slow)
    return app, began, go_on


def test_beyond_the_limit_a_calculation_is_refused_at_once_and_the_rest_goes_on(
    busy: tuple[Flask, threading.Event, threading.Event], check_problem: Callable[..., Any]
) -> None:
    app, began, go_on = busy
    statuses = []
    thread = threading.Thread(target=lambda: statuses.append(app.test_client().post(PATH, json=BODY).status_code))
    thread.start()
    assert began.wait(20)
    client = app.test_client()
    try:
        refused = client.post("/v1/trap-check", json={})
        check_problem(refused, "overloaded")
        assert refused.headers["Retry-After"] == "1"
        assert client.get("/livez").status_code == client.get("/v1/reference/units").status_code == 200
    finally:
        go_on.set()
        thread.join()
    assert statuses == [200]
    for body, status in ((BODY, 200), ({}, 400), (BODY, 200)):  # whatever came of it, its place is free again
        assert client.post(PATH, json=body).status_code == status
