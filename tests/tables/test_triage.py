"""The triage tables: every name leads somewhere, every cause can be told, and the scale is what it says."""

import re

import pytest

from service.tables.cautions import CAUTIONS
from service.tables.findings.catalogue import FINDINGS
from service.tables.triage.causes import CAUSES
from service.tables.triage.conflicts import CONFLICTS
from service.tables.triage.make_safe import MAKE_SAFE
from service.tables.triage.observations import OBSERVATIONS, value_row
from service.tables.triage.scale import COMMONNESS, EXPLANATION, STRENGTHS, Speaks
from service.tables.triage.symptoms import SYMPTOMS
from service.tables.triage.unit_evidence import UNIT_EVIDENCE

KEBAB = re.compile(r"[a-z]+(-[a-z]+)*")
SNAKE = re.compile(r"[a-z]+(_[a-z]+)*")
VALUES = [(name, value) for name, row in OBSERVATIONS.items() for value in row.values]


def speaks(name: str) -> list[Speaks]:
    rows = OBSERVATIONS[name].values
    return [says for row in rows for says in (row.speaks_for, row.speaks_against) if says]


@pytest.mark.parametrize("code", SYMPTOMS)
def test_a_symptom_names_each_cause_once_and_only_known_ones(code: str) -> None:
    row = SYMPTOMS[code]
    named = [*row.usual, *row.common, *row.occasional, *row.rare]
    assert KEBAB.fullmatch(code)
    assert len(named) == len(set(named)) >= 4
    assert set(named) <= set(CAUSES)
    assert list(row.causes()) == named
    for name, value in row.implied:
        assert value_row(name, value)
        assert OBSERVATIONS[name].counts_for(code) or not OBSERVATIONS[name].only_for


@pytest.mark.parametrize("code", SYMPTOMS)
def test_every_cause_of_a_symptom_can_be_spoken_for_and_against(code: str) -> None:
    """Otherwise nothing a technician does could find it, or rule it out."""
    implied = {name for name, _ in SYMPTOMS[code].implied}
    asked = [row for name, row in OBSERVATIONS.items() if row.counts_for(code) and name not in implied]
    for cause in SYMPTOMS[code].causes():
        assert any(v.speaks_for and cause in v.speaks_for.causes for row in asked for v in row.values), cause
        assert any(v.speaks_against and cause in v.speaks_against.causes for row in asked for v in row.values), cause


def test_every_cause_belongs_to_a_symptom() -> None:
    assert {cause for row in SYMPTOMS.values() for cause in row.causes()} == set(CAUSES)


@pytest.mark.parametrize("code", CAUSES)
def test_a_cause_is_told_in_sentences_with_known_cautions(code: str) -> None:
    row = CAUSES[code]
    assert KEBAB.fullmatch(code)
    for text in (row.words, row.remedy):
        assert text[0].isupper()
        assert text.endswith(".")
    assert not row.name.endswith(".")
    assert set(row.cautions) <= set(CAUTIONS)
    assert row.go_on_with is None or row.go_on_with in SYMPTOMS


@pytest.mark.parametrize("name", OBSERVATIONS)
def test_an_observation_is_a_question_with_a_way_to_answer_it(name: str) -> None:
    row = OBSERVATIONS[name]
    assert SNAKE.fullmatch(name)
    assert row.question.endswith("?")
    assert row.how.endswith(".")
    assert 0 < row.minutes <= 60
    assert len({value.value for value in row.values}) == len(row.values) >= 2
    assert set(row.only_for) | set(row.not_for) <= set(SYMPTOMS)
    assert not (row.only_for and row.not_for)
    assert set(row.cautions) <= set(CAUTIONS)
    assert speaks(name), "says something of some cause"


@pytest.mark.parametrize(("name", "value"), VALUES, ids=[f"{name}-{value.value}" for name, value in VALUES])
def test_a_value_speaks_with_one_strength_each_way_and_never_both_ways(name: str, value: object) -> None:
    row = value_row(name, value.value)  # type: ignore[attr-defined]
    assert KEBAB.fullmatch(row.value)
    assert row.words[0].isupper()
    assert row.words.endswith(".")
    sides = [says for says in (row.speaks_for, row.speaks_against) if says]
    named = [cause for says in sides for cause in says.causes]
    assert len(named) == len(set(named))
    assert set(named) <= set(CAUSES)
    for says in sides:
        assert says.strength in STRENGTHS
        assert says.why.endswith(".")


def test_no_observation_speaks_for_a_cause_only_or_against_it_only() -> None:
    """Where one value of a check speaks for a cause as the thing itself, another value must speak against it.

    Otherwise the check could only ever confirm.
    """
    direct = (
        "filter",
        "pan_condition",
        "unit_level",
        "insulation",
        "line_size",
        "line_joints",
        "receptor",
        "fall_back",
    )
    for name in direct:
        rows = OBSERVATIONS[name].values
        spoken_for = {cause for row in rows if row.speaks_for for cause in row.speaks_for.causes}
        against = {cause for row in rows if row.speaks_against for cause in row.speaks_against.causes}
        assert spoken_for & against, name


def test_the_scale_is_in_order_and_told_in_the_explanation() -> None:
    assert list(STRENGTHS.values()) == sorted(STRENGTHS.values())
    assert list(COMMONNESS.values()) == sorted(COMMONNESS.values(), reverse=True)
    for word, points in {**STRENGTHS, **COMMONNESS}.items():
        assert f"{word} {points}" in EXPLANATION
    assert "common practice, no source" in EXPLANATION
    assert "not as a probability" in EXPLANATION


def test_unit_evidence_names_findings_and_values_there_are() -> None:
    for name, value, codes in UNIT_EVIDENCE:
        assert value_row(name, value)
        assert codes
        assert set(codes) <= set(FINDINGS), codes
    every = [code for _, _, codes in UNIT_EVIDENCE for code in codes]
    assert len(every) == len(set(every))


def test_conflicts_are_between_two_observations() -> None:
    for (one, first), (two, second) in CONFLICTS:
        assert one != two
        assert value_row(one, first)
        assert value_row(two, second)
    assert len({frozenset(pair) for pair in CONFLICTS}) == len(CONFLICTS)


def test_steps_that_make_safe_are_sentences_with_known_cautions() -> None:
    assert len({step.code for step in MAKE_SAFE}) == len(MAKE_SAFE)
    for step in MAKE_SAFE:
        assert KEBAB.fullmatch(step.code)
        assert step.when
        assert step.do.endswith(".")
        assert step.why.endswith(".")
        assert set(step.cautions) <= set(CAUTIONS)


def test_a_value_that_is_not_there_is_a_key_error() -> None:
    with pytest.raises(KeyError, match="filter: soaked"):
        value_row("filter", "soaked")
