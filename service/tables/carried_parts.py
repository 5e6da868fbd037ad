"""Parts worth carrying, by the finding that wants them. Common practice, no source."""

from dataclasses import dataclass

from service.tables.urgency import HOLDS_UP

COUNTED, WHOLE_RUN, ALL_HANGERS, MORE_HANGERS, TUBE_LENGTH = "counted", "run", "hangers", "more-hangers", "tube"
"""How much of a part one unit takes: one piece; as long as the line; supports for the whole line; supports to put
between those there are; as long as the pump's tube."""

LINE, NEEDED, TRAP, NO_SIZE = "line", "needed", "trap", "none"
"""Which nominal size: the line's; the one the findings ask for; the trap's; none."""


@dataclass(frozen=True, kw_only=True, slots=True)
class CarriedPart:
    """One part and the findings that want it.

    Parameters
    ----------
    part : str
        The trade's word.
    findings : tuple of str
        Codes.
    size : str
        Which nominal size it is carried in.
    amount : str
        How much of it one unit takes.
    sure : bool
        False where it may turn out that the unit has it, or can do without.
    glued : bool
        Whether primer and cement go with it.
    """

    part: str
    findings: tuple[str, ...]
    size: str = NO_SIZE
    amount: str = COUNTED
    sure: bool = True
    glued: bool = False


REHANG = (
    "line-runs-uphill",
    "line-is-level",
    "pitch-below-minimum",
    "segments-back-fall",
    "segments-flat",
    "segments-below-minimum",
    "pond-fills-bore",
    "pond-reaches-pan",
)
"""The line is hung again over its whole length."""

PARTS: tuple[CarriedPart, ...] = (
    CarriedPart(
        part="trap-pipe-and-fittings",
        findings=(
            *HOLDS_UP,
            "pan-overflows-before-draining",
            "trap-without-seal",
            "seal-broken-by-suction",
            "seal-blown-out",
            "seal-fails-when-full",
            "trap-pipe-too-small",
            "trap-reduced-on-the-way",
            "trap-shared",
            "sanitary-without-trap",
        ),
        size=TRAP,
        glued=True,
    ),
    CarriedPart(part="cleanout-tee-and-cap", findings=("line-not-cleanable", "cleanout-welded"), size=LINE, glued=True),
    CarriedPart(part="union", findings=("line-not-cleanable",), size=LINE, glued=True),
    CarriedPart(
        part="pipe",
        findings=("line-smaller-than-needed", "line-smaller-than-pan-outlet", "peak-flow-exceeds-line"),
        size=NEEDED,
        amount=WHOLE_RUN,
        glued=True,
    ),
    CarriedPart(part="hanger", findings=REHANG, size=LINE, amount=ALL_HANGERS),
    CarriedPart(part="hanger", findings=("supports-too-far-apart",), size=LINE, amount=MORE_HANGERS),
    CarriedPart(part="vent-tee", findings=("second-trap-unvented",), size=LINE, glued=True),
    CarriedPart(
        part="air-gap-fitting",
        findings=("discharge-without-air-gap", "discharge-into-sanitary"),
        size=LINE,
        glued=True,
    ),
    CarriedPart(part="trap-primer", findings=("sanitary-trap-dries-out", "seal-dries-out"), size=LINE),
    CarriedPart(part="heat-trace-and-insulation", findings=("drain-can-freeze",), size=LINE, amount=WHOLE_RUN),
    CarriedPart(
        part="drain-cut-out-switch",
        findings=("protection-missing", "overflow-protection-none", "auxiliary-pan-only-delays"),
    ),
    CarriedPart(
        part="drain-cut-out-switch",
        findings=("protection-unknown", "overflow-protection-unknown", "cut-out-too-high", "secondary-drain-too-high"),
        sure=False,
    ),
    CarriedPart(part="auxiliary-pan", findings=("auxiliary-pan-shallow", "auxiliary-pan-small")),
    CarriedPart(
        part="pump-check-valve",
        findings=("pump-falls-back", "pump-falls-back-each-cycle", "pump-restarts-on-fall-back"),
    ),
    CarriedPart(part="pump-check-valve", findings=("pump-check-valve-not-given",), sure=False),
    CarriedPart(part="control-wire", findings=("pump-safety-float-unwired",)),
    CarriedPart(part="pump-safety-float", findings=("pump-safety-float-missing",)),
    CarriedPart(
        part="pump-safety-float",
        findings=("hidden-pump-unprotected", "pump-safety-float-not-given", "pump-safety-float-above-overflow"),
        sure=False,
    ),
    CarriedPart(part="condensate-pump", findings=("pump-cannot-lift", "pump-slower-than-inflow")),
    CarriedPart(part="condensate-pump", findings=("pump-near-shut-off", "pump-margin-small"), sure=False),
    CarriedPart(
        part="pump-tube",
        findings=("pump-tube-bore-small", "pump-tube-too-long", "pump-tube-shorter-than-lift"),
        amount=TUBE_LENGTH,
        sure=False,
    ),
)

CEMENT = "primer-and-cement"
"""One can of each for the whole round, where anything is glued."""

PART_NAMES = tuple(dict.fromkeys((*(row.part for row in PARTS), CEMENT)))
