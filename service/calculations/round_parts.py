"""Parts worth carrying on a round, from what was found at its units."""

from collections.abc import Iterable, Sequence
from dataclasses import field
from math import ceil, fsum
from typing import cast

from service.calculations.answer import Finding
from service.calculations.drain_survey_judgement import PLASTIC_SUPPORT_SPACING
from service.calculations.frozen import dataclass
from service.calculations.installation import LineAsBuilt, PumpAsBuilt, TrapAsBuilt
from service.tables.carried_parts import (
    ALL_HANGERS,
    CEMENT,
    MORE_HANGERS,
    NEEDED,
    NO_SIZE,
    PARTS,
    TRAP,
    TUBE_LENGTH,
    WHOLE_RUN,
    CarriedPart,
)
from service.tables.pipe_sizes import NOMINAL_SIZES


@dataclass(frozen=True, kw_only=True, slots=True)
class UnitPart:
    """A part that one unit wants.

    Parameters
    ----------
    part : str
        One of `service.tables.carried_parts.PART_NAMES`.
    size : str or None
        Nominal size; None for what has none.
    count : int
        Pieces; 0 for what is measured by length.
    length : float
        Length [m]; 0 for what is counted.
    sure : bool
        False where it may turn out that it is not wanted.
    findings : tuple of str
        Codes that want it.
    glued : bool
        Whether primer and cement go with it.
    """

    part: str
    size: str | None
    count: int
    length: float
    sure: bool
    findings: tuple[str, ...]
    glued: bool


@dataclass(frozen=True, kw_only=True, slots=True)
class RoundPart:
    """A part worth carrying.

    Parameters
    ----------
    part : str
        One of `service.tables.carried_parts.PART_NAMES`.
    size : str or None
        Nominal size; None for what has none.
    count, count_at_most : int or None
        Pieces that what was found asks for, and with those that may turn out to be wanted; None for what is measured.
    length, length_at_most : float or None
        The same [m], for what is measured by length; None for what is counted.
    units : tuple of int
        Indices of the units.
    findings : tuple of str
        Codes that want it.
    """

    part: str
    size: str | None
    count: int | None
    count_at_most: int | None
    length: float | None
    length_at_most: float | None
    units: tuple[int, ...]
    findings: tuple[str, ...]


def list_unit_parts(
    *,
    findings: Sequence[Finding],
    line: LineAsBuilt | None,
    trap: TrapAsBuilt | None,
    pump: PumpAsBuilt | None,
    run: float,
    usual_size: str,
    carried: Iterable[str] = (),
) -> tuple[UnitPart, ...]:
    """List the parts that one unit's findings ask for.

    Parameters
    ----------
    findings : sequence of Finding
        Of the unit's assessment.
    line : LineAsBuilt or None
        Drain line.
    trap : TrapAsBuilt or None
        The trap as built.
    pump : PumpAsBuilt or None
        Condensate pump.
    run : float
        Length of the line [m].
    usual_size : str
        Nominal size where none was sent.
    carried : iterable of str
        What the cleaning plan says to carry besides.

    Returns
    -------
    tuple of UnitPart
        Each part and size once: two findings that ask for the same part want one of it, the larger amount.
    """
    made = {finding.code: finding for finding in findings}
    line_size = (line.pipe_size if line else None) or usual_size
    trap_size = (trap.pipe_size or trap.unit_side_pipe_size if trap else None) or line_size
    wanted: dict[tuple[str, str | None], UnitPart] = {}
    for row in PARTS:
        if made.keys().isdisjoint(row.findings):
            continue
        codes = tuple([code for code in row.findings if code in made])
        size = None if row.size == NO_SIZE else trap_size if row.size == TRAP else line_size
        if row.size == NEEDED:
            size = _needed([made[code] for code in codes], line_size)
        count, length = _amount(row, [made[code] for code in codes], run, pump)
        part = UnitPart(
            part=row.part,
            size=size,
            count=count,
            length=length,
            sure=row.sure,
            findings=codes,
            glued=row.glued,
        )
        _add(wanted, part)
    for item, part_name in _CUT_IN.items():
        if item in carried:
            part = UnitPart(part=part_name, size=line_size, count=1, length=0.0, sure=True, findings=(), glued=True)
            _add(wanted, part)
    return tuple(wanted.values())


def gather_parts(parts: Sequence[tuple[int, tuple[UnitPart, ...]]]) -> tuple[RoundPart, ...]:
    """Add up the parts of all units.

    Parameters
    ----------
    parts : sequence of tuple
        Index of a unit, and its parts.

    Returns
    -------
    tuple of RoundPart
        In the order of `PARTS`, smaller sizes first; primer and cement last, once for the round.
    """
    sums: dict[tuple[str, str | None], _Sum] = {}
    glued: list[int] = []
    for index, wanted in parts:
        for part in wanted:
            total = sums.setdefault((part.part, part.size), _Sum())
            total.counts.append((part.count, part.sure))
            total.lengths.append((part.length, part.sure))
            total.units.append(index)
            total.findings |= dict.fromkeys(part.findings)
        if any(part.glued for part in wanted):
            glued.append(index)
    rows = [total.row(part, size) for (part, size), total in sorted(sums.items(), key=lambda item: _rank(*item[0]))]
    if glued:
        rows.append(
            RoundPart(
                part=CEMENT,
                size=None,
                count=1,
                count_at_most=1,
                length=None,
                length_at_most=None,
                units=tuple(glued),
                findings=(),
            )
        )
    return tuple(rows)


_CUT_IN = {"cleanout-fittings": "cleanout-tee-and-cap", "union": "union"}
"""What a cleaning plan says to carry, by the names of `PARTS`."""

_PLACES = {name: place for place, name in enumerate(dict.fromkeys(row.part for row in PARTS))}


def _rank(part: str, size: str | None) -> tuple[int, int]:
    return _PLACES[part], NOMINAL_SIZES.index(size) if size else -1


@dataclass(slots=True)
class _Sum:
    """One part of all units, while it is added up."""

    counts: list[tuple[int, bool]] = field(default_factory=list)
    lengths: list[tuple[float, bool]] = field(default_factory=list)
    units: list[int] = field(default_factory=list)
    findings: dict[str, None] = field(default_factory=dict)

    def row(self, part: str, size: str | None) -> RoundPart:
        """What there is to carry."""
        counted = any(count for count, _ in self.counts)
        return RoundPart(
            part=part,
            size=size,
            count=sum(count for count, sure in self.counts if sure) if counted else None,
            count_at_most=sum(count for count, _ in self.counts) if counted else None,
            length=None if counted else fsum(length for length, sure in self.lengths if sure),
            length_at_most=None if counted else fsum(length for length, _ in self.lengths),
            units=tuple(self.units),
            findings=tuple(self.findings),
        )


def _needed(findings: Sequence[Finding], line_size: str) -> str:
    """The largest size that findings ask for; the next made where the line of this size is too small for the peak."""
    next_size = NOMINAL_SIZES[min(NOMINAL_SIZES.index(line_size) + 1, len(NOMINAL_SIZES) - 1)]
    asked = [str(found.values.get("needed", found.values.get("pan_outlet", next_size))) for found in findings]
    return max(asked, key=NOMINAL_SIZES.index)


def _amount(row: CarriedPart, findings: Sequence[Finding], run: float, pump: PumpAsBuilt | None) -> tuple[int, float]:
    """Pieces, or length [m]."""
    if row.amount == WHOLE_RUN:
        return 0, run
    if row.amount == TUBE_LENGTH:
        return 0, pump.tube.length if pump else 0.0
    if row.amount == ALL_HANGERS:
        return supports(run, PLASTIC_SUPPORT_SPACING), 0.0
    if row.amount == MORE_HANGERS:
        spacing = cast(float, findings[0].values["spacing"])
        return max(supports(run, PLASTIC_SUPPORT_SPACING) - supports(run, spacing), 1), 0.0
    return 1, 0.0


def supports(run: float, spacing: float) -> int:
    """Supports of a line, one at either end and none further from the next than ``spacing``.

    Parameters
    ----------
    run, spacing : float
        Lengths [m].

    Examples
    --------
    By hand: 32 ft at 4 ft are eight bays and nine supports; at 6 ft six bays and seven supports.

    >>> supports(32.0, 4.0), supports(32.0, 6.0)
    (9, 7)
    """
    return ceil(run / spacing * (1.0 - 1e-9)) + 1


def _add(wanted: dict[tuple[str, str | None], UnitPart], part: UnitPart) -> None:
    """Add a part of a unit, or let it make the one that is there larger or surer."""
    key = (part.part, part.size)
    there = wanted.get(key)
    if there:
        part = UnitPart(
            part=part.part,
            size=part.size,
            count=max(there.count, part.count),
            length=max(there.length, part.length),
            sure=there.sure or part.sure,
            findings=tuple(dict.fromkeys((*there.findings, *part.findings))),
            glued=there.glued or part.glued,
        )
    wanted[key] = part
