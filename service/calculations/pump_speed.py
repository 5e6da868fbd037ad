"""A worn or slow pump: its leaflet curve at another speed.

Low voltage, dragging bearings, a rubbed-down or slimed impeller all leave a pump as if it turned more slowly.
By the affinity laws [1]_ a curve at speed ratio n is: flow n times, head n^2 times.

References
----------
.. [1] I. J. Karassik et al., *Pump Handbook*, affinity laws of centrifugal pumps.
"""

from math import sqrt

from fluids.numerics import brenth

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
    if curve.most_flow <= 0.0 or flow > FASTEST * curve.most_flow:
        return None

    def surplus(speed_ratio: float) -> float:
        made = head_at_speed(curve, flow, speed_ratio)
        return (0.0 if made is None else made) - head

    # flow over most_flow, a few bits up so that the division back does not fall off the curve's end
    slowest = flow / curve.most_flow * (1.0 + 1e-12)
    if surplus(slowest) >= 0.0:
        return slowest
    if surplus(FASTEST) < 0.0:
        return None
    return float(brenth(surplus, slowest, FASTEST, xtol=1e-13, maxiter=1000))


def speed_from_shut_off(curve: PumpCurve, head: float) -> float | None:
    """Speed at which a curve ends at ``head`` [m]: the square root of the heads' ratio; None without a leaflet's."""
    return sqrt(head / curve.shut_off) if curve.shut_off * FASTEST**2 > head and curve.shut_off > 0.0 else None
