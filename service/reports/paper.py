"""The report on paper: PDF on Letter where the answer is in US units, on A4 where it is in SI.

Set by Typst, whose wheel brings its own fonts. What is sent reaches it as data, never as markup.
"""

import json
from collections.abc import Mapping
from importlib.resources import files
from typing import Any

import typst

from service.calculations.answer import Answer
from service.calculations.assessment import Assessment
from service.reports.content import make_report
from service.reports.headings import headings

PAPERS = {"us": "us-letter", "si": "a4"}

_SOURCE = files("service.reports").joinpath("paper.typ")


def write_paper(
    body: Mapping[str, Any], answer: Answer[Assessment], written: Mapping[str, Any], system: str, language: str
) -> bytes:
    """Write the report of an assessment as PDF.

    Parameters
    ----------
    body, answer, written, system, language
        As for `service.reports.content.make_report`.

    Returns
    -------
    bytes
    """
    report = make_report(body, answer, written, system, language)
    inputs = {
        "report": json.dumps(report.as_dict()),
        "words": json.dumps(headings(language)),
        "paper": PAPERS[system],
    }
    paper: bytes = typst.compile(_SOURCE.read_bytes(), sys_inputs=inputs, ignore_system_fonts=True, format="pdf")
    return paper
