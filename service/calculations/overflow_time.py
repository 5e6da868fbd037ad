"""How long until water goes where it should not, once the drain blocks or the pump dies."""

from dataclasses import dataclass

from service.calculations.answer import Answer, Assumption, Finding
from service.calculations.limits import Limit, require
from service.calculations.overflow_judgement import (
    judge_auxiliary_pan,
    judge_protection,
    judge_room,
    judge_tank,
)
from service.calculations.overflow_protection import (
    AUXILIARY_PAN_LIMITS,
    PAN_LIMITS,
    PROTECTION_LIMITS,
    AuxiliaryPan,
    Protection,
    PumpTank,
    WaterPan,
    float_too_high,
)
from service.calculations.pump_cycle import NO_FLOW, PUMP_LIMITS, time_to_fill
from service.calculations.trap_water import SLACK

__all__ = ["LIMITS", "STOPPERS", "AuxiliaryPan", "OverflowTime", "Protection", "PumpTank", "WaterPan", "overflow_time"]

STOPPERS = ("cut-out", "secondary-drain", "auxiliary-pan-drain", "nothing", "unknown")
"""What ends the water."""

LIMITS = {
    "inflow": Limit(0.0, 2e-3),  # a dry coil, to 1,900 gal/h: several times the largest air handler
    "free_volume": Limit(0.0, 25.0),  # a full pan, to the largest and deepest pan
    "line_volume": Limit(0.0, 1.0),  # blocked at the pan, to hundreds of feet of large pipe
}


@dataclass(frozen=True, kw_only=True, slots=True)
class TankTime:
    """With the pump dead.

    Parameters
    ----------
    time_to_safety_float, time_to_overflow : float or None
        From the level where the pump should have started [s].
    stopped_by : str
        ``cut-out``, ``nothing`` or ``unknown``.
    """

    time_to_safety_float: float | None
    time_to_overflow: float | None
    stopped_by: str


@dataclass(frozen=True, kw_only=True, slots=True)
class OverflowTime:
    """Times from the moment the drain blocks, at a steady inflow.

    Every time is None where there is no inflow, or a volume it depends on is unknown.

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
    pump_tank: TankTime | None


def overflow_time(
    *,
    inflow: float,
    pan: WaterPan | None = None,
    free_volume: float | None = None,
    line_volume: float | None = None,
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
        For an argument outside `LIMITS`, `PAN_LIMITS`, `PROTECTION_LIMITS`, `AUXILIARY_PAN_LIMITS` or `PUMP_LIMITS`.

    Notes
    -----
    time = volume / inflow (1), with upright pan walls: volume = area x depth (2).

    Examples
    --------
    By hand: a pan of 0.3 m2 and 40 mm, 10 mm of it full, has room for 9 L; at 6 L/h that is an hour and a half.

    >>> pan = WaterPan(area=0.3, depth=0.04, water_depth=0.01)
    >>> round(overflow_time(inflow=6e-3 / 3600, pan=pan).results.time_to_overflow / 3600, 9)
    1.5

    References
    ----------
    .. [1] International Mechanical Code 2021, 307.2.3.
    """
    _require(inflow, pan, free_volume, line_volume, protection, pump_tank)
    assumptions: list[Assumption] = []
    findings: list[Finding] = []
    empty_line = line_volume or 0.0
    used = pan if free_volume is None else None
    in_pan = free_volume if used is None else _room(used, used.depth)
    room = None if in_pan is None else in_pan + empty_line
    act = _act(protection, used, room, empty_line)
    results = _follow(inflow, room, act, protection, pump_tank)
    if room is not None:
        assumptions += _assumptions(used, line_volume, protection)
    if inflow <= NO_FLOW:
        findings.append(Finding(code="overflow-no-inflow", pointer="/inflow"))
    if room is None and pump_tank is None:
        findings.append(Finding(code="overflow-room-unknown", pointer="/pan"))
    if results.stopped_by is not None:
        findings += judge_room(used, results.time_to_building)
        findings += judge_protection(protection, used, act.stopped_by, results.room_after_cut_out, inflow)
    if protection and protection.auxiliary_pan:
        findings += judge_auxiliary_pan(protection.auxiliary_pan)
    if pump_tank:
        findings += judge_tank(pump_tank)
    in_building = results.stopped_by == "nothing" or (results.pump_tank and results.pump_tank.stopped_by == "nothing")
    return Answer(
        results=results,
        findings=tuple(findings),
        assumptions=tuple(assumptions),
        cautions=(
            *(("water-damage",) if in_building else ()),
            *(("water-and-electricity",) if pump_tank else ()),
            "local-code",
        ),
        sources=("imc-overflow", "irc-overflow", *(("irc-pump",) if pump_tank else ()), "common-practice"),
    )


def _require(
    inflow: float,
    pan: WaterPan | None,
    free_volume: float | None,
    line_volume: float | None,
    protection: Protection | None,
    pump_tank: PumpTank | None,
) -> None:
    require(LIMITS, inflow=inflow, free_volume=free_volume, line_volume=line_volume)
    if pan:
        require(PAN_LIMITS, area=pan.area, depth=pan.depth, water_depth=pan.water_depth)
    if protection:
        depths = {name: getattr(protection, name) for name in PROTECTION_LIMITS}
        require(PROTECTION_LIMITS, **depths)
        if below := protection.auxiliary_pan:
            require(AUXILIARY_PAN_LIMITS, area=below.area, depth=below.depth, larger_than_unit=below.larger_than_unit)
    if pump_tank:
        require(
            PUMP_LIMITS,
            volume_to_safety_float=pump_tank.volume_to_safety_float,
            volume_to_overflow=pump_tank.volume_to_overflow,
        )


def _room(pan: WaterPan, level: float) -> float:
    """Room [m3] in the pan from its water up to ``level`` [m]; none where the water is as high."""
    return pan.area * max(level - (pan.water_depth or 0.0), 0.0)


def _assumptions(pan: WaterPan | None, line_volume: float | None, protection: Protection | None) -> list[Assumption]:
    assumptions = []
    if pan and pan.water_depth is None:
        note = "Nothing was said of water in the pan: it is empty when the drain blocks."
        assumptions.append(Assumption(pointer="/pan/water_depth", value=0.0, note=note, symbols="in|mm"))
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
    room_left = min(pan.area * (pan.depth - level), _room(pan, pan.depth))
    return _Act(stopped_by=stopped_by, acts_after=empty_line + _room(pan, level), room_left=room_left)


def _follow(
    inflow: float,
    room: float | None,
    act: _Act,
    protection: Protection | None,
    pump_tank: PumpTank | None,
) -> OverflowTime:
    """Follow the water from the pan to the building; equation (1)."""
    below = protection.auxiliary_pan if protection else None
    below_room = below.area * below.depth if below else None
    to_building = room + (below_room or 0.0) if act.stopped_by == "nothing" and room is not None else None
    to_act = time_to_fill(act.acts_after, inflow)
    is_cut_out = act.stopped_by == "cut-out"
    return OverflowTime(
        free_volume=room,
        time_to_overflow=time_to_fill(room, inflow),
        time_to_secondary_drain=None if is_cut_out else to_act,
        time_to_cut_out=to_act if is_cut_out else None,
        room_after_cut_out=act.room_left if is_cut_out else None,
        time_in_auxiliary_pan=time_to_fill(below_room, inflow),
        time_to_building=time_to_fill(to_building, inflow),
        stopped_by=None if room is None and protection is None else act.stopped_by,
        pump_tank=_tank(inflow, pump_tank) if pump_tank else None,
    )


def _tank(inflow: float, tank: PumpTank) -> TankTime:
    """With the pump dead: a wired float below the rim ends the water."""
    has_float = tank.safety_float != "none"
    stopped_by = {"wired": "cut-out", "unwired": "nothing", "none": "nothing"}.get(tank.safety_float or "", "unknown")
    if stopped_by == "cut-out" and float_too_high(tank):
        stopped_by = "nothing"
    return TankTime(
        time_to_safety_float=time_to_fill(tank.volume_to_safety_float, inflow) if has_float else None,
        time_to_overflow=time_to_fill(tank.volume_to_overflow, inflow),
        stopped_by=stopped_by,
    )
