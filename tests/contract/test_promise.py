"""`openapi/PROMISE.md` names every operation and every contradiction there is, and none besides, and it holds.

The shares in it are measured by `measure_promise.py`, the script that writes it.
"""

import ast
import re
from pathlib import Path
from typing import Any

import pytest
import schemathesis
from flask.testing import FlaskClient
from measure_promise import HEAD, PAGE, meaning, measure, provoke

from service.app import create_app
from service.settings import Settings

ROOT = Path(__file__).parents[2]
CASES = 10
ALWAYS_FINDINGS = ["wet-bulb-too-low"]
"""Raised as contradictions, and answered as findings by every operation that reads such air."""

application = create_app(Settings(log_level="error"))
api = schemathesis.openapi.from_wsgi("/openapi.json", application)
PATHS: dict[str, Any] = api.raw_schema["paths"]
CALCULATIONS = [path for path, operations in PATHS.items() if "post" in operations]
TEXT = PAGE.read_text()
ROWS = {
    path: (int(cases), float(accepted), float(refused), set(re.findall(r"`([a-z-]+)`", codes)))
    for path, cases, accepted, refused, codes in re.findall(
        r"^\| `POST (\S+)` \| (\d+) \| ([\d.]+)% \| ([\d.]+)% \| (.*) \|$", TEXT, re.MULTILINE
    )
}
CODES = dict(re.findall(r"^\| `([a-z-]+)` \| (.*) \|$", TEXT, re.MULTILINE))


@pytest.fixture(scope="module")
def client() -> FlaskClient:
    return application.test_client()


def test_the_page_is_that_of_the_script() -> None:
    assert TEXT.startswith(HEAD)


def test_every_operation_is_named_and_no_other_is() -> None:
    assert list(ROWS) == CALCULATIONS
    assert re.findall(r"^- `GET (\S+)`$", TEXT, re.MULTILINE) == [path for path in PATHS if "get" in PATHS[path]]


def test_shares_are_of_many_and_add_up() -> None:
    for path, (cases, accepted, refused, codes) in ROWS.items():
        assert cases >= 100, path
        assert accepted + refused == pytest.approx(100.0, abs=0.11), path
        assert codes or refused == 0.0, path


@pytest.mark.parametrize("path", CALCULATIONS)
def test_the_contradictions_of_an_operation_are_named(path: str, client: FlaskClient) -> None:
    assert provoke(path, PATHS[path]["post"], client) == ROWS[path][3]


@pytest.mark.parametrize("path", CALCULATIONS)
def test_the_promise_holds(path: str, client: FlaskClient) -> None:
    cases, _, codes = measure(api, path, client, CASES)
    assert cases >= CASES
    assert codes <= ROWS[path][3]


def test_every_contradiction_in_the_code_is_named_and_no_other_is() -> None:
    """A code that is put together, as ``f"{member}-above-dry-bulb"``, stands for all that end so."""
    patterns = []
    for file in (ROOT / "service" / "calculations").glob("*.py"):
        for node in ast.walk(ast.parse(file.read_text())):
            if isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id == "Contradiction":
                code = node.args[0]
                parts = code.values if isinstance(code, ast.JoinedStr) else [code]
                patterns.append("".join(re.escape(p.value) if isinstance(p, ast.Constant) else ".+" for p in parts))
    assert len(patterns) >= 4
    known = [*CODES, *ALWAYS_FINDINGS]
    assert [pattern for pattern in patterns if not any(re.fullmatch(pattern, code) for code in known)] == []
    assert [code for code in CODES if not any(re.fullmatch(pattern, code) for pattern in patterns)] == []
    assert set().union(*(codes for *_, codes in ROWS.values())) == set(CODES)
    assert {code: meaning(code) for code in CODES} == CODES
