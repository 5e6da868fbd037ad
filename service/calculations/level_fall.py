"""How one body of water falls in one or two legs, each through a growing column of still air.

The level in both legs is the same and falls by x. In leg i the column of air is P_i + x long and takes
b_i / (P_i + x) off the level, where b_i is the leg's coefficient times its share of the water's area:

    dx/dt = b_1 / (P_1 + x) + b_2 / (P_2 + x)

References
----------
.. [1] Bird, R. B., Stewart, W. E. and Lightfoot, E. N., *Transport Phenomena*: quasi-steady Stefan tube; for
   one leg t = ((P + x)^2 - P^2) / 2 b.
"""

import math

from service.calculations.frozen import dataclass

_MOST_STEPS = 100
_SMALL, _TERMS = 0.01, 9  # 0.01^7: the first term left out is beyond the last digit
_NOTHING = 1e-100  # share of a fall that is none of it
_CONVERGED = 1e-8  # step over fall; the next one would be some square of it


@dataclass(frozen=True, kw_only=True, slots=True)
class OpenLeg:
    """A leg that loses water to the open air.

    Parameters
    ----------
    path : float
        Still air above the water before it has fallen at all, P [m].
    coefficient : float
        Speed of the level times the path, of this leg alone and by its share of the water's area, b [m2/s];
        not negative.
    """

    path: float
    coefficient: float


def fall_time(legs: tuple[OpenLeg, ...], start: float, end: float) -> float:
    """Time in which the water falls from ``start`` to ``end``.

    Parameters
    ----------
    legs : tuple of OpenLeg
        None, one or two.
    start, end : float
        Fall at the beginning and the end [m]; in every leg path + start is not negative.

    Returns
    -------
    float
        Time [s]; zero where the end is reached already, infinite where no water leaves.

    Notes
    -----
    Separated, with B = b_1 + b_2, q = (b_1 P_2 + b_2 P_1) / B and y = x + q:

        B dt = (P_1 + x) (P_2 + x) / y dx = (y + s + c / y) dy,
        s = (b_1 - b_2) (P_1 - P_2) / B,  c = - b_1 b_2 (P_1 - P_2)^2 / B^2

        B t = y^2 / 2 + s y + c ln y, between both ends

    With y0 at the start, fall = y - y0 and u = fall / y0 the same without differences of like numbers:

        B t = fall (P_1 + x0) (P_2 + x0) / y0 + fall^2 / 2 - c (u - ln(1 + u))

    Examples
    --------
    One leg, by hand: (0.03^2 - 0.01^2) / (2 x 4e-10) s.

    >>> round(fall_time((OpenLeg(path=0.01, coefficient=4e-10),), 0.0, 0.02))
    1000000
    """
    fall = end - start
    if fall <= 0.0:
        return 0.0
    drying = [leg for leg in legs if leg.coefficient > 0.0]
    if not drying:
        return math.inf
    first, last = drying[0], drying[-1]
    total = first.coefficient + last.coefficient if len(drying) > 1 else first.coefficient
    apart = first.path - last.path
    if apart == 0.0:  # one leg, or two alike
        return fall * (first.path + start + 0.5 * fall) / total
    here, there = first.coefficient / total, last.coefficient / total
    at_start = start + here * last.path + there * first.path
    if at_start <= _NOTHING * fall:  # all the water that leaves has no column over it: c is nothing, too
        return fall * (0.5 * fall + (here - there) * apart) / total
    straight = fall * (first.path + start) * (last.path + start) / at_start + 0.5 * fall * fall
    return (straight + here * there * apart * apart * _beyond_log(fall / at_start)) / total


def fall_after(legs: tuple[OpenLeg, ...], start: float, time: float) -> float:
    """How far the water has fallen after a time; the inverse of `fall_time`.

    Parameters
    ----------
    legs : tuple of OpenLeg
        None, one or two.
    start : float
        Fall at the beginning [m].
    time : float
        Time since [s].

    Returns
    -------
    float
        Fall [m].

    Notes
    -----
    Newton's method. Time is a convex function of the fall, so that every step from beyond the answer lands between the
    last one and the answer. With P_1 the shorter path (P_1 + x)^2 - P_1^2 is the integral of 2 (b_1 + b_2 w) over the
    time, w = (P_1 + x) / (P_2 + x), which grows with the fall: all the time as at its end, it gives a start beyond the
    answer. The end is taken where the fall would be if both legs had the shorter path.
    """
    drying = tuple([leg for leg in legs if leg.coefficient > 0.0])
    if not drying or time <= 0.0:
        return start
    first, last = drying[0], drying[-1]
    total = first.coefficient + last.coefficient if len(drying) > 1 else first.coefficient
    near, far = (first, last) if first.path <= last.path else (last, first)
    shortest, longest = near.path + start, far.path + start
    grown = 2.0 * total * time
    if grown <= _NOTHING:  # [m2]: the fall is some 1e-50 m or less
        return start
    fall = grown / (shortest + math.sqrt(shortest * shortest + grown))
    if shortest == longest:
        return start + fall
    least = grown / (longest + math.sqrt(longest * longest + grown))
    grown = 2.0 * time * (near.coefficient + far.coefficient * (shortest + fall) / (longest + fall))
    fall = grown / (shortest + math.sqrt(shortest * shortest + grown))
    for _ in range(_MOST_STEPS):
        speed = first.coefficient / (first.path + start + fall) + last.coefficient / (last.path + start + fall)
        step = (fall_time(drying, start, start + fall) - time) * speed
        fall = max(fall - step, least)  # rounding must not carry a short time below what it takes at the least
        if abs(step) <= _CONVERGED * fall:
            break
    return start + fall


def _beyond_log(ratio: float) -> float:
    """u - ln(1 + u) [-], by its series where both are nearly the same."""
    if ratio > _SMALL:
        return ratio - math.log1p(ratio)
    total, power = 0.0, -ratio
    for order in range(2, _TERMS):
        power *= -ratio
        total += power / order
    return total
