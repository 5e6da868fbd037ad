"""Payloads of ``overflow-time``."""

from service.calculations.overflow_time import LIMITS
from service.schemas.envelope import answer_of
from service.schemas.fields import Part, Quantity
from service.schemas.overflow_protection import Protection, PumpTank, WaterPan
from service.schemas.overflow_results import OverflowTimeResults
from service.schemas.overflow_surge import BlockedLine, Ice
from service.schemas.payload import Payload


class OverflowTimeRequest(Payload):
    """Water arriving, the room there is for it, and what should stop it."""

    at_most_one_of = ("pan", "free_volume")
    exclusions = (("line_volume", "line"),)
    at_least_one_of = ("pan", "free_volume", "pump_tank")

    inflow = Quantity(
        "water_flow",
        LIMITS["inflow"],
        required=True,
        description="Condensate arriving: the rate of the peak hour, taken as steady.",
    )
    pan = Part(WaterPan, description="The unit's own pan. Excludes `free_volume`.")
    free_volume = Quantity(
        "volume",
        LIMITS["free_volume"],
        description="Room left in the unit's pan, where it was measured. Excludes `pan`.",
    )
    line_volume = Quantity(
        "volume",
        LIMITS["line_volume"],
        description="Empty drain line between the pan and the blockage, which fills first; 0 when left out. Excludes "
        "`line`.",
    )
    line = Part(BlockedLine, description="The line itself, for that volume to be worked out. Excludes `line_volume`.")
    drain_capacity = Quantity(
        "water_flow",
        LIMITS["drain_capacity"],
        description="What the drain, or the pump, still carries; 0, blocked, when left out. Does not count for a dead "
        "pump's tank.",
    )
    held_up_volume = Quantity(
        "volume",
        LIMITS["held_up_volume"],
        description="Water the fan's suction holds back, `release_volume` of `trap-check`. It stands in the pan from "
        "the start, where its `water_depth` is not given, and comes into the pump's tank at once.",
    )
    ice = Part(
        Ice,
        description="Ice on the coil, melting from the start while the inflow goes on; give an inflow of 0 for a "
        "thaw with the cooling off.",
    )
    drip_down_volume = Quantity(
        "volume",
        LIMITS["drip_down_volume"],
        description="Water the coil still gives after the cooling has stopped; ten minutes of the inflow when left "
        "out.",
    )
    protection = Part(Protection, description="Overflow protection; none is counted on when left out.")
    pump_tank = Part(PumpTank, description="Tank of the condensate pump.")

    examples = {
        "cut-out-in-time": {
            "summary": "A pan with a cut-out that acts half-way up",
            "value": {
                "inflow": {"value": 1.6, "unit": "gal/h"},
                "pan": {
                    "area": {"value": 3, "unit": "ft2"},
                    "depth": {"value": 1.5, "unit": "in"},
                    "water_depth": {"value": 0, "unit": "in"},
                },
                "protection": {"kind": "drain-cut-out", "cut_out_depth": {"value": 0.75, "unit": "in"}},
            },
        },
        "cut-out-too-high": {
            "summary": "A cut-out above the pan's rim, over an auxiliary pan that is too small",
            "value": {
                "inflow": {"value": 3, "unit": "gal/h"},
                "pan": {"area": {"value": 3, "unit": "ft2"}, "depth": {"value": 1.25, "unit": "in"}},
                "protection": {
                    "kind": "drain-cut-out",
                    "cut_out_depth": {"value": 1.5, "unit": "in"},
                    "auxiliary_pan": {
                        "area": {"value": 10, "unit": "ft2"},
                        "depth": {"value": 1, "unit": "in"},
                        "larger_than_unit": {"value": 2, "unit": "in"},
                    },
                },
            },
        },
        "auxiliary-pan-si": {
            "summary": "An auxiliary pan with a cut-out, in SI",
            "value": {
                "inflow": {"value": 8, "unit": "L/h"},
                "pan": {
                    "area": {"value": 2800, "unit": "cm2"},
                    "depth": {"value": 40, "unit": "mm"},
                    "water_depth": {"value": 10, "unit": "mm"},
                },
                "line_volume": {"value": 1.2, "unit": "L"},
                "protection": {
                    "kind": "auxiliary-pan-cut-out",
                    "cut_out_depth": {"value": 20, "unit": "mm"},
                    "auxiliary_pan": {
                        "area": {"value": 0.9, "unit": "m2"},
                        "depth": {"value": 50, "unit": "mm"},
                        "larger_than_unit": {"value": 100, "unit": "mm"},
                    },
                },
            },
        },
        "frozen-coil": {
            "summary": "A coil solid with ice, thawed with the fan alone above a slow drain",
            "value": {
                "inflow": {"value": 0, "unit": "gal/h"},
                "pan": {
                    "area": {"value": 3, "unit": "ft2"},
                    "depth": {"value": 1.5, "unit": "in"},
                    "water_depth": {"value": 0.25, "unit": "in"},
                    "rim_area": {"value": 3.4, "unit": "ft2"},
                    "fall": {"value": 0.25, "unit": "in"},
                },
                "line": {
                    "pipe_size": "3/4",
                    "material": "pvc-schedule-40",
                    "length_to_blockage": {"value": 12, "unit": "ft"},
                    "trap_outlet_drop": {"value": 2, "unit": "in"},
                    "trap_evaporated_depth": {"value": 0, "unit": "in"},
                    "standing_volume": {"value": 0, "unit": "gal"},
                },
                "drain_capacity": {"value": 1, "unit": "gal/h"},
                "ice": {
                    "layer": {
                        "face_area": {"value": 4, "unit": "ft2"},
                        "thickness": {"value": 3.5, "unit": "in"},
                        "ice_share": 0.7,
                    },
                    "thaw_air": {
                        "air_flow": {"value": 400, "unit": "cfm"},
                        "air_temperature": {"value": 76, "unit": "degF"},
                        "relative_humidity_percent": 50,
                        "elevation": {"value": 650, "unit": "ft"},
                    },
                },
                "protection": {"kind": "drain-cut-out", "cut_out_depth": {"value": 0.75, "unit": "in"}},
            },
        },
        "slow-melt-si": {
            "summary": "The ice known by its water, melting through a night; the cut-out must not be relied on",
            "value": {
                "inflow": {"value": 0.5, "unit": "L/h"},
                "free_volume": {"value": 9, "unit": "L"},
                "drain_capacity": {"value": 3, "unit": "L/h"},
                "ice": {"water_volume": {"value": 14, "unit": "L"}, "melt_time": {"value": 8, "unit": "h"}},
            },
        },
        "surge-into-the-tank": {
            "summary": "Water the fan held back comes into the tank of a dead pump, whose float sits high",
            "value": {
                "inflow": {"value": 6, "unit": "L/h"},
                "held_up_volume": {"value": 0.8, "unit": "L"},
                "drip_down_volume": {"value": 0.5, "unit": "L"},
                "pump_tank": {
                    "volume_to_safety_float": {"value": 1.2, "unit": "L"},
                    "volume_to_overflow": {"value": 1.6, "unit": "L"},
                    "safety_float": "wired",
                    "area": {"value": 280, "unit": "cm2"},
                },
            },
        },
        "dead-pump": {
            "summary": "A dead pump whose safety float nobody has wired",
            "value": {
                "inflow": {"value": 1.6, "unit": "gal/h"},
                "pump_tank": {
                    "volume_to_safety_float": {"value": 0.2, "unit": "gal"},
                    "volume_to_overflow": {"value": 0.35, "unit": "gal"},
                    "safety_float": "unwired",
                },
            },
        },
    }


OverflowTimeAnswer = answer_of(OverflowTimeResults, "OverflowTimeAnswer")
