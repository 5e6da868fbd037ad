"""A column accepts exactly what its JSON schema accepts, at the speed of a list, and names the rows that are wrong."""

import json
from collections.abc import Callable
from datetime import datetime, timedelta
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from jsonschema import Draft202012Validator
from marshmallow import ValidationError

from service.calculations.limits import Limit
from service.schemas.columns import MOST_FAULTS, LocalTime, NumberColumn, QuantityColumn
from service.schemas.payload import Written
from service.schemas.word_lists import UNIT_LISTS
from service.schemas.writing import NotFinite, compile_writer

TEMPERATURE = QuantityColumn("temperature", Limit(223.15, 333.15), most=5, description="d")
PERCENT = NumberColumn(Limit(1.0, 100.0), most=5, description="d")
TIME = LocalTime(description="d")
FIELDS: dict[str, Any] = {"temperature": TEMPERATURE, "percent": PERCENT, "time": TIME}
UNITS = {each.name: each.json_schema() for each in UNIT_LISTS}


def validator(field: Any) -> Draft202012Validator:
    return Draft202012Validator({**field.json_schema(), "components": {"schemas": UNITS | dict(field.components)}})


VALIDATORS = {name: validator(field) for name, field in FIELDS.items()}


def accepts(field: Any, value: Any) -> bool:
    try:
        field.deserialize(value)
    except ValidationError:
        return False
    return True


JSON = st.recursive(
    st.none() | st.booleans() | st.integers(-(10**400), 10**400) | st.floats(allow_nan=False) | st.text(max_size=3),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.text(max_size=3), inner, max_size=2),
    max_leaves=4,
)
ELEMENT = st.integers(-70, 350) | st.floats(-70, 350) | st.sampled_from([-58, 140, -50, 60, 223.15, 333.15]) | JSON
SYMBOL = st.sampled_from(["degF", "degC", "K", "in", "", "k"]) | JSON


@given(
    JSON
    | st.fixed_dictionaries({"values": st.lists(ELEMENT, max_size=6) | JSON, "unit": SYMBOL})
    | st.fixed_dictionaries(
        {"values": st.lists(st.integers(-60, 60), max_size=6), "unit": st.just("degC")}, optional={"x": JSON}
    )
)
def test_a_quantity_column_accepts_exactly_what_its_schema_accepts(value: Any) -> None:
    assert accepts(TEMPERATURE, value) is VALIDATORS["temperature"].is_valid(value)


@given(JSON | st.lists(ELEMENT, max_size=6) | st.lists(st.integers(0, 101), max_size=6))
def test_a_number_column_accepts_exactly_what_its_schema_accepts(value: Any) -> None:
    assert accepts(PERCENT, value) is VALIDATORS["percent"].is_valid(value)


def test_a_column_becomes_floats_in_si() -> None:
    # 32 degF and 0 degC are 273.15 K; 212 degF would be 373.15 K, beyond the limit
    assert TEMPERATURE.deserialize({"values": [32, 50.0], "unit": "degF"}) == pytest.approx([273.15, 283.15])
    assert TEMPERATURE.deserialize({"values": [0, 10], "unit": "degC"}) == pytest.approx([273.15, 283.15])
    percent = PERCENT.deserialize([50, 60.5])
    assert percent == [50.0, 60.5]
    assert {type(value) for value in percent} == {float}


def faults(field: Any, value: Any) -> Any:
    with pytest.raises(ValidationError) as caught:
        field.deserialize(value)
    return caught.value.messages


def test_every_wrong_row_is_named_with_what_it_was_and_what_it_may_be() -> None:
    messages = faults(TEMPERATURE, {"values": [70, True, 500, "70", None], "unit": "degF"})
    assert messages == {
        "values": {
            1: ["Received true, which is not a number; allowed -58 to 140 degF."],
            2: ["Received 500 degF; allowed -58 to 140 degF."],
            3: ['Received "70", which is not a number; allowed -58 to 140 degF.'],
            4: ["Received null, which is not a number; allowed -58 to 140 degF."],
        }
    }
    assert faults(PERCENT, [50, 0.5]) == {1: ["Received 0.5; allowed 1 to 100."]}


def test_a_wrong_unit_and_wrong_rows_are_told_together() -> None:
    messages = faults(TEMPERATURE, {"values": [70, "x"], "unit": "F", "more": 1})
    assert "allowed: degF, degC, K" in messages["unit"][0]
    assert list(messages["values"]) == [1]
    assert ("more",) in messages


@pytest.mark.parametrize(
    ("value", "said"),
    [
        ([70], "expected"),
        ({"unit": "degF"}, "required and is missing"),
        ({"values": [70]}, "required and is missing"),
        ({"values": {}, "unit": "degF"}, "expected an array of 1 to 5"),
        ({"values": [], "unit": "degF"}, "Received 0 elements; allowed 1 to 5"),
        ({"values": [70] * 6, "unit": "degF"}, "Received 6 elements; allowed 1 to 5"),
    ],
)
def test_a_column_of_another_shape_is_refused(value: Any, said: str) -> None:
    assert said in json.dumps(faults(TEMPERATURE, value))


def test_a_hundred_wrong_rows_are_named_and_the_others_counted() -> None:
    column = NumberColumn(Limit(1.0, 100.0), most=8784, description="d")
    messages = faults(column, [0] * 8784)
    assert list(messages) == [*range(MOST_FAULTS), "_schema"]
    assert messages["_schema"] == ["8684 more elements are wrong; the first 100 are named."]


def test_a_year_of_rows_is_read_as_a_whole_and_not_one_by_one(count_calls: Callable[..., int]) -> None:
    column = QuantityColumn("temperature", Limit(223.15, 333.15), most=8784, description="d")
    percent = NumberColumn(Limit(1.0, 100.0), most=8784, description="d")
    for rows in (10, 8784):
        values = [60.0 + index % 40 for index in range(rows)]
        assert count_calls(lambda: column.deserialize({"values": values, "unit": "degF"})) < 30  # noqa: B023 - at once
        assert count_calls(lambda: percent.deserialize(values)) < 30  # noqa: B023


@given(st.from_regex(TIME.json_schema()["pattern"].removesuffix("$") + r"\Z", fullmatch=False))
def test_a_time_that_matches_the_pattern_exists(text: str) -> None:
    assert TIME.deserialize(text) == datetime.fromisoformat(text)


def test_every_date_of_two_centuries_is_read_and_none_besides() -> None:
    date, seen = datetime(1900, 1, 1), set()
    while date.year < 2100:
        seen.add(date.strftime("%Y-%m-%d"))
        date += timedelta(days=1)
    for year in range(1899, 2101):
        for month in range(14):
            for day in range(33):
                text = f"{year}-{month:02}-{day:02}"
                assert accepts(TIME, text) == (text in seen), text


@pytest.mark.parametrize("text", ["2026-07-14", "2026-07-14T15:00", "2026-07-14T23:59:59", "2028-02-29T00:00"])
def test_a_time_is_read(text: str) -> None:
    assert TIME.deserialize(text) == datetime.fromisoformat(text)
    assert VALIDATORS["time"].is_valid(text)


@pytest.mark.parametrize(
    "value",
    [
        *("", "2026-02-29", "2026-7-14", "2026-07-14 15:00", "2026-07-14T24:00", "2026-07-14T15", "2026-07-14T15:00Z"),
        *(
            "2026-07-14T15:00+02:00",
            "20260714",
            "2026-W29-2",
            "14.07.2026",
            " 2026-07-14",
            "2026-07-14\n",
            20260714,
            None,
        ),
        *("\uff12\uff10\uff12\uff16-07-14", "2026-07-14T15:00:60"),
    ],
)
def test_anything_else_is_no_time(value: Any) -> None:
    message = faults(TIME, value)
    assert "without a zone" in message[0] or value is None
    assert not VALIDATORS["time"].is_valid(value) or value == "2026-07-14\n"  # Python's $ lets a line end pass


class ColumnWritten(Written):
    """A column of an answer."""

    rates = QuantityColumn("water_flow", most=9, gaps=True, required=True, description="d")


class ColumnResults:
    """Its SI floats."""

    def __init__(self, rates: Any) -> None:
        self.rates = rates


def test_a_column_is_written_in_the_units_asked_for_with_its_gaps() -> None:
    litre_a_second = 1e-3
    gallon = 3.785411784e-3
    results = ColumnResults((litre_a_second, None, 0.0))
    assert compile_writer(ColumnWritten(), "si")(results) == {
        "rates": {"values": [pytest.approx(3600.0), None, 0.0], "unit": "L/h"}
    }
    us = compile_writer(ColumnWritten(), "us")(results)["rates"]
    assert us == {"values": [pytest.approx(3.6 / gallon), None, 0.0], "unit": "gal/h"}
    validator(ColumnWritten().fields["rates"]).validate(us)


def test_a_column_that_is_not_finite_is_never_written() -> None:
    for value in (float("nan"), float("inf")):
        with pytest.raises(NotFinite):
            compile_writer(ColumnWritten(), "si")(ColumnResults((1.0, value)))
