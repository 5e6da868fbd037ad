"""Fall and pitch of a run: by hand, and against the words of the code."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from service.calculations.drain_pitch import LIMITS, pitch_drain
from service.errors import OutOfRange

FOOT, INCH = 0.3048, 0.0254


def test_a_run_falls_an_eighth_at_least_and_a_quarter_by_custom_for_every_foot() -> None:
    # IMC 2021 307.2: 1/8 in per ft; 1/4 in per ft is common practice, no source
    results = pitch_drain(run=32 * FOOT).results
    assert results.minimum_fall == pytest.approx(32 * INCH / 8, rel=1e-12)
    assert results.recommended_fall == pytest.approx(32 * INCH / 4, rel=1e-12)
    assert results.fall == results.recommended_fall
    assert results.pitch_per_foot == pytest.approx(INCH / 4, rel=1e-12)


@pytest.mark.parametrize(
    ("fall_inches", "code"),
    [
        (-1.0, "line-runs-uphill"),
        (0.0, "line-is-level"),
        (3.0, "pitch-below-minimum"),
        (32 * 12 * 0.01 - 0.001, "pitch-below-minimum"),
        (32 * 12 * 0.01, "pitch-below-usual"),  # one percent, as IMC 2021 307.2 itself rounds 1/8 in per ft
        (4.0, "pitch-below-usual"),
        (32 * 12 * 0.02 - 0.001, "pitch-below-usual"),  # 1/4 in per ft is two percent in the trade's round figures
    ],
)
def test_a_fall_short_of_a_mark_is_found(fall_inches: float, code: str) -> None:
    answer = pitch_drain(run=32 * FOOT, fall=fall_inches * INCH)
    assert [finding.code for finding in answer.findings] == [code]


@pytest.mark.parametrize("fall_inches", [32 * 12 * 0.02, 8.0, 12.0])
def test_the_usual_fall_passes(fall_inches: float) -> None:
    assert pitch_drain(run=32 * FOOT, fall=fall_inches * INCH).verdict == "pass"


def test_only_a_default_is_an_assumption() -> None:
    assert [row.pointer for row in pitch_drain(run=5.0).assumptions] == ["/pitch_ratio"]
    assert pitch_drain(run=5.0, fall=0.1).assumptions == ()
    assert pitch_drain(run=5.0, pitch_ratio=0.02).assumptions == ()


@given(
    run=st.floats(LIMITS["run"].low, LIMITS["run"].high),
    fall=st.floats(LIMITS["fall"].low, LIMITS["fall"].high),
)
def test_fall_and_pitch_are_two_words_for_one_thing(run: float, fall: float) -> None:
    by_fall = pitch_drain(run=run, fall=fall).results
    assert by_fall.pitch_ratio * run == pytest.approx(fall, rel=1e-12, abs=1e-12)
    assert all(math.isfinite(value) for value in (by_fall.pitch_ratio, by_fall.pitch_per_foot, by_fall.fall))
    if abs(by_fall.pitch_ratio) <= 1.0:
        by_pitch = pitch_drain(run=run, pitch_ratio=by_fall.pitch_ratio).results
        assert by_pitch.fall == pytest.approx(fall, rel=1e-12, abs=1e-12)


@pytest.mark.parametrize("arguments", [{"run": 0.0}, {"run": 5.0, "fall": 31.0}, {"run": float("nan")}])
def test_a_number_beyond_its_limit_is_refused(arguments: dict[str, float]) -> None:
    with pytest.raises(OutOfRange):
        pitch_drain(**arguments)
