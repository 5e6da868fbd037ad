"""A cooling coil hour by hour: `coil.solve_coil` for a whole column of entering air at once."""

import numpy as np

from service.calculations import saturation, virial, water
from service.calculations.air_column import Column, Rows
from service.calculations.coil import LOWEST_SURFACE_TEMPERATURE
from service.calculations.frozen import dataclass
from service.calculations.saturated_air import HIGHEST, LOWEST, SaturatedAir, tabulate_saturated_air

_HIGHEST_SURFACE_TEMPERATURE = 333.15  # no coil is warmer than the warmest air it meets [K]
_STARTS = 400  # points of the table a solution starts from; good to a few hundredths of a kelvin
_USUAL_LEAVING = 283.15  # what the start takes the water to drain at [K]
_CONVERGED = 1e-4  # step, itself taken, after which the next would be below 1e-8 [K]
_MOST_STEPS = 50
_LEAVING_STEPS = 2
_BITS = 1e-9  # what rounding may do to a humidity ratio, of itself
_FOG_CLEARED = 1e-7  # step after which the next would be below 1e-9 [K]
_FOG_MARGIN = 0.98  # mixtures this near to saturation at the start are looked at as fog in each step


@dataclass(frozen=True, kw_only=True, slots=True)
class CoilColumn:
    """A coil at work, row by row.

    Parameters
    ----------
    removed : array
        Water taken out of each kilogram of dry air [kg/kg]; zero of a dry coil, and where ``beyond``.
    surface_temperature : array
        The apparatus dew point of a wet coil [K]; without a meaning where the coil is dry.
    wet, beyond, fogged : array of bool
        Whether water condenses; whether no coil can take out so much; whether the mixture was over-saturated.
    """

    removed: Column
    surface_temperature: Column
    wet: Rows
    beyond: Rows
    fogged: Rows


def solve_coil_column(
    dry_bulb: Column, humidity_ratio: Column, *, pressure: float, specific_capacity: Column, bypass_factor: float
) -> CoilColumn:
    """Find the surface temperatures at which a coil has its capacity.

    Parameters
    ----------
    dry_bulb : array
        Entering temperature [K].
    humidity_ratio : array
        Entering water to dry air [kg/kg].
    pressure : float
        Station pressure [Pa].
    specific_capacity : array
        The coil's duty for each kilogram of dry air [J/kg].
    bypass_factor : float
        Part of the air that misses the surface [-], less than 1.

    Returns
    -------
    CoilColumn

    Notes
    -----
    The balance of `coil.solve_coil`, q = (h1 - h2) - (W1 - W2) h_w, holds for the mixture too, fog included, because
    what condenses of a fog leaves as water at the leaving temperature. With contact c = 1 - bypass it reads

        h_s + (W1 - W_s) h_w = h1 - q / c

    whose left side grows with the surface temperature: solved by Newton's method, then by secants, all rows at a
    time. A solution above the entering dew point, W_s >= W1, is a coil that needs no such cold surface: it is dry.

    Examples
    --------
    The handbook's example turned round, as in `coil.solve_coil`: 10 degC without bypass.

    >>> air, ratio, duty = np.array([303.15]), np.array([0.01337]), np.array([198e3 / 5.70])
    >>> coil = solve_coil_column(air, ratio, pressure=101325.0, specific_capacity=duty, bypass_factor=0.0)
    >>> round(float(coil.surface_temperature[0]) - 273.15, 1), round(float(coil.removed[0]), 4)
    (10.0, 0.0057)
    """
    rows = dry_bulb.size
    none = np.zeros(rows, dtype=np.bool_)
    if not rows:
        return CoilColumn(removed=dry_bulb, surface_temperature=dry_bulb, wet=none, beyond=none, fogged=none)
    contact = 1.0 - bypass_factor
    pressures = np.full(rows, pressure)
    enthalpy = virial.specific_enthalpy(dry_bulb, humidity_ratio, pressures)
    goal = enthalpy - specific_capacity / contact
    saturated_air = tabulate_saturated_air(pressure)
    surface = leaving = _start(goal, humidity_ratio, saturated_air)
    foggy = at = np.zeros(0, dtype=np.intp)
    step, previous, correction = np.zeros(rows), np.zeros(rows), np.zeros(rows)
    for trial in range(_MOST_STEPS):
        saturated, at_surface, _ = saturated_air.look_up(surface)
        ratio = bypass_factor * humidity_ratio + contact * saturated
        mixed = bypass_factor * enthalpy + contact * at_surface
        ideal = virial.ICE_POINT + (mixed - 2.501e6 * ratio) / (1006.0 + 1860.0 * ratio)
        if trial < _LEAVING_STEPS:
            # a leaving temperature weighs a hundredth of the surface's: two steps to it, then it moves along
            lacking = mixed - virial.specific_enthalpy(ideal + correction, ratio, pressures)
            correction = correction + lacking / (1006.0 + 1860.0 * ratio)
        if not trial and bypass_factor > 0.0:  # without a bypass the air leaves saturated as it is
            nearest, _, _ = saturated_air.look_up(np.clip(ideal + correction, LOWEST, HIGHEST))
            foggy = np.flatnonzero(ratio > _FOG_MARGIN * nearest)
        before, leaving = leaving, np.maximum(ideal + correction, LOWEST_SURFACE_TEMPERATURE)
        if foggy.size:
            clear, _, _ = saturated_air.look_up(leaving[foggy])
            at = foggy[ratio[foggy] > clear * (1.0 + _BITS)]
            leaving[at] = _clear_fog(before[at] if trial else leaving[at], mixed[at], ratio[at], saturated_air)
        _, _, liquid = saturated_air.look_up(leaving)
        excess = at_surface + (humidity_ratio - saturated) * liquid - goal
        by_formula = 1006.0 + 2.45e6 * saturation.humidity_ratio_slope(surface, saturated)
        slope = by_formula
        if trial:
            moved = np.abs(step) > 1e-9
            secant = (excess - previous) / np.where(moved, step, 1.0)
            slope = np.where(moved & (secant > 0.5 * by_formula) & (secant < 2.0 * by_formula), secant, by_formula)
        trying = np.clip(surface - excess / slope, LOWEST_SURFACE_TEMPERATURE, _HIGHEST_SURFACE_TEMPERATURE)
        step, previous = trying - surface, excess
        surface = trying
        if np.abs(step).max() < _CONVERGED:
            break
    saturated = saturated + step * saturation.humidity_ratio_slope(surface, saturated)
    # dry air whose dew point no coil reaches: its surface is above that, or no coil is as cold
    coldest = np.full(rows, LOWEST_SURFACE_TEMPERATURE)
    lowest = saturation.saturation_humidity_ratio(coldest[:1], pressures[:1])
    arid = humidity_ratio <= lowest
    wet = (saturated < humidity_ratio) & ~arid
    beyond = wet & (surface <= LOWEST_SURFACE_TEMPERATURE) & (excess > 0.0)
    if arid.any():
        beyond |= arid & (goal < virial.specific_enthalpy(coldest, humidity_ratio, pressures))
    wet &= ~beyond
    left = bypass_factor * humidity_ratio + contact * saturated
    fogged = none
    if at.size:
        left[at], _, _ = saturated_air.look_up(leaving[at])
        fogged = none.copy()
        fogged[at] = wet[at]
    return CoilColumn(
        removed=np.where(wet, np.maximum(humidity_ratio - left, 0.0), 0.0),
        surface_temperature=surface,
        wet=wet,
        beyond=beyond,
        fogged=fogged,
    )


def _start(goal: Column, humidity_ratio: Column, saturated_air: SaturatedAir) -> Column:
    """Surface temperatures [K] near the solution, from a table with one leaving temperature for all."""
    surface = np.linspace(LOWEST_SURFACE_TEMPERATURE, _HIGHEST_SURFACE_TEMPERATURE, _STARTS)
    saturated, at_surface, _ = saturated_air.look_up(surface)
    liquid = water.liquid_enthalpy(_USUAL_LEAVING)
    table = at_surface - saturated * liquid
    return np.interp(goal - humidity_ratio * liquid, table, surface)


def _clear_fog(temperature: Column, enthalpy: Column, ratio: Column, saturated_air: SaturatedAir) -> Column:
    """Temperature of over-saturated air once its surplus has condensed, as in `coil`: h = h_s + (W - W_s) h_w."""
    for _ in range(_MOST_STEPS if temperature.size else 0):
        saturated, at_saturation, liquid = saturated_air.look_up(temperature)
        excess = at_saturation + (ratio - saturated) * liquid - enthalpy
        step = excess / (1006.0 + 2.45e6 * saturation.humidity_ratio_slope(temperature, saturated))
        temperature = np.clip(temperature - step, LOWEST_SURFACE_TEMPERATURE, _HIGHEST_SURFACE_TEMPERATURE)
        if np.abs(step).max() < _FOG_CLEARED:
            break
    return temperature
