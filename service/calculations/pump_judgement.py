"""What a person should know about a pump's run."""

from service.calculations.answer import Finding
from service.calculations.limits import ROUNDING
from service.calculations.pump import Duty, Pump, PumpRun
from service.calculations.pump_curve import PumpCurve
from service.calculations.pump_cycle import NO_FLOW

NEAR_SHUT_OFF = 0.9
"""Share of the shut-off head from which the motor labours and runs long. Common practice, no source."""

MUCH_FRICTION = 0.5
"""Share of the shut-off head in friction from which the bore is too small. Common practice, no source."""

MOST_STARTS = 12.0
"""Starts an hour, one in five minutes, beyond which switch and motor wear out. Common practice, no source."""

_UNSAFE_FLOATS = {
    None: "pump-safety-float-not-given",
    "unwired": "pump-safety-float-unwired",
    "none": "pump-safety-float-missing",
}

_Values = dict[str, float | str]


def judge_pump(duty: Duty, pump: Pump, curve: PumpCurve, run: PumpRun) -> tuple[Finding, ...]:
    """Judge a pump's run: lift and flow, tube, cycling, what happens when it stops or dies.

    Parameters
    ----------
    duty : Duty
        What the pump is asked to do.
    pump : Pump
        As requested.
    curve : PumpCurve
        The curve used.
    run : PumpRun
        Its results.

    Returns
    -------
    tuple of Finding
    """
    return (
        *_flow_findings(duty, curve, run),
        *_tube_findings(duty, run),
        *_cycle_findings(duty, pump, run),
        *_safety_findings(duty, pump, run),
        *_curve_findings(pump, curve, run),
    )


def _flow_findings(duty: Duty, curve: PumpCurve, run: PumpRun) -> list[Finding]:
    """Lift against the curve, and flow against the inflow."""
    shut_off, ratio = run.shut_off_head, run.flow_ratio
    values: _Values = {
        "lift": duty.lift,
        "shut_off": shut_off,
        "inflow": duty.inflow,
        "flow": run.operating_flow,
        "head": run.operating_head,
        "margin": duty.margin,
        "needed": run.needed_flow,
        "most_flow": curve.most_flow,
    }
    if run.operating_flow <= 0.0:
        return [Finding(code="pump-cannot-lift", pointer="/lift", values=values)]
    findings = []
    if ratio is None:
        findings.append(Finding(code="pump-has-no-inflow", pointer="/inflow", values=values))
    else:
        values["ratio"] = ratio
        if ratio < 1.0:
            findings.append(Finding(code="pump-slower-than-inflow", pointer="/pump/curve", values=values))
        elif ratio < duty.margin:
            findings.append(Finding(code="pump-margin-small", pointer="/pump/curve", values=values))
        if ratio < duty.margin:
            findings.append(_shortfall(duty, curve.lift_at(run.needed_flow), run, values))
    if run.operating_head >= NEAR_SHUT_OFF * shut_off:
        findings.append(Finding(code="pump-near-shut-off", pointer="/lift", values=values))
    return findings


def _shortfall(duty: Duty, top: float | None, run: PumpRun, values: _Values) -> Finding:
    """Say what takes the margin away: the tube's length, the lift, or the pump itself."""
    if top is None:
        return Finding(code="pump-too-small", pointer="/pump/curve", values=values)
    length = sum(section.length for section in run.sections)
    values = {**values, "top": top, "length": length, "friction": run.friction_head}
    if run.longest_tube is not None:
        values["longest"] = run.longest_tube
        if run.longest_tube < duty.lift <= length:
            return Finding(code="pump-tube-too-narrow", pointer="/tube/bore", values=values)
        return Finding(code="pump-tube-too-long", pointer="/tube/length", values=values)
    return Finding(code="pump-lift-too-high", pointer="/lift", values=values)


def _tube_findings(duty: Duty, run: PumpRun) -> list[Finding]:
    """Friction that a wider tube would spare, and a tube that cannot reach."""
    length = sum([section.length for section in run.sections])
    much, short = run.friction_head > MUCH_FRICTION * run.shut_off_head, length < duty.lift
    if not much and not short:
        return []
    findings = []
    worst = max(range(len(run.sections)), key=lambda index: run.sections[index].friction_head)
    section = run.sections[worst]
    values: _Values = {
        "bore": section.bore,
        "length": length,
        "section_length": section.length,
        "section_friction": section.friction_head,
        "lift": duty.lift,
        "friction": run.friction_head,
        "shut_off": run.shut_off_head,
    }
    if much:
        code = "pump-section-bore-small" if duty.tube.further_sections else "pump-tube-bore-small"
        pointer = f"/tube/further_sections/{worst - 1}/bore" if worst else "/tube/bore"
        findings.append(Finding(code=code, pointer=pointer, values=values))
    if short:
        findings.append(Finding(code="pump-tube-shorter-than-lift", pointer="/tube/length", values=values))
    return findings


def _cycle_findings(duty: Duty, pump: Pump, run: PumpRun) -> list[Finding]:
    """Fall-back, and how often the pump starts."""
    tank, findings = pump.tank_volume_between_floats, []
    values: _Values = {"fall_back": run.fall_back_volume}
    if tank is None:
        findings.append(Finding(code="pump-tank-not-given", pointer="/pump/tank_volume_between_floats"))
        if duty.tube.check_valve is False:
            findings.append(Finding(code="pump-falls-back", pointer="/tube/check_valve", values=values))
        return findings
    values |= {"tank": tank, "percent": 100.0 * run.fall_back_volume / tank}
    if duty.tube.check_valve is None:
        findings.append(Finding(code="pump-check-valve-not-given", pointer="/tube/check_valve", values=values))
    elif run.fall_back_volume >= tank:
        findings.append(Finding(code="pump-restarts-on-fall-back", pointer="/tube/check_valve", values=values))
    elif run.fall_back_volume > 0.0:
        findings.append(Finding(code="pump-falls-back-each-cycle", pointer="/tube/check_valve", values=values))
    if run.cycles_per_hour is not None and run.cycles_per_hour > MOST_STARTS:
        values |= {"starts": run.cycles_per_hour, "most": MOST_STARTS}
        findings.append(Finding(code="pump-short-cycling", pointer="/pump/tank_volume_between_floats", values=values))
    return findings


def _safety_findings(duty: Duty, pump: Pump, run: PumpRun) -> list[Finding]:
    """What stops the water when the pump dies, and how long there is."""
    findings = []
    code = _UNSAFE_FLOATS.get(pump.safety_float)
    if code:
        findings.append(Finding(code=code, pointer="/pump/safety_float"))
    to_float, to_overflow = pump.volume_to_safety_float, pump.volume_to_overflow
    if pump.safety_float != "none" and to_float is not None and to_overflow is not None and to_float >= to_overflow:
        values: _Values = {"to_float": to_float, "to_overflow": to_overflow}
        findings.append(
            Finding(code="pump-safety-float-above-overflow", pointer="/pump/volume_to_safety_float", values=values)
        )
    if duty.inflow > NO_FLOW:
        for code, time in (
            ("pump-dead-time-to-safety-float", run.time_to_safety_float),
            ("pump-dead-time-to-overflow", run.time_to_overflow),
        ):
            if time is not None:
                findings.append(Finding(code=code, values={"time": time, "inflow": duty.inflow}))
    return findings


def _curve_findings(pump: Pump, curve: PumpCurve, run: PumpRun) -> list[Finding]:
    """What the leaflet's points leave open."""
    findings = []
    if curve.rising:
        values: _Values = {"lift": curve.rising.lift, "flow": curve.rising.flow}
        pointer = f"/pump/curve/{pump.curve.index(curve.rising)}"
        findings.append(Finding(code="pump-curve-rises", pointer=pointer, values=values))
    if not curve.reaches_zero:
        values = {"lift": curve.points[-1].lift, "flow": curve.points[-1].flow}
        findings.append(Finding(code="pump-curve-ends-early", pointer="/pump/curve", values=values))
    if 0.0 < run.operating_head < curve.points[0].lift * (1.0 - ROUNDING):
        values = {"lift": curve.points[0].lift, "flow": curve.points[0].flow, "head": run.operating_head}
        findings.append(Finding(code="pump-curve-starts-late", pointer="/pump/curve", values=values))
    return findings
