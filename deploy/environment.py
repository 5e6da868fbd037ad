"""Makes a Python environment from a lock file, once: ``python3 deploy/environment.py FOLDER LOCK``.

Standard library only. A second run with the same lock file and the same Python returns at once.
"""

import fcntl
import hashlib
import os
import re
import subprocess
import sys
from pathlib import Path

STAMP = "made-from"
LOG = "install.log"

# what pip prints when no index answers; it has no exit status of its own for that
_UNREACHED = re.compile(
    "NewConnectionError|Failed to establish|name resolution|Name or service not known|Network is unreachable"
    "|Connection refused|[Tt]imed out|ConnectTimeout|ProxyError|Max retries exceeded|connection broken by",
)


class Trouble(Exception):
    """What is wrong and what to do about it, in one sentence."""


def _fingerprint(lock: Path) -> str:
    python = f"{os.path.realpath(sys.executable)} {sys.version_info[0]}.{sys.version_info[1]}"
    return hashlib.sha256(lock.read_bytes() + python.encode()).hexdigest()


def _require_venv() -> None:
    try:
        import ensurepip  # noqa: F401 - Debian packs these two apart from Python
        import venv  # noqa: F401
    except ImportError:
        package = f"python{sys.version_info[0]}.{sys.version_info[1]}-venv"
        raise Trouble(
            f"The venv module of this Python ({sys.executable}) is missing: install it (on Debian and Ubuntu: "
            f"apt-get install {package}) and run this again."
        ) from None


def _install(folder: Path, lock: Path) -> None:
    made = subprocess.run(  # noqa: S603 - words of ours only
        [sys.executable, "-m", "venv", "--clear", str(folder)], capture_output=True, text=True, check=False
    )
    if made.returncode:
        said = (made.stdout + made.stderr).strip().splitlines() or ["no message"]
        raise Trouble(f"The Python environment {folder} could not be made: {said[-1]}")
    # The lock file is complete, so pip needs to resolve nothing: --no-deps also leaves out what a dependency
    # declares but this service never imports (SciPy).
    command = [str(folder / "bin" / "python"), "-m", "pip", "install", "--require-hashes", "--no-deps"]
    command += ["--prefer-binary", "--retries", "2", "--disable-pip-version-check", "-r", str(lock)]
    log = folder / LOG
    with log.open("w") as out:
        ran = subprocess.run(command, stdout=out, stderr=subprocess.STDOUT, check=False)  # noqa: S603 - as above
    if ran.returncode:
        said = log.read_text(errors="replace")
        if _UNREACHED.search(said):
            raise Trouble(
                "No package index could be reached, so the dependencies are not installed: connect this machine to the "
                f"network (or set pip up for a mirror) and run this again; pip's messages are in {log}."
            )
        errors = [line for line in said.splitlines() if line.startswith("ERROR")] or ["no message"]
        raise Trouble(f"pip could not install the dependencies ({errors[-1]}); all its messages are in {log}.")


def make_environment(folder: Path, lock: Path) -> Path:
    """Make the environment unless it is there.

    Parameters
    ----------
    folder : pathlib.Path
        Where it goes; what is there from another lock file is replaced.
    lock : pathlib.Path
        Pinned requirements with their hashes.

    Returns
    -------
    pathlib.Path
        Its Python.

    Raises
    ------
    Trouble
        One sentence for a person.
    """
    fingerprint = _fingerprint(lock)
    stamp = folder / STAMP
    with lock.open() as held:
        fcntl.flock(held, fcntl.LOCK_EX)  # two first runs at once: the second waits
        if not stamp.is_file() or stamp.read_text() != fingerprint:
            _require_venv()
            print(f"Installing the pinned dependencies into {folder.name} (first run only) ...", flush=True)
            try:
                _install(folder, lock)
                stamp.write_text(fingerprint)
            except OSError as error:
                raise Trouble(f"The Python environment {folder} could not be made: {error}.") from None
    return folder / "bin" / "python"


if __name__ == "__main__":
    try:
        make_environment(Path(sys.argv[1]), Path(sys.argv[2]))
    except Trouble as trouble:
        sys.exit(str(trouble))
    except KeyboardInterrupt:
        sys.exit(130)
