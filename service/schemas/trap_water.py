"""What the trap operations share: the pressure they are asked about, and the water in each state."""

from service.calculations.trap_sizing import LIMITS
from service.calculations.trap_water import STATES
from service.schemas.fields import Choice, Flag, Quantity
from service.schemas.payload import Written
from service.tables.pipe_sizes import NOMINAL_SIZES


def pan_pressure_field() -> Quantity:
    """The ``pan_pressure`` of a request."""
    return Quantity(
        "pressure",
        LIMITS["pan_pressure"],
        required=True,
        description="Gauge pressure in the pan with the fan on, at its highest speed and doors shut: negative where "
        "the coil is upstream of the fan (draw-through), positive where it is downstream (blow-through).",
    )


def dirty_filter_allowance_field() -> Quantity:
    """The ``dirty_filter_allowance`` of a request."""
    return Quantity(
        "pressure",
        LIMITS["dirty_filter_allowance"],
        description="What a dirty filter adds to the suction, where `pan_pressure` was read with a clean one; 0 when "
        "left out. Not added to a positive pan pressure, which a dirty filter upstream of the fan lowers.",
    )


def pipe_size_field(of_what: str) -> Choice:
    """A nominal pipe size of a request."""
    return Choice(NOMINAL_SIZES, description=f"Nominal size in inches of {of_what} Bores are those of PVC Schedule 40.")


class TrapState(Written):
    """Where the water of the trap stands in one state. Levels are settled ones, without surge."""

    state = Choice(
        STATES,
        required=True,
        description="`at_rest`: full to the outlet invert, less what has evaporated. `start_up`: the fan has just come "
        "on and no condensate has arrived. `running`: steady, condensate arriving and leaving; where start-up broke "
        "the seal, once condensate has filled it again, which the rush of air may prevent. `fan_stopped`: the "
        "pressure is gone and what it held up has run out.",
    )
    unit_side_level = Quantity(
        "length",
        required=True,
        description="Water level in the leg on the unit's side, or in the pan above it, from the outlet invert, up "
        "positive.",
    )
    outlet_side_level = Quantity(
        "length",
        required=True,
        description="Water level in the leg on the outlet's side, from the outlet invert, up positive.",
    )
    seal_remaining = Quantity(
        "length",
        required=True,
        description="Water left above the top of the bend in the lower leg. Negative: air passes, and the seal would "
        "have to be this much deeper.",
    )
    seal_holds = Flag(required=True, description="Whether no air passes.")
    pan_water_depth = Quantity("length", required=True, description="Depth of water in the pan, above the pan outlet.")
    water_volume = Quantity(
        "volume",
        us="in3",
        si="mL",
        required=True,
        nullable=True,
        description="Water in trap and pan, for the tightest bend; null where it depends on a pan area not given.",
    )
    water_added = Quantity(
        "volume",
        us="in3",
        si="mL",
        required=True,
        nullable=True,
        description="Condensate that has stayed since the state before; null where it depends on a pan area not given.",
    )
    water_spilled = Quantity(
        "volume",
        us="in3",
        si="mL",
        required=True,
        nullable=True,
        description="Water that has run over the outlet invert since the state before, besides the condensate that "
        "passes while running; null where it depends on a pan area not given.",
    )
    water_overflowed = Quantity(
        "volume",
        us="in3",
        si="mL",
        required=True,
        nullable=True,
        description="Water that has run over the pan's rim since the state before, besides the condensate that goes "
        "the same way while the pan is full; null where it depends on a pan area not given.",
    )
