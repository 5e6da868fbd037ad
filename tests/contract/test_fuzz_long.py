"""The long fuzz run, made short: the command line comes out clean against a real server, and reports what it finds."""

import os
import subprocess
from pathlib import Path
from xml.etree import ElementTree

import pytest

ROOT = Path(__file__).parents[2]


def fuzz(server: tuple[str, int], reports: Path, *arguments: str) -> subprocess.CompletedProcess[str]:
    """Three examples an operation, from seed 7."""
    service = {"SERVICE": "http://{}:{}".format(*server), "REPORTS": str(reports), "SEED": "7", "EXAMPLES": "3"}
    return subprocess.run(
        ["tests/contract/fuzz-long", "--no-color", *arguments],
        cwd=ROOT,
        env=os.environ | service,
        capture_output=True,
        text=True,
    )


KINDS = [
    # a contradiction, a body in CSV, a table, a path parameter, pages: all phases
    ("trap-dry-out|series|reference/units|problems|livez|readyz|docs|openapi|metrics", ()),
    # a body in lines; what coverage makes of a whole unit, `test_fuzz.py` sends
    ("assessment/batch", ("--phases", "examples,fuzzing,stateful")),
]


@pytest.mark.parametrize(("paths", "arguments"), KINDS)
def test_every_check_comes_out_clean(
    paths: str, arguments: tuple[str, ...], server: tuple[str, int], tmp_path: Path
) -> None:
    run = fuzz(server, tmp_path, "--include-path-regex", paths, *arguments)
    assert run.returncode == 0, run.stdout + run.stderr
    assert "No issues found" in run.stdout
    assert run.stdout.startswith("seed 7, 3 examples an operation")
    last = run.stdout.splitlines()[-2:]
    assert last[0] == f"reports: {tmp_path}/junit.xml and {tmp_path}/html/index.html"
    assert last[1].startswith("to repeat: SEED=7 EXAMPLES=3 tests/contract/fuzz-long ")
    suites = ElementTree.parse(tmp_path / "junit.xml").getroot()  # noqa: S314 written just now
    assert int(suites.attrib["tests"]) >= len(paths.split("|"))
    assert suites.attrib["failures"] == suites.attrib["errors"] == "0"


def test_a_failure_is_reported_as_a_curl_line(server: tuple[str, int], tmp_path: Path) -> None:
    """No answer takes less than a nanosecond."""
    run = fuzz(server, tmp_path, "--include-path", "/livez", "--phases", "fuzzing", "--max-response-time", "1e-9")
    assert run.returncode == 1, run.stdout + run.stderr
    suites = ElementTree.parse(tmp_path / "junit.xml").getroot()  # noqa: S314 written just now
    failure = suites.find(".//failure")
    assert failure is not None
    line = "curl -X GET http://{}:{}/livez".format(*server)
    assert line in (failure.text or "")
    assert line in (tmp_path / "html" / "index.html").read_text()
    assert line in run.stdout
