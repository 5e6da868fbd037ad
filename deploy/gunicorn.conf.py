"""Settings of the HTTP server: ``gunicorn -c deploy/gunicorn.conf.py 'service.app:create_app()'``.

What a deployment sets in the environment stands in README.md; ``python -m service.settings`` checks it.
The middle is about keys, counts, log lines and stopping. The lower half puts right, for every answer, what gunicorn
leaves to a proxy: reads that never end, its own errors as HTML, its name in a header field, requests without Host.
"""

import contextlib
import ctypes
import gc
import io
import ipaddress
import json
import os
import resource
import selectors
import socket
import struct
import sys
import time
from collections.abc import Iterable
from functools import partial
from itertools import islice
from pathlib import Path
from typing import Any

from gunicorn import glogging, util
from gunicorn.http import wsgi
from gunicorn.http.body import Body, LengthReader
from gunicorn.http.errors import InvalidHeader, NoMoreData
from gunicorn.workers import gthread

sys.path.insert(0, str(Path(__file__).resolve().parent.parent))

from service.log_lines import set_up_logging
from service.settings import (
    GRACE_SECONDS,
    SettingsFault,
    read_settings,
    settings_of_process,
)

try:
    SETTINGS = settings_of_process()
except SettingsFault as fault:
    sys.exit(str(fault))

# one thread for linear algebra in each worker: the arrays here are small, and the workers share the cores
os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")

bind = SETTINGS.bind
workers = SETTINGS.workers
threads = SETTINGS.threads
preload_app = True  # built once, shared by the workers; a fault in it ends the start instead of looping

timeout = 30
graceful_timeout = GRACE_SECONDS - SETTINGS.drain_seconds
keepalive = 5
max_requests = 100_000  # a slow leak, in whatever library, never grows old
max_requests_jitter = 10_000

limit_request_line = 4094
limit_request_fields = 50
limit_request_field_size = 8190
forwarded_allow_ips = SETTINGS.forwarded_allow_ips

# nothing is written to disk: the heartbeat file lies in memory, and there is no control socket in a home folder
worker_tmp_dir = "/dev/shm" if os.access("/dev/shm", os.W_OK) else None  # noqa: S108 - gunicorn makes the name
control_socket_disable = True
accesslog = None  # the application writes a line for each request, with what a server does not know
loglevel = SETTINGS.log_level


class logger_class(glogging.Logger):  # noqa: N801 - gunicorn's name for the setting
    """What the server itself has to say, in the same form as the lines of the requests."""

    def setup(self, cfg: Any) -> None:
        """Called at the start and at every reload."""
        super().setup(cfg)
        self.error_log.handlers = [set_up_logging(cfg.loglevel, SETTINGS.log_format)]


def is_loopback(address: Any) -> bool:
    """Whether nobody beyond this machine can reach an address: host and port, or the path of a socket."""
    if isinstance(address, (str, bytes)):
        return True
    if not isinstance(address, tuple):  # a descriptor that somebody else opened
        return False
    try:
        return ipaddress.ip_address(address[0]).is_loopback
    except ValueError:
        return address[0] == "localhost"


def refuse_open(server: Any, addresses: list[Any]) -> None:
    """End the start where the service would be open to a network by oversight."""
    beyond = [str(address) for address in addresses if not is_loopback(address)]
    if beyond and not SETTINGS.keys and not SETTINGS.allow_open:
        server.log.error(
            "Refused to listen on %s without keys: set API_KEYS or API_KEYS_FILE, or ALLOW_OPEN=on where something in "
            "front of the service decides who may ask (README.md, Keys).",
            " and ".join(beyond),
        )
        sys.exit(1)


def when_ready(server: Any) -> None:
    """Before the first worker: look at the sockets themselves, which somebody else may have opened (systemd)."""
    refuse_open(server, [listener.getsockname() for listener in server.LISTENERS])
    # what is there by now stays: the workers need not look through it for garbage, nor take it apart when they end
    gc.collect()
    gc.freeze()


HANDSHAKE_SECONDS = 0.2
"""Long enough for a connection that was being opened to be open, and to wait with the others for a worker."""

SYN_ONLY = ((0x30, 0, 0, 13), (0x54, 0, 0, 0x12), (0x15, 0, 1, 0x02), (0x06, 0, 0, 0), (0x06, 0, 0, 0xFFFFFFFF))
"""A packet filter of Linux (socket(7), SO_ATTACH_FILTER): of TCP's flags look at SYN and ACK; drop SYN without ACK."""


def take_no_more(listener: socket.socket) -> None:
    """Let nobody new connect, for the system resets who comes between the last look at the queue and its closing.

    Who is left out asks again a second later, when the port is closed and refuses: nothing of theirs was accepted.
    """
    if sys.platform != "linux" or listener.family not in (socket.AF_INET, socket.AF_INET6):
        return
    program = ctypes.create_string_buffer(b"".join(struct.pack("HBBI", *row) for row in SYN_ONLY))
    attached = struct.pack("HP", len(SYN_ONLY), ctypes.addressof(program))
    with contextlib.suppress(OSError):  # a sandbox without packet filters: the race stays as short as it is
        listener.setsockopt(socket.SOL_SOCKET, 26, attached)  # SO_ATTACH_FILTER, which Python does not name


def on_starting(server: Any) -> None:
    """Refuse to be open by oversight; see to it that the end is announced."""
    refuse_open(server, [util.parse_address(address) for address in server.cfg.bind])
    stop = server.handle_term

    def drain() -> None:
        server.app.wsgi().extensions["stopping"].begin()
        until = time.monotonic() + SETTINGS.drain_seconds
        while time.monotonic() < until:
            time.sleep(0.1)
            server.reap_workers()
            server.manage_workers()
        for listener in server.LISTENERS:
            take_no_more(listener.sock)
        time.sleep(HANDSHAKE_SECONDS)
        stop()

    server.handle_term = drain


def on_reload(server: Any) -> None:
    """SIGHUP: take the keys of the file as it is now; keep those there are where it has a fault."""
    try:
        keys = read_settings().keys
    except SettingsFault as fault:
        server.log.error("The keys stay as they are. %s", fault)
        return
    server.app.wsgi().extensions["keys"].replace(keys)
    server.log.info("Read %d keys", len(keys))


def pre_fork(server: Any, worker: Any) -> None:
    """Give the worker a place of its own among the counts."""
    taken = {other.slot for other in server.WORKERS.values()}
    worker.slot = next(slot for slot in range(len(taken) + 1) if slot not in taken)


def post_fork(server: Any, worker: Any) -> None:
    """Count there."""
    if metrics := server.app.wsgi().extensions["metrics"]:
        metrics.take_slot(worker.slot)


def child_exit(server: Any, worker: Any) -> None:
    """What a killed worker was doing is no longer being done."""
    if metrics := server.app.wsgi().extensions["metrics"]:
        metrics.clear_active(worker.slot)


IDLE_SECONDS = 5.0
"""Longest silence within a request."""

REQUEST_SECONDS = 30.0
"""Longest time a whole request may take to arrive."""

WRITE_SECONDS = 60.0
"""Longest time an answer, or a row of one in lines, may take to leave."""

LINES_TYPE = "application/x-ndjson"
"""A body of this type is answered while it arrives: it is worked on between two reads, which is nobody's delay."""

LINES_IDLE_SECONDS = 15.0
"""Longest silence within such a body while it is waited for."""

LINES_WAIT_SECONDS = 300.0
"""Longest time such a body may be waited for, all waiting together."""


class TimedSocket:
    """A client's socket whose reads end, so that half-sent requests cannot hold every thread."""

    def __init__(self, plain: socket.socket) -> None:
        self._plain = plain
        self._idle = IDLE_SECONDS
        self._deadline = time.monotonic() + REQUEST_SECONDS
        self._worked_since: float | None = None
        self.gave_up = False

    def count_only_waiting(self) -> None:
        """Of what is still to come, count the time in which it is waited for, not that between two reads."""
        self._idle = LINES_IDLE_SECONDS
        self._worked_since = time.monotonic()
        self._deadline = self._worked_since + LINES_WAIT_SECONDS

    def recv(self, size: int) -> bytes:
        """Read; silence or a request that dribbles in for too long counts as the client gone."""
        if self._worked_since is not None:
            self._deadline += time.monotonic() - self._worked_since
        left = min(self._idle, self._deadline - time.monotonic())
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
            if self._worked_since is not None:
                self._worked_since = time.monotonic()

    def __getattr__(self, name: str) -> Any:
        return getattr(self._plain, name)


class PromptBody(Body):
    """A body that can also be read as it arrives: gunicorn's waits for a kilobyte, or for all that is asked for."""

    def read1(self, size: int) -> bytes:
        """Read at most ``size`` bytes, waiting only where there is none; none at the end."""
        if not self.buf.tell():
            try:
                self.buf.write(self._arrived())
            except Exception:
                self.failed = True
                raise
        held = self.buf.getvalue()
        self.buf = io.BytesIO()
        self.buf.write(held[size:])
        return held[:size]

    def _arrived(self) -> bytes:
        if not isinstance(self.reader, LengthReader):
            piece: bytes = next(self.reader.parser, b"") if self.reader.parser else b""
            return piece
        source, length = self.reader.unreader, self.reader.length
        if not length:
            return b""
        received: bytes = source.read(None, read_ahead=length)
        if received[length:]:
            source.unread(received[length:])  # of the next request
        self.reader.length -= len(received[:length])
        return received[:length]


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


ACCEPT_PAUSE = 0.5
"""How long no connection is accepted after the system had nothing left for one [s]; asking at once would spin."""

SPARE_DESCRIPTORS = 40
"""Files and pipes a worker has open besides its connections, and some to spare for what it opens later."""


def is_lines(request: Any) -> bool:
    """Whether the body of a request is answered while it arrives."""
    return any(name == "CONTENT-TYPE" and value.lower().startswith(LINES_TYPE) for name, value in request.headers)


class PatientWorker(gthread.ThreadWorker):
    """A worker in which only requests take a thread, and that answers, when it ends, all that was accepted for it.

    A connection waits for its first byte among those kept alive: gunicorn lets it hold a thread for five seconds.
    Without a descriptor for another connection the worker waits for one: gunicorn's would die with all it is doing. And
    a long answer in lines outlives a reload of the settings, and the worker's replacement after ``max_requests``.
    """

    def __init__(self, *arguments: Any, **options: Any) -> None:
        self._streams: set[Any] = set()
        self._paused_until = 0.0
        super().__init__(*arguments, **options)

    @property
    def max_requests(self) -> int:
        """Requests after which the worker is replaced: not while it answers in lines."""
        return sys.maxsize if self._streams else self._max_requests

    @max_requests.setter
    def max_requests(self, most: int) -> None:
        self._max_requests = most

    @property
    def worker_connections(self) -> int:
        """Connections there may be: no more for a moment after the system had no descriptor for one."""
        if time.monotonic() < self._paused_until:
            return 0
        descriptors = resource.getrlimit(resource.RLIMIT_NOFILE)[0]
        return max(1, min(self._worker_connections, descriptors - SPARE_DESCRIPTORS))

    @worker_connections.setter
    def worker_connections(self, most: int) -> None:
        self._worker_connections = most

    def accept(self, listener: Any) -> None:
        """Accept a connection, or pause where there is no descriptor for one."""
        try:
            super().accept(listener)
        except OSError as fault:
            self.log.warning("No connection can be accepted for a moment: %s", fault.strerror)
            self._paused_until = time.monotonic() + ACCEPT_PAUSE
            self._give_up(self.pending_conns)

    def enqueue_req(self, conn: Any) -> None:
        """Give a connection to a thread once its first byte is there."""
        if conn.initialized or conn.data_ready:
            super().enqueue_req(conn)
            return
        if len(self.pending_conns) >= max(1, self.worker_connections // 2):
            self._give_up(islice(self.pending_conns, 1))
        conn.set_timeout()
        self.pending_conns.append(conn)
        self.poller.register(conn.sock, selectors.EVENT_READ, partial(self.on_pending_socket_readable, conn))

    def _give_up(self, silent: Iterable[Any]) -> None:
        """Close connections on which nothing was ever sent, the oldest first, for others that may have something."""
        for conn in silent:
            conn.timeout = 0.0
        self.murder_pending()

    def handle_request(self, req: Any, conn: Any) -> Any:
        """Answer a request; remember meanwhile whether it is one in lines."""
        if not is_lines(req):
            return super().handle_request(req, conn)
        self._streams.add(conn)
        try:
            return super().handle_request(req, conn)
        finally:
            self._streams.discard(conn)

    def set_accept_enabled(self, enabled: bool) -> None:
        """Called with False when the worker stops: gunicorn's would leave who waits in the queue to be reset."""
        stopping = self._accepting and not enabled and not self.alive
        for listener in self.sockets if stopping else ():
            waiting = True
            while waiting:
                before = self.nr_conns
                self.accept(listener)
                waiting = self.nr_conns > before
        super().set_accept_enabled(enabled)
        if stopping:
            for listener in self.sockets:
                listener.close()
            self._let_lines_end()

    def _let_lines_end(self) -> None:
        """Go on with answers in lines, though the time to stop in has not begun, unless the whole service stops."""
        while self._streams and not self.wsgi.extensions["stopping"] and self.is_parent_alive():
            self.notify()
            self.wait_for_and_dispatch_events(1.0)
            self.murder_keepalived()
            self.murder_pending()


worker_class = PatientWorker


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
    """Refuse what RFC 9112 3.2 tells a server to refuse, HTTP/1.1 without exactly one Host; read lines promptly."""
    if request.version == (1, 1) and sum(name == "HOST" for name, _ in request.headers) != 1:
        raise InvalidHeader("Host", request)
    if is_lines(request):
        request.unreader.sock.count_only_waiting()
        request.body = PromptBody(request.body.reader)


def _headers_without_server(response: Any) -> list[str]:
    return [line for line in _default_headers(response) if not line.startswith("Server:")]


_default_headers = getattr(wsgi.Response.default_headers, "plain", wsgi.Response.default_headers)
_headers_without_server.plain = _default_headers  # type: ignore[attr-defined]
wsgi.Response.default_headers = _headers_without_server
util.write_error = write_problem
gthread.TConn = TimedConnection
