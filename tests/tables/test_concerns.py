"""The owner's words: every finding that is more than a note amounts to one concern."""

import re

from service.tables.concerns import CONCERN_OF, CONCERNS
from service.tables.findings import assessment, condensate, drain, drain_survey, dry_out, overflow, pump, trap
from service.tables.findings.row import FAIL, INFO

SUBJECTS = (condensate, trap, dry_out, drain, drain_survey, pump, overflow, assessment)
TOLD = {row.code: row for subject in SUBJECTS for row in subject.ROWS if row.severity != INFO}


def test_every_finding_of_an_assessment_has_its_concern() -> None:
    assert set(CONCERN_OF) == set(TOLD)


def test_no_finding_amounts_to_two_concerns() -> None:
    codes = [code for concern in CONCERNS.values() for code in concern.codes]
    assert len(codes) == len(set(codes))


def test_an_owner_can_read_it() -> None:
    """Short sentences, no numbers, units or codes, nothing of the trade's jargon left unexplained."""
    for slug, concern in CONCERNS.items():
        for text in (concern.fails, concern.wants, concern.means, concern.advice):
            assert text.endswith("."), slug
            assert len(text) <= 120, slug
            assert not re.search(r"\d|inH2O|static|Darcy|Reynolds|invert|head\b", text), slug
        assert len(concern.heading) <= 60, slug
        assert concern.wants != concern.fails or not any(TOLD[code].severity == FAIL for code in concern.codes)
