"""Payloads of ``pump-run/compare``."""

from service.calculations import pump_compare
from service.calculations.pump_compare import MOST_PUMPS, RUN_TOGETHER
from service.calculations.pump_ranking import CARRIES, DECIDED_BY
from service.schemas.envelope import answer_of
from service.schemas.fields import Choice, Number, Part, Quantity, Rows, Text, Whole
from service.schemas.payload import Payload, Written
from service.schemas.pump_run import (
    Pump,
    PumpRunAnswer,
    Tube,
    flow_margin_field,
    inflow_field,
    lift_field,
    water_temperature_field,
)

LONGEST_NAME = 100
"""Characters of a pump's name: it stands in sentences."""


class NamedPump(Pump):
    """A float-operated tank pump, from its leaflet, and what it is called."""

    into = pump_compare.NamedPump

    name = Text(LONGEST_NAME, required=True, description="What to call it in the answer.")


class PumpCompareRequest(Payload):
    """Water arriving, the lift, the tube, and pumps: candidates for it, or all in one tank."""

    inflow = inflow_field()
    lift = lift_field()
    tube = Part(Tube, required=True, description="The discharge tube; with `run_together`, the one they share.")
    pumps = Rows(
        Part(NamedPump, description="One pump."),
        fewest=1,
        most=MOST_PUMPS,
        required=True,
        description="The candidates; with `run_together`, the pumps in the tank. Name one twice for two of a kind.",
    )
    run_together = Choice(
        RUN_TOGETHER,
        description="Left out: candidates, of which one is to be chosen. `alternating`: all in one tank, one at a time "
        "in turn. `parallel`: all in one tank, all at once. Each then has a check valve as `tube` describes it.",
    )
    water_temperature = water_temperature_field()
    flow_margin = flow_margin_field()

    examples = {
        "which-of-three": {
            "summary": "Three invented pumps for one attic: too weak, right, and right but unwired",
            "value": {
                "inflow": {"value": 2, "unit": "gal/h"},
                "lift": {"value": 14, "unit": "ft"},
                "tube": {
                    "bore": {"value": 0.375, "unit": "in"},
                    "length": {"value": 30, "unit": "ft"},
                    "elbows": 2,
                    "check_valve": True,
                },
                "pumps": [
                    {
                        "name": "low and cheap",
                        "curve": [
                            {"lift": {"value": 0, "unit": "ft"}, "flow": {"value": 60, "unit": "gal/h"}},
                            {"lift": {"value": 12, "unit": "ft"}, "flow": {"value": 0, "unit": "gal/h"}},
                        ],
                        "tank_volume_between_floats": {"value": 0.25, "unit": "gal"},
                        "safety_float": "wired",
                    },
                    {
                        "name": "middling",
                        "curve": [
                            {"lift": {"value": 0, "unit": "ft"}, "flow": {"value": 90, "unit": "gal/h"}},
                            {"lift": {"value": 10, "unit": "ft"}, "flow": {"value": 60, "unit": "gal/h"}},
                            {"lift": {"value": 21, "unit": "ft"}, "flow": {"value": 0, "unit": "gal/h"}},
                        ],
                        "tank_volume_between_floats": {"value": 0.4, "unit": "gal"},
                        "safety_float": "wired",
                    },
                    {
                        "name": "strong, float hanging loose",
                        "curve": [
                            {"lift": {"value": 0, "unit": "ft"}, "flow": {"value": 200, "unit": "gal/h"}},
                            {"lift": {"value": 30, "unit": "ft"}, "flow": {"value": 0, "unit": "gal/h"}},
                        ],
                        "tank_volume_between_floats": {"value": 0.5, "unit": "gal"},
                        "safety_float": "unwired",
                    },
                ],
            },
        },
        "none-will-do": {
            "summary": "A lift that neither candidate reaches",
            "value": {
                "inflow": {"value": 2, "unit": "gal/h"},
                "lift": {"value": 26, "unit": "ft"},
                "tube": {"bore": {"value": 0.375, "unit": "in"}, "length": {"value": 40, "unit": "ft"}},
                "pumps": [
                    {
                        "name": "low",
                        "curve": [
                            {"lift": {"value": 0, "unit": "ft"}, "flow": {"value": 60, "unit": "gal/h"}},
                            {"lift": {"value": 12, "unit": "ft"}, "flow": {"value": 0, "unit": "gal/h"}},
                        ],
                    },
                    {
                        "name": "less low",
                        "curve": [
                            {"lift": {"value": 0, "unit": "ft"}, "flow": {"value": 90, "unit": "gal/h"}},
                            {"lift": {"value": 21, "unit": "ft"}, "flow": {"value": 0, "unit": "gal/h"}},
                        ],
                    },
                ],
            },
        },
        "two-in-one-tank-si": {
            "summary": "Two of a kind at once through one narrow tube, in SI units",
            "value": {
                "inflow": {"value": 110, "unit": "L/h"},
                "lift": {"value": 2.5, "unit": "m"},
                "tube": {
                    "bore": {"value": 9, "unit": "mm"},
                    "length": {"value": 12, "unit": "m"},
                    "elbows": 4,
                    "check_valve": True,
                    "further_sections": [{"bore": {"value": 13, "unit": "mm"}, "length": {"value": 6, "unit": "m"}}],
                },
                "pumps": [
                    {
                        "name": name,
                        "curve": [
                            {"lift": {"value": 0, "unit": "m"}, "flow": {"value": 300, "unit": "L/h"}},
                            {"lift": {"value": 3, "unit": "m"}, "flow": {"value": 190, "unit": "L/h"}},
                            {"lift": {"value": 5.5, "unit": "m"}, "flow": {"value": 0, "unit": "L/h"}},
                        ],
                        "tank_volume_between_floats": {"value": 1.2, "unit": "L"},
                        "safety_float": "wired",
                    }
                    for name in ("left", "right")
                ],
                "run_together": "parallel",
                "water_temperature": {"value": 12, "unit": "degC"},
                "flow_margin": 1.5,
            },
        },
    }


class RankedPump(Written):
    """One pump, its rank and why, and how it runs alone."""

    name = Text(required=True, description="Name of the pump, as sent.")
    index = Whole(0, MOST_PUMPS - 1, required=True, description="Place in the request, from 0.")
    rank = Whole(1, MOST_PUMPS, required=True, description="Rank of the pump; 1 is best.")
    carries = Choice(
        CARRIES,
        required=True,
        description="Whether it carries the inflow alone: `with-margin`, `without-margin`, `too-slow` for the inflow, "
        "or `nothing` comes out.",
    )
    decided_by = Choice(
        DECIDED_BY,
        required=True,
        nullable=True,
        description="What puts it behind the pump ranked before it; null for the first. Weightiest first: `flow` that "
        "carries the inflow, then a `safety-float` that is wired, not working `near-shut-off`, fewer `starts`, more "
        "`spare-lift`. Among pumps that lift nothing, `shut-off-head`; among equals, `order` in the request.",
    )
    flow_together = Quantity(
        "water_flow",
        required=True,
        nullable=True,
        description="What it adds while all run at once through the one tube; null without `run_together`.",
    )
    flow_without = Quantity(
        "water_flow",
        required=True,
        nullable=True,
        description="What is left to move with this one dead: the others at once, or the weakest of them in its turn; "
        "null without `run_together`.",
    )
    answer = Part(
        PumpRunAnswer,
        required=True,
        description="How it runs alone, as `pump-run` answers, with pointers into this request, and a finding that "
        "says why it has this rank.",
    )


class PumpsTogether(Written):
    """What several pumps in one tank do through one tube."""

    operating_flow = Quantity("water_flow", required=True, description="Flow with all running at once.")
    operating_head = Quantity(
        "length",
        us="ft",
        si="m",
        required=True,
        description="Behind their check valves: lift, friction, elbows and changes of bore; the greatest shut-off head "
        "where nothing flows.",
    )
    friction_head = Quantity("length", us="ft", si="m", required=True, description="Head that the tube's wall takes.")
    flow_ratio = Number(required=True, nullable=True, description="Operating flow over inflow; null with no inflow.")
    gain_ratio = Number(
        required=True,
        nullable=True,
        description="Operating flow over that of the strongest alone; null where none moves any water alone.",
    )
    flow_in_turn = Quantity(
        "water_flow", required=True, description="What the weakest of them moves alone, in its turn."
    )
    flow_one_failed = Quantity("water_flow", required=True, description="Least that is left with one of them dead.")
    flow_ratio_one_failed = Number(
        required=True, nullable=True, description="That flow over inflow; null with no inflow."
    )
    starts_in_turn = Number(
        required=True,
        nullable=True,
        description="Starts of each pump in an hour when they take turns; null without the tank volume of each, or "
        "where one never stops.",
    )


class PumpCompareResults(Written):
    """Pumps ranked, and what they do together."""

    best = Text(
        required=True, nullable=True, description="Name of the first in rank that carries the inflow; null if none."
    )
    pumps = Rows(
        Part(RankedPump, description="One pump."),
        fewest=1,
        most=MOST_PUMPS,
        required=True,
        description="The pumps, the best first.",
    )
    together = Part(
        PumpsTogether, required=True, nullable=True, description="All in one tank; null without `run_together`."
    )


PumpCompareAnswer = answer_of(PumpCompareResults, "PumpCompareAnswer")
