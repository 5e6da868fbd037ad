"""What there is to say about the pan's room and about what stops the water.

References
----------
.. [1] International Mechanical Code 2021, 307.2.3.
"""

from service.calculations.answer import Finding
from service.calculations.overflow_protection import (
    AUXILIARY_PANS,
    AuxiliaryPan,
    Protection,
    PumpTank,
    WaterPan,
    float_too_high,
)
from service.calculations.pan_shape import lowering
from service.calculations.trap_water import SLACK
from service.tables.pipe_sizes import INCH

AUXILIARY_PAN_DEPTH = 1.5 * INCH
"""Least depth of an auxiliary pan (IMC 2021 307.2.3)."""

AUXILIARY_PAN_LARGER = 3.0 * INCH
"""How much longer and wider than the unit an auxiliary pan is at least (IMC 2021 307.2.3)."""

DRIP_TIME = 600.0
"""Time [s] at the peak rate whose water a wet coil still gives after a cut-out. Common practice, no source."""

SHORT_TIME = 1800.0
"""Time [s] that leaves nobody a chance to notice. Common practice, no source."""


def judge_room(pan: WaterPan | None, time_to_building: float | None) -> list[Finding]:
    """Judge the pan's water and the time there is."""
    findings = []
    if pan and (pan.water_depth or 0.0) >= pan.depth - SLACK:
        values = {"water_depth": pan.water_depth or 0.0, "depth": pan.depth}
        findings.append(Finding(code="pan-already-full", pointer="/pan/water_depth", values=values))
    if pan and pan.fall and pan.fall > pan.depth + SLACK:
        values = {"fall": pan.fall, "depth": pan.depth}
        findings.append(Finding(code="pan-bottom-above-rim", pointer="/pan/fall", values=values))
    if time_to_building is not None and time_to_building < SHORT_TIME:
        values = {"time": time_to_building, "short_time": SHORT_TIME}
        findings.append(Finding(code="little-time-to-overflow", values=values))
    return findings


def judge_protection(
    protection: Protection | None,
    pan: WaterPan | None,
    stopped_by: str,
    room_after_cut_out: float | None,
    drip: float,
) -> list[Finding]:
    """Judge whether what is relied on acts, and in time; ``drip`` is what the coil still gives afterwards [m3]."""
    if protection is None:
        return [Finding(code="overflow-protection-unknown", pointer="/protection")]
    kind, below = protection.kind, protection.auxiliary_pan
    if kind == "none":
        code = "auxiliary-pan-only-delays" if below else "overflow-protection-none"
        return [Finding(code=code, pointer="/protection/kind")]
    if kind in AUXILIARY_PANS and below is None:
        return [Finding(code="auxiliary-pan-unknown", pointer="/protection/auxiliary_pan")]
    if kind == "auxiliary-pan-drain":
        return []
    is_drain = kind == "secondary-drain"
    subject = "secondary-drain" if is_drain else "cut-out"
    pointer = "/protection/secondary_drain_depth" if is_drain else "/protection/cut_out_depth"
    level = protection.secondary_drain_depth if is_drain else protection.cut_out_depth
    around = below if kind == "auxiliary-pan-cut-out" else pan
    if level is None or around is None:
        return [Finding(code=f"{subject}-depth-unknown", pointer=pointer)]
    values = {"level": level, "depth": around.depth}
    if stopped_by == "nothing":
        return [Finding(code=f"{subject}-too-high", pointer=pointer, values=values)]
    if around is pan and pan and pan.water_depth and pan.water_depth >= level - SLACK:
        values |= {"water_depth": pan.water_depth}
        return [Finding(code=f"{subject}-under-water", pointer="/pan/water_depth", values=values)]
    if room_after_cut_out is not None and room_after_cut_out < drip:
        values |= {
            "room": room_after_cut_out,
            "drip_volume": drip,
            "lower_by": lowering(around, level, drip - room_after_cut_out),
        }
        return [Finding(code="little-room-after-cut-out", pointer=pointer, values=values)]
    return []


def judge_auxiliary_pan(below: AuxiliaryPan) -> list[Finding]:
    """Compare the auxiliary pan with the size the code asks of it [1]_."""
    values = {"depth": below.depth, "least_depth": AUXILIARY_PAN_DEPTH, "least_larger": AUXILIARY_PAN_LARGER}
    pointer, findings = "/protection/auxiliary_pan", []
    if below.depth < AUXILIARY_PAN_DEPTH - SLACK:
        findings.append(Finding(code="auxiliary-pan-shallow", pointer=f"{pointer}/depth", values=values))
    if below.larger_than_unit is not None and below.larger_than_unit < AUXILIARY_PAN_LARGER - SLACK:
        values |= {"larger": below.larger_than_unit, "wider_by": AUXILIARY_PAN_LARGER - below.larger_than_unit}
        findings.append(Finding(code="auxiliary-pan-small", pointer=f"{pointer}/larger_than_unit", values=values))
    return findings


def judge_tank(tank: PumpTank) -> list[Finding]:
    """Judge the safety float of the pump's tank."""
    pointer = "/pump_tank/safety_float"
    if tank.safety_float is None:
        return [Finding(code="tank-float-unknown", pointer=pointer)]
    if tank.safety_float == "none":
        return [Finding(code="tank-float-missing", pointer=pointer)]
    if tank.safety_float == "unwired":
        return [Finding(code="tank-float-unwired", pointer=pointer)]
    if float_too_high(tank):
        values = {
            "to_float": tank.volume_to_safety_float or 0.0,
            "to_rim": tank.volume_to_overflow or 0.0,
        }
        return [Finding(code="tank-float-too-high", pointer="/pump_tank/volume_to_safety_float", values=values)]
    return []
