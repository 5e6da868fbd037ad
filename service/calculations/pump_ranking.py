"""Which pump comes before which, and why."""

from math import inf

from service.calculations.answer import Finding
from service.calculations.frozen import dataclass
from service.calculations.pump import PumpRun
from service.calculations.pump_judgement import NEAR_SHUT_OFF

CARRIES = ("with-margin", "without-margin", "too-slow", "nothing")
"""How a pump carries the inflow, best first."""

DECIDED_BY = ("flow", "shut-off-head", "safety-float", "near-shut-off", "starts", "spare-lift", "order")
"""What puts one pump behind another, weightiest first. The order is common practice, no source."""

SAFETY_FLOAT_WORDS = {"wired": "wired", None: "not told about", "unwired": "not wired", "none": "missing"}
"""A safety float in a sentence, best first."""


@dataclass(frozen=True, kw_only=True, slots=True)
class Contender:
    """A pump to be ranked.

    Parameters
    ----------
    name : str
        As requested.
    index : int
        Place in the request, from 0.
    run : PumpRun
        How it runs alone.
    lift : float
        Static lift [m].
    margin : float
        Least flow over the inflow.
    safety_float : str or None
        As requested.
    """

    name: str
    index: int
    run: PumpRun
    lift: float
    margin: float
    safety_float: str | None

    @property
    def carries(self) -> str:
        """One of `CARRIES`."""
        flow, needed = self.run.operating_flow, self.run.needed_flow
        if flow <= 0.0:
            return "nothing"
        if flow >= needed:
            return "with-margin"
        # a margin is never below 1, so that needed / margin is the inflow
        return "without-margin" if flow >= needed / self.margin else "too-slow"

    @property
    def near_shut_off(self) -> bool:
        """Whether the motor labours."""
        return self.run.operating_head >= NEAR_SHUT_OFF * self.run.shut_off_head

    def key(self) -> tuple[tuple[float, ...], ...]:
        """What it is ranked by, smallest first; one entry for each of `DECIDED_BY`."""
        run, carries = self.run, self.carries
        enough = carries == "with-margin"
        return (
            (CARRIES.index(carries), 0.0 if enough else -run.operating_flow),
            (0.0 if run.operating_flow > 0.0 else -run.shut_off_head,),
            (tuple(SAFETY_FLOAT_WORDS).index(self.safety_float),),
            (self.near_shut_off,),
            (inf if run.cycles_per_hour is None else run.cycles_per_hour,),
            (0.0 if run.largest_lift is None else self.lift - run.largest_lift,),
            (self.index,),
        )


def rank_pumps(contenders: list[Contender]) -> list[Contender]:
    """Put pumps in order, best first: flow that carries the inflow, then what keeps it safe, then what lasts.

    Parameters
    ----------
    contenders : list of Contender

    Returns
    -------
    list of Contender
    """
    return sorted(contenders, key=Contender.key)


def decided_by(above: Contender, below: Contender) -> str:
    """Name what puts one pump behind the other: the first of `DECIDED_BY` in which they differ."""
    pairs = zip(DECIDED_BY, above.key(), below.key(), strict=True)
    return next(name for name, one, other in pairs if one != other)


def explain_rank(ranked: list[Contender], place: int, why: str | None) -> Finding:
    """Say in a sentence why a pump stands at its place.

    Parameters
    ----------
    ranked : list of Contender
        Best first.
    place : int
        Place of the pump to explain, from 0.
    why : str or None
        What puts it behind the one before it, by `decided_by`; None for the first.

    Returns
    -------
    Finding
    """
    own = ranked[place]
    pointer = f"/pumps/{own.index}"
    values: dict[str, float | int | str] = {
        "rank": place + 1,
        "count": len(ranked),
        "flow": own.run.operating_flow,
        "needed": own.run.needed_flow,
        "head": own.run.operating_head,
        "shut_off": own.run.shut_off_head,
        "lift": own.lift,
    }
    if place == 0:
        return Finding(code="pump-ranked-first", pointer=pointer, values=values)
    above = ranked[place - 1]
    values |= {
        "above": above.name,
        "above_flow": above.run.operating_flow,
        "above_head": above.run.operating_head,
        "above_shut_off": above.run.shut_off_head,
        "safety_float": SAFETY_FLOAT_WORDS[own.safety_float],
        "above_safety_float": SAFETY_FLOAT_WORDS[above.safety_float],
    }
    if why == "starts":
        if own.run.cycles_per_hour is None:
            return Finding(code="pump-behind-starts-not-known", pointer=pointer, values=values)
        values |= {"starts": own.run.cycles_per_hour, "above_starts": above.run.cycles_per_hour or 0.0}
    if why == "spare-lift":
        values |= {"largest": own.run.largest_lift or 0.0, "above_largest": above.run.largest_lift or 0.0}
    return Finding(code=f"pump-behind-{why}", pointer=pointer, values=values)
