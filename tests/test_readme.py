"""The README says what there is: operations, the demo's answer, units. `test_curl_book.py` runs its commands."""

import json
import re
from pathlib import Path
from typing import Any

from flask.testing import FlaskClient

ROOT = Path(__file__).parents[1]
README = (ROOT / "README.md").read_text()


def operations(client: FlaskClient) -> list[tuple[str, str]]:
    paths: dict[str, Any] = client.get("/openapi.json").get_json()["paths"]
    return [(method.upper(), path) for path, methods in paths.items() for method in methods if method != "parameters"]


def test_every_operation_is_in_the_table_and_no_other_is(client: FlaskClient) -> None:
    table = re.findall(r"^\| `(GET|POST) (\S+)` \|", README, re.MULTILINE)
    assert sorted(table) == sorted(operations(client))


def test_every_operation_is_in_the_curl_book_with_a_command_of_its_own(client: FlaskClient) -> None:
    book = (ROOT / "service" / "pages" / "book.md").read_text()
    sections = re.findall(r"^### (GET|POST) (\S+)\n(.*?)(?=^##|\Z)", book, re.MULTILINE | re.DOTALL)
    assert sorted((method, path) for method, path, _ in sections) == sorted(operations(client))
    for method, path, section in sections:
        address = f"http://127.0.0.1:8080{path}".replace("{slug}", "schema-mismatch").replace("{page}", "guide")
        assert re.search(rf"^curl -s {re.escape(address)} ", section, re.MULTILINE), path
        assert (method == "POST") == ("\n  -d '" in section), path


def test_shown_answer_is_the_answer(client: FlaskClient) -> None:
    answer = client.post("/v1/assessment", json=json.loads((ROOT / "deploy" / "demo-unit.json").read_text())).get_json()
    found = re.search(r"```text\n(.*?)\n```", README, re.DOTALL)
    assert found
    shown = " ".join(found[1].split())
    assert shown.startswith(f"Verdict: {answer['verdict'].upper()} ")
    findings = [
        f"{row['severity'].upper()} {row['message']} to do: {row['remedy']} basis: {row['basis']} ({row['code']})"
        for row in answer["findings"]
    ]
    assert shown.endswith(" ...")
    assert f"Verdict: {answer['verdict'].upper()} {' '.join(findings)} ".startswith(shown.removesuffix("..."))
    assert findings[0] in shown


def test_every_unit_symbol_is_in_the_table(client: FlaskClient) -> None:
    section = README.partition("## Units")[2].partition("## Errors")[0]
    symbols = set(re.findall(r"`([^`]+)`", "\n".join(row for row in section.splitlines() if row.startswith("| "))))
    document = client.get("/openapi.json").get_json()["components"]["schemas"]
    for kind, words in re.findall(r"^\| ([a-z ]+) \| (`.*)\|$", section, re.MULTILINE):
        title = "".join(word.capitalize() for word in kind.split())
        assert set(re.findall(r"`([^`]+)`", words)) == set(document[f"{title}Unit"]["enum"]), kind
    assert symbols
