"""A day of hours held to CoolProp's humid air (ASHRAE RP-1485) and to PsychroLib."""

from datetime import datetime

import psychrolib
import pytest
from CoolProp.HumidAirProp import HAPropsSI

from service.calculations.air_state import AirReading
from service.calculations.condensate_series import AirColumns, rate_series

CELSIUS = 273.15
# 24 hours of a humid day [degC]: dry bulb, dew point
DRY_BULB = [24.4, 24, 23.9, 23.5, 23.3, 23.3, 24.5, 26.1, 27.8, 29.4, 31.1, 32.2]
DRY_BULB += [33.3, 33.9, 34.4, 34.4, 33.9, 32.8, 31.1, 29.4, 27.8, 26.7, 25.6, 25]
DEW_POINT = [22.2, 22.2, 22, 21.7, 21.7, 21.5, 22.2, 22.8, 23.3, 23.3, 23.9, 23.9]
DEW_POINT += [23.9, 24.4, 24.4, 24.4, 23.9, 23.9, 23.9, 23.3, 23.3, 22.8, 22.8, 22.2]
PRESSURE = 98000.0
FLOW = 1.5  # [m3/s]
LEAVING = (13.0, 95.0)  # [degC, %]

COOLPROP_RATIO = (
    0.001  # our humidity ratios agree within 0.03 %, their difference over the coil within three times that
)
PSYCHROLIB_RATIO = 0.012  # ideal-gas saturation: 0.5 % low on each side of the coil


def columns(humidity: str) -> AirColumns:
    dry_bulb = [value + CELSIUS for value in DRY_BULB]
    dew_point = [value + CELSIUS for value in DEW_POINT]
    if humidity == "dew_point":
        return AirColumns(dry_bulb=dry_bulb, dew_point=dew_point)
    asked = {"wet_bulb": "B", "relative_humidity_percent": "R"}[humidity]
    values = [HAPropsSI(asked, "T", t, "D", d, "P", PRESSURE) for t, d in zip(dry_bulb, dew_point, strict=True)]
    if humidity == "wet_bulb":
        return AirColumns(dry_bulb=dry_bulb, wet_bulb=values)
    return AirColumns(dry_bulb=dry_bulb, relative_humidity_percent=[100.0 * value for value in values])


@pytest.mark.parametrize("humidity", ["dew_point", "wet_bulb", "relative_humidity_percent"])
def test_every_hour_and_the_day_as_coolprop_has_them(humidity: str) -> None:
    results = rate_series(
        start=datetime(2026, 7, 14),
        air_flow=FLOW,
        entering_air=columns(humidity),
        leaving_air=AirReading(dry_bulb=LEAVING[0] + CELSIUS, relative_humidity_percent=LEAVING[1]),
        station_pressure=PRESSURE,
    ).results
    left = HAPropsSI("W", "T", LEAVING[0] + CELSIUS, "R", LEAVING[1] / 100.0, "P", PRESSURE)
    expected = []
    for dry_bulb, dew_point in zip(DRY_BULB, DEW_POINT, strict=True):
        state = ("T", dry_bulb + CELSIUS, "D", dew_point + CELSIUS, "P", PRESSURE)
        expected.append(FLOW / HAPropsSI("V", *state) * (HAPropsSI("W", *state) - left) / 999.7)
    assert results.hourly is not None
    assert list(results.hourly.rates) == pytest.approx(expected, rel=COOLPROP_RATIO)
    assert results.total_volume == pytest.approx(3600.0 * sum(expected), rel=COOLPROP_RATIO)
    assert results.peak_index == expected.index(max(expected))


def test_every_hour_as_psychrolib_has_it() -> None:
    psychrolib.SetUnitSystem(psychrolib.SI)
    left = psychrolib.GetHumRatioFromRelHum(LEAVING[0], LEAVING[1] / 100.0, PRESSURE)
    expected = []
    for dry_bulb, dew_point in zip(DRY_BULB, DEW_POINT, strict=True):
        ratio = psychrolib.GetHumRatioFromTDewPoint(dew_point, PRESSURE)
        expected.append(FLOW / psychrolib.GetMoistAirVolume(dry_bulb, ratio, PRESSURE) * (ratio - left) / 999.7)
    results = rate_series(
        start=datetime(2026, 7, 14),
        air_flow=FLOW,
        entering_air=columns("dew_point"),
        leaving_air=AirReading(dry_bulb=LEAVING[0] + CELSIUS, relative_humidity_percent=LEAVING[1]),
        station_pressure=PRESSURE,
    ).results
    assert results.hourly is not None
    assert list(results.hourly.rates) == pytest.approx(expected, rel=PSYCHROLIB_RATIO)
