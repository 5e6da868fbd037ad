"""Base class of every object on the wire."""

import difflib
from collections.abc import Callable, Mapping
from contextvars import ContextVar
from dataclasses import dataclass
from functools import cached_property
from itertools import islice
from typing import Any, ClassVar

from marshmallow import Schema, ValidationError, post_load, validates_schema

from service.schemas.fields import LONGEST_ECHO, echo
from service.schemas.reading import Reader, Unsound, compile_reader

CLOSEST = 0.5
"""How alike, of 1, a known name must be to be offered for an unknown one."""

MOST_UNKNOWN = 100
"""Unknown members named in what is loaded at once; the others are counted, for a body may hold millions."""

MOST_HINTS = 10
"""How many of those are compared with the known ones."""

_UNKNOWN = "Unknown member."


@dataclass(slots=True)
class _Left:
    """What may still be said of unknown members, in all the parts of what is being loaded."""

    names: int = MOST_UNKNOWN
    hints: int = MOST_HINTS


_LEFT: ContextVar[_Left] = ContextVar("_LEFT")


class Payload(Schema):
    """A closed JSON object; a subclass's docstring is its description in the document.

    Class attributes that a subclass may set:

    into : type or None
        Frozen dataclass the loaded members become; None leaves a dict of keyword arguments.
    exactly_one_of : tuple of str
        Optional members of which exactly one is given.
    at_most_one_of : tuple of str
        Members that exclude each other.
    exclusions : tuple of tuple of str
        Further groups of such members, where there is more than one.
    at_least_one_of : tuple of str
        Members of which one or more must be given.
    examples : mapping
        Worked requests: name to ``{"summary": ..., "value": ...}``.
    """

    closed: ClassVar[bool] = True
    into: ClassVar[type | None] = None
    exactly_one_of: ClassVar[tuple[str, ...]] = ()
    at_most_one_of: ClassVar[tuple[str, ...]] = ()
    exclusions: ClassVar[tuple[tuple[str, ...], ...]] = ()
    at_least_one_of: ClassVar[tuple[str, ...]] = ()
    examples: ClassVar[Mapping[str, Any]] = {}

    error_messages: ClassVar[dict[str, str]] = {"type": "Expected a JSON object.", "unknown": _UNKNOWN}  # type: ignore[misc]

    def own_writer(self, system: str, language: str) -> Callable[[Any], Any] | None:
        """The function that writes such an object as a part of another, where its members are not attributes."""
        return None

    @cached_property
    def read_sound(self) -> Reader:
        """The function that reads an object with nothing wrong; it raises `Unsound` or ``ValidationError`` else."""
        return compile_reader(self)

    def load(self, data: Any, **options: Any) -> Any:
        """Read a parsed JSON value; what is wrong with one, marshmallow says."""
        if options:  # a part, which marshmallow comes to
            return self._load_and_tell(data, options)
        try:
            return self.read_sound(data)
        except (Unsound, ValidationError):
            pass
        outer = _LEFT.set(_Left())
        try:
            return self._load_and_tell(data, options)
        finally:
            _LEFT.reset(outer)

    def _load_and_tell(self, data: Any, options: dict[str, Any]) -> Any:
        """Load by marshmallow, without the unknown members beyond those that are named."""
        if not isinstance(data, dict):
            return super().load(data, **options)
        known = [name for name in self.load_fields if name in data]
        left = _LEFT.get(_Left())
        named = list(islice((name for name in data if name not in self.load_fields), left.names))
        left.names -= len(named)
        unnamed = len(data) - len(known) - len(named)
        if not unnamed:
            return super().load(data, **options)
        messages: Any = {}
        try:
            super().load({name: data[name] for name in (*known, *named)}, **options)
        except ValidationError as error:
            messages = error.messages
        told = messages.get("_schema", [])
        messages["_schema"] = [*told, f"{unnamed} more members are unknown; {MOST_UNKNOWN} are named."]
        raise ValidationError(messages)

    @validates_schema(pass_original=True, skip_on_field_errors=False)
    def _check_groups(self, data: Any, original: Any, **kwargs: Any) -> None:
        if not isinstance(original, dict):
            return
        if self.exactly_one_of:
            given = [name for name in self.exactly_one_of if name in original]
            if len(given) != 1:
                raise ValidationError(f"Give exactly one of {_listed(self.exactly_one_of)}; received {_listed(given)}.")
        for group in (self.at_most_one_of, *self.exclusions):
            given = [name for name in group if name in original]
            if len(given) > 1:
                raise ValidationError(f"Give at most one of {_listed(group)}; received {_listed(given)}.")
        if self.at_least_one_of and not any(name in original for name in self.at_least_one_of):
            raise ValidationError(f"Give at least one of {_listed(self.at_least_one_of)}; received none of them.")

    @post_load
    def _make(self, data: Any, **kwargs: Any) -> Any:
        return self.into(**data) if self.into else data

    def handle_error(self, error: ValidationError, data: Any, *, many: bool, **kwargs: Any) -> None:
        """Complete marshmallow's messages: the value received, the nearest known member."""
        messages: Any = error.messages
        if not isinstance(data, dict):
            messages["_schema"] = [f"Received {echo(data)}; expected a JSON object."]
            return
        known = sorted(self.load_fields)
        unknown = [name for name in data if name not in self.load_fields]
        left = _LEFT.get(_Left())
        for name in unknown:
            # a member may be called as marshmallow calls the whole object, hence the tuple
            about_whole = [text for text in messages.pop(name) if text != _UNKNOWN]
            if about_whole:
                messages[name] = about_whole
            hint = ""
            if left.hints:
                left.hints -= 1
                near = difflib.get_close_matches(name[:LONGEST_ECHO], known, n=1, cutoff=CLOSEST)
                hint = f'; did you mean "{near[0]}"?' if near else f"; known members: {', '.join(known)}."
            messages[(name,)] = [f'Unknown member "{name[:LONGEST_ECHO]}"{hint or "."}']


class Written(Payload):
    """An object of an answer: open, so that a later version may add members."""

    closed = False


def _listed(names: Any) -> str:
    return ", ".join(names) or "none"


def _given(*names: str) -> dict[str, Any]:
    """JSON Schema of an object that has these members; each is named, for judges that look for its definition."""
    return {"required": list(names), "properties": {name: {} for name in names}}


def _pairs(names: tuple[str, ...]) -> list[dict[str, Any]]:
    """JSON Schemas of the objects that have two of these members."""
    return [_given(first, second) for index, first in enumerate(names) for second in names[index + 1 :]]


def group_schema(payload: Payload) -> dict[str, Any]:
    """JSON Schema keywords for the member groups of a payload."""
    schema: dict[str, Any] = {}
    required = [name for name, field in payload.load_fields.items() if field.required]
    counted = True
    if payload.exactly_one_of:
        counted = not set(payload.load_fields) - set(required) - set(payload.exactly_one_of)
        if counted:  # the plainest to say, and to read
            schema["minProperties"] = schema["maxProperties"] = len(required) + 1
    # what may not be: two that exclude each other, or none of those of which one is needed
    refused = [pair for group in (payload.at_most_one_of, *payload.exclusions) for pair in _pairs(group)]
    if not counted:
        refused += _pairs(payload.exactly_one_of)
    for needed in (payload.at_least_one_of, () if counted else payload.exactly_one_of):
        if needed:
            refused.append({"properties": {name: {"not": {}} for name in needed}})
    if refused:
        schema["not"] = refused[0] if len(refused) == 1 else {"anyOf": refused}
    return schema
