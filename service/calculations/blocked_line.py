"""How much a drain line and its trap take before a blockage further down backs up into the pan."""

from math import pi

from service.calculations.answer import Assumption, Finding
from service.calculations.frozen import dataclass
from service.calculations.limits import Limit, require_members
from service.tables.pipe_sizes import DEFAULT_MATERIAL, pipe

LINE_LIMITS = {
    "length_to_blockage": Limit(0.0, 300.0),  # blocked at the pan, to the far end of a long riser
    "trap_outlet_drop": Limit(0.0, 1.5),  # level ends, to a drop of five feet
    "trap_evaporated_depth": Limit(0.0, 1.0),  # full, to the deepest seal dried out
    "standing_volume": Limit(0.0, 1.0),
}


@dataclass(frozen=True, kw_only=True, slots=True)
class BlockedLine:
    """The line from the pan to where it is blocked.

    Parameters
    ----------
    pipe_size : str
        Nominal size of line and trap, one of `service.tables.pipe_sizes.COMMON_SIZES`.
    length_to_blockage : float
        Pipe from the trap's outlet to the blockage [m].
    material : str or None
        One of `service.tables.pipe_sizes.MATERIALS`.
    trap_outlet_drop : float or None
        From the pan outlet down to the trap's outlet invert [m]: the empty leg above the trap's water.
    trap_evaporated_depth : float or None
        How far the water in both legs has fallen below the outlet invert [m].
    standing_volume : float or None
        Water that stands in the line already, in bellies [m3].
    """

    pipe_size: str
    length_to_blockage: float
    material: str | None = None
    trap_outlet_drop: float | None = None
    trap_evaporated_depth: float | None = None
    standing_volume: float | None = None


@dataclass(frozen=True, kw_only=True, slots=True)
class LineRoom:
    """Room in a blocked line.

    Parameters
    ----------
    volume : float
        Water it takes before the pan fills [m3].
    assumptions : tuple of Assumption
    findings : tuple of Finding
    """

    volume: float
    assumptions: tuple[Assumption, ...] = ()
    findings: tuple[Finding, ...] = ()


def room_in_line(line: BlockedLine) -> LineRoom:
    """Work out the room in a blocked line.

    Parameters
    ----------
    line : BlockedLine

    Returns
    -------
    LineRoom

    Notes
    -----
    At rest the trap is full to its outlet invert. Its unit-side leg above that, what has evaporated from both legs,
    and the line down to the blockage fill before the pan does:
    room = bore area x (length + outlet drop + 2 x evaporated depth) - standing water (1).

    Examples
    --------
    By hand: 3/4 in PVC has 0.824 in bore, 0.53327 in2; 10 ft of it hold 63.99 in3, 2 in of leg 1.07:

    >>> line = BlockedLine(pipe_size="3/4", length_to_blockage=3.048, trap_outlet_drop=0.0508)
    >>> round(room_in_line(line).volume / 0.0254**3, 2)
    65.06
    """
    require_members(LINE_LIMITS, line)
    assumptions: list[Assumption] = []

    def settled(name: str, note: str, symbols: str) -> float:
        given: float | None = getattr(line, name)
        if given is None:
            assumptions.append(Assumption(pointer=f"/line/{name}", value=0.0, note=note, symbols=symbols))
        return given or 0.0

    if line.material is None:
        note = "Not given: what the trade mostly installs."
        assumptions.append(Assumption(pointer="/line/material", value=DEFAULT_MATERIAL, note=note))
    drop = settled("trap_outlet_drop", "Nothing was said of a trap: none takes any water.", "in|mm")
    evaporated = settled("trap_evaporated_depth", "The trap is taken as full to its outlet invert.", "in|mm")
    standing = settled("standing_volume", "The line is taken as drained, without a belly.", "gal|L")
    area = pi / 4.0 * pipe(line.material or DEFAULT_MATERIAL, line.pipe_size).bore ** 2
    # equation (1)
    whole = area * (line.length_to_blockage + drop + 2.0 * evaporated)
    findings: tuple[Finding, ...] = ()
    if standing > 0.0 and standing >= whole:
        values = {"standing": standing, "whole": whole}
        findings = (Finding(code="line-already-full", pointer="/line/standing_volume", values=values),)
    return LineRoom(volume=max(whole - standing, 0.0), assumptions=tuple(assumptions), findings=findings)
