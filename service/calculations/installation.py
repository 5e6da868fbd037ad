"""What a visit may know of one unit: the parts an assessment is made of."""

from service.calculations.air_state import AirReading
from service.calculations.drain_profile import Station
from service.calculations.frozen import dataclass
from service.calculations.pump import Pump
from service.calculations.pump_tube import Tube
from service.calculations.served_unit import ServedUnit

LOCATIONS = (
    "attic",
    "crawl-space",
    "above-ceiling",
    "closet",
    "mechanical-room",
    "basement",
    "garage",
    "roof",
    "outdoors",
)
"""Where the unit stands, in the trade's words."""

BELOW = ("finished-ceiling", "occupied-space", "electrical-equipment", "stored-goods", "nothing-to-damage")
"""What the water would wet first."""

DISCHARGE_PLACES = (
    "floor-drain",
    "mop-sink",
    "laundry-tray",
    "sanitary-line",
    "soil-stack",
    "storm-drain",
    "outdoors",
    "roof-surface",
    "walkway",
    "dry-well",
)
"""Where the line ends."""

CLEANOUTS = ("removable", "solvent-welded", "none")
"""How the line can be opened."""


@dataclass(frozen=True, kw_only=True, slots=True)
class Cooling:
    """Rated capacity: total [W], and sensible heat ratio [-] where known."""

    total_capacity: float
    sensible_heat_ratio: float | None = None


@dataclass(frozen=True, kw_only=True, slots=True)
class AirStates:
    """Air measured on both sides of the coil; air flow [m3/s]."""

    air_flow: float
    entering_air: AirReading
    leaving_air: AirReading
    air_flow_basis: str | None = None
    air_flow_measured_at: str | None = None


@dataclass(frozen=True, kw_only=True, slots=True)
class Coil:
    """Entering air and the coil's capacity [W]; air flow [m3/s]."""

    air_flow: float
    entering_air: AirReading
    total_capacity: float
    bypass_factor: float
    air_flow_basis: str | None = None


@dataclass(frozen=True, kw_only=True, slots=True)
class MeasuredRate:
    """Water caught: volume [m3] in time [s]."""

    volume: float
    time: float


@dataclass(frozen=True, kw_only=True, slots=True)
class TrapAsBuilt:
    """Trap dimensions [m]; see `service.calculations.trap_check.check_trap`."""

    outlet_drop: float
    seal_depth: float
    pipe_size: str | None = None
    unit_side_pipe_size: str | None = None
    outlet_side_pipe_size: str | None = None
    evaporated_depth: float | None = None
    serves_one_unit: bool | None = None
    kept_full_off_season: bool | None = None


@dataclass(frozen=True, kw_only=True, slots=True)
class LineAsBuilt:
    """The drain line; lengths [m], empty volume between pan and blockage [m3].

    The stations and what belongs to them are those of `service.calculations.drain_survey.survey_drain`.
    """

    pipe_size: str | None = None
    material: str | None = None
    run: float | None = None
    fall: float | None = None
    pan_outlet: str | None = None
    shared_with: tuple[ServedUnit, ...] = ()
    cleanout: str | None = None
    support_spacing: float | None = None
    second_trap_unvented: bool | None = None
    manning_coefficient: float | None = None
    water_temperature: float | None = None
    empty_volume: float | None = None
    stations: tuple[Station, ...] = ()
    measurement_tolerance: float | None = None
    level_line_height: float | None = None
    water_depth_at_outlet: float | None = None


@dataclass(frozen=True, kw_only=True, slots=True)
class PumpAsBuilt:
    """The condensate pump with its tube; lift [m], water temperature [K]."""

    lift: float
    tube: Tube
    pump: Pump
    water_temperature: float | None = None
    flow_margin: float | None = None


@dataclass(frozen=True, kw_only=True, slots=True)
class OffSeason:
    """The season without condensate: idle time [s], air at both ends of the trap, water temperature [K].

    See `service.calculations.trap_dry_out.dry_out_trap`.
    """

    idle_time: float | None = None
    unit_side_air: AirReading | None = None
    outlet_side_air: AirReading | None = None
    outlet_side_path: float | None = None
    open_legs: str | None = None
    water_temperature: float | None = None


@dataclass(frozen=True, kw_only=True, slots=True)
class Discharge:
    """Where the water goes."""

    place: str
    air_gap: bool | None = None
