"""Schemathesis from the document, through the real WSGI application: every check, every phase, both modes.

Two settings differ from stock, and only these: 400 is the answer to what the schema forbids, and 422 is
allowed for a contradiction between members. The share of schema-valid cases that got a 422 is counted
per operation, and must stay below `CONTRADICTION_SHARE`.

What a text in CSV may hold, JSON Schema cannot say, so that every string would be valid: valid tables are made here.
Invalid ones are made in ``tests/schemas/test_table_text.py``.

``tests/contract/fuzz-long`` runs the same with more examples and another seed.
"""

import json
import os
from collections import Counter

import schemathesis
from hypothesis import strategies as st
from schemathesis.config import SchemathesisConfig

from service.app import create_app
from service.settings import Settings

EXAMPLES = int(os.environ.get("FUZZ_EXAMPLES", "200"))
SEED = int(os.environ.get("FUZZ_SEED", "1"))
CONTRADICTION_SHARE = 0.10
FEWEST_CASES = 30

CONFIG = {
    "seed": SEED,
    "generation": {"max-examples": EXAMPLES, "database": "none", "mode": "all"},
    "phases": {"coverage": {"generate-duplicate-query-parameters": True}, "stateful": {"enabled": False}},
    "checks": {
        "positive_data_acceptance": {"expected-statuses": ["2xx", "3xx", "404", "422"]},
        "negative_data_rejection": {"expected-statuses": ["400", "404", "405", "406", "415"]},
    },
}


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


schemathesis.openapi.media_type("text/csv", tables())

application = create_app(Settings(log_level="error"))
api = schemathesis.openapi.from_wsgi("/openapi.json", application, config=SchemathesisConfig.from_dict(CONFIG))

valid: Counter[str] = Counter()
contradicted: Counter[str] = Counter()


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


@api.parametrize()
def test_the_service_keeps_its_contract(case: schemathesis.Case) -> None:
    response = case.call()
    case.validate_response(response)
    if case.method == "POST" and case.meta is not None and case.meta.generation.mode.is_positive:
        valid[case.operation.label] += 1
        contradicted[case.operation.label] += response.status_code == 422


def test_contradictions_are_rare() -> None:
    shares = {label: contradicted[label] / count for label, count in valid.items() if count >= FEWEST_CASES}
    assert shares, "the fuzz test runs first"
    for label, share in sorted(shares.items()):
        print(f"{label}: {valid[label]} schema-valid cases, {share:.1%} contradicted")
    assert {label: share for label, share in shares.items() if share >= CONTRADICTION_SHARE} == {}
