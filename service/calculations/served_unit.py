"""A unit that drains into a line, and the water it brings in the peak hour."""

from math import fsum

from service.calculations.answer import Assumption, Sentence
from service.calculations.condensate_rate import RATING_LATENT_HEAT, WATER_DENSITY
from service.calculations.frozen import dataclass
from service.calculations.limits import Limit
from service.tables.drain_sizes import TON

PEAK_FLOW_PER_TON = 0.5 * 3.785411784e-3 / 3600.0
"""0.5 US gal/h [m3/s] for each ton at high latent load. Common practice, no source."""

UNIT_LIMITS = {
    "total_capacity": Limit(0.0, 1e7),  # a coil that is off, to the largest built-up air handler
    "sensible_heat_ratio": Limit(0.0, 1.0),  # all latent to all sensible
    "peak_flow": Limit(0.0, 0.01),  # dry coil, to 9,500 gal/h
}


BY_THE_TON = "0.5 US gal/h for each ton of total capacity, the high end for humid weather. Common practice."
"""Note of a peak flow that was not given."""

SUM_BY_THE_TON = "{count} units give neither peak flow nor sensible heat ratio; this is their sum: " + BY_THE_TON
"""The same for several units in one row."""


@dataclass(frozen=True, kw_only=True, slots=True)
class ServedUnit:
    """A unit that drains into the line.

    Parameters
    ----------
    total_capacity : float
        Total (sensible and latent) cooling capacity [W].
    sensible_heat_ratio : float or None
        Sensible over total capacity; its latent share then gives the peak flow.
    peak_flow : float or None
        Condensate of the peak hour [m3/s] where it is known; overrules the ratio.
    pan_outlet : str or None
        Nominal size of its pan outlet; the line is never smaller from here on.
    joins : str or None
        The length of the line it joins, by `LineLength.id`, at that length's upstream end.
    """

    total_capacity: float
    sensible_heat_ratio: float | None = None
    peak_flow: float | None = None
    pan_outlet: str | None = None
    joins: str | None = None


def peak_flow_of(unit: ServedUnit) -> float:
    """Condensate of a unit in the peak hour: as given, by its latent share, or by the ton.

    Parameters
    ----------
    unit : ServedUnit

    Returns
    -------
    float
        Volume flow [m3/s].

    Examples
    --------
    One ton, 0.5 gal/h, is 1.89 L/h:

    >>> round(peak_flow_of(ServedUnit(total_capacity=TON)) * 3.6e6, 2)
    1.89
    """
    if unit.peak_flow is not None:
        return unit.peak_flow
    if unit.sensible_heat_ratio is not None:
        latent = unit.total_capacity * (1.0 - unit.sensible_heat_ratio)
        return latent / RATING_LATENT_HEAT / WATER_DENSITY
    return PEAK_FLOW_PER_TON * unit.total_capacity / TON


def peak_assumptions(units: tuple[ServedUnit, ...]) -> tuple[Assumption, ...]:
    """Record the rate by the ton: for its unit, or in one row for several."""
    silent = [
        (index, unit) for index, unit in enumerate(units) if unit.peak_flow is None and unit.sensible_heat_ratio is None
    ]
    if not silent:
        return ()
    note = Sentence(text=BY_THE_TON)
    if len(silent) > 1:
        note = Sentence(text=SUM_BY_THE_TON, values={"count": len(silent)})
    pointer = f"/units/{silent[0][0]}/peak_flow" if len(silent) == 1 else "/units"
    flow = fsum(peak_flow_of(unit) for _, unit in silent)
    return (Assumption(pointer=pointer, value=flow, note=note, symbols="gal/h|L/h"),)
