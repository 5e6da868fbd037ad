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

from typing import TypeAlias

import numpy as np

from service.calculations.elementwise import Real

GAS_CONSTANT = 8.314462618  # R [J/(mol K)], exact since 2019
DRY_AIR_MOLAR_MASS = 0.028966  # [kg/mol] [4]
WATER_MOLAR_MASS = 0.018015268  # [kg/mol] [5]
MASS_RATIO = WATER_MOLAR_MASS / DRY_AIR_MOLAR_MASS  # 0.621945 of the handbook's equation (20)

ICE_POINT = 273.15  # 0 degC, where the enthalpies count from [K]
_REFERENCE_PRESSURE = 101325.0  # dry air at 0 degC and this pressure has no enthalpy [Pa]


Pairs: TypeAlias = tuple[Real, Real, Real, Real, Real, Real]
"""What `pairs` gives; whoever asks more of one temperature hands it on as ``known``."""


def pairs(temperature: Real) -> Pairs[Real]:
    """Second virial coefficients of the three pairs, and their part in the enthalpy.

    Parameters
    ----------
    temperature : float or array
        Temperature [K].

    Returns
    -------
    tuple
        B of air with air, air with water and water with water, then B - T dB/dT of each [m3/mol].

    Notes
    -----
    Air with air is of [1]_, 173 to 473 K; air with water of [2]_ eq. 3; water with water of [3]_ eq. 6, made for
    310 to 1170 K. Colder, where hardly any vapour is left for it to act on, that stays within 4 % of [1]_ down to
    -20 degC. A term a T^n of B is (1 - n) a T^n in B - T dB/dT.
    """
    reduced = temperature / 100.0
    if isinstance(reduced, float):
        c1, c2, c3 = reduced**-0.237, reduced**-1.048, reduced**-3.183
        w1, w2, w3, w4 = reduced**-0.5, reduced**-0.8, reduced**-3.35, reduced**-8.3
    else:  # an array pays for one logarithm and cheap exponentials
        logarithm = np.log(reduced)
        c1, c2, c3 = np.exp(-0.237 * logarithm), np.exp(-1.048 * logarithm), np.exp(-3.183 * logarithm)
        w1, w2 = np.exp(-0.5 * logarithm), np.exp(-0.8 * logarithm)
        w3, w4 = np.exp(-3.35 * logarithm), np.exp(-8.3 * logarithm)
    inverse = 1.0 / temperature
    square = inverse * inverse
    a1, a2, a3 = -6.68772e-3 * inverse, -2.10141 * square, 92.4746 * square * inverse
    c1, c2, c3 = 66.5687e-6 * c1, -238.834e-6 * c2, -176.755e-6 * c3
    w1, w2, w3, w4 = 0.34404e-3 * w1, -0.75826e-3 * w2, -24.219e-3 * w3, -3.9782 * w4
    return (
        34.9568e-6 + a1 + a2 + a3,
        c1 + c2 + c3,
        w1 + w2 + w3 + w4,
        34.9568e-6 + 2.0 * a1 + 3.0 * a2 + 4.0 * a3,
        1.237 * c1 + 2.048 * c2 + 4.183 * c3,
        1.5 * w1 + 1.8 * w2 + 4.35 * w3 + 9.3 * w4,
    )


def specific_volume(dry_bulb: Real, humidity_ratio: Real, pressure: Real, known: Pairs[Real] | None = None) -> Real:
    """Volume of moist air, for each kilogram of dry air in it.

    Parameters
    ----------
    dry_bulb : float or array
        Temperature [K].
    humidity_ratio : float or array
        Water to dry air [kg/kg].
    pressure : float or array
        Station pressure [Pa].
    known : tuple or None
        `pairs` of the temperature, where they are known.

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
    air, cross, water, _, _, _ = known or pairs(dry_bulb)
    real = (air + moles * (2.0 * cross + moles * water)) / (1.0 + moles)
    return (ideal + real) / DRY_AIR_MOLAR_MASS


def specific_enthalpy(dry_bulb: Real, humidity_ratio: Real, pressure: Real, known: Pairs[Real] | None = None) -> Real:
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
    known : tuple or None
        `pairs` of the temperature, where they are known.

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
    dry_air, vapour = _ideal_enthalpies(dry_bulb)
    # Handbook 2017 ch. 1 equation (28), h = h_da + W h_g, of ideal gases, with the departure of the real one,
    # p (B - T dB/dT), added by the quadratic mixing rule x_a^2 B_aa + 2 x_a x_w B_aw + x_w^2 B_ww
    moles = humidity_ratio / MASS_RATIO
    _, _, _, air, cross, water = known or pairs(dry_bulb)
    departure = (air + moles * (2.0 * cross + moles * water)) / (1.0 + moles)
    return dry_air + humidity_ratio * vapour + (pressure * departure - _REFERENCE_DEPARTURE) / DRY_AIR_MOLAR_MASS


def enthalpy_with_slopes(
    dry_bulb: float, humidity_ratio: float, pressure: float, known: Pairs[float] | None = None
) -> tuple[float, float, float]:
    """`specific_enthalpy` and its derivatives, for solvers.

    Parameters
    ----------
    dry_bulb : float
        Temperature [K].
    humidity_ratio : float
        Water to dry air [kg/kg].
    pressure : float
        Station pressure [Pa].
    known : tuple or None
        `pairs` of the temperature, where they are known.

    Returns
    -------
    tuple of float
        Specific enthalpy [J per kg of dry air]; its derivative by temperature [J/(kg K)], within 0.02 %; that by
        humidity ratio [J/kg].
    """
    celsius = dry_bulb - ICE_POINT
    dry_air, vapour = _ideal_enthalpies(dry_bulb)
    moles = humidity_ratio / MASS_RATIO
    whole = 1.0 + moles
    _, _, _, air, cross, water = known or pairs(dry_bulb)
    departure = (air + moles * (2.0 * cross + moles * water)) / whole
    # the departures fall about as T^-2.1, T^-1.9 and T^-6.4
    falling = (2.1 * air + moles * (3.8 * cross + moles * 6.4 * water)) / (dry_bulb * whole)
    heat_capacity = 1003.667 + celsius * (0.0338292 + celsius * 2.98425e-4)
    return (
        dry_air + humidity_ratio * vapour + (pressure * departure - _REFERENCE_DEPARTURE) / DRY_AIR_MOLAR_MASS,
        heat_capacity + humidity_ratio * (1859.004 + 0.19 * celsius) - pressure / DRY_AIR_MOLAR_MASS * falling,
        vapour + pressure / WATER_MOLAR_MASS * (2.0 * (cross + moles * water) - departure) / whole,
    )


def humidity_ratio_at(dry_bulb: Real, specific_enthalpy: Real, water_enthalpy: Real, pressure: Real) -> Real:
    """Humidity ratio W of air whose enthalpy is known but for that of its water: h(W) - W h_w.

    Parameters
    ----------
    dry_bulb : float or array
        Temperature [K].
    specific_enthalpy : float or array
        h(W) - W h_w [J per kg of dry air].
    water_enthalpy : float or array
        h_w [J/kg].
    pressure : float or array
        Station pressure [Pa].

    Returns
    -------
    float or array
        Humidity ratio [kg/kg]; negative where dry air has more enthalpy than that.

    Notes
    -----
    With the mixing rule the balance times 1 + m is quadratic in m = W / 0.622, the moles of water.
    """
    dry_air, vapour = _ideal_enthalpies(dry_bulb)
    _, _, _, air, cross, water = pairs(dry_bulb)
    share = pressure / DRY_AIR_MOLAR_MASS
    lacking = dry_air - _REFERENCE_DEPARTURE / DRY_AIR_MOLAR_MASS - specific_enthalpy
    taken_up = MASS_RATIO * (vapour - water_enthalpy)
    none, once, twice = lacking + share * air, lacking + taken_up + 2.0 * share * cross, taken_up + share * water
    root: Real = (once * once - 4.0 * twice * none) ** 0.5
    return -2.0 * MASS_RATIO * none / (once + root)


def _ideal_enthalpies(dry_bulb: Real) -> tuple[Real, Real]:
    """Enthalpy of dry air and of vapour [J/kg] as ideal gases: for 1.006 t and 2501 + 1.86 t of equation (30)."""
    celsius = dry_bulb - ICE_POINT
    # heat capacities of [4] and [5], integrated from quadratic fits made here to their formulas (within 0.005 % from
    # -40 to 70 degC)
    return (
        celsius * (1003.667 + celsius * (0.0169146 + celsius * 9.9475e-5)),
        2501461.0 + celsius * (1859.004 + celsius * (0.0924101 + celsius * 4.1363e-4)),
    )


_REFERENCE_DEPARTURE = _REFERENCE_PRESSURE * pairs(ICE_POINT)[3]
