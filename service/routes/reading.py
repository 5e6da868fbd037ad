"""Reads a request strictly: query, media type, size, JSON, and the schema.

A plain body is parsed by orjson. Any other goes to the standard library's parser, the one that lets duplicate keys be
seen; what that accepts beyond RFC 8259 and RFC 7493 (NaN, duplicate keys, lone surrogates, numbers beyond a double) is
refused here, and told.
"""

import json
import math
import re
from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from itertools import islice
from types import MappingProxyType
from typing import Any, NoReturn

import orjson
from flask import Request
from marshmallow import ValidationError
from werkzeug.exceptions import HTTPException
from werkzeug.wsgi import get_content_length

from service.routes.problems import Problem
from service.routes.room import LARGE_BODY, make_room
from service.schemas.payload import Payload
from service.schemas.table_text import MalformedTable, TableRequest, read_table
from service.units import SYSTEMS

_SURROGATE = re.compile(rb"\\u[dD][89a-fA-F]")
_MEDIA_TYPE = "application/json"
TABLE_TYPE = "text/csv"

MOST_TOLD = 500
"""Faults named in one problem; the others are counted."""

BYTES_A_VALUE = 32
"""Of a large body, the fewest bytes of the body limit for each value in it: in memory a value takes up to 240."""

_VALUE_OR_TEXT = re.compile(rb'[,{\[]|"[^"\\]*(?:\\.[^"\\]*)*"?', re.DOTALL)


class _Refused(ValueError):
    """The body is JSON in form but not in the dialect accepted."""


def _object(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    members = dict(pairs)
    if len(members) != len(pairs):
        counts = Counter(name for name, _ in pairs)
        twice = next(name for name, count in counts.items() if count > 1)
        raise _Refused(f'The member "{twice[:60]}" stands twice in one object.')
    return members


def _constant(text: str) -> NoReturn:
    raise _Refused(f"{text} is not a JSON number.")


def _float(text: str) -> float:
    value = float(text)
    if math.isinf(value):
        raise _Refused(f"The number {text[:40]} is too large.")
    return value


_decode = json.JSONDecoder(object_pairs_hook=_object, parse_constant=_constant, parse_float=_float).decode


_ZEROS = bytes.maketrans(b"123456789", b"000000000")
_LONG = b"0" * 19  # digits of an integer that may be beyond 64 bits, which orjson would round


def _parse_plain(raw: bytes) -> Any:
    """Parse what holds no escape, no duplicate key and no long number, or raise ``ValueError`` or ``TypeError``."""
    if b"\\" in raw or _LONG in raw.translate(_ZEROS):
        raise ValueError
    value = orjson.loads(raw)
    # orjson keeps one of two members with the same name; without escapes, every other colon is written back
    if orjson.dumps(value).count(b":") != raw.count(b":"):
        raise ValueError
    return value


def _strings(value: Any) -> Iterator[str]:
    if isinstance(value, str):
        yield value
    elif isinstance(value, dict):
        yield from value
        for member in value.values():
            yield from _strings(member)
    elif isinstance(value, list):
        for element in value:
            yield from _strings(element)


def _parse_strictly(raw: bytes, what: str) -> Any:
    if not raw.strip():
        raise Problem("malformed-body", detail=f"The {what} is empty; a JSON object is expected.")
    try:
        value = _decode(raw.decode("utf-8"))
        if _SURROGATE.search(raw):
            for text in _strings(value):
                text.encode("utf-8")
    except _Refused as fault:
        raise Problem("malformed-body", detail=str(fault)) from None
    except UnicodeDecodeError as fault:
        raise Problem("malformed-body", detail=f"The {what} is not UTF-8 text (byte {fault.start}).") from None
    except UnicodeEncodeError:
        raise Problem("malformed-body", detail="A text holds half of a surrogate pair.") from None
    except json.JSONDecodeError as fault:
        place = f"line {fault.lineno}, column {fault.colno}" if what == "body" else f"column {fault.colno}"
        detail = f"The {what} is not JSON: {fault.msg.removesuffix(' at')} at {place}."
        raise Problem("malformed-body", detail=detail) from None
    except RecursionError:
        raise Problem("malformed-body", detail=f"The {what} is nested too deeply.") from None
    except ValueError:  # an integer of thousands of digits
        raise Problem("malformed-body", detail="A number has too many digits.") from None
    return value


def parse(raw: bytes, what: str = "body") -> Any:
    """Parse a body, or a line of one, as I-JSON (RFC 7493), or raise `Problem` 400 saying why not."""
    try:
        return _parse_plain(raw)
    except (ValueError, TypeError):
        return _parse_strictly(raw, what)


def check_body_type(request: Request, accepted: Sequence[str]) -> None:
    """Raise `Problem` 415 unless the body is of one of the media types, in UTF-8 and not compressed."""
    if request.environ.get("CONTENT_TYPE") == accepted[0] and "HTTP_CONTENT_ENCODING" not in request.environ:
        return  # as nearly all are sent
    if request.mimetype not in accepted or request.mimetype_params.get("charset", "utf-8").lower() != "utf-8":
        received = f'"{request.content_type[:60]}"' if request.content_type else "no Content-Type"
        raise Problem(
            "unsupported-media-type",
            detail=f"Received {received}; send Content-Type: {' or '.join(accepted)} in UTF-8.",
            headers={"Accept": ", ".join(accepted)},
        )
    if request.headers.get("Content-Encoding", "identity").lower() != "identity":
        raise Problem("unsupported-media-type", detail="A compressed body is not accepted; send it as it is.")


def _raw_body(request: Request, body_limit: int, accepted: Sequence[str]) -> bytes:
    check_body_type(request, accepted)
    announced = get_content_length(request.environ) or 0
    try:
        if announced:
            raw = b"" if announced > body_limit else request.environ["wsgi.input"].read(announced)
        else:
            # one byte more than allowed is read, so that a chunked body at the limit is told from one beyond it
            request.max_content_length = body_limit + 1
            raw = request.get_data(cache=False)
    except HTTPException:
        raise
    except Exception:  # a server's chunk reader raises exceptions of its own; reading runs no code of ours
        raise Problem("bad-request", detail="The chunks of the body are broken or end early.") from None
    if announced > body_limit or len(raw) > body_limit:
        raise Problem("body-too-large", detail=f"The body is larger than {body_limit} bytes.")
    if len(raw) < announced:
        raise Problem("bad-request", detail=f"The body ended after {len(raw)} of {announced} bytes.")
    return raw


def _check_values(raw: bytes, most: int) -> None:
    """Raise `Problem` 413 where there are more values than any body that its schema allows may have."""
    if sum(map(raw.count, (b",", b"{", b"["))) > most:
        marks = (found for found in _VALUE_OR_TEXT.finditer(raw) if found[0][:1] != b'"')
        if next(islice(marks, most, None), None):
            raise Problem("body-too-large", detail=f"The body holds more than {most} values.")


def _table(raw: bytes, schema: Payload, columns: Mapping[str, str]) -> TableRequest:
    """A body in CSV, or `Problem` 400 saying why there is none."""
    if not raw.strip():
        raise Problem("malformed-body", detail="The body is empty; a table is expected.")
    try:
        return read_table(raw.decode("utf-8"), schema, columns)
    except UnicodeDecodeError as fault:
        raise Problem("malformed-body", detail=f"The body is not UTF-8 text (byte {fault.start}).") from None
    except MalformedTable as fault:
        raise Problem("malformed-body", detail=str(fault)) from None


def _faults_of_table(table: TableRequest, error: ValidationError | None) -> Iterator[dict[str, Any]]:
    """Every fault of a table with its line, and its column where it is in one."""
    for fault in table.faults:
        yield _in_line(fault.line, fault.column, fault.detail)
    for named in _walk(error.messages, "") if error else ():
        place = table.place(named["pointer"])
        yield {"pointer": named["pointer"], **(_in_line(*place, named["detail"]) if place else named)}


def _in_line(line: int, column: str, detail: str) -> dict[str, Any]:
    where = f"Line {line}, {column}" if column else f"Line {line}"
    return {"line": line, **({"column": column} if column else {}), "detail": f"{where}: {detail}"}


def _walk(messages: Any, pointer: str) -> Iterator[dict[str, str]]:
    """Flatten marshmallow's messages into RFC 6901 pointers."""
    if isinstance(messages, dict):
        for key, inner in messages.items():
            name = key[0] if isinstance(key, tuple) else str(key)
            token = name.replace("~", "~0").replace("/", "~1")
            yield from _walk(inner, pointer if key == "_schema" else f"{pointer}/{token}")
    elif isinstance(messages, list):
        for message in messages:
            yield from _walk(message, pointer)
    else:
        yield {"pointer": pointer, "detail": str(messages)}


def query_faults(request: Request, texts: Mapping[str, int] = MappingProxyType({})) -> list[dict[str, str]]:
    """Name what is wrong with the query string.

    Parameters
    ----------
    request : flask.Request
    texts : mapping
        Parameters there are beside ``units``: most characters of each, by its name.
    """
    faults = []
    for name, values in request.args.lists():
        if name != "units" and name not in texts:
            known = ", ".join(("units", *texts))
            faults.append({"parameter": name[:60], "detail": f'Unknown query parameter "{name[:60]}"; known: {known}.'})
        elif len(values) > 1:
            faults.append({"parameter": name, "detail": f"The query parameter {name} stands more than once."})
        elif name in texts:
            if len(values[0]) > texts[name]:
                detail = f"Received {len(values[0])} characters; allowed 0 to {texts[name]}."
                faults.append({"parameter": name, "detail": detail})
        elif values[0] not in SYSTEMS:
            received = values[0][:60]
            faults.append({"parameter": name, "detail": f'Received "{received}"; allowed: {", ".join(SYSTEMS)}.'})
    return faults


def unit_system(request: Request) -> str:
    """The unit system asked for, ``us`` unless the query says ``si``; `query_faults` has passed."""
    return request.args.get("units", SYSTEMS[0]) if request.environ.get("QUERY_STRING") else SYSTEMS[0]


def read(
    request: Request,
    schema: Payload,
    body_limit: int,
    columns: Mapping[str, str] | None = None,
    accepted: Sequence[str] = (_MEDIA_TYPE,),
) -> Any:
    """Read a request's body through its schema.

    Parameters
    ----------
    request : flask.Request
    schema : Payload
        Instance that loads the body.
    body_limit : int
        Most bytes of the body.
    columns : mapping or None
        Where the body may be CSV too: pointer of each column, by its name.
    accepted : sequence of str
        Media types to name where the body's is none that is read.

    Returns
    -------
    dict or dataclass
        What the schema makes of it, SI inside.

    Raises
    ------
    Problem
        400 naming every fault of query and body, 413 or 415.
    """
    faults: list[dict[str, Any]] = list(query_faults(request)) if request.environ.get("QUERY_STRING") else []
    raw = _raw_body(request, body_limit, accepted if columns is None else (_MEDIA_TYPE, TABLE_TYPE))
    if len(raw) > LARGE_BODY:
        make_room(len(raw))
        _check_values(raw, body_limit // BYTES_A_VALUE)
    table = _table(raw, schema, columns) if columns is not None and request.mimetype == TABLE_TYPE else None
    value = parse(raw) if table is None else table.value
    del raw
    loaded, error = None, None
    try:
        loaded = schema.load(value)
    except ValidationError as refused:
        error = refused
    if table is not None:
        faults += _faults_of_table(table, error)
    elif error is not None:
        faults += _walk(error.messages, "")
    if faults:
        raise _mismatch(faults)
    return loaded


def schema_mismatch(error: ValidationError, line: int | None = None) -> Problem:
    """The problem of an object that its schema does not load, every fault with its pointer, and its line if given."""
    faults: list[dict[str, Any]] = list(_walk(error.messages, ""))
    if line is not None:
        faults = [fault | _in_line(line, "", fault["detail"]) for fault in faults]
    return _mismatch(faults)


def _mismatch(faults: list[dict[str, Any]]) -> Problem:
    count = len(faults)
    if count > MOST_TOLD:
        left = f"{count - MOST_TOLD} more faults; the first {MOST_TOLD} are named."
        faults = [*faults[:MOST_TOLD], {"pointer": "", "detail": left}]
    detail = "The request has one fault." if count == 1 else f"The request has {count} faults."
    return Problem("schema-mismatch", detail=detail, errors=faults)
