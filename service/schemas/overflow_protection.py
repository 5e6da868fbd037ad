"""Pans, protection and the pump's tank, as a request names them."""

from service.calculations import overflow_protection
from service.calculations.overflow_protection import (
    AUXILIARY_PAN_LIMITS,
    PAN_LIMITS,
    PROTECTION_LIMITS,
    PROTECTIONS,
    TANK_LIMITS,
)
from service.calculations.pump_cycle import PUMP_LIMITS, SAFETY_FLOATS
from service.schemas.fields import Choice, Part, Quantity
from service.schemas.payload import Payload


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
    rim_area = Quantity(
        "area",
        PAN_LIMITS["rim_area"],
        description="Area at the height where it runs over, where the walls lean; that of the bottom when left out.",
    )
    fall = Quantity(
        "length",
        PAN_LIMITS["fall"],
        description="How much lower the bottom is at the outlet than at its high end; a level bottom when left out. "
        "`depth`, `water_depth` and the depths of cut-out and secondary drain are measured at the outlet.",
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
    area = Quantity("area", TANK_LIMITS["area"], description="Area of the water in it, for how fast it rises.")
