"""What a survey's numbers mean: one finding for each kind of fault, with its count and its worst place.

A segment that reads too little is failed only where it is too little even if both readings are off by their whole
tolerance the right way; short of that it is in doubt, and another finding says so.
"""

from collections.abc import Callable, Sequence
from itertools import pairwise

from service.calculations.answer import Finding
from service.calculations.drain_pitch import (
    MINIMUM_PITCH,
    MINIMUM_PITCH_ROUNDED,
    RECOMMENDED_PITCH,
    RECOMMENDED_PITCH_ROUNDED,
)
from service.calculations.drain_pond import Pond
from service.calculations.drain_profile import ProfilePoint, Station
from service.calculations.drain_segment import Segment

PLASTIC_SUPPORT_SPACING = 1.2192
"""4 ft between supports of plastic pipe (IMC 2021 Table 305.4)."""

TELLING_FALL = 4.0
"""Code minimum of fall over what two readings may be off, from where on a segment's judgement is worth something."""

_FALLS_SHORT = {
    "back-fall": "segments-back-fall",
    "riser": "segments-back-fall",
    "flat": "segments-flat",
    "below-minimum": "segments-below-minimum",
}
"""Judgements of too little fall, and the findings they are where that is certain."""

_ROUNDING = 1e-9


def judge_readings(
    stations: tuple[Station, ...],
    points: tuple[ProfilePoint, ...],
    segments: tuple[Segment, ...],
    *,
    material: str,
    level_line_height: float | None,
) -> tuple[Finding, ...]:
    """Judge how the survey was taken: order, kinds of reading, spacing.

    Parameters
    ----------
    stations : tuple of Station
        As sent.
    points : tuple of ProfilePoint
        In order downstream.
    segments : tuple of Segment
        In order downstream.
    material : str
        Kind of pipe.
    level_line_height : float or None
        As sent [m].

    Returns
    -------
    tuple of Finding
    """
    findings = []
    displaced = [two.station for one, two in pairwise(points) if two.station < one.station]
    if displaced:
        values = {"station": displaced[0] + 1}
        findings.append(Finding(code="survey-out-of-order", pointer=f"/stations/{displaced[0]}", values=values))
    dropped = [index for index, station in enumerate(stations) if station.invert is None]
    if dropped and len(dropped) < len(stations) and level_line_height is None:
        values = {"drops": len(dropped), "inverts": len(stations) - len(dropped)}
        findings.append(
            Finding(
                code="survey-mixes-readings",
                pointer=f"/stations/{dropped[0]}/drop_below_level_line",
                values=values,
            )
        )
    longest = max(segments, key=lambda segment: segment.length)
    plastic = material.startswith(("pvc", "cpvc"))
    if plastic and longest.length > PLASTIC_SUPPORT_SPACING * (1.0 + _ROUNDING):
        far = sum(segment.length > PLASTIC_SUPPORT_SPACING * (1.0 + _ROUNDING) for segment in segments)
        gap: dict[str, float] = {"length": longest.length, "start": longest.start, "end": longest.end, "count": far}
        gap |= {"spacing": PLASTIC_SUPPORT_SPACING, "segments": len(segments)}
        findings.append(Finding(code="survey-too-coarse", pointer=f"/stations/{longest.last_station}", values=gap))
    return tuple(findings)


def judge_segments(segments: tuple[Segment, ...], *, tolerance: float) -> tuple[Finding, ...]:
    """Judge the pitches, one finding a kind.

    Parameters
    ----------
    segments : tuple of Segment
        In order downstream.
    tolerance : float
        How far the height of a station may be off, either way [m].

    Returns
    -------
    tuple of Finding
        None where every segment has the usual pitch and no reading is in doubt.
    """
    doubt = 2.0 * tolerance
    groups: dict[str, list[Segment]] = {code: [] for code in _BADNESS}
    for segment in segments:
        judged, fall = segment.judgement, segment.fall
        if judged in _FALLS_SHORT:
            certain = fall + doubt < _minimum(segment)
            groups[_FALLS_SHORT[judged] if certain else "segments-near-minimum"].append(segment)
        elif judged != "drop":
            below_usual = judged == "minimum" and fall + doubt < _usual(segment)
            if below_usual:
                groups["segments-below-usual"].append(segment)
            if fall - doubt < _minimum(segment) or (judged == "minimum" and not below_usual):
                groups["segments-within-tolerance"].append(segment)
    return tuple(
        [
            _of_segments(code, group, max(group, key=_BADNESS[code]), len(segments), doubt)
            for code, group in groups.items()
            if group
        ]
    )


def _minimum(segment: Segment) -> float:
    """Least fall that is not faulted [m]: one percent."""
    return MINIMUM_PITCH_ROUNDED * segment.length * (1.0 - _ROUNDING)


def _usual(segment: Segment) -> float:
    """Fall that counts as usual [m]: two percent."""
    return RECOMMENDED_PITCH_ROUNDED * segment.length * (1.0 - _ROUNDING)


def _steepness(segment: Segment) -> float:
    """The lower the pitch, the greater."""
    return -(segment.pitch_ratio or 0.0)


_BADNESS: dict[str, Callable[[Segment], float]] = {
    "segments-back-fall": lambda one: -one.fall,
    "segments-flat": lambda one: one.length,
    "segments-below-minimum": _steepness,
    "segments-below-usual": _steepness,
    "segments-near-minimum": lambda one: _minimum(one) - one.fall,
    "segments-within-tolerance": lambda one: one.pitch_tolerance or 0.0,
}
"""Findings about segments, in their order, and by what the worst of each is found."""


def _of_segments(code: str, group: Sequence[Segment], worst: Segment, segments: int, doubt: float) -> Finding:
    """Name how many there are and the worst of them."""
    values = {
        "count": len(group),
        "segments": segments,
        "start": worst.start,
        "end": worst.end,
        "length": worst.length,
        "fall": worst.fall,
        "rise": -worst.fall,
        "percent": 100.0 * (worst.pitch_ratio or 0.0),
        "minimum_fall": MINIMUM_PITCH * worst.length,
        "recommended_fall": RECOMMENDED_PITCH * worst.length,
        "short_of_minimum": MINIMUM_PITCH * worst.length - worst.fall,
        "short_of_usual": RECOMMENDED_PITCH * worst.length - worst.fall,
        "doubt": doubt,
        "telling_length": TELLING_FALL * doubt / MINIMUM_PITCH,
    }
    return Finding(code=code, pointer=f"/stations/{worst.last_station}", values=values)


def judge_ponds(
    ponds: tuple[Pond, ...],
    points: tuple[ProfilePoint, ...],
    *,
    bore: float | None,
    tolerance: float,
) -> tuple[Finding, ...]:
    """Judge the standing water, one finding a kind.

    Parameters
    ----------
    ponds : tuple of Pond
        In order downstream.
    points : tuple of ProfilePoint
        In order downstream.
    bore : float or None
        Inside diameter [m].
    tolerance : float
        How far the height of a station may be off, either way [m].

    Returns
    -------
    tuple of Finding
        None where no water stands.
    """
    if not ponds:
        return ()
    doubt = 2.0 * tolerance
    distances = {point.station: point.distance for point in points}
    seen = [pond for pond in ponds if pond.depth > doubt]
    lost = [pond for pond in ponds if pond.depth <= doubt]
    groups = [
        ("pond-holds-water" if bore is not None else "pond-of-unknown-volume", seen),
        ("pond-within-tolerance", lost),
    ]
    if bore is not None:
        full = [pond for pond in seen if pond.fills_bore]
        doubtful = (pond for pond in ponds if not (pond.fills_bore and pond.depth > doubt))
        nearly = [pond for pond in doubtful if pond.depth + doubt >= bore and pond.depth > 0.5 * bore]
        groups += [("pond-fills-bore", full), ("pond-may-fill-bore", nearly)]
    findings = [_of_ponds(code, group, distances, bore, doubt) for code, group in groups if group]
    first = points[0]
    if first.depth > doubt:
        values = {"depth": first.depth, "sill": distances[ponds[0].sill_station]}
        findings.append(Finding(code="pond-reaches-pan", pointer=f"/stations/{first.station}", values=values))
    if points[-1].depth > 0.0:
        last = ponds[-1]
        values = {"depth": points[-1].depth, "length": last.end - last.start}
        findings.append(Finding(code="outlet-under-water", pointer="/water_depth_at_outlet", values=values))
    return tuple(findings)


def _of_ponds(
    code: str, group: Sequence[Pond], distances: dict[int, float], bore: float | None, doubt: float
) -> Finding:
    """Name how many there are and the deepest of them."""
    worst = max(group, key=lambda pond: pond.depth)
    move = worst.correction
    values: dict[str, float | int | str] = {
        "count": len(group),
        "volume": sum(pond.volume or 0.0 for pond in group),
        "start": worst.start,
        "end": worst.end,
        "length": worst.end - worst.start,
        "depth": worst.depth,
        "low": distances[worst.low_station],
        "full_length": worst.full_bore_length or 0.0,
        "bore": bore or 0.0,
        "doubt": doubt,
        "move": move.move,
        "station_count": move.station_count,
        "place": distances[move.station],
        "by": move.by,
        "by_for_minimum_pitch": move.by_for_minimum_pitch,
    }
    return Finding(code=code, pointer=f"/stations/{worst.low_station}", values=values)
