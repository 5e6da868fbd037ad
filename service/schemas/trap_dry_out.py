"""Payloads of ``trap-dry-out``."""

from service.calculations.air_over_trap import OPEN_LEGS
from service.calculations.air_state import AirReading
from service.calculations.dry_out_results import OUTCOMES
from service.calculations.trap_dry_out import LIMITS
from service.calculations.vapour_diffusion import AIR_LIMITS
from service.schemas.envelope import answer_of
from service.schemas.fields import Choice, Flag, Number, Part, Quantity
from service.schemas.payload import Payload, Written
from service.schemas.site import elevation_field, station_pressure_field
from service.schemas.trap_check import pan_depth_field, seal_depth_field
from service.schemas.trap_water import dirty_filter_allowance_field, pan_pressure_field, pipe_size_field


class AirOverTrap(Payload):
    """Air at an end of a trap: dry bulb and exactly one measure of humidity."""

    into = AirReading
    exactly_one_of = ("relative_humidity_percent", "dew_point")

    dry_bulb = Quantity("temperature", AIR_LIMITS["dry_bulb"], required=True, description="Dry-bulb temperature.")
    relative_humidity_percent = Number(
        AIR_LIMITS["relative_humidity_percent"],
        description="Relative humidity in percent. Give this or `dew_point`.",
    )
    dew_point = Quantity(
        "temperature",
        AIR_LIMITS["dew_point"],
        description="Dew point, at most the dry bulb; below freezing the frost point. Give this or "
        "`relative_humidity_percent`.",
    )


def open_legs_field() -> Choice:
    """The ``open_legs`` of a request."""
    return Choice(
        OPEN_LEGS,
        description="Legs of the trap that are open to the air; `both` when left out. A capped or water-filled side is "
        "not.",
    )


def unit_side_air_field() -> Part:
    """The ``unit_side_air`` of a request."""
    return Part(
        AirOverTrap,
        description="Air in the pan out of season; heated indoor air of 70 degF and 30 % when left out.",
    )


def outlet_side_air_field() -> Part:
    """The ``outlet_side_air`` of a request."""
    return Part(
        AirOverTrap,
        description="Air at the place of disposal, where the outlet leg opens; as on the unit's side when left out.",
    )


def outlet_side_path_field() -> Quantity:
    """The ``outlet_side_path`` of a request."""
    return Quantity(
        "length",
        LIMITS["outlet_side_path"],
        description="From the trap's outlet along the pipe to where it meets the open air, at a vent or at its end; 0 "
        "when left out, which dries soonest.",
    )


def water_temperature_field() -> Quantity:
    """The ``water_temperature`` of a request."""
    return Quantity(
        "temperature",
        LIMITS["water_temperature"],
        description="Temperature of the water in the trap; that of the air on the unit's side when left out.",
    )


def idle_time_field() -> Quantity:
    """The ``idle_time`` of a request."""
    return Quantity(
        "time",
        LIMITS["idle_time"],
        description="How long no condensate arrives. With it, what is left of the seal at its end is told.",
    )


class TrapDryOutRequest(Payload):
    """A trap, the pressure it stands against, and the air that dries it out."""

    at_most_one_of = ("elevation", "station_pressure")

    pan_pressure = pan_pressure_field()
    outlet_drop = Quantity(
        "length",
        LIMITS["outlet_drop"],
        required=True,
        description="From the pan outlet down to the trap's outlet, inside bottom to inside bottom: the still air over "
        "the water in the leg on the unit's side.",
    )
    seal_depth = seal_depth_field()
    dirty_filter_allowance = dirty_filter_allowance_field()
    pipe_size = pipe_size_field("both legs, where a leg's own is not given; 3/4 when nothing is given.")
    unit_side_pipe_size = pipe_size_field("the leg that comes down from the pan.")
    outlet_side_pipe_size = pipe_size_field("the leg that ends at the trap's outlet.")
    pan_area = Quantity(
        "area",
        LIMITS["pan_area"],
        description="Area of the pan's bottom. Enters only where the fan lifts water into the pan.",
    )
    pan_depth = pan_depth_field()
    evaporated_depth = Quantity(
        "length",
        LIMITS["evaporated_depth"],
        description="How far the water has fallen below the trap's outlet already; 0 when left out.",
    )
    open_legs = open_legs_field()
    unit_side_air = unit_side_air_field()
    outlet_side_air = outlet_side_air_field()
    outlet_side_path = outlet_side_path_field()
    water_temperature = water_temperature_field()
    elevation = elevation_field()
    station_pressure = station_pressure_field()
    idle_time = idle_time_field()

    examples = {
        "heating-season": {
            "summary": "A furnace whose fan runs all winter: 180 days without condensate",
            "value": {
                "pan_pressure": {"value": -1, "unit": "inH2O"},
                "outlet_drop": {"value": 2, "unit": "in"},
                "seal_depth": {"value": 1.5, "unit": "in"},
                "pipe_size": "3/4",
                "unit_side_air": {"dry_bulb": {"value": 70, "unit": "degF"}, "relative_humidity_percent": 30},
                "outlet_side_air": {
                    "dry_bulb": {"value": 65, "unit": "degF"},
                    "dew_point": {"value": 45, "unit": "degF"},
                },
                "outlet_side_path": {"value": 12, "unit": "ft"},
                "elevation": {"value": 650, "unit": "ft"},
                "idle_time": {"value": 180, "unit": "day"},
            },
        },
        "six-weeks-si": {
            "summary": "A deep seal in moist air over six weeks, in SI: it lasts",
            "value": {
                "pan_pressure": {"value": -200, "unit": "Pa"},
                "outlet_drop": {"value": 50, "unit": "mm"},
                "seal_depth": {"value": 75, "unit": "mm"},
                "pipe_size": "1",
                "evaporated_depth": {"value": 0, "unit": "mm"},
                "open_legs": "both",
                "unit_side_air": {"dry_bulb": {"value": 22, "unit": "degC"}, "relative_humidity_percent": 55},
                "water_temperature": {"value": 20, "unit": "degC"},
                "station_pressure": {"value": 100, "unit": "kPa"},
                "idle_time": {"value": 42, "unit": "day"},
            },
        },
        "over-a-sewer": {
            "summary": "The outlet leg opens into warm wet air: only the unit's side dries",
            "value": {
                "pan_pressure": {"value": 0.5, "unit": "inH2O"},
                "outlet_drop": {"value": 1, "unit": "in"},
                "seal_depth": {"value": 2, "unit": "in"},
                "outlet_side_air": {"dry_bulb": {"value": 72, "unit": "degF"}, "relative_humidity_percent": 100},
                "water_temperature": {"value": 68, "unit": "degF"},
            },
        },
        "dry-already": {
            "summary": "Found low in spring: what is left does not hold against the fan",
            "value": {
                "pan_pressure": {"value": -1.5, "unit": "inH2O"},
                "outlet_drop": {"value": 2.5, "unit": "in"},
                "seal_depth": {"value": 1.25, "unit": "in"},
                "evaporated_depth": {"value": 0.75, "unit": "in"},
            },
        },
    }


class SealAfterIdle(Written):
    """The seal at the end of the idle time."""

    idle_time = Quantity("time", us="day", si="day", required=True, description="Time without condensate, as sent.")
    outcome = Choice(
        OUTCOMES,
        required=True,
        description="`holds`: the seal is there even if moving air swept the trap's ends. `uncertain`: only if the air "
        "in it stood still. `lost`: not even then.",
    )
    least_seal = Quantity(
        "length",
        required=True,
        description="Water left above the top of the bend as the fan starts, the ends swept by moving air. Negative: "
        "this much short.",
    )
    most_seal = Quantity("length", required=True, description="The same, with still air in the trap.")
    least_evaporated_volume = Quantity(
        "volume",
        us="in3",
        si="mL",
        required=True,
        description="Water gone, with still air; not followed below the top of the bend.",
    )
    most_evaporated_volume = Quantity(
        "volume",
        us="in3",
        si="mL",
        required=True,
        description="Water gone, with swept ends; not followed below the top of the bend.",
    )


class TrapDryOutResults(Written):
    """When the seal is lost. A time is null where it never comes, or not within ten years."""

    design_pressure = Quantity(
        "pressure",
        required=True,
        description="Worst fan-on pressure in the pan: suction with the allowance for the filter, or the positive "
        "pressure as given.",
    )
    loss_level = Quantity(
        "length",
        required=True,
        description="Lowest level of the water at rest, from the trap's outlet, up positive, from which the seal still "
        "holds as the fan starts: with no pressure the top of the bend, with pressure higher. 0 where the seal does "
        "not hold even when full.",
    )
    holds_when_full = Flag(required=True, description="Whether the full trap holds its seal at all.")
    saturation_vapour_pressure = Quantity(
        "pressure", required=True, description="Vapour pressure of moist air saturated at the water's temperature."
    )
    unit_side_vapour_pressure = Quantity(
        "pressure",
        required=True,
        nullable=True,
        description="Vapour pressure of the air on the unit's side; null where that leg is closed.",
    )
    outlet_side_vapour_pressure = Quantity(
        "pressure",
        required=True,
        nullable=True,
        description="Vapour pressure of the air on the outlet's side; null where that leg is closed.",
    )
    earliest_loss = Quantity(
        "time",
        us="day",
        si="day",
        required=True,
        nullable=True,
        description="Until the seal no longer holds as the fan starts, at the earliest: moving air sweeps the trap's "
        "ends and reaches down to the water as it stands at the start; below that it diffuses through still air.",
    )
    latest_loss = Quantity(
        "time",
        us="day",
        si="day",
        required=True,
        nullable=True,
        description="The same at the latest: vapour diffuses through still air all the way from the water to the ends.",
    )
    earliest_uncovered = Quantity(
        "time",
        us="day",
        si="day",
        required=True,
        nullable=True,
        description="Until the top of the bend is uncovered with the fan off, at the earliest.",
    )
    latest_uncovered = Quantity(
        "time", us="day", si="day", required=True, nullable=True, description="The same at the latest."
    )
    evaporated_volume = Quantity(
        "volume", us="in3", si="mL", required=True, description="Water gone from now until the seal is lost."
    )
    refill_interval = Quantity(
        "time",
        us="day",
        si="day",
        required=True,
        nullable=True,
        description="How often to fill the trap up to be sure of its seal: the earliest loss, counted from full; null "
        "also where filling does not help.",
    )
    after_idle = Part(
        SealAfterIdle,
        required=True,
        nullable=True,
        description="The seal after the idle time; null where none was sent.",
    )
    lasting_seal_depth = Quantity(
        "length",
        required=True,
        nullable=True,
        description="Seal depth that, full at the start and with the outlet drop this pressure needs, outlasts the "
        "idle time even with swept ends; null where none was sent.",
    )


TrapDryOutAnswer = answer_of(TrapDryOutResults, "TrapDryOutAnswer")
