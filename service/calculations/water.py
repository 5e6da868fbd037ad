"""Liquid water at atmospheric pressure: density, viscosity, enthalpy.

Every function takes a float or an array and answers in kind. The formulation is that of
IAPWS SR6-08(2011) [1]_, written for 0.1 MPa; between 70 and 105 kPa, and under the few
metres of head a condensate pump makes, the density moves by less than 0.01 %.

References
----------
.. [1] IAPWS SR6-08(2011), *Revised Supplementary Release on Properties of Liquid Water
   at 0.1 MPa*, International Association for the Properties of Water and Steam, 2011.
"""

from typing import TypeVar

import numpy as np
from numpy.typing import NDArray

from service.calculations.limits import Limit
from service.errors import OutOfRange

Real = TypeVar("Real", float, NDArray[np.float64])

# The release's own range; below 273.15 K the water is supercooled.
LIMITS = {"temperature": Limit(253.15, 383.15)}

_GAS_CONSTANT = 461.51805  # R [J/(kg K)], release's table 1
_REFERENCE_TEMPERATURE = 10.0  # T_R [K]
_REFERENCE_PRESSURE = 1e5  # p_0 [Pa]
_ALPHA_TEMPERATURE = 593.0  # T_a [K]
_BETA_TEMPERATURE = 232.0  # T_b [K]

# Table 1: (coefficient, exponent) of the Gibbs energy, equation (1) ...
_C1, _C3 = -2.452093414e2, -8.983025854
_GIBBS_ALPHA = ((-1.661470539e5, 4), (2.708781640e6, 5), (-1.557191544e8, 7))
_GIBBS_BETA = ((-8.237426256e-1, 2), (1.908956353, 3), (-2.017597384, 4), (8.546361348e-1, 5))
# ... of the volume, equation (2) ...
_VOLUME_CONSTANT = 1.93763157e-2
_VOLUME_ALPHA = (
    (6.74458446e3, 4),
    (-2.22521604e5, 5),
    (1.00231247e8, 7),
    (-1.63552118e9, 8),
    (8.32299658e9, 9),
)
_VOLUME_BETA = (
    (5.78545292e-3, 1),
    (-1.53195665e-2, 2),
    (3.11337859e-2, 3),
    (-4.23546241e-2, 4),
    (3.38713507e-2, 5),
    (-1.19946761e-2, 6),
)
# ... and table 2, of the viscosity [uPa s], equation (7).
_VISCOSITY = ((280.68, -1.9), (511.45, -7.7), (61.131, -19.6), (0.45903, -40.0))


def density(temperature: Real) -> Real:
    """Density of liquid water [1]_.

    Parameters
    ----------
    temperature : float or array
        Water temperature [K].

    Returns
    -------
    float or array
        Density [kg/m3]; it follows IAPWS-95, whose own uncertainty near room temperature is
        0.0001 %.

    Raises
    ------
    OutOfRange
        Outside 253.15 to 383.15 K.

    Examples
    --------
    Water at 25 degC weighs 997.047 kg/m3 (IAPWS-95, and the metrology tables it rests on):

    >>> round(density(298.15), 3)
    997.047
    """
    _check(temperature)
    alpha = _REFERENCE_TEMPERATURE / (_ALPHA_TEMPERATURE - temperature)
    beta = _REFERENCE_TEMPERATURE / (temperature - _BETA_TEMPERATURE)
    # SR6-08 equation (2): v = (R T_R / p_0) [a_5 + sum a_i alpha^n_i + sum b_i beta^m_i]
    total = _VOLUME_CONSTANT + _power_sum(alpha, _VOLUME_ALPHA) + _power_sum(beta, _VOLUME_BETA)
    return _REFERENCE_PRESSURE / (_GAS_CONSTANT * _REFERENCE_TEMPERATURE * total)


def dynamic_viscosity(temperature: Real) -> Real:
    """Dynamic viscosity of liquid water [1]_.

    Parameters
    ----------
    temperature : float or array
        Water temperature [K].

    Returns
    -------
    float or array
        Dynamic viscosity [Pa s], within 1 % of measurements (SR6-08 section 6).

    Raises
    ------
    OutOfRange
        Outside 253.15 to 383.15 K.

    Examples
    --------
    The release's check value at 298.15 K is 889.996774 uPa s (table 5, from memory):

    >>> round(dynamic_viscosity(298.15) * 1e6, 6)
    889.996774
    """
    _check(temperature)
    reduced = temperature / 300.0
    # SR6-08 equation (7): mu = 1e-6 sum a_i (T / 300 K)^b_i
    return 1e-6 * _power_sum(reduced, _VISCOSITY)


def liquid_enthalpy(temperature: Real) -> Real:
    """Specific enthalpy of liquid water; zero for the liquid at its triple point [1]_.

    Parameters
    ----------
    temperature : float or array
        Water temperature [K].

    Returns
    -------
    float or array
        Specific enthalpy [J/kg].

    Raises
    ------
    OutOfRange
        Outside 253.15 to 383.15 K.

    Examples
    --------
    The handbook's steam table (ASHRAE Fundamentals, Psychrometrics, table 3) has 42.02 kJ/kg
    for saturated liquid at 10 degC; 0.1 MPa of pressure adds 0.1:

    >>> round(liquid_enthalpy(283.15) / 1e3, 2)
    42.12
    """
    _check(temperature)
    tau = temperature / _REFERENCE_TEMPERATURE
    alpha = _REFERENCE_TEMPERATURE / (_ALPHA_TEMPERATURE - temperature)
    beta = _REFERENCE_TEMPERATURE / (temperature - _BETA_TEMPERATURE)
    # h = g + T s, with SR6-08 equation (1) for g and s = -dg/dT (equation 4):
    # h = R T_R [c_1 - c_3 tau + sum a_i alpha^n_i (1 - n_i tau alpha) + sum b_i beta^m_i (1 + m_i tau beta)]
    total = _C1 - _C3 * tau
    for a, n in _GIBBS_ALPHA:
        total = total + a * alpha**n * (1.0 - n * tau * alpha)
    for b, m in _GIBBS_BETA:
        total = total + b * beta**m * (1.0 + m * tau * beta)
    return _GAS_CONSTANT * _REFERENCE_TEMPERATURE * total


def _power_sum(base: Real, terms: tuple[tuple[float, float], ...]) -> Real:
    """Sum of coefficient times ``base`` to the exponent."""
    total: Real = 0.0 * base
    for coefficient, exponent in terms:
        total = total + coefficient * base**exponent
    return total


def _check(temperature: Real) -> None:
    """Raise `OutOfRange` when a temperature [K] lies outside the release's range; NaN does."""
    limit = LIMITS["temperature"]
    lowest, highest = (
        (temperature.min(), temperature.max()) if isinstance(temperature, np.ndarray) else (temperature, temperature)
    )
    for extreme in (lowest, highest):
        if not limit.admits(extreme):
            raise OutOfRange("temperature", float(extreme), limit.low, limit.high)
