"""Payloads of ``condensate-rate``: what they read, and what they refuse."""

from typing import Any

import pytest
from marshmallow import ValidationError

from service.calculations.air_state import AirReading
from service.schemas.condensate_rate import (
    AirStatesRateRequest,
    CapacityRateRequest,
    CoilRateRequest,
    EnteringAir,
    LeavingAir,
)

CFM = 0.3048**3 / 60.0


def degrees(value: float, unit: str = "degF") -> dict[str, Any]:
    return {"value": value, "unit": unit}


def test_a_reading_becomes_kelvin_whatever_it_was_sent_in() -> None:
    # 80 degF is 26.667 degC is 299.817 K
    for sent in (degrees(80), degrees(26.6666667, "degC"), degrees(299.8166667, "K")):
        air = EnteringAir().load({"dry_bulb": sent, "relative_humidity_percent": 50})
        assert isinstance(air, AirReading)
        assert air.dry_bulb == pytest.approx(299.8166667, abs=1e-6)
        assert (air.wet_bulb, air.dew_point, air.relative_humidity_percent) == (None, None, 50.0)


@pytest.mark.parametrize("reading", [EnteringAir, LeavingAir])
@pytest.mark.parametrize(
    "humidity",
    [
        {},
        {"wet_bulb": degrees(55), "dew_point": degrees(50)},
        {"relative_humidity_percent": 50, "wet_bulb": degrees(55)},
    ],
)
def test_a_reading_has_exactly_one_humidity(reading: Any, humidity: dict[str, Any]) -> None:
    with pytest.raises(ValidationError, match="exactly one of wet_bulb, relative_humidity_percent, dew_point"):
        reading().load({"dry_bulb": degrees(70), **humidity})


@pytest.mark.parametrize(
    ("reading", "unit", "allowed", "refused"),
    [
        (EnteringAir, "degF", (50, 140), (49.9, 140.1)),
        (EnteringAir, "degC", (10, 60), (9.9, 60.1)),
        (LeavingAir, "degF", (35, 80), (32, 81)),
        (LeavingAir, "degC", (1, 27), (0.9, 27.1)),
    ],
)
def test_limits_of_the_dry_bulb_in_the_callers_unit(
    reading: Any, unit: str, allowed: tuple[float, ...], refused: tuple[float, ...]
) -> None:
    for value in allowed:
        reading().load({"dry_bulb": degrees(value, unit), "relative_humidity_percent": 50})
    for value in refused:
        with pytest.raises(ValidationError) as caught:
            reading().load({"dry_bulb": degrees(value, unit), "relative_humidity_percent": 50})
        assert unit in str(caught.value.messages)


@pytest.mark.parametrize("request_schema", [AirStatesRateRequest, CoilRateRequest])
def test_elevation_excludes_station_pressure(request_schema: Any) -> None:
    body = dict(request_schema.examples[next(iter(request_schema.examples))]["value"])
    body |= {"elevation": {"value": 0, "unit": "ft"}, "station_pressure": {"value": 100, "unit": "kPa"}}
    with pytest.raises(ValidationError, match="at most one of elevation, station_pressure"):
        request_schema().load(body)


@pytest.mark.parametrize("request_schema", [CapacityRateRequest, AirStatesRateRequest, CoilRateRequest])
def test_a_body_becomes_the_calculations_arguments(request_schema: Any) -> None:
    for example in request_schema.examples.values():
        assert set(request_schema().load(example["value"])) == set(example["value"])
    with pytest.raises(ValidationError) as caught:
        request_schema().load({})
    required = {name for name, field in request_schema().load_fields.items() if field.required}
    assert set(caught.value.messages_dict) == required


def test_air_flow_arrives_in_cubic_metres_a_second() -> None:
    body = dict(AirStatesRateRequest.examples["rooftop"]["value"])
    loaded: Any = AirStatesRateRequest().load(body)
    assert loaded["air_flow"] == pytest.approx(1200 * CFM)
