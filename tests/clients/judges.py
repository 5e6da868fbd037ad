"""Holds the committed OpenAPI document against Redocly's strictest rules and Spectral's: ``python judges.py``.

Exit status: 0 no error and no warning of either, 1 some, 75 the judges cannot be had here.
"""

import shutil
import subprocess
import sys
from pathlib import Path

from node_packages import HERE, program, step

DOCUMENT = HERE.parents[1] / "openapi" / "openapi.json"


def judge(folder: Path, document: Path = DOCUMENT) -> int:
    """Ask both judges.

    Parameters
    ----------
    folder : pathlib.Path
        Where their packages are.
    document : pathlib.Path

    Returns
    -------
    int
        0 where neither finds anything.
    """
    redocly = shutil.copy(HERE / "redocly.mjs", folder)  # Node.js looks for packages from where a module lies
    spectral = program(folder, "@stoplight/spectral-cli/dist/index.js", "lint", "--fail-severity=hint")
    commands = [
        ["node", redocly, str(document), str(HERE / "redocly.yaml")],
        [*spectral, "--display-only-failures=false", "--ruleset", str(HERE / "spectral.yaml"), str(document)],
    ]
    statuses = [subprocess.run(command, check=False).returncode for command in commands]
    return int(any(statuses))


if __name__ == "__main__":
    sys.exit(step(judge))
