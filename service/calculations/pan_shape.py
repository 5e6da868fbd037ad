"""How much water a pan holds up to a level, and how high a volume of water stands in it.

Upright walls on a level bottom are the plain case. Walls that lean are taken as a frustum: sections at all heights
have one shape, so that the root of the section's area rises evenly from bottom to rim. A bottom that falls to the
outlet is a plane: up to the height of its high end, the water covers that share of it.
"""

from math import cbrt, sqrt

from fluids.numerics import brenth

from service.calculations.overflow_protection import AuxiliaryPan, WaterPan


def is_plain(pan: WaterPan | AuxiliaryPan) -> bool:
    """Tell whether a pan has upright walls and a level bottom."""
    return isinstance(pan, AuxiliaryPan) or ((pan.rim_area is None or pan.rim_area == pan.area) and not pan.fall)


def pan_volume(pan: WaterPan | AuxiliaryPan, level: float) -> float:
    """Water in a pan.

    Parameters
    ----------
    pan : WaterPan or AuxiliaryPan
    level : float
        Depth of the water above the lowest place of the bottom [m], 0 to the pan's depth.

    Returns
    -------
    float
        Volume [m3].

    Notes
    -----
    With a the root of the bottom's area and b what it gains in a metre, a section is A(z) = (a + b z)^2 (1). Above
    the high end of the bottom, V = integral of A; below it, of A z / fall (2). Both are polynomials in z, written
    out below.

    Examples
    --------
    By hand: a bottom of 0.09 m2 under a rim of 0.16, 30 mm high, is a frustum of d/3 (A0 + sqrt(A0 A1) + A1) =
    0.01 x (0.09 + 0.12 + 0.16) = 3.7 L:

    >>> round(pan_volume(WaterPan(area=0.09, depth=0.03, rim_area=0.16), 0.03) * 1000, 9)
    3.7

    A wedge: 0.3 m2 of bottom falling by 20 mm hold 0.3 x 0.02 / 2 = 3 L when just covered:

    >>> round(pan_volume(WaterPan(area=0.3, depth=0.05, fall=0.02), 0.02) * 1000, 9)
    3.0
    """
    if is_plain(pan) or isinstance(pan, AuxiliaryPan):
        return pan.area * level
    a, b, fall = _shape(pan)
    if level >= fall:
        return _frustum(a, b, level) - _frustum(a, b, fall) + _wedge(a, b, fall, fall)
    return _wedge(a, b, level, fall)


def _shape(pan: WaterPan) -> tuple[float, float, float]:
    """a [m] and b [-] of equation (1), and the bottom's fall [m]."""
    a = sqrt(pan.area)
    return a, 0.0 if pan.rim_area is None else (sqrt(pan.rim_area) - a) / pan.depth, pan.fall or 0.0


def _frustum(a: float, b: float, z: float) -> float:
    """Integral of equation (1): water over a level bottom."""
    return z * (a * a + z * (a * b + z * b * b / 3.0))


def _wedge(a: float, b: float, z: float, fall: float) -> float:
    """Equation (2): water over a bottom not yet covered."""
    if z <= 0.0:
        return 0.0
    return z * (z / fall) * (a * a / 2.0 + z * (2.0 * a * b / 3.0 + z * b * b / 4.0))


def pan_level(pan: WaterPan | AuxiliaryPan, volume: float) -> float:
    """Level of a volume of water in a pan, the inverse of `pan_volume`.

    Parameters
    ----------
    pan : WaterPan or AuxiliaryPan
    volume : float
        Water in it [m3].

    Returns
    -------
    float
        Depth above the lowest place of the bottom [m], at most up to the rim: more water has run over.

    Notes
    -----
    Over a bottom that is covered (a + b z)^3 = a^3 + 3 b V, with V as over a level one; so with c, the cube root of
    that, z = (c - a) / b = 3 V / (c^2 + c a + a^2), which loses no digits where walls are nearly upright.

    Examples
    --------
    >>> round(pan_level(WaterPan(area=0.3, depth=0.05, fall=0.02), 3e-3), 12)
    0.02
    """
    full = pan_volume(pan, pan.depth)
    if volume >= full:
        return pan.depth
    if is_plain(pan) or isinstance(pan, AuxiliaryPan):
        return max(volume, 0.0) / pan.area
    a, b, fall = _shape(pan)
    covering = _wedge(a, b, fall, fall)
    if fall <= pan.depth and volume >= covering:
        over_level = volume - covering + _frustum(a, b, fall)
        c = cbrt(a**3 + 3.0 * b * over_level)
        return min(3.0 * over_level / (c * c + c * a + a * a), pan.depth)
    share = volume / full
    # a level below a femtometre, where products of such numbers underflow
    if share < 1e-30:
        return 0.0
    return float(
        brenth(
            lambda level: _wedge(a, b, level, fall) / full - share, 0.0, min(fall, pan.depth), xtol=1e-24, maxiter=1000
        )
    )


def room_between(pan: WaterPan | AuxiliaryPan, low: float, high: float) -> float:
    """Room [m3] in a pan between two levels [m]; none where the first is as high as the second."""
    if high <= low:
        return 0.0
    return pan.area * (high - low) if is_plain(pan) else pan_volume(pan, high) - pan_volume(pan, low)


def lowering(pan: WaterPan | AuxiliaryPan, level: float, shortage: float) -> float:
    """How far [m] to lower a level [m] so that ``shortage`` [m3] more fits above it; a plain pan may not be so deep."""
    if is_plain(pan):
        return shortage / pan.area
    return level - pan_level(pan, pan_volume(pan, level) - shortage)
