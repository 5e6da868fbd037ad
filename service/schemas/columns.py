"""Fields for a year of hours: whole columns of numbers, read at the speed of a list.

marshmallow looks at one element at a time, which takes ten milliseconds for a year; here the types and the extremes
of the whole list are looked at, and its elements only where something is wrong.
"""

import math
import re
from collections.abc import Sequence
from datetime import datetime
from typing import Any

from marshmallow import ValidationError

from service.calculations.condensate_series import MOST_ROWS
from service.calculations.limits import Limit
from service.schemas.fields import LONGEST_ECHO, Field, echo, is_number, number
from service.units import KINDS, SYMBOLS, SYMBOLS_OF, bounds

MOST_FAULTS = 100
"""Elements of one column named one by one; the others are counted."""

_NUMBERS = {float, int}


def is_column(values: Sequence[Any], low: float, high: float) -> bool:
    """Tell whether every element is a number between the bounds; ``values`` is not empty."""
    return set(map(type, values)) <= _NUMBERS and low <= min(values) and max(values) <= high


def column_faults(values: Sequence[Any], low: float, high: float, allowed: str, unit: str = "") -> dict[Any, list[str]]:
    """Say what is wrong with the elements, by their index.

    Parameters
    ----------
    values : sequence
        The elements as received.
    low, high : float
        Inclusive bounds.
    allowed : str
        The bounds in words.
    unit : str
        Symbol to show after a number.
    """
    faults: dict[Any, list[str]] = {}
    count = 0
    for index, value in enumerate(values):
        if not is_number(value):
            fault = f"Received {echo(value)}, which is not a number; {allowed}."
        elif low <= value <= high:
            continue
        else:
            fault = f"Received {echo(value)}{' ' + unit if unit else ''}; {allowed}."
        count += 1
        if count <= MOST_FAULTS:
            faults[index] = [fault]
    if count > MOST_FAULTS:
        faults["_schema"] = [f"{count - MOST_FAULTS} more elements are wrong; the first {MOST_FAULTS} are named."]
    return faults


class NumberColumn(Field):
    """An array of plain numbers, a row each.

    Parameters
    ----------
    limit : Limit
        Allowed range of each.
    most : int
        Largest number of elements; there is at least one.
    """

    def __init__(self, limit: Limit, *, most: int, **options: Any) -> None:
        super().__init__(**options)
        self.limit, self.most = limit, most

    def read(self, value: Any) -> list[float]:
        if not isinstance(value, list):
            raise ValidationError(f"Received {echo(value)}; expected an array of 1 to {self.most} numbers.")
        if not 1 <= len(value) <= self.most:
            raise ValidationError(f"Received {len(value)} elements; allowed 1 to {self.most}.")
        low, high = self.limit.low, self.limit.high
        if not is_column(value, low, high):
            allowed = f"allowed {number(low)} to {number(high)}"
            raise ValidationError(column_faults(value, low, high, allowed))
        return list(map(float, value))

    def json_schema(self) -> dict[str, Any]:
        items = {"type": "number", "minimum": self.limit.low, "maximum": self.limit.high}
        return {"type": "array", "minItems": 1, "maxItems": self.most, "items": items}


def column_name(kind: str, gaps: bool) -> str:
    """What the document calls a column of a kind of quantity."""
    return f"{KINDS[kind].title}Column{'WithGaps' if gaps else ''}"


def column_schema(kind: str, gaps: bool) -> dict[str, Any]:
    """The component of a column: it has no bounds, which differ from member to member.

    Parameters
    ----------
    kind : str
        A key of `service.units.KINDS`.
    gaps : bool
        Whether an element may be ``null``.
    """
    words = f"Values of {kind.replace('_', ' ')}, all in one unit"
    return {
        "type": "object",
        "description": f"{words}; null where there is none." if gaps else f"{words}.",
        "properties": {
            "values": {
                "type": "array",
                "minItems": 1,
                "maxItems": MOST_ROWS,
                "items": {"type": ["number", "null"] if gaps else "number"},
                "description": "The numbers.",
            },
            "unit": {"$ref": f"#/components/schemas/{KINDS[kind].title}Unit", "description": "The unit of each."},
        },
        "required": ["values", "unit"],
        "additionalProperties": False,
    }


class QuantityColumn(Field):
    """``{"values": [number, ...], "unit": symbol}`` on the wire, a list of SI floats inside.

    Parameters
    ----------
    kind : str
        A key of `service.units.KINDS`.
    limit : Limit or None
        Allowed range of each [SI]; a request field must have one.
    most : int
        Largest number of elements; there is at least one.
    gaps : bool
        In an answer: an element may be ``null`` where it cannot be computed.
    us, si : str or None
        Symbols an answer uses in either unit system; the kind's own by default.
    """

    def __init__(
        self,
        kind: str,
        limit: Limit | None = None,
        *,
        most: int,
        gaps: bool = False,
        us: str | None = None,
        si: str | None = None,
        **options: Any,
    ) -> None:
        super().__init__(**options)
        self.kind = KINDS[kind]
        self.symbols = SYMBOLS_OF[kind]
        self.us, self.si = us or self.kind.us_symbol, si or self.kind.si_symbol
        self.limit, self.most, self.gaps = limit, most, gaps
        self.components = {column_name(kind, gaps): column_schema(kind, gaps)}
        self._bounds = {symbol: bounds(symbol, limit.low, limit.high) for symbol in self.symbols} if limit else {}

    def read(self, value: Any) -> list[float]:
        try:
            values, symbol = value["values"], value["unit"]
            low, high = self._bounds[symbol]
            fits = len(value) == 2 and type(values) is list and 1 <= len(values) <= self.most
            if fits and is_column(values, low, high):
                unit = SYMBOLS[symbol]
                offset, factor = unit.offset, unit.factor
                return [(element + offset) * factor for element in values]
        except (KeyError, TypeError, IndexError):
            pass
        raise ValidationError(self._faults(value))

    def _faults(self, value: Any) -> Any:
        """Say everything that is wrong with a column."""
        symbols = ", ".join(self.symbols)
        if not isinstance(value, dict):
            return [f'Received {echo(value)}; expected {{"values": array of numbers, "unit": one of {symbols}}}.']
        faults: dict[Any, Any] = {
            (key,): [f'Unknown member "{key[:LONGEST_ECHO]}"; a column has "values" and "unit" only.']
            for key in value
            if key not in ("values", "unit")
        }
        symbol = value.get("unit")
        known = isinstance(symbol, str) and symbol in self._bounds
        if "unit" not in value:
            faults["unit"] = [f"This member is required and is missing; one of {symbols}."]
        elif not known:
            faults["unit"] = [f"Received {echo(symbol)}; allowed: {symbols}."]
        low, high = self._bounds[str(symbol)] if known else (-math.inf, math.inf)
        allowed = f"allowed {number(low)} to {number(high)} {symbol}" if known else "a number is needed"
        values = value.get("values")
        if "values" not in value:
            faults["values"] = ["This member is required and is missing; an array of numbers."]
        elif not isinstance(values, list):
            faults["values"] = [f"Received {echo(values)}; expected an array of 1 to {self.most} numbers."]
        elif not 1 <= len(values) <= self.most:
            faults["values"] = [f"Received {len(values)} elements; allowed 1 to {self.most}."]
        elif wrong := column_faults(values, low, high, allowed, str(symbol) if known else ""):
            faults["values"] = wrong
        return faults

    def json_schema(self) -> dict[str, Any]:
        schema: dict[str, Any] = {"$ref": f"#/components/schemas/{column_name(self.kind.name, self.gaps)}"}
        if self.limit:
            # the widest bounds of any unit; those of the unit sent stand below
            lows, highs = zip(*self._bounds.values(), strict=True)
            element = {"minimum": min(lows), "maximum": max(highs)}
            schema["properties"] = {"values": {"maxItems": self.most, "items": element}}
            schema["allOf"] = [
                {
                    "if": {"properties": {"values": {"minItems": 1}, "unit": {"const": symbol}}},
                    "then": {
                        "properties": {
                            "values": {"items": {"minimum": low, "maximum": high}},
                            "unit": {"const": symbol},
                        }
                    },
                }
                for symbol, (low, high) in self._bounds.items()
            ]
        return schema


LAST_YEAR = 2099

_YEAR = "(?:19|20)[0-9]{2}"
_LEAP = "(?:(?:19|20)(?:0[48]|[2468][048]|[13579][26])|2000)"  # of 1900 to 2099
_DAY = (
    f"(?:{_YEAR}-(?:(?:0[13578]|1[02])-(?:0[1-9]|[12][0-9]|3[01])"
    f"|(?:0[469]|11)-(?:0[1-9]|[12][0-9]|30)|02-(?:0[1-9]|1[0-9]|2[0-8]))|{_LEAP}-02-29)"
)
LOCAL_TIME = f"^{_DAY}(?:T(?:[01][0-9]|2[0-3]):[0-5][0-9](?::[0-5][0-9])?)?$"
"""A date of 1900 to 2099 that exists, alone (midnight) or with a time of day; no zone."""

_LOCAL_TIME = re.compile(LOCAL_TIME.removesuffix("$") + r"\Z")


def local_time(text: str) -> datetime | None:
    """The moment a text names, or None where it does not match `LOCAL_TIME`."""
    return datetime.fromisoformat(text) if _LOCAL_TIME.match(text) else None


class LocalTime(Field):
    """ISO 8601 local date, or date and time, without a zone; a ``datetime`` inside."""

    def read(self, value: Any) -> datetime:
        time = local_time(value) if isinstance(value, str) else None
        if time is None:
            raise ValidationError(
                f"Received {echo(value)}; expected a date that exists, 1900 to 2099, as 2026-07-14, or with a time of "
                "day as 2026-07-14T15:00, without a zone."
            )
        return time

    def json_schema(self) -> dict[str, Any]:
        return {"type": "string", "pattern": LOCAL_TIME, "maxLength": len("2026-07-14T15:00:00")}
