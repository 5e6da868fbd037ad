"""The image: its recipe is linted, and its command runs outside it as it would inside."""

import json
import shutil
import signal
import subprocess
import sys
from pathlib import Path

from starting import ROOT, SECONDS, ask, started

DOCKERFILE = (ROOT / "Dockerfile").read_text()


def test_hadolint_has_nothing_to_say() -> None:
    hadolint = Path(sys.executable).parent / "hadolint"
    ran = subprocess.run(
        [str(hadolint), "--no-color", "--failure-threshold", "style", str(ROOT / "Dockerfile")],
        capture_output=True,
        text=True,
        check=False,
    )
    assert (ran.returncode, ran.stdout) == (0, "")
    assert "hadolint ignore" not in DOCKERFILE


def test_image_runs_as_nobody_in_particular_and_stops_on_sigterm() -> None:
    last_stage = DOCKERFILE.rpartition("\nFROM ")[2].splitlines()
    assert "USER 10001:10001" in last_stage
    assert "STOPSIGNAL SIGTERM" in last_stage
    assert any("HEALTHCHECK" in line for line in last_stage)
    # wide open by name only: the image listens to everyone, and then asks for keys
    assert any("BIND=0.0.0.0:8080" in line for line in last_stage)
    assert "ALLOW_OPEN" not in DOCKERFILE


def test_command_runs_without_home_writes_nothing_and_ends_on_sigterm(tmp_path: Path) -> None:
    folder = tmp_path / "app"
    shutil.copytree(ROOT / "service", folder / "service", ignore=shutil.ignore_patterns("__pycache__"))
    (folder / "deploy").mkdir()
    for file in ("gunicorn.conf.py", "patient_worker.py", "client_sockets.py"):
        shutil.copy(ROOT / "deploy" / file, folder / "deploy")
    for path in (folder, *folder.rglob("*")):
        path.chmod(path.stat().st_mode & ~0o222)
    before = sorted(folder.rglob("*"))
    log = tmp_path / "log"
    with started(folder, log, tmp_path / "without") as (process, port):
        # 1/4 in per ft over 32 ft is 8 in, by hand
        status, _, raw = ask(port, "POST", "/v1/drain-pitch", {"run": {"value": 32, "unit": "ft"}})
        assert status == 200
        assert abs(json.loads(raw)["results"]["fall"]["value"] - 8.0) < 1e-9
        process.send_signal(signal.SIGTERM)
        assert process.wait(SECONDS) == 0
    assert sorted(folder.rglob("*")) == before
    said = log.read_text()
    assert "Traceback" not in said
    assert "ERROR" not in said


def test_health_check_passes_on_a_service_and_fails_without(port: int) -> None:
    check = DOCKERFILE.partition("HEALTHCHECK")[2].partition("CMD ")[2].splitlines()[0]
    words = [sys.executable, *json.loads(check)[1:]]
    assert subprocess.run(words, env={"BIND": f"0.0.0.0:{port}"}, check=False).returncode == 0
    closed = subprocess.run(words, env={"BIND": "0.0.0.0:9"}, capture_output=True, check=False)
    assert closed.returncode != 0
