"""Nothing the last released document promises is broken without being declared; and the comparison finds breaks.

A break is declared in ``openapi/CHANGES.md``, in the section of the version that makes it, as a list item of the form
``- break `kind` `place`: why``.
"""

import copy
import json
import re
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from compatibility import breaks

OPENAPI = Path(__file__).parents[2] / "openapi"
CHANGES = (OPENAPI / "CHANGES.md").read_text()
NOW: dict[str, Any] = json.loads((OPENAPI / "openapi.json").read_bytes())
REWRITE = "declare it in openapi/CHANGES.md, or take it back"


def version_of(document: dict[str, Any]) -> tuple[int, ...]:
    return tuple(int(part) for part in document["info"]["version"].split("."))


RELEASED = sorted(
    (json.loads(path.read_bytes()) for path in (OPENAPI / "released").glob("openapi-*.json")), key=version_of
)
LAST = RELEASED[-1]


def declared_since(released: tuple[int, ...]) -> set[tuple[str, str]]:
    """Kind and place of every break declared in the sections of later versions."""
    found = set()
    for section in re.split(r"^## ", CHANGES, flags=re.MULTILINE)[1:]:
        version = tuple(int(part) for part in section.split("\n", 1)[0].split("."))
        if version > released:
            found |= set(re.findall(r"^- break `([a-z-]+)` `([^`]+)`: \S", section, re.MULTILINE))
    return found


def test_released_documents_are_called_by_their_version() -> None:
    for path in (OPENAPI / "released").iterdir():
        assert path.name == f"openapi-{json.loads(path.read_bytes())['info']['version']}.json"


def test_every_break_since_the_last_release_is_declared_and_no_other() -> None:
    found = {(each.kind, each.place): each.detail for each in breaks(LAST, NOW)}
    declared = declared_since(version_of(LAST))
    assert {key: detail for key, detail in found.items() if key not in declared} == {}, REWRITE
    assert declared - set(found) == set(), "declared, but not there"


def test_the_version_moves_as_far_as_the_changes_need() -> None:
    """DEVELOPERS.md: a break is a major step (semver.org, 4: before 1.0.0 a minor one), what is added a minor one."""
    before, now = version_of(LAST), version_of(NOW)
    added = [each for each in breaks(NOW, LAST) if each.kind != "combination-refused"]
    if breaks(LAST, NOW):
        assert now[:1] > before[:1] or (now[0] == 0 and now[:2] > before[:2])
    elif added:
        assert now[:2] > before[:2]
    else:
        assert now >= before


# ---- the comparison itself: one thing broken at a time, in the released document

Change = Callable[[dict[str, Any]], Any]


def schema(document: dict[str, Any], name: str) -> dict[str, Any]:
    found: dict[str, Any] = document["components"]["schemas"][name]
    return found


def post(document: dict[str, Any], path: str = "/v1/trap-check") -> dict[str, Any]:
    found: dict[str, Any] = document["paths"][path]["post"]
    return found


def bound(document: dict[str, Any], unit: str = "in") -> dict[str, Any]:
    """Of the seal depth of a trap, in one unit."""
    rules = schema(document, "TrapCheckRequest")["properties"]["seal_depth"]["allOf"]
    found: dict[str, Any] = next(rule for rule in rules if rule["if"]["properties"]["unit"]["const"] == unit)
    inner: dict[str, Any] = found["then"]["properties"]["value"]
    return inner


def member(document: dict[str, Any], name: str, at: str) -> dict[str, Any]:
    found: dict[str, Any] = schema(document, name)["properties"][at]
    return found


def rename(mapping: dict[str, Any], old: str, new: str) -> None:
    mapping[new] = mapping.pop(old)


def add_required(document: dict[str, Any]) -> None:
    schema(document, "TrapCheckRequest")["properties"]["new"] = {"type": "boolean"}
    schema(document, "TrapCheckRequest")["required"].append("new")


def forbid_together(document: dict[str, Any]) -> None:
    schema(document, "TrapCheckRequest")["not"] = {"required": ["pan_area", "pan_depth"], "properties": {}}


def nullable(document: dict[str, Any]) -> None:
    seal = member(document, "TrapCheckResults", "seal_margin")
    seal.pop("$ref", None)
    seal["anyOf"] = [{"$ref": "#/components/schemas/Length"}, {"type": "null"}]


BROKEN: dict[str, tuple[Change, str, str]] = {
    "path removed": (lambda d: d["paths"].pop("/v1/trap-check"), "path-removed", "/v1/trap-check"),
    "path renamed": (lambda d: rename(d["paths"], "/v1/trap-check", "/v1/trap"), "path-removed", "/v1/trap-check"),
    "operation removed": (
        lambda d: d["paths"]["/v1/trap-check"].pop("post"),
        "operation-removed",
        "POST /v1/trap-check",
    ),
    "operation id": (lambda d: post(d).update(operationId="x"), "operation-id-changed", "POST /v1/trap-check"),
    "media type of a request": (
        lambda d: rename(post(d)["requestBody"]["content"], "application/json", "text/csv"),
        "media-type-removed",
        "POST /v1/trap-check",
    ),
    "media type of an answer": (
        lambda d: rename(post(d)["responses"]["200"]["content"], "application/json", "text/csv"),
        "media-type-removed",
        "POST /v1/trap-check 200",
    ),
    "status": (lambda d: post(d)["responses"].pop("422"), "status-removed", "POST /v1/trap-check 422"),
    "parameter removed": (
        lambda d: post(d)["parameters"].clear(),
        "parameter-removed",
        "POST /v1/trap-check query units",
    ),
    "parameter required": (
        lambda d: post(d)["parameters"][0].update(required=True),
        "parameter-required",
        "POST /v1/trap-check query units",
    ),
    "value of a parameter": (
        lambda d: post(d)["parameters"][0]["schema"]["enum"].remove("si"),
        "value-removed",
        "POST /v1/trap-check query units",
    ),
    "member of an answer removed": (
        lambda d: schema(d, "TrapCheckResults")["properties"].pop("seal_margin"),
        "member-removed",
        "answer TrapCheckResults /seal_margin",
    ),
    "member of an answer renamed": (
        lambda d: rename(schema(d, "TrapCheckResults")["properties"], "seal_margin", "margin"),
        "member-removed",
        "answer TrapCheckResults /seal_margin",
    ),
    "member of an answer optional": (
        lambda d: schema(d, "TrapCheckResults")["required"].remove("seal_margin"),
        "member-optional",
        "answer TrapCheckResults /seal_margin",
    ),
    "member of an answer may be null": (nullable, "type-changed", "answer TrapCheckResults /seal_margin"),
    "type of an answer": (
        lambda d: member(d, "Finding", "message").update(type="number"),
        "type-changed",
        "answer Finding /message",
    ),
    "whole number of an answer": (
        lambda d: member(d, "AssessmentBatchRow", "index").update(type="number"),
        "type-changed",
        "answer AssessmentBatchRow /index",
    ),
    "value of an answer added": (
        lambda d: member(d, "Finding", "severity")["enum"].append("urgent"),
        "value-added",
        "answer Finding /severity",
    ),
    "closed list of an answer opened": (
        lambda d: member(d, "Finding", "severity").pop("enum"),
        "value-added",
        "answer Finding /severity",
    ),
    "member of a request removed": (
        lambda d: schema(d, "TrapCheckRequest")["properties"].pop("pan_area"),
        "member-removed",
        "request TrapCheckRequest /pan_area",
    ),
    "new member required": (add_required, "member-required", "request TrapCheckRequest /new"),
    "old member required": (
        lambda d: schema(d, "TrapCheckRequest")["required"].append("pan_area"),
        "member-required",
        "request TrapCheckRequest /pan_area",
    ),
    "least raised in one unit": (
        lambda d: bound(d).update(minimum=bound(d)["minimum"] + 0.01),
        "bound-narrowed",
        "request TrapCheckRequest /seal_depth",
    ),
    "most lowered in one unit": (
        lambda d: bound(d, "mm").update(maximum=bound(d, "mm")["maximum"] - 0.01),
        "bound-narrowed",
        "request TrapCheckRequest /seal_depth",
    ),
    "shorter list": (
        lambda d: member(d, "AssessmentBatchRequest", "units").update(maxItems=999),
        "bound-narrowed",
        "request AssessmentBatchRequest /units",
    ),
    "shorter text": (
        lambda d: member(d, "AssessmentRequest", "unit_id").update(maxLength=3),
        "bound-narrowed",
        "request AssessmentRequest /unit_id",
    ),
    "a pattern": (
        lambda d: member(d, "AssessmentRequest", "unit_id").update(pattern="^A"),
        "bound-narrowed",
        "request AssessmentRequest /unit_id",
    ),
    "unit of a request removed": (
        lambda d: schema(d, "Length")["properties"]["unit"]["enum"].remove("cm"),
        "value-removed",
        "request Length /unit",
    ),
    "pipe size of a request removed": (
        lambda d: member(d, "TrapSizingRequest", "pipe_size")["enum"].remove("3/4"),
        "value-removed",
        "request TrapSizingRequest /pipe_size",
    ),
    "type of a request": (
        lambda d: member(d, "Tube", "elbows").update(type="string"),
        "type-changed",
        "request Tube /elbows",
    ),
    "members no longer together": (forbid_together, "combination-refused", "request TrapCheckRequest"),
    "fewer members": (
        lambda d: schema(d, "TrapCheckRequest").update(maxProperties=4),
        "combination-refused",
        "request TrapCheckRequest",
    ),
    "schema renamed": (lambda d: rename(d["components"]["schemas"], "Problem", "Error"), "schema-removed", "Problem"),
    "a keyword not known here": (
        lambda d: schema(d, "TrapCheckRequest").update(unevaluatedProperties=False),
        "keyword-changed",
        "request TrapCheckRequest",
    ),
}


def mutated(change: Change) -> dict[str, Any]:
    document = copy.deepcopy(LAST)
    change(document)
    if "Error" in document["components"]["schemas"]:  # renamed with all that names it
        document = json.loads(json.dumps(document).replace("/schemas/Problem", "/schemas/Error"))
    return document


@pytest.mark.parametrize("name", BROKEN)
def test_a_break_is_found(name: str) -> None:
    change, kind, place = BROKEN[name]
    found = {(each.kind, each.place) for each in breaks(LAST, mutated(change))}
    assert (kind, place) in found
    assert len(found) <= 2, "and little else"


def new_unit(document: dict[str, Any]) -> None:
    """A unit that nobody sends yet, with bounds of its own."""
    schema(document, "Length")["properties"]["unit"]["enum"].append("yd")
    rules = schema(document, "TrapCheckRequest")["properties"]["seal_depth"]["allOf"]
    rules.append(
        {
            "if": {"properties": {"unit": {"const": "yd"}}},
            "then": {"properties": {"value": {"minimum": 0.1, "maximum": 0.2}}},
        }
    )


def new_member_with_a_rule(document: dict[str, Any]) -> None:
    """Two of which one is new may well exclude each other."""
    schema(document, "TrapCheckRequest")["properties"]["new"] = {"type": "boolean"}
    schema(document, "TrapCheckRequest")["not"] = {"required": ["pan_area", "new"], "properties": {}}


HARMLESS: dict[str, Change] = {
    "nothing": lambda d: None,
    "texts": lambda d: (
        post(d).update(summary="x", description="y"),
        schema(d, "TrapCheckRequest").update(description="z"),
    ),
    "path": lambda d: d["paths"].update({"/v1/new": d["paths"]["/v1/trap-check"]}),
    "media types": lambda d: (
        post(d)["requestBody"]["content"].update({"text/csv": {"schema": {"type": "string"}}}),
        post(d)["responses"]["200"]["content"].update({"image/svg+xml": {"schema": {"type": "string"}}}),
    ),
    "status": lambda d: post(d)["responses"].update({"429": {"description": "x"}}),
    "optional member": lambda d: schema(d, "TrapCheckRequest")["properties"].update(new={"type": "boolean"}),
    "member of an answer": lambda d: schema(d, "TrapCheckResults")["properties"].update(new={"type": "boolean"}),
    "codes": lambda d: (
        member(d, "Finding", "code")["enum"].append("new"),
        member(d, "Caution", "code")["enum"].append("new"),
    ),
    "wider bound": lambda d: bound(d).update(minimum=0.0, maximum=1e6),
    "value of a request": lambda d: member(d, "TrapSizingRequest", "pipe_size")["enum"].append("9"),
    "fewer values in an answer": lambda d: member(d, "Finding", "severity")["enum"].remove("info"),
    "no longer required": lambda d: schema(d, "TrapCheckRequest")["required"].remove("seal_depth"),
    "unit": new_unit,
    "new member with a rule": new_member_with_a_rule,
}


def words(document: dict[str, Any], name: str) -> list[str]:
    listed: list[str] = schema(document, name)["enum"]
    return listed


NAMED: dict[str, tuple[Change, tuple[str, str] | None]] = {
    "verdict": (lambda d: words(d, "Verdict").append("unknown"), ("value-added", "answer Verdict")),
    "size no longer taken": (lambda d: words(d, "NominalSize").remove("3/4"), ("value-removed", "request NominalSize")),
    "name of a size": (
        lambda d: schema(d, "NominalSize")["x-enum-varnames"].reverse(),
        ("keyword-changed", "request NominalSize"),
    ),
    "finding": (lambda d: words(d, "FindingCode").append("new"), None),
    "caution": (lambda d: words(d, "CautionCode").append("new"), None),
    "unit of an answer": (lambda d: words(d, "VelocityUnit").append("kn"), None),
}
"""Lists of words that have a name, and what a change of one is; None is no break."""


@pytest.mark.parametrize("name", NAMED)
def test_a_list_of_words_that_has_a_name_is_compared_like_any_other(name: str) -> None:
    change, expected = NAMED[name]
    document = copy.deepcopy(NOW)
    change(document)
    found = {(each.kind, each.place) for each in breaks(NOW, document)}
    assert expected in found if expected else not found


@pytest.mark.parametrize("name", HARMLESS)
def test_what_breaks_nobody_is_no_break(name: str) -> None:
    assert breaks(LAST, mutated(HARMLESS[name])) == []
