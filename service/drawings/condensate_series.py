"""The water of a series over its time: largest rate and average of each day, the peak, the capacity, the months."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from math import ceil, floor, log10
from typing import Any

from service.calculations.answer import Answer
from service.calculations.condensate_series import ALWAYS_ROW_BY_ROW, SeriesRate
from service.calculations.timeline import DAY, HOUR
from service.drawings.sheet import (
    FAINT,
    INK,
    LINE,
    MARGIN,
    WARN,
    WATER,
    WIDTH,
    Anchor,
    Point,
    Say,
    Sheet,
    saying,
    text_width,
)
from service.units import SYMBOLS, display

UNITS = {"us": ("gal/h", "gal"), "si": ("L/h", "L")}

_LEFT, _RIGHT = 46.0, WIDTH - MARGIN
_HEIGHT = 170.0
_WIDEST = 44.0
"""Of one bar, so that a single row does not fill the sheet [sheet units]."""

_MOST_BARS = 366
_CLOSEST = 58.0
"""From one label below the chart to the next, where they are not months [sheet units]."""

_HEADROOM = 1.15
_SMALL = 12.0
"""Type of the months below a chart, twelve of which stand side by side."""

_FARTHEST = 3.0
"""A capacity more than this many times the peak is told in words only: to its scale the water would be a line."""

_MOST_MONTHS = 14
_BARS_LEFT, _BARS_LONG = 58.0, 170.0
_MONTHS = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")


@dataclass(frozen=True, kw_only=True, slots=True)
class _Bar:
    """One row, one day, or several days.

    Parameters
    ----------
    begin : datetime
    peak : float or None
        Largest rate [m3/s]; None without one.
    average : float or None
        Average rate [m3/s]; None of a single row.
    """

    begin: datetime
    peak: float | None
    average: float | None = None


def draw_series(
    body: Mapping[str, Any], answer: Answer[SeriesRate], written: Mapping[str, Any], system: str, language: str
) -> str:
    """Draw the water of a series: rates over time with the peak, then the months.

    Parameters
    ----------
    body : mapping
        Arguments of `service.calculations.condensate_series.rate_series` [SI].
    answer : Answer of SeriesRate
    written : mapping
        The same answer as JSON has it.
    system : str
        ``us`` or ``si``.
    language : str
        One of `service.tables.languages.LANGUAGES`.

    Returns
    -------
    str
        SVG.
    """
    results = answer.results
    rate_unit, volume_unit = UNITS[system]
    first, last = results.daily.dates[0], results.daily.dates[-1]
    say, days_told = saying(language), {"first": str(first), "last": str(last)}
    title = say("Condensate on {first}" if first == last else "Condensate from {first} to {last}", **days_told)
    told = _told(results, volume_unit, say)
    peak = _peak_words(results, rate_unit, say)
    sheet = Sheet(title, f"{title}. {told} {peak}".strip(), language)
    sheet.paragraph(told)
    bars, days = _bars(body, results)
    _draw_chart(sheet, bars, days, results, body.get("drain_capacity"), peak, system, say)
    if len(results.monthly) > 1 and results.total_volume:
        _draw_months(sheet, results, volume_unit, say)
    if results.storage is not None:
        sheet.bottom += 4.0
        sheet.paragraph(_storage_words(results, body["reuse"].daily_demand, volume_unit, say))
    sheet.findings(written["findings"])
    return sheet.write()


def _told(results: SeriesRate, volume_unit: str, say: Say) -> str:
    rows = say("1 row" if results.rows == 1 else "{count} rows", count=f"{results.rows:,}")
    if results.total_volume is None or results.average_daily_volume is None:
        return say("{rows}, none with a rate.", rows=rows)
    text = "In all {total} in {rows}; on average {average} a day."
    if results.rows_without_rate:
        text = "In all {total} in {rows}, {lost} of them without a rate; on average {average} a day."
    return say(
        text,
        total=display(results.total_volume, volume_unit),
        rows=rows,
        lost=f"{results.rows_without_rate:,}",
        average=display(results.average_daily_volume, volume_unit),
    )


def _peak_words(results: SeriesRate, rate_unit: str, say: Say) -> str:
    if results.peak_time is None or results.peak_rate is None:
        return ""
    return say(
        "most: {rate}, {time}", rate=display(results.peak_rate, rate_unit), time=results.peak_time.replace("T", " ")
    )


def _storage_words(results: SeriesRate, daily_demand: float, volume_unit: str, say: Say) -> str:
    storage, wanted = results.storage, display(daily_demand, volume_unit)
    if storage is None or storage.needed_volume is None:
        return say("Re-use: {wanted} a day is more than there is.", wanted=wanted)
    tank = display(storage.needed_volume, volume_unit)
    words = say("Re-use: {wanted} a day needs a tank of {tank}.", wanted=wanted, tank=tank)
    if storage.met_fraction is not None:
        words += " " + say("The tank there is meets {percent} % of it.", percent=f"{100.0 * storage.met_fraction:.0f}")
    return words


def _bars(body: Mapping[str, Any], results: SeriesRate) -> tuple[list[_Bar], int]:
    """What is drawn: rows of a short series, otherwise days, and how many of them together; 0 for rows."""
    if results.hourly is not None and results.rows <= ALWAYS_ROW_BY_ROW:
        step = timedelta(seconds=body.get("step") or HOUR)
        return [_Bar(begin=body["start"] + row * step, peak=rate) for row, rate in enumerate(results.hourly.rates)], 0
    dates, volumes, peaks = results.daily.dates, results.daily.volumes, results.daily.peak_rates
    days = ceil(len(dates) / _MOST_BARS)
    bars = []
    for at in range(0, len(dates), days):
        together = volumes[at : at + days]
        average = sum(together) / len(together) / DAY
        bars.append(_Bar(begin=datetime.fromisoformat(dates[at]), peak=max(peaks[at : at + days]), average=average))
    return bars, days


def _ticks(most: float) -> list[float]:
    """Round numbers from zero to about ``most``, three to six of them."""
    rough = most / 4.0
    power = 10.0 ** floor(log10(rough))
    step = next(factor * power for factor in (1.0, 2.0, 5.0, 10.0) if factor * power >= rough * (1.0 - 1e-9))
    return [number * step for number in range(int(most / step + 1e-9) + 1)]


def _draw_chart(
    sheet: Sheet,
    bars: Sequence[_Bar],
    days: int,
    results: SeriesRate,
    capacity: float | None,
    peak_words: str,
    system: str,
    say: Say,
) -> None:
    rate_unit = UNITS[system][0]
    unit = SYMBOLS[rate_unit]
    most = max((bar.peak for bar in bars if bar.peak), default=0.0)
    shown = capacity if capacity is not None and (most == 0.0 or capacity <= _FARTHEST * most) else None
    top_rate = _HEADROOM * max(most, shown or 0.0) or unit.to_si(1.0)
    top = sheet.space(2.2 * LINE + _HEIGHT + (1.6 if days else 2.5) * LINE) + 2.2 * LINE
    base = top + _HEIGHT
    wide = min((_RIGHT - _LEFT) / len(bars), _WIDEST)

    def y(rate: float) -> float:
        return base - rate / top_rate * _HEIGHT

    sheet.text(MARGIN, top - 0.7 * LINE, rate_unit)
    for tick in _ticks(unit.from_si(top_rate)):
        at = y(unit.to_si(tick))
        sheet.line((_LEFT - 3.0, at), (_RIGHT, at), width=0.5, stroke=FAINT if tick else INK)
        sheet.text(_LEFT - 5.0, at + 4.5, f"{tick:,.10g}", anchor="end")
    filled = [bar.peak if bar.average is None else bar.average for bar in bars]
    sheet.area(*_stairs(filled, wide, y))
    for index, bar in enumerate(bars):
        left, right = _LEFT + index * wide, _LEFT + (index + 1) * wide
        if bar.peak is None:
            sheet.text((left + right) / 2.0, base - 3.0, "?", anchor="middle", weight="bold")
        elif shown is not None and bar.peak > shown:
            _box(sheet, left, right, y(bar.peak), y(shown), WARN)
    sheet.line(*_stairs([bar.peak for bar in bars], wide, y), width=0.8)
    if not days and wide > 4.0:
        for index in range(1, len(bars)):
            lower = min(bars[index - 1].peak or 0.0, bars[index].peak or 0.0)
            sheet.line((_LEFT + index * wide, base), (_LEFT + index * wide, y(lower)), width=0.4)
    _time_labels(sheet, bars, days, wide, base, say)
    peak_at = max(range(len(bars)), key=lambda index: bars[index].peak or 0.0)
    peak_x = _LEFT + (peak_at + 0.5) * wide
    if shown is not None:
        _limit(sheet, _LEFT, _RIGHT, y(shown))
    if peak_words:
        half = 0.5 * text_width(peak_words)
        anchor: Anchor = "middle"
        x = peak_x
        if peak_x + half > _RIGHT:
            anchor, x = "end", _RIGHT
        elif peak_x - half < _LEFT + 40.0:
            anchor, x = "start", max(min(peak_x, _RIGHT - 2.0 * half), _LEFT + 40.0)
        sheet.text(x, top - 0.7 * LINE, peak_words, anchor=anchor, weight="bold")
        sheet.line((peak_x, top - 0.5 * LINE), (peak_x, y(most) - 4.0), width=0.7)
        sheet.circle((peak_x, y(most)), 3.5, width=1.4)
    _legend(sheet, days, shown, capacity, most, rate_unit, say)
    if results.rows_without_rate and not days:
        sheet.paragraph(f"?  {say('no rate in this row')}")


def _limit(sheet: Sheet, left: float, right: float, at: float) -> None:
    """The line of what the drain or pump takes."""
    sheet.line((left, at), (right, at), width=1.8, dash=(7.0, 4.0), stroke=WARN)


def _box(sheet: Sheet, left: float, right: float, upper: float, lower: float, fill: str) -> None:
    if lower - upper > 0.005:
        sheet.area((left, upper), (right, upper), (right, lower), (left, lower), fill=fill)


def _stairs(rates: Sequence[float | None], wide: float, y: Callable[[float], float]) -> list[Point]:
    """The corners over the tops of all bars, from the base to the base."""
    points: list[Point] = [(_LEFT, y(0.0))]
    for index, rate in enumerate(rates):
        height = y(rate or 0.0)
        points += [(_LEFT + index * wide, height), (_LEFT + (index + 1) * wide, height)]
    return [*points, (_LEFT + len(rates) * wide, y(0.0))]


def _time_labels(sheet: Sheet, bars: Sequence[_Bar], days: int, wide: float, base: float, say: Say) -> None:
    """Months below a year, years below many, otherwise some days or times."""
    length = len(bars) * max(days, 0)
    if days and length > 45:
        yearly = length > 31 * _MOST_MONTHS
        starts = [0] + [
            index
            for index in range(1, len(bars))
            if (bars[index].begin.year != bars[index - 1].begin.year)
            or (not yearly and bars[index].begin.month != bars[index - 1].begin.month)
        ]
        free = 0.0
        for start, after in zip(starts, [*starts[1:], len(bars)], strict=True):
            x0, x1 = _LEFT + start * wide, _LEFT + after * wide
            sheet.line((x0, base), (x0, base + 5.0), width=0.8)
            begin = bars[start].begin
            word = str(begin.year) if yearly else say(_MONTHS[begin.month - 1])
            half = 0.5 * text_width(word, _SMALL)
            middle = (x0 + x1) / 2.0
            if middle - half >= free and middle + half <= WIDTH - 2.0:
                sheet.text(middle, base + LINE, word, anchor="middle", size=_SMALL)
                free = middle + half
        return
    every = max(ceil(_CLOSEST / wide), 1)
    daily = bool(days) or (len(bars) > 1 and all(bar.begin.time() == bars[0].begin.time() for bar in bars))
    told = ""
    for index in range(0, len(bars), every):
        x = _LEFT + (index + 0.5) * wide
        sheet.line((x, base), (x, base + 4.0), width=0.8)
        begin = bars[index].begin
        day = say("{month} {day}", month=say(_MONTHS[begin.month - 1]), day=str(begin.day))
        words = [day] if daily else [f"{begin:%H:%M}", day if day != told else ""]
        told = day
        for line, word in enumerate(words, start=1):
            half = 0.5 * text_width(word)
            if word and x + half <= WIDTH - 2.0:
                sheet.text(max(x, half + 2.0), base + line * LINE, word, anchor="middle")


def _legend(
    sheet: Sheet, days: int, shown: float | None, capacity: float | None, most: float, rate_unit: str, say: Say
) -> None:
    """What the marks mean."""
    rows: list[tuple[str, str]] = [(WATER, say("rate of each row while the coil runs"))]
    if days == 1:
        rows = [(INK, say("largest rate of a day while the coil runs")), (WATER, say("average of a day"))]
    elif days:
        rows = [
            (INK, say("largest rate of {days} days while the coil runs", days=str(days))),
            (WATER, say("average of {days} days", days=str(days))),
        ]
    if shown is not None:
        rows.append(("", say("the drain or pump takes {rate}", rate=display(shown, rate_unit))))
        if most > shown:
            rows.append((WARN, say("more comes than it takes")))
    for fill, words in rows:
        top = sheet.space(LINE)
        if fill == INK:
            sheet.line((MARGIN, top + 7.0), (MARGIN + 16.0, top + 7.0), width=1.2)
        elif not fill:
            _limit(sheet, MARGIN, MARGIN + 18.0, top + 7.0)
        else:
            _box(sheet, MARGIN, MARGIN + 16.0, top + 2.0, top + 12.0, fill)
        sheet.text(MARGIN + 26.0, top + 0.72 * LINE, words)
    if capacity is not None and shown is None:
        far = say("The drain or pump takes {rate}, far above what is drawn.", rate=display(capacity, rate_unit))
        sheet.paragraph(far)


def _draw_months(sheet: Sheet, results: SeriesRate, volume_unit: str, say: Say) -> None:
    """Water of each month, or of each year where the months are too many."""
    yearly = len(results.monthly) > _MOST_MONTHS
    totals: dict[str, float] = {}
    lost: dict[str, int] = {}
    for month in results.monthly:
        name = month.month[:4] if yearly else month.month
        totals[name] = totals.get(name, 0.0) + month.volume
        lost[name] = lost.get(name, 0) + month.rows_without_rate
    most = max(totals.values())
    sheet.bottom += 6.0
    sheet.paragraph(say("Water of each year" if yearly else "Water of each month"), weight="bold")
    for name, volume in totals.items():
        top = sheet.space(LINE)
        word = name if yearly else f"{say(_MONTHS[date.fromisoformat(name + '-01').month - 1])} {name[2:4]}"
        sheet.text(MARGIN, top + 0.75 * LINE, word)
        long = _BARS_LONG * volume / most
        _rod(sheet, top, long)
        mark = " *" if lost[name] else ""
        sheet.text(_BARS_LEFT + long + 5.0, top + 0.75 * LINE, display(volume, volume_unit) + mark)
    if any(lost.values()):
        sheet.paragraph(f"*  {say('some rows have no rate and add nothing')}")


def _rod(sheet: Sheet, top: float, long: float) -> None:
    if long > 0.05:
        x0, x1, y0, y1 = _BARS_LEFT, _BARS_LEFT + long, top + 3.0, top + LINE - 3.0
        sheet.area((x0, y0), (x1, y0), (x1, y1), (x0, y1), fill=WATER, stroke=INK, width=0.7)
