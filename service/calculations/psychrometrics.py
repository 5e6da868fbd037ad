"""Moist air: humidity ratio from any reading, and any reading from humidity ratio.

Ours, and of a real gas: vapour pressures of Hyland and Wexler with the enhancement factor
(`saturation`), volumes and enthalpies with second virial coefficients (`virial`). From 0 to
50 degC, 70 to 105 kPa and 1 to 100 % relative humidity the humidity ratio agrees with
CoolProp's humid air (ASHRAE RP-1485) within 0.03 %; ideal-gas formulas sit 0.5 % low.

Every function takes floats or arrays of one shape and answers in kind. "eq." are equation
numbers of the ASHRAE Handbook - Fundamentals 2017, chapter 1, Psychrometrics. Temperatures
are in kelvin, pressures in pascal, humidity ratios in kilograms of water to a kilogram of
dry air.
"""

from service.calculations import saturation, virial, water
from service.calculations.elementwise import Real, largest, log, piecewise, where

SEA_LEVEL_PRESSURE = 101325.0
"""Standard atmosphere at sea level [Pa]."""

_STEPS = 4  # of the balance for humidity ratio; each cuts the error a thousandfold
_CONVERGED = 1e-6  # step after which the next would be below 1e-8 [K]
_MOST_STEPS = 50


def station_pressure(elevation: Real) -> Real:
    """Pressure of the standard atmosphere, eq. (3).

    Parameters
    ----------
    elevation : float or array
        Height above sea level [m], -5 to 11 km.

    Returns
    -------
    float or array
        Pressure [Pa].

    Examples
    --------
    Table 1 of the chapter has 84.556 kPa at 1500 m:

    >>> round(station_pressure(1500.0) / 1e3, 3)
    84.556
    """
    pressure: Real = SEA_LEVEL_PRESSURE * (1.0 - 2.25577e-5 * elevation) ** 5.2559
    return pressure


def humidity_ratio_from_relative_humidity(dry_bulb: Real, relative_humidity_percent: Real, pressure: Real) -> Real:
    """Humidity ratio from relative humidity, eq. (12) and (20) with the enhancement factor.

    Parameters
    ----------
    dry_bulb : float or array
        Temperature [K].
    relative_humidity_percent : float or array
        Relative humidity, 0 to 100 [%].
    pressure : float or array
        Station pressure [Pa].

    Returns
    -------
    float or array
        Humidity ratio [kg/kg].

    Examples
    --------
    The chapter's cooling example reads 0.0133 kg/kg off the chart for 30 degC and 50 %:

    >>> round(humidity_ratio_from_relative_humidity(303.15, 50.0, 101325.0), 5)
    0.01337
    """
    fraction = relative_humidity_percent / 100.0 * saturation.vapour_fraction(dry_bulb, pressure)
    return virial.MASS_RATIO * fraction / (1.0 - fraction)


def humidity_ratio_from_dew_point(dew_point: Real, pressure: Real) -> Real:
    """Humidity ratio from the dew point (frost point below freezing), eq. (13) and (21).

    Parameters
    ----------
    dew_point : float or array
        Dew point [K].
    pressure : float or array
        Station pressure [Pa].

    Returns
    -------
    float or array
        Humidity ratio [kg/kg].
    """
    return saturation.saturation_humidity_ratio(dew_point, pressure)


def humidity_ratio_from_wet_bulb(dry_bulb: Real, wet_bulb: Real, pressure: Real) -> Real:
    """Humidity ratio from the thermodynamic wet bulb: the energy balance of eq. (31).

    Parameters
    ----------
    dry_bulb : float or array
        Temperature [K].
    wet_bulb : float or array
        Wet bulb, of ice below 273.16 K and of liquid water from there on [K].
    pressure : float or array
        Station pressure [Pa].

    Returns
    -------
    float or array
        Humidity ratio [kg/kg]. Negative when no air could be so dry: the caller decides what
        such a pair of readings means.

    Notes
    -----
    Solves h(t, W) + (W_s - W) h_w = h_s for W with the enthalpies of a real gas. The closed
    eq. (33) and (35) follow from constant heat capacities and ideal saturation. The error
    against ASHRAE RP-1485 is 0.03 % of saturation at the wet bulb: of the humidity ratio
    itself 0.1 % at 10 % relative humidity and 0.9 % at 1 %.

    Examples
    --------
    The chapter's example for 40 degC and 20 degC wet bulb at sea level reads 0.0065 kg/kg off
    the chart:

    >>> round(humidity_ratio_from_wet_bulb(313.15, 293.15, 101325.0), 5)
    0.00645
    """
    frozen = wet_bulb < saturation.TRIPLE_POINT
    water_enthalpy = piecewise(frozen, water.ice_enthalpy, water.liquid_enthalpy, wet_bulb)
    saturated = saturation.saturation_humidity_ratio(wet_bulb, pressure)
    goal = virial.specific_enthalpy(wet_bulb, saturated, pressure) - saturated * water_enthalpy
    slope = _vapour_enthalpy(dry_bulb) - water_enthalpy
    enthalpy = virial.enthalpy_at(dry_bulb, pressure)
    humidity_ratio = 0.0 * dry_bulb
    for _ in range(_STEPS):
        excess = enthalpy(humidity_ratio) - humidity_ratio * water_enthalpy - goal
        humidity_ratio = humidity_ratio - excess / slope
    return humidity_ratio


def relative_humidity_percent(dry_bulb: Real, humidity_ratio: Real, pressure: Real) -> Real:
    """Relative humidity, eq. (12): mole fraction of vapour to that of saturated air.

    Parameters
    ----------
    dry_bulb : float or array
        Temperature [K].
    humidity_ratio : float or array
        Humidity ratio [kg/kg].
    pressure : float or array
        Station pressure [Pa].

    Returns
    -------
    float or array
        Relative humidity [%].
    """
    fraction = humidity_ratio / (virial.MASS_RATIO + humidity_ratio)
    return 100.0 * fraction / saturation.vapour_fraction(dry_bulb, pressure)


def dew_point(humidity_ratio: Real, pressure: Real) -> Real:
    """Dew point, frost point below freezing; see `saturation.dew_point`.

    Parameters
    ----------
    humidity_ratio : float or array
        Humidity ratio, more than nothing [kg/kg].
    pressure : float or array
        Station pressure [Pa].

    Returns
    -------
    float or array
        Dew point [K].
    """
    return saturation.dew_point(humidity_ratio, pressure)


def wet_bulb(dry_bulb: Real, humidity_ratio: Real, pressure: Real) -> Real:
    """Thermodynamic wet bulb: eq. (31) solved for the temperature.

    Parameters
    ----------
    dry_bulb : float or array
        Temperature [K].
    humidity_ratio : float or array
        Humidity ratio [kg/kg]. More than saturation (a fog) gives the temperature at which the
        surplus has condensed and the air is saturated.
    pressure : float or array
        Station pressure [Pa].

    Returns
    -------
    float or array
        Wet bulb [K].

    Notes
    -----
    Around freezing a wick may be wet or iced, and eq. (31) has a solution for each, up to
    0.8 K apart; the iced one is returned where it exists.

    Examples
    --------
    >>> round(wet_bulb(313.15, humidity_ratio_from_wet_bulb(313.15, 293.15, 101325.0), 101325.0), 6)
    293.15
    """
    enthalpy = virial.specific_enthalpy(dry_bulb, humidity_ratio, pressure)
    triple = saturation.TRIPLE_POINT + 0.0 * dry_bulb
    at_triple = saturation.saturation_humidity_ratio(triple, pressure)
    beyond_triple = enthalpy - virial.specific_enthalpy(triple, at_triple, pressure)
    # an iced wick at the triple point is too warm when the excess there is positive
    frozen = (humidity_ratio - at_triple) * water.ice_enthalpy(triple) > beyond_triple
    # a wet one starts where saturated air at sea level has the enthalpy: a fit, good to half a
    # kelvin there, and to three at 70 kPa with the enthalpy scaled
    scaled: Real = abs(beyond_triple) / 34.5e3 * (pressure / SEA_LEVEL_PRESSURE) ** 0.8
    temperature = where(frozen, triple, triple + 23.1 * log(1.0 + scaled))
    for _ in range(_MOST_STEPS):
        water_enthalpy = piecewise(frozen, water.ice_enthalpy, water.liquid_enthalpy, temperature)
        saturated = saturation.saturation_humidity_ratio(temperature, pressure)
        excess = virial.specific_enthalpy(temperature, saturated, pressure) - enthalpy
        excess = excess - (saturated - humidity_ratio) * water_enthalpy
        slope = (
            1006.0
            + 1860.0 * saturated
            + saturation.humidity_ratio_slope(temperature, saturated) * (_vapour_enthalpy(temperature) - water_enthalpy)
        )
        step = excess / slope
        temperature = temperature - step
        if largest(abs(step)) < _CONVERGED:
            break
    return temperature


def dry_bulb(specific_enthalpy: Real, humidity_ratio: Real, pressure: Real) -> Real:
    """Temperature of air whose enthalpy is known: eq. (30) turned round.

    Parameters
    ----------
    specific_enthalpy : float or array
        Enthalpy [J per kg of dry air].
    humidity_ratio : float or array
        Humidity ratio [kg/kg].
    pressure : float or array
        Station pressure [Pa].

    Returns
    -------
    float or array
        Temperature [K].

    Examples
    --------
    >>> round(dry_bulb(virial.specific_enthalpy(303.15, 0.01, 101325.0), 0.01, 101325.0), 6)
    303.15
    """
    heat_capacity = 1006.0 + 1860.0 * humidity_ratio
    temperature = virial.ICE_POINT + (specific_enthalpy - 2.501e6 * humidity_ratio) / heat_capacity
    for _ in range(_STEPS):
        excess = virial.specific_enthalpy(temperature, humidity_ratio, pressure) - specific_enthalpy
        temperature = temperature - excess / heat_capacity
    return temperature


def _vapour_enthalpy(temperature: Real) -> Real:
    """Enthalpy of water vapour [J/kg], eq. (30)'s 2501 + 1.86 t; steers the solvers only."""
    return 2.501e6 + 1860.0 * (temperature - virial.ICE_POINT)
