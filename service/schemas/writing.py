"""Turns frozen results into JSON-ready objects, in the caller's unit system and language.

A results schema describes the payload in the document and, compiled here once, writes it:
one closure a field, no reflection per request. ``tests/contract`` proves that what is
written is what the document describes.
"""

import string
from collections.abc import Callable, Mapping, Sequence
from functools import cache
from typing import Any, cast

from service.calculations.answer import Answer, Assumption, Finding, Value
from service.calculations.answer import Sentence as Said
from service.errors import ServiceError
from service.schemas.columns import QuantityColumn
from service.schemas.envelope import Envelope
from service.schemas.envelope import Finding as FindingPayload
from service.schemas.fields import Outline, Part, Quantity, Rows, Sentence, Wording
from service.tables.cautions import CAUTIONS
from service.tables.findings.catalogue import FINDINGS
from service.tables.languages import AND, AS_SENT, ENGLISH, said
from service.tables.sources import SOURCES
from service.units import SYMBOLS, SYSTEMS, display, plain

Writer = Callable[[Any], Any]


class NotFinite(ServiceError):
    """A calculation produced a number JSON cannot carry: a fault of ours, never written."""


def _same(value: Any) -> Any:
    if isinstance(value, float):
        if value - value != 0.0:
            raise NotFinite(str(value))
        return value + 0.0
    return value


@cache
def quantity_writer(symbol: str) -> Writer:
    """Make the function that writes an SI float, or None, as ``{"value", "unit"}``."""
    factor, offset = SYMBOLS[symbol].factor, SYMBOLS[symbol].offset

    def write(value: float | None) -> Any:
        if value is None:
            return None
        written = value / factor - offset + 0.0
        if written - written != 0.0:
            raise NotFinite(f"{value} as {symbol}")
        return {"value": written, "unit": symbol}

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


def _sentence_writer(system: str, language: str) -> Writer:
    def write(sentence: Any) -> Any:
        return None if sentence is None else fill(sentence.text, sentence.values, system, language)

    return write


def _wording_writer(language: str) -> Writer:
    return lambda text: None if text is None else said(text, language)


def _rows_writer(row: Writer) -> Writer:
    def write(values: Any) -> Any:
        return None if values is None else [row(value) for value in values]

    return write


def _field_writer(field: Any, system: str, language: str) -> Writer:
    if isinstance(field, Quantity):
        return quantity_writer(getattr(field, system))
    if isinstance(field, QuantityColumn):
        return _column_writer(getattr(field, system))
    if isinstance(field, Sentence):
        return _sentence_writer(system, language)
    if isinstance(field, Outline):
        return lambda text: outline(text, system, language)
    if isinstance(field, Wording) and language != ENGLISH:
        return _wording_writer(language)
    if isinstance(field, Rows):
        return _rows_writer(_field_writer(field.inner, system, language))
    if isinstance(field, Part):
        if isinstance(field.schema, FindingPayload):
            return lambda finding: None if finding is None else write_finding(finding, system, language)
        return compile_writer(field.schema, system, language)
    return _same


def compile_writer(schema: Any, system: str, language: str = ENGLISH) -> Writer:
    """Make the function that writes a results dataclass as ``schema`` describes it.

    Parameters
    ----------
    schema : Payload
        An instance whose fields are named as the dataclass's attributes.
    system : str
        ``us`` or ``si``.
    language : str
        One of `service.tables.languages.LANGUAGES`.

    Returns
    -------
    callable
        Results (or None) to a JSON-ready dict (or None).
    """
    if isinstance(schema, Envelope):
        write_answer = compile_answer_writer(schema, system, language)
        return lambda answer: None if answer is None else write_answer(answer)
    plan = tuple((name, _field_writer(field, system, language)) for name, field in schema.fields.items())

    def write(results: Any) -> Any:
        if results is None:
            return None
        return {name: writer(getattr(results, name)) for name, writer in plan}

    return write


@cache
def _symbol(symbols: str, system: str) -> str:
    """Of ``in|mm``, or one symbol for both, the one of a system."""
    words = symbols.split("|")
    return words[SYSTEMS.index(system) % len(words)]


@cache
def _template(text: str, system: str, language: str) -> tuple[tuple[str, str | None, str], ...]:
    """Split a template, said in a language, into (literal, value name, unit symbol)."""
    parts = string.Formatter().parse(said(text, language))
    return tuple((literal, name, _symbol(symbols, system) if symbols else "") for literal, name, symbols, _ in parts)


def fill(text: str, values: Mapping[str, Value], system: str, language: str = ENGLISH) -> str:
    """Fill a template with its numbers, in the units of ``system``, and say it in ``language``.

    Examples
    --------
    >>> fill("The drop is {drop:in|mm}.", {"drop": 0.0254}, "us")
    'The drop is 1 in.'
    >>> fill("The drop is {drop:in|mm}.", {"drop": 0.0254}, "si")
    'The drop is 25.4 mm.'
    """
    words = []
    for literal, name, symbol in _template(text, system, language):
        words.append(literal)
        if name is not None:
            value = values[name]
            if symbol:
                words.append(display(float(cast(float, value)), symbol))
            elif isinstance(value, (float, int)):
                words.append(plain(value))
            else:
                words.append(value if type(value) is str and name in AS_SENT else _say(value, system, language))
    return "".join(words)


def outline(text: str, system: str, language: str = ENGLISH) -> str:
    """A template as people read it: … for each number, with its unit, and for each word.

    Examples
    --------
    >>> outline("The drop of {name} is {drop:in|mm}.", "si")
    'The drop of … is … mm.'
    """
    words = []
    for literal, name, symbol in _template(text, system, language):
        words.append(literal)
        if name is not None:
            words.append(f"… {symbol}" if symbol else "…")
    return "".join(words)


def _say(value: Value, system: str, language: str) -> str:
    """A word, a clause with numbers of its own, or several of these as a list."""
    if isinstance(value, str):
        return said(value, language)
    if isinstance(value, Said):
        return fill(value.text, value.values, system, language)
    words = [_say(word, system, language) for word in cast(Sequence[Value], value)]
    return AND[language].join((", ".join(words[:-1]), words[-1])) if len(words) > 1 else "".join(words)


def write_finding(finding: Finding, system: str, language: str = ENGLISH) -> dict[str, Any]:
    """Write one finding with its message and remedy composed."""
    row = FINDINGS[finding.code]
    return {
        "code": row.code,
        "severity": row.severity,
        "message": fill(row.message, finding.values, system, language),
        "remedy": fill(row.remedy, finding.values, system, language),
        "pointer": finding.pointer,
        "basis": said(row.basis, language),
    }


def write_assumption(assumption: Assumption, system: str, language: str = ENGLISH) -> dict[str, Any]:
    """Write one assumption; a quantity in the units of ``system``."""
    value: Any = assumption.value
    if assumption.symbols:
        value = quantity_writer(_symbol(assumption.symbols, system))(float(value))
    elif isinstance(value, Said):
        value = _say(value, system, language)
    return {"pointer": assumption.pointer, "value": _same(value), "note": _say(assumption.note, system, language)}


@cache
def write_source(key: str, language: str = ENGLISH) -> dict[str, str]:
    """Write one source by its key."""
    return {"label": said(SOURCES[key].label, language), "clause": said(SOURCES[key].clause, language)}


@cache
def write_caution(code: str, language: str = ENGLISH) -> dict[str, str]:
    """Write one caution by its code."""
    return {"code": code, "message": said(CAUTIONS[code], language)}


def compile_answer_writer(envelope: Envelope, system: str, language: str = ENGLISH) -> Callable[[Answer[Any]], Any]:
    """Make the function that writes a whole answer.

    Parameters
    ----------
    envelope : Envelope
        Instance of an envelope class of `answer_of`.
    system : str
        ``us`` or ``si``.
    language : str
        One of `service.tables.languages.LANGUAGES`.

    Returns
    -------
    callable
        `Answer` to the envelope of the contract.
    """
    results: Part = envelope.fields["results"]  # type: ignore[assignment]
    write_results = compile_writer(results.schema, system, language)

    def write(answer: Answer[Any]) -> dict[str, Any]:
        return {
            "verdict": answer.verdict,
            "results": write_results(answer.results),
            "findings": [write_finding(finding, system, language) for finding in answer.ordered()],
            "assumptions": [write_assumption(assumption, system, language) for assumption in answer.assumptions],
            "cautions": [write_caution(code, language) for code in answer.cautions],
            "sources": [write_source(key, language) for key in answer.sources],
        }

    return write
