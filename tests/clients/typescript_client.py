"""Makes TypeScript types from the committed document and does the main job with them: ``python typescript_client.py``.

The program beside this is compiled strictly against the types, and run against the service on loopback; it must be told
what a plain request is told. Exit status: 0 it was, 1 not, 75 Node.js or its packages cannot be had here.
"""

import json
import shutil
import subprocess
import sys
import tempfile
from pathlib import Path

from asked_plainly import UNIT, main_job
from node_packages import HERE, program, step

sys.path.insert(0, str(HERE.parent / "deploy"))

from starting import HOST, ROOT, started


def compiled(folder: Path) -> Path:
    """Make the types, and compile the program against them.

    Parameters
    ----------
    folder : pathlib.Path
        Where the packages are; the program is built in a folder of it, from where it finds them.

    Returns
    -------
    pathlib.Path
        The program, for Node.js.
    """
    build = folder / "client"
    shutil.rmtree(build, ignore_errors=True)
    build.mkdir()
    document = str(ROOT / "openapi" / "openapi.json")
    subprocess.run(
        program(folder, "openapi-typescript/bin/cli.js", document, "-o", str(build / "api.d.ts")), check=True
    )
    for name in ("main_job.mts", "tsconfig.json"):
        shutil.copy(HERE / name, build)
    subprocess.run(program(folder, "typescript/bin/tsc", "--project", str(build)), check=True)
    return build / "main_job.mjs"


def do_main_job(folder: Path) -> int:
    """Compile and run; 0 where the program was told what a plain request is told."""
    try:
        job = compiled(folder)
    except subprocess.CalledProcessError as error:
        print(error)
        return 1
    with (
        tempfile.TemporaryDirectory() as scratch,
        started(ROOT, Path(scratch) / "log", Path(scratch) / "without") as (_, port),
    ):
        address = f"http://{HOST}:{port}"
        ran = subprocess.run(["node", str(job), address, UNIT], stdout=subprocess.PIPE, text=True, check=False)
        expected = main_job(address)
    if ran.returncode or json.loads(ran.stdout) != expected:
        print(f"Told: {ran.stdout}\nExpected: {json.dumps(expected)}")
        return 1
    print(f"The main job is done: {expected['verdict']}, {len(expected['failures'])} failures.")
    return 0


if __name__ == "__main__":
    sys.exit(step(do_main_job))
