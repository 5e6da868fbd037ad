"""A field accepts exactly what the JSON schema it shows accepts, and says what is wrong with the rest."""

import json
import math
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from jsonschema import Draft202012Validator
from marshmallow import ValidationError

from service.calculations.limits import Limit
from service.schemas.fields import Choice, Field, Flag, Number, Part, Quantity, Rows, Text, Whole, echo
from service.schemas.payload import Payload
from service.units import KINDS, SYMBOLS, SYMBOLS_OF

COMPONENTS = {
    kind.title: {
        "type": "object",
        "properties": {"value": {"type": "number"}, "unit": {"enum": list(SYMBOLS_OF[kind.name])}},
        "required": ["value", "unit"],
        "additionalProperties": False,
    }
    for kind in KINDS.values()
}

FIELDS: dict[str, Field] = {
    "length": Quantity("length", Limit(-10.0, 30.0), description="d"),
    "pressure": Quantity("pressure", Limit(-2500.0, 2500.0), description="d"),
    "temperature": Quantity("temperature", Limit(233.15, 338.15), description="d"),
    "water_flow": Quantity("water_flow", Limit(0.0, 0.001), description="d"),
    "power": Quantity("power", Limit(100.0, 2.0e6), description="d"),
    "ratio": Number(Limit(0.4, 1.0), description="d"),
    "wide": Number(Limit(-1.0e9, 1.0e9), description="d"),
    "whole": Whole(0, 12, description="d"),
    "flag": Flag(description="d"),
    "text": Text(8, description="d"),
    "choice": Choice(("wired", "absent", "unknown"), description="d"),
}


class Point(Payload):
    """Something to put into an array."""

    lift = Quantity("length", Limit(0.0, 30.0), required=True, description="d")
    count = Whole(1, 4, description="d")


def schema_of(field: Any) -> dict[str, Any]:
    return {**field.json_schema(), "components": {"schemas": COMPONENTS}}


VALIDATORS = {name: Draft202012Validator(schema_of(field)) for name, field in FIELDS.items()}


def accepts(field: Any, value: Any) -> bool:
    try:
        field.deserialize(value)
    except ValidationError:
        return False
    return True


def edges(field: Any) -> list[float]:
    """Every bound in every unit, its neighbours on either side, and the same as whole numbers."""
    if isinstance(field, Quantity):
        rules = field.json_schema()["allOf"]
        found = [rule["then"]["properties"]["value"][end] for rule in rules for end in ("minimum", "maximum")]
    elif isinstance(field, (Number, Whole)):
        found = [field.json_schema()[end] for end in ("minimum", "maximum")]
    else:
        found = [0.0, 1.0]
    near = [math.nextafter(value, toward) for value in found for toward in (-math.inf, math.inf)]
    return [*found, *near, *(int(value) for value in found), *(value * (1 + 1e-12) for value in found)]


NUMBERS = (
    st.integers(-20, 20)
    | st.integers()
    | st.floats(allow_nan=False, allow_infinity=False)
    | st.integers(-20, 20).map(float)
    | st.sampled_from([10**400, -(10**400), 2**63, 2**64, 1e308, -1e308, 5e-324, -0.0, 0, 1.5, 2.0])
)
WORDS = st.text(max_size=12) | st.sampled_from(
    ["1", "1.5", "true", "false", "yes", "on", "null", "", "wired", "Wired", "wired ", "8letters", "NaN", "\x00"]
)
SCALARS = st.none() | st.booleans() | NUMBERS | WORDS
JUNK = st.recursive(
    SCALARS,
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(WORDS, inner, max_size=3),
    max_leaves=6,
)
UNITS = st.sampled_from([*SYMBOLS, "inch", "IN", " in", "", "°F", "9**9**9"]) | JUNK
QUANTITY_LIKE = st.fixed_dictionaries(
    {}, optional={"value": NUMBERS | JUNK, "unit": UNITS, "extra": JUNK, "Value": NUMBERS, "_schema": JUNK}
) | st.fixed_dictionaries({"value": NUMBERS, "unit": st.sampled_from(list(SYMBOLS))})


@st.composite
def case(draw: st.DrawFn) -> tuple[str, Any]:
    """A field's name and a value: junk, nearly right, or right at an edge."""
    name = draw(st.sampled_from(sorted(FIELDS)))
    field = FIELDS[name]
    number = st.sampled_from(edges(field)) | NUMBERS
    if isinstance(field, Quantity):
        right = st.fixed_dictionaries({"value": number, "unit": st.sampled_from(field.symbols)})
        return name, draw(right | QUANTITY_LIKE | JUNK)
    return name, draw(number | JUNK | QUANTITY_LIKE)


@given(case())
def test_a_field_accepts_exactly_what_its_schema_accepts(drawn: tuple[str, Any]) -> None:
    name, value = drawn
    assert accepts(FIELDS[name], value) is VALIDATORS[name].is_valid(value)


@pytest.mark.parametrize("name", sorted(FIELDS))
def test_the_edges_of_a_field_are_the_edges_of_its_schema(name: str) -> None:
    """Every bound, and the next float on either side of it, in every unit."""
    field = FIELDS[name]
    units = field.symbols if isinstance(field, Quantity) else (None,)
    seen = set()
    for number in edges(field):
        for unit in units:
            value = number if unit is None else {"value": number, "unit": unit}
            valid = VALIDATORS[name].is_valid(value)
            assert accepts(field, value) is valid, value
            seen.add(valid)
    if isinstance(field, (Quantity, Number, Whole)):
        assert seen == {True, False}


@pytest.mark.parametrize(
    ("name", "value", "valid"),
    [
        # JSON Schema 2020-12 validation 6.1.1: a number without a fraction is an integer, a boolean is no number
        ("whole", 2.0, True),
        ("whole", 1.5, False),
        ("whole", True, False),
        ("whole", "2", False),
        ("whole", 12, True),
        ("whole", 13, False),
        ("whole", 10**400, False),
        ("whole", -0.0, True),
        ("ratio", 1, True),
        ("ratio", True, False),
        ("ratio", "0.5", False),
        ("ratio", 0.4, True),
        ("ratio", 0.39999999999999997, False),
        ("wide", 10**400, False),
        ("flag", 1, False),
        ("flag", "true", False),
        ("flag", 0, False),
        ("flag", False, True),
        ("text", "\U0001f600" * 8, True),  # 6.3.1: length in code points
        ("text", "\U0001f600" * 9, False),
        ("text", "", True),
        ("text", 1, False),
        ("choice", "Wired", False),
        ("choice", ["wired"], False),
        ("choice", "absent", True),
        ("length", {"value": 30, "unit": "m"}, True),
        ("length", {"value": 30.000001, "unit": "m"}, False),
        ("length", {"value": True, "unit": "m"}, False),
        ("length", {"value": "30", "unit": "m"}, False),
        ("length", {"value": 30, "unit": "M"}, False),
        ("length", {"value": 30, "unit": "Pa"}, False),
        ("length", {"value": 30, "unit": "m", "note": ""}, False),
        ("length", {"value": 30}, False),
        ("length", {"unit": "m"}, False),
        ("length", {}, False),
        ("length", 30, False),
        ("length", "30 m", False),
        ("length", [30, "m"], False),
        ("length", {"value": {"value": 1, "unit": "m"}, "unit": "m"}, False),
        ("length", {"value": 1, "unit": {"value": 1}}, False),
        ("length", None, False),
    ],
)
def test_what_json_schema_says_of_a_value(name: str, value: Any, valid: bool) -> None:
    assert VALIDATORS[name].is_valid(value) is valid
    assert accepts(FIELDS[name], value) is valid


@pytest.mark.parametrize(
    ("symbol", "value", "si"),
    [
        # by definition of the units
        ("in", 12, 0.3048),
        ("ft", 1.0, 0.3048),
        ("mm", -15, -0.015),
        ("m", 30, 30.0),
    ],
)
def test_a_quantity_arrives_in_si(symbol: str, value: float, si: float) -> None:
    loaded = FIELDS["length"].deserialize({"value": value, "unit": symbol})
    assert type(loaded) is float
    assert loaded == pytest.approx(si, rel=1e-15)


@given(st.sampled_from(["length", "pressure", "temperature", "water_flow", "power"]), st.data())
def test_an_accepted_quantity_is_inside_the_calculations_own_limit(name: str, data: st.DataObject) -> None:
    field = FIELDS[name]
    assert isinstance(field, Quantity)
    assert field.limit is not None
    symbol = data.draw(st.sampled_from(field.symbols))
    rule = field.json_schema()["allOf"][field.symbols.index(symbol)]["then"]["properties"]["value"]
    number = data.draw(st.floats(rule["minimum"], rule["maximum"]))
    assert field.limit.admits(field.deserialize({"value": number, "unit": symbol}))


def faults(field: Any, value: Any) -> str:
    with pytest.raises(ValidationError) as refused:
        field.deserialize(value)
    return json.dumps(refused.value.messages if isinstance(refused.value.messages, list) else _plain(refused.value))


def _plain(error: ValidationError) -> dict[str, Any]:
    messages: Any = error.messages
    return {key[0] if isinstance(key, tuple) else key: text for key, text in messages.items()}


@pytest.mark.parametrize(
    ("name", "value", "parts"),
    [
        ("length", {"value": 99, "unit": "ft"}, ["99 ft", "-32.808 to 98.425 ft"]),
        ("length", {"value": 5000, "unit": "in"}, ["5000 in", "-393.7 to 1181.1 in"]),
        ("length", {"value": "12", "unit": "in"}, ['\\"12\\"', "not a number", "-393.7 to 1181.1 in"]),
        ("length", {"value": True, "unit": "m"}, ["true", "not a number", "-10 to 30 m"]),
        ("length", {"value": 1, "unit": "inch"}, ['\\"inch\\"', "in, ft, mm, cm, m"]),
        ("length", {"value": 1, "unit": "m", "uncertainty": 2}, ["uncertainty", "only"]),
        ("length", {"value": 1}, ["unit", "missing", "in, ft, mm, cm, m"]),
        ("length", {"unit": "m"}, ["value", "missing", "-10 to 30 m"]),
        ("length", {}, ["value", "unit", "missing"]),
        ("length", 12, ["12", "in, ft, mm, cm, m"]),
        ("length", [1], ["an array"]),
        ("length", {"value": 10**400, "unit": "m"}, ["1000", "-10 to 30 m"]),
        # degF: (233.15 K) is -40 exactly, (338.15 K) is 149
        ("temperature", {"value": 150, "unit": "degF"}, ["150 degF", "-40 to 149 degF"]),
        ("ratio", 1.5, ["1.5", "0.4 to 1"]),
        ("ratio", "1", ['\\"1\\"', "not a number", "0.4 to 1"]),
        ("whole", 1.5, ["1.5", "0 to 12"]),
        ("whole", 13, ["13", "0 to 12"]),
        ("flag", "yes", ['\\"yes\\"', "true, false"]),
        ("text", "123456789", ["9 characters", "0 to 8"]),
        ("text", 5, ["5", "not text"]),
        ("choice", "wire", ['\\"wire\\"', "wired, absent, unknown"]),
        ("choice", None, ["null", "leave the member out"]),
    ],
)
def test_an_error_names_what_was_received_and_what_is_allowed(name: str, value: Any, parts: list[str]) -> None:
    text = faults(FIELDS[name], value)
    for part in parts:
        assert part in text


def test_every_fault_of_a_quantity_is_named_at_once() -> None:
    with pytest.raises(ValidationError) as refused:
        FIELDS["length"].deserialize({"value": "12", "unit": "inch", "tolerance": 1})
    assert set(_plain(refused.value)) == {"value", "unit", "tolerance"}


@given(JUNK)
def test_an_echo_is_short_and_of_one_piece(value: Any) -> None:
    assert 0 < len(echo(value)) <= 60


ROWS = Rows(Part(Point, description="d"), fewest=2, most=3, description="d")


@pytest.mark.parametrize("count", [0, 1, 2, 3, 4])
def test_an_array_has_its_bounds(count: int) -> None:
    rows = [{"lift": {"value": 1, "unit": "m"}}] * count
    assert accepts(ROWS, rows) is (2 <= count <= 3)


@pytest.mark.parametrize("value", [None, {}, "ab", 3, True])
def test_an_array_is_nothing_else(value: Any) -> None:
    assert not accepts(ROWS, value)
    if value is not None:
        assert "2 to 3" in faults(ROWS, value)


def test_a_fault_in_an_array_is_told_by_its_place() -> None:
    good, bad = {"lift": {"value": 1, "unit": "m"}}, {"lift": {"value": 99, "unit": "m"}, "count": 9}
    with pytest.raises(ValidationError) as refused:
        ROWS.deserialize([good, bad])
    messages: Any = refused.value.messages
    assert set(messages) == {1}
    assert set(messages[1]) == {"lift", "count"}


def test_an_array_arrives_as_a_tuple() -> None:
    good = {"lift": {"value": 1, "unit": "m"}}
    assert ROWS.deserialize([good, good]) == ({"lift": 1.0}, {"lift": 1.0})


def test_a_field_without_a_description_is_refused() -> None:
    with pytest.raises(TypeError):
        Flag()  # type: ignore[call-arg]
