"""Ponds: where water stands in a line when the drain has stopped, how much, and what to move to let it out.

A pond is a stretch whose invert lies below the water's level there; its downstream end is the sill it would spill over.
A pond that rises above its upstream sill has filled the one before it, so ponds within ponds come out as one. The work
is linear in the number of stations.
"""

from itertools import pairwise

from service.calculations.drain_profile import SLACK, ProfilePoint
from service.calculations.frozen import dataclass
from service.calculations.pipe_water import water_in_pipe


@dataclass(frozen=True, kw_only=True, slots=True)
class Correction:
    """The easier of two ways to let a pond's water out: fewer stations to move.

    Parameters
    ----------
    move : str
        ``raise`` what lies low, or ``lower`` what holds the water back.
    station : int
        Place in the request of the station to move most.
    station_count : int
        Stations to move, this one among them.
    by : float
        How far, so that no water stands [m].
    by_for_minimum_pitch : float
        The farthest that one of them moves to give the pipe up to the sill the code's minimum pitch [m].
    """

    move: str
    station: int
    station_count: int
    by: float
    by_for_minimum_pitch: float


@dataclass(frozen=True, kw_only=True, slots=True)
class Pond:
    """Water that stands in the line when the drain has stopped.

    Parameters
    ----------
    start, end : float
        Distances between which it stands [m].
    depth : float
        Greatest depth over the inside bottom [m].
    level : float
        Height of its surface above the datum [m].
    volume : float or None
        Water in it [m3]; None where the bore is not known.
    fills_bore : bool or None
        Whether the water reaches the top of the bore somewhere: a second trap.
    full_bore_length : float or None
        Horizontal length over which it does [m].
    low_station : int
        Place in the request of its lowest station.
    sill_station : int
        Place in the request of the station whose height holds it back.
    reaches_pan : bool
        Whether it stands back to the first station, and so into trap or pan.
    held_by_outlet : bool
        Whether the water at the discharge holds it back.
    correction : Correction
        What to move and how far.
    """

    start: float
    end: float
    depth: float
    level: float
    volume: float | None
    fills_bore: bool | None
    full_bore_length: float | None
    low_station: int
    sill_station: int
    reaches_pan: bool
    held_by_outlet: bool
    correction: Correction


def find_ponds(points: tuple[ProfilePoint, ...], *, bore: float | None, minimum_pitch: float) -> tuple[Pond, ...]:
    """Find every pond of a profile.

    Parameters
    ----------
    points : tuple of ProfilePoint
        In order downstream.
    bore : float or None
        Inside diameter [m]; without it there are no volumes.
    minimum_pitch : float
        Fall over run that a correction is to give [m/m].

    Returns
    -------
    tuple of Pond
        In order downstream.
    """
    wet = [point.depth > 0.0 for point in points]
    if not any(wet):
        return ()
    beyond = _first_no_higher(points)
    ponds, first = [], None
    for index, is_wet in enumerate((*wet, False)):
        # stations of one pond have one level: it changes only where a station stands dry
        if is_wet and first is None:
            first = index
        elif not is_wet and first is not None:
            ponds.append(_pond(points, first, index - 1, beyond, bore, minimum_pitch))
            first = None
    return tuple(ponds)


def _pond(
    points: tuple[ProfilePoint, ...],
    first: int,
    last: int,
    beyond: list[int],
    bore: float | None,
    minimum_pitch: float,
) -> Pond:
    """Measure the pond whose wet stations are ``first`` to ``last``."""
    level = points[first].level
    held_by_outlet = last == len(points) - 1
    before = max(first - 1, 0)
    after = min(last + 1, len(points) - 1)
    low = min(range(first, last + 1), key=lambda index: points[index].invert)
    depth = level - points[low].invert
    volume = full = None
    if bore is not None:
        stretches = [
            water_in_pipe(
                bore=bore,
                run=two.distance - one.distance,
                first_depth=level - one.invert,
                last_depth=level - two.invert,
            )
            for one, two in pairwise(points[before : after + 1])
        ]
        volume = sum(stretch.volume for stretch in stretches)
        full = sum(stretch.full_run for stretch in stretches)
    return Pond(
        start=_start(points, first, level),
        end=points[after].distance,
        depth=depth,
        level=level,
        volume=volume,
        fills_bore=None if bore is None else depth >= bore - SLACK,
        full_bore_length=full,
        low_station=points[low].station,
        sill_station=points[after].station,
        reaches_pan=first == 0,
        held_by_outlet=held_by_outlet,
        correction=_correction(points, first, last, low, after, beyond, minimum_pitch, held_by_outlet),
    )


def _start(points: tuple[ProfilePoint, ...], first: int, level: float) -> float:
    """Where the surface meets the slope above the first wet station; the first station where none is above it."""
    wet = points[first]
    if first == 0:
        return wet.distance
    dry = points[first - 1]
    share = (level - wet.invert) / (dry.invert - wet.invert)
    return max(wet.distance - share * (wet.distance - dry.distance), dry.distance)


def _correction(
    points: tuple[ProfilePoint, ...],
    first: int,
    last: int,
    low: int,
    sill: int,
    beyond: list[int],
    minimum_pitch: float,
    held_by_outlet: bool,
) -> Correction:
    """Choose between raising every station under water and lowering every station that holds it back."""
    depth = points[low].level - points[low].invert
    base = low
    while beyond[base] <= last:  # another station of the pond as low as this one
        base = beyond[base]
    to_raise, to_lower = last - first + 1, beyond[base] - base - 1
    if held_by_outlet or to_raise <= to_lower:
        level, end = points[low].level, points[sill].distance
        wanted = (level + minimum_pitch * (end - one.distance) - one.invert for one in points[first : last + 1])
        return Correction(
            move="raise",
            station=points[low].station,
            station_count=to_raise,
            by=depth,
            by_for_minimum_pitch=max(wanted),
        )
    return Correction(
        move="lower",
        station=points[sill].station,
        station_count=to_lower,
        by=depth,
        by_for_minimum_pitch=depth + minimum_pitch * (points[sill].distance - points[low].distance),
    )


def _first_no_higher(points: tuple[ProfilePoint, ...]) -> list[int]:
    """For each station, the place of the first one further down that is no higher; the number of stations if none."""
    found = [len(points)] * len(points)
    waiting: list[int] = []
    for index, point in enumerate(points):
        while waiting and points[waiting[-1]].invert >= point.invert:
            found[waiting.pop()] = index
        waiting.append(index)
    return found
