"""Reads a request written as CSV (RFC 4180): settings, an empty line, a header line, then a line for each row.

What comes out is the object that the same request has as JSON, and where each part of it stands, so that the one
schema judges both and a fault is told by its line. Nothing here interprets a text: names are looked up, and numbers
are those of JSON, give or take a sign or a leading zero.
"""

import csv
import difflib
import io
import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from datetime import datetime, timedelta
from typing import Any

from service.errors import ServiceError
from service.schemas.columns import LAST_YEAR, MOST_FAULTS, NumberColumn, QuantityColumn, local_time
from service.schemas.fields import LONGEST_ECHO, Flag, Number, Part, Quantity, Whole, echo
from service.schemas.payload import CLOSEST, MOST_HINTS, Payload

TIME = "time"
"""The column that may stand for the settings ``start`` and ``step``."""

MOST_SETTINGS = 100
"""Lines before the empty line; there are not as many settings, so with more the empty line is missing."""

MOST_OTHER_LINES = 1000
"""Lines that are no rows: settings, empty lines, line ends inside quotes."""

MOST_COLUMNS = 50
"""Cells of a header line, those of unknown columns included."""

_NUMBER = re.compile(r"[+-]?(?:[0-9]+(?:\.[0-9]*)?|\.[0-9]+)(?:[eE][+-]?[0-9]+)?")
_NUMERALS = frozenset("0123456789+-.eE ")
_TIMERALS = frozenset("0123456789-:T")
_FLAGS = {"true": True, "false": False}


class MalformedTable(ServiceError):
    """A text in which there is no table to be found; the message says why."""


@dataclass(frozen=True, kw_only=True, slots=True)
class Table:
    """How a request is written as CSV.

    Parameters
    ----------
    description : str
        Its lines, for the document.
    columns : mapping of str to str
        Pointer in the JSON object of each column there may be, by the column's name.
    examples : mapping
        Worked requests: name to ``{"summary": ..., "value": text}``.
    """

    description: str
    columns: Mapping[str, str]
    examples: Mapping[str, Any]

    def media_type(self) -> dict[str, Any]:
        """The entry of the document."""
        schema = {"type": "string", "minLength": 1, "description": self.description}
        return {"schema": schema, "examples": {name: dict(example) for name, example in self.examples.items()}}


@dataclass(frozen=True, slots=True)
class Fault:
    """What is wrong in the text itself.

    Parameters
    ----------
    line : int
        Line of the text, from 1.
    column : str
        Name of the column, or empty.
    detail : str
        What was received and what is allowed.
    """

    line: int
    column: str
    detail: str


@dataclass(slots=True)
class TableRequest:
    """A request read from CSV.

    Parameters
    ----------
    value : dict
        The object the same request has as JSON.
    faults : list of Fault
        What is wrong in the text itself.
    places : dict
        Line and column of each setting, or of the cell that stands for it, by its pointer in the object.
    columns : dict
        Name of each column, by its pointer in the object.
    header_line : int
    row_lines : list of int
        Line of each row.
    """

    value: dict[str, Any] = field(default_factory=dict)
    faults: list[Fault] = field(default_factory=list)
    places: dict[str, tuple[int, str]] = field(default_factory=dict)
    columns: dict[str, str] = field(default_factory=dict)
    header_line: int = 0
    row_lines: list[int] = field(default_factory=list)

    def fault(self, line: int, column: str, detail: str) -> None:
        """Note a fault; after `MOST_FAULTS` nobody reads on."""
        if len(self.faults) < MOST_FAULTS:
            self.faults.append(Fault(line, column, detail))

    def place(self, pointer: str) -> tuple[int, str] | None:
        """Line and column of what a pointer into the object names, or None where it stands nowhere."""
        for start, name in self.columns.items():
            if pointer == start or pointer.startswith(start + "/"):
                index = pointer[len(start) :].rpartition("/")[2]
                known = index.isdecimal() and int(index) < len(self.row_lines)
                return (self.row_lines[int(index)] if known else self.header_line, name)
        at = pointer
        while at:
            if at in self.places:
                return self.places[at]
            at = at.rpartition("/")[0]
        inside = [place for start, place in self.places.items() if start.startswith(pointer + "/")]
        return min(inside) if pointer and inside else None

    def put(self, pointer: str, value: Any) -> None:
        """Put a value into the object."""
        *above, name = pointer.split("/")[1:]
        inner = self.value
        for token in above:
            inner = inner.setdefault(token, {})
        inner[name] = value


def read_table(text: str, payload: Payload, columns: Mapping[str, str]) -> TableRequest:
    """Read a request from CSV.

    Parameters
    ----------
    text : str
        The whole text.
    payload : Payload
        Instance that will load the object; its members are the settings, those of a part after a dot.
    columns : mapping of str to str
        Pointer in the object of each column there may be, by the column's name.

    Returns
    -------
    TableRequest

    Raises
    ------
    MalformedTable
        Where there is no table to be found.
    """
    request = TableRequest()
    most = max(_member(payload, pointer).most for pointer in columns.values())
    settings, header, rows = _split(text, request, most)
    known = _settings_of(payload)
    for line, cells in settings:
        _read_setting(request, line, cells, known)
    _read_columns(request, header, rows, payload, columns)
    return request


def _split(
    text: str, request: TableRequest, most: int
) -> tuple[list[tuple[int, list[str]]], list[str], list[list[str]]]:
    """The settings with their lines, the header's cells, the rows."""
    settings: list[tuple[int, list[str]]] = []
    header: list[str] = []
    rows: list[list[str]] = []
    reader = csv.reader(io.StringIO(text.removeprefix("\ufeff"), newline=""), strict=True)
    line, part, blank = 1, "settings", 0
    try:
        for cells in reader:
            begins, line = line, reader.line_num + 1
            if line > most + MOST_OTHER_LINES:
                raise MalformedTable(f"The body has more than {most + MOST_OTHER_LINES} lines.")
            if not (cells and cells[0].strip()) and not "".join(cells).strip():
                blank = begins
                if part == "settings":
                    part = "header"
                continue
            if part == "settings":
                settings.append((begins, [cell.strip() for cell in cells]))
                if len(settings) > MOST_SETTINGS:
                    raise MalformedTable(f"There is no empty line after {MOST_SETTINGS} lines; one ends the settings.")
            elif part == "header":
                header, part = [cell.strip() for cell in cells], "rows"
                request.header_line = begins
            else:
                if request.header_line < blank < begins:
                    request.fault(blank, "", "An empty line between the rows.")
                    blank = 0
                rows.append(cells)
                request.row_lines.append(begins)
                if len(rows) > most:
                    raise MalformedTable(f"The table has more than {most} rows.")
    except csv.Error as error:
        raise MalformedTable(f"The body is not CSV: {error} at line {reader.line_num}.") from None
    while header and not header[-1]:
        header.pop()
    if len(header) > MOST_COLUMNS:
        raise MalformedTable(f"The header line has {len(header)} cells; allowed 1 to {MOST_COLUMNS}.")
    if not header or not rows:
        missing = "header line" if not header else "line of values"
        raise MalformedTable(
            f"The body has no {missing}: send settings, an empty line, a header line, then a line for each row."
        )
    return settings, header, rows


def _settings_of(payload: Payload, prefix: str = "") -> dict[str, Any]:
    """Every setting there may be: dotted name to its field."""
    known: dict[str, Any] = {}
    for name, member in payload.load_fields.items():
        if isinstance(member, Part):
            known |= _settings_of(member.schema, f"{prefix}{name}.")  # type: ignore[arg-type]
        elif not isinstance(member, QuantityColumn) and (not prefix or not isinstance(member, NumberColumn)):
            known[prefix + name] = member
    return known


def _read_setting(request: TableRequest, line: int, cells: list[str], known: Mapping[str, Any]) -> None:
    while cells and not cells[-1]:
        cells.pop()
    name, *values = cells
    member = known.get(name)
    pointer = "/" + name.replace(".", "/")
    if member is None:
        hint = _hint(name, known, len(request.faults))
        request.fault(line, "", f'Unknown setting "{name[:LONGEST_ECHO]}"{hint}')
        return
    if pointer in request.places:
        request.fault(line, "", f"The setting {name} stands twice, first in line {request.places[pointer][0]}.")
        return
    request.places[pointer] = (line, "")
    most = 2 if isinstance(member, Quantity) else 1
    if not 1 <= len(values) <= most:
        form = "name, number, unit" if most == 2 else "name, value"
        request.fault(line, "", f"Received {len(values)} values for {name}; a line of it holds {form}.")
    if not values:
        return
    if isinstance(member, Quantity):
        quantity: dict[str, Any] = {"value": _number_or_text(values[0])}
        request.put(pointer, quantity | ({"unit": values[1]} if len(values) > 1 else {}))
    elif isinstance(member, NumberColumn):
        request.put(pointer, [_number_or_text(values[0])])
    elif isinstance(member, (Number, Whole)):
        request.put(pointer, _number_or_text(values[0]))
    elif isinstance(member, Flag):
        request.put(pointer, _FLAGS.get(values[0], values[0]))
    else:
        request.put(pointer, values[0])


def _read_columns(
    request: TableRequest, header: list[str], rows: list[list[str]], payload: Payload, columns: Mapping[str, str]
) -> None:
    width = len(header)
    for line, cells in zip(request.row_lines, rows, strict=True):
        if len(cells) != width:
            if any(cell and not cell.isspace() for cell in cells[width:]):
                request.fault(line, "", f"Received {len(cells)} cells; the header has {width}.")
            cells[:] = (cells + [""] * width)[:width]
    seen: set[str] = set()
    for cell, values in zip(header, zip(*rows, strict=True), strict=True):
        name, _, unit = cell.partition(" ")
        if name in seen:
            request.fault(request.header_line, name, f"The column {name[:LONGEST_ECHO]} stands twice.")
            continue
        seen.add(name)
        if name == TIME:
            _read_times(request, values)
            continue
        if name not in columns:
            hint = _hint(name, [TIME, *columns], len(request.faults))
            request.fault(request.header_line, "", f'Unknown column "{name[:LONGEST_ECHO]}"{hint}')
            continue
        pointer = columns[name]
        if pointer in request.places:
            line = request.places[pointer][0]
            request.fault(request.header_line, name, f"{name} is a setting too, in line {line}; give one of them.")
        request.columns[pointer] = name
        numbers = _numbers(values)
        if isinstance(_member(payload, pointer), QuantityColumn):
            request.put(pointer, {"values": numbers} | ({"unit": unit.strip()} if unit else {}))
        else:
            if unit:
                request.fault(request.header_line, name, f"{name} is a plain number; leave the unit out.")
            request.put(pointer, numbers)


def _member(payload: Payload, pointer: str) -> Any:
    *above, name = pointer.split("/")[1:]
    for token in above:
        payload = payload.load_fields[token].schema  # type: ignore[attr-defined]
    return payload.load_fields[name]


def _read_times(request: TableRequest, values: Sequence[str]) -> None:
    """Turn a column of times into ``start`` and ``step``; what does not follow on is a fault."""
    told = {"/start": request.row_lines[0]} | ({"/step": request.row_lines[1]} if len(values) > 1 else {})
    for pointer, line in told.items():
        if pointer in request.places:
            request.fault(
                request.places[pointer][0], "", f"The time column tells {pointer[1:]}; leave this setting out."
            )
        request.places[pointer] = (line, TIME)
    texts = [value.strip().replace(" ", "T") for value in values]
    start = local_time(texts[0])
    second = local_time(texts[1]) if len(texts) > 1 else None
    request.put("/start", texts[0])
    if start is None:
        return
    if second is None:
        if len(texts) > 1:
            request.fault(
                request.row_lines[1], TIME, f"Received {echo(values[1])}; expected a time as 2026-07-14T15:00."
            )
        return
    step = second - start
    if step <= timedelta(0):
        request.fault(request.row_lines[1], TIME, f"{texts[1]} does not come after {texts[0]}.")
        return
    request.put("/step", {"value": step.total_seconds(), "unit": "s"})
    expected = start
    plain = set(map(len, texts)) == {len(texts[0])} and _TIMERALS.issuperset("".join(texts))
    for row, text in enumerate(texts):
        if not (plain and _is(text, expected)) and local_time(text) != expected:
            due = expected.isoformat(timespec="seconds" if expected.second else "minutes")
            request.fault(
                request.row_lines[row],
                TIME,
                f"Received {echo(values[row])}; expected {due}: rows follow each other by the step of the first two, "
                "in local standard time, without a gap.",
            )
            return
        expected += step


def _is(text: str, expected: datetime) -> bool:
    """Whether a text of digits and marks, as long as one that `LOCAL_TIME` allows, is the time expected; quickly."""
    try:
        return datetime.fromisoformat(text) == expected and expected.year <= LAST_YEAR
    except ValueError:
        return False


def _numbers(values: Sequence[str]) -> list[Any]:
    """The cells as numbers; what is none stays a text, for the schema to refuse."""
    if _NUMERALS.issuperset("".join(values)):
        try:
            return list(map(float, values))
        except ValueError:
            pass
    return [_number_or_text(value) for value in values]


def _number_or_text(cell: str) -> float | str:
    text = cell.strip(" ")
    return float(text) if _NUMBER.fullmatch(text) else text


def _hint(name: str, known: Any, so_far: int) -> str:
    near = (
        difflib.get_close_matches(name[:LONGEST_ECHO], list(known), n=1, cutoff=CLOSEST) if so_far < MOST_HINTS else []
    )
    return f'; did you mean "{near[0]}"?' if near else f"; known: {', '.join(known)}."
