"""The pipe table: every row is there once, in order, and look-ups answer or say why not."""

import pytest

from service.tables.pipe_sizes import (
    COMMON_SIZES,
    DEFAULT_MATERIAL,
    MATERIALS,
    NOMINAL_SIZES,
    PIPE_SIZES,
    is_made,
    pipe,
    sizes_made,
)


def inches(nominal: str) -> float:
    """The number that a nominal size names: 1-1/4 is 1.25."""
    whole, _, fraction = nominal.rpartition("-")
    top, _, bottom = fraction.partition("/")
    return float(whole or 0) + float(top) / float(bottom or 1)


def test_nominal_sizes_rise() -> None:
    numbers = [inches(size) for size in NOMINAL_SIZES]
    assert numbers == sorted(set(numbers))


def test_every_row_is_found_by_its_own_name_and_only_once() -> None:
    assert len({(row.material, row.pipe_size) for row in PIPE_SIZES}) == len(PIPE_SIZES)
    for row in PIPE_SIZES:
        assert pipe(row.material, row.pipe_size) is row


@pytest.mark.parametrize("material", MATERIALS)
def test_bores_and_diameters_rise_with_the_nominal_size(material: str) -> None:
    rows = [pipe(material, size) for size in sizes_made(material)]
    assert [row.bore for row in rows] == sorted(row.bore for row in rows)
    assert [row.outside_diameter for row in rows] == sorted(row.outside_diameter for row in rows)


def test_default_material_has_every_size_and_every_material_the_sizes_of_the_drain_table() -> None:
    assert sizes_made(DEFAULT_MATERIAL) == NOMINAL_SIZES
    assert {"3/4", "1", "1-1/4", "1-1/2", "2"} <= set(COMMON_SIZES)


@pytest.mark.parametrize(("material", "size"), [("cpvc-sdr-11", "3"), ("lead", "1"), ("copper-type-m", "7/8")])
def test_a_pipe_that_is_not_made_is_a_value_error_naming_it(material: str, size: str) -> None:
    assert not is_made(material, size)
    with pytest.raises(ValueError, match=f"no {size} in pipe of {material}"):
        pipe(material, size)
