"""One log line for each request, and the identifiers that find it again.

References
----------
.. [1] W3C Trace Context, 3.2 (traceparent).
"""

import logging
import os
import random
import re
import sys
import time
from collections.abc import Callable
from typing import Any
from urllib.parse import quote

from flask import Flask, Request, Response, request

from service.log_lines import RequestLog
from service.routes.document import CONTRACT_VERSION, OWN_REQUEST
from service.routes.keys import path_template
from service.routes.metrics import METHODS, OTHER_METHOD, UNKNOWN_ROUTE, Metrics
from service.settings import Settings

REQUEST_ID_FIELD = "X-Request-ID"

_REQUEST_ID = re.compile(r"[A-Za-z0-9._-]{1,128}")
_TRACE_PARENT = re.compile(r"(?!ff)([0-9a-f]{2})-((?!0{32})[0-9a-f]{32})-((?!0{16})[0-9a-f]{16})-[0-9a-f]{2}(-.*)?")

_faults = logging.getLogger("service.faults")


def trace_of(field: str) -> tuple[str, str] | None:
    """Trace and parent span that a traceparent field [1]_ names, or None where it is not one.

    Examples
    --------
    >>> trace_of("00-0af7651916cd43dd8448eb211c80319c-b7ad6b7169203331-01")
    ('0af7651916cd43dd8448eb211c80319c', 'b7ad6b7169203331')
    """
    found = _TRACE_PARENT.fullmatch(field)
    # version 00 ends after the flags; a later one may go on
    return None if found is None or (found[1] == "00" and found[4]) else (found[2], found[3])


def _new_request_id() -> str:
    """An identifier, no secret; every worker has a seed of its own. To ask the system would let other threads in."""
    return random.getrandbits(128).to_bytes(16).hex()


def install(app: Flask, settings: Settings, metrics: Metrics | None) -> None:
    """Watch every request; to be called before what else looks at answers, so that it sees them last.

    Parameters
    ----------
    app : flask.Flask
    settings : Settings
    metrics : Metrics or None
        What counts the requests.
    """
    log = RequestLog(settings.log_level, settings.log_format)
    trace: Callable[..., None] | None = None
    if settings.telemetry:
        from service.routes.tracing import span_writer  # an optional extra

        trace = span_writer(settings)

    def begin() -> None:
        received: Request = request._get_current_object()  # type: ignore[attr-defined]
        environ = received.environ
        if OWN_REQUEST in environ:
            return
        environ["service.began"] = time.perf_counter()
        if settings.request_ids:
            sent = environ.get("HTTP_X_REQUEST_ID")
            environ["service.request_id"] = sent if sent and _REQUEST_ID.fullmatch(sent) else _new_request_id()
        if metrics:
            metrics.enter()

    def finish(response: Response) -> Response:
        received: Request = request._get_current_object()  # type: ignore[attr-defined]
        environ = received.environ
        if OWN_REQUEST in environ:
            return response
        if settings.request_ids:
            response.headers.add(REQUEST_ID_FIELD, environ["service.request_id"])
        if response.is_streamed:  # what streams is at work until it is closed
            response.call_on_close(lambda: report(received, response))
        else:
            report(received, response)
        return response

    def report(received: Request, response: Response) -> None:
        status = response.status_code
        level = _level(status)
        wanted = log.wants(level)
        if not (metrics or trace or wanted):
            return
        seconds = time.perf_counter() - received.environ["service.began"]
        rule = received.url_rule
        route = path_template(rule.rule) if rule else UNKNOWN_ROUTE
        method = received.method if received.method in METHODS else OTHER_METHOD
        if metrics:
            metrics.leave(route, method, status, seconds)
        if trace or wanted:
            fields = _fields(received, method, route if rule else None, response, seconds)
            if trace:
                trace(received.environ, fields)
            if wanted:
                log.write(level, fields)

    app.before_request(begin)
    app.after_request(finish)
    app.log_exception = log_fault  # type: ignore[method-assign,assignment]


def _level(status: int) -> int:
    if status < 500:
        return logging.INFO
    return logging.ERROR if status == 500 else logging.WARNING


def _fields(received: Request, method: str, route: str | None, response: Response, seconds: float) -> dict[str, Any]:
    """What the line says; every text is of ours, or checked to be plain ASCII."""
    environ = received.environ
    parent = environ.get("HTTP_TRACEPARENT")
    trace = (parent and trace_of(parent)) or (None, None)
    fields = {
        "method": method,
        "route": route,
        "status": response.status_code,
        "duration_ms": round(seconds * 1000.0, 3),
        "bytes": 0 if method == "HEAD" or response.status_code in (204, 304) else response.content_length,
        "request_id": environ.get("service.request_id"),
        "trace_id": trace[0],
        "parent_id": trace[1],
        "key": environ.get("service.key"),
        "contract_version": CONTRACT_VERSION,
        "pid": os.getpid(),
    }
    if route is None:
        fields["path"] = quote(received.path[:200], safe="/")
    return fields


def log_fault(fault: Any) -> None:
    """Log an exception that becomes a 500, with what finds the request's own line."""
    rule = request.url_rule
    fields = {
        "route": path_template(rule.rule) if rule else None,
        "request_id": request.environ.get("service.request_id"),
    }
    _faults.error("A fault of the service", exc_info=fault if fault[0] else sys.exc_info(), extra={"fields": fields})
