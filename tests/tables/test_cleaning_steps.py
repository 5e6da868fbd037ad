"""The table of steps: places, tools, cautions that exist; gases, methods and refusals with a text each."""

import pytest

from service.tables.cautions import CAUTIONS
from service.tables.cleaning_methods import METHODS, REASONS, REFUSALS, UNKNOWNS
from service.tables.cleaning_step_row import OPENINGS, PLACES, TOOLS
from service.tables.cleaning_steps import STEP_CODES, STEPS


@pytest.mark.parametrize("key", STEPS)
def test_a_step_is_complete(key: str) -> None:
    row = STEPS[key]
    assert row.code in STEP_CODES
    assert row.place in PLACES
    assert row.tool in TOOLS
    assert set(row.cautions) <= set(CAUTIONS)
    assert row.minutes >= 0
    assert row.instruction.endswith(".")
    assert row.look_for.endswith((".", "?"))


def test_work_that_can_hurt_carries_its_caution() -> None:
    for key, row in STEPS.items():
        if key.startswith("push"):
            assert {"compressed-gas", "biological-slime"} <= set(row.cautions), key
        if "brush" in key or key.startswith(("open-", "clean-")):
            assert "biological-slime" in row.cautions, key
        if "cement" in row.instruction:
            assert "solvent-cement" in row.cautions, key
        if "cleaner" in row.instruction:
            assert "never-mix-cleaners" in row.cautions, key
        if row.code in ("unplug-pump", "plug-pump-in", "clean-tank", "trip-test"):
            assert "water-and-electricity" in row.cautions, key
    assert "lock-out-power" in STEPS["make-safe"].cautions
    assert "hose-carried-water" in STEPS["push-regulated-gas"].cautions


def test_every_text_is_a_plain_sentence() -> None:
    for text in (*REFUSALS.values(), *REASONS.values()):
        assert text.endswith(".")
        assert text[0].isupper() or text[0] == "{"
    for words in (*UNKNOWNS.values(), *OPENINGS.values()):
        assert not words.endswith(".")
    assert set(METHODS) <= set(REASONS)
