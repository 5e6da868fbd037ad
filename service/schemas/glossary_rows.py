"""Rows of the glossary, read off the OpenAPI document and the tables of findings and problems.

What the document does not describe has no entry, and what it describes has one: nothing is written twice.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from typing import Any

from service.tables.findings.catalogue import FINDINGS
from service.tables.findings.row import FindingRow
from service.tables.problems import PROBLEMS, ProblemRow
from service.units import KINDS

_KIND_OF = {kind.title: kind.name for kind in KINDS.values()}

_SIMPLE = {"integer": "count", "number": "number", "boolean": "flag", "string": "text", "array": "list"}

_BOUNDS = {
    "integer": ("", "minimum", "maximum"),
    "number": ("", "minimum", "maximum"),
    "string": ("characters", "minLength", "maxLength"),
    "array": ("elements", "minItems", "maxItems"),
}
"""Unit and keywords of what bounds a type."""

Schema = Mapping[str, Any]


@dataclass(frozen=True, kw_only=True, slots=True)
class RangeRow:
    """Least and most in one unit."""

    unit: str
    minimum: float
    maximum: float


@dataclass(frozen=True, kw_only=True, slots=True)
class MemberRow:
    """One member in one meaning."""

    term: str
    side: str
    meaning: str
    kind: str
    quantity: str | None = None
    units: tuple[str, ...] = ()
    words: tuple[str, ...] = ()
    allowed: tuple[RangeRow, ...] = ()
    objects: tuple[str, ...] = ()
    operations: tuple[str, ...] = ()


@dataclass(frozen=True, kw_only=True, slots=True)
class GlossaryRows:
    """The whole glossary, or the part of it that has one name."""

    members: tuple[MemberRow, ...]
    findings: tuple[FindingRow, ...]
    problems: tuple[ProblemRow, ...]

    def only(self, term: str | None) -> "GlossaryRows":
        """What is called ``term``; all of it for None."""
        if term is None:
            return self
        return GlossaryRows(
            members=tuple(row for row in self.members if row.term == term),
            findings=tuple(row for row in self.findings if row.code == term),
            problems=tuple(row for row in self.problems if row.slug == term),
        )


def glossary_rows(document: Schema) -> GlossaryRows:
    """Make the glossary.

    Parameters
    ----------
    document : mapping
        The OpenAPI document.

    Returns
    -------
    GlossaryRows
        Members by name, then as the document has them.
    """
    reader = _Document(document)
    objects: dict[MemberRow, dict[str, None]] = {}
    used: dict[MemberRow, dict[str, None]] = {}
    for path, operations in document["paths"].items():
        for operation in (operations[method] for method in ("get", "post") if method in operations):
            for name, row in reader.members_of(operations.get("parameters", []), operation):
                used.setdefault(row, {})[path] = None
                objects.setdefault(row, {}).update({name: None} if name else {})
    members = [replace(row, operations=tuple(used[row]), objects=tuple(names)) for row, names in objects.items()]
    return GlossaryRows(
        members=tuple(sorted(members, key=lambda row: (row.term.lower(), row.side != "request"))),
        findings=tuple(sorted(FINDINGS.values(), key=lambda row: row.code)),
        problems=tuple(sorted(PROBLEMS.values(), key=lambda row: row.slug)),
    )


class _Document:
    """Finds the members below an operation."""

    def __init__(self, document: Schema) -> None:
        self.document = document

    def resolved(self, schema: Schema) -> Schema:
        """What a reference stands for, itself where it is none."""
        target: Any = self.document
        for token in schema.get("$ref", "").split("/")[1:]:
            target = target[token]
        return schema if target is self.document else target

    def members_of(self, shared: list[Schema], operation: Schema) -> Iterator[tuple[str, MemberRow]]:
        """Every member of what is sent, then of what is answered, with the name of its object; fields have none."""
        for parameter in (self.resolved(entry) for entry in (*shared, *operation.get("parameters", []))):
            yield "", self.row(parameter["name"], {**parameter["schema"], **_meaning(parameter)}, "request")
        body = self.resolved(operation.get("requestBody", {}))
        yield from self.below(body.get("content", {}), "request", set())
        seen: set[str] = set()
        for response in (self.resolved(entry) for entry in operation["responses"].values()):
            for name, header in response.get("headers", {}).items():
                header = self.resolved(header)
                yield "", self.row(name, {**header["schema"], **_meaning(header)}, "answer")
            yield from self.below(response.get("content", {}), "answer", seen)

    def below(self, schema: Any, side: str, seen: set[str], within: str = "") -> Iterator[tuple[str, MemberRow]]:
        """Every member of a schema, or of the schemas in what holds some, each component once."""
        if isinstance(schema, list):
            for inner in schema:
                yield from self.below(inner, side, seen, within)
        elif isinstance(schema, Mapping):
            if "$ref" in schema and schema["$ref"] not in seen:
                seen.add(schema["$ref"])
                yield from self.below(self.resolved(schema), side, seen, schema["$ref"].rsplit("/", 1)[-1])
            for name, member in schema.get("properties", {}).items():
                if "description" in member:  # the others only bound what stands elsewhere
                    yield within, self.row(name, member, side)
                yield from self.below(member, side, seen, within)
            for keyword, inner in schema.items():
                if keyword not in ("properties", "allOf", "not", "example", "examples"):
                    yield from self.below(inner, side, seen, within)

    def row(self, term: str, member: Schema, side: str) -> MemberRow:
        """One member as a row, without its operations."""
        row = MemberRow(term=term, side=side, meaning=member["description"], kind="any")
        choices = [inner for inner in member.get("anyOf", [member]) if inner.get("type") != "null"]
        if len(choices) > 1:
            return row
        schema = choices[0]
        target = self.resolved(schema)
        if "enum" in target:
            return replace(row, kind="choice", words=tuple(target["enum"]))
        if "unit" in target.get("properties", {}) and {"value", "values"} & target["properties"].keys():
            return self._quantity(row, schema, target)
        kinds = target.get("type", "object")
        kind = kinds if isinstance(kinds, str) else next(each for each in kinds if each != "null")
        if kind == "object":
            return replace(row, kind="object")
        unit, least, most = _BOUNDS.get(kind, ("", "", ""))
        bounds: tuple[RangeRow, ...] = ()
        if side == "request" and most in target:
            bounds = (RangeRow(unit=unit, minimum=target.get(least, 0), maximum=target[most]),)
        moment = kind == "string" and "pattern" in target
        return replace(row, kind="moment" if moment else _SIMPLE[kind], allowed=bounds)

    def _quantity(self, row: MemberRow, schema: Schema, target: Schema) -> MemberRow:
        """A quantity or a column of them, its bounds from the rules beside the reference."""
        name = schema.get("$ref", "").rsplit("/", 1)[-1].removesuffix("WithGaps").removesuffix("Column")
        units = self.resolved(target["properties"]["unit"])
        allowed = []
        for rule in schema.get("allOf", []):
            then = rule["then"]["properties"]
            bounds = then["value"] if "value" in then else then["values"]["items"]
            symbol = then["unit"]["const"]
            allowed.append(RangeRow(unit=symbol, minimum=bounds["minimum"], maximum=bounds["maximum"]))
        return replace(
            row,
            kind="column" if "values" in target["properties"] else "quantity",
            quantity=_KIND_OF.get(name),
            units=tuple(units.get("enum", ())),
            allowed=tuple(allowed),
        )


def _meaning(entry: Schema) -> Schema:
    return {"description": entry["description"]}
