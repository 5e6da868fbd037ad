"""One row of the finding catalogue.

``message`` and ``remedy`` are format strings. A placeholder names a value of the finding
and, for a quantity, the unit symbols to show it in: ``{outlet_drop:in|mm}`` shows the SI
float ``outlet_drop`` in inches to a US reader and in millimetres to an SI reader. A
placeholder without symbols shows a word, a count or a pure number.
"""

from dataclasses import dataclass

INFO, ATTENTION, FAIL = "info", "attention", "fail"


@dataclass(frozen=True, kw_only=True, slots=True)
class FindingRow:
    """A finding's fixed parts.

    Parameters
    ----------
    code : str
        Stable kebab-case name.
    severity : str
        ``info``, ``attention`` or ``fail``.
    message : str
        What was found, as a template.
    remedy : str
        What to do about it, as a template.
    basis : str
        A code clause, a standard, ``physics`` or ``common practice``.
    """

    code: str
    severity: str
    message: str
    remedy: str
    basis: str
