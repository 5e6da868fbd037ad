"""What schemathesis cannot read out of the document: bodies that are text, and what is asked of every answer besides.

`schemathesis.toml` names this file: the command line and ``test_fuzz.py`` use the same. What a text in CSV or in lines
may hold, JSON Schema cannot say, so that every string would be valid: valid ones are made here. Invalid ones are made
in ``tests/schemas/test_table_text.py`` and ``tests/routes/test_assessment_lines.py``.
"""

import json
from typing import Any

import schemathesis
from hypothesis import reject
from hypothesis import strategies as st
from jsonschema import Draft202012Validator
from schemathesis.errors import InvalidSchema

TABLE_TYPE = "text/csv"
LINES_TYPE = "application/x-ndjson"


@schemathesis.hook
def before_generate_case(context: schemathesis.HookContext, strategy: st.SearchStrategy[Any]) -> st.SearchStrategy[Any]:
    """Pass over a mutated schema that the library finds too large to spell out.

    "not" of a whole request that holds a unit: "result is not supported in canonical form". The library passes over
    others it cannot draw from, but not over this one. A schema of ours never is so.
    """

    @st.composite
    def drawn(draw: st.DrawFn) -> Any:
        try:
            return draw(strategy)
        except InvalidSchema:
            reject()

    return drawn()


@st.composite
def tables(draw: st.DrawFn) -> bytes:
    """A series as CSV: any settings, any humidity, with and without times, as different programs write it."""
    settings = [f"air_flow,{draw(st.integers(11, 500000))},cfm"]
    if draw(st.booleans()):
        percent = draw(st.floats(1.0, 100.0))
        settings += [f"leaving_air.dry_bulb,{draw(st.integers(34, 80))},degF"]
        settings += [f"leaving_air.relative_humidity_percent,{percent!r}"]
    else:
        settings += [f"coil.total_capacity,{draw(st.integers(1, 2000))},ton"]
        settings += [f"coil.bypass_factor,{draw(st.floats(0.0, 0.9))!r}"]
    settings += draw(st.lists(st.sampled_from(["elevation,-3,m", "off_below,15,degC", "hourly,true"]), unique=True))
    temperature = st.floats(-50.0, 35.0).map(repr)
    name, humidity = draw(
        st.sampled_from(
            [
                ("wet_bulb degC", temperature),
                ("dew_point degC", temperature),
                ("relative_humidity_percent", st.integers(1, 100).map(str)),
            ]
        )
    )
    columns = {"dry_bulb degC": temperature, name: humidity}
    if draw(st.booleans()):
        columns["run_fraction"] = st.floats(0.0, 1.0).map(repr)
    timed = draw(st.booleans())
    if not timed:
        settings += ["start,2027-12-31"]
    end = draw(st.sampled_from(["\n", "\r\n"]))
    lines = [*draw(st.permutations(settings)), "", ",".join((["time"] if timed else []) + list(columns))]
    for row in range(draw(st.integers(1, 24))):
        cells = [draw(column) for column in columns.values()]
        lines.append(",".join(([f"2027-12-31T{row:02}:00"] if timed else []) + cells))
    return (end.join(lines) + draw(st.sampled_from(["", end]))).encode()


schemathesis.openapi.media_type(TABLE_TYPE, tables())

QUANTITIES = {
    "pan_pressure": st.tuples(st.floats(-5.0, 5.0), st.sampled_from(["inH2O", "kPa"])),
    "elevation": st.tuples(st.integers(-1000, 5000), st.just("ft")),
    "no_such_member": st.tuples(st.integers(), st.just("in")),
}


@st.composite
def units(draw: st.DrawFn) -> str:
    """A line of a batch: a unit, one that is none, or no JSON at all; some as another program writes it."""
    kind = draw(st.integers(0, 3))
    if kind == 0:
        return draw(st.text().filter(lambda text: "\n" not in text and text.strip()))
    members = draw(st.lists(st.sampled_from(list(QUANTITIES)), unique=True))
    unit: dict[str, Any] = {"unit_id": draw(st.text(max_size=20))} if draw(st.booleans()) else {}
    for name in members:
        value, symbol = draw(QUANTITIES[name])
        unit[name] = {"value": value, "unit": symbol}
    if draw(st.booleans()):
        depth = draw(st.floats(0.0, 12.0))
        unit["trap"] = {"outlet_drop": {"value": depth, "unit": "in"}, "seal_depth": {"value": 2, "unit": "in"}}
    text = json.dumps(unit, ensure_ascii=draw(st.booleans()))
    return text[: draw(st.integers(1, len(text)))] if kind == 1 else text


@st.composite
def lines(draw: st.DrawFn) -> bytes:
    """Lines of a batch, with empty ones between."""
    end = draw(st.sampled_from(["\n", "\r\n", "\n\n"]))
    rows = draw(st.lists(units(), min_size=1, max_size=8))
    return (end.join(rows) + draw(st.sampled_from(["", end]))).encode("utf-8", "replace")


schemathesis.openapi.media_type(LINES_TYPE, lines())


@schemathesis.hook
def before_load_schema(context: schemathesis.HookContext, raw_schema: dict[str, Any]) -> None:
    """Worked examples of bodies that are text, as bytes: nothing else goes with what is drawn here."""
    for operations in raw_schema["paths"].values():
        for media_type, body in operations.get("post", {}).get("requestBody", {}).get("content", {}).items():
            if media_type in (TABLE_TYPE, LINES_TYPE):
                for example in body["examples"].values():
                    example["value"] = example["value"].encode()


@schemathesis.deserializer(LINES_TYPE)
def text_of(ctx: Any, response: schemathesis.Response) -> str:
    """The document calls the whole a text; `rows_in_lines` looks at each."""
    return response.content.decode()


@schemathesis.check
def problem_details(ctx: schemathesis.CheckContext, response: schemathesis.Response, case: schemathesis.Case) -> None:
    """Every error is RFC 9457 with the status of the status line, and every answer has the common header fields."""
    if response.status_code >= 400 and case.method != "HEAD":
        assert response.headers["content-type"] == ["application/problem+json"]
        assert response.json()["status"] == response.status_code
    assert response.headers["x-content-type-options"] == ["nosniff"]


@schemathesis.check
def finite_numbers(ctx: schemathesis.CheckContext, response: schemathesis.Response, case: schemathesis.Case) -> None:
    """No JSON answer holds NaN, Infinity or minus zero."""

    def refuse(text: str) -> float:
        raise AssertionError(f"{text} in an answer")

    if response.status_code == 200 and response.headers["content-type"] == ["application/json"]:
        json.loads(response.content, parse_constant=refuse)
        assert b":-0.0," not in response.content
        assert b":-0.0}" not in response.content


@schemathesis.check
def rows_in_lines(ctx: schemathesis.CheckContext, response: schemathesis.Response, case: schemathesis.Case) -> None:
    """An answer in lines has one row, as the document has it, for each line sent that is not empty, in order."""
    if response.status_code == 200 and response.headers["content-type"] == [LINES_TYPE]:
        components = case.operation.schema.raw_schema["components"]
        row = Draft202012Validator({"$ref": "#/components/schemas/AssessmentBatchRow", "components": components})
        rows = [json.loads(line) for line in response.content.splitlines()]
        for each in rows:
            row.validate(each)
        assert [row["index"] for row in rows] == list(range(len(rows)))
        if isinstance(case.body, bytes):
            assert len(rows) == sum(1 for line in case.body.split(b"\n") if line.strip())
