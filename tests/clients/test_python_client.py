"""A typed Python client made from the committed document: nothing is missing, it type-checks, its names read well, and
it does the main job.

`openapi-python-client` knows neither CSV nor one object a line: it warns of the two, leaves out those bodies, and takes
the JSON body of the same operation. Any other warning is a fault of the document.
"""

import ast
import json
import re
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest
from asked_plainly import UNIT, main_job

HERE = Path(__file__).parent
DOCUMENT = HERE.parents[1] / "openapi" / "openapi.json"
PACKAGE = "condensate_drainage_service_client"
NOT_KNOWN_TO_THE_GENERATOR = {"application/x-ndjson", "text/csv"}


@pytest.fixture(scope="module")
def said_and_made(tmp_path_factory: pytest.TempPathFactory) -> tuple[str, Path]:
    """What the generator said, and the folder that holds the package."""
    folder = tmp_path_factory.mktemp("python") / PACKAGE
    command = [sys.executable, "-m", "openapi_python_client", "generate", "--meta", "none"]
    command += ["--config", str(HERE / "openapi-python-client.yaml")]
    made = subprocess.run(
        [*command, "--path", str(DOCUMENT), "--output-path", str(folder)],
        stdout=subprocess.PIPE,
        stderr=subprocess.STDOUT,
        text=True,
        check=True,
    )
    return made.stdout, folder.parent


def test_the_generator_warns_of_nothing_but_media_types_it_does_not_know(said_and_made: tuple[str, Path]) -> None:
    said, _ = said_and_made
    warnings = re.findall(r"^(?:WARNING|ERROR) .*\n\n(.*)$", said, re.MULTILINE)
    assert len(warnings) == len(re.findall("^(?:WARNING|ERROR)", said, re.MULTILINE))
    assert sorted(warnings) == [f"Unsupported content type {name}" for name in sorted(NOT_KNOWN_TO_THE_GENERATOR)]


def test_the_client_type_checks(said_and_made: tuple[str, Path]) -> None:
    _, folder = said_and_made
    ran = subprocess.run(
        [sys.executable, "-m", "mypy", "--strict", "--config-file=", "-p", PACKAGE, "-m", "main_job"],
        cwd=folder,
        env={"MYPYPATH": f"{folder}:{HERE}", "PATH": "/usr/bin:/bin"},
        capture_output=True,
        text=True,
        check=False,
    )
    assert ran.returncode == 0, ran.stdout + ran.stderr


def names_of(folder: Path) -> Iterator[str]:
    """Every module, class and constant of a list of words."""
    for path in sorted(folder.rglob("*.py")):
        yield path.stem
        for node in ast.walk(ast.parse(path.read_text())):
            if isinstance(node, ast.ClassDef):
                yield node.name
                if any(isinstance(base, ast.Name) and base.id.endswith("Enum") for base in node.bases):
                    assigned = [each for each in node.body if isinstance(each, ast.Assign)]
                    yield from (
                        target.id for each in assigned for target in each.targets if isinstance(target, ast.Name)
                    )


def test_the_names_read_well(said_and_made: tuple[str, Path]) -> None:
    """A generator that finds no name makes one up: of a number, a place, or the member twice."""
    schemas = set(json.loads(DOCUMENT.read_bytes())["components"]["schemas"])
    names = set(names_of(said_and_made[1] / PACKAGE))
    made_up = re.compile(r"(?i).*(type_?\d|item\d|response_?\d+|inline|additional_?propert\w*|value_?\d+|member_?\d+)")
    assert not {name for name in names if made_up.fullmatch(name)}
    models = {path.stem for path in (said_and_made[1] / PACKAGE / "models").glob("*.py")} - {"__init__"}
    assert models == {re.sub(r"(?<!^)(?=[A-Z])", "_", name).lower() for name in schemas}, "each component, and no other"


def test_the_client_does_the_main_job(said_and_made: tuple[str, Path], server: tuple[str, int]) -> None:
    address = "http://{}:{}".format(*server)
    ran = subprocess.run(
        [sys.executable, str(HERE / "main_job.py"), address, UNIT],
        env={"PYTHONPATH": str(said_and_made[1])},
        capture_output=True,
        text=True,
        check=False,
    )
    assert ran.returncode == 0, ran.stderr
    told = json.loads(ran.stdout)
    assert told == main_job(address)
    assert told["failures"], "the demo unit has something to tell"
    assert told["refusal"]["status"] == 400


def test_the_program_in_the_guide_prints_what_is_shown(
    said_and_made: tuple[str, Path], server: tuple[str, int]
) -> None:
    guide = (DOCUMENT.parents[1] / "service" / "pages" / "guide.md").read_text()
    [(program, shown)] = re.findall(r"^```python\n(.*?)^```\n\n```text\n(.*?)^```$", guide, re.MULTILINE | re.DOTALL)
    address = "http://{}:{}".format(*server)
    ran = subprocess.run(
        [sys.executable, "-c", program.replace("http://127.0.0.1:8080", address)],
        env={"PYTHONPATH": str(said_and_made[1])},
        capture_output=True,
        text=True,
        check=False,
    )
    assert (ran.stdout, ran.stderr) == (shown, "")
