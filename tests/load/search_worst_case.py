"""Searches for the request that keeps a worker busy longest: ``python tests/load/search_worst_case.py``.

For every operation it makes bodies that the schema allows (the worked examples, every member at once, the longest
arrays, numbers all over their ranges, every rendering) and bodies that it does not (unknown members, wrong values,
nesting, up to the body limit), asks an application in this process, and keeps the one that took most processor time.
What a machine makes of it is said by the ratio to an assessment of the demo unit in the same run; deploy/CAPACITY.md
has the figures. The last line has the worst of those that a worker answers without another thread.
Standard library and the service only. It takes some minutes; ``--tries`` and ``--path`` make it longer or shorter.
"""

import argparse
import json
import math
import random
import re
import sys
import time
from collections.abc import Iterator
from pathlib import Path
from typing import Any

ROOT = Path(__file__).parents[2]
sys.path.insert(0, str(ROOT))

from flask.testing import FlaskClient  # noqa: E402 - after the path is there

from deploy.client_sockets import bytes_missing  # noqa: E402
from service.app import create_app  # noqa: E402
from service.settings import Settings  # noqa: E402

DOCUMENT: dict[str, Any] = json.loads((ROOT / "openapi" / "openapi.json").read_text())
JSON = "application/json"
LINES = "application/x-ndjson"
MANY = 1024 * 1024
"""Bodies from this size on are tried once each, for they take seconds."""

Body = tuple[str, bytes, str, str]
"""What it is, its bytes, its media type, the media type asked for."""


def resolved(schema: dict[str, Any]) -> dict[str, Any]:
    """The schema a reference names; of several, the one that is not open."""
    while "$ref" in schema or "anyOf" in schema:
        if "$ref" in schema:
            schema = DOCUMENT["components"]["schemas"][schema["$ref"].rsplit("/", 1)[1]]
        else:
            schema = next(one for one in schema["anyOf"] if not one.get("$ref", "").endswith("/UnreadableUnit"))
    return schema


def made(schema: dict[str, Any], chance: random.Random, share: float, length: float) -> Any:
    """A value of a schema, but for what its members exclude each other.

    Parameters
    ----------
    schema : dict
    chance : random.Random
    share : float
        Of the members that may be left out, how many are there.
    length : float
        How long arrays are, of the longest they may be.
    """
    schema = resolved(schema)
    if "enum" in schema:
        return chance.choice(schema["enum"])
    kind = schema.get("type")
    if kind == "string":
        return "2026-07-14" if "pattern" in schema else "\U0001f6bf" * int(schema.get("maxLength", 20) * length)
    if kind in ("number", "integer"):
        low, high = schema.get("minimum", 0.0), schema.get("maximum", 1000.0)
        edge = chance.choice((low, high, chance.uniform(low, high), low + (high - low) * 10 ** chance.uniform(-12, 0)))
        return round(edge) if kind == "integer" else edge
    if kind == "boolean":
        return chance.random() < 0.5
    if kind == "array":
        count = max(schema.get("minItems", 0), round(schema["maxItems"] * length))
        return [made(schema["items"], chance, share, length) for _ in range(count)]
    members = schema.get("properties", {})
    needed = schema.get("required", ())
    value = {
        name: made(inner, chance, share, length)
        for name, inner in members.items()
        if name in needed or chance.random() < share
    }
    for rule in schema.get("allOf", ()):  # of a quantity: bounds of the unit that came out
        unit = rule.get("if", {}).get("properties", {}).get("unit", {}).get("const")
        bounds = rule.get("then", {}).get("properties", {}).get("value", {})
        if unit == value.get("unit") and "minimum" in bounds:
            value["value"] = min(max(value["value"], bounds["minimum"]), bounds["maximum"])
    return value


def stretched(value: Any, schema: dict[str, Any]) -> Any:
    """A worked example with its arrays as long as they may be."""
    schema = resolved(schema)
    if isinstance(value, list):
        longest = [stretched(one, schema["items"]) for one in value]
        return (longest * math.ceil(schema["maxItems"] / len(longest)))[: schema["maxItems"]]
    if isinstance(value, dict):
        members = schema.get("properties", {})
        return {name: stretched(inner, members[name]) if name in members else inner for name, inner in value.items()}
    return value


def junk(limit: int, schema: dict[str, Any]) -> Iterator[tuple[str, bytes]]:
    """Bodies up to the limit that no schema allows."""
    names = resolved(schema).get("properties", {})
    yield "unknown members", b"{" + b",".join(b'"%x":0' % index for index in range(limit // 12)) + b"}"
    yield "one name over and over", b"{" + b",".join([b'"a":0'] * (limit // 7)) + b"}"
    yield "arrays in arrays", b"[" * (limit - 1)
    yield "empty objects", b'{"units":[' + b",".join([b"{}"] * (limit // 3 - 8)) + b"]}"
    yield "escapes", b'{"a":"' + b"\\u00e9" * (limit // 6 - 3) + b'"}'
    yield "digits", b'{"a":[' + b",".join([b"9" * 4000] * (limit // 4001 - 2)) + b"]}"
    yield "fractions", b'{"a":[' + b",".join([b"1." + b"7" * 400] * (limit // 403 - 2)) + b"]}"
    yield "blanks", b"{" + b" " * (limit - 2) + b"}"
    for name, inner in names.items():
        inner = resolved(inner)
        if inner.get("type") == "array":
            most = inner["maxItems"]
            wide = max(1, (limit // most - 20) // 9)
            row = b"{" + b",".join(b'"x%x":{}' % index for index in range(wide)) + b"}"
            yield f"unknown members in {name}", b'{"%s":[' % name.encode() + b",".join([row] * most) + b"]}"
            yield f"null in {name}", b'{"%s":[' % name.encode() + b",".join([b"null"] * most) + b"]}"


def bodies(path: str, limit: int, tries: int, chance: random.Random) -> Iterator[Body]:
    """What is tried on an operation."""
    operation = DOCUMENT["paths"][path]["post"]
    content = operation["requestBody"]["content"]
    schema = content[JSON]["schema"]
    answers = [kind for kind in operation["responses"]["200"]["content"] if kind != LINES]
    for name, example in content[JSON].get("examples", {}).items():
        for accept in answers:
            yield f"example {name}", json.dumps(example["value"]).encode(), JSON, accept
            longest = json.dumps(stretched(example["value"], schema)).encode()
            yield f"example {name}, longest arrays", longest, JSON, accept
    for kind in content:
        if kind != JSON:
            for name, example in content[kind].get("examples", {}).items():
                yield f"{kind} {name}", example["value"].encode(), kind, "*/*"
    if "text/csv" in content:
        text = next(iter(content["text/csv"]["examples"].values()))["value"]
        row = text.rstrip("\n").rpartition("\n")[2]
        yield "csv, a year", (text + (row + "\n") * 8700).encode(), "text/csv", "*/*"
        yield "csv, a year of faults", (text + "x,y\n" * 8700).encode(), "text/csv", "*/*"
        yield "csv, cells", (text + "," * (limit - len(text))).encode(), "text/csv", "*/*"
    for number in range(tries if limit < MANY else max(2, tries // 20)):
        value = made(schema, chance, share=(number % 4 + 1) / 4, length=1.0 if number % 2 else 0.1)
        yield f"made {number}", json.dumps(value).encode(), JSON, chance.choice(answers)
    for name, body in junk(limit, schema):
        yield name, body, JSON, "*/*"


def seconds(client: FlaskClient, path: str, body: Body) -> tuple[float, int]:
    """Processor time of a request, the least of some where it is short, and the status."""
    best = math.inf
    for _ in range(3):
        began = time.process_time()
        answer = client.post(path, data=body[1], headers={"Content-Type": body[2], "Accept": body[3]})
        answer.get_data()
        best = min(best, time.process_time() - began)
        status = answer.status_code
        answer.close()
        if best > 0.5:
            break
    return best, status


def is_answered_at_once(body: Body) -> bool:
    """Whether a worker that gets such a request as a whole answers it before it looks at another."""
    _, raw, kind, accepted = body
    head = f"POST / HTTP/1.1\r\nContent-Type: {kind}\r\nAccept: {accepted}\r\nContent-Length: {len(raw)}\r\n\r\n"
    return bytes_missing(head.encode() + raw) == 0


def main() -> None:
    """Print the worst of every operation."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--tries", type=int, default=60, help="bodies made at random for each operation")
    parser.add_argument("--path", default="", help="only operations whose path contains this")
    parser.add_argument("--seed", type=int, default=7)
    given = parser.parse_args()
    client = create_app(Settings(log_level="critical")).test_client()
    unit = json.loads((ROOT / "deploy" / "demo-unit.json").read_text())
    one = ("", json.dumps(unit).encode(), JSON, JSON)
    seconds(client, "/v1/assessment", one)
    reference, _ = seconds(client, "/v1/assessment", one)
    print(f"assessment of the demo unit: {1000 * reference:.1f} ms\n")
    print("| operation | worst request | body | status | processor time | assessments |")
    print("| --- | --- | ---: | ---: | ---: | ---: |")
    held = (0.0, "")
    for path in sorted(path for path, operations in DOCUMENT["paths"].items() if "post" in operations):
        if given.path not in path:
            continue
        refusal = client.post(path, data=b"{}", content_type=JSON, environ_overrides={"CONTENT_LENGTH": str(10**12)})
        limit = int(re.findall(r"larger than (\d+) bytes", refusal.get_json()["detail"])[0])
        worst: tuple[float, int, Body] = (0.0, 0, one)
        for body in bodies(path, limit, given.tries, random.Random(given.seed)):  # noqa: S311
            took, status = seconds(client, path, body)
            if status >= 500:
                sys.exit(f"{path}: {status} for {body[0]}, asked for {body[3]}")
            if took > worst[0]:
                worst = (took, status, body)
            if took > held[0] and is_answered_at_once(body):
                held = (took, f"`{path}`, {body[0]}, {len(body[1]) / 1000:.0f} kB")
        took, status, body = worst
        what = body[0] + (f", {body[3]}" if body[3] not in (JSON, "*/*") else "")
        size = f"{len(body[1]) / 1000:.0f} kB"
        print(f"| `{path}` | {what} | {size} | {status} | {took:.3f} s | {took / reference:.0f} |", flush=True)
    print(f"\nwithout another thread: {held[1]}: {held[0]:.3f} s, {held[0] / reference:.0f} assessments")


if __name__ == "__main__":
    main()
