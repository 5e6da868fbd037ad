"""Reads a body line by line and writes rows the same way: nothing is kept, and a row leaves as soon as it is there.

What is wrong with a line is told in its row. What is wrong with the body as a whole ends it: before the first line
with the status of the answer, later, when that has long been sent, with a last row.
"""

import sys
import time
from collections.abc import Callable, Iterable, Iterator
from typing import Any

import orjson
from flask import Request, current_app, request
from marshmallow import ValidationError

from service.routes.batch import BatchRow
from service.routes.problems import Problem, problem_document
from service.routes.reading import check_body_type, parse, query_faults
from service.schemas.assessment_batch import ReadUnit
from service.schemas.line_text import LINES_TYPE, LineText
from service.schemas.payload import Payload

READ_FIRST = 8 * 1024 * 1024
"""A body that announces no more bytes is taken in whole before the first row leaves: many clients send everything
before they read anything, and with more than this both sides would wait for each other."""

PIECE = 64 * 1024

STOP_SECONDS = 15.0
"""How long rows go on once the service was asked to stop; what is left then would be cut off without a word."""


def answers_in_lines(received: Request) -> tuple[str, ...]:
    """The media types a batch is answered with, the default first: as it was sent."""
    both = ("application/json", LINES_TYPE)
    return both[::-1] if received.mimetype == LINES_TYPE else both


def read_lines(received: Request, schema: Payload, lines: LineText, together: bool) -> Iterator[ReadUnit]:
    """Read a body of one object a line; the first line is there when this returns.

    Parameters
    ----------
    received : flask.Request
    schema : Payload
        Instance that loads a line.
    lines : LineText
    together : bool
        Whether the answer is one JSON object, in which fewer lines have room.

    Returns
    -------
    iterator of ReadUnit
        Empty lines are left out. Raises `Problem` where the body ends before its end.

    Raises
    ------
    Problem
        400, 413 or 415 where there is not even a first line.
    """
    if faults := query_faults(received):
        raise Problem("schema-mismatch", detail="The query has a fault.", errors=[*faults])
    check_body_type(received, ("application/json", LINES_TYPE))
    announced = received.content_length
    if announced is not None and announced > lines.body_limit:
        raise _too_large(lines.body_limit)
    pieces: Iterable[bytes] = _pieces(received.environ, announced, lines.body_limit)
    if announced is not None and announced <= READ_FIRST:
        pieces = list(pieces)
    numbered = _numbered(pieces, lines.most_together if together else lines.most, lines.longest)
    units = (_unit(number, line, schema, lines.longest) for number, line in numbered if line is None or line.strip())
    first = next(units, None)
    if first is None:
        raise Problem("malformed-body", detail="The body is empty; a JSON object a line is expected.")
    return _with_first(first, units)


def _with_first(first: ReadUnit, others: Iterator[ReadUnit]) -> Iterator[ReadUnit]:
    yield first
    yield from others


def _too_large(most: int) -> Problem:
    return Problem("body-too-large", detail=f"The body is larger than {most} bytes.")


def _pieces(environ: dict[str, Any], announced: int | None, most: int) -> Iterator[bytes]:
    """The body as it arrives."""
    stream = environ["wsgi.input"]
    # a server of ours has read1 for such a body (deploy/gunicorn.conf.py); read alone would wait for the whole size
    read: Callable[[int], bytes] = getattr(stream, "read1", stream.read)
    if announced is None and not environ.get("wsgi.input_terminated"):
        return
    received = 0
    while announced is None or received < announced:
        try:
            piece = read(PIECE if announced is None else min(PIECE, announced - received))
        except Exception:  # a server's reader raises exceptions of its own; reading runs no code of ours
            raise Problem("bad-request", detail="The body is broken, ends early or did not come in time.") from None
        if not piece:
            break
        received += len(piece)
        if received > most:
            raise _too_large(most)
        yield piece
    if announced is not None and received < announced:
        raise Problem("bad-request", detail=f"The body ended after {received} of {announced} bytes.")


def _numbered(pieces: Iterable[bytes], most: int, longest: int) -> Iterator[tuple[int, bytes | None]]:
    """Each line with its number from 1; None instead of one that is too long, which is not kept."""
    number, held, over = 0, bytearray(), False
    try:
        for piece in pieces:
            start = 0
            while start <= len(piece):
                end = piece.find(b"\n", start)
                part = piece[start : end if end >= 0 else len(piece)]
                over = over or len(held) + len(part) > longest
                held += b"" if over else part
                if end < 0:
                    break
                number += 1
                if number > most:
                    raise Problem("body-too-large", detail=f"The body has more than {most} lines.")
                yield number, None if over else bytes(held)
                start, over = end + 1, False
                held.clear()
        if held or over:
            number += 1
            if number > most:
                raise Problem("body-too-large", detail=f"The body has more than {most} lines.")
            yield number, None if over else bytes(held)
    except Problem as problem:
        line = number if number > most else number + 1
        problem.errors.append({"line": line, "detail": f"Nothing from line {line} on was read."})
        raise


def _unit(number: int, line: bytes | None, schema: Payload, longest: int) -> ReadUnit:
    try:
        if line is None:
            raise Problem("body-too-large", detail=f"The line is longer than {longest} bytes.")
        return ReadUnit(arguments=schema.load(parse(line, "line")), error=None, line=number)
    except (Problem, ValidationError) as error:
        return ReadUnit(arguments=None, error=error, line=number)


def write_lines(rows: Iterable[BatchRow], write: Callable[[BatchRow], Any]) -> Iterator[bytes]:
    """Write rows, one a line, each when it is asked for; to be used within the request.

    Parameters
    ----------
    rows : iterable of BatchRow
        What it raises ends the answer with a last row.
    write : callable
        A row as its schema describes it.

    Yields
    ------
    bytes
    """
    stopping, cut_off, index = current_app.extensions["stopping"], None, 0
    try:
        for row in rows:
            yield orjson.dumps(write(row)) + b"\n"
            index = row.index + 1
            if stopping:
                cut_off = cut_off or time.monotonic() + STOP_SECONDS
                if time.monotonic() > cut_off:
                    raise Problem("not-ready", detail="The service was asked to stop before the end of the body.")
    except Problem as fault:
        problem = fault
    except Exception:
        if current_app.testing:
            raise
        current_app.log_exception(sys.exc_info())
        problem = Problem("internal-error", detail="A fault of the service ended the answer; it has been logged.")
    else:
        return
    document = problem_document(problem, request.path)
    yield orjson.dumps(write(BatchRow(index=index, status=document["status"], answer=None, problem=document))) + b"\n"
