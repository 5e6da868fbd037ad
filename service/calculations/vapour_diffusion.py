"""How fast water leaves a tube by diffusion through the still air above it: the Stefan tube.

Vapour is saturated at the water and as wet as the open air at the mouth; the air between stands
still and its pressure is even, so that the vapour drags a little air-free flow along. That flow is the
logarithm in the flux.

References
----------
.. [1] Marrero, T. R. and Mason, E. A., "Gaseous Diffusion Coefficients", J. Phys. Chem. Ref. Data 1, 1972:
   water vapour in air, D p = 1.87e-10 T^2.072 m2 atm/s, 282 to 450 K.
.. [2] Bird, R. B., Stewart, W. E. and Lightfoot, E. N., *Transport Phenomena*, chapter "Diffusion through a
   stagnant gas film".
.. [3] Taylor, G. I., "Diffusion and mass transport in tubes", Proc. Phys. Soc. B 67, 1954 (from memory).
.. [4] Chandrasekhar, S., *Hydrodynamic and Hydromagnetic Stability*, 1961 (from memory).
"""

import math
from dataclasses import field

from service.calculations import saturation, virial, water
from service.calculations.air_state import PAIR_ACCURACY, AirReading
from service.calculations.answer import Finding
from service.calculations.frozen import dataclass
from service.calculations.limits import Limit, require
from service.calculations.psychrometrics import SEA_LEVEL_PRESSURE
from service.calculations.trap_water import GRAVITY
from service.errors import Contradiction

SCHMIDT_RATIO = 0.61
"""Kinematic viscosity of air over the diffusivity of vapour in it [-]; 0.60 to 0.62 at room temperature [2]."""

OVERTURNING_TUBE_RATIO = 67.9
"""Rayleigh number g (d rho / rho) r^4 / (nu D L) beyond which fluid that is lighter at the bottom of a tube
overturns [3]."""

OVERTURNING_LAYER_RATIO = 1101.0
"""Rayleigh number on the height beyond which a layer on a rigid bottom, free above, overturns [4]."""

AIR_LIMITS = {
    "dry_bulb": Limit(263.15, 333.15),  # 14 degF, a frosty yard, to 140 degF, an attic in the sun
    "relative_humidity_percent": Limit(0.0, 100.0),
    "dew_point": Limit(233.15, 293.15),  # -40, air heated in deep frost, to 68 degF; wetter is told by humidity
}


def diffusivity(temperature: float, pressure: float) -> float:
    """Diffusion coefficient of water vapour in air [1]_.

    Parameters
    ----------
    temperature : float
        Temperature [K].
    pressure : float
        Station pressure [Pa].

    Returns
    -------
    float
        Diffusivity [m2/s], within some 5 %, and used down to freezing, 9 K below its range.

    Examples
    --------
    The CRC Handbook's table "Diffusion in gases" has 0.242 cm2/s at 293.15 K:

    >>> round(diffusivity(293.15, 101325.0) * 1e4, 3)
    0.242
    """
    coefficient: float = 1.87e-10 * temperature**2.072 * SEA_LEVEL_PRESSURE / pressure
    return coefficient


@dataclass(frozen=True, kw_only=True, slots=True)
class WaterSurface:
    """Water that evaporates into the air on it.

    Parameters
    ----------
    temperature : float
        Of the water and the air column on it [K].
    pressure : float
        Station pressure [Pa].

    Attributes
    ----------
    saturated_fraction : float
        Mole fraction of vapour at the surface [-], with the enhancement factor of moist air.
    diffusivity : float
        Of vapour in the air column [m2/s].
    """

    temperature: float
    pressure: float

    saturated_fraction: float = field(init=False)
    diffusivity: float = field(init=False)

    def __post_init__(self) -> None:
        derive = object.__setattr__  # once, for every leg reads them
        derive(self, "saturated_fraction", saturation.vapour_fraction(self.temperature, self.pressure))
        derive(self, "diffusivity", diffusivity(self.temperature, self.pressure))


def fall_coefficient(surface: WaterSurface, far_fraction: float) -> float:
    """Speed at which a level falls, times the length of still air between it and the mouth.

    Parameters
    ----------
    surface : WaterSurface
        The water.
    far_fraction : float
        Mole fraction of vapour in the air at the mouth [-].

    Returns
    -------
    float
        Coefficient a [m2/s] of dx/dt = a / L; zero or less where the air at the mouth is as wet as the water's
        surface or wetter.

    Notes
    -----
    Flux = (D p M / (R T L)) ln[(1 - x_far) / (1 - x_sat)] [kg/m2 s], [2]_; over the density of the water it is the
    speed of the level.

    Examples
    --------
    Room-warm water under dry air, by hand with D = 2.42e-5 m2/s and 23.4 hPa: 37 mm2 a day, or half an inch in
    the first day through a millimetre or two of air.

    >>> round(fall_coefficient(WaterSurface(temperature=293.15, pressure=101325.0), 0.0) * 1e6 * 86400.0)
    37
    """
    temperature = surface.temperature
    carried = surface.diffusivity * surface.pressure * virial.WATER_MOLAR_MASS
    thermal = virial.GAS_CONSTANT * temperature * water.density(temperature)
    return carried / thermal * math.log((1.0 - far_fraction) / (1.0 - surface.saturated_fraction))


def far_vapour_fraction(reading: AirReading, *, pressure: float, pointer: str, findings: list[Finding]) -> float:
    """Mole fraction of vapour in open air, from a reading of it.

    Parameters
    ----------
    reading : AirReading
        Dry bulb with relative humidity or dew point.
    pressure : float
        Station pressure [Pa].
    pointer : str
        Where the reading stands in the request.
    findings : list
        What a person should know about it is appended.

    Returns
    -------
    float
        Mole fraction [-].

    Raises
    ------
    OutOfRange
        For a member outside `AIR_LIMITS`.
    Contradiction
        For a dew point above the dry bulb by more than two thermometers may differ.
    """
    require(
        AIR_LIMITS,
        dry_bulb=reading.dry_bulb,
        relative_humidity_percent=reading.relative_humidity_percent,
        dew_point=reading.dew_point,
    )
    if reading.dew_point is None:
        percent = reading.relative_humidity_percent or 0.0
        return percent / 100.0 * saturation.vapour_fraction(reading.dry_bulb, pressure)
    if reading.dew_point <= reading.dry_bulb:
        return saturation.vapour_fraction(reading.dew_point, pressure)
    values = {"dew_point": reading.dew_point, "dry_bulb": reading.dry_bulb}
    if reading.dew_point - reading.dry_bulb > PAIR_ACCURACY:
        raise Contradiction("dew-point-above-dry-bulb", f"{pointer}/dew_point", values)
    told: dict[str, float | int | str] = {
        "member": "dew point",
        "reading": reading.dew_point,
        "dry_bulb": reading.dry_bulb,
    }
    findings.append(Finding(code="air-taken-as-saturated", pointer=f"{pointer}/dew_point", values=told))
    return saturation.vapour_fraction(reading.dry_bulb, pressure)


def overturns(surface: WaterSurface, *, air_temperature: float, far_fraction: float, bore: float, path: float) -> bool:
    """Whether the light moist air on the water rises through the heavier air above it.

    Parameters
    ----------
    surface : WaterSurface
        The water.
    air_temperature : float
        At the mouth [K].
    far_fraction : float
        Mole fraction of vapour at the mouth [-].
    bore : float
        Of the tube [m].
    path : float
        Height of the air column [m].

    Returns
    -------
    bool
        Whether g (d rho / rho) / (nu D) times r^4 / L exceeds `OVERTURNING_TUBE_RATIO` and times L^3
        `OVERTURNING_LAYER_RATIO`: walls close by hold a long column still, the water's surface a short one. The
        two meet at a column as high as it is wide.

    Notes
    -----
    Moist air weighs (1 - 0.378 x) p M / (R T): a molecule of water has 0.622 of the mass of one of air. Warm air
    over cool water is the heavier at the bottom, and stands still in any bore.
    """
    lightness = 1.0 - virial.MASS_RATIO
    bottom = (1.0 - lightness * surface.saturated_fraction) / surface.temperature
    mouth = (1.0 - lightness * far_fraction) / air_temperature
    push = GRAVITY * (mouth / bottom - 1.0) / (SCHMIDT_RATIO * surface.diffusivity**2)
    return push * (0.5 * bore) ** 4 > OVERTURNING_TUBE_RATIO * path and push * path**3 > OVERTURNING_LAYER_RATIO
