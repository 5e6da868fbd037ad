"""A payload is closed, its member groups agree with its schema, and its faults are named all at once."""

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from jsonschema import Draft202012Validator
from marshmallow import ValidationError

from service.calculations.limits import Limit
from service.schemas.fields import Flag, Number, Part, Quantity, Rows, Text, Whole
from service.schemas.payload import MOST_HINTS, MOST_UNKNOWN, Payload, group_schema

MEMBERS = ("a", "b", "c", "d")


class Free(Payload):
    """Nothing is asked of the members together."""

    a = Whole(0, 9, description="d")
    b = Whole(0, 9, description="d")
    c = Whole(0, 9, description="d")
    d = Whole(0, 9, required=True, description="d")


class AtMostTwo(Free):
    """Two members exclude each other."""

    at_most_one_of = ("a", "b")


class AtMostThree(Free):
    """Three members exclude each other."""

    at_most_one_of = ("a", "b", "c")


class TwoPairs(Free):
    """Two pairs, the members of each excluding each other."""

    at_most_one_of = ("a", "b")
    exclusions = (("b", "c"),)


class AtLeastTwo(Free):
    """One of two, or both."""

    at_least_one_of = ("a", "b")


class AtLeastThree(Free):
    """One of three, or more."""

    at_least_one_of = ("a", "b", "c")


class Exactly(Payload):
    """A required member and one of three."""

    exactly_one_of = ("a", "b", "c")

    a = Whole(0, 9, description="d")
    b = Whole(0, 9, description="d")
    c = Whole(0, 9, description="d")
    d = Whole(0, 9, required=True, description="d")


class ExactlyAndMore(Free):
    """One of two, others that need not be there, and two that exclude each other."""

    exactly_one_of = ("a", "b")
    at_most_one_of = ("b", "c")


class MostAndLeast(Free):
    """Two that exclude each other, and one of two that must be there."""

    at_most_one_of = ("a", "b")
    at_least_one_of = ("b", "c")


GROUPED = (Free, AtMostTwo, AtMostThree, TwoPairs, AtLeastTwo, AtLeastThree, Exactly, ExactlyAndMore, MostAndLeast)


def schema_of(payload: Payload) -> dict[str, Any]:
    described: dict[str, Any] = {
        "type": "object",
        "properties": {name: field.json_schema() for name, field in payload.fields.items()},  # type: ignore[attr-defined]
        "required": [name for name, field in payload.fields.items() if field.required],
        "additionalProperties": False,
    }
    return {**described, **group_schema(payload)}


def accepts(payload: Payload, value: Any) -> bool:
    try:
        payload.load(value)
    except ValidationError:
        return False
    return True


def expected(cls: type[Payload], given_names: set[str]) -> bool:
    """The rule in plain words of sets."""
    return (
        "d" in given_names
        and all(len(given_names & set(group)) <= 1 for group in (cls.at_most_one_of, *cls.exclusions))
        and (not cls.exactly_one_of or len(given_names & set(cls.exactly_one_of)) == 1)
        and (not cls.at_least_one_of or bool(given_names & set(cls.at_least_one_of)))
    )


@pytest.mark.parametrize("cls", GROUPED, ids=lambda cls: cls.__name__)
def test_a_group_rule_is_the_same_in_the_schema_the_reader_and_in_words(cls: type[Payload]) -> None:
    """Every one of the sixteen sets of members there can be."""
    payload = cls()
    schema = schema_of(payload)
    Draft202012Validator.check_schema(schema)
    for bits in range(16):
        names = {name for index, name in enumerate(MEMBERS) if bits >> index & 1}
        value = dict.fromkeys(names, 1)
        assert accepts(payload, value) is expected(cls, names), names
        assert Draft202012Validator(schema).is_valid(value) is expected(cls, names), names


@given(
    st.sampled_from(GROUPED),
    st.dictionaries(
        st.sampled_from([*MEMBERS, "e", "A", "_schema", "", "a "]),
        st.none() | st.integers(-1, 10) | st.text(max_size=2),
    ),
)
def test_a_payload_accepts_exactly_what_its_schema_accepts(cls: type[Payload], value: dict[str, Any]) -> None:
    payload = cls()
    assert accepts(payload, value) is Draft202012Validator(schema_of(payload)).is_valid(value)


@dataclass(frozen=True, kw_only=True)
class Tube:
    """What a nested part becomes."""

    bore: float
    elbows: int | None = None


class TubePart(Payload):
    """A tube."""

    into = Tube
    bore = Quantity("length", Limit(0.003, 0.1), required=True, description="d")
    elbows = Whole(0, 40, description="d")


class Request(Payload):
    """A request with everything in it."""

    at_most_one_of = ("lift", "pressure_head")
    inflow = Quantity("water_flow", Limit(0.0, 1e-3), required=True, description="d")
    lift = Quantity("length", Limit(0.0, 30.0), description="d")
    pressure_head = Quantity("pressure", Limit(0.0, 3e5), description="d")
    sensible_heat_ratio = Number(Limit(0.4, 1.0), description="d")
    check_valve = Flag(description="d")
    note = Text(20, description="d")
    tube = Part(TubePart, description="d")
    tubes = Rows(Part(TubePart, description="d"), most=3, description="d")


GOOD = {"inflow": {"value": 1.6, "unit": "gal/h"}, "tube": {"bore": {"value": 10, "unit": "mm"}}}


def messages_of(value: Any) -> Any:
    with pytest.raises(ValidationError) as refused:
        Request().load(value)
    return refused.value.messages


def test_a_nested_part_arrives_as_its_dataclass() -> None:
    loaded = Request().load(GOOD)
    assert loaded["tube"] == Tube(bore=pytest.approx(0.01))
    # 1.6 gal/h of 231 in3
    assert loaded["inflow"] == pytest.approx(1.6 * 231 * 0.0254**3 / 3600)
    assert set(loaded) == {"inflow", "tube"}


@pytest.mark.parametrize(
    ("name", "near"),
    [
        ("infow", "inflow"),
        ("Lift", "lift"),
        ("sensible_heat_ration", "sensible_heat_ratio"),
        ("checkValve", "check_valve"),
        ("pressure", "pressure_head"),
        ("notes", "note"),
    ],
)
def test_an_unknown_member_is_offered_the_nearest_one(name: str, near: str) -> None:
    assert messages_of({**GOOD, name: 1})[(name,)] == [f'Unknown member "{name}"; did you mean "{near}"?']


def test_an_unknown_member_like_none_is_told_all() -> None:
    text = messages_of({**GOOD, "zzzz": 1})[("zzzz",)][0]
    assert all(name in text for name in Request().fields)


@pytest.mark.parametrize("name", ["_schema", "", "a/b", "a~b", "\x00", "0", "__class__", "constructor", "tube.bore"])
def test_an_unknown_member_of_any_name_is_about_itself(name: str) -> None:
    messages = messages_of({**GOOD, name: 1})
    assert set(messages) == {(name,)}


def test_a_member_called_as_the_whole_hides_no_fault_of_the_whole() -> None:
    both = {"lift": {"value": 1, "unit": "m"}, "pressure_head": {"value": 1, "unit": "kPa"}}
    messages = messages_of({**GOOD, **both, "_schema": 1})
    assert set(messages) == {"_schema", ("_schema",)}
    assert messages["_schema"] == ["Give at most one of lift, pressure_head; received lift, pressure_head."]


def test_every_fault_is_named_at_once() -> None:
    value = {
        "lift": {"value": -1, "unit": "ft"},
        "pressure_head": {"value": 1, "unit": "ft"},
        "sensible_heat_ratio": "0.7",
        "check_valve": 1,
        "note": "x" * 21,
        "tube": {"elbows": 2.5, "bores": 1},
        "tubes": [{"bore": None}],
        "extra": 1,
    }
    messages = messages_of(value)
    assert set(messages) == {
        "_schema",
        "inflow",
        "lift",
        "pressure_head",
        "sensible_heat_ratio",
        "check_valve",
        "note",
        "tube",
        "tubes",
        ("extra",),
    }
    assert set(messages["tube"]) == {"bore", "elbows", ("bores",)}
    assert set(messages["tubes"][0]) == {"bore"}


@pytest.mark.parametrize("value", [None, True, 0, 1.5, "text", [], [1]])
def test_what_is_no_object_is_said_to_be_none(value: Any) -> None:
    assert "expected a JSON object" in messages_of(value)["_schema"][0]
    if value is not None:
        assert "expected a JSON object" in messages_of({**GOOD, "tube": value})["tube"]["_schema"][0]


def test_of_a_body_of_unknown_members_a_few_are_compared_with_the_known(count_calls: Callable[..., int]) -> None:
    """As many members as 256 KiB hold; a comparison of each with every known name would take seconds."""
    value = {f"infloww{index:x}": 0 for index in range(20000)}
    assert count_calls(lambda: messages_of(value)) < 3 * 20000
    messages = messages_of(value)
    assert len(messages) == MOST_UNKNOWN + 2  # those, the missing inflow, and the count
    assert messages["_schema"] == ["19900 more members are unknown; 100 are named."]
    assert sum("did you mean" in text for texts in messages.values() for text in texts) == MOST_HINTS


def test_unknown_members_are_counted_over_all_parts_of_an_object() -> None:
    """None of what is known is lost, and no part hides that it has unknown ones."""
    junk = {f"x{index}": 0 for index in range(40)}
    messages = messages_of(
        {**GOOD, "lift": {"value": -1, "unit": "ft"}, "tubes": [{**GOOD["tube"], **junk}] * 3, **junk}
    )
    named = sum(isinstance(name, tuple) for part in (messages, *messages["tubes"].values()) for name in part)
    assert named == MOST_UNKNOWN
    assert "Received -1 ft" in str(messages["lift"])
    counted = [part["_schema"][0] for part in (messages, *messages["tubes"].values()) if "_schema" in part]
    assert sum(int(text.split()[0]) for text in counted) == 160 - MOST_UNKNOWN
