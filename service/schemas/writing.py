"""Turns frozen results into JSON-ready objects, in the caller's unit system and language.

A results schema describes the payload in the document and, compiled here once, writes it:
one closure an object, no reflection per request. ``tests/contract`` proves that what is
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
from service.schemas.fields import Choice, Flag, Outline, Part, Quantity, Rows, Sentence, Text, Whole, Wording
from service.schemas.payload import Payload
from service.tables.cautions import CAUTIONS
from service.tables.findings.catalogue import FINDINGS
from service.tables.languages import AND, AS_SENT, ENGLISH, said
from service.tables.sources import SOURCES
from service.units import SYMBOLS, SYSTEMS, displayer, plain

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
    return lambda sentence: None if sentence is None else fill(sentence.text, sentence.values, system, language)


def _wording_writer(language: str) -> Writer:
    return lambda text: None if text is None else said(text, language)


def _rows_writer(row: Writer | None, nullable: bool) -> Writer:
    if row is None:
        return (lambda values: None if values is None else list(values)) if nullable else list
    return lambda values: None if values is None else [row(value) for value in values]


def _field_writer(field: Any, system: str, language: str) -> Writer | None:
    """Make the function that writes a member, or None where it is written as it is."""
    if type(field) in (Text, Choice, Flag, Whole) or (type(field) is Wording and language == ENGLISH):
        return None
    if isinstance(field, Rows):
        return _rows_writer(_field_writer(field.inner, system, language), field.nullable)
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
    if isinstance(field, Part):
        if isinstance(field.schema, FindingPayload):
            return lambda finding: None if finding is None else write_finding(finding, system, language)
        own: Writer | None = cast(Payload, field.schema).own_writer(system, language)
        if own:
            return own
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
    blank = dict.fromkeys(schema.fields)
    units = {name: SYMBOLS[getattr(field, system)] for name, field in schema.fields.items() if type(field) is Quantity}
    quantities = tuple((name, unit.symbol, unit.factor, unit.offset) for name, unit in units.items())
    writers = {name: _field_writer(field, system, language) for name, field in schema.fields.items()}
    as_is = tuple(name for name, writer in writers.items() if writer is None)
    others = tuple((name, writer) for name, writer in writers.items() if writer and name not in units)

    def write(results: Any) -> Any:
        if results is None:
            return None
        written: dict[str, Any] = blank.copy()  # with the members in their order
        for name in as_is:
            written[name] = getattr(results, name)
        for name, symbol, factor, offset in quantities:  # as `quantity_writer`, without a call for each
            value = getattr(results, name)
            if value is not None:
                number = value / factor - offset + 0.0
                if number - number != 0.0:
                    raise NotFinite(f"{value} as {symbol}")
                written[name] = {"value": number, "unit": symbol}
        for name, writer in others:
            written[name] = writer(getattr(results, name))
        return written

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


@cache
def filler(text: str, system: str, language: str) -> Callable[[Mapping[str, Value]], str]:
    """Make the function that fills a template with its values, as `fill` does."""
    parts = _template(text, system, language)
    form = "".join(literal.replace("%", "%%") + ("%s" if name else "") for literal, name, _ in parts)
    writers = [(name, _value_writer(name, symbol, system, language)) for _, name, symbol in parts if name]
    if not writers:
        whole = form % ()
        return lambda values: whole
    if len(writers) == 1:
        only, write_only = writers[0]
        return lambda values: form % write_only(values[only])
    return lambda values: form % tuple([write(values[name]) for name, write in writers])


def _value_writer(name: str, symbol: str, system: str, language: str) -> Writer:
    """Make the function that writes a value in a sentence: a quantity, a number, or words."""
    if symbol:
        return displayer(symbol)
    as_sent = name in AS_SENT

    def write(value: Value) -> str:
        if isinstance(value, (float, int)):
            return plain(value)
        return value if as_sent and type(value) is str else _say(value, system, language)

    return write


def fill(text: str, values: Mapping[str, Value], system: str, language: str = ENGLISH) -> str:
    """Fill a template with its numbers, in the units of ``system``, and say it in ``language``.

    Examples
    --------
    >>> fill("The drop is {drop:in|mm}.", {"drop": 0.0254}, "us")
    'The drop is 1 in.'
    >>> fill("The drop is {drop:in|mm}.", {"drop": 0.0254}, "si")
    'The drop is 25.4 mm.'
    """
    return filler(text, system, language)(values)


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


@cache
def _finding_writer(code: str, system: str, language: str) -> Callable[[Finding], dict[str, Any]]:
    row = FINDINGS[code]
    message, remedy = (filler(text, system, language) for text in (row.message, row.remedy))
    severity, basis = row.severity, said(row.basis, language)
    return lambda finding: {
        "code": code,
        "severity": severity,
        "message": message(finding.values),
        "remedy": remedy(finding.values),
        "pointer": finding.pointer,
        "basis": basis,
    }


def write_finding(finding: Finding, system: str, language: str = ENGLISH) -> dict[str, Any]:
    """Write one finding with its message and remedy composed."""
    return _finding_writer(finding.code, system, language)(finding)


@cache
def _assumed_writer(symbols: str | None, system: str, language: str) -> Writer:
    """Make the function that writes the value of an assumption."""
    if symbols:
        return quantity_writer(_symbol(symbols, system))
    return lambda value: _say(value, system, language) if isinstance(value, Said) else _same(value)


def write_assumption(assumption: Assumption, system: str, language: str = ENGLISH) -> dict[str, Any]:
    """Write one assumption; a quantity in the units of ``system``."""
    return {
        "pointer": assumption.pointer,
        "value": _assumed_writer(assumption.symbols, system, language)(assumption.value),
        "note": _say(assumption.note, system, language),
    }


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
