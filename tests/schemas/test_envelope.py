"""The envelope's document, and every sentence of the catalogue it may carry."""

import re
import string
from importlib import import_module
from pathlib import Path

import pytest

from service.calculations.answer import Finding
from service.schemas.envelope import Envelope, answer_of
from service.schemas.payload import Written
from service.schemas.writing import write_finding
from service.tables import findings
from service.tables.cautions import CAUTIONS
from service.tables.findings.catalogue import FINDINGS
from service.tables.findings.row import ATTENTION, FAIL, INFO, FindingRow
from service.tables.sources import SOURCES
from service.units import SYMBOLS

ROWS = sorted(FINDINGS.values(), key=lambda row: row.code)
KEBAB = re.compile(r"[a-z][a-z0-9]*(-[a-z0-9]+)*")


def placeholders(text: str) -> list[tuple[str, str]]:
    """Name and symbols of each placeholder of a template."""
    found = []
    for _, name, symbols, conversion in string.Formatter().parse(text):
        if name is not None:
            assert conversion is None, text
            found.append((name, symbols or ""))
    return found


def test_the_catalogue_holds_every_row_once() -> None:
    """A code that stood twice would silently replace the first."""
    folder = Path(findings.__file__ or "").parent
    names = {path.stem for path in folder.glob("*.py")} - {"__init__", "row", "catalogue"}
    codes = [row.code for name in names for row in import_module(f"{findings.__name__}.{name}").ROWS]
    assert len(set(codes)) == len(codes)
    assert set(codes) == set(FINDINGS)
    assert len(ROWS) > 20


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row.code)
def test_a_row_of_the_catalogue_is_well_formed(row: FindingRow) -> None:
    assert KEBAB.fullmatch(row.code)
    assert len(row.code) <= 60
    assert row.severity in (INFO, ATTENTION, FAIL)
    assert row.basis.strip()
    for text in (row.message, row.remedy):
        assert text[0].isupper() or text[0] in "{0123456789", text
        assert text.endswith((".", "?", "{check}", "{remedy}")), text  # these two are whole sentences themselves
        assert "  " not in text, text
        assert text == text.strip()
        assert not re.search(r"\s[,.;:]", text), text


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row.code)
def test_a_placeholder_names_one_kind_of_quantity_in_known_symbols(row: FindingRow) -> None:
    for text in (row.message, row.remedy):
        for name, symbols in placeholders(text):
            assert name.isidentifier(), text
            pair = symbols.split("|") if symbols else []
            assert len(pair) in (0, 2), f"{name}: a US and an SI symbol"
            for symbol in pair:
                assert symbol in SYMBOLS, f"{symbol} in {row.code}"
            assert len({SYMBOLS[symbol].kind for symbol in pair}) <= 1, f"{symbols} in {row.code}"


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row.code)
@pytest.mark.parametrize("system", ["us", "si"])
def test_a_row_of_the_catalogue_can_be_written(row: FindingRow, system: str) -> None:
    """One name is one quantity in both texts, and no brace is left in a sentence."""
    values: dict[str, float | str] = {}
    for name, symbols in placeholders(row.message) + placeholders(row.remedy):
        values[name] = 300.0 if symbols else "some"
    written = write_finding(Finding(code=row.code, values=values), system)
    for text in (written["message"], written["remedy"]):
        assert "{" not in text
        assert "}" not in text
    for name, symbols in placeholders(row.message) + placeholders(row.remedy):
        if symbols:
            assert symbols.split("|")[("us", "si").index(system)] in written["message"] + written["remedy"], name


def test_every_caution_and_source_is_a_sentence_or_a_title() -> None:
    for code, message in CAUTIONS.items():
        assert KEBAB.fullmatch(code), code
        assert message.endswith("."), code
        assert message[0].isupper(), code
    for key, source in SOURCES.items():
        assert KEBAB.fullmatch(key), key
        assert source.label, key
        assert source.clause, key


def test_an_envelope_is_named_and_described_by_its_results() -> None:
    class SomethingWritten(Written):
        """Something."""

    made = answer_of(SomethingWritten, "SomethingAnswer")
    assert issubclass(made, Envelope)
    assert made.__name__ == "SomethingAnswer"
    assert "SomethingWritten" in (made.__doc__ or "")
    assert set(made().fields) == {"verdict", "results", "findings", "assumptions", "cautions", "sources"}
    assert all(field.required for field in made().fields.values())


def test_the_document_lists_every_code_an_answer_may_hold() -> None:
    fields = Envelope().fields["findings"].inner.schema.fields  # type: ignore[attr-defined]
    assert set(fields["code"].words) == set(FINDINGS)
    assert set(fields["severity"].words) == {INFO, ATTENTION, FAIL}
    cautions = Envelope().fields["cautions"].inner.schema.fields  # type: ignore[attr-defined]
    assert set(cautions["code"].words) == set(CAUTIONS)
