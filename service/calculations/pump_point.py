"""Where a pump's curve and its tube agree, and how far lift and length may go."""

from collections.abc import Callable
from itertools import pairwise

from fluids.numerics import brenth

from service.calculations.pump_curve import CurvePoint, PumpCurve
from service.calculations.pump_tube import TubeRun

LONGEST_TUBE = 10_000.0
"""Tube length [m] beyond which friction is no limit worth a number."""


def operating_flow(curve: PumpCurve, tube: TubeRun, lift: float) -> float:
    """Find the flow at which a curve and a tube agree on the head.

    Parameters
    ----------
    curve : PumpCurve
    tube : TubeRun
    lift : float
        Static lift [m].

    Returns
    -------
    float
        Flow [m3/s]; 0 where the lift is at or beyond the curve's shut-off.
    """
    return meeting_flow(curve, lambda flow: lift + tube.friction(flow) + tube.fittings(flow))


def meeting_flow(curve: PumpCurve, asked: Callable[[float], float]) -> float:
    """Find the flow at which a curve gives the head that is asked of it.

    Parameters
    ----------
    curve : PumpCurve
    asked : callable
        Head [m] that a flow [m3/s] takes; it never falls.

    Returns
    -------
    float
        Flow [m3/s]; 0 where even a standstill asks the curve's shut-off or more.

    Notes
    -----
    What is asked never falls with the flow and what the pump gives never rises, so there is one
    answer. The points are walked up to the first at which no more is asked than the pump
    gives; the answer lies on the straight piece below it, where both sides are smooth. Beyond the
    last point the pump is held at that lift, and the tube alone tells what flows.
    """
    points = curve.points
    if asked(0.0) >= curve.shut_off:
        return 0.0
    if asked(points[0].flow) <= points[0].lift:
        return points[0].flow
    for lower, upper in pairwise(points):
        if asked(upper.flow) <= upper.lift:
            return _on_piece(lower, upper, asked)
    return root_of(lambda flow: points[-1].lift - asked(flow), 0.0, points[-1].flow)


def largest_lift(curve: PumpCurve, tube: TubeRun, flow: float) -> float | None:
    """Greatest static lift [m] at which a tube still carries ``flow`` [m3/s]; None where it does at none."""
    top = curve.lift_at(flow)
    if top is None:
        return None
    left = top - tube.friction(flow) - tube.fittings(flow)
    return left if left >= 0.0 else None


def longest_tube(curve: PumpCurve, tube: TubeRun, lift: float, flow: float) -> float | None:
    """Longest tube [m] with the same fittings that still carries ``flow`` [m3/s] up ``lift`` [m].

    Where the tube has several sections, all are lengthened or shortened alike: that is the only answer that
    exists wherever the fittings leave any head, and the same as with one bore where all bores are one.

    Returns
    -------
    float or None
        None where even the shortest does not, and where friction sets no limit below `LONGEST_TUBE`.
    """
    top = curve.lift_at(flow)
    if top is None:
        return None
    left = top - lift - tube.fittings(flow)
    per_metre = tube.friction(flow) / tube.length
    # left / per_metre > LONGEST_TUBE, without dividing by a friction of nothing
    if left < 0.0 or left > per_metre * LONGEST_TUBE:
        return None
    return left / per_metre if per_metre > 0.0 else None


def _on_piece(lower: CurvePoint, upper: CurvePoint, asked: Callable[[float], float]) -> float:
    """Flow at which the straight piece between two points gives what is asked."""
    span = lower.flow - upper.flow
    if span <= 0.0:
        return upper.flow

    def surplus(flow: float) -> float:
        return lower.lift + (upper.lift - lower.lift) * ((lower.flow - flow) / span) - asked(flow)

    return root_of(surplus, upper.flow, lower.flow)


def root_of(surplus: Callable[[float], float], low: float, high: float) -> float:
    """Flow between ``low`` and ``high`` at which a falling ``surplus`` is spent."""
    if surplus(low) <= 0.0:
        return low
    if surplus(high) >= 0.0:
        return high
    return float(brenth(surplus, low, high, xtol=1e-18, maxiter=1000))
