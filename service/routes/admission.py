"""What a request must pass before its view: a key, then the limits.

Nothing is installed where neither keys nor limits are set.
"""

from flask import Flask, Response, request

from service.routes.document import OWN_REQUEST
from service.routes.keys import KeyRing, key_required, key_shown, open_endpoints
from service.routes.limiting import ConcurrencyLimiter, RateLimiter, Standing, caller_at
from service.routes.problems import Problem
from service.settings import Settings


def install(app: Flask, settings: Settings) -> None:
    """Ask every request for what the settings say; to be called when all routes are there.

    Parameters
    ----------
    app : flask.Flask
        Keeps its `KeyRing` in ``extensions["keys"]``.
    settings : Settings
    """
    ring = app.extensions["keys"] = KeyRing(settings.keys)
    limiter = RateLimiter(settings.rate_limit) if settings.rate_limit else None
    gate = ConcurrencyLimiter(settings.concurrency_limit) if settings.concurrency_limit else None
    needs_none = open_endpoints(app)

    def admit() -> None:
        environ = request.environ
        if request.endpoint in needs_none or OWN_REQUEST in environ:
            return
        shown = key_shown(environ.get("HTTP_AUTHORIZATION", "")) if ring else None
        name = ring.name_of(shown) if shown is not None else None
        if name is not None:
            environ["service.key"] = name
        if limiter:
            # a slash before an address stands in no name
            standing = limiter.take(name or f"/{caller_at(request.remote_addr or '')}")
            environ["service.standing"] = standing
            if not standing.allowed:
                raise _too_many(standing)
        if ring and name is None:
            raise key_required(shown)
        if gate and request.url_rule is not None and environ["REQUEST_METHOD"] == "POST":
            if not gate.enter():
                raise Problem(
                    "overloaded",
                    detail="This worker calculates as much as it may at once.",
                    headers={"Retry-After": "1"},
                )
            environ["service.entered"] = True

    def release(response: Response) -> Response:
        environ = request.environ
        if gate and environ.pop("service.entered", False):
            if response.is_streamed:  # it calculates until it is closed
                response.call_on_close(gate.leave)
            else:
                gate.leave()
        if limiter and (standing := environ.get("service.standing")):
            response.headers.extend(limiter.fields(standing))
        return response

    if ring or limiter or gate:
        app.before_request(admit)
        app.after_request(release)


def _too_many(standing: Standing) -> Problem:
    wait = standing.retry_in
    return Problem(
        "too-many-requests",
        detail=f"The quota is used up; the next request is within it in {wait} s.",
        headers={"Retry-After": str(wait)},
    )
