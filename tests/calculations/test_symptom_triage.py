"""A symptom's triage: known answers of the trade, coherence of the ranking, and a next check that really splits."""

import math
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from service.calculations.answer import Answer
from service.calculations.drain_survey import Station
from service.calculations.installation import Cooling, Discharge, LineAsBuilt, PumpAsBuilt, TrapAsBuilt
from service.calculations.pump import Pump
from service.calculations.pump_curve import CurvePoint
from service.calculations.pump_tube import Tube
from service.calculations.symptom_triage import Triage, triage_symptom
from service.calculations.triage_check import PRICE_OF_A_MINUTE, chances, information, leaders, worth
from service.tables.triage.causes import CAUSES
from service.tables.triage.conflicts import CONFLICTS
from service.tables.triage.make_safe import MAKE_SAFE
from service.tables.triage.observations import OBSERVATIONS, value_row
from service.tables.triage.scale import ObservationRow
from service.tables.triage.symptoms import SYMPTOMS

INCH, INCH_OF_WATER, TON = 0.0254, 249.08891, 3516.852842066667
GALLON, HOUR = 3.785411784e-3, 3600.0


def triage(symptom: str, **observations: str) -> Answer[Triage]:
    return triage_symptom(symptom=symptom, observations=observations)


def first(answer: Answer[Triage]) -> str:
    return answer.results.causes[0].cause


def codes(answer: Answer[Triage]) -> list[str]:
    return [finding.code for finding in answer.findings]


# common practice, no source: what the trade looks for first, symptom by symptom
KNOWN: list[tuple[str, dict[str, str], str]] = [
    ("no-cooling-fan-runs", {"pump": "fitted", "float_state": "up-in-water"}, "safety-open-on-full-tank"),
    ("no-cooling-fan-runs", {"water_shows": "pump-tank"}, "safety-open-on-full-tank"),
    ("no-cooling-fan-runs", {"water_shows": "unit-pan"}, "safety-open-on-full-pan"),
    ("no-cooling-fan-runs", {"pump": "none", "float_state": "up-in-water"}, "safety-open-on-full-pan"),
    ("no-cooling-fan-runs", {"float_state": "up-without-water"}, "safety-float-stuck"),
    ("no-cooling-fan-runs", {"float_state": "down", "coil": "iced"}, "coil-iced"),
    ("no-cooling-fan-runs", {"float_state": "down", "water_shows": "nowhere"}, "cooling-side-fault"),
    ("water-when-fan-stops", {}, "outlet-drop-too-small"),
    ("water-when-fan-stops", {"season": "cooling", "discharge_flow": "rush-when-fan-stops"}, "outlet-drop-too-small"),
    ("water-when-fan-stops", {"outlet_drop": "enough", "filter": "dirty"}, "dirty-filter"),
    ("water-when-fan-stops", {"trap_state": "missing"}, "trap-missing"),
    ("gurgling-at-pan", {"trap_state": "dry"}, "trap-dry"),
    ("gurgling-at-pan", {"trap_state": "missing"}, "trap-missing"),
    ("gurgling-at-pan", {"season": "first-days-of-cooling"}, "trap-dry"),
    ("gurgling-at-pan", {"trap_state": "full", "seal_depth": "too-small"}, "seal-too-shallow"),
    ("sewer-smell", {"season": "heating", "discharge_into": "sewer-line"}, "trap-dry"),
    ("sewer-smell", {"season": "heating"}, "trap-dry"),
    ("sewer-smell", {"trap_state": "full", "other_drains": "dry"}, "other-drain-dry"),
    ("repeated-pump-failure", {"tube_course": "pinched-or-kinked"}, "pump-tube-pinched"),
    ("repeated-pump-failure", {"pump_lift": "near-or-beyond"}, "pump-lift-too-high"),
    ("repeated-pump-failure", {"tube_course": "free", "pump_lift": "within-its-curve"}, "check-valve-failed"),
    ("pump-runs-on", {"pump_lift": "near-or-beyond"}, "pump-lift-too-high"),
    ("pump-runs-on", {"fall_back": "runs-back"}, "check-valve-failed"),
    ("pump-runs-on", {"tube_course": "slimed"}, "pump-tube-blocked"),
    ("pump-runs-on", {"pump_motor": "runs-with-empty-tank"}, "pump-float-stuck"),
    ("pump-short-cycles", {}, "check-valve-failed"),
    ("pump-short-cycles", {"fall_back": "runs-back"}, "check-valve-failed"),
    ("pump-short-cycles", {"fall_back": "stays-up", "pump_floats": "close"}, "pump-floats-too-close"),
    ("secondary-drain-drips", {}, "line-blocked"),
    ("secondary-drain-drips", {"pour_test": "does-not-drain", "cleanout_test": "runs-off"}, "trap-blocked"),
    ("secondary-drain-drips", {"pour_test": "does-not-drain", "cleanout_test": "backs-up"}, "line-blocked"),
    ("overflow-in-humid-weather", {}, "line-partly-blocked"),
    ("overflow-in-humid-weather", {"pour_test": "drains-slowly"}, "line-partly-blocked"),
    ("overflow-in-humid-weather", {"line_size": "too-small", "last_cleaned": "this-season"}, "line-too-small"),
    ("flood-after-frozen-coil", {}, "coil-iced"),
    ("flood-after-frozen-coil", {"filter": "clean", "pour_test": "drains-freely"}, "coil-iced"),
    ("flood-after-frozen-coil", {"filter": "dirty"}, "dirty-filter"),
    # physics: a line that takes water is not blocked, a coil in dry air makes none
    ("no-water-at-discharge", {"weather": "dry", "pour_test": "drains-freely"}, "no-water-made"),
    ("no-water-at-discharge", {"pour_test": "drains-freely", "outlet_drop": "too-small"}, "outlet-drop-too-small"),
    ("no-water-at-discharge", {"weather": "freezing", "frost_exposure": "exposed"}, "line-frozen"),
    ("water-at-pan", {"fan_state": "makes-no-difference", "last_cleaned": "longer-ago-or-never"}, "line-blocked"),
    ("water-at-pan", {"pour_test": "drains-freely", "fan_state": "running"}, "outlet-drop-too-small"),
    ("water-at-pan", {"unit_level": "away-from-outlet", "pour_test": "drains-freely"}, "unit-out-of-level"),
    ("water-from-supply-duct", {"drops_past_coil": "seen"}, "water-off-the-coil"),
    ("water-from-supply-duct", {"water_shows": "outside-of-duct-or-pipe"}, "sweating"),
    ("water-below-unit", {"pan_condition": "cracked-or-rusted"}, "pan-cracked"),
    ("water-below-unit", {"water_shows": "pump-tank"}, "pump-tank-overflows"),
    ("musty-smell", {"last_cleaned": "longer-ago-or-never"}, "slime-in-pan"),
    ("pump-tank-full", {"pump_power": "dead"}, "pump-no-power"),
    ("pump-tank-full", {"pump_power": "live", "pump_motor": "hums"}, "pump-motor-failed"),
    ("pump-tank-full", {"pump_motor": "silent", "tube_off_test": "strong-stream"}, "pump-float-stuck"),
    ("pump-tank-full", {"pump_motor": "runs-and-stays-full", "tube_off_test": "weak-stream"}, "pump-worn"),
]


@pytest.mark.parametrize(("symptom", "observations", "cause"), KNOWN, ids=lambda part: str(part)[:50])
def test_known_answers_of_the_trade_come_first(symptom: str, observations: dict[str, str], cause: str) -> None:
    answer = triage(symptom, **observations)
    assert first(answer) == cause, [(row.cause, row.points) for row in answer.results.causes[:4]]


VALUES = [(name, value.value) for name, row in OBSERVATIONS.items() for value in row.values]


@st.composite
def situations(draw: st.DrawFn) -> tuple[str, dict[str, str]]:
    symptom = draw(st.sampled_from(list(SYMPTOMS)))
    names = draw(st.lists(st.sampled_from(list(OBSERVATIONS)), unique=True, max_size=12))
    return symptom, {name: draw(st.sampled_from(OBSERVATIONS[name].values)).value for name in names}


def place(answer: Answer[Triage]) -> dict[str, tuple[int, float, int]]:
    return {row.cause: (row.rank, row.share, row.points) for row in answer.results.causes}


def judge_coherence(symptom: str, before: dict[str, str], name: str, value: str) -> int:
    """Adding one observation raises nothing it speaks against and lowers nothing it speaks for; how many it moved."""
    old, added = triage(symptom, **before), triage(symptom, **before, **{name: value})
    was, now = place(old), place(added)
    moved = 0
    for row in added.results.causes:
        for_it = any((item.observation, item.value) == (name, value) for item in row.evidence_for)
        against = any((item.observation, item.value) == (name, value) for item in row.evidence_against)
        assert not (for_it and against)
        (rank, share, points), (old_rank, old_share, old_points) = now[row.cause], was[row.cause]
        if for_it:
            assert points > old_points
            assert rank <= old_rank
            assert share >= old_share * (1.0 - 1e-12)
        elif against:
            assert points < old_points
            assert rank >= old_rank
            assert share <= old_share * (1.0 + 1e-12)
        else:
            assert points == old_points
        moved += for_it or against
    return moved


@pytest.mark.parametrize("symptom", SYMPTOMS)
def test_alone_no_observation_lowers_what_it_speaks_for_or_raises_what_it_speaks_against(symptom: str) -> None:
    assert sum(judge_coherence(symptom, {}, name, value) for name, value in VALUES) > 50


@settings(max_examples=300, deadline=None)
@given(situations(), st.sampled_from(VALUES))
def test_beside_others_neither(situation: tuple[str, dict[str, str]], added: tuple[str, str]) -> None:
    symptom, observations = situation
    observations.pop(added[0], None)
    judge_coherence(symptom, observations, *added)


@settings(max_examples=150, deadline=None)
@given(situations())
def test_shares_are_bayes_rule_over_the_shown_evidence(situation: tuple[str, dict[str, str]]) -> None:
    """Recomputed here from what the answer shows: prior odds times likelihood ratios, over their sum."""
    results = triage(situation[0], **situation[1]).results
    odds = {}
    for row in results.causes:
        evidence = [item.points for item in (*row.evidence_for, *row.evidence_against)]
        assert row.points == row.start_points + sum(evidence)
        odds[row.cause] = 2.0**row.start_points * math.prod(2.0**points for points in evidence)
    whole = sum(odds.values()) + 1.0  # something else: odds 1
    for row in results.causes:
        assert row.share == pytest.approx(odds[row.cause] / whole, rel=1e-9)
    assert results.something_else_share == pytest.approx(1.0 / whole, rel=1e-6, abs=1e-12)
    assert 0.0 <= results.something_else_share <= 1.0
    assert [row.rank for row in results.causes] == list(range(1, len(results.causes) + 1))
    points = [row.points for row in results.causes]
    assert points == sorted(points, reverse=True)
    assert {row.cause for row in results.causes} == set(SYMPTOMS[situation[0]].causes())


@settings(max_examples=150, deadline=None)
@given(situations(), st.randoms())
def test_the_order_of_the_observations_does_not_matter(situation: tuple[str, dict[str, str]], random: Any) -> None:
    items = list(situation[1].items())
    random.shuffle(items)
    one, two = triage(situation[0], **situation[1]), triage(situation[0], **dict(items))
    assert place(one) == place(two)
    assert one.results.next_check == two.results.next_check


@settings(max_examples=200, deadline=None)
@given(situations())
def test_the_next_check_is_open_and_its_outcomes_are_what_the_service_then_answers(
    situation: tuple[str, dict[str, str]],
) -> None:
    symptom, observations = situation
    results = triage(symptom, **observations).results
    implied = {name for name, _ in SYMPTOMS[symptom].implied}
    for check in results.not_known:
        assert check.check not in observations
        assert check.check not in implied
        assert OBSERVATIONS[check.check].counts_for(symptom)
    check = results.next_check
    if check is None:
        assert not any(other.splits_first_two for other in results.not_known)
        return
    assert check.check == results.not_known[0].check
    one, two = (row.cause for row in results.causes[:2])
    gaps, orders, firsts = set(), set(), set()
    assert [outcome.value for outcome in check.outcomes] == [value.value for value in OBSERVATIONS[check.check].values]
    for outcome in check.outcomes:
        after = triage(symptom, **observations, **{check.check: outcome.value}).results
        order = tuple(row.cause for row in after.causes)
        points = {row.cause: row.points for row in after.causes}
        assert outcome.leading_cause == order[0]
        assert outcome.leading_name == CAUSES[order[0]].name
        assert outcome.order == order[: len(outcome.order)]
        gaps.add(points[one] - points[two])
        orders.add(order)
        firsts.add(order[0])
    assert len(gaps) > 1, "the outcomes pull the first two causes apart"
    assert check.changes_leader == (len(firsts) > 1)
    assert {one, two} <= {named.cause for named in check.tells_apart}
    if not check.changes_leader:
        assert not any(other.changes_leader for other in results.not_known if other.splits_first_two)


@pytest.mark.parametrize("symptom", SYMPTOMS)
def test_with_the_symptom_alone_the_next_checks_outcomes_give_different_orders(symptom: str) -> None:
    check = triage(symptom).results.next_check
    assert check is not None
    assert len({outcome.order for outcome in check.outcomes}) > 1
    assert len({outcome.leading_cause for outcome in check.outcomes}) > 1


@pytest.mark.parametrize("symptom", SYMPTOMS)
def test_the_next_check_is_worth_most_of_those_that_split_and_can_change_the_leader(symptom: str) -> None:
    results = triage(symptom).results
    rivals = [check for check in results.not_known if check.splits_first_two and check.changes_leader]
    assert results.next_check is not None
    assert worth(results.next_check) == max(worth(check) for check in rivals)
    for check in rivals:
        assert worth(check) == pytest.approx(check.information - PRICE_OF_A_MINUTE * check.time / 60.0)


@pytest.mark.parametrize("symptom", SYMPTOMS)
def test_following_the_checks_finds_whatever_cause_is_at_work(symptom: str) -> None:
    """Answering each check with what the cause shows most brings it to the front, or level with it but for a point."""
    for cause in SYMPTOMS[symptom].causes():
        known: dict[str, str] = {}
        results = triage(symptom).results
        while results.not_known:
            name = results.not_known[0].check
            known[name] = max(chances(OBSERVATIONS[name], cause).items(), key=lambda item: item[1])[0]
            results = triage(symptom, **known).results
        found = next(row for row in results.causes if row.cause == cause)
        assert found.points >= results.causes[0].points - 1, (cause, known, results.causes[0].cause)


def test_information_by_hand() -> None:
    """Two causes of equal odds, a check of one bit's reach: dirty in 16 of 17 cases with one cause, 1 of 17 with the
    other.

    By hand: after a dirty filter the odds are 16 to 1, after a clean one 1 to 16; either way the divergence from one
    half each is 1 + (16/17) log2(16/17) + (1/17) log2(1/17), the same as the information of a binary symmetric channel.
    """
    expected = 1.0 + 16 / 17 * math.log2(16 / 17) + 1 / 17 * math.log2(1 / 17)
    found = information(OBSERVATIONS["filter"], {"dirty-filter": 0.5, "coil-iced": 0.5})
    assert found == pytest.approx(expected, rel=1e-12)
    # causes that the check says nothing of: nothing to learn
    assert information(OBSERVATIONS["filter"], {"trap-dry": 0.8, "coil-iced": 0.2}) == pytest.approx(0.0, abs=1e-12)


@settings(max_examples=200, deadline=None)
@given(
    st.sampled_from(list(OBSERVATIONS.values())),
    st.dictionaries(st.sampled_from(list(CAUSES)), st.floats(0.01, 1.0), min_size=2, max_size=4),
)
def test_information_is_the_divergence_by_its_definition(row: ObservationRow, odds: dict[str, float]) -> None:
    """Kullback and Leibler's sum written out: of each outcome, the shares after it against the shares before it."""
    before = {cause: odd / sum(odds.values()) for cause, odd in odds.items()}
    expected = 0.0
    for value in row.values:
        after = {cause: share * 2.0 ** value.weights.get(cause, 0) for cause, share in before.items()}
        after = {cause: share / sum(after.values()) for cause, share in after.items()}
        divergence = sum(share * math.log2(share / before[cause]) for cause, share in after.items())
        expected += divergence * sum(share * chances(row, cause)[value.value] for cause, share in before.items())
    assert information(row, before) == pytest.approx(expected, rel=1e-9, abs=1e-12)


def test_chances_are_chances_and_keep_the_ratio_of_their_weights() -> None:
    for row in OBSERVATIONS.values():
        for cause in CAUSES:
            found = chances(row, cause)
            assert sum(found.values()) == pytest.approx(1.0)
            assert all(0.0 < chance <= 1.0 for chance in found.values())


def test_leaders_are_at_least_two_and_at_most_four() -> None:
    assert leaders({"a": 9, "b": 1, "c": 0}) == ("a", "b")
    assert leaders({"a": 3, "b": 3, "c": 3, "d": 3, "e": 3}) == ("a", "b", "c", "d")


# the unit's data as evidence

TRAP = TrapAsBuilt(outlet_drop=0.25 * INCH, seal_depth=2 * INCH, pipe_size="3/4")


def test_a_trap_that_holds_water_up_is_evidence_with_its_finding() -> None:
    unit = {"pan_pressure": -1.2 * INCH_OF_WATER, "trap": TRAP}
    answer = triage_symptom(symptom="water-at-pan", unit=unit)
    row = answer.results.causes[0]
    assert row.cause == "outlet-drop-too-small"
    item = next(item for item in row.evidence_for if item.observation == "outlet_drop")
    assert (item.value, item.origin, item.points, item.basis) == ("too-small", "unit-data", 4, "physics")
    assert [finding.code for finding in item.findings] == ["outlet-drop-too-small"]
    assert item.findings[0].pointer == "/unit/trap/outlet_drop"
    assert "outlet-drop-too-small" in codes(answer)
    assert answer.verdict == "fail"
    assert all(check.check != "outlet_drop" for check in answer.results.not_known)


def test_a_trap_that_drains_speaks_against_held_water() -> None:
    sound = TrapAsBuilt(outlet_drop=3 * INCH, seal_depth=2 * INCH, pipe_size="3/4")
    unit = {"pan_pressure": -1.2 * INCH_OF_WATER, "trap": sound}
    answer = triage_symptom(symptom="water-when-fan-stops", unit=unit)
    row = next(row for row in answer.results.causes if row.cause == "outlet-drop-too-small")
    assert [(item.value, item.points) for item in row.evidence_against] == [("enough", -4)]
    assert answer.results.causes[0].cause != "outlet-drop-too-small"


PUMP = PumpAsBuilt(
    lift=7.0,
    tube=Tube(bore=0.0095, length=12.0, elbows=3, check_valve=False),
    pump=Pump(
        curve=(CurvePoint(lift=0.0, flow=80 * GALLON / HOUR), CurvePoint(lift=6.0, flow=0.0)), safety_float="none"
    ),
)


def test_a_pump_that_cannot_lift_leads_where_motors_keep_failing() -> None:
    unit = {"cooling": Cooling(total_capacity=3 * TON), "pump": PUMP}
    answer = triage_symptom(symptom="repeated-pump-failure", unit=unit)
    assert first(answer) == "pump-lift-too-high"
    found = {finding.code for item in answer.results.causes[0].evidence_for for finding in item.findings}
    assert "pump-cannot-lift" in found
    assert "pump-safety-float-missing" in codes(answer), "a failure in itself is repeated"


def stations(*inverts: float) -> tuple[Station, ...]:
    return tuple(Station(distance=1.0 * index, invert=invert) for index, invert in enumerate(inverts))


FALLING = stations(0.20, 0.16, 0.12, 0.08, 0.04)
SAGGING = stations(0.20, 0.10, 0.15, 0.08, 0.04)  # 50 mm deep at the second station, more than the bore of 21 mm


@pytest.mark.parametrize(
    ("part", "observation", "value"),
    [
        ({"line": LineAsBuilt(run=10.0, fall=-0.05)}, "line_course", "flat-or-rises"),
        ({"line": LineAsBuilt(pipe_size="3/4", stations=SAGGING)}, "line_course", "sags"),
        ({"line": LineAsBuilt(pipe_size="3/4", stations=FALLING)}, "line_course", "falls"),
        ({"line": LineAsBuilt(second_trap_unvented=True)}, "second_trap", "unvented"),
        ({"line": LineAsBuilt(second_trap_unvented=False)}, "second_trap", "none"),
        ({"line": LineAsBuilt(support_spacing=2.4)}, "supports", "too-far-apart"),
        ({"line": LineAsBuilt(support_spacing=1.0)}, "supports", "close-enough"),
        (
            {"line": LineAsBuilt(pipe_size="3/4"), "cooling": Cooling(total_capacity=30 * TON)},
            "line_size",
            "too-small",
        ),
        ({"line": LineAsBuilt(pipe_size="3/4"), "cooling": Cooling(total_capacity=3 * TON)}, "line_size", "enough"),
    ],
)
def test_the_units_data_stand_for_observations(part: dict[str, Any], observation: str, value: str) -> None:
    answer = triage_symptom(symptom="water-at-pan", unit=part)
    items = [item for row in answer.results.causes for item in (*row.evidence_for, *row.evidence_against)]
    assert (observation, value, "unit-data") in {(item.observation, item.value, item.origin) for item in items}
    assert all(check.check != observation for check in answer.results.not_known)


def test_a_sewer_connection_speaks_for_a_dry_trap_and_is_a_failure() -> None:
    unit = {"discharge": Discharge(place="sanitary-line", air_gap=False)}
    answer = triage_symptom(symptom="sewer-smell", unit=unit)
    assert first(answer) == "trap-dry"
    assert "discharge-into-sanitary" in codes(answer)
    assert "sewer-gas" in answer.cautions


def test_unit_data_against_an_observation_is_a_finding_and_both_count() -> None:
    unit = {"pan_pressure": -1.2 * INCH_OF_WATER, "trap": TRAP}
    answer = triage_symptom(symptom="water-at-pan", unit=unit, observations={"outlet_drop": "enough"})
    row = next(row for row in answer.results.causes if row.cause == "outlet-drop-too-small")
    assert len(row.evidence_for) == len(row.evidence_against) == 1
    disagree = next(finding for finding in answer.findings if finding.code == "observations-disagree")
    assert disagree.pointer == "/observations/outlet_drop"


def test_a_line_that_sags_here_and_rises_there_does_not_disagree_with_itself() -> None:
    """Two values of one observation from the survey are two places of one line; both count."""
    answer = triage_symptom(symptom="water-at-pan", unit={"line": LineAsBuilt(pipe_size="3/4", stations=SAGGING)})
    items = {(item.observation, item.value) for row in answer.results.causes for item in row.evidence_for}
    assert {("line_course", "sags"), ("line_course", "flat-or-rises")} <= items
    assert "observations-disagree" not in codes(answer)


def test_the_same_from_both_counts_once() -> None:
    unit = {"pan_pressure": -1.2 * INCH_OF_WATER, "trap": TRAP}
    alone = triage_symptom(symptom="water-at-pan", unit=unit)
    both = triage_symptom(symptom="water-at-pan", unit=unit, observations={"outlet_drop": "too-small"})
    assert place(alone) == place(both)
    assert "observations-disagree" not in codes(both)


def test_a_trap_that_dries_out_or_is_kept_full_counts() -> None:
    dries = TrapAsBuilt(outlet_drop=3 * INCH, seal_depth=2 * INCH, kept_full_off_season=False)
    kept = TrapAsBuilt(outlet_drop=3 * INCH, seal_depth=2 * INCH, kept_full_off_season=True)
    sewer = Discharge(place="sanitary-line", air_gap=False)
    for trap, value, points in ((dries, "dries-out", 1), (kept, "lasts", -2)):
        answer = triage_symptom(symptom="sewer-smell", unit={"trap": trap, "discharge": sewer})
        row = next(row for row in answer.results.causes if row.cause == "trap-dry")
        items = {item.observation: item for item in (*row.evidence_for, *row.evidence_against)}
        assert (items["off_season_seal"].value, items["off_season_seal"].points) == (value, points)


def test_a_missing_safety_float_is_reported_where_it_was_seen() -> None:
    found = next(
        finding
        for finding in triage("water-at-pan", float_state="none-fitted").findings
        if finding.code == "no-safety-float"
    )
    assert found.pointer == "/observations/float_state"


@pytest.mark.parametrize(
    ("fact", "caution"),
    [({"frost_exposure": "exposed"}, "freezing"), ({"receptor": "stands-full"}, "sewer-gas")],
)
def test_something_known_brings_its_caution(fact: dict[str, str], caution: str) -> None:
    assert caution in triage("water-at-pan", **fact).cautions
    assert caution not in triage("water-at-pan").cautions


def test_a_cleanout_that_does_not_open_is_no_check() -> None:
    for cleanout, offered in (("removable", True), ("solvent-welded", False), ("none", False)):
        unit = {"line": LineAsBuilt(cleanout=cleanout)}
        results = triage_symptom(symptom="water-at-pan", unit=unit).results
        assert any(check.check == "cleanout_test" for check in results.not_known) is offered


# what does not go together


def test_without_a_pump_there_is_no_pump_check_and_no_pump_cause() -> None:
    answer = triage("no-water-at-discharge", pump="none")
    assert not any(OBSERVATIONS[check.check].needs_pump for check in answer.results.not_known)
    pumps = [row for row in answer.results.causes if row.cause.startswith("pump-")]
    assert pumps
    assert all(row.standing == "unlikely" for row in pumps)


def test_a_pump_symptom_without_a_pump_disagrees_and_nothing_fits() -> None:
    answer = triage("pump-runs-on", pump="none")
    assert {"observations-disagree", "no-cause-fits"} <= set(codes(answer))
    assert answer.results.something_else_share >= answer.results.causes[0].share


@pytest.mark.parametrize(("one", "two"), CONFLICTS)
def test_every_conflict_is_found(one: tuple[str, str], two: tuple[str, str]) -> None:
    answer = triage("water-below-unit", **dict((one, two)))
    found = [finding for finding in answer.findings if finding.code == "observations-disagree"]
    assert len(found) == 1
    assert {found[0].values["first"], found[0].values["second"]} == {value_row(*one).words, value_row(*two).words}
    assert "observations-disagree" not in codes(triage("water-below-unit", **dict([one])))


def test_a_dry_place_and_a_wet_building_disagree() -> None:
    answer = triage_symptom(
        symptom="water-below-unit", observations={"water_shows": "nowhere"}, building_getting_wet=True
    )
    assert "observations-disagree" in codes(answer)


def test_what_the_symptom_says_adds_no_points_and_is_told() -> None:
    alone, repeated = triage("sewer-smell"), triage("sewer-smell", smell="sewer")
    assert place(alone) == place(repeated)
    assert [(row.observation, row.why) for row in repeated.results.without_weight] == [
        ("smell", "The symptom says so already.")
    ]
    assert [(item.pointer, item.value) for item in alone.assumptions] == [("/observations/smell", "sewer")]
    assert not repeated.assumptions
    against = triage("sewer-smell", smell="musty")
    assert "observations-disagree" in codes(against)


def test_a_dead_motor_says_nothing_of_what_keeps_killing_motors() -> None:
    answer = triage("repeated-pump-failure", pump_motor="silent")
    assert place(answer) == place(triage("repeated-pump-failure"))
    assert answer.results.without_weight[0].observation == "pump_motor"


# what to make safe


def steps(answer: Answer[Triage]) -> list[str]:
    return [step.code for step in answer.results.make_safe]


def test_electricity_comes_first_and_is_a_failure() -> None:
    answer = triage_symptom(symptom="water-below-unit", water_near_electrical=True, building_getting_wet=True)
    assert steps(answer)[0] == "switch-off-where-water-is"
    assert steps(answer).index("stop-the-cooling-call") < steps(answer).index("protect-the-building")
    assert {"water-at-electrical-parts", "water-in-the-building"} <= set(codes(answer))
    assert answer.verdict == "fail"
    assert {"lock-out-power", "water-and-electricity", "water-damage"} <= set(answer.cautions)


def test_where_nobody_looked_looking_comes_first() -> None:
    assert steps(triage("water-at-pan"))[0] == "look-for-electrical-parts"
    looked = triage_symptom(symptom="water-at-pan", water_near_electrical=False)
    assert "look-for-electrical-parts" not in steps(looked)
    assert "look-for-electrical-parts" not in steps(triage("musty-smell"))


def test_held_water_is_caught_before_the_fan_stops() -> None:
    found = steps(triage("water-when-fan-stops"))
    assert found.index("catch-held-water") < found.index("stop-the-cooling-call")


@pytest.mark.parametrize(
    ("symptom", "observations", "step", "caution"),
    [
        ("sewer-smell", {}, "keep-sewer-gas-out", "sewer-gas"),
        ("gurgling-at-pan", {"smell": "sewer"}, "keep-sewer-gas-out", "sewer-gas"),
        ("no-cooling-fan-runs", {}, "leave-the-safety-wired", "do-not-bridge-safety"),
        ("no-cooling-fan-runs", {"coil": "iced"}, "let-the-ice-melt", "water-damage"),
        ("pump-tank-full", {}, "unplug-the-pump", "water-and-electricity"),
        ("musty-smell", {}, "lock-out-before-opening", "lock-out-power"),
    ],
)
def test_each_danger_has_its_step_and_its_caution(
    symptom: str, observations: dict[str, str], step: str, caution: str
) -> None:
    answer = triage(symptom, **observations)
    assert step in steps(answer)
    assert caution in answer.cautions


def test_a_high_place_and_what_is_below_have_their_steps() -> None:
    unit = {"location": "attic", "below": "finished-ceiling", "cooling": Cooling(total_capacity=3 * TON)}
    found = steps(triage_symptom(symptom="water-at-pan", unit=unit))
    assert {"mind-where-you-stand", "protect-the-building"} <= set(found)


def test_every_step_has_a_situation_that_brings_it_and_the_order_is_the_tables() -> None:
    order = [step.code for step in MAKE_SAFE]
    seen: set[str] = set()
    unit = {"location": "roof", "below": "occupied-space", "cooling": Cooling(total_capacity=TON)}
    for symptom in SYMPTOMS:
        for flag in (None, True):
            for observations in ({}, {"coil": "iced", "smell": "sewer"}):
                answer = triage_symptom(
                    symptom=symptom,
                    observations=observations,
                    water_near_electrical=flag,
                    building_getting_wet=flag,
                    unit=unit if flag else None,
                )
                found = steps(answer)
                assert found == sorted(found, key=order.index)
                assert len(answer.cautions) == len(set(answer.cautions))
                assert answer.cautions[-1] == "local-code"
                seen |= set(found)
    assert seen == set(order)


# what the findings say


def test_a_symptom_alone_says_so() -> None:
    answer = triage("no-cooling-fan-runs")
    assert {"symptom-only", "most-likely-cause", "leading-causes-close"} <= set(codes(answer))
    assert "symptom-only" not in codes(triage("no-cooling-fan-runs", coil="iced"))


def test_nothing_wrong_passes() -> None:
    answer = triage_symptom(
        symptom="no-water-at-discharge",
        observations={"weather": "dry", "season": "between-seasons", "pour_test": "drains-freely"},
        water_near_electrical=False,
    )
    assert first(answer) == "no-water-made"
    assert "most-likely-nothing-wrong" in codes(answer)
    assert answer.verdict == "pass"


@settings(max_examples=100, deadline=None)
@given(situations())
def test_one_finding_names_the_leader_or_says_that_none_fits(situation: tuple[str, dict[str, str]]) -> None:
    answer = triage(situation[0], **situation[1])
    named = {"most-likely-cause", "most-likely-nothing-wrong", "no-cause-fits"} & set(codes(answer))
    assert len(named) == 1
    assert ("no-cause-fits" in named) == (answer.results.causes[0].points <= 0)


def test_causes_lead_on_to_symptoms_that_ask_for_their_cause() -> None:
    answer = triage("no-cooling-fan-runs", water_shows="pump-tank")
    assert answer.results.causes[0].go_on_with == "pump-tank-full"


def test_words_that_the_tables_do_not_hold_are_key_errors() -> None:
    with pytest.raises(KeyError):
        triage("no-such-symptom")
    with pytest.raises(KeyError):
        triage("water-at-pan", filter="soaked")
