"""Water from fuel against stoichiometry by hand, published dew points, and CoolProp's saturation pressure."""

import pytest
from CoolProp.CoolProp import PropsSI
from hypothesis import given
from hypothesis import strategies as st

from service.calculations.fuel_rate import LIMITS, CombustionAir, rate_from_fuel

BTU_PER_HOUR = 0.29307107
DRY = CombustionAir(dry_bulb=288.15, relative_humidity_percent=0.0)


@pytest.mark.parametrize(
    ("fuel", "heat", "water_per_fuel"),
    [
        # CH4 + 2 O2 -> CO2 + 2 H2O: 16.043 g give 36.03 g of water; 55.5 MJ/kg (published higher heating value)
        ("natural-gas", 55.5e6, 36.03 / 16.043),
        # C3H8 + 5 O2 -> 3 CO2 + 4 H2O: 44.097 g give 72.06 g; 50.35 MJ/kg
        ("propane", 50.35e6, 72.06 / 44.097),
    ],
)
def test_all_the_water_is_what_stoichiometry_says(fuel: str, heat: float, water_per_fuel: float) -> None:
    """From dry air, by masses; heating values are the textbooks', to 0.2 %. A gram of fuel a second."""
    rate = rate_from_fuel(fuel_input=heat / 1000.0, fuel=fuel, combustion_air=DRY, excess_air_percent=0.0).results
    assert rate.water_vapour_rate == pytest.approx(water_per_fuel / 1000.0, rel=0.002)


def test_a_gallon_an_hour_for_each_hundred_thousand_btu() -> None:
    """Common practice, no source: a condensing furnace makes up to about 1 gal/h for each 100,000 Btu/h."""
    rate = rate_from_fuel(fuel_input=1e5 * BTU_PER_HOUR, exhaust_temperature=293.15).results
    assert rate.volume_rate / 3.785411784e-3 * 3600.0 == pytest.approx(1.0, abs=0.15)


@pytest.mark.parametrize(
    ("excess", "celsius"),
    # dew points of the flue gas of natural gas, as combustion handbooks chart them: about 59 degC without excess air,
    # 55 with 20 to 25 %, 48 with 80 to 100 % (from memory, read to 1.5 K)
    [(0.0, 59.0), (22.0, 55.5), (90.0, 47.5)],
)
def test_dew_points_are_the_charts(excess: float, celsius: float) -> None:
    rate = rate_from_fuel(fuel_input=1e4, excess_air_percent=excess, combustion_air=DRY).results
    assert rate.flue_dew_point - 273.15 == pytest.approx(celsius, abs=1.5)


@pytest.mark.parametrize("exhaust", [298.15, 311.0, 320.0])
@pytest.mark.parametrize("excess", [0.0, 30.0, 100.0])
def test_what_condenses_is_what_cold_gas_cannot_hold(exhaust: float, excess: float) -> None:
    """By hand, per mole of methane: 2 of water; 1 + 2 x (1 + e) x (0.79054/0.20946) + 2 e of dry gas.

    It leaves saturated, by CoolProp's saturation pressure; the enhancement factor it leaves out is below 0.5 %.
    """
    e = excess / 100.0
    dry_gas = 1.0 + 2.0 * (1.0 + e) * (0.79054 / 0.20946) + 2.0 * e
    share = PropsSI("P", "T", exhaust, "Q", 1, "Water") / 101325.0
    left = dry_gas * share / (1.0 - share)
    rate = rate_from_fuel(
        fuel_input=890.7e3, exhaust_temperature=exhaust, excess_air_percent=excess, combustion_air=DRY
    ).results
    assert rate.mass_rate == pytest.approx(max(2.0 - left, 0.0) * 0.018015, abs=0.006 * left * 0.018015)


@given(
    fuel_input=st.floats(LIMITS["fuel_input"].low, LIMITS["fuel_input"].high),
    fuel=st.sampled_from(["natural-gas", "propane"]),
    exhaust=st.floats(LIMITS["exhaust_temperature"].low, LIMITS["exhaust_temperature"].high),
    excess=st.floats(0.0, 300.0),
    dry_bulb=st.floats(LIMITS["dry_bulb"].low, LIMITS["dry_bulb"].high),
    humidity=st.floats(0.0, 100.0),
    pressure=st.floats(50e3, 110e3),
)
def test_it_holds_over_the_whole_domain(
    fuel_input: float, fuel: str, exhaust: float, excess: float, dry_bulb: float, humidity: float, pressure: float
) -> None:
    """No more condenses than there is, none above the dew point, some below, and cooler gas condenses no less."""
    air = CombustionAir(dry_bulb=dry_bulb, relative_humidity_percent=humidity)

    def at(temperature: float) -> float:
        rate = rate_from_fuel(
            fuel_input=fuel_input,
            fuel=fuel,
            exhaust_temperature=temperature,
            excess_air_percent=excess,
            combustion_air=air,
            station_pressure=pressure,
        ).results
        assert 0.0 <= rate.mass_rate <= rate.water_vapour_rate
        assert (rate.mass_rate > 0.0) == (temperature < rate.flue_dew_point - 1e-6) or abs(
            temperature - rate.flue_dew_point
        ) < 1e-3
        return rate.mass_rate

    assert at(exhaust) <= at(LIMITS["exhaust_temperature"].low) + 1e-12
