"""The README does what it says: every curl line runs, every operation has one, the shown answer is the answer."""

import json
import re
import subprocess
from pathlib import Path
from typing import Any

import pytest
from flask.testing import FlaskClient

ROOT = Path(__file__).parents[1]
README = (ROOT / "README.md").read_text()
ADDRESS = "http://127.0.0.1:8080"
LINES = [line for line in README.splitlines() if line.startswith("curl ")]


def path_of(line: str) -> str:
    found = re.search(rf"{ADDRESS}([^\s'?]*)", line)
    assert found, line
    return found[1]


@pytest.mark.parametrize("line", LINES, ids=[f"{number}{path_of(line)}" for number, line in enumerate(LINES)])
def test_curl_line_runs(line: str, server: tuple[str, int], tmp_path: Path) -> None:
    host, port = server
    command = line.replace(ADDRESS, f"http://{host}:{port}").replace("curl -s", "curl --silent --noproxy '*' --fail", 1)
    command = command.replace("-o report.pdf", f"-o '{tmp_path}/report.pdf'")
    ran = subprocess.run(["sh", "-c", command], cwd=ROOT, capture_output=True, text=True, check=False)
    assert ran.returncode == 0, ran.stderr
    accept = re.search("Accept: ([^']+)'", line)
    if path_of(line) in ("/docs", "/problems/schema-mismatch") or (accept and accept[1] == "text/html"):
        assert ran.stdout.startswith("<!doctype html>")
        return
    if accept and accept[1] == "image/svg+xml":
        assert ran.stdout.startswith("<svg ")
        return
    if accept and accept[1] == "text/csv":
        assert ran.stdout.startswith("place,index,unit_id,")
        return
    if accept and accept[1] == "application/pdf":
        assert (tmp_path / "report.pdf").read_bytes().startswith(b"%PDF-")
        return
    if path_of(line) == "/metrics":
        assert "# TYPE http_server_request_duration_seconds histogram" in ran.stdout
        return
    if "application/x-ndjson" in line:
        assert [json.loads(row)["status"] for row in ran.stdout.splitlines()] == [200, 400, 200]
        return
    answer = json.loads(ran.stdout)
    if path_of(line) == "/v1/assessment/batch":
        assert [row["status"] for row in answer["rows"]] == [200, 200]
    elif path_of(line).startswith("/v1/") and (" -d " in line or " --data-binary " in line):
        assert answer["verdict"] in ("pass", "attention", "fail")
        assert answer["sources"]


def operations(client: FlaskClient) -> list[tuple[str, str]]:
    paths: dict[str, Any] = client.get("/openapi.json").get_json()["paths"]
    return [(method.upper(), path) for path, methods in paths.items() for method in methods if method != "parameters"]


def test_every_operation_is_in_the_table_with_a_line_and_no_other_is(client: FlaskClient) -> None:
    table = re.findall(r"^\| `(GET|POST) (\S+)` \|", README, re.MULTILINE)
    assert sorted(table) == sorted(operations(client))
    lines = {("POST" if " -d " in line or " --data-binary " in line else "GET", path_of(line)) for line in LINES}
    assert lines == {(method, path.replace("{slug}", "schema-mismatch")) for method, path in table}


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
