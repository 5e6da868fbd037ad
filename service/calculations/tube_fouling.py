"""A tube fouled evenly over its whole length: the bore that takes a head from a flow."""

from collections.abc import Callable
from math import exp, log

from service.calculations.pump_tube import TubeRun

NARROWEST_SHARE = 1e-4
"""Share of the bore below which a tube is shut."""

ROUGHEST = 0.5
"""Roughness over bore beyond which no friction law says anything."""


_MOST_STEPS, _CLOSE = 100, 1e-8
"""Steps at the most, and the last of them in the logarithm: what is left goes with the product of two steps."""


def fouled_bore(tube: TubeRun, *, flow: float, head: float) -> float | None:
    """Bore of the whole tube, where it is narrowest, at which wall and fittings take a head from a flow.

    Parameters
    ----------
    tube : TubeRun
        The tube as it was, which takes less.
    flow : float
        Flow through it [m3/s]; without any the tube is shut.
    head : float
        Head that wall and fittings take [m].

    Returns
    -------
    float or None
        Bore [m]; None where it would be too narrow for its own roughness.

    Notes
    -----
    The head falls with every widening of the bore, so there is one answer. Elbows and check valve foul with the
    tube: they go on taking their velocity heads, of the narrower bore. A film of one thickness lies in every section.

    Examples
    --------
    Laminar, by Hagen and Poiseuille: half the bore takes 16 times the head of 0.0415 m:

    >>> from service.calculations.pump_tube import SectionRun
    >>> section = SectionRun(bore=0.01, length=10.0, roughness=0.0, loss_coefficient=0.0, kinematic_viscosity=1e-6)
    >>> run = TubeRun(sections=(section,))
    >>> round(fouled_bore(run, flow=1e-5 / 2, head=16 * run.friction(1e-5 / 2)) * 1000, 6)
    5.0
    """
    if flow <= 0.0:
        return 0.0

    widest = tube.narrowest.bore

    def left(log_bore: float) -> float:
        # in logarithms nearly a straight line
        return log(head / tube.loss(flow, film=widest - exp(log_bore))[0])

    # a wider section has more bore left under the same film than the narrowest, but may be rougher
    too_rough = max(widest - section.bore + section.roughness / ROUGHEST for section in tube.sections)
    low, high = log(max(NARROWEST_SHARE * widest, too_rough)), log(widest)
    if low >= high:
        return None
    most = left(high)
    if most <= 0.0:
        return widest
    # the head goes with the fourth power of the bore or more, but for what opens the check valve and wider sections
    start = max(low, high - most / 4.0)
    least = left(start)
    if least > 0.0:
        start, least = low, left(low)
    if least > 0.0:
        return None
    return exp(_crossing(left, (start, least), (high, most)))


def _crossing(left: Callable[[float], float], below: tuple[float, float], above: tuple[float, float]) -> float:
    """Where a rising ``left`` is nothing between two places it is known at: a secant through the last two tried."""
    low, high = below[0], above[0]
    (before, was), (last, now) = above, below
    for _ in range(_MOST_STEPS):
        following = last - now * (last - before) / (now - was) if now != was else low
        if not low <= following <= high:
            following = 0.5 * (low + high)
        if abs(following - last) <= _CLOSE:
            return following
        before, was, last, now = last, now, following, left(following)
        if now < 0.0:
            low = last
        else:
            high = last
    return last
