"""Where a pump's curve and its tube agree, and how far lift and length may go."""

from collections.abc import Callable

from service.calculations.pump_curve import CurvePoint, PumpCurve
from service.calculations.pump_tube import TubeRun

LONGEST_TUBE = 10_000.0
"""Tube length [m] beyond which friction is no limit worth a number."""

_MOST_STEPS, _CLOSE = 100, 1e-8
"""Newton's steps at the most, and the last of them over the flow: what is left goes with its square."""


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
    return meeting_flow(curve, lift, tube.loss)


def meeting_flow(curve: PumpCurve, lift: float, loss: Callable[[float], tuple[float, float]]) -> float:
    """Find the flow at which a curve gives the head that is asked of it.

    Parameters
    ----------
    curve : PumpCurve
    lift : float
        Head asked whatever flows [m].
    loss : callable
        Head [m] that a flow [m3/s] takes beside it, which never falls, and d head / d ln flow [m].

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
    standstill = lift + loss(0.0)[0]
    if standstill >= curve.shut_off:
        return 0.0
    lower = None
    for upper in curve.points:
        # a point of less lift than a standstill asks is passed without asking
        if upper.lift >= standstill and (upper.flow <= 0.0 or lift + loss(upper.flow)[0] <= upper.lift):
            return _on_piece(lower, upper, lift, loss) if lower else upper.flow
        lower = upper
    last = curve.points[-1]
    return _on_piece(last, CurvePoint(lift=last.lift, flow=0.0), lift, loss)


def longest_tube(left: float, per_metre: float) -> float | None:
    """Length [m] of a tube whose wall takes ``left`` [m] of head at ``per_metre`` [m/m].

    Where the tube has several sections, all are lengthened or shortened alike: that is the only answer that
    exists wherever the fittings leave any head, and the same as with one bore where all bores are one.

    Returns
    -------
    float or None
        None where nothing is left, and where friction sets no limit below `LONGEST_TUBE`.
    """
    # left / per_metre > LONGEST_TUBE, without dividing by a friction of nothing
    if left < 0.0 or left > per_metre * LONGEST_TUBE:
        return None
    return left / per_metre if per_metre > 0.0 else None


def _on_piece(lower: CurvePoint, upper: CurvePoint, lift: float, loss: Callable[[float], tuple[float, float]]) -> float:
    """Flow at which the straight piece between two points gives what is asked: Newton, kept on the piece."""
    low, high = upper.flow, lower.flow
    span, fall = high - low, upper.lift - lower.lift
    if span <= 0.0:
        return low
    flow = 0.5 * (low + high)
    for _ in range(_MOST_STEPS):
        head, rise = loss(flow)
        surplus = lower.lift + fall * ((lower.flow - flow) / span) - lift - head
        if surplus > 0.0:
            low = flow
        else:
            high = flow
        steepness = rise + fall * (flow / span)  # -d surplus / d ln flow
        following = flow + flow * surplus / steepness if steepness > 0.0 else high
        if abs(following - flow) <= _CLOSE * flow:
            return following
        flow = following if low < following < high else 0.5 * (low + high)
    return flow
