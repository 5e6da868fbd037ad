"""Size of a drain line for the units that share it, how the water runs, and how much slime the line may take.

References
----------
.. [1] International Mechanical Code 2021, 307.2.2 and Table 307.2.2; the International
   Plumbing Code 2021 has the same rows in Table 314.2.2.
"""

from dataclasses import fields

from service.calculations.answer import Answer
from service.calculations.common_line import LENGTH_LIMITS, CommonLine, LineLength, called, join_units, larger
from service.calculations.drain_judgement import NeededSize, Place
from service.calculations.drain_pitch import LIMITS as PITCH_LIMITS
from service.calculations.frozen import dataclass
from service.calculations.limits import Limit, require, require_members
from service.calculations.line_flow import WATER_TEMPERATURE
from service.calculations.line_size import LineMake, SizedLength, SizedLine, size_length
from service.calculations.served_unit import UNIT_LIMITS, ServedUnit, peak_assumptions
from service.calculations.water import kinematic_viscosity
from service.tables.drain_sizes import drain_size
from service.tables.pipe_sizes import DEFAULT_MATERIAL, pipe

MOST_UNITS = 1000
"""Units on one line; more than any building hangs on one."""

LIMITS = {
    **UNIT_LIMITS,
    "pitch_ratio": PITCH_LIMITS["pitch_ratio"],
    "manning_coefficient": Limit(0.007, 0.03),  # glass, to heavily encrusted iron
    "water_temperature": Limit(273.15, 323.15),  # melting ice, to a hot attic
}


_OF_THE_LINE = tuple(field.name for field in fields(SizedLine))


@dataclass(frozen=True, kw_only=True, slots=True)
class DrainSizing(SizedLine):
    """The whole line: its last length, which carries everything, and every length.

    Parameters
    ----------
    lengths : tuple of SizedLength
        In the order of the request; none where it names none.
    tightest_length : int or None
        Place in the list of the length with the least fouling margin; None where there are none to compare.
    """

    lengths: tuple[SizedLength, ...]
    tightest_length: int | None


def size_drain(
    *,
    units: tuple[ServedUnit, ...],
    lengths: tuple[LineLength, ...] | None = None,
    pan_outlet: str | None = None,
    pitch_ratio: float | None = None,
    material: str | None = None,
    installed_pipe_size: str | None = None,
    manning_coefficient: float | None = None,
    water_temperature: float | None = None,
) -> Answer[DrainSizing]:
    """Size the drain line that one or several units share, in one length or in many that join along the run.

    Parameters
    ----------
    units : tuple of ServedUnit
        One to `MOST_UNITS` units.
    lengths : tuple of LineLength or None
        One to `service.calculations.common_line.MOST_LENGTHS` lengths, the way the water runs; one length for all
        units by default.
    pan_outlet : str or None
        Nominal size of the largest pan outlet; no length is smaller.
    pitch_ratio : float or None
        Fall over run, positive downstream, of every length that has none of its own; the code minimum by default.
    material : str or None
        Kind of pipe, one of `service.tables.pipe_sizes.MATERIALS`.
    installed_pipe_size : str or None
        Nominal size as built, of every length that has none of its own; not built yet by default.
    manning_coefficient : float or None
        Manning's roughness coefficient [s/m^(1/3)].
    water_temperature : float or None
        Of the water in the line [K], for its viscosity.

    Returns
    -------
    Answer of DrainSizing

    Raises
    ------
    OutOfRange
        For an argument outside `LIMITS`.

    Notes
    -----
    A length's size is the code's [1]_ for all that drains through it, never less than 3/4 in, than a pan outlet or
    than a length that runs into it. The hydraulics tell how much of it the water needs; see
    `service.calculations.line_flow.line_flow`.

    Examples
    --------
    Six units of 7.5 tons make 45 tons, which the table gives 1-1/4 in:

    >>> from service.tables.drain_sizes import TON
    >>> sizing = size_drain(units=(ServedUnit(total_capacity=7.5 * TON),) * 6, pitch_ratio=1 / 48).results
    >>> sizing.pipe_size
    '1-1/4'

    Where three of them join half way, the first half carries 22.5 tons, which the table gives 1 in:

    >>> near, far = ((ServedUnit(total_capacity=7.5 * TON, joins=name),) * 3 for name in ("near", "far"))
    >>> run = (LineLength(id="far"), LineLength(id="near"))
    >>> [length.pipe_size for length in size_drain(units=(*near, *far), lengths=run).results.lengths]
    ['1', '1-1/4']
    """
    for unit in units:
        require_members(UNIT_LIMITS, unit)
    run = lengths or (LineLength(),)
    for length in run:
        require_members(LENGTH_LIMITS, length)
    require(
        LIMITS, pitch_ratio=pitch_ratio, manning_coefficient=manning_coefficient, water_temperature=water_temperature
    )
    line = join_units(units, run)
    make = LineMake(
        pitch_ratio=pitch_ratio,
        material=material,
        installed_pipe_size=installed_pipe_size,
        manning_coefficient=manning_coefficient,
        water_temperature=water_temperature,
        kinematic_viscosity=kinematic_viscosity(WATER_TEMPERATURE if water_temperature is None else water_temperature),
    )
    # a word about the line as a whole comes up at every length, and is kept once
    findings = {(finding.code, finding.pointer): finding for finding in line.findings}
    sized = []
    for index, (length, needed) in enumerate(zip(run, _needed_sizes(line, run, make, pan_outlet), strict=True)):
        pointer = f"/lengths/{index}" if lengths else ""
        row, found = size_length(
            length=length,
            next_length=line.next_lengths[index],
            load=line.loads[index],
            needed=needed,
            make=make,
            place=Place(name=called(run, index), pointer=pointer) if lengths else Place(),
            pan_pointer=pointer or _pan_pointer(units, needed.pan_outlet, pan_outlet),
        )
        sized.append(row)
        for finding in found:
            findings.setdefault((finding.code, finding.pointer), finding)
    return Answer(
        results=_results(tuple(sized), several=bool(lengths)),
        findings=tuple(findings.values()),
        assumptions=(*peak_assumptions(units), *line.assumptions, *make.assumptions(run, tuple(sized))),
        cautions=("local-code",),
        sources=_sources(sized, material),
    )


def _needed_sizes(
    line: CommonLine, lengths: tuple[LineLength, ...], make: LineMake, pan_outlet: str | None
) -> tuple[NeededSize, ...]:
    """Size each length, upstream first: what is built or needed above is never reduced."""
    above: list[str | None] = [None] * len(lengths)
    needed = []
    for index, load in enumerate(line.loads):
        outlet = larger(load.pan_outlet, pan_outlet)
        size = NeededSize.of(drain_size(load.total_capacity), pan_outlet=outlet, upstream=above[index])
        needed.append(size)
        below = line.next_lengths[index]
        if below is not None:
            above[below] = larger(above[below], size.pipe_size, make.built(lengths[index]))
    return tuple(needed)


def _pan_pointer(units: tuple[ServedUnit, ...], largest: str | None, pan_outlet: str | None) -> str:
    """Where the largest pan outlet stands: with the line, or with the first unit that has it."""
    if largest == pan_outlet:
        return "/pan_outlet"
    return next(f"/units/{index}/pan_outlet" for index, unit in enumerate(units) if unit.pan_outlet == largest)


def _results(sized: tuple[SizedLength, ...], *, several: bool) -> DrainSizing:
    """Put the last length first, and name the one that fouls up soonest."""
    margins = [(row.fouling_margin, index) for index, row in enumerate(sized) if row.fouling_margin is not None]
    return DrainSizing(
        **{name: getattr(sized[-1], name) for name in _OF_THE_LINE},
        lengths=sized if several else (),
        tightest_length=min(margins)[1] if several and margins else None,
    )


def _sources(sized: list[SizedLength], material: str | None) -> tuple[str, ...]:
    """Keys of what the numbers rest on."""
    keys = ["imc-drain-size", "ipc-drain-size", "imc-slope"]
    computed = [row for row in sized if row.bore is not None]
    if computed:
        size = computed[0].installed_pipe_size or computed[0].pipe_size or ""
        standard = pipe(material or DEFAULT_MATERIAL, size).standard
        keys += ["manning", standard.lower().replace(" ", "-")]
    if any(row.reynolds is not None for row in computed):
        keys += ["laminar-gravity-flow", "iapws-liquid-water", "nspc-scouring"]
    return (*keys, "common-practice")
