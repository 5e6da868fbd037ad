"""What the three ways to a condensate rate answer."""

from service.calculations.air_state import AirState
from service.calculations.frozen import dataclass


@dataclass(frozen=True, kw_only=True, slots=True)
class CapacityRate:
    """Water made, from rated capacity.

    Parameters
    ----------
    latent_capacity : float
        Part of the capacity that condenses water [W].
    mass_rate : float
        Water made while running [kg/s].
    volume_rate : float
        The same by volume [m3/s].
    daily_volume : float
        Water in a day at the run fraction [m3].
    rate_per_ton : float
        Volume rate of one ton of this capacity [m3/s].
    """

    latent_capacity: float
    mass_rate: float
    volume_rate: float
    daily_volume: float
    rate_per_ton: float


@dataclass(frozen=True, kw_only=True, slots=True)
class AirStatesRate:
    """Water made, from the air on both sides of a coil.

    Parameters
    ----------
    mass_rate : float or None
        Water made while running [kg/s]; it and what follows from it are None where the readings
        tell of no cooling coil at work.
    volume_rate : float or None
        The same by volume [m3/s].
    daily_volume : float or None
        Water in a day at the run fraction [m3].
    latent_load : float or None
        Heat given up by the water as it condenses, at the leaving dry bulb [W].
    sensible_load : float or None
        Heat given up by the entering air, its water still vapour, cooling to the leaving dry bulb [W].
    total_load : float or None
        Their sum: what the coil takes out, the heat that drains away with the water not counted [W].
    sensible_heat_ratio : float or None
        Sensible over total load [-]; None where the air is not cooled.
    entering_air, leaving_air : AirState or None
        The air before and after the coil; None where no air is as it was read.
    """

    mass_rate: float | None = None
    volume_rate: float | None = None
    daily_volume: float | None = None
    latent_load: float | None = None
    sensible_load: float | None = None
    total_load: float | None = None
    sensible_heat_ratio: float | None = None
    entering_air: AirState | None = None
    leaving_air: AirState | None = None


@dataclass(frozen=True, kw_only=True, slots=True)
class CoilRate(AirStatesRate):
    """Water made, from entering air and a coil's capacity.

    Parameters
    ----------
    apparatus_dew_point : float or None
        Surface temperature of the coil; of a dry coil it lies above the dew point of the air [K]. None, like
        everything but ``entering_air``, where no coil can do what is asked.
    mass_rate, volume_rate, daily_volume, latent_load, sensible_load, total_load : float or None
    sensible_heat_ratio, entering_air, leaving_air
        As in `AirStatesRate`.
    """

    apparatus_dew_point: float | None = None
