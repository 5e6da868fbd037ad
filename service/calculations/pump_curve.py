"""A pump's leaflet curve: flow against lift, read from a few points in any order.

Between points the curve is straight, as in network solvers [1]_. It is never stretched
upward: beyond the greatest lift given there is no flow to count on. Below the least lift
given the flow is held at that point's. A point that has more flow than a point of less lift
is brought down to it, so that a slip of the pen never makes the pump stronger.

References
----------
.. [1] L. A. Rossman et al., *EPANET 2.2 User Manual*, US EPA, 2020, section 3.2: a curve of
   four or more points is made of straight lines.
"""

from operator import attrgetter

from service.calculations.frozen import dataclass
from service.calculations.limits import Limit

POINT_LIMITS = {
    "lift": Limit(0.0, 100.0),  # level, to far beyond any float-operated tank pump
    "flow": Limit(0.0, 5e-3),  # shut off, to 4,750 gal/h
}

FEWEST_POINTS, MOST_POINTS = 2, 50
"""Points of a leaflet curve: two make a line; more than fifty no leaflet prints."""


@dataclass(frozen=True, kw_only=True, slots=True)
class CurvePoint:
    """One point of the leaflet.

    Parameters
    ----------
    lift : float
        Height the water is lifted [m].
    flow : float
        Flow at that lift [m3/s].
    """

    lift: float
    flow: float


@dataclass(frozen=True, kw_only=True, slots=True)
class PumpCurve:
    """The curve used: lifts rise, flows never do.

    Parameters
    ----------
    points : tuple of CurvePoint
        At least one.
    rising : CurvePoint or None
        The first point given that has more flow than one of the same or less lift.
    """

    points: tuple[CurvePoint, ...]
    rising: CurvePoint | None = None

    @property
    def most_flow(self) -> float:
        """Flow at the least lift given [m3/s]."""
        return self.points[0].flow

    @property
    def reaches_zero(self) -> bool:
        """Whether the points go up to where the flow ends."""
        return self.points[-1].flow <= 0.0

    @property
    def shut_off(self) -> float:
        """Lift at which the flow ends, or the greatest given where it does not [m]; 0 if it never flows."""
        points = self.points
        if points[0].flow <= 0.0:
            return 0.0
        for point in points:
            if point.flow <= 0.0:
                return point.lift
        return points[-1].lift

    def lift_at(self, flow: float) -> float | None:
        """Greatest lift [m] at which the pump still moves ``flow`` [m3/s]; None above `most_flow`."""
        points = self.points
        if flow <= 0.0:
            return self.shut_off
        if flow > points[0].flow:
            return None
        upper = points[-1]
        for lower in reversed(points[:-1]):
            if flow <= upper.flow:
                return upper.lift
            if flow <= lower.flow:
                return lower.lift + (upper.lift - lower.lift) * (lower.flow - flow) / (lower.flow - upper.flow)
            upper = lower
        return points[0].lift


def read_curve(points: tuple[CurvePoint, ...]) -> PumpCurve:
    """Put a leaflet's points in order and hold them to a curve that never rises.

    Parameters
    ----------
    points : tuple of CurvePoint
        In any order.

    Returns
    -------
    PumpCurve

    Examples
    --------
    >>> slip = (CurvePoint(lift=4.0, flow=0.0), CurvePoint(lift=0.0, flow=3e-5), CurvePoint(lift=2.0, flow=4e-5))
    >>> curve = read_curve(slip)
    >>> [(point.lift, point.flow) for point in curve.points]
    [(0.0, 3e-05), (2.0, 3e-05), (4.0, 0.0)]
    >>> curve.rising.flow
    4e-05
    """
    kept: list[CurvePoint] = []
    rising: CurvePoint | None = None
    for point in sorted(points, key=attrgetter("lift", "flow")):
        if kept and point.flow > kept[-1].flow:
            rising = rising or point
            point = CurvePoint(lift=point.lift, flow=kept[-1].flow)
        if not kept or point.lift > kept[-1].lift:
            kept.append(point)
    return PumpCurve(points=tuple(kept), rising=rising)
