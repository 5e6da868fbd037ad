"""How long until water goes where it should not, once the drain blocks or the pump dies."""

from dataclasses import replace

from service.calculations.answer import Answer, Assumption, Finding
from service.calculations.blocked_line import BlockedLine, LineRoom, room_in_line
from service.calculations.frozen import dataclass
from service.calculations.ice_melt import Ice, Melt, melt_ice
from service.calculations.limits import Limit, require, require_members
from service.calculations.overflow_judgement import (
    DRIP_TIME,
    judge_auxiliary_pan,
    judge_protection,
    judge_room,
    judge_tank,
)
from service.calculations.overflow_protection import (
    AUXILIARY_PAN_LIMITS,
    PAN_LIMITS,
    PROTECTION_LIMITS,
    TANK_LIMITS,
    AuxiliaryPan,
    Protection,
    PumpTank,
    WaterPan,
)
from service.calculations.overflow_results import STOPPERS, IceMelt, OverflowTime, TankTime
from service.calculations.overflow_surge import FILLED, follow_melt, follow_tank, judge_surge, water_after_cut_out
from service.calculations.pan_shape import pan_level, room_between
from service.calculations.pump_cycle import NO_FLOW, PUMP_LIMITS
from service.calculations.trap_water import SLACK
from service.calculations.water_balance import WaterBalance

__all__ = ["LIMITS", "STOPPERS", "AuxiliaryPan", "OverflowTime", "Protection", "PumpTank", "WaterPan", "overflow_time"]

LIMITS = {
    "inflow": Limit(0.0, 2e-3),  # a dry coil, to 1,900 gal/h: several times the largest air handler
    "free_volume": Limit(0.0, 25.0),  # a full pan, to the largest and deepest pan
    "line_volume": Limit(0.0, 1.0),  # blocked at the pan, to hundreds of feet of large pipe
    "held_up_volume": Limit(0.0, 1.0),  # nothing, to the deep pan of a built-up unit
    "drain_capacity": Limit(0.0, 0.05),  # blocked, to a 4 in drain running full
    "drip_down_volume": Limit(0.0, 0.1),  # a dry coil, to the fins of a built-up unit
}


def overflow_time(
    *,
    inflow: float,
    pan: WaterPan | None = None,
    free_volume: float | None = None,
    line_volume: float | None = None,
    line: BlockedLine | None = None,
    drain_capacity: float | None = None,
    held_up_volume: float | None = None,
    ice: Ice | None = None,
    drip_down_volume: float | None = None,
    protection: Protection | None = None,
    pump_tank: PumpTank | None = None,
) -> Answer[OverflowTime]:
    """Work out how long there is, and what stops the water.

    Parameters
    ----------
    inflow : float
        Condensate arriving [m3/s]; the peak hour's.
    pan : WaterPan or None
        The unit's own pan.
    free_volume : float or None
        Room left in the pan [m3], where it was measured; it then counts instead of the pan's dimensions.
    line_volume : float or None
        Empty drain line between the pan and the blockage, which fills first [m3].
    line : BlockedLine or None
        The line itself, where that volume is to be worked out; it then counts instead.
    drain_capacity : float or None
        What the drain still carries [m3/s]; nothing where it is blocked.
    held_up_volume : float or None
        Water the fan holds back [m3]: in the pan from the start, where its depth was not given, and in the pump's
        tank at once.
    ice : Ice or None
        Ice on the coil, which melts from the start.
    drip_down_volume : float or None
        Water the coil still gives after the cooling has stopped [m3].
    protection : Protection or None
        What stops the water.
    pump_tank : PumpTank or None
        Tank of the condensate pump.

    Returns
    -------
    Answer of OverflowTime

    Raises
    ------
    OutOfRange
        For an argument outside `LIMITS`, or outside those of its parts.

    Notes
    -----
    time = volume / (inflow - drain capacity) (1); through a melt, by the balance of
    `service.calculations.water_balance`. Volumes of pans by `service.calculations.pan_shape`: area x depth where
    walls are upright (2).

    Examples
    --------
    By hand: a pan of 0.3 m2 and 40 mm, 10 mm of it full, has room for 9 L; at 6 L/h that is an hour and a half.

    >>> pan = WaterPan(area=0.3, depth=0.04, water_depth=0.01)
    >>> round(overflow_time(inflow=6e-3 / 3600, pan=pan).results.time_to_overflow / 3600, 9)
    1.5

    With 12 L of ice melting in an hour on top, 18 L/h, it is half an hour:

    >>> iced = overflow_time(inflow=6e-3 / 3600, pan=pan, ice=Ice(water_volume=0.012, melt_time=3600.0))
    >>> round(iced.results.time_to_overflow / 3600, 9)
    0.5

    References
    ----------
    .. [1] International Mechanical Code 2021, 307.2.3.
    """
    numbers = {
        "inflow": inflow,
        "free_volume": free_volume,
        "line_volume": line_volume,
        "drain_capacity": drain_capacity,
        "held_up_volume": held_up_volume,
        "drip_down_volume": drip_down_volume,
    }
    _require(numbers, pan, protection, pump_tank)
    in_line = room_in_line(line) if line else LineRoom(volume=line_volume or 0.0)
    melt, melt_assumptions = melt_ice(ice) if ice else (None, ())
    used = _held_up(pan, held_up_volume) if free_volume is None else None
    balance = _balance(inflow, melt, drain_capacity)
    in_pan = free_volume if used is None else room_between(used, used.water_depth or 0.0, used.depth)
    room = None if in_pan is None else in_pan + in_line.volume
    act = _act(protection, used, room, in_line.volume)
    drip = inflow * DRIP_TIME if drip_down_volume is None else drip_down_volume
    tank = None
    if pump_tank:
        undrained = replace(balance, drain_rate=0.0)
        tank = follow_tank(pump_tank, undrained, held_up_volume or 0.0, melt, drip_down_volume, drip)
    outrun = _outrun(act, balance, melt, protection)
    results = _follow(
        balance,
        room,
        act,
        outrun,
        protection,
        line_volume=None if line is None and line_volume is None else in_line.volume,
        starting_water_depth=(used.water_depth or 0.0) if used else None,
        melt=follow_melt(melt, balance, used, room, in_line.volume, outrun.more) if melt else None,
        pump_tank=tank,
    )
    findings = list(in_line.findings)
    if balance.surge_rate <= NO_FLOW and inflow <= NO_FLOW:
        findings.append(Finding(code="overflow-no-inflow", pointer="/inflow"))
    if room is None and pump_tank is None:
        findings.append(Finding(code="overflow-room-unknown", pointer="/pan"))
    if results.stopped_by is not None:
        # through a drain that still runs, the findings about drain and melt say how long there is
        findings += judge_room(used, None if drain_capacity else results.time_to_building)
        findings += judge_protection(protection, used, act.stopped_by, results.room_after_cut_out, drip)
    if protection and protection.auxiliary_pan:
        findings += judge_auxiliary_pan(protection.auxiliary_pan)
    if pump_tank:
        findings += judge_tank(pump_tank)
    findings += judge_surge(results, balance, pump_tank, held_up_volume or 0.0, drain_capacity, room, outrun.fits)
    carried = drain_capacity is not None and room is not None and results.time_to_building is None
    in_building = (results.stopped_by == "nothing" and not carried) or (tank and tank.stopped_by == "nothing")
    assumptions = [*in_line.assumptions, *melt_assumptions]
    if room is not None:
        assumptions += _assumptions(used, pan, line_volume if line is None else 0.0, protection)
    if tank and tank.water_after_cut_out is not None and drip_down_volume is None:
        note = "What ten minutes of the inflow bring: a wet coil goes on dripping. Common practice."
        assumptions.append(Assumption(pointer="/drip_down_volume", value=drip, note=note, symbols="gal|L"))
    return Answer(
        results=results,
        findings=tuple(findings),
        assumptions=tuple(assumptions),
        cautions=(
            *(("water-damage",) if in_building else ()),
            *(("water-and-electricity",) if pump_tank else ()),
            "local-code",
        ),
        sources=(
            "imc-overflow",
            "irc-overflow",
            *(("irc-pump",) if pump_tank else ()),
            *(("iapws-ice", "iapws-liquid-water") if ice else ()),
            *(("ashrae-psychrometrics",) if ice and ice.thaw_air else ()),
            "common-practice",
        ),
    )


def _require(
    numbers: dict[str, float | None], pan: WaterPan | None, protection: Protection | None, pump_tank: PumpTank | None
) -> None:
    """Hold every number to its limit; line and ice hold theirs themselves."""
    require(LIMITS, **numbers)
    if pan:
        require_members(PAN_LIMITS, pan)
    if protection:
        require_members(PROTECTION_LIMITS, protection)
        if below := protection.auxiliary_pan:
            require_members(AUXILIARY_PAN_LIMITS, below)
    if pump_tank:
        require(
            PUMP_LIMITS,
            volume_to_safety_float=pump_tank.volume_to_safety_float,
            volume_to_overflow=pump_tank.volume_to_overflow,
        )
        require(TANK_LIMITS, area=pump_tank.area)


def _held_up(pan: WaterPan | None, held_up_volume: float | None) -> WaterPan | None:
    """The pan with the water the fan holds back in it, where its depth was not given."""
    if pan is None or pan.water_depth is not None or held_up_volume is None:
        return pan
    return replace(pan, water_depth=pan_level(pan, held_up_volume))


def _balance(inflow: float, melt: Melt | None, drain_capacity: float | None) -> WaterBalance:
    """Water in and out: a surge while the ice melts, the inflow alone afterwards."""
    drain = drain_capacity or 0.0
    if melt is None or melt.rate is None or melt.time is None:
        return WaterBalance(steady_rate=inflow, drain_rate=drain)
    surge = inflow + melt.rate + melt.air_water_rate
    return WaterBalance(steady_rate=inflow, surge_rate=surge, surge_time=melt.time, drain_rate=drain)


def _assumptions(
    used: WaterPan | None, pan: WaterPan | None, line_volume: float | None, protection: Protection | None
) -> list[Assumption]:
    assumptions = []
    if used and pan and pan.water_depth is None:
        note = "Nothing was said of water in the pan: it is empty when the drain blocks."
        if used.water_depth is not None:
            note = "The water the fan holds back stands in the pan from the start."
        depth = used.water_depth or 0.0
        assumptions.append(Assumption(pointer="/pan/water_depth", value=depth, note=note, symbols="in|mm"))
    if line_volume is None:
        note = "The drain is taken to block at the pan, the worst place: the line takes no water."
        assumptions.append(Assumption(pointer="/line_volume", value=0.0, note=note, symbols="gal|L"))
    if protection is None:
        note = "Nothing was said of overflow protection: none is counted on."
        assumptions.append(Assumption(pointer="/protection", value="none", note=note))
    return assumptions


@dataclass(frozen=True, kw_only=True, slots=True)
class _Act:
    """The protection at work: what ends the water, when it acts, and what still fits then [m3]."""

    stopped_by: str
    acts_after: float | None = None
    room_left: float | None = None


def _act(protection: Protection | None, pan: WaterPan | None, room: float | None, empty_line: float) -> _Act:
    """Find what ends the water; nothing does that acts no lower than the rim of the pan it stands in."""
    if protection is None or protection.kind == "none":
        return _Act(stopped_by="nothing")
    kind, below = protection.kind, protection.auxiliary_pan
    if kind == "auxiliary-pan-drain":
        return _Act(stopped_by=kind)
    if kind == "auxiliary-pan-cut-out":
        level = protection.cut_out_depth
        if level is None or below is None:
            return _Act(stopped_by="cut-out")
        if level >= below.depth - SLACK:
            return _Act(stopped_by="nothing")
        acts_after = None if room is None else room + below.area * level
        return _Act(stopped_by="cut-out", acts_after=acts_after, room_left=below.area * (below.depth - level))
    stopped_by = "secondary-drain" if kind == "secondary-drain" else "cut-out"
    level = protection.secondary_drain_depth if kind == "secondary-drain" else protection.cut_out_depth
    if level is None or pan is None:
        return _Act(stopped_by=stopped_by)
    if level >= pan.depth - SLACK:
        return _Act(stopped_by="nothing")
    start = pan.water_depth or 0.0
    room_left = min(room_between(pan, level, pan.depth), room_between(pan, start, pan.depth))
    return _Act(stopped_by=stopped_by, acts_after=empty_line + room_between(pan, start, level), room_left=room_left)


@dataclass(frozen=True, kw_only=True, slots=True)
class _Outrun:
    """Water that a melt brings after the cut-out has acted, what of it fits [m3], and when the rest runs over [s]."""

    more: float | None = None
    fits: float | None = None
    runs_over_at: float | None = None


def _outrun(act: _Act, balance: WaterBalance, melt: Melt | None, protection: Protection | None) -> _Outrun:
    """See how much water a melt still brings after the cut-out has stopped the cooling, and whether it fits."""
    if melt is None or act.stopped_by != "cut-out" or act.room_left is None or protection is None:
        return _Outrun()
    acts_at = balance.time_to_gain(act.acts_after)
    if acts_at is None:
        return _Outrun()
    more, rate = water_after_cut_out(melt, balance.drain_rate, acts_at)
    # a cut-out in the unit's own pan has the auxiliary pan below it; one in the auxiliary pan has nothing
    below = protection.auxiliary_pan if protection.kind == "drain-cut-out" else None
    fits = act.room_left + (below.area * below.depth if below else 0.0)
    return _Outrun(more=more, fits=fits, runs_over_at=acts_at + fits / rate if more > fits * (1.0 + FILLED) else None)


def _follow(
    balance: WaterBalance,
    room: float | None,
    act: _Act,
    outrun: _Outrun,
    protection: Protection | None,
    *,
    line_volume: float | None,
    starting_water_depth: float | None,
    melt: IceMelt | None,
    pump_tank: TankTime | None,
) -> OverflowTime:
    """Follow the water from the pan to the building; equation (1)."""
    below = protection.auxiliary_pan if protection else None
    below_room = below.area * below.depth if below else None
    stopped_by, to_building = act.stopped_by, outrun.runs_over_at
    if to_building is not None:
        stopped_by = "nothing"
    elif stopped_by == "nothing" and room is not None:
        to_building = balance.time_to_gain(room + (below_room or 0.0))
    to_act = balance.time_to_gain(act.acts_after)
    is_cut_out = act.stopped_by == "cut-out"
    to_overflow = balance.time_to_gain(room)
    if room is None or balance.surge_time <= 0.0:
        in_below = balance.time_to_gain(below_room)
    else:
        to_fill = None if below_room is None else balance.time_to_gain(room + below_room)
        in_below = None if to_fill is None or to_overflow is None else to_fill - to_overflow
    return OverflowTime(
        free_volume=room,
        time_to_overflow=to_overflow,
        time_to_secondary_drain=None if is_cut_out else to_act,
        time_to_cut_out=to_act if is_cut_out else None,
        room_after_cut_out=act.room_left if is_cut_out else None,
        time_in_auxiliary_pan=in_below,
        time_to_building=to_building,
        stopped_by=None if room is None and protection is None else stopped_by,
        line_volume=line_volume,
        starting_water_depth=starting_water_depth,
        melt=melt,
        pump_tank=pump_tank,
    )
