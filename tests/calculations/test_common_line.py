"""A line that units join along the run: water is neither lost nor made, whatever the tree."""

import math
from dataclasses import fields, replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from service.calculations.answer import Answer
from service.calculations.common_line import LENGTH_LIMITS, LineLength, join_units
from service.calculations.drain_sizing import LIMITS, DrainSizing, size_drain
from service.calculations.line_size import SizedLength, SizedLine
from service.calculations.served_unit import ServedUnit
from service.tables.drain_sizes import TON
from service.tables.pipe_sizes import MATERIALS, NOMINAL_SIZES

SIZES = st.none() | st.sampled_from(NOMINAL_SIZES)


def bounded(name: str) -> st.SearchStrategy[float]:
    """Numbers within a limit, its ends included."""
    return st.floats(LIMITS[name].low, LIMITS[name].high)


@st.composite
def trees(draw: st.DrawFn) -> tuple[tuple[ServedUnit, ...], tuple[LineLength, ...]]:
    """Units on a tree of lengths, every name of which can be followed."""
    count = draw(st.integers(1, 7))
    lengths = tuple(
        LineLength(
            id=str(index),
            joins=draw(st.none() | st.integers(index + 1, count - 1).map(str)) if index < count - 1 else None,
            run=draw(st.none() | st.floats(0.1, 30.0)),
            pitch_ratio=draw(st.none() | st.floats(-0.01, 0.1)),
            installed_pipe_size=draw(SIZES),
        )
        for index in range(count)
    )
    units = tuple(
        ServedUnit(
            total_capacity=draw(st.floats(0.0, 2e5)),
            sensible_heat_ratio=draw(st.none() | st.floats(0.0, 1.0)),
            peak_flow=draw(st.none() | st.floats(0.0, 1e-4)),
            pan_outlet=draw(SIZES),
            joins=draw(st.none() | st.integers(0, count - 1).map(str)),
        )
        for _ in range(draw(st.integers(1, 6)))
    )
    return units, lengths


def codes(answer: Answer[DrainSizing]) -> list[str]:
    """Codes of an answer's findings."""
    return [finding.code for finding in answer.findings]


def path(unit: ServedUnit, lengths: tuple[LineLength, ...]) -> list[int]:
    """The lengths a unit's water runs through, followed one by one from where it joins: an independent walk."""
    here: int | None = int(unit.joins or 0)
    passed = []
    while here is not None:
        passed.append(here)
        named = lengths[here].joins
        here = int(named) if named is not None else here + 1 if here + 1 < len(lengths) else None
    return passed


def line_of(length: SizedLine) -> dict[str, object]:
    """What a length has in common with a line of one length."""
    return {field.name: getattr(length, field.name) for field in fields(SizedLine)}


@settings(max_examples=40)
@given(trees())
def test_each_length_carries_the_units_whose_water_passes_it(
    tree: tuple[tuple[ServedUnit, ...], tuple[LineLength, ...]],
) -> None:
    units, lengths = tree
    line = join_units(units, lengths)
    for place, load in enumerate(line.loads):
        through = [index for index, unit in enumerate(units) if place in path(unit, lengths)]
        assert list(load.units) == through
        assert load.total_capacity == pytest.approx(sum(units[index].total_capacity for index in through), abs=1e-6)


@settings(max_examples=40)
@given(trees())
def test_the_outlet_carries_exactly_what_all_units_bring(
    tree: tuple[tuple[ServedUnit, ...], tuple[LineLength, ...]],
) -> None:
    units, lengths = tree
    results = size_drain(units=units, lengths=lengths).results
    alone = size_drain(units=units).results
    assert (results.peak_flow, results.total_capacity) == (alone.peak_flow, alone.total_capacity)
    assert (results.lengths[-1].peak_flow, results.lengths[-1].next_length) == (alone.peak_flow, None)


@settings(max_examples=40)
@given(trees())
def test_what_leaves_a_length_is_what_joins_it_and_what_runs_into_it(
    tree: tuple[tuple[ServedUnit, ...], tuple[LineLength, ...]],
) -> None:
    units, lengths = tree
    rows = size_drain(units=units, lengths=lengths).results.lengths
    for place, row in enumerate(rows):
        above = math.fsum(other.peak_flow for other in rows if other.next_length == place)
        own = tuple(replace(unit, joins=None) for unit in units if int(unit.joins or 0) == place)
        joining = size_drain(units=own).results.peak_flow if own else 0.0
        assert row.peak_flow == pytest.approx(above + joining, rel=1e-12, abs=1e-18)


@settings(max_examples=40)
@given(trees())
def test_no_length_is_smaller_than_what_runs_into_it(
    tree: tuple[tuple[ServedUnit, ...], tuple[LineLength, ...]],
) -> None:
    units, lengths = tree
    rows = size_drain(units=units, lengths=lengths).results.lengths
    for row in rows:
        if row.next_length is None:
            continue
        below = rows[row.next_length]
        assert below.next_length is None or below.next_length > row.next_length
        assert below.total_capacity >= row.total_capacity
        for size in (row.pipe_size, row.installed_pipe_size):
            if size is not None and below.pipe_size is not None:
                assert NOMINAL_SIZES.index(below.pipe_size) >= NOMINAL_SIZES.index(size)


@settings(max_examples=40)
@given(trees(), st.permutations(range(7)))
def test_the_order_of_the_units_does_not_matter(
    tree: tuple[tuple[ServedUnit, ...], tuple[LineLength, ...]], order: list[int]
) -> None:
    units, lengths = tree
    mixed = tuple(units[place] for place in order if place < len(units))
    assert size_drain(units=mixed, lengths=lengths).results == size_drain(units=units, lengths=lengths).results


@settings(max_examples=40)
@given(trees(), st.permutations(range(7)))
def test_the_order_of_the_branches_does_not_matter(
    tree: tuple[tuple[ServedUnit, ...], tuple[LineLength, ...]], order: list[int]
) -> None:
    units, lengths = tree
    count = len(lengths)
    # every name spelled out, then any order in which each length stands before the one it joins
    spelled = [
        replace(length, joins=length.joins or (str(index + 1) if index + 1 < count else None))
        for index, length in enumerate(lengths)
    ]
    named = tuple(replace(unit, joins=unit.joins or "0") for unit in units)
    left, places = set(range(count)), []
    while left:
        free = [place for place in left if not any(spelled[other].joins == str(place) for other in left)]
        chosen = min(free, key=order.index)
        places.append(chosen)
        left.remove(chosen)
    moved = size_drain(units=named, lengths=tuple(spelled[place] for place in places)).results
    first = size_drain(units=named, lengths=tuple(spelled)).results
    assert line_of(moved) == line_of(first)
    by_id = {row.id: row for row in moved.lengths}
    for row in first.lengths:
        assert line_of(by_id[row.id]) == line_of(row)


@given(st.floats(0.0, 1e6), st.floats(0.0, 1e-4), st.integers(1, 5), SIZES, st.none() | st.sampled_from(MATERIALS))
def test_a_chain_with_one_unit_at_its_head_is_the_simple_line_all_along(
    capacity: float, peak: float, count: int, pan_outlet: str | None, material: str | None
) -> None:
    units = (ServedUnit(total_capacity=capacity, peak_flow=peak),)
    common = {"pan_outlet": pan_outlet, "material": material, "pitch_ratio": 0.0104}
    simple = size_drain(units=units, **common).results  # type: ignore[arg-type]
    chain = size_drain(units=units, lengths=(LineLength(),) * count, **common).results  # type: ignore[arg-type]
    assert line_of(chain) == line_of(simple)
    assert len(chain.lengths) == count
    for row in chain.lengths:
        assert line_of(row) == line_of(simple)
    assert simple.lengths == ()


NAMES = st.none() | st.sampled_from(("", "a", "b", "c"))


@given(
    units=st.lists(
        st.builds(
            ServedUnit,
            total_capacity=bounded("total_capacity"),
            sensible_heat_ratio=st.none() | bounded("sensible_heat_ratio"),
            peak_flow=st.none() | bounded("peak_flow"),
            pan_outlet=SIZES,
            joins=NAMES,
        ),
        min_size=1,
        max_size=4,
    ).map(tuple),
    lengths=st.lists(
        st.builds(
            LineLength,
            id=NAMES,
            joins=NAMES,
            run=st.none() | st.floats(LENGTH_LIMITS["run"].low, LENGTH_LIMITS["run"].high),
            pitch_ratio=st.none() | bounded("pitch_ratio") | st.sampled_from((5e-324, 1e-300, 1e-12, 1e-5)),
            installed_pipe_size=SIZES,
        ),
        min_size=1,
        max_size=6,
    ).map(tuple),
    material=st.none() | st.sampled_from(MATERIALS),
    pitch_ratio=st.none() | bounded("pitch_ratio"),
    manning_coefficient=st.none() | bounded("manning_coefficient"),
    water_temperature=st.none() | bounded("water_temperature"),
    pan_outlet=SIZES,
)
def test_every_list_of_lengths_has_a_meaning_also_with_names_that_lead_nowhere(**request: object) -> None:
    answer = size_drain(**request)  # type: ignore[arg-type]
    units = request["units"]
    assert isinstance(units, tuple)
    assert answer.results.total_capacity == pytest.approx(math.fsum(unit.total_capacity for unit in units))
    for row in answer.results.lengths:
        numbers = [getattr(row, field.name) for field in fields(SizedLength)]
        assert all(math.isfinite(number) for number in numbers if isinstance(number, float))
        if row.bore is not None and row.depth is not None:
            assert 0.0 <= row.depth <= row.bore
            assert row.velocity is not None
            assert row.full_bore_velocity is not None
            # 1.140 of the full bore's is the most there is, at 0.81 of the bore (Chow)
            assert 0.0 <= row.velocity <= 1.1405 * row.full_bore_velocity


def units_of(*rows: tuple[float, str | None]) -> tuple[ServedUnit, ...]:
    """Units of so many tons that join there."""
    return tuple(ServedUnit(total_capacity=tons * TON, peak_flow=1e-6, joins=joins) for tons, joins in rows)


def test_sizes_grow_as_units_join() -> None:
    # by the code's table: 12 tons 3/4 in; 24 tons 1 in; with the branch of 10 and 10 more 44 tons 1-1/4 in
    lengths = (LineLength(id="far"), LineLength(id="near", joins="end"), LineLength(id="branch"), LineLength(id="end"))
    units = units_of((12.0, "far"), (12.0, "near"), (10.0, "branch"), (10.0, "end"))
    answer = size_drain(units=units, lengths=lengths, pitch_ratio=0.02)
    rows = answer.results.lengths
    assert [row.pipe_size for row in rows] == ["3/4", "1", "3/4", "1-1/4"]
    assert [row.next_length for row in rows] == [1, 3, 3, None]
    assert [round(row.peak_flow * 1e6) for row in rows] == [1, 2, 1, 4]
    assert answer.results.pipe_size == "1-1/4"
    assert codes(answer) == []


def test_a_pan_outlet_holds_from_its_unit_on() -> None:
    lengths = (LineLength(id="a"), LineLength(id="b"), LineLength(id="c"))
    units = (
        *units_of((3.0, "a")),
        ServedUnit(total_capacity=3.0 * TON, pan_outlet="1", joins="b"),
        *units_of((3.0, "c")),
    )
    answer = size_drain(units=units, lengths=lengths, pitch_ratio=0.02)
    assert [row.pipe_size for row in answer.results.lengths] == ["3/4", "1", "1"]
    # said where it begins, not again further down
    assert [(finding.code, finding.pointer) for finding in answer.findings] == [
        ("line-size-set-by-pan-outlet", "/lengths/1")
    ]


def test_what_is_built_is_compared_with_what_drains_through_and_what_runs_in() -> None:
    lengths = (
        LineLength(id="a", installed_pipe_size="1-1/2"),
        LineLength(id="b", installed_pipe_size="3/4"),
        LineLength(id="c"),
    )
    units = units_of((30.0, "a"), (3.0, "b"))
    answer = size_drain(units=units, lengths=lengths, pitch_ratio=0.02)
    assert [row.pipe_size for row in answer.results.lengths] == ["1", "1-1/2", "1-1/2"]
    assert {(finding.code, finding.pointer) for finding in answer.findings} == {
        ("line-size-of-one-unit", "/units/0/total_capacity"),
        ("line-size-set-upstream", "/lengths/1"),
        ("length-smaller-than-needed", "/lengths/1/installed_pipe_size"),
        ("line-shrinks-downstream", "/lengths/1/installed_pipe_size"),
        ("line-size-set-upstream", "/lengths/2"),
    }
    # the water runs in the pipe that is there: ASTM D1785, 3/4 in
    assert answer.results.lengths[1].bore == pytest.approx(0.824 * 0.0254)
    assert answer.results.tightest_length == 1


def test_the_length_that_backs_up_is_named() -> None:
    clean = size_drain(units=units_of((3.0, None)), pitch_ratio=0.02).results
    assert clean.full_bore_capacity is not None
    half = 0.6 * clean.full_bore_capacity
    units = tuple(ServedUnit(total_capacity=TON, peak_flow=half, joins=name) for name in ("a", "b"))
    lengths = (LineLength(id="a"), LineLength(id="b", run=3.0, pitch_ratio=0.02))
    answer = size_drain(units=units, lengths=lengths, pitch_ratio=0.02)
    assert [(finding.code, finding.pointer) for finding in answer.findings] == [
        ("fouling-margin-small", "/lengths/0"),
        ("peak-flow-exceeds-line", "/lengths/1/pitch_ratio"),
    ]
    assert answer.results.tightest_length == 1
    assert answer.results.lengths[1].fall == pytest.approx(0.06)


def test_own_pitches_are_judged_each_and_the_lines_once() -> None:
    lengths = (LineLength(), LineLength(), LineLength(run=6.0, pitch_ratio=0.005), LineLength(pitch_ratio=0.0))
    answer = size_drain(units=units_of((3.0, None)), lengths=lengths, pitch_ratio=0.015)
    assert [(finding.code, finding.pointer) for finding in answer.findings] == [
        ("pitch-below-usual", "/pitch_ratio"),
        ("pitch-below-minimum", "/lengths/2/pitch_ratio"),
        ("line-is-level", "/lengths/3/pitch_ratio"),
    ]
    assert [row.depth is None for row in answer.results.lengths] == [False, False, False, True]


def test_defaults_are_recorded_only_where_they_entered() -> None:
    def pointers(*lengths: LineLength, joins: str | None = None) -> list[str]:
        answer = size_drain(
            units=units_of((3.0, joins), (3.0, None)),
            lengths=lengths,
            material="copper-type-l",
            manning_coefficient=0.01,
            water_temperature=290.0,
        )
        return [assumption.pointer for assumption in answer.assumptions]

    sloping = LineLength(id="a", pitch_ratio=0.02)
    assert pointers(sloping) == []
    assert pointers(sloping, sloping, joins="a") == ["/units/1/joins"]
    assert pointers(sloping, LineLength()) == ["/units", "/pitch_ratio"]


def test_names_that_lead_nowhere_are_pointed_out_and_taken_as_the_list_runs() -> None:
    lengths = (LineLength(id="a", joins="nowhere"), LineLength(id="b", joins="a"), LineLength(id="b", joins="b"))
    answer = size_drain(units=units_of((3.0, "x"), (3.0, "b")), lengths=lengths, pitch_ratio=0.02)
    assert {(finding.code, finding.pointer) for finding in answer.findings} == {
        ("length-id-repeated", "/lengths/2/id"),
        ("length-joins-unknown", "/lengths/0/joins"),
        ("length-joins-unknown", "/lengths/1/joins"),
        ("length-joins-unknown", "/lengths/2/joins"),
        ("unit-joins-unknown", "/units/0/joins"),
    }
    assert answer.verdict == "attention"
    assert [row.next_length for row in answer.results.lengths] == [1, 2, None]
    assert [round(row.total_capacity / TON) for row in answer.results.lengths] == [3, 6, 6]


def test_a_unit_that_joins_a_length_nobody_listed_is_pointed_out() -> None:
    answer = size_drain(units=units_of((3.0, "roof")), pitch_ratio=0.02)
    assert codes(answer) == ["unit-joins-unknown"]
    assert answer.results.pipe_size == "3/4"


def test_a_length_without_units_carries_nothing() -> None:
    answer = size_drain(units=units_of((3.0, "b")), lengths=(LineLength(id="a"), LineLength(id="b")), pitch_ratio=0.02)
    assert codes(answer) == ["length-carries-nothing"]
    assert answer.results.lengths[0].depth == 0.0
    assert answer.results.lengths[0].pipe_size == "3/4"


def test_a_size_that_the_material_is_not_made_in_has_no_flow() -> None:
    lengths = (LineLength(installed_pipe_size="3"),)
    answer = size_drain(units=units_of((3.0, None)), lengths=lengths, material="cpvc-sdr-11", pitch_ratio=0.02)
    assert codes(answer) == ["installed-size-not-made"]
    assert answer.results.lengths[0].bore is None
    assert answer.results.tightest_length is None


def test_beyond_the_table_what_is_built_is_still_computed() -> None:
    lengths = (LineLength(installed_pipe_size="4"),)
    answer = size_drain(units=units_of((260.0, None)), lengths=lengths, pitch_ratio=0.02)
    assert codes(answer) == ["line-needs-engineering"]
    assert answer.results.pipe_size is None
    assert answer.results.fouling_margin is not None


def test_what_is_built_all_along_holds_for_each_length_without_its_own() -> None:
    lengths = (LineLength(id="a"), LineLength(id="b"), LineLength(id="c", installed_pipe_size="1-1/4"))
    units = units_of((12.0, "a"), (12.0, "b"), (1.0, "c"))
    answer = size_drain(units=units, lengths=lengths, pitch_ratio=0.02, installed_pipe_size="3/4")
    assert [row.installed_pipe_size for row in answer.results.lengths] == ["3/4", "3/4", "1-1/4"]
    # 24 tons need 1 in
    assert [(finding.code, finding.pointer) for finding in answer.findings] == [
        ("length-smaller-than-needed", "/lengths/1")
    ]
