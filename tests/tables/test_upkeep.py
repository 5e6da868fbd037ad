"""The upkeep table: every condition is one there is, every text is a sentence, every caution is known."""

import re
import string

import pytest

from service.tables.cautions import CAUTIONS
from service.tables.upkeep.checks import CHECKS, CODES
from service.tables.upkeep.row import CONDITIONS, MID_SEASON, SEASONS, SPRING, UpkeepRow
from service.units import SYMBOLS

KEBAB = re.compile(r"[a-z]+(-[a-z]+)*")
IDS = [f"{row.code}-{row.condition}" for row in CHECKS]


@pytest.mark.parametrize("row", CHECKS, ids=IDS)
def test_a_row_is_made_of_sentences_with_known_seasons_conditions_and_cautions(row: UpkeepRow) -> None:
    assert KEBAB.fullmatch(row.code)
    assert row.condition in CONDITIONS
    assert row.seasons
    assert list(row.seasons) == [season for season in SEASONS if season in row.seasons]
    for text in (row.check, row.why):
        assert text[0].isupper()
        assert text.endswith(".")
        assert "  " not in text
        assert len(text) <= 400
    assert 1 <= row.minutes <= 120
    assert row.basis in ("physics", "common practice") or re.match(r"(IMC|IRC|IPC) 20\d\d ", row.basis)
    assert set(row.cautions) <= set(CAUTIONS)
    assert len(set(row.cautions)) == len(row.cautions)


@pytest.mark.parametrize("row", CHECKS, ids=IDS)
def test_a_number_in_a_text_has_both_unit_systems(row: UpkeepRow) -> None:
    for text in (row.check, row.why):
        for _, name, symbols, _ in string.Formatter().parse(text):
            if name is not None:
                assert re.fullmatch("[a-z_]+", name)
                pair = (symbols or "").split("|")
                assert pair == [""] or (len(pair) == 2 and set(pair) <= set(SYMBOLS)), (row.code, name)


def test_every_condition_calls_for_something_and_no_row_is_there_twice() -> None:
    assert {row.condition for row in CHECKS} == set(CONDITIONS)
    keys = [(season, row.code, row.condition) for row in CHECKS for season in row.seasons]
    assert len(keys) == len(set(keys))
    assert list(CODES) == list(dict.fromkeys(row.code for row in CHECKS))


def test_every_season_has_a_check_that_always_applies() -> None:
    always = {season for row in CHECKS if row.condition == "always" for season in row.seasons}
    assert always == set(SEASONS)


def test_cautions_stand_where_the_trade_wants_them() -> None:
    """Common practice, no source: what hurts somebody is said with the step that does it."""
    for row in CHECKS:
        if row.code == "clean-line":
            assert {"biological-slime", "never-mix-cleaners", "compressed-gas"} <= set(row.cautions)
        if "pump" in row.code and row.code not in ("trip-pump-float", "look-at-acid-pump"):
            assert "water-and-electricity" in row.cautions, row.code
        if row.code.startswith("trip-"):
            assert "do-not-bridge-safety" in row.cautions
        if "neutralizer" in row.code:
            assert "acid-condensate" in row.cautions
        if row.code == "fill-furnace-trap":
            assert "flue-gas" in row.cautions
        if row.code in ("drain-for-winter", "protect-from-frost", "look-for-ice"):
            assert "freezing" in row.cautions
        if row.code == "keep-sewer-gas-out":
            assert "sewer-gas" in row.cautions


def test_tablets_are_told_not_to_replace_cleaning_and_the_pour_test_ends_at_the_discharge() -> None:
    """Common practice, no source: trade rules a technician would look for."""
    assert all("do not replace cleaning" in row.why for row in CHECKS if row.code == "look-for-slime")
    assert all("runs freely at the discharge" in row.check for row in CHECKS if row.code == "pour-test")
    assert all("clean filter" in row.check for row in CHECKS if row.code == "measure-pan-pressure")
    welded, by_hand = (
        next(row.minutes for row in CHECKS if row.condition == name)
        for name in ("cleanout-welded", "cleanout-removable")
    )
    assert welded == 4 * by_hand
    assert {season for row in CHECKS if row.code == "change-filter" for season in row.seasons} == {SPRING, MID_SEASON}
