"""The field types every payload is made of.

Each field does three things from one declaration: it reads a JSON value strictly (SI float
or plain value inside), it describes itself as JSON Schema 2020-12, and, in an answer, it
tells the writer which unit to use. Errors name the value received and the allowed range in
the caller's own unit.
"""

import math
from collections.abc import Mapping, Sequence
from types import MappingProxyType
from typing import Any

from marshmallow import ValidationError, fields

from service.calculations.limits import Limit
from service.schemas.word_lists import WORD_LISTS, WordList
from service.units import KINDS, SYMBOLS, SYMBOLS_OF, bounds

LONGEST_ECHO = 60
"""Most characters of a received value that an error repeats."""

_ABSENT = object()


def echo(value: object) -> str:
    """Show a received JSON value in an error, shortened."""
    if isinstance(value, Mapping):
        return "an object"
    if isinstance(value, list):
        return "an array"
    text = {None: "null", True: "true", False: "false"}.get(value) if value is None or isinstance(value, bool) else None
    text = text or (f'"{value}"' if isinstance(value, str) else repr(value))
    return text if len(text) <= LONGEST_ECHO else text[: LONGEST_ECHO - 1] + "…"


def number(value: float) -> str:
    """Show a bound the shortest exact way: 12, not 12.0."""
    return str(int(value)) if value == int(value) and abs(value) < 1e15 else repr(value)


def is_number(value: object) -> bool:
    """Tell whether a parsed JSON value is a number (a boolean is not)."""
    return isinstance(value, (int, float)) and not isinstance(value, bool)


class Field(fields.Field[Any]):
    """Base: a description is compulsory, and ``null`` is refused.

    Parameters
    ----------
    description : str
        What the member is, for the document.
    nullable : bool
        In an answer: the value may be ``null`` where it cannot be computed.
    example : JSON value or None
        One that is allowed, for the document.
    """

    refers_to: tuple[Any, ...] = ()
    """Payloads that its JSON Schema names, so that the document describes them."""

    components: Mapping[str, dict[str, Any]] = MappingProxyType({})
    """Other JSON Schemas that its own names."""

    default_error_messages = {
        "required": "This member is required and is missing.",
        "null": "Received null; leave the member out instead.",
    }

    def __init__(self, *, description: str, nullable: bool = False, example: Any = None, **options: Any) -> None:
        super().__init__(**options)
        self.description = description
        self.nullable = nullable
        self.example = example

    def read(self, value: Any) -> Any:
        """Read a JSON value, or raise ``ValidationError`` saying what is wrong with it."""
        raise NotImplementedError

    def _deserialize(self, value: Any, attr: str | None, data: Mapping[str, Any] | None, **kwargs: Any) -> Any:
        return self.read(value)

    def json_schema(self) -> dict[str, Any]:
        """The field's own JSON Schema, without description and nullability."""
        raise NotImplementedError

    def property_schema(self) -> dict[str, Any]:
        """The JSON Schema of the member as it stands in its object."""
        schema = self.json_schema()
        if self.nullable:
            schema = {"anyOf": [schema, {"type": "null"}]}
        shown = {} if self.example is None else {"examples": [self.example]}
        return {**schema, "description": self.description, **shown}


class Quantity(Field):
    """``{"value": number, "unit": symbol}`` on the wire, an SI float inside.

    Parameters
    ----------
    kind : str
        A key of `service.units.KINDS`.
    limit : Limit or None
        Allowed range [SI]; a request field must have one.
    us, si : str or None
        Symbols an answer uses in either unit system; the kind's own by default.
    """

    def __init__(
        self, kind: str, limit: Limit | None = None, *, us: str | None = None, si: str | None = None, **options: Any
    ) -> None:
        super().__init__(**options)
        self.kind = KINDS[kind]
        self.symbols = SYMBOLS_OF[kind]
        self.us, self.si = us or self.kind.us_symbol, si or self.kind.si_symbol
        self.limit = limit
        self._bounds = {symbol: bounds(symbol, limit.low, limit.high) for symbol in self.symbols} if limit else {}
        units = {symbol: SYMBOLS[symbol] for symbol in self._bounds}
        self._reading = {symbol: (*self._bounds[symbol], unit.offset, unit.factor) for symbol, unit in units.items()}

    def read(self, value: Any) -> float:
        try:
            magnitude = value["value"]
            low, high, offset, factor = self._reading[value["unit"]]
            if len(value) == 2 and type(magnitude) in (float, int) and low <= magnitude <= high:
                return (magnitude + offset) * factor  # type: ignore[no-any-return] # two floats of ours
        except (KeyError, TypeError, IndexError):
            pass
        raise ValidationError(self._faults(value))

    def _faults(self, value: Any) -> Any:
        """Say everything that is wrong with a quantity."""
        symbols = ", ".join(self.symbols)
        if not isinstance(value, dict):
            return [f'Received {echo(value)}; expected {{"value": number, "unit": one of {symbols}}}.']
        faults: dict[Any, list[str]] = {
            (key,): [f'Unknown member "{key[:LONGEST_ECHO]}"; a quantity has "value" and "unit" only.']
            for key in value
            if key not in ("value", "unit")
        }
        magnitude, symbol = value.get("value", _ABSENT), value.get("unit", _ABSENT)
        known = isinstance(symbol, str) and symbol in self._bounds
        if symbol is _ABSENT:
            faults["unit"] = [f"This member is required and is missing; one of {symbols}."]
        elif not known:
            faults["unit"] = [f"Received {echo(symbol)}; allowed: {symbols}."]
        allowed = f"allowed {self._range(str(symbol))}" if known else "a number is needed"
        if magnitude is _ABSENT:
            faults["value"] = [f"This member is required and is missing; {allowed}."]
        elif not is_number(magnitude):
            faults["value"] = [f"Received {echo(magnitude)}, which is not a number; {allowed}."]
        elif not math.isfinite(magnitude) if isinstance(magnitude, float) else False:
            faults["value"] = [f"Received a number too large to represent; {allowed}."]
        elif known:
            low, high = self._bounds[str(symbol)]
            if not low <= magnitude <= high:
                faults["value"] = [f"Received {echo(magnitude)} {symbol}; {allowed}."]
        return faults

    def _range(self, symbol: str) -> str:
        low, high = self._bounds[symbol]
        return f"{number(low)} to {number(high)} {symbol}"

    def json_schema(self) -> dict[str, Any]:
        schema: dict[str, Any] = {"$ref": f"#/components/schemas/{self.kind.title}"}
        if self.limit:
            schema["allOf"] = [
                {
                    # both members are named on both sides: some validators count what a branch leaves out as unknown
                    "if": {"properties": {"value": {"type": "number"}, "unit": {"const": symbol}}},
                    "then": {"properties": {"value": {"minimum": low, "maximum": high}, "unit": {"const": symbol}}},
                }
                for symbol, (low, high) in self._bounds.items()
            ]
        return schema


class Number(Field):
    """A plain number whose name says what it is.

    Parameters
    ----------
    limit : Limit or None
        Allowed range; a request field must have one.
    """

    def __init__(self, limit: Limit | None = None, **options: Any) -> None:
        super().__init__(**options)
        self.limit = limit

    def read(self, value: Any) -> float:
        limit = self.limit
        if is_number(value) and (limit is None or limit.low <= value <= limit.high):
            return float(value)
        allowed = f"{number(limit.low)} to {number(limit.high)}" if limit else "any number"
        fault = "" if is_number(value) else ", which is not a number"
        raise ValidationError(f"Received {echo(value)}{fault}; allowed {allowed}.")

    def json_schema(self) -> dict[str, Any]:
        return {"type": "number", **({"minimum": self.limit.low, "maximum": self.limit.high} if self.limit else {})}


class Whole(Field):
    """A whole number; ``2.0`` is one, as it is to JSON Schema.

    Parameters
    ----------
    low, high : int
        Inclusive bounds.
    """

    def __init__(self, low: int, high: int, **options: Any) -> None:
        super().__init__(**options)
        self.low, self.high = low, high

    def read(self, value: Any) -> int:
        if not is_number(value) or value != value or value in (math.inf, -math.inf) or value != int(value):
            raise ValidationError(
                f"Received {echo(value)}, which is not a whole number; allowed {self.low} to {self.high}."
            )
        if not self.low <= value <= self.high:
            raise ValidationError(f"Received {echo(value)}; allowed {self.low} to {self.high}.")
        return int(value)

    def json_schema(self) -> dict[str, Any]:
        return {"type": "integer", "minimum": self.low, "maximum": self.high}


class Flag(Field):
    """``true`` or ``false``, nothing that merely looks like it."""

    def read(self, value: Any) -> bool:
        if not isinstance(value, bool):
            raise ValidationError(f"Received {echo(value)}; allowed: true, false.")
        return value

    def json_schema(self) -> dict[str, Any]:
        return {"type": "boolean"}


class Text(Field):
    """Free text of a bounded length, repeated back but never interpreted.

    Parameters
    ----------
    longest : int
        Most characters (Unicode code points).
    """

    def __init__(self, longest: int = 4000, **options: Any) -> None:
        super().__init__(**options)
        self.longest = longest

    def read(self, value: Any) -> str:
        if not isinstance(value, str):
            raise ValidationError(f"Received {echo(value)}, which is not text.")
        if len(value) > self.longest:
            raise ValidationError(f"Received {len(value)} characters; allowed 0 to {self.longest}.")
        return value

    def json_schema(self) -> dict[str, Any]:
        return {"type": "string", "maxLength": self.longest}


class Wording(Text):
    """In an answer: a text of ours, written in the caller's language."""


class Outline(Wording):
    """In an answer: a template of ours as people read it, in the caller's language and units, … for each number."""


class Sentence(Field):
    """In an answer: a sentence of ours, written in the caller's language, its numbers in the caller's units."""

    def json_schema(self) -> dict[str, Any]:
        return {"type": "string"}


class Choice(Field):
    """One word of a closed list.

    Parameters
    ----------
    words : sequence of str
        The allowed words, in the order shown.
    named : WordList or None
        The list by its name in the document; that of `WORD_LISTS` when left out.
    """

    def __init__(self, words: Sequence[str], *, named: WordList | None = None, **options: Any) -> None:
        super().__init__(**options)
        self.words = tuple(words)
        self.named = named or WORD_LISTS.get(self.words)
        if self.named:
            self.components = {self.named.name: self.named.json_schema()}

    def read(self, value: Any) -> str:
        if not isinstance(value, str) or value not in self.words:
            raise ValidationError(f"Received {echo(value)}; allowed: {', '.join(self.words)}.")
        return value

    def json_schema(self) -> dict[str, Any]:
        if self.named:
            return {"$ref": f"#/components/schemas/{self.named.name}"}
        return {"type": "string", "enum": list(self.words)}


class Part(fields.Nested):
    """An object inside an object.

    Parameters
    ----------
    payload : type of Payload
        The inner object's schema class; one instance is made, once.
    description : str
        What the part is, for the document.
    nullable : bool
        In an answer: the part may be ``null``.
    """

    default_error_messages = Field.default_error_messages

    def __init__(self, payload: Any, *, description: str, nullable: bool = False, **options: Any) -> None:
        super().__init__(payload() if isinstance(payload, type) else payload, **options)
        self.description = description
        self.nullable = nullable


class Rows(fields.List[Any]):
    """An array of bounded length.

    Parameters
    ----------
    row : field
        What each element is.
    fewest, most : int
        Inclusive bounds on the number of elements.
    description : str
        What the array is, for the document.

    Notes
    -----
    A request's array arrives in the calculation as a tuple.
    """

    default_error_messages = Field.default_error_messages

    def __init__(
        self, row: Any, *, description: str, fewest: int = 0, most: int, nullable: bool = False, **options: Any
    ) -> None:
        super().__init__(row, **options)
        self.description = description
        self.nullable = nullable
        self.fewest, self.most = fewest, most

    def _deserialize(self, value: Any, attr: str | None, data: Mapping[str, Any] | None, **kwargs: Any) -> Any:
        if not isinstance(value, list):
            raise ValidationError(
                f"Received {echo(value)}; expected an array of {self.fewest} to {self.most} elements."
            )
        if not self.fewest <= len(value) <= self.most:
            raise ValidationError(f"Received {len(value)} elements; allowed {self.fewest} to {self.most}.")
        return tuple(super()._deserialize(value, attr, data, **kwargs))
