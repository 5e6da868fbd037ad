"""Will a trap as built drain its pan and keep its seal?"""

import math

from service.calculations.answer import Answer, Assumption, Finding, Sentence
from service.calculations.frozen import dataclass
from service.calculations.limits import Limit, require
from service.calculations.trap_sizing import LIMITS as SIZING_LIMITS
from service.calculations.trap_sizing import (
    MEASURABLE,
    POSITIVE_PAN_DROP,
    SEAL_MARGIN,
    design_pressure,
    recommended_outlet_drop,
    trap_pipe,
)
from service.calculations.trap_water import SLACK, Trap, TrapState, head, head_pressure, seal_at_start_up, trap_states
from service.tables.pipe_sizes import INCH, NOMINAL_SIZES, PipeSize

TYPICAL_PAN_AREA = 0.25
"""Pan of a small air handler [m2], some 20 in square. Only a start-up that lifts water into the pan
depends on it, and that by less than a millimetre: any pan is hundreds of times wider than its drain."""

DEEP_SEAL = 2.0 * INCH
"""Seal beyond the recommended one that is worth a word. Common practice, no source."""

DEEP_ENOUGH = Assumption(
    pointer="/pan_depth",
    value=Sentence(text="deep enough"),
    note="The pan's depth was not given: taken as deep enough for the water it has to hold.",
)
_TYPICAL_PAN = Assumption(
    pointer="/pan_area",
    value=TYPICAL_PAN_AREA,
    note="The pan's area was not given: a typical one, for the levels only; they hardly depend on it.",
    symbols="in2|cm2",
)
_FULL = Assumption(
    pointer="/evaporated_depth",
    value=0.0,
    note="Nothing was said of drying out: the trap starts full to its outlet invert.",
    symbols="in|mm",
)

LIMITS = {
    "pan_pressure": SIZING_LIMITS["pan_pressure"],
    "dirty_filter_allowance": SIZING_LIMITS["dirty_filter_allowance"],
    "outlet_drop": Limit(-0.3, 1.5),  # trap outlet a foot above the pan outlet, to a drop of five feet
    "seal_depth": Limit(0.0, 1.0),  # no trap at all, to the deepest that anyone could clear
    "pan_area": Limit(0.01, 50.0),  # a pan 4 in square, to the floor of a built-up unit
    "pan_depth": Limit(0.002, 0.5),  # a lip, to a deep built-up pan
    "evaporated_depth": Limit(0.0, 1.0),  # full, to the deepest seal dried out
}


@dataclass(frozen=True, kw_only=True, slots=True)
class TrapCheck:
    """What a trap as built does with the water.

    Parameters
    ----------
    design_pressure : float
        Worst fan-on pressure in the pan [Pa gauge]; suction is negative.
    states : tuple of TrapState
        The water at rest, at start-up, running and after the fan has stopped.
    drains_running : bool
        With the fan on and the seal standing, the water leaves the pan: its level stays at or below the pan
        outlet. Whether the seal survives start-up is told by ``seal_margin``. Without any seal a pan under suction
        does not drain.
    held_water_depth : float
        Depth of the water in the pan with the fan on [m].
    release_volume : float or None
        Water the pan lets go when the fan stops [m3]; None where it holds some and its area is unknown.
    seal_margin : float
        Water above the dip at the worst of start-up and running [m]. Negative: how much deeper the seal would
        have to be just to hold.
    pan_overflows : bool
        The pan runs over before the water can leave through the trap.
    largest_suction_drained : float
        Largest suction against which this outlet drop still drains [Pa].
    recommended_outlet_drop : float
        Outlet drop to build for this pressure [m].
    recommended_seal_depth : float
        Seal depth to build for this pressure, these legs and this evaporation, with that drop [m].
    unit_side_bore, outlet_side_bore : float
        Inside diameters of the legs [m].
    """

    design_pressure: float
    states: tuple[TrapState, ...]
    drains_running: bool
    held_water_depth: float
    release_volume: float | None
    seal_margin: float
    pan_overflows: bool
    largest_suction_drained: float
    recommended_outlet_drop: float
    recommended_seal_depth: float
    unit_side_bore: float
    outlet_side_bore: float


def check_trap(
    *,
    pan_pressure: float,
    outlet_drop: float,
    seal_depth: float,
    dirty_filter_allowance: float | None = None,
    pipe_size: str | None = None,
    unit_side_pipe_size: str | None = None,
    outlet_side_pipe_size: str | None = None,
    pan_area: float | None = None,
    pan_depth: float | None = None,
    evaporated_depth: float | None = None,
) -> Answer[TrapCheck]:
    """Follow the water of a trap as built through rest, start-up, running and fan stop.

    Parameters
    ----------
    pan_pressure : float
        Pressure in the pan with the fan on [Pa gauge]; negative where the coil is upstream of the fan.
    outlet_drop : float
        From the pan outlet down to the trap's outlet invert, inside bottom to inside bottom [m]; negative where
        the trap's outlet is the higher.
    seal_depth : float
        From the trap's outlet invert down to the top of the bend, inside [m]; 0 is a drain without a trap.
    dirty_filter_allowance : float or None
        What a dirty filter adds to the suction [Pa].
    pipe_size : str or None
        Nominal size of both legs, where a leg's own is not given.
    unit_side_pipe_size, outlet_side_pipe_size : str or None
        Nominal size of a leg.
    pan_area : float or None
        Area of the pan [m2].
    pan_depth : float or None
        From the pan outlet's inside bottom up to where the pan runs over [m].
    evaporated_depth : float or None
        How far the water has fallen below the outlet invert by drying out [m].

    Returns
    -------
    Answer of TrapCheck

    Raises
    ------
    OutOfRange
        For an argument outside `LIMITS`.

    Notes
    -----
    Every judgement compares levels of `service.calculations.trap_water` with the dip, the pan outlet and the pan's
    rim; only the margins (1 in of drop, 1/2 in of seal) are common practice.

    Examples
    --------
    Suction of 1.2 in, drop of 1/4 in, by hand: 0.95 in stands in the pan.

    >>> answer = check_trap(pan_pressure=-1.2 * 249.08891, outlet_drop=0.25 * 0.0254, seal_depth=2 * 0.0254)
    >>> answer.verdict, round(answer.results.held_water_depth / 0.0254, 9)
    ('fail', 0.95)
    """
    require(
        LIMITS,
        pan_pressure=pan_pressure,
        outlet_drop=outlet_drop,
        seal_depth=seal_depth,
        dirty_filter_allowance=dirty_filter_allowance,
        pan_area=pan_area,
        pan_depth=pan_depth,
        evaporated_depth=evaporated_depth,
    )
    findings: list[Finding] = []
    assumptions: list[Assumption] = []
    pressure = design_pressure(pan_pressure, dirty_filter_allowance, findings, assumptions)
    unit_side, outlet_side = trap_legs(pipe_size, unit_side_pipe_size, outlet_side_pipe_size, findings, assumptions)
    if evaporated_depth is None:
        assumptions.append(_FULL)
    trap = Trap(
        outlet_drop=outlet_drop,
        seal_depth=seal_depth,
        unit_side_bore=unit_side.bore,
        outlet_side_bore=outlet_side.bore,
        pan_area=TYPICAL_PAN_AREA if pan_area is None else pan_area,
        pan_depth=math.inf if pan_depth is None else pan_depth,
        evaporated_depth=evaporated_depth or 0.0,
    )
    states = trap_states(trap, pressure, pan_known=pan_area is not None)
    results = _results(trap, pressure, states, pan_area)
    assumptions += _pan_assumptions(states, pan_area, pan_depth)
    findings += _judge_draining(trap, results)
    findings += _judge_seal(trap, results)
    wet = results.pan_overflows or results.held_water_depth > SLACK
    return Answer(
        results=results,
        findings=tuple(findings),
        assumptions=tuple(assumptions),
        cautions=("lock-out-power", *(("water-damage",) if wet else ()), "freezing", "local-code"),
        sources=("hydrostatics", "common-practice", "astm-d1785", "imc-drain-size"),
    )


def trap_legs(
    pipe_size: str | None,
    unit_side: str | None,
    outlet_side: str | None,
    findings: list[Finding],
    assumptions: list[Assumption],
) -> tuple[PipeSize, PipeSize]:
    """Find the pipe of either leg; one that is not given is like the other.

    Parameters
    ----------
    pipe_size, unit_side, outlet_side : str or None
        Nominal size of both legs, and of a leg where it has its own.
    findings, assumptions : list
        What a person should know about it is appended.

    Returns
    -------
    tuple of PipeSize
        Unit side and outlet side.
    """
    if unit_side is None and outlet_side is None:
        both = trap_pipe("/pipe_size", pipe_size, findings, assumptions)
        return both, both
    if pipe_size is None and (unit_side is None or outlet_side is None):
        given = unit_side or outlet_side or ""
        missing = "/unit_side_pipe_size" if unit_side is None else "/outlet_side_pipe_size"
        note = "Only one leg's size was given: the other is taken to be the same."
        assumptions.append(Assumption(pointer=missing, value=given, note=note))
        unit_side, outlet_side = given, given
    unit_pointer = "/unit_side_pipe_size" if unit_side else "/pipe_size"
    outlet_pointer = "/outlet_side_pipe_size" if outlet_side else "/pipe_size"
    upper = trap_pipe(unit_pointer, unit_side or pipe_size, findings, assumptions)
    lower = trap_pipe(outlet_pointer, outlet_side or pipe_size, findings, assumptions)
    if NOMINAL_SIZES.index(lower.pipe_size) < NOMINAL_SIZES.index(upper.pipe_size):
        values = {"unit_side": upper.pipe_size, "outlet_side": lower.pipe_size}
        findings.append(Finding(code="trap-reduced-on-the-way", pointer=outlet_pointer, values=values))
    return upper, lower


def _results(trap: Trap, pressure: float, states: tuple[TrapState, ...], pan_area: float | None) -> TrapCheck:
    _, start_up, running, fan_stopped = states
    let_go = max(running.pan_water_depth - fan_stopped.pan_water_depth, 0.0)
    return TrapCheck(
        design_pressure=pressure,
        states=states,
        drains_running=running.pan_water_depth <= SLACK and (running.seal_holds or pressure >= 0.0),
        held_water_depth=running.pan_water_depth,
        release_volume=0.0 if let_go <= SLACK else None if pan_area is None else pan_area * let_go,
        seal_margin=min(start_up.seal_remaining, running.seal_remaining),
        pan_overflows=max(head(-pressure), 0.0) > trap.rim + SLACK,
        largest_suction_drained=head_pressure(max(trap.outlet_drop, 0.0)),
        recommended_outlet_drop=recommended_outlet_drop(pressure),
        recommended_seal_depth=_seal_used(trap, pressure) + SEAL_MARGIN,
        unit_side_bore=trap.unit_side_bore,
        outlet_side_bore=trap.outlet_side_bore,
    )


def _seal_used(trap: Trap, pressure: float) -> float:
    """How far the lower leg falls below the outlet invert at start-up [m], rebuilt with the recommended drop.

    No water reaches the pan then. Under suction the legs part by its column, each by the other one's share of their
    area; under pressure the same, but water that rises to the outlet invert runs away, and the column is left.
    """
    column, fallen = head(abs(pressure)), trap.evaporated_depth
    area = trap.unit_side_area + trap.outlet_side_area
    if pressure > 0.0:
        return max(fallen + trap.outlet_side_area / area * column, column)
    return fallen + trap.unit_side_area / area * column


def _pan_assumptions(
    states: tuple[TrapState, ...], pan_area: float | None, pan_depth: float | None
) -> list[Assumption]:
    """Record what was taken of the pan, where it entered the levels."""
    assumptions = []
    at_rest, start_up, running, fan_stopped = (state.pan_water_depth > SLACK for state in states)
    if pan_area is None and (at_rest or start_up or fan_stopped):
        assumptions.append(_TYPICAL_PAN)
    if pan_depth is None and (at_rest or start_up or running or fan_stopped):
        assumptions.append(DEEP_ENOUGH)
    return assumptions


def _judge_draining(trap: Trap, results: TrapCheck) -> list[Finding]:
    """Compare the running level with pan outlet and rim."""
    drop = trap.outlet_drop if abs(trap.outlet_drop) > SLACK else 0.0
    column = head(-results.design_pressure)
    under_suction, at_outlet = results.design_pressure < 0.0, "/outlet_drop"
    values: dict[str, float | int | str] = {
        "outlet_drop": drop,
        "above": -drop,
        "suction": head_pressure(max(column, 0.0)),
        "suction_head": max(column, 0.0),
        "held_water_depth": results.held_water_depth,
        "recommended_outlet_drop": results.recommended_outlet_drop,
        "needed_depth": max(column, 0.0) - drop,
        "pan_depth": trap.pan_depth,
    }
    findings = []
    held = results.held_water_depth > SLACK
    if under_suction and held:
        findings.append(Finding(code="outlet-drop-too-small", pointer=at_outlet, values=values))
    if drop < -SLACK:
        findings.append(Finding(code="trap-outlet-above-pan-outlet", pointer=at_outlet, values=values))
    elif drop <= SLACK and under_suction:
        findings.append(Finding(code="trap-ends-level", pointer=at_outlet, values=values))
    elif results.design_pressure > 0.0:
        if drop < POSITIVE_PAN_DROP - MEASURABLE:
            findings.append(Finding(code="outlet-drop-small-positive-pan", pointer=at_outlet, values=values))
    elif not held and drop < results.recommended_outlet_drop - MEASURABLE:
        findings.append(Finding(code="outlet-drop-margin-small", pointer=at_outlet, values=values))
    if results.pan_overflows:
        findings.append(Finding(code="pan-overflows-before-draining", pointer="/pan_depth", values=values))
    if results.release_volume is None:
        findings.append(Finding(code="pan-area-unknown", pointer="/pan_area", values=values))
    elif results.release_volume > 0.0:
        values = {**values, "release_volume": results.release_volume}
        findings.append(Finding(code="release-surge", pointer=at_outlet, values=values))
    return findings


def _judge_seal(trap: Trap, results: TrapCheck) -> list[Finding]:
    """Compare the lower leg's level with the dip."""
    margin, pointer = results.seal_margin, "/seal_depth"
    values: dict[str, float | int | str] = {
        "seal_depth": trap.seal_depth,
        "seal_margin": max(margin, 0.0),
        "short_by": -margin,
        "needed_seal_depth": trap.seal_depth - margin,
        "pressure": abs(results.design_pressure),
        "evaporated_depth": trap.evaporated_depth,
        "recommended_seal_depth": results.recommended_seal_depth,
        "recommended_outlet_drop": results.recommended_outlet_drop,
    }
    if trap.seal_depth <= SLACK:
        return [Finding(code="trap-without-seal", pointer=pointer, values=values)]
    if margin < -SLACK:
        if trap.evaporated_depth > 0.0 and _holds_when_full(trap, results):
            refill = (trap.unit_side_area + trap.outlet_side_area) * min(trap.evaporated_depth, trap.seal_depth)
            values["refill_volume"] = refill
            return [Finding(code="seal-evaporated", pointer="/evaporated_depth", values=values)]
        code = "seal-blown-out" if results.design_pressure > 0.0 else "seal-broken-by-suction"
        return [Finding(code=code, pointer=pointer, values=values)]
    if margin < SEAL_MARGIN - MEASURABLE:
        return [Finding(code="seal-margin-small", pointer=pointer, values=values)]
    if trap.seal_depth > results.recommended_seal_depth + DEEP_SEAL:
        return [Finding(code="seal-deeper-than-needed", pointer=pointer, values=values)]
    return []


def _holds_when_full(trap: Trap, results: TrapCheck) -> bool:
    """Whether the seal would stand with the trap full at first; running, it is."""
    *_, running, _ = results.states
    at_start_up = seal_at_start_up(trap, results.design_pressure, evaporated_depth=0.0)
    return min(at_start_up, running.seal_remaining) >= -SLACK
