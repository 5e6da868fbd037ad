"""Head against flow: what the pump gives, what the tube asks, where they meet, and how far that is from enough."""

from collections.abc import Mapping
from math import ceil, floor, log10
from typing import Any

from service.calculations.answer import Answer
from service.calculations.pump import PumpRun
from service.calculations.pump_curve import PumpCurve, read_curve
from service.calculations.pump_cycle import NO_FLOW
from service.calculations.pump_run import WATER_TEMPERATURE
from service.calculations.pump_tube import TubeRun, settle_tube
from service.drawings.sheet import FAINT, INK, LINE, MARGIN, PAPER, WARN, WIDTH, Point, Say, Sheet, saying, text_width
from service.units import SYMBOLS, display, plain

UNITS = {"us": ("ft", "gal/h", "in"), "si": ("m", "L/h", "mm")}

_SMALL = 12.0
_STEPS = 96
_LEAST_HEAD, _LEAST_FLOW = 0.02, 1e-8
"""Least that the axes reach [m] and [m3/s]: finer than anyone measures."""

_PUMP, _TUBE = 2.4, 1.7
"""Widths of the two lines; the tube's is dashed besides."""


def draw_pump_run(
    body: Mapping[str, Any], answer: Answer[PumpRun], written: Mapping[str, Any], system: str, language: str
) -> str:
    """Draw a pump's leaflet against its tube.

    Parameters
    ----------
    body : mapping
        Arguments of `service.calculations.pump_run.run_pump` [SI].
    answer : Answer of PumpRun
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
    results, curve = answer.results, read_curve(body["pump"].curve)
    temperature = body.get("water_temperature")
    tube, _ = settle_tube(body["tube"], WATER_TEMPERATURE if temperature is None else temperature)
    words = _Words(system, saying(language))
    inflow, lift = body["inflow"], body["lift"]
    sheet = Sheet(_title(results, inflow, words), _description(results, inflow, lift, words), language)
    caption = "Head against flow. Where the pump's line (heavy) meets the tube's (dashed), the water runs."
    sheet.paragraph(words.say(caption), fill=FAINT)
    chart = _Chart(sheet, curve, results, lift + tube.cracking_head, words)
    chart.axes()
    chart.tube(tube, lift)
    chart.pump(curve, body["pump"].curve)
    chart.wanted(results)
    chart.margin(results)
    chart.point(results)
    chart.label(curve, results, tube, lift)
    _sections(sheet, results, words)
    sheet.findings(written["findings"])
    return sheet.write()


class _Words:
    """Words in the language of the answer, numbers in its units."""

    def __init__(self, system: str, say: Say) -> None:
        self.say = say
        self.head_symbol, self.flow_symbol, self._bore = UNITS[system]

    def head(self, value: float) -> str:
        """A head or length."""
        return _together(display(value, self.head_symbol))

    def flow(self, value: float) -> str:
        """A flow."""
        return _together(display(value, self.flow_symbol))

    def bore(self, value: float) -> str:
        """A bore."""
        return _together(display(value, self._bore))


def _together(text: str) -> str:
    """A number and its unit, kept on one line."""
    return text.replace(" ", "\N{NO-BREAK SPACE}")


def _title(results: PumpRun, inflow: float, words: _Words) -> str:
    flow = results.operating_flow
    if flow <= 0.0:
        return words.say("The pump cannot lift the water")
    text = "The pump moves {flow}, enough for the {needed} wanted"
    if inflow <= NO_FLOW:
        text = "The pump moves {flow}"
    elif flow < inflow:
        text = "The pump moves {flow}, less than the {inflow} that arrives"
    elif flow < results.needed_flow:
        text = "The pump moves {flow} of the {needed} wanted"
    return words.say(text, flow=words.flow(flow), inflow=words.flow(inflow), needed=words.flow(results.needed_flow))


def _description(results: PumpRun, inflow: float, lift: float, words: _Words) -> str:
    """The picture in words."""
    text = (
        "Head against flow. The pump's flow ends at {shut_off} of head. The tube lifts the water {lift} and takes "
        "{losses} more where the two meet, at {flow} and {head} of head. {inflow} arrives, {needed} with the margin, "
        "which would meet {needed_head} of head."
    )
    if results.operating_flow <= 0.0:
        text = (
            "Head against flow. The pump's flow ends at {shut_off} of head. The tube lifts the water {lift}, so that "
            "nothing flows."
        )
    return words.say(
        text,
        shut_off=words.head(results.shut_off_head),
        lift=words.head(lift),
        losses=words.head(results.friction_head + results.fittings_head),
        flow=words.flow(results.operating_flow),
        head=words.head(results.operating_head),
        inflow=words.flow(inflow),
        needed=words.flow(results.needed_flow),
        needed_head=words.head(results.needed_head),
    )


class _Chart:
    """The two lines over their axes, with labels to the right."""

    left, right, column = 48.0, 214.0, 228.0
    height = 236.0

    def __init__(self, sheet: Sheet, curve: PumpCurve, results: PumpRun, asked: float, words: _Words) -> None:
        self._sheet, self._words = sheet, words
        told = max(results.operating_flow, results.needed_flow)
        # a needed flow far beyond the pump is shown off the sheet; a pump far beyond both is cut off at the right
        whole = max(1.06 * curve.most_flow, min(1.12 * results.needed_flow, 3.0 * curve.most_flow))
        near = results.operating_flow > 0.0 and NO_FLOW < told < 0.08 * whole
        self.most_flow = max(8.0 * told if near else whole, _LEAST_FLOW)
        if curve.most_flow <= 0.0:
            self.most_flow = max(1.5 * results.needed_flow, _LEAST_FLOW)
        own = max(results.shut_off_head, asked, curve.points[-1].lift if curve.most_flow > 0.0 else 0.0)
        self.most_head = max(1.08 * max(own, min(results.needed_head, 1.6 * own)), _LEAST_HEAD)
        self._strip = sheet.space(2.2 * LINE + self.height + 2.4 * LINE) + 1.5 * LINE
        self.top = self._strip + 0.7 * LINE
        self.bottom = self.top + self.height

    def x(self, flow: float) -> float:
        """Where a flow [m3/s] lies on the sheet; the right edge where it is more than the axis reaches."""
        return self.left + min(flow / self.most_flow, 1.0) * (self.right - self.left)

    def y(self, head: float) -> float:
        """Where a head [m] lies on the sheet; the upper edge where it is more than the axis reaches."""
        return self.bottom - min(head / self.most_head, 1.0) * self.height

    def axes(self) -> None:
        """Draw both axes with round numbers."""
        sheet = self._sheet
        for head, text in _ticks(self.most_head, self._words.head_symbol, 6):
            sheet.line((self.left - 4.0, self.y(head)), (self.left, self.y(head)), width=0.9)
            sheet.text(self.left - 6.0, self.y(head) + 4.0, text, size=_SMALL, anchor="end")
        flows = _ticks(self.most_flow, self._words.flow_symbol, 5)
        if sum(text_width(text, _SMALL) + 8.0 for _, text in flows) > self.right - self.left:
            flows = _ticks(self.most_flow, self._words.flow_symbol, 2)
        for flow, text in flows:
            sheet.line((self.x(flow), self.bottom), (self.x(flow), self.bottom + 4.0), width=0.9)
            sheet.text(self.x(flow), self.bottom + LINE, text, size=_SMALL, anchor="middle")
        sheet.line((self.left, self.top), (self.left, self.bottom), (self.right, self.bottom), width=1.2)
        sheet.text(
            MARGIN - 6.0, self._strip, self._words.say("head, {unit}", unit=self._words.head_symbol), size=_SMALL
        )
        flow_axis = self._words.say("flow, {unit}", unit=self._words.flow_symbol)
        sheet.text(self.right, self.bottom + 1.95 * LINE, flow_axis, size=_SMALL, anchor="end")

    def tube(self, tube: TubeRun, lift: float) -> None:
        """Draw what the tube asks, dashed, and the lift it starts from, dotted."""
        self._sheet.line(
            (self.left, self.y(lift)), (self.right, self.y(lift)), width=1.2, dash=(1.5, 3.5), stroke=FAINT
        )
        points: list[Point] = []
        before = (0.0, lift + tube.cracking_head)  # within the axis, which reaches beyond it
        for step in range(_STEPS + 1):
            flow = self.most_flow * step / _STEPS
            head = lift + tube.friction(flow) + tube.fittings(flow)
            if head > self.most_head:
                share = (self.most_head - before[1]) / (head - before[1])
                if share > 0.0:
                    points.append((self.x(before[0] + share * (flow - before[0])), self.top))
                break
            points.append((self.x(flow), self.y(head)))
            before = (flow, head)
        if len(points) > 1:
            self._sheet.line(*points, width=_TUBE, dash=(7.0, 4.0))
        self._tube_end = points[-1] if points else (self.left, self.top)

    def pump(self, curve: PumpCurve, given: Any) -> None:
        """Draw what the pump gives, heavy, with the points of its leaflet."""
        if curve.most_flow <= 0.0:
            return
        first, last = curve.points[0], curve.points[-1]
        corners: list[tuple[float, float]] = [(first.flow, 0.0)] if first.lift > 0.0 else []
        corners += [(point.flow, point.lift) for point in curve.points]
        if last.flow > 0.0:
            self._sheet.line((self.left, self.y(last.lift)), (self.x(last.flow), self.y(last.lift)), dash=(2.0, 2.0))
        self._sheet.line(*_cut(corners, self.most_flow, self.x, self.y), width=_PUMP)
        for point in given:
            if point.flow <= self.most_flow and point.lift <= self.most_head:
                self._sheet.circle((self.x(point.flow), self.y(point.lift)), 3.2, width=1.3)

    def wanted(self, results: PumpRun) -> None:
        """Draw the flow wanted, and mark the head the tube asks there."""
        if results.needed_flow <= NO_FLOW:
            return
        x = self.x(results.needed_flow)
        self._sheet.line((x, self._strip), (x, self.bottom), width=1.2, dash=(3.0, 3.0), stroke=WARN)
        if results.needed_flow <= self.most_flow and results.needed_head <= self.most_head:
            y = self.y(results.needed_head)
            self._sheet.area((x - 4.0, y), (x, y - 4.0), (x + 4.0, y), (x, y + 4.0), fill=PAPER, stroke=WARN, width=1.4)

    def margin(self, results: PumpRun) -> None:
        """Draw how far the flow lies from the one wanted, above the figure, with its words."""
        flow, needed = results.operating_flow, results.needed_flow
        if needed <= NO_FLOW:
            return
        here, there, y = self.x(needed), self.x(flow), self._strip
        spare = flow - needed
        enough = spare >= 0.0
        if abs(there - here) > 2.0:
            self._sheet.line((here, y + 5.0), (there, y + 5.0), width=1.4, stroke=INK if enough else WARN)
            for x in (here, there):
                self._sheet.line((x, y + 1.0), (x, y + 9.0), width=1.4, stroke=INK if enough else WARN)
        text = self._words.say(
            "{flow} to spare" if enough else "{flow} short of what is wanted", flow=self._words.flow(abs(spare))
        )
        half = text_width(text, _SMALL * 1.06) / 2.0
        title = text_width(self._words.say("head, {unit}", unit=self._words.head_symbol), _SMALL) + 12.0
        middle = min(max((here + there) / 2.0, title + half), WIDTH - MARGIN - half)
        self._sheet.text(
            middle, y - 3.0, text, size=_SMALL, anchor="middle", weight="bold", fill=INK if enough else WARN
        )

    def point(self, results: PumpRun) -> None:
        """Mark where pump and tube meet, or how far the lift is beyond the pump."""
        if results.operating_flow > 0.0:
            at = (self.x(results.operating_flow), self.y(results.operating_head))
            self._sheet.circle(at, 5.0, fill=INK)
            self._sheet.line((at[0], self._strip + 5.0), at, width=0.8, stroke=FAINT)

    def label(self, curve: PumpCurve, results: PumpRun, tube: TubeRun, lift: float) -> None:
        """Write what each line and mark is, in the column to the right."""
        words, say, rows = self._words, self._words.say, []
        if results.operating_flow > 0.0:
            at = (self.x(results.operating_flow), self.y(results.operating_head))
            flow, head = words.flow(results.operating_flow), words.head(results.operating_head)
            rows.append((at, say("runs here: {flow} at {head}", flow=flow, head=head)))
            rows.append(((self.right, self.y(lift)), say("lift {lift}", lift=words.head(lift))))
        else:
            asked = lift + tube.cracking_head
            short = asked - curve.shut_off
            bar = self.left + 0.45 * (self.right - self.left)
            if self.y(curve.shut_off) - self.y(asked) > 6.0:
                self._sheet.height(bar, self.y(asked), self.y(curve.shut_off))
                middle = (self.y(asked) + self.y(curve.shut_off)) / 2.0
                rows.append(((bar, middle), say("{head} more than the pump has", head=words.head(short))))
            self._sheet.line((self.left, self.y(asked)), (self.right, self.y(asked)), width=2.0, stroke=WARN)
            text = "lift {lift}: nothing flows"
            if tube.cracking_head > 0.0:
                text = "lift and check valve {lift}: nothing flows"
            rows.append(((self.right, self.y(asked)), say(text, lift=words.head(asked))))
        if curve.most_flow > 0.0:
            rows.append(
                ((self.left, self.y(curve.shut_off)), say("shut off at {head}", head=words.head(curve.shut_off)))
            )
            rows.append((self._pump_end(curve), say("pump, by its leaflet")))
        else:
            rows.append(((self.left, self.bottom), say("the leaflet gives no flow at all")))
        if results.operating_flow > 0.0:
            rows.append((self._tube_end, say("tube: lift, friction, fittings")))
        if results.needed_flow > NO_FLOW and results.operating_flow > 0.0:
            off = results.needed_flow > self.most_flow
            at = (self.x(results.needed_flow), self.bottom if off else self.y(results.needed_head))
            text = "wanted: {flow}, off the sheet" if off else "wanted: {flow} would meet {head}"
            needed = {"flow": words.flow(results.needed_flow), "head": words.head(results.needed_head)}
            rows.append((at, say(text, **needed)))
        elif results.needed_flow > NO_FLOW:
            at = (self.x(results.needed_flow), self.bottom - 12.0)
            rows.append((at, say("wanted: {flow}", flow=words.flow(results.needed_flow))))
        self._sheet.labels(self.column, rows, low=self.top - 14.0, high=self.bottom + LINE, right=WIDTH - 4.0)

    def _pump_end(self, curve: PumpCurve) -> Point:
        """A place on the pump's line to label it by: its lower end, or where it leaves the sheet."""
        if curve.most_flow <= self.most_flow:
            return self.x(curve.most_flow), self.y(curve.points[0].lift)
        return self.right, self.y(curve.lift_at(self.most_flow) or 0.0)


def _cut(corners: list[tuple[float, float]], most: float, x: Any, y: Any) -> list[Point]:
    """The part of a falling line up to ``most`` flow, on the sheet."""
    points: list[Point] = []
    for (flow, head), (next_flow, next_head) in zip(corners, [*corners[1:], corners[-1]], strict=True):
        if flow <= most:
            points.append((x(flow), y(head)))
        elif next_flow < most:
            share = (flow - most) / (flow - next_flow)
            points.append((x(most), y(head + share * (next_head - head))))
    return points


def _ticks(most: float, symbol: str, count: int) -> list[tuple[float, str]]:
    """Round numbers of an axis: SI value, and as written; at most ``count`` above 0."""
    unit = SYMBOLS[symbol]
    whole = unit.from_si(most)
    rough = whole / count
    power = 10.0 ** floor(log10(rough))
    step = next(power * times for times in (1.0, 2.0, 5.0, 10.0) if power * times >= rough * (1.0 - 1e-9))
    return [(unit.to_si(step * index), plain(step * index)) for index in range(ceil(whole / step))]


def _sections(sheet: Sheet, results: PumpRun, words: _Words) -> None:
    """Where a tube of several bores takes its head: a bar for each section."""
    losses = [row.friction_head + row.fittings_head for row in results.sections]
    greatest = max(losses)
    if len(losses) < 2 or greatest <= 0.0:
        return
    sheet.paragraph(words.say("Head each section of the tube takes, from the pump on"), weight="bold")
    for row, lost in zip(results.sections, losses, strict=True):
        parts = {"length": words.head(row.length), "bore": words.bore(row.bore), "head": words.head(lost)}
        sheet.paragraph(words.say("{length} of {bore} bore: {head}", **parts), size=_SMALL)
        top = sheet.space(9.0)
        width = lost / greatest * (WIDTH - 2.0 * MARGIN)
        sheet.area((MARGIN, top), (MARGIN + width, top), (MARGIN + width, top + 6.0), (MARGIN, top + 6.0), fill=FAINT)
