"""Water in round pipe: part full under gravity (Manning), full under pressure (Darcy-Weisbach).

Part-full flow is steady and uniform: the water surface runs parallel to the pipe. Pressure
flow covers laminar, transitional and turbulent flow with one continuous friction factor.

References
----------
.. [1] V. T. Chow, *Open-Channel Hydraulics*, 1959, chapter 6: Manning's formula and the
   geometric elements of a circular section.
.. [2] L. A. Rossman et al., *EPANET 2.2 User Manual*, US EPA, 2020, section 12.1: friction
   factors 64/Re, Dunlop's (1991) cubic from Re 2000 to 4000, and Swamee and Jain (1976).
"""

from math import asin, log, log10, pi, pow, sin, sqrt

from fluids.numerics import brenth

GRAVITY = 9.80665
"""Standard acceleration of gravity [m/s2], exact by definition."""

LAMINAR_ENDS, TURBULENT_STARTS = 2000.0, 4000.0
"""Reynolds numbers between which the friction factor is interpolated [2]_."""

_FULLEST_ANGLE = 5.278107137933795
# theta [rad] at the wetted depth that carries most: d/dtheta of [(theta - sin theta)^5 / theta^2] = 0,
# that is 3 theta - 5 theta cos theta + 2 sin theta = 0; 302.41 degrees

_TRICKLE = 1e-15
"""Flow ratio below which the narrow segment is exact to eight digits."""


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
    # depth / bore = (1 - cos(theta/2)) / 2 = sin^2(theta/4), theta the angle the water spans at the axis
    return _ratio_at(4.0 * asin(sqrt(depth_fraction)))


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
    if flow_ratio <= 0.0:
        return 0.0
    if flow_ratio > LARGEST_RATIO:
        return None
    # a narrow segment is theta^3/6 and a wider one less: this angle is a lower bound, and the root of a trickle
    narrow = pow(2.0 * pi * 6.0 ** (5.0 / 3.0) * flow_ratio, 3.0 / 13.0)
    if flow_ratio < _TRICKLE:
        return sin(narrow / 4.0) ** 2
    angle = brenth(lambda theta: _ratio_at(theta) - flow_ratio, narrow, _FULLEST_ANGLE)
    return float(sin(angle / 4.0) ** 2)


def velocity(flow: float, bore: float) -> float:
    """Mean velocity [m/s] of ``flow`` [m3/s] through a full ``bore`` [m]."""
    return 4.0 * flow / (pi * bore**2)


def friction_factor(reynolds: float, relative_roughness: float) -> float:
    """Darcy friction factor, continuous over laminar, transitional and turbulent flow.

    Parameters
    ----------
    reynolds : float
        Reynolds number on the bore, above 0.
    relative_roughness : float
        Height of the roughness over the bore.

    Returns
    -------
    float
        Friction factor (four times Fanning's).

    Notes
    -----
    A jump from 64/Re to a turbulent law would let a root finder stop on the jump. The cubic
    between Re 2000 and 4000 meets both laws in value and slope, and with it these are the
    factors of the network solver that water utilities use [2]_. In smooth tube Swamee and Jain
    stay within 1 % of Colebrook above Re 6000 and within 2 % down to Re 4000; about half of
    that shows in a flow. Valid for a relative roughness up to 0.05, where it is 3 %.

    Examples
    --------
    Laminar, 64/Re by Hagen and Poiseuille; and turbulent, by hand: ln(0.001/3.7 + 5.74/10^4.5)
    = ln(0.00027027 + 0.00018152) = -7.7023, f = 1.3255 / 7.7023^2 = 0.02234:

    >>> friction_factor(1000.0, 0.001)
    0.064
    >>> round(friction_factor(1e5, 0.001), 5)
    0.02234
    """
    if reynolds <= LAMINAR_ENDS:
        return 64.0 / reynolds
    # Swamee and Jain: 1/sqrt(f) = -2 log10(e/3.7 + 5.74/Re^0.9); the transition takes it at Re 4000
    argument = relative_roughness / 3.7 + 5.74 / pow(max(reynolds, TURBULENT_STARTS), 0.9)
    inverse_root = -2.0 * log10(argument)
    fa = 1.0 / inverse_root**2
    if reynolds >= TURBULENT_STARTS:
        return fa
    # Dunlop's cubic in r = Re/2000 [2]: FA is that factor, FB = 2 (FA + dFA/dr) at r = 2
    fb = fa * (2.0 - _DUNLOP_SLOPE / (argument * inverse_root))
    r = reynolds / LAMINAR_ENDS
    x1, x2 = 7.0 * fa - fb, 0.128 - 17.0 * fa + 2.5 * fb
    x3, x4 = -0.128 + 13.0 * fa - 2.0 * fb, 0.032 - 3.0 * fa + 0.5 * fb
    return x1 + r * (x2 + r * (x3 + r * x4))


def friction_head(*, flow: float, bore: float, length: float, roughness: float, kinematic_viscosity: float) -> float:
    """Head that the wall of a full pipe takes from a flow.

    Parameters
    ----------
    flow : float
        Volume flow [m3/s], zero or more.
    bore, length : float
        Inside diameter and length [m].
    roughness : float
        Height of the wall's roughness [m].
    kinematic_viscosity : float
        Dynamic viscosity over density [m2/s].

    Returns
    -------
    float
        Head of the water itself [m]; it rises with the flow everywhere.

    Examples
    --------
    Laminar, by Hagen and Poiseuille: 128 x 1e-6 x 10 x 1e-5 / (pi x 9.80665 x 0.01^4) = 0.0415 m:

    >>> round(friction_head(flow=1e-5, bore=0.01, length=10.0, roughness=0.0, kinematic_viscosity=1e-6), 4)
    0.0415
    """
    speed = velocity(flow, bore)
    reynolds = speed * bore / kinematic_viscosity
    if reynolds <= LAMINAR_ENDS:
        # Hagen and Poiseuille: the line below with f = 64/Re, but good down to a standstill
        return 32.0 * kinematic_viscosity * length * speed / (GRAVITY * bore**2)
    factor = friction_factor(reynolds, roughness / bore)
    # Darcy and Weisbach: h = f (L/d) v^2 / 2g
    return factor * length / bore * speed**2 / (2.0 * GRAVITY)


def _ratio_at(angle: float) -> float:
    """Flow over full-bore flow when the water spans ``angle`` [rad] at the pipe's axis."""
    # segment = theta - sin(theta); the series below 0.02 rad, where the difference would lose its digits
    segment = angle - sin(angle) if angle > 0.02 else angle**3 / 6.0 * (1.0 - angle**2 / 20.0)
    if segment <= 0.0:
        return 0.0
    # A/A_full = segment / 2 pi, R/R_full = segment / theta, Q ~ A R^(2/3) [1]
    return segment / (2.0 * pi) * pow(segment / angle, 2.0 / 3.0)


_DUNLOP_SLOPE = 4.0 * (2.0 / log(10.0)) * 0.45 * 5.74 / pow(TURBULENT_STARTS, 0.9)
# 0.00514215: from FB = 2 FA + 2 dFA/dr at r = 2, with dFA/dr by the chain rule from Swamee and Jain

FULLEST_DEPTH = sin(_FULLEST_ANGLE / 4.0) ** 2
"""Depth over bore that carries most: 0.938."""

LARGEST_RATIO = _ratio_at(_FULLEST_ANGLE)
"""Largest flow over full-bore flow: 1.076 at `FULLEST_DEPTH`."""
