"""Settings of the HTTP server: ``gunicorn -c deploy/gunicorn.conf.py 'service.app:create_app()'``.

What a deployment sets in the environment stands in README.md; ``python -m service.settings`` checks it.
The middle is about keys, counts, log lines and stopping; the end puts right what gunicorn leaves to a proxy: its own
errors as HTML, its name in a header field, requests without Host. `deploy.patient_worker` holds the worker.
"""

import contextlib
import ctypes
import functools
import gc
import ipaddress
import json
import os
import socket
import struct
import sys
import time
from pathlib import Path
from typing import Any

from gunicorn import glogging, util
from gunicorn.http import wsgi
from gunicorn.http.errors import InvalidHeader

sys.path.insert(0, str(Path(__file__).resolve().parent.parent))

from deploy.client_sockets import PromptBody
from deploy.patient_worker import PatientWorker
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
max_requests = 1_000_000  # a slow leak, in whatever library, never grows old
max_requests_jitter = 100_000

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


# beside a long calculation a short request waits for its thread to give way four times: for a millisecond, not five
sys.setswitchinterval(0.001)

worker_class = PatientWorker
PatientWorker.answers_at_once = not SETTINGS.concurrency_limit


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
    if request.in_lines:
        request.unreader.sock.count_only_waiting()
        request.body = PromptBody(request.body.reader)


@functools.lru_cache(maxsize=1)
def _date(second: int) -> str:
    return _date_of(second)


def _date_now(timestamp: float | None = None) -> str:
    return _date(int(time.time() if timestamp is None else timestamp))


def _headers_without_server(response: Any) -> list[str]:
    return [line for line in _default_headers(response) if not line.startswith("Server:")]


_default_headers = getattr(wsgi.Response.default_headers, "plain", wsgi.Response.default_headers)
_headers_without_server.plain = _default_headers  # type: ignore[attr-defined]
_date_of = getattr(util.http_date, "plain", util.http_date)
_date_now.plain = _date_of  # type: ignore[attr-defined]
util.http_date = _date_now  # made once a second
wsgi.Response.default_headers = _headers_without_server
util.write_error = write_problem
