"""Water at atmospheric pressure: density, viscosity and enthalpy of the liquid, enthalpy of ice.

Every function takes a float or an array and answers in kind. The formulation is that of
IAPWS SR6-08(2011) [1]_, written for 0.1 MPa; between 70 and 105 kPa, and under the few
metres of head a condensate pump makes, the density moves by less than 0.01 %.

References
----------
.. [1] IAPWS SR6-08(2011), *Revised Supplementary Release on Properties of Liquid Water
   at 0.1 MPa*, International Association for the Properties of Water and Steam, 2011.
.. [2] IAPWS R10-06(2009), *Revised Release on the Equation of State 2006 for H2O Ice Ih*.
"""

from service.calculations.elementwise import Real, largest, smallest
from service.calculations.limits import Limit
from service.errors import OutOfRange

# The release's own range; below 273.15 K the water is supercooled.
LIMITS = {"temperature": Limit(253.15, 383.15)}

_GAS_CONSTANT = 461.51805  # R [J/(kg K)], release's table 1
_REFERENCE_TEMPERATURE = 10.0  # T_R [K]
_REFERENCE_PRESSURE = 1e5  # p_0 [Pa]
_ALPHA_TEMPERATURE = 593.0  # T_a [K]
_BETA_TEMPERATURE = 232.0  # T_b [K]

# Table 1; the figure in a name is the exponent.
# Gibbs energy, equation (1):
_C1, _C3 = -2.452093414e2, -8.983025854
_G_ALPHA_4, _G_ALPHA_5, _G_ALPHA_7 = -1.661470539e5, 2.708781640e6, -1.557191544e8
_G_BETA_2, _G_BETA_3, _G_BETA_4, _G_BETA_5 = -8.237426256e-1, 1.908956353, -2.017597384, 8.546361348e-1
# Volume, equation (2):
_V_0 = 1.93763157e-2
_V_ALPHA_4, _V_ALPHA_5 = 6.74458446e3, -2.22521604e5
_V_ALPHA_7, _V_ALPHA_8, _V_ALPHA_9 = 1.00231247e8, -1.63552118e9, 8.32299658e9
_V_BETA_1, _V_BETA_2, _V_BETA_3 = 5.78545292e-3, -1.53195665e-2, 3.11337859e-2
_V_BETA_4, _V_BETA_5, _V_BETA_6 = -4.23546241e-2, 3.38713507e-2, -1.19946761e-2


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
    alpha_2 = alpha * alpha
    total = (
        _V_0
        + alpha_2
        * alpha_2
        * (_V_ALPHA_4 + alpha * (_V_ALPHA_5 + alpha_2 * (_V_ALPHA_7 + alpha * (_V_ALPHA_8 + alpha * _V_ALPHA_9))))
        + beta * (_V_BETA_1 + beta * (_V_BETA_2 + beta * _V_BETA_3))
        + beta**4 * (_V_BETA_4 + beta * (_V_BETA_5 + beta * _V_BETA_6))
    )
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
    # SR6-08 equation (7): mu = 1e-6 sum a_i (T / 300 K)^b_i, table 2
    viscosity: Real = 1e-6 * (
        280.68 * reduced**-1.9 + 511.45 * reduced**-7.7 + 61.131 * reduced**-19.6 + 0.45903 * reduced**-40
    )
    return viscosity


def kinematic_viscosity(temperature: Real) -> Real:
    """Kinematic viscosity of liquid water: `dynamic_viscosity` over `density`.

    Parameters
    ----------
    temperature : float or array
        Water temperature [K].

    Returns
    -------
    float or array
        Kinematic viscosity [m2/s].

    Raises
    ------
    OutOfRange
        Outside 253.15 to 383.15 K.

    Examples
    --------
    By the values of those two at 25 degC, 889.997 uPa s / 997.047 kg/m3:

    >>> round(kinematic_viscosity(298.15) * 1e6, 4)
    0.8926
    """
    viscosity: Real = dynamic_viscosity(temperature) / density(temperature)
    return viscosity


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
    a, b, alpha_2 = tau * alpha, tau * beta, alpha * alpha
    total = (
        _C1
        - _C3 * tau
        + alpha_2
        * alpha_2
        * (
            _G_ALPHA_4 * (1.0 - 4.0 * a)
            + alpha * (_G_ALPHA_5 * (1.0 - 5.0 * a) + alpha_2 * (_G_ALPHA_7 * (1.0 - 7.0 * a)))
        )
        + beta
        * beta
        * (
            _G_BETA_2 * (1.0 + 2.0 * b)
            + beta
            * (
                _G_BETA_3 * (1.0 + 3.0 * b)
                + beta * (_G_BETA_4 * (1.0 + 4.0 * b) + beta * (_G_BETA_5 * (1.0 + 5.0 * b)))
            )
        )
    )
    return _GAS_CONSTANT * _REFERENCE_TEMPERATURE * total


def ice_enthalpy(temperature: Real) -> Real:
    """Specific enthalpy of ice, on the scale of `liquid_enthalpy`.

    A quadratic fitted here to [2]_ at atmospheric pressure, within 2 J/kg from -40 to 0 degC.

    Parameters
    ----------
    temperature : float or array
        Ice temperature [K].

    Returns
    -------
    float or array
        Specific enthalpy [J/kg].

    Examples
    --------
    Melting ice at 0 degC takes 333.4 kJ/kg (ASHRAE Fundamentals, Psychrometrics, table 3):

    >>> round((liquid_enthalpy(273.15) - ice_enthalpy(273.15)) / 1e3, 1)
    333.4
    """
    celsius = temperature - 273.15
    return -333362.0 + celsius * (2096.127 + celsius * 3.65336)


def _check(temperature: Real) -> None:
    """Raise `OutOfRange` when a temperature [K] lies outside the release's range; NaN does."""
    limit = LIMITS["temperature"]
    if isinstance(temperature, float) and limit.low <= temperature <= limit.high:
        return
    for extreme in (smallest(temperature), largest(temperature)):
        if not limit.admits(extreme):
            raise OutOfRange("temperature", extreme, limit.low, limit.high)
