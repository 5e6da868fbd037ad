"""The blocked line and the ice on the coil, as a request names them."""

from service.calculations import blocked_line, ice_melt
from service.calculations.blocked_line import LINE_LIMITS
from service.calculations.ice_melt import ICE_LIMITS, LAYER_LIMITS, THAW_AIR_LIMITS
from service.schemas.fields import Choice, Number, Part, Quantity
from service.schemas.payload import Payload
from service.tables.pipe_sizes import COMMON_SIZES, MATERIALS


class BlockedLine(Payload):
    """The line from the pan to where it is blocked."""

    into = blocked_line.BlockedLine

    pipe_size = Choice(COMMON_SIZES, required=True, description="Nominal size of line and trap.")
    length_to_blockage = Quantity(
        "length",
        LINE_LIMITS["length_to_blockage"],
        required=True,
        description="Pipe from the trap's outlet to the blockage.",
    )
    material = Choice(MATERIALS, description="Material; PVC Schedule 40 when left out.")
    trap_outlet_drop = Quantity(
        "length",
        LINE_LIMITS["trap_outlet_drop"],
        description="From the pan outlet down to the trap's outlet invert: the empty leg above the trap's water; none "
        "when left out.",
    )
    trap_evaporated_depth = Quantity(
        "length",
        LINE_LIMITS["trap_evaporated_depth"],
        description="How far the water in the trap's legs has fallen below its outlet invert; 0 when left out.",
    )
    standing_volume = Quantity(
        "volume",
        LINE_LIMITS["standing_volume"],
        description="Water that stands in the line already, as `drain-survey` gives it; none when left out.",
    )


class IceLayer(Payload):
    """Ice over the face of a coil."""

    into = ice_melt.IceLayer

    face_area = Quantity("area", LAYER_LIMITS["face_area"], required=True, description="Area of the iced face.")
    thickness = Quantity(
        "length",
        LAYER_LIMITS["thickness"],
        required=True,
        description="Thickness of the ice, or of the iced part of the coil, in the direction of the air.",
    )
    ice_share = Number(
        LAYER_LIMITS["ice_share"],
        description="Share of that thickness that is ice, the rest being air, fins and tubes; 1, solid clear ice, when "
        "left out.",
    )


class ThawAir(Payload):
    """Air that the fan blows over the ice. It is taken to give up all it can."""

    into = ice_melt.ThawAir

    air_flow = Quantity(
        "air_flow", THAW_AIR_LIMITS["air_flow"], required=True, description="Volume flow of the air as it enters."
    )
    air_temperature = Quantity(
        "temperature",
        THAW_AIR_LIMITS["air_temperature"],
        required=True,
        description="Temperature of the air as it enters.",
    )
    relative_humidity_percent = Number(
        THAW_AIR_LIMITS["relative_humidity_percent"],
        description="Entering; 50 when left out. What condenses on the ice melts it too, and comes on top.",
    )
    elevation = Quantity(
        "length", THAW_AIR_LIMITS["elevation"], us="ft", si="m", description="Of the site; sea level when left out."
    )


class Ice(Payload):
    """Ice on the coil: how much, and how long it takes to melt or what melts it."""

    into = ice_melt.Ice
    at_most_one_of = ("water_volume", "layer")
    exclusions = (("melt_time", "melting_power", "thaw_air"),)
    at_least_one_of = ("water_volume", "layer")

    water_volume = Quantity("volume", ICE_LIMITS["water_volume"], description="Water it melts to. Excludes `layer`.")
    layer = Part(IceLayer, description="Its size. Excludes `water_volume`.")
    melt_time = Quantity(
        "time",
        ICE_LIMITS["melt_time"],
        description="How long it takes to melt. Excludes `melting_power` and `thaw_air`.",
    )
    melting_power = Quantity(
        "power",
        ICE_LIMITS["melting_power"],
        description="Heat that reaches the ice. Excludes `melt_time` and `thaw_air`.",
    )
    thaw_air = Part(ThawAir, description="Air that melts it. Excludes `melt_time` and `melting_power`.")
