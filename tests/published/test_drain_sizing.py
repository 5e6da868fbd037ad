"""Drain sizes against IMC 2021 Table 307.2.2, at its edges."""

import pytest

from service.tables.drain_sizes import TON, drain_size

# IMC 2021 Table 307.2.2 (IPC Table 314.2.2 has the same rows): "Up to 20 tons 3/4 inch; over 20 tons
# to 40 tons 1 inch; over 40 to 90 1-1/4; over 90 to 125 1-1/2; over 125 to 250 2 inch"
EDGES = (
    (0.5, "3/4"),
    (20.0, "3/4"),
    (20.001, "1"),
    (40.0, "1"),
    (40.01, "1-1/4"),
    (90.0, "1-1/4"),
    (90.01, "1-1/2"),
    (125.0, "1-1/2"),
    (125.01, "2"),
    (250.0, "2"),
)


@pytest.mark.parametrize(("tons", "size"), EDGES)
def test_table_307_2_2_at_its_edges(tons: float, size: str) -> None:
    row = drain_size(tons * TON)
    assert row is not None
    assert row.pipe_size == size


@pytest.mark.parametrize("tons", [250.01, 251.0, 10_000.0])
def test_above_the_table_there_is_no_row(tons: float) -> None:
    assert drain_size(tons * TON) is None


def test_a_ton_of_refrigeration_is_3_517_kw() -> None:
    # footnote of the table: 1 ton of capacity = 3.517 kW
    assert pytest.approx(3517.0, abs=0.5) == TON
