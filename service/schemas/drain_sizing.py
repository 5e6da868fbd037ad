"""Payloads of ``drain-sizing``."""

from service.calculations import common_line, served_unit
from service.calculations.common_line import LENGTH_LIMITS, MOST_LENGTHS
from service.calculations.drain_sizing import LIMITS, MOST_UNITS
from service.schemas.envelope import answer_of
from service.schemas.fields import Choice, Flag, Number, Part, Quantity, Rows, Text, Whole
from service.schemas.payload import Payload, Written
from service.tables.drain_sizes import DRAIN_SIZES
from service.tables.pipe_sizes import MATERIALS, NOMINAL_SIZES

LONGEST_ID = 40


class ServedUnit(Payload):
    """A unit that drains into the line."""

    into = served_unit.ServedUnit

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


class JoiningUnit(ServedUnit):
    """A unit, and where it joins the line."""

    pan_outlet = Choice(
        NOMINAL_SIZES, description="Nominal size of its pan outlet; the line is never smaller from there on."
    )
    joins = Text(
        LONGEST_ID,
        description="`id` of the length it joins, at that length's upstream end; the first length when left out.",
    )


class LineLength(Payload):
    """A length of the line, between two places where water joins."""

    into = common_line.LineLength

    id = Text(LONGEST_ID, description="What it is called, for `joins`; a name of its own.")
    joins = Text(
        LONGEST_ID,
        description="`id` of the length further down the list that it runs into; the next of the list when left out, "
        "the place of disposal for the last.",
    )
    run = Quantity("length", LENGTH_LIMITS["run"], description="Horizontal length.")
    pitch_ratio = Number(
        LENGTH_LIMITS["pitch_ratio"],
        description="Its own fall over run, positive downstream; that of the line when left out.",
    )
    installed_pipe_size = Choice(
        NOMINAL_SIZES, description="Its own nominal size as built; that of the line, if it is built, when left out."
    )


class DrainSizingRequest(Payload):
    """The units that share a drain line, and what is known of the line."""

    units = Rows(
        Part(JoiningUnit, description="One unit."),
        fewest=1,
        most=MOST_UNITS,
        required=True,
        description="Every unit that drains into the line.",
    )
    lengths = Rows(
        Part(LineLength, description="One length."),
        fewest=1,
        most=MOST_LENGTHS,
        description="The lengths of a line that units join along the run, listed the way the water runs: the last one "
        "ends at the place of disposal. One length for all units when left out.",
    )
    pan_outlet = Choice(
        NOMINAL_SIZES,
        description="Nominal size of the largest pan outlet; no length is smaller. Where pan outlets differ, give each "
        "unit's own instead.",
    )
    pitch_ratio = Number(
        LIMITS["pitch_ratio"],
        description="Fall over run, positive downstream; 0.0208 is 1/4 in per ft. The code minimum of 1/8 in per ft is "
        "assumed when left out.",
    )
    material = Choice(MATERIALS, description="Kind of pipe; PVC Schedule 40 when left out.")
    installed_pipe_size = Choice(
        NOMINAL_SIZES,
        description="Nominal size of the line as built, judged against what it needs; not built yet when left out.",
    )
    manning_coefficient = Number(
        LIMITS["manning_coefficient"], description="Manning's roughness coefficient, s/m^(1/3); 0.011 when left out."
    )
    water_temperature = Quantity(
        "temperature",
        LIMITS["water_temperature"],
        description="Of the water in the line, for its viscosity; 20 degC when left out.",
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
        "along-the-run": {
            "summary": "Five rooftop units that join along the run, two of them by a branch",
            "value": {
                "units": [
                    {"total_capacity": {"value": 12.5, "unit": "ton"}, "sensible_heat_ratio": 0.72, "joins": "far end"},
                    {"total_capacity": {"value": 12.5, "unit": "ton"}, "sensible_heat_ratio": 0.72, "joins": "middle"},
                    {"total_capacity": {"value": 5, "unit": "ton"}, "sensible_heat_ratio": 0.7, "joins": "branch"},
                    {"total_capacity": {"value": 5, "unit": "ton"}, "sensible_heat_ratio": 0.7, "joins": "branch"},
                    {
                        "total_capacity": {"value": 10, "unit": "ton"},
                        "sensible_heat_ratio": 0.7,
                        "pan_outlet": "1",
                        "joins": "down pipe",
                    },
                ],
                "lengths": [
                    {"id": "far end", "run": {"value": 40, "unit": "ft"}},
                    {"id": "middle", "run": {"value": 40, "unit": "ft"}, "joins": "down pipe"},
                    {"id": "branch", "run": {"value": 15, "unit": "ft"}, "joins": "down pipe"},
                    {"id": "down pipe", "run": {"value": 20, "unit": "ft"}},
                ],
                "pitch_ratio": 0.0208,
            },
        },
        "reduced-on-the-way-si": {
            "summary": "A line as built that is reduced half way and nearly level at its end, in SI units",
            "value": {
                "units": [
                    {
                        "total_capacity": {"value": 88, "unit": "kW"},
                        "peak_flow": {"value": 40, "unit": "L/h"},
                        "joins": "A",
                    },
                    {
                        "total_capacity": {"value": 88, "unit": "kW"},
                        "peak_flow": {"value": 40, "unit": "L/h"},
                        "joins": "B",
                    },
                ],
                "lengths": [
                    {"id": "A", "run": {"value": 12, "unit": "m"}, "pitch_ratio": 0.02, "installed_pipe_size": "1-1/4"},
                    {"id": "B", "run": {"value": 18, "unit": "m"}, "pitch_ratio": 0.0005, "installed_pipe_size": "3/4"},
                ],
                "material": "copper-type-m",
                "water_temperature": {"value": 14, "unit": "degC"},
            },
        },
    }


class SizedLine(Written):
    """A line's size, and how the peak hour runs in it when clean, as installed or else as it should be."""

    pipe_size = Choice(
        NOMINAL_SIZES,
        required=True,
        nullable=True,
        description="Nominal size to install; null where the line has to be engineered.",
    )
    installed_pipe_size = Choice(
        NOMINAL_SIZES,
        required=True,
        nullable=True,
        description="Nominal size as built, as sent; null where it is not built yet.",
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
    total_capacity = Quantity(
        "power", us="ton", si="kW", required=True, description="Capacity of all units that drain through it."
    )
    peak_flow = Quantity("water_flow", required=True, description="Their condensate in the peak hour.")
    bore = Quantity(
        "length",
        required=True,
        nullable=True,
        description="Inside diameter of the pipe installed, or else of the one to install; null, like every member on "
        "how the water runs, where there is no such pipe to compute.",
    )
    full_bore_capacity = Quantity(
        "water_flow",
        required=True,
        nullable=True,
        description="What the clean line carries just full at its pitch, by Manning's formula; 0 where it does not "
        "fall.",
    )
    full_bore_velocity = Quantity(
        "velocity",
        required=True,
        nullable=True,
        description="Mean velocity when just full; 0 where the line does not fall.",
    )
    depth = Quantity(
        "length",
        required=True,
        nullable=True,
        description="Depth of water in the peak hour when clean, by Manning's formula; the lower one where two depths "
        "carry the same flow, the whole bore where the line cannot carry it, null where it does not fall.",
    )
    depth_fraction = Number(
        required=True,
        nullable=True,
        description="Depth of water over bore in the peak hour when clean; 1 where the line cannot carry it, null "
        "where it does not fall.",
    )
    velocity = Quantity(
        "velocity",
        required=True,
        nullable=True,
        description="Mean velocity at that depth; null where the line does not fall.",
    )
    reynolds = Number(
        required=True,
        nullable=True,
        description="Reynolds number of that flow on its hydraulic diameter: laminar to 2000, as a few gallons an hour "
        "are.",
    )
    laminar_depth = Quantity(
        "length",
        required=True,
        nullable=True,
        description="Depth by the law of laminar flow, which holds there instead of Manning's; null where the flow is "
        "not laminar.",
    )
    self_cleansing = Flag(
        required=True,
        nullable=True,
        description="Whether the peak hour runs at 2 ft/s or more, at which a sanitary drain keeps solids moving "
        "(National Standard Plumbing Code 2009, appendix K). Condensate hardly ever does; slime that grows on the wall "
        "is not washed off by it either.",
    )
    fouling_margin = Number(
        required=True,
        nullable=True,
        description="Share of the clean bore's area, 0 to 1, that an even film of slime may take before the peak hour "
        "fills what is left and backs up; 0 where the clean line cannot carry it.",
    )
    fouling_film_thickness = Quantity(
        "length", required=True, nullable=True, description="Thickness of that film of slime, all around the bore."
    )


class SizedLength(SizedLine):
    """One length of a common line."""

    id = Text(LONGEST_ID, required=True, nullable=True, description="Name of the length, as sent; null without one.")
    next_length = Whole(
        0,
        MOST_LENGTHS - 1,
        required=True,
        nullable=True,
        description="Place in this list, from 0, of the length it runs into; null for the last.",
    )
    pitch_ratio = Number(required=True, description="Fall over run that its flow is computed with.")
    fall = Quantity("length", required=True, nullable=True, description="Fall over its run; null without a run.")


class DrainSizingResults(SizedLine):
    """The line where everything has joined, which is its last length, and every length."""

    lengths = Rows(
        Part(SizedLength, description="One length."),
        most=MOST_LENGTHS,
        required=True,
        description="Every length, in the order sent; empty where none were.",
    )
    tightest_length = Whole(
        0,
        MOST_LENGTHS - 1,
        required=True,
        nullable=True,
        description="Place in `lengths` of the one that slime backs up first, the least `fouling_margin`; null without "
        "lengths.",
    )


DrainSizingAnswer = answer_of(DrainSizingResults, "DrainSizingAnswer")
