"""A worn or slow pump: its leaflet curve at another speed.

Low voltage, dragging bearings, a rubbed-down or slimed impeller all leave a pump as if it turned more slowly.
By the affinity laws [1]_ a curve at speed ratio n is: flow n times, head n^2 times.

References
----------
.. [1] I. J. Karassik et al., *Pump Handbook*, affinity laws of centrifugal pumps.
"""

from math import inf, sqrt

from service.calculations.pump_curve import PumpCurve

FASTEST = 1e3
"""Speed ratio beyond which a leaflet has nothing to do with the pump."""


def head_at_speed(curve: PumpCurve, flow: float, speed_ratio: float) -> float | None:
    """Greatest head at which a pump at another speed moves a flow.

    Parameters
    ----------
    curve : PumpCurve
        The leaflet's.
    flow : float
        Flow to move [m3/s].
    speed_ratio : float
        Speed over that of the leaflet.

    Returns
    -------
    float or None
        Head [m]; None where the pump moves that flow at none.

    Examples
    --------
    By hand: a straight curve from 4 m to 2e-5 m3/s gives 2 m at 1e-5; at 0.8 of the speed 1e-5 / 0.8 = 1.25e-5 on the
    leaflet, 1.5 m, times 0.64:

    >>> from service.calculations.pump_curve import CurvePoint, read_curve
    >>> curve = read_curve((CurvePoint(lift=4.0, flow=0.0), CurvePoint(lift=0.0, flow=2e-5)))
    >>> round(head_at_speed(curve, 1e-5, 0.8), 12)
    0.96
    """
    if speed_ratio <= 0.0:
        return None
    head = curve.lift_at(flow / speed_ratio)
    return None if head is None else speed_ratio * speed_ratio * head


def speed_for(curve: PumpCurve, flow: float, head: float) -> float | None:
    """Least speed at which a pump moves a flow against a head.

    Parameters
    ----------
    curve : PumpCurve
        The leaflet's.
    flow : float
        Flow it moves [m3/s].
    head : float
        Head it does so against [m].

    Returns
    -------
    float or None
        Speed over that of the leaflet; None where no speed up to `FASTEST` does.

    Examples
    --------
    The same curve, the other way round:

    >>> from service.calculations.pump_curve import CurvePoint, read_curve
    >>> curve = read_curve((CurvePoint(lift=4.0, flow=0.0), CurvePoint(lift=0.0, flow=2e-5)))
    >>> round(speed_for(curve, 1e-5, 0.96), 9)
    0.8
    """
    if flow <= 0.0:
        return speed_from_shut_off(curve, head)
    if curve.most_flow <= 0.0 or flow > FASTEST * curve.most_flow:
        return None
    lower = None
    for upper in curve.points:
        # at the speed n that brings the flow to this point the pump makes n^2 of its lift
        speed = flow / upper.flow if upper.flow > 0.0 else inf
        if speed * speed * upper.lift >= head:
            break
        lower = upper
    else:  # less flow than the last point has: held at its lift
        return speed_from_shut_off(curve, head)
    if lower and lower.flow > upper.flow:
        # on the straight piece n^2 (top - slope flow / n) = head
        span, fall = lower.flow - upper.flow, upper.lift - lower.lift
        top, part = lower.lift + fall * (lower.flow / span), fall * (flow / span)
        speed = (part + sqrt(part * part + 4.0 * top * head)) / (2.0 * top)
    else:
        speed *= 1.0 + 1e-12  # a few bits up so that the division back does not fall off the curve's end
    return speed if speed <= FASTEST else None


def speed_from_shut_off(curve: PumpCurve, head: float) -> float | None:
    """Speed at which a curve ends at ``head`` [m]: the square root of the heads' ratio; None without a leaflet's."""
    shut_off = curve.shut_off
    return sqrt(head / shut_off) if shut_off * FASTEST**2 > head and shut_off > 0.0 else None
