"""Columns of readings are what reading them one by one gives."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from service.calculations.air_column import LIMITS, AirColumns, measure_columns
from service.calculations.air_state import HUMIDITIES, AirReading, measure_air
from service.calculations.limits import Limit
from service.errors import Contradiction, OutOfRange

WIDE = {name: Limit(150.0, 400.0) for name in LIMITS} | {"relative_humidity_percent": Limit(0.0, 100.0)}
STEPS = 40


def within(name: str) -> st.SearchStrategy[float]:
    limit = LIMITS[name]
    return st.integers(0, STEPS).map(lambda step: limit.low + (limit.high - limit.low) * step / STEPS)


@pytest.mark.parametrize("humidity", HUMIDITIES)
@given(data=st.data())
def test_a_row_is_what_one_reading_is(humidity: str, data: st.DataObject) -> None:
    """The rules for one air (`measure_air`) are tested beside it; here each row must follow them."""
    pressure = data.draw(st.sampled_from([50e3, 84e3, 101325.0, 110e3]))
    pairs = data.draw(st.lists(st.tuples(within("dry_bulb"), within(humidity)), min_size=1, max_size=12))
    # near the dry bulb is where readings are taken otherwise
    pairs += [(dry_bulb, dry_bulb + off) for dry_bulb, _ in pairs[:2] for off in (-0.2, 0.7, 1.4) if dry_bulb < 300.0]
    if humidity == "relative_humidity_percent":
        pairs = [pair for pair in pairs if pair[1] <= 100.0]
    pairs = [pair for pair in pairs if LIMITS[humidity].admits(pair[1])]
    columns = AirColumns(dry_bulb=[pair[0] for pair in pairs], **{humidity: [pair[1] for pair in pairs]})
    measured = measure_columns(columns, rows=len(pairs), pressure=pressure)
    for row, (dry_bulb, reading) in enumerate(pairs):
        try:
            one = measure_air(
                AirReading(dry_bulb=dry_bulb, **{humidity: reading}), limits=WIDE, pressure=pressure, pointer=""
            )
        except Contradiction as fault:
            refused = fault.code
        else:
            refused = ""
        assert measured.misread[row] == bool(refused)
        assert measured.too_low[row] == (refused == "wet-bulb-too-low")
        if refused:
            continue
        assert measured.humidity_ratio[row] == pytest.approx(one.state.humidity_ratio, rel=1e-9)
        code = one.finding.code if one.finding else ""
        assert measured.taken_as_saturated[row] == (code == "air-taken-as-saturated")
        assert measured.taken_as_driest[row] == (code == "air-taken-as-driest")


def test_exactly_one_humidity() -> None:
    with pytest.raises(ValueError, match="exactly one"):
        AirColumns(dry_bulb=[300.0])
    with pytest.raises(ValueError, match="exactly one"):
        AirColumns(dry_bulb=[300.0], wet_bulb=[290.0], dew_point=[290.0])


@pytest.mark.parametrize("name", LIMITS)
def test_an_element_outside_its_limit_is_refused(name: str) -> None:
    for outside in (LIMITS[name].low - 1.0, LIMITS[name].high + 1.0, float("nan")):
        columns = {"dry_bulb": [300.0, 300.0], "dew_point": [280.0, 280.0]}
        if name not in columns:
            del columns["dew_point"]
        columns[name] = [290.0 if name != "relative_humidity_percent" else 50.0, outside]
        with pytest.raises(OutOfRange):
            measure_columns(AirColumns(**columns), rows=2, pressure=101325.0)


def test_the_driest_air_of_all_holds_less_than_the_bound_that_saves_looking() -> None:
    from service.calculations import psychrometrics
    from service.calculations.air_flow import LIMITS as FLOW
    from service.calculations.air_state import MOST_WATER_OF_DRIEST

    hottest, thinnest = np.array([LIMITS["dry_bulb"].high]), np.array([FLOW["station_pressure"].low])
    most = psychrometrics.humidity_ratio_from_relative_humidity(hottest, np.array([1.0]), thinnest)
    assert most[0] < MOST_WATER_OF_DRIEST
