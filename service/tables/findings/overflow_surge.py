"""Findings about water that comes all at once: a thaw, what the fan held back, a drain that is slow."""

from service.tables.findings.row import ATTENTION, FAIL, INFO, FindingRow

PHYSICS = "physics"

THAW = (
    "Lay towels, keep a wet vacuum at the pan, and let the ice melt with the unit off: a thaw with the fan alone is "
    "the fastest and floods."
)

ROWS: tuple[FindingRow, ...] = (
    FindingRow(
        code="line-already-full",
        severity=ATTENTION,
        message="{standing:gal|L} stand in a line that holds {whole:gal|L} up to the blockage: it is full, and takes "
        "no more.",
        remedy="Measure the length to the blockage again; otherwise clear the line now, it is backing up.",
        basis=PHYSICS,
    ),
    FindingRow(
        code="drain-slower-than-inflow",
        severity=FAIL,
        message="The drain carries {capacity:gal/h|L/h} and {inflow:gal/h|L/h} arrive: the water rises in every hour "
        "like this one.",
        remedy="Clear the drain and prove that it carries at least {inflow:gal/h|L/h}: pour that in and watch it run.",
        basis=PHYSICS,
    ),
    FindingRow(
        code="drain-carries-inflow",
        severity=INFO,
        message="The drain carries {capacity:gal/h|L/h} and {inflow:gal/h|L/h} arrive: at this rate nothing rises.",
        remedy="Nothing to do for the steady rate.",
        basis=PHYSICS,
    ),
    FindingRow(
        code="no-ice",
        severity=INFO,
        message="There is no ice on the coil, so none melts.",
        remedy="Nothing to do; leave the ice out, or measure it.",
        basis=PHYSICS,
    ),
    FindingRow(
        code="melt-time-unknown",
        severity=INFO,
        message="The ice holds {volume:gal|L} of water; how fast it comes cannot be said.",
        remedy="Give the time of the melt, the heat that reaches the ice, or the air that the fan blows over it.",
        basis=PHYSICS,
    ),
    FindingRow(
        code="ice-does-not-melt",
        severity=INFO,
        message="The ice holds {volume:gal|L} of water, and nothing warm reaches it: it stays.",
        remedy="Count on it as soon as the fan runs or the space warms up.",
        basis=PHYSICS,
    ),
    FindingRow(
        code="drain-carries-melt",
        severity=INFO,
        message="While the ice melts {rate:gal/h|L/h} arrive for {time:min|min}; the drain carries "
        "{capacity:gal/h|L/h}.",
        remedy="See the drain run freely before the thaw starts.",
        basis=PHYSICS,
    ),
    FindingRow(
        code="pan-takes-melt",
        severity=INFO,
        message="While the ice melts {rate:gal/h|L/h} arrive for {time:min|min}, more than the "
        "{capacity:gal/h|L/h} that the drain carries; the {room:gal|L} of room take the difference.",
        remedy="Watch the pan until the ice is gone; keep a wet vacuum at hand.",
        basis=PHYSICS,
    ),
    FindingRow(
        code="melt-floods-blocked-drain",
        severity=ATTENTION,
        message="The ice brings {volume:gal|L}; with the drain blocked the pan runs over after {overflow:min|min}, and "
        "{lost:gal|L} are lost by the end of the melt.",
        remedy=f"Clear the drain before the thaw. {THAW}",
        basis=PHYSICS,
    ),
    FindingRow(
        code="melt-too-fast-for-drain",
        severity=FAIL,
        message="The melt beats the drain: {rate:gal/h|L/h} arrive for {time:min|min} and the drain carries "
        "{capacity:gal/h|L/h}. The pan runs over after {overflow:min|min}, and {lost:gal|L} are lost.",
        remedy=f"Let it melt over at least {{safe_time:min|min}}, or clear the drain to carry {{rate:gal/h|L/h}}. "
        f"{THAW}",
        basis=PHYSICS,
    ),
    FindingRow(
        code="melt-beats-drain",
        severity=FAIL,
        message="The melt beats the drain: {rate:gal/h|L/h} arrive for {time:min|min} and the drain carries "
        "{capacity:gal/h|L/h}. The pan runs over after {overflow:min|min}, and {lost:gal|L} are lost; however slowly "
        "it melts, this drain does not take it.",
        remedy=f"Clear the drain before the thaw. {THAW}",
        basis=PHYSICS,
    ),
    FindingRow(
        code="melt-outruns-cut-out",
        severity=FAIL,
        message="The cut-out stops the cooling, not the melt: {more:gal|L} still come, and {left:gal|L} fit.",
        remedy=f"Do not rely on the cut-out during a thaw. {THAW}",
        basis=PHYSICS,
    ),
    FindingRow(
        code="held-up-water-floods-tank",
        severity=FAIL,
        message="When the fan stops, {held_up:gal|L} let go at once, and the pump's tank takes {to_rim:gal|L}.",
        remedy="Rebuild the trap so that it holds nothing back: its outlet drop must be larger than the fan's suction.",
        basis=PHYSICS,
    ),
    FindingRow(
        code="little-room-above-float",
        severity=ATTENTION,
        message="After the safety float has stopped the cooling, {after:gal|L} still arrive, and {room:gal|L} fit "
        "above it.",
        remedy="Lower the float, or fit a larger tank, until {after:gal|L} fit above it.",
        basis=PHYSICS,
    ),
)
