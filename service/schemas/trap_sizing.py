"""Payloads of ``trap-sizing``."""

from service.calculations.trap_sizing import LIMITS
from service.schemas.envelope import answer_of
from service.schemas.fields import Part, Quantity, Rows
from service.schemas.payload import Payload, Written
from service.schemas.trap_water import TrapState, dirty_filter_allowance_field, pan_pressure_field, pipe_size_field


class TrapSizingRequest(Payload):
    """The pressure in a pan, and the room there is for a trap."""

    pan_pressure = pan_pressure_field()
    dirty_filter_allowance = dirty_filter_allowance_field()
    pipe_size = pipe_size_field("the trap; 3/4 when left out.")
    clearance_below_outlet = Quantity(
        "length",
        LIMITS["clearance_below_outlet"],
        description="From the inside bottom of the pan outlet straight down to the floor, roof or curb. Without it the "
        "fit is not judged.",
    )

    examples = {
        "draw-through": {
            "summary": "A draw-through unit with an allowance for its filter, and room enough",
            "value": {
                "pan_pressure": {"value": -1.2, "unit": "inH2O"},
                "dirty_filter_allowance": {"value": 0.5, "unit": "inH2O"},
                "pipe_size": "3/4",
                "clearance_below_outlet": {"value": 7, "unit": "in"},
            },
        },
        "no-room": {
            "summary": "A unit that stands too low for the trap it needs",
            "value": {
                "pan_pressure": {"value": -2.5, "unit": "inH2O"},
                "dirty_filter_allowance": {"value": 0.75, "unit": "inH2O"},
                "pipe_size": "1",
                "clearance_below_outlet": {"value": 5, "unit": "in"},
            },
        },
        "blow-through-si": {
            "summary": "A blow-through unit, in SI",
            "value": {
                "pan_pressure": {"value": 200, "unit": "Pa"},
                "pipe_size": "1",
                "clearance_below_outlet": {"value": 150, "unit": "mm"},
            },
        },
    }


class TrapSizingResults(Written):
    """A trap that drains and keeps its seal at the design pressure."""

    design_pressure = Quantity(
        "pressure",
        required=True,
        description="Worst fan-on pressure in the pan: suction with the allowance for the filter, or the positive "
        "pressure as given.",
    )
    outlet_drop = Quantity(
        "length",
        required=True,
        description="From the pan outlet down to the trap's outlet, inside bottom to inside bottom: suction plus 1 in, "
        "or 1/2 in under positive pressure (common practice).",
    )
    seal_depth = Quantity(
        "length",
        required=True,
        description="From the inside bottom of the trap's outlet down to the top of the bend, inside: half the drop, "
        "or the positive pressure plus 1/2 in (common practice).",
    )
    overall_depth = Quantity(
        "length",
        required=True,
        description="From the inside bottom of the pan outlet down to the underside of the bend: drop, seal, one bore "
        "and one wall.",
    )
    water_volume = Quantity(
        "volume",
        us="in3",
        si="mL",
        required=True,
        description="Water that fills the trap to its outlet: both legs and the tightest bend.",
    )
    states = Rows(
        Part(TrapState, description="One state."),
        fewest=4,
        most=4,
        required=True,
        description="The water in this trap at the design pressure: at rest, start-up, running, fan stopped.",
    )
    bore = Quantity("length", required=True, description="Inside diameter of its pipe.")


TrapSizingAnswer = answer_of(TrapSizingResults, "TrapSizingAnswer")
