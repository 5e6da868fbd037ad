"""The line between two stations: its length, fall and pitch, judged within the tolerance of the readings."""

from bisect import bisect_right

from service.calculations.drain_pitch import FOOT, MINIMUM_PITCH_ROUNDED, RECOMMENDED_PITCH_ROUNDED
from service.calculations.drain_profile import SLACK, VERTICAL_RUN, ProfilePoint
from service.calculations.frozen import dataclass

JUDGEMENTS = ("usual", "minimum", "below-minimum", "flat", "back-fall", "drop", "riser")
"""What a reading says: at or above the usual pitch, at or above the code minimum, and so on."""

_SLOPING = ["back-fall", "flat", "below-minimum", "minimum", "usual"]
_VERTICAL = ["riser", "drop"]
"""The same by fall, least first."""

_MINIMUM, _USUAL = MINIMUM_PITCH_ROUNDED * (1.0 - 1e-9), RECOMMENDED_PITCH_ROUNDED * (1.0 - 1e-9)
"""Marks of `service.calculations.drain_pitch`, less the last bits of a unit conversion."""


@dataclass(frozen=True, kw_only=True, slots=True)
class Segment:
    """The line between two stations that follow each other.

    Parameters
    ----------
    first_station, last_station : int
        Their places in the request, from 0.
    start, end : float
        Their distances [m].
    length : float
        Horizontal length [m].
    fall : float
        Drop of the inside bottom, negative where it rises [m].
    pitch_ratio : float or None
        Fall over length [-]; None for a vertical drop or riser.
    pitch_per_foot : float or None
        Fall in one foot of length [m].
    pitch_tolerance : float or None
        How far ``pitch_ratio`` may be off by the tolerance of both readings [-].
    judgement : str
        One of `JUDGEMENTS`, by the reading.
    within_tolerance : bool
        Whether another judgement is possible within the tolerance.
    """

    first_station: int
    last_station: int
    start: float
    end: float
    length: float
    fall: float
    pitch_ratio: float | None
    pitch_per_foot: float | None
    pitch_tolerance: float | None
    judgement: str
    within_tolerance: bool


def measure_segment(one: ProfilePoint, two: ProfilePoint, *, tolerance: float) -> Segment:
    """Measure and judge the line between two stations.

    Parameters
    ----------
    one, two : ProfilePoint
        Upstream and downstream station.
    tolerance : float
        How far the height of either may be off, either way [m].

    Returns
    -------
    Segment
    """
    length = two.distance - one.distance
    fall = one.invert - two.invert
    doubt = 2.0 * tolerance
    names, marks = _VERTICAL, [-SLACK]
    pitch = per_foot = pitch_tolerance = None
    if length >= VERTICAL_RUN:
        names, marks = _SLOPING, [-SLACK, SLACK, _MINIMUM * length, _USUAL * length]
        pitch, pitch_tolerance = fall / length, doubt / length
        per_foot = pitch * FOOT
    return Segment(
        first_station=one.station,
        last_station=two.station,
        start=one.distance,
        end=two.distance,
        length=length,
        fall=fall,
        pitch_ratio=pitch,
        pitch_per_foot=per_foot,
        pitch_tolerance=pitch_tolerance,
        judgement=names[bisect_right(marks, fall)],
        within_tolerance=bisect_right(marks, fall - doubt) != bisect_right(marks, fall + doubt),
    )
