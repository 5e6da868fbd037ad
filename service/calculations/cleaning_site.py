"""The drain to be cleaned, as found: every fact settled, every default recorded, every unknown named."""

from service.calculations.answer import Assumption, Sentence
from service.calculations.assessment_checks import SANITARY
from service.calculations.drain_pitch import LIMITS as PITCH_LIMITS
from service.calculations.drain_pitch import MINIMUM_PITCH
from service.calculations.drain_survey import survey_drain
from service.calculations.frozen import dataclass
from service.calculations.gas_supply import CartridgeGun, Cylinder
from service.calculations.installation import Discharge, LineAsBuilt, PumpAsBuilt
from service.calculations.limits import Limit
from service.calculations.line_flow import MANNING_COEFFICIENT
from service.tables.pipe_sizes import DEFAULT_MATERIAL, is_made, pipe

FLOAT_SWITCHES = ("in-drain", "in-pan", "none")
"""Where a float switch stands: in the trap or line, in the pan, or nowhere."""

FOULED = ("line", "trap", "pan", "pump-tank", "pump-tube")
"""What slime may have fouled."""

PUMP_PARTS = ("pump-tank", "pump-tube")

MOST_OPENINGS = 50
"""Vents and open ends of a line; more is a building's main."""

MOST_PLUGS = 200
"""A crate of them."""

USUAL_SIZE = "3/4"
"""What small units mostly have. Common practice, no source."""

USUAL_RUN = 20 * 0.3048
"""Gravity line of a small unit [m]. Common practice, no source."""

RUN_TO_PUMP = 3 * 0.3048
"""Line from a trap to the pump beside the unit [m]. Common practice, no source."""

BRUSH_LENGTH = 5 * 0.3048
"""Flexible drain brush [m]. Common practice, no source."""

USUAL_PLUGS = 2

USUAL_EQUIPMENT = Sentence(text="brush, wet/dry vacuum, jug, {plugs} plugs", values={"plugs": USUAL_PLUGS})
"""The same in words."""

ACCESS_LIMITS = {"brush_length": Limit(0.1, 60.0)}  # a bottle brush, to a drain snake


@dataclass(frozen=True, kw_only=True, slots=True)
class Access:
    """What of the drain can be got at; None is not known."""

    union: bool | None = None
    pan_reachable: bool | None = None
    far_end_reachable: bool | None = None
    float_switch: str | None = None
    vents: int | None = None


@dataclass(frozen=True, kw_only=True, slots=True)
class Brush:
    """A flexible drain brush; length [m]."""

    length: float | None = None


@dataclass(frozen=True, kw_only=True, slots=True)
class Equipment:
    """What is on the truck; what is not named is not there."""

    brush: Brush | None = None
    cartridge_gun: CartridgeGun | None = None
    cylinder: Cylinder | None = None
    wet_dry_vacuum: bool | None = None
    jug: bool | None = None
    plugs: int | None = None


@dataclass(frozen=True, kw_only=True, slots=True)
class Site:
    """A drain to be cleaned.

    Parameters
    ----------
    location : str or None
        One of `service.calculations.installation.LOCATIONS`.
    cleanout : str
        One of `service.calculations.installation.CLEANOUTS`.
    union, pan_reachable, far_end_reachable : bool
        What can be opened or got at.
    float_switch : str or None
        One of `FLOAT_SWITCHES`; None where it has to be looked for.
    vents, other_units : int
        Openings of the line besides its own.
    pumped : bool
        Whether the line ends in a pump's tank.
    fouled : tuple of str
        Of `FOULED`.
    pipe_size : str
        Nominal size of the line.
    bore, run : float
        Of the line [m].
    pitch_ratio, manning_coefficient : float
        Of the line; Manning's n in s/m^(1/3).
    end : str or None
        Where the line ends, in words; None where it is not known.
    end_closed : bool
        Whether it is connected straight to a sanitary or soil line.
    equipment : Equipment
        What is on the truck.
    brush_length : float
        Reach of the brush [m]; 0 without one.
    unknown : tuple of str
        Keys of `service.tables.cleaning_methods.UNKNOWNS`.
    size_not_made : str or None
        Material that is not made in this size; the bore is then that of PVC.
    """

    location: str | None
    cleanout: str
    union: bool
    pan_reachable: bool
    far_end_reachable: bool
    float_switch: str | None
    vents: int
    other_units: int
    pumped: bool
    fouled: tuple[str, ...]
    pipe_size: str
    bore: float
    run: float
    pitch_ratio: float
    manning_coefficient: float
    end: str | None
    end_closed: bool
    equipment: Equipment
    brush_length: float
    unknown: tuple[str, ...]
    size_not_made: str | None


class _Notes:
    """Collects defaults and unknowns."""

    def __init__(self) -> None:
        self.assumptions: list[Assumption] = []
        self.unknown: list[str] = []

    def assume(
        self,
        pointer: str,
        value: float | int | str | bool | Sentence,
        note: str | Sentence,
        symbols: str | None = None,
        unknown: str = "",
    ) -> None:
        self.assumptions.append(Assumption(pointer=pointer, value=value, note=note, symbols=symbols))
        if unknown:
            self.unknown.append(unknown)


def settle_site(
    *,
    location: str | None,
    access: Access | None,
    fouled: tuple[str, ...] | None,
    line: LineAsBuilt | None,
    pump: PumpAsBuilt | None,
    pumped: bool | None,
    discharge: Discharge | None,
    equipment: Equipment | None,
) -> tuple[Site, tuple[Assumption, ...]]:
    """Put defaults where the request is silent, and record each.

    Parameters
    ----------
    location : str or None
        Where the unit stands.
    access : Access or None
        What can be got at.
    fouled : tuple of str or None
        What slime has fouled.
    line : LineAsBuilt or None
        Drain line, its cleanout included.
    pump : PumpAsBuilt or None
        Condensate pump with its tube.
    pumped : bool or None
        Whether there is a pump, where nothing more is known of it.
    discharge : Discharge or None
        Where the water goes.
    equipment : Equipment or None
        What is on the truck.

    Returns
    -------
    Site and tuple of Assumption
    """
    access, line = access or Access(), line or LineAsBuilt()
    notes = _Notes()
    has_pump = pump is not None or bool(pumped) or any(part in PUMP_PARTS for part in fouled or ())
    cleanout, union, pan, far_end, vents = _settle_access(access, line, notes)
    size, bore, not_made = _settle_bore(line, notes)
    run, pitch, roughness = _settle_run(line, size, has_pump, notes)
    tools, reach = _settle_equipment(equipment, notes)
    if fouled is None:
        fouled = FOULED if has_pump else FOULED[:3]
        notes.assume("/fouled", ", ".join(fouled), "Nothing tells what is fouled: all of it is cleaned.")
    if has_pump:
        end: str | None = "pump's tank"
    else:
        end = discharge.place.replace("-", " ") if discharge else None
        if discharge is None:
            notes.unknown.append("discharge")
    if has_pump and pump is None:
        notes.unknown.append("pump")
    site = Site(
        location=location,
        cleanout=cleanout,
        union=union,
        pan_reachable=pan,
        far_end_reachable=far_end,
        float_switch=access.float_switch,
        vents=vents,
        other_units=len(line.shared_with),
        pumped=has_pump,
        fouled=tuple(part for part in FOULED if part in fouled),
        pipe_size=size,
        bore=bore,
        run=run,
        pitch_ratio=pitch,
        manning_coefficient=roughness,
        end=end,
        # unless an air gap is reported, a sanitary or soil line is taken as connected
        end_closed=not has_pump and bool(discharge) and discharge.place in SANITARY and not discharge.air_gap,  # type: ignore[union-attr]
        equipment=tools,
        brush_length=reach,
        unknown=tuple(notes.unknown),
        size_not_made=not_made,
    )
    return site, tuple(notes.assumptions)


def _settle_access(access: Access, line: LineAsBuilt, notes: _Notes) -> tuple[str, bool, bool, bool, int]:
    """Cleanout, union, pan, far end and vents."""
    if line.cleanout is None:
        note = "Taken as one whose cap turns by hand; see first."
        notes.assume("/line/cleanout", "removable", note, unknown="cleanout")
    if access.union is None:
        notes.assume("/access/union", True, "Taken as there; see first.", unknown="union")
    if access.pan_reachable is None:
        notes.assume("/access/pan_reachable", True, "Taken as within reach behind its panel.", unknown="pan")
    if access.far_end_reachable is None:
        notes.assume("/access/far_end_reachable", True, "Taken as within reach.", unknown="far-end")
    if access.float_switch is None:
        note = "Nothing tells whether there is a float switch: the plan looks for one, as if there were."
        notes.assume("/access/float_switch", "in-drain", note, unknown="float-switch")
    if access.vents is None:
        notes.assume("/access/vents", 0, "None is reported between the unit and the far end.", unknown="vents")
    return (
        line.cleanout or "removable",
        access.union is not False,
        access.pan_reachable is not False,
        access.far_end_reachable is not False,
        access.vents or 0,
    )


def _settle_bore(line: LineAsBuilt, notes: _Notes) -> tuple[str, float, str | None]:
    """Nominal size and bore, and the material that is not made in it."""
    if line.pipe_size is None:
        notes.assume("/line/pipe_size", USUAL_SIZE, "What small units mostly have.", unknown="pipe-size")
    size = line.pipe_size or USUAL_SIZE
    if line.material is None:
        notes.assume("/line/material", DEFAULT_MATERIAL, "What the trade mostly installs.")
    material = line.material or DEFAULT_MATERIAL
    if is_made(material, size):
        return size, pipe(material, size).bore, None
    text = "{material} is not made in this size; its bore is taken from PVC Schedule 40."
    note = Sentence(text=text, values={"material": material})
    notes.assume("/line/material", DEFAULT_MATERIAL, note)
    return size, pipe(DEFAULT_MATERIAL, size).bore, material


def _settle_run(line: LineAsBuilt, size: str, pumped: bool, notes: _Notes) -> tuple[float, float, float]:
    """Length [m], fall over run, and Manning's n."""
    usual = RUN_TO_PUMP if pumped else USUAL_RUN
    measured = _survey(line, size)
    if measured:
        run, pitch = measured
        run, pitch = (line.run or run), (pitch if line.fall is None or line.run is None else line.fall / line.run)
        return run, pitch, _roughness(line, notes)
    if line.run is None:
        note = "Line of a small unit. Common practice."
        if pumped:
            note = "From the trap to a pump beside the unit. Common practice."
        notes.assume("/line/run", usual, note, "ft|m", unknown="run")
    run = usual if line.run is None else line.run
    if line.fall is None:
        note = "The least the codes allow, 1/8 in per ft: it holds most water and takes longest."
        notes.assume("/line/fall", MINIMUM_PITCH * run, note, "in|mm")
    pitch = MINIMUM_PITCH if line.fall is None else line.fall / run
    return run, pitch, _roughness(line, notes)


def _survey(line: LineAsBuilt, size: str) -> tuple[float, float] | None:
    """Length [m] and fall over run from the stations of the line; None without, or where it has no length."""
    if not line.stations:
        return None
    survey = survey_drain(
        pipe_size=size,
        stations=line.stations,
        material=line.material,
        measurement_tolerance=line.measurement_tolerance,
        level_line_height=line.level_line_height,
        water_depth_at_outlet=line.water_depth_at_outlet,
    ).results
    if survey.pitch_ratio is None or survey.run < PITCH_LIMITS["run"].low:
        return None
    return survey.run, survey.pitch_ratio


def _roughness(line: LineAsBuilt, notes: _Notes) -> float:
    """Manning's n of the line."""
    if line.manning_coefficient is not None:
        return line.manning_coefficient
    note = "Rough end of what handbooks give for plastic pipe."
    notes.assume("/line/manning_coefficient", MANNING_COEFFICIENT, note)
    return MANNING_COEFFICIENT


def _settle_equipment(equipment: Equipment | None, notes: _Notes) -> tuple[Equipment, float]:
    """What is on the truck, and the reach of its brush [m]."""
    if equipment is None:
        notes.assume("/equipment", USUAL_EQUIPMENT, "What most trucks carry; no gas is counted on. Common practice.")
        equipment = Equipment(brush=Brush(), wet_dry_vacuum=True, jug=True, plugs=USUAL_PLUGS)
    if equipment.brush is None:
        return equipment, 0.0
    if equipment.brush.length is None:
        notes.assume("/equipment/brush/length", BRUSH_LENGTH, "A flexible drain brush. Common practice.", "ft|m")
    return equipment, BRUSH_LENGTH if equipment.brush.length is None else equipment.brush.length
