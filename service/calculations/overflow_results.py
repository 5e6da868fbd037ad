"""How long until water goes where it should not: the results."""

from service.calculations.frozen import dataclass

STOPPERS = ("cut-out", "secondary-drain", "auxiliary-pan-drain", "nothing", "unknown")
"""What ends the water."""


@dataclass(frozen=True, kw_only=True, slots=True)
class TankTime:
    """With the pump dead.

    Parameters
    ----------
    time_to_safety_float, time_to_overflow : float or None
        From the level where the pump should have started [s].
    stopped_by : str
        ``cut-out``, ``nothing`` or ``unknown``.
    rise_per_minute : float or None
        How far the water rises in a minute at the start [m]; None without the tank's area.
    room_after_cut_out : float or None
        Room above the safety float [m3]; None without a float or a volume.
    water_after_cut_out : float or None
        Water that still arrives after the float has stopped the cooling [m3]; None where neither drip-down nor ice
        was given.
    """

    time_to_safety_float: float | None
    time_to_overflow: float | None
    stopped_by: str
    rise_per_minute: float | None
    room_after_cut_out: float | None
    water_after_cut_out: float | None


@dataclass(frozen=True, kw_only=True, slots=True)
class IceMelt:
    """The ice on the coil as it melts into the pan.

    Parameters
    ----------
    water_volume : float
        Water the ice melts to [m3].
    melting_power : float or None
        Heat that melts it [W]; None where nothing tells how fast it melts.
    melt_time : float or None
        How long it takes [s]; None where it does not melt, or nothing tells how fast. So are all that follow.
    melt_rate : float or None
        Water of the ice alone [m3/s].
    surge_rate : float or None
        Ice, water of the thawing air, and inflow together [m3/s].
    highest_water_depth : float or None
        How high the water gets in the pan by the end of the melt [m]; None also without the pan's dimensions.
    lost_volume : float or None
        Water that runs over the pan's rim by then if nothing acts [m3]; None also without a pan.
    safe_melt_time : float or None
        Shortest time for the melt in which pan and drain just take it [s]; None also where none is long enough.
    water_after_cut_out : float or None
        Water that goes on rising after the cut-out has acted [m3], for it does not stop the melt; None also without
        a cut-out that acts.
    """

    water_volume: float
    melting_power: float | None
    melt_time: float | None
    melt_rate: float | None
    surge_rate: float | None
    highest_water_depth: float | None
    lost_volume: float | None
    safe_melt_time: float | None
    water_after_cut_out: float | None


@dataclass(frozen=True, kw_only=True, slots=True)
class OverflowTime:
    """Times from the moment the drain blocks, at a steady inflow or through a melt.

    Every time is None where the water never gets there, or a volume it depends on is unknown.

    Parameters
    ----------
    free_volume : float or None
        Water that has to arrive before the pan runs over, empty line included [m3].
    time_to_overflow : float or None
        Until the pan runs over if nothing acts before [s].
    time_to_secondary_drain : float or None
        Until the secondary drain runs [s]; None also without one.
    time_to_cut_out : float or None
        Until the cut-out acts [s]; None also without one, or where the water does not reach it.
    room_after_cut_out : float or None
        Water that still fits after the cut-out has acted [m3]: the coil goes on dripping.
    time_in_auxiliary_pan : float or None
        That the auxiliary pan takes to fill, its own drain left out [s].
    time_to_building : float or None
        Until water reaches the building [s]; None also where something stops it.
    stopped_by : str or None
        One of `STOPPERS`; None where neither pan nor protection was given.
    line_volume : float or None
        Room in line and trap that fills before the pan [m3]; None where neither was given.
    starting_water_depth : float or None
        Water in the pan at the start [m]; None without the pan's dimensions.
    melt : IceMelt or None
        The ice on the coil; None without any.
    pump_tank : TankTime or None
        The same for a dead pump.
    """

    free_volume: float | None
    time_to_overflow: float | None
    time_to_secondary_drain: float | None
    time_to_cut_out: float | None
    room_after_cut_out: float | None
    time_in_auxiliary_pan: float | None
    time_to_building: float | None
    stopped_by: str | None
    line_volume: float | None
    starting_water_depth: float | None
    melt: IceMelt | None
    pump_tank: TankTime | None
