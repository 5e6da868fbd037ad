"""What gas there is on the truck: cylinder with regulator, cartridge gun; their limits and usual sizes."""

from service.calculations.frozen import dataclass
from service.calculations.limits import Limit

PSI = 6894.757293168361
"""Pascals in one pound-force per square inch: 0.45359237 x 9.80665 / 0.0254^2."""

CUBIC_FOOT = 0.3048**3

LARGEST_PRESSURE = 30.0 * PSI
"""Gauge pressure of gas in a drain line [Pa]; more can burst a solvent-welded joint. Common practice, no source."""

FULL_PRESSURE = 2200.0 * PSI
"""Gauge pressure of a full service cylinder of nitrogen or air [Pa]. Common practice, no source."""

FULL_CONTENT = 40.0 * CUBIC_FOOT
"""Free gas in the small cylinder that is carried up a ladder [m3]. Common practice, no source."""

CARBON_DIOXIDE_CONTENT = 5.0 * 0.45359237
"""Liquid in a small cylinder of carbon dioxide, 5 lb [kg]. Common practice, no source."""

CARTRIDGE_MASS = 0.016
"""Carbon dioxide in one cartridge [kg]. Common practice, no source."""

DRAINS_PER_CARTRIDGE = 2.0
"""Common practice, no source."""

SWEEPS = 2.0
"""Times that gas fills the open line once the blockage has gone. Common practice, no source."""

NOZZLE_BORE = 0.125 * 0.0254
"""1/8 in [m], the narrowest place between regulator and line. Common practice, no source."""

DISCHARGE_COEFFICIENT = 0.8
"""Between a sharp-edged hole's 0.6 and a rounded nozzle's 0.98."""

GAS_TEMPERATURE = 293.15
"""20 degC."""

GAS_LIMITS = {
    "working_pressure": Limit(2.0 * PSI, LARGEST_PRESSURE),  # moves a slug of slime, to what joints stand
    "sweeps": Limit(0.0, 50.0),
    "gas_temperature": Limit(253.15, 333.15),  # a winter roof, to a hot attic: where the gas tables hold
    "internal_volume": Limit(1e-4, 0.1),  # a hand bottle, to the largest cylinder on a cart
    "full_content": Limit(0.01, 15.0),  # free gas, half a cubic foot to 500
    "full_pressure": Limit(3.5e6, 21.0e6),  # 500 psi, to the highest the gas tables cover
    "pressure": Limit(0.0, 21.0e6),  # empty, to full
    "content": Limit(0.0, 50.0),  # empty, to a 100 lb cylinder
    "nozzle_bore": Limit(5e-4, 0.012),  # a pin hole, to 1/2 in
    "discharge_coefficient": Limit(0.3, 1.0),
    "cartridge_mass": Limit(0.004, 0.1),  # the smallest made, to 100 g
}

MOST_CARTRIDGES = 10_000
"""A pallet of them."""


@dataclass(frozen=True, kw_only=True, slots=True)
class Cylinder:
    """A cylinder with its regulator: volumes [m3], gauge pressures [Pa], liquid content [kg], nozzle bore [m]."""

    gas: str | None = None
    internal_volume: float | None = None
    full_content: float | None = None
    full_pressure: float | None = None
    pressure: float | None = None
    content: float | None = None
    nozzle_bore: float | None = None
    discharge_coefficient: float | None = None


@dataclass(frozen=True, kw_only=True, slots=True)
class CartridgeGun:
    """A cartridge gas gun, its cartridges, and the carbon dioxide in each [kg]."""

    cartridges: int | None = None
    cartridge_mass: float | None = None
