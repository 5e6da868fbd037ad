"""Installs the pinned Node.js packages of this folder into ``.node-tests``, once for each lock file.

What depends on them can be not run: without Node.js, or where no registry of packages is reached. `step` then ends with
the status that ``tests/run`` shows as NOT RUN; with ``NODE_REQUIRED`` in the environment that is a failure.
"""

import fcntl
import hashlib
import os
import re
import shutil
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

HERE = Path(__file__).parent
FOLDER = HERE.parents[1] / ".node-tests"
NOT_RUN = 75  # EX_TEMPFAIL
OLDEST = (18, 18)
SECONDS = 600
STAMP = "made-from"

# what npm says when no registry answers
_UNREACHED = re.compile(
    "ENOTFOUND|EAI_AGAIN|ECONNREFUSED|ECONNRESET|ETIMEDOUT|ENETUNREACH|ERR_SOCKET_TIMEOUT|EHOSTUNREACH"
)


class NotRun(Exception):
    """Why the packages cannot be had here, in one sentence."""


def node_version() -> str:
    """The version of the Node.js that is here.

    Raises
    ------
    NotRun
        Where it or npm is missing, or too old for the packages.
    """
    for program in ("node", "npm"):
        if not shutil.which(program):
            raise NotRun(f"There is no {program} here; on Debian and Ubuntu: apt-get install nodejs npm.")
    version = subprocess.run(["node", "--version"], capture_output=True, text=True, check=True).stdout.strip()
    numbers = tuple(int(part) for part in version.removeprefix("v").split(".")[:2])
    if numbers < OLDEST:
        raise NotRun(f"Node.js is {version}; the packages need {'.'.join(map(str, OLDEST))} or newer.")
    return version


def install(folder: Path = FOLDER) -> Path:
    """Install the packages unless they are there.

    Parameters
    ----------
    folder : pathlib.Path
        Where they go.

    Returns
    -------
    pathlib.Path
        The same folder, with ``node_modules`` in it.

    Raises
    ------
    NotRun
        Where they cannot be had.
    """
    version = node_version()
    lock = HERE / "package-lock.json"
    fingerprint = hashlib.sha256(lock.read_bytes() + version.encode()).hexdigest()
    with lock.open() as held:
        fcntl.flock(held, fcntl.LOCK_EX)  # two runs at once: the second waits
        stamp = folder / STAMP
        if stamp.is_file() and stamp.read_text() == fingerprint:
            return folder
        print(f"Installing the pinned Node.js packages into {folder.name} (first run only) ...", flush=True)
        shutil.rmtree(folder, ignore_errors=True)
        folder.mkdir(parents=True)
        for name in ("package.json", "package-lock.json"):
            shutil.copy(HERE / name, folder)
        command = ["npm", "ci", "--ignore-scripts", "--no-audit", "--no-fund", "--fetch-retries=2"]
        try:
            ran = subprocess.run(command, cwd=folder, capture_output=True, text=True, timeout=SECONDS, check=False)
        except subprocess.TimeoutExpired:
            raise NotRun(f"npm did not get the packages within {SECONDS} seconds.") from None
        if ran.returncode:
            said = ran.stdout + ran.stderr
            if _UNREACHED.search(said):
                raise NotRun("No registry of Node.js packages could be reached.")
            raise RuntimeError(f"npm could not install the packages:\n{said}")
        stamp.write_text(fingerprint)
    return folder


def program(folder: Path, path: str, *words: str) -> list[str]:
    """The command that runs a program of an installed package.

    Parameters
    ----------
    folder : pathlib.Path
        From `install`.
    path : str
        Of the program below ``node_modules``; links in ``.bin`` are not made on every file system.
    words : str
        Its arguments.
    """
    return ["node", str(folder / "node_modules" / path), *words]


def step(run: Callable[[Path], int]) -> int:
    """Run what needs the packages.

    Parameters
    ----------
    run : callable
        Gets the folder of `install`; its exit status is returned.

    Returns
    -------
    int
        `NOT_RUN` where they cannot be had, or 1 with ``NODE_REQUIRED``.
    """
    try:
        folder = install()
    except NotRun as reason:
        print(reason)
        return 1 if os.environ.get("NODE_REQUIRED") else NOT_RUN
    sys.stdout.flush()
    return run(folder)
