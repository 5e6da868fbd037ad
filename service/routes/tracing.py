"""A span for each request, sent with OpenTelemetry where the optional extra ``telemetry`` is installed.

Only its stable interface is used. Where the spans go, and how many, say the variables of its own specification
(``OTEL_EXPORTER_OTLP_ENDPOINT``, ``OTEL_TRACES_SAMPLER``, ``OTEL_SERVICE_NAME``).

References
----------
.. [1] OpenTelemetry semantic conventions for HTTP spans (server).
"""

import time
from collections.abc import Callable
from typing import Any

from service.settings import SERVICE_VERSION, Settings, SettingsFault

SpanWriter = Callable[[dict[str, Any], dict[str, Any]], None]


def span_writer(settings: Settings) -> SpanWriter:
    """Make what writes the span of a request that has been answered.

    Parameters
    ----------
    settings : Settings
        Its revision is told as an attribute of the resource.

    Returns
    -------
    callable
        Takes the WSGI environment and the fields of the log line; fills in ``trace_id`` where the caller sent none.

    Raises
    ------
    SettingsFault
        Where the extra is not installed.
    """
    try:
        from opentelemetry.exporter.otlp.proto.http.trace_exporter import OTLPSpanExporter
        from opentelemetry.sdk.resources import Resource
        from opentelemetry.sdk.trace import TracerProvider
        from opentelemetry.sdk.trace.export import BatchSpanProcessor
        from opentelemetry.trace import SpanKind, Status, StatusCode
        from opentelemetry.trace.propagation.tracecontext import TraceContextTextMapPropagator
    except ImportError as missing:
        fault = f"TELEMETRY is on, but the extra is not installed ({missing.name}): pip install '.[telemetry]'."
        raise SettingsFault([fault]) from None

    named = {"service.name": "condensate-drainage", "service.version": SERVICE_VERSION}
    if settings.revision:
        named["vcs.ref.head.revision"] = settings.revision
    provider = TracerProvider(resource=Resource.create(named))  # OTEL_SERVICE_NAME goes before what is given here
    provider.add_span_processor(BatchSpanProcessor(OTLPSpanExporter()))  # its thread starts anew in a forked worker
    tracer = provider.get_tracer("service", SERVICE_VERSION)
    propagator = TraceContextTextMapPropagator()

    def write(environ: dict[str, Any], fields: dict[str, Any]) -> None:
        carrier = {
            name: environ[key]
            for name, key in (("traceparent", "HTTP_TRACEPARENT"), ("tracestate", "HTTP_TRACESTATE"))
            if key in environ
        }
        ended = time.time_ns()
        method, route = fields["method"], fields["route"]
        attributes = {
            "http.request.method": method,
            "http.response.status_code": fields["status"],
            "url.scheme": environ["wsgi.url_scheme"],
            **({"http.route": route} if route else {}),
            **({"service.request_id": fields["request_id"]} if fields["request_id"] else {}),
        }
        span = tracer.start_span(
            f"{method} {route}" if route else method,
            context=propagator.extract(carrier),
            kind=SpanKind.SERVER,
            attributes=attributes,
            start_time=ended - int(fields["duration_ms"] * 1e6),
        )
        fields["trace_id"] = format(span.get_span_context().trace_id, "032x")
        if fields["status"] >= 500:
            span.set_status(Status(StatusCode.ERROR))
        span.end(ended)

    return write
