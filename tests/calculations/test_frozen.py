"""A frozen dataclass of the calculations: what it is like, and who refuses that it be changed."""

import os
from dataclasses import replace
from pathlib import Path

import pytest

from service.calculations.frozen import dataclass

ROOT = Path(__file__).parents[2]


@dataclass(frozen=True, kw_only=True, slots=True)
class Pipe:
    """A pipe, for the tests."""

    bore: float
    length: float = 1.0


def test_it_is_made_compared_and_hashed_as_a_frozen_dataclass() -> None:
    pipe = Pipe(bore=0.02)
    assert repr(pipe).endswith("Pipe(bore=0.02, length=1.0)")
    assert pipe == Pipe(bore=0.02, length=1.0) != replace(pipe, length=2.0)
    assert len({pipe, Pipe(bore=0.02), Pipe(bore=0.03)}) == 2
    with pytest.raises(TypeError):
        Pipe(0.02)  # type: ignore[misc]
    with pytest.raises(AttributeError):
        pipe.wall = 0.002  # type: ignore[attr-defined]


def test_mypy_as_it_is_set_here_refuses_an_assignment(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    api = pytest.importorskip("mypy.api")
    monkeypatch.chdir(ROOT)  # where mypy finds its settings and the service
    code = tmp_path / "assigns.py"
    code.write_text(
        "from service.calculations.answer import Assumption\n"
        "taken = Assumption(pointer='/bore', value=0.02, note='A guess.')\n"
        "taken.value = 0.03\n"
    )
    said, _, status = api.run([f"--cache-dir={os.devnull}", str(code)])
    assert status == 1
    (fault, summary) = said.splitlines()
    assert fault.endswith('assigns.py:3: error: Property "value" defined in "Assumption" is read-only  [misc]')
    assert summary.startswith("Found 1 error in 1 file")
