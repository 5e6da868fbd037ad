"""Room in memory for large bodies: parsed, a body takes many times its size, and all threads may read one at once.

They wait for each other, which costs nobody anything: a worker computes one thing at a time.
"""

import gc
from threading import Condition

from flask import Flask, Request, current_app, request

from service.routes.problems import Problem

LARGE_BODY = 1024 * 1024
"""Bodies up to this many bytes need no room made for them."""

BODY_ROOM = 16 * 1024 * 1024
"""Bytes of large bodies that a worker has in hand at once; one that is larger is there alone."""

PATIENCE = 60.0
"""Longest wait for room [s]."""


class Room:
    """So many bytes, of which each takes what it needs and waits until that much is free.

    Parameters
    ----------
    size : int
    """

    def __init__(self, size: int) -> None:
        self._free = size
        self._changed = Condition()

    def enter(self, size: int, patience: float) -> bool:
        """Take so many bytes; False where they did not become free in time [s]."""
        with self._changed:
            entered = self._changed.wait_for(lambda: self._free >= size, patience)
            if entered:
                self._free -= size
            return entered

    def leave(self, size: int) -> None:
        """Give them back."""
        with self._changed:
            self._free += size
            self._changed.notify_all()


def install(app: Flask) -> None:
    """Give back, when a request is over, what it took.

    Parameters
    ----------
    app : flask.Flask
        Keeps its `Room` in ``extensions["room"]``.
    """
    room = app.extensions["room"] = Room(BODY_ROOM)

    @app.teardown_request
    def _leave(_error: BaseException | None) -> None:
        received: Request = request._get_current_object()  # type: ignore[attr-defined]
        if size := received.environ.pop("service.room", 0):
            gc.collect()  # a refusal is held by its own traceback, and the body with it
            room.leave(size)


def make_room(size: int) -> None:
    """Wait until a body of so many bytes may be parsed within this request.

    Parameters
    ----------
    size : int

    Raises
    ------
    Problem
        503 where there is no room in time.
    """
    size = min(size, BODY_ROOM)
    if not current_app.extensions["room"].enter(size, PATIENCE):
        raise Problem(
            "overloaded",
            detail="This worker has as many large bodies in hand as it may at once.",
            headers={"Retry-After": "5"},
        )
    request.environ["service.room"] = size
