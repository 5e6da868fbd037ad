"""One length of a drain line: the size it needs, what is built, and how the peak hour runs in it."""

from service.calculations.answer import Assumption, Finding, Value
from service.calculations.common_line import LineLength, Load
from service.calculations.drain_judgement import NeededSize, Place, judge_flow, judge_installed, judge_size
from service.calculations.drain_pitch import FOOT, MINIMUM_PITCH, judge_pitch
from service.calculations.frozen import dataclass
from service.calculations.line_flow import MANNING_COEFFICIENT, WATER_TEMPERATURE, LineFlow, line_flow
from service.tables.pipe_sizes import DEFAULT_MATERIAL, is_made, pipe

_LEAST_PITCH = Assumption(
    pointer="/pitch_ratio",
    value=MINIMUM_PITCH,
    note="No pitch was given: the code minimum of 1/8 in per ft (1 in 96), IMC 2021 307.2.",
)
_USUAL_MATERIAL = Assumption(
    pointer="/material",
    value=DEFAULT_MATERIAL,
    note="No material was given: PVC Schedule 40, what the trade mostly installs. Common practice.",
)
_ROUGH_END = Assumption(
    pointer="/manning_coefficient",
    value=MANNING_COEFFICIENT,
    note="Manning's coefficient: the rough end of what handbooks give for plastic, and theirs for copper.",
)
_WARMED_UP = Assumption(
    pointer="/water_temperature",
    value=WATER_TEMPERATURE,
    note="Condensate leaves the coil at 10 to 15 degC and warms up on its way; only for its viscosity.",
    symbols="degF|degC",
)


@dataclass(frozen=True, kw_only=True, slots=True)
class SizedLine(LineFlow):
    """A line's size, and how the peak hour runs in it when clean, as installed or else as it should be.

    Parameters
    ----------
    pipe_size : str or None
        Nominal size to install; None where the line has to be engineered.
    installed_pipe_size : str or None
        Nominal size as built.
    table_pipe_size : str or None
        Nominal size of the code table's row alone.
    table_capacity : float or None
        Greatest total capacity of that row [W].
    total_capacity : float
        Capacity of all units that drain through it [W].
    peak_flow : float
        Their condensate in the peak hour [m3/s].
    """

    pipe_size: str | None
    installed_pipe_size: str | None
    table_pipe_size: str | None
    table_capacity: float | None
    total_capacity: float
    peak_flow: float


@dataclass(frozen=True, kw_only=True, slots=True)
class SizedLength(SizedLine):
    """One length of a common line.

    Parameters
    ----------
    id : str or None
        What it is called.
    next_length : int or None
        Place in the list of the length it runs into; None for the last.
    pitch_ratio : float
        Fall over run that its flow is computed with [-].
    fall : float or None
        Fall over its run [m]; None where no run is given.
    """

    id: str | None
    next_length: int | None
    pitch_ratio: float
    fall: float | None


@dataclass(frozen=True, kw_only=True, slots=True)
class LineMake:
    """What is the same for every length of a line, as requested; None where a default stands in.

    Parameters
    ----------
    pitch_ratio : float or None
        Fall over run [-] of a length that has none of its own.
    material : str or None
        Kind of pipe.
    installed_pipe_size : str or None
        Nominal size as built of a length that has none of its own.
    manning_coefficient : float or None
        Manning's roughness coefficient [s/m^(1/3)].
    water_temperature : float or None
        Of the water in it [K].
    kinematic_viscosity : float
        Of the water in it [m2/s].
    """

    pitch_ratio: float | None
    material: str | None
    installed_pipe_size: str | None
    manning_coefficient: float | None
    water_temperature: float | None
    kinematic_viscosity: float

    def pitch_of(self, length: LineLength) -> float:
        """A length's own pitch, or else that of the line, or else the code minimum."""
        pitch = self.pitch_ratio if length.pitch_ratio is None else length.pitch_ratio
        return MINIMUM_PITCH if pitch is None else pitch

    def built(self, length: LineLength) -> str | None:
        """A length's own nominal size as built, or else that of the line."""
        return length.installed_pipe_size or self.installed_pipe_size

    def flow(self, *, bore: float, pitch_ratio: float, peak_flow: float) -> LineFlow:
        """How the peak hour [m3/s] runs in a clean bore [m] of this make."""
        roughness = MANNING_COEFFICIENT if self.manning_coefficient is None else self.manning_coefficient
        return line_flow(
            peak_flow=peak_flow,
            bore=bore,
            pitch_ratio=pitch_ratio,
            manning_coefficient=roughness,
            kinematic_viscosity=self.kinematic_viscosity,
        )

    def assumptions(self, lengths: tuple[LineLength, ...], flows: tuple[LineFlow, ...]) -> tuple[Assumption, ...]:
        """Record the defaults that entered the flow of one length or more."""
        assumed = []
        computed = [length for length, flow in zip(lengths, flows, strict=True) if flow.bore is not None]
        if self.pitch_ratio is None and any(length.pitch_ratio is None for length in computed):
            assumed.append(_LEAST_PITCH)
        if self.material is None and computed:
            assumed.append(_USUAL_MATERIAL)
        if self.manning_coefficient is None and computed:
            assumed.append(_ROUGH_END)
        if self.water_temperature is None and any(flow.reynolds is not None for flow in flows):
            assumed.append(_WARMED_UP)
        return tuple(assumed)


def size_length(
    *,
    length: LineLength,
    next_length: int | None,
    load: Load,
    needed: NeededSize,
    make: LineMake,
    place: Place,
    pan_pointer: str,
) -> tuple[SizedLength, tuple[Finding, ...]]:
    """Put together what one length needs, has and carries.

    Parameters
    ----------
    length : LineLength
        As requested.
    next_length : int or None
        Place in the list of the length it runs into.
    load : Load
        What flows through it.
    needed : NeededSize
        What size that asks for.
    make : LineMake
        What it shares with the others.
    place : Place
        Where its findings belong.
    pan_pointer : str
        What to point at where a pan outlet sets its size.

    Returns
    -------
    SizedLength and tuple of Finding
    """
    pitch = make.pitch_of(length)
    findings = list(judge_size(needed, load, place, pan_pointer=pan_pointer))
    installed = make.built(length)
    # one length has no pointer of its own: what is said of it points at the line's member
    own = length.installed_pipe_size is not None or not place.pointer
    installed_pointer = f"{place.pointer}/installed_pipe_size" if own else place.pointer
    if installed is not None:
        findings += judge_installed(installed, needed, load, place, pointer=installed_pointer)
    pitch_pointer = f"{place.pointer}/pitch_ratio"
    if length.pitch_ratio is not None:
        findings += judge_pitch(pitch, run=length.run or FOOT, pointer=pitch_pointer)
    elif make.pitch_ratio is not None:
        findings += judge_pitch(pitch, run=FOOT, pointer="/pitch_ratio")
    flow = LineFlow()
    size = installed or needed.pipe_size
    kind = make.material or DEFAULT_MATERIAL
    if size and is_made(kind, size):
        row = pipe(kind, size)
        flow = make.flow(bore=row.bore, pitch_ratio=pitch, peak_flow=load.peak_flow)
        pointer = pitch_pointer if length.pitch_ratio is not None or not place.pointer else place.pointer
        findings += judge_flow(flow, row, load.peak_flow, place, pointer=pointer)
    elif size:
        values: dict[str, Value] = {
            "material": kind,
            "pipe_size": size,
            "length": place.name or "the line",
            "where": place.where,
        }
        code, pointer = "pipe-size-not-made", place.pointer or "/material"
        if installed:
            code, pointer = "installed-size-not-made", installed_pointer
        findings.append(Finding(code=code, pointer=pointer, values=values))
    sized = SizedLength(
        bore=flow.bore,
        full_bore_capacity=flow.full_bore_capacity,
        full_bore_velocity=flow.full_bore_velocity,
        depth=flow.depth,
        depth_fraction=flow.depth_fraction,
        velocity=flow.velocity,
        reynolds=flow.reynolds,
        laminar_depth=flow.laminar_depth,
        self_cleansing=flow.self_cleansing,
        fouling_margin=flow.fouling_margin,
        fouling_film_thickness=flow.fouling_film_thickness,
        pipe_size=needed.pipe_size,
        table_pipe_size=needed.row.pipe_size if needed.row else None,
        table_capacity=needed.row.up_to if needed.row else None,
        total_capacity=load.total_capacity,
        peak_flow=load.peak_flow,
        id=length.id,
        next_length=next_length,
        installed_pipe_size=installed,
        pitch_ratio=pitch,
        fall=None if length.run is None else pitch * length.run,
    )
    return sized, tuple(findings)
