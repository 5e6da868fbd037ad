"""Payloads of ``drain-sizing``."""

from service.calculations import drain_sizing
from service.calculations.drain_sizing import LIMITS, MOST_UNITS
from service.schemas.envelope import answer_of
from service.schemas.fields import Choice, Number, Part, Quantity, Rows
from service.schemas.payload import Payload, Written
from service.tables.drain_sizes import DRAIN_SIZES
from service.tables.pipe_sizes import MATERIALS, NOMINAL_SIZES


class ServedUnit(Payload):
    """A unit that drains into the line."""

    into = drain_sizing.ServedUnit

    total_capacity = Quantity(
        "power", LIMITS["total_capacity"], required=True, description="Total cooling capacity, sensible and latent."
    )
    sensible_heat_ratio = Number(
        LIMITS["sensible_heat_ratio"],
        description="Sensible over total capacity; the latent rest gives the peak flow. Without it and `peak_flow`, "
        "0.5 US gal/h a ton is assumed.",
    )
    peak_flow = Quantity(
        "water_flow",
        LIMITS["peak_flow"],
        description="Condensate of the peak hour where it is known; overrules `sensible_heat_ratio`.",
    )


class DrainSizingRequest(Payload):
    """The units that share a drain line, and what is known of the line."""

    units = Rows(
        Part(ServedUnit, description="One unit."),
        fewest=1,
        most=MOST_UNITS,
        required=True,
        description="Every unit that drains into the line.",
    )
    pan_outlet = Choice(NOMINAL_SIZES, description="Nominal size of the largest pan outlet; the line is never smaller.")
    pitch_ratio = Number(
        LIMITS["pitch_ratio"],
        description="Fall over run, positive downstream; 0.0208 is 1/4 in per ft. The code minimum of 1/8 in per ft is "
        "assumed when left out.",
    )
    material = Choice(MATERIALS, description="Kind of pipe; PVC Schedule 40 when left out.")
    manning_coefficient = Number(
        LIMITS["manning_coefficient"], description="Manning's roughness coefficient, s/m^(1/3); 0.011 when left out."
    )

    examples = {
        "shared-line": {
            "summary": "Three rooftop units on one line",
            "value": {
                "units": [
                    {"total_capacity": {"value": 7.5, "unit": "ton"}, "sensible_heat_ratio": 0.72},
                    {"total_capacity": {"value": 7.5, "unit": "ton"}, "sensible_heat_ratio": 0.72},
                    {"total_capacity": {"value": 10, "unit": "ton"}, "sensible_heat_ratio": 0.7},
                ],
                "pan_outlet": "3/4",
                "pitch_ratio": 0.0208,
            },
        },
        "one-unit-si": {
            "summary": "One unit with a measured peak flow, in copper, laid too flat",
            "value": {
                "units": [
                    {"total_capacity": {"value": 17.5, "unit": "kW"}, "peak_flow": {"value": 9.5, "unit": "L/h"}}
                ],
                "pan_outlet": "1",
                "pitch_ratio": 0.008,
                "material": "copper-type-m",
            },
        },
        "beyond-the-table": {
            "summary": "More capacity than the code's table serves",
            "value": {"units": [{"total_capacity": {"value": 180, "unit": "ton"}}] * 2},
        },
    }


class DrainSizingResults(Written):
    """A line's size and what it carries when clean."""

    pipe_size = Choice(
        NOMINAL_SIZES,
        required=True,
        nullable=True,
        description="Nominal size to install all the way; null where the line has to be engineered.",
    )
    table_pipe_size = Choice(
        tuple(row.pipe_size for row in DRAIN_SIZES),
        required=True,
        nullable=True,
        description="Nominal size of the code table's row alone; null above the table.",
    )
    table_capacity = Quantity(
        "power",
        us="ton",
        si="kW",
        required=True,
        nullable=True,
        description="Greatest total capacity of that row; null above the table.",
    )
    total_capacity = Quantity("power", us="ton", si="kW", required=True, description="Capacity of all units.")
    peak_flow = Quantity("water_flow", required=True, description="Condensate of all units in the peak hour.")
    bore = Quantity(
        "length",
        required=True,
        nullable=True,
        description="Inside diameter of the line; null, like all below, where there is no such pipe to compute.",
    )
    full_bore_capacity = Quantity(
        "water_flow",
        required=True,
        nullable=True,
        description="What the clean line carries just full at its pitch, by Manning's formula; 0 where it does not "
        "fall.",
    )
    depth_fraction = Number(
        required=True,
        nullable=True,
        description="Depth of water over bore in the peak hour when clean; 1 where the line cannot carry it, null "
        "where it does not fall.",
    )
    fouling_margin = Number(
        required=True,
        nullable=True,
        description="Share of the clean bore's area, 0 to 1, that an even film of slime may take before the peak hour "
        "backs up; 0 where the clean line cannot carry it.",
    )
    fouling_film_thickness = Quantity(
        "length", required=True, nullable=True, description="Thickness of that film of slime."
    )


DrainSizingAnswer = answer_of(DrainSizingResults, "DrainSizingAnswer")
