"""What every calculation answers: results, and what a person should know about them."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import field
from typing import Generic, TypeAlias, TypeVar

from service.calculations.frozen import dataclass
from service.errors import Contradiction
from service.tables.findings.catalogue import FINDINGS
from service.tables.findings.row import ATTENTION, FAIL, INFO

VERDICTS = ("pass", "attention", "fail")
_RANK = {INFO: 0, ATTENTION: 1, FAIL: 2}

Value: TypeAlias = "float | int | str | Sentence | Sequence[str | Sentence]"
"""What a template may name: an SI float, a count, a word of ours or of the caller's, a clause with values of its own,
or several of these, which are written as a list with "and"."""

ResultsT = TypeVar("ResultsT", covariant=True)


@dataclass(frozen=True, kw_only=True, slots=True)
class Finding:
    """One thing found, by its code in the catalogue.

    Parameters
    ----------
    code : str
        Code of a row in `service.tables.findings.catalogue`; the row holds severity and text.
    pointer : str
        RFC 6901 pointer to the request member it is about; ``""`` is the whole request.
    values : mapping
        What the row's text names.
    """

    code: str
    pointer: str = ""
    values: Mapping[str, Value] = field(default_factory=dict)

    @classmethod
    def of(cls, contradiction: Contradiction) -> "Finding":
        """The finding that facts contradict each other, where that costs one part of an answer only.

        Parameters
        ----------
        contradiction : Contradiction
        """
        return cls(code=contradiction.code, pointer=contradiction.pointer, values=contradiction.values)

    @property
    def severity(self) -> str:
        """Severity of the row: ``info``, ``attention`` or ``fail``."""
        return FINDINGS[self.code].severity


def worst(findings: Iterable[Finding]) -> str:
    """The worst severity among findings, as one of `VERDICTS`."""
    verdict = "pass"
    for finding in findings:
        severity = FINDINGS[finding.code].severity
        if severity == FAIL:
            return "fail"
        if severity == ATTENTION:
            verdict = "attention"
    return verdict


@dataclass(frozen=True, kw_only=True, slots=True)
class Sentence:
    """A sentence of ours among the results, with the numbers it names.

    Parameters
    ----------
    text : str
        Template of a table, with placeholders like those of a finding.
    values : mapping
        What the template names; what it does not name is not shown.
    """

    text: str
    values: Mapping[str, Value] = field(default_factory=dict)


@dataclass(frozen=True, kw_only=True, slots=True)
class Assumption:
    """A default that entered the numbers because the request did not say.

    Parameters
    ----------
    pointer : str
        RFC 6901 pointer to the member that would replace it.
    value : float, int, str, bool or Sentence
        The value used; a float is SI when ``symbols`` is given, a `Sentence` where no member could hold it.
    note : str or Sentence
        Why this value, in one sentence.
    symbols : str or None
        US and SI unit symbols to show a quantity in, as ``"ft|m"``; None for a plain value.
    """

    pointer: str
    value: float | int | str | bool | Sentence
    note: str | Sentence
    symbols: str | None = None

    def under(self, prefix: str) -> "Assumption":
        """The same assumption, its pointer moved below ``prefix`` (an RFC 6901 pointer)."""
        # spelled out: `dataclasses.replace` takes three times as long, and an answer moves dozens
        return Assumption(pointer=prefix + self.pointer, value=self.value, note=self.note, symbols=self.symbols)


@dataclass(frozen=True, kw_only=True, slots=True)
class Answer(Generic[ResultsT]):
    """Results with findings, assumptions, cautions and sources.

    Parameters
    ----------
    results : frozen dataclass
        The numbers, SI.
    findings : tuple of Finding
        In any order; `ordered` gives the worst first.
    assumptions : tuple of Assumption
        Every default that entered the numbers.
    cautions : tuple of str
        Codes of `service.tables.cautions`, each once.
    sources : tuple of str
        Keys of `service.tables.sources`.
    """

    results: ResultsT
    findings: tuple[Finding, ...] = ()
    assumptions: tuple[Assumption, ...] = ()
    cautions: tuple[str, ...] = ()
    sources: tuple[str, ...] = ()

    @property
    def verdict(self) -> str:
        """The worst severity among the findings, as ``pass``, ``attention`` or ``fail``."""
        return worst(self.findings)

    def ordered(self) -> tuple[Finding, ...]:
        """The findings, worst first, otherwise in the order they were made."""
        return tuple(sorted(self.findings, key=lambda finding: -_RANK[FINDINGS[finding.code].severity]))
