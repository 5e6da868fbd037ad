"""A cooling coil: what it makes of the air, from its capacity and bypass factor.

The coil is modelled as in the ASHRAE Handbook - Fundamentals, Psychrometrics chapter, and
in common practice: the part of the air given by the bypass factor goes through untouched,
the rest comes to saturation at the apparatus dew point, and both mix.
"""

from service.calculations import psychrometrics, saturation, virial, water
from service.calculations.air_state import AirState
from service.calculations.frozen import dataclass

LOWEST_SURFACE_TEMPERATURE = 253.15
"""No air-conditioning coil runs colder than -20 degC; frost blocks it long before [K]. Common practice."""

_CONVERGED = 1e-6  # step of the surface temperature after which the next would be below 1e-9 [K]
_SETTLED = 1e-5  # the same of the leaving temperature [K]
_BITS = 1e-10  # what rounding may do to a humidity ratio, of itself
_LIQUID_HEAT = 4.2e3  # heat capacity of the water, to steer by [J/(kg K)]
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
    point is cold enough. A wet one, of contact c = 1 - bypass, is solved at its surface,

        h_s + (W1 - W_s) h_w = h1 - q / (c m_da)

    for the balance holds of the mixture too, and what condenses of a fog leaves as water at
    the leaving temperature.

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
    ratio = entering.humidity_ratio
    goal = entering.specific_enthalpy - specific_capacity / (1.0 - bypass_factor)
    coldest = max(entering.dew_point, LOWEST_SURFACE_TEMPERATURE)
    surplus = goal - virial.specific_enthalpy(coldest, ratio, pressure)
    if surplus >= 0.0:
        return CoilState(
            surface_temperature=psychrometrics.dry_bulb(goal, ratio, pressure),
            dry_bulb=psychrometrics.dry_bulb(entering.specific_enthalpy - specific_capacity, ratio, pressure),
            humidity_ratio=ratio,
            wet=False,
            fogged=False,
        )
    if coldest > entering.dew_point:
        return None
    return _wet_coil(entering, psychrometrics.near_dew_point(coldest, ratio, surplus), goal, pressure, bypass_factor)


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
    contact = 1.0 - bypass_factor
    if entering.dew_point <= LOWEST_SURFACE_TEMPERATURE:
        coldest = virial.specific_enthalpy(LOWEST_SURFACE_TEMPERATURE, entering.humidity_ratio, pressure)
        return contact * (entering.specific_enthalpy - coldest)
    saturated, _, at_surface, _ = saturation.saturation_curve(LOWEST_SURFACE_TEMPERATURE, pressure)
    ratio = bypass_factor * entering.humidity_ratio + contact * saturated
    enthalpy = bypass_factor * entering.specific_enthalpy + contact * at_surface
    leaving = psychrometrics.dry_bulb(enthalpy, ratio, pressure)
    if ratio > saturation.saturation_humidity_ratio(leaving, pressure):
        leaving = psychrometrics.saturated_temperature(enthalpy, ratio, pressure, leaving)
    liquid = water.liquid_enthalpy(leaving)
    return contact * (entering.specific_enthalpy - at_surface - (entering.humidity_ratio - saturated) * liquid)


def _wet_coil(entering: AirState, start: float, goal: float, pressure: float, bypass_factor: float) -> CoilState | None:
    """The balance at the surface, h_s + (W1 - W_s) h_w = ``goal``, by Halley's method; the leaving air moves along."""
    contact = 1.0 - bypass_factor
    surface = min(max(start, LOWEST_SURFACE_TEMPERATURE), entering.dew_point)
    leaving = surface + bypass_factor * (entering.dry_bulb - surface)
    fogged = False
    for _ in range(_MOST_STEPS):
        saturated, ratio_slope, at_surface, heat = saturation.saturation_curve(surface, pressure)
        ratio = bypass_factor * entering.humidity_ratio + contact * saturated
        enthalpy = bypass_factor * entering.specific_enthalpy + contact * at_surface
        if fogged:
            cooler, leaving_heat = psychrometrics.saturating_step(enthalpy, ratio, pressure, leaving)
            carried = _LIQUID_HEAT * (leaving - virial.ICE_POINT)
        elif bypass_factor > 0.0:
            held, leaving_heat, carried = virial.enthalpy_with_slopes(leaving, ratio, pressure)
            cooler = (held - enthalpy) / leaving_heat
        else:
            cooler, leaving_heat, carried = 0.0, heat, 0.0
        leaving -= cooler
        liquid = water.liquid_enthalpy(max(leaving, LOWEST_SURFACE_TEMPERATURE))
        # what the leaving temperature moves with each kelvin of the surface's
        follows = contact * (heat - ratio_slope * carried) / leaving_heat
        removed = entering.humidity_ratio - saturated
        excess = at_surface + removed * liquid - goal
        slope = heat - ratio_slope * liquid + removed * follows * _LIQUID_HEAT
        step = psychrometrics.bent_step(excess, slope, saturated, ratio_slope)
        settled = abs(cooler) < _SETTLED
        # the surface moves by less than what the leaving temperature is still off
        if surface == LOWEST_SURFACE_TEMPERATURE and step > (0.0 if settled else abs(cooler)):
            return None
        step = surface - min(max(surface - step, LOWEST_SURFACE_TEMPERATURE), entering.dew_point)
        surface -= step
        leaving -= step * follows
        if settled and abs(step) < _CONVERGED:
            ratio -= step * contact * ratio_slope
            most = saturation.saturation_humidity_ratio(leaving, pressure) if bypass_factor > 0.0 else ratio
            if fogged or ratio <= most * (1.0 + _BITS):
                break
            fogged = True
    return CoilState(
        surface_temperature=surface,
        dry_bulb=leaving,
        humidity_ratio=most if fogged else ratio,
        wet=True,
        fogged=fogged,
    )
