"""A surveyed line: ponds by hand, by flooding a fine grid, at the limits, and within the tolerance."""

import heapq
import itertools
import math
from collections.abc import Callable, Sequence
from dataclasses import astuple
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from service.calculations.answer import Answer
from service.calculations.drain_profile import Station, water_levels
from service.calculations.drain_survey import LIMITS, MEASUREMENT_TOLERANCE, DrainSurvey, survey_drain
from service.errors import OutOfRange
from service.tables.pipe_sizes import MATERIALS, NOMINAL_SIZES

FOOT, INCH = 0.3048, 0.0254
BORE = 0.824 * INCH


def line(inches: Sequence[float], spacing: float = 4.0) -> tuple[Station, ...]:
    """Stations every ``spacing`` feet with inverts in inches."""
    return tuple(Station(distance=spacing * FOOT * i, invert=h * INCH) for i, h in enumerate(inches))


def survey(inches: Sequence[float], spacing: float = 4.0, **options: Any) -> Answer[DrainSurvey]:
    return survey_drain(pipe_size="3/4", stations=line(inches, spacing), **options)


def codes(answer: Answer[DrainSurvey]) -> set[str]:
    return {finding.code for finding in answer.findings}


def finding(answer: Answer[DrainSurvey], code: str) -> Any:
    return next(row for row in answer.findings if row.code == code)


def test_a_line_that_falls_all_the_way_holds_nothing_and_passes() -> None:
    answer = survey([10, 8.8, 7.6, 6.4, 5.2, 4])
    assert answer.findings == ()
    assert answer.results.ponds == ()
    assert answer.results.standing_volume == 0.0
    assert answer.results.total_fall == pytest.approx(6 * INCH)
    assert answer.results.pitch_per_foot == pytest.approx(6 * INCH / 20)  # 6 in over 20 ft
    assert all(station.water_depth == station.raise_for_minimum_pitch == 0.0 for station in answer.results.stations)


def test_a_v_is_filled_to_its_sill() -> None:
    """Inverts 10, 8, 5, 7, 4 in every 4 ft, by hand.

    Low point 5 in at 8 ft, sill 7 in at 12 ft: 2 in deep. Upstream the pipe falls from 8 in at 4 ft to 5 in at 8 ft and
    is at 7 in one third of the way: 4 + 4/3 ft. It is full where the depth is 0.824 in or more: upstream the slope is
    3 in in 4 ft, so (2 - 0.824) / 3 of 4 ft; downstream 2 in in 4 ft, so (2 - 0.824) / 2 of 4 ft.
    """
    answer = survey([10, 8, 5, 7, 4])
    (pond,) = answer.results.ponds
    assert pond.start == pytest.approx((4 + 4 / 3) * FOOT)
    assert pond.end == pytest.approx(12 * FOOT)
    assert pond.depth == pytest.approx(2 * INCH)
    assert pond.level == pytest.approx(7 * INCH)
    assert pond.fills_bore is True
    assert pond.full_bore_length == pytest.approx(4 * FOOT * 1.176 * (1 / 3 + 1 / 2))
    assert (pond.low_station, pond.sill_station) == (2, 3)
    assert pond.correction.move == "raise"
    assert (pond.correction.station, pond.correction.station_count) == (2, 1)
    assert pond.correction.by == pytest.approx(2 * INCH)
    assert pond.correction.by_for_minimum_pitch == pytest.approx(2.5 * INCH)  # 1/8 in per ft over 4 ft more
    assert codes(answer) == {"segments-back-fall", "pond-holds-water", "pond-fills-bore"}
    assert answer.verdict == "fail"
    assert finding(answer, "segments-back-fall").pointer == "/stations/3"
    assert finding(answer, "pond-fills-bore").pointer == "/stations/2"


def test_a_long_hump_is_raised_to_and_a_single_high_hanger_is_lowered() -> None:
    # four stations lie in the water, one holds it back: lower that one
    (pond,) = survey([10, 4.0, 3.9, 3.8, 3.7, 6, 2]).results.ponds
    assert (pond.correction.move, pond.correction.station, pond.correction.station_count) == ("lower", 5, 1)
    assert pond.correction.by == pytest.approx(2.3 * INCH)
    assert pond.correction.by_for_minimum_pitch == pytest.approx(2.8 * INCH)  # 1/8 in per ft over the 4 ft between
    # one lies in the water, three hold it back: raise the one
    (pond,) = survey([10, 4, 6, 5.9, 5.8, 2]).results.ponds
    assert (pond.correction.move, pond.correction.station, pond.correction.station_count) == ("raise", 1, 1)


@pytest.mark.parametrize(
    "inches", [[10, 8, 5, 7, 4], [10, 4.0, 3.9, 3.8, 3.7, 6, 2], [10, 3, 3, 3, 8, 1], [3, 1, 2, 0]]
)
def test_the_correction_of_a_single_pond_lets_the_water_out(inches: list[float]) -> None:
    (pond,) = survey(inches).results.ponds
    moved = [height * INCH for height in inches]
    low = moved[pond.low_station]
    if pond.correction.move == "raise":
        moved = [
            max(height, pond.level) if pond.start <= i * 4 * FOOT <= pond.end else height
            for i, height in enumerate(moved)
        ]
        assert sum(a != b * INCH for a, b in zip(moved, inches, strict=True)) == pond.correction.station_count
    else:
        moved = [min(height, low) if i > pond.low_station else height for i, height in enumerate(moved)]
        assert sum(a != b * INCH for a, b in zip(moved, inches, strict=True)) == pond.correction.station_count
    again = survey_drain(
        pipe_size="3/4", stations=tuple(Station(distance=i * 4 * FOOT, invert=h) for i, h in enumerate(moved))
    )
    assert again.results.ponds == ()


def test_a_w_whose_middle_is_the_lower_sill_is_one_pond_and_otherwise_two() -> None:
    merged = survey([10, 2, 4, 1, 6, 0]).results.ponds
    assert len(merged) == 1
    assert merged[0].level == pytest.approx(6 * INCH)
    assert merged[0].depth == pytest.approx(5 * INCH)
    assert merged[0].start == pytest.approx(4 * FOOT * 0.5)  # 10 to 2 in: 6 in is half way down
    apart = survey([10, 2, 6, 1, 4, 0]).results.ponds
    assert [round(pond.level / INCH, 9) for pond in apart] == [6, 4]
    assert apart[0].end == pytest.approx(8 * FOOT)
    assert apart[1].start == pytest.approx(8 * FOOT + 4 * FOOT * 2 / 5)  # 6 to 1 in: 4 in after two fifths
    level = survey([10, 2, 6, 1, 6, 0]).results.ponds
    assert [round(pond.level / INCH, 9) for pond in level] == [6, 6]


def test_a_line_that_rises_stands_back_into_the_pan() -> None:
    answer = survey([0, 1, 2, 3])
    (pond,) = answer.results.ponds
    assert pond.reaches_pan
    assert (pond.start, pond.end) == (0.0, pytest.approx(12 * FOOT))
    assert pond.depth == pytest.approx(3 * INCH)
    assert {"segments-back-fall", "pond-reaches-pan", "pond-fills-bore"} <= codes(answer)
    assert finding(answer, "pond-reaches-pan").pointer == "/stations/0"
    # each station's way to 1/8 in per ft by raising alone: 3 in and 1/2 in for each of the segments below
    assert [round(one.raise_for_minimum_pitch / INCH, 9) for one in answer.results.stations] == [4.5, 3, 1.5, 0]
    assert [round(one.lower_for_minimum_pitch / INCH, 9) for one in answer.results.stations] == [0, 1.5, 3, 4.5]


def test_a_level_line_is_flat_and_holds_nothing() -> None:
    answer = survey([5, 5, 5])
    assert answer.results.ponds == ()
    assert codes(answer) == {"segments-flat"}
    assert finding(answer, "segments-flat").values["count"] == 2
    assert answer.results.total_fall == answer.results.pitch_ratio == 0.0


def test_one_finding_a_kind_with_its_count_and_its_worst() -> None:
    inches = [100.0]
    for fall in (1.2, -0.5, 1.2, -0.9, 0.1, 0.2, 0.7, 0.0, 1.2):
        inches.append(inches[-1] - fall)
    answer = survey(inches, measurement_tolerance=0.0)
    found = {row.code: (row.values.get("count"), row.pointer) for row in answer.findings}
    assert found["segments-back-fall"] == (2, "/stations/4")
    assert found["segments-below-minimum"] == (2, "/stations/5")
    assert found["segments-below-usual"] == (1, "/stations/7")
    assert found["segments-flat"] == (1, "/stations/8")
    assert found["pond-holds-water"][0] == 2
    assert len(answer.findings) < 10
    assert [segment.judgement for segment in answer.results.segments] == [
        "usual", "back-fall", "usual", "back-fall", "below-minimum", "below-minimum", "minimum", "flat", "usual",
    ]  # fmt: skip


def test_within_the_tolerance_nothing_is_failed() -> None:
    # 0.05 in of back-fall; two readings to 1/16 in may be 1/8 in off together, so it may fall 0.075 in. Over half a
    # foot the code minimum is 0.0625 in: it may be good.
    inches = [2.0, 1.8, 1.85, 1.6]
    doubtful = survey(inches, spacing=0.5)
    assert "segments-near-minimum" in codes(doubtful)
    assert "segments-back-fall" not in codes(doubtful)
    assert finding(doubtful, "segments-near-minimum").values["telling_length"] == pytest.approx(4 * FOOT)
    assert codes(doubtful) >= {"pond-within-tolerance"}
    assert "pond-holds-water" not in codes(doubtful)
    assert doubtful.verdict == "attention"
    assert doubtful.results.segments[1].judgement == "back-fall"
    assert doubtful.results.segments[1].within_tolerance
    assert doubtful.results.segments[1].pitch_tolerance == pytest.approx(0.125 / 6)
    sure = survey(inches, spacing=0.5, measurement_tolerance=0.02 * INCH)
    assert "segments-back-fall" in codes(sure)
    assert "pond-holds-water" in codes(sure)
    assert not sure.results.segments[1].within_tolerance


def test_the_worst_reading_in_doubt_is_the_one_shortest_of_the_minimum() -> None:
    # the minimum over half a foot is 1/16 in: short of it by 0.0625 - 0.04 and by 0.0625 + 0.03
    answer = survey([2.0, 1.96, 1.99, 1.7], spacing=0.5)
    assert finding(answer, "segments-near-minimum").values["count"] == 2
    assert finding(answer, "segments-near-minimum").pointer == "/stations/2"


def test_a_reading_just_above_a_mark_may_be_below_it() -> None:
    # usual over 4 ft is 0.96 in: 1.0 in less two readings' 1/8 in may be under it, 1.2 in may not
    assert [one.within_tolerance for one in survey([2.2, 1.2, 0.0]).results.segments] == [True, False]


def test_a_fall_that_may_be_the_usual_one_is_not_said_to_be_less() -> None:
    assert codes(survey([0.9, 0.0])) == {"segments-within-tolerance"}
    assert codes(survey([0.8, 0.0])) == {"segments-below-usual"}


def test_water_within_the_tolerance_does_not_reach_the_pan_nor_fill_the_bore() -> None:
    answer = survey([1.9, 2.0, 0.5])
    assert answer.results.ponds[0].reaches_pan
    assert "pond-reaches-pan" not in codes(answer)
    assert "pond-reaches-pan" in codes(survey([1.8, 2.0, 0.5]))
    # 0.3 in of water in a bore of 0.824 in, measured by eye to half an inch: no word of a second trap
    by_eye = survey([4, 1.7, 2.0, 0.5], measurement_tolerance=0.5 * INCH)
    assert not codes(by_eye) & {"pond-may-fill-bore", "pond-fills-bore"}


def test_stations_no_tape_tells_apart_are_vertical() -> None:
    line = (Station(distance=1.0, invert=0.5), Station(distance=1.0005, invert=0.1))
    answer = survey_drain(pipe_size="3/4", stations=line)
    assert answer.results.segments[0].judgement == "drop"
    assert answer.results.pitch_ratio is answer.results.pitch_per_foot is answer.results.least_pitch_ratio is None


def test_the_last_bits_of_a_number_are_no_pond() -> None:
    stations = (Station(distance=0.0, invert=0.3), Station(distance=1.0, invert=0.1 + 0.2))
    assert 0.1 + 0.2 > 0.3
    answer = survey_drain(pipe_size="3/4", stations=stations)
    assert answer.results.ponds == ()
    assert answer.results.segments[0].judgement == "flat"


def test_a_flat_bottom_is_counted_whole_and_its_sill_alone() -> None:
    (pond,) = survey([10, 3, 3, 3, 8, 1]).results.ponds
    assert (pond.correction.move, pond.correction.station, pond.correction.station_count) == ("lower", 4, 1)


def test_a_good_reading_that_may_be_bad_is_said_but_passes() -> None:
    answer = survey([1.0, 0.9], spacing=0.4)  # 0.1 in over 0.4 ft reads 2 %, and may be off by 0.125 in
    assert codes(answer) == {"segments-within-tolerance"}
    assert answer.verdict == "pass"
    assert survey([1.0, 0.9], spacing=0.4, measurement_tolerance=0.0).findings == ()


@pytest.mark.parametrize(
    ("depth", "code"),
    [(0.4, None), (0.75, "pond-may-fill-bore"), (0.824, "pond-fills-bore"), (2.0, "pond-fills-bore")],
)
def test_a_pond_is_told_from_a_second_trap(depth: float, code: str | None) -> None:
    answer = survey([10, 4 - depth, 4, 2])
    assert codes(answer) & {"pond-may-fill-bore", "pond-fills-bore"} == ({code} if code else set())
    assert answer.results.ponds[0].fills_bore is (depth >= 0.824)


def test_a_vertical_drop_is_no_fault_and_a_riser_holds_water() -> None:
    drop = survey_drain(
        pipe_size="3/4",
        stations=(
            Station(distance=0.0, invert=1.0),
            Station(distance=1.0, invert=0.97),
            Station(distance=1.0, invert=0.2),
            Station(distance=2.0, invert=0.17),
        ),
    )
    assert drop.findings == ()
    assert [segment.judgement for segment in drop.results.segments] == ["usual", "drop", "usual"]
    assert drop.results.segments[1].pitch_ratio is None
    riser = survey_drain(
        pipe_size="3/4",
        stations=(
            Station(distance=0.0, invert=0.5),
            Station(distance=1.0, invert=0.0),
            Station(distance=1.0, invert=0.3),
            Station(distance=2.0, invert=0.27),
        ),
    )
    (pond,) = riser.results.ponds
    assert pond.depth == pytest.approx(0.3)
    assert pond.end == 1.0
    assert pond.fills_bore
    assert riser.results.segments[1].judgement == "riser"
    assert "segments-back-fall" in codes(riser)
    # by hand: the riser's 0.3 m, and the slope of 0.5 m in 1 m up to the same height, 0.6 of its length; the slanted
    # end of the water there takes off what fills half a bore's height of it, R / tan(slope) of length
    area = math.pi / 4 * BORE**2
    slope = 0.6 * math.hypot(1.0, 0.5)
    assert pond.volume == pytest.approx(area * (0.3 + slope - BORE / 2 / 0.5), rel=1e-9)


def test_stations_are_taken_in_order_of_distance_and_said_so() -> None:
    right = survey([10, 8, 5, 7, 4])
    stations = line([10, 8, 5, 7, 4])
    order = (3, 0, 4, 2, 1)
    mixed = survey_drain(pipe_size="3/4", stations=tuple(stations[i] for i in order))
    assert mixed.results.standing_volume == right.results.standing_volume
    assert mixed.results.ponds[0].low_station == order.index(2)
    assert finding(mixed, "segments-back-fall").pointer == f"/stations/{order.index(3)}"
    assert codes(mixed) == codes(right) | {"survey-out-of-order"}
    assert [stations[order[one.station]].distance for one in mixed.results.stations] == [
        one.distance for one in right.results.stations
    ]


def test_drops_below_a_level_line_are_inverts_upside_down() -> None:
    inverts = survey([10, 8, 5, 7, 4])
    drops = survey_drain(
        pipe_size="3/4",
        stations=tuple(
            Station(distance=i * 4 * FOOT, drop_below_level_line=(20 - h) * INCH)
            for i, h in enumerate((10, 8, 5, 7, 4))
        ),
    )
    assert drops.results.standing_volume == pytest.approx(inverts.results.standing_volume, rel=1e-12)
    assert drops.results.stations[0].invert == pytest.approx(-10 * INCH)
    assert codes(drops) == codes(inverts)
    assert "/level_line_height" in {row.pointer for row in drops.assumptions}
    assert "/level_line_height" not in {row.pointer for row in inverts.assumptions}


def test_kinds_of_reading_mix_where_the_level_lines_height_is_given() -> None:
    both = (
        Station(distance=0.0, invert=0.5),
        Station(distance=1.0, drop_below_level_line=0.53),
        Station(distance=2.0, invert=0.44),
    )
    known = survey_drain(pipe_size="3/4", stations=both, level_line_height=1.0)
    assert [round(one.invert, 9) for one in known.results.stations] == [0.5, 0.47, 0.44]
    assert known.findings == ()
    assert "survey-mixes-readings" in codes(survey_drain(pipe_size="3/4", stations=both))


def test_water_at_the_discharge_stands_back_into_the_line() -> None:
    # 1/4 in per ft, the last station 1 in under water: it stands back 4 ft
    answer = survey([5, 4, 3, 2, 1, 0], water_depth_at_outlet=1 * INCH)
    (pond,) = answer.results.ponds
    assert pond.held_by_outlet
    assert pond.start == pytest.approx(16 * FOOT)
    assert pond.end == pytest.approx(20 * FOOT)
    assert pond.depth == pytest.approx(1 * INCH)
    assert pond.correction.move == "raise"
    assert "outlet-under-water" in codes(answer)
    assert survey([5, 4, 3, 2, 1, 0]).results.ponds == ()


def test_stations_further_apart_than_hangers_leave_sags_unseen_in_plastic() -> None:
    assert "survey-too-coarse" in codes(survey([10, 8, 6], spacing=6.0))
    assert "survey-too-coarse" not in codes(survey([10, 8, 6], spacing=4.0))
    assert "survey-too-coarse" not in codes(survey([10, 8, 6], spacing=6.0, material="copper-type-m"))


def test_a_pipe_nobody_makes_has_ponds_without_a_volume() -> None:
    answer = survey_drain(pipe_size="3", material="cpvc-sdr-11", stations=line([10, 8, 5, 7, 4]))
    assert answer.results.bore is answer.results.standing_volume is None
    (pond,) = answer.results.ponds
    assert pond.volume is pond.fills_bore is pond.full_bore_length is None
    assert pond.depth == pytest.approx(2 * INCH)
    assert codes(answer) == {"segments-back-fall", "pond-of-unknown-volume", "pipe-bore-unknown"}


def test_every_default_that_entered_is_recorded_and_no_other() -> None:
    bare = survey([3, 2])
    assert [(row.pointer, row.value) for row in bare.assumptions] == [
        ("/material", "pvc-schedule-40"),
        ("/measurement_tolerance", MEASUREMENT_TOLERANCE),
        ("/water_depth_at_outlet", 0.0),
    ]
    said = survey([3, 2], material="pvc-schedule-40", measurement_tolerance=0.001, water_depth_at_outlet=0.0)
    assert said.assumptions == ()


def flooded(inverts: Sequence[float], outlet: float) -> list[float]:
    """Levels by priority flood from the discharge: of all cells next to what is flooded, the lowest fills next."""
    levels = [math.inf] * len(inverts)
    levels[-1] = inverts[-1] + outlet
    queue = [(levels[-1], len(inverts) - 1)]
    while queue:
        level, cell = heapq.heappop(queue)
        for near in (cell - 1, cell + 1):
            if 0 <= near < len(inverts) and levels[near] == math.inf:
                levels[near] = max(level, inverts[near])
                heapq.heappush(queue, (levels[near], near))
    return levels


@given(inverts=st.lists(st.floats(-5.0, 5.0), min_size=2, max_size=60), outlet=st.floats(0.0, 1.0))
def test_water_levels_are_those_of_a_priority_flood(inverts: list[float], outlet: float) -> None:
    assert water_levels(inverts, outlet) == flooded(inverts, outlet)


def area_at(depth: float, bore: float) -> float:
    radius, h = bore / 2, min(max(depth, 0.0), bore)
    return radius**2 * math.acos((radius - h) / radius) - (radius - h) * math.sqrt(max(2 * radius * h - h * h, 0.0))


@settings(max_examples=25)
@given(heights=st.lists(st.integers(0, 12), min_size=3, max_size=8), submerged=st.integers(0, 2))
def test_the_whole_line_holds_what_a_fine_grid_of_it_does(heights: list[int], submerged: int) -> None:
    """Flood a grid of 400 cells a segment; slopes stay below 1 in 300, so that length along run and axis are one."""
    spacing, cells = 10.0, 400
    inverts = [height * 0.003 for height in heights]
    grid = [
        one + (two - one) * (cell + 0.5) / cells for one, two in itertools.pairwise(inverts) for cell in range(cells)
    ]
    outlet = submerged * 0.004
    # the last station's height is the sill, half a cell beyond the grid
    levels = flooded([*grid, inverts[-1]], outlet)[:-1]
    bore = 0.0209296
    width = spacing / cells
    held = sum(area_at(level - bottom, bore) * width for level, bottom in zip(levels, grid, strict=True))
    answer = survey_drain(
        pipe_size="3/4",
        stations=tuple(Station(distance=i * spacing, invert=h) for i, h in enumerate(inverts)),
        water_depth_at_outlet=outlet,
    )
    # sills of the grid lie up to half a cell's rise below the stations: 0.036 / 800 m of level, over the water's face
    slack = 0.036 / 800 * bore * spacing * len(heights) + 1e-9
    assert answer.results.standing_volume == pytest.approx(held, rel=5e-3, abs=slack)
    total = sum(pond.volume or 0.0 for pond in answer.results.ponds)
    assert answer.results.standing_volume == pytest.approx(total, rel=1e-12)


any_station = st.one_of(
    st.builds(
        Station,
        distance=st.one_of(st.floats(0.0, LIMITS["distance"].high), st.sampled_from([0.0, 1.0, 1.0005, 300.0])),
        invert=st.one_of(st.floats(-100.0, 100.0), st.sampled_from([-100.0, 0.0, 1e-9, 5e-10, 100.0])),
    ),
    st.builds(
        Station,
        distance=st.floats(0.0, LIMITS["distance"].high),
        drop_below_level_line=st.floats(-100.0, 100.0),
    ),
)


def numbers(value: Any) -> list[float]:
    """Every float in a frozen result."""
    if isinstance(value, float):
        return [value]
    if isinstance(value, (tuple, list)):
        return [number for inner in value for number in numbers(inner)]
    return []


@given(
    stations=st.lists(any_station, min_size=2, max_size=12),
    pipe_size=st.sampled_from(NOMINAL_SIZES),
    material=st.sampled_from([None, *MATERIALS]),
    tolerance=st.one_of(st.none(), st.floats(0.0, 0.1)),
    height=st.one_of(st.none(), st.floats(-100.0, 100.0)),
    outlet=st.one_of(st.none(), st.floats(0.0, 10.0)),
)
def test_anything_allowed_has_finite_answers_that_hold_together(
    stations: list[Station],
    pipe_size: str,
    material: str | None,
    tolerance: float | None,
    height: float | None,
    outlet: float | None,
) -> None:
    answer = survey_drain(
        pipe_size=pipe_size,
        stations=tuple(stations),
        material=material,
        measurement_tolerance=tolerance,
        level_line_height=height,
        water_depth_at_outlet=outlet,
    )
    results = answer.results
    assert all(math.isfinite(number) for number in numbers(astuple(results)))
    for row in answer.findings:
        assert all(math.isfinite(value) for value in row.values.values() if isinstance(value, float))
    assert len(results.segments) == len(stations) - 1
    assert math.fsum(one.fall for one in results.segments) == pytest.approx(results.total_fall, abs=1e-9)
    assert math.fsum(one.length for one in results.segments) == pytest.approx(results.run, abs=1e-9)
    ends = 0.0
    for pond in results.ponds:
        assert ends - 1e-9 <= pond.start <= pond.end
        ends = pond.end
        assert pond.depth > 0.0
        assert 1 <= pond.correction.station_count < len(stations) + 1
        assert pond.volume is None or pond.volume >= 0.0
        assert (pond.full_bore_length or 0.0) <= pond.end - pond.start + 1e-6
    assert sum(one.water_depth > 0.0 for one in results.stations) >= len(results.ponds)
    for one in results.stations:
        assert one.raise_for_minimum_pitch >= 0.0
        assert one.lower_for_minimum_pitch >= 0.0


@given(heights=st.lists(st.integers(0, 40), min_size=2, max_size=30))
def test_raising_alone_or_lowering_alone_gives_the_minimum_and_moves_nothing_in_vain(heights: list[int]) -> None:
    results = survey(heights).results
    for sign, name in ((1.0, "raise_for_minimum_pitch"), (-1.0, "lower_for_minimum_pitch")):
        moved = [one.invert + sign * getattr(one, name) for one in results.stations]
        falls = [a - b for a, b in itertools.pairwise(moved)]
        assert min(falls) >= 0.5 * INCH - 1e-9  # 1/8 in per ft over 4 ft
        again = survey_drain(
            pipe_size="3/4", stations=tuple(Station(distance=i * 4 * FOOT, invert=h) for i, h in enumerate(moved))
        )
        assert again.results.ponds == ()
        assert not codes(again) & {"segments-back-fall", "segments-flat", "segments-below-minimum"}
    if min((a - b for a, b in itertools.pairwise(heights)), default=1) >= 1:
        assert all(one.raise_for_minimum_pitch == one.lower_for_minimum_pitch == 0.0 for one in results.stations)


@pytest.mark.parametrize("shape", ["noise", "teeth", "stairs"])
def test_the_work_is_linear_in_the_stations(shape: str, check_linear: Callable[..., None]) -> None:
    def prepare(count: int) -> Callable[[], object]:
        wave = {
            "noise": lambda i: 20 - 0.01 * i + 0.3 * math.sin(12.9898 * i * i),
            "teeth": lambda i: 20.0 if i % 2 else -0.001 * i,
            "stairs": lambda i: 0.001 * i if i % 2 else 0.002 * i,
        }[shape]
        stations = tuple(Station(distance=0.1 * i, invert=wave(i) * INCH) for i in range(count))
        return lambda: survey_drain(pipe_size="1", stations=stations)

    check_linear(prepare, 500)


@pytest.mark.parametrize(
    ("arguments", "name"),
    [
        ({"stations": (Station(distance=-1.0, invert=0.0), Station(distance=1.0, invert=0.0))}, "distance"),
        ({"stations": (Station(distance=0.0, invert=200.0), Station(distance=1.0, invert=0.0))}, "invert"),
        ({"measurement_tolerance": 1.0}, "measurement_tolerance"),
        ({"water_depth_at_outlet": math.nan}, "water_depth_at_outlet"),
    ],
)
def test_beyond_a_limit_is_refused(arguments: dict[str, Any], name: str) -> None:
    with pytest.raises(OutOfRange, match=name):
        survey_drain(**{"pipe_size": "3/4", "stations": line([2, 1]), **arguments})
