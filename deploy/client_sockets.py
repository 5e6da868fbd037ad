"""What a worker reads requests from and writes answers to; and which requests are there as a whole."""

import io
import re
import socket
import time
from typing import Any

from gunicorn.http.body import Body, LengthReader
from gunicorn.http.errors import NoMoreData

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


class HeldSocket:
    """Stands for a client's socket while a request that has wholly arrived is answered: it keeps what is sent."""

    def __init__(self, plain: socket.socket) -> None:
        self._plain = plain
        self.held: list[bytes] = []
        self.sendall = self.held.append

    def setblocking(self, flag: bool) -> None:
        """Nothing is waited for here."""

    settimeout = setblocking

    def gettimeout(self) -> float:
        """Nothing is waited for here."""
        return 0.0

    def recv(self, size: int) -> bytes:
        """All there is was read before."""
        raise NoMoreData

    def send(self, data: bytes) -> int:
        """Keep it."""
        self.held.append(data)
        return len(data)

    def __getattr__(self, name: str) -> Any:
        return getattr(self._plain, name)


AT_ONCE_BYTES = 16 * 1024
"""A request up to this size that is there as a whole is answered by the thread that read it: to hand it to another, and
back, would cost more than most answers do."""

BODY_SECONDS = 0.001
"""How long its body is waited for where only the head is there: many clients send it a moment later."""

_LENGTH = re.compile(rb"\r\ncontent-length:[ \t]*(\d{1,5})[ \t]*\r\n")
_FOR_A_THREAD = (b"transfer-encoding", b"application/pdf", b"text/html", b"image/", LINES_TYPE.encode())


def bytes_missing(data: bytes) -> int | None:
    """How many bytes a request still lacks; None where it is for a thread, for what it is or for what it asks.

    Examples
    --------
    >>> bytes_missing(b"POST / HTTP/1.1\\r\\nHost: a\\r\\nContent-Length: 4\\r\\n\\r\\n{}")
    2
    """
    end = data.find(b"\r\n\r\n") + 4
    if end < 4:
        return None
    head = data[:end].lower()
    lengths = _LENGTH.findall(head)
    if len(lengths) != head.count(b"content-length") or len(lengths) > 1 or any(word in head for word in _FOR_A_THREAD):
        return None
    whole = end + int(lengths[0] if lengths else 0)
    return whole - len(data) if len(data) <= whole <= AT_ONCE_BYTES else None


def send_rest(sock: socket.socket, rest: bytes, keep: bool) -> bool:
    """Send what a slow reader has not taken yet; whether the connection is kept."""
    sock.settimeout(WRITE_SECONDS)
    sock.sendall(rest)
    return keep
