"""Which of these pumps, or these pumps together: each as it would run, ranked, with reasons."""

from service.calculations.answer import Answer, Finding
from service.calculations.frozen import dataclass
from service.calculations.gathering import moved
from service.calculations.pump import Pump, PumpRun
from service.calculations.pump_curve import PumpCurve, read_curve
from service.calculations.pump_ranking import Contender, decided_by, explain_rank, rank_pumps
from service.calculations.pump_run import LIMITS, Tube, run_on, settle_duty
from service.calculations.pump_together import (
    PumpsTogether,
    flows_without_each,
    ratio,
    shared_flows,
    starts_in_turn,
)
from service.calculations.pump_together_judgement import Facts, judge_together
from service.calculations.pump_tube import TubeRun

__all__ = ["LIMITS", "MOST_PUMPS", "RUN_TOGETHER", "NamedPump", "PumpComparison", "RankedPump", "compare_pumps"]

MOST_PUMPS = 10
"""More candidates than anyone lays leaflets of on one table."""

RUN_TOGETHER = ("alternating", "parallel")
"""How pumps in one tank run: one at a time taking turns, or all at once."""

_SAFETY = ("pump-safety-float-unwired", "pump-safety-float-missing", "pump-safety-float-not-given")


@dataclass(frozen=True, kw_only=True, slots=True)
class NamedPump(Pump):
    """A pump and what it is called.

    Parameters
    ----------
    name : str
        To tell it from the others; two may share one.
    """

    name: str


@dataclass(frozen=True, kw_only=True, slots=True)
class RankedPump:
    """One pump of a comparison.

    Parameters
    ----------
    name : str
        As requested.
    index : int
        Place in the request, from 0.
    rank : int
        1 is best.
    carries : str
        One of `service.calculations.pump_ranking.CARRIES`.
    decided_by : str or None
        What puts it behind the pump ranked before it, one of `service.calculations.pump_ranking.DECIDED_BY`;
        None for the first.
    flow_together : float or None
        What it adds while all run at once [m3/s]; None where they do not share a tank.
    flow_without : float or None
        What the others move with this one dead, all at once or the weakest in its turn [m3/s]; None where they do
        not share a tank.
    answer : Answer of PumpRun
        How it runs alone, as `run_pump` answers, with pointers into the comparison's request.
    """

    name: str
    index: int
    rank: int
    carries: str
    decided_by: str | None
    flow_together: float | None
    flow_without: float | None
    answer: Answer[PumpRun]


@dataclass(frozen=True, kw_only=True, slots=True)
class PumpComparison:
    """Pumps ranked, and what they do together.

    Parameters
    ----------
    best : str or None
        Name of the first in rank that carries the inflow; None where none does.
    pumps : tuple of RankedPump
        Best first.
    together : PumpsTogether or None
        None where they do not share a tank.
    """

    best: str | None
    pumps: tuple[RankedPump, ...]
    together: PumpsTogether | None


def compare_pumps(
    *,
    inflow: float,
    lift: float,
    tube: Tube,
    pumps: tuple[NamedPump, ...],
    run_together: str | None = None,
    water_temperature: float | None = None,
    flow_margin: float | None = None,
) -> Answer[PumpComparison]:
    """Rank pumps for one lift and tube, or judge them together in one tank.

    Parameters
    ----------
    inflow : float
        Condensate of the peak hour [m3/s].
    lift : float
        From the water in the tank up to the highest point of the tube [m].
    tube : Tube
        Discharge tube: of each candidate, or shared by all in one tank.
    pumps : tuple of NamedPump
        Candidates, or the pumps in the tank.
    run_together : str or None
        One of `RUN_TOGETHER`; None for candidates of which one is to be chosen.
    water_temperature : float or None
        Of the water in the tube [K].
    flow_margin : float or None
        Least flow over the inflow that is called enough.

    Returns
    -------
    Answer of PumpComparison

    Raises
    ------
    OutOfRange
        As `run_pump` does.

    Notes
    -----
    Ranked by, in this order: carrying the inflow with its margin, then without; among those that do not reach
    the margin the greater flow; a wired safety float; not working near shut-off; fewer starts; more lift to spare.

    Examples
    --------
    >>> from service.calculations.pump_curve import CurvePoint
    >>> small = (CurvePoint(lift=0.0, flow=5e-6), CurvePoint(lift=2.0, flow=0.0))
    >>> large = (CurvePoint(lift=0.0, flow=8e-5), CurvePoint(lift=6.0, flow=0.0))
    >>> answer = compare_pumps(
    ...     inflow=2e-6, lift=1.5, tube=Tube(bore=0.0095, length=8.0),
    ...     pumps=(NamedPump(name="small", curve=small), NamedPump(name="large", curve=large)),
    ... )
    >>> [(pump.rank, pump.name, pump.carries, pump.decided_by) for pump in answer.results.pumps]
    [(1, 'large', 'with-margin', None), (2, 'small', 'too-slow', 'flow')]
    """
    duty = settle_duty(inflow, lift, tube, water_temperature, flow_margin)
    margin, run = duty.margin, duty.run
    answers = [run_on(duty, pump) for pump in pumps]
    ranked = rank_pumps(
        [
            Contender(
                name=pump.name,
                index=index,
                run=answer.results,
                lift=lift,
                margin=margin,
                safety_float=pump.safety_float,
            )
            for index, (pump, answer) in enumerate(zip(pumps, answers, strict=True))
        ]
    )
    shares = withouts = together = None
    if run_together:
        curves = [read_curve(pump.curve) for pump in pumps]
        runs = [answer.results for answer in answers]
        shares, withouts = shared_flows(curves, run, lift), _withouts(run_together, curves, runs, run, lift)
        together = _together(inflow, lift, curves, run, runs, shares, withouts)
    reasons = [None, *map(decided_by, ranked, ranked[1:])]
    rows = tuple(
        RankedPump(
            name=pump.name,
            index=pump.index,
            rank=place + 1,
            carries=pump.carries,
            decided_by=reasons[place],
            flow_together=shares[pump.index] if shares else None,
            flow_without=withouts[pump.index] if withouts else None,
            answer=_placed(answers[pump.index], pump.index, explain_rank(ranked, place, reasons[place])),
        )
        for place, pump in enumerate(ranked)
    )
    first = ranked[0]
    results = PumpComparison(
        best=first.name if first.carries in ("with-margin", "without-margin") else None,
        pumps=rows,
        together=together,
    )
    if together and shares and withouts and run_together:
        facts = Facts(
            inflow=inflow,
            margin=margin,
            run_together=run_together,
            check_valve=tube.check_valve,
            names=tuple(pump.name for pump in pumps),
            shut_offs=tuple(answer.results.shut_off_head for answer in answers),
            alone=tuple(answer.results.operating_flow for answer in answers),
            shares=shares,
            withouts=withouts,
        )
        findings = judge_together(facts, together) + _tank_safety(pumps, rows)
    else:
        findings = (_choice(ranked, rows[0].answer),)
    cautions = dict.fromkeys(code for row in rows for code in row.answer.cautions)
    sources = dict.fromkeys(key for row in rows for key in row.answer.sources)
    return Answer(
        results=results,
        findings=findings,
        # the defaults are the tube's, the water's and the margin's, the same for every pump
        assumptions=answers[0].assumptions,
        cautions=tuple(cautions),
        sources=tuple(sources),
    )


def _withouts(
    run_together: str, curves: list[PumpCurve], runs: list[PumpRun], tube: TubeRun, lift: float
) -> tuple[float, ...]:
    """What is left to move with each pump dead: all the others at once, or the weakest of them in its turn."""
    if run_together == "parallel" and len(curves) > 2:
        return flows_without_each(curves, tube, lift)
    # of two, one is left, and it runs alone
    alone = [run.operating_flow for run in runs]
    return tuple(min([*alone[:index], *alone[index + 1 :]], default=0.0) for index in range(len(alone)))


def _together(
    inflow: float,
    lift: float,
    curves: list[PumpCurve],
    tube: TubeRun,
    runs: list[PumpRun],
    shares: tuple[float, ...],
    withouts: tuple[float, ...],
) -> PumpsTogether:
    """Put together what pumps in one tank do."""
    flow, strongest = sum(shares), max(run.operating_flow for run in runs)
    head = lift + tube.friction(flow) + tube.bends(flow)
    rounds = [
        None if run.fill_time is None or run.pump_out_time is None else run.fill_time + run.pump_out_time
        for run in runs
    ]
    return PumpsTogether(
        operating_flow=flow,
        operating_head=head if flow > 0.0 else max(curve.shut_off for curve in curves),
        friction_head=tube.friction(flow),
        flow_ratio=ratio(flow, inflow),
        gain_ratio=flow / strongest if strongest > 0.0 else None,
        flow_in_turn=min(run.operating_flow for run in runs),
        flow_one_failed=min(withouts),
        flow_ratio_one_failed=ratio(min(withouts), inflow),
        starts_in_turn=starts_in_turn(rounds),
    )


def _placed(answer: Answer[PumpRun], index: int, why: Finding) -> Answer[PumpRun]:
    """The answer of one pump, its pointers moved into the comparison's request, with the reason for its rank."""
    moves = {"/pump": f"/pumps/{index}"}
    findings = [
        Finding(code=found.code, pointer=moved(found.pointer, "", moves), values=found.values)
        for found in answer.findings
    ]
    return Answer(
        results=answer.results,
        findings=(*findings, why),
        assumptions=answer.assumptions,
        cautions=answer.cautions,
        sources=answer.sources,
    )


def _choice(ranked: list[Contender], answer: Answer[PumpRun]) -> Finding:
    """Say which pump to take, and whether to take it as it is."""
    best = ranked[0]
    values: dict[str, float | int | str] = {
        "name": best.name,
        "count": len(ranked),
        "flow": best.run.operating_flow,
        "needed": best.run.needed_flow,
        "inflow": best.run.needed_flow / best.margin,
        "head": best.run.operating_head,
        "shut_off": best.run.shut_off_head,
        "lift": best.lift,
    }
    pointer = f"/pumps/{best.index}"
    if best.carries == "nothing":
        return Finding(code="pump-choice-none-lifts", pointer="/pumps", values=values)
    if best.carries == "too-slow":
        return Finding(code="pump-choice-none", pointer="/pumps", values=values)
    code = {"pass": "pump-choice-sound", "attention": "pump-choice-with-reserve", "fail": "pump-choice-fails"}
    return Finding(code=code[answer.verdict], pointer=pointer, values=values)


def _tank_safety(pumps: tuple[NamedPump, ...], rows: tuple[RankedPump, ...]) -> tuple[Finding, ...]:
    """One wired float guards a shared tank; without one, what each pump's float lacks."""
    if any(pump.safety_float == "wired" for pump in pumps):
        return ()
    return tuple(
        found
        for row in sorted(rows, key=lambda row: row.index)
        for found in row.answer.findings
        if found.code in _SAFETY
    )
