"""What needs Node.js says that it was not run where it cannot be, and never passes for that; the judges find faults."""

import json
import shutil
import sys
from pathlib import Path

import judges
import node_packages
import pytest
from node_packages import FOLDER, HERE, NOT_RUN, STAMP, install, step

DOCUMENT = HERE.parents[1] / "openapi" / "openapi.json"


@pytest.fixture
def programs(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A folder that is the whole of PATH; a script in it stands for a program."""
    folder = tmp_path / "bin"
    folder.mkdir()
    monkeypatch.setenv("PATH", str(folder))
    monkeypatch.delenv("NODE_REQUIRED", raising=False)
    monkeypatch.setattr(node_packages, "install", lambda: install(tmp_path / "packages"))
    return folder


def put(folder: Path, name: str, said: str, status: int = 0) -> None:
    """A program that writes down how often it was called, says something and ends."""
    path = folder / name
    path.write_text(
        f"#!{sys.executable}\nimport sys\nopen({str(folder / (name + '.calls'))!r}, 'a').write('x')\n"
        f"print({said!r}, file=sys.stderr if {status} else sys.stdout)\nsys.exit({status})\n"
    )
    path.chmod(0o755)


def never(folder: Path) -> int:
    raise AssertionError("must not run")


def test_without_node_it_is_not_run(programs: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert step(never) == NOT_RUN
    assert "There is no node here" in capsys.readouterr().out


def test_where_node_is_required_that_is_a_failure(programs: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("NODE_REQUIRED", "yes")
    assert step(never) == 1


def test_with_an_old_node_it_is_not_run(programs: Path, capsys: pytest.CaptureFixture[str]) -> None:
    put(programs, "node", "v12.22.9")
    put(programs, "npm", "")
    assert step(never) == NOT_RUN
    assert "Node.js is v12.22.9; the packages need 18.18 or newer." in capsys.readouterr().out


@pytest.mark.parametrize(
    "said", ["npm ERR! code ENOTFOUND", "npm error code EAI_AGAIN", "npm error errno ECONNREFUSED"]
)
def test_without_a_registry_it_is_not_run(said: str, programs: Path, capsys: pytest.CaptureFixture[str]) -> None:
    put(programs, "node", "v20.19.0")
    put(programs, "npm", said, 1)
    assert step(never) == NOT_RUN
    assert "No registry" in capsys.readouterr().out


def test_any_other_trouble_of_npm_is_a_fault(programs: Path) -> None:
    put(programs, "node", "v20.19.0")
    put(programs, "npm", "npm error code EINTEGRITY", 1)
    with pytest.raises(RuntimeError, match="EINTEGRITY"):
        step(never)


def test_the_packages_are_installed_once(programs: Path) -> None:
    put(programs, "node", "v20.19.0")
    put(programs, "npm", "added 1 package")
    assert [step(lambda folder: len(list(folder.iterdir()))) for _ in range(2)] == [3, 3]
    assert (programs / "npm.calls").read_text() == "x"


def test_the_lock_file_names_no_registry_and_every_package_has_its_digest() -> None:
    lock = json.loads((HERE / "package-lock.json").read_text())
    wanted = json.loads((HERE / "package.json").read_text())["devDependencies"]
    assert lock["packages"][""]["devDependencies"] == wanted
    packages = [entry for name, entry in lock["packages"].items() if name]
    assert len(packages) > len(wanted)
    for entry in packages:
        assert "resolved" not in entry
        assert entry["integrity"].startswith("sha512-")


FAULTS = {
    "an operation without a summary": lambda document: document["paths"]["/v1/trap-check"]["post"].pop("summary"),
    "an example that does not match": lambda document: document["paths"]["/v1/trap-check"]["post"]["requestBody"][
        "content"
    ]["application/json"]["examples"].update(wrong={"value": {"pan_pressure": 7}}),
}


@pytest.mark.parametrize("fault", FAULTS)
def test_the_judges_find_a_fault(fault: str, tmp_path: Path) -> None:
    if not (shutil.which("node") and (FOLDER / STAMP).is_file()):
        pytest.skip("the Node.js packages are not installed; the step judges of tests/run does that")
    document = json.loads(DOCUMENT.read_bytes())
    FAULTS[fault](document)
    (tmp_path / "openapi.json").write_text(json.dumps(document))
    assert judges.judge(FOLDER, tmp_path / "openapi.json") == 1
