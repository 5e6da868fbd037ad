"""Still water in a round pipe that need not be level: its volume, and where it fills the bore.

A pipe that falls or rises evenly cuts a level water surface at a slant. The water in it is the circular segment's area
summed along the axis, where the depth changes evenly; that integral has a closed form [1]_, exact for any pitch.

References
----------
.. [1] The segment of half angle a in a circle of radius R has the area R^2 (a - sin a cos a) and the depth
   R (1 - cos a); integrated over the depth from 0 this gives R^3 (sin a - sin^3 a / 3 - a cos a). At half full it
   is 2/3 R^3, the hoof that Archimedes measured (*The Method*, proposition 11).
"""

from math import asin, cos, hypot, pi, sin, sqrt

from service.calculations.frozen import dataclass

_NARROW = 0.05
"""Half angle [rad] below which the closed form cancels and its power series is the better one."""

_PLUMB = 1e-9
"""Run over length of a pipe below which it is vertical, to the last digits."""

_EVEN = 1e-4
"""Relative change of depth below which the depth counts as even over the length."""


@dataclass(frozen=True, kw_only=True, slots=True)
class WetStretch:
    """What stands in one straight piece of pipe.

    Parameters
    ----------
    volume : float
        Water in it [m3].
    full_run : float
        Horizontal length over which the water reaches the top of the bore [m].
    """

    volume: float
    full_run: float


def water_in_pipe(*, bore: float, run: float, first_depth: float, last_depth: float) -> WetStretch:
    """Tell how much still water stands in a straight piece of pipe.

    Parameters
    ----------
    bore : float
        Inside diameter [m].
    run : float
        Horizontal length of the piece, zero or more [m]; 0 is a vertical pipe.
    first_depth, last_depth : float
        From the inside bottom up to the water's level at either end [m]; negative where the bottom is above it.

    Returns
    -------
    WetStretch

    Notes
    -----
    Ends are cut square to the axis; what stands in fittings is not counted. The depth square to the axis is the
    plumb depth over the cosine of the slope, and the length along the axis the run over the same cosine.

    Examples
    --------
    A pipe of radius 1 cm in which the depth goes from nothing to half full over 30 cm holds 2/3 R^2 L = 20 mL, the
    hoof of Archimedes:

    >>> stretch = water_in_pipe(bore=0.02, run=0.3, first_depth=0.0, last_depth=0.01)
    >>> round(stretch.volume * 1e6, 2)  # the slope of 1 in 30 adds one part in 700
    20.03
    """
    deep, shallow = max(first_depth, last_depth), min(first_depth, last_depth)
    if deep <= 0.0:
        return WetStretch(volume=0.0, full_run=0.0)
    rise = deep - shallow
    axis = hypot(run, rise)
    wet = 1.0 if shallow >= 0.0 else deep / rise
    full = 0.0 if deep < bore else 1.0 if shallow >= bore else (deep - bore) / rise
    if run <= _PLUMB * axis:
        volume = pi / 4.0 * bore**2 * axis * wet
    else:
        slant = axis / run
        volume = axis * wet * _mean_area(bore, max(shallow, 0.0) * slant, deep * slant)
    return WetStretch(volume=volume, full_run=run * full)


def segment_area(*, bore: float, depth: float) -> float:
    """Area of water in a level round pipe.

    Parameters
    ----------
    bore : float
        Inside diameter [m].
    depth : float
        Depth of water [m]; at the bore or more the pipe is full.

    Returns
    -------
    float
        Area [m2].

    Examples
    --------
    >>> round(segment_area(bore=2.0, depth=1.0) / pi, 12)
    0.5
    """
    if depth >= bore:
        return pi / 4.0 * bore**2
    angle = _half_angle(bore, depth)
    if angle < _NARROW:
        # a - sin a cos a = 2/3 a^3 - 2/15 a^5 + 4/315 a^7 - ...
        return bore**2 / 4.0 * angle**3 * (2.0 / 3.0 - angle**2 * (2.0 / 15.0 - angle**2 * 4.0 / 315.0))
    return bore**2 / 4.0 * (angle - sin(angle) * cos(angle))


def _half_angle(bore: float, depth: float) -> float:
    """Half the angle that the water's surface spans at the axis [rad]."""
    return 2.0 * asin(sqrt(depth / bore)) if depth > 0.0 else 0.0


def _area_integral(bore: float, depth: float) -> float:
    """The segment's area integrated over the depth from 0 [m3], see [1]; beyond the bore it grows by the full area."""
    radius = bore / 2.0
    if depth >= bore:
        # the whole circle, a = pi
        return pi * radius * radius * (radius + depth - bore)
    angle = _half_angle(bore, depth)
    if angle < _NARROW:
        series = angle**5 * (2.0 / 15.0 - angle**2 * (11.0 / 315.0 - angle**2 * 17.0 / 3780.0))
        return radius**3 * series
    sine = sin(angle)
    return radius**3 * (sine - sine * sine * sine / 3.0 - angle * cos(angle))


def _mean_area(bore: float, shallow: float, deep: float) -> float:
    """Mean area where the depth square to the axis goes evenly from ``shallow`` to ``deep`` [m2]."""
    change = deep - shallow
    if change <= _EVEN * deep:
        return segment_area(bore=bore, depth=0.5 * (shallow + deep))
    return (_area_integral(bore, deep) - _area_integral(bore, shallow)) / change
