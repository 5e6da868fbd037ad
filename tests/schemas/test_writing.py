"""What leaves: plain finite numbers in the caller's units, and the catalogue's sentences filled in."""

import json
import math
from dataclasses import dataclass
from typing import Any

import orjson
import pytest
from hypothesis import given
from hypothesis import strategies as st

from service.calculations.answer import Answer, Assumption, Finding, Sentence
from service.schemas.envelope import answer_of
from service.schemas.fields import Flag, Number, Part, Quantity, Rows, Text
from service.schemas.fields import Sentence as SentenceField
from service.schemas.payload import Written
from service.schemas.writing import (
    NotFinite,
    compile_answer_writer,
    compile_writer,
    fill,
    quantity_writer,
    write_assumption,
    write_caution,
    write_finding,
    write_source,
)
from service.tables.cautions import CAUTIONS
from service.tables.findings.catalogue import FINDINGS
from service.tables.sources import SOURCES
from service.units import SYMBOLS


class StateWritten(Written):
    """One state."""

    level = Quantity("length", required=True, description="d")
    running = Flag(required=True, description="d")


class ResultsWritten(Written):
    """Results of every type."""

    drop = Quantity("length", required=True, nullable=True, description="d")
    capacity = Quantity("power", us="ton", si="kW", required=True, description="d")
    ratio = Number(required=True, nullable=True, description="d")
    word = Text(required=True, description="d")
    states = Rows(Part(StateWritten, description="d"), most=9, required=True, description="d")
    levels = Rows(Quantity("length", description="d"), most=9, required=True, description="d")
    first = Part(StateWritten, required=True, nullable=True, description="d")


@dataclass(frozen=True, kw_only=True, slots=True)
class State:
    """One state, SI."""

    level: float
    running: bool


@dataclass(frozen=True, kw_only=True, slots=True)
class Results:
    """Results, SI."""

    drop: float | None = 0.0254
    capacity: float = 35168.52842067
    ratio: float | None = 0.75
    word: str = "wired"
    states: tuple[State, ...] = (State(level=0.3048, running=True),)
    levels: tuple[float, ...] = (0.0254, 0.0508)
    first: State | None = None


def test_results_are_written_in_the_units_asked_for() -> None:
    # an inch is 25.4 mm, a foot 12 in, a ton 3.5168528 kW
    us = compile_writer(ResultsWritten(), "us")(Results())
    assert us["drop"] == {"value": pytest.approx(1.0), "unit": "in"}
    assert us["capacity"] == {"value": pytest.approx(10.0), "unit": "ton"}
    assert us["states"] == [{"level": {"value": pytest.approx(12.0), "unit": "in"}, "running": True}]
    assert us["levels"][1] == {"value": pytest.approx(2.0), "unit": "in"}
    si = compile_writer(ResultsWritten(), "si")(Results())
    assert si["drop"] == {"value": pytest.approx(25.4), "unit": "mm"}
    assert si["capacity"] == {"value": pytest.approx(35.168528), "unit": "kW"}
    assert (si["ratio"], si["word"], si["first"]) == (0.75, "wired", None)


class SaidWritten(Written):
    """Results with sentences."""

    said = SentenceField(required=True, nullable=True, description="d")
    reasons = Rows(SentenceField(description="d"), most=9, required=True, description="d")


@dataclass(frozen=True, kw_only=True, slots=True)
class Said:
    """Results with sentences, SI."""

    said: Sentence | None
    reasons: tuple[Sentence, ...]


def test_a_sentence_among_the_results_is_filled_in_the_units_asked_for() -> None:
    pour = Sentence(text="Pour {volume:gal|L} at the {place}.", values={"volume": 3.785411784e-3, "place": "pan"})
    results = Said(said=pour, reasons=(pour, Sentence(text="No number.")))
    us, si = (compile_writer(SaidWritten(), system)(results) for system in ("us", "si"))
    assert us == {"said": "Pour 1 gal at the pan.", "reasons": ["Pour 1 gal at the pan.", "No number."]}
    assert si["said"] == "Pour 3.79 L at the pan."
    assert compile_writer(SaidWritten(), "us")(Said(said=None, reasons=())) == {"said": None, "reasons": []}


def test_what_cannot_be_computed_is_null() -> None:
    written = compile_writer(ResultsWritten(), "us")(Results(drop=None, ratio=None))
    assert written["drop"] is None
    assert written["ratio"] is None
    assert compile_writer(ResultsWritten(), "us")(None) is None


@pytest.mark.parametrize("bad", [math.nan, math.inf, -math.inf])
@pytest.mark.parametrize("member", ["drop", "capacity", "ratio", "levels", "first"])
def test_a_number_json_cannot_carry_is_a_fault_of_ours(member: str, bad: float) -> None:
    value: Any = {"levels": (bad,), "first": State(level=bad, running=True)}.get(member, bad)
    with pytest.raises(NotFinite):
        compile_writer(ResultsWritten(), "us")(Results(**{member: value}))


@pytest.mark.parametrize("bad", [math.nan, math.inf])
@pytest.mark.parametrize("symbols", [None, "in|mm"])
def test_an_assumption_is_finite_too(bad: float, symbols: str | None) -> None:
    with pytest.raises(NotFinite):
        write_assumption(Assumption(pointer="/x", value=bad, note="n", symbols=symbols), "us")


@pytest.mark.parametrize("system", ["us", "si"])
def test_minus_zero_is_written_as_zero(system: str) -> None:
    minus = Results(drop=-0.0, ratio=-0.0, capacity=-0.0, levels=(-0.0,), first=State(level=-0.0, running=False))
    assert b"-0" not in orjson.dumps(compile_writer(ResultsWritten(), system)(minus))
    assert b"-0" not in orjson.dumps(write_assumption(Assumption(pointer="", value=-0.0, note="n"), system))


@given(st.sampled_from(sorted(SYMBOLS)), st.floats(-1e12, 1e12))
def test_a_written_quantity_reads_back_as_the_same_number(symbol: str, value: float) -> None:
    written = json.loads(orjson.dumps(quantity_writer(symbol)(value)))
    assert written["unit"] == symbol
    assert SYMBOLS[symbol].to_si(written["value"]) == pytest.approx(value, rel=1e-12, abs=1e-9)


@pytest.mark.parametrize(
    ("text", "values", "us", "si"),
    [
        ("No number.", {}, "No number.", "No number."),
        ("{a:in|mm}", {"a": 0.0254}, "1 in", "25.4 mm"),
        ("From {a:ft|m} to {b:ft|m}.", {"a": 0.3048, "b": 3.048}, "From 1 ft to 10 ft.", "From 0.305 m to 3.05 m."),
        ("{count} of {word}", {"count": 3, "word": "four"}, "3 of four", "3 of four"),
        ("{percent} %", {"percent": 1.04166}, "1.04 %", "1.04 %"),
        ("{t:degF|degC}", {"t": 298.15}, "77 degF", "25 degC"),
        ("{t:s}", {"t": 90.0}, "90 s", "90 s"),
        ("{t:s|s}", {"t": 90.0}, "90 s", "90 s"),
        ("{{braces}} stay", {}, "{braces} stay", "{braces} stay"),
        ("{word}", {"word": "{a:in|mm} <b>"}, "{a:in|mm} <b>", "{a:in|mm} <b>"),
        ("{q:gal/h|L/h}", {"q": 1.0515e-6}, "1 gal/h", "3.79 L/h"),
        ("{a:in|mm}", {"a": 0.0}, "0 in", "0 mm"),
    ],
)
def test_a_template_is_filled(text: str, values: dict[str, Any], us: str, si: str) -> None:
    assert fill(text, values, "us") == us
    assert fill(text, values, "si") == si


def test_a_missing_value_is_a_fault_of_ours_and_no_gap_in_a_sentence() -> None:
    with pytest.raises(KeyError):
        fill("{a:in|mm}", {}, "us")


def test_an_answer_is_the_envelope_of_the_contract() -> None:
    code = "line-runs-uphill"
    values = {"rise": 0.0254, "run": 3.048, "fall": -0.0254, "percent": -0.8, "minimum_fall": 0.03175}
    values["recommended_fall"] = 0.0635
    answer = Answer(
        results=Results(),
        findings=(Finding(code=code, pointer="/fall", values=values),),
        assumptions=(Assumption(pointer="/elevation", value=304.8, note="Sea level.", symbols="ft|m"),),
        cautions=("local-code",),
        sources=("common-practice",),
    )
    envelope = answer_of(ResultsWritten, "TestAnswer")()
    written = compile_answer_writer(envelope, "us")(answer)
    assert list(written) == ["verdict", "results", "findings", "assumptions", "cautions", "sources"]
    assert written["verdict"] == FINDINGS[code].severity
    assert written["findings"][0] == write_finding(answer.findings[0], "us")
    assert set(written["findings"][0]) == {"code", "severity", "message", "remedy", "pointer", "basis"}
    assert "{" not in written["findings"][0]["message"] + written["findings"][0]["remedy"]
    assert written["assumptions"] == [
        {"pointer": "/elevation", "value": {"value": pytest.approx(1000.0), "unit": "ft"}, "note": "Sea level."}
    ]
    assert set(envelope.fields) == set(written)


def test_every_caution_and_source_can_be_written() -> None:
    for code, message in CAUTIONS.items():
        assert write_caution(code) == {"code": code, "message": message}
    for key in SOURCES:
        assert all(write_source(key).values())
