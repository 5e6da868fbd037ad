"""Payloads of ``condensate-rate/from-fuel``."""

from collections.abc import Mapping
from typing import Any, ClassVar

from service.calculations import fuel_rate
from service.calculations.fuel_rate import FUELS, LIMITS
from service.schemas.envelope import answer_of
from service.schemas.fields import Choice, Number, Part, Quantity
from service.schemas.payload import Payload, Written
from service.schemas.site import elevation_field, station_pressure_field


class CombustionAir(Payload):
    """Air the burner draws."""

    into = fuel_rate.CombustionAir

    dry_bulb = Quantity("temperature", LIMITS["dry_bulb"], required=True, description="Dry-bulb temperature.")
    relative_humidity_percent = Number(
        LIMITS["relative_humidity_percent"], required=True, description="Relative humidity in percent."
    )


class FuelRateRequest(Payload):
    """A condensing furnace or boiler."""

    at_most_one_of = ("elevation", "station_pressure")

    fuel_input = Quantity(
        "power",
        LIMITS["fuel_input"],
        required=True,
        description="Fuel burned, by its higher heating value: the input on the rating plate.",
    )
    fuel = Choice(tuple(FUELS), description="Taken as natural gas when left out.")
    exhaust_temperature = Quantity(
        "temperature",
        LIMITS["exhaust_temperature"],
        description="Of the flue gas where it leaves the appliance; 100 degF, which condenses most, when left out.",
    )
    excess_air_percent = Number(
        LIMITS["excess_air_percent"],
        description="Air beyond what the fuel needs, in percent; 20, which condenses most, when left out.",
    )
    combustion_air = Part(CombustionAir, description="Air the burner draws; 50 degF and 80 percent when left out.")
    elevation = elevation_field()
    station_pressure = station_pressure_field()
    run_fraction = Number(
        LIMITS["run_fraction"],
        description="Part of the day the burner runs; 1, the most a day can make, when left out.",
    )

    examples: ClassVar[Mapping[str, Any]] = {
        "furnace": {
            "summary": "A condensing furnace in an invented attic, on the same drain as the cooling coil",
            "value": {
                "fuel_input": {"value": 80000, "unit": "Btu/h"},
                "fuel": "natural-gas",
                "exhaust_temperature": {"value": 105, "unit": "degF"},
                "excess_air_percent": 40,
                "run_fraction": 0.5,
            },
        },
        "hot-exhaust": {
            "summary": "A boiler whose return water is too warm for it to condense",
            "value": {
                "fuel_input": {"value": 150, "unit": "kBtu/h"},
                "exhaust_temperature": {"value": 160, "unit": "degF"},
            },
        },
        "propane-si": {
            "summary": "A propane boiler at altitude, in SI units",
            "value": {
                "fuel_input": {"value": 30, "unit": "kW"},
                "fuel": "propane",
                "exhaust_temperature": {"value": 40, "unit": "degC"},
                "excess_air_percent": 30,
                "combustion_air": {"dry_bulb": {"value": 20, "unit": "degC"}, "relative_humidity_percent": 40},
                "elevation": {"value": 1600, "unit": "m"},
                "run_fraction": 0.35,
            },
        },
    }


class FuelRateResults(Written):
    """Water made of fuel."""

    mass_rate = Quantity("mass_flow", required=True, description="Water that condenses while the burner runs.")
    volume_rate = Quantity("water_flow", required=True, description="The same by volume.")
    daily_volume = Quantity("volume", required=True, description="Water in a day at the run fraction.")
    water_vapour_rate = Quantity(
        "mass_flow",
        required=True,
        description="All water vapour in the flue gas before any condenses: formed by burning, and brought by the air.",
    )
    condensed_share = Number(required=True, description="Part of that vapour that condenses, 0 to 1.")
    flue_dew_point = Quantity(
        "temperature", required=True, description="Temperature below which the flue gas begins to condense."
    )


FuelRateAnswer = answer_of(FuelRateResults, "FuelRateAnswer")
