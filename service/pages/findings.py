"""Every finding as a page, so that a code in an answer can be looked up by a person."""

import re

from markupsafe import Markup

from service.pages.shell import lay_out, prose
from service.tables.findings.catalogue import FINDINGS
from service.tables.findings.row import ATTENTION, FAIL, INFO, FindingRow

_SEVERITIES = {
    FAIL: "It does not do its job, or breaks a code: water will go where it should not",
    ATTENTION: "To be looked at, or put right when there is time",
    INFO: "Worth knowing",
}

_LEAD = Markup(
    "<h1>All findings</h1>"
    "<p>A finding in an answer has a code. Here is what each stands for, by its code. Where a word is set "
    "<var>like this</var>, an answer has the number or name from your request. The same as JSON: "
    '<a href="/v1/reference/findings">/v1/reference/findings</a>.</p><dl>{}</dl>'
)
_ROW = Markup(
    '<section id="{code}"><h2><code>{code}</code></h2><p><strong>{severity}</strong>: {message}</p>'
    "<p>To do: {remedy}</p><p>Basis: {basis}</p></section>"
)


def _sentence(template: str) -> Markup:
    """A template with the names of its values where the values would stand."""
    shown = re.sub(r"\{(\w+)[^}]*\}", lambda found: f"<var>{found[1].replace('_', ' ')}</var>", str(prose(template)))
    return Markup(shown)  # noqa: S704  escaped by `prose`


def _section(row: FindingRow) -> Markup:
    return _ROW.format(
        code=row.code,
        severity=row.severity,
        message=_sentence(row.message),
        remedy=_sentence(row.remedy),
        basis=row.basis,
    )


def write_findings() -> str:
    """Write the page of all findings, each with its code as anchor.

    Returns
    -------
    str
    """
    severities = Markup().join(
        Markup("<dt><code>{}</code></dt><dd>{}</dd>").format(*severity) for severity in _SEVERITIES.items()
    )
    rows = Markup("\n").join(_section(FINDINGS[code]) for code in sorted(FINDINGS))
    return lay_out(
        "Condensate drainage service: All findings", rows, lead=_LEAD.format(severities), here="/docs/findings"
    )
