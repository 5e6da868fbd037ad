"""The sheet every drawing is made on: one width, one type, words wrapped and labels kept apart.

The sheet is as wide as a phone held upright, so that its type can be read there; on a larger screen it grows as a
whole. Everything is drawn in presentation attributes, without a style sheet, script, font or
anything from elsewhere, so that it shows under any content security policy. Nothing is told by
colour alone: lines differ in dash and width, and everything has its words beside it.
"""

import textwrap
from collections.abc import Callable, Mapping, Sequence
from html import escape
from typing import Literal

import svg

from service.tables.languages import ENGLISH, said

WIDTH = 360.0
"""Width of every sheet [sheet units]; its height follows from what is on it."""

MARGIN = 10.0
TYPE = 13.0
"""Size of the type; about 11.5 pixels on the narrowest phones, 320 pixels wide."""

LINE = 16.5
"""From one line of type to the next."""

LETTER = 0.54
"""Width of an average letter over the size of the type; generous, for the font is the reader's own."""

INK, FAINT, WATER, WARN, PAPER = "#1a1a1a", "#6b6b6b", "#a9d0ea", "#b00020", "#ffffff"

Anchor = Literal["start", "middle", "end"]
Point = tuple[float, float]
Say = Callable[..., str]
"""Says a text of ours in the language of a drawing, its placeholders filled in."""

_SEVERITY_WORDS = {"fail": "FAIL", "attention": "ATTENTION"}
_COLORS = {"fail": WARN, "attention": INK}


def saying(language: str) -> Say:
    """What says the words of a drawing in a language of `service.tables.languages.LANGUAGES`.

    Examples
    --------
    >>> saying("en")("pan {depth} deep", depth="1 in")
    'pan 1 in deep'
    """
    return lambda text, **values: said(text, language).format(**values)


def rounded(value: float) -> float:
    """A coordinate to a hundredth of a sheet unit."""
    return round(value, 2) + 0.0


def _corners(points: Sequence[Point]) -> list[svg.Point]:
    return [svg.Point(rounded(x), rounded(y)) for x, y in points]


def text_width(text: str, size: float = TYPE) -> float:
    """About how wide a text is [sheet units]."""
    return LETTER * size * len(text)


def wrapped(text: str, width: float, size: float = TYPE) -> list[str]:
    """The lines of a text that is not to be wider than ``width`` [sheet units]."""
    return textwrap.wrap(text, max(int(width / (LETTER * size)), 8)) or [""]


def spread(targets: Sequence[float], gap: Sequence[float], low: float, high: float) -> list[float]:
    """Places near their targets that keep their distance.

    Parameters
    ----------
    targets : sequence of float
        Where each of them would stand, ascending.
    gap : sequence of float
        Room each of them takes, half to either side.
    low, high : float
        Between which they stand, where there is room enough.

    Returns
    -------
    list of float

    Examples
    --------
    >>> spread([10.0, 11.0, 50.0], [8.0, 8.0, 8.0], 0.0, 100.0)
    [6.5, 14.5, 50.0]
    """
    groups: list[tuple[float, float, int]] = []  # middle, room, count of neighbours that touch
    for target, room in zip(targets, gap, strict=True):
        middle, size, count = target, room, 1
        while groups and groups[-1][0] + groups[-1][1] / 2.0 > middle - size / 2.0:
            before, its_size, its_count = groups.pop()
            middle = (before * its_count + middle * count) / (its_count + count)
            size, count = size + its_size, count + its_count
        groups.append((middle, size, count))
    places: list[float] = []
    for middle, size, count in groups:
        top = middle - size / 2.0
        for _ in range(count):
            room = gap[len(places)]
            places.append(top + room / 2.0)
            top += room
    for index in range(len(places)):  # down from the upper edge, then up from the lower one
        above = low if index == 0 else places[index - 1] + gap[index - 1] / 2.0
        places[index] = max(places[index], above + gap[index] / 2.0)
    for index in reversed(range(len(places))):
        below = high if index == len(places) - 1 else places[index + 1] - gap[index + 1] / 2.0
        places[index] = min(places[index], below - gap[index] / 2.0)
    return places


class Sheet:
    """A drawing in the making.

    Parameters
    ----------
    title : str
        What it shows; drawn as its heading and read out as its title.
    description : str
        The same in words for who cannot see it.
    language : str
        Of what the sheet says by itself.

    Attributes
    ----------
    bottom : float
        Down to where the sheet is used [sheet units]; what is added below it moves it on.
    """

    def __init__(self, title: str, description: str, language: str = ENGLISH) -> None:
        self._title, self._description, self._say = title, description, saying(language)
        self._elements: list[svg.Element] = []
        self.bottom = MARGIN
        self.paragraph(title, size=TYPE + 2.0, weight="bold")

    def line(
        self, *points: Point, width: float = 1.0, dash: tuple[float, ...] | None = None, stroke: str = INK
    ) -> None:
        """Draw a line through points."""
        self._elements.append(
            svg.Polyline(
                points=_corners(points),
                fill="none",
                stroke=stroke,
                stroke_width=width,
                stroke_dasharray=list(dash) if dash else None,
                stroke_linejoin="round",
            )
        )

    def area(self, *points: Point, fill: str = WATER, stroke: str | None = None, width: float = 1.0) -> None:
        """Fill the area between points."""
        self._elements.append(svg.Polygon(points=_corners(points), fill=fill, stroke=stroke, stroke_width=width))

    def circle(self, center: Point, radius: float, *, fill: str = PAPER, stroke: str = INK, width: float = 1.0) -> None:
        """Draw a circle."""
        x, y = center
        self._elements.append(
            svg.Circle(cx=rounded(x), cy=rounded(y), r=rounded(radius), fill=fill, stroke=stroke, stroke_width=width)
        )

    def text(
        self,
        x: float,
        y: float,
        text: str,
        *,
        size: float = TYPE,
        anchor: Anchor = "start",
        weight: Literal["normal", "bold"] = "normal",
        fill: str = INK,
    ) -> None:
        """Write one line with its baseline at ``y``."""
        self._elements.append(
            svg.Text(
                x=rounded(x),
                y=rounded(y),
                text=escape(text, quote=False),
                font_size=size,
                text_anchor=anchor,
                font_weight=weight,
                fill=fill,
            )
        )

    def paragraph(
        self,
        text: str,
        *,
        size: float = TYPE,
        weight: Literal["normal", "bold"] = "normal",
        fill: str = INK,
        indent: float = 0.0,
    ) -> None:
        """Write a text below everything else, in as many lines as it needs."""
        line = LINE * size / TYPE
        for row in wrapped(text, WIDTH - 2.0 * MARGIN - indent, size * (1.06 if weight == "bold" else 1.0)):
            self.bottom += line
            self.text(MARGIN + indent, self.bottom - 0.28 * line, row, size=size, weight=weight, fill=fill)

    def space(self, height: float) -> float:
        """Take room for a figure below everything else and return its upper edge."""
        top = self.bottom
        self.bottom += height
        return top

    def level_mark(self, x: float, y: float) -> None:
        """Mark a water surface with the triangle draughtsmen use."""
        self.area((x - 4.0, y - 6.0), (x + 4.0, y - 6.0), (x, y), fill=PAPER, stroke=INK, width=0.8)

    def arrow(self, start: Point, end: Point, *, width: float = 1.2, stroke: str = INK) -> None:
        """Draw an arrow."""
        (x0, y0), (x1, y1) = start, end
        length = max(((x1 - x0) ** 2 + (y1 - y0) ** 2) ** 0.5, 1e-9)
        dx, dy = (x1 - x0) / length, (y1 - y0) / length
        head = min(6.0, length)
        back = (x1 - head * dx, y1 - head * dy)
        self.line(start, back, width=width, stroke=stroke)
        self.area(
            end,
            (back[0] - 0.45 * head * dy, back[1] + 0.45 * head * dx),
            (back[0] + 0.45 * head * dy, back[1] - 0.45 * head * dx),
            fill=stroke,
        )

    def height(self, x: float, upper: float, lower: float) -> None:
        """Draw a dimension line between two heights: a bar with a tick at either end."""
        self.line((x, upper), (x, lower), width=0.9)
        for y in (upper, lower):
            self.line((x - 4.0, y), (x + 4.0, y), width=0.9)

    def labels(self, x: float, rows: Sequence[tuple[Point, str]], *, low: float, high: float, right: float) -> None:
        """Write labels in a column, each led to by a thin line from the point it is about.

        Parameters
        ----------
        x : float
            Left edge of the column [sheet units].
        rows : sequence of (point, text)
            In any order.
        low, high : float
            Between which heights they stand.
        right : float
            Right edge of the column.
        """
        rows = sorted(rows, key=lambda row: row[0][1])
        texts = [wrapped(text, right - x) for _, text in rows]
        gaps = [LINE * len(lines) + 3.0 for lines in texts]
        places = spread([point[1] for point, _ in rows], gaps, low, high)
        for (point, _), lines, place in zip(rows, texts, places, strict=True):
            self.line(point, (x - 10.0, place), (x - 3.0, place), width=0.7, stroke=FAINT)
            top = place - LINE * len(lines) / 2.0
            for number, line in enumerate(lines):
                self.text(x, top + LINE * (number + 0.75), line)

    def findings(self, findings: Sequence[Mapping[str, str]] | None) -> None:
        """Write what is wrong below the drawing: severity in a word, then the message; what is only noted is left out.

        Parameters
        ----------
        findings : sequence of mapping or None
            Findings as the answer has them, worst first: ``severity`` and ``message``; None where they stand elsewhere.
        """
        if findings is None:
            return
        told = [finding for finding in findings if finding["severity"] != "info"]
        self.bottom += 4.0
        for finding in told:
            self.bottom += 4.0
            self.paragraph(
                self._say(_SEVERITY_WORDS[finding["severity"]]), weight="bold", fill=_COLORS[finding["severity"]]
            )
            self.paragraph(finding["message"])
        if not told:
            self.paragraph(self._say("Nothing here needs mending."), weight="bold")

    def write(self) -> str:
        """The drawing as SVG text."""
        height = rounded(self.bottom + MARGIN)
        drawing = svg.SVG(
            viewBox=svg.ViewBoxSpec(0, 0, WIDTH, height),
            extra={"role": "img", "font-family": "Helvetica, Arial, sans-serif"},
            elements=[
                svg.Title(text=escape(self._title, quote=False)),
                svg.Desc(text=escape(self._description, quote=False)),
                svg.Rect(x=0, y=0, width=WIDTH, height=height, fill=PAPER),
                *self._elements,
            ],
        )
        return drawing.as_str() + "\n"
