"""Log lines: one JSON object, or one line of text, for each record of the standard library's logging.

Whatever comes from outside is escaped to ASCII: no control character, line break or right-to-left mark of a caller's
can reach a terminal or forge a line.
"""

import json
import logging
import sys
from datetime import UTC, datetime
from typing import Any

import orjson

REQUEST_LOG = "service.requests"
"""Logger of the one line per request; its records bring ``fields``, whose texts are ASCII already."""


class JsonLines(logging.Formatter):
    """One JSON object a line: ``time``, ``level``, ``message``, then the ``fields`` of the record, if any."""

    def format(self, record: logging.LogRecord) -> str:
        """Compose the line."""
        head: dict[str, Any] = {
            "time": datetime.fromtimestamp(record.created, UTC),
            "level": record.levelname.lower(),
        }
        if record.name == REQUEST_LOG and not record.exc_info:
            return orjson.dumps({**head, "message": record.msg, **record.__dict__["fields"]}, None, _TIME).decode()
        head |= {"time": _time(record), "message": record.getMessage(), "logger": record.name, "pid": record.process}
        head |= record.__dict__.get("fields", {})
        if record.exc_info:
            head["exception"] = self.formatException(record.exc_info)
        return json.dumps(head)  # escapes everything beyond ASCII


class TextLines(logging.Formatter):
    """One line for people; what belongs to it, a traceback, follows indented."""

    def format(self, record: logging.LogRecord) -> str:
        """Compose the line."""
        fields = record.__dict__.get("fields", {}).items()
        words = [f"{name}={json.dumps(value)}" for name, value in fields if value is not None]
        lines = [" ".join([_time(record), record.levelname, _escaped(record.getMessage()), *words])]
        if record.exc_info:
            lines += [f"    {_escaped(line)}" for line in self.formatException(record.exc_info).splitlines()]
        return "\n".join(lines)


_TIME = orjson.OPT_UTC_Z
_FORMATTERS = {"json": JsonLines, "text": TextLines}


def _time(record: logging.LogRecord) -> str:
    return datetime.fromtimestamp(record.created, UTC).isoformat(timespec="microseconds").replace("+00:00", "Z")


def _escaped(text: str) -> str:
    return json.dumps(text)[1:-1]


def set_up_logging(level: str, form: str) -> logging.Handler:
    """Send what the service logs to standard output, in one form.

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
    logger = logging.getLogger("service")
    logger.handlers, logger.propagate = [handler], False
    logger.setLevel(level.upper())
    logging.logThreads = logging.logMultiprocessing = False  # looked up for every record and shown in none
    return handler
