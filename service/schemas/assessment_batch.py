"""Payloads of ``assessment/batch``."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from marshmallow import ValidationError

from service.schemas.assessment import AssessmentAnswer, AssessmentRequest
from service.schemas.fields import Field, Part, Rows, Whole
from service.schemas.line_text import LineText
from service.schemas.payload import Payload, Written

MOST_UNITS = 1000

MOST_LINES = 100_000
"""Units of a body of one unit a line; empty lines count."""

LONGEST_LINE = 256 * 1024
"""Most bytes of a line: what the body of a single assessment may have."""

LINES_BODY_LIMIT = 256 * 1024 * 1024
"""Most bytes of a body of lines, of which only a little is in memory at any time."""


@dataclass(frozen=True, slots=True)
class ReadUnit:
    """One unit of a batch as read: what the assessment takes, or why it could not be read.

    Parameters
    ----------
    arguments : dict or None
    error : Exception or None
        A ``ValidationError`` where the schema refuses it; of a line also what else is wrong with it.
    line : int or None
        Of a body of one unit a line, from 1.
    """

    arguments: dict[str, Any] | None
    error: Exception | None
    line: int | None = None


class AnyUnit(Field):
    """One unit of many, read by itself, so that a bad one spoils only its own row.

    Parameters
    ----------
    payload : type of Payload
        What a unit is read as.
    """

    components: Mapping[str, dict[str, Any]] = {
        "UnreadableUnit": {"type": "object", "description": "Anything else: its own row answers with the problem."}
    }

    def __init__(self, *, payload: type[Payload] = AssessmentRequest, **options: Any) -> None:
        super().__init__(**options)
        self.schema = payload()
        self.refers_to = (self.schema,)

    def read(self, value: Any) -> ReadUnit:
        if not isinstance(value, dict):
            raise ValidationError("Expected a JSON object.")
        try:
            return ReadUnit(arguments=self.schema.load(value), error=None)
        except ValidationError as error:
            return ReadUnit(arguments=None, error=error)

    def json_schema(self) -> dict[str, Any]:
        names = (type(self.schema).__name__, "UnreadableUnit")
        return {"anyOf": [{"$ref": f"#/components/schemas/{name}"} for name in names]}


class AssessmentBatchRequest(Payload):
    """Many units in one request; each is read and answered by itself, in the order sent."""

    units = Rows(
        AnyUnit(description="One unit, as `assessment` takes it."),
        fewest=1,
        most=MOST_UNITS,
        required=True,
        description="The units.",
    )

    examples = {
        "three-units": {
            "summary": "Two units and one that cannot be read",
            "value": {
                "units": [
                    {
                        "unit_id": "AHU-1",
                        "cooling": {"total_capacity": {"value": 5, "unit": "ton"}, "sensible_heat_ratio": 0.75},
                        "pan_pressure": {"value": -0.8, "unit": "inH2O"},
                        "trap": {
                            "outlet_drop": {"value": 2, "unit": "in"},
                            "seal_depth": {"value": 1.5, "unit": "in"},
                        },
                    },
                    {"unit_id": "AHU-2", "pan_presure": {"value": -0.8, "unit": "inH2O"}},
                    {
                        "unit_id": "AHU-3",
                        "line": {"run": {"value": 12, "unit": "m"}, "fall": {"value": 60, "unit": "mm"}},
                    },
                ]
            },
        },
    }


class ProblemObject(Field):
    """The problem details of one row."""

    def json_schema(self) -> dict[str, Any]:
        return {"$ref": "#/components/schemas/Problem"}


class AssessmentBatchRow(Written):
    """The answer to one unit, or the problem with it."""

    index = Whole(0, MOST_LINES - 1, required=True, description="Place of the unit in the request, from 0.")
    status = Whole(200, 599, required=True, description="HTTP status the unit would have had alone.")
    answer = Part(AssessmentAnswer, required=True, nullable=True, description="The assessment; null with a problem.")
    problem = ProblemObject(
        required=True, nullable=True, description="What is wrong with this unit; null with an answer."
    )


class AssessmentBatchAnswer(Written):
    """One row a unit, in the order sent."""

    rows = Rows(
        Part(AssessmentBatchRow, description="One unit."), most=MOST_UNITS, required=True, description="The rows."
    )


UNIT_LINES = LineText(
    member="units",
    request="AssessmentRequest",
    row="AssessmentBatchRow",
    most=MOST_LINES,
    most_together=MOST_UNITS,
    longest=LONGEST_LINE,
    body_limit=LINES_BODY_LIMIT,
    examples={
        "unit-a-line": {
            "summary": "Two units, one a line, and a line between that is cut short",
            "value": '{"unit_id":"AHU-1","cooling":{"total_capacity":{"value":5,"unit":"ton"}},'
            '"pan_pressure":{"value":-0.8,"unit":"inH2O"},'
            '"trap":{"outlet_drop":{"value":2,"unit":"in"},"seal_depth":{"value":1.5,"unit":"in"}}}\n'
            '{"unit_id":"AHU-2","pan_pressure":{"value":-0.8,\n'
            '{"unit_id":"AHU-3","line":{"run":{"value":12,"unit":"m"},"fall":{"value":60,"unit":"mm"}}}\n',
        },
    },
)
