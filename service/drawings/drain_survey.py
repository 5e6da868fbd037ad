"""A surveyed drain line: its profile, what the signs on it mean, and what is wrong with it."""

from collections.abc import Mapping
from typing import Any

from service.calculations.answer import Answer
from service.calculations.drain_survey import DrainSurvey
from service.drawings.drain_profile import FALLS_SHORT, MOST_LABELS, MOST_MARKED, RISES, SYMBOLS, Figure, Scale, deepest
from service.drawings.sheet import FAINT, INK, LINE, MARGIN, WARN, Say, Sheet, saying
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
    say = saying(language)
    sheet = Sheet(_title(survey, system, say), _description(survey, system, say), language)
    figure = Figure(sheet, survey, system, say)
    sheet.paragraph(_scale_words(figure.scale, survey, system, say), fill=FAINT)
    figure.draw()
    _key(sheet, survey, say)
    sheet.findings(written["findings"])
    return sheet.write()


def _title(survey: DrainSurvey, system: str, say: Say) -> str:
    """What it is and the worst of it."""
    length, distance, _ = SYMBOLS[system]
    falls = survey.total_fall >= 0.0
    if survey.pitch_ratio is None:
        line = "Vertical drain line, falls {fall}" if falls else "Vertical drain line, rises {fall}"
    else:
        line = "Drain line of {run}, falls {fall}" if falls else "Drain line of {run}, rises {fall}"
    if any(pond.fills_bore for pond in survey.ponds):
        worst = "standing water fills the bore"
    elif any(pond.reaches_pan for pond in survey.ponds):
        worst = "water stands back to the pan"
    elif survey.ponds:
        worst = "water stands in it"
    elif any(segment.judgement in RISES + FALLS_SHORT for segment in survey.segments):
        worst = "not enough fall everywhere"
    else:
        worst = "it falls all the way"
    lengths = {"run": display(survey.run, distance), "fall": display(abs(survey.total_fall), length)}
    return f"{say(line, **lengths)}: {say(worst)}"


def _description(survey: DrainSurvey, system: str, say: Say) -> str:
    """The picture in words."""
    length, distance, volume = SYMBOLS[system]
    profile = "Profile of a drain line through {count} stations, from the pan on the left."
    words = [say(profile, count=str(len(survey.stations)))]
    for pond in deepest(survey.ponds):
        stands = "Water stands {depth} deep from {start} to {end}{held}."
        if pond.fills_bore:
            stands = "Water stands {depth} deep from {start} to {end}{held}, filling the bore."
        words.append(
            say(
                stands,
                depth=display(pond.depth, length),
                start=display(pond.start, distance),
                end=display(pond.end, distance),
                held="" if pond.volume is None else f", {display(pond.volume, volume)}",
            )
        )
    if not survey.ponds:
        words.append(say("No water stands in it."))
    rising = [segment for segment in survey.segments if segment.judgement in RISES]
    words += [
        say(
            "It rises {rise} from {start} to {end}.",
            rise=display(-one.fall, length),
            start=display(one.start, distance),
            end=display(one.end, distance),
        )
        for one in sorted(rising, key=lambda one: one.fall)[:MOST_LABELS]
    ]
    return " ".join(words)


def _scale_words(scale: Scale, survey: DrainSurvey, system: str, say: Say) -> str:
    """What is to scale and what is enlarged."""
    bore = say("Bore not known, drawn as 1 in.")
    if survey.bore:
        bore = say("Bore {bore}.", bore=display(survey.bore, SYMBOLS[system][0]))
    factor = scale.up / scale.across
    if factor < 1.05:
        return f"{say('Distances and heights are to one scale.')} {bore}"
    enlarged = "Distances are to scale; heights and bore are drawn {times} times as large."
    return f"{say(enlarged, times=plain(factor, 2))} {bore}"


def _key(sheet: Sheet, survey: DrainSurvey, say: Say) -> None:
    """What the signs mean, of those that are there."""
    judgements = {segment.judgement for segment in survey.segments}
    rows: list[tuple[str, str]] = []
    if survey.ponds:
        more = len(survey.ponds) - MOST_LABELS
        stands = "water that stands when the drain has stopped"
        if more > 0:
            stands = "water that stands when the drain has stopped ({more} more than are labelled)"
        rows.append(("water", say(stands, more=str(more))))
    if any(pond.fills_bore for pond in survey.ponds):
        rows.append(("full", say("water fills the bore: a second trap")))
    if judgements & set(RISES):
        rising = sum(segment.judgement in RISES for segment in survey.segments)
        text = "rises downstream: back-fall"
        if rising > MOST_MARKED:
            text = "rises downstream: back-fall (the {marked} steepest of {count})"
        rows.append(("rises", say(text, marked=str(MOST_MARKED), count=f"{rising:,}")))
    if judgements & set(FALLS_SHORT):
        short = sum(segment.judgement in FALLS_SHORT for segment in survey.segments)
        text = "level, or falls less than the code minimum"
        if short > MOST_MARKED:
            text = "level, or falls less than the code minimum (the {marked} flattest of {count})"
        rows.append(("short", say(text, marked=str(MOST_MARKED), count=f"{short:,}")))
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
