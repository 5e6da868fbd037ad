"""Payloads of ``condensate-rate/series``."""

from collections.abc import Mapping
from typing import Any, ClassVar

from service.calculations import air_column
from service.calculations.air_state import HUMIDITIES
from service.calculations.condensate_series import ALWAYS_ROW_BY_ROW, LIMITS, MOST_ROWS, CoilRating, Reuse
from service.calculations.condensate_series_results import STATUSES
from service.schemas.columns import LocalTime, NumberColumn, QuantityColumn
from service.schemas.condensate_rate import AirStatesRateRequest, LeavingAir
from service.schemas.envelope import answer_of
from service.schemas.fields import Choice, Flag, Number, Part, Quantity, Rows, Text, Whole
from service.schemas.payload import Payload, Written

_AIR = air_column.LIMITS
_FIELDS = AirStatesRateRequest().fields


class EnteringAirColumns(Payload):
    """Air entering the coil, a value for each row: dry bulb and exactly one measure of humidity."""

    into = air_column.AirColumns
    exactly_one_of = HUMIDITIES

    dry_bulb = QuantityColumn(
        "temperature", _AIR["dry_bulb"], most=MOST_ROWS, required=True, description="Dry-bulb temperatures."
    )
    wet_bulb = QuantityColumn(
        "temperature",
        _AIR["wet_bulb"],
        most=MOST_ROWS,
        description="Wet-bulb temperatures. Give this, `relative_humidity_percent` or `dew_point`.",
    )
    relative_humidity_percent = NumberColumn(
        _AIR["relative_humidity_percent"],
        most=MOST_ROWS,
        description="Relative humidities in percent, a plain array. Give this, `wet_bulb` or `dew_point`.",
    )
    dew_point = QuantityColumn(
        "temperature",
        _AIR["dew_point"],
        most=MOST_ROWS,
        description="Dew points. Give this, `wet_bulb` or `relative_humidity_percent`.",
    )


class SeriesCoil(Payload):
    """What the coil does whenever it runs; the leaving air is solved for, row by row."""

    into = CoilRating

    total_capacity = Quantity(
        "power", LIMITS["total_capacity"], required=True, description="Heat the coil takes out, sensible and latent."
    )
    bypass_factor = Number(
        LIMITS["bypass_factor"],
        required=True,
        description="Part of the air that misses the coil's surface; 0.05 to 0.3 for most coils (common practice).",
    )


class SeriesReuse(Payload):
    """Use of the water, the series repeating itself."""

    into = Reuse

    daily_demand = Quantity(
        "volume", LIMITS["daily_demand"], required=True, description="Water wanted each day, drawn evenly over it."
    )
    tank_volume = Quantity(
        "volume", LIMITS["tank_volume"], description="Tank there is; without it only the needed one is told."
    )


def _hours(text: str, count: int = 24) -> list[float]:
    """An example's column, its values repeated to ``count``."""
    values = [float(word) for word in text.split()]
    return (values * count)[:count]


DAY_DRY_BULB = "76 75 75 74 74 74 76 79 82 85 88 90 92 93 94 94 93 91 88 85 82 80 78 77"
DAY_DEW_POINT = "72 72 72 71 71 71 72 73 74 74 75 75 75 76 76 76 75 75 75 74 74 73 73 72"


class RateSeriesRequest(Payload):
    """Columns of entering air, the air flow, and the air leaving the coil or the coil's capacity."""

    exactly_one_of = ("leaving_air", "coil")
    at_most_one_of = ("elevation", "station_pressure")

    start = LocalTime(
        required=True,
        description="Local standard time at which the first row begins: a date, or date and time, 1900 to 2099, "
        "without a zone. Of a typical year take any year with as many days.",
    )
    step = Quantity(
        "time", LIMITS["step"], description="Length of a row; 1 h when left out. Rows follow each other without a gap."
    )
    air_flow = Quantity(
        "air_flow",
        LIMITS["air_flow"],
        required=True,
        description="Volume flow of air over the coil while it runs; an actual flow is that of the entering air.",
    )
    entering_air = Part(
        EnteringAirColumns,
        required=True,
        description="Air entering the coil, row by row: outdoor air, or the mixture with return air. Columns of "
        "different length are computed as far as the shortest goes, with a finding.",
    )
    leaving_air = Part(LeavingAir, description="Air leaving the coil, the same whenever it runs. Give this or `coil`.")
    coil = Part(SeriesCoil, description="Capacity and bypass factor of the coil. Give this or `leaving_air`.")
    run_fraction = NumberColumn(
        LIMITS["run_fraction"],
        most=MOST_ROWS,
        description="Part of each row in which the coil runs, a plain array; a single value stands for every row. 1, "
        "all the time, when left out.",
    )
    off_below = Quantity(
        "temperature", LIMITS["off_below"], description="Entering dry bulb below which the cooling is off."
    )
    air_flow_basis = _FIELDS["air_flow_basis"]
    elevation = _FIELDS["elevation"]
    station_pressure = _FIELDS["station_pressure"]
    drain_capacity = Quantity(
        "water_flow", LIMITS["drain_capacity"], description="What the drain line or the pump carries away."
    )
    reuse = Part(SeriesReuse, description="Demand the water is to meet, and the tank for it.")
    hourly = Flag(
        description="`true`: answer the rate of every row too, about 100 kB for a year. Up to "
        f"{ALWAYS_ROW_BY_ROW} rows are answered in any case."
    )

    examples: ClassVar[Mapping[str, Any]] = {
        "humid-day": {
            "summary": "Outdoor air on a humid day, more water at the peak than the pump takes",
            "value": {
                "start": "2026-07-14",
                "air_flow": {"value": 2000, "unit": "cfm"},
                "entering_air": {
                    "dry_bulb": {"values": _hours(DAY_DRY_BULB), "unit": "degF"},
                    "dew_point": {"values": _hours(DAY_DEW_POINT), "unit": "degF"},
                },
                "leaving_air": {"dry_bulb": {"value": 55, "unit": "degF"}, "relative_humidity_percent": 95},
                "elevation": {"value": 30, "unit": "ft"},
                "drain_capacity": {"value": 10, "unit": "gal/h"},
            },
        },
        "coil-si": {
            "summary": "A coil that cycles, four hours each row, and a tank for its water",
            "value": {
                "start": "2027-02-27T00:00",
                "step": {"value": 4, "unit": "h"},
                "air_flow": {"value": 600, "unit": "L/s"},
                "entering_air": {
                    "dry_bulb": {"values": _hours("19.5 19 23 29 31 24", 18), "unit": "degC"},
                    "relative_humidity_percent": _hours("88 90 75 55 48 72", 18),
                },
                "coil": {"total_capacity": {"value": 10.5, "unit": "kW"}, "bypass_factor": 0.12},
                "run_fraction": _hours("0.2 0 0.4 0.8 1 0.5", 18),
                "station_pressure": {"value": 99.5, "unit": "kPa"},
                "reuse": {"daily_demand": {"value": 60, "unit": "L"}, "tank_volume": {"value": 15, "unit": "L"}},
            },
        },
        "misread-rows": {
            "summary": "A wet bulb swapped with its dry bulb, a row missing from one column, and cool nights",
            "value": {
                "start": "2026-05-02T20:00",
                "air_flow": {"value": 1200, "unit": "cfm"},
                "air_flow_basis": "standard",
                "entering_air": {
                    "dry_bulb": {"values": [71, 68, 66, 61, 59, 58], "unit": "degF"},
                    "wet_bulb": {"values": [66, 65, 70, 58, 57], "unit": "degF"},
                },
                "leaving_air": {"dry_bulb": {"value": 55, "unit": "degF"}, "relative_humidity_percent": 92},
                "off_below": {"value": 60, "unit": "degF"},
                "run_fraction": [0.5],
            },
        },
    }


class PeakDay(Written):
    """The day with the most water."""

    date = Text(required=True, description="ISO 8601 date.")
    volume = Quantity("volume", required=True, description="Water of the day.")


class MonthTotal(Written):
    """Water of one month."""

    month = Text(required=True, description="ISO 8601 month, as `2026-07`.")
    volume = Quantity("volume", required=True, description="Water made.")
    peak_rate = Quantity("water_flow", required=True, description="Largest rate while the coil runs.")
    wet_time = Quantity("time", us="h", si="h", required=True, description="Time in which water is made.")
    rows = Whole(1, MOST_ROWS, required=True, description="Rows that begin in the month.")
    rows_without_rate = Whole(0, MOST_ROWS, required=True, description="How many of them have no rate and add nothing.")


class DayTotals(Written):
    """Water of each day, as columns of one length."""

    dates = Rows(Text(description="ISO 8601 date."), most=MOST_ROWS, required=True, description="The days in order.")
    volumes = QuantityColumn("volume", most=MOST_ROWS, required=True, description="Water of each day.")
    peak_rates = QuantityColumn(
        "water_flow", most=MOST_ROWS, required=True, description="Largest rate of each day while the coil runs."
    )


class StorageResults(Written):
    """Re-use of the water, the series repeating itself: with a tank, inflow = used + spilled + end - start."""

    demand = Quantity("volume", required=True, description="Water wanted over the series.")
    needed_volume = Quantity(
        "volume",
        required=True,
        nullable=True,
        description="Smallest tank with which the demand never fails (sequent peak); null where more is wanted than "
        "comes.",
    )
    sustainable_daily_demand = Quantity(
        "volume", required=True, description="The most that any tank can give each day: all the water, evenly."
    )
    used = Quantity("volume", required=True, nullable=True, description="Water drawn; null without a tank.")
    spilled = Quantity(
        "volume", required=True, nullable=True, description="Water run over from the full tank; null without a tank."
    )
    shortfall = Quantity(
        "volume", required=True, nullable=True, description="Water lacking for the demand; null without a tank."
    )
    start_volume = Quantity(
        "volume", required=True, nullable=True, description="In the tank before the first row; null without a tank."
    )
    end_volume = Quantity(
        "volume", required=True, nullable=True, description="In the tank after the last row; null without a tank."
    )
    met_fraction = Number(
        required=True, nullable=True, description="Part of the demand that is met; null without a tank."
    )
    short_time = Quantity(
        "time",
        us="h",
        si="h",
        required=True,
        nullable=True,
        description="Time in which the demand is not met in full; null without a tank.",
    )


class RowRates(Written):
    """Every row, as columns of one length."""

    rates = QuantityColumn(
        "water_flow",
        most=MOST_ROWS,
        gaps=True,
        required=True,
        description="Water made while the coil runs; null where the row has no rate.",
    )
    statuses = Rows(
        Choice(STATUSES, description="Status of a row."),
        most=MOST_ROWS,
        required=True,
        description="`wet`: makes water. `dry`: makes none. `off`: the cooling is off. `misread`: no air reads so. "
        "`beyond-air`: the air cannot give up so much heat. The last two have no rate.",
    )


class RateSeriesResults(Written):
    """Water made hour by hour; totals and peaks are null where no row has a rate."""

    rows = Whole(1, MOST_ROWS, required=True, description="Rows computed.")
    rows_without_rate = Whole(0, MOST_ROWS, required=True, description="How many of them have no rate and add nothing.")
    total_volume = Quantity("volume", required=True, nullable=True, description="Water of the whole series.")
    average_daily_volume = Quantity(
        "volume", required=True, nullable=True, description="The same, spread over the length of the series."
    )
    peak_rate = Quantity(
        "water_flow",
        required=True,
        nullable=True,
        description="Largest rate while the coil runs: size the drain for it.",
    )
    peak_time = Text(
        required=True, nullable=True, description="Local time at which its row begins; null too where no water is made."
    )
    peak_index = Whole(
        0, MOST_ROWS, required=True, nullable=True, description="Its place in the columns, counted from 0."
    )
    peak_day = Part(PeakDay, required=True, nullable=True, description="The day with the most water.")
    wet_time = Quantity(
        "time",
        us="h",
        si="h",
        required=True,
        nullable=True,
        description="Time in which water is made, run fraction counted.",
    )
    time_above_capacity = Quantity(
        "time",
        us="h",
        si="h",
        required=True,
        nullable=True,
        description="Time in which more comes than `drain_capacity`, run fraction counted; null without it.",
    )
    monthly = Rows(
        Part(MonthTotal, description="One month."),
        most=MOST_ROWS,
        required=True,
        description="Months from the first row's to the last's.",
    )
    daily = Part(DayTotals, required=True, description="Days from the first row's to the last's.")
    storage = Part(
        StorageResults, required=True, nullable=True, description="Re-use of the water; null without `reuse`."
    )
    hourly = Part(RowRates, required=True, nullable=True, description="Every row, where asked for.")


RateSeriesAnswer = answer_of(RateSeriesResults, "RateSeriesAnswer")
