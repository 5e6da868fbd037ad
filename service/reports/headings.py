"""What a report says whatever was found: its headings, and the words before what is filled in."""

from collections.abc import Mapping

from service.tables.languages import said

HEADINGS: Mapping[str, str] = {
    "title": "Condensate drain report",
    "nameless": "Unit without a name",
    "visit_of": "Visit of",
    "visit_by": "by",
    "found": "What we found",
    "means": "What it means",
    "advice": "What we recommend",
    "in_order": "In order",
    "nothing_found": "Looked at, nothing found:",
    "not_judged": "Not judged on this visit",
    "next_page": "The next page is for the technician.",
    "closing": "Local code and the authority having jurisdiction, the equipment's instructions and licensed practice "
    "govern; this report does not replace them.",
    "technician": "For the technician",
    "cautions": "Cautions",
    "findings": "Findings",
    "to_do": "To do:",
    "basis": "Basis:",
    "numbers": "Numbers",
    "drawings": "Drawings",
    "numbers_and_drawings": "Numbers and drawings",
    "assumed": "What was assumed",
    "sources": "Sources",
    "page_of": "1 of 1",
}
"""By their place in ``page.html`` and ``paper.typ``; ``1 of 1`` is a page's number and how many there are."""


def headings(language: str) -> dict[str, str]:
    """The same in a language of `service.tables.languages.LANGUAGES`."""
    return {place: said(text, language) for place, text in HEADINGS.items()}
