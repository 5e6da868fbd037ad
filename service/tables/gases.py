"""Gases that a technician blows a drain line with, and how far they depart from the ideal gas.

The virial equation Z = 1 + B rho + C rho^2 needs two coefficients of the temperature T,
B = b0 + b1/T + b2/T^2 and C = c0 + c1/T. Those of nitrogen and air are fitted to Z of the
reference equations of state [1]_ [2]_ over 253 to 333 K and up to 21 MPa, and meet it within
0.17 %; those of carbon dioxide are its second virial coefficient [3]_, good for the few bar in a line.

References
----------
.. [1] R. Span et al., "A Reference Equation of State ... of Nitrogen ...", J. Phys. Chem. Ref.
   Data 29, 2000.
.. [2] E. W. Lemmon et al., "Thermodynamic Properties of Air ...", J. Phys. Chem. Ref. Data 29, 2000.
.. [3] R. Span and W. Wagner, "A New Equation of State for Carbon Dioxide ...", J. Phys. Chem.
   Ref. Data 25, 1996.
.. [4] 29 CFR 1910.146: air with less than 19.5 % oxygen is deficient; 20.9 % is normal (from memory).
.. [5] NIOSH Pocket Guide: carbon dioxide, 30,000 ppm for 15 minutes (from memory).
"""

from dataclasses import dataclass


@dataclass(frozen=True, kw_only=True, slots=True)
class Gas:
    """One gas.

    Parameters
    ----------
    name : str
        The trade's word.
    molar_mass : float
        Molar mass [kg/mol].
    heat_capacity_ratio : float
        cp / cv at 20 degC and 1 atm.
    second : tuple of float
        b0 [m3/mol], b1 [m3 K/mol], b2 [m3 K2/mol].
    third : tuple of float
        c0 [m6/mol2], c1 [m6 K/mol2].
    highest_pressure : float
        Up to which the coefficients hold [Pa absolute].
    largest_fraction : float or None
        Share of a room's air that it may take before the air is bad to breathe [4]_ [5]_; None for air.
    """

    name: str
    molar_mass: float
    heat_capacity_ratio: float
    second: tuple[float, float, float]
    third: tuple[float, float]
    highest_pressure: float
    largest_fraction: float | None


NITROGEN = Gas(
    name="nitrogen",
    molar_mass=0.0280134,
    heat_capacity_ratio=1.401,
    second=(45.6119612e-6, -12690.1887e-6, -786941.009e-6),
    third=(673.624399e-12, 307011.804e-12),
    highest_pressure=21.2e6,
    largest_fraction=1.0 - 19.5 / 20.9,
)
AIR = Gas(
    name="air",
    molar_mass=0.0289655,
    heat_capacity_ratio=1.402,
    second=(43.7958818e-6, -12929.4586e-6, -784809.822e-6),
    third=(549.627283e-12, 302977.276e-12),
    highest_pressure=21.2e6,
    largest_fraction=None,
)
CARBON_DIOXIDE = Gas(
    name="carbon-dioxide",
    molar_mass=0.0440098,
    heat_capacity_ratio=1.297,
    second=(-8.41242474e-6, 16237.0897e-6, -15025425.7e-6),
    third=(0.0, 0.0),
    highest_pressure=5e5,
    largest_fraction=0.03,
)

GASES: dict[str, Gas] = {gas.name: gas for gas in (NITROGEN, AIR, CARBON_DIOXIDE)}
"""Every gas by its name."""
