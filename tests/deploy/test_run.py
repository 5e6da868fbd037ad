"""`deploy/run`: what a stranger reads, and the one sentence for each thing that can be in the way."""

import json
import os
import shutil
import signal
import socket
import subprocess
from pathlib import Path

import pytest
from starting import HOST, ROOT, ask, container_command, free_port, wait_until_ready

SECONDS = 240


def run(folder: Path, *words: str, **environment: str) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [str(folder / "deploy" / "run"), *words],
        env={**os.environ, **environment},
        capture_output=True,
        text=True,
        timeout=SECONDS,
        check=False,
    )


@pytest.fixture
def fresh(tmp_path: Path) -> Path:
    """The deploy folder in a clone where nothing has been installed yet."""
    shutil.copytree(ROOT / "deploy", tmp_path / "deploy", ignore=shutil.ignore_patterns("__pycache__"))
    return tmp_path


def one_sentence(ran: subprocess.CompletedProcess[str]) -> str:
    assert ran.returncode == 1
    lines = ran.stderr.strip().splitlines()
    assert len(lines) == 1, ran.stderr
    return lines[0]


def test_help_names_every_option() -> None:
    ran = run(ROOT, "--help")
    assert ran.returncode == 0
    for option in ("--port", "--workers", "--once", "PYTHON="):
        assert option in ran.stdout


@pytest.mark.parametrize(
    "words", [("--port", "0"), ("--port", "65536"), ("--workers", "0"), ("--port", "x"), ("--no",)]
)
def test_wrong_option_is_refused(words: tuple[str, ...]) -> None:
    ran = run(ROOT, *words)
    assert ran.returncode == 2
    assert "error:" in ran.stderr


def test_busy_port() -> None:
    with socket.socket() as holder:
        holder.bind((HOST, 0))
        holder.listen()
        port = holder.getsockname()[1]
        said = one_sentence(run(ROOT, "--port", str(port)))
    assert f"Port {port} on {HOST} is already in use" in said
    assert "--port" in said


def test_missing_venv_module(fresh: Path) -> None:
    missing = fresh / "missing"
    missing.mkdir()
    # what Debian's Python does without python3-venv
    (missing / "ensurepip.py").write_text("raise ImportError('not packaged')\n")
    said = one_sentence(run(fresh, "--port", str(free_port()), PYTHONPATH=str(missing)))
    assert "venv module" in said
    assert "apt-get install python3" in said


def test_no_network(fresh: Path) -> None:
    nowhere = f"http://{HOST}:{free_port()}/"
    said = one_sentence(
        run(
            fresh,
            "--port",
            str(free_port()),
            PIP_CONFIG_FILE=os.devnull,
            PIP_INDEX_URL=nowhere,
            PIP_EXTRA_INDEX_URL="",
            PIP_FIND_LINKS="",
            PIP_NO_CACHE_DIR="1",
        )
    )
    assert "network" in said


def test_python_too_old(fresh: Path) -> None:
    tools = fresh / "tools"
    tools.mkdir()
    for name in ("bash", "dirname", "head"):
        (tools / name).symlink_to(shutil.which(name) or name)
    old = tools / "python3"
    old.write_text('#!/bin/sh\nif [ "$1" = --version ]; then echo Python 3.9.2; else exit 1; fi\n')
    old.chmod(0o755)
    said = one_sentence(run(fresh, PATH=str(tools), PYTHON=""))
    assert "3.11" in said
    assert "3.9.2" in said
    old.unlink()
    assert "no Python" in one_sentence(run(fresh, PATH=str(tools), PYTHON=""))


@pytest.fixture(scope="module")
def installed() -> None:
    """The environment of `deploy/run` is there."""
    made = subprocess.run(
        ["bash", "-c", '"$(deploy/find-python)" -B deploy/environment.py .venv deploy/requirements.lock'],
        cwd=ROOT,
        timeout=SECONDS,
        check=False,
    )
    assert made.returncode == 0


@pytest.mark.usefixtures("installed")
def test_stays_up_until_interrupted_and_leaves_nothing_running() -> None:
    port = free_port()
    process = subprocess.Popen(
        [str(ROOT / "deploy" / "run"), "--port", str(port), "--workers", "1"],
        cwd="/",
        stdout=subprocess.PIPE,
        stderr=subprocess.STDOUT,
        text=True,
    )
    assert process.stdout
    wait_until_ready(process, port)
    said = ""
    for line in process.stdout:
        said += line
        if "The service is up" in line:
            break
    assert "Verdict: FAIL" in said
    assert "to do:" in said
    # the printed line does what it says, from the folder it was printed in
    line = next(line.strip() for line in said.splitlines() if line.strip().startswith("curl "))
    answer = json.loads(subprocess.run(["sh", "-c", line], cwd="/", capture_output=True, check=True).stdout)
    assert answer["verdict"] == "fail"
    for finding in answer["findings"]:
        assert f"({finding['code']})" in " ".join(said.split())
    process.send_signal(signal.SIGINT)
    rest, _ = process.communicate(timeout=60)
    assert "Stopped." in rest
    assert "Traceback" not in rest
    assert process.returncode == 0
    with pytest.raises(ConnectionRefusedError):
        ask(port, "GET", "/livez")


@pytest.mark.usefixtures("installed")
def test_second_run_installs_nothing() -> None:
    ran = run(ROOT, "--once", "--port", str(free_port()), PATH=os.environ["PATH"], PIP_INDEX_URL="http://127.0.0.1:9/")
    assert ran.returncode == 0, ran.stderr
    assert "Installing" not in ran.stdout


def test_starts_the_container_command() -> None:
    text = (ROOT / "deploy" / "start.py").read_text()
    assert f"SERVER = {json.dumps(container_command())}" in text


def test_lock_files_pin_and_hash_everything() -> None:
    for name in ("requirements.lock", "requirements-tests.lock"):
        text = (ROOT / "deploy" / name).read_text()
        starts = [line for line in text.splitlines() if line and not line.startswith((" ", "#"))]
        assert len(starts) > 15
        for block in text.replace("\\\n", "").splitlines():
            assert "==" in block
            assert "--hash=sha256:" in block
        assert "://" not in text
    assert "scipy==" not in (ROOT / "deploy" / "requirements.lock").read_text()
