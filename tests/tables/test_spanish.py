"""The Spanish texts: each text of ours has one, none has lost a number, and none is left over."""

import ast
import re
import string
from collections.abc import Iterable, Iterator, Mapping
from functools import cache
from importlib import import_module
from pathlib import Path
from pkgutil import iter_modules

import pytest
from marshmallow import Schema

from service.calculations.assessment_checks import DAMAGED, HIDDEN
from service.calculations.installation import BELOW, DISCHARGE_PLACES, LOCATIONS
from service.calculations.limits import Limit
from service.calculations.pump_ranking import SAFETY_FLOAT_WORDS
from service.calculations.served_unit import SUM_BY_THE_TON
from service.reports.content import SEVERITY_WORDS, VERDICT_WORDS
from service.reports.headings import HEADINGS
from service.schemas.assessment import AssessmentRequest
from service.schemas.fields import Part, Rows
from service.tables import cleaning_methods, cleaning_proof, spanish
from service.tables.cautions import CAUTIONS
from service.tables.cleaning_step_row import IN_WORDS, OPENINGS
from service.tables.cleaning_steps import STEPS
from service.tables.concerns import CONCERNS
from service.tables.findings.catalogue import FINDINGS
from service.tables.gases import GASES
from service.tables.pipe_sizes import MATERIALS
from service.tables.problems import PROBLEMS
from service.tables.round_facts import FACTS
from service.tables.sources import SOURCES
from service.tables.triage import scale
from service.tables.triage.causes import CAUSES
from service.tables.triage.make_safe import MAKE_SAFE
from service.tables.triage.observations import OBSERVATIONS
from service.tables.triage.symptoms import SYMPTOMS
from service.tables.upkeep import drain, furnace, trap
from service.tables.upkeep.checks import CHECKS
from service.tables.urgency import BELOW_WORDS, RULES, WHATEVER_BELOW
from service.units import SYMBOLS

UNSAID = frozenset({"Helvetica, Arial, sans-serif"})
"""Texts of several words in drawings and reports that nobody reads."""

SERVICE = Path(__file__).parents[2] / "service"

CALCULATIONS = sorted((SERVICE / "calculations").glob("*.py"))

CLAUSE = re.compile(r"(Table |M)?[\d.]+")
"""A place in a standard, which stays as it is."""

UNPUBLISHED = ("hydrostatics", "standing-water", "manning", "laminar-gravity-flow", "darcy", "common-practice")
"""Sources that are no work with a title."""


def cleaning() -> Iterator[str]:
    for step in STEPS.values():
        yield from (step.instruction, step.look_for)
    yield from (cleaning_proof.PROVED_BY_GRAVITY, cleaning_proof.PROVED_AT_A_PUMP)
    yield cleaning_proof.PROVED_WITHOUT_A_TIME
    for words in (cleaning_methods.METHOD_NAMES, cleaning_methods.REFUSALS, cleaning_methods.REASONS):
        yield from words.values()
    for words in (cleaning_methods.UNKNOWNS, OPENINGS, IN_WORDS):
        yield from words.values()
    yield from (cleaning_methods.CARTRIDGE, cleaning_methods.CARTRIDGES)


def triage() -> Iterator[str]:
    for cause in CAUSES.values():
        yield from (cause.name, cause.words, cause.remedy)
    for symptom in SYMPTOMS.values():
        yield symptom.words
    for step in MAKE_SAFE:
        yield from (step.do, step.why)
    for row in OBSERVATIONS.values():
        yield from (row.question, row.how)
        for value in row.values:
            yield value.words
            yield from (says.why for says in (value.speaks_for, value.speaks_against) if says)
    yield from (scale.EXPLANATION, scale.IMPLIED_BY_SYMPTOM)
    yield from (scale.SAID_BY_SYMPTOM, scale.SAYS_NOTHING_HERE, scale.EQUALLY_LIKELY)


def upkeep() -> Iterator[str]:
    for check in CHECKS:
        yield from (check.check, check.why)
    yield from (drain.GROWTH_NOTE, drain.GROWTH_SINCE, drain.A_MONTH, drain.SOME_MONTHS)
    yield from (trap.EVERY_DAY, trap.EVERY_DAYS)
    yield from (*furnace.LARGER_WORDS.values(), *furnace.FROST_WORDS.values())


def maintenance_round() -> Iterator[str]:
    yield from (rule.reason for rule in RULES)
    yield from (fact.tells for fact in FACTS)
    yield from (*BELOW_WORDS.values(), WHATEVER_BELOW)


def findings() -> Iterator[str]:
    for row in FINDINGS.values():
        yield from (row.message, row.remedy)


def concerns() -> Iterator[str]:
    for row in CONCERNS.values():
        yield from (row.heading, row.fails, row.wants, row.means, row.advice)


def sentences(path: Path) -> Iterator[str]:
    """What a calculation says: its texts that end as a sentence does, docstrings and what it raises left out."""
    tree = ast.parse(path.read_text(encoding="utf-8"))
    raised = [inner for node in ast.walk(tree) if isinstance(node, ast.Raise) for inner in ast.walk(node)]
    left_out = {*raised, *(node.value for node in ast.walk(tree) if isinstance(node, ast.Expr))}
    for text in (node.value for node in ast.walk(tree) if isinstance(node, ast.Constant) and node not in left_out):
        if isinstance(text, str) and " " in text and text.endswith("."):
            yield text


def assumptions() -> Iterator[str]:
    for path in CALCULATIONS:
        yield from sentences(path)
    yield SUM_BY_THE_TON


def sources() -> Iterator[str]:
    """Clauses in words, and what is no published work; works keep their titles."""
    yield from (row.clause for row in SOURCES.values() if not CLAUSE.fullmatch(row.clause))
    yield from (SOURCES[key].label for key in UNPUBLISHED)


def limited() -> Iterator[str]:
    """Names of what has limits: a finding tells which is out of them."""
    for path in CALCULATIONS:
        for held in vars(import_module(f"service.calculations.{path.stem}")).values():
            if isinstance(held, Mapping):
                yield from (name for name, limit in held.items() if isinstance(limit, Limit))


def requested(schema: Schema) -> Iterator[str]:
    """Names of an object's members, and of theirs: a report tells what an assumption stands for."""
    for name, member in schema.fields.items():
        yield name
        inner = member.inner if isinstance(member, Rows) else member
        if isinstance(inner, Part):
            yield from requested(inner.schema)


def spaced(names: Iterable[str]) -> Iterator[str]:
    """Codes as they stand in a sentence."""
    return (name.replace("-", " ").replace("_", " ") for name in names)


def shown(folder: str) -> Iterator[str]:
    """What drawings or reports say by themselves: their texts of several words, docstrings left out."""
    for path in sorted((SERVICE / folder).glob("*.py")):
        tree = ast.parse(path.read_text(encoding="utf-8"))
        left_out = {node.value for node in ast.walk(tree) if isinstance(node, ast.Expr)}
        for text in (node.value for node in ast.walk(tree) if isinstance(node, ast.Constant) and node not in left_out):
            if isinstance(text, str) and re.search(r"[A-Za-z]{2}.* ", text) and text not in UNSAID:
                yield text


def report() -> Iterator[str]:
    yield from (*HEADINGS.values(), *VERDICT_WORDS.values(), *SEVERITY_WORDS.values())
    yield from (*spaced(LOCATIONS), *spaced(BELOW[:-1]))
    yield from shown("reports")


@cache
def constants() -> frozenset[str]:
    """Every text written in the code."""
    english = (path for path in SERVICE.rglob("*.py") if path.parent.name != "spanish")
    trees = (ast.parse(path.read_text(encoding="utf-8")) for path in english)
    nodes = (node for tree in trees for node in ast.walk(tree))
    return frozenset(node.value for node in nodes if isinstance(node, ast.Constant) and isinstance(node.value, str))


def words() -> Iterator[str]:
    yield PROBLEMS["contradiction"].title
    yield from ("physics", "common practice")
    yield from (*MATERIALS, *spaced(GASES), *scale.COMMONNESS)
    yield from spaced((*DAMAGED, *HIDDEN, *(place for place in DISCHARGE_PLACES if place != "outdoors")))
    yield from SAFETY_FLOAT_WORDS.values()


TABLES: Mapping[str, Iterable[str]] = {
    "cleaning": tuple(cleaning()),
    "triage": tuple(triage()),
    "upkeep": tuple(upkeep()),
    "round": tuple(maintenance_round()),
    "findings": tuple(findings()),
    "cautions": tuple(CAUTIONS.values()),
    "concerns": tuple(concerns()),
    "assumptions": tuple(assumptions()),
    "sources": tuple(sources()),
    "units": tuple(unit.name for unit in SYMBOLS.values()),
    "members": (*spaced(limited()), *spaced(requested(AssessmentRequest()))),
    "words": tuple(words()),
    "report": tuple(report()),
    "drawings": tuple(shown("drawings")),
}
"""What must be said in Spanish, by the first word of the modules that say it."""

MODULES: Mapping[str, Mapping[str, str]] = {
    module.name: import_module(f"{spanish.__name__}.{module.name}").TEXTS for module in iter_modules(spanish.__path__)
}

SAID = {text: other for module in MODULES.values() for text, other in module.items()}

SAME = frozenset({"{remedy}", "material", "kelvin", "pascal", "kilopascal"})
"""Texts that are the same in both languages, and so have no entry."""

ENGLISH_WORDS = re.compile(r"\b(the|and|of|is|are|with|that|until|where|there|its)\b")


def placeholders(text: str) -> list[tuple[str | None, str | None]]:
    """Each with its units, in any order."""
    return sorted((name or "", symbols or "") for _, name, symbols, _ in string.Formatter().parse(text) if name)


def figures(text: str) -> list[str]:
    """The numbers written in a text, in any order."""
    return sorted(re.findall(r"\d+(?:[.,/]\d+)*", re.sub(r"\{[^}]*\}", "", text)))


@pytest.mark.parametrize("subject", TABLES)
def test_every_text_has_a_spanish_one(subject: str) -> None:
    assert not [text for text in TABLES[subject] if text not in SAID and text not in SAME]


@pytest.mark.parametrize("module", MODULES)
def test_no_number_or_unit_is_lost(module: str) -> None:
    for text, other in MODULES[module].items():
        assert placeholders(other) == placeholders(text), text
        assert figures(other) == figures(text), text


@pytest.mark.parametrize("module", MODULES)
def test_a_spanish_text_is_spanish_and_ends_as_the_english_one_does(module: str) -> None:
    for text, other in MODULES[module].items():
        assert other != text
        assert not ENGLISH_WORDS.search(re.sub(r"\{[^}]*\}", "", other)), other
        for end in ".?:":
            assert other.endswith(end) == text.endswith(end), text
        assert other.count("?") == other.count("\u00bf"), other
        assert len(other) - len(other.lstrip()) == len(text) - len(text.lstrip())
        assert other == other.rstrip()
        assert "  " not in other


@pytest.mark.parametrize("module", [name for name in MODULES if name.partition("_")[0] in TABLES])
def test_no_spanish_text_is_left_over(module: str) -> None:
    subject = module.partition("_")[0]
    english = {*TABLES[subject], *(constants() if subject in ("words", "report", "drawings") else ())}
    english |= set(spaced(english))
    assert not [
        text for text in MODULES[module] if re.sub(r" \((member|part|value|symbol)\)$", "", text) not in english
    ]


def test_a_text_is_said_one_way() -> None:
    """In one module, so that no other can say it differently."""
    assert len(SAID) == sum(len(module) for module in MODULES.values())
