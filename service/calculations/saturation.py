"""Saturated air: vapour pressure over water and ice, and how much water air can hold.

Every function takes floats or arrays of one shape and answers in kind.

References
----------
.. [1] ASHRAE Handbook - Fundamentals 2017, chapter 1, Psychrometrics; "eq." below are its
   equation numbers.
.. [2] Hyland, R. W. and Wexler, A., "Formulations for the Thermodynamic Properties of the
   Saturated Phases of H2O from 173.15 K to 473.15 K", ASHRAE Transactions 89(2A), 1983.
"""

import math

from service.calculations import virial
from service.calculations.elementwise import Real, exp, largest, log, smallest, where
from service.calculations.limits import Limit
from service.errors import OutOfRange

# [2] begins at 173.15 K; at 343.15 K water is still far from boiling at any station pressure
LIMITS = {"temperature": Limit(173.15, 343.15)}

TRIPLE_POINT = 273.16
"""Below it saturation means over ice, from it on over liquid water [K]."""

_LIQUID_MOLAR_VOLUME = 18.05e-6  # of water, 0 to 40 degC [m3/mol]
_ICE_MOLAR_VOLUME = 19.65e-6  # of ice near 0 degC [m3/mol]
_CONVERGED = 5e-4  # step after which the next would be below 1e-9 [K]
_MOST_STEPS = 50


def saturation_pressure(temperature: Real) -> Real:
    """Vapour pressure of pure water, over ice below the triple point and over liquid from it on.

    Parameters
    ----------
    temperature : float or array
        Temperature [K].

    Returns
    -------
    float or array
        Saturation pressure [Pa], within 0.02 % of IAPWS-95 from 0 to 60 degC.

    Raises
    ------
    OutOfRange
        Outside 173.15 to 343.15 K.

    Examples
    --------
    ASHRAE Fundamentals, Psychrometrics, table 3 has 2.3392 kPa at 20 degC:

    >>> round(saturation_pressure(293.15) / 1e3, 3)
    2.339
    """
    _check(temperature)
    logarithm = log(temperature)
    if isinstance(temperature, float):
        return math.exp((_over_ice if temperature < TRIPLE_POINT else _over_liquid)(temperature, logarithm))
    frozen = temperature < TRIPLE_POINT
    return exp(where(frozen, _over_ice(temperature, logarithm), _over_liquid(temperature, logarithm)))


def enhancement_factor(temperature: Real, pressure: Real) -> Real:
    """How much more vapour saturated air holds than the empty space would.

    Parameters
    ----------
    temperature : float or array
        Temperature [K].
    pressure : float or array
        Station pressure [Pa].

    Returns
    -------
    float or array
        Mole fraction of vapour in saturated air, times pressure, over saturation pressure [1].

    Notes
    -----
    [2]_ gives ln f as a sum over the virial coefficients, the pressed liquid and the
    dissolved air. The terms of the second coefficients and of the liquid are kept; the third
    coefficients and the dissolved air (Henry's law) stay below 0.013 % up to 50 degC.

    Examples
    --------
    ASHRAE Fundamentals has f between 1.004 and 1.005 for room air at sea level:

    >>> round(enhancement_factor(293.15, 101325.0), 4)
    1.0041
    """
    vapour_pressure = saturation_pressure(temperature)
    return exp(_log_enhancement(temperature, pressure, vapour_pressure, virial.pairs(temperature)))


def vapour_fraction(temperature: Real, pressure: Real, known: virial.Pairs[Real] | None = None) -> Real:
    """Mole fraction of vapour [1] in saturated air: x_ws of eq. (12), f p_ws / p.

    Parameters
    ----------
    temperature : float or array
        Temperature [K].
    pressure : float or array
        Station pressure [Pa].
    known : tuple or None
        `virial.pairs` of the temperature, where they are known.
    """
    vapour_pressure = saturation_pressure(temperature)
    enhancement = exp(_log_enhancement(temperature, pressure, vapour_pressure, known or virial.pairs(temperature)))
    return enhancement * vapour_pressure / pressure


def saturation_humidity_ratio(temperature: Real, pressure: Real, known: virial.Pairs[Real] | None = None) -> Real:
    """Humidity ratio of saturated air, eq. (21) with the enhancement factor.

    Parameters
    ----------
    temperature : float or array
        Temperature [K].
    pressure : float or array
        Station pressure [Pa]; must be well above the saturation pressure.
    known : tuple or None
        `virial.pairs` of the temperature, where they are known.

    Returns
    -------
    float or array
        Humidity ratio [kg/kg].

    Examples
    --------
    ASHRAE Fundamentals, Psychrometrics, table 2 (from memory) has 0.007661 at 10 degC:

    >>> round(saturation_humidity_ratio(283.15, 101325.0), 5)
    0.00766
    """
    fraction = vapour_fraction(temperature, pressure, known)
    return virial.MASS_RATIO * fraction / (1.0 - fraction)


def dew_point(humidity_ratio: float, pressure: float) -> float:
    """Temperature at which air of this humidity ratio is saturated, eq. (13): W_s(p, t_d) = W.

    Parameters
    ----------
    humidity_ratio : float
        Humidity ratio [kg/kg], more than nothing.
    pressure : float
        Station pressure [Pa].

    Returns
    -------
    float
        Dew point, below the triple point the frost point [K].

    Raises
    ------
    OutOfRange
        Drier than saturation at 173.15 K.

    Notes
    -----
    Newton's method on ln(f p_ws) in 1/T, in which it is all but straight; the eq. (37) and (38) of [1]_ are rougher.

    Examples
    --------
    >>> round(dew_point(saturation_humidity_ratio(283.15, 101325.0), 101325.0), 6)
    283.15
    """
    if not humidity_ratio > 0.0:
        raise OutOfRange("humidity_ratio", humidity_ratio, 0.0, math.inf)
    fraction = humidity_ratio / (virial.MASS_RATIO + humidity_ratio)
    # start from a fit to `vapour_fraction`, good to a millikelvin from -50 to 30 degC and 70 to 105 kPa
    logarithm = math.log(fraction * pressure / 611.2)
    if logarithm < 0.0:
        by_logarithm = -1.6269004e-4 - 8.04e-13 * pressure + logarithm * (-4.56579e-8 - 5.532535e-9 * logarithm)
        temperature = 1.0 / (3.66106824e-3 + 5.818e-12 * pressure + logarithm * by_logarithm)
    else:
        by_logarithm = -1.84455575e-4 - 6.4355e-13 * pressure + logarithm * (-1.10987575e-6 - 5.469337e-8 * logarithm)
        temperature = 1.0 / (3.66108798e-3 + 6.546e-12 * pressure + logarithm * by_logarithm)
    for _ in range(_MOST_STEPS):
        saturated, slope = _fraction_and_slope(temperature, pressure, virial.pairs(temperature))
        step = math.log(saturated / fraction) / slope
        temperature /= 1.0 + step / temperature
        if abs(step) < _CONVERGED:
            break
    _check(temperature)
    return temperature


def saturation_curve(temperature: float, pressure: float) -> tuple[float, float, float, float]:
    """Saturated air and how it changes with its temperature, for solvers.

    Parameters
    ----------
    temperature : float
        Temperature [K].
    pressure : float
        Station pressure [Pa].

    Returns
    -------
    tuple of float
        Humidity ratio [kg/kg] and its derivative [1/K], specific enthalpy [J per kg of dry air] and its
        derivative [J/(kg K)].
    """
    known = virial.pairs(temperature)
    fraction, slope = _fraction_and_slope(temperature, pressure, known)
    ratio = virial.MASS_RATIO * fraction / (1.0 - fraction)
    ratio_slope = ratio * slope / (1.0 - fraction)
    enthalpy, by_temperature, by_water = virial.enthalpy_with_slopes(temperature, ratio, pressure, known)
    return ratio, ratio_slope, enthalpy, by_temperature + by_water * ratio_slope


def humidity_ratio_slope(temperature: Real, humidity_ratio: Real) -> Real:
    """Derivative of the saturation humidity ratio [kg/kg per K], within a percent or two."""
    return humidity_ratio * (1.0 + humidity_ratio / virial.MASS_RATIO) * _log_slope(temperature)


def _log_slope(temperature: Real) -> Real:
    """d ln p_ws / dT = L / (R_w T^2) [1/K], L linear in temperature over each phase [J/kg]."""
    latent = where(temperature < TRIPLE_POINT, 2834e3 + 0.0 * temperature, 3147e3 - 2360.0 * temperature)
    return latent / (461.5 * temperature * temperature)


def _fraction_and_slope(temperature: float, pressure: float, known: virial.Pairs[float]) -> tuple[float, float]:
    """`vapour_fraction` for the trial temperatures of a solver, and the derivative of its logarithm [1/K]."""
    logarithm, inverse = math.log(temperature), 1.0 / temperature
    if temperature < TRIPLE_POINT:
        vapour_pressure = math.exp(_over_ice(temperature, logarithm))
        slope = 2 * 6.2215701e-7 + temperature * (3 * 2.0747825e-9 - temperature * 4 * 9.484024e-13)
        slope = temperature * slope - 9.677843e-3 + inverse * (4.1635019 + 5.6745359e3 * inverse)
    else:
        vapour_pressure = math.exp(_over_liquid(temperature, logarithm))
        slope = 2 * 4.1764768e-5 - temperature * 3 * 1.4452093e-8
        slope = temperature * slope - 4.8640239e-2 + inverse * (6.5459673 + 5.8002206e3 * inverse)
    log_enhancement = _log_enhancement(temperature, pressure, vapour_pressure, known)
    # each term of that by temperature, dB/dT = (B - (B - T dB/dT)) / T
    air, cross, water, air_departure, cross_departure, water_departure = known
    volume = _ICE_MOLAR_VOLUME if temperature < TRIPLE_POINT else _LIQUID_MOLAR_VOLUME
    dry = 1.0 - 1.0045 * vapour_pressure / pressure
    mixing = air - 2.0 * cross + water
    change = (mixing - air_departure + 2.0 * cross_departure - water_departure) * dry * dry * pressure
    change -= (water - water_departure) * (pressure - vapour_pressure)
    rise = vapour_pressure * slope * (water - volume - 2.0 * 1.0045 * dry * mixing)
    slope += ((rise + change * inverse) / virial.GAS_CONSTANT - log_enhancement) * inverse
    return math.exp(log_enhancement) * vapour_pressure / pressure, slope


def _over_ice(temperature: Real, logarithm: Real) -> Real:
    """Logarithm of the saturation pressure over ice [Pa], eq. (5), -100 to 0 degC."""
    return (
        -5.6745359e3 / temperature
        + 6.3925247
        + temperature
        * (-9.677843e-3 + temperature * (6.2215701e-7 + temperature * (2.0747825e-9 - temperature * 9.484024e-13)))
        + 4.1635019 * logarithm
    )


def _over_liquid(temperature: Real, logarithm: Real) -> Real:
    """Logarithm of the saturation pressure over liquid water [Pa], eq. (6), 0 to 200 degC."""
    return (
        -5.8002206e3 / temperature
        + 1.3914993
        + temperature * (-4.8640239e-2 + temperature * (4.1764768e-5 - temperature * 1.4452093e-8))
        + 6.5459673 * logarithm
    )


def _log_enhancement(temperature: Real, pressure: Real, vapour_pressure: Real, known: virial.Pairs[Real]) -> Real:
    """Logarithm of the enhancement factor [1] from a known saturation pressure [Pa]."""
    air, cross, water, _, _, _ = known
    dry = 1.0 - 1.0045 * vapour_pressure / pressure  # mole fraction of air; 1.0045 stands for f
    volume = where(temperature < TRIPLE_POINT, _ICE_MOLAR_VOLUME, _LIQUID_MOLAR_VOLUME)
    # [2]: RT ln f = v_c (p - p_ws) + x_a^2 p (B_aa - 2 B_aw + B_ww) - (p - p_ws) B_ww
    excess = (volume - water) * (pressure - vapour_pressure)
    return (excess + dry * dry * pressure * (air - 2.0 * cross + water)) / (virial.GAS_CONSTANT * temperature)


def _check(temperature: Real) -> None:
    """Raise `OutOfRange` when a temperature [K] lies outside the formulas' range; NaN does."""
    limit = LIMITS["temperature"]
    if isinstance(temperature, float) and limit.low <= temperature <= limit.high:
        return
    lowest, highest = smallest(temperature), largest(temperature)
    if not (limit.low <= lowest and highest <= limit.high):
        raise OutOfRange("temperature", lowest if lowest < limit.low else highest, limit.low, limit.high)
