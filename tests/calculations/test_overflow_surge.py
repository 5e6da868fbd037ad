"""Water that comes all at once: melts, weak drains, held-up water, blocked lines; by hand and step by step."""

import dataclasses
import math
from typing import Any

import fluids
import pytest
from hypothesis import given
from hypothesis import strategies as st

from service.calculations.answer import Answer
from service.calculations.blocked_line import LINE_LIMITS, BlockedLine, room_in_line
from service.calculations.ice_melt import ICE_LIMITS, LAYER_LIMITS, THAW_AIR_LIMITS, Ice, IceLayer, ThawAir
from service.calculations.overflow_protection import (
    AUXILIARY_PAN_LIMITS,
    PAN_LIMITS,
    PROTECTIONS,
    AuxiliaryPan,
    Protection,
    PumpTank,
    WaterPan,
)
from service.calculations.overflow_results import STOPPERS, OverflowTime
from service.calculations.overflow_time import LIMITS, overflow_time
from service.calculations.pan_shape import pan_volume
from service.calculations.pump_cycle import SAFETY_FLOATS
from service.calculations.water_balance import WaterBalance
from service.errors import OutOfRange
from service.schemas.writing import write_finding
from service.tables.pipe_sizes import COMMON_SIZES, MATERIALS

LITRE = 1e-3
LITRE_AN_HOUR = 1e-3 / 3600.0
HOUR = 3600.0
PAN = WaterPan(area=0.25, depth=0.04, water_depth=0.0)  # 10 L


def codes(answer: Answer[OverflowTime]) -> list[str]:
    return [finding.code for finding in answer.findings if finding.severity != "info"]


def all_codes(answer: Answer[OverflowTime]) -> list[str]:
    return [finding.code for finding in answer.findings]


def iced(volume: float, time: float = HOUR) -> Ice:
    return Ice(water_volume=volume, melt_time=time)


# a drain that is slow, not blocked


def test_what_the_drain_still_carries_is_deducted() -> None:
    """10 L of pan, 6 L/h in, 2 out: two hours and a half; with 6 or 7 out it never fills."""
    answer = overflow_time(inflow=6 * LITRE_AN_HOUR, pan=PAN, drain_capacity=2 * LITRE_AN_HOUR)
    assert answer.results.time_to_overflow == pytest.approx(2.5 * HOUR)
    assert "drain-slower-than-inflow" in codes(answer)
    for capacity in (6, 7):
        answer = overflow_time(inflow=6 * LITRE_AN_HOUR, pan=PAN, drain_capacity=capacity * LITRE_AN_HOUR)
        assert answer.results.time_to_overflow is None
        assert answer.results.time_to_building is None
        assert "drain-carries-inflow" in all_codes(answer)
        assert "water-damage" not in answer.cautions


# ice


def test_a_melt_into_a_blocked_drain() -> None:
    """6 L/h and 12 L of ice in an hour, 18 L/h: 10 L last 33 min 20 s, 8 L are lost by the end of the hour."""
    answer = overflow_time(inflow=6 * LITRE_AN_HOUR, pan=PAN, ice=iced(12 * LITRE))
    results = answer.results
    assert results.time_to_overflow == pytest.approx(2000.0)
    melt = results.melt
    assert melt is not None
    assert melt.melt_rate == pytest.approx(12 * LITRE_AN_HOUR)
    assert melt.surge_rate == pytest.approx(18 * LITRE_AN_HOUR)
    assert melt.lost_volume == pytest.approx(8 * LITRE)
    assert melt.highest_water_depth == pytest.approx(0.04)
    assert melt.safe_melt_time is None
    # 12 L take 999.84/1000 x 12 kg x 333.4 kJ: 1111 W for an hour
    assert melt.melting_power == pytest.approx(1111.2, rel=1e-3)
    assert codes(answer)[-1] == "melt-floods-blocked-drain"


def test_a_melt_that_ends_before_the_pan_is_full_leaves_the_rest_to_the_inflow() -> None:
    """1 L/h and 5 L in an hour: 6 L at the end of the hour, the last 4 L at 1 L/h: five hours."""
    answer = overflow_time(inflow=LITRE_AN_HOUR, pan=PAN, ice=iced(5 * LITRE))
    assert answer.results.time_to_overflow == pytest.approx(5 * HOUR)
    melt = answer.results.melt
    assert melt is not None
    assert melt.highest_water_depth == pytest.approx(0.024)
    assert melt.lost_volume == 0.0
    assert "pan-takes-melt" in all_codes(answer)


def test_the_melt_beats_the_drain_and_how_slow_it_had_to_be() -> None:
    """20 L of ice in an hour on a drain of 4 L/h, 1 L/h besides: gains 17 L, loses 7; (20 - 10) / (4 - 1) = 3.33 h."""
    facts: dict[str, Any] = {"inflow": LITRE_AN_HOUR, "pan": PAN, "drain_capacity": 4 * LITRE_AN_HOUR}
    answer = overflow_time(**facts, ice=iced(20 * LITRE))
    melt = answer.results.melt
    assert melt is not None
    assert melt.lost_volume == pytest.approx(7 * LITRE)
    assert melt.safe_melt_time == pytest.approx(10 / 3 * HOUR)
    assert answer.results.time_to_overflow == pytest.approx(10 / 17 * HOUR)
    assert "melt-too-fast-for-drain" in codes(answer)
    assert answer.verdict == "fail"
    assert "water-damage" in answer.cautions
    # at that time it just fits, and a little faster it does not
    just = overflow_time(**facts, ice=iced(20 * LITRE, melt.safe_melt_time * (1 + 1e-9)))
    assert just.results.time_to_overflow is None
    assert "pan-takes-melt" in all_codes(just)
    faster = overflow_time(**facts, ice=iced(20 * LITRE, melt.safe_melt_time * 0.999))
    assert "melt-too-fast-for-drain" in codes(faster)


def test_a_drain_that_carries_the_melt_and_one_that_never_will() -> None:
    answer = overflow_time(inflow=0.0, pan=PAN, drain_capacity=30 * LITRE_AN_HOUR, ice=iced(20 * LITRE))
    assert "drain-carries-melt" in all_codes(answer)
    assert answer.results.time_to_overflow is None
    assert "overflow-no-inflow" not in all_codes(answer)
    never = overflow_time(inflow=5 * LITRE_AN_HOUR, pan=PAN, drain_capacity=4 * LITRE_AN_HOUR, ice=iced(20 * LITRE))
    assert "melt-beats-drain" in codes(never)
    assert never.results.melt is not None
    assert never.results.melt.safe_melt_time is None


def test_a_cut_out_stops_the_cooling_and_not_the_melt() -> None:
    """18 L/h fill 5 L to the cut-out in 16 min 40 s; 12 L/h go on for 43 min 20 s: 8.667 L, and 5 fit."""
    protection = Protection(kind="drain-cut-out", cut_out_depth=0.02)
    answer = overflow_time(inflow=6 * LITRE_AN_HOUR, pan=PAN, protection=protection, ice=iced(12 * LITRE))
    results = answer.results
    assert results.time_to_cut_out == pytest.approx(1000.0)
    assert results.melt is not None
    assert results.melt.water_after_cut_out == pytest.approx(12 * LITRE * 2600 / 3600)
    assert results.stopped_by == "nothing"
    # 5 L at 12 L/h after the cut-out: 25 min
    assert results.time_to_building == pytest.approx(1000.0 + 1500.0)
    assert "melt-outruns-cut-out" in codes(answer)
    # over an auxiliary pan of 4 L it still fits
    below = dataclasses.replace(protection, auxiliary_pan=AuxiliaryPan(area=0.1, depth=0.04, larger_than_unit=0.1))
    spared = overflow_time(inflow=6 * LITRE_AN_HOUR, pan=PAN, protection=below, ice=iced(12 * LITRE))
    assert spared.results.stopped_by == "cut-out"
    assert "melt-outruns-cut-out" not in codes(spared)


def test_ice_of_which_too_little_is_known() -> None:
    unknown = overflow_time(inflow=LITRE_AN_HOUR, pan=PAN, ice=Ice(water_volume=5 * LITRE))
    assert "melt-time-unknown" in all_codes(unknown)
    assert unknown.results.melt is not None
    assert unknown.results.melt.surge_rate is None
    assert unknown.results.time_to_overflow == pytest.approx(10 * HOUR)
    cold = overflow_time(inflow=LITRE_AN_HOUR, pan=PAN, ice=Ice(water_volume=5 * LITRE, melting_power=0.0))
    assert "ice-does-not-melt" in all_codes(cold)
    trace = overflow_time(inflow=LITRE_AN_HOUR, pan=PAN, ice=iced(5e-324))
    assert "ice-does-not-melt" in all_codes(trace)
    none = overflow_time(inflow=LITRE_AN_HOUR, pan=PAN, ice=iced(0.0))
    assert "no-ice" in all_codes(none)


@given(
    st.floats(0.0, 2e-5),
    st.floats(0.0, 2e-5),
    st.floats(1e-4, 0.03),
    st.floats(60.0, 20000.0),
    st.floats(0.0, 0.03),
    st.floats(0.05, 2.0),
    st.floats(0.0, 0.03),
)
def test_step_by_step_the_water_is_where_the_answer_says(
    inflow: float, capacity: float, ice: float, melt_time: float, fall: float, rim: float, depth: float
) -> None:
    """Pour a thousandth of the melt at a time: what comes in is in the pan, gone through the drain, or over the rim."""
    pan = WaterPan(area=0.3, depth=0.04, water_depth=depth, rim_area=0.3 * rim, fall=fall)
    results = overflow_time(inflow=inflow, pan=pan, drain_capacity=capacity, ice=iced(ice, melt_time)).results
    assert results.melt is not None
    full, steps = pan_volume(pan, pan.depth), 1000
    water, start, came, drained, lost, over = pan_volume(pan, depth), pan_volume(pan, depth), 0.0, 0.0, 0.0, None
    highest, step = water, melt_time / steps
    for count in range(steps):
        more = (inflow + ice / melt_time) * step
        out = min(capacity * step, water + more)
        water, came, drained = water + more - out, came + more, drained + out
        if water > full * (1 + 1e-9):
            lost, water = lost + water - full, full
            over = over if over is not None else (count + 1) * step
        highest = max(highest, water)
    assert start + came == pytest.approx(water + drained + lost, rel=1e-9)
    assert results.melt.lost_volume == pytest.approx(lost, rel=1e-6, abs=1e-9)
    assert pan_volume(pan, results.melt.highest_water_depth or 0.0) == pytest.approx(highest, rel=1e-6, abs=1e-9)
    if over is not None and lost > 1e-6:
        assert results.time_to_overflow == pytest.approx(over, abs=1.001 * step)


@given(st.floats(0, 1e-4), st.floats(0, 1e-3), st.floats(0, 1e5), st.floats(0, 1e-4), st.floats(0, 1.0))
def test_a_balance_gains_what_it_says_by_then(
    steady: float, extra: float, time: float, drain: float, volume: float
) -> None:
    balance = WaterBalance(steady_rate=steady, surge_rate=steady + extra, surge_time=time, drain_rate=drain)
    found = balance.time_to_gain(volume)
    if found is None:
        assert not balance.grows_without_end
        return
    assert math.isfinite(found)
    # by the clock: the surge's part and the rest's part
    gained = (steady + extra - drain) * min(found, time) + (steady - drain) * max(found - time, 0.0)
    assert gained == pytest.approx(volume, rel=1e-6, abs=1e-9)


# a line blocked further down


@pytest.mark.parametrize(("size", "nominal"), [("1/2", 0.5), ("3/4", 0.75), ("1", 1.0), ("2", 2.0)])
def test_a_line_holds_its_bore_times_its_length(size: str, nominal: float) -> None:
    # Schedule 40 by fluids, whose inside diameters are those of ASME B36.10
    _, inside, _, _ = fluids.nearest_pipe(NPS=nominal, schedule="40")
    line = BlockedLine(
        pipe_size=size,
        length_to_blockage=6.0,
        material="pvc-schedule-40",
        trap_outlet_drop=0.05,
        trap_evaporated_depth=0.01,
        standing_volume=0.0002,
    )
    found = room_in_line(line)
    assert found.volume == pytest.approx(math.pi / 4 * inside**2 * 6.07 - 0.0002, rel=0.01)
    assert found.assumptions == ()
    answer = overflow_time(inflow=LITRE_AN_HOUR, pan=PAN, line=line)
    assert answer.results.line_volume == found.volume
    assert answer.results.time_to_overflow == pytest.approx((0.01 + found.volume) / LITRE_AN_HOUR)
    assert "/line_volume" not in [assumption.pointer for assumption in answer.assumptions]


def test_a_line_full_already_takes_nothing_and_says_so() -> None:
    line = BlockedLine(pipe_size="3/4", length_to_blockage=1.0, standing_volume=0.001)
    answer = overflow_time(inflow=LITRE_AN_HOUR, pan=PAN, line=line)
    assert answer.results.line_volume == 0.0
    assert "line-already-full" in codes(answer)


def test_what_was_not_said_of_the_line_is_recorded() -> None:
    line = BlockedLine(pipe_size="3/4", length_to_blockage=1.0)
    assert [assumption.pointer for assumption in room_in_line(line).assumptions] == [
        "/line/material",
        "/line/trap_outlet_drop",
        "/line/trap_evaporated_depth",
        "/line/standing_volume",
    ]


# water the fan held back, and the pump's tank


def test_held_up_water_stands_in_the_pan_unless_its_depth_is_known() -> None:
    """2.5 L in 0.25 m2 are 10 mm; 7.5 L are left."""
    pan = dataclasses.replace(PAN, water_depth=None)
    answer = overflow_time(inflow=LITRE_AN_HOUR, pan=pan, held_up_volume=2.5 * LITRE)
    assert answer.results.starting_water_depth == pytest.approx(0.01)
    assert answer.results.free_volume == pytest.approx(7.5 * LITRE)
    (assumption,) = [row for row in answer.assumptions if row.pointer == "/pan/water_depth"]
    assert assumption.value == pytest.approx(0.01)
    known = overflow_time(inflow=LITRE_AN_HOUR, pan=PAN, held_up_volume=2.5 * LITRE)
    assert known.results.free_volume == pytest.approx(10 * LITRE)
    flooded = overflow_time(inflow=LITRE_AN_HOUR, pan=pan, held_up_volume=20 * LITRE)
    assert "pan-already-full" in codes(flooded)


TANK = PumpTank(volume_to_safety_float=2 * LITRE, volume_to_overflow=3 * LITRE, safety_float="wired", area=0.04)


def test_held_up_water_comes_into_the_tank_at_once() -> None:
    """0.5 L at once, then 1.5 and 2.5 L at 1 L/h; 1 L/h into 0.04 m2 rises by 0.4167 mm a minute."""
    times = overflow_time(inflow=LITRE_AN_HOUR, pump_tank=TANK, held_up_volume=0.5 * LITRE).results.pump_tank
    assert times is not None
    assert times.time_to_safety_float == pytest.approx(1.5 * HOUR)
    assert times.time_to_overflow == pytest.approx(2.5 * HOUR)
    assert times.rise_per_minute == pytest.approx(1e-3 / 60 / 0.04)
    assert times.room_after_cut_out == pytest.approx(LITRE)
    assert times.water_after_cut_out is None
    at_float = overflow_time(inflow=LITRE_AN_HOUR, pump_tank=TANK, held_up_volume=2.5 * LITRE).results.pump_tank
    assert at_float is not None
    assert at_float.time_to_safety_float == 0.0
    assert at_float.room_after_cut_out == pytest.approx(0.5 * LITRE)
    flooded = overflow_time(inflow=LITRE_AN_HOUR, pump_tank=TANK, held_up_volume=3.5 * LITRE)
    assert codes(flooded) == ["held-up-water-floods-tank"]
    assert flooded.results.pump_tank is not None
    assert flooded.results.pump_tank.stopped_by == "nothing"
    assert "water-damage" in flooded.cautions


def test_what_still_arrives_after_the_float() -> None:
    small = overflow_time(inflow=LITRE_AN_HOUR, pump_tank=TANK, drip_down_volume=0.9 * LITRE)
    assert codes(small) == []
    more = overflow_time(inflow=LITRE_AN_HOUR, pump_tank=TANK, drip_down_volume=1.1 * LITRE)
    assert codes(more) == ["little-room-above-float"]
    # 6 L of ice in an hour and 1 L/h besides: 2 L in 17 min 9 s, then 6 L/h for 42 min 51 s are 4.286 L
    iced_over = overflow_time(inflow=LITRE_AN_HOUR, pump_tank=TANK, ice=iced(6 * LITRE), drip_down_volume=0.0)
    assert iced_over.results.pump_tank is not None
    assert iced_over.results.pump_tank.water_after_cut_out == pytest.approx(6 * LITRE * (1 - 2 / 7))
    assert iced_over.results.pump_tank.stopped_by == "nothing"
    default = overflow_time(inflow=LITRE_AN_HOUR, pump_tank=TANK, ice=iced(6 * LITRE))
    assert "/drip_down_volume" in [assumption.pointer for assumption in default.assumptions]


def test_a_coil_that_drips_more_than_fits_above_the_cut_out() -> None:
    protection = Protection(kind="drain-cut-out", cut_out_depth=0.036)  # 1 L above it
    facts: dict[str, Any] = {"inflow": LITRE_AN_HOUR, "pan": PAN, "protection": protection}
    assert codes(overflow_time(**facts)) == []
    assert codes(overflow_time(**facts, drip_down_volume=1.1 * LITRE)) == ["little-room-after-cut-out"]


def test_a_bottom_that_rises_above_the_rim() -> None:
    pan = dataclasses.replace(PAN, fall=0.05)
    assert "pan-bottom-above-rim" in codes(overflow_time(inflow=LITRE_AN_HOUR, pan=pan))


# every request


def numbers(limits: Any, *names: str) -> dict[str, Any]:
    return {name: st.floats(limits[name].low, limits[name].high) for name in names}


def perhaps(limits: Any, *names: str) -> dict[str, Any]:
    return {name: st.none() | strategy for name, strategy in numbers(limits, *names).items()}


AUXILIARY_PANS = st.builds(
    AuxiliaryPan, **numbers(AUXILIARY_PAN_LIMITS, "area", "depth"), larger_than_unit=st.none() | st.floats(-2.0, 5.0)
)
LAYERS = st.builds(IceLayer, **numbers(LAYER_LIMITS, "face_area", "thickness"), **perhaps(LAYER_LIMITS, "ice_share"))
AIRS = st.builds(
    ThawAir,
    **numbers(THAW_AIR_LIMITS, "air_flow", "air_temperature"),
    **perhaps(THAW_AIR_LIMITS, "relative_humidity_percent", "elevation"),
)
ICES = st.one_of(
    *(
        st.builds(Ice, **amount, **heat)
        for amount in (numbers(ICE_LIMITS, "water_volume"), {"layer": LAYERS})
        for heat in ({}, numbers(ICE_LIMITS, "melt_time"), numbers(ICE_LIMITS, "melting_power"), {"thaw_air": AIRS})
    )
)
OLD = {
    "pan": st.builds(WaterPan, **numbers(PAN_LIMITS, "area", "depth"), **perhaps(PAN_LIMITS, "water_depth")),
    **numbers(LIMITS, "free_volume", "line_volume"),
    "protection": st.builds(
        Protection,
        kind=st.sampled_from(PROTECTIONS),
        cut_out_depth=st.none() | st.floats(0.0, 0.5),
        secondary_drain_depth=st.none() | st.floats(0.0, 0.5),
        auxiliary_pan=st.none() | AUXILIARY_PANS,
    ),
    "pump_tank": st.builds(
        PumpTank,
        volume_to_safety_float=st.none() | st.floats(1e-6, 1.0),
        volume_to_overflow=st.none() | st.floats(1e-6, 1.0),
        safety_float=st.none() | st.sampled_from(SAFETY_FLOATS),
        area=st.none() | st.floats(1e-3, 2.0),
    ),
}
INFLOWS = {"inflow": st.floats(0.0, LIMITS["inflow"].high) | st.floats(0.0, 1e-6)}
OLD_REQUESTS = st.fixed_dictionaries(INFLOWS, optional=OLD)
REQUESTS = st.fixed_dictionaries(
    INFLOWS,
    optional={
        **OLD,
        "pan": st.builds(
            WaterPan,
            **numbers(PAN_LIMITS, "area", "depth"),
            **perhaps(PAN_LIMITS, "water_depth", "rim_area", "fall"),
        ),
        "line": st.builds(
            BlockedLine,
            pipe_size=st.sampled_from(COMMON_SIZES),
            material=st.none() | st.sampled_from(MATERIALS),
            **numbers(LINE_LIMITS, "length_to_blockage"),
            **perhaps(LINE_LIMITS, "trap_outlet_drop", "trap_evaporated_depth", "standing_volume"),
        ),
        **numbers(LIMITS, "held_up_volume", "drip_down_volume"),
        "drain_capacity": st.floats(0.0, 0.05) | st.floats(0.0, 2e-5),
        "ice": ICES,
    },
)


def all_numbers(part: Any) -> list[float]:
    found = []
    for field in dataclasses.fields(part):
        value = getattr(part, field.name)
        if dataclasses.is_dataclass(value):
            found += all_numbers(value)
        elif isinstance(value, float):
            found.append(value)
    return found


@given(REQUESTS)
def test_every_request_has_finite_results_and_whole_sentences(request: dict[str, Any]) -> None:
    answer = overflow_time(**request)
    assert all(math.isfinite(value) and value >= 0.0 for value in all_numbers(answer.results))
    assert answer.results.stopped_by in (*STOPPERS, None)
    for finding in answer.findings:
        for system in ("us", "si"):
            written = write_finding(finding, system)
            assert "{" not in written["message"] + written["remedy"]
    assert len({(finding.code, finding.pointer) for finding in answer.findings}) == len(answer.findings)


@given(REQUESTS, st.floats(0.0, 1.0))
def test_less_inflow_never_shortens_a_time(request: dict[str, Any], share: float) -> None:
    request = request | {"drip_down_volume": 0.0}
    more = overflow_time(**request).results
    less = overflow_time(**(request | {"inflow": share * request["inflow"]})).results

    def later(fast: Any, slow: Any, name: str) -> None:
        one, other = getattr(fast, name), getattr(slow, name)
        if other is not None:
            assert one is not None, name
            assert other >= one * (1 - 1e-9), name

    for name in ("time_to_overflow", "time_to_secondary_drain", "time_to_cut_out"):
        later(more, less, name)
    if more.pump_tank and less.pump_tank:
        later(more.pump_tank, less.pump_tank, "time_to_overflow")
        later(more.pump_tank, less.pump_tank, "time_to_safety_float")
    if more.melt and more.melt.lost_volume is not None:
        assert less.melt is not None
        assert less.melt.lost_volume is not None
        assert less.melt.lost_volume <= more.melt.lost_volume * (1 + 1e-9) + 1e-15


@given(OLD_REQUESTS)
def test_members_that_say_nothing_new_change_nothing(request: dict[str, Any]) -> None:
    before = overflow_time(**request)
    neutral: dict[str, Any] = {"held_up_volume": 0.0, "drain_capacity": 0.0, "ice": iced(0.0)}
    if pan := request.get("pan"):
        neutral["pan"] = dataclasses.replace(pan, rim_area=pan.area, fall=0.0)
    after = overflow_time(**(request | neutral))
    for name in ("free_volume", "time_to_overflow", "time_to_cut_out", "time_in_auxiliary_pan", "time_to_building"):
        assert getattr(after.results, name) == getattr(before.results, name), name
    assert after.results.stopped_by == before.results.stopped_by


@pytest.mark.parametrize(
    ("name", "facts"),
    [
        ("drain_capacity", {"drain_capacity": 1.0}),
        ("held_up_volume", {"held_up_volume": -1.0}),
        ("drip_down_volume", {"drip_down_volume": math.nan}),
        ("fall", {"pan": WaterPan(area=0.3, depth=0.04, fall=0.6)}),
        ("rim_area", {"pan": WaterPan(area=0.3, depth=0.04, rim_area=-0.1)}),
        ("area", {"pump_tank": PumpTank(area=0.0)}),
        ("length_to_blockage", {"line": BlockedLine(pipe_size="3/4", length_to_blockage=400.0)}),
        ("melt_time", {"ice": iced(0.01, 1.0)}),
        ("thickness", {"ice": Ice(layer=IceLayer(face_area=1.0, thickness=1.0))}),
        ("air_temperature", {"ice": Ice(water_volume=0.01, thaw_air=ThawAir(air_flow=0.1, air_temperature=400.0))}),
    ],
)
def test_outside_its_limits_an_argument_is_refused(name: str, facts: dict[str, Any]) -> None:
    with pytest.raises(OutOfRange) as refused:
        overflow_time(**({"inflow": 1e-6} | facts))
    assert refused.value.name == name
