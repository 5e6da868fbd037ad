"""Sized traps: the trade's dimensions by hand, room for them, and that they pass their own check."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from service.calculations.trap_check import check_trap
from service.calculations.trap_sizing import LIMITS, size_trap
from service.errors import OutOfRange
from service.tables.findings.catalogue import FINDINGS
from service.tables.pipe_sizes import NOMINAL_SIZES

INCH = 0.0254
INH2O = 249.08891  # Pa, 1000 kg/m3 x 9.80665 m/s2 x 0.0254 m

PRESSURES = st.floats(LIMITS["pan_pressure"].low, LIMITS["pan_pressure"].high)
ALLOWANCES = st.none() | st.floats(LIMITS["dirty_filter_allowance"].low, LIMITS["dirty_filter_allowance"].high)
CLEARANCES = st.none() | st.floats(LIMITS["clearance_below_outlet"].low, LIMITS["clearance_below_outlet"].high)
SIZES = st.none() | st.sampled_from(NOMINAL_SIZES)


def codes(answer):
    return [finding.code for finding in answer.findings]


def test_negative_pan_by_the_trades_rule():
    """1.2 in and 0.5 in for the filter: drop 1.7 + 1 = 2.7 in, seal half of it (common practice, no source).

    3/4 in PVC Schedule 40 is 1.050 in outside with a wall of 0.113 in (ASTM D1785): bore 0.824 in. Overall
    2.7 + 1.35 + 0.824 + 0.113 in.
    """
    answer = size_trap(
        pan_pressure=-1.2 * INH2O, dirty_filter_allowance=0.5 * INH2O, pipe_size="3/4", clearance_below_outlet=7 * INCH
    )
    size = answer.results
    assert size.design_pressure / INH2O == pytest.approx(-1.7)
    assert size.outlet_drop / INCH == pytest.approx(2.7)
    assert size.seal_depth / INCH == pytest.approx(1.35)
    assert size.overall_depth / INCH == pytest.approx(2.7 + 1.35 + 0.824 + 0.113)
    levels = [(state.unit_side_level / INCH, state.outlet_side_level / INCH) for state in size.states]
    expected = [(0, 0), (0.85, -0.85), (1.7, 0), (0, 0)]
    assert levels == [pytest.approx(pair, abs=1e-9) for pair in expected]
    assert answer.verdict == "pass"
    assert not answer.assumptions


def test_positive_pan_by_the_trades_rule():
    """0.8 in: seal 0.8 + 1/2 in, drop 1/2 in (common practice, no source)."""
    answer = size_trap(pan_pressure=0.8 * INH2O, pipe_size="1")
    size = answer.results
    assert size.outlet_drop / INCH == pytest.approx(0.5)
    assert size.seal_depth / INCH == pytest.approx(1.3)
    # 1 in: 1.315 in outside, wall 0.133 in (ASTM D1785)
    assert size.overall_depth / INCH == pytest.approx(0.5 + 1.3 + 1.315 - 0.133)
    assert answer.verdict == "pass"


def test_water_that_fills_it():
    """Two legs of 1.35 in and half a ring of mean radius bore / 2: bore area x (2.7 + pi / 2 x 0.824) in."""
    size = size_trap(pan_pressure=-1.7 * INH2O, pipe_size="3/4").results
    by_hand = math.pi / 4 * 0.824**2 * (2.7 + math.pi / 2 * 0.824)
    assert size.water_volume / INCH**3 == pytest.approx(by_hand)


def test_a_dirty_filter_adds_to_suction_only():
    """Upstream of a fan that pushes, a dirty filter lowers the pan's pressure; the clean one is the worst case."""
    allowance = 0.4 * INH2O
    assert size_trap(pan_pressure=-INH2O, dirty_filter_allowance=allowance).results.design_pressure == pytest.approx(
        -1.4 * INH2O
    )
    positive = size_trap(pan_pressure=INH2O, dirty_filter_allowance=allowance)
    assert positive.results.design_pressure == INH2O
    assert "filter-allowance-not-added" in codes(positive)
    level = size_trap(pan_pressure=0.0, dirty_filter_allowance=allowance)
    assert level.results.design_pressure == -allowance
    assert "pan-without-pressure" not in codes(level)


def test_only_defaults_that_enter_are_assumed():
    def pointers(**arguments):
        return [assumption.pointer for assumption in size_trap(**arguments).assumptions]

    assert pointers(pan_pressure=-INH2O) == ["/dirty_filter_allowance", "/pipe_size"]
    assert pointers(pan_pressure=INH2O) == ["/pipe_size"]  # no allowance would be added
    assert pointers(pan_pressure=INH2O, pipe_size="1") == []


def test_too_little_room_says_how_much_and_what_would_fit():
    """2.7 + 1.35 + 0.824 + 0.113 = 4.987 in into 4 in: 0.987 in short. Without bore and wall 3.063 in are left for
    drop and seal, so 2.042 in of drop and 1.042 in of suction."""
    answer = size_trap(pan_pressure=-1.7 * INH2O, pipe_size="3/4", clearance_below_outlet=4 * INCH)
    (finding,) = (finding for finding in answer.findings if finding.code == "trap-does-not-fit")
    assert answer.verdict == "fail"
    assert finding.pointer == "/clearance_below_outlet"
    assert finding.values["short_by"] / INCH == pytest.approx(0.987)
    assert finding.values["largest_pressure"] / INH2O == pytest.approx(1.042)


@given(PRESSURES, SIZES, CLEARANCES)
def test_what_is_said_to_fit_does_fit_exactly(pressure, pipe_size, clearance):
    answer = size_trap(pan_pressure=pressure, pipe_size=pipe_size, clearance_below_outlet=clearance)
    for finding in answer.findings:
        if finding.code == "trap-does-not-fit":
            largest = math.copysign(finding.values["largest_pressure"], pressure)
            fitting = size_trap(pan_pressure=largest, pipe_size=pipe_size).results
            assert fitting.overall_depth == pytest.approx(clearance, abs=1e-9)
        elif finding.code == "trap-has-no-room":
            smallest = size_trap(pan_pressure=math.copysign(1e-9, pressure), pipe_size=pipe_size).results
            assert smallest.overall_depth >= clearance - 1e-9


@given(PRESSURES, ALLOWANCES, SIZES)
def test_a_sized_trap_passes_its_own_check(pressure, allowance, pipe_size):
    size = size_trap(pan_pressure=pressure, dirty_filter_allowance=allowance, pipe_size=pipe_size)
    check = check_trap(
        pan_pressure=pressure,
        dirty_filter_allowance=allowance,
        pipe_size=pipe_size,
        outlet_drop=size.results.outlet_drop,
        seal_depth=size.results.seal_depth,
        pan_area=0.3,
    )
    judged = set(codes(check)) - {"trap-pipe-too-small", "pan-pressure-unusual"}
    assert not {code for code in judged if FINDINGS[code].severity != "info"}
    assert check.results.drains_running
    assert check.results.seal_margin == pytest.approx(0.5 * INCH, abs=1e-9)
    assert check.results.states == size.results.states


@given(PRESSURES, ALLOWANCES, SIZES, CLEARANCES)
def test_every_request_has_finite_results(pressure, allowance, pipe_size, clearance):
    size = size_trap(
        pan_pressure=pressure, dirty_filter_allowance=allowance, pipe_size=pipe_size, clearance_below_outlet=clearance
    ).results
    numbers = [getattr(size, name) for name in size.__slots__ if name != "states"]
    assert all(math.isfinite(number) for number in numbers)
    assert size.seal_depth >= 0.5 * INCH - 1e-12  # equation (2) at no suction, (3) at no pressure
    assert size.outlet_drop >= 0.5 * INCH


@pytest.mark.parametrize(
    ("arguments", "code"),
    [
        ({"pan_pressure": -5.1 * INH2O}, "pan-pressure-unusual"),
        ({"pan_pressure": 5.1 * INH2O}, "pan-pressure-unusual"),
        ({"pan_pressure": -5.0 * INH2O}, None),
        ({"pan_pressure": -1.2 * INH2O, "pipe_size": "1/2"}, "trap-pipe-too-small"),
        ({"pan_pressure": 0.0}, "pan-without-pressure"),
        ({"pan_pressure": -0.9 * INH2O}, "seal-shallow"),  # seal 0.95 in
        ({"pan_pressure": -1.0 * INH2O}, None),  # seal 1 in
        ({"pan_pressure": -1.0 * INH2O, "clearance_below_outlet": 2.0 * INCH}, "trap-has-no-room"),
        ({"pan_pressure": -1.7 * INH2O, "pipe_size": "3/4", "clearance_below_outlet": 4.987 * INCH}, None),
        (
            {"pan_pressure": -1.7 * INH2O, "pipe_size": "3/4", "clearance_below_outlet": 4.986 * INCH},
            "trap-does-not-fit",
        ),
    ],
)
def test_findings(arguments, code):
    always = {"trap-building-details"}
    if arguments["pan_pressure"] > 0.0:
        always |= {"trap-optional-under-pressure"}
    elif arguments["pan_pressure"] == 0.0:
        always |= {"seal-shallow"}  # seal of half the inch of drop
    assert set(codes(size_trap(**arguments))) == always | ({code} - {None})


@pytest.mark.parametrize("name", LIMITS)
def test_outside_its_limits_an_argument_is_refused(name):
    for value in (LIMITS[name].low - 1.0, LIMITS[name].high + 1.0, math.nan):
        with pytest.raises(OutOfRange):
            size_trap(**({"pan_pressure": -100.0} | {name: value}))
