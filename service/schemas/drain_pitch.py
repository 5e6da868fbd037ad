"""Payloads of ``drain-pitch``."""

from service.calculations.drain_pitch import LIMITS
from service.schemas.envelope import answer_of
from service.schemas.fields import Number, Quantity
from service.schemas.payload import Payload, Written


class DrainPitchRequest(Payload):
    """A run of drain line, with its measured fall, or its pitch, or neither."""

    at_most_one_of = ("fall", "pitch_ratio")

    run = Quantity("length", LIMITS["run"], required=True, description="Horizontal length of the line.")
    fall = Quantity(
        "length",
        LIMITS["fall"],
        description="Measured drop of the pipe's inside bottom from the upstream to the downstream end; negative "
        "where the line runs uphill. Excludes `pitch_ratio`.",
    )
    pitch_ratio = Number(
        LIMITS["pitch_ratio"],
        description="Fall over run, positive downstream; 0.0208 is 1/4 in per ft. Excludes `fall`. With neither, the "
        "usual 1/4 in per ft is assumed.",
    )

    examples = {
        "measured-fall": {
            "summary": "A 32 ft run that was measured to fall 4 in",
            "value": {"run": {"value": 32, "unit": "ft"}, "fall": {"value": 4, "unit": "in"}},
        },
        "uphill": {
            "summary": "A run that ends higher than it begins",
            "value": {"run": {"value": 6.5, "unit": "m"}, "fall": {"value": -15, "unit": "mm"}},
        },
        "what-it-needs": {
            "summary": "How much fall a run needs",
            "value": {"run": {"value": 40, "unit": "ft"}},
        },
    }


class DrainPitchResults(Written):
    """Pitch and fall of a run."""

    pitch_ratio = Number(required=True, description="Fall over run, positive downstream.")
    pitch_per_foot = Quantity("length", required=True, description="Fall in one foot of run.")
    fall = Quantity("length", required=True, description="Fall over the whole run.")
    minimum_fall = Quantity(
        "length", required=True, description="Fall the code minimum of 1/8 in per ft asks of this run."
    )
    recommended_fall = Quantity(
        "length", required=True, description="Fall of the usual 1/4 in per ft over this run (common practice)."
    )


DrainPitchAnswer = answer_of(DrainPitchResults, "DrainPitchAnswer")
