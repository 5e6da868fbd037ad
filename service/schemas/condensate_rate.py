"""Payloads of ``condensate-rate``."""

from collections.abc import Mapping
from typing import Any, ClassVar

from service.calculations.air_flow import BASES, PLACES
from service.calculations.air_state import ENTERING_AIR_LIMITS, HUMIDITIES, LEAVING_AIR_LIMITS, AirReading
from service.calculations.condensate_rate import LIMITS
from service.calculations.limits import Limit
from service.schemas.envelope import answer_of
from service.schemas.fields import Choice, Number, Part, Quantity
from service.schemas.payload import Payload, Written
from service.schemas.site import elevation_field, station_pressure_field


def _air_fields(limits: Mapping[str, Limit]) -> tuple[Quantity, Quantity, Number, Quantity]:
    """Dry bulb, wet bulb, relative humidity and dew point of a reading."""
    return (
        Quantity("temperature", limits["dry_bulb"], required=True, description="Dry-bulb temperature."),
        Quantity(
            "temperature",
            limits["wet_bulb"],
            description="Wet-bulb temperature, at most the dry bulb. Give this, `relative_humidity_percent` or "
            "`dew_point`.",
        ),
        Number(
            limits["relative_humidity_percent"],
            description="Relative humidity in percent. Give this, `wet_bulb` or `dew_point`.",
        ),
        Quantity(
            "temperature",
            limits["dew_point"],
            description="Dew point, at most the dry bulb. Give this, `wet_bulb` or `relative_humidity_percent`.",
        ),
    )


class EnteringAir(Payload):
    """Air entering the coil, as measured: dry bulb and exactly one measure of humidity."""

    into = AirReading
    exactly_one_of = HUMIDITIES

    dry_bulb, wet_bulb, relative_humidity_percent, dew_point = _air_fields(ENTERING_AIR_LIMITS)


class LeavingAir(Payload):
    """Air leaving the coil, as measured: dry bulb and exactly one measure of humidity."""

    into = AirReading
    exactly_one_of = HUMIDITIES

    dry_bulb, wet_bulb, relative_humidity_percent, dew_point = _air_fields(LEAVING_AIR_LIMITS)


def _air_flow() -> Quantity:
    return Quantity("air_flow", LIMITS["air_flow"], required=True, description="Volume flow of air over the coil.")


def _air_flow_basis() -> Choice:
    return Choice(
        BASES,
        description="`actual`: the flow as it passes. `standard`: of air of 0.075 lb/ft3 (1.2 kg/m3), as in a fan "
        "table. `actual` when left out.",
    )


def _run_fraction() -> Number:
    return Number(
        LIMITS["run_fraction"],
        description="Part of the day the coil runs; 1, the most a day can make, when left out.",
    )


class CapacityRateRequest(Payload):
    """Rated capacity and sensible heat ratio."""

    total_capacity = Quantity(
        "power", LIMITS["total_capacity"], required=True, description="Total rated cooling capacity."
    )
    sensible_heat_ratio = Number(
        LIMITS["sensible_heat_ratio"], required=True, description="Sensible over total capacity."
    )
    run_fraction = _run_fraction()

    examples: ClassVar[Mapping[str, Any]] = {
        "three-tons": {
            "summary": "A 3 ton home system that runs 60 % of the day",
            "value": {
                "total_capacity": {"value": 36000, "unit": "Btu/h"},
                "sensible_heat_ratio": 0.75,
                "run_fraction": 0.6,
            },
        },
        "high-latent": {
            "summary": "A unit for outdoor air, more latent than the trade is used to",
            "value": {"total_capacity": {"value": 53, "unit": "kW"}, "sensible_heat_ratio": 0.45},
        },
    }


class AirStatesRateRequest(Payload):
    """Air flow, and the air measured on both sides of the coil."""

    at_most_one_of = ("elevation", "station_pressure")

    air_flow = _air_flow()
    entering_air = Part(EnteringAir, required=True, description="Air entering the coil, as measured.")
    leaving_air = Part(LeavingAir, required=True, description="Air leaving the coil, as measured.")
    air_flow_basis = _air_flow_basis()
    air_flow_measured_at = Choice(
        PLACES,
        description="Whose volume an actual flow is: that of the `entering` air, when left out, or of the `leaving` "
        "air. Does not matter to a standard flow.",
    )
    elevation = elevation_field()
    station_pressure = station_pressure_field()
    run_fraction = _run_fraction()

    examples: ClassVar[Mapping[str, Any]] = {
        "rooftop": {
            "summary": "A rooftop unit on a warm day, measured on both sides",
            "value": {
                "air_flow": {"value": 1200, "unit": "cfm"},
                "air_flow_basis": "actual",
                "entering_air": {"dry_bulb": {"value": 80, "unit": "degF"}, "wet_bulb": {"value": 67, "unit": "degF"}},
                "leaving_air": {"dry_bulb": {"value": 57, "unit": "degF"}, "relative_humidity_percent": 92},
                "elevation": {"value": 650, "unit": "ft"},
            },
        },
        "metric": {
            "summary": "5 m3/s from 30 degC and 50 % to saturated 10 degC",
            "value": {
                "air_flow": {"value": 5000, "unit": "L/s"},
                "air_flow_basis": "actual",
                "air_flow_measured_at": "entering",
                "entering_air": {"dry_bulb": {"value": 30, "unit": "degC"}, "relative_humidity_percent": 50},
                "leaving_air": {"dry_bulb": {"value": 10, "unit": "degC"}, "relative_humidity_percent": 100},
                "station_pressure": {"value": 101.325, "unit": "kPa"},
                "run_fraction": 0.5,
            },
        },
        "drying-coil": {
            "summary": "The leaving air picks up water: the cooling is off and the wet coil dries",
            "value": {
                "air_flow": {"value": 900, "unit": "cfm"},
                "entering_air": {"dry_bulb": {"value": 80, "unit": "degF"}, "relative_humidity_percent": 30},
                "leaving_air": {"dry_bulb": {"value": 65, "unit": "degF"}, "relative_humidity_percent": 75},
                "elevation": {"value": 0, "unit": "ft"},
            },
        },
        "within-accuracy": {
            "summary": "Two readings too close together to tell whether water is made",
            "value": {
                "air_flow": {"value": 900, "unit": "cfm"},
                "entering_air": {"dry_bulb": {"value": 74, "unit": "degF"}, "relative_humidity_percent": 46},
                "leaving_air": {"dry_bulb": {"value": 57, "unit": "degF"}, "relative_humidity_percent": 82},
            },
        },
    }


class CoilRateRequest(Payload):
    """Air flow, entering air and the capacity of the coil; the leaving air is solved for."""

    at_most_one_of = ("elevation", "station_pressure")

    air_flow = Quantity(
        "air_flow",
        LIMITS["air_flow"],
        required=True,
        description="Volume flow of air over the coil; an actual flow is that of the entering air.",
    )
    entering_air = Part(EnteringAir, required=True, description="Air entering the coil, as measured.")
    total_capacity = Quantity(
        "power",
        LIMITS["total_capacity"],
        required=True,
        description="Heat the coil takes out of this entering air, sensible and latent.",
    )
    bypass_factor = Number(
        LIMITS["bypass_factor"],
        required=True,
        description="Part of the air that misses the coil's surface; 0.05 to 0.3 for most coils (common practice).",
    )
    air_flow_basis = _air_flow_basis()
    elevation = elevation_field()
    station_pressure = station_pressure_field()
    run_fraction = _run_fraction()

    examples: ClassVar[Mapping[str, Any]] = {
        "three-tons": {
            "summary": "3 tons on 1,200 cfm of air at 80 degF and 67 degF wet bulb",
            "value": {
                "air_flow": {"value": 1200, "unit": "cfm"},
                "entering_air": {"dry_bulb": {"value": 80, "unit": "degF"}, "wet_bulb": {"value": 67, "unit": "degF"}},
                "total_capacity": {"value": 36000, "unit": "Btu/h"},
                "bypass_factor": 0.12,
            },
        },
        "mile-high": {
            "summary": "A metric unit at 1,600 m, dew point given",
            "value": {
                "air_flow": {"value": 2200, "unit": "m3/h"},
                "entering_air": {"dry_bulb": {"value": 27, "unit": "degC"}, "dew_point": {"value": 14, "unit": "degC"}},
                "total_capacity": {"value": 10.5, "unit": "kW"},
                "bypass_factor": 0.1,
                "elevation": {"value": 1600, "unit": "m"},
                "run_fraction": 0.7,
            },
        },
        "too-little-air": {
            "summary": "A blocked filter: 5 tons cannot come out of 250 cfm",
            "value": {
                "air_flow": {"value": 250, "unit": "cfm"},
                "entering_air": {"dry_bulb": {"value": 78, "unit": "degF"}, "relative_humidity_percent": 50},
                "total_capacity": {"value": 5, "unit": "ton"},
                "bypass_factor": 0.1,
            },
        },
    }


class AirState(Written):
    """The whole state of the air."""

    dry_bulb = Quantity("temperature", required=True, description="Dry-bulb temperature.")
    wet_bulb = Quantity("temperature", required=True, description="Thermodynamic wet-bulb temperature.")
    dew_point = Quantity("temperature", required=True, description="Dew point; below freezing the frost point.")
    relative_humidity_percent = Number(required=True, description="Relative humidity in percent.")
    humidity_ratio = Quantity("humidity_ratio", required=True, description="Water to dry air, by mass.")
    specific_enthalpy = Quantity(
        "specific_enthalpy",
        required=True,
        description="Enthalpy for each unit mass of dry air, as on the charts of either system: kJ/kg counts from dry "
        "air at 0 degC, Btu/lb from dry air at 0 degF.",
    )
    specific_volume = Quantity(
        "specific_volume", required=True, description="Volume of moist air for each unit mass of dry air."
    )


class CapacityRateResults(Written):
    """Water made, from rated capacity."""

    latent_capacity = Quantity("power", required=True, description="Part of the capacity that condenses water.")
    mass_rate = Quantity("mass_flow", required=True, description="Water made while running, by mass.")
    volume_rate = Quantity("water_flow", required=True, description="Water made while running, by volume.")
    daily_volume = Quantity("volume", required=True, description="Water in a day at the run fraction.")
    rate_per_ton = Quantity("water_flow", required=True, description="Water made by one ton of this capacity.")


class AirStatesRateResults(Written):
    """Water made, from the air on both sides of the coil; null where the readings tell of no cooling coil at work."""

    mass_rate = Quantity("mass_flow", required=True, nullable=True, description="Water made while running, by mass.")
    volume_rate = Quantity(
        "water_flow", required=True, nullable=True, description="Water made while running, by volume."
    )
    daily_volume = Quantity("volume", required=True, nullable=True, description="Water in a day at the run fraction.")
    latent_load = Quantity(
        "power",
        required=True,
        nullable=True,
        description="Heat the water gives up as it condenses at the leaving dry bulb: about 1065 Btu/lb, 2.48 MJ/kg.",
    )
    sensible_load = Quantity(
        "power",
        required=True,
        nullable=True,
        description="Heat the air, its water still vapour, gives up cooling to the leaving dry bulb.",
    )
    total_load = Quantity(
        "power",
        required=True,
        nullable=True,
        description="Sum of both: what the coil takes out. The heat that drains away with the water is not in it.",
    )
    sensible_heat_ratio = Number(
        required=True, nullable=True, description="Sensible over total load; null also where the air is not cooled."
    )
    entering_air = Part(
        AirState,
        required=True,
        nullable=True,
        description="Air entering the coil; null where no air is as it was read.",
    )
    leaving_air = Part(
        AirState, required=True, nullable=True, description="Air leaving the coil; null where no air is as it was read."
    )


class CoilRateResults(AirStatesRateResults):
    """Water made, from entering air and the coil's capacity; null where the air cannot give up so much heat."""

    apparatus_dew_point = Quantity(
        "temperature",
        required=True,
        nullable=True,
        description="Temperature of the coil's surface; that of a dry coil lies above the entering dew point.",
    )


CapacityRateAnswer = answer_of(CapacityRateResults, "CapacityRateAnswer")
AirStatesRateAnswer = answer_of(AirStatesRateResults, "AirStatesRateAnswer")
CoilRateAnswer = answer_of(CoilRateResults, "CoilRateAnswer")
