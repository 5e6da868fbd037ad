"""Pipe dimensions against the tables of the `fluids` library and of the standards."""

import fluids.piping
import pytest

from service.tables.pipe_sizes import INCH, PIPE_SIZES, pipe, sizes_made

NUMBER = {
    "1/2": 0.5,
    "3/4": 0.75,
    "1": 1.0,
    "1-1/4": 1.25,
    "1-1/2": 1.5,
    "2": 2.0,
    "2-1/2": 2.5,
    "3": 3.0,
    "4": 4.0,
}


@pytest.mark.parametrize("size", NUMBER)
def test_pvc_schedule_40_is_the_astm_d1785_table_of_fluids(size: str) -> None:
    row = pipe("pvc-schedule-40", size)
    at = fluids.piping.NPS_D1785.index(NUMBER[size])
    # fluids carries the standard's inches converted to mm with four decimals
    assert row.bore * 1000 == pytest.approx(fluids.piping.S40i_D1785[at], abs=1e-4)
    assert row.outside_diameter * 1000 == pytest.approx(fluids.piping.S40o_D1785[at], abs=1e-4)
    assert row.wall * 1000 == pytest.approx(fluids.piping.S40t_D1785[at], abs=1e-4)


@pytest.mark.parametrize("size", NUMBER)
def test_pvc_schedule_40_has_the_dimensions_of_steel_schedule_40(size: str) -> None:
    # ASME B36.10M, rounded to 0.1 mm (outside) and 0.01 mm (wall): bore within 0.12 mm
    _, bore, outside, wall = fluids.piping.nearest_pipe(NPS=NUMBER[size], schedule="40")
    row = pipe("pvc-schedule-40", size)
    assert row.outside_diameter == pytest.approx(outside, abs=0.6e-4)
    assert row.wall == pytest.approx(wall, abs=0.6e-5)
    assert row.bore == pytest.approx(bore, abs=1.2e-4)


@pytest.mark.parametrize("size", ["3/4", "1", "1-1/4", "1-1/2", "2"])
def test_cpvc_sdr_11_has_the_copper_tube_size_sdr_11_dimensions_of_fluids(size: str) -> None:
    # fluids lists ASTM D2241 in copper tube sizes; D2846 gives the same walls from 3/4 in up
    at = fluids.piping.NPSDR11_D2241CTS.index(NUMBER[size])
    row = pipe("cpvc-sdr-11", size)
    assert row.bore * 1000 == pytest.approx(fluids.piping.SDR11i_D2241CTS[at], abs=1e-4)
    assert row.outside_diameter * 1000 == pytest.approx(fluids.piping.SDR11o_D2241CTS[at], abs=1e-4)


def test_cpvc_half_inch_has_the_thicker_wall_of_astm_d2846() -> None:
    # ASTM D2846: 0.625 in outside, 0.068 in minimum wall (a metric handbook: 1.70 mm)
    row = pipe("cpvc-sdr-11", "1/2")
    assert row.wall / INCH == pytest.approx(0.068, abs=1e-6)
    assert row.wall == pytest.approx(1.70e-3, abs=0.05e-3)


# ASTM B88 inside diameters, inches, as copper tube charts print them (two independent charts agree)
COPPER_BORES = {
    "copper-type-l": (0.545, 0.785, 1.025, 1.265, 1.505, 1.985, 2.465, 2.945, 3.905),
    "copper-type-m": (0.569, 0.811, 1.055, 1.291, 1.527, 2.009, 2.495, 2.981, 3.935),
}


@pytest.mark.parametrize("material", COPPER_BORES)
def test_copper_bores_are_those_of_astm_b88_charts(material: str) -> None:
    bores = [pipe(material, size).bore / INCH for size in sizes_made(material)]
    assert bores == pytest.approx(list(COPPER_BORES[material]), abs=5e-5)


@pytest.mark.parametrize("row", [row for row in PIPE_SIZES if row.standard in ("ASTM B88", "ASTM D2846")])
def test_copper_tube_sizes_are_an_eighth_larger_outside_than_their_name(row) -> None:  # type: ignore[no-untyped-def]
    # both standards: outside diameter = nominal size + 1/8 in
    assert row.outside_diameter / INCH == pytest.approx(NUMBER[row.pipe_size] + 0.125, abs=1e-9)
