"""Moist air: humidity ratio from any reading, and any reading from humidity ratio.

Ours, and of a real gas: vapour pressures of Hyland and Wexler with the enhancement factor
(`saturation`), volumes and enthalpies with second virial coefficients (`virial`). From 0 to
50 degC, 70 to 105 kPa and 1 to 100 % relative humidity the humidity ratio agrees with
CoolProp's humid air (ASHRAE RP-1485) within 0.03 %; ideal-gas formulas sit 0.5 % low.

What goes to the humidity ratio takes floats or arrays of one shape and answers in kind; what is solved for (dew point,
wet bulb, dry bulb) takes floats. "eq." are equation
numbers of the ASHRAE Handbook - Fundamentals 2017, chapter 1, Psychrometrics. Temperatures
are in kelvin, pressures in pascal, humidity ratios in kilograms of water to a kilogram of
dry air.
"""

from service.calculations import saturation, virial, water
from service.calculations.elementwise import Real, piecewise

SEA_LEVEL_PRESSURE = 101325.0
"""Standard atmosphere at sea level [Pa]."""

_CONVERGED = 1e-5  # step after which the next would be below 1e-9 [K]
_WICK_DOUBT = 5.0  # a start farther than this from the triple point is plainly of ice or of liquid water [K]
_FAR = 20.0  # from the dew point; there a start is rough [K]
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
    known = virial.pairs(wet_bulb)
    saturated = saturation.saturation_humidity_ratio(wet_bulb, pressure, known)
    goal = virial.specific_enthalpy(wet_bulb, saturated, pressure, known) - saturated * water_enthalpy
    return virial.humidity_ratio_at(dry_bulb, goal, water_enthalpy, pressure)


def relative_humidity_percent(
    dry_bulb: Real, humidity_ratio: Real, pressure: Real, known: virial.Pairs[Real] | None = None
) -> Real:
    """Relative humidity, eq. (12): mole fraction of vapour to that of saturated air.

    Parameters
    ----------
    dry_bulb : float or array
        Temperature [K].
    humidity_ratio : float or array
        Humidity ratio [kg/kg].
    pressure : float or array
        Station pressure [Pa].
    known : tuple or None
        `virial.pairs` of the temperature, where they are known.

    Returns
    -------
    float or array
        Relative humidity [%].
    """
    fraction = humidity_ratio / (virial.MASS_RATIO + humidity_ratio)
    return 100.0 * fraction / saturation.vapour_fraction(dry_bulb, pressure, known)


def dew_point(humidity_ratio: float, pressure: float) -> float:
    """Dew point, frost point below freezing; see `saturation.dew_point`.

    Parameters
    ----------
    humidity_ratio : float
        Humidity ratio, more than nothing [kg/kg].
    pressure : float
        Station pressure [Pa].

    Returns
    -------
    float
        Dew point [K].
    """
    return saturation.dew_point(humidity_ratio, pressure)


def wet_bulb(
    dry_bulb: float,
    humidity_ratio: float,
    pressure: float,
    *,
    dew_point: float | None = None,
    specific_enthalpy: float | None = None,
) -> float:
    """Thermodynamic wet bulb: eq. (31) solved for the temperature.

    Parameters
    ----------
    dry_bulb : float
        Temperature [K].
    humidity_ratio : float
        Humidity ratio [kg/kg]. More than saturation (a fog) gives the temperature at which the
        surplus has condensed and the air is saturated.
    pressure : float
        Station pressure [Pa].
    dew_point, specific_enthalpy : float or None
        Of the same air, where they are known [K], [J per kg of dry air].

    Returns
    -------
    float
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
    if dew_point is None:
        dew_point = saturation.dew_point(humidity_ratio, pressure)
    if specific_enthalpy is None:
        specific_enthalpy = virial.specific_enthalpy(dry_bulb, humidity_ratio, pressure)
    start = near_dew_point(dew_point, humidity_ratio, (1006.0 + 1860.0 * humidity_ratio) * (dry_bulb - dew_point))
    frozen = start < saturation.TRIPLE_POINT
    if abs(start - saturation.TRIPLE_POINT) < _WICK_DOUBT or start - dew_point > _FAR:
        # an iced wick at the triple point is too warm when the excess there is positive
        saturated, _, enthalpy, _ = saturation.saturation_curve(saturation.TRIPLE_POINT, pressure)
        lacking = (saturated - humidity_ratio) * water.ice_enthalpy(saturation.TRIPLE_POINT)
        frozen = enthalpy - lacking > specific_enthalpy
        start = (min if frozen else max)(start, saturation.TRIPLE_POINT)
    return saturated_temperature(specific_enthalpy, humidity_ratio, pressure, start, frozen=frozen)


def near_dew_point(dew_point: float, humidity_ratio: float, surplus: float) -> float:
    """Where `saturated_temperature` may start, good to a few tenths of a kelvin.

    Parameters
    ----------
    dew_point : float
        Dew point of the air [K].
    humidity_ratio : float
        Its humidity ratio [kg/kg].
    surplus : float
        How much more enthalpy it has than at its dew point, negative for less [J per kg of dry air].

    Returns
    -------
    float
        Temperature [K].
    """
    # at the dew point saturated air is this air: from there by slope and curvature
    ratio_slope = saturation.humidity_ratio_slope(dew_point, humidity_ratio)
    slope = 1006.0 + 1860.0 * humidity_ratio + (3.14e6 - 2340.0 * dew_point) * ratio_slope
    return dew_point - bent_step(-surplus, slope, humidity_ratio, ratio_slope)


def saturated_temperature(
    specific_enthalpy: float, humidity_ratio: float, pressure: float, start: float, *, frozen: bool = False
) -> float:
    """Temperature of air that has become saturated, what it lacked or had too much being water of that temperature.

    Parameters
    ----------
    specific_enthalpy : float
        Enthalpy before [J per kg of dry air].
    humidity_ratio : float
        Humidity ratio before [kg/kg].
    pressure : float
        Station pressure [Pa].
    start : float
        Temperature to start from [K].
    frozen : bool
        Whether the water is ice; liquid otherwise.

    Returns
    -------
    float
        Temperature [K] that solves h + (W_s - W) h_w = h_s.
    """
    temperature = start
    for _ in range(_MOST_STEPS):
        step, _ = saturating_step(specific_enthalpy, humidity_ratio, pressure, temperature, frozen=frozen)
        temperature -= step
        if abs(step) < _CONVERGED:
            break
    return temperature


def saturating_step(
    specific_enthalpy: float, humidity_ratio: float, pressure: float, temperature: float, *, frozen: bool = False
) -> tuple[float, float]:
    """One step of `saturated_temperature`.

    Parameters
    ----------
    specific_enthalpy : float
        Enthalpy before [J per kg of dry air].
    humidity_ratio : float
        Humidity ratio before [kg/kg].
    pressure : float
        Station pressure [Pa].
    temperature : float
        Temperature to go on from [K].
    frozen : bool
        Whether the water is ice; liquid otherwise.

    Returns
    -------
    tuple of float
        How much colder the air is [K], and the derivative of the balance by the temperature [J/(kg K)].
    """
    saturated, ratio_slope, enthalpy, slope = saturation.saturation_curve(temperature, pressure)
    lacking = saturated - humidity_ratio
    if frozen:
        held, heat_capacity = water.ice_enthalpy(temperature), 2.1e3
    else:
        held, heat_capacity = water.liquid_enthalpy(temperature), 4.2e3
    slope -= ratio_slope * held + lacking * heat_capacity
    return bent_step(enthalpy - lacking * held - specific_enthalpy, slope, saturated, ratio_slope), slope


def bent_step(excess: float, slope: float, humidity_ratio: float, ratio_slope: float) -> float:
    """How much colder saturated air has to be: Newton's step, bent by the curvature of its enthalpy (Halley).

    Parameters
    ----------
    excess : float
        Enthalpy it has too much [J per kg of dry air].
    slope : float
        Derivative of that by the temperature [J/(kg K)].
    humidity_ratio, ratio_slope : float
        Of saturated air [kg/kg], and its derivative [1/K].

    Returns
    -------
    float
        Step [K], at most twice Newton's.
    """
    step = excess / slope
    # the air's share of the slope is the same everywhere; the water's grows by so much a kelvin, about
    growth = ratio_slope / humidity_ratio * (1.0 + humidity_ratio / virial.MASS_RATIO) - 0.008
    return step / (1.0 - min(0.5 * step * growth * (1.0 - 1006.0 / slope), 0.5))


def dry_bulb(specific_enthalpy: float, humidity_ratio: float, pressure: float, start: float | None = None) -> float:
    """Temperature of air whose enthalpy is known: eq. (30) turned round.

    Parameters
    ----------
    specific_enthalpy : float
        Enthalpy [J per kg of dry air].
    humidity_ratio : float
        Humidity ratio [kg/kg].
    pressure : float
        Station pressure [Pa].
    start : float or None
        Temperature to start from; by eq. (30) without [K].

    Returns
    -------
    float
        Temperature [K].

    Examples
    --------
    >>> round(dry_bulb(virial.specific_enthalpy(303.15, 0.01, 101325.0), 0.01, 101325.0), 6)
    303.15
    """
    temperature = start
    if temperature is None:
        temperature = virial.ICE_POINT + (specific_enthalpy - 2.501e6 * humidity_ratio) / (
            1006.0 + 1860.0 * humidity_ratio
        )
    for _ in range(_MOST_STEPS):
        enthalpy, heat_capacity, _ = virial.enthalpy_with_slopes(temperature, humidity_ratio, pressure)
        step = (enthalpy - specific_enthalpy) / heat_capacity
        temperature -= step
        if abs(step) < _CONVERGED:
            break
    return temperature
