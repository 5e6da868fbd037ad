"""What the three ways to a condensate rate answer."""

from dataclasses import dataclass

from service.calculations.air_state import AirState


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
    mass_rate : float
        Water made while running [kg/s].
    volume_rate : float
        The same by volume [m3/s].
    daily_volume : float
        Water in a day at the run fraction [m3].
    latent_load : float
        Heat given up by the water as it condenses, at the leaving dry bulb [W].
    sensible_load : float
        Heat given up by the entering air, its water still vapour, cooling to the leaving dry bulb [W].
    total_load : float
        Their sum: what the coil takes out, the heat that drains away with the water not counted [W].
    sensible_heat_ratio : float or None
        Sensible over total load [-]; None where the air is not cooled.
    entering_air, leaving_air : AirState
        The air on both sides.
    """

    mass_rate: float
    volume_rate: float
    daily_volume: float
    latent_load: float
    sensible_load: float
    total_load: float
    sensible_heat_ratio: float | None
    entering_air: AirState
    leaving_air: AirState


@dataclass(frozen=True, kw_only=True, slots=True)
class CoilRate:
    """Water made, from entering air and a coil's capacity.

    Parameters
    ----------
    mass_rate, volume_rate, daily_volume, latent_load, sensible_load, total_load, sensible_heat_ratio : float or None
        As in `AirStatesRate`; None where no coil can do what is asked.
    entering_air : AirState
        The air before the coil.
    leaving_air : AirState or None
        The air after it.
    apparatus_dew_point : float or None
        Surface temperature of the coil; of a dry coil it lies above the dew point of the air [K].
    """

    mass_rate: float | None
    volume_rate: float | None
    daily_volume: float | None
    latent_load: float | None
    sensible_load: float | None
    total_load: float | None
    sensible_heat_ratio: float | None
    entering_air: AirState
    leaving_air: AirState | None
    apparatus_dew_point: float | None
