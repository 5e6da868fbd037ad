"""A cooling coil: what it makes of the air, from its capacity and bypass factor.

The coil is modelled as in the ASHRAE Handbook - Fundamentals, Psychrometrics chapter, and
in common practice: the part of the air given by the bypass factor goes through untouched,
the rest comes to saturation at the apparatus dew point, and both mix.
"""

from dataclasses import dataclass

from fluids.numerics import brenth

from service.calculations import psychrometrics, saturation, virial, water
from service.calculations.air_state import AirState

LOWEST_SURFACE_TEMPERATURE = 253.15
"""No air-conditioning coil runs colder than -20 degC; frost blocks it long before [K]. Common practice."""

_TOLERANCE = 1e-10  # of the surface temperature [K]
_RELATIVE = 1e-12
_ENTHALPY_TOLERANCE = 1e-6  # of the fog's balance [J/kg]
_MOST_STEPS = 50


@dataclass(frozen=True, kw_only=True, slots=True)
class CoilState:
    """A coil at work.

    Parameters
    ----------
    surface_temperature : float
        The apparatus dew point; of a dry coil the temperature of its surface [K].
    dry_bulb : float
        Leaving temperature [K].
    humidity_ratio : float
        Leaving humidity ratio [kg/kg].
    wet : bool
        Whether water condenses.
    fogged : bool
        Whether the mixture was over-saturated, its surplus counted as condensate.
    """

    surface_temperature: float
    dry_bulb: float
    humidity_ratio: float
    wet: bool
    fogged: bool


def solve_coil(
    entering: AirState, *, pressure: float, specific_capacity: float, bypass_factor: float
) -> CoilState | None:
    """Find the surface temperature at which a coil has its capacity.

    Parameters
    ----------
    entering : AirState
        Entering air.
    pressure : float
        Station pressure [Pa].
    specific_capacity : float
        The coil's duty for each kilogram of dry air [J/kg].
    bypass_factor : float
        Part of the air that misses the surface [-], less than 1.

    Returns
    -------
    CoilState or None
        None when even `LOWEST_SURFACE_TEMPERATURE` does not take out so much.

    Notes
    -----
    Energy balance of the handbook's section on moist-air cooling and dehumidification [1]_:
    q / m_da = (h1 - h2) - (W1 - W2) h_w, with h_w of liquid water at the leaving temperature;
    below freezing too, as if the frost were undercooled water, because what freezing gives
    up the defrost takes back. The coil is dry when a surface at or above the entering dew
    point is cold enough.

    Examples
    --------
    With no bypass, the section's example of 30 degC and 50 % cooled to saturation at 10 degC:
    198 kW from 5 m3/s, which is 5.70 kg/s of dry air.

    >>> from service.calculations.air_state import air_state
    >>> air = air_state(303.15, 0.01337, 101325.0)
    >>> coil = solve_coil(air, pressure=101325.0, specific_capacity=198e3 / 5.70, bypass_factor=0.0)
    >>> round(coil.surface_temperature - 273.15, 1)
    10.0

    References
    ----------
    .. [1] ASHRAE Handbook - Fundamentals 2017, chapter 1, Psychrometrics.
    """
    dry = _dry_coil(entering, pressure, specific_capacity, bypass_factor)
    if dry is not None:
        return dry

    def lacking(surface: float) -> float:
        return _capacity(entering, surface, pressure, bypass_factor) - specific_capacity

    if entering.dew_point <= LOWEST_SURFACE_TEMPERATURE or lacking(LOWEST_SURFACE_TEMPERATURE) < 0.0:
        return None
    if lacking(entering.dew_point) >= 0.0:  # only by the last bits of the dew point
        return _wet_coil(entering, entering.dew_point, pressure, bypass_factor)
    surface = brenth(lacking, LOWEST_SURFACE_TEMPERATURE, entering.dew_point, xtol=_TOLERANCE, rtol=_RELATIVE)
    return _wet_coil(entering, surface, pressure, bypass_factor)


def largest_capacity(entering: AirState, *, pressure: float, bypass_factor: float) -> float:
    """What a coil at `LOWEST_SURFACE_TEMPERATURE` takes out, for each kilogram of dry air [J/kg].

    Parameters
    ----------
    entering : AirState
        Entering air.
    pressure : float
        Station pressure [Pa].
    bypass_factor : float
        Part of the air that misses the surface [-].
    """
    if entering.dew_point <= LOWEST_SURFACE_TEMPERATURE:
        coldest = virial.specific_enthalpy(LOWEST_SURFACE_TEMPERATURE, entering.humidity_ratio, pressure)
        return (1.0 - bypass_factor) * (entering.specific_enthalpy - coldest)
    return _capacity(entering, LOWEST_SURFACE_TEMPERATURE, pressure, bypass_factor)


def _dry_coil(entering: AirState, pressure: float, specific_capacity: float, bypass_factor: float) -> CoilState | None:
    """The sensible-only balance; None when its surface would be below the dew point."""
    ratio = entering.humidity_ratio
    at_surface = entering.specific_enthalpy - specific_capacity / (1.0 - bypass_factor)
    coldest = max(entering.dew_point, LOWEST_SURFACE_TEMPERATURE)
    if at_surface < virial.specific_enthalpy(coldest, ratio, pressure):
        return None
    return CoilState(
        surface_temperature=psychrometrics.dry_bulb(at_surface, ratio, pressure),
        dry_bulb=psychrometrics.dry_bulb(entering.specific_enthalpy - specific_capacity, ratio, pressure),
        humidity_ratio=ratio,
        wet=False,
        fogged=False,
    )


def _wet_coil(entering: AirState, surface: float, pressure: float, bypass_factor: float) -> CoilState:
    """Entering air mixed with air saturated at the surface temperature [K]."""
    at_surface = saturation.saturation_humidity_ratio(surface, pressure)
    contact = 1.0 - bypass_factor
    ratio = bypass_factor * entering.humidity_ratio + contact * at_surface
    enthalpy = bypass_factor * entering.specific_enthalpy + contact * virial.specific_enthalpy(
        surface, at_surface, pressure
    )
    dry_bulb = psychrometrics.dry_bulb(enthalpy, ratio, pressure)
    fogged = ratio > saturation.saturation_humidity_ratio(dry_bulb, pressure) * (1.0 + _RELATIVE)
    if fogged:
        dry_bulb = _clear_fog(dry_bulb, enthalpy, ratio, pressure)
        ratio = saturation.saturation_humidity_ratio(dry_bulb, pressure)
    return CoilState(surface_temperature=surface, dry_bulb=dry_bulb, humidity_ratio=ratio, wet=True, fogged=fogged)


def _clear_fog(temperature: float, enthalpy: float, ratio: float, pressure: float) -> float:
    """Temperature of over-saturated air once its surplus has condensed: h = h_s + (W - W_s) h_w, by Newton."""
    for _ in range(_MOST_STEPS):
        saturated = saturation.saturation_humidity_ratio(temperature, pressure)
        liquid = water.liquid_enthalpy(temperature)
        excess = virial.specific_enthalpy(temperature, saturated, pressure) + (ratio - saturated) * liquid - enthalpy
        slope = 1006.0 + 2.45e6 * saturation.humidity_ratio_slope(temperature, saturated)
        temperature -= excess / slope
        if abs(excess) < _ENTHALPY_TOLERANCE:
            break
    return temperature


def _capacity(entering: AirState, surface: float, pressure: float, bypass_factor: float) -> float:
    """Duty of a wet coil at a surface temperature [J per kg of dry air]."""
    coil = _wet_coil(entering, surface, pressure, bypass_factor)
    leaving = virial.specific_enthalpy(coil.dry_bulb, coil.humidity_ratio, pressure)
    removed = entering.humidity_ratio - coil.humidity_ratio
    return entering.specific_enthalpy - leaving - removed * water.liquid_enthalpy(coil.dry_bulb)
