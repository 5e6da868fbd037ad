"""Water in full pipe under pressure, by Darcy and Weisbach.

One continuous friction factor covers laminar, transitional and turbulent flow. What runs part full
under its own fall is in `service.calculations.gravity_flow`.

References
----------
.. [1] L. A. Rossman et al., *EPANET 2.2 User Manual*, US EPA, 2020, section 12.1: friction
   factors 64/Re, Dunlop's (1991) cubic from Re 2000 to 4000, and Swamee and Jain (1976).
"""

from math import log, log10, pi, pow

GRAVITY = 9.80665
"""Standard acceleration of gravity [m/s2], exact by definition."""

LAMINAR_ENDS, TURBULENT_STARTS = 2000.0, 4000.0
"""Reynolds numbers between which the friction factor is interpolated [1]_."""


def velocity(flow: float, bore: float) -> float:
    """Mean velocity [m/s] of ``flow`` [m3/s] through a full ``bore`` [m]."""
    return 4.0 * flow / (pi * bore * bore)


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
    factors of the network solver that water utilities use [1]_. In smooth tube Swamee and Jain
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
    return 64.0 / reynolds if reynolds <= LAMINAR_ENDS else _turbulent_law(reynolds, relative_roughness)[0]


def _turbulent_law(reynolds: float, relative_roughness: float) -> tuple[float, float]:
    """Friction factor beyond laminar flow, and the power of the flow that its head goes with there."""
    # Swamee and Jain: 1/sqrt(f) = -2 log10(e/3.7 + 5.74/Re^0.9); the transition takes it at Re 4000
    smooth = 5.74 / pow(max(reynolds, TURBULENT_STARTS), 0.9)
    argument = relative_roughness / 3.7 + smooth
    inverse_root = -2.0 * log10(argument)
    fa = 1.0 / inverse_root**2
    # head ~ f Q^2, and by the chain rule d ln f / d ln Re = -(3.6 / ln 10) smooth / (argument inverse_root)
    exponent = 2.0 - 3.6 / _LN_10 * smooth / (argument * inverse_root)
    if reynolds >= TURBULENT_STARTS:
        return fa, exponent
    # Dunlop's cubic in r = Re/2000 [1]: FA is that factor, FB = 2 (FA + dFA/dr) at r = 2
    fb = fa * exponent
    r = reynolds / LAMINAR_ENDS
    x1, x2 = 7.0 * fa - fb, 0.128 - 17.0 * fa + 2.5 * fb
    x3, x4 = -0.128 + 13.0 * fa - 2.0 * fb, 0.032 - 3.0 * fa + 0.5 * fb
    factor = x1 + r * (x2 + r * (x3 + r * x4))
    return factor, 2.0 + r * (x2 + r * (2.0 * x3 + r * 3.0 * x4)) / factor


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
    return wall_loss(velocity(flow, bore), bore, length, roughness, kinematic_viscosity)[0]


def wall_loss(
    speed: float, bore: float, length: float, roughness: float, kinematic_viscosity: float
) -> tuple[float, float]:
    """Head that the wall of a full pipe takes, and the power of the flow that it goes with.

    Parameters
    ----------
    speed : float
        Mean velocity of the flow [m/s], zero or more.
    bore, length, roughness, kinematic_viscosity : float
        As those of `friction_head`.

    Returns
    -------
    tuple of float
        Head [m] and d ln head / d ln flow: 1 in laminar flow, some 1.8 to 2 in turbulent flow.

    Examples
    --------
    >>> wall_loss(0.1, 0.01, 10.0, 0.0, 1e-6)[1]
    1.0
    """
    reynolds = speed * bore / kinematic_viscosity
    if reynolds <= LAMINAR_ENDS:
        # Hagen and Poiseuille: the line below with f = 64/Re, but good down to a standstill
        return 32.0 * kinematic_viscosity * length * speed / (GRAVITY * bore * bore), 1.0
    factor, exponent = _turbulent_law(reynolds, roughness / bore)
    # Darcy and Weisbach: h = f (L/d) v^2 / 2g
    return factor * length / bore * speed * speed / (2.0 * GRAVITY), exponent


_LN_10 = log(10.0)
