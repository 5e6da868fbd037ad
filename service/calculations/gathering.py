"""Gathers several answers into one: pointers moved to where the larger request has the member."""

from collections.abc import Callable, Mapping
from typing import TypeVar

from service.calculations.answer import Answer, Assumption, Finding, Value, worst
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
    end = pointer.find("/", 1)
    head = pointer if end < 0 else pointer[:end]
    return moves[head] + pointer[len(head) :] if head in moves else prefix + pointer


class Gathering:
    """Findings, assumptions, cautions and sources of the parts, each once.

    One is made for each assessment and thrown away with it. ``root`` is the RFC 6901 pointer of what is assessed, where
    that stands in a larger request.
    """

    def __init__(self, root: str = "") -> None:
        self._root = root
        self.findings: list[Finding] = []
        self.assumptions: list[Assumption] = []
        self.cautions: dict[str, None] = {}
        self.sources: dict[str, None] = {}
        self._assumed: set[str] = set()

    def note(self, code: str, pointer: str, **values: Value) -> None:
        """Add a finding of the assessment's own."""
        self._add(Finding(code=code, pointer=self._root + pointer, values=values))

    def assume(self, assumption: Assumption) -> None:
        """Add a default that entered the numbers, unless it is there already."""
        self._assume(self._root + assumption.pointer, assumption)

    def warn(self, *cautions: str) -> None:
        """Add cautions."""
        for caution in cautions:
            self.cautions[caution] = None

    def cite(self, *sources: str) -> None:
        """Add sources."""
        for source in sources:
            self.sources[source] = None

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
        root = self._root
        try:
            answer = calculate()
        except Contradiction as fault:
            pointer = root + moved(fault.pointer, prefix, moves)
            self._add(Finding(code=fault.code, pointer=pointer, values=fault.values))
            return None
        except OutOfRange as fault:
            self.note("part-out-of-range", prefix, part=part, member=fault.name.replace("_", " "))
            return None
        for finding in answer.findings:
            if (code := finding.code) not in leave_out:
                pointer = root + moved(finding.pointer, prefix, moves)
                self._add(Finding(code=code, pointer=pointer, values=finding.values))
        for assumption in answer.assumptions:
            self._assume(root + moved(assumption.pointer, prefix, moves), assumption)
        self.warn(*answer.cautions)
        self.cite(*answer.sources)
        return answer.results

    def worst_of(self, start: int) -> str:
        """Verdict of the findings added since there were ``start`` of them."""
        return worst(self.findings[start:])

    def _assume(self, pointer: str, made: Assumption) -> None:
        if pointer not in self._assumed:
            self._assumed.add(pointer)
            # spelled out: `dataclasses.replace` takes longer than some of the parts
            self.assumptions.append(Assumption(pointer=pointer, value=made.value, note=made.note, symbols=made.symbols))

    def _add(self, finding: Finding) -> None:
        for known in self.findings:
            if known.code == finding.code and known == finding:
                return
        self.findings.append(finding)
