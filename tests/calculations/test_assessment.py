"""An assessment is its calculations plus the cross-checks; each check speaks when it should and only then."""

from dataclasses import replace
from typing import Any

import pytest

from service.calculations.air_state import AirReading
from service.calculations.answer import Answer
from service.calculations.assessment import Assessment, assess_unit
from service.calculations.condensate_rate import rate_from_air_states, rate_from_capacity
from service.calculations.drain_profile import Station
from service.calculations.drain_survey import survey_drain
from service.calculations.installation import (
    AirStates,
    Cooling,
    Discharge,
    LineAsBuilt,
    MeasuredRate,
    OffSeason,
    PumpAsBuilt,
    TrapAsBuilt,
)
from service.calculations.overflow_time import Protection, WaterPan, overflow_time
from service.calculations.pump import Pump
from service.calculations.pump_curve import CurvePoint
from service.calculations.pump_run import run_pump
from service.calculations.pump_tube import Tube
from service.calculations.served_unit import ServedUnit
from service.calculations.trap_check import check_trap
from service.calculations.trap_dry_out import dry_out_trap

INCH, FOOT, INCH_OF_WATER = 0.0254, 0.3048, 249.08891
GALLON, HOUR = 3.785411784e-3, 3600.0
TON = 3516.852842066667

COOLING = Cooling(total_capacity=5 * TON, sensible_heat_ratio=0.75)
TRAP = TrapAsBuilt(outlet_drop=3 * INCH, seal_depth=2 * INCH, pipe_size="3/4")
LINE = LineAsBuilt(pipe_size="3/4", run=20 * FOOT, fall=5 * INCH)
PAN = WaterPan(area=0.4, depth=2 * INCH)
PUMP = PumpAsBuilt(
    lift=2.5,
    tube=Tube(bore=0.375 * INCH, length=6.0, elbows=2, check_valve=True),
    pump=Pump(
        curve=(
            CurvePoint(lift=0.0, flow=80 * GALLON / HOUR),
            CurvePoint(lift=3.0, flow=50 * GALLON / HOUR),
            CurvePoint(lift=6.0, flow=0.0),
        ),
        tank_volume_between_floats=0.25 * GALLON,
        safety_float="wired",
    ),
)
SOUND: dict[str, Any] = {
    "cooling": COOLING,
    "pan": PAN,
    "pan_pressure": -INCH_OF_WATER,
    "dirty_filter_allowance": 0.5 * INCH_OF_WATER,
    "trap": TRAP,
    "line": LINE,
    "pump": PUMP,
    "discharge": Discharge(place="laundry-tray", air_gap=True),
    "overflow_protection": Protection(kind="drain-cut-out", cut_out_depth=1 * INCH),
    "below": "finished-ceiling",
}


def codes(answer: Answer[Assessment]) -> set[str]:
    return {finding.code for finding in answer.findings}


def with_change(**changes: Any) -> set[str]:
    return codes(assess_unit(**{**SOUND, **changes}))


def test_a_sound_unit_passes_with_every_part_assessed() -> None:
    answer = assess_unit(**SOUND)
    assert answer.verdict == "pass", [finding.code for finding in answer.ordered()]
    assert {part.status for part in answer.results.parts} == {"assessed"}


def test_where_a_larger_request_has_the_unit_everything_points_there() -> None:
    air = AirStates(
        air_flow=1.0,
        entering_air=AirReading(dry_bulb=298.15, wet_bulb=303.15),
        leaving_air=AirReading(dry_bulb=286.0, wet_bulb=285.0),
    )
    unit = {**SOUND, "air_states": air, "overflow_protection": None, "off_season": OffSeason(idle_time=2e7)}
    alone, within = assess_unit(**unit), assess_unit(**unit, root="/unit")
    assert "wet-bulb-above-dry-bulb" in codes(alone)
    assert len(alone.assumptions) > 5
    assert within.results == alone.results
    for known, moved in ((alone.findings, within.findings), (alone.assumptions, within.assumptions)):
        assert [replace(row, pointer=f"/unit{row.pointer}") for row in known] == list(moved)


def test_the_parts_are_the_single_calculations() -> None:
    results = assess_unit(**SOUND).results
    rate = rate_from_capacity(total_capacity=5 * TON, sensible_heat_ratio=0.75).results
    assert results.rate_from_capacity == rate
    assert results.peak_rate == rate.volume_rate
    assert (
        results.trap_check
        == check_trap(
            pan_pressure=-INCH_OF_WATER,
            dirty_filter_allowance=0.5 * INCH_OF_WATER,
            outlet_drop=3 * INCH,
            seal_depth=2 * INCH,
            pipe_size="3/4",
            pan_area=0.4,
            pan_depth=2 * INCH,
        ).results
    )
    assert results.pump_run == run_pump(inflow=rate.volume_rate, lift=2.5, tube=PUMP.tube, pump=PUMP.pump).results
    assert (
        results.overflow_time
        == overflow_time(inflow=rate.volume_rate, pan=PAN, protection=SOUND["overflow_protection"]).results
    )


def test_the_peak_is_the_largest_rate_known_and_drives_pump_and_overflow() -> None:
    # 2 gal in 20 min is 6 gal/h, more than 5 tons at 0.75 make (about 1.7 gal/h by 1060 Btu/lb)
    answer = assess_unit(**{**SOUND, "measured_rate": MeasuredRate(volume=2 * GALLON, time=1200.0)})
    assert answer.results.peak_rate_basis == "measured"
    assert answer.results.peak_rate == pytest.approx(6 * GALLON / HOUR)
    assert answer.results.overflow_time is not None
    room = 0.4 * 2 * INCH
    assert answer.results.overflow_time.time_to_overflow == pytest.approx(room / (6 * GALLON / HOUR))
    assert "measured-above-computed" in codes(answer)


@pytest.mark.parametrize(
    ("share", "code"), [(1.0, None), (1.4, None), (1.6, "measured-above-computed"), (0.5, "measured-below-computed")]
)
def test_a_jug_is_held_against_readings_of_the_same_hour(share: float, code: str | None) -> None:
    air = AirStates(
        air_flow=1.0,
        entering_air=AirReading(dry_bulb=300.0, relative_humidity_percent=50.0),
        leaving_air=AirReading(dry_bulb=286.0, relative_humidity_percent=92.0),
    )
    rate = rate_from_air_states(air_flow=1.0, entering_air=air.entering_air, leaving_air=air.leaving_air).results
    assert rate.volume_rate is not None
    measured = MeasuredRate(volume=share * rate.volume_rate * 1200.0, time=1200.0)
    answer = assess_unit(air_states=air, measured_rate=measured)
    assert answer.results.measured_to_predicted == pytest.approx(share)
    found = codes(answer) & {"measured-above-computed", "measured-below-computed"}
    assert found == ({code} if code else set())


def test_the_dirty_filter_is_what_the_trap_is_judged_by() -> None:
    # drop 1.2 in holds 1.0 in w.c. but not 1.5: common practice, no source
    trap = replace(TRAP, outlet_drop=1.2 * INCH)
    assert "outlet-drop-too-small" in with_change(trap=trap)
    assert "outlet-drop-too-small" not in with_change(trap=trap, dirty_filter_allowance=0.0)


def test_the_line_is_sized_for_every_unit_on_it() -> None:
    # IMC 2021 Table 307.2.2: 20 tons 3/4 in, above it 1 in
    others = (ServedUnit(total_capacity=10 * TON), ServedUnit(total_capacity=5 * TON))
    assert "line-smaller-than-needed" not in with_change(line=replace(LINE, shared_with=others))
    more = (*others, ServedUnit(total_capacity=0.5 * TON))
    assert "line-smaller-than-needed" in with_change(line=replace(LINE, shared_with=more))
    assert "line-smaller-than-needed" not in with_change(line=replace(LINE, shared_with=more, pipe_size="1"))


def test_the_water_in_the_line_is_that_in_the_pipe_that_is_there() -> None:
    # ASTM D1785: bores of 1.049 and 1.380 in, whatever size the units need
    for size, bore in (("1", 1.049), ("1-1/4", 1.380)):
        answer = assess_unit(**{**SOUND, "line": replace(LINE, pipe_size=size)})
        assert answer.results.drain_sizing is not None
        assert answer.results.drain_sizing.pipe_size == "3/4"
        assert answer.results.drain_sizing.bore == pytest.approx(bore * INCH)
    narrow = with_change(line=replace(LINE, pipe_size="1/2"))
    assert "line-smaller-than-needed" in narrow
    assert "length-smaller-than-needed" not in narrow


def test_a_shared_unit_keeps_its_place_in_the_request() -> None:
    # the first other unit gives no peak flow: the assumption points at its place, not at the unit's own
    line = replace(LINE, shared_with=(ServedUnit(total_capacity=TON),))
    pointers = {row.pointer for row in assess_unit(**{**SOUND, "line": line}).assumptions}
    assert "/line/shared_with/0/peak_flow" in pointers


@pytest.mark.parametrize(
    ("changes", "code"),
    [
        ({"line": replace(LINE, pan_outlet="1")}, "line-smaller-than-pan-outlet"),
        ({"line": replace(LINE, cleanout="none")}, "line-not-cleanable"),
        ({"line": replace(LINE, cleanout="solvent-welded")}, "cleanout-welded"),
        ({"line": replace(LINE, support_spacing=5 * FOOT)}, "supports-too-far-apart"),
        ({"line": replace(LINE, second_trap_unvented=True)}, "second-trap-unvented"),
        ({"line": replace(LINE, fall=-INCH)}, "line-runs-uphill"),
        ({"trap": replace(TRAP, serves_one_unit=False)}, "trap-shared"),
        ({"can_freeze": True}, "drain-can-freeze"),
        ({"discharge": Discharge(place="sanitary-line")}, "discharge-into-sanitary"),
        ({"discharge": Discharge(place="sanitary-line")}, "sanitary-trap-dries-out"),
        ({"discharge": Discharge(place="soil-stack"), "trap": None}, "sanitary-without-trap"),
        ({"discharge": Discharge(place="walkway")}, "discharge-is-a-nuisance"),
        ({"discharge": Discharge(place="outdoors")}, "discharge-needs-approval"),
        ({"discharge": Discharge(place="mop-sink", air_gap=False)}, "discharge-without-air-gap"),
        ({"overflow_protection": Protection(kind="none")}, "protection-missing"),
        ({"overflow_protection": None}, "protection-unknown"),
        (
            {"location": "attic", "pump": replace(PUMP, pump=replace(PUMP.pump, safety_float=None))},
            "hidden-pump-unprotected",
        ),
        ({"pump": replace(PUMP, pump=replace(PUMP.pump, safety_float="unwired"))}, "pump-safety-float-unwired"),
    ],
)
def test_a_cross_check_speaks_when_it_should_and_only_then(changes: dict[str, Any], code: str) -> None:
    assert code not in with_change()
    assert code in with_change(**changes)


@pytest.mark.parametrize(
    ("changes", "code"),
    [
        (
            {"line": replace(LINE, support_spacing=4 * FOOT)},
            "supports-too-far-apart",
        ),  # IMC Table 305.4: 4 ft is allowed
        ({"line": replace(LINE, support_spacing=5 * FOOT, material="copper-type-m")}, "supports-too-far-apart"),
        ({"discharge": Discharge(place="sanitary-line", air_gap=True)}, "discharge-into-sanitary"),
        (
            {"discharge": Discharge(place="sanitary-line"), "trap": replace(TRAP, kept_full_off_season=True)},
            "sanitary-trap-dries-out",
        ),
        ({"overflow_protection": Protection(kind="none"), "below": "nothing-to-damage"}, "protection-missing"),
    ],
)
def test_a_cross_check_stays_silent_at_its_edge(changes: dict[str, Any], code: str) -> None:
    assert code not in with_change(**changes)


def test_a_contradiction_is_a_finding_and_costs_only_its_part() -> None:
    air = AirStates(
        air_flow=0.5,
        entering_air=AirReading(dry_bulb=293.0, wet_bulb=300.0),
        leaving_air=AirReading(dry_bulb=286.0, relative_humidity_percent=90.0),
    )
    answer = assess_unit(air_states=air, line=LINE, cooling=COOLING)
    assert answer.results.rate_from_air_states is None
    assert answer.results.rate_from_capacity is not None
    assert answer.results.drain_pitch is not None
    assert answer.verdict == "fail"
    assert answer.ordered()[0].pointer.startswith("/air_states/entering_air")


def test_what_is_missing_is_said_and_nothing_is_made_up() -> None:
    answer = assess_unit(discharge=Discharge(place="floor-drain", air_gap=True))
    results = answer.results
    assert results.peak_rate is None
    assert results.trap_check is results.drain_sizing is results.overflow_time is None
    missing = [finding for finding in answer.findings if finding.code == "part-not-assessed"]
    assert {finding.values["part"] for finding in missing} == {
        "Condensate rate",
        "Trap",
        "Drain line",
        "Time to overflow",
    }
    assert {part.part: part.status for part in results.parts}["discharge"] == "assessed"


def test_an_unknown_trap_is_sized_instead() -> None:
    # drop = suction + 1 in: 1.5 + 1 = 2.5 in. Common practice, no source
    results = assess_unit(pan_pressure=-1.5 * INCH_OF_WATER).results
    assert results.trap_check is None
    assert results.trap_sizing is not None
    assert results.trap_sizing.outlet_drop == pytest.approx(2.5 * INCH)


def test_an_assumed_sensible_heat_ratio_is_said() -> None:
    answer = assess_unit(cooling=Cooling(total_capacity=TON))
    assert "/cooling/sensible_heat_ratio" in {row.pointer for row in answer.assumptions}
    assert "/cooling/sensible_heat_ratio" not in {row.pointer for row in assess_unit(cooling=COOLING).assumptions}


def test_the_pitch_is_judged_once() -> None:
    answer = assess_unit(**{**SOUND, "line": replace(LINE, fall=2.5 * INCH)})
    assert [finding.code for finding in answer.findings].count("pitch-below-usual") == 1


def test_nothing_is_said_twice() -> None:
    answer = assess_unit(**SOUND)
    said = [(finding.code, finding.pointer, str(finding.values)) for finding in answer.findings]
    assert len(said) == len(set(said))
    assert len(answer.cautions) == len(set(answer.cautions))
    assert len(answer.sources) == len(set(answer.sources))
    pointers = [row.pointer for row in answer.assumptions]
    assert len(pointers) == len(set(pointers))


SAGGING = tuple(
    Station(distance=feet * FOOT, invert=inches * INCH)
    for feet, inches in ((0, 8), (4, 7), (8, 4.5), (12, 5.5), (20, 3))
)


def test_a_surveyed_line_is_judged_station_by_station_and_sized_at_its_own_pitch() -> None:
    surveyed = LineAsBuilt(pipe_size="3/4", stations=SAGGING)
    answer = assess_unit(**{**SOUND, "line": surveyed})
    assert answer.results.drain_survey == survey_drain(pipe_size="3/4", stations=SAGGING).results
    assert answer.results.drain_pitch is not None
    assert answer.results.drain_pitch.pitch_ratio == pytest.approx(5 / 12 / 20)  # 5 in over 20 ft
    at_that_pitch = assess_unit(**{**SOUND, "line": replace(LINE, run=20 * FOOT, fall=5 * INCH)})
    assert answer.results.drain_sizing == at_that_pitch.results.drain_sizing
    assert {"segments-back-fall", "pond-fills-bore", "pond-holds-water"} <= codes(answer)
    assert {row.pointer for row in answer.findings if row.code == "segments-back-fall"} == {"/line/stations/3"}
    assumed = {row.pointer: row.value for row in answer.assumptions}
    assert assumed["/line/fall"] == pytest.approx(5 * INCH)
    assert assumed["/line/run"] == pytest.approx(20 * FOOT)
    assert {part.part: part.verdict for part in answer.results.parts}["line"] == "fail"
    assert assess_unit(**SOUND).results.drain_survey is None


def test_a_fall_that_was_given_goes_before_the_surveys_and_is_held_against_it() -> None:
    agreeing = LineAsBuilt(pipe_size="3/4", run=20 * FOOT, fall=5.1 * INCH, stations=SAGGING)
    answer = assess_unit(**{**SOUND, "line": agreeing})
    assert answer.results.drain_pitch is not None
    assert answer.results.drain_pitch.fall == pytest.approx(5.1 * INCH)
    assert "fall-differs-from-survey" not in codes(answer)
    assert "fall-differs-from-survey" in with_change(line=replace(agreeing, fall=6 * INCH))
    # half the run: not the same stretch, so nothing to compare
    assert "fall-differs-from-survey" not in with_change(line=replace(agreeing, fall=6 * INCH, run=10 * FOOT))


def test_a_survey_of_an_unknown_pipe_takes_the_smallest_and_says_so() -> None:
    answer = assess_unit(**{**SOUND, "line": LineAsBuilt(stations=SAGGING)})
    assert answer.results.drain_survey == survey_drain(pipe_size="3/4", stations=SAGGING).results
    assert "/line/pipe_size" in {row.pointer for row in answer.assumptions}


def test_a_survey_of_a_vertical_line_leaves_the_pitch_open() -> None:
    drop = (Station(distance=1.0, invert=2.0), Station(distance=1.0, invert=0.0))
    answer = assess_unit(**{**SOUND, "line": LineAsBuilt(pipe_size="3/4", stations=drop)})
    assert answer.results.drain_survey is not None
    assert answer.results.drain_pitch is None
    assert "part-not-assessed" in codes(answer)


SANITARY = Discharge(place="sanitary-line")
SEASON = OffSeason(idle_time=120 * 86400.0, unit_side_air=AirReading(dry_bulb=294.0, relative_humidity_percent=35.0))


def test_a_trap_over_a_sanitary_line_is_told_its_days_with_what_was_assumed() -> None:
    answer = assess_unit(**{**SOUND, "discharge": SANITARY, "elevation": 0.0})
    alone = dry_out_trap(
        pan_pressure=-INCH_OF_WATER,
        dirty_filter_allowance=0.5 * INCH_OF_WATER,
        outlet_drop=3 * INCH,
        seal_depth=2 * INCH,
        pipe_size="3/4",
        pan_area=0.4,
        pan_depth=2 * INCH,
        elevation=0.0,
        outlet_side_path=20 * FOOT,  # the run of the line
    ).results
    assert answer.results.trap_dry_out == alone
    (finding,) = [row for row in answer.findings if row.code == "sanitary-seal-lasts-for"]
    assert alone.earliest_loss is not None
    assert finding.severity == "fail"
    assert finding.values["earliest"] == pytest.approx(alone.earliest_loss / 86400.0)
    assert "/off_season/unit_side_air/dry_bulb" in {row.pointer for row in answer.assumptions}


@pytest.mark.parametrize(
    ("changes", "code"),
    [
        ({"discharge": SANITARY}, "sanitary-seal-lasts-for"),
        ({"discharge": SANITARY, "off_season": SEASON}, "sanitary-seal-lasts-for"),
        ({"discharge": SANITARY, "off_season": replace(SEASON, idle_time=8640.0)}, "seal-outlasts-off-season"),
        ({"off_season": SEASON}, "trap-dries-out-off-season"),
        ({"off_season": OffSeason()}, "trap-dries-out-off-season"),
        ({"off_season": replace(SEASON, idle_time=8640.0)}, "seal-outlasts-off-season"),
        (
            {
                "discharge": SANITARY,
                "off_season": OffSeason(
                    unit_side_air=AirReading(dry_bulb=300.0, relative_humidity_percent=100.0), water_temperature=295.0
                ),
            },
            "seal-does-not-dry-out",
        ),
    ],
)
def test_the_dry_season_is_told_as_gravely_as_the_drains_end_asks(changes: dict[str, Any], code: str) -> None:
    told = {
        "sanitary-seal-lasts-for",
        "seal-outlasts-off-season",
        "trap-dries-out-off-season",
        "seal-does-not-dry-out",
        "seal-dries-out",
        "seal-lasts-for",
    }
    answer = assess_unit(**{**SOUND, **changes})
    assert codes(answer) & told == {code}
    if "discharge" not in changes:
        assert answer.verdict == "pass"  # a dry trap that only spits is no defect


@pytest.mark.parametrize(
    "changes",
    [
        {},
        {"discharge": SANITARY, "trap": replace(TRAP, kept_full_off_season=True)},
        {"discharge": Discharge(place="sanitary-line", air_gap=True)},
        {"discharge": SANITARY, "trap": None},
        {"discharge": SANITARY, "trap": replace(TRAP, seal_depth=0.0)},
        {"discharge": SANITARY, "trap": replace(TRAP, outlet_drop=-INCH)},
    ],
)
def test_the_dry_season_is_passed_over_where_it_does_not_matter(changes: dict[str, Any]) -> None:
    assert assess_unit(**{**SOUND, **changes}).results.trap_dry_out is None


def test_the_run_of_the_line_is_still_air_unless_a_path_was_sent() -> None:
    def latest(**changes: Any) -> float:
        results = assess_unit(**{**SOUND, "discharge": SANITARY, **changes}).results
        assert results.trap_dry_out is not None
        assert results.trap_dry_out.latest_loss is not None
        return results.trap_dry_out.latest_loss

    vented = latest(off_season=OffSeason(outlet_side_path=0.0))
    assert latest() > vented
    assert latest(line=None) == vented
    assert latest(off_season=OffSeason(outlet_side_path=20 * FOOT)) == latest()
    assumed = assess_unit(**{**SOUND, "discharge": SANITARY}).assumptions
    assert [row.value for row in assumed if row.pointer == "/off_season/outlet_side_path"] == [20 * FOOT]


def test_without_a_pan_pressure_the_seal_is_counted_to_the_dip() -> None:
    answer = assess_unit(trap=TRAP, discharge=SANITARY)
    assert answer.results.trap_dry_out is not None
    assert answer.results.trap_dry_out.loss_level == pytest.approx(-2 * INCH)
    assert "/pan_pressure" in {row.pointer for row in answer.assumptions}
    assert "pan-without-pressure" not in codes(answer)


def test_a_contradicting_room_reading_costs_the_dry_season_only() -> None:
    season = OffSeason(unit_side_air=AirReading(dry_bulb=283.0, dew_point=290.0))
    answer = assess_unit(**{**SOUND, "off_season": season})
    assert answer.results.trap_dry_out is None
    assert answer.results.trap_check is not None
    (finding,) = [row for row in answer.findings if row.code == "dew-point-above-dry-bulb"]
    assert finding.pointer == "/off_season/unit_side_air/dew_point"


def test_water_the_trap_holds_back_is_in_the_pan_when_the_drain_blocks() -> None:
    """1.5 in of suction over 1/2 in of drop holds 1 in: 0.4 m2 x 1 in are left of 2 in, and nobody said otherwise."""
    held = {"trap": TrapAsBuilt(outlet_drop=0.5 * INCH, seal_depth=2 * INCH, pipe_size="3/4")}
    answer = assess_unit(**{**SOUND, **held})
    assert answer.results.overflow_time is not None
    assert answer.results.overflow_time.starting_water_depth == pytest.approx(1 * INCH)
    assert answer.results.overflow_time.free_volume == pytest.approx(0.4 * INCH)
    (assumption,) = [row for row in answer.assumptions if row.pointer == "/pan/water_depth"]
    assert assumption.value == pytest.approx(1 * INCH)
    assert "trap" in assumption.note
    known = assess_unit(**{**SOUND, **held, "pan": WaterPan(area=0.4, depth=2 * INCH, water_depth=0.0)})
    assert known.results.overflow_time is not None
    assert known.results.overflow_time.free_volume == pytest.approx(0.8 * INCH)
    assert all(row.pointer != "/pan/water_depth" for row in known.assumptions)
    # a trap that drains holds nothing, and the pan is empty as before
    sound = assess_unit(**SOUND)
    assert sound.results.overflow_time is not None
    assert sound.results.overflow_time.starting_water_depth == 0.0
