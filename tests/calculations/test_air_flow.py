"""Dry air in a volume flow, pressure of a place."""

import pytest

from service.calculations.air_flow import dry_air_flow, station_pressure_of
from service.calculations.air_state import air_state

WARM, COLD = air_state(303.15, 0.0133, 101325.0), air_state(283.15, 0.0076, 101325.0)


def pointers(answer):
    return [assumption.pointer for assumption in answer.assumptions]


def test_sea_level_is_assumed_and_said():
    site = station_pressure_of(None, None)
    assert site.pressure == 101325.0
    assert pointers(site) == ["/elevation"]


def test_elevation_or_pressure_is_taken_and_nothing_assumed():
    # ASHRAE Handbook - Fundamentals 2017 chapter 1, table 1: 84.556 kPa at 1500 m
    assert station_pressure_of(1500.0, None).pressure == pytest.approx(84556.0, abs=1.0)
    assert station_pressure_of(None, 90e3).pressure == 90e3
    assert station_pressure_of(0.0, None).assumptions == station_pressure_of(None, 90e3).assumptions == ()


def test_elevation_and_pressure_together_are_a_slip_of_ours():
    with pytest.raises(ValueError, match="exclude"):
        station_pressure_of(0.0, 101325.0)


def test_a_standard_flow_is_five_pounds_an_hour_and_a_half_per_cfm():
    # 0.075 lb/ft3 x 60 min/h = 4.5 lb/h of dry air to each cfm
    flow = dry_air_flow(0.3048**3 / 60.0, basis="standard", measured_at=None, entering=WARM, leaving=COLD)
    assert flow.mass_flow / 0.45359237 * 3600.0 == pytest.approx(4.5, rel=1e-12)
    assert flow.assumptions == ()


@pytest.mark.parametrize(("measured_at", "place"), [(None, WARM), ("entering", WARM), ("leaving", COLD)])
def test_an_actual_flow_has_the_density_of_the_place(measured_at, place):
    flow = dry_air_flow(2.0, basis="actual", measured_at=measured_at, entering=WARM, leaving=COLD)
    assert flow.mass_flow * place.specific_volume == pytest.approx(2.0)
    assert pointers(flow) == ([] if measured_at else ["/air_flow_measured_at"])


def test_every_default_that_counts_is_recorded_and_no_other():
    both = dry_air_flow(2.0, basis=None, measured_at=None, entering=WARM, leaving=COLD)
    assert pointers(both) == ["/air_flow_basis", "/air_flow_measured_at"]
    alone = dry_air_flow(2.0, basis=None, measured_at=None, entering=WARM, leaving=None)
    assert pointers(alone) == ["/air_flow_basis"]
    standard = dry_air_flow(2.0, basis="standard", measured_at=None, entering=WARM, leaving=COLD)
    assert pointers(standard) == []
