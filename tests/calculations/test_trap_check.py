"""Traps as built: what drains, what holds, and what is said about it."""

import math
import random

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from service.calculations.trap_check import LIMITS, check_trap
from service.errors import OutOfRange
from service.schemas.writing import fill
from service.tables.findings.catalogue import FINDINGS
from service.tables.pipe_sizes import NOMINAL_SIZES

INCH = 0.0254
INH2O = 249.08891  # Pa, 1000 kg/m3 x 9.80665 m/s2 x 0.0254 m


def codes(answer):
    return {finding.code for finding in answer.findings}


def check(pressure, drop, seal, **others):
    """Check a trap given in inches and inH2O; areas in square inches."""
    inches = {"pan_depth", "evaporated_depth"}
    others = {
        name: value * INCH if name in inches else value * INCH**2 if name == "pan_area" else value
        for name, value in others.items()
    }
    return check_trap(pan_pressure=pressure * INH2O, outlet_drop=drop * INCH, seal_depth=seal * INCH, **others)


def test_a_drop_of_a_quarter_inch_under_an_inch_and_a_fifth_of_suction():
    """Water stands 1.2 in up, 0.95 in of it in the pan of 400 in2: 380 in3 let go when the fan stops."""
    answer = check(-1.2, 0.25, 2.0, pan_area=400.0, pan_depth=1.5)
    assert not answer.results.drains_running
    assert answer.results.held_water_depth / INCH == pytest.approx(0.95)
    assert answer.results.release_volume / INCH**3 == pytest.approx(380.0)
    assert not answer.results.pan_overflows
    assert answer.results.largest_suction_drained / INH2O == pytest.approx(0.25)
    assert answer.results.recommended_outlet_drop / INCH == pytest.approx(2.2)
    # with that drop half the suction comes off the seal, and 1/2 in is to spare (common practice)
    assert answer.results.recommended_seal_depth / INCH == pytest.approx(1.1)
    assert codes(answer) == {"outlet-drop-too-small", "release-surge"}
    assert answer.verdict == "fail"
    assert "water-damage" in answer.cautions


def test_a_well_built_trap_passes_with_nothing_to_say():
    answer = check(-1.2, 2.2, 1.1, pipe_size="3/4", evaporated_depth=0.0, dirty_filter_allowance=0.0)
    assert answer.verdict == "pass"
    assert answer.findings == ()
    assert answer.assumptions == ()
    assert answer.results.drains_running
    assert answer.results.held_water_depth == 0.0
    assert answer.results.release_volume == 0.0
    assert answer.results.seal_margin / INCH == pytest.approx(0.5)
    assert "water-damage" not in answer.cautions


CASES = [
    # pressure inH2O, drop in, seal in, further facts, expected codes
    (-1.2, 2.0, 1.2, {}, {"outlet-drop-margin-small"}),
    (-1.2, 1.2, 1.2, {}, {"outlet-drop-margin-small"}),  # exactly as much as the suction
    (-1.125, 2.12, 1.06, {}, set()),  # the recommended 2.125 and 1.0625 in, as a message rounds them
    (-1.125, 2.11, 1.06, {}, {"outlet-drop-margin-small"}),
    (-1.125, 2.12, 1.05, {}, {"seal-margin-small"}),
    (-1.2, 1.19, 1.2, {}, {"outlet-drop-too-small", "pan-area-unknown"}),
    (-1.2, 0.0, 3.0, {}, {"outlet-drop-too-small", "trap-ends-level", "pan-area-unknown"}),
    (-1.0, -0.5, 3.0, {}, {"outlet-drop-too-small", "trap-outlet-above-pan-outlet", "pan-area-unknown"}),
    (-2.0, 3.0, 1.0, {}, {"seal-margin-small"}),  # exactly half the suction: it holds
    (-2.0, 3.0, 0.99, {}, {"seal-broken-by-suction"}),
    (-2.0, 3.0, 0.0, {}, {"trap-without-seal"}),
    (-2.0, 3.0, 1.6, {"evaporated_depth": 0.5}, {"seal-margin-small"}),
    (-2.0, 3.0, 1.6, {"evaporated_depth": 0.7}, {"seal-evaporated"}),
    (-2.0, 3.0, 0.9, {"evaporated_depth": 0.7}, {"seal-broken-by-suction"}),
    (-2.0, 3.0, 1.5, {"pipe_size": "1/2"}, {"trap-pipe-too-small"}),
    (-2.0, 3.0, 2.0, {"unit_side_pipe_size": "1", "outlet_side_pipe_size": "3/4"}, {"trap-reduced-on-the-way"}),
    (-2.0, 3.0, 2.0, {"unit_side_pipe_size": "3/4", "outlet_side_pipe_size": "1"}, set()),
    (-2.0, 3.0, 3.6, {}, {"seal-deeper-than-needed"}),  # 1.5 in would do
    (-2.0, 3.0, 3.4, {}, set()),
    (-6.0, 7.0, 3.5, {}, {"pan-pressure-unusual"}),
    (0.0, 1.0, 1.0, {}, {"pan-without-pressure"}),
    (1.0, 0.5, 1.5, {}, set()),
    (1.0, 0.4, 1.5, {}, {"outlet-drop-small-positive-pan"}),
    (1.0, 0.5, 1.4, {}, {"seal-margin-small"}),
    (1.0, 0.5, 0.9, {}, {"seal-blown-out"}),
    (1.0, -0.5, 1.5, {}, {"trap-outlet-above-pan-outlet"}),
    (1.0, 0.5, 1.5, {"dirty_filter_allowance": 99.0}, {"filter-allowance-not-added"}),
    (
        -3.0,
        0.5,
        4.0,
        {"pan_depth": 2.0, "pan_area": 400.0},
        {"outlet-drop-too-small", "pan-overflows-before-draining", "release-surge"},
    ),
]


@pytest.mark.parametrize(("pressure", "drop", "seal", "others", "expected"), CASES)
def test_findings(pressure, drop, seal, others, expected):
    assert codes(check(pressure, drop, seal, **others)) == expected


def test_a_small_drop_needs_a_deeper_seal_than_half_the_suction():
    """2 in of suction, 1/4 in of drop: the pan takes the water that start-up lifts, 1-3/4 in come off the seal."""
    answer = check(-2.0, 0.25, 1.5, pan_area=7e4)
    (finding,) = (finding for finding in answer.findings if finding.code == "seal-broken-by-suction")
    assert finding.values["needed_seal_depth"] / INCH == pytest.approx(1.75, abs=1e-4)
    # built with the right drop, half the suction and 1/2 in
    assert finding.values["recommended_seal_depth"] / INCH == pytest.approx(1.5)


def test_seal_margin_is_what_has_to_be_added():
    short = check(-2.0, 3.0, 0.7).results.seal_margin
    assert short / INCH == pytest.approx(-0.3)
    assert check(-2.0, 3.0, 0.7 - short / INCH).results.seal_margin == pytest.approx(0.0, abs=1e-12)


def test_refill_is_both_legs():
    """3/4 in PVC Schedule 40, bore 0.824 in (ASTM D1785), both legs down by 0.7 in."""
    (finding,) = check(-2.0, 3.0, 1.6, evaporated_depth=0.7).findings
    assert finding.values["refill_volume"] / INCH**3 == pytest.approx(2 * math.pi / 4 * 0.824**2 * 0.7)


def test_without_any_seal_a_pan_under_suction_does_not_drain():
    assert not check(-1.0, 3.0, 0.0).results.drains_running
    assert check(0.0, 3.0, 0.0).results.drains_running


def test_what_an_unknown_pan_decides_is_not_told():
    answer = check(-1.2, 0.25, 2.0)
    at_rest, start_up, running, stopped = answer.results.states
    assert answer.results.release_volume is None
    assert running.water_volume is None
    assert stopped.water_spilled is None
    assert at_rest.water_volume == pytest.approx(stopped.water_volume)
    assert {assumption.pointer for assumption in answer.assumptions} >= {"/pan_area", "/pan_depth"}
    # and it hardly matters for the levels: any other pan gives the same seal within 1/16 in
    others = [check(-1.2, 0.25, 2.0, pan_area=area).results.seal_margin for area in (100.0, 400.0, 5000.0)]
    assert others == [pytest.approx(answer.results.seal_margin, abs=INCH / 16)] * 3
    assert start_up.unit_side_level / INCH == pytest.approx(0.25, abs=0.01)


def test_only_defaults_that_enter_are_assumed():
    def pointers(answer):
        return [assumption.pointer for assumption in answer.assumptions]

    every_time = ["/dirty_filter_allowance", "/pipe_size", "/evaporated_depth"]
    assert pointers(check(-1.2, 2.2, 1.1)) == every_time
    assert pointers(check(-1.2, 1.0, 2.0)) == [*every_time, "/pan_depth"]  # start-up stays below the pan
    assert pointers(check(-1.2, 0.2, 2.0)) == [*every_time, "/pan_area", "/pan_depth"]
    assert pointers(check(-1.2, 0.2, 2.0, pan_area=99.0, pan_depth=2.0)) == every_time
    assert pointers(check(1.0, 0.5, 1.5)) == ["/pipe_size", "/evaporated_depth"]
    leg = check(1.0, 0.5, 1.5, unit_side_pipe_size="1")
    assert pointers(leg) == ["/outlet_side_pipe_size", "/evaporated_depth"]


def strategy(name):
    return st.floats(LIMITS[name].low, LIMITS[name].high)


REQUESTS = st.fixed_dictionaries(
    {name: strategy(name) for name in ("pan_pressure", "outlet_drop", "seal_depth")},
    optional={
        **{name: strategy(name) for name in ("dirty_filter_allowance", "pan_area", "pan_depth", "evaporated_depth")},
        **{f"{leg}pipe_size": st.sampled_from(NOMINAL_SIZES) for leg in ("", "unit_side_", "outlet_side_")},
    },
)


@given(REQUESTS)
# a drop and a margin below zero by less than any rule can see
@example({"pan_pressure": 0.0, "outlet_drop": -6e-8, "seal_depth": 0.0})
@example({"pan_pressure": 0.002, "outlet_drop": 0.0, "seal_depth": 1.0, "evaporated_depth": 1.0})
def test_every_request_is_answered_with_finite_numbers_and_whole_sentences(request):
    answer = check_trap(**request)
    for name in answer.results.__slots__:
        value = getattr(answer.results, name)
        assert name in ("states", "release_volume") or math.isfinite(value)
    for finding in answer.findings:
        row = FINDINGS[finding.code]
        for system in ("us", "si"):
            sentence = fill(row.message, finding.values, system) + fill(row.remedy, finding.values, system)
            assert "inf" not in sentence.replace("info", "")
            assert "nan" not in sentence
            assert " -" not in sentence or finding.code == "outlet-drop-too-small"


@given(REQUESTS)
def test_the_verdict_follows_the_water(request):
    """A trap that holds water back, loses its seal or floods its pan never passes; a fail is one of these, or pipe."""
    results = (answer := check_trap(**request)).results
    sound = (
        results.drains_running
        and results.seal_margin >= -1e-7
        and not results.pan_overflows
        and request["outlet_drop"] > -1e-7
        and request["seal_depth"] > 1e-7
    )
    pipe = {"trap-pipe-too-small", "trap-reduced-on-the-way"}
    levels = {"trap-ends-level"}  # level with hardly any suction holds no water back, and is still no trap to keep
    failures = {code for code in codes(answer) if FINDINGS[code].severity == "fail"} - pipe - levels
    assert sound == (not failures)


@given(REQUESTS)
def test_following_the_remedy_gives_a_sound_trap(request):
    results = check_trap(**request).results
    drop = max(results.recommended_outlet_drop, request["outlet_drop"])
    seal = results.recommended_seal_depth
    if seal > LIMITS["seal_depth"].high:
        return
    rebuilt = check_trap(**{**request, "outlet_drop": drop, "seal_depth": seal})
    assert rebuilt.results.drains_running
    assert rebuilt.results.seal_margin == pytest.approx(0.5 * INCH, abs=1e-6)
    assert {code for code in codes(rebuilt) if FINDINGS[code].severity == "fail"} <= {
        "trap-pipe-too-small",
        "trap-reduced-on-the-way",
    }


def test_uniform_requests_never_contradict():
    """The facts asked for cannot contradict: every uniform request is answered."""
    chance = random.Random(20)  # noqa: S311  (no secret)
    for _ in range(2000):
        request = {name: chance.uniform(limit.low, limit.high) for name, limit in LIMITS.items()}
        assert check_trap(**request).verdict in ("pass", "attention", "fail")


@pytest.mark.parametrize("name", LIMITS)
def test_outside_its_limits_an_argument_is_refused(name):
    given_facts = {"pan_pressure": -100.0, "outlet_drop": 0.05, "seal_depth": 0.05}
    for value in (LIMITS[name].low - 1.0, LIMITS[name].high + 1.0, math.nan):
        with pytest.raises(OutOfRange):
            check_trap(**(given_facts | {name: value}))
