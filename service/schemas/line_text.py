"""Many objects written one a line: ``application/x-ndjson``, both ways."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

LINES_TYPE = "application/x-ndjson"


@dataclass(frozen=True, kw_only=True, slots=True)
class LineText:
    """How a request of many objects, and its answer, are written one a line.

    Parameters
    ----------
    member : str
        The array of the same objects in the JSON request.
    request, row : str
        Titles of the schemas of a line that is sent and of one that comes back.
    most : int
        Lines a body may have, empty ones included.
    most_together : int
        Lines that may be answered as one JSON object.
    longest : int
        Bytes a line may have.
    body_limit : int
        Bytes a body may have.
    examples : mapping
        Worked requests: name to ``{"summary": ..., "value": text}``.
    """

    member: str
    request: str
    row: str
    most: int
    most_together: int
    longest: int
    body_limit: int
    examples: Mapping[str, Any]

    def request_type(self) -> dict[str, Any]:
        """The entry of the request in the document."""
        description = (
            f"UTF-8, one {self.request} a line, each line ended by a line feed (the last may go without). Up to "
            f"{self.most:,} lines, {self.longest:,} bytes a line and {self.body_limit:,} bytes in all. Empty lines are "
            "passed over."
        )
        return self._content(description, self.request) | {
            "examples": {name: dict(example) for name, example in self.examples.items()}
        }

    def row_type(self) -> dict[str, Any]:
        """The entry of the answer in the document."""
        return self._content(f"One {self.row} a line, in the order sent, each as soon as it is there.", self.row)

    def _content(self, description: str, title: str) -> dict[str, Any]:
        lines = {"type": "array", "items": {"$ref": f"#/components/schemas/{title}"}, "maxItems": self.most}
        schema = {"type": "string", "contentMediaType": LINES_TYPE, "contentSchema": lines, "description": description}
        return {"schema": schema}
