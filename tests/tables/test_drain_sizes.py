"""The drain size table: its order, its edges in any unit, and its end."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from service.tables.drain_sizes import DRAIN_SIZES, TON, drain_size
from service.tables.pipe_sizes import COMMON_SIZES, NOMINAL_SIZES


def size_at(tons: float) -> str | None:
    """Nominal size for a capacity in tons of refrigeration."""
    row = drain_size(tons * TON)
    return row.pipe_size if row else None


def test_every_size_of_the_table_is_made_in_every_material() -> None:
    assert {row.pipe_size for row in DRAIN_SIZES} <= set(COMMON_SIZES)


@given(st.floats(0.0, 400.0), st.floats(0.0, 400.0))
def test_more_capacity_never_needs_a_smaller_line(one: float, other: float) -> None:
    order = [*NOMINAL_SIZES, None]
    smaller, larger = sorted((one, other))
    assert order.index(size_at(smaller)) <= order.index(size_at(larger))


@pytest.mark.parametrize("watts", [240_000 * 0.29307107, 70_337.0, 70_340.0, 240 * 293.07107])
def test_twenty_tons_in_any_unit_is_twenty_tons(watts: float) -> None:
    # 240,000 Btu/h; kW as a nameplate prints it; kW by the codes' footnote, 20 x 3.517
    row = drain_size(watts)
    assert row is not None
    assert row.pipe_size == "3/4"
