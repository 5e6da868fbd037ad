"""Water for a cleaning: what fills trap, line, tank and tube, and the closing test made of it."""

from dataclasses import replace
from math import fsum

from service.calculations.answer import Assumption, Sentence
from service.calculations.cleaning_site import Site
from service.calculations.closing_test import (
    HANDY_RATE,
    PEAK_MARGIN,
    PUMP_SHARE,
    ClosingTest,
    PumpedPart,
    WettedLine,
    choose_pour_rate,
    plan_closing_test,
    wet_line,
)
from service.calculations.frozen import dataclass
from service.calculations.installation import PumpAsBuilt, TrapAsBuilt
from service.calculations.limits import Limit
from service.calculations.overflow_protection import WaterPan
from service.calculations.pump_run import LIMITS as PUMP_RUN_LIMITS
from service.calculations.pump_run import run_pump
from service.calculations.trap_check import TYPICAL_PAN_AREA
from service.calculations.trap_water import SLACK, Trap, bore_area, water_when_full
from service.tables.pipe_sizes import DEFAULT_MATERIAL, INCH, pipe

PEAK_LIMITS = {"peak_flow": Limit(0.0, PUMP_RUN_LIMITS["inflow"].high)}  # dry, to what a pump is run at

USUAL_PEAK_FLOW = 2.5 * 3.785411784e-3 / 3600.0
"""Five tons at 0.5 US gal a ton-hour [m3/s]. Common practice, no source."""

USUAL_DROP = USUAL_SEAL = 2.0 * INCH
"""A trap of the usual make [m]. Common practice, no source."""

USUAL_TANK = 1e-3
"""Between the floats of a small pump [m3]. Common practice, no source."""

USUAL_TUBE_BORE, USUAL_TUBE_LENGTH = 0.375 * INCH, 20 * 0.3048
"""Vinyl tube of a small pump [m]. Common practice, no source."""

POUR_NOTE = "{margin} times the peak flow, at least {least:gal/h|L/h}. Common practice."
POUR_AT_PUMP_NOTE = (
    "{margin} times the peak flow, at least {least:gal/h|L/h}, at a pump no more than {share} of its flow. "
    "Common practice."
)
"""Notes of a pour that was not given."""

_NOT_ENTERING = ("/flow_margin", "/tube/fall_back_share")
"""Defaults of the pump's run that have no part in the test."""


@dataclass(frozen=True, kw_only=True, slots=True)
class WaterPlan:
    """Water, and the test.

    Parameters
    ----------
    pipe_volume : float
        What trap and line hold full [m3].
    tube_volume : float
        What the pump's tube holds [m3]; 0 without a pump.
    safety_volume : float or None
        From an empty tank to the safety float [m3].
    has_trap : bool
        Whether there is a seal.
    peak_flow : float
        Condensate of the peak hour [m3/s].
    line : WettedLine
        With the pour in it.
    pumped : PumpedPart or None
        Tank, tube and flow of the pump.
    test : ClosingTest
        What to pour and what to see.
    assumptions : tuple of Assumption
        Defaults that entered.
    """

    pipe_volume: float
    tube_volume: float
    safety_volume: float | None
    has_trap: bool
    peak_flow: float
    line: WettedLine
    pumped: PumpedPart | None
    test: ClosingTest
    assumptions: tuple[Assumption, ...]


def plan_water(
    *,
    site: Site,
    pour_place: str,
    trap: TrapAsBuilt | None,
    pan: WaterPan | None,
    pump: PumpAsBuilt | None,
    peak_flow: float | None,
    pour_rate: float | None,
) -> WaterPlan:
    """Work out the water of a cleaning.

    Parameters
    ----------
    site : Site
        As found.
    pour_place : str
        Where water goes in.
    trap : TrapAsBuilt or None
        Of its dimensions; those of a usual one by default.
    pan : WaterPan or None
        Fills as well where the trap's outlet is above its own.
    pump : PumpAsBuilt or None
        With its tube.
    peak_flow : float or None
        Condensate of the peak hour [m3/s].
    pour_rate : float or None
        Steady pour [m3/s].

    Returns
    -------
    WaterPlan
    """
    notes: list[Assumption] = []
    if peak_flow is None:
        note = "Five tons at 0.5 US gal a ton-hour. Common practice."
        notes.append(Assumption(pointer="/peak_flow", value=USUAL_PEAK_FLOW, note=note, symbols="gal/h|L/h"))
    peak = USUAL_PEAK_FLOW if peak_flow is None else peak_flow
    built = _trap(trap, pan, site.pipe_size, notes)
    has_trap = built.seal_depth > SLACK
    filled = water_when_full(built)
    trap_volume = filled if has_trap else filled - built.bend_volume
    in_pipe = 0.0
    if has_trap:  # what the pipe itself holds: no pan
        in_pipe = filled if built.outlet_drop >= 0.0 else water_when_full(replace(built, outlet_drop=0.0))
    pumped = _pumped(pump, peak, notes) if site.pumped else None
    rate = choose_pour_rate(peak, pumped.flow if pumped else None) if pour_rate is None else pour_rate
    if pour_rate is None:
        text = POUR_AT_PUMP_NOTE if pumped and pumped.flow else POUR_NOTE
        told = Sentence(text=text, values={"margin": PEAK_MARGIN, "least": HANDY_RATE, "share": PUMP_SHARE})
        notes.append(Assumption(pointer="/pour_rate", value=rate, note=told, symbols="gal/h|L/h"))
    line = wet_line(
        pour_rate=rate,
        bore=site.bore,
        length=site.run,
        pitch_ratio=site.pitch_ratio,
        manning_coefficient=site.manning_coefficient,
    )
    test = plan_closing_test(
        pour_place=pour_place,
        pour_rate=rate,
        peak_flow=peak,
        trap_volume=trap_volume,
        line=line,
        falls=site.pitch_ratio > 0.0,
        pumped=pumped,
    )
    safety = pump.pump.volume_to_safety_float if pump else None
    return WaterPlan(
        pipe_volume=in_pipe + bore_area(site.bore) * site.run,
        tube_volume=pumped.tube_volume if pumped else 0.0,
        safety_volume=safety + pumped.tank_volume if pumped and safety is not None else None,
        has_trap=has_trap,
        peak_flow=peak,
        line=line,
        pumped=pumped,
        test=test,
        assumptions=tuple(notes),
    )


def _trap(trap: TrapAsBuilt | None, pan: WaterPan | None, line_size: str, notes: list[Assumption]) -> Trap:
    """The trap with its legs and its pan."""
    if trap is None:
        note = "A trap of the usual make. Common practice."
        notes.append(Assumption(pointer="/trap/outlet_drop", value=USUAL_DROP, note=note, symbols="in|mm"))
        notes.append(Assumption(pointer="/trap/seal_depth", value=USUAL_SEAL, note=note, symbols="in|mm"))
        trap = TrapAsBuilt(outlet_drop=USUAL_DROP, seal_depth=USUAL_SEAL)
    size = trap.pipe_size or line_size
    unit_side, outlet_side = trap.unit_side_pipe_size or size, trap.outlet_side_pipe_size or size
    if trap.pipe_size is None and size in (unit_side, outlet_side):
        notes.append(Assumption(pointer="/trap/pipe_size", value=size, note="Of the size of the line, in PVC."))
    if pan is None and trap.outlet_drop < 0.0:
        note = "The trap's outlet is above the pan outlet, so the pan fills too: one of a small air handler."
        notes.append(Assumption(pointer="/pan/area", value=TYPICAL_PAN_AREA, note=note, symbols="in2|cm2"))
    return Trap(
        outlet_drop=trap.outlet_drop,
        seal_depth=trap.seal_depth,
        unit_side_bore=pipe(DEFAULT_MATERIAL, unit_side).bore,
        outlet_side_bore=pipe(DEFAULT_MATERIAL, outlet_side).bore,
        pan_area=pan.area if pan else TYPICAL_PAN_AREA,
    )


def _pumped(pump: PumpAsBuilt | None, peak: float, notes: list[Assumption]) -> PumpedPart:
    """Tank, tube and flow of the pump."""
    tank = pump.pump.tank_volume_between_floats if pump else None
    if tank is None:
        note = "Between the floats of a small pump. Common practice."
        pointer = "/pump/pump/tank_volume_between_floats"
        notes.append(Assumption(pointer=pointer, value=USUAL_TANK, note=note, symbols="gal|L"))
        tank = USUAL_TANK
    if pump is None:
        note = "Vinyl tube of a small pump. Common practice."
        notes.append(Assumption(pointer="/pump/tube/bore", value=USUAL_TUBE_BORE, note=note, symbols="in|mm"))
        notes.append(Assumption(pointer="/pump/tube/length", value=USUAL_TUBE_LENGTH, note=note, symbols="ft|m"))
        volume = bore_area(USUAL_TUBE_BORE) * USUAL_TUBE_LENGTH
        return PumpedPart(tank_volume=tank, tube_volume=volume, flow=None, holds=False)
    run = run_pump(
        inflow=peak,
        lift=pump.lift,
        tube=pump.tube,
        pump=pump.pump,
        water_temperature=pump.water_temperature,
        flow_margin=pump.flow_margin,
    )
    notes += [found.under("/pump") for found in run.assumptions if found.pointer not in _NOT_ENTERING]
    return PumpedPart(
        tank_volume=tank,
        tube_volume=fsum(bore_area(section.bore) * section.length for section in run.results.sections),
        flow=run.results.operating_flow,
        holds=bool(pump.tube.check_valve),
    )
