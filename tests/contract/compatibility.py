"""Compares two OpenAPI documents of the service and names everything that can break a caller of the older one.

A request the older document allows must be allowed by the newer one; an answer the newer one allows must be one the
older one led to expect. Callers ignore members they do not know, new codes of findings and cautions, and new units,
which they did not ask for (DEVELOPERS.md, How the contract is versioned). Bounds of answers are not promised. Texts and
examples are no part of it. A keyword that is not known here counts as a break where it differs: extend this then.
"""

import json
import re
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

METHODS = ("get", "put", "post", "delete", "options", "head", "patch", "trace")
LOWER = ("minimum", "exclusiveMinimum", "minLength", "minItems")
UPPER = ("maximum", "exclusiveMaximum", "maxLength", "maxItems")
EXACT = ("pattern", "multipleOf", "uniqueItems", "contentMediaType")
TEXTS = ("description", "title", "examples", "example", "default", "format", "deprecated")
CONSTANTS = "x-enum-varnames"
HANDLED = {
    CONSTANTS,
    *(*LOWER, *UPPER, *EXACT, *TEXTS, "$ref", "type", "enum", "const", "anyOf", "allOf", "not", "properties"),
    *("required", "additionalProperties", "items", "contentSchema", "minProperties", "maxProperties"),
}
MAY_GROW = re.compile("answer ((Finding|Caution)( /c|C)ode|.*(/u|U)nit)")
"""Closed lists of an answer to which a release may add, by a name of their own or where they stand."""

Schema = dict[str, Any]


@dataclass(frozen=True, order=True)
class Break:
    """Something that can break a caller.

    Parameters
    ----------
    kind : str
    place : str
        Operation, or side, schema and pointer.
    detail : str
        What it was and is.
    """

    kind: str
    place: str
    detail: str = ""


def breaks(old: dict[str, Any], new: dict[str, Any]) -> list[Break]:
    """Name every break between two documents.

    Parameters
    ----------
    old, new : dict
        OpenAPI documents.

    Returns
    -------
    list of Break
        Sorted, each once.
    """
    comparison = _Documents(old, new)
    for path, operations in old["paths"].items():
        if path not in new["paths"]:
            comparison.note("path-removed", path)
            continue
        for method in METHODS:
            if method in operations:
                comparison.operation(operations[method], new["paths"][path].get(method), f"{method.upper()} {path}")
    known, now = (document["components"]["schemas"] for document in (old, new))
    for name in known:
        if name not in now:
            comparison.note("schema-removed", name, "clients are generated from the names")
    return sorted(set(comparison.found))


class _Documents:
    """Two documents and what was found so far."""

    def __init__(self, old: dict[str, Any], new: dict[str, Any]) -> None:
        self.old, self.new = old, new
        self.found: list[Break] = []
        self.seen: set[tuple[str, str, bool]] = set()

    def note(self, kind: str, place: str, detail: str = "") -> None:
        self.found.append(Break(kind, place, detail))

    def operation(self, old: dict[str, Any], new: dict[str, Any] | None, place: str) -> None:
        if new is None:
            self.note("operation-removed", place)
            return
        if old["operationId"] != new["operationId"]:
            self.note("operation-id-changed", place, f"{old['operationId']} is {new['operationId']}")
        before, now = self.parameters(self.old, old), self.parameters(self.new, new)
        for key, entry in before.items():
            where = f"{place} {' '.join(key)}"
            if key not in now:
                self.note("parameter-removed", where)
            else:
                self.schema(entry["schema"], now[key]["schema"], where, answer=False)
        for key, entry in now.items():
            if entry.get("required") and not before.get(key, {}).get("required"):
                self.note("parameter-required", f"{place} {' '.join(key)}")
        body, new_body = old.get("requestBody", {}), new.get("requestBody", {})
        if new_body.get("required") and not body.get("required"):
            self.note("body-required", place)
        self.content(body, new_body, place, answer=False)
        for status, response in old["responses"].items():
            where = f"{place} {status}"
            if status not in new["responses"]:
                self.note("status-removed", where)
                continue
            response = self.resolved(self.old, response)
            new_response = self.resolved(self.new, new["responses"][status])
            for name in response.get("headers", {}):
                if name not in new_response.get("headers", {}):
                    self.note("header-removed", where, name)
            self.content(response, new_response, where, answer=True)

    def content(self, old: dict[str, Any], new: dict[str, Any], place: str, *, answer: bool) -> None:
        for media_type, media in old.get("content", {}).items():
            if media_type not in new.get("content", {}):
                self.note("media-type-removed", place, f"{media_type} of the {'answer' if answer else 'request'}")
            else:
                self.schema(media["schema"], new["content"][media_type]["schema"], place, answer=answer)

    def parameters(self, document: dict[str, Any], operation: dict[str, Any]) -> dict[tuple[str, str], Any]:
        """What an operation takes beside a body, by place and name."""
        entries = (self.resolved(document, entry) for entry in operation.get("parameters", ()))
        return {(entry["in"], entry["name"]): entry for entry in entries}

    @staticmethod
    def resolved(document: dict[str, Any], entry: dict[str, Any]) -> dict[str, Any]:
        """What a reference stands for, with what stands beside it."""
        while "$ref" in entry:
            target: Any = document
            for token in entry["$ref"].split("/")[1:]:
                target = target[token]
            entry = {**target, **{name: value for name, value in entry.items() if name != "$ref"}}
        return entry

    def units_of(self, document: dict[str, Any], quantity: Schema) -> list[str]:
        """The units of a quantity, or none of anything else."""
        units: list[str] = self.resolved(document, quantity.get("properties", {}).get("unit", {})).get("enum", [])
        return units

    def schema(self, old: Schema, new: Schema, place: str, *, answer: bool) -> None:
        """Compare two schemas; what both call by a name is compared once, under the older name."""
        if "$ref" in old and "$ref" in new:
            key = (old["$ref"], new["$ref"], answer)
            target = self.resolved(self.old, {"$ref": old["$ref"]})
            if key not in self.seen:
                self.seen.add(key)
                name = f"{'answer' if answer else 'request'} {old['$ref'].rsplit('/', 1)[1]}"
                self._compare(target, self.resolved(self.new, {"$ref": new["$ref"]}), name, answer)
            units = self.units_of(self.old, target)
            beside = ({name: value for name, value in side.items() if name != "$ref"} for side in (old, new))
            self._compare(*beside, place, answer, units)
        else:
            self._compare(self.resolved(self.old, old), self.resolved(self.new, new), place, answer)

    def _compare(self, old: Schema, new: Schema, place: str, answer: bool, units: list[str] | None = None) -> None:
        if "anyOf" in old or "anyOf" in new:
            self._alternatives(old, new, place, answer)
            return
        self._types(old, new, place, answer)
        self._values(old, new, place, answer)
        self._members(old, new, place, answer)
        for keyword in ("items", "contentSchema"):
            if keyword in old and keyword in new:
                self.schema(old[keyword], new[keyword], _below(place, "*"), answer=answer)
        if not answer:
            self._bounds(old, new, place)
            units = units or self.units_of(self.old, old)
            self._rules(old.get("allOf", []), new.get("allOf", []), place, units)
            self._presence(old, new, place)
        for keyword in sorted({*old, *new} - HANDLED):
            if old.get(keyword) != new.get(keyword):
                self.note("keyword-changed", place, keyword)

    def _alternatives(self, old: Schema, new: Schema, place: str, answer: bool) -> None:
        olds, news = old.get("anyOf", [old]), new.get("anyOf", [new])
        needed, offered = (news, olds) if answer else (olds, news)
        for index, alternative in enumerate(needed):
            trials = []
            for other in offered:
                trial = _Documents(self.old, self.new)
                trial.seen = set(self.seen)
                trial.schema(*((other, alternative) if answer else (alternative, other)), place, answer=answer)
                trials.append(trial)
            if not any(not trial.found for trial in trials):
                best = min(trials, key=lambda trial: len(trial.found))
                if len(olds) == len(news) or len(needed) <= len(offered):
                    self.found += best.found
                else:
                    self.note("type-changed", place, f"alternative {index + 1} of {len(needed)} has no counterpart")

    def _types(self, old: Schema, new: Schema, place: str, answer: bool) -> None:
        before, now = _types_of(old), _types_of(new)
        narrow, wide = (now, before) if answer else (before, now)
        if wide is not None and (narrow is None or not narrow <= wide):
            self.note("type-changed", place, f"{old.get('type')} is {new.get('type')}")

    def _values(self, old: Schema, new: Schema, place: str, answer: bool) -> None:
        before, now = _values_of(old), _values_of(new)
        narrow, wide = (now, before) if answer else (before, now)
        for name, value in _constants_of(old).items():
            if _constants_of(new).get(name, value) != value:
                self.note("keyword-changed", place, f"{CONSTANTS} of {value}")
        if wide is None or (answer and MAY_GROW.fullmatch(place)):
            return
        lost = ["any other"] if narrow is None else [value for value in narrow if value not in wide]
        for value in lost:
            self.note("value-added" if answer else "value-removed", place, str(value))

    def _members(self, old: Schema, new: Schema, place: str, answer: bool) -> None:
        members, now = old.get("properties", {}), new.get("properties", {})
        for name, member in members.items():
            if name not in now:
                self.note("member-removed", _below(place, name))
            else:
                self.schema(member, now[name], _below(place, name), answer=answer)
        required, still = set(old.get("required", ())), set(new.get("required", ()))
        for name in sorted(required - still if answer else still - required):
            if name in now or not answer:
                self.note("member-optional" if answer else "member-required", _below(place, name))
        if not answer and old.get("additionalProperties", True) and not new.get("additionalProperties", True):
            self.note("object-closed", place)

    def _bounds(self, old: Schema, new: Schema, place: str, beside: str = "") -> None:
        for keyword in (*LOWER, *UPPER, *EXACT):
            before, now = old.get(keyword), new.get(keyword)
            if now is None or now == before or (keyword in EXACT and not now):
                continue
            if before is None or keyword in EXACT or (now > before if keyword in LOWER else now < before):
                self.note("bound-narrowed", place, f"{beside}{keyword} {before} is {now}")

    def _rules(self, old: list[Schema], new: list[Schema], place: str, units: list[str]) -> None:
        """Bounds by the unit; those of units that are new bind nobody yet."""
        before, now = (
            {_unit_of(rule): dict(_bounds_in(rule["then"])) for rule in rules if "if" in rule} for rules in (old, new)
        )
        for unit, places in now.items():
            if unit in units or unit in before:
                for pointer, bounds in places.items():
                    self._bounds(before.get(unit, {}).get(pointer, {}), bounds, place, f"{unit}: ")
        plain = [rule for rule in old if "if" not in rule]
        for rule in new:
            if "if" not in rule and rule not in plain:
                self.note("keyword-changed", place, "allOf")

    def _presence(self, old: Schema, new: Schema, place: str) -> None:
        """Which members may stand together: tried with none, each, every pair and all of the older optional ones."""
        members = set(old.get("properties", {}))
        required = set(old.get("required", ()))
        optional = sorted(members - required)
        trials = [set(), set(optional), *({name} for name in optional)]
        trials += [{first, second} for index, first in enumerate(optional) for second in optional[:index]]
        eased = {**new, "required": [name for name in new.get("required", ()) if name in required]}
        for trial in trials:
            if _together(old, required | trial) and not _together(eased, required | trial):
                self.note("combination-refused", place, " and ".join(sorted(trial)) or "no optional member")


def _below(place: str, name: str) -> str:
    """The place of a member: pointers go on, schemas and operations begin one."""
    words = place.split(" ")
    goes_on = words[-1].startswith("/") and not (len(words) == 2 and words[0].isupper())
    return f"{place}/{name}" if goes_on else f"{place} /{name}"


def _types_of(schema: Schema) -> set[str] | None:
    kinds = schema.get("type")
    if kinds is None:
        return None
    found = {kinds} if isinstance(kinds, str) else set(kinds)
    return found | {"integer"} if "number" in found else found


def _values_of(schema: Schema) -> list[Any] | None:
    values: list[Any] | None = schema.get("enum", [schema["const"]] if "const" in schema else None)
    return values


def _constants_of(schema: Schema) -> dict[str, Any]:
    """What generated clients call each value of a list, where it says so."""
    return dict(zip(schema.get(CONSTANTS, ()), schema.get("enum", ()), strict=False))


def _unit_of(rule: Schema) -> str:
    unit: str = rule["if"]["properties"]["unit"]["const"]
    return unit


def _bounds_in(schema: Schema, pointer: str = "") -> Iterator[tuple[str, Schema]]:
    """Every bound below a schema by its place."""
    found = {keyword: schema[keyword] for keyword in (*LOWER, *UPPER, *EXACT) if keyword in schema}
    if found:
        yield pointer, found
    for name, inner in schema.get("properties", {}).items():
        yield from _bounds_in(inner, f"{pointer}/{name}")
    if "items" in schema:
        yield from _bounds_in(schema["items"], f"{pointer}/*")


def _together(schema: Schema, names: set[str]) -> bool:
    """Whether an object may have just these members."""
    refused = schema.get("not", {"anyOf": []})
    for clause in refused.get("anyOf", [refused]):
        absent = {name for name, inner in clause.get("properties", {}).items() if inner == {"not": {}}}
        known = {"required", "properties"} >= set(clause)
        assert known, f"a clause that is not understood: {json.dumps(clause)}"
        if set(clause.get("required", ())) <= names and not absent & names:
            return False
    fewest, most = schema.get("minProperties", 0), schema.get("maxProperties", len(names))
    return set(schema.get("required", ())) <= names and fewest <= len(names) <= most
