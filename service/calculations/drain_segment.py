"""The line between two stations: its length, fall and pitch, judged within the tolerance of the readings."""

from dataclasses import dataclass

from service.calculations.drain_pitch import FOOT, MINIMUM_PITCH_ROUNDED, RECOMMENDED_PITCH_ROUNDED
from service.calculations.drain_profile import SLACK, VERTICAL_RUN, ProfilePoint

JUDGEMENTS = ("usual", "minimum", "below-minimum", "flat", "back-fall", "drop", "riser")
"""What a reading says: at or above the usual pitch, at or above the code minimum, and so on."""

_ROUNDING = 1e-9


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
    vertical = length < VERTICAL_RUN
    pitch = None if vertical else fall / length
    return Segment(
        first_station=one.station,
        last_station=two.station,
        start=one.distance,
        end=two.distance,
        length=length,
        fall=fall,
        pitch_ratio=pitch,
        pitch_per_foot=None if pitch is None else pitch * FOOT,
        pitch_tolerance=None if vertical else doubt / length,
        judgement=_judge(fall, length),
        within_tolerance=_judge(fall - doubt, length) != _judge(fall + doubt, length),
    )


def _judge(fall: float, length: float) -> str:
    """Name what a fall over a length is, by the marks of `service.calculations.drain_pitch`."""
    if length < VERTICAL_RUN:
        return "riser" if fall < -SLACK else "drop"
    if fall < -SLACK:
        return "back-fall"
    if fall <= SLACK:
        return "flat"
    if fall < MINIMUM_PITCH_ROUNDED * length * (1.0 - _ROUNDING):
        return "below-minimum"
    if fall < RECOMMENDED_PITCH_ROUNDED * length * (1.0 - _ROUNDING):
        return "minimum"
    return "usual"
