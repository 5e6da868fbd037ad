"""Dimensions a condensate trap needs for the pressure in its pan."""

from service.calculations.answer import Answer, Assumption, Finding
from service.calculations.frozen import dataclass
from service.calculations.limits import Limit, require
from service.calculations.trap_water import SLACK, Trap, TrapState, head, head_pressure, trap_states
from service.tables.pipe_sizes import DEFAULT_MATERIAL, INCH, NOMINAL_SIZES, PipeSize, pipe

DROP_MARGIN = 1.0 * INCH
"""Outlet drop beyond the suction head, negative pan. Common practice, no source."""

SEAL_MARGIN = 0.5 * INCH
"""Water to be left above the dip at the worst moment. Common practice, no source."""

POSITIVE_PAN_DROP = 0.5 * INCH
"""Outlet drop for gravity flow where the pan is under pressure. Common practice, no source."""

MEASURABLE = 0.0002
"""Length [m], 1/128 in, that no tape reads and that a message may round away: no margin is judged any finer."""

SHALLOW_SEAL = 1.0 * INCH
"""A seal shallower than this soon dries out between seasons. Common practice, no source."""

UNUSUAL_PRESSURE = 5.0 * 249.08891
"""Pan pressure [Pa], 5 inH2O, beyond what most units reach. Common practice, no source."""

SMALLEST_SIZE = "3/4"
"""Smallest nominal size of condensate piping (IMC 2021 307.2.2: 3/4 in internal diameter)."""

_WORST_ALREADY = Assumption(
    pointer="/dirty_filter_allowance",
    value=0.0,
    note="No allowance was given: the pan pressure is taken as the worst there is, "
    "with the filter dirty and the fan at its highest speed.",
    symbols="inH2O|Pa",
)

LIMITS = {
    "pan_pressure": Limit(-2500.0, 2500.0),  # 10 inH2O either way: the largest air handlers
    "dirty_filter_allowance": Limit(0.0, 1250.0),  # 5 inH2O: a bank of high-efficiency filters, clogged
    "clearance_below_outlet": Limit(0.0, 5.0),  # standing on the floor, to hung a storey up
}


@dataclass(frozen=True, kw_only=True, slots=True)
class TrapSize:
    """A trap that drains and keeps its seal.

    Parameters
    ----------
    design_pressure : float
        Worst fan-on pressure in the pan [Pa gauge]; suction is negative.
    outlet_drop : float
        From the pan outlet down to the trap's outlet invert, inside bottom to inside bottom [m].
    seal_depth : float
        From the trap's outlet invert down to the top of the bend, inside [m].
    overall_depth : float
        From the inside bottom of the pan outlet down to the underside of the bend, its wall included [m].
    water_volume : float
        Water that fills the trap to its outlet invert [m3], with the tightest bend.
    states : tuple of TrapState
        The water in it at rest, at start-up, running and after the fan has stopped, at the design pressure.
    bore : float
        Inside diameter of its pipe [m].
    """

    design_pressure: float
    outlet_drop: float
    seal_depth: float
    overall_depth: float
    water_volume: float
    states: tuple[TrapState, ...]
    bore: float


def size_trap(
    *,
    pan_pressure: float,
    dirty_filter_allowance: float | None = None,
    pipe_size: str | None = None,
    clearance_below_outlet: float | None = None,
) -> Answer[TrapSize]:
    """Work out outlet drop, seal depth and overall depth of a trap, and whether there is room for it.

    Parameters
    ----------
    pan_pressure : float
        Pressure in the pan with the fan on [Pa gauge]; negative where the coil is upstream of the fan.
    dirty_filter_allowance : float or None
        What a dirty filter adds to the suction [Pa]; see `design_pressure`.
    pipe_size : str or None
        Nominal size of the trap; the smallest allowed by default.
    clearance_below_outlet : float or None
        From the inside bottom of the pan outlet straight down to whatever is under it [m].

    Returns
    -------
    Answer of TrapSize

    Raises
    ------
    OutOfRange
        For an argument outside `LIMITS`.

    Notes
    -----
    Common practice, no source: drop = suction + 1 in (1), seal = drop / 2 (2) under suction, which leaves 1/2 in
    of seal at start-up; seal = pressure + 1/2 in (3), drop = 1/2 in (4) under pressure.

    Examples
    --------
    1.2 in of suction and 0.5 in for the filter, by hand: drop 2.7 in, seal 1.35 in.

    >>> size = size_trap(pan_pressure=-1.2 * 249.08891, dirty_filter_allowance=0.5 * 249.08891).results
    >>> round(size.outlet_drop / 0.0254, 9), round(size.seal_depth / 0.0254, 9)
    (2.7, 1.35)
    """
    require(
        LIMITS,
        pan_pressure=pan_pressure,
        dirty_filter_allowance=dirty_filter_allowance,
        clearance_below_outlet=clearance_below_outlet,
    )
    findings: list[Finding] = []
    assumptions: list[Assumption] = []
    pressure = design_pressure(pan_pressure, dirty_filter_allowance, findings, assumptions)
    row = trap_pipe("/pipe_size", pipe_size, findings, assumptions)
    drop, seal = recommended_outlet_drop(pressure), recommended_seal_depth(pressure)
    trap = Trap(
        outlet_drop=drop,
        seal_depth=seal,
        unit_side_bore=row.bore,
        outlet_side_bore=row.bore,
        pan_area=1.0,  # never enters: water of a sized trap stays below the pan outlet
    )
    states = trap_states(trap, pressure)
    results = TrapSize(
        design_pressure=pressure,
        outlet_drop=drop,
        seal_depth=seal,
        overall_depth=drop + seal + row.bore + row.wall,
        water_volume=states[0].water_volume or 0.0,
        states=states,
        bore=row.bore,
    )
    findings += _judge_room(results, row, clearance_below_outlet)
    if pressure > 0.0:
        findings.append(
            Finding(code="trap-optional-under-pressure", pointer="/pan_pressure", values={"pressure": pressure})
        )
    if seal < SHALLOW_SEAL - MEASURABLE:
        findings.append(Finding(code="seal-shallow", values={"seal_depth": seal, "shallow_seal": SHALLOW_SEAL}))
    findings.append(
        Finding(
            code="trap-building-details",
            values={"outlet_drop": drop, "seal_depth": seal, "water_volume": results.water_volume},
        )
    )
    return Answer(
        results=results,
        findings=tuple(findings),
        assumptions=tuple(assumptions),
        cautions=("lock-out-power", "freezing", "local-code"),
        sources=("hydrostatics", "common-practice", "astm-d1785", "imc-drain-size"),
    )


def design_pressure(
    pan_pressure: float,
    dirty_filter_allowance: float | None,
    findings: list[Finding],
    assumptions: list[Assumption],
) -> float:
    """Find the worst fan-on pressure in the pan, noting how on the two lists.

    Parameters
    ----------
    pan_pressure : float
        Pressure reported [Pa gauge].
    dirty_filter_allowance : float or None
        What a dirty filter adds [Pa].
    findings, assumptions : list
        What a person should know about it is appended.

    Returns
    -------
    float
        Suction grows by the allowance: the filter stands between the room and a pan that the fan pulls on.
        Pressure does not: a dirty filter lets the fan push less air, so that the pressure in a pan downstream of
        fan and filter falls, and the clean filter is the worst case. A pan at zero is taken as one under suction.
    """
    if pan_pressure > 0.0:
        if dirty_filter_allowance:
            values = {"allowance": dirty_filter_allowance, "pan_pressure": pan_pressure}
            findings.append(
                Finding(code="filter-allowance-not-added", pointer="/dirty_filter_allowance", values=values)
            )
        pressure = pan_pressure
    else:
        if dirty_filter_allowance is None:
            assumptions.append(_WORST_ALREADY)
        pressure = pan_pressure - (dirty_filter_allowance or 0.0)
    if abs(pressure) > UNUSUAL_PRESSURE * (1.0 + SLACK):
        findings.append(
            Finding(code="pan-pressure-unusual", pointer="/pan_pressure", values={"pressure": abs(pressure)})
        )
    if pressure == 0.0:
        findings.append(Finding(code="pan-without-pressure", pointer="/pan_pressure"))
    return pressure


def trap_pipe(pointer: str, pipe_size: str | None, findings: list[Finding], assumptions: list[Assumption]) -> PipeSize:
    """Look up the pipe of a trap or of one of its legs, noting defaults and too small a size.

    Parameters
    ----------
    pointer : str
        Request member that holds the size.
    pipe_size : str or None
        Nominal size, or None for the smallest allowed.
    findings, assumptions : list
        What a person should know about it is appended.

    Returns
    -------
    PipeSize
    """
    if pipe_size is None:
        note = "No pipe size was given: the smallest that condensate piping may have, in PVC Schedule 40."
        assumptions.append(Assumption(pointer=pointer, value=SMALLEST_SIZE, note=note))
    elif NOMINAL_SIZES.index(pipe_size) < NOMINAL_SIZES.index(SMALLEST_SIZE):
        values = {"pipe_size": pipe_size, "smallest_size": SMALLEST_SIZE}
        findings.append(Finding(code="trap-pipe-too-small", pointer=pointer, values=values))
    return pipe(DEFAULT_MATERIAL, pipe_size or SMALLEST_SIZE)


def recommended_outlet_drop(pressure: float) -> float:
    """Outlet drop [m] to build for a design pressure [Pa gauge]; equations (1) and (4) of `size_trap`."""
    return POSITIVE_PAN_DROP if pressure > 0.0 else head(-pressure) + DROP_MARGIN


def recommended_seal_depth(pressure: float) -> float:
    """Seal depth [m] to build for a design pressure [Pa gauge]; equations (2) and (3) of `size_trap`."""
    return head(pressure) + SEAL_MARGIN if pressure > 0.0 else 0.5 * recommended_outlet_drop(pressure)


def _judge_room(size: TrapSize, row: PipeSize, clearance: float | None) -> list[Finding]:
    """Compare the overall depth with the clearance, and say what would fit."""
    if clearance is None or size.overall_depth <= clearance + SLACK:
        return []
    room = clearance - row.bore - row.wall  # for drop and seal together
    positive = size.design_pressure > 0.0
    # (3) and (4); or (1) and (2), with drop + drop / 2 = room
    largest = room - POSITIVE_PAN_DROP - SEAL_MARGIN if positive else room / 1.5 - DROP_MARGIN
    values: dict[str, float | int | str] = {
        "overall_depth": size.overall_depth,
        "clearance": clearance,
        "short_by": size.overall_depth - clearance,
        "pressure": abs(size.design_pressure),
        "direction": "pressure" if positive else "suction",
    }
    if largest > 0.0:
        values["largest_pressure"] = head_pressure(largest)
    code = "trap-does-not-fit" if largest > 0.0 else "trap-has-no-room"
    return [Finding(code=code, pointer="/clearance_below_outlet", values=values)]
