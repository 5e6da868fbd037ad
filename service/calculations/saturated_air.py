"""Saturated air at one pressure and the water beside it, tabulated, for solvers that ask thousands of rows often.

Between the entries, a fifth of a kelvin apart, runs a cubic through the nearest four; over ice and over liquid apart,
because the two curves meet at an angle. It keeps to the formulas of `saturation` and `virial` within 1e-7 of the
value, 1e-8 at sea level, at a tenth of their cost.
"""

import numpy as np

from service.calculations import saturation, virial, water
from service.calculations.air_column import Column
from service.calculations.frozen import dataclass

_SPACING = 0.2  # [K]
_BELOW, _ABOVE = 101, 300  # entries under and over the triple point

LOWEST, HIGHEST = saturation.TRIPLE_POINT - _BELOW * _SPACING, saturation.TRIPLE_POINT + _ABOVE * _SPACING
"""What the table reaches from and to, 252.96 and 333.16 K: every surface a coil can have [K]."""


@dataclass(frozen=True, kw_only=True, slots=True)
class SaturatedAir:
    """Saturated air at one pressure, and liquid water of its temperature.

    Parameters
    ----------
    curves : tuple of array
        Coefficients of the cubics of each quantity, a row for each power.
    """

    curves: tuple[Column, ...]

    def look_up(self, temperature: Column) -> tuple[Column, Column, Column]:
        """Humidity ratio [kg/kg], enthalpy [J per kg of dry air], and enthalpy of liquid water [J/kg].

        Parameters
        ----------
        temperature : array
            Between `LOWEST` and `HIGHEST` [K].
        """
        at = (temperature - LOWEST) / _SPACING
        entry = np.clip(at.astype(np.intp), 0, _BELOW + _ABOVE - 1)
        # the triple point is an entry of both curves, and belongs to the liquid's
        entry[(entry == _BELOW - 1) & (temperature >= saturation.TRIPLE_POINT)] = _BELOW
        entry[(entry == _BELOW) & (temperature < saturation.TRIPLE_POINT)] = _BELOW - 1
        part = at - entry
        ratio, enthalpy, liquid = (
            c0[entry] + part * (c1[entry] + part * (c2[entry] + part * c3[entry])) for c0, c1, c2, c3 in self.curves
        )
        return ratio, enthalpy, liquid


def tabulate_saturated_air(pressure: float) -> SaturatedAir:
    """Make the table of one pressure.

    Parameters
    ----------
    pressure : float
        Station pressure [Pa].

    Returns
    -------
    SaturatedAir

    Examples
    --------
    ASHRAE Fundamentals, Psychrometrics, table 2 (from memory) has 0.007661 and 29.35 kJ/kg at 10 degC:

    >>> ratio, enthalpy, liquid = tabulate_saturated_air(101325.0).look_up(np.array([283.15]))
    >>> round(float(ratio[0]), 5), round(float(enthalpy[0]) / 1e3, 1)
    (0.00766, 29.4)
    """
    over_ice = LOWEST + _SPACING * np.arange(_BELOW + 1, dtype=np.float64)
    over_ice[-1] = np.nextafter(saturation.TRIPLE_POINT, 0.0)
    over_liquid = saturation.TRIPLE_POINT + _SPACING * np.arange(_ABOVE + 1, dtype=np.float64)
    parts = []
    for temperature in (over_ice, over_liquid):
        pressures = np.full(temperature.shape, pressure)
        ratio = saturation.saturation_humidity_ratio(temperature, pressures)
        enthalpy = virial.specific_enthalpy(temperature, ratio, pressures)
        beyond = temperature < water.LIMITS["temperature"].low  # the first entry, by two tenths of a kelvin
        liquid = water.liquid_enthalpy(np.where(beyond, saturation.TRIPLE_POINT, temperature))
        if beyond.any():
            liquid[0] = 3.0 * liquid[1] - 3.0 * liquid[2] + liquid[3]
        parts.append([_cubics(values) for values in (ratio, enthalpy, liquid)])
    return SaturatedAir(curves=tuple(np.concatenate(curve, axis=1) for curve in zip(*parts, strict=True)))


def _cubics(values: Column) -> Column:
    """Coefficients, a row for each power, of the cubic through the four entries around each gap."""
    gaps = np.arange(values.size - 1)
    first = np.clip(gaps - 1, 0, values.size - 4)
    cubics = np.empty((4, gaps.size))
    for before in (0, 1, 2):  # entries of the four that lie before the gap's own
        rows = gaps[gaps - first == before]
        through = np.linalg.inv(np.vander(np.arange(4.0) - before, increasing=True))
        cubics[:, rows] = through @ values[first[rows] + np.arange(4)[:, None]]
    return cubics
