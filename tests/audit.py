"""Asks for known vulnerabilities of what the service is locked to: ``python tests/audit.py``.

Exit status: 0 none known, 1 some, 75 nobody could be asked (no network, or an index without advisories).
"""

import json
import subprocess
import sys
from pathlib import Path

LOCK = Path(__file__).parents[1] / "deploy" / "requirements.lock"
NOBODY_TO_ASK = 75  # EX_TEMPFAIL
SECONDS = 180


def judge(report: str) -> tuple[int, list[str]]:
    """Exit status and what to say of pip-audit's report in JSON; an empty one means that it reached nobody.

    Parameters
    ----------
    report : str
    """
    try:
        rows = json.loads(report)["dependencies"]
    except (ValueError, KeyError, TypeError):
        return NOBODY_TO_ASK, ["No advisory service could be reached; nothing was audited."]
    asked = [row for row in rows if "vulns" in row]
    missing = [row["name"] for row in rows if "vulns" not in row]
    if not asked:
        return NOBODY_TO_ASK, ["The index reached has no advisories; nothing was audited."]
    lines = [f"{len(asked)} of {len(rows)} locked packages audited."]
    if missing:
        lines.append(f"Not audited: {', '.join(missing)}.")
    for row in asked:
        for known in row["vulns"]:
            fixed = ", ".join(known["fix_versions"]) or "no version yet"
            lines.append(f"{row['name']} {row['version']}: {known['id']}, fixed in {fixed}")
    return int(any(row["vulns"] for row in asked)), lines


def main() -> int:
    """Run pip-audit over the lock file, which it need not resolve."""
    command = [sys.executable, "-m", "pip_audit", "--requirement", str(LOCK), "--no-deps", "--disable-pip"]
    command += ["--format", "json", "--progress-spinner", "off", "--timeout", "10"]
    try:
        report = subprocess.run(command, capture_output=True, text=True, timeout=SECONDS, check=False).stdout
    except subprocess.TimeoutExpired:
        report = ""
    status, lines = judge(report)
    print("\n".join(lines))
    return status


if __name__ == "__main__":
    sys.exit(main())
