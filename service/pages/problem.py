"""The page of a problem type, at the address that every problem answer names."""

from markupsafe import Markup

from service.pages.shell import lay_out, prose
from service.tables.problems import PROBLEMS

_BODY = Markup(
    "<h1>{row.title}</h1><dl><dt>Problem type</dt><dd><code>/problems/{row.slug}</code></dd>"
    "<dt>HTTP status</dt><dd>{row.status}</dd><dt>What happened</dt><dd>{meaning}</dd>"
    "<dt>What to do</dt><dd>{remedy}</dd></dl><h2>Other problem types</h2><ul>{links}</ul>"
)
_LINK = Markup('<li><a href="/problems/{row.slug}">{row.title}</a> ({row.status})</li>')


def write_problem(slug: str) -> str:
    """Write the page of one problem type.

    Parameters
    ----------
    slug : str
        Key of `service.tables.problems.PROBLEMS`.

    Returns
    -------
    str
    """
    row = PROBLEMS[slug]
    links = Markup().join(_LINK.format(row=other) for other in PROBLEMS.values() if other.slug != slug)
    body = _BODY.format(row=row, meaning=prose(row.meaning), remedy=prose(row.remedy), links=links)
    return lay_out(row.title, body, here=f"/problems/{slug}")
