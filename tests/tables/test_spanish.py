"""The Spanish texts: each text of ours has one, none has lost a number, and none is left over."""

import re
import string
from collections.abc import Iterable, Iterator, Mapping
from importlib import import_module
from pkgutil import iter_modules

import pytest

from service.tables import cleaning_methods, cleaning_proof, spanish
from service.tables.cleaning_step_row import IN_WORDS, OPENINGS
from service.tables.cleaning_steps import STEPS
from service.tables.round_facts import FACTS
from service.tables.triage import scale
from service.tables.triage.causes import CAUSES
from service.tables.triage.make_safe import MAKE_SAFE
from service.tables.triage.observations import OBSERVATIONS
from service.tables.triage.symptoms import SYMPTOMS
from service.tables.upkeep import drain, furnace, trap
from service.tables.upkeep.checks import CHECKS
from service.tables.urgency import BELOW_WORDS, RULES, WHATEVER_BELOW


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


TABLES: Mapping[str, Iterable[str]] = {
    "cleaning": tuple(cleaning()),
    "triage": tuple(triage()),
    "upkeep": tuple(upkeep()),
    "round": tuple(maintenance_round()),
}
"""What must be said in Spanish, by the first word of the modules that say it."""

MODULES: Mapping[str, Mapping[str, str]] = {
    module.name: import_module(f"{spanish.__name__}.{module.name}").TEXTS for module in iter_modules(spanish.__path__)
}

SAID = {text: other for module in MODULES.values() for text, other in module.items()}

SAME: frozenset[str] = frozenset()
"""Texts that are the same in both languages."""

ENGLISH_WORDS = re.compile(r"\b(the|and|of|is|are|with|that|until|where|there|its)\b")


def placeholders(text: str) -> list[tuple[str | None, str | None]]:
    """Each with its units, in any order."""
    return sorted((name or "", symbols or "") for _, name, symbols, _ in string.Formatter().parse(text) if name)


def figures(text: str) -> list[str]:
    """The numbers written in a text, in any order."""
    return sorted(re.findall(r"\d+(?:[.,/]\d+)*", re.sub(r"\{[^}]*\}", "", text)))


@pytest.mark.parametrize("subject", TABLES)
def test_every_text_has_a_spanish_one(subject: str) -> None:
    assert not [text for text in TABLES[subject] if text not in SAID]


@pytest.mark.parametrize("module", MODULES)
def test_no_number_or_unit_is_lost(module: str) -> None:
    for text, other in MODULES[module].items():
        assert placeholders(other) == placeholders(text), text
        assert figures(other) == figures(text), text


@pytest.mark.parametrize("module", MODULES)
def test_a_spanish_text_is_spanish_and_ends_as_the_english_one_does(module: str) -> None:
    for text, other in MODULES[module].items():
        assert other != text or text in SAME
        assert not ENGLISH_WORDS.search(other), other
        for end in ".?:":
            assert other.endswith(end) == text.endswith(end), text
        assert other.count("?") == other.count("\u00bf"), other
        assert other == other.strip()
        assert "  " not in other


@pytest.mark.parametrize("module", [name for name in MODULES if name.partition("_")[0] in TABLES])
def test_no_spanish_text_is_left_over(module: str) -> None:
    english = set(TABLES[module.partition("_")[0]])
    assert not [text for text in MODULES[module] if text not in english]


def test_a_text_is_said_one_way() -> None:
    """In one module, so that no other can say it differently."""
    assert len(SAID) == sum(len(module) for module in MODULES.values())
