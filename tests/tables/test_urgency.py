"""The rules of urgency and the parts to carry: every name leads somewhere, every failure has its class."""

import re
import string

import pytest

from service.tables.carried_parts import PART_NAMES, PARTS
from service.tables.findings import assessment, condensate, drain, drain_survey, dry_out, overflow, pump, trap
from service.tables.findings.catalogue import FINDINGS
from service.tables.findings.row import FAIL
from service.tables.round_facts import FACTS as ROUND_FACTS
from service.tables.urgency import BLOCKING, FACTS, RULES, URGENCIES, UrgencyRule

KEBAB = re.compile(r"[a-z]+(-[a-z]+)*")
SUBJECTS = (condensate, trap, dry_out, drain, drain_survey, pump, overflow, assessment)
NOT_OF_AN_ASSESSMENT = {"tank-float-unwired", "tank-float-missing", "tank-float-too-high"}
"""Findings of `overflow-time` about a pump's tank; an assessment has the pump's own."""


def test_every_failure_an_assessment_can_find_has_a_class() -> None:
    """A finding that fails and is in no rule would leave its unit for the next visit: put it into a rule."""
    ruled = {code for rule in RULES for code in rule.findings if not rule.facts}
    failing = {row.code for subject in SUBJECTS for row in subject.ROWS if row.severity == FAIL}
    assert failing - ruled - NOT_OF_AN_ASSESSMENT == set()


def test_no_failure_of_the_installation_waits_for_its_turn() -> None:
    for rule in RULES:
        if rule.urgency == "next-visit" and rule.name != "readings-in-doubt":
            assert not any(FINDINGS[code].severity == FAIL for code in rule.findings), rule.name


@pytest.mark.parametrize("rule", RULES, ids=lambda rule: rule.name)
def test_a_rule_names_what_there_is(rule: UrgencyRule) -> None:
    assert KEBAB.fullmatch(rule.name)
    assert rule.urgency in URGENCIES
    assert rule.findings or rule.facts
    assert set(rule.findings) <= set(FINDINGS)
    assert set(rule.facts) <= set(FACTS)
    assert {name for _, name, _, _ in string.Formatter().parse(rule.reason) if name} <= {"below", "months"}
    assert rule.reason.endswith(".")


def test_the_rules_stand_in_order_and_once() -> None:
    ranks = [URGENCIES.index(rule.urgency) for rule in RULES]
    assert ranks == sorted(ranks)
    assert len({rule.name for rule in RULES}) == len(RULES)
    assert set(URGENCIES) == {rule.urgency for rule in RULES}


def test_every_fact_is_asked_by_a_rule_and_none_is_an_absence() -> None:
    """Facts only add: a rule that asked for something not to be could make a unit less urgent by what is found."""
    assert {fact for rule in RULES for fact in rule.facts} == set(FACTS)
    last = [rule for rule in RULES if "nothing-urgent" in rule.facts]
    assert [rule.urgency for rule in last] == [URGENCIES[-1]]


def test_what_blocks_a_drain_is_known() -> None:
    assert set(BLOCKING) <= set(FINDINGS)


def test_parts_are_asked_for_by_findings_there_are() -> None:
    for row in PARTS:
        assert KEBAB.fullmatch(row.part)
        assert row.findings
        assert set(row.findings) <= set(FINDINGS), row.part
    assert len(PART_NAMES) == len(set(PART_NAMES))


def test_facts_of_a_round_are_members_once() -> None:
    members = [fact.member for fact in ROUND_FACTS]
    assert len(members) == len(set(members))
    assert all(member.startswith("/") for fact in ROUND_FACTS for member in (fact.member, *fact.instead))
