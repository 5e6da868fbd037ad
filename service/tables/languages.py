"""The languages answers are written in: English, and what says the same in another.

English is written where it is used, and is the key of its translation: an English text that is changed has none until
one is written, and `tests/tables/test_spanish.py` fails. The tables of a language are imported when it is first asked
for.
"""

import pkgutil
from collections.abc import Mapping
from functools import cache
from importlib import import_module

ENGLISH = "en"

SPANISH = "es"

TABLES = {SPANISH: "service.tables.spanish"}
"""Package of the tables of each language but English; each module has ``TEXTS``, from English to it."""

LANGUAGES = (ENGLISH, *TABLES)

AND = {ENGLISH: " and ", SPANISH: " y "}
"""What stands before the last word of a list."""

AS_SENT = frozenset({"name", "above"})
"""Names of the values that hold what a caller wrote: a pump or a pipe called as a word of ours keeps its name."""


@cache
def texts(language: str) -> Mapping[str, str]:
    """Every text of a language but English, by the English one.

    Parameters
    ----------
    language : str
        A key of ``TABLES``.

    Returns
    -------
    mapping
    """
    package = import_module(TABLES[language])
    said_in: dict[str, str] = {}
    for module in pkgutil.iter_modules(package.__path__, package.__name__ + "."):
        said_in |= import_module(module.name).TEXTS
    return said_in


def said(text: str, language: str, sense: str = "") -> str:
    """Say a text of ours, a template with its placeholders or a word, in a language.

    Parameters
    ----------
    text : str
        In English.
    language : str
        One of ``LANGUAGES``.
    sense : str
        Tells words apart that are one in English: ``pan`` in the sense ``member`` is the entry ``pan (member)``, where
        there is one.

    Returns
    -------
    str
        The English text where there is no other, so that nothing goes unsaid.
    """
    if language == ENGLISH:
        return text
    known = texts(language)
    return known.get(f"{text} ({sense})") or known.get(text, text) if sense else known.get(text, text)
