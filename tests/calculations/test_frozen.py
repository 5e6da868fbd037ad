"""A frozen dataclass of the calculations: it does what `dataclasses.dataclass` documents of its own."""

from dataclasses import FrozenInstanceError, asdict, replace

import pytest

from service.calculations.frozen import dataclass


@dataclass(frozen=True, kw_only=True, slots=True)
class Pipe:
    """A pipe, for the tests."""

    bore: float
    length: float = 1.0

    def __post_init__(self) -> None:
        if self.bore <= 0.0:
            raise ValueError("no bore")


@dataclass(frozen=True, kw_only=True, slots=True)
class Tube(Pipe):
    """A pipe that bends."""

    stiff: bool = False


@pytest.mark.parametrize("made", [Pipe(bore=0.02), Tube(bore=0.02, stiff=True), replace(Pipe(bore=0.03), bore=0.02)])
def test_nothing_of_it_can_be_changed(made: Pipe) -> None:
    with pytest.raises(FrozenInstanceError):
        made.bore = 0.03  # type: ignore[misc]
    with pytest.raises(FrozenInstanceError):
        made.wall = 0.002  # type: ignore[attr-defined]
    with pytest.raises(FrozenInstanceError):
        del made.length
    assert made.bore == 0.02


def test_it_compares_hashes_and_prints_by_its_members() -> None:
    pipe = Pipe(bore=0.02)
    assert repr(pipe) == "Pipe(bore=0.02, length=1.0)"
    assert pipe == Pipe(bore=0.02, length=1.0) != replace(pipe, length=2.0)
    assert pipe != Tube(bore=0.02)
    assert len({pipe, Pipe(bore=0.02), Pipe(bore=0.03)}) == 2
    assert asdict(replace(Tube(bore=0.02), length=3.0)) == {"bore": 0.02, "length": 3.0, "stiff": False}


def test_it_is_one_of_its_class_and_of_what_that_extends() -> None:
    tube = replace(Tube(bore=0.02), stiff=True)
    assert isinstance(tube, Tube)
    assert isinstance(tube, Pipe)
    assert type(tube).__qualname__ == "Tube"
    assert type(tube) is type(Tube(bore=0.05))


@pytest.mark.parametrize("kind", [Pipe, Tube])
def test_it_is_checked_when_it_is_made_and_when_it_is_made_from_another(kind: type[Pipe]) -> None:
    with pytest.raises(ValueError, match="no bore"):
        kind(bore=0.0)
    with pytest.raises(ValueError, match="no bore"):
        replace(kind(bore=0.02), bore=0.0)
    with pytest.raises(TypeError):
        kind(0.02)  # type: ignore[misc]
