"""What a person should know about a pump's run."""

from dataclasses import dataclass

from service.calculations.answer import Finding
from service.calculations.pump import Pump, PumpRun
from service.calculations.pump_curve import PumpCurve
from service.calculations.pump_cycle import NO_FLOW
from service.calculations.pump_tube import Tube

NEAR_SHUT_OFF = 0.9
"""Share of the shut-off head from which the motor labours and runs long. Common practice, no source."""

MUCH_FRICTION = 0.5
"""Share of the shut-off head in friction from which the bore is too small. Common practice, no source."""

MOST_STARTS = 12.0
"""Starts an hour, one in five minutes, beyond which switch and motor wear out. Common practice, no source."""

_Values = dict[str, float | str]


@dataclass(frozen=True, kw_only=True, slots=True)
class Installation:
    """The facts a run is judged by.

    Parameters
    ----------
    inflow : float
        Water arriving [m3/s].
    lift : float
        Static lift [m].
    margin : float
        Least flow over the inflow.
    curve : PumpCurve
        The curve used.
    tube : Tube
        As requested.
    pump : Pump
        As requested.
    """

    inflow: float
    lift: float
    margin: float
    curve: PumpCurve
    tube: Tube
    pump: Pump


def judge_pump(facts: Installation, run: PumpRun) -> tuple[Finding, ...]:
    """Judge a pump's run: lift and flow, tube, cycling, what happens when it stops or dies.

    Parameters
    ----------
    facts : Installation
        The installation.
    run : PumpRun
        Its results.

    Returns
    -------
    tuple of Finding
    """
    return (
        *_flow_findings(facts, run),
        *_tube_findings(facts, run),
        *_cycle_findings(facts, run),
        *_safety_findings(facts, run),
        *_curve_findings(facts, run),
    )


def _flow_findings(facts: Installation, run: PumpRun) -> list[Finding]:
    """Lift against the curve, and flow against the inflow."""
    shut_off, ratio = facts.curve.shut_off, run.flow_ratio
    values: _Values = {
        "lift": facts.lift,
        "shut_off": shut_off,
        "inflow": facts.inflow,
        "flow": run.operating_flow,
        "head": run.operating_head,
        "margin": facts.margin,
        "needed": facts.margin * facts.inflow,
        "most_flow": facts.curve.most_flow,
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
        elif ratio < facts.margin:
            findings.append(Finding(code="pump-margin-small", pointer="/pump/curve", values=values))
        if ratio < facts.margin:
            findings.append(_shortfall(facts, run, values))
    if run.operating_head >= NEAR_SHUT_OFF * shut_off:
        findings.append(Finding(code="pump-near-shut-off", pointer="/lift", values=values))
    return findings


def _shortfall(facts: Installation, run: PumpRun, values: _Values) -> Finding:
    """Say what takes the margin away: the tube's length, the lift, or the pump itself."""
    top = facts.curve.lift_at(facts.margin * facts.inflow)
    if top is None:
        return Finding(code="pump-too-small", pointer="/pump/curve", values=values)
    length = sum(section.length for section in run.sections)
    values = {**values, "top": top, "length": length, "friction": run.friction_head}
    if run.longest_tube is not None:
        values["longest"] = run.longest_tube
        if run.longest_tube < facts.lift <= length:
            return Finding(code="pump-tube-too-narrow", pointer="/tube/bore", values=values)
        return Finding(code="pump-tube-too-long", pointer="/tube/length", values=values)
    return Finding(code="pump-lift-too-high", pointer="/lift", values=values)


def _tube_findings(facts: Installation, run: PumpRun) -> list[Finding]:
    """Friction that a wider tube would spare, and a tube that cannot reach."""
    findings = []
    worst = max(range(len(run.sections)), key=lambda index: run.sections[index].friction_head)
    section, length = run.sections[worst], sum(section.length for section in run.sections)
    values: _Values = {
        "bore": section.bore,
        "length": length,
        "section_length": section.length,
        "section_friction": section.friction_head,
        "lift": facts.lift,
        "friction": run.friction_head,
        "shut_off": facts.curve.shut_off,
    }
    if run.friction_head > MUCH_FRICTION * facts.curve.shut_off:
        code = "pump-section-bore-small" if facts.tube.further_sections else "pump-tube-bore-small"
        pointer = f"/tube/further_sections/{worst - 1}/bore" if worst else "/tube/bore"
        findings.append(Finding(code=code, pointer=pointer, values=values))
    if length < facts.lift:
        findings.append(Finding(code="pump-tube-shorter-than-lift", pointer="/tube/length", values=values))
    return findings


def _cycle_findings(facts: Installation, run: PumpRun) -> list[Finding]:
    """Fall-back, and how often the pump starts."""
    tank, findings = facts.pump.tank_volume_between_floats, []
    values: _Values = {"fall_back": run.fall_back_volume}
    if tank is None:
        findings.append(Finding(code="pump-tank-not-given", pointer="/pump/tank_volume_between_floats"))
        if facts.tube.check_valve is False:
            findings.append(Finding(code="pump-falls-back", pointer="/tube/check_valve", values=values))
        return findings
    values |= {"tank": tank, "percent": 100.0 * run.fall_back_volume / tank}
    if facts.tube.check_valve is None:
        findings.append(Finding(code="pump-check-valve-not-given", pointer="/tube/check_valve", values=values))
    elif run.fall_back_volume >= tank:
        findings.append(Finding(code="pump-restarts-on-fall-back", pointer="/tube/check_valve", values=values))
    elif run.fall_back_volume > 0.0:
        findings.append(Finding(code="pump-falls-back-each-cycle", pointer="/tube/check_valve", values=values))
    if run.cycles_per_hour is not None and run.cycles_per_hour > MOST_STARTS:
        values |= {"starts": run.cycles_per_hour, "most": MOST_STARTS}
        findings.append(Finding(code="pump-short-cycling", pointer="/pump/tank_volume_between_floats", values=values))
    return findings


def _safety_findings(facts: Installation, run: PumpRun) -> list[Finding]:
    """What stops the water when the pump dies, and how long there is."""
    pump, findings = facts.pump, []
    unsafe = {"unwired": "pump-safety-float-unwired", "none": "pump-safety-float-missing"}
    code = "pump-safety-float-not-given" if pump.safety_float is None else unsafe.get(pump.safety_float)
    if code:
        findings.append(Finding(code=code, pointer="/pump/safety_float"))
    to_float, to_overflow = pump.volume_to_safety_float, pump.volume_to_overflow
    if pump.safety_float != "none" and to_float is not None and to_overflow is not None and to_float >= to_overflow:
        values: _Values = {"to_float": to_float, "to_overflow": to_overflow}
        findings.append(
            Finding(code="pump-safety-float-above-overflow", pointer="/pump/volume_to_safety_float", values=values)
        )
    if facts.inflow > NO_FLOW:
        for code, time in (
            ("pump-dead-time-to-safety-float", run.time_to_safety_float),
            ("pump-dead-time-to-overflow", run.time_to_overflow),
        ):
            if time is not None:
                findings.append(Finding(code=code, values={"time": time, "inflow": facts.inflow}))
    return findings


def _curve_findings(facts: Installation, run: PumpRun) -> list[Finding]:
    """What the leaflet's points leave open."""
    curve, findings = facts.curve, []
    if curve.rising:
        values: _Values = {"lift": curve.rising.lift, "flow": curve.rising.flow}
        pointer = f"/pump/curve/{facts.pump.curve.index(curve.rising)}"
        findings.append(Finding(code="pump-curve-rises", pointer=pointer, values=values))
    if not curve.reaches_zero:
        values = {"lift": curve.points[-1].lift, "flow": curve.points[-1].flow}
        findings.append(Finding(code="pump-curve-ends-early", pointer="/pump/curve", values=values))
    if 0.0 < run.operating_head < curve.points[0].lift:
        values = {"lift": curve.points[0].lift, "flow": curve.points[0].flow, "head": run.operating_head}
        findings.append(Finding(code="pump-curve-starts-late", pointer="/pump/curve", values=values))
    return findings
