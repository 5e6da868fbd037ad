"""The profile of a drain line: the pipe, the water that stands in it, and the marks where it falls too little."""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import ceil

from service.calculations.drain_pond import Pond
from service.calculations.drain_profile import SLACK
from service.calculations.drain_segment import Segment
from service.calculations.drain_survey import DrainSurvey, SurveyedStation
from service.drawings.sheet import FAINT, INK, LINE, MARGIN, WARN, WIDTH, Point, Say, Sheet, spread, text_width
from service.units import display

SYMBOLS = {"us": ("in", "ft", "gal"), "si": ("mm", "m", "L")}

_LEFT, _ACROSS = MARGIN + 4.0, 326.0
_HEIGHT, _TALLEST = 190.0, 320.0
_THINNEST, _WIDEST = 7.0, 34.0
"""Between these the bore is drawn [sheet units], where the height of the sheet allows."""

_UNKNOWN_BORE = 0.0254
_UPRIGHT = 5.0
"""Width of a vertical pipe on the sheet, where its bore to the scale of distances would be a hair."""

MOST_LABELS, MOST_MARKED, _MOST_TICKS = 3, 40, 60
_COLUMNS = 180
"""Columns of the sheet into which more stations than can be seen are gathered: first, lowest, highest, last of each."""

_STROKES = 4.0
"""From one stroke of a hatch to the next [sheet units]."""

_VISIBLE = 0.4
"""A stretch of water that is smaller both ways is not drawn [sheet units]."""

RISES, FALLS_SHORT = ("back-fall", "riser"), ("flat", "below-minimum")


@dataclass(frozen=True, kw_only=True, slots=True)
class Scale:
    """From metres to sheet units."""

    left: float
    top: float
    across: float
    up: float
    first: float
    high: float

    def x(self, distance: float) -> float:
        """Where a distance [m] lies."""
        return self.left + (distance - self.first) * self.across

    def y(self, height: float) -> float:
        """Where a height [m] lies."""
        return self.top + (self.high - height) * self.up


def deepest(ponds: Sequence[Pond]) -> list[Pond]:
    """The ponds that get words, in order downstream."""
    return sorted(sorted(ponds, key=lambda pond: -pond.depth)[:MOST_LABELS], key=lambda pond: pond.start)


def _gathered(stations: Sequence[SurveyedStation]) -> list[SurveyedStation]:
    """The stations to draw: all, or of each column of the sheet those that show."""
    run = stations[-1].distance - stations[0].distance
    if len(stations) <= 2 * _COLUMNS or run <= 0.0:
        return list(stations[:2000])
    kept: set[int] = set()
    columns: dict[int, list[int]] = {}
    for index, station in enumerate(stations):
        columns.setdefault(int((station.distance - stations[0].distance) / run * _COLUMNS), []).append(index)
    for column in columns.values():
        lowest = min(column, key=lambda index: stations[index].invert)
        highest = max(column, key=lambda index: stations[index].invert)
        kept |= {column[0], lowest, highest, column[-1]}
    return [stations[index] for index in sorted(kept)]


class Figure:
    """The profile on its sheet."""

    def __init__(self, sheet: Sheet, survey: DrainSurvey, system: str, say: Say) -> None:
        self._sheet, self._survey, self._say = sheet, survey, say
        self._length, self._distance, self._volume = SYMBOLS[system]
        self._bore = survey.bore or _UNKNOWN_BORE
        self._stations = _gathered(survey.stations)
        self._heights = {one.station: one.invert for one in survey.stations}
        self._labelled = deepest(survey.ponds)
        rising = sorted((one for one in survey.segments if one.judgement in RISES), key=lambda one: one.fall)
        self._rising = sorted(rising[:MOST_LABELS], key=lambda one: one.start)
        low = min(one.invert for one in survey.stations)
        self._high = max(max(one.invert + max(self._bore, one.water_depth) for one in survey.stations), low)
        span = self._high - low
        up = min(_HEIGHT / span, _WIDEST / self._bore)
        if up * self._bore < _THINNEST:
            up = min(_THINNEST / self._bore, _TALLEST / span)
        across = min(_ACROSS / survey.run, up) if survey.run > 0.0 else up
        self._profile_height = span * up
        self.scale = Scale(
            left=_LEFT, top=0.0, across=across, up=up, first=survey.stations[0].distance, high=self._high
        )

    def draw(self) -> None:
        """Draw labels above, the profile, labels below and the scale of distances."""
        sheet = self._sheet
        told = [self._pond_words(pond) for pond in self._labelled]
        above = LINE * max(map(len, told), default=0) + 8.0
        below = LINE + 14.0 if self._rising else 0.0
        rail = sheet.space(above + 1.3 * LINE) + 2.0
        top = sheet.space(self._profile_height + 1.3 * LINE + below + 2.4 * LINE)
        self.scale = Scale(
            left=_LEFT, top=top, across=self.scale.across, up=self.scale.up, first=self.scale.first, high=self._high
        )
        self._water()
        self._pipe()
        self._marks()
        self._ends()
        floor = top + self._profile_height + 1.3 * LINE
        self._pond_labels(rail, told)
        self._rise_labels(floor + 6.0)
        self._distances(floor + below + 6.0)

    def _corner(self, station: SurveyedStation) -> Point:
        return self.scale.x(station.distance), self.scale.y(station.invert)

    def _shift(self, one: SurveyedStation, two: SurveyedStation) -> float:
        """How far a vertical pipe's other wall lies aside: downstream of a drop, upstream of a riser."""
        if self.scale.x(two.distance) - self.scale.x(one.distance) > 0.5:
            return 0.0
        tall = abs(one.invert - two.invert) * self.scale.up > _UPRIGHT
        return 0.0 if not tall else _UPRIGHT if one.invert > two.invert else -_UPRIGHT

    def _pipe(self) -> None:
        """The inside bottom and the top of the bore; what falls too little is marked on the bottom."""
        crown: list[Point] = []
        gap = self._bore * self.scale.up
        shifts = [0.0, *(self._shift(one, two) for one, two in pairwise(self._stations)), 0.0]
        for station, before, after in zip(self._stations, shifts, shifts[1:], strict=False):
            x, y = self._corner(station)
            crown.append((min(max(x + (before or after), _LEFT), WIDTH - 4.0), y - gap))
        self._sheet.line(*crown, width=1.2)
        self._sheet.line(*(self._corner(station) for station in self._stations), width=1.6)

    def _marks(self) -> None:
        """A tick at each station, and dashes along what rises or falls too little."""
        stations = self._survey.stations
        step = -(-len(stations) // _MOST_TICKS)
        for station in stations[::step]:
            x, y = self._corner(station)
            self._sheet.line((x, y), (x, y + 5.0), width=0.9)
        for judgements, dash, stroke in ((FALLS_SHORT, (1.5, 3.0), INK), (RISES, (6.0, 3.5), WARN)):
            faulty = [one for one in self._survey.segments if one.judgement in judgements]
            for one in sorted(faulty, key=_shortage)[:MOST_MARKED]:
                (x0, y0), (x1, y1) = self._ends_of(one)
                beside = 0.0 if one.pitch_ratio is None else 2.5  # below the bottom, clear of the water
                self._sheet.line((x0, y0 + beside), (x1, y1 + beside), width=4.0, dash=dash, stroke=stroke)

    def _ends_of(self, segment: Segment) -> tuple[Point, Point]:
        """Where a segment begins and ends on the sheet."""
        return (
            (self.scale.x(segment.start), self.scale.y(self._heights[segment.first_station])),
            (self.scale.x(segment.end), self.scale.y(self._heights[segment.last_station])),
        )

    def _water(self) -> None:
        """Every stretch of standing water up to its level or the top of the bore, hatched where it fills the bore."""
        rows = self._stations
        first = 0
        while first < len(rows):
            if rows[first].water_depth <= 0.0:
                first += 1
                continue
            last = first
            while last + 1 < len(rows) and rows[last + 1].water_depth > 0.0:
                last += 1
            self._pond(rows[max(first - 1, 0) : last + 2], rows[first].invert + rows[first].water_depth)
            first = last + 1

    def _pond(self, rows: Sequence[SurveyedStation], level: float) -> None:
        """One of them: the bottom from the slope it begins on to its sill, and its surface back."""
        bottom: list[tuple[float, float]] = []
        for one, two in pairwise(rows):
            bottom += _cut(one, two, level, self._bore)
        points: list[Point] = [(self.scale.x(distance), self.scale.y(height)) for distance, height in bottom]
        surface = [
            (self.scale.x(distance), self.scale.y(min(level, height + self._bore))) for distance, height in bottom
        ]
        if len(points) > 1 and _extent(points) > _VISIBLE:
            self._sheet.area(*points, *reversed(surface))
        for one, two in pairwise(rows):
            shift = self._shift(one, two)
            if shift:
                x = self.scale.x(two.distance)
                upper, lower = min(level, max(one.invert, two.invert)), min(one.invert, two.invert)
                if upper > lower:
                    corners = ((x, lower), (x + shift, lower), (x + shift, upper), (x, upper))
                    self._sheet.area(*((at, self.scale.y(height)) for at, height in corners))
        for (start, height), (end, other) in pairwise(bottom):
            if end > start and level - max(height, other) >= self._bore - SLACK:
                self._hatch((self.scale.x(start), self.scale.y(height)), (self.scale.x(end), self.scale.y(other)))

    def _hatch(self, start: Point, end: Point) -> None:
        """Strokes across the bore where the water fills it, at places common to the whole sheet."""
        (left, low), (right, other) = start, end
        if right - left < 0.01:
            return
        slope = (other - low) / (right - left)
        for number in range(ceil(left / _STROKES), ceil(right / _STROKES)):
            x = number * _STROKES
            lean = min(3.0, right - x)
            y = low + (x - left) * slope
            self._sheet.line((x, y), (x + lean, y + lean * slope - self._bore * self.scale.up), width=0.9)

    def _ends(self) -> None:
        """The two ends in words, with the way the water goes: clear of the pipe, below it and above it."""
        sheet, survey = self._sheet, self._survey
        first, last = survey.stations[0], survey.stations[-1]
        words = self._say("from pan")
        reach = text_width(words) + 26.0
        y = max(self._bottoms(_LEFT, _LEFT + reach)) + LINE
        sheet.text(_LEFT, y, words, fill=FAINT)
        sheet.arrow((_LEFT + reach - 22.0, y - 4.0), (_LEFT + reach, y - 4.0), stroke=FAINT)
        if first.water_depth > 0.0:
            sheet.level_mark(_LEFT + 2.0, self.scale.y(first.invert + min(first.water_depth, self._bore)))
        words = self._say("to discharge")
        reach = text_width(words) + 26.0
        x, bottom = self._corner(last)
        right = min(max(x, _LEFT + reach + 110.0), WIDTH - MARGIN)
        crown = min(self._bottoms(right - reach, right)) - self._bore * self.scale.up
        y = min(crown, self.scale.y(last.invert + last.water_depth)) - 6.0
        sheet.text(right - 26.0, y, words, anchor="end", fill=FAINT)
        sheet.arrow((right - 22.0, y - 4.0), (right, y - 4.0), stroke=FAINT)
        if last.water_depth > 0.0:
            water = self.scale.y(last.invert + last.water_depth)
            sheet.area((x, bottom + 6.0), (x, water), (x + 10.0, water), (x + 10.0, bottom + 6.0))
            sheet.level_mark(x + 5.0, water)

    def _bottoms(self, left: float, right: float) -> list[float]:
        """Heights of the pipe's bottom on the sheet at and between two places."""
        corners = [self._corner(station) for station in self._stations]
        found = [y for x, y in corners if left <= x <= right]
        for place in (left, right):
            for (x0, y0), (x1, y1) in pairwise(corners):
                if x0 <= place <= x1 and x1 > x0:
                    found.append(y0 + (y1 - y0) * (place - x0) / (x1 - x0))
        return found or [corners[-1][1]]

    def _pond_words(self, pond: Pond) -> list[str]:
        """What is to be known of a pond, in a few words each."""
        lines = [self._say("{depth} deep", depth=display(pond.depth, self._length))]
        if pond.volume is not None:
            lines.append(display(pond.volume, self._volume))
        if pond.fills_bore:
            lines.append(self._say("bore full"))
        if pond.reaches_pan:
            lines.append(self._say("back to pan"))
        return lines

    def _pond_labels(self, rail: float, told: Sequence[list[str]]) -> None:
        """What the deepest ponds hold, above them."""
        sheet = self._sheet
        rows = []
        places_of = {one.station: one.distance for one in self._survey.stations}
        for pond, lines in zip(self._labelled, told, strict=True):
            surface = self.scale.y(min(pond.level, self._heights[pond.low_station] + self._bore))
            rows.append(((self.scale.x(places_of[pond.low_station]), surface), lines))
        widths = [max(text_width(line) for line in lines) + 10.0 for _, lines in rows]
        places = spread([point[0] for point, _ in rows], widths, MARGIN, WIDTH - MARGIN)
        for (point, lines), place in zip(rows, places, strict=True):
            for number, line in enumerate(lines):
                strong = line in (self._say("bore full"), self._say("back to pan"))
                sheet.text(
                    place,
                    rail + LINE * (number + 0.8),
                    line,
                    anchor="middle",
                    weight="bold" if strong else "normal",
                    fill=WARN if strong else INK,
                )
            sheet.line((place, rail + LINE * len(lines) + 1.0), point, width=0.7, stroke=FAINT)
            sheet.circle(point, 1.8, fill=INK)

    def _rise_labels(self, rail: float) -> None:
        """How far the worst segments rise, below them."""
        sheet = self._sheet
        rows = []
        told = list(self._rising)
        # three long labels may not fit beside each other: the least rise then goes without
        words_of = {id(one): self._say("rises {rise}", rise=display(-one.fall, self._length)) for one in told}
        while sum(text_width(words_of[id(one)]) + 10.0 for one in told) > WIDTH - 2.0 * MARGIN:
            told.remove(min(told, key=lambda one: -one.fall))
        for segment in told:
            (x0, y0), (x1, y1) = self._ends_of(segment)
            rows.append((((x0 + x1) / 2.0, (y0 + y1) / 2.0 + 3.0), words_of[id(segment)]))
        widths = [text_width(words) + 10.0 for _, words in rows]
        places = spread([point[0] for point, _ in rows], widths, MARGIN, WIDTH - MARGIN)
        for (point, words), place in zip(rows, places, strict=True):
            sheet.text(place, rail + 0.8 * LINE, words, anchor="middle", fill=WARN, weight="bold")
            sheet.line((place, rail), point, width=0.7, stroke=WARN)

    def _distances(self, y: float) -> None:
        """The scale of distances, with as many stations told as there is room for."""
        sheet, stations = self._sheet, self._survey.stations
        left, right = self.scale.x(stations[0].distance), self.scale.x(stations[-1].distance)
        sheet.line((left, y), (right, y), width=0.9, stroke=FAINT)
        last = display(stations[-1].distance, self._distance)
        room = right - text_width(last) - 8.0
        # the fewest stations left out evenly, so that the words keep apart
        for step in range(1, len(stations) + 1):
            rows = []
            for station in stations[::step]:
                words = display(station.distance, self._distance).rpartition(" ")[0]
                half = text_width(words) / 2.0
                rows.append((max(self.scale.x(station.distance), MARGIN + half), half, words))
            rows = [row for row in rows if row[0] + row[1] <= room or row is rows[0]]
            if all(two[0] - two[1] - one[0] - one[1] >= 8.0 for one, two in pairwise(rows)):
                break
        for x, _, words in rows:
            sheet.line((x, y - 3.0), (x, y + 3.0), width=0.9, stroke=FAINT)
            sheet.text(x, y + LINE, words, anchor="middle", fill=FAINT)
        if rows[0][0] + rows[0][1] <= room:
            sheet.line((right, y - 3.0), (right, y + 3.0), width=0.9, stroke=FAINT)
            sheet.text(min(right + 6.0, WIDTH - MARGIN), y + LINE, last, anchor="end", fill=FAINT)
        else:
            sheet.text(max(right, MARGIN) + 40.0, y + LINE, self._say("(all at {distance})", distance=last), fill=FAINT)


def _shortage(segment: Segment) -> float:
    """The pitch, the worst first; vertical risers by their height before all."""
    return segment.fall - 1e3 if segment.pitch_ratio is None else segment.pitch_ratio


def _extent(points: Sequence[Point]) -> float:
    """The larger of width and height."""
    across, down = zip(*points, strict=True)
    return float(max(max(across) - min(across), max(down) - min(down)))


def _cut(one: SurveyedStation, two: SurveyedStation, level: float, bore: float) -> list[tuple[float, float]]:
    """The wet bottom between two stations: its ends, and where the water meets the top of the bore."""
    marks = [0.0, 1.0]
    if one.invert != two.invert:
        for height in (level, level - bore):
            share = (height - one.invert) / (two.invert - one.invert)
            if 0.0 < share < 1.0:
                marks.append(share)
    corners = []
    for share in sorted(marks):
        height = one.invert + share * (two.invert - one.invert)
        if height <= level + SLACK:
            corners.append((one.distance + share * (two.distance - one.distance), height))
    return corners
