"""The worker that serves: gunicorn's with threads, put right where clients and systems behave badly.

Reads end, silent connections hold no thread, a lack of descriptors ends nothing, answers in lines outlive reloads.
"""

import resource
import selectors
import socket
import sys
import time
from collections import deque
from collections.abc import Iterable
from functools import partial
from itertools import islice
from typing import Any

from gunicorn.workers import gthread

from deploy.client_sockets import (
    AT_ONCE_BYTES,
    BODY_SECONDS,
    LINES_TYPE,
    HeldSocket,
    TimedSocket,
    bytes_missing,
    send_rest,
)


class TimedConnection(gthread.TConn):  # type: ignore[misc] # gunicorn has no types
    """A connection that reads each of its requests through a fresh `TimedSocket`."""

    drained = 0

    def init(self) -> None:
        """Called by the worker before every request."""
        super().init()
        self.parser.unreader.sock = self.sock if isinstance(self.sock, HeldSocket) else TimedSocket(self.sock)

    @property
    def gave_up(self) -> bool:
        """Whether the client was given up while its request was read; then it is not lingered for either."""
        return self.parser is not None and getattr(self.parser.unreader.sock, "gave_up", False)


gthread.TConn = TimedConnection  # which the worker makes of what it accepts


class Settings:
    """gunicorn's settings as plain attributes: it asks for dozens of them a request, each through two functions."""

    def __init__(self, settings: Any) -> None:
        self._settings = settings
        for name, setting in settings.settings.items():
            if not hasattr(type(settings), name):
                setattr(self, name, setting.get())
        self.is_ssl = settings.is_ssl

    def __getattr__(self, name: str) -> Any:
        return getattr(self._settings, name)


CLOSING_SECONDS = 2.0
"""How long a client may take to close a connection that its last answer ended."""

MOST_DRAINED = 64 * 1024
"""Most bytes read past meanwhile."""

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
    What is short and there as a whole needs no thread: the one that watches the connections answers it.
    """

    answers_at_once = True
    """Off where only so many calculations at once are allowed, for then those that wait have to be seen."""

    def __init__(self, *arguments: Any, **options: Any) -> None:
        self._streams: set[Any] = set()
        self._answered = 0
        self._paused_until = 0.0
        self._descriptors = resource.getrlimit(resource.RLIMIT_NOFILE)[0]
        super().__init__(*arguments, **options)
        self.cfg = Settings(self.cfg)

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
        return max(1, min(self._worker_connections, self._descriptors - SPARE_DESCRIPTORS))

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

    def on_pending_socket_readable(self, conn: Any, client: Any) -> None:
        """Called when the first byte of a connection is there."""
        if client.fileno() >= 0 and not self._answer_at_once(conn, self.pending_conns):
            super().on_pending_socket_readable(conn, client)

    def on_client_socket_readable(self, conn: Any, client: Any) -> None:
        """Called when the first byte of another request of a connection is there."""
        if client.fileno() >= 0 and not self._answer_at_once(conn, self.keepalived_conns):
            super().on_client_socket_readable(conn, client)

    def _answer_at_once(self, conn: Any, waiting: deque[Any]) -> bool:
        """Answer what has wholly arrived on one of the waiting connections; False where it is left to a thread."""
        if self.cfg.is_ssl or not self.answers_at_once:
            return False
        plain = conn.sock
        try:
            data = plain.recv(AT_ONCE_BYTES)
            missing = bytes_missing(data)
            if missing:
                rest = self._moment_later(plain, missing)
                data, missing = data + rest, missing - len(rest)
        except OSError:  # nothing there after all, or a connection that was reset
            return False
        if not data:
            self._forget(conn, waiting)
            return True
        conn.sock = held = HeldSocket(plain)
        conn.init()
        conn.parser.unreader.unread(data)
        whole = missing == 0
        keep = whole and self.handle(conn)
        conn.sock = plain
        if whole:
            self._send(conn, waiting, b"".join(held.held), keep)
            self._answered += 1
            if self._answered % 2 and self._accepting and self.nr_conns < self.worker_connections:
                # one at each turn would leave who came in a crowd waiting for many
                for listener in self.sockets:
                    self.accept(listener)
        return whole

    def _moment_later(self, plain: socket.socket, size: int) -> bytes:
        """So many bytes, as far as they are there within a moment."""
        plain.settimeout(BODY_SECONDS)
        try:
            return plain.recv(size)
        except TimeoutError:
            return b""
        finally:
            plain.setblocking(False)

    def _send(self, conn: Any, waiting: deque[Any], answer: bytes, keep: bool) -> None:
        """Send an answer; what the client does not take at once is left to a thread, and so is closing."""
        try:
            sent = conn.sock.send(answer)
        except BlockingIOError:
            sent = 0
        except OSError:  # gone
            sent, keep = len(answer), False
        waiting.remove(conn)
        if keep and sent == len(answer):
            conn.set_timeout()
            self.keepalived_conns.append(conn)
            if waiting is not self.keepalived_conns:
                self.poller.modify(conn.sock, selectors.EVENT_READ, partial(self.on_client_socket_readable, conn))
            return
        self.poller.unregister(conn.sock)
        if sent == len(answer):
            self._linger(conn)
            return
        ended = self.tpool.submit(send_rest, conn.sock, answer[sent:], keep)
        ended.add_done_callback(lambda future: self.method_queue.defer(self.finish_request, conn, future))

    def finish_request(self, conn: Any, fs: Any) -> None:
        """Called when a thread is done with a connection."""
        if fs.cancelled() or fs.exception() or fs.result() or conn.gave_up:
            super().finish_request(conn, fs)
        else:
            self._linger(conn)

    def _linger(self, conn: Any) -> None:
        """Close a connection that has ended once the client has: sooner might cost it the end of its answer."""
        try:
            conn.sock.setblocking(False)
            conn.sock.shutdown(socket.SHUT_WR)
        except OSError:  # gone, or closed after a fault
            self.nr_conns -= 1
            conn.close()
            return
        conn.timeout = time.monotonic() + CLOSING_SECONDS
        self.pending_conns.append(conn)
        self.poller.register(conn.sock, selectors.EVENT_READ, partial(self._drain, conn))

    def _drain(self, conn: Any, client: Any) -> None:
        """Read past what a client still sends on a connection that has ended."""
        if client.fileno() < 0:
            return
        try:
            data = client.recv(AT_ONCE_BYTES)
        except BlockingIOError:
            return
        except OSError:
            data = b""
        conn.drained += len(data)
        if not data or conn.drained > MOST_DRAINED:
            self._forget(conn, self.pending_conns)

    def _forget(self, conn: Any, waiting: deque[Any]) -> None:
        """Close one of the waiting connections."""
        waiting.remove(conn)
        self.poller.unregister(conn.sock)
        self.nr_conns -= 1
        conn.close()

    def _give_up(self, silent: Iterable[Any]) -> None:
        """Close connections on which nothing was ever sent, the oldest first, for others that may have something."""
        for conn in silent:
            conn.timeout = 0.0
        self.murder_pending()

    def handle_request(self, req: Any, conn: Any) -> Any:
        """Answer a request; remember meanwhile whether it is one in lines."""
        req.in_lines = is_lines(req)
        if not req.in_lines:
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
