"""The trap in section, to scale, with the water in each of its states."""

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from service.calculations.answer import Answer
from service.calculations.trap_check import TrapCheck
from service.calculations.trap_sizing import MEASURABLE, TrapSize
from service.calculations.trap_water import SLACK, TrapState
from service.drawings.sheet import FAINT, LINE, MARGIN, PAPER, WARN, WIDTH, Point, Say, Sheet, saying
from service.units import display

SYMBOLS = {"us": ("in", "inH2O"), "si": ("mm", "Pa")}

_WALL = 2.2
_ARC_STEPS = 10
_NAMES = {"at_rest": "At rest", "start_up": "Fan starts", "running": "Fan running", "fan_stopped": "Fan stopped"}


@dataclass(frozen=True, kw_only=True, slots=True)
class _Section:
    """What is drawn: lengths [m], levels from the trap's outlet invert."""

    outlet_drop: float
    seal_depth: float
    unit_bore: float
    outlet_bore: float
    rim: float

    @property
    def has_seal(self) -> bool:
        """Whether there is a trap at all."""
        return self.seal_depth > SLACK

    @property
    def top(self) -> float:
        """The highest point of the section."""
        return max(self.rim, self.outlet_bore, self.outlet_drop + self.unit_bore)

    @property
    def bend(self) -> float:
        """Height of the bend under the dip."""
        return 0.5 * (self.unit_bore + self.outlet_bore)

    @property
    def depth(self) -> float:
        """From the highest to the lowest point: the bend, or a pan that lies below it."""
        return self.top + max(self.seal_depth + self.bend, -self.outlet_drop)


def draw_trap_check(
    body: Mapping[str, Any], answer: Answer[TrapCheck], written: Mapping[str, Any], system: str, language: str
) -> str:
    """Draw a built trap: as it stands with the fan running, and at rest, at start-up and stopped.

    Parameters
    ----------
    body : mapping
        Arguments of `service.calculations.trap_check.check_trap` [SI].
    answer : Answer of TrapCheck
    written : mapping
        The same answer as JSON has it.
    system : str
        ``us`` or ``si``.
    language : str
        One of `service.tables.languages.LANGUAGES`.

    Returns
    -------
    str
        The drawing, SVG.
    """
    results = answer.results
    section = _section(
        results.states,
        outlet_drop=body["outlet_drop"],
        seal_depth=body["seal_depth"],
        bores=(results.unit_side_bore, results.outlet_side_bore),
        pan_depth=body.get("pan_depth"),
    )
    titles = ("Trap as built, {pressure} in the pan", "Trap as built, no pressure in the pan")
    return _draw(titles, section, results, system, language, written["findings"])


def draw_trap_sizing(
    body: Mapping[str, Any], answer: Answer[TrapSize], written: Mapping[str, Any], system: str, language: str
) -> str:
    """Draw the trap to build, with the same states; arguments as for `draw_trap_check`."""
    results = answer.results
    section = _section(
        results.states,
        outlet_drop=results.outlet_drop,
        seal_depth=results.seal_depth,
        bores=(results.bore, results.bore),
        pan_depth=None,
    )
    titles = ("Trap to build, {pressure} in the pan", "Trap to build, no pressure in the pan")
    return _draw(titles, section, results, system, language, written["findings"])


def _section(
    states: Sequence[TrapState],
    *,
    outlet_drop: float,
    seal_depth: float,
    bores: tuple[float, float],
    pan_depth: float | None,
) -> _Section:
    """The section to draw; a pan of unknown depth is drawn a little deeper than its water."""
    held = max(state.pan_water_depth for state in states)
    depth = pan_depth if pan_depth is not None else max(1.25 * held, 1.5 * bores[0])
    return _Section(
        outlet_drop=outlet_drop,
        seal_depth=seal_depth,
        unit_bore=bores[0],
        outlet_bore=bores[1],
        rim=outlet_drop + depth,
    )


def _draw(
    titles: tuple[str, str],
    section: _Section,
    results: TrapCheck | TrapSize,
    system: str,
    language: str,
    findings: Sequence[Mapping[str, str]] | None,
) -> str:
    say, (length, gauge) = saying(language), SYMBOLS[system]
    states, pressure = results.states, results.design_pressure
    at_rest, start_up, running, fan_stopped = states
    pull = say(
        "{pressure} of suction" if pressure < 0.0 else "{pressure} of pressure", pressure=display(abs(pressure), gauge)
    )
    told = say(titles[0] if pressure else titles[1], pressure=pull)
    dimensions = say(
        "Section through a condensate trap, heights and bores to scale. Outlet drop {drop}, seal {seal}.",
        drop=display(section.outlet_drop, length),
        seal=display(section.seal_depth, length),
    )
    captions = (f"{say(_NAMES[state.state])}: {' '.join(_caption(state, section, length, say))}." for state in states)
    sheet = Sheet(told, " ".join((f"{told}.", dimensions, *captions)), language)
    sheet.paragraph(say("Fan running. Heights and bores are to scale, the width of the pan is not."), fill=FAINT)
    _main_figure(sheet, section, running, length, say)
    _small_figures(sheet, section, (at_rest, start_up, fan_stopped), length, say)
    sheet.findings(findings)
    return sheet.write()


def _main_figure(sheet: Sheet, section: _Section, running: TrapState, length: str, say: Say) -> None:
    """The running state, large, with its dimensions."""
    room, column = 210.0, 206.0
    widest = 105.0  # for both legs with what joins them
    scale = min((room - 20.0) / section.depth, widest / (2.6 * section.unit_bore + 1.6 * section.outlet_bore))
    top = sheet.space(max(section.depth * scale, 7.0 * LINE) + 26.0) + 8.0
    figure = _Figure(sheet, section, scale, left=MARGIN, datum=top + section.top * scale, pan_width=66.0)
    figure.draw(running)
    sheet.text(MARGIN, figure.y(section.outlet_drop) + LINE, say("drain pan"), fill=FAINT)
    right = figure.outlet_end
    drop, invert, dip = figure.y(section.outlet_drop), figure.y(0.0), figure.y(-section.seal_depth)
    rows: list[tuple[Point, str]] = []
    bar = right + 8.0
    sheet.line((figure.pan_right, drop), (bar + 14.0, drop), width=0.6, dash=(2, 2), stroke=FAINT)
    sheet.line((right, invert), (bar + 14.0, invert), width=0.6, dash=(2, 2), stroke=FAINT)
    sheet.line((figure.partition, dip), (bar + 14.0, dip), width=0.6, dash=(2, 2), stroke=FAINT)
    sheet.height(bar, drop, invert)
    sheet.height(bar + 10.0, invert, dip)
    if section.outlet_drop >= 0.0:
        rows.append(
            ((bar + 4.0, (drop + invert) / 2.0), say("outlet drop {drop}", drop=display(section.outlet_drop, length)))
        )
    else:
        above = say("trap outlet {drop} above pan outlet", drop=display(-section.outlet_drop, length))
        rows.append(((bar + 4.0, (drop + invert) / 2.0), above))
    seal = say("no trap, no seal")
    if section.has_seal:
        seal = say("seal {depth}", depth=display(section.seal_depth, length))
    rows.append(((bar + 14.0, (invert + dip) / 2.0), seal))
    for words, level, x in figure.told(running, length, say):
        rows.append(((x, figure.y(level)), words))
    sheet.labels(column, rows, low=top - 6.0, high=sheet.bottom - 4.0, right=WIDTH - 4.0)


def _small_figures(sheet: Sheet, section: _Section, states: Sequence[TrapState], length: str, say: Say) -> None:
    """The other states, side by side, with what is to be known of each."""
    width = (WIDTH - 2.0 * MARGIN) / len(states)
    scale = min(110.0 / section.depth, 48.0 / (2.6 * section.unit_bore + 1.6 * section.outlet_bore))
    captions = [_caption(state, section, length, say) for state in states]
    top = sheet.space(section.depth * scale + LINE * (max(map(len, captions)) + 2.2))
    for number, (state, caption) in enumerate(zip(states, captions, strict=True)):
        left = MARGIN + number * width
        sheet.text(left, top + LINE, say(_NAMES[state.state]), weight="bold")
        datum = top + 1.6 * LINE + section.top * scale
        _Figure(sheet, section, scale, left=left, datum=datum, pan_width=34.0).draw(state)
        below = top + 1.6 * LINE + section.depth * scale + 4.0
        for row, words in enumerate(caption):
            sheet.text(left, below + LINE * (row + 0.8), words, size=12.0)


def _caption(state: TrapState, section: _Section, length: str, say: Say) -> list[str]:
    """What is to be known of a state, in a few words each."""
    rows = []
    if not section.has_seal:
        rows.append(say("no seal: air passes"))
    elif state.seal_holds:
        rows.append(say("{depth} of seal", depth=display(max(state.seal_remaining, 0.0), length)))
    else:
        rows += [say("seal lost,"), say("air passes")]
    if state.pan_water_depth > MEASURABLE:
        rows.append(say("pan {depth} deep", depth=display(state.pan_water_depth, length)))
    return rows


class _Figure:
    """One section, at its place on the sheet."""

    def __init__(
        self, sheet: Sheet, section: _Section, scale: float, *, left: float, datum: float, pan_width: float
    ) -> None:
        self._sheet, self._section, self._scale, self._datum = sheet, section, scale, datum
        self._left = left
        self.pan_right = left + pan_width
        self._unit_left = self.pan_right + 0.8 * section.unit_bore * scale
        self._wall = max(0.35 * section.unit_bore * scale, 3.0)
        self.partition = self._unit_left + section.unit_bore * scale + self._wall / 2.0
        self._outlet_left = self.partition + self._wall / 2.0
        self._outlet_right = self._outlet_left + section.outlet_bore * scale
        self.outlet_end = self._outlet_right + max(0.9 * section.outlet_bore * scale, 8.0)

    def y(self, level: float) -> float:
        """Where a level [m] lies on the sheet."""
        return self._datum - level * self._scale

    def draw(self, state: TrapState) -> None:
        """Draw water first, then what holds it."""
        self._water(state)
        self._walls()
        if not state.seal_holds and self._section.has_seal:
            self._bubbles(state)

    def told(self, state: TrapState, length: str, say: Say) -> list[tuple[str, float, float]]:
        """What the water in this state has to say: words, level [m] and where they lead to."""
        section = self._section
        rows = []
        if state.pan_water_depth > SLACK:
            level = section.outlet_drop + state.pan_water_depth
            words = say("pan holds {depth} of water", depth=display(state.pan_water_depth, length))
            rows.append((words, level, self.pan_right))
        elif state.seal_holds and section.has_seal:
            level, x = state.unit_side_level, self._unit_left + 0.5 * section.unit_bore * self._scale
            text = "water {depth} above the trap outlet" if level >= 0.0 else "water {depth} below the trap outlet"
            rows.append((say(text, depth=display(abs(level), length)), level, x))
        if not state.seal_holds and section.has_seal:
            rows.append((say("air passes under the dip"), -section.seal_depth, self.partition))
        return rows

    def _bend(self, side: float, level: float) -> list[Point]:
        """The outer wall of the bend from a leg (``side`` -1 unit, +1 outlet) at a level [m] to its lowest point."""
        bend = self._section.bend
        reach = self.partition - self._unit_left if side < 0.0 else self._outlet_right - self.partition
        start = math.asin(min(max((-self._section.seal_depth - level) / bend, 0.0), 1.0)) if bend else 0.0
        points = []
        for step in range(_ARC_STEPS + 1):
            angle = start + (math.pi / 2.0 - start) * step / _ARC_STEPS
            points.append(
                (
                    self.partition + side * reach * math.cos(angle),
                    self.y(-self._section.seal_depth - bend * math.sin(angle)),
                )
            )
        return points

    def _water(self, state: TrapState) -> None:
        section, sheet = self._section, self._sheet
        dip = -section.seal_depth
        unit, outlet = state.unit_side_level, state.outlet_side_level
        in_leg = min(unit, section.outlet_drop)
        lowest = min(unit, outlet) if section.has_seal else dip - section.bend  # a plain drain holds nothing
        pool = min(max(lowest, dip - section.bend), dip)
        left, right = self._bend(-1.0, pool), self._bend(1.0, pool)
        if pool > dip - section.bend:
            sheet.area(*left, *reversed(right))
        if in_leg > dip and section.has_seal:
            self._fill(self._unit_left, self.partition - self._wall / 2.0, dip, in_leg)
            sheet.area(
                (self.partition - self._wall / 2.0, self.y(dip)),
                (self.partition, self.y(dip)),
                (self.partition, self.y(dip) + 0.5),
            )
        if outlet > dip and section.has_seal:
            self._fill(self._outlet_left, self._outlet_right, dip, min(outlet, 0.0))
        depth = state.pan_water_depth
        if depth > SLACK:
            level = section.outlet_drop + min(depth, section.rim - section.outlet_drop)
            self._fill(self._left, self.pan_right, section.outlet_drop, level)
            top = min(level, section.outlet_drop + section.unit_bore)
            self._fill(self.pan_right, self._unit_left + section.unit_bore * self._scale, section.outlet_drop, top)
            sheet.level_mark(self._left + 0.4 * (self.pan_right - self._left), self.y(level))
        elif section.has_seal and in_leg > dip:
            self._surface(self._unit_left, self.partition - self._wall / 2.0, in_leg)
        if section.has_seal and outlet > dip:
            self._surface(self._outlet_left, self._outlet_right, min(outlet, 0.0))

    def _fill(self, left: float, right: float, low: float, high: float) -> None:
        """Fill a rectangle between two levels [m]."""
        bottom, top = self.y(low) + 0.4, self.y(high)
        self._sheet.area((left, bottom), (left, top), (right, top), (right, bottom))

    def _surface(self, left: float, right: float, level: float) -> None:
        self._sheet.line((left, self.y(level)), (right, self.y(level)), width=1.0)

    def _walls(self) -> None:
        section, sheet = self._section, self._sheet
        bore = section.unit_bore
        floor, rim = self.y(section.outlet_drop), self.y(section.rim)
        dip, crown = self.y(-section.seal_depth), self.y(section.outlet_drop + bore)
        unit_right = self.partition - self._wall / 2.0
        # pan, its left end broken off; the outlet in its right wall, the leg down from it
        sheet.line(
            (self._left, floor),
            (self._unit_left, floor),
            (self._unit_left, dip),
            *self._bend(-1.0, math.inf)[1:],
            *reversed(self._bend(1.0, math.inf)),
            (self._outlet_right, self.y(0.0)),
            (self.outlet_end, self.y(0.0)),
            width=_WALL,
        )
        sheet.line((self.pan_right, min(rim, crown)), (self.pan_right, crown), width=_WALL)
        outlet_crown = self.y(section.outlet_bore)
        sheet.line(
            (self.pan_right, crown),
            (unit_right, crown),
            (unit_right, dip),
            (self._outlet_left, dip),
            (self._outlet_left, outlet_crown),
            (self.outlet_end, outlet_crown),
            width=_WALL,
        )
        for step in (0.0, 4.0):
            sheet.line((self._left + step, floor + 6.0), (self._left + 4.0 + step, floor - 6.0), width=0.8)

    def _bubbles(self, state: TrapState) -> None:
        """Air on its way through: up the unit side under suction, up the outlet side under pressure."""
        section = self._section
        to_unit = state.unit_side_level >= state.outlet_side_level
        x = (self._unit_left + self.partition) / 2.0 if to_unit else (self._outlet_left + self._outlet_right) / 2.0
        top, bottom = self.y(max(section.outlet_drop, 0.0)), self.y(-section.seal_depth)
        radius = max(min(section.unit_bore * self._scale / 7.0, 3.0), 1.2)
        for share in (0.15, 0.5, 0.85):
            self._sheet.circle((x, bottom + share * (top - bottom)), radius, fill=PAPER, stroke=WARN, width=1.2)
