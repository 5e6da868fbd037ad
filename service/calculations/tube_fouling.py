"""A tube fouled evenly over its whole length: the bore that takes a head from a flow."""

from dataclasses import replace
from math import exp, log

from fluids.numerics import brenth

from service.calculations.pump_tube import TubeRun

NARROWEST_SHARE = 1e-4
"""Share of the bore below which a tube is shut."""

ROUGHEST = 0.5
"""Roughness over bore beyond which no friction law says anything."""


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

    def surplus(log_bore: float) -> float:
        film = widest - exp(log_bore)
        sections = tuple(replace(section, bore=section.bore - film) for section in tube.sections)
        narrowed = replace(tube, sections=sections)
        return narrowed.friction(flow) + narrowed.fittings(flow) - head

    # a wider section has more bore left under the same film than the narrowest, but may be rougher
    too_rough = max(widest - section.bore + section.roughness / ROUGHEST for section in tube.sections)
    low, high = log(max(NARROWEST_SHARE * widest, too_rough)), log(widest)
    if low >= high or surplus(low) < 0.0:
        return None
    if surplus(high) >= 0.0:
        return widest
    return exp(brenth(surplus, low, high, xtol=1e-13, maxiter=1000))
