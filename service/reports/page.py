"""The report as a page: HTML that needs nothing from elsewhere, reads on a phone and prints on Letter and A4."""

from collections.abc import Mapping
from functools import cache
from importlib.resources import files
from typing import Any

from jinja2 import Environment, Template
from markupsafe import Markup

from service.calculations.answer import Answer
from service.calculations.assessment import Assessment
from service.reports.content import make_report
from service.reports.headings import headings

_FOLDER = files("service.reports")


@cache
def _template() -> Template:
    """The page's template; whatever is filled in is escaped."""
    environment = Environment(autoescape=True, trim_blocks=True, lstrip_blocks=True)
    return environment.from_string(_FOLDER.joinpath("page.html").read_text(encoding="utf-8"))


def write_page(
    body: Mapping[str, Any], answer: Answer[Assessment], written: Mapping[str, Any], system: str, language: str
) -> str:
    """Write the report of an assessment as HTML.

    Parameters
    ----------
    body, answer, written, system, language
        As for `service.reports.content.make_report`.

    Returns
    -------
    str
    """
    style = Markup(_FOLDER.joinpath("page.css").read_text(encoding="utf-8"))  # noqa: S704  our own file
    report = make_report(body, answer, written, system, language)
    return _template().render(report=report, style=style, words=headings(language))
