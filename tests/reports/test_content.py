"""What a report says: all that was found, once, in the owner's words and in the technician's."""

import json
from pathlib import Path
from typing import Any

import pytest
from flask import Flask

from service.calculations.assessment import assess_unit
from service.reports.content import Report, make_report
from service.schemas.assessment import AssessmentAnswer, AssessmentRequest
from service.schemas.writing import compile_answer_writer
from service.tables.concerns import CONCERN_OF

ROOT = Path(__file__).parents[2]
EXAMPLES = {name: example["value"] for name, example in AssessmentRequest.examples.items()}


def report_of(request: dict[str, Any], system: str = "us") -> tuple[Report, dict[str, Any]]:
    body: Any = AssessmentRequest().load(request)
    answer = assess_unit(**body)
    written = compile_answer_writer(AssessmentAnswer(), system)(answer)
    return make_report(body, answer, written, system, "en"), written


@pytest.mark.parametrize("name", EXAMPLES)
def test_nothing_that_was_found_is_left_out(name: str) -> None:
    report, written = report_of(EXAMPLES[name])
    assert [row.message for row in report.findings] == [row["message"] for row in written["findings"]]
    assert [row.basis for row in report.findings] == [row["basis"] for row in written["findings"]]
    assert list(report.cautions) == [row["message"] for row in written["cautions"]]
    assert len(report.assumptions) == len(written["assumptions"])
    assert len(report.sources) == len(written["sources"])
    assert report.verdict == written["verdict"]
    worst: dict[str, str] = {}
    for row in written["findings"]:
        if row["severity"] != "info":  # findings come worst first
            worst.setdefault(CONCERN_OF[row["code"]].heading, row["severity"])
    assert {row.heading: row.severity for row in report.concerns} == worst


def test_the_owner_reads_each_concern_once_failures_first() -> None:
    report, written = report_of(json.loads((ROOT / "deploy" / "demo-unit.json").read_text()))
    headings = [row.heading for row in report.concerns]
    assert len(headings) == len(set(headings)) < len(written["findings"])
    severities = [row.severity for row in report.concerns]
    assert severities == sorted(severities, key=["fail", "attention"].index)
    assert report.summary == "Two things need repair and two things want attention."
    assert report.place == "attic, finished ceiling below"


def test_numbers_are_rounded_for_a_reader_and_follow_the_units() -> None:
    """An outlet drop of suction 1.7 in and 1 in: 2.7 in, 68.58 mm."""
    unit = json.loads((ROOT / "deploy" / "demo-unit.json").read_text())
    for system, drop in (("us", "2.7 in"), ("si", "68.6 mm")):
        numbers = dict(report_of(unit, system)[0].numbers)
        assert ("outlet drop to build", drop) in numbers["Trap"]


def test_what_was_not_judged_is_said() -> None:
    report, _ = report_of({"cooling": {"total_capacity": {"value": 3, "unit": "ton"}}})
    assert report.not_known
    assert ("trap", "not assessed") in report.parts
    assert not report.figures


def test_a_unit_without_fault_is_said_to_have_none(app: Flask) -> None:
    sound = {
        "unit_id": "sound",
        "pan_pressure": {"value": -0.5, "unit": "inH2O"},
        "trap": {"outlet_drop": {"value": 2, "unit": "in"}, "seal_depth": {"value": 1.5, "unit": "in"}},
        "line": {"run": {"value": 20, "unit": "ft"}, "fall": {"value": 6, "unit": "in"}, "cleanout": "removable"},
    }
    report, written = report_of(sound)
    assert written["verdict"] == "pass"
    assert (report.verdict_word, report.concerns) == ("In order", ())
    assert "nothing" in report.summary
