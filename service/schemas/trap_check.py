"""Payloads of ``trap-check``."""

from service.calculations.trap_check import LIMITS
from service.schemas.envelope import answer_of
from service.schemas.fields import Flag, Part, Quantity, Rows
from service.schemas.payload import Payload, Written
from service.schemas.trap_water import TrapState, dirty_filter_allowance_field, pan_pressure_field, pipe_size_field


def seal_depth_field() -> Quantity:
    """The ``seal_depth`` of a trap as built."""
    return Quantity(
        "length",
        LIMITS["seal_depth"],
        required=True,
        description="From the inside bottom of the trap's outlet down to the top of the bend, inside; 0 is a drain "
        "without a trap.",
    )


def pan_depth_field() -> Quantity:
    """The ``pan_depth`` of a trap as built."""
    return Quantity(
        "length",
        LIMITS["pan_depth"],
        description="From the inside bottom of the pan outlet up to where the pan runs over. Without it the pan is "
        "taken to be deep enough.",
    )


class TrapCheckRequest(Payload):
    """A trap as built, the pressure it stands against, and what is known of the pan above it."""

    pan_pressure = pan_pressure_field()
    outlet_drop = Quantity(
        "length",
        LIMITS["outlet_drop"],
        required=True,
        description="From the pan outlet down to the trap's outlet, inside bottom to inside bottom; negative where the "
        "trap's outlet is the higher.",
    )
    seal_depth = seal_depth_field()
    dirty_filter_allowance = dirty_filter_allowance_field()
    pipe_size = pipe_size_field("both legs, where a leg's own is not given; 3/4 when nothing is given.")
    unit_side_pipe_size = pipe_size_field("the leg that comes down from the pan.")
    outlet_side_pipe_size = pipe_size_field("the leg that ends at the trap's outlet.")
    pan_area = Quantity(
        "area",
        LIMITS["pan_area"],
        description="Area of the pan's bottom. Without it the water that lets go when the fan stops cannot be given.",
    )
    pan_depth = pan_depth_field()
    evaporated_depth = Quantity(
        "length",
        LIMITS["evaporated_depth"],
        description="How far the water in the trap has fallen below its outlet by drying out; 0 when left out.",
    )

    examples = {
        "drop-too-small": {
            "summary": "A drop of 1/4 in under 1.2 in of suction: the pan holds water until the fan stops",
            "value": {
                "pan_pressure": {"value": -1.2, "unit": "inH2O"},
                "outlet_drop": {"value": 0.25, "unit": "in"},
                "seal_depth": {"value": 2, "unit": "in"},
                "pan_area": {"value": 3, "unit": "ft2"},
                "pan_depth": {"value": 1.5, "unit": "in"},
            },
        },
        "sound": {
            "summary": "A trap that drains and keeps its seal, filter dirty and all",
            "value": {
                "pan_pressure": {"value": -1.2, "unit": "inH2O"},
                "dirty_filter_allowance": {"value": 0.5, "unit": "inH2O"},
                "outlet_drop": {"value": 2.75, "unit": "in"},
                "seal_depth": {"value": 1.5, "unit": "in"},
                "pipe_size": "3/4",
                "evaporated_depth": {"value": 0, "unit": "in"},
            },
        },
        "blown-out-si": {
            "summary": "A seal too shallow for a positive pan, in SI",
            "value": {
                "pan_pressure": {"value": 350, "unit": "Pa"},
                "outlet_drop": {"value": 30, "unit": "mm"},
                "seal_depth": {"value": 25, "unit": "mm"},
                "pipe_size": "1",
            },
        },
        "dried-out": {
            "summary": "A seal deep enough when full, after a season without water",
            "value": {
                "pan_pressure": {"value": -1, "unit": "inH2O"},
                "outlet_drop": {"value": 2, "unit": "in"},
                "seal_depth": {"value": 1, "unit": "in"},
                "evaporated_depth": {"value": 0.75, "unit": "in"},
                "unit_side_pipe_size": "3/4",
                "outlet_side_pipe_size": "1",
            },
        },
    }


class TrapCheckResults(Written):
    """What the trap does with the water."""

    design_pressure = Quantity(
        "pressure",
        required=True,
        description="Worst fan-on pressure in the pan: suction with the allowance for the filter, or the positive "
        "pressure as given.",
    )
    states = Rows(
        Part(TrapState, description="One state."),
        fewest=4,
        most=4,
        required=True,
        description="The water at rest, start-up, running and after the fan has stopped.",
    )
    drains_running = Flag(
        required=True,
        description="Whether, with the fan on and the seal standing, the water stays at or below the pan outlet. "
        "Whether the seal survives start-up is `seal_margin`.",
    )
    held_water_depth = Quantity("length", required=True, description="Depth of water the pan holds with the fan on.")
    release_volume = Quantity(
        "volume",
        required=True,
        nullable=True,
        description="Water the pan lets go when the fan stops; null where it holds some and its area was not given.",
    )
    seal_margin = Quantity(
        "length",
        required=True,
        description="Water left above the top of the bend at the worst of start-up and running. Negative: how much "
        "deeper the seal would have to be just to hold.",
    )
    pan_overflows = Flag(
        required=True, description="Whether the pan runs over before the water can leave through the trap."
    )
    largest_suction_drained = Quantity(
        "pressure", required=True, description="Largest suction, as a positive number, that this outlet drop drains."
    )
    recommended_outlet_drop = Quantity(
        "length", required=True, description="Outlet drop to build for this pressure (common practice)."
    )
    recommended_seal_depth = Quantity(
        "length",
        required=True,
        description="Seal to build for this pressure, these legs and this evaporation, with that drop: what the water "
        "needs and 1/2 in (common practice).",
    )
    unit_side_bore = Quantity("length", required=True, description="Inside diameter of the leg on the unit's side.")
    outlet_side_bore = Quantity("length", required=True, description="Inside diameter of the leg on the outlet's side.")


TrapCheckAnswer = answer_of(TrapCheckResults, "TrapCheckAnswer")
