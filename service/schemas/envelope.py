"""The envelope every calculation answers with."""

from collections.abc import Mapping
from typing import Any

from service.calculations.answer import VERDICTS
from service.schemas.fields import Choice, Field, Part, Rows, Text
from service.schemas.payload import Written
from service.tables.cautions import CAUTIONS
from service.tables.findings.catalogue import FINDINGS
from service.tables.findings.row import ATTENTION, FAIL, INFO

MOST_NOTES = 5000
"""Bound on findings, assumptions, cautions and sources, shown so that no array is unbounded."""


class AssumedValue(Field):
    """A quantity, a number, a word or a flag: whatever member the assumption stands for."""

    components: Mapping[str, dict[str, Any]] = {
        "AssumedQuantity": {
            "type": "object",
            "description": "A quantity of any kind.",
            "properties": {
                "value": {"type": "number", "description": "The number."},
                "unit": {"type": "string", "description": "The unit; `reference/units` lists them all."},
            },
            "required": ["value", "unit"],
        }
    }

    def json_schema(self) -> dict[str, Any]:
        return {
            "anyOf": [
                {"$ref": "#/components/schemas/AssumedQuantity"},
                {"type": "number"},
                {"type": "string"},
                {"type": "boolean"},
            ]
        }


class Finding(Written):
    """One thing found about the installation, how bad it is, and what to do about it."""

    code = Choice(
        tuple(sorted(FINDINGS)), required=True, description="Stable code; `reference/findings` lists them all."
    )
    severity = Choice((INFO, ATTENTION, FAIL), required=True, description="How bad it is.")
    message = Text(required=True, description="What was found, with its numbers, in a technician's words.")
    remedy = Text(required=True, description="What to do about it.")
    pointer = Text(
        required=True, description="RFC 6901 pointer to the request member it is about; empty for the whole request."
    )
    basis = Text(required=True, description="A code clause, a standard, `physics` or `common practice`.")


class Assumption(Written):
    """A default that entered the numbers because the request did not say."""

    pointer = Text(required=True, description="RFC 6901 pointer to the member that would replace it.")
    value = AssumedValue(required=True, description="The value used.")
    note = Text(required=True, description="Why this value.")


class Caution(Written):
    """A warning to show whoever does the work."""

    code = Choice(
        tuple(sorted(CAUTIONS)), required=True, description="Stable code; `reference/cautions` lists them all."
    )
    message = Text(required=True, description="The warning, in full.")


class Source(Written):
    """A published work a number rests on."""

    label = Text(required=True, description="Title of the work.")
    clause = Text(required=True, description="Clause, table, chapter or equation.")


class Envelope(Written):
    """Verdict, results and everything a person should know about them."""

    verdict = Choice(VERDICTS, required=True, description="The worst severity among the findings.")
    findings = Rows(
        Part(Finding, description="One finding."),
        most=MOST_NOTES,
        required=True,
        description="What was found, the worst first.",
    )
    assumptions = Rows(
        Part(Assumption, description="One default."),
        most=MOST_NOTES,
        required=True,
        description="Every default that entered the numbers.",
    )
    cautions = Rows(
        Part(Caution, description="One caution."),
        most=MOST_NOTES,
        required=True,
        description="Warnings to show whoever does the work, each once.",
    )
    sources = Rows(
        Part(Source, description="One source."),
        most=MOST_NOTES,
        required=True,
        description="What the numbers rest on.",
    )


def answer_of(results: type[Written], name: str) -> type[Envelope]:
    """Make the envelope class of one operation.

    Parameters
    ----------
    results : type of Written
        Schema of the ``results`` member.
    name : str
        Name of the component in the document, for instance ``TrapCheckAnswer``.
    """
    members = {
        "__doc__": f"The answer envelope with {results.__name__} as its results.",
        "results": Part(results, required=True, description="The numbers."),
    }
    return type(name, (Envelope,), members)
