"""Settings of the HTTP server: ``gunicorn -c deploy/gunicorn.conf.py 'service.app:create_app()'``.

A deployment sets, in the environment: BIND, WEB_CONCURRENCY, THREADS, LOG_LEVEL, FORWARDED_ALLOW_IPS.
The lower half puts right, for every answer, what gunicorn leaves to a proxy: reads that never end, its own
errors as HTML, its name in a header field, requests without Host.
"""

import json
import os
import socket
import time
from typing import Any

from gunicorn import util
from gunicorn.http import wsgi
from gunicorn.http.errors import InvalidHeader, NoMoreData
from gunicorn.workers import gthread

# one thread for linear algebra in each worker: the arrays here are small, and the workers share the cores
os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")

bind = os.environ.get("BIND", "127.0.0.1:8080")
worker_class = "gthread"
# a machine with many cores is shared more often than not: more than eight is asked for by name
workers = int(os.environ.get("WEB_CONCURRENCY", min(8, len(os.sched_getaffinity(0)))))
threads = int(os.environ.get("THREADS", "4"))
preload_app = True  # built once, shared by the workers; a fault in it ends the start instead of looping

timeout = 30
graceful_timeout = 25  # below the 30 seconds an orchestrator waits before it kills
keepalive = 5
max_requests = 100_000  # a slow leak, in whatever library, never grows old
max_requests_jitter = 10_000

limit_request_line = 4094
limit_request_fields = 50
limit_request_field_size = 8190
forwarded_allow_ips = os.environ.get("FORWARDED_ALLOW_IPS", "127.0.0.1,::1")

# nothing is written to disk: the heartbeat file lies in memory, and there is no control socket in a home folder
worker_tmp_dir = "/dev/shm" if os.access("/dev/shm", os.W_OK) else None  # noqa: S108 - gunicorn makes the name
control_socket_disable = True
accesslog = None
loglevel = os.environ.get("LOG_LEVEL", "info")

IDLE_SECONDS = 5.0
"""Longest silence within a request."""

REQUEST_SECONDS = 30.0
"""Longest time a whole request may take to arrive."""

WRITE_SECONDS = 60.0
"""Longest time an answer may take to leave."""


class TimedSocket:
    """A client's socket whose reads end, so that half-sent requests cannot hold every thread."""

    def __init__(self, plain: socket.socket) -> None:
        self._plain = plain
        self._deadline = time.monotonic() + REQUEST_SECONDS
        self.gave_up = False

    def recv(self, size: int) -> bytes:
        """Read; silence or a request that dribbles in for too long counts as the client gone."""
        left = min(IDLE_SECONDS, self._deadline - time.monotonic())
        if left <= 0.0:
            self.gave_up = True
            raise NoMoreData
        self._plain.settimeout(left)
        try:
            return self._plain.recv(size)
        except TimeoutError:
            self.gave_up = True
            self._deadline = 0.0  # what is left of this request is not waited for either
            raise NoMoreData from None
        finally:
            self._plain.settimeout(WRITE_SECONDS)

    def __getattr__(self, name: str) -> Any:
        return getattr(self._plain, name)


class TimedConnection(gthread.TConn.__mro__[-2]):  # type: ignore[misc] # gunicorn's own, also when this file is read again
    """A connection that reads each of its requests through a fresh `TimedSocket`."""

    def init(self) -> None:
        """Called by the worker before every request."""
        super().init()
        self.parser.unreader.sock = TimedSocket(self.sock)

    def close(self, graceful: bool = False) -> None:
        """Close; a client that was given up is not lingered for, which would hold the whole worker."""
        gave_up = self.parser is not None and getattr(self.parser.unreader.sock, "gave_up", False)
        super().close(graceful and not gave_up)


def write_problem(sock: socket.socket, status: int, reason: str, message: str) -> None:
    """Answer what never reached the application (a bad request line, too many header fields) as RFC 9457 asks."""
    from service.tables.problems import PROBLEMS  # the service is importable only once the server has started

    rows = {row.status: row for row in reversed(tuple(PROBLEMS.values()))}
    row = PROBLEMS["bad-request"] if status == 400 else rows.get(status)
    document = {
        "type": f"/problems/{row.slug}" if row else "about:blank",
        "title": row.title if row else reason,
        "status": status,
        "detail": f"The HTTP request could not be read: {message[:200] or reason}",
        "instance": "",  # what was asked for was not understood
        "errors": [],
    }
    body = json.dumps(document).encode()
    head = (
        f"HTTP/1.1 {status} {reason}\r\nConnection: close\r\nContent-Type: application/problem+json\r\n"
        f"X-Content-Type-Options: nosniff\r\nCache-Control: no-store\r\nContent-Length: {len(body)}\r\n\r\n"
    )
    util.write_nonblock(sock, head.encode("latin-1") + body)


def pre_request(worker: Any, request: Any) -> None:
    """Refuse what RFC 9112 3.2 tells a server to refuse: HTTP/1.1 without exactly one Host field."""
    if request.version == (1, 1) and sum(name == "HOST" for name, _ in request.headers) != 1:
        raise InvalidHeader("Host", request)


def _headers_without_server(response: Any) -> list[str]:
    return [line for line in _default_headers(response) if not line.startswith("Server:")]


_default_headers = getattr(wsgi.Response.default_headers, "plain", wsgi.Response.default_headers)
_headers_without_server.plain = _default_headers  # type: ignore[attr-defined]
wsgi.Response.default_headers = _headers_without_server
util.write_error = write_problem
gthread.TConn = TimedConnection
