"""What a person should know about several pumps in one tank."""

from service.calculations.answer import Finding
from service.calculations.frozen import dataclass
from service.calculations.pump_cycle import NO_FLOW
from service.calculations.pump_together import PumpsTogether


@dataclass(frozen=True, kw_only=True, slots=True)
class Facts:
    """The facts pumps together are judged by, those of each pump in the order of the request.

    Parameters
    ----------
    inflow : float
        Water arriving [m3/s].
    margin : float
        Least flow over the inflow.
    run_together : str
        ``alternating`` or ``parallel``.
    check_valve : bool or None
        Of the tube as requested.
    names : tuple of str
        What they are called.
    shut_offs : tuple of float
        Where the flow of each ends [m].
    alone, shares, withouts : tuple of float
        What each moves alone, what it adds while all run at once, and what is left with it dead [m3/s].
    """

    inflow: float
    margin: float
    run_together: str
    check_valve: bool | None
    names: tuple[str, ...]
    shut_offs: tuple[float, ...]
    alone: tuple[float, ...]
    shares: tuple[float, ...]
    withouts: tuple[float, ...]


def judge_together(facts: Facts, together: PumpsTogether) -> tuple[Finding, ...]:
    """Judge pumps in one tank: enough flow, enough with one dead, none idle, none pushing back through another.

    Parameters
    ----------
    facts : Facts
        The tank.
    together : PumpsTogether
        What they do.

    Returns
    -------
    tuple of Finding
    """
    return (*_flow(facts, together), *_one_failed(facts, together), *_idle(facts, together), *_check_valves(facts))


def _flow(facts: Facts, together: PumpsTogether) -> list[Finding]:
    """Flow against the inflow, as they are meant to run, and what running at once gains."""
    alone, needed = facts.alone, facts.margin * facts.inflow
    strongest, weakest = alone.index(max(alone)), alone.index(min(alone))
    parallel = facts.run_together == "parallel"
    flow = together.operating_flow if parallel else together.flow_in_turn
    values: dict[str, float | int | str] = {
        "count": len(facts.names),
        "flow": flow,
        "inflow": facts.inflow,
        "needed": needed,
        "margin": facts.margin,
        "name": facts.names[weakest],
        "head": together.operating_head,
    }
    findings = []
    how = "at-once" if parallel else "in-turn"
    if flow < facts.inflow or flow <= 0.0:
        findings.append(Finding(code=f"pumps-{how}-too-slow", pointer="/pumps", values=values))
    elif flow < needed:
        findings.append(Finding(code=f"pumps-{how}-margin-small", pointer="/pumps", values=values))
    if together.gain_ratio is not None and len(alone) > 1:
        gained: dict[str, float | int | str] = {
            "count": len(alone),
            "flow": together.operating_flow,
            "gain": together.gain_ratio,
            "name": facts.names[strongest],
            "alone": max(alone),
        }
        findings.append(Finding(code="pumps-at-once-gain", pointer="/pumps", values=gained))
    return findings


def _one_failed(facts: Facts, together: PumpsTogether) -> list[Finding]:
    """What remains when the pump that would be missed most is dead."""
    failed = facts.withouts.index(min(facts.withouts))
    values: dict[str, float | int | str] = {
        "name": facts.names[failed],
        "flow": together.flow_one_failed,
        "inflow": facts.inflow,
    }
    if facts.inflow <= NO_FLOW:
        return []
    if together.flow_one_failed < facts.inflow:
        return [Finding(code="pumps-one-failed-too-slow", pointer=f"/pumps/{failed}", values=values)]
    values["ratio"] = together.flow_one_failed / facts.inflow
    return [Finding(code="pumps-one-failed-carries", pointer=f"/pumps/{failed}", values=values)]


def _idle(facts: Facts, together: PumpsTogether) -> list[Finding]:
    """Pumps that the others hold shut while all run at once."""
    if together.operating_flow <= NO_FLOW:
        return []
    return [
        Finding(
            code="pumps-one-held-shut",
            pointer=f"/pumps/{index}",
            values={"name": name, "head": together.operating_head, "shut_off": facts.shut_offs[index]},
        )
        for index, name in enumerate(facts.names)
        if facts.run_together == "parallel" and facts.shares[index] <= NO_FLOW
    ]


def _check_valves(facts: Facts) -> list[Finding]:
    """Without a check valve at each, a running pump pushes its water back through one that stands."""
    if len(facts.names) < 2 or facts.check_valve:
        return []
    code = "pumps-share-tube-without-check-valves" if facts.check_valve is False else "pumps-check-valves-not-given"
    return [Finding(code=code, pointer="/tube/check_valve")]
