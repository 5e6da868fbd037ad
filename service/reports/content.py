"""What an assessment's report says, before anyone decides how it looks."""

from collections.abc import Mapping
from dataclasses import asdict, dataclass
from html import unescape
from typing import Any

from service.calculations.answer import Answer
from service.calculations.assessment import Assessment
from service.drawings.drain_survey import draw_drain_survey
from service.drawings.pump_run import draw_pump_run
from service.drawings.trap import draw_trap_check
from service.tables.concerns import CONCERN_OF, CONCERNS
from service.tables.languages import AND, ENGLISH, said
from service.units import plain

TAGS = {ENGLISH: "en-US"}
"""Of a language that is written as in one country."""

VERDICT_WORDS = {"fail": "Needs repair", "attention": "Works, but wants attention", "pass": "In order"}
SEVERITY_WORDS = {"fail": "Fail", "attention": "Attention", "info": "Note"}
_STATUS_WORDS = {"pass": "in order", "attention": "wants attention", "fail": "needs repair"}


@dataclass(frozen=True, kw_only=True, slots=True)
class Told:
    """One concern, as the owner reads it."""

    severity: str
    heading: str
    found: str
    means: str
    advice: str


@dataclass(frozen=True, kw_only=True, slots=True)
class Found:
    """One finding, as the technician reads it."""

    severity: str
    word: str
    message: str
    remedy: str
    basis: str


@dataclass(frozen=True, kw_only=True, slots=True)
class Figure:
    """A drawing, SVG, with a caption, and the words for who cannot see it."""

    caption: str
    drawing: str
    alt: str


@dataclass(frozen=True, kw_only=True, slots=True)
class Report:
    """Everything a report says, in the order it says it.

    Parameters
    ----------
    language : str
        Language tag (BCP 47) of all that is ours.
    unit : str
        The unit's identification, as sent; empty where none was.
    description : str
        As sent.
    place : str
        Where it stands and what is below, in words.
    verdict : str
        ``pass``, ``attention`` or ``fail``.
    verdict_word, summary : str
        For the owner.
    concerns : tuple of Told
        For the owner, the most urgent first.
    in_order, not_known : tuple of str
        Parts without a fault, and what could not be judged.
    parts : tuple of (str, str)
        Each part and how it stands, for the technician.
    numbers : tuple of (str, tuple of (str, str))
        Groups of label and value.
    findings : tuple of Found
    figures : tuple of Figure
    cautions : tuple of str
    assumptions : tuple of (str, str, str)
        What, taken as, why.
    sources : tuple of str
    """

    language: str
    unit: str
    description: str
    place: str
    verdict: str
    verdict_word: str
    summary: str
    concerns: tuple[Told, ...]
    in_order: tuple[str, ...]
    not_known: tuple[str, ...]
    parts: tuple[tuple[str, str], ...]
    numbers: tuple[tuple[str, tuple[tuple[str, str], ...]], ...]
    findings: tuple[Found, ...]
    figures: tuple[Figure, ...]
    cautions: tuple[str, ...]
    assumptions: tuple[tuple[str, str, str], ...]
    sources: tuple[str, ...]

    def as_dict(self) -> dict[str, Any]:
        """The same as plain mappings and lists."""
        return asdict(self)


def make_report(
    body: Mapping[str, Any], answer: Answer[Assessment], written: Mapping[str, Any], system: str, language: str
) -> Report:
    """Put together what a report says.

    Parameters
    ----------
    body : mapping
        Arguments of `service.calculations.assessment.assess_unit` [SI].
    answer : Answer of Assessment
    written : mapping
        The same answer as JSON has it.
    system : str
        ``us`` or ``si``.
    language : str
        One of `service.tables.languages.LANGUAGES`.

    Returns
    -------
    Report
    """
    results, findings = written["results"], written["findings"]
    concerns = _concerns(findings, language)
    return Report(
        language=TAGS.get(language, language),
        unit=body.get("unit_id") or "",
        description=body.get("description") or "",
        place=_place(body.get("location"), body.get("below"), language),
        verdict=written["verdict"],
        verdict_word=said(VERDICT_WORDS[written["verdict"]], language),
        summary=_summary(concerns, language),
        concerns=concerns,
        in_order=tuple(
            _part_words(row["part"], language)
            for row in results["parts"]
            if row["status"] == "assessed" and row["verdict"] == "pass"
        ),
        not_known=tuple(row["message"].replace("_", " ") for row in findings if row["code"] == "part-not-assessed"),
        parts=tuple(
            (
                _part_words(row["part"], language),
                said(_STATUS_WORDS[row["verdict"]] if row["status"] == "assessed" else "not assessed", language),
            )
            for row in results["parts"]
        ),
        numbers=_numbers(results, language),
        findings=tuple(
            Found(
                severity=row["severity"],
                word=said(SEVERITY_WORDS[row["severity"]], language),
                message=row["message"],
                remedy=row["remedy"],
                basis=row["basis"],
            )
            for row in findings
        ),
        figures=_figures(body, answer.results, system, language),
        cautions=tuple(row["message"] for row in written["cautions"]),
        assumptions=tuple(
            (_member_words(row["pointer"], language), _value_words(row["value"], language), row["note"])
            for row in written["assumptions"]
        ),
        sources=tuple(f"{row['label']}, {row['clause']}" for row in written["sources"]),
    )


def _concerns(findings: list[dict[str, str]], language: str) -> tuple[Told, ...]:
    """What the findings amount to: each concern once, with its worst severity, failures first."""
    worst: dict[str, str] = {}
    for row in findings:
        concern = CONCERN_OF.get(row["code"])
        if concern and row["severity"] != "info" and worst.get(concern.heading) != "fail":
            worst[concern.heading] = row["severity"]
    told = [
        Told(
            severity=worst[concern.heading],
            heading=said(concern.heading, language),
            found=said(concern.fails if worst[concern.heading] == "fail" else concern.wants, language),
            means=said(concern.means, language),
            advice=said(concern.advice, language),
        )
        for concern in CONCERNS.values()
        if concern.heading in worst
    ]
    return tuple(sorted(told, key=lambda row: row.severity != "fail"))


def _summary(concerns: tuple[Told, ...], language: str) -> str:
    """The verdict in a sentence."""
    fails = sum(row.severity == "fail" for row in concerns)
    wants = len(concerns) - fails
    if not concerns:
        return said("We found nothing about the drain of this unit that needs mending.", language)
    parts = []
    if fails:
        parts.append(_counted(fails, "one thing needs repair", "{count} things need repair", language))
    if wants:
        parts.append(_counted(wants, "one thing wants attention", "{count} things want attention", language))
    sentence = AND[language].join(parts)
    return f"{sentence[0].upper()}{sentence[1:]}."


def _counted(number: int, one: str, several: str, language: str) -> str:
    words = ("two", "three", "four", "five", "six", "seven", "eight", "nine", "ten")
    if number == 1:
        return said(one, language)
    count = said(words[number - 2], language) if number - 2 < len(words) else str(number)
    return said(several, language).format(count=count)


def _words(text: str) -> str:
    return text.replace("-", " ").replace("_", " ")


def _part_words(part: str, language: str) -> str:
    words = {"condensate-rate": "water made", "discharge": "where the water goes", "overflow": "overflow protection"}
    return said(words.get(part, _words(part)), language, "part")


def _place(location: str | None, below: str | None, language: str) -> str:
    parts = []
    if location:
        parts.append(said("{location}", language).format(location=said(_words(location), language)))
    if below == "nothing-to-damage":
        parts.append(said("nothing below to wet", language))
    elif below:
        parts.append(said("{below} below", language).format(below=said(_words(below), language)))
    return ", ".join(parts)


def _member_words(pointer: str, language: str) -> str:
    return ", ".join(
        said("no. {number}", language).format(number=int(token) + 1)
        if token.isdigit()
        else said(_words(token), language, "member")
        for token in pointer[1:].split("/")
    )


def _value_words(value: Any, language: str) -> str:
    """A value of the answer, rounded for a reader."""
    if isinstance(value, Mapping):
        return f"{plain(value['value'])} {said(value['unit'], language, 'symbol')}"
    if isinstance(value, bool):
        return said("yes" if value else "no", language)
    if isinstance(value, (int, float)):
        return plain(value)
    text = str(value)
    return _words(text) if language == ENGLISH else said(text, language, "value")


_NUMBERS: tuple[tuple[str, tuple[tuple[str, str, str], ...]], ...] = (
    (
        "Water",
        (
            ("peak hour", "peak_rate", ""),
            ("a day", "daily_volume", ""),
            ("caught on the visit", "measured_rate", ""),
        ),
    ),
    (
        "Trap",
        (
            ("worst pressure in the pan", "trap_check.design_pressure", ""),
            ("water held in the pan", "trap_check.held_water_depth", ""),
            ("let go when the fan stops", "trap_check.release_volume", ""),
            ("seal left at the worst moment", "trap_check.seal_margin", ""),
            ("outlet drop to build", "trap_check.recommended_outlet_drop", ""),
            ("seal to build", "trap_check.recommended_seal_depth", ""),
            ("seal lost without water, earliest after", "trap_dry_out.earliest_loss", ""),
            ("seal lost without water, latest after", "trap_dry_out.latest_loss", ""),
            ("outlet drop to build", "trap_sizing.outlet_drop", ""),
            ("seal to build", "trap_sizing.seal_depth", ""),
            ("overall depth", "trap_sizing.overall_depth", ""),
        ),
    ),
    (
        "Line",
        (
            ("fall in a foot", "drain_pitch.pitch_per_foot", ""),
            ("fall over the run", "drain_pitch.fall", ""),
            ("usual fall over the run", "drain_pitch.recommended_fall", ""),
            ("size", "drain_sizing.pipe_size", " in"),
            ("carries full", "drain_sizing.full_bore_capacity", ""),
            ("part of the bore slime may take", "drain_sizing.fouling_margin", "%"),
        ),
    ),
    (
        "Pump",
        (
            ("flow", "pump_run.operating_flow", ""),
            ("head it works against", "pump_run.operating_head", ""),
            ("flow over inflow", "pump_run.flow_ratio", ""),
            ("starts in an hour", "pump_run.cycles_per_hour", ""),
            ("largest lift", "pump_run.largest_lift", ""),
            ("longest tube", "pump_run.longest_tube", ""),
        ),
    ),
    (
        "If the drain blocks",
        (
            ("room for water", "overflow_time.free_volume", ""),
            ("cut-out acts after", "overflow_time.time_to_cut_out", ""),
            ("pan runs over after", "overflow_time.time_to_overflow", ""),
            ("water in the building after", "overflow_time.time_to_building", ""),
        ),
    ),
)


def _numbers(results: Mapping[str, Any], language: str) -> tuple[tuple[str, tuple[tuple[str, str], ...]], ...]:
    """The numbers a technician wants at hand, as far as they are known."""
    groups = []
    for heading, rows in _NUMBERS:
        known = []
        for label, path, suffix in rows:
            value: Any = results
            for token in path.split("."):
                value = value.get(token) if value else None
            if value is None:
                continue
            text = f"{plain(100.0 * value, 2)} %" if suffix == "%" else f"{_value_words(value, language)}{suffix}"
            known.append((said(label, language), text))
        if known:
            groups.append((said(heading, language), tuple(known)))
    return tuple(groups)


def _figures(body: Mapping[str, Any], results: Assessment, system: str, language: str) -> tuple[Figure, ...]:
    """Drawings of what was assessed."""
    figures = []
    trap, pan, plain_answer = body.get("trap"), body.get("pan"), {"findings": None}
    if results.trap_check and trap:
        shown = {
            "outlet_drop": trap.outlet_drop,
            "seal_depth": trap.seal_depth,
            "pan_depth": pan.depth if pan else None,
        }
        drawing = draw_trap_check(shown, Answer(results=results.trap_check), plain_answer, system, language)
        figures.append(_figure(said("The trap as built, in section", language), drawing))
    if results.drain_survey:
        drawing = draw_drain_survey(body, Answer(results=results.drain_survey), plain_answer, system, language)
        figures.append(_figure(said("The line as surveyed, in profile", language), drawing))
    pump = body.get("pump")
    if results.pump_run and pump and results.peak_rate is not None:
        shown = {
            "inflow": results.peak_rate,
            "lift": pump.lift,
            "tube": pump.tube,
            "pump": pump.pump,
            "water_temperature": pump.water_temperature,
            "flow_margin": pump.flow_margin,
        }
        drawing = draw_pump_run(shown, Answer(results=results.pump_run), plain_answer, system, language)
        figures.append(_figure(said("The pump on its tube, head against flow", language), drawing))
    return tuple(figures)


def _figure(caption: str, drawing: str) -> Figure:
    """A figure whose words are the drawing's own description."""
    words = drawing.partition("<desc>")[2].partition("</desc>")[0]
    return Figure(caption=caption, drawing=drawing, alt=unescape(words))
