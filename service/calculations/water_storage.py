"""Storage for re-use: how large a tank a steady demand needs, and how a given tank does.

References
----------
.. [1] Ripple, W., "The Capacity of Storage-Reservoirs for Water-Supply", Minutes of Proceedings of the Institution of
   Civil Engineers 71, 1883: the mass curve.
.. [2] Thomas, H. A. and Fiering, M. B., in Maass, A. et al., *Design of Water-Resource Systems*, 1962, and Thomas,
   H. A. and Burden, R. P., 1963: the sequent peak (from memory).
"""

import numpy as np

from service.calculations.air_column import Column
from service.calculations.frozen import dataclass

_ROUNDING = 1e-12  # of all the water, what summing thousands of rows may lose


@dataclass(frozen=True, kw_only=True, slots=True)
class TankRun:
    """What a tank does over the period, the last of many like it: inflow = used + spilled + end - start.

    Parameters
    ----------
    used, spilled, shortfall : float
        Water drawn, run over, and lacking for the demand [m3].
    start_volume, end_volume : float
        Water in the tank before the first row and after the last [m3].
    empty_rows : int
        Rows whose demand is not met in full.
    """

    used: float
    spilled: float
    shortfall: float
    start_volume: float
    end_volume: float
    empty_rows: int


def needed_volume(inflow: Column, demand: float) -> float | None:
    """Smallest tank with which the demand never fails, the period repeating itself.

    Parameters
    ----------
    inflow : array
        Water that comes in each row [m3].
    demand : float
        Water drawn in each row [m3].

    Returns
    -------
    float or None
        Volume [m3]; None where more is drawn than comes.

    Notes
    -----
    The sequent peak [2]_, the arithmetic form of the mass curve [1]_: the deficit K = max(0, K + demand - inflow), run
    over the period twice so that a dry spell may reach over its end; the largest K is the volume. With the running sum
    C of demand less inflow, K is C less the least C so far, which needs no loop.

    Examples
    --------
    Four seasons of 2, 6, 3 and 1 against a demand of 3: short by 2 after the last, by 3 after the first of the next.

    >>> needed_volume(np.array([2.0, 6.0, 3.0, 1.0]), 3.0)
    3.0
    >>> needed_volume(np.array([2.0, 6.0, 3.0, 1.0]), 3.5) is None
    True
    """
    lacking = demand - inflow
    rounding = _ROUNDING * (float(inflow.sum()) + demand * inflow.size)
    if float(lacking.sum()) > rounding:
        return None
    running = np.cumsum(np.concatenate([np.zeros(1), lacking, lacking]))
    return float((running - np.minimum.accumulate(running)).max())


def run_tank(inflow: Column, demand: float, volume: float) -> TankRun:
    """How a tank does when the period repeats itself.

    Parameters
    ----------
    inflow : array
        Water that comes in each row [m3].
    demand : float
        Water drawn in each row, where there is any [m3].
    volume : float
        Of the tank [m3].

    Returns
    -------
    TankRun

    Notes
    -----
    In each row the water comes, the demand is drawn, and what the tank cannot hold runs over. The period is run once
    from an empty tank, which settles what is in it at the start, and then counted.

    Examples
    --------
    A tank of 2 where 3 is needed (`needed_volume`) falls short by 1:

    >>> run = run_tank(np.array([2.0, 6.0, 3.0, 1.0]), 3.0, 2.0)
    >>> run.shortfall, run.used, run.spilled, run.start_volume, run.end_volume
    (1.0, 11.0, 1.0, 0.0, 0.0)
    """
    rows = inflow.tolist()
    level = 0.0
    for entering in rows:
        level = min(max(level + entering - demand, 0.0), volume)
    start = level
    used = spilled = shortfall = 0.0
    empty_rows = 0
    rounding = _ROUNDING * demand
    for entering in rows:
        level += entering
        drawn = min(demand, level)
        level -= drawn
        used += drawn
        if demand - drawn > rounding:
            shortfall += demand - drawn
            empty_rows += 1
        if level > volume:
            spilled += level - volume
            level = volume
    return TankRun(
        used=used,
        spilled=spilled,
        shortfall=shortfall,
        start_volume=start,
        end_volume=level,
        empty_rows=empty_rows,
    )
