"""A surveyed drain line: its profile, what the signs on it mean, and what is wrong with it."""

from collections.abc import Mapping
from typing import Any

from service.calculations.answer import Answer
from service.calculations.drain_survey import DrainSurvey
from service.drawings.drain_profile import FALLS_SHORT, MOST_LABELS, MOST_MARKED, RISES, SYMBOLS, Figure, Scale, deepest
from service.drawings.sheet import FAINT, INK, LINE, MARGIN, WARN, Sheet
from service.units import display, plain


def draw_drain_survey(
    body: Mapping[str, Any], answer: Answer[DrainSurvey], written: Mapping[str, Any], system: str, language: str
) -> str:
    """Draw a surveyed line in profile, heights enlarged.

    Parameters
    ----------
    body : mapping
        Arguments of `service.calculations.drain_survey.survey_drain` [SI].
    answer : Answer of DrainSurvey
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
    survey = answer.results
    sheet = Sheet(_title(survey, system), _description(survey, system))
    figure = Figure(sheet, survey, system)
    sheet.paragraph(_scale_words(figure.scale, survey, system), fill=FAINT)
    figure.draw()
    _key(sheet, survey)
    sheet.findings(written["findings"])
    return sheet.write()


def _title(survey: DrainSurvey, system: str) -> str:
    """What it is and the worst of it."""
    length, distance, _ = SYMBOLS[system]
    way = "falls" if survey.total_fall >= 0.0 else "rises"
    kind = "Vertical drain line" if survey.pitch_ratio is None else f"Drain line of {display(survey.run, distance)}"
    line = f"{kind}, {way} {display(abs(survey.total_fall), length)}"
    if any(pond.fills_bore for pond in survey.ponds):
        return f"{line}: standing water fills the bore"
    if any(pond.reaches_pan for pond in survey.ponds):
        return f"{line}: water stands back to the pan"
    if survey.ponds:
        return f"{line}: water stands in it"
    if any(segment.judgement in RISES + FALLS_SHORT for segment in survey.segments):
        return f"{line}: not enough fall everywhere"
    return f"{line}: it falls all the way"


def _description(survey: DrainSurvey, system: str) -> str:
    """The picture in words."""
    length, distance, volume = SYMBOLS[system]
    words = [f"Profile of a drain line through {len(survey.stations)} stations, from the pan on the left."]
    for pond in deepest(survey.ponds):
        full = ", filling the bore" if pond.fills_bore else ""
        held = "" if pond.volume is None else f", {display(pond.volume, volume)}"
        words.append(
            f"Water stands {display(pond.depth, length)} deep from {display(pond.start, distance)} to "
            f"{display(pond.end, distance)}{held}{full}."
        )
    if not survey.ponds:
        words.append("No water stands in it.")
    rising = [segment for segment in survey.segments if segment.judgement in RISES]
    words += [
        f"It rises {display(-one.fall, length)} from {display(one.start, distance)} to {display(one.end, distance)}."
        for one in sorted(rising, key=lambda one: one.fall)[:MOST_LABELS]
    ]
    return " ".join(words)


def _scale_words(scale: Scale, survey: DrainSurvey, system: str) -> str:
    """What is to scale and what is enlarged."""
    bore = f"Bore {display(survey.bore, SYMBOLS[system][0])}." if survey.bore else "Bore not known, drawn as 1 in."
    factor = scale.up / scale.across
    if factor < 1.05:
        return f"Distances and heights are to one scale. {bore}"
    return f"Distances are to scale; heights and bore are drawn {plain(factor, 2)} times as large. {bore}"


def _key(sheet: Sheet, survey: DrainSurvey) -> None:
    """What the signs mean, of those that are there."""
    judgements = {segment.judgement for segment in survey.segments}
    rows: list[tuple[str, str]] = []
    if survey.ponds:
        more = len(survey.ponds) - MOST_LABELS
        told = f" ({more} more than are labelled)" if more > 0 else ""
        rows.append(("water", f"water that stands when the drain has stopped{told}"))
    if any(pond.fills_bore for pond in survey.ponds):
        rows.append(("full", "water fills the bore: a second trap"))
    if judgements & set(RISES):
        rising = sum(segment.judgement in RISES for segment in survey.segments)
        marked = f" (the {MOST_MARKED} steepest of {rising:,})" if rising > MOST_MARKED else ""
        rows.append(("rises", f"rises downstream: back-fall{marked}"))
    if judgements & set(FALLS_SHORT):
        short = sum(segment.judgement in FALLS_SHORT for segment in survey.segments)
        marked = f" (the {MOST_MARKED} flattest of {short:,})" if short > MOST_MARKED else ""
        rows.append(("short", f"level, or falls less than the code minimum{marked}"))
    for sign, words in rows:
        y = sheet.bottom + 0.55 * LINE
        left, right = MARGIN, MARGIN + 24.0
        if sign in ("water", "full"):
            sheet.area((left, y - 5.0), (right, y - 5.0), (right, y + 5.0), (left, y + 5.0))
        if sign == "full":
            for x in (4.0, 8.0, 12.0, 16.0, 20.0):
                sheet.line((left + x, y + 5.0), (left + x + 3.0, y - 5.0), width=0.9)
        if sign in ("rises", "short"):
            sheet.line((left, y), (right, y), width=1.6)
            dash, stroke = ((6.0, 3.5), WARN) if sign == "rises" else ((1.5, 3.0), INK)
            sheet.line((left, y), (right, y), width=4.0, dash=dash, stroke=stroke)
        sheet.paragraph(words, indent=32.0)
