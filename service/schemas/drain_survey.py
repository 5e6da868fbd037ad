"""Payloads of ``drain-survey``."""

from service.calculations import drain_profile
from service.calculations.drain_segment import JUDGEMENTS
from service.calculations.drain_survey import FEWEST_STATIONS, LIMITS, MOST_STATIONS
from service.schemas.envelope import answer_of
from service.schemas.fields import Choice, Flag, Number, Part, Quantity, Rows, Whole
from service.schemas.payload import Payload, Written
from service.tables.pipe_sizes import MATERIALS, NOMINAL_SIZES


class Station(Payload):
    """A place along the line where its height was measured."""

    into = drain_profile.Station
    exactly_one_of = ("invert", "drop_below_level_line")

    distance = Quantity(
        "length",
        LIMITS["distance"],
        us="ft",
        si="m",
        required=True,
        description="Horizontal distance downstream from any one point, usually the pan or trap outlet.",
    )
    invert = Quantity(
        "length",
        LIMITS["invert"],
        description="Height of the pipe's inside bottom above any one datum, up positive. Or `drop_below_level_line`.",
    )
    drop_below_level_line = Quantity(
        "length",
        LIMITS["drop_below_level_line"],
        description="From a level line (a laser, a stretched string) down to the pipe's inside bottom, instead of "
        "`invert`. Use one kind for the whole survey; where kinds are mixed, give `level_line_height`.",
    )


STATIONS_DESCRIPTION = (
    "The stations, from the pan or trap to the discharge. They are taken in order of distance; two at one distance are "
    "a vertical drop or riser and keep the order they are sent in. Between stations the pipe is taken as straight."
)
TOLERANCE_DESCRIPTION = (
    "How far the height of one station may be off, either way; 1/16 in (1.6 mm) when left out. A fault no larger than "
    "two readings may be off together is reported as in doubt."
)
LEVEL_LINE_DESCRIPTION = (
    "Height of the level line above the datum of the inverts; 0 when left out: heights then count from the level line."
)
OUTLET_DESCRIPTION = (
    "Standing water over the pipe's inside bottom at the last station; 0, a free outfall, when left out."
)


class DrainSurveyRequest(Payload):
    """Stations along a drain line and the pipe it is made of."""

    pipe_size = Choice(NOMINAL_SIZES, required=True, description="Nominal size of the line.")
    material = Choice(MATERIALS, description="Kind of pipe, which gives the bore; PVC Schedule 40 when left out.")
    stations = Rows(
        Part(Station, description="One station."),
        fewest=FEWEST_STATIONS,
        most=MOST_STATIONS,
        required=True,
        description=STATIONS_DESCRIPTION,
    )
    measurement_tolerance = Quantity("length", LIMITS["measurement_tolerance"], description=TOLERANCE_DESCRIPTION)
    level_line_height = Quantity("length", LIMITS["level_line_height"], description=LEVEL_LINE_DESCRIPTION)
    water_depth_at_outlet = Quantity("length", LIMITS["water_depth_at_outlet"], description=OUTLET_DESCRIPTION)

    examples = {
        "belly": {
            "summary": "A line that sags between hangers: one pond deep enough to be a second trap, one shallow",
            "value": {
                "pipe_size": "3/4",
                "stations": [
                    {"distance": {"value": feet, "unit": "ft"}, "invert": {"value": inches, "unit": "in"}}
                    for feet, inches in ((0, 10), (4, 9), (8, 6.5), (12, 7.75), (16, 6.5), (20, 6.75), (24, 5), (28, 4))
                ],
            },
        },
        "falls-all-the-way": {
            "summary": "A line hung every 4 ft at a little over 1/4 in per ft",
            "value": {
                "pipe_size": "1",
                "material": "copper-type-m",
                "stations": [
                    {"distance": {"value": feet, "unit": "ft"}, "invert": {"value": inches, "unit": "in"}}
                    for feet, inches in ((0, 5.5), (4, 4.375), (8, 3.25), (12, 2.125), (16, 1.0), (20, 0.0))
                ],
                "measurement_tolerance": {"value": 0.0625, "unit": "in"},
            },
        },
        "level-line-si": {
            "summary": "Drops below a laser line, in SI units: too little fall, a vertical drop, then back-fall to a "
            "discharge under water",
            "value": {
                "pipe_size": "1-1/4",
                "material": "pvc-schedule-40",
                "stations": [
                    {
                        "distance": {"value": metres, "unit": "m"},
                        "drop_below_level_line": {"value": millimetres, "unit": "mm"},
                    }
                    for metres, millimetres in ((0, 212), (1.2, 218), (2.4, 231), (2.4, 640), (3.6, 652), (4.8, 640))
                ],
                "measurement_tolerance": {"value": 1, "unit": "mm"},
                "water_depth_at_outlet": {"value": 20, "unit": "mm"},
            },
        },
    }


def _feet(description: str) -> Quantity:
    """A distance along the line, as an answer writes it."""
    return Quantity("length", us="ft", si="m", required=True, description=description)


class SurveySegment(Written):
    """The line between two stations that follow each other."""

    first_station = Whole(0, MOST_STATIONS - 1, required=True, description="Upstream station: place in the request.")
    last_station = Whole(0, MOST_STATIONS - 1, required=True, description="Downstream station: place in the request.")
    start = _feet("Distance of the upstream station.")
    end = _feet("Distance of the downstream station.")
    length = _feet("Horizontal length.")
    fall = Quantity("length", required=True, description="Drop of the inside bottom; negative where it rises.")
    pitch_ratio = Number(
        required=True, nullable=True, description="Fall over length; null for a vertical drop or riser."
    )
    pitch_per_foot = Quantity("length", required=True, nullable=True, description="Fall in one foot of length.")
    pitch_tolerance = Number(
        required=True,
        nullable=True,
        description="How far `pitch_ratio` may be off, either way, by the tolerance of both readings.",
    )
    judgement = Choice(
        JUDGEMENTS,
        required=True,
        description="By the reading: `usual` from 1/4 in per ft (2 %), `minimum` from 1/8 in per ft (1 %), "
        "`below-minimum`, `flat`, `back-fall`; `drop` and `riser` where it is vertical.",
    )
    within_tolerance = Flag(required=True, description="True where another judgement is possible within the tolerance.")


class PondCorrection(Written):
    """The easier of two ways to let a pond's water out: fewer stations to move."""

    move = Choice(
        ("raise", "lower"),
        required=True,
        description="Raise every station under water, or lower every station that holds it back.",
    )
    station = Whole(0, MOST_STATIONS - 1, required=True, description="Station to move most: place in the request.")
    station_count = Whole(1, MOST_STATIONS, required=True, description="Stations to move, this one among them.")
    by = Quantity("length", required=True, description="How far that one moves so that nothing stands.")
    by_for_minimum_pitch = Quantity(
        "length",
        required=True,
        description="The farthest one of them moves to give the pipe up to the sill the code's minimum pitch.",
    )


class Pond(Written):
    """Water that stands in the line when the drain has stopped."""

    start = _feet("Distance where it begins, on the slope that falls into it.")
    end = _feet("Distance where it ends, at its sill.")
    depth = Quantity("length", required=True, description="Greatest depth over the inside bottom.")
    level = Quantity("length", required=True, description="Height of its surface above the datum.")
    volume = Quantity("volume", required=True, nullable=True, description="Water in it; null without a known bore.")
    fills_bore = Flag(
        required=True, nullable=True, description="True where the water reaches the top of the bore: a second trap."
    )
    full_bore_length = Quantity(
        "length", us="ft", si="m", required=True, nullable=True, description="Length over which it does."
    )
    low_station = Whole(0, MOST_STATIONS - 1, required=True, description="Its lowest station: place in the request.")
    sill_station = Whole(
        0, MOST_STATIONS - 1, required=True, description="Station whose height holds it back: place in the request."
    )
    reaches_pan = Flag(required=True, description="True where it stands back to the first station: into trap or pan.")
    held_by_outlet = Flag(required=True, description="True where the water at the discharge holds it back.")
    correction = Part(PondCorrection, required=True, description="What to move and how far.")


class SurveyedStation(Written):
    """A station in its place along the line."""

    station = Whole(0, MOST_STATIONS - 1, required=True, description="Its place in the request, from 0.")
    distance = _feet("Distance along the line, as sent.")
    invert = Quantity("length", required=True, description="Height of the inside bottom above the datum.")
    water_depth = Quantity("length", required=True, description="Water over the inside bottom when the drain stopped.")
    raise_for_minimum_pitch = Quantity(
        "length",
        required=True,
        description="How far to raise it to give the whole line the code's minimum pitch by raising alone.",
    )
    lower_for_minimum_pitch = Quantity(
        "length", required=True, description="How far to lower it to do that by lowering alone."
    )


class DrainSurveyResults(Written):
    """The line as surveyed, in order downstream."""

    run = _feet("Horizontal distance from the first station to the last.")
    total_fall = Quantity("length", required=True, description="Drop of the inside bottom from the first to the last.")
    pitch_ratio = Number(required=True, nullable=True, description="Total fall over run; null for a vertical line.")
    pitch_per_foot = Quantity("length", required=True, nullable=True, description="Total fall in one foot of run.")
    least_pitch_ratio = Number(
        required=True, nullable=True, description="Smallest pitch of a segment, negative where one rises."
    )
    bore = Quantity(
        "length", required=True, nullable=True, description="Inside diameter; null if no such pipe is made."
    )
    measurement_tolerance = Quantity("length", required=True, description="The tolerance used.")
    standing_volume = Quantity(
        "volume", required=True, nullable=True, description="Water that stands in all ponds; fittings not counted."
    )
    ponds = Rows(
        Part(Pond, description="One pond."), most=MOST_STATIONS, required=True, description="Where water stands."
    )
    segments = Rows(
        Part(SurveySegment, description="One segment."),
        most=MOST_STATIONS,
        required=True,
        description="The line between stations.",
    )
    stations = Rows(
        Part(SurveyedStation, description="One station."),
        most=MOST_STATIONS,
        required=True,
        description="The stations in order downstream.",
    )


DrainSurveyAnswer = answer_of(DrainSurveyResults, "DrainSurveyAnswer")
