"""Several pumps in one tank that push through one tube: all at once, or taking turns.

Each pump has its own check valve of the kind the tube has; behind it all meet one head. At one head
flows add up, and what the tube asks rises with their sum: two pumps move less than twice what one moves.

References
----------
.. [1] I. J. Karassik et al., *Pump Handbook*, pumps in parallel: flows add at equal head (from memory).
"""

from collections.abc import Sequence
from math import sqrt

from fluids.numerics import brenth

from service.calculations.frozen import dataclass
from service.calculations.pump_curve import CurvePoint, PumpCurve
from service.calculations.pump_cycle import NO_FLOW
from service.calculations.pump_point import operating_flow
from service.calculations.pump_tube import TubeRun

_NEARBY, _LEAST_FLOW, _LEAST_HEAD = 1e-9, 1e-17, 1e-12
"""How far from the answer it is looked at from both sides: relative, and at least this flow [m3/s] and head [m]."""


@dataclass(frozen=True, kw_only=True, slots=True)
class PumpsTogether:
    """What several pumps in one tank do.

    Parameters
    ----------
    operating_flow : float
        With all running at once [m3/s].
    operating_head : float
        Behind their check valves: lift, friction, elbows and changes of bore [m]; the greatest shut-off head
        where nothing flows.
    friction_head : float
        Of the tube's wall [m].
    flow_ratio : float or None
        Operating flow over inflow; None with no inflow.
    gain_ratio : float or None
        Operating flow over that of the strongest alone; None where none moves any water alone.
    flow_in_turn : float
        What the weakest of them moves in its turn, alone [m3/s].
    flow_one_failed : float
        Least that is left to move with one of them dead [m3/s].
    flow_ratio_one_failed : float or None
        That flow over inflow; None with no inflow.
    starts_in_turn : float or None
        Starts of each pump in an hour, taking turns; None without the tank volume of every pump, or where one of
        them never stops.
    """

    operating_flow: float
    operating_head: float
    friction_head: float
    flow_ratio: float | None
    gain_ratio: float | None
    flow_in_turn: float
    flow_one_failed: float
    flow_ratio_one_failed: float | None
    starts_in_turn: float | None


def shared_flows(curves: Sequence[PumpCurve], tube: TubeRun, lift: float) -> tuple[float, ...]:
    """Find what each of several pumps moves while all push through one tube.

    Parameters
    ----------
    curves : sequence of PumpCurve
        One for each pump.
    tube : TubeRun
        Its check valve stands at the outlet of every pump.
    lift : float
        Static lift [m].

    Returns
    -------
    tuple of float
        Flow of each pump [m3/s]; 0 for one whose shut-off head the others reach.

    Notes
    -----
    Unknown is the sum Q. The head it meets in the tube, H(Q), never falls with Q; what each pump gives at H
    never rises with H; so the sum given less Q falls, and there is one answer. Where a curve stops short of zero
    flow, its pump's flow drops at the last lift: the answer may lie on that step, and the pumps on it share what
    is left between both sides of the step.

    Examples
    --------
    By hand, laminar: two pumps of 0.6 - 30000 q each against 0.35 m and 2077.3 Q (see `run_pump`):
    Q = 0.25 / (2077.3 + 30000 / 2) = 1.464e-5, half of it each:

    >>> from service.calculations.pump_curve import CurvePoint, read_curve
    >>> from service.calculations.pump_tube import SectionRun
    >>> curve = read_curve((CurvePoint(lift=0.0, flow=2e-5), CurvePoint(lift=0.6, flow=0.0)))
    >>> section = SectionRun(bore=0.01, length=5.0, roughness=0.0, loss_coefficient=0.0, kinematic_viscosity=1e-6)
    >>> [round(flow * 1e6, 3) for flow in shared_flows((curve, curve), TubeRun(sections=(section,)), 0.35)]
    [7.32, 7.32]
    """
    if len({curve.points for curve in curves}) == 1:
        # pumps of a kind are one pump of their added flow, of which each valve passes a part: K (Q/n)^2 = (K/n^2) Q^2
        count, one = len(curves), curves[0]
        added = PumpCurve(points=tuple([CurvePoint(lift=each.lift, flow=count * each.flow) for each in one.points]))
        valve = tube.check_valve_loss_coefficient / count**2
        joined = TubeRun(sections=tube.sections, check_valve_loss_coefficient=valve, cracking_head=tube.cracking_head)
        return (operating_flow(added, joined, lift) / count,) * count
    behind, beyond = [_BehindValve(curve, tube) for curve in curves], TubeRun(sections=tube.sections)

    def given(head: float) -> list[float]:
        return [pump.flow_at(head) for pump in behind]

    def asked(flow: float) -> float:
        return lift + beyond.loss(flow)[0]

    most = sum(given(lift))
    if most <= 0.0:
        return tuple(0.0 for _ in curves)
    # at a standstill the sum given is the most there is
    whole = brenth(lambda flow: sum(given(asked(flow))) - flow, 0.0, most, xtol=1e-18, maxiter=1000, fa=most)
    # a pump on a step of its curve, or a hair from its shut-off head, gives one flow on this side and one on that
    more, less = whole * (1.0 + _NEARBY) + _LEAST_FLOW, max(whole * (1.0 - _NEARBY) - _LEAST_FLOW, 0.0)
    least, greatest = given(asked(more) + _LEAST_HEAD), given(asked(less) - _LEAST_HEAD)
    step = sum(greatest) - sum(least)
    part = min(max((whole - sum(least)) / step, 0.0), 1.0) if step > 0.0 else 0.0
    return tuple(low + part * (high - low) for low, high in zip(least, greatest, strict=True))


class _BehindValve:
    """A pump's curve behind its own check valve: the flow at a head in the tube."""

    def __init__(self, curve: PumpCurve, tube: TubeRun) -> None:
        last = curve.points[-1]
        self._points = (*curve.points, CurvePoint(lift=last.lift, flow=0.0))  # the pump is held at its last lift
        self._heads = [point.lift - tube.check_valve(point.flow) for point in self._points]
        self._standstill = curve.shut_off - tube.cracking_head
        # h = K v^2 / 2g of the check valve is this times Q^2
        self._valve = tube.check_valve(1.0) - tube.cracking_head

    def flow_at(self, head: float) -> float:
        """Flow [m3/s] at a head [m] behind the check valve; see `service.calculations.pump_point.meeting_flow`."""
        if head >= self._standstill:
            return 0.0
        lower = self._points[0]
        for upper, own in zip(self._points, self._heads, strict=True):
            if head <= own:
                break
            lower = upper
        span, valve = lower.flow - upper.flow, self._valve
        if span <= 0.0:
            return upper.flow
        # lift on the straight piece less valve Q^2 less head, with Q = upper.flow + x: valve x^2 + slope x = own - head
        slope = (upper.lift - lower.lift) / span + 2.0 * valve * upper.flow
        left = own - head
        root = slope + sqrt(slope * slope + 4.0 * valve * left)
        return min(upper.flow + 2.0 * left / root, lower.flow) if root > 0.0 else upper.flow


def flows_without_each(curves: Sequence[PumpCurve], tube: TubeRun, lift: float) -> tuple[float, ...]:
    """What the others move [m3/s] while one pump is dead, for each pump in turn."""
    others = [[*curves[:index], *curves[index + 1 :]] for index in range(len(curves))]
    return tuple(sum(shared_flows(left, tube, lift)) for left in others)


def starts_in_turn(fill_and_pump_times: Sequence[float | None]) -> float | None:
    """Starts of each pump in an hour [1/h] when they take turns; None where one time is not known."""
    times = [time for time in fill_and_pump_times if time is not None]
    if not times or len(times) < len(fill_and_pump_times):
        return None
    # one round, in which every pump fills and empties the tank once
    return 3600.0 / sum(times)


def ratio(flow: float, inflow: float) -> float | None:
    """Flow over inflow [m3/s over m3/s]; None with no inflow."""
    return flow / inflow if inflow > NO_FLOW else None
