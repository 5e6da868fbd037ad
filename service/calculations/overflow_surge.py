"""Water that comes all at once: a coil that thaws, water the fan held back, what drips after the cut-out.

References
----------
.. [1] International Residential Code 2021, M1411.4: the pump stops the cooling before its tank runs over.
"""

from service.calculations.answer import Finding
from service.calculations.ice_melt import Melt
from service.calculations.overflow_protection import PumpTank, WaterPan, float_too_high
from service.calculations.overflow_results import IceMelt, OverflowTime, TankTime
from service.calculations.pan_shape import pan_level, pan_volume
from service.calculations.pump_cycle import NO_FLOW
from service.calculations.water_balance import WaterBalance

FILLED = 1e-9
"""Share of a volume that is rounding."""

_Values = dict[str, float | int | str]


def water_after_cut_out(melt: Melt, drain_rate: float, acts_at: float) -> tuple[float, float]:
    """Water [m3] that ice still gives after the cooling was stopped at a time [s], and its rate [m3/s], drain deducted.

    Examples
    --------
    By hand: half of 10 L that melt in an hour, less the 2 L an hour that the drain takes in the other half hour:

    >>> melt = Melt(volume=0.01, power=None, time=3600.0, rate=0.01 / 3600.0)
    >>> more, rate = water_after_cut_out(melt, 2e-3 / 3600.0, 1800.0)
    >>> round(more * 1e3, 9), round(rate * 3.6e6, 9)
    (4.0, 8.0)
    """
    if melt.time is None or melt.rate is None or acts_at >= melt.time:
        return 0.0, 0.0
    rate = melt.rate + melt.air_water_rate - drain_rate
    return (rate * (melt.time - acts_at), rate) if rate > 0.0 else (0.0, 0.0)


def follow_melt(
    melt: Melt,
    balance: WaterBalance,
    pan: WaterPan | None,
    room: float | None,
    line_volume: float,
    after_cut_out: float | None,
) -> IceMelt:
    """Follow the water of a melt through pan and drain.

    Parameters
    ----------
    melt : Melt
    balance : WaterBalance
    pan : WaterPan or None
        The unit's own pan, its water in it.
    room : float or None
        Room in line and pan [m3].
    line_volume : float
        The line's part of it [m3].
    after_cut_out : float or None
        Water that comes after the cut-out [m3].

    Returns
    -------
    IceMelt

    Notes
    -----
    With a volume V coming in T while the drain takes c and the inflow is r, pan and line gain V + (r - c) T (1). That
    is the room at T = (V - room) / (c - r) (2), the shortest time in which nothing runs over. V is the ice, and what
    the thawing air gives up.
    """
    if melt.time is None or melt.rate is None:
        return IceMelt(
            water_volume=melt.volume,
            melting_power=melt.power,
            melt_time=None,
            melt_rate=None,
            surge_rate=None,
            highest_water_depth=None,
            lost_volume=None,
            safe_melt_time=None,
            water_after_cut_out=None,
        )
    gained = max(balance.surge_gain, 0.0)
    highest = safe = None
    if pan:
        start = pan_volume(pan, min(pan.water_depth or 0.0, pan.depth))
        highest = pan_level(pan, start + max(gained - line_volume, 0.0))
    if room is not None:
        spare = balance.drain_rate - balance.steady_rate
        # slower air brings less water of its own, in proportion
        too_much = melt.volume * (1.0 + melt.air_water_rate / melt.rate) - room
        # equation (2); a pan that holds all of it is safe at any speed, unless the inflow alone beats the drain
        if spare >= 0.0 and too_much <= 0.0:
            safe = 0.0
        elif spare > NO_FLOW:
            safe = too_much / spare
    return IceMelt(
        water_volume=melt.volume,
        melting_power=melt.power,
        melt_time=melt.time,
        melt_rate=melt.rate,
        surge_rate=balance.surge_rate,
        highest_water_depth=highest,
        lost_volume=None if room is None else max(gained - room, 0.0),
        safe_melt_time=safe,
        water_after_cut_out=after_cut_out,
    )


def follow_tank(
    tank: PumpTank,
    balance: WaterBalance,
    held_up_volume: float,
    melt: Melt | None,
    drip_down_volume: float | None,
    drip: float,
) -> TankTime:
    """Follow the water of a dead pump: a wired float below the rim ends it.

    Parameters
    ----------
    tank : PumpTank
    balance : WaterBalance
        What comes in.
    held_up_volume : float
        What is there at once [m3].
    melt : Melt or None
        Ice that goes on melting when the cooling has stopped.
    drip_down_volume : float or None
        What the coil still gives then, if that was said [m3].
    drip : float
        The same, or what stands for it [m3].

    Returns
    -------
    TankTime
    """
    has_float = tank.safety_float != "none"
    stopped_by = {"wired": "cut-out", "unwired": "nothing", "none": "nothing"}.get(tank.safety_float or "", "unknown")
    if stopped_by == "cut-out" and (float_too_high(tank) or floods_at_once(tank, held_up_volume)):
        stopped_by = "nothing"

    def time_to(volume: float | None) -> float | None:
        if volume is None or held_up_volume <= 0.0:
            return balance.time_to_gain(volume)
        return 0.0 if held_up_volume >= volume else balance.time_to_gain(volume - held_up_volume)

    to_float = time_to(tank.volume_to_safety_float) if has_float else None
    room = after = None
    if has_float and tank.volume_to_safety_float is not None and tank.volume_to_overflow is not None:
        room = max(tank.volume_to_overflow - max(tank.volume_to_safety_float, held_up_volume), 0.0)
    if has_float and (drip_down_volume is not None or (melt and melt.rate is not None)):
        after = drip
        if melt and to_float is not None:
            after += water_after_cut_out(melt, 0.0, to_float)[0]
    if stopped_by == "cut-out" and room is not None and after is not None and melt and after - drip > room:
        stopped_by = "nothing"
    return TankTime(
        time_to_safety_float=to_float,
        time_to_overflow=time_to(tank.volume_to_overflow),
        stopped_by=stopped_by,
        rise_per_minute=None if tank.area is None else balance.rate_at(0.0) * 60.0 / tank.area,
        room_after_cut_out=room,
        water_after_cut_out=after,
    )


def floods_at_once(tank: PumpTank, held_up_volume: float) -> bool:
    """Tell whether the water [m3] the fan lets go is more than the tank takes."""
    room = tank.volume_to_overflow
    return held_up_volume > 0.0 and room is not None and held_up_volume > room * (1.0 + FILLED)


def judge_surge(
    results: OverflowTime,
    balance: WaterBalance,
    tank: PumpTank | None,
    held_up_volume: float,
    drain_capacity: float | None,
    room: float | None,
    fits_after_cut_out: float | None,
) -> list[Finding]:
    """Judge a weak drain, a melt, and what comes into the tank all at once.

    Parameters
    ----------
    results : OverflowTime
    balance : WaterBalance
    tank : PumpTank or None
    held_up_volume : float
        Water the fan lets go at once [m3].
    drain_capacity : float or None
        What the drain still carries, if that was said [m3/s].
    room : float or None
        Room in line and pan [m3].
    fits_after_cut_out : float or None
        Room that is left once the cut-out has acted, an auxiliary pan below it included [m3].

    Returns
    -------
    list of Finding
    """
    findings = []
    if drain_capacity is not None and balance.steady_rate > NO_FLOW:
        values: _Values = {"inflow": balance.steady_rate, "capacity": drain_capacity}
        code = "drain-slower-than-inflow" if balance.grows_without_end else "drain-carries-inflow"
        findings.append(Finding(code=code, pointer="/drain_capacity", values=values))
    if results.melt:
        findings += _melt_findings(results, results.melt, balance, drain_capacity, room, fits_after_cut_out)
    if tank and results.pump_tank:
        findings += _tank_findings(tank, results.pump_tank, held_up_volume)
    return findings


def _melt_findings(
    results: OverflowTime,
    melt: IceMelt,
    balance: WaterBalance,
    drain_capacity: float | None,
    room: float | None,
    fits_after_cut_out: float | None,
) -> list[Finding]:
    """Say whether pan and drain take the melt."""
    values: _Values = {"volume": melt.water_volume, "capacity": balance.drain_rate}
    if melt.water_volume <= 0.0:
        return [Finding(code="no-ice", pointer="/ice", values=values)]
    if melt.melt_time is None or melt.surge_rate is None:
        code = "melt-time-unknown" if melt.melting_power is None else "ice-does-not-melt"
        return [Finding(code=code, pointer="/ice", values=values)]
    values |= {
        "time": melt.melt_time,
        "rate": melt.surge_rate,
        "lost": melt.lost_volume or 0.0,
        "overflow": results.time_to_overflow or 0.0,
        "room": room or 0.0,
    }
    findings = []
    more, fits = melt.water_after_cut_out, fits_after_cut_out
    if more is not None and fits is not None and more > fits * (1.0 + FILLED):
        after = values | {"more": more, "left": fits}
        findings.append(Finding(code="melt-outruns-cut-out", pointer="/ice", values=after))
    if room is None:
        return findings
    runs_over = melt.lost_volume is not None and melt.lost_volume > FILLED * room
    if melt.surge_rate <= balance.drain_rate:
        code = "drain-carries-melt"
    elif not runs_over:
        code = "pan-takes-melt"
    elif drain_capacity is None:
        code = "melt-floods-blocked-drain"
    elif melt.safe_melt_time is None:
        code = "melt-beats-drain"
    else:
        code, values = "melt-too-fast-for-drain", values | {"safe_time": melt.safe_melt_time}
    return [*findings, Finding(code=code, pointer="/ice", values=values)]


def _tank_findings(tank: PumpTank, times: TankTime, held_up_volume: float) -> list[Finding]:
    """Say what a surge does to the pump's tank."""
    findings = []
    if floods_at_once(tank, held_up_volume):
        values: _Values = {"held_up": held_up_volume, "to_rim": tank.volume_to_overflow or 0.0}
        findings.append(Finding(code="held-up-water-floods-tank", pointer="/held_up_volume", values=values))
    room, after = times.room_after_cut_out, times.water_after_cut_out
    in_time = tank.safety_float == "wired" and not float_too_high(tank) and not floods_at_once(tank, held_up_volume)
    if in_time and room is not None and after is not None and after > room * (1.0 + FILLED):
        values = {"room": room, "after": after}
        pointer = "/pump_tank/volume_to_safety_float"
        findings.append(Finding(code="little-room-above-float", pointer=pointer, values=values))
    return findings
