"""Payloads of ``assessment``."""

from typing import ClassVar

from service.calculations import installation
from service.calculations.answer import VERDICTS
from service.calculations.condensate_rate import LIMITS as RATE_LIMITS
from service.calculations.gathering import ASSESSED, NOT_ASSESSED
from service.calculations.trap_check import LIMITS as TRAP_LIMITS
from service.schemas.condensate_rate import AirStatesRateResults, CapacityRateResults, CoilRateResults
from service.schemas.drain_pitch import DrainPitchResults
from service.schemas.drain_sizing import DrainSizingResults
from service.schemas.drain_survey import DrainSurveyResults
from service.schemas.envelope import answer_of
from service.schemas.fields import Choice, Flag, Number, Part, Quantity, Rows, Text, Wording
from service.schemas.installation import (
    AirStates,
    Coil,
    Cooling,
    Discharge,
    LineAsBuilt,
    MeasuredRate,
    OffSeason,
    PumpAsBuilt,
    TrapAsBuilt,
)
from service.schemas.overflow_protection import Protection, WaterPan
from service.schemas.overflow_results import OverflowTimeResults
from service.schemas.payload import Payload, Written
from service.schemas.pump_run import PumpRunResults
from service.schemas.trap_check import TrapCheckResults
from service.schemas.trap_dry_out import TrapDryOutResults
from service.schemas.trap_sizing import TrapSizingResults

LONGEST_ID = 80
LONGEST_DESCRIPTION = 300


class AssessmentRequest(Payload):
    """What is known of one unit. Every part is optional; at least one thing to assess must be there."""

    at_least_one_of: ClassVar[tuple[str, ...]] = (
        "cooling",
        "air_states",
        "coil",
        "measured_rate",
        "pan_pressure",
        "line",
        "pump",
        "discharge",
        "overflow_protection",
    )
    at_most_one_of = ("elevation", "station_pressure")

    unit_id = Text(LONGEST_ID, description="The caller's identification of the unit; repeated back.")
    description = Text(LONGEST_DESCRIPTION, description="Free text for the reader; not interpreted.")
    location = Choice(installation.LOCATIONS, description="Where the unit stands.")
    below = Choice(installation.BELOW, description="What its water would wet first.")
    can_freeze = Flag(description="True where trap or line stand below freezing at times.")
    elevation = Quantity(
        "length",
        RATE_LIMITS["elevation"],
        us="ft",
        si="m",
        description="Elevation of the site; sea level when left out. Excludes `station_pressure`.",
    )
    station_pressure = Quantity(
        "pressure",
        RATE_LIMITS["station_pressure"],
        description="Barometric pressure at the site, not reduced to sea level.",
    )
    run_fraction = Number(RATE_LIMITS["run_fraction"], description="Share of the day the unit cools; 1 when left out.")
    cooling = Part(Cooling, description="Rated capacity.")
    air_states = Part(AirStates, description="Air measured on both sides of the coil.")
    coil = Part(Coil, description="Entering air and the coil's capacity.")
    measured_rate = Part(MeasuredRate, description="A rate caught in a jug.")
    pan = Part(WaterPan, description="The unit's own pan.")
    pan_pressure = Quantity(
        "pressure",
        TRAP_LIMITS["pan_pressure"],
        description="Pressure in the pan with the fan on; negative where the coil is upstream of the fan.",
    )
    dirty_filter_allowance = Quantity(
        "pressure", TRAP_LIMITS["dirty_filter_allowance"], description="Suction a dirty filter adds."
    )
    trap = Part(TrapAsBuilt, description="The trap as measured.")
    line = Part(LineAsBuilt, description="The drain line.")
    pump = Part(PumpAsBuilt, description="The condensate pump.")
    discharge = Part(Discharge, description="Where the water goes.")
    overflow_protection = Part(Protection, description="What stops the water when the drain blocks.")
    off_season = Part(OffSeason, description="The season without condensate, in which the trap dries out.")

    examples = {
        "attic-unit": {
            "summary": "An invented 7.5 ton attic unit with most things wrong",
            "value": {
                "unit_id": "AHU-3",
                "description": "Invented: attic above the reading room of a library that does not exist",
                "location": "attic",
                "below": "finished-ceiling",
                "elevation": {"value": 650, "unit": "ft"},
                "run_fraction": 0.6,
                "cooling": {"total_capacity": {"value": 7.5, "unit": "ton"}, "sensible_heat_ratio": 0.74},
                "air_states": {
                    "air_flow": {"value": 2900, "unit": "cfm"},
                    "entering_air": {
                        "dry_bulb": {"value": 80, "unit": "degF"},
                        "wet_bulb": {"value": 67, "unit": "degF"},
                    },
                    "leaving_air": {"dry_bulb": {"value": 57, "unit": "degF"}, "relative_humidity_percent": 92},
                },
                "measured_rate": {"volume": {"value": 1, "unit": "gal"}, "time": {"value": 20, "unit": "min"}},
                "pan": {"area": {"value": 6, "unit": "ft2"}, "depth": {"value": 2, "unit": "in"}},
                "pan_pressure": {"value": -1.2, "unit": "inH2O"},
                "dirty_filter_allowance": {"value": 0.5, "unit": "inH2O"},
                "trap": {
                    "outlet_drop": {"value": 0.25, "unit": "in"},
                    "seal_depth": {"value": 2, "unit": "in"},
                    "pipe_size": "3/4",
                    "kept_full_off_season": False,
                },
                "line": {
                    "pipe_size": "3/4",
                    "run": {"value": 32, "unit": "ft"},
                    "fall": {"value": 4, "unit": "in"},
                    "pan_outlet": "3/4",
                    "cleanout": "solvent-welded",
                    "support_spacing": {"value": 6, "unit": "ft"},
                },
                "discharge": {"place": "sanitary-line", "air_gap": False},
                "overflow_protection": {"kind": "none"},
            },
        },
        "pumped-unit": {
            "summary": "An invented closet unit with a pump, well built, in SI units",
            "value": {
                "unit_id": "FC-12",
                "location": "closet",
                "below": "occupied-space",
                "cooling": {"total_capacity": {"value": 10.5, "unit": "kW"}, "sensible_heat_ratio": 0.75},
                "pan": {"area": {"value": 0.28, "unit": "m2"}, "depth": {"value": 50, "unit": "mm"}},
                "pan_pressure": {"value": -125, "unit": "Pa"},
                "dirty_filter_allowance": {"value": 60, "unit": "Pa"},
                "trap": {
                    "outlet_drop": {"value": 50, "unit": "mm"},
                    "seal_depth": {"value": 40, "unit": "mm"},
                    "pipe_size": "3/4",
                },
                "pump": {
                    "lift": {"value": 2.7, "unit": "m"},
                    "tube": {
                        "bore": {"value": 9.5, "unit": "mm"},
                        "length": {"value": 8.5, "unit": "m"},
                        "elbows": 3,
                        "check_valve": True,
                    },
                    "pump": {
                        "curve": [
                            {"lift": {"value": 0, "unit": "m"}, "flow": {"value": 300, "unit": "L/h"}},
                            {"lift": {"value": 3, "unit": "m"}, "flow": {"value": 190, "unit": "L/h"}},
                            {"lift": {"value": 6, "unit": "m"}, "flow": {"value": 0, "unit": "L/h"}},
                        ],
                        "tank_volume_between_floats": {"value": 0.9, "unit": "L"},
                        "volume_to_safety_float": {"value": 0.5, "unit": "L"},
                        "volume_to_overflow": {"value": 1.2, "unit": "L"},
                        "safety_float": "wired",
                    },
                },
                "discharge": {"place": "laundry-tray", "air_gap": True},
                "overflow_protection": {"kind": "drain-cut-out", "cut_out_depth": {"value": 30, "unit": "mm"}},
            },
        },
        "little-known": {
            "summary": "Only the capacity and the pan pressure are known",
            "value": {
                "cooling": {"total_capacity": {"value": 3, "unit": "ton"}},
                "pan_pressure": {"value": -0.5, "unit": "inH2O"},
            },
        },
        "surveyed-line": {
            "summary": "An invented unit whose line was measured at its hangers and sags",
            "value": {
                "unit_id": "AHU-9",
                "cooling": {"total_capacity": {"value": 5, "unit": "ton"}, "sensible_heat_ratio": 0.75},
                "line": {
                    "pipe_size": "3/4",
                    "pan_outlet": "3/4",
                    "cleanout": "removable",
                    "stations": [
                        {
                            "distance": {"value": feet, "unit": "ft"},
                            "drop_below_level_line": {"value": inches, "unit": "in"},
                        }
                        for feet, inches in ((0, 14), (4, 15), (8, 17.25), (12, 17), (16, 18), (20, 19))
                    ],
                },
                "discharge": {"place": "mop-sink", "air_gap": True},
            },
        },
        "contradicting-reading": {
            "summary": "A wet bulb above the dry bulb costs its part only",
            "value": {
                "air_states": {
                    "air_flow": {"value": 1200, "unit": "cfm"},
                    "entering_air": {
                        "dry_bulb": {"value": 67, "unit": "degF"},
                        "wet_bulb": {"value": 80, "unit": "degF"},
                    },
                    "leaving_air": {"dry_bulb": {"value": 57, "unit": "degF"}, "relative_humidity_percent": 92},
                },
                "line": {"run": {"value": 20, "unit": "ft"}, "fall": {"value": 5, "unit": "in"}},
            },
        },
    }


class PartVerdict(Written):
    """One part of the assessment."""

    part = Text(required=True, description="The part, in the order water takes.")
    status = Choice((ASSESSED, NOT_ASSESSED), required=True, description="Whether there was enough to assess it.")
    verdict = Choice(VERDICTS, required=True, description="Verdict of this part's findings.")


class AssessmentResults(Written):
    """All results of one unit; null where a part could not be calculated or was not sent."""

    unit_id = Text(required=True, nullable=True, description="Name of the unit, as sent.")
    parts = Rows(
        Part(PartVerdict, description="One part."), most=20, required=True, description="Every part and its verdict."
    )
    peak_rate = Quantity(
        "water_flow",
        required=True,
        nullable=True,
        description="Condensate the drain must carry in the peak hour: the largest of all rates known.",
    )
    peak_rate_basis = Wording(required=True, nullable=True, description="Which rate that is.")
    daily_volume = Quantity(
        "volume", required=True, nullable=True, description="Water in a day at the run fraction, from the same basis."
    )
    measured_rate = Quantity("water_flow", required=True, nullable=True, description="The rate caught.")
    measured_to_predicted = Number(
        required=True,
        nullable=True,
        description="Caught over computed rate; against the air states where they were sent.",
    )
    rate_from_capacity = Part(
        CapacityRateResults, required=True, nullable=True, description="Water made, from rated capacity."
    )
    rate_from_air_states = Part(
        AirStatesRateResults,
        required=True,
        nullable=True,
        description="Water made, from the air on both sides of the coil.",
    )
    rate_from_coil = Part(
        CoilRateResults,
        required=True,
        nullable=True,
        description="Water made, from entering air and the capacity of the coil.",
    )
    trap_check = Part(TrapCheckResults, required=True, nullable=True, description="The trap as built.")
    trap_sizing = Part(
        TrapSizingResults, required=True, nullable=True, description="The trap needed, where none was described."
    )
    trap_dry_out = Part(
        TrapDryOutResults,
        required=True,
        nullable=True,
        description="How long the trap keeps its seal out of season: where it drains to a sanitary or soil line with "
        "no air gap, or where `off_season` was sent; null also where the trap is kept full.",
    )
    drain_pitch = Part(DrainPitchResults, required=True, nullable=True, description="Fall of the line.")
    drain_sizing = Part(DrainSizingResults, required=True, nullable=True, description="Size the line needs.")
    drain_survey = Part(
        DrainSurveyResults, required=True, nullable=True, description="The line's stations and its standing water."
    )
    pump_run = Part(PumpRunResults, required=True, nullable=True, description="The pump at the peak rate.")
    overflow_time = Part(OverflowTimeResults, required=True, nullable=True, description="Time there is when it blocks.")


AssessmentAnswer = answer_of(AssessmentResults, "AssessmentAnswer")
