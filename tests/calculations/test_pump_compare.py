"""Which of these pumps, or these pumps together: order, reasons, and what a shared tank needs."""

import math
from dataclasses import fields, replace
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from service.calculations.answer import Answer
from service.calculations.pump_compare import RUN_TOGETHER, NamedPump, PumpComparison, compare_pumps
from service.calculations.pump_curve import CurvePoint
from service.calculations.pump_ranking import CARRIES, DECIDED_BY
from service.calculations.pump_run import run_pump
from service.calculations.pump_tube import Tube
from service.schemas.writing import write_finding
from tests.calculations.test_pump_run import LIMITS, PUMPS, TUBES, within

TUBE = Tube(bore=0.0095, length=9.0, elbows=2, check_valve=True)


def pump(name: str, most: float, shut_off: float, **changes: Any) -> NamedPump:
    """A straight curve; sound but for the changes."""
    curve = (CurvePoint(lift=0.0, flow=most), CurvePoint(lift=shut_off, flow=0.0))
    sound: dict[str, Any] = {"tank_volume_between_floats": 1e-3, "safety_float": "wired"}
    return NamedPump(name=name, curve=curve, **(sound | changes))


GOOD = pump("good", 80e-6, 5.0)


def compare(*pumps: NamedPump, **changes: Any) -> Answer[PumpComparison]:
    request: dict[str, Any] = {"inflow": 1.5e-6, "lift": 2.0, "tube": TUBE, "pumps": pumps}
    return compare_pumps(**(request | changes))


def codes(answer: Answer[Any]) -> list[str]:
    return [finding.code for finding in answer.findings]


def order(answer: Answer[PumpComparison]) -> list[tuple[str, str, str | None]]:
    return [(row.name, row.carries, row.decided_by) for row in answer.results.pumps]


NAMED = st.builds(
    lambda pump, name: NamedPump(name=name, **{field.name: getattr(pump, field.name) for field in fields(pump)}),
    PUMPS,
    st.text(st.characters(exclude_characters="{"), max_size=5),
)
REQUESTS = st.fixed_dictionaries(
    {
        "inflow": within(LIMITS["inflow"]),
        "lift": within(LIMITS["lift"]),
        "tube": TUBES,
        "pumps": st.lists(NAMED, min_size=1, max_size=4).map(tuple),
    },
    optional={"run_together": st.sampled_from(RUN_TOGETHER), "flow_margin": within(LIMITS["flow_margin"])},
)


@given(REQUESTS)
def test_every_input_within_limits_is_answered_with_finite_numbers_and_readable_findings(
    request: dict[str, Any],
) -> None:
    answer = compare_pumps(**request)
    results = answer.results
    assert sorted(row.index for row in results.pumps) == list(range(len(request["pumps"])))
    assert [row.rank for row in results.pumps] == list(range(1, len(request["pumps"]) + 1))
    assert (results.together is None) == ("run_together" not in request)
    numbers = [getattr(results.together, field.name) for field in fields(results.together)] if results.together else []
    numbers += [number for row in results.pumps for number in (row.flow_together, row.flow_without)]
    assert all(number is None or (math.isfinite(number) and number >= 0.0) for number in numbers)
    for found in (*answer.findings, *(found for row in results.pumps for found in row.answer.findings)):
        for system in ("us", "si"):
            assert "{" not in write_finding(found, system)["message"]
            assert "{" not in write_finding(found, system)["remedy"]


@given(REQUESTS)
def test_each_pump_is_answered_as_pump_run_answers(request: dict[str, Any]) -> None:
    shared = {name: value for name, value in request.items() if name not in ("pumps", "run_together")}
    for row in compare_pumps(**request).results.pumps:
        alone = run_pump(pump=request["pumps"][row.index], **shared)
        assert row.answer.results == alone.results
        assert [found.code for found in row.answer.findings[:-1]] == [found.code for found in alone.findings]


@given(REQUESTS)
def test_no_pump_is_ranked_behind_one_that_carries_less(request: dict[str, Any]) -> None:
    rows = compare_pumps(**request).results.pumps
    ranks = [CARRIES.index(row.carries) for row in rows]
    assert ranks == sorted(ranks)
    assert rows[0].decided_by is None
    assert all(row.decided_by in DECIDED_BY for row in rows[1:])


def test_the_order_of_the_request_decides_only_among_equals() -> None:
    others = (pump("weak", 3e-6, 4.0), pump("low", 80e-6, 1.5), pump("unwired", 80e-6, 5.0, safety_float="unwired"))
    forward, backward = compare(GOOD, *others), compare(*reversed((GOOD, *others)))
    assert order(forward) == order(backward)
    assert forward.results.best == "good"
    assert [row[0] for row in order(forward)] == ["good", "unwired", "weak", "low"]


@pytest.mark.parametrize(
    ("worse", "why"),
    [
        (pump("worse", 2e-6, 5.0), "flow"),
        (pump("worse", 80e-6, 1.9), "flow"),
        (pump("worse", 80e-6, 5.0, safety_float="none"), "safety-float"),
        (pump("worse", 80e-6, 5.0, safety_float=None), "safety-float"),
        (pump("worse", 80e-6, 2.1), "near-shut-off"),
        (pump("worse", 80e-6, 5.0, tank_volume_between_floats=5e-4), "starts"),
        (pump("worse", 80e-6, 5.0, tank_volume_between_floats=None), "starts"),
        (pump("worse", 80e-6, 5.0), "order"),
    ],
)
def test_a_pump_is_behind_for_a_reason(worse: NamedPump, why: str) -> None:
    answer = compare(GOOD, worse)
    assert answer.results.pumps[1].decided_by == why
    told = answer.results.pumps[1].answer.findings[-1]
    assert told.pointer == "/pumps/1"
    known = worse.tank_volume_between_floats is not None
    assert told.code == ("pump-behind-starts-not-known" if why == "starts" and not known else f"pump-behind-{why}")
    assert "'good'" in write_finding(told, "us")["message"]
    if why != "order":
        assert [row.name for row in compare(worse, GOOD).results.pumps] == ["good", "worse"]


def test_spare_lift_decides_where_nothing_is_known_of_starts() -> None:
    no_tank = {"tank_volume_between_floats": None}
    answer = compare(pump("less", 80e-6, 5.0, **no_tank), pump("more", 80e-6, 6.0, **no_tank))
    assert order(answer) == [("more", "with-margin", None), ("less", "with-margin", "spare-lift")]


def test_among_pumps_that_lift_nothing_the_greater_shut_off_comes_first() -> None:
    answer = compare(pump("low", 80e-6, 1.0), pump("less low", 80e-6, 1.5))
    assert order(answer) == [("less low", "nothing", None), ("low", "nothing", "shut-off-head")]
    assert answer.results.best is None
    assert codes(answer) == ["pump-choice-none-lifts"]


def test_the_verdict_is_that_of_the_choice() -> None:
    low = pump("low", 80e-6, 1.0)
    assert (compare(GOOD, low).verdict, codes(compare(GOOD, low))) == ("pass", ["pump-choice-sound"])
    near = pump("near", 80e-6, 2.1)
    assert codes(compare(near, low)) == ["pump-choice-with-reserve"]
    unwired = replace(GOOD, safety_float="unwired")
    assert (compare(unwired).verdict, codes(compare(unwired))) == ("fail", ["pump-choice-fails"])
    weak = pump("weak", 2e-6, 5.0)
    assert (compare(weak).verdict, codes(compare(weak))) == ("fail", ["pump-choice-none"])
    assert compare(weak).results.best is None


def test_pointers_lead_into_the_comparisons_request() -> None:
    answer = compare(GOOD, replace(GOOD, name="bad", safety_float="none", curve=(*GOOD.curve, GOOD.curve[0])))
    row = next(row for row in answer.results.pumps if row.name == "bad")
    assert {found.pointer for found in row.answer.findings} == {"/pumps/1/safety_float", "/pumps/1"}
    assert [assumption.pointer for assumption in answer.assumptions] == [
        "/tube/roughness",
        "/tube/elbow_loss_coefficient",
        "/tube/check_valve_loss_coefficient",
        "/tube/check_valve_cracking_head",
        "/water_temperature",
        "/flow_margin",
    ]


def test_two_at_once_gain_less_than_twice_and_stand_in_for_each_other() -> None:
    answer = compare(GOOD, replace(GOOD, name="other"), run_together="parallel")
    together = answer.results.together
    assert together is not None
    assert together.gain_ratio is not None
    assert 1.0 < together.gain_ratio < 2.0
    assert together.flow_one_failed == pytest.approx(answer.results.pumps[0].answer.results.operating_flow, rel=1e-9)
    assert codes(answer) == ["pumps-at-once-gain", "pumps-one-failed-carries"]
    assert sum(row.flow_together or 0.0 for row in answer.results.pumps) == pytest.approx(together.operating_flow)


def test_two_at_once_are_judged_by_what_both_move_and_by_what_one_leaves() -> None:
    alone = compare(GOOD).results.pumps[0].answer.results.operating_flow
    other = replace(GOOD, name="other")
    both = compare(GOOD, other, run_together="parallel").results.together
    assert both is not None
    between = (alone + both.operating_flow) / 2
    answer = compare(GOOD, other, run_together="parallel", inflow=between, flow_margin=1.0)
    assert codes(answer) == ["pumps-at-once-gain", "pumps-one-failed-too-slow"]
    assert answer.verdict == "attention"
    assert codes(compare(GOOD, other, run_together="parallel", inflow=between))[0] == "pumps-at-once-margin-small"
    too_much = compare(GOOD, other, run_together="parallel", inflow=1.01 * both.operating_flow)
    assert codes(too_much)[0] == "pumps-at-once-too-slow"
    assert too_much.verdict == "fail"


def test_taking_turns_the_weakest_counts() -> None:
    weak = pump("weak", 4e-6, 5.0)
    flow = compare(weak).results.pumps[0].answer.results.operating_flow
    for inflow, code in ((0.5 * flow, None), (0.8 * flow, "margin-small"), (1.1 * flow, "too-slow")):
        answer = compare(GOOD, weak, run_together="alternating", inflow=inflow)
        assert answer.results.together is not None
        assert answer.results.together.flow_in_turn == flow
        found = [found for found in answer.findings if found.code.startswith("pumps-in-turn")]
        assert [one.code for one in found] == ([f"pumps-in-turn-{code}"] if code else [])
        assert all("'weak'" in write_finding(one, "si")["message"] for one in found)
    # with the good one dead the weak is left, and the other way round
    assert [row.flow_without for row in sorted(answer.results.pumps, key=lambda row: row.index)] == [
        flow,
        compare(GOOD).results.pumps[0].answer.results.operating_flow,
    ]


def test_taking_turns_halves_the_starts_of_each() -> None:
    once = compare(GOOD).results.pumps[0].answer.results.cycles_per_hour
    together = compare(GOOD, GOOD, run_together="alternating").results.together
    assert once is not None
    assert together is not None
    assert together.starts_in_turn == pytest.approx(once / 2)


def test_a_pump_the_others_hold_shut_is_named() -> None:
    low, strong = pump("low", 80e-6, 2.2), pump("strong", 200e-6, 12.0)
    answer = compare(low, strong, run_together="parallel", tube=replace(TUBE, bore=0.007))
    found = next(found for found in answer.findings if found.code == "pumps-one-held-shut")
    assert found.pointer == "/pumps/0"
    assert "pumps-one-held-shut" not in codes(compare(low, strong, run_together="alternating"))


def test_pumps_that_share_a_tube_need_check_valves() -> None:
    for check_valve, code in ((False, "pumps-share-tube-without-check-valves"), (None, "pumps-check-valves-not-given")):
        tube = replace(TUBE, check_valve=check_valve)
        assert code in codes(compare(GOOD, GOOD, run_together="parallel", tube=tube))
        assert code not in codes(compare(GOOD, run_together="parallel", tube=tube))
        assert code not in codes(compare(GOOD, GOOD, tube=tube))


def test_one_wired_float_guards_a_shared_tank() -> None:
    loose = replace(GOOD, name="loose", safety_float="unwired")
    assert compare(GOOD, loose, run_together="parallel").verdict == "pass"
    both = compare(loose, loose, run_together="parallel")
    assert [found.pointer for found in both.findings if found.code == "pump-safety-float-unwired"] == [
        "/pumps/0/safety_float",
        "/pumps/1/safety_float",
    ]
    assert both.verdict == "fail"


def test_no_inflow_leaves_nothing_to_judge() -> None:
    answer = compare(GOOD, GOOD, run_together="parallel", inflow=0.0)
    assert answer.results.together is not None
    assert answer.results.together.flow_ratio is None
    assert codes(answer) == ["pumps-at-once-gain"]
    assert order(compare(GOOD, inflow=0.0)) == [("good", "with-margin", None)]
