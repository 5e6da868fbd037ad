"""``POST /v1/drain-sizing``."""

from typing import Any

from service.calculations import drain_sizing
from service.calculations.answer import Answer
from service.routes.blueprint import Blueprint
from service.schemas.drain_sizing import DrainSizingAnswer, DrainSizingRequest

BODY_LIMIT = 2 * 1024 * 1024
"""A thousand units, each naming the length it joins."""

blueprint = Blueprint("drain-sizing", __name__, description="How wide the pipe of a drain line must be.")


@blueprint.route("/v1/drain-sizing", methods=["POST"])
@blueprint.response(200, DrainSizingAnswer)
@blueprint.arguments(DrainSizingRequest, body_limit=BODY_LIMIT)
def size_drain(body: Any) -> Answer[drain_sizing.DrainSizing]:
    """Pipe size for one unit, several, or a tree of them; depth, velocity and how much slime it may take.

    Post the units that share the line with their capacities, and the pan outlet and pitch if known. The answer gives
    the size by the codes' table, what the clean line carries, how deep and fast the peak hour runs in it, and what
    share of the bore, or how thick a film, may foul before it backs up.

    Where units join along the run, post its `lengths` too, the way the water runs, and let each unit name the one it
    `joins`. Each length is sized for what flows through it, never smaller than what runs into it, and compared with
    what is installed.
    """
    return drain_sizing.size_drain(**body)
