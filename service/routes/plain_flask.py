"""Flask without what this service has no use for, and would ask itself several times a request."""

from collections.abc import Callable
from typing import Any

from flask import Flask, Request
from flask.sessions import NullSession, SessionInterface

_NO_SESSION = NullSession()


class Sessionless(SessionInterface):
    """Nothing is kept of a caller, so that no cookie is read or written."""

    def open_session(self, app: Flask, request: Request) -> NullSession:
        """The session of every request."""
        return _NO_SESSION


class PlainFlask(Flask):
    """An application without sessions and coroutines."""

    session_interface = Sessionless()

    def ensure_sync(self, func: Callable[..., Any]) -> Callable[..., Any]:
        """A view or hook as it is: none is a coroutine."""
        return func
