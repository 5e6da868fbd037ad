"""Drain sizes against IMC 2021 Table 307.2.2, at its edges, and against Manning's formula."""

import math

import fluids
import pytest

from service.calculations.drain_sizing import ServedUnit, size_drain
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


def test_full_bore_capacity_is_manning_by_hand_and_by_fluids() -> None:
    # 3/4 in PVC Schedule 40 (bore 0.824 in = 0.0209296 m) at 1 % and n = 0.011. By hand:
    # A = pi/4 x 0.0209296^2 = 3.4404e-4 m2, R = 0.0052324 m, R^(2/3) = 0.030140, sqrt(0.01) = 0.1;
    # Q = 3.4404e-4 x 0.030140 x 0.1 / 0.011 = 9.427e-5 m3/s = 89.6 gal/h
    results = size_drain(
        units=(ServedUnit(total_capacity=10_000.0),), pitch_ratio=0.01, manning_coefficient=0.011
    ).results
    assert results.full_bore_capacity == pytest.approx(9.427e-5, rel=2e-4)
    speed = fluids.V_Manning(Rh=0.0209296 / 4, S=0.01, n=0.011)
    assert results.full_bore_capacity == pytest.approx(speed * math.pi / 4 * 0.0209296**2, rel=1e-9)


@pytest.mark.parametrize("share", [0.01, 0.1, 0.3, 0.7])
def test_a_line_fouled_to_its_margin_just_carries_the_peak_hour(share: float) -> None:
    # the bore that the film leaves, put into Manning's formula by fluids
    clean = size_drain(units=(ServedUnit(total_capacity=10_000.0),), pitch_ratio=0.0208).results
    assert clean.full_bore_capacity is not None
    peak = share * clean.full_bore_capacity
    results = size_drain(units=(ServedUnit(total_capacity=10_000.0, peak_flow=peak),), pitch_ratio=0.0208).results
    assert results.bore is not None
    assert results.fouling_film_thickness is not None
    left = results.bore - 2.0 * results.fouling_film_thickness
    carried = fluids.V_Manning(Rh=left / 4, S=0.0208, n=0.011) * math.pi / 4 * left**2
    assert carried == pytest.approx(peak, rel=1e-9)
    assert results.fouling_margin == pytest.approx(1.0 - (left / results.bore) ** 2, rel=1e-9)
