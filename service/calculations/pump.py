"""A condensate pump as installed, and how it runs: the facts and the results."""

from service.calculations.answer import Assumption
from service.calculations.frozen import dataclass
from service.calculations.pump_curve import CurvePoint
from service.calculations.pump_tube import Tube, TubeRun


@dataclass(frozen=True, kw_only=True, slots=True)
class Pump:
    """A float-operated tank pump.

    Parameters
    ----------
    curve : tuple of CurvePoint
        Leaflet points of flow against lift, in any order.
    tank_volume_between_floats : float or None
        Between the levels where the pump stops and starts [m3].
    volume_to_safety_float, volume_to_overflow : float or None
        From the level where the pump starts up to the safety float, and up to overflow [m3].
    safety_float : str or None
        One of `service.calculations.pump_cycle.SAFETY_FLOATS`.
    """

    curve: tuple[CurvePoint, ...]
    tank_volume_between_floats: float | None = None
    volume_to_safety_float: float | None = None
    volume_to_overflow: float | None = None
    safety_float: str | None = None


@dataclass(frozen=True, kw_only=True, slots=True)
class Duty:
    """What a pump is asked to do, every default settled.

    Parameters
    ----------
    inflow : float
        Water arriving [m3/s].
    lift : float
        Static lift [m].
    margin : float
        Least flow over the inflow.
    tube : Tube
        As requested.
    run : TubeRun
        The tube with the water in it.
    friction, fittings : float
        Head that its walls and its fittings take from the inflow with its margin [m].
    assumptions : tuple of Assumption
        The defaults.
    """

    inflow: float
    lift: float
    margin: float
    tube: Tube
    run: TubeRun
    friction: float
    fittings: float
    assumptions: tuple[Assumption, ...]


@dataclass(frozen=True, kw_only=True, slots=True)
class SectionFlow:
    """What flows in one section of the tube.

    Parameters
    ----------
    bore, length : float
        Of the section [m].
    velocity : float
        In it [m/s].
    reynolds : float
        Reynolds number in it.
    friction_head, fittings_head : float
        Of its wall, and of its elbows, the change of bore at its beginning and, in the first, the check
        valve [m].
    """

    bore: float
    length: float
    velocity: float
    reynolds: float
    friction_head: float
    fittings_head: float


@dataclass(frozen=True, kw_only=True, slots=True)
class PumpRun:
    """How the pump runs.

    Parameters
    ----------
    operating_flow : float
        Flow where pump and tube agree [m3/s]; 0 where the pump cannot lift the water.
    operating_head : float
        Head the pump works against [m]: lift, friction and fittings; its greatest where nothing flows.
    friction_head, fittings_head : float
        Of the tube's wall, and of elbows, changes of bore and check valve [m].
    velocity : float
        In the tube, where it is narrowest [m/s].
    reynolds : float
        Reynolds number in the tube, where it is narrowest.
    flow_ratio : float or None
        Operating flow over inflow; None with no inflow.
    fill_time, pump_out_time, cycles_per_hour, duty : float or None
        See `service.calculations.pump_cycle.PumpCycle`.
    fall_back_volume : float
        Water that returns to the tank each time the pump stops [m3].
    time_to_safety_float, time_to_overflow : float or None
        With the pump dead, from the level where it should have started [s]; None without the volume or
        with no inflow.
    largest_lift : float or None
        Lift at which, with this tube, the pump still carries the inflow with its margin [m]; None where it
        does at none.
    longest_tube : float or None
        Whole length of such tube, its sections in proportion, that still does so at this lift [m]; None where
        none does, or where friction is no limit (nothing flows in, or it is more than 10 km).
    needed_flow : float
        Inflow times its margin [m3/s].
    needed_head : float
        What lift, friction and fittings take from that flow [m].
    shut_off_head : float
        Where the pump's flow ends, or the greatest lift of a curve that does not go so far [m].
    sections : tuple of SectionFlow
        What flows in each section of the tube, from the pump on.
    """

    operating_flow: float
    operating_head: float
    friction_head: float
    fittings_head: float
    velocity: float
    reynolds: float
    flow_ratio: float | None
    fill_time: float | None
    pump_out_time: float | None
    cycles_per_hour: float | None
    duty: float | None
    fall_back_volume: float
    time_to_safety_float: float | None
    time_to_overflow: float | None
    largest_lift: float | None
    longest_tube: float | None
    needed_flow: float
    needed_head: float
    shut_off_head: float
    sections: tuple[SectionFlow, ...]
