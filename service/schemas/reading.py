"""Reads sound objects fast; what is wrong with any other, marshmallow says.

A request's schema is compiled once into one closure an object, as `service.schemas.writing` does for answers. A closure
reads what marshmallow would read, each member by its own field, and gives up at the first fault: then the same object
goes through marshmallow, which names them all. ``tests/schemas/test_reading.py`` proves that both agree.
"""

from collections.abc import Callable
from typing import Any, cast

from service.schemas.fields import Part, Rows

Reader = Callable[[Any], Any]


class Unsound(Exception):
    """Something is wrong with an object."""


def _rows_reader(rows: Rows) -> Reader:
    read_row, fewest, most = _field_reader(rows.inner), rows.fewest, rows.most

    def read(value: Any) -> Any:
        if type(value) is not list or not fewest <= len(value) <= most:
            raise Unsound
        return tuple([read_row(element) for element in value])

    return read


def _field_reader(field: Any) -> Reader:
    if isinstance(field, Part):
        part: Reader = cast(Any, field.schema).read_sound
        return part
    if isinstance(field, Rows):
        return _rows_reader(field)
    own: Reader = field.read  # none of our fields takes null
    return own


def compile_reader(schema: Any) -> Reader:
    """Make the function that reads an object with nothing wrong as ``schema`` would.

    Parameters
    ----------
    schema : Payload

    Returns
    -------
    callable
        A parsed JSON value to the dict or dataclass.
    """
    readers = {name: _field_reader(field) for name, field in schema.load_fields.items()}
    required = frozenset(name for name, field in schema.load_fields.items() if field.required)
    groups = [(1, schema.exactly_one_of, 1), (1, schema.at_least_one_of, len(schema.at_least_one_of))]
    groups += [(0, group, 1) for group in (schema.at_most_one_of, *schema.exclusions)]
    groups = [group for group in groups if group[1]]
    make = schema.into

    def read(value: Any) -> Any:
        if type(value) is not dict:
            raise Unsound
        members = {}
        for name, element in value.items():
            read_member = readers.get(name)
            if read_member is None:  # a member that is not known
                raise Unsound
            members[name] = read_member(element)
        if required and not members.keys() >= required:
            raise Unsound
        for least, names, most in groups:
            given = 0
            for name in names:
                if name in members:
                    given += 1
            if not least <= given <= most:
                raise Unsound
        return make(**members) if make else {name: members[name] for name in readers if name in members}

    return read
