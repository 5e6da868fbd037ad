"""Turns frozen results into JSON-ready objects, in the caller's unit system.

A results schema describes the payload in the document and, compiled here once, writes it:
one closure a field, no reflection per request. ``tests/contract`` proves that what is
written is what the document describes.
"""

import string
from collections.abc import Callable, Mapping, Sequence
from functools import cache
from typing import Any

from service.calculations.answer import Answer, Assumption, Finding
from service.errors import ServiceError
from service.schemas.columns import QuantityColumn
from service.schemas.envelope import Envelope
from service.schemas.envelope import Finding as FindingPayload
from service.schemas.fields import Part, Quantity, Rows, Sentence
from service.tables.cautions import CAUTIONS
from service.tables.findings.catalogue import FINDINGS
from service.tables.sources import SOURCES
from service.units import SYMBOLS, SYSTEMS, display, plain

Writer = Callable[[Any], Any]


class NotFinite(ServiceError):
    """A calculation produced a number JSON cannot carry: a fault of ours, never written."""


def quantity(value: float, symbol: str) -> dict[str, Any]:
    """Write an SI float as ``{"value", "unit"}``."""
    unit = SYMBOLS[symbol]
    written = value / unit.factor - unit.offset + 0.0
    if written - written != 0.0:
        raise NotFinite(f"{value} as {symbol}")
    return {"value": written, "unit": symbol}


def _same(value: Any) -> Any:
    if isinstance(value, float):
        if value - value != 0.0:
            raise NotFinite(str(value))
        return value + 0.0
    return value


def _quantity_writer(symbol: str) -> Writer:
    def write(value: float | None) -> Any:
        return None if value is None else quantity(value, symbol)

    return write


def column(values: Sequence[float | None], symbol: str) -> dict[str, Any]:
    """Write SI floats as ``{"values", "unit"}``; what cannot be computed stays null."""
    unit = SYMBOLS[symbol]
    factor, offset = unit.factor, unit.offset
    written = [None if value is None else value / factor - offset + 0.0 for value in values]
    for value in written:
        if value is not None and value - value != 0.0:
            raise NotFinite(f"a column in {symbol}")
    return {"values": written, "unit": symbol}


def _column_writer(symbol: str) -> Writer:
    def write(values: Sequence[float | None] | None) -> Any:
        return None if values is None else column(values, symbol)

    return write


def _sentence_writer(system: str) -> Writer:
    def write(sentence: Any) -> Any:
        return None if sentence is None else fill(sentence.text, sentence.values, system)

    return write


def _rows_writer(row: Writer) -> Writer:
    def write(values: Any) -> Any:
        return None if values is None else [row(value) for value in values]

    return write


def _field_writer(field: Any, system: str) -> Writer:
    if isinstance(field, Quantity):
        return _quantity_writer(getattr(field, system))
    if isinstance(field, QuantityColumn):
        return _column_writer(getattr(field, system))
    if isinstance(field, Sentence):
        return _sentence_writer(system)
    if isinstance(field, Rows):
        return _rows_writer(_field_writer(field.inner, system))
    if isinstance(field, Part):
        if isinstance(field.schema, FindingPayload):
            return lambda finding: None if finding is None else write_finding(finding, system)
        return compile_writer(field.schema, system)
    return _same


def compile_writer(schema: Any, system: str) -> Writer:
    """Make the function that writes a results dataclass as ``schema`` describes it.

    Parameters
    ----------
    schema : Payload
        An instance whose fields are named as the dataclass's attributes.
    system : str
        ``us`` or ``si``.

    Returns
    -------
    callable
        Results (or None) to a JSON-ready dict (or None).
    """
    if isinstance(schema, Envelope):
        write_answer = compile_answer_writer(schema)[system]
        return lambda answer: None if answer is None else write_answer(answer)
    plan = tuple((name, _field_writer(field, system)) for name, field in schema.fields.items())

    def write(results: Any) -> Any:
        if results is None:
            return None
        return {name: writer(getattr(results, name)) for name, writer in plan}

    return write


@cache
def _template(text: str) -> tuple[tuple[str, str | None, tuple[str, ...]], ...]:
    """Split a template into (literal, value name, unit symbols by system)."""
    return tuple(
        (literal, name, tuple(symbols.split("|")) if symbols else ())
        for literal, name, symbols, _ in string.Formatter().parse(text)
    )


def fill(text: str, values: Mapping[str, float | int | str], system: str) -> str:
    """Fill a template with its numbers, in the units of ``system``.

    Examples
    --------
    >>> fill("The drop is {drop:in|mm}.", {"drop": 0.0254}, "us")
    'The drop is 1 in.'
    >>> fill("The drop is {drop:in|mm}.", {"drop": 0.0254}, "si")
    'The drop is 25.4 mm.'
    """
    words = []
    for literal, name, symbols in _template(text):
        words.append(literal)
        if name is not None:
            value = values[name]
            if symbols:
                words.append(display(float(value), symbols[SYSTEMS.index(system) % len(symbols)]))
            else:
                words.append(value if isinstance(value, str) else plain(value))
    return "".join(words)


def write_finding(finding: Finding, system: str) -> dict[str, Any]:
    """Write one finding with its message and remedy composed."""
    row = FINDINGS[finding.code]
    return {
        "code": row.code,
        "severity": row.severity,
        "message": fill(row.message, finding.values, system),
        "remedy": fill(row.remedy, finding.values, system),
        "pointer": finding.pointer,
        "basis": row.basis,
    }


def write_assumption(assumption: Assumption, system: str) -> dict[str, Any]:
    """Write one assumption; a quantity in the units of ``system``."""
    value = _same(assumption.value)
    if assumption.symbols:
        symbols = assumption.symbols.split("|")
        value = quantity(float(value), symbols[SYSTEMS.index(system) % len(symbols)])
    return {"pointer": assumption.pointer, "value": value, "note": assumption.note}


@cache
def write_source(key: str) -> dict[str, str]:
    """Write one source by its key."""
    return {"label": SOURCES[key].label, "clause": SOURCES[key].clause}


@cache
def write_caution(code: str) -> dict[str, str]:
    """Write one caution by its code."""
    return {"code": code, "message": CAUTIONS[code]}


def compile_answer_writer(envelope: Envelope) -> dict[str, Callable[[Answer[Any]], dict[str, Any]]]:
    """Make the functions that write a whole answer, by unit system.

    Parameters
    ----------
    envelope : Envelope
        Instance of an envelope class of `answer_of`.

    Returns
    -------
    dict
        ``us`` and ``si`` to a function from `Answer` to the envelope of the contract.
    """

    results: Part = envelope.fields["results"]  # type: ignore[assignment]

    def for_system(system: str) -> Callable[[Answer[Any]], dict[str, Any]]:
        write_results = compile_writer(results.schema, system)

        def write(answer: Answer[Any]) -> dict[str, Any]:
            return {
                "verdict": answer.verdict,
                "results": write_results(answer.results),
                "findings": [write_finding(finding, system) for finding in answer.ordered()],
                "assumptions": [write_assumption(assumption, system) for assumption in answer.assumptions],
                "cautions": [write_caution(code) for code in answer.cautions],
                "sources": [write_source(key) for key in answer.sources],
            }

        return write

    return {system: for_system(system) for system in SYSTEMS}
