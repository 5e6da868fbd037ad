"""The frame of the API reference: in the browser the packaged bundle fills it, with what ``reference.js`` adds."""

from base64 import b64encode
from functools import cache
from hashlib import sha256
from importlib.resources import files

from service.pages.shell import PAGES, template


def write_reference(*, keys: bool) -> str:
    """Write the page that the bundle fills.

    Parameters
    ----------
    keys : bool
        Whether the service asks for one; where it does not, the page does not speak of keys.

    Returns
    -------
    str
    """
    return template("reference.html").render(pages=PAGES, keys=keys)


@cache
def reference_policy() -> str:
    """Content security policy of the reference: this service only, and inside it the style sheet of a report.

    Returns
    -------
    str
    """
    report = files("service.reports").joinpath("page.css").read_bytes()
    return (
        "default-src 'none'; script-src 'self'; "
        f"style-src 'self' 'sha256-{b64encode(sha256(report).digest()).decode()}'; img-src 'self' data:; "
        "connect-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'"
    )
