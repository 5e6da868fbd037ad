"""Air cooled and dried: how the heat taken out splits into sensible and latent."""

from service.calculations import virial, water
from service.calculations.air_state import AirState
from service.calculations.frozen import dataclass


@dataclass(frozen=True, kw_only=True, slots=True)
class CoolingProcess:
    """Water and heat taken out of an air stream.

    Parameters
    ----------
    mass_rate : float
        Water [kg/s].
    latent_load : float
        Heat the water gives up as it condenses at the leaving dry bulb [W].
    sensible_load : float
        Heat the air gives up as it cools to the leaving dry bulb, its water still vapour [W].
    total_load : float
        Their sum [W].
    sensible_heat_ratio : float or None
        Sensible over total [-]; None where no heat is taken out.
    """

    mass_rate: float
    latent_load: float
    sensible_load: float
    total_load: float
    sensible_heat_ratio: float | None


def cool_air(
    entering: AirState, *, leaving_dry_bulb: float, removed: float, mass_flow: float, pressure: float
) -> CoolingProcess:
    """Work out the loads of a cooling process.

    Parameters
    ----------
    entering : AirState
        Entering air.
    leaving_dry_bulb : float
        Temperature of the leaving air, and of the water that drains [K].
    removed : float
        Water taken out of each kilogram of dry air [kg/kg].
    mass_flow : float
        Dry air [kg/s].
    pressure : float
        Station pressure [Pa].

    Returns
    -------
    CoolingProcess

    Notes
    -----
    The handbook's balance [1]_, which takes the water to drain at the leaving temperature:
    q = m_da [(h1 - h2) - (W1 - W2) h_w]. It is split on the path through (t2, W1): down to it the
    load is sensible, from there on the water condenses at t2 and the load is latent. So the latent
    load is the water times its heat of evaporation at t2, 2.48 MJ/kg (1065 Btu/lb) at 10 degC, and
    the two make up the total exactly.

    Examples
    --------
    The handbook's example: 5 m3/s at 30 degC and 50 % to saturated 10 degC, about 0.0325 kg/s and
    198 kW.

    >>> from service.calculations.air_state import air_state
    >>> air = air_state(303.15, 0.01337, 101325.0)
    >>> flow = 5.0 / air.specific_volume
    >>> process = cool_air(
    ...     air, leaving_dry_bulb=283.15, removed=0.01337 - 0.00766, mass_flow=flow, pressure=101325.0
    ... )
    >>> round(process.mass_rate, 4), round(process.total_load / 1e3)
    (0.0326, 198)

    References
    ----------
    .. [1] ASHRAE Handbook - Fundamentals 2017, chapter 1, moist-air cooling and dehumidification.
    """
    ratio = entering.humidity_ratio
    known = virial.pairs(leaving_dry_bulb)
    turning = virial.specific_enthalpy(leaving_dry_bulb, ratio, pressure, known)
    leaving = virial.specific_enthalpy(leaving_dry_bulb, ratio - removed, pressure, known)
    sensible_load = mass_flow * (entering.specific_enthalpy - turning)
    latent_load = mass_flow * (turning - leaving - removed * water.liquid_enthalpy(leaving_dry_bulb))
    total_load = sensible_load + latent_load
    return CoolingProcess(
        mass_rate=mass_flow * removed,
        latent_load=latent_load,
        sensible_load=sensible_load,
        total_load=total_load,
        sensible_heat_ratio=sensible_load / total_load if total_load > 0.0 else None,
    )
