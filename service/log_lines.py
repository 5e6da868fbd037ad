"""Log lines: one JSON object, or one line of text, for each request and for each record of the library's logging.

Whatever comes from outside is escaped to ASCII: no control character, line break or right-to-left mark of a caller's
can reach a terminal or forge a line.
"""

import json
import logging
import os
import sys
from collections.abc import Mapping
from contextlib import suppress
from datetime import UTC, datetime
from typing import Any

import orjson

_NAMES = logging.getLevelNamesMapping()
_WORDS = {level: name.lower() for name, level in _NAMES.items()}
_LINE = orjson.OPT_UTC_Z | orjson.OPT_APPEND_NEWLINE


class RequestLog:
    """The one line of each request, written past the library's logging, which would cost several times as much.

    Parameters
    ----------
    level : str
        From which level on.
    form : str
        ``json`` or ``text``.
    descriptor : int
        Where to; standard output. A line is one write, so that those of several processes do not mix.
    """

    def __init__(self, level: str, form: str, descriptor: int = 1) -> None:
        self._least = _NAMES[level.upper()]
        self._form = form
        self._descriptor = descriptor

    def wants(self, level: int) -> bool:
        """Whether a line of this level is written."""
        return level >= self._least

    def write(self, level: int, fields: Mapping[str, Any]) -> None:
        """Write a line; where the log cannot be written, the request is answered all the same.

        Parameters
        ----------
        level : int
            Of the library's logging.
        fields : mapping
            What there is to say; every text in it is plain ASCII.
        """
        if self._form == "json":
            line = orjson.dumps(
                {"time": datetime.now(UTC), "level": _WORDS[level], "message": "request", **fields}, None, _LINE
            )
        else:
            line = f"{_time(datetime.now(UTC))} {logging.getLevelName(level)} request {_words(fields)}\n".encode()
        with suppress(OSError):  # a full disk, a reader gone
            os.write(self._descriptor, line)


class JsonLines(logging.Formatter):
    """One JSON object a line: ``time``, ``level``, ``message``, then the ``fields`` of the record, if any."""

    def format(self, record: logging.LogRecord) -> str:
        """Compose the line."""
        line: dict[str, Any] = {
            "time": _time(datetime.fromtimestamp(record.created, UTC)),
            "level": record.levelname.lower(),
            "message": record.getMessage(),
            "logger": record.name,
            "pid": record.process,
            **record.__dict__.get("fields", {}),
        }
        if record.exc_info:
            line["exception"] = self.formatException(record.exc_info)
        return json.dumps(line)  # escapes everything beyond ASCII


class TextLines(logging.Formatter):
    """One line for people; what belongs to it, a traceback, follows indented."""

    def format(self, record: logging.LogRecord) -> str:
        """Compose the line."""
        words = _words(record.__dict__.get("fields", {}))
        time = _time(datetime.fromtimestamp(record.created, UTC))
        lines = [f"{time} {record.levelname} {_escaped(record.getMessage())} {words}".rstrip()]
        if record.exc_info:
            lines += [f"    {_escaped(line)}" for line in self.formatException(record.exc_info).splitlines()]
        return "\n".join(lines)


_FORMATTERS = {"json": JsonLines, "text": TextLines}


def _time(moment: datetime) -> str:
    return moment.isoformat(timespec="microseconds").replace("+00:00", "Z")


def _words(fields: Mapping[str, Any]) -> str:
    return " ".join(f"{name}={json.dumps(value)}" for name, value in fields.items() if value is not None)


def _escaped(text: str) -> str:
    return json.dumps(text)[1:-1]


def set_up_logging(level: str, form: str) -> logging.Handler:
    """Send what the service logs beside its requests to standard output, in one form; of libraries their warnings.

    Parameters
    ----------
    level : str
        From which level on.
    form : str
        ``json`` or ``text``.

    Returns
    -------
    logging.Handler
        For the server's own loggers.
    """
    handler = logging.StreamHandler(sys.stdout)
    handler.setFormatter(_FORMATTERS[form]())
    logging.getLogger().handlers = [handler]
    logging.getLogger("service").setLevel(level.upper())
    return handler
