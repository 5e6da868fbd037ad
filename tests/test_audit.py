"""The audit fails on a known vulnerability, and never passes because nobody was asked."""

import importlib.util
import json
from pathlib import Path

import pytest

SPEC = importlib.util.spec_from_file_location("audit", Path(__file__).with_name("audit.py"))
assert SPEC
assert SPEC.loader
audit = importlib.util.module_from_spec(SPEC)
SPEC.loader.exec_module(audit)

SOUND = {"name": "a", "version": "1", "vulns": []}
UNSOUND = {"name": "b", "version": "2", "vulns": [{"id": "PYSEC-0", "fix_versions": ["3"], "description": ""}]}
UNKNOWN = {"name": "c", "skip_reason": "not found"}


@pytest.mark.parametrize(
    ("rows", "status", "said"),
    [
        ([SOUND], 0, "1 of 1"),
        ([SOUND, UNKNOWN], 0, "Not audited: c."),
        ([SOUND, UNSOUND], 1, "b 2: PYSEC-0, fixed in 3"),
        ([UNKNOWN], audit.NOBODY_TO_ASK, "nothing was audited"),
        ([], audit.NOBODY_TO_ASK, "nothing was audited"),
    ],
)
def test_a_report_is_judged(rows: list[dict[str, object]], status: int, said: str) -> None:
    judged, lines = audit.judge(json.dumps({"dependencies": rows, "fixes": []}))
    assert judged == status
    assert said in "\n".join(lines)


@pytest.mark.parametrize("report", ["", "Traceback", "{}", "[]"])
def test_no_report_is_no_audit(report: str) -> None:
    assert audit.judge(report)[0] == audit.NOBODY_TO_ASK
