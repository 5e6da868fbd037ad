"""Measures what `openapi/PROMISE.md` says, and writes it: ``python tests/contract/measure_promise.py``.

Every calculation gets bodies that schemathesis draws from the document, all of them schema-valid, each sent twice and
in the other unit system. A promise that does not hold ends the run with the body that breaks it. Contradictions are
rare among drawn bodies, so their codes are also looked for where they are: in worked examples with other air put in.
"""

import json
import random
import re
import sys
from collections import Counter
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import schemathesis
from flask.testing import FlaskClient
from hypothesis import HealthCheck, Phase, given, seed, settings

ROOT = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT))

from service.app import create_app  # noqa: E402
from service.settings import Settings  # noqa: E402
from service.tables.findings.catalogue import FINDINGS  # noqa: E402

PAGE = ROOT / "openapi" / "PROMISE.md"
JSON = "application/json"
SEED = 1
CASES = 500
PROVOKED = 600
"""Bodies an operation in which contradictory air is looked for."""

WORST = ("info", "attention", "fail")
VERDICT = {None: "pass", "info": "pass", "attention": "attention", "fail": "fail"}

HEAD = f"""\
# What holds for every request that the schema allows

Written by `python tests/contract/measure_promise.py`. `tests/contract/test_promise.py` holds it against the service.

A request is schema-valid when its body is JSON that the operation's schema in `openapi.json` allows, and its query is
too. For every such request:

- The answer is a `200` or, where the table below names contradictions, it may be a `422`. It is never a `400` or a
  `500`. What stands before a calculation may answer in its place: `401` without a key where keys are set, `429` and
  `503` where limits are, `406` to an `Accept` that leaves out all there is.
- The same request gets the same answer, byte for byte, from the same version. Only `X-Request-ID`, and `request_id` in
  a problem, differ.
- `?units=us` and `?units=si` get the same status, the same verdict and the same findings in the same order.
- `verdict` is that of the worst finding. An unwelcome answer is a `200` with the verdict `fail`, not an error.
- Every number is finite, and the answer matches its schema in `openapi.json`.
- Of many things in one request (parts of an assessment, units of a batch or a round, hours of a series) a contradiction
  costs only the one it is in, and is a finding.

A body in CSV or in lines is a text, of which JSON Schema can say little: a text that is no table is a `400` with the
line of each fault; a line of a batch that is no unit gets its problem in its own row, under a `200`.

## Measured

{CASES} bodies an operation, drawn by schemathesis from the schema, from seed {SEED}, each sent twice and in the other
unit system: no promise was broken. They are drawn from all that the schema allows, bounds included, so they contradict
themselves more often than what technicians send. Contradictions that were not drawn are named all the same.

| operation | schema-valid bodies | `200` | `422` | contradictions |
| --- | --- | --- | --- | --- |
"""

TAIL = """
These take no body, and answer `200` to every request that the document allows:

{paths}

but for `304` to an entity tag that still holds, `404` where there is no such page or problem type and from `/metrics`
where counts are off, `503` from `/readyz` before the service is ready, and `401`, `406` and `429` as above.

## Contradictions

Facts that cannot all be true of one installation. Nothing else is a `422`. In the problem, `errors` has the `code`, the
`pointer` to the member, and the sentence with its numbers.

| code | what it says |
| --- | --- |
"""


def verdict_of(findings: list[dict[str, Any]]) -> str:
    """The verdict that findings lead to."""
    return VERDICT[max((finding["severity"] for finding in findings), key=WORST.index, default=None)]


def require_promise(path: str, body: Any, client: FlaskClient) -> list[str]:
    """Send one schema-valid body; the codes of its contradictions, none with a 200.

    Raises
    ------
    AssertionError
        When a promise of the page does not hold.
    """
    text = json.dumps(body)
    first, again, metric = (
        client.post(path + query, data=text, content_type=JSON, headers={"X-Request-ID": "promise"})
        for query in ("", "", "?units=si")
    )
    require(first.status_code in (200, 422), path, text, f"answered {first.status_code}")
    require(first.data == again.data, path, text, "answered otherwise the second time")
    require(first.status_code == metric.status_code, path, text, "has another status in SI units")
    us, si = (json.loads(answer.data, parse_constant=refuse) for answer in (first, metric))
    if first.status_code == 422:
        require(us["type"] == "/problems/contradiction", path, text, f"is a 422 of the type {us['type']}")
        return [fault["code"] for fault in us["errors"]]
    if "findings" in us:
        require(us["verdict"] == verdict_of(us["findings"]), path, text, f"has the verdict {us['verdict']}")
        told = [
            [(finding["code"], finding["severity"], finding["pointer"]) for finding in answer["findings"]]
            for answer in (us, si)
        ]
        require(told[0] == told[1] and us["verdict"] == si["verdict"], path, text, "is judged otherwise in SI units")
    return []


def require(holds: bool, path: str, text: str, what: str) -> None:
    """End the run where a promise does not hold."""
    if not holds:
        raise AssertionError(f"{path} {what}: {text}")


def refuse(text: str) -> float:
    """A number that is not finite."""
    raise AssertionError(f"{text} in an answer")


def measure(api: schemathesis.BaseSchema, path: str, client: FlaskClient, cases: int) -> tuple[int, int, set[str]]:
    """Requests that were sent, how many of them contradicted themselves, and the codes."""
    count: Counter[str] = Counter()
    codes: set[str] = set()
    mode = schemathesis.GenerationMode.POSITIVE

    @seed(SEED)
    @settings(
        max_examples=cases,
        database=None,
        deadline=None,
        phases=[Phase.generate],
        suppress_health_check=list(HealthCheck),
    )
    @given(api[path]["POST"].as_strategy(generation_mode=mode).filter(lambda case: case.media_type == JSON))
    def send(case: schemathesis.Case) -> None:
        found = require_promise(path, case.body, client)
        count["all"] += 1
        count["contradicted"] += bool(found)
        codes.update(found)

    send()
    return count["all"], count["contradicted"], codes


def airs(value: Any) -> Iterator[dict[str, Any]]:
    """Every state of air in a body."""
    if isinstance(value, dict):
        if isinstance(value.get("dry_bulb"), dict) and "value" in value["dry_bulb"]:
            yield value
        for member in value.values():
            yield from airs(member)
    elif isinstance(value, list):
        for element in value:
            yield from airs(element)


def provoke(path: str, operation: dict[str, Any], client: FlaskClient) -> set[str]:
    """Codes of the contradictions of an operation, from its examples with other air put in."""
    codes: set[str] = set()
    examples = [example["value"] for example in operation["requestBody"]["content"][JSON]["examples"].values()]
    examples = [example for example in examples if next(airs(example), None)]
    chance = random.Random(SEED)  # noqa: S311 no secret
    for turn in range(PROVOKED if examples else 0):
        body = json.loads(json.dumps(examples[turn % len(examples)]))
        for air in airs(body):
            humidity = [name for name in ("wet_bulb", "dew_point", "relative_humidity_percent") if name in air]
            for name in humidity:
                del air[name]
            air["dry_bulb"] = {"value": chance.uniform(40.0, 130.0), "unit": "degF"}
            name = chance.choice(["wet_bulb", "dew_point", "relative_humidity_percent"])
            air[name] = (
                chance.uniform(1.0, 100.0)
                if name == "relative_humidity_percent"
                else {"value": air["dry_bulb"]["value"] - chance.uniform(-10.0, 90.0), "unit": "degF"}
            )
        answer = client.post(path, json=body)
        if answer.status_code == 422:
            codes.update(fault["code"] for fault in answer.get_json()["errors"])
    return codes


def page(cases: int) -> str:
    """Measure, and write the page."""
    application = create_app(Settings(log_level="error"))
    client = application.test_client()
    api = schemathesis.openapi.from_wsgi("/openapi.json", application)
    rows = ""
    every: set[str] = set()
    paths = api.raw_schema["paths"]
    for path in (path for path, operations in paths.items() if "post" in operations):
        count, contradicted, codes = measure(api, path, client, cases)
        codes |= provoke(path, paths[path]["post"], client)
        every |= codes
        share = contradicted / count
        named = ", ".join(f"`{code}`" for code in sorted(codes)) or "none"
        row = f"| `POST {path}` | {count} | {1 - share:.1%} | {share:.1%} | {named} |\n"
        print(row, end="", flush=True)
        rows += row
    others = "\n".join(f"- `GET {path}`" for path, operations in paths.items() if "get" in operations)
    meanings = "".join(f"| `{code}` | {meaning(code)} |\n" for code in sorted(every))
    return HEAD + rows + TAIL.format(paths=others) + meanings


def meaning(code: str) -> str:
    """The message of a finding, without its numbers."""
    return re.sub(r"\{[^}]*\}", "…", FINDINGS[code].message)


if __name__ == "__main__":
    PAGE.write_text(page(CASES))
    print(f"written: {PAGE}")
