"""The container's command, started once for the tests that only ask it something."""

import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

sys.path.insert(0, str(Path(__file__).parent))  # `starting`, shared by the tests of this folder

from starting import ROOT, started


@pytest.fixture(scope="session")
def port(tmp_path_factory: pytest.TempPathFactory) -> Iterator[int]:
    """Port on which the container's command listens."""
    folder = tmp_path_factory.mktemp("server")
    with started(ROOT, folder / "log", folder / "without") as (_, listening):
        yield listening
