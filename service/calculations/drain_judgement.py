"""What is said of a drain line: why it has its size, what was built instead, how the water runs in it."""

from service.calculations.answer import Finding, Sentence, Value
from service.calculations.common_line import Load, larger
from service.calculations.frozen import dataclass
from service.calculations.line_flow import LineFlow
from service.tables.drain_sizes import DRAIN_SIZES, DrainSize
from service.tables.pipe_sizes import INCH, NOMINAL_SIZES, PipeSize

SMALL_FOULING_MARGIN = 0.5
"""Share of the bore below which slime soon backs the line up. Common practice, no source."""

LEAST_BORE = 0.75 * INCH
"""Internal diameter that editions of the code before 2018 ask for; later ones say 3/4 in pipe size."""

LAMINAR_SHOWS = 0.05
"""Share of the bore by which the depth of laminar flow must exceed Manning's to be worth a word."""


@dataclass(frozen=True, kw_only=True, slots=True)
class NeededSize:
    """The size a length of line needs, and what asks for it.

    Parameters
    ----------
    row : DrainSize or None
        The code table's row; None above the table.
    upstream : str or None
        Largest pipe, built or needed, that runs into it.
    pan_outlet : str or None
        Largest pan outlet that drains through it.
    own : str or None
        Nominal size by the table and the pan outlets; None above the table.
    pipe_size : str or None
        Nominal size to install; None where the line has to be engineered.
    """

    row: DrainSize | None
    upstream: str | None
    pan_outlet: str | None
    own: str | None
    pipe_size: str | None

    @classmethod
    def of(cls, row: DrainSize | None, *, pan_outlet: str | None, upstream: str | None) -> "NeededSize":
        """The size that a row of the table, the pan outlets and what runs into the length ask for."""
        own = larger(row.pipe_size, pan_outlet) if row else None
        size = larger(own, upstream) if row else None
        return cls(row=row, upstream=upstream, pan_outlet=pan_outlet, own=own, pipe_size=size)


@dataclass(frozen=True, kw_only=True, slots=True)
class Place:
    """Where in the request a finding about a line or one of its lengths belongs.

    Parameters
    ----------
    name : Sentence or None
        The length, in words; None where the line is one length.
    pointer : str
        RFC 6901 pointer to the length; ``""`` where the line is one length.
    """

    name: Sentence | None = None
    pointer: str = ""

    @property
    def where(self) -> Sentence | str:
        """The end of a clause that names the length; empty where there is but one."""
        return Sentence(text=" at {length}", values={"length": self.name}) if self.name else ""


def rank(pipe_size: str) -> int:
    """Place of a nominal size among all sizes, smallest first.

    Examples
    --------
    >>> rank("3/4") < rank("1-1/4")
    True
    """
    return NOMINAL_SIZES.index(pipe_size)


def judge_size(needed: NeededSize, load: Load, place: Place, *, pan_pointer: str) -> tuple[Finding, ...]:
    """Say what set the size.

    Parameters
    ----------
    needed : NeededSize
    load : Load
    place : Place
    pan_pointer : str
        What to point at where a pan outlet set it.

    Returns
    -------
    tuple of Finding
        None for the table's size on a shared line, nor for a size that the length upstream has already.
    """
    row, size, pointer = needed.row, needed.pipe_size, place.pointer
    if row is None or size is None:
        code, pointer = "line-needs-engineering", pointer or "/units"
    elif size == needed.upstream and size != needed.own:
        code = "line-size-set-upstream"
    elif size != row.pipe_size and size != needed.upstream:
        code, pointer = "line-size-set-by-pan-outlet", pan_pointer
    elif len(load.units) == 1 and size not in (DRAIN_SIZES[0].pipe_size, needed.upstream):
        code, pointer = "line-size-of-one-unit", f"/units/{load.units[0]}/total_capacity"
    else:
        return ()
    values: dict[str, Value] = {
        "total_capacity": load.total_capacity,
        "peak_flow": load.peak_flow,
        "where": place.where,
        "largest": DRAIN_SIZES[-1].up_to,
    }
    if row and size:
        values |= {"pipe_size": size, "row_size": row.pipe_size}
    return (Finding(code=code, pointer=pointer, values=values),)


def judge_installed(
    installed: str, needed: NeededSize, load: Load, place: Place, *, pointer: str
) -> tuple[Finding, ...]:
    """Compare a length as installed with what it needs and with what runs into it.

    Parameters
    ----------
    installed : str
        Nominal size.
    needed : NeededSize
    load : Load
    place : Place
    pointer : str
        Request member that says what is installed.

    Returns
    -------
    tuple of Finding
    """
    findings = []
    values: dict[str, Value] = {"length": place.name or "the line", "pipe_size": installed}
    if needed.own and rank(installed) < rank(needed.own):
        values |= {"total_capacity": load.total_capacity, "needed": needed.own}
        findings.append(Finding(code="length-smaller-than-needed", pointer=pointer, values=values))
    if needed.upstream and rank(installed) < rank(needed.upstream):
        more = {**values, "upstream": needed.upstream}
        findings.append(Finding(code="line-shrinks-downstream", pointer=pointer, values=more))
    return tuple(findings)


def judge_flow(flow: LineFlow, line: PipeSize, peak_flow: float, place: Place, *, pointer: str) -> tuple[Finding, ...]:
    """Judge the pipe's bore, what it has to spare, and how the water runs in it.

    Parameters
    ----------
    flow : LineFlow
        In that pipe.
    line : PipeSize
    peak_flow : float
        Water of the peak hour [m3/s].
    place : Place
    pointer : str
        Request member that decides what the line carries.

    Returns
    -------
    tuple of Finding
    """
    found: dict[str, str] = {}
    if line.bore < LEAST_BORE and line.pipe_size == DRAIN_SIZES[0].pipe_size:
        found["bore-under-three-quarter-inch"] = "/material"
    if flow.full_bore_capacity and flow.fouling_margin is not None and flow.depth is not None:
        if peak_flow > flow.full_bore_capacity:
            found["peak-flow-exceeds-line"] = pointer
        elif flow.fouling_margin < SMALL_FOULING_MARGIN:
            found["fouling-margin-small"] = pointer
        if flow.laminar_depth is not None and flow.laminar_depth - flow.depth > LAMINAR_SHOWS * line.bore:
            found["laminar-flow-deeper"] = pointer
    if not found:
        return ()
    values: dict[str, Value] = {
        "material": line.material,
        "pipe_size": line.pipe_size,
        "bore": line.bore,
        "peak_flow": peak_flow,
        "capacity": flow.full_bore_capacity or 0.0,
        "film": flow.fouling_film_thickness or 0.0,
        "percent": 100.0 * (flow.fouling_margin or 0.0),
        "depth": flow.depth or 0.0,
        "laminar_depth": flow.laminar_depth or 0.0,
        "where": place.where,
    }
    return tuple([Finding(code=code, pointer=at, values=values) for code, at in found.items()])
