"""Survey of a drain line: pitch between stations, and where the water stands when the drain has stopped.

References
----------
.. [1] International Mechanical Code 2021, 307.2: at least 1/8 in per ft (1 percent) of fall.
"""

from itertools import pairwise
from math import fsum

from service.calculations.answer import Answer, Assumption, Finding
from service.calculations.drain_pitch import FOOT, MINIMUM_PITCH
from service.calculations.drain_pitch import LIMITS as PITCH_LIMITS
from service.calculations.drain_pond import Pond, find_ponds
from service.calculations.drain_profile import VERTICAL_RUN, ProfilePoint, Station, profile
from service.calculations.drain_segment import Segment, measure_segment
from service.calculations.drain_survey_judgement import judge_ponds, judge_readings, judge_segments
from service.calculations.frozen import dataclass
from service.calculations.limits import Limit, require, require_members
from service.tables.pipe_sizes import DEFAULT_MATERIAL, INCH, is_made, pipe

FEWEST_STATIONS, MOST_STATIONS = 2, 2000
"""Two make a segment; two thousand are a station every 6 in along the longest line."""

MEASUREMENT_TOLERANCE = INCH / 16.0
"""A staff or tape read to the nearest 1/8 in is at most half of that off. Common practice, no source."""

STATION_LIMITS = {
    "distance": Limit(0.0, PITCH_LIMITS["run"].high),
    "invert": Limit(-100.0, 100.0),  # any datum in or about a building; elevations above the sea are for land survey
    "drop_below_level_line": Limit(-100.0, 100.0),
}

LIMITS = {
    **STATION_LIMITS,
    "level_line_height": Limit(-100.0, 100.0),
    "measurement_tolerance": Limit(0.0, 0.1),  # exact, to a guess by eye
    "water_depth_at_outlet": Limit(0.0, 10.0),  # a free outfall, to a pipe that ends at the bottom of a pit
}


@dataclass(frozen=True, kw_only=True, slots=True)
class SurveyedStation:
    """A station in its place along the line, with its water and what it takes to make the line fall.

    Parameters
    ----------
    station : int
        Its place in the request, from 0.
    distance, invert : float
        As measured [m].
    water_depth : float
        Water that stands over the inside bottom when the drain has stopped [m].
    raise_for_minimum_pitch : float
        How far to raise it [m] if the line is to get the code's minimum pitch by raising alone.
    lower_for_minimum_pitch : float
        How far to lower it [m] if the line is to get it by lowering alone.
    """

    station: int
    distance: float
    invert: float
    water_depth: float
    raise_for_minimum_pitch: float
    lower_for_minimum_pitch: float


@dataclass(frozen=True, kw_only=True, slots=True)
class DrainSurvey:
    """The line as surveyed.

    Parameters
    ----------
    run : float
        Horizontal distance from the first station to the last [m].
    total_fall : float
        Drop of the inside bottom between them [m].
    pitch_ratio : float or None
        Total fall over run [-]; None where the run is vertical.
    pitch_per_foot : float or None
        The same in one foot [m].
    least_pitch_ratio : float or None
        Of all segments that are not vertical [-].
    bore : float or None
        Inside diameter [m]; None where there is no such pipe.
    measurement_tolerance : float
        How far one reading may be off, either way [m].
    standing_volume : float or None
        Water in all ponds [m3].
    ponds : tuple of Pond
        In order downstream.
    segments : tuple of Segment
        In order downstream.
    stations : tuple of SurveyedStation
        In order downstream.
    """

    run: float
    total_fall: float
    pitch_ratio: float | None
    pitch_per_foot: float | None
    least_pitch_ratio: float | None
    bore: float | None
    measurement_tolerance: float
    standing_volume: float | None
    ponds: tuple[Pond, ...]
    segments: tuple[Segment, ...]
    stations: tuple[SurveyedStation, ...]


def survey_drain(
    *,
    pipe_size: str,
    stations: tuple[Station, ...],
    material: str | None = None,
    measurement_tolerance: float | None = None,
    level_line_height: float | None = None,
    water_depth_at_outlet: float | None = None,
) -> Answer[DrainSurvey]:
    """Work out a line's pitches and standing water from its stations.

    Parameters
    ----------
    pipe_size : str
        Nominal size.
    stations : tuple of Station
        `FEWEST_STATIONS` to `MOST_STATIONS`; taken in order of distance, those at one distance in the order given.
    material : str or None
        Kind of pipe, one of `service.tables.pipe_sizes.MATERIALS`.
    measurement_tolerance : float or None
        How far the height of one station may be off, either way [m].
    level_line_height : float or None
        Height of the level line above the datum of the inverts [m].
    water_depth_at_outlet : float or None
        Standing water over the inside bottom of the last station [m]; 0 for a free outfall.

    Returns
    -------
    Answer of DrainSurvey

    Raises
    ------
    OutOfRange
        For an argument outside `LIMITS`.

    Notes
    -----
    Between stations the pipe is straight. Two stations at one distance are a vertical drop or riser.
    For where the water stands see `service.calculations.drain_profile`, for its volume
    `service.calculations.pipe_water`.

    Examples
    --------
    A sag in a line that falls: inverts of 4, 1, 2 and 0 in, 10 ft apart. Water stands up to the sill at 2 in: 1 in
    deep, from one third of the way back up the first slope, (2 - 1) / (4 - 1), at 6.67 ft, to 20 ft:

    >>> inch, foot = 0.0254, 0.3048
    >>> line = tuple(Station(distance=i * 10 * foot, invert=h * inch) for i, h in enumerate((4.0, 1.0, 2.0, 0.0)))
    >>> pond = survey_drain(pipe_size="3/4", stations=line).results.ponds[0]
    >>> [round(length / foot, 2) for length in (pond.start, pond.end)], round(pond.depth / inch, 6), pond.fills_bore
    ([6.67, 20.0], 1.0, True)
    """
    require(
        LIMITS,
        measurement_tolerance=measurement_tolerance,
        level_line_height=level_line_height,
        water_depth_at_outlet=water_depth_at_outlet,
    )
    for station in stations:
        require_members(STATION_LIMITS, station)
    water = water_depth_at_outlet or 0.0
    points = profile(stations, level_line_height=level_line_height or 0.0, water_depth_at_outlet=water)
    tolerance = MEASUREMENT_TOLERANCE if measurement_tolerance is None else measurement_tolerance
    kind = material or DEFAULT_MATERIAL
    row = pipe(kind, pipe_size) if is_made(kind, pipe_size) else None
    ponds = find_ponds(points, bore=row.bore if row else None, minimum_pitch=MINIMUM_PITCH)
    segments = tuple([measure_segment(one, two, tolerance=tolerance) for one, two in pairwise(points)])
    run = points[-1].distance - points[0].distance
    fall = points[0].invert - points[-1].invert
    pitch = fall / run if run >= VERTICAL_RUN else None
    results = DrainSurvey(
        run=run,
        total_fall=fall,
        pitch_ratio=pitch,
        pitch_per_foot=None if pitch is None else pitch * FOOT,
        least_pitch_ratio=min((one.pitch_ratio for one in segments if one.pitch_ratio is not None), default=None),
        bore=row.bore if row else None,
        measurement_tolerance=tolerance,
        standing_volume=fsum(pond.volume or 0.0 for pond in ponds) if row else None,
        ponds=ponds,
        segments=segments,
        stations=_surveyed(points),
    )
    findings = (
        *judge_readings(stations, points, segments, material=kind, level_line_height=level_line_height),
        *judge_segments(segments, tolerance=tolerance),
        *judge_ponds(ponds, points, bore=results.bore, tolerance=tolerance),
    )
    if row is None:
        values = {"material": kind, "pipe_size": pipe_size}
        findings = (*findings, Finding(code="pipe-bore-unknown", pointer="/material", values=values))
    sources: tuple[str, ...] = ("imc-slope", "standing-water", "common-practice")
    if any(finding.code == "survey-too-coarse" for finding in findings):
        sources = (*sources, "imc-supports")
    return Answer(
        results=results,
        findings=findings,
        assumptions=_assumptions(stations, material, measurement_tolerance, level_line_height, water_depth_at_outlet),
        cautions=("local-code",),
        sources=(*sources, row.standard.lower().replace(" ", "-")) if row else sources,
    )


def _surveyed(points: tuple[ProfilePoint, ...]) -> tuple[SurveyedStation, ...]:
    """Find how far each station has to move for the code's minimum pitch: by raising alone, by lowering alone."""
    raised, high = [], points[-1].invert
    below = points[-1].distance
    for point in reversed(points):
        high = max(point.invert, high + MINIMUM_PITCH * (below - point.distance))
        below = point.distance
        raised.append(high)
    stations, low = [], points[0].invert
    above = points[0].distance
    for point, high in zip(points, reversed(raised), strict=True):
        invert = point.invert
        low = min(invert, low - MINIMUM_PITCH * (point.distance - above))
        above = point.distance
        stations.append(
            SurveyedStation(
                station=point.station,
                distance=above,
                invert=invert,
                water_depth=point.depth,
                raise_for_minimum_pitch=high - invert,
                lower_for_minimum_pitch=invert - low,
            )
        )
    return tuple(stations)


def _assumptions(
    stations: tuple[Station, ...],
    material: str | None,
    measurement_tolerance: float | None,
    level_line_height: float | None,
    water_depth_at_outlet: float | None,
) -> tuple[Assumption, ...]:
    """Record every default that entered the numbers."""
    assumptions = []
    if material is None:
        note = "No material was given: PVC Schedule 40, what the trade mostly installs. Common practice."
        assumptions.append(Assumption(pointer="/material", value=DEFAULT_MATERIAL, note=note))
    if measurement_tolerance is None:
        note = "A staff or tape read to the nearest 1/8 in is at most half of that off, either way. Common practice."
        row = Assumption(pointer="/measurement_tolerance", value=MEASUREMENT_TOLERANCE, note=note, symbols="in|mm")
        assumptions.append(row)
    if level_line_height is None and any(station.invert is None for station in stations):
        note = "Heights are counted from the level line: a drop below it is a negative invert."
        assumptions.append(Assumption(pointer="/level_line_height", value=0.0, note=note, symbols="in|mm"))
    if water_depth_at_outlet is None:
        note = "The line ends free: no water stands at its discharge."
        assumptions.append(Assumption(pointer="/water_depth_at_outlet", value=0.0, note=note, symbols="in|mm"))
    return tuple(assumptions)
