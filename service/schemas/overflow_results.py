"""What ``overflow-time`` answers."""

from service.calculations.overflow_results import STOPPERS
from service.schemas.fields import Choice, Part, Quantity
from service.schemas.payload import Written


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
    rise_per_minute = Quantity(
        "length",
        required=True,
        nullable=True,
        description="How far the water rises in a minute at the start; null without the tank's area.",
    )
    room_after_cut_out = Quantity(
        "volume",
        required=True,
        nullable=True,
        description="Room above the safety float; null without a float or one of the volumes.",
    )
    water_after_cut_out = Quantity(
        "volume",
        required=True,
        nullable=True,
        description="Water that still arrives after the float has stopped the cooling; null where neither "
        "`drip_down_volume` nor melting ice was given.",
    )


class IceMelt(Written):
    """The ice on the coil as it melts into the pan."""

    water_volume = Quantity("volume", required=True, description="Water the ice melts to.")
    melting_power = Quantity(
        "power", required=True, nullable=True, description="Heat that melts it; null where nothing tells how fast."
    )
    melt_time = Quantity(
        "time",
        required=True,
        nullable=True,
        description="How long it takes; null where it does not melt or nothing tells how fast. So are all that follow.",
    )
    melt_rate = Quantity("water_flow", required=True, nullable=True, description="Water of the ice alone.")
    surge_rate = Quantity(
        "water_flow",
        required=True,
        nullable=True,
        description="Ice, water from the thawing air, and inflow together.",
    )
    highest_water_depth = Quantity(
        "length",
        required=True,
        nullable=True,
        description="How high the water gets in the pan by the end of the melt if nothing acts; null also without the "
        "pan's dimensions.",
    )
    lost_volume = Quantity(
        "volume",
        required=True,
        nullable=True,
        description="Water that runs over the pan's rim by then if nothing acts; null also without a pan.",
    )
    safe_melt_time = Quantity(
        "time",
        required=True,
        nullable=True,
        description="Shortest melt that pan and drain just take; null also where none is long enough.",
    )
    water_after_cut_out = Quantity(
        "volume",
        required=True,
        nullable=True,
        description="Water that goes on rising after the cut-out has acted, for it does not stop the melt; null also "
        "without a cut-out that acts.",
    )


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
    line_volume = Quantity(
        "volume",
        required=True,
        nullable=True,
        description="Room in line and trap that fills before the pan; null where neither `line` nor `line_volume` was "
        "given.",
    )
    starting_water_depth = Quantity(
        "length",
        required=True,
        nullable=True,
        description="Water in the pan at the start; null without the pan's dimensions.",
    )
    melt = Part(IceMelt, required=True, nullable=True, description="The ice on the coil; null without any.")
    pump_tank = Part(TankTime, required=True, nullable=True, description="The same for a dead pump; null without one.")
