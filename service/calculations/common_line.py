"""A common line as a tree: which length runs into which, and what flows through each.

Lengths are listed the way the water runs, the last one to the place of disposal. Each runs into the
next of the list unless it names a later one that it joins, so that no list of lengths goes round in
a circle.
"""

from math import fsum

from service.calculations.answer import Assumption, Finding, Sentence, Value
from service.calculations.drain_pitch import LIMITS as PITCH_LIMITS
from service.calculations.frozen import dataclass
from service.calculations.limits import Limit
from service.calculations.served_unit import ServedUnit, peak_flow_of
from service.tables.pipe_sizes import NOMINAL_SIZES

MOST_LENGTHS = 200
"""Lengths of one line; a branch for every unit of a large building."""

_PLACES = {size: place for place, size in enumerate(NOMINAL_SIZES)}

LENGTH_LIMITS = {
    "run": Limit(0.0, PITCH_LIMITS["run"].high),  # two fittings in one, to the longest line along a large building
    "pitch_ratio": PITCH_LIMITS["pitch_ratio"],
}


@dataclass(frozen=True, kw_only=True, slots=True)
class LineLength:
    """A length of the line, between two places where water joins.

    Parameters
    ----------
    id : str or None
        What it is called.
    joins : str or None
        The later length it runs into, by its ``id``; the next of the list by default.
    run : float or None
        Horizontal length [m].
    pitch_ratio : float or None
        Its own fall over run; that of the whole line by default.
    installed_pipe_size : str or None
        Nominal size as built; that of the whole line by default, if it is built.
    """

    id: str | None = None
    joins: str | None = None
    run: float | None = None
    pitch_ratio: float | None = None
    installed_pipe_size: str | None = None


@dataclass(frozen=True, kw_only=True, slots=True)
class Load:
    """What flows through a length.

    Parameters
    ----------
    units : tuple of int
        Places, in the list of units, of all that drain through it.
    total_capacity : float
        Their capacity [W].
    peak_flow : float
        Their condensate in the peak hour [m3/s].
    pan_outlet : str or None
        Largest of their pan outlets that are given.
    """

    units: tuple[int, ...]
    total_capacity: float
    peak_flow: float
    pan_outlet: str | None


@dataclass(frozen=True, kw_only=True, slots=True)
class CommonLine:
    """The tree, resolved.

    Parameters
    ----------
    next_lengths : tuple of int or None
        For each length, the place in the list of the one it runs into; None for the last.
    loads : tuple of Load
        What flows through each.
    findings : tuple of Finding
        Names that cannot be followed, lengths that carry nothing.
    assumptions : tuple of Assumption
        Where units join that do not say.
    """

    next_lengths: tuple[int | None, ...]
    loads: tuple[Load, ...]
    findings: tuple[Finding, ...]
    assumptions: tuple[Assumption, ...]


def larger(*sizes: str | None) -> str | None:
    """The largest of several nominal sizes, None among them passed over.

    Examples
    --------
    >>> larger("1", None, "1-1/4", "3/4"), larger(None)
    ('1-1/4', None)
    """
    largest = None
    for size in sizes:
        if size is not None and (largest is None or _PLACES[size] > _PLACES[largest]):
            largest = size
    return largest


def called(lengths: tuple[LineLength, ...], index: int) -> Sentence:
    """A length's name in a sentence: 'length "roof"', or 'length number 2' where it has none."""
    name = lengths[index].id
    if name:
        return Sentence(text='length "{name}"', values={"name": name})
    return Sentence(text="length number {number}", values={"number": index + 1})


def join_units(units: tuple[ServedUnit, ...], lengths: tuple[LineLength, ...]) -> CommonLine:
    """Follow the water from each unit through the lengths to the outlet.

    Parameters
    ----------
    units : tuple of ServedUnit
        Every unit; one that names no length joins the first.
    lengths : tuple of LineLength
        One or more, the way the water runs.

    Returns
    -------
    CommonLine

    Notes
    -----
    What flows through a length is the sum over its units, rounded once, whatever the order they come in: the
    outlet carries exactly what the same units bring to a line of one length.

    Examples
    --------
    Two units join along a run; the last length carries both:

    >>> units = (ServedUnit(total_capacity=1000.0, joins="a"), ServedUnit(total_capacity=2000.0, joins="b"))
    >>> line = join_units(units, (LineLength(id="a"), LineLength(id="b")))
    >>> [load.total_capacity for load in line.loads]
    [1000.0, 3000.0]
    """
    findings: list[Finding] = []
    places = _named(lengths)
    next_lengths = _next_lengths(lengths, places, findings)
    upstream = _joining(units, lengths, places, findings)
    flows = [peak_flow_of(unit) for unit in units]
    loads = []
    for index, below in enumerate(next_lengths):
        through = sorted(upstream[index])  # all above it stand earlier in the list
        if below is not None:
            upstream[below] += through
        if not through:
            values = {"length": called(lengths, index)}
            findings.append(Finding(code="length-carries-nothing", pointer=f"/lengths/{index}", values=values))
        loads.append(
            Load(
                units=tuple(through),
                total_capacity=fsum([units[place].total_capacity for place in through]),
                peak_flow=fsum([flows[place] for place in through]),
                pan_outlet=larger(*[units[place].pan_outlet for place in through]),
            )
        )
    return CommonLine(
        next_lengths=next_lengths,
        loads=tuple(loads),
        findings=tuple(findings),
        assumptions=_join_assumptions(units, lengths),
    )


def _next_lengths(
    lengths: tuple[LineLength, ...], named: dict[str, list[int]], findings: list[Finding]
) -> tuple[int | None, ...]:
    """Resolve which length each runs into; a name that is not further down is reported."""
    last = len(lengths) - 1
    for name, places in named.items():
        if len(places) > 1:
            values: dict[str, int | str] = {"name": name, "count": len(places)}
            findings.append(Finding(code="length-id-repeated", pointer=f"/lengths/{places[1]}/id", values=values))
    below: list[int | None] = []
    for index, length in enumerate(lengths):
        following = index + 1 if index < last else None
        if length.joins is not None:
            # the nearest further down, so that no path comes back
            later = [place for place in named.get(length.joins, ()) if place > index]
            if not later:
                about: dict[str, Value] = {
                    "length": called(lengths, index),
                    "name": length.joins,
                    "taken": "the next of the list" if following is not None else "the place of disposal",
                }
                finding = Finding(code="length-joins-unknown", pointer=f"/lengths/{index}/joins", values=about)
                findings.append(finding)
            else:
                following = later[0]
        below.append(following)
    return tuple(below)


def _named(lengths: tuple[LineLength, ...]) -> dict[str, list[int]]:
    """The places in the list of every name."""
    places: dict[str, list[int]] = {}
    for place, length in enumerate(lengths):
        if length.id is not None:
            places.setdefault(length.id, []).append(place)
    return places


def _joining(
    units: tuple[ServedUnit, ...],
    lengths: tuple[LineLength, ...],
    places: dict[str, list[int]],
    findings: list[Finding],
) -> list[list[int]]:
    """List, for each length, the units that join at its upstream end."""
    joining: list[list[int]] = [[] for _ in lengths]
    for index, unit in enumerate(units):
        place = 0
        if unit.joins is not None:
            if unit.joins in places:
                place = places[unit.joins][0]
            else:
                values = {"name": unit.joins}
                findings.append(Finding(code="unit-joins-unknown", pointer=f"/units/{index}/joins", values=values))
        joining[place].append(index)
    return joining


def _join_assumptions(units: tuple[ServedUnit, ...], lengths: tuple[LineLength, ...]) -> tuple[Assumption, ...]:
    """Record where units are taken to join that do not say; one length leaves no choice."""
    silent = [index for index, unit in enumerate(units) if unit.joins is None]
    if len(lengths) == 1 or not silent:
        return ()
    note = Sentence(text="Nothing says where it joins: taken at the upstream end of the first length.")
    if len(silent) > 1:
        text = "{count} units do not say where they join: taken at the upstream end of the first length."
        note = Sentence(text=text, values={"count": len(silent)})
    pointer = f"/units/{silent[0]}/joins" if len(silent) == 1 else "/units"
    value = lengths[0].id or Sentence(text="the first length")
    return (Assumption(pointer=pointer, value=value, note=note),)
