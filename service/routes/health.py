"""``/livez`` and ``/readyz``: is the process there, and does it still calculate right."""

import orjson

from service.calculations.drain_pitch import pitch_drain
from service.routes.blueprint import Blueprint
from service.routes.problems import Problem

blueprint = Blueprint("operations", __name__, description="For the machines that run the service.")

_PASS = orjson.dumps({"status": "pass"})


@blueprint.route("/livez", methods=["GET"])
@blueprint.page("application/json", "The process answers.")
def check_alive() -> bytes:
    """Whether the process answers at all.

    For the liveness probe: it calculates nothing and needs nothing.
    """
    return _PASS


@blueprint.route("/readyz", methods=["GET"])
@blueprint.page("application/json", "The service calculates right.", statuses=(406, 503))
def check_ready() -> bytes:
    """Whether a reference calculation gives its known answer.

    For the readiness probe: 503 takes the process out of service until it calculates right again.
    """
    # 1/4 in per ft over 32 ft is 8 in, by hand
    if abs(pitch_drain(run=9.7536).results.fall - 0.2032) > 1e-9:
        raise Problem("not-ready", detail="The reference calculation did not give its known answer.")
    return _PASS
