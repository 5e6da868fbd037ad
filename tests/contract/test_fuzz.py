"""Schemathesis from the document, through the real WSGI application: every check, every phase, both modes.

The settings are those of the command line, `schemathesis.toml`. Besides, the share of schema-valid cases that got a 422
is counted per operation, and must stay below `CONTRADICTION_SHARE`.

``tests/contract/fuzz-long`` sends more, from another seed, to a running service.
"""

import tomllib
from collections import Counter
from pathlib import Path

import schemathesis

from service.app import create_app
from service.settings import Settings

EXAMPLES = 200
CONTRADICTION_SHARE = 0.20
"""Twice what `openapi/PROMISE.md` has for the worst operation: in so few cases the share goes from 5 to 15 %."""

FEWEST_CASES = 30

CONFIG = tomllib.loads((Path(__file__).parent / "schemathesis.toml").read_text())
CONFIG["seed"] = 1
CONFIG["generation"]["max-examples"] = EXAMPLES

application = create_app(Settings(log_level="error"))
api = schemathesis.openapi.from_wsgi("/openapi.json", application, config=schemathesis.Config.from_dict(CONFIG))

valid: Counter[str] = Counter()
contradicted: Counter[str] = Counter()


@api.parametrize()
def test_the_service_keeps_its_contract(case: schemathesis.Case) -> None:
    response = case.call()
    case.validate_response(response)
    if case.method == "POST" and case.meta is not None and case.meta.generation.mode.is_positive:
        valid[case.operation.label] += 1
        contradicted[case.operation.label] += response.status_code == 422


def test_contradictions_are_rare() -> None:
    shares = {label: contradicted[label] / count for label, count in valid.items() if count >= FEWEST_CASES}
    assert shares, "the fuzz test runs first"
    for label, share in sorted(shares.items()):
        print(f"{label}: {valid[label]} schema-valid cases, {share:.1%} contradicted")
    assert {label: share for label, share in shares.items() if share >= CONTRADICTION_SHARE} == {}
