"""Size of a drain line for the units that share it, and how much slime it may take.

References
----------
.. [1] International Mechanical Code 2021, 307.2.2 and Table 307.2.2; the International
   Plumbing Code 2021 has the same rows in Table 314.2.2.
"""

from dataclasses import dataclass
from math import fsum

from service.calculations.answer import Answer, Assumption, Finding
from service.calculations.condensate_rate import RATING_LATENT_HEAT, WATER_DENSITY
from service.calculations.drain_pitch import FOOT, MINIMUM_PITCH, judge_pitch
from service.calculations.drain_pitch import LIMITS as PITCH_LIMITS
from service.calculations.limits import Limit, require
from service.calculations.line_flow import MANNING_COEFFICIENT, LineFlow, line_flow
from service.tables.drain_sizes import DRAIN_SIZES, TON, drain_size
from service.tables.pipe_sizes import DEFAULT_MATERIAL, INCH, NOMINAL_SIZES, PipeSize, is_made, pipe

MOST_UNITS = 1000
"""Units on one line; more than any building hangs on one."""

PEAK_FLOW_PER_TON = 0.5 * 3.785411784e-3 / 3600.0
"""0.5 US gal/h [m3/s] for each ton at high latent load. Common practice, no source."""

SMALL_FOULING_MARGIN = 0.5
"""Share of the bore below which slime soon backs the line up. Common practice, no source."""

LEAST_BORE = 0.75 * INCH
"""Internal diameter that editions of the code before 2018 ask for; later ones say 3/4 in pipe size."""

LIMITS = {
    "total_capacity": Limit(0.0, 1e7),  # a coil that is off, to the largest built-up air handler
    "sensible_heat_ratio": Limit(0.0, 1.0),  # all latent to all sensible
    "peak_flow": Limit(0.0, 0.01),  # dry coil, to 9,500 gal/h
    "pitch_ratio": PITCH_LIMITS["pitch_ratio"],
    "manning_coefficient": Limit(0.007, 0.03),  # glass, to heavily encrusted iron
}


@dataclass(frozen=True, kw_only=True, slots=True)
class ServedUnit:
    """A unit that drains into the line.

    Parameters
    ----------
    total_capacity : float
        Total (sensible and latent) cooling capacity [W].
    sensible_heat_ratio : float or None
        Sensible over total capacity; its latent share then gives the peak flow.
    peak_flow : float or None
        Condensate of the peak hour [m3/s] where it is known; overrules the ratio.
    """

    total_capacity: float
    sensible_heat_ratio: float | None = None
    peak_flow: float | None = None


@dataclass(frozen=True, kw_only=True, slots=True)
class DrainSizing:
    """A line's size and what it carries when clean.

    Parameters
    ----------
    pipe_size : str or None
        Nominal size to install; None where the line has to be engineered.
    table_pipe_size : str or None
        Nominal size of the code table's row alone.
    table_capacity : float or None
        Greatest total capacity of that row [W].
    total_capacity : float
        Capacity of all units [W].
    peak_flow : float
        Condensate of all units in the peak hour [m3/s].
    bore, full_bore_capacity, depth_fraction, fouling_margin, fouling_film_thickness : float or None
        See `service.calculations.line_flow.LineFlow`; None where there is no such pipe to compute.
    """

    pipe_size: str | None
    table_pipe_size: str | None
    table_capacity: float | None
    total_capacity: float
    peak_flow: float
    bore: float | None
    full_bore_capacity: float | None
    depth_fraction: float | None
    fouling_margin: float | None
    fouling_film_thickness: float | None


def size_drain(
    *,
    units: tuple[ServedUnit, ...],
    pan_outlet: str | None = None,
    pitch_ratio: float | None = None,
    material: str | None = None,
    manning_coefficient: float | None = None,
) -> Answer[DrainSizing]:
    """Size the drain line that one or several units share.

    Parameters
    ----------
    units : tuple of ServedUnit
        One to `MOST_UNITS` units.
    pan_outlet : str or None
        Nominal size of the largest pan outlet; the line is never smaller.
    pitch_ratio : float or None
        Fall over run, positive downstream; the code minimum by default.
    material : str or None
        Kind of pipe, one of `service.tables.pipe_sizes.MATERIALS`.
    manning_coefficient : float or None
        Manning's roughness coefficient [s/m^(1/3)].

    Returns
    -------
    Answer of DrainSizing

    Raises
    ------
    OutOfRange
        For an argument outside `LIMITS`.

    Notes
    -----
    The size is the code's [1]_, never less than 3/4 in or the pan outlet. The hydraulics tell how
    much of it the water needs; see `service.calculations.line_flow.line_flow`.

    Examples
    --------
    Six units of 7.5 tons make 45 tons, which the table gives 1-1/4 in:

    >>> sizing = size_drain(units=(ServedUnit(total_capacity=7.5 * TON),) * 6, pitch_ratio=1 / 48).results
    >>> sizing.pipe_size
    '1-1/4'
    """
    for unit in units:
        require(
            LIMITS,
            total_capacity=unit.total_capacity,
            sensible_heat_ratio=unit.sensible_heat_ratio,
            peak_flow=unit.peak_flow,
        )
    require(LIMITS, pitch_ratio=pitch_ratio, manning_coefficient=manning_coefficient)
    total = fsum(unit.total_capacity for unit in units)
    peak = fsum(_peak_flow(unit) for unit in units)
    assumptions = list(_peak_assumptions(units))
    row = drain_size(total)
    size = _larger(row.pipe_size, pan_outlet) if row else None
    findings = list(_size_findings(units, total, peak, size, row.pipe_size if row else None))
    if pitch_ratio is not None:
        findings += judge_pitch(pitch_ratio, run=FOOT, pointer="/pitch_ratio")
    kind = material or DEFAULT_MATERIAL
    flow = None
    sources = ["imc-drain-size", "ipc-drain-size", "imc-slope"]
    if size and is_made(kind, size):
        line = pipe(kind, size)
        pitch = MINIMUM_PITCH if pitch_ratio is None else pitch_ratio
        roughness = MANNING_COEFFICIENT if manning_coefficient is None else manning_coefficient
        flow = line_flow(peak_flow=peak, bore=line.bore, pitch_ratio=pitch, manning_coefficient=roughness)
        assumptions += _line_assumptions(pitch_ratio, material, manning_coefficient)
        findings += _line_findings(flow, line, peak, pitch)
        sources += ["manning", line.standard.lower().replace(" ", "-")]
    elif size:
        values = {"material": kind, "pipe_size": size}
        findings.append(Finding(code="pipe-size-not-made", pointer="/material", values=values))
    results = DrainSizing(
        pipe_size=size,
        table_pipe_size=row.pipe_size if row else None,
        table_capacity=row.up_to if row else None,
        total_capacity=total,
        peak_flow=peak,
        bore=flow.bore if flow else None,
        full_bore_capacity=flow.full_bore_capacity if flow else None,
        depth_fraction=flow.depth_fraction if flow else None,
        fouling_margin=flow.fouling_margin if flow else None,
        fouling_film_thickness=flow.fouling_film_thickness if flow else None,
    )
    return Answer(
        results=results,
        findings=tuple(findings),
        assumptions=tuple(assumptions),
        cautions=("local-code",),
        sources=(*sources, "common-practice"),
    )


def _peak_flow(unit: ServedUnit) -> float:
    """Condensate of a unit in the peak hour [m3/s]: as given, by its latent share, or by the ton."""
    if unit.peak_flow is not None:
        return unit.peak_flow
    if unit.sensible_heat_ratio is not None:
        latent = unit.total_capacity * (1.0 - unit.sensible_heat_ratio)
        return latent / RATING_LATENT_HEAT / WATER_DENSITY
    return PEAK_FLOW_PER_TON * unit.total_capacity / TON


def _peak_assumptions(units: tuple[ServedUnit, ...]) -> tuple[Assumption, ...]:
    """Record the rate by the ton: for its unit, or in one row for several."""
    silent = [
        (index, unit) for index, unit in enumerate(units) if unit.peak_flow is None and unit.sensible_heat_ratio is None
    ]
    if not silent:
        return ()
    note = "0.5 US gal/h for each ton of total capacity, the high end for humid weather. Common practice."
    if len(silent) > 1:
        note = f"{len(silent)} units give neither peak flow nor sensible heat ratio; this is their sum: {note}"
    pointer = f"/units/{silent[0][0]}/peak_flow" if len(silent) == 1 else "/units"
    flow = fsum(_peak_flow(unit) for _, unit in silent)
    return (Assumption(pointer=pointer, value=flow, note=note, symbols="gal/h|L/h"),)


def _line_assumptions(
    pitch_ratio: float | None, material: str | None, manning_coefficient: float | None
) -> tuple[Assumption, ...]:
    """Record what the hydraulics took for granted."""
    assumptions = []
    if pitch_ratio is None:
        note = "No pitch was given: the code minimum of 1/8 in per ft (1 in 96), IMC 2021 307.2."
        assumptions.append(Assumption(pointer="/pitch_ratio", value=MINIMUM_PITCH, note=note))
    if material is None:
        note = "No material was given: PVC Schedule 40, what the trade mostly installs. Common practice."
        assumptions.append(Assumption(pointer="/material", value=DEFAULT_MATERIAL, note=note))
    if manning_coefficient is None:
        note = "Manning's coefficient: the rough end of what handbooks give for plastic, and theirs for copper."
        assumptions.append(Assumption(pointer="/manning_coefficient", value=MANNING_COEFFICIENT, note=note))
    return tuple(assumptions)


def _larger(one: str, other: str | None) -> str:
    """The larger of two nominal sizes."""
    return one if other is None else max(one, other, key=NOMINAL_SIZES.index)


def _size_findings(
    units: tuple[ServedUnit, ...], total: float, peak: float, size: str | None, row_size: str | None
) -> tuple[Finding, ...]:
    """Say what set the size."""
    values: dict[str, float | str] = {"total_capacity": total, "peak_flow": peak}
    if size is None or row_size is None:
        values["largest"] = DRAIN_SIZES[-1].up_to
        return (Finding(code="line-needs-engineering", pointer="/units", values=values),)
    values |= {"pipe_size": size, "row_size": row_size}
    if size != row_size:
        return (Finding(code="line-size-set-by-pan-outlet", pointer="/pan_outlet", values=values),)
    if len(units) == 1 and row_size != DRAIN_SIZES[0].pipe_size:
        return (Finding(code="line-size-of-one-unit", pointer="/units/0/total_capacity", values=values),)
    return ()


def _line_findings(flow: LineFlow, line: PipeSize, peak: float, pitch: float) -> tuple[Finding, ...]:
    """Judge the pipe's bore and what it has to spare."""
    findings = []
    values: dict[str, float | str] = {"material": line.material, "pipe_size": line.pipe_size, "bore": line.bore}
    if line.bore < LEAST_BORE:
        findings.append(Finding(code="bore-under-three-quarter-inch", pointer="/material", values=values))
    if pitch > 0.0:
        values |= {"peak_flow": peak, "capacity": flow.full_bore_capacity, "film": flow.fouling_film_thickness}
        values["percent"] = 100.0 * flow.fouling_margin
        if peak > flow.full_bore_capacity:
            findings.append(Finding(code="peak-flow-exceeds-line", pointer="/pitch_ratio", values=values))
        elif flow.fouling_margin < SMALL_FOULING_MARGIN:
            findings.append(Finding(code="fouling-margin-small", pointer="/pitch_ratio", values=values))
    return tuple(findings)
