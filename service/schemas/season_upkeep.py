"""Payloads of ``season-upkeep``."""

from collections.abc import Callable, Mapping
from functools import cache
from typing import Any

from service.calculations import furnace_drain
from service.calculations.answer import Value
from service.calculations.dry_out_results import OUTCOMES
from service.calculations.furnace_drain import CARRIED, NEUTRALIZERS
from service.calculations.season_upkeep import LIMITS
from service.calculations.upkeep_results import Season, cautions_of
from service.schemas.assessment import AssessmentRequest
from service.schemas.envelope import answer_of
from service.schemas.fields import Choice, Flag, Number, Part, Quantity, Rows, Sentence, Text, Whole, Wording
from service.schemas.fuel_rate import FuelRateRequest, FuelRateResults
from service.schemas.payload import Payload, Written
from service.schemas.writing import filler
from service.tables.cautions import CAUTIONS
from service.tables.languages import said
from service.tables.upkeep.checks import CHECKS, CODES
from service.tables.upkeep.row import SEASONS, UpkeepRow

MONTHS = 12

_Values = Mapping[str, Value]


class Furnace(FuelRateRequest):
    """A condensing furnace or boiler, as `condensate-rate/from-fuel` takes it, and where its water goes.

    With neither `elevation` nor `station_pressure` it stands where the unit does.
    """

    into = furnace_drain.Furnace
    examples = {}

    shares_drain = Flag(description="True where its water runs into the coil's drain, false where it does not.")
    neutralizer = Choice(
        NEUTRALIZERS, description="Whether its water goes through a neutralizer; `unknown` when left out."
    )
    runs_with_cooling = Flag(
        description="True where it reheats the air while the coil takes the moisture out, so that both make water at "
        "once; false when left out."
    )


class SeasonUpkeepRequest(Payload):
    """What is known of a unit and its year. Everything may be left out: what is not known becomes a check."""

    unit = Part(AssessmentRequest, description="What is known of the unit, as `assessment` takes it.")
    furnace = Part(Furnace, description="A condensing furnace or boiler beside the cooling coil.")
    cooling_starts = Whole(
        int(LIMITS["cooling_starts"].low),
        int(LIMITS["cooling_starts"].high),
        description="First month with cooling, 1 to 12. May when left out, or four months before `cooling_ends`.",
    )
    cooling_ends = Whole(
        int(LIMITS["cooling_ends"].low),
        int(LIMITS["cooling_ends"].high),
        description="Last month with cooling; before `cooling_starts` where the year turns between the two, and the "
        "month before it where the unit cools all year. Four months after `cooling_starts` when left out.",
    )
    last_cleaned = Whole(
        int(LIMITS["last_cleaned"].low),
        int(LIMITS["last_cleaned"].high),
        description="Months since pan, trap and line were last cleaned.",
    )

    examples = {
        "attic-unit-with-furnace": {
            "summary": "An invented attic unit that shares its drain with a condensing furnace",
            "value": {
                "unit": {
                    "unit_id": "AHU-3",
                    "location": "attic",
                    "below": "finished-ceiling",
                    "can_freeze": True,
                    "cooling": {"total_capacity": {"value": 5, "unit": "ton"}, "sensible_heat_ratio": 0.74},
                    "pan_pressure": {"value": -1.2, "unit": "inH2O"},
                    "trap": {
                        "outlet_drop": {"value": 0.25, "unit": "in"},
                        "seal_depth": {"value": 2, "unit": "in"},
                        "pipe_size": "3/4",
                    },
                    "line": {
                        "pipe_size": "3/4",
                        "material": "copper-type-m",
                        "run": {"value": 32, "unit": "ft"},
                        "fall": {"value": 4, "unit": "in"},
                        "cleanout": "solvent-welded",
                    },
                    "discharge": {"place": "outdoors"},
                    "overflow_protection": {"kind": "none"},
                },
                "furnace": {
                    "fuel_input": {"value": 80000, "unit": "Btu/h"},
                    "fuel": "natural-gas",
                    "exhaust_temperature": {"value": 105, "unit": "degF"},
                    "run_fraction": 0.5,
                    "shares_drain": True,
                    "neutralizer": "missing",
                },
                "cooling_starts": 5,
                "cooling_ends": 9,
                "last_cleaned": 26,
            },
        },
        "sound-pumped-unit-si": {
            "summary": "An invented closet unit in the south, with a pump and a trap that is kept full, in SI units",
            "value": {
                "unit": {
                    "unit_id": "FC-12",
                    "location": "closet",
                    "can_freeze": False,
                    "cooling": {"total_capacity": {"value": 10.5, "unit": "kW"}, "sensible_heat_ratio": 0.75},
                    "pan_pressure": {"value": -125, "unit": "Pa"},
                    "dirty_filter_allowance": {"value": 60, "unit": "Pa"},
                    "pan": {"area": {"value": 0.28, "unit": "m2"}, "depth": {"value": 50, "unit": "mm"}},
                    "trap": {
                        "outlet_drop": {"value": 50, "unit": "mm"},
                        "seal_depth": {"value": 40, "unit": "mm"},
                        "pipe_size": "3/4",
                        "kept_full_off_season": True,
                    },
                    "line": {
                        "pipe_size": "3/4",
                        "run": {"value": 4, "unit": "m"},
                        "fall": {"value": 90, "unit": "mm"},
                        "cleanout": "removable",
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
                            "safety_float": "wired",
                        },
                    },
                    "discharge": {"place": "laundry-tray", "air_gap": True},
                    "overflow_protection": {"kind": "drain-cut-out", "cut_out_depth": {"value": 30, "unit": "mm"}},
                },
                "cooling_starts": 11,
                "cooling_ends": 3,
                "last_cleaned": 8,
            },
        },
        "sewer-connection": {
            "summary": "A trap that dries out on a sanitary line, with the heated air of the closet measured",
            "value": {
                "unit": {
                    "pan_pressure": {"value": -0.4, "unit": "inH2O"},
                    "trap": {
                        "outlet_drop": {"value": 2, "unit": "in"},
                        "seal_depth": {"value": 1.5, "unit": "in"},
                    },
                    "discharge": {"place": "sanitary-line", "air_gap": False},
                    "off_season": {
                        "unit_side_air": {"dry_bulb": {"value": 72, "unit": "degF"}, "relative_humidity_percent": 25}
                    },
                },
                "cooling_starts": 6,
                "cooling_ends": 8,
            },
        },
        "nothing-known": {"summary": "The checks that any unit needs", "value": {}},
    }


class UpkeepCheck(Written):
    """One check, and why this unit needs it."""

    code = Choice(CODES, required=True, description="Stable code of the check.")
    check = Sentence(required=True, description="What to do, with the unit's own numbers.")
    why = Sentence(required=True, description="The reason, in the unit's own facts.")
    minutes = Number(required=True, description="How long it takes once at the unit, in minutes; common practice.")
    basis = Wording(required=True, description="A code clause, `physics` or `common practice`.")
    pointer = Text(
        required=True, description="RFC 6901 pointer to the request member that calls for it; empty for every unit."
    )
    cautions = Rows(
        Choice(tuple(sorted(CAUTIONS)), description="One code."),
        most=len(CAUTIONS),
        required=True,
        description="Codes of the cautions to show with this check; their texts stand in the envelope.",
    )


@cache
def _check_writer(row: UpkeepRow, high: bool, system: str, language: str) -> Callable[[_Values, str], dict[str, Any]]:
    todo, why = filler(row.check, system, language), filler(row.why, system, language)
    code, minutes, basis, cautions = row.code, row.minutes, said(row.basis, language), [*cautions_of(row, high)]
    return lambda values, pointer: {
        "code": code,
        "check": todo(values),
        "why": why(values),
        "minutes": minutes,
        "basis": basis,
        "pointer": pointer,
        "cautions": cautions,
    }


def _months(description: str) -> Rows:
    return Rows(Whole(1, MONTHS, description="1 to 12."), most=MONTHS, required=True, description=description)


class UpkeepSeason(Written):
    """One season's work."""

    season = Choice(SEASONS, required=True, description="The season, by its work.")
    months = _months(
        "Months in which it falls due. Start-up comes in the last month before the cooling; there is no winter where "
        "the unit cools all year: do its checks in the coldest months."
    )
    checks = Rows(
        Part(UpkeepCheck, description="One check."),
        fewest=1,
        most=len(CHECKS),
        required=True,
        description="The checks, in the order of the work.",
    )
    minutes = Number(required=True, description="All of them, in minutes.")

    def own_writer(self, system: str, language: str) -> Callable[[Season], dict[str, Any]]:
        """The function that writes a season: what the rows of the table say, with the numbers of the unit."""
        return lambda season: {
            "season": season.season,
            "months": [*season.months],
            "checks": [
                _check_writer(row, season.high, system, language)(season.values, pointer)
                for row, pointer in season.checks.items()
            ],
            "minutes": season.minutes,
        }


class DaysToDryOut(Written):
    """How long the trap, full when the cooling ends, keeps its seal; as `trap-dry-out` has it."""

    earliest_loss = Quantity(
        "time",
        us="day",
        si="day",
        required=True,
        nullable=True,
        description="With moving air at the trap's ends; null for never, or more than ten years.",
    )
    latest_loss = Quantity(
        "time",
        us="day",
        si="day",
        required=True,
        nullable=True,
        description="The latest it is lost, with still air; null likewise.",
    )
    refill_interval = Quantity(
        "time",
        us="day",
        si="day",
        required=True,
        nullable=True,
        description="How often the full trap must be refilled to be sure of its seal; null where it never must, or "
        "where refilling does not help.",
    )
    outcome = Choice(
        OUTCOMES,
        required=True,
        nullable=True,
        description="What becomes of the seal until the cooling starts again; null where the unit cools all year.",
    )


class GrowthSeason(Written):
    """The season in which slime grows."""

    months = _months("Months with cooling, in their order.")
    least_months_since = Whole(
        0,
        int(LIMITS["last_cleaned"].high),
        required=True,
        nullable=True,
        description="Fewest months with cooling since the last cleaning, whichever month it is now; null where "
        "`last_cleaned` was not sent.",
    )
    most_months_since = Whole(
        0, int(LIMITS["last_cleaned"].high), required=True, nullable=True, description="Most of them; null likewise."
    )
    note = Sentence(required=True, description="What that does to the drain.")


class SharedDrain(Written):
    """What a drain shared by coil and furnace has to carry."""

    coil_peak = Quantity(
        "water_flow",
        required=True,
        nullable=True,
        description="Condensate of the coil in its peak hour; null if unknown.",
    )
    furnace_peak = Quantity("water_flow", required=True, description="Water of the furnace while it burns.")
    carries = Choice(
        CARRIED,
        required=True,
        nullable=True,
        description="Whose water counts: the larger of the two, or `both` where they run together; null if unknown.",
    )
    peak_flow = Quantity(
        "water_flow", required=True, nullable=True, description="What the drain has to carry; null if unknown."
    )
    capacity = Quantity(
        "water_flow",
        required=True,
        nullable=True,
        description="What the pump moves, or the clean line carries; null where it was not worked out.",
    )


class SeasonUpkeepResults(Written):
    """The four seasons of a unit, and the numbers behind their checks."""

    unit_id = Text(required=True, nullable=True, description="Name of the unit, as sent.")
    seasons = Rows(
        Part(UpkeepSeason, description="One season."),
        fewest=len(SEASONS),
        most=len(SEASONS),
        required=True,
        description="All four, in the order of the work.",
    )
    minutes = Number(required=True, description="All checks of the year, in minutes.")
    idle_time = Quantity(
        "time",
        us="day",
        si="day",
        required=True,
        description="Time without condensate between two seasons of cooling, in the longest year: `unit.off_season` as "
        "sent, by the months, or the longer where both were sent.",
    )
    days_to_dry_out = Part(
        DaysToDryOut,
        required=True,
        nullable=True,
        description="How long the trap keeps its seal; null without one, where it is kept full, or where its outlet "
        "lies above the pan outlet.",
    )
    growth_season = Part(GrowthSeason, required=True, description="When slime grows.")
    furnace_condensate = Part(
        FuelRateResults, required=True, nullable=True, description="As `condensate-rate/from-fuel` has it."
    )
    shared_drain = Part(
        SharedDrain, required=True, nullable=True, description="Where the furnace is said to share the drain."
    )


SeasonUpkeepAnswer = answer_of(SeasonUpkeepResults, "SeasonUpkeepAnswer")
