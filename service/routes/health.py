"""``/livez`` and ``/readyz``: is the process there, and does it still calculate right."""

import mmap

import orjson
from flask import Flask, current_app

from service.calculations.drain_pitch import pitch_drain
from service.routes.blueprint import Blueprint
from service.routes.document import CONTRACT_VERSION
from service.routes.problems import Problem
from service.schemas.machine_answers import Liveness, Readiness
from service.settings import SERVICE_VERSION, Settings

blueprint = Blueprint("operations", __name__, description="For the machines that run the service.")

_PASS = orjson.dumps({"status": "pass"})


class Stopping:
    """Whether the server was asked to stop: one byte that it shares with its workers."""

    def __init__(self) -> None:
        self._asked = mmap.mmap(-1, 1)

    def __bool__(self) -> bool:
        return self._asked[0] != 0

    def begin(self) -> None:
        """Not ready from now on, in every worker."""
        self._asked[0] = 1


def install(app: Flask, settings: Settings) -> None:
    """Keep what the two answers need with the application."""
    app.extensions["stopping"] = Stopping()
    app.extensions["build"] = orjson.dumps(
        {
            "status": "pass",
            "version": SERVICE_VERSION,
            "contract_version": CONTRACT_VERSION,
            "revision": settings.revision or "unknown",
        }
    )


@blueprint.route("/livez", methods=["GET"])
@blueprint.page("application/json", "The process answers.", payload=Liveness)
def check_alive() -> bytes:
    """Whether the process answers at all, and what it is.

    For the liveness probe: it calculates nothing and needs nothing. Names the version of the code, of this contract,
    and the build.
    """
    build: bytes = current_app.extensions["build"]
    return build


@blueprint.route("/readyz", methods=["GET"])
@blueprint.page("application/json", "The service calculates right.", payload=Readiness, statuses=(406, 503))
def check_ready() -> bytes:
    """Whether a reference calculation gives its known answer.

    For the readiness probe: 503 takes the process out of service until it calculates right again, and from the
    moment it is asked to stop.
    """
    if current_app.extensions["stopping"]:
        raise Problem("not-ready", detail="The service was asked to stop, and answers what is still coming in.")
    # 1/4 in per ft over 32 ft is 8 in, by hand
    if abs(pitch_drain(run=9.7536).results.fall - 0.2032) > 1e-9:
        raise Problem("not-ready", detail="The reference calculation did not give its known answer.")
    return _PASS
