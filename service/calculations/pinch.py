"""A pinch in a tube as a sharp-edged hole: the head it takes, and the bore that takes a head.

Of all pinches of one bore, the short sharp-edged one takes most head, because the jet behind it narrows further.
A long squeezed stretch takes about half as much, so that its bore is some 15 % smaller for the same head.

References
----------
.. [1] I. E. Idelchik, *Handbook of Hydraulic Resistance*, 3rd edition, 1994, diagram 4-14: sharp-edged
   orifice in a straight tube, Re 10^5 and up in the orifice. At Re 10^4 an orifice plate of ISO 5167
   takes up to 20 % less, which moves the bore by less than 5 %.
"""

from math import pow, sqrt

from service.calculations.pipe_flow import GRAVITY, velocity

_CONTRACTION, _EXPONENT = 0.707, 0.375  # diagram 4-14: the square root of 0.5, and half of 0.75

_MOST_STEPS, _CLOSE = 50, 1e-8
"""Newton's steps at the most, and the last of them over the root: what is left goes with its square."""


def pinch_loss(area_ratio: float) -> float:
    """Velocity heads of the pinch's own bore that it takes.

    Parameters
    ----------
    area_ratio : float
        Area of the pinch over that of the tube, 0 to 1.

    Returns
    -------
    float
        Head over v^2 / 2g, v the mean velocity in the pinch.

    Notes
    -----
    zeta = [(1 - s) + 0.707 (1 - s)^0.375]^2 (1), s the area ratio [1]_. A hole in a wide wall takes
    1.707^2 = 2.91 velocity heads.

    Examples
    --------
    >>> round(pinch_loss(0.0), 2), pinch_loss(1.0)
    (2.91, 0.0)
    """
    return _narrowing(1.0 - area_ratio) ** 2


def pinch_bore(*, head: float, flow: float, tube_bore: float) -> float:
    """Bore of the sharp-edged pinch that takes a head from a flow.

    Parameters
    ----------
    head : float
        Head it takes [m], above 0.
    flow : float
        Flow through it [m3/s]; without any the pinch is shut.
    tube_bore : float
        Bore of the tube [m].

    Returns
    -------
    float
        Bore [m], 0 to that of the tube.

    Examples
    --------
    By hand: half the bore is a quarter of the area, zeta = (0.75 + 0.707 x 0.75^0.375)^2 = 1.9173; at 4 m/s in the
    pinch, 1 m/s in a tube of 10 mm (78.54 mL/s), that is 1.9173 x 16 / 19.6133 = 1.5641 m:

    >>> round(pinch_bore(head=1.5641, flow=78.54e-6, tube_bore=0.01) * 1000, 3)
    5.0
    """
    if flow <= 0.0:
        return 0.0
    # h = zeta v0^2 / 2g with v0 = v1 / s, so sqrt(h 2g) / v1 = narrowing(1 - s) / s
    root = sqrt(2.0 * GRAVITY * head) / velocity(flow, tube_bore)
    if root <= 0.0:
        return tube_bore
    blocked = _blocked_share(root)
    # the open share from the equation itself: where the pinch is almost shut, 1 - blocked has no digits left
    return tube_bore * sqrt(min(1.0, _narrowing(blocked) / root if blocked > 0.5 else 1.0 - blocked))


def velocity_heads(head: float, flow: float, bore: float) -> float | None:
    """Head [m] in velocity heads of ``flow`` [m3/s] through ``bore`` [m]; None where nothing moves to speak of."""
    one = velocity(flow, bore) ** 2 / (2.0 * GRAVITY) if flow > 0.0 and bore > 0.0 else 0.0
    # a velocity head below a millionth of a micrometre is none
    return head / one if one > 1e-12 else None


def _blocked_share(root: float) -> float:
    """Share of the area blocked where narrowing(share) = root (1 - share)."""
    # in t = share^(1/8), (1 + root) t^8 + 0.707 t^3 = root, which is convex: from a bound above, Newton falls to it
    t = min(pow(root / (1.0 + root), 0.125), pow(root / _CONTRACTION, 1.0 / 3.0))
    for _ in range(_MOST_STEPS):
        t2 = t * t
        t3, t7 = t2 * t, t2 * t2 * t2 * t
        step = ((1.0 + root) * t7 * t + _CONTRACTION * t3 - root) / (8.0 * (1.0 + root) * t7 + 3.0 * _CONTRACTION * t2)
        t -= step
        if step <= _CLOSE * t:
            break
    return pow(t, 8.0)


def _narrowing(blocked: float) -> float:
    """Square root of equation (1) at the blocked share of the area."""
    return blocked + _CONTRACTION * pow(blocked, _EXPONENT)
