"""The compiled reader and marshmallow agree: on what they read to the last digit, and on what they refuse."""

import copy
import importlib
import pkgutil
from typing import Any

import marshmallow
import pytest
from hypothesis import given
from hypothesis import strategies as st
from marshmallow import ValidationError

import service.schemas
from service.schemas.payload import Payload, Written
from service.schemas.reading import Unsound

for module in pkgutil.iter_modules(service.schemas.__path__, "service.schemas."):
    importlib.import_module(module.name)


def below(cls: type[Payload]) -> list[type[Payload]]:
    return [cls, *(found for each in cls.__subclasses__() for found in below(each))]


# of the tests' own payloads there may be some too
REQUESTS = [
    cls for cls in below(Payload) if cls.examples and not issubclass(cls, Written) and cls.__module__[:8] == "service."
]
SCHEMAS = {cls.__name__: cls() for cls in REQUESTS}
EXAMPLES = [(name, example["value"]) for name, schema in SCHEMAS.items() for example in dict(schema.examples).values()]


def read(schema: Payload, value: Any) -> str:
    """What the compiled reader makes of a value, or that it gives up."""
    try:
        return repr(schema.read_sound(value))
    except (Unsound, ValidationError):
        return "refused"


def loaded(schema: Payload, value: Any) -> str:
    """What marshmallow makes of it."""
    try:
        return repr(marshmallow.Schema.load(schema, value))
    except ValidationError:
        return "refused"


def places(value: Any) -> list[tuple[Any, Any]]:
    """Every member and element in a value, as what holds it and where."""
    keys = list(value) if isinstance(value, dict) else list(range(len(value))) if isinstance(value, list) else []
    return [(value, key) for key in keys] + [place for key in keys for place in places(value[key])]


ODD = (
    st.none()
    | st.booleans()
    | st.integers(-(2**70), 2**70)
    | st.floats()
    | st.text(max_size=3)
    | st.just([])
    | st.just({})
    | st.builds(lambda number, unit: {"value": number, "unit": unit}, st.floats(), st.sampled_from(["in", "Pa", "x"]))
)


@st.composite
def bodies(draw: st.DrawFn) -> tuple[str, Any]:
    """A worked example of some operation with up to three changes; some leave it sound."""
    name, example = draw(st.sampled_from(EXAMPLES))
    value = copy.deepcopy(example)
    for _ in range(draw(st.integers(1, 3))):
        found = places(value)
        if not found:
            break
        holder, key = draw(st.sampled_from(found))
        change = draw(st.sampled_from(["replace", "drop", "add", "scale", "copy"]))
        if change == "replace":
            holder[key] = draw(ODD)
        elif change == "drop":
            del holder[key]
        elif change == "scale" and type(holder[key]) in (int, float):
            holder[key] *= draw(st.sampled_from([0, -1, 0.5, 1, 2, 1.0, 1e3, 1e30]))
        elif change == "add" and isinstance(holder, dict):
            holder[draw(st.sampled_from(["", "_schema", "value", "unit", *SCHEMAS[name].fields]))] = draw(ODD)
        elif change == "copy":
            other, place = draw(st.sampled_from(found))
            holder[key] = copy.deepcopy(other.get(place) if isinstance(other, dict) else None)
    return name, value


def test_every_request_of_the_service_is_here() -> None:
    assert len(REQUESTS) >= 20
    assert len(EXAMPLES) >= 60


@pytest.mark.parametrize(("name", "value"), EXAMPLES, ids=lambda value: value if isinstance(value, str) else "")
def test_a_worked_example_is_read_as_marshmallow_reads_it(name: str, value: Any) -> None:
    assert read(SCHEMAS[name], value) == loaded(SCHEMAS[name], value) != "refused"


@given(bodies())
def test_a_changed_example_is_read_or_refused_by_both(body: tuple[str, Any]) -> None:
    name, value = body
    schema = SCHEMAS[name]
    assert read(schema, value) == loaded(schema, value)


@pytest.mark.parametrize("name", SCHEMAS)
@given(st.data())
def test_what_is_no_example_at_all_is_refused_by_both_or_read_the_same(name: str, data: st.DataObject) -> None:
    members = st.dictionaries(st.sampled_from([*SCHEMAS[name].fields, "", "_schema"]), ODD, max_size=3)
    value = data.draw(ODD | members | st.lists(members, max_size=2))
    assert read(SCHEMAS[name], value) == loaded(SCHEMAS[name], value)


def test_an_object_is_read_by_marshmallow_where_something_is_wrong() -> None:
    schema = SCHEMAS["DrainPitchRequest"]
    with pytest.raises(ValidationError) as refused:
        schema.load({"run": {"value": 1, "unit": "ft"}, "fall": 1, "slope": 2})
    assert set(refused.value.messages) == {"fall", ("slope",)}
