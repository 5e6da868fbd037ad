"""Water that runs down a round pipe under its own fall, part full or just full.

The flow is steady and uniform: the water surface runs parallel to the pipe. Manning's formula is for turbulent
flow; a trickle of condensate is mostly laminar, and has a law of its own here.

References
----------
.. [1] V. T. Chow, *Open-Channel Hydraulics*, 1959, chapter 6: Manning's formula and the
   geometric elements of a circular section; chapter 1: laminar flow on the hydraulic radius.
.. [2] Hagen and Poiseuille's law of laminar flow in a full pipe, V = 2 g S d_h^2 / (64 nu), written
   with the hydraulic diameter d_h of a part-full one.
"""

from math import asin, cos, exp, log, pi, pow, sin, sqrt

from service.calculations.pipe_flow import GRAVITY

_FULLEST_ANGLE = 5.278107137933795
# theta [rad] at the wetted depth that carries most: d/dtheta of [(theta - sin theta)^5 / theta^2] = 0,
# that is 3 theta - 5 theta cos theta + 2 sin theta = 0; 302.41 degrees

_FULLEST_LAMINAR_ANGLE = 4.914179848414003
# the same for [(theta - sin theta)^3 / theta^2], that is theta - 3 theta cos theta + 2 sin theta = 0; 281.56 degrees

_MANNING_POWER, _LAMINAR_POWER = 2.0 / 3.0, 2.0
"""Power of the hydraulic radius that the mean velocity goes with."""

_LOG_6 = log(6.0)

_MOST_STEPS, _CLOSE = 100, 1e-8
"""Newton's steps at the most, and the last of them over the angle: what is left goes with its square."""


def full_bore_flow(*, bore: float, pitch_ratio: float, manning_coefficient: float) -> float:
    """Flow of a pipe that runs just full under its own fall.

    Parameters
    ----------
    bore : float
        Inside diameter [m].
    pitch_ratio : float
        Fall over run [m/m]; zero or less carries nothing.
    manning_coefficient : float
        Manning's roughness coefficient [s/m^(1/3)].

    Returns
    -------
    float
        Volume flow [m3/s].

    Examples
    --------
    By hand: 0.3 m, 1 in 100, n 0.013. A = 0.070686 m2, R^(2/3) = 0.075^(2/3) = 0.17784,
    Q = 0.070686 x 0.17784 x 0.1 / 0.013 = 0.0967 m3/s:

    >>> round(full_bore_flow(bore=0.3, pitch_ratio=0.01, manning_coefficient=0.013), 4)
    0.0967
    """
    if pitch_ratio <= 0.0:
        return 0.0
    # Q = (1/n) A R^(2/3) S^(1/2), R = bore / 4 for a full circle [1]
    return pi * bore**2 / 4.0 * pow(bore / 4.0, 2.0 / 3.0) * sqrt(pitch_ratio) / manning_coefficient


def part_full_ratio(depth_fraction: float) -> float:
    """Flow at a depth, over the flow of the full bore.

    Parameters
    ----------
    depth_fraction : float
        Depth of water over bore, 0 to 1.

    Returns
    -------
    float
        Flow ratio; it passes 1 at 0.82 of the bore and falls back to 1 from `FULLEST_DEPTH` up.

    Examples
    --------
    Half full carries half the flow, because area and wetted perimeter are both halved:

    >>> round(part_full_ratio(0.5), 12)
    0.5
    """
    return _ratio_at(_angle(depth_fraction), _MANNING_POWER)


def part_full_depth(flow_ratio: float) -> float | None:
    """Depth at which a pipe carries a share of its full-bore flow.

    Parameters
    ----------
    flow_ratio : float
        Flow over full-bore flow, zero or more.

    Returns
    -------
    float or None
        Depth over bore, the lower of two where two exist; None above `LARGEST_RATIO`, which
        no depth carries.

    Examples
    --------
    >>> round(part_full_depth(0.5), 9)
    0.5
    >>> part_full_depth(1.1) is None
    True
    """
    return _depth(flow_ratio, _MANNING_POWER, _FULLEST_ANGLE, LARGEST_RATIO)


def part_full_velocity_ratio(depth_fraction: float) -> float:
    """Mean velocity at a depth, over the velocity of the full bore.

    Parameters
    ----------
    depth_fraction : float
        Depth of water over bore, 0 to 1.

    Returns
    -------
    float
        Velocity ratio: 1 at half depth and when full, 1.14 at most, at 0.81 of the bore.

    Examples
    --------
    >>> [round(part_full_velocity_ratio(depth), 3) for depth in (0.0, 0.5, 0.813, 1.0)]
    [0.0, 1.0, 1.14, 1.0]
    """
    # V ~ R^(2/3) [1]
    return pow(_radius_ratio(_angle(depth_fraction)), _MANNING_POWER)


def hydraulic_diameter(*, bore: float, depth_fraction: float) -> float:
    """Four times the area of the water over the wall it wets.

    Parameters
    ----------
    bore : float
        Inside diameter [m].
    depth_fraction : float
        Depth of water over bore, 0 to 1.

    Returns
    -------
    float
        Hydraulic diameter [m]; the bore itself when full and when half full.

    Examples
    --------
    >>> [round(hydraulic_diameter(bore=0.02, depth_fraction=depth), 12) for depth in (1.0, 0.5)]
    [0.02, 0.02]
    """
    return bore * _radius_ratio(_angle(depth_fraction))


def laminar_full_bore_flow(*, bore: float, pitch_ratio: float, kinematic_viscosity: float) -> float:
    """Laminar flow of a pipe that runs just full under its own fall.

    Parameters
    ----------
    bore : float
        Inside diameter [m].
    pitch_ratio : float
        Fall over run [m/m]; zero or less carries nothing.
    kinematic_viscosity : float
        Dynamic viscosity over density [m2/s].

    Returns
    -------
    float
        Volume flow [m3/s], by Hagen and Poiseuille [2]_.

    Examples
    --------
    By hand: 5 mm, 1 in 100, 1e-6 m2/s. pi x 9.80665 x 0.01 x 6.25e-10 / 1.28e-4 = 1.504e-6 m3/s:

    >>> round(laminar_full_bore_flow(bore=0.005, pitch_ratio=0.01, kinematic_viscosity=1e-6) * 1e6, 3)
    1.504
    """
    return pi * GRAVITY * max(pitch_ratio, 0.0) * bore**4 / (128.0 * kinematic_viscosity)


def laminar_depth(flow_ratio: float) -> float | None:
    """Depth at which a pipe carries a share of its laminar full-bore flow.

    Parameters
    ----------
    flow_ratio : float
        Flow over `laminar_full_bore_flow`, zero or more.

    Returns
    -------
    float or None
        Depth over bore, the lower of two where two exist; None where no depth carries it.

    Notes
    -----
    The law of the full pipe with the hydraulic diameter in place of the bore [2]_. Solved exactly, the constant 64
    becomes 62.2 in the shallowest segment, 64 at half depth, 66 at 0.8 of the bore and 70 at 0.95: up to 0.7 the
    depth is good to 2 %, to 0.8 to 3 %. Surface tension, which shapes a trickle less than some 3 mm deep, is left out.

    Examples
    --------
    >>> round(laminar_depth(0.5), 9), laminar_depth(0.0), laminar_depth(2.0)
    (0.5, 0.0, None)
    """
    return _depth(flow_ratio, _LAMINAR_POWER, _FULLEST_LAMINAR_ANGLE, _LARGEST_LAMINAR_RATIO)


def _angle(depth_fraction: float) -> float:
    """Angle [rad] that the water spans at the pipe's axis."""
    # depth / bore = (1 - cos(theta/2)) / 2 = sin^2(theta/4)
    return 4.0 * asin(sqrt(depth_fraction))


def _segment(angle: float) -> float:
    """Area of the water over bore^2 / 8."""
    # theta - sin(theta); the series below 0.02 rad, where the difference would lose its digits
    return angle - sin(angle) if angle > 0.02 else angle**3 / 6.0 * (1.0 - angle**2 / 20.0)


def _radius_ratio(angle: float) -> float:
    """Hydraulic radius over that of the full bore."""
    return _segment(angle) / angle if angle > 0.0 else 0.0


def _ratio_at(angle: float, power: float) -> float:
    """Flow over full-bore flow when the water spans ``angle`` [rad], its velocity going with a power of R."""
    # A/A_full = segment / 2 pi, R/R_full = segment / theta [1]
    return _segment(angle) / (2.0 * pi) * pow(_radius_ratio(angle), power)


def _depth(flow_ratio: float, power: float, fullest: float, largest: float) -> float | None:
    """Depth over bore at which `_ratio_at` is ``flow_ratio``, up to the ``fullest`` angle [rad] and its ``largest``."""
    if flow_ratio <= 0.0:
        return 0.0
    if flow_ratio > largest:
        return None
    # Newton on (1 + p) ln segment - p ln theta = ln(2 pi ratio) in ln theta, which is concave: from a bound below it
    # climbs to the root. A narrow segment is theta^3/6 (1 - theta^2/20 ...), which gives ``more``; the powers of it
    # that follow are fitted, from below.
    rise, wanted = 1.0 + power, log(2.0 * pi * flow_ratio)
    narrow = exp((wanted + rise * _LOG_6) / (3.0 + 2.0 * power))
    more = rise / (3.0 + 2.0 * power) * narrow * narrow / 20.0
    angle = narrow * (1.0 + more * (1.0 + more * (2.4 + 8.0 * more)))
    for _ in range(_MOST_STEPS):
        segment = _segment(angle)
        steepness = rise * angle * (1.0 - cos(angle)) / segment - power
        if steepness <= 0.0:
            break
        step = (wanted - rise * log(segment) + power * log(angle)) / steepness
        angle = min(angle * exp(step), fullest)
        if step <= _CLOSE:
            break
    return sin(angle / 4.0) ** 2


FULLEST_DEPTH = sin(_FULLEST_ANGLE / 4.0) ** 2
"""Depth over bore that carries most: 0.938."""

LARGEST_RATIO = _ratio_at(_FULLEST_ANGLE, _MANNING_POWER)
"""Largest flow over full-bore flow: 1.076 at `FULLEST_DEPTH`."""

_LARGEST_LAMINAR_RATIO = _ratio_at(_FULLEST_LAMINAR_ANGLE, _LAMINAR_POWER)
