"""Moist air as a real gas: second virial coefficients and what they do to volume and enthalpy.

At the pressures of air handling the virial equation may stop after its second term,
p v = R T (1 + B p / R T): the third changes the volume by less than 0.006 % up to 60 degC
and 105 kPa. ``B`` of the mixture follows from the pairs air-air, air-water and water-water.

Every function takes floats or arrays of one shape and answers in kind.

References
----------
.. [1] Hyland, R. W. and Wexler, A., "Formulations for the Thermodynamic Properties of the
   Saturated Phases of H2O from 173.15 K to 473.15 K", and "... of Dry Air ...",
   ASHRAE Transactions 89(2A), 1983.
.. [2] Harvey, A. H. and Huang, P. H., "First-Principles Calculation of the Air-Water Second
   Virial Coefficient", Int. J. Thermophysics 28, 2007.
.. [3] Harvey, A. H. and Lemmon, E. W., "Correlation for the Second Virial Coefficient of
   Water", J. Phys. Chem. Ref. Data 33, 2004.
.. [4] Lemmon, E. W. et al., "Thermodynamic Properties of Air ...", J. Phys. Chem. Ref. Data
   29, 2000: molar mass and ideal-gas heat capacity of dry air.
.. [5] IAPWS R6-95(2018), ideal-gas heat capacity of water vapour.
"""

from collections.abc import Callable

from service.calculations.elementwise import Real, powers

GAS_CONSTANT = 8.314462618  # R [J/(mol K)], exact since 2019
DRY_AIR_MOLAR_MASS = 0.028966  # [kg/mol] [4]
WATER_MOLAR_MASS = 0.018015268  # [kg/mol] [5]
MASS_RATIO = WATER_MOLAR_MASS / DRY_AIR_MOLAR_MASS  # 0.621945 of the handbook's equation (20)

ICE_POINT = 273.15  # 0 degC, where the enthalpies count from [K]
_REFERENCE_PRESSURE = 101325.0  # dry air at 0 degC and this pressure has no enthalpy [Pa]


def air_air(temperature: Real) -> Real:
    """Second virial coefficient of dry air [m3/mol] at a temperature [K]; [1]_, 173 to 473 K."""
    return 34.9568e-6 - 6.68772e-3 / temperature - 2.10141 / temperature**2 + 92.4746 / temperature**3


def air_water(temperature: Real) -> Real:
    """Cross coefficient of an air and a water molecule [m3/mol] at a temperature [K]; [2]_ eq. 3."""
    reduced = temperature / 100.0
    first, second, third = powers(reduced, -0.237, -1.048, -3.183)
    return 66.5687e-6 * first - 238.834e-6 * second - 176.755e-6 * third


def water_water(temperature: Real) -> Real:
    """Second virial coefficient of water vapour [m3/mol] at a temperature [K].

    [3]_ eq. 6, made for 310 to 1170 K. Colder, where hardly any vapour is left for it to act
    on, it stays within 4 % of [1]_ down to -20 degC.
    """
    reduced = temperature / 100.0
    first, second, third, fourth = powers(reduced, -0.5, -0.8, -3.35, -8.3)
    return 1e-3 * (0.34404 * first - 0.75826 * second - 24.219 * third - 3978.2 * fourth)


def specific_volume(dry_bulb: Real, humidity_ratio: Real, pressure: Real) -> Real:
    """Volume of moist air, for each kilogram of dry air in it.

    Parameters
    ----------
    dry_bulb : float or array
        Temperature [K].
    humidity_ratio : float or array
        Water to dry air [kg/kg].
    pressure : float or array
        Station pressure [Pa].

    Returns
    -------
    float or array
        Specific volume [m3 per kg of dry air].

    Examples
    --------
    ASHRAE Fundamentals 2017 chapter 1, table 2 (from memory): saturated air at 20 degC, with
    W = 0.014758, has 0.8498 m3/kg.

    >>> round(specific_volume(293.15, 0.014758, 101325.0), 4)
    0.8498
    """
    # Handbook 2017 ch. 1 equation (26), v = R T (1 + 1.607858 W) / p, with the virial term B added
    moles = humidity_ratio / MASS_RATIO  # of water, for each mole of dry air
    ideal = GAS_CONSTANT * dry_bulb / pressure * (1.0 + moles)
    real = _mixture(moles, air_air(dry_bulb), air_water(dry_bulb), water_water(dry_bulb))
    return (ideal + real) / DRY_AIR_MOLAR_MASS


def specific_enthalpy(dry_bulb: Real, humidity_ratio: Real, pressure: Real) -> Real:
    """Enthalpy of moist air, for each kilogram of dry air in it.

    It counts from dry air at 0 degC and 101.325 kPa and from liquid water at its triple point.

    Parameters
    ----------
    dry_bulb : float or array
        Temperature [K].
    humidity_ratio : float or array
        Water to dry air [kg/kg].
    pressure : float or array
        Station pressure [Pa].

    Returns
    -------
    float or array
        Specific enthalpy [J per kg of dry air].

    Examples
    --------
    ASHRAE Fundamentals 2017 chapter 1, table 2 (from memory): saturated air at 20 degC, with
    W = 0.014758, has 57.555 kJ/kg.

    >>> round(specific_enthalpy(293.15, 0.014758, 101325.0) / 1e3, 1)
    57.6
    """
    return enthalpy_at(dry_bulb, pressure)(humidity_ratio)


def enthalpy_at(dry_bulb: Real, pressure: Real) -> Callable[[Real], Real]:
    """`specific_enthalpy` as a function of the humidity ratio: what the temperature alone decides is worked out once.

    Parameters
    ----------
    dry_bulb : float or array
        Temperature [K].
    pressure : float or array
        Station pressure [Pa].

    Returns
    -------
    callable
        Humidity ratio [kg/kg] to enthalpy [J per kg of dry air].
    """
    # Handbook 2017 ch. 1 equation (28), h = h_da + W h_g, whose equation (30) puts
    # 1.006 t + W (2501 + 1.86 t) for. Here the ideal gases ...
    celsius = dry_bulb - ICE_POINT
    # ... heat capacities of [4] and [5], integrated from quadratic fits made here to their
    # formulas (within 0.005 % from -40 to 70 degC) ...
    dry_air = celsius * (1003.667 + celsius * (0.0169146 + celsius * 9.9475e-5))
    vapour = 2501461.0 + celsius * (1859.004 + celsius * (0.0924101 + celsius * 4.1363e-4))
    # ... and the departure of the real gas from them, p (B - T dB/dT)
    air, cross, water = _air_air_departure(dry_bulb), _air_water_departure(dry_bulb), _water_departure(dry_bulb)

    def enthalpy(humidity_ratio: Real) -> Real:
        departure = _mixture(humidity_ratio / MASS_RATIO, air, cross, water)
        return dry_air + humidity_ratio * vapour + (pressure * departure - _REFERENCE_DEPARTURE) / DRY_AIR_MOLAR_MASS

    return enthalpy


def _mixture(moles: Real, air: Real, cross: Real, water: Real) -> Real:
    """Quadratic mixing rule x_a^2 B_aa + 2 x_a x_w B_aw + x_w^2 B_ww, for each mole of dry air."""
    return (air + 2.0 * moles * cross + moles * moles * water) / (1.0 + moles)


def _air_air_departure(temperature: Real) -> Real:
    """B - T dB/dT of `air_air`, term by term: a T^n becomes (1 - n) a T^n."""
    return 34.9568e-6 - 2 * 6.68772e-3 / temperature - 3 * 2.10141 / temperature**2 + 4 * 92.4746 / temperature**3


def _air_water_departure(temperature: Real) -> Real:
    """B - T dB/dT of `air_water`."""
    reduced = temperature / 100.0
    first, second, third = powers(reduced, -0.237, -1.048, -3.183)
    return 1.237 * 66.5687e-6 * first - 2.048 * 238.834e-6 * second - 4.183 * 176.755e-6 * third


def _water_departure(temperature: Real) -> Real:
    """B - T dB/dT of `water_water`."""
    reduced = temperature / 100.0
    first, second, third, fourth = powers(reduced, -0.5, -0.8, -3.35, -8.3)
    return 1e-3 * (1.5 * 0.34404 * first - 1.8 * 0.75826 * second - 4.35 * 24.219 * third - 9.3 * 3978.2 * fourth)


_REFERENCE_DEPARTURE = _REFERENCE_PRESSURE * _air_air_departure(ICE_POINT)
