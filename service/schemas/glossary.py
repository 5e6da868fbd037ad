"""Payloads of ``reference/glossary``: every member, finding and problem type, in words."""

from service.schemas.fields import Choice, Number, Outline, Part, Rows, Text, Wording
from service.schemas.payload import Written
from service.schemas.word_lists import MEMBER_KINDS, SIDES
from service.tables.findings.row import ATTENTION, FAIL, INFO
from service.units import KINDS

MOST_ENTRIES = 5000
MOST_UNITS = 20
MOST_WORDS = 1000
LONGEST_TERM = 100
"""Most characters of the name asked for."""


class AllowedRange(Written):
    """Least and most of a member, in one unit."""

    unit = Text(
        required=True,
        description="Symbol of the unit; `elements` of a list, `characters` of a text, empty for a plain number.",
    )
    minimum = Number(required=True, description="The least that is accepted.")
    maximum = Number(required=True, description="The most that is accepted.")


class MemberEntry(Written):
    """One member of a request or an answer, in one meaning."""

    term = Text(required=True, description="Name of the member, of a query parameter or of a header field.")
    side = Choice(SIDES, required=True, description="Whether it is sent or answered.")
    meaning = Text(required=True, description="What it is, in words.")
    kind = Choice(MEMBER_KINDS, required=True, description="What its value looks like.")
    quantity = Choice(
        tuple(KINDS), required=True, nullable=True, description="Kind of quantity; null of what is no quantity."
    )
    units = Rows(Text(description="One symbol."), most=MOST_UNITS, required=True, description="Units it may have.")
    words = Rows(Text(description="One word."), most=MOST_WORDS, required=True, description="Words of a choice.")
    allowed = Rows(
        Part(AllowedRange, description="In one unit."),
        most=MOST_UNITS,
        required=True,
        description="What is accepted, in each unit; empty of what is answered, which nothing bounds.",
    )
    objects = Rows(
        Text(description="One name."),
        most=MOST_ENTRIES,
        required=True,
        description="Names of the objects that have it, as the document calls them.",
    )
    operations = Rows(
        Text(description="One path."), most=MOST_ENTRIES, required=True, description="Paths of the operations with it."
    )


class FindingEntry(Written):
    """One finding, as a technician reads it."""

    code = Text(required=True, description="Stable code.")
    severity = Choice((INFO, ATTENTION, FAIL), required=True, description="How bad it is.")
    message = Outline(required=True, description="What it says, with … for each number or word of the case.")
    remedy = Outline(required=True, description="What to do about it.")
    basis = Wording(required=True, description="A code clause, a standard, `physics` or `common practice`.")


class ProblemEntry(Written):
    """One problem type: why a request gets no answer."""

    slug = Text(required=True, description="Last segment of its `type`.")
    status = Number(required=True, description="The HTTP status.")
    title = Text(required=True, description="Short name.")
    meaning = Text(required=True, description="What happened.")
    remedy = Text(required=True, description="What to do about it.")


class Glossary(Written):
    """Every member, finding and problem type, in words."""

    members = Rows(
        Part(MemberEntry, description="One member."),
        most=MOST_ENTRIES,
        required=True,
        description="By name; a name with several meanings has an entry for each.",
    )
    findings = Rows(
        Part(FindingEntry, description="One finding."),
        most=MOST_ENTRIES,
        required=True,
        description="Findings, by code.",
    )
    problems = Rows(
        Part(ProblemEntry, description="One problem type."),
        most=MOST_ENTRIES,
        required=True,
        description="Problem types, by slug.",
    )
