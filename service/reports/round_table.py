"""A round as a table: one line a unit in visiting order, as CSV (RFC 4180) for a spreadsheet.

A cell that a spreadsheet would take for a formula gets an apostrophe in front: a unit's name may be anybody's text.
"""

import csv
import io
from collections.abc import Mapping
from typing import Any

from service.calculations.answer import Answer

COLUMNS = (
    "place",
    "index",
    "unit_id",
    "urgency",
    "day",
    "technician",
    "start_minute",
    "minutes",
    "method",
    "failure",
    "stop",
    "minutes_to_building",
    "would_wet",
    "fails",
    "attentions",
    "reasons",
    "problem",
)

FORMULA_STARTS = ("=", "+", "-", "@", "\t", "\r", "\n", "\uff1d", "\uff0b", "\uff0d", "\uff20")
"""What a spreadsheet takes for the beginning of a formula, full-width forms included."""


def write_table(
    body: Mapping[str, Any], answer: Answer[Any], written: Mapping[str, Any], system: str, language: str
) -> str:
    """Write the visiting order, and after it the units that could not be read.

    Parameters
    ----------
    body : mapping
        Arguments of the view.
    answer : Answer
        The round.
    written : mapping
        The envelope as JSON has it.
    system : str
        ``us`` or ``si``; minutes are the same in both.
    language : str
        One of `service.tables.languages.LANGUAGES`.

    Returns
    -------
    str
    """
    results = written["results"]
    text = io.StringIO(newline="")
    lines = csv.writer(text)
    lines.writerow(COLUMNS)
    for stop in results["order"]:
        lines.writerow([_cell(value) for value in _visited(stop, results["units"][stop["index"]]["visit"])])
    for row in results["units"]:
        if row["problem"]:
            faults = " ".join(f"{fault['pointer']}: {fault['detail']}" for fault in row["problem"]["errors"])
            blanks = [""] * (len(COLUMNS) - 3)
            lines.writerow(["", row["index"], *blanks, _cell(faults)])
    return text.getvalue()


def _visited(stop: Mapping[str, Any], visit: Mapping[str, Any]) -> tuple[Any, ...]:
    """The values of one unit, in the order of `COLUMNS`."""
    slot = stop["slot"] or {}
    failure = visit["soonest_failure"]
    return (
        stop["place"],
        stop["index"],
        stop["unit_id"],
        stop["urgency"],
        slot.get("day"),
        slot.get("technician"),
        _rounded(slot.get("start_minute")),
        _rounded(stop["minutes"]),
        visit["method"],
        failure["failure"],
        failure["stop"],
        _rounded(failure["time_to_building"] and failure["time_to_building"]["value"]),
        failure["would_wet"],
        visit["finding_counts"]["fail"],
        visit["finding_counts"]["attention"],
        " ".join(reason["explanation"] for reason in visit["reasons"]),
        None,
    )


def _rounded(minutes: float | None) -> int | None:
    """Whole minutes, to read."""
    return None if minutes is None else round(minutes)


def _cell(value: Any) -> Any:
    """A cell that no spreadsheet takes for a formula."""
    if value is None:
        return ""
    return f"'{value}" if isinstance(value, str) and value.startswith(FORMULA_STARTS) else value
