"""What a request must pass before its view: a key, then the limits.

Nothing is installed where neither keys nor limits are set.
"""

from flask import Flask, Response, g, request

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
        if request.endpoint in needs_none or OWN_REQUEST in request.environ:
            return
        shown = key_shown(request.headers.get("Authorization", "")) if ring else None
        name = ring.name_of(shown) if shown is not None else None
        if name is not None:
            request.environ["service.key"] = name
        if limiter:
            # the characters of a name and of an address are never the same: a slash stands in neither
            standing = limiter.take(f"key/{name}" if name else caller_at(request.remote_addr or ""))
            g.standing = standing
            if not standing.allowed:
                raise _too_many(standing)
        if ring and name is None:
            raise key_required(shown)
        if gate and request.method == "POST":
            if not gate.enter():
                raise Problem(
                    "overloaded",
                    detail="This worker calculates as much as it may at once.",
                    headers={"Retry-After": "1"},
                )
            g.entered = True

    def release(response: Response) -> Response:
        if gate and g.pop("entered", False):
            response.call_on_close(gate.leave)  # a body that streams calculates until it is closed
        if limiter and (standing := g.pop("standing", None)):
            response.headers.update(limiter.fields(standing))
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
