"""Parts of an assessment's request: what a visit may know of one unit."""

from service.calculations import installation
from service.calculations.assessment import LIMITS
from service.calculations.condensate_rate import LIMITS as RATE_LIMITS
from service.calculations.drain_pitch import LIMITS as PITCH_LIMITS
from service.calculations.drain_sizing import LIMITS as SIZING_LIMITS
from service.calculations.drain_survey import FEWEST_STATIONS
from service.calculations.drain_survey import LIMITS as SURVEY_LIMITS
from service.calculations.overflow_time import LIMITS as OVERFLOW_LIMITS
from service.calculations.pump_run import LIMITS as PUMP_LIMITS
from service.calculations.trap_check import LIMITS as TRAP_LIMITS
from service.schemas.condensate_rate import EnteringAir, LeavingAir
from service.schemas.drain_sizing import ServedUnit
from service.schemas.drain_survey import (
    LEVEL_LINE_DESCRIPTION,
    OUTLET_DESCRIPTION,
    STATIONS_DESCRIPTION,
    TOLERANCE_DESCRIPTION,
    Station,
)
from service.schemas.fields import Choice, Flag, Number, Part, Quantity, Rows
from service.schemas.payload import Payload
from service.schemas.pump_run import Pump, Tube
from service.schemas.trap_dry_out import (
    idle_time_field,
    open_legs_field,
    outlet_side_air_field,
    outlet_side_path_field,
    unit_side_air_field,
    water_temperature_field,
)
from service.tables.pipe_sizes import MATERIALS, NOMINAL_SIZES

MOST_SHARING = 50
"""Other units on one unit's line; more is a riser, which `drain-sizing` takes."""


MOST_STATIONS = 40
"""Stations of one unit's line, 160 ft at a hanger every 4 ft; `drain-survey` takes more."""


class Cooling(Payload):
    """Rated capacity of the unit."""

    into = installation.Cooling

    total_capacity = Quantity(
        "power", RATE_LIMITS["total_capacity"], required=True, description="Total rated cooling capacity."
    )
    sensible_heat_ratio = Number(
        RATE_LIMITS["sensible_heat_ratio"],
        description="Sensible over total capacity. 0.7 is assumed when left out, which makes the most water.",
    )


class AirStates(Payload):
    """Air measured on both sides of the coil, on the visit."""

    into = installation.AirStates

    air_flow = Quantity("air_flow", RATE_LIMITS["air_flow"], required=True, description="Air flow through the coil.")
    entering_air = Part(EnteringAir, required=True, description="Air entering the coil.")
    leaving_air = Part(LeavingAir, required=True, description="Air leaving the coil.")
    air_flow_basis = Choice(
        ("actual", "standard"), description="`actual` as measured, `standard` from a fan table; `actual` when left out."
    )
    air_flow_measured_at = Choice(
        ("entering", "leaving"), description="Side on which an actual flow was measured; `entering` when left out."
    )


class Coil(Payload):
    """Entering air and the coil's capacity; the leaving air is solved."""

    into = installation.Coil

    air_flow = Quantity("air_flow", RATE_LIMITS["air_flow"], required=True, description="Air flow through the coil.")
    entering_air = Part(EnteringAir, required=True, description="Air entering the coil.")
    total_capacity = Quantity(
        "power", RATE_LIMITS["total_capacity"], required=True, description="Total capacity at this entering air."
    )
    bypass_factor = Number(
        RATE_LIMITS["bypass_factor"], required=True, description="Share of the air that leaves as it entered."
    )
    air_flow_basis = Choice(
        ("actual", "standard"),
        description="Whether the flow is as measured or of standard air; `actual` when left out.",
    )


class MeasuredRate(Payload):
    """Water caught at the end of the line in a jug, against a clock."""

    into = installation.MeasuredRate

    volume = Quantity("volume", LIMITS["volume"], required=True, description="Water caught.")
    time = Quantity("time", LIMITS["time"], required=True, description="How long it took.")


class TrapAsBuilt(Payload):
    """The trap as it was measured."""

    into = installation.TrapAsBuilt

    outlet_drop = Quantity(
        "length",
        TRAP_LIMITS["outlet_drop"],
        required=True,
        description="From the pan outlet down to the trap's outlet invert; negative where the trap's outlet is higher.",
    )
    seal_depth = Quantity(
        "length",
        TRAP_LIMITS["seal_depth"],
        required=True,
        description="From the trap's outlet invert down to the top of the bend; 0 where there is no trap.",
    )
    pipe_size = Choice(NOMINAL_SIZES, description="Nominal size of the trap.")
    unit_side_pipe_size = Choice(NOMINAL_SIZES, description="Nominal size of the leg on the unit's side, if different.")
    outlet_side_pipe_size = Choice(NOMINAL_SIZES, description="Nominal size of the outlet leg, if different.")
    evaporated_depth = Quantity(
        "length", TRAP_LIMITS["evaporated_depth"], description="How far the water has fallen by drying out."
    )
    serves_one_unit = Flag(description="False where several pans share this trap.")
    kept_full_off_season = Flag(description="True where something refills the trap out of season.")


class LineAsBuilt(Payload):
    """The drain line from the trap to the place of disposal."""

    into = installation.LineAsBuilt

    pipe_size = Choice(NOMINAL_SIZES, description="Nominal size as installed.")
    material = Choice(MATERIALS, description="Material; PVC Schedule 40 is assumed when left out.")
    run = Quantity("length", PITCH_LIMITS["run"], us="ft", si="m", description="Horizontal length.")
    fall = Quantity(
        "length", PITCH_LIMITS["fall"], description="Measured drop over the run; negative where it runs uphill."
    )
    pan_outlet = Choice(NOMINAL_SIZES, description="Nominal size of the pan outlet.")
    shared_with = Rows(
        Part(ServedUnit, description="Another unit."),
        most=MOST_SHARING,
        description="Other units that drain into the same line.",
    )
    cleanout = Choice(installation.CLEANOUTS, description="How the line can be opened for cleaning.")
    support_spacing = Quantity("length", LIMITS["support_spacing"], description="Widest distance between supports.")
    second_trap_unvented = Flag(description="True where a second trap stands on the line with no vent between.")
    manning_coefficient = Number(
        SIZING_LIMITS["manning_coefficient"], description="Manning's n of the line; that of plastic when left out."
    )
    water_temperature = Quantity(
        "temperature",
        SIZING_LIMITS["water_temperature"],
        description="Of the water in it; 68 degF when left out.",
    )
    empty_volume = Quantity(
        "volume",
        OVERFLOW_LIMITS["line_volume"],
        description="Empty line between the pan and where it blocks, which fills first; 0 when left out.",
    )
    stations = Rows(
        Part(Station, description="One station."),
        fewest=FEWEST_STATIONS,
        most=MOST_STATIONS,
        description=STATIONS_DESCRIPTION
        + " Where `run` or `fall` is left out, the line's pitch is the survey's, from its first to its last station.",
    )
    measurement_tolerance = Quantity(
        "length", SURVEY_LIMITS["measurement_tolerance"], description=TOLERANCE_DESCRIPTION
    )
    level_line_height = Quantity("length", SURVEY_LIMITS["level_line_height"], description=LEVEL_LINE_DESCRIPTION)
    water_depth_at_outlet = Quantity("length", SURVEY_LIMITS["water_depth_at_outlet"], description=OUTLET_DESCRIPTION)


class PumpAsBuilt(Payload):
    """The condensate pump as installed."""

    into = installation.PumpAsBuilt

    lift = Quantity(
        "length",
        PUMP_LIMITS["lift"],
        required=True,
        description="From the water in the tank up to the highest point of the tube.",
    )
    tube = Part(Tube, required=True, description="Discharge tube.")
    pump = Part(Pump, required=True, description="The pump, from its leaflet.")
    water_temperature = Quantity(
        "temperature", PUMP_LIMITS["water_temperature"], description="Of the water in the tube; 68 degF when left out."
    )
    flow_margin = Number(
        PUMP_LIMITS["flow_margin"], description="Least flow over the inflow that is called enough; 1.5 when left out."
    )


class OffSeason(Payload):
    """The season in which no condensate arrives and the trap dries out."""

    into = installation.OffSeason

    idle_time = idle_time_field()
    unit_side_air = unit_side_air_field()
    outlet_side_air = outlet_side_air_field()
    outlet_side_path = outlet_side_path_field()
    open_legs = open_legs_field()
    water_temperature = water_temperature_field()


class Discharge(Payload):
    """Where the water goes."""

    into = installation.Discharge

    place = Choice(installation.DISCHARGE_PLACES, required=True, description="Where the line ends.")
    air_gap = Flag(description="True where the line ends above the flood rim with an air gap.")
