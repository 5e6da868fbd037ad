"""Payloads of ``trap-dry-out``: what they read, and what they refuse."""

from typing import Any

import pytest
from marshmallow import ValidationError

from service.calculations.air_state import AirReading
from service.calculations.trap_dry_out import dry_out_trap
from service.schemas.trap_dry_out import AirOverTrap, TrapDryOutRequest


def degrees(value: float) -> dict[str, Any]:
    return {"value": value, "unit": "degC"}


def test_air_has_a_dry_bulb_and_exactly_one_humidity() -> None:
    air = AirOverTrap().load({"dry_bulb": degrees(21), "dew_point": degrees(5)})
    assert air == AirReading(dry_bulb=294.15, dew_point=278.15)
    for humidity in ({}, {"dew_point": degrees(5), "relative_humidity_percent": 40}):
        with pytest.raises(ValidationError, match="exactly one of relative_humidity_percent, dew_point"):
            AirOverTrap().load({"dry_bulb": degrees(21), **humidity})


def test_a_wet_bulb_is_unknown() -> None:
    with pytest.raises(ValidationError):
        AirOverTrap().load({"dry_bulb": degrees(21), "wet_bulb": degrees(15)})


def test_elevation_and_station_pressure_exclude_each_other() -> None:
    body = dict(TrapDryOutRequest.examples["heating-season"]["value"])
    body["station_pressure"] = {"value": 100, "unit": "kPa"}
    with pytest.raises(ValidationError, match="at most one of elevation, station_pressure"):
        TrapDryOutRequest().load(body)


@pytest.mark.parametrize(
    ("name", "verdict"),
    [("heating-season", "fail"), ("six-weeks-si", "pass"), ("over-a-sewer", "pass"), ("dry-already", "fail")],
)
def test_the_examples_are_what_they_say(name: str, verdict: str) -> None:
    body = TrapDryOutRequest().load(TrapDryOutRequest.examples[name]["value"])
    assert dry_out_trap(**body).verdict == verdict
