"""Payloads of ``overflow-time``."""

from service.calculations import overflow_protection
from service.calculations.overflow_protection import (
    AUXILIARY_PAN_LIMITS,
    PAN_LIMITS,
    PROTECTION_LIMITS,
    PROTECTIONS,
)
from service.calculations.overflow_time import LIMITS, STOPPERS
from service.calculations.pump_cycle import PUMP_LIMITS, SAFETY_FLOATS
from service.schemas.envelope import answer_of
from service.schemas.fields import Choice, Part, Quantity
from service.schemas.payload import Payload, Written


class WaterPan(Payload):
    """The unit's own pan."""

    into = overflow_protection.WaterPan

    area = Quantity("area", PAN_LIMITS["area"], required=True, description="Area of its bottom.")
    depth = Quantity(
        "length", PAN_LIMITS["depth"], required=True, description="From its bottom up to where it runs over."
    )
    water_depth = Quantity(
        "length",
        PAN_LIMITS["water_depth"],
        description="Water already standing in it when the drain blocks; 0 when left out.",
    )


class AuxiliaryPan(Payload):
    """The pan under the whole unit."""

    into = overflow_protection.AuxiliaryPan

    area = Quantity("area", AUXILIARY_PAN_LIMITS["area"], required=True, description="Area of its bottom.")
    depth = Quantity("length", AUXILIARY_PAN_LIMITS["depth"], required=True, description="From its bottom to its rim.")
    larger_than_unit = Quantity(
        "length",
        AUXILIARY_PAN_LIMITS["larger_than_unit"],
        description="How much longer or wider it is than the unit: the smaller of the two differences.",
    )


class Protection(Payload):
    """What stands between a blocked drain and the building."""

    into = overflow_protection.Protection

    kind = Choice(
        PROTECTIONS,
        required=True,
        description="The one relied on. `auxiliary-pan-drain`: a pan under the unit with a drain of its own to where "
        "it is seen. `secondary-drain`: an overflow drain higher in the unit's pan. `auxiliary-pan-cut-out`: a pan "
        "under the unit with a water-level cut-out. `drain-cut-out`: a water-level cut-out in the unit's pan or its "
        "drain.",
    )
    cut_out_depth = Quantity(
        "length",
        PROTECTION_LIMITS["cut_out_depth"],
        description="Depth of water at which the cut-out acts, from the bottom of the pan it stands in.",
    )
    secondary_drain_depth = Quantity(
        "length",
        PROTECTION_LIMITS["secondary_drain_depth"],
        description="Height of the secondary drain's inside bottom above the bottom of the unit's pan.",
    )
    auxiliary_pan = Part(AuxiliaryPan, description="The auxiliary pan, if there is one, whatever the kind.")


class PumpTank(Payload):
    """The tank of the condensate pump, for the case that the pump dies."""

    into = overflow_protection.PumpTank

    volume_to_safety_float = Quantity(
        "volume",
        PUMP_LIMITS["volume_to_safety_float"],
        description="From the level where the pump should start up to the safety float.",
    )
    volume_to_overflow = Quantity(
        "volume",
        PUMP_LIMITS["volume_to_overflow"],
        description="From the level where the pump should start up to where the tank runs over.",
    )
    safety_float = Choice(
        SAFETY_FLOATS,
        description="`wired`: it stops the cooling call. `unwired`: it is there and does nothing. `none`: there is "
        "none.",
    )


class OverflowTimeRequest(Payload):
    """Water arriving, the room there is for it, and what should stop it."""

    at_most_one_of = ("pan", "free_volume")
    at_least_one_of = ("pan", "free_volume", "pump_tank")

    inflow = Quantity(
        "water_flow",
        LIMITS["inflow"],
        required=True,
        description="Condensate arriving: the rate of the peak hour, taken as steady.",
    )
    pan = Part(WaterPan, description="The unit's own pan, with upright walls. Excludes `free_volume`.")
    free_volume = Quantity(
        "volume",
        LIMITS["free_volume"],
        description="Room left in the unit's pan, where it was measured. Excludes `pan`.",
    )
    line_volume = Quantity(
        "volume",
        LIMITS["line_volume"],
        description="Empty drain line between the pan and the blockage, which fills first; 0 when left out.",
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


class TankTime(Written):
    """With the pump dead."""

    time_to_safety_float = Quantity(
        "time",
        required=True,
        nullable=True,
        description="Until the water reaches the safety float, from the level where the pump should have started; null "
        "without a float, its volume or inflow.",
    )
    time_to_overflow = Quantity(
        "time",
        required=True,
        nullable=True,
        description="Until the tank runs over, from the same level; null without its volume or inflow.",
    )
    stopped_by = Choice(STOPPERS, required=True, description="What ends the water.")


class OverflowTimeResults(Written):
    """Times from the moment the drain blocks, or the pump dies."""

    free_volume = Quantity(
        "volume",
        required=True,
        nullable=True,
        description="Water that has to arrive before the pan runs over, empty line included; null where the pan was "
        "not given.",
    )
    time_to_overflow = Quantity(
        "time",
        required=True,
        nullable=True,
        description="Until the pan runs over if nothing acts before; null without a pan or inflow.",
    )
    time_to_secondary_drain = Quantity(
        "time",
        required=True,
        nullable=True,
        description="Until the secondary drain runs; null without one that does, or without its height.",
    )
    time_to_cut_out = Quantity(
        "time",
        required=True,
        nullable=True,
        description="Until the cut-out acts; null without one that the water reaches in time, or without its depth.",
    )
    room_after_cut_out = Quantity(
        "volume",
        required=True,
        nullable=True,
        description="Water that still fits after the cut-out has acted, for the coil goes on dripping; null as "
        "`time_to_cut_out`.",
    )
    time_in_auxiliary_pan = Quantity(
        "time",
        required=True,
        nullable=True,
        description="That the auxiliary pan takes to fill, its own drain left out; null without its size or inflow.",
    )
    time_to_building = Quantity(
        "time",
        required=True,
        nullable=True,
        description="Until water reaches the building; null where something stops it, or nothing is known of the pan.",
    )
    stopped_by = Choice(
        STOPPERS,
        required=True,
        nullable=True,
        description="What ends the water of a blocked drain; null where neither pan nor protection was given.",
    )
    pump_tank = Part(TankTime, required=True, nullable=True, description="The same for a dead pump; null without one.")


OverflowTimeAnswer = answer_of(OverflowTimeResults, "OverflowTimeAnswer")
