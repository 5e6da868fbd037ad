"""What DEVELOPERS.md says under Security of the service as a whole; single parts have their own tests."""

import ast
import re
from pathlib import Path

from flask import Flask
from flask.testing import FlaskClient

from service.routes.document import document_of
from service.routes.keys import path_template

ROOT = Path(__file__).parents[2]

# what can reach another machine, run a program, or make objects of bytes
REACHING = {
    *("asyncio", "ctypes", "ftplib", "http", "httpx", "marshal", "multiprocessing", "pickle", "requests", "shelve"),
    *("smtplib", "socket", "sqlite3", "ssl", "subprocess", "telnetlib", "tempfile", "urllib3", "xmlrpc", "yaml"),
}
ALLOWED = {("routes/blueprint.py", "http"), ("routes/problem_answers.py", "http")}  # the names of statuses


def test_nothing_has_an_identifier_that_could_be_somebody_elses(app: Flask) -> None:
    """API1: nothing is stored. The path parameters are out of closed lists."""
    document = document_of(app)
    for path, operations in document["paths"].items():
        for part in re.findall(r"\{(\w+)\}", path):
            assert (path, part) in {("/problems/{slug}", "slug"), ("/docs/{page}", "page")}
            name = operations["parameters"][0]["schema"]["$ref"].rsplit("/", 1)[1]
            assert document["components"]["schemas"][name]["enum"]


def test_the_service_reaches_nothing_and_runs_nothing() -> None:
    """API7, API10: no request can make it call anything; telemetry, an optional extra, calls where a setting says."""
    found = set()
    for path in (ROOT / "service").rglob("*.py"):
        where = str(path.relative_to(ROOT / "service"))
        for node in ast.walk(ast.parse(path.read_text())):
            names = [alias.name for alias in node.names] if isinstance(node, ast.Import) else []
            names += [str(node.module)] if isinstance(node, ast.ImportFrom) else []
            found |= {(where, name.partition(".")[0]) for name in names}
            if isinstance(node, ast.Call) and isinstance(node.func, ast.Name):
                assert node.func.id not in ("eval", "exec", "compile", "__import__", "open"), where
            if "urllib" in "".join(names):
                assert names == ["urllib.parse"], where
    assert {(where, name) for where, name in found if name in REACHING} == ALLOWED


def test_every_path_there_is_stands_in_the_document(app: Flask) -> None:
    """API9: no operation besides those described; the files of the reference page are no operation."""
    paths = {path_template(rule.rule) for rule in app.url_map.iter_rules()}
    assert paths == set(document_of(app)["paths"]) | {"/docs/assets/{name}"}
    assert not app.debug
    assert not app.secret_key


def test_no_other_origin_is_let_in_and_transport_security_is_left_to_whoever_ends_tls(client: FlaskClient) -> None:
    """API8: RFC 6797 7.2 forbids Strict-Transport-Security over plain HTTP, which is what the service speaks."""
    for method in ("GET", "POST", "OPTIONS"):
        answer = client.open(
            "/v1/drain-pitch",
            method=method,
            json={"run": {"value": 32, "unit": "ft"}},
            headers={"Origin": "https://elsewhere.example", "Access-Control-Request-Method": "POST"},
        )
        names = {name.lower() for name, _ in answer.headers}
        assert not {name for name in names if name.startswith("access-control-")}
        assert not names & {"strict-transport-security", "set-cookie", "server", "x-powered-by"}


def test_every_test_that_the_security_section_names_is_there() -> None:
    section = (ROOT / "DEVELOPERS.md").read_text().partition("## Security")[2].partition("\n## ")[0]
    rows = re.findall(r"^\| API(\d+) ", section, re.MULTILINE)
    assert rows == [str(number) for number in range(1, 11)]
    named = re.findall(r"`(tests/[\w/.]+\.py)`", section)
    assert len(named) > 8
    for name in named:
        assert (ROOT / name).is_file(), name
