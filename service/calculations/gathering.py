"""Gathers several answers into one: pointers moved to where the larger request has the member."""

from collections.abc import Callable, Mapping
from typing import TypeVar

from service.calculations.answer import Answer, Assumption, Finding, Value
from service.errors import Contradiction, OutOfRange

ResultsT = TypeVar("ResultsT")

ASSESSED, NOT_ASSESSED = "assessed", "not-assessed"


def moved(pointer: str, prefix: str, moves: Mapping[str, str]) -> str:
    """Move a calculation's pointer to the larger request.

    Parameters
    ----------
    pointer : str
        RFC 6901 pointer into the calculation's own request.
    prefix : str
        Where the part stands in the larger request.
    moves : mapping
        Members that stand elsewhere: first reference token, with its slash, to pointer.

    Examples
    --------
    >>> moved("/pan_area", "/trap", {"/pan_area": "/pan/area"}), moved("/seal_depth", "/trap", {})
    ('/pan/area', '/trap/seal_depth')
    """
    head, slash, rest = pointer[1:].partition("/")
    if pointer and f"/{head}" in moves:
        return moves[f"/{head}"] + slash + rest
    return prefix + pointer


def _moved_finding(finding: Finding, prefix: str, moves: Mapping[str, str]) -> Finding:
    # spelled out: `dataclasses.replace` takes longer than some of the parts
    return Finding(code=finding.code, pointer=moved(finding.pointer, prefix, moves), values=finding.values)


class Gathering:
    """Findings, assumptions, cautions and sources of the parts, each once.

    One is made for each assessment and thrown away with it.
    """

    def __init__(self) -> None:
        self.findings: list[Finding] = []
        self.assumptions: list[Assumption] = []
        self.cautions: dict[str, None] = {}
        self.sources: dict[str, None] = {}

    def note(self, code: str, pointer: str, **values: Value) -> None:
        """Add a finding of the assessment's own."""
        self._add(Finding(code=code, pointer=pointer, values=values))

    def assume(self, assumption: Assumption) -> None:
        """Add a default that entered the numbers, unless it is there already."""
        if assumption.pointer not in [known.pointer for known in self.assumptions]:
            self.assumptions.append(assumption)

    def warn(self, *cautions: str) -> None:
        """Add cautions."""
        self.cautions |= dict.fromkeys(cautions)

    def cite(self, *sources: str) -> None:
        """Add sources."""
        self.sources |= dict.fromkeys(sources)

    def take(
        self,
        part: str,
        calculate: Callable[[], Answer[ResultsT]],
        *,
        prefix: str,
        moves: Mapping[str, str],
        leave_out: tuple[str, ...] = (),
    ) -> ResultsT | None:
        """Calculate a part and take over what it says.

        Parameters
        ----------
        part : str
            The part, in words.
        calculate : callable
            The calculation, its arguments bound.
        prefix : str
            Where the part stands in the request.
        moves : mapping
            See `moved`.
        leave_out : tuple of str
            Codes that say nothing new in an assessment.

        Returns
        -------
        results or None
            None where the facts contradict each other or a number lies outside what the calculation covers; a
            finding says which.
        """
        try:
            answer = calculate()
        except Contradiction as fault:
            finding = Finding.of(fault)
            self._add(_moved_finding(finding, prefix, moves))
            return None
        except OutOfRange as fault:
            self.note("part-out-of-range", prefix, part=part, member=fault.name.replace("_", " "))
            return None
        for finding in answer.findings:
            if finding.code not in leave_out:
                self._add(_moved_finding(finding, prefix, moves))
        for assumption in answer.assumptions:
            self.assume(
                Assumption(
                    pointer=moved(assumption.pointer, prefix, moves),
                    value=assumption.value,
                    note=assumption.note,
                    symbols=assumption.symbols,
                )
            )
        self.warn(*answer.cautions)
        self.cite(*answer.sources)
        return answer.results

    def worst_of(self, start: int) -> str:
        """Verdict of the findings added since there were ``start`` of them."""
        return Answer(results=None, findings=tuple(self.findings[start:])).verdict

    def _add(self, finding: Finding) -> None:
        if finding not in self.findings:
            self.findings.append(finding)
