"""How much of a day equipment runs."""

from service.calculations.answer import Assumption

DAY = 86400.0
"""[s]"""

_ALL_DAY = Assumption(
    pointer="/run_fraction", value=1.0, note="Not given: running all day, the most water a day can make."
)


def running_time(run_fraction: float | None) -> tuple[float, tuple[Assumption, ...]]:
    """Time in a day that equipment runs, all of it by default.

    Parameters
    ----------
    run_fraction : float or None
        Share of the day [-].

    Returns
    -------
    tuple of (float, tuple of Assumption)
        Time [s], and what was assumed to know it.
    """
    if run_fraction is not None:
        return DAY * run_fraction, ()
    return DAY, (_ALL_DAY,)
