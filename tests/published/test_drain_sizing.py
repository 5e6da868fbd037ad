"""Drain sizes against IMC 2021 Table 307.2.2, at its edges, and against Manning's formula."""

import math

import fluids
import pytest

from service.calculations.drain_sizing import size_drain
from service.calculations.line_flow import line_flow
from service.calculations.served_unit import ServedUnit
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


def test_the_film_that_backs_the_line_up_is_found_by_trying() -> None:
    # brute force: thicken an even film by 0.01 mm until Manning's formula (fluids) on the bore that is left no longer
    # carries the peak hour; 3/4 in copper type M, bore 0.811 in
    bore, pitch, roughness = 0.811 * 0.0254, 0.0104, 0.009
    peak = 4.0 * 3.785411784e-3 / 3600.0
    film = 0.0
    while True:
        left = bore - 2.0 * (film + 1e-5)
        if fluids.V_Manning(Rh=left / 4.0, S=pitch, n=roughness) * math.pi / 4.0 * left**2 < peak:
            break
        film += 1e-5
    results = size_drain(
        units=(ServedUnit(total_capacity=30_000.0, peak_flow=peak),),
        pitch_ratio=pitch,
        manning_coefficient=roughness,
        material="copper-type-m",
    ).results
    assert results.fouling_film_thickness == pytest.approx(film, abs=1e-5)
    # the same film as a share of the bore, from the two circles
    assert results.fouling_margin == pytest.approx(1.0 - (bore - 2.0 * film) ** 2 / bore**2, abs=1e-3)


@pytest.mark.parametrize("gallons", [0.3, 1.5, 8.0, 40.0, 75.0])
def test_depth_and_velocity_at_the_peak_satisfy_manning_of_fluids(gallons: float) -> None:
    peak = gallons * 3.785411784e-3 / 3600.0
    units = (ServedUnit(total_capacity=30_000.0, peak_flow=peak),)
    results = size_drain(units=units, pitch_ratio=0.0104, manning_coefficient=0.011).results
    assert results.depth is not None
    assert results.depth_fraction is not None
    assert results.bore is not None
    assert results.depth == pytest.approx(results.depth_fraction * results.bore, rel=1e-12)
    area = fluids.geometry.A_partial_circle(D=results.bore, h=results.depth)
    wall = results.bore * math.acos(1.0 - 2.0 * results.depth_fraction)
    assert results.velocity == pytest.approx(fluids.V_Manning(Rh=area / wall, S=0.0104, n=0.011), rel=1e-6)
    assert results.velocity is not None
    assert results.velocity * area == pytest.approx(peak, rel=1e-6)
    # Reynolds number on the hydraulic diameter at 20 degC: 1.0034e-6 m2/s (from memory; IAPWS 1.0034)
    reynolds = fluids.Reynolds(V=results.velocity, D=4 * area / wall, nu=1.0034e-6)
    assert results.reynolds == pytest.approx(reynolds, rel=1e-3)
    assert (results.laminar_depth is None) == (results.reynolds is not None and results.reynolds > 2000.0)
    assert results.self_cleansing is False


def test_a_steep_line_that_runs_two_feet_a_second_is_self_cleansing() -> None:
    # appendix K of the National Standard Plumbing Code 2009: 2 ft/s scours. Half full on 0.06, by hand:
    # R^(2/3) = 0.0052324^(2/3) = 0.030140, x 0.24495 / 0.011 = 0.671 m/s = 2.20 ft/s; on 0.04 0.548 m/s = 1.80 ft/s
    answers = []
    for pitch in (0.06, 0.04):
        clean = size_drain(units=(ServedUnit(total_capacity=30_000.0),), pitch_ratio=pitch).results
        assert clean.full_bore_capacity is not None
        half = (ServedUnit(total_capacity=30_000.0, peak_flow=clean.full_bore_capacity / 2.0),)
        answers.append(size_drain(units=half, pitch_ratio=pitch).results)
    assert [round(answer.velocity or 0.0, 3) for answer in answers] == [0.671, 0.548]
    assert [answer.self_cleansing for answer in answers] == [True, False]


def test_a_clean_line_of_condensate_is_laminar_and_manning_close_enough() -> None:
    # what the documentation says: with n = 0.011, on the code's slopes and sizes, laminar flow stands at most 3 % of
    # the bore deeper than Manning has it, and leaves room for a film that takes at most 0.03 less of the bore.
    # Hagen and Poiseuille: Q = pi g S d^4 / (128 nu)
    seen = 0
    for bore in (0.0182, 0.0209296, 0.0266446, 0.0525):
        for pitch in (0.01, 1 / 48, 0.1):
            for step in range(60):
                peak = 1e-8 * 1.2**step
                flow = line_flow(
                    peak_flow=peak,
                    bore=bore,
                    pitch_ratio=pitch,
                    manning_coefficient=0.011,
                    kinematic_viscosity=1.0034e-6,
                )
                assert flow.depth is not None
                assert flow.fouling_margin is not None
                if flow.laminar_depth is not None:
                    assert flow.laminar_depth - flow.depth < 0.03 * bore
                left = (128.0 * 1.0034e-6 * peak / (math.pi * 9.80665 * pitch)) ** 0.25
                if left < bore and fluids.Reynolds(V=4 * peak / (math.pi * left**2), D=left, nu=1.0034e-6) < 2000.0:
                    seen += 1
                    assert flow.fouling_margin - (1.0 - (left / bore) ** 2) < 0.03
    assert seen > 100
