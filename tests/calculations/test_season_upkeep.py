"""A unit's four seasons: a check applies if and only if its condition holds, whatever is known of the unit."""

import itertools
import math
import random
import re
from collections.abc import Iterator
from dataclasses import replace
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from service.calculations.air_state import AirReading
from service.calculations.answer import Answer
from service.calculations.fuel_rate import rate_from_fuel
from service.calculations.furnace_drain import Furnace
from service.calculations.installation import Cooling, Discharge, LineAsBuilt, OffSeason, PumpAsBuilt, TrapAsBuilt
from service.calculations.overflow_protection import AuxiliaryPan, Protection
from service.calculations.pump import Pump
from service.calculations.pump_curve import CurvePoint
from service.calculations.pump_tube import Tube
from service.calculations.season_upkeep import plan_upkeep
from service.calculations.trap_dry_out import dry_out_trap
from service.calculations.upkeep_results import SeasonUpkeep, cautions_of
from service.errors import OutOfRange
from service.schemas.writing import fill
from service.tables.upkeep.checks import CHECKS
from service.tables.upkeep.row import AUTUMN, CONDITIONS, MID_SEASON, SEASONS, SPRING, WINTER
from service.units import SYSTEMS

INCH, FOOT, WATER_INCH, TON, BTU_H, DAY = 0.0254, 0.3048, 249.08891, 3516.852842066667, 0.29307107, 86400.0

Facts = dict[str, Any]


def codes(answer: Answer[SeasonUpkeep], season: str) -> list[str]:
    return [row.code for row in answer.results.seasons[SEASONS.index(season)].checks]


def found(answer: Answer[SeasonUpkeep]) -> dict[str, str]:
    return {finding.code: finding.pointer for finding in answer.findings}


def texts(answer: Answer[SeasonUpkeep], system: str) -> Iterator[str]:
    for season in answer.results.seasons:
        for row in season.checks:
            yield fill(row.check, season.values, system)
            yield fill(row.why, season.values, system)
    note = answer.results.growth_season.note
    yield fill(note.text, note.values, system)


def text_of(answer: Answer[SeasonUpkeep], season: str, code: str) -> tuple[str, str]:
    due = answer.results.seasons[SEASONS.index(season)]
    row = next(row for row in due.checks if row.code == code)
    return fill(row.check, due.values, "us"), fill(row.why, due.values, "us")


def trap(drop: float, seal: float, **more: Any) -> TrapAsBuilt:
    return TrapAsBuilt(outlet_drop=drop * INCH, seal_depth=seal * INCH, pipe_size="3/4", **more)


def pump(safety_float: str | None, tank: float | None) -> PumpAsBuilt:
    curve = (CurvePoint(lift=0.0, flow=8e-5), CurvePoint(lift=6.0, flow=0.0))
    tube = Tube(bore=0.0095, length=8.0, elbows=3, check_valve=True)
    return PumpAsBuilt(
        lift=2.5,
        tube=tube,
        pump=Pump(curve=curve, tank_volume_between_floats=tank, safety_float=safety_float),
    )


FIVE_TONS = Cooling(total_capacity=5 * TON, sensible_heat_ratio=0.75)

TRAPS: dict[str, TrapAsBuilt | None] = {
    "unknown": None,
    "none": trap(1.0, 0.0),
    "level": trap(0.0, 2.0),
    "good": trap(3.0, 2.0),
    "shallow": trap(2.0, 0.3),
    "deep": trap(3.0, 16.0),
    "kept-full": trap(3.0, 2.0, kept_full_off_season=True),
}
DISCHARGES = {
    "unknown": None,
    "outdoors": Discharge(place="outdoors"),
    "sanitary": Discharge(place="soil-stack", air_gap=False),
    "gapped": Discharge(place="sanitary-line", air_gap=True),
}
FURNACES: dict[str, Furnace | None] = {
    "unknown": None,
    "own": Furnace(fuel_input=80e3 * BTU_H, shares_drain=False, neutralizer="fitted"),
    "shared": Furnace(fuel_input=80e3 * BTU_H, shares_drain=True, neutralizer="missing"),
    "unsaid": Furnace(fuel_input=80e3 * BTU_H),
    "hot": Furnace(fuel_input=80e3 * BTU_H, exhaust_temperature=400.0, shares_drain=True, neutralizer="unknown"),
}
YEARS = {"half": (5, 9), "short-idle": (2, 12), "all-year": (3, 2)}


def expected(held: set[str]) -> dict[str, list[tuple[str, str, str]]]:
    """By the table alone: the rows whose condition holds, season by season."""
    return {
        season: [(row.code, row.check, row.why) for row in CHECKS if season in row.seasons and row.condition in held]
        for season in SEASONS
    }


def rows(answer: Answer[SeasonUpkeep]) -> dict[str, list[tuple[str, str, str]]]:
    return {
        season.season: [(row.code, row.check, row.why) for row in season.checks] for season in answer.results.seasons
    }


def seal_conditions(facts: Facts, months: int, seal: str) -> set[str]:
    """What the trap's water does, judged from the facts and from the drying out asked for by itself."""
    built = facts["trap"]
    if built is None:
        return {"trap-unknown"}
    if built.seal_depth == 0.0:
        return {"no-seal"}
    if built.kept_full_off_season:
        return {"trap-kept-full"}
    if "drain-for-winter" in seal.split():
        return {"drained-trap"}
    sanitary = "sanitary-direct" in seal.split()
    if months == 0 and not sanitary:
        return {"seal-not-followed"}
    dry = dry_out_trap(
        pan_pressure=facts["pan_pressure"] or 0.0,
        outlet_drop=built.outlet_drop,
        seal_depth=built.seal_depth,
        pipe_size="3/4",
        idle_time=facts["idle"] if months else None,
    ).results
    if not dry.holds_when_full or dry.after_idle is None:
        return {"seal-not-followed"}
    if dry.earliest_loss is None or dry.earliest_loss > facts["idle"]:
        return {"seal-lasts"}
    lost = dry.latest_loss is not None and dry.latest_loss <= facts["idle"]
    names = {"seal-lost-by-spring" if lost else "seal-may-be-lost"}
    return names | ({"refill-helps"} if dry.refill_interval and dry.refill_interval >= DAY else set())


COUPLED = list(
    itertools.product(TRAPS, (None, -1.2, 0.5), (None, True, False), DISCHARGES, FURNACES, YEARS, (None, FIVE_TONS))
)
IDLE_DAYS = {"half": 31 + 30 + 31 + 31 + 29 + 31 + 30, "short-idle": 31, "all-year": 0}


def coupled_facts(case: tuple[Any, ...]) -> tuple[Answer[SeasonUpkeep], set[str]]:
    """An answer, and the conditions that hold by the facts; line, pump and protection are unknown."""
    trap_name, inches, can_freeze, place, burner, year, cooling = case
    pressure = None if inches is None else inches * WATER_INCH
    unit: dict[str, Any] = {"trap": TRAPS[trap_name], "discharge": DISCHARGES[place], "cooling": cooling}
    unit |= {"pan_pressure": pressure, "can_freeze": can_freeze}
    unit = {name: value for name, value in unit.items() if value is not None}
    furnace = FURNACES[burner]
    starts, ends = YEARS[year]
    answer = plan_upkeep(unit=unit, furnace=furnace, cooling_starts=starts, cooling_ends=ends)
    idle = IDLE_DAYS[year] * DAY
    condenses = burner in ("own", "shared", "unsaid")
    sanitary = place == "sanitary"
    water_needed = sanitary or trap_name == "kept-full" or burner in ("shared", "unsaid")
    drained = can_freeze is True and idle > 0 and not water_needed
    held = {"always", "cleanout-unknown", "protection-unknown"}
    held |= {"gravity-peak-known"} if cooling else {"gravity-peak-unknown"}
    held |= {"pump-unknown"} if place == "unknown" else set()
    held |= {"pressure-unknown"} if pressure is None else {"pressure-known"}
    held |= {"suction"} if pressure is not None and pressure < 0 else {"no-suction"}
    held |= {
        "unknown": {"discharge-unknown"},
        "outdoors": {"ends-outdoors"},
        "sanitary": {"sanitary-direct"},
        "gapped": set(),
    }[place]
    if can_freeze is None:
        held |= {"frost-unknown"}
    elif can_freeze:
        held |= {"can-freeze", "drain-for-winter" if drained else "frost-and-water"}
    marks = " ".join(held)
    held |= seal_conditions({"trap": TRAPS[trap_name], "pan_pressure": pressure, "idle": idle}, int(idle), marks)
    # by hand: 1.2 in of suction holds water where the drop is 0 or 1 in; a seal of 0.3 in is less than half of it,
    # and less than 0.5 in of pressure
    if pressure is not None and pressure < 0 and trap_name in ("none", "level"):
        held |= {"held-water"}
    if pressure is not None and trap_name == "shallow":
        held |= {"seal-broken"}
    if furnace is None:
        held |= {"furnace-unknown"}
    else:
        held |= {"has-furnace", "furnace-condenses" if condenses else "furnace-stays-dry"}
        held |= {
            "own": {"own-drain", "neutralizer-fitted"},
            "shared": {"neutralizer-missing", "shared-peak-known" if cooling else "shared-peak-unknown"},
            "unsaid": {"sharing-unknown", "neutralizer-unknown"},
            "hot": set(),
        }[burner]
        if burner == "shared" and (can_freeze or (can_freeze is None and place == "outdoors")):
            held |= {"furnace-frost"}
    return answer, held


@pytest.mark.parametrize("trap_name", TRAPS)
@pytest.mark.parametrize("place", DISCHARGES)
def test_a_check_applies_if_and_only_if_its_condition_holds(trap_name: str, place: str) -> None:
    """Trap, pressure, frost, discharge, furnace, months and rate in every combination."""
    for case in COUPLED:
        if (case[0], case[3]) != (trap_name, place) or (case[0] == "unknown" and case[1:2] == (None,) and not case[6]):
            continue
        answer, held = coupled_facts(case)
        assert rows(answer) == expected(held), case
        assert [season.season for season in answer.results.seasons] == list(SEASONS)
        for season in answer.results.seasons:
            assert season.checks
            assert len({row.code for row in season.checks}) == len(season.checks), case
            assert season.minutes == sum(row.minutes for row in season.checks)
        tied = {
            code for season in answer.results.seasons for row in season.checks for code in cautions_of(row, season.high)
        }
        assert set(answer.cautions) == tied | {"local-code"}
        assert len(set(answer.cautions)) == len(answer.cautions)


CLEANOUTS = {
    None: "cleanout-unknown",
    "removable": "cleanout-removable",
    "solvent-welded": "cleanout-welded",
    "none": "no-cleanout",
}
PUMPS = {
    "none": (None, set()),
    "wired": (pump("wired", 9e-4), {"tank-known", "cycles-known", "pump-float-wired"}),
    "no-tank": (pump("unwired", None), {"tank-unknown", "cycles-unknown", "pump-float-to-wire"}),
    "floatless": (pump("none", 9e-4), {"tank-known", "cycles-known", "pump-float-to-wire"}),
    "unknown-float": (pump(None, 9e-4), {"tank-known", "cycles-known", "pump-float-unknown"}),
}
PROTECTIONS: dict[str, tuple[Protection | None, set[str]]] = {
    "unknown": (None, {"protection-unknown"}),
    "none": (Protection(kind="none"), {"protection-none"}),
    "cut-out": (Protection(kind="drain-cut-out", cut_out_depth=0.03), {"cut-out-depth-known"}),
    "pan-cut-out": (Protection(kind="auxiliary-pan-cut-out"), {"cut-out-depth-unknown", "auxiliary-pan"}),
    "secondary": (Protection(kind="secondary-drain"), {"second-way-out"}),
    "pan-drain": (Protection(kind="auxiliary-pan-drain"), {"second-way-out", "auxiliary-pan"}),
    "pan-besides": (
        Protection(kind="none", auxiliary_pan=AuxiliaryPan(area=1.0, depth=0.05)),
        {"protection-none", "auxiliary-pan"},
    ),
}
LINES = {
    "steep": ({"run": 6.0, "fall": 0.2}, set()),
    "level": ({"run": 6.0, "fall": 0.0}, {"line-falls-short"}),
    "hung-wide": ({"run": 6.0, "fall": 0.2, "support_spacing": 2.0}, {"supports-too-wide"}),
}


@pytest.mark.parametrize("cleanout", CLEANOUTS)
@pytest.mark.parametrize("pumped", PUMPS)
def test_line_pump_and_protection_in_every_combination(cleanout: str | None, pumped: str) -> None:
    for stopped, laid, sharing in itertools.product(PROTECTIONS, LINES, (True, False)):
        unit: dict[str, Any] = {"line": LineAsBuilt(cleanout=cleanout, **LINES[laid][0]), "cooling": FIVE_TONS}
        unit |= {"can_freeze": False, "discharge": DISCHARGES["gapped"]}
        if PUMPS[pumped][0]:
            unit["pump"] = PUMPS[pumped][0]
        if PROTECTIONS[stopped][0]:
            unit["overflow_protection"] = PROTECTIONS[stopped][0]
        furnace = FURNACES["shared"] if sharing else None
        held = {"always", "trap-unknown", "pressure-unknown", "no-suction", CLEANOUTS[cleanout]}
        held |= PUMPS[pumped][1] | PROTECTIONS[stopped][1] | LINES[laid][1]
        held |= {"gravity-peak-known"} if pumped == "none" else set()
        if sharing:
            held |= {"has-furnace", "furnace-condenses", "neutralizer-missing", "shared-peak-known"}
            held |= {"acid-into-pump"} if pumped != "none" else set()
        else:
            held |= {"furnace-unknown"}
        answer = plan_upkeep(unit=unit, furnace=furnace)
        assert rows(answer) == expected(held), (stopped, laid, sharing)
        for system in SYSTEMS:
            assert all("{" not in text and text.endswith(".") for text in texts(answer, system))


def test_the_combinations_make_every_condition_hold_at_least_once() -> None:
    """So that no row goes untested: the conditions named above are all there are."""
    coupled = random.Random(1).sample(COUPLED, 800)  # noqa: S311
    seen = set().union(*(coupled_facts(case)[1] for case in coupled if case[0] != "unknown" or case[6]))
    for _, held in (*PUMPS.values(), *PROTECTIONS.values(), *LINES.values()):
        seen |= held
    assert seen | set(CLEANOUTS.values()) | {"acid-into-pump"} == set(CONDITIONS)


@pytest.mark.parametrize("system", SYSTEMS)
def test_every_text_is_complete(system: str) -> None:
    for case in random.Random(2).sample(COUPLED, 500):  # noqa: S311
        answer, _ = coupled_facts(case) if case[0] != "unknown" or case[6] else (plan_upkeep(), set())
        for text in texts(answer, system):
            assert not re.search(r"[{}_]|nan|inf\b|None", text), text
            assert text.endswith(".")
            assert len(text) <= 400


# common practice, no source: what the trade does with such a unit, season by season
def test_an_attic_unit_that_can_freeze_and_feeds_nothing_in_winter_is_drained() -> None:
    unit = {"trap": trap(3, 2), "pan_pressure": -WATER_INCH, "can_freeze": True, "location": "attic"}
    answer = plan_upkeep(unit=unit, furnace=FURNACES["own"], cooling_starts=5, cooling_ends=9)
    assert {"drain-for-winter"} <= set(codes(answer, AUTUMN))
    assert {"keep-seal", "protect-from-frost"}.isdisjoint(codes(answer, AUTUMN))
    assert "refill-trap" not in codes(answer, WINTER)
    assert {"look-after-frost", "fill-trap", "pour-test"} <= set(codes(answer, SPRING))
    assert "heights" in answer.cautions
    assert "seal-lost-before-spring" not in found(answer)


def test_a_drain_that_the_furnace_needs_in_winter_is_not_drained() -> None:
    unit = {"trap": trap(3, 2), "pan_pressure": -WATER_INCH, "can_freeze": True}
    answer = plan_upkeep(unit=unit, furnace=FURNACES["shared"])
    assert "drain-for-winter" not in codes(answer, AUTUMN)
    assert {"protect-from-frost", "fill-furnace-trap", "fit-neutralizer"} <= set(codes(answer, AUTUMN))
    assert {"look-for-ice", "feel-heat-tape", "watch-furnace-water"} <= set(codes(answer, WINTER))
    assert found(answer)["furnace-water-can-freeze"] == "/unit/can_freeze"
    assert found(answer)["acid-water-in-shared-drain"] == "/furnace/neutralizer"
    assert answer.verdict == "attention"


def test_frost_at_an_end_in_the_open_counts_unless_it_is_denied() -> None:
    for can_freeze, told in ((None, True), (False, False)):
        unit: dict[str, Any] = {"discharge": DISCHARGES["outdoors"]}
        unit |= {} if can_freeze is None else {"can_freeze": can_freeze}
        answer = plan_upkeep(unit=unit, furnace=FURNACES["shared"])
        assert ("furnace-water-can-freeze" in found(answer)) is told


def test_an_outlet_drop_that_is_too_small_is_looked_at_in_mid_season() -> None:
    """By hand: 1.2 in of suction less 0.25 in of drop leave 0.95 in of water in the pan."""
    answer = plan_upkeep(unit={"trap": trap(0.25, 2), "pan_pressure": -1.2 * WATER_INCH})
    check, why = text_of(answer, MID_SEASON, "look-for-held-water")
    assert "0.95 in are to be expected" in check
    assert "The outlet drop of 0.25 in is too small for -1.2 inH2O" in why
    assert found(answer)["outlet-drop-too-small"] == "/unit/trap/outlet_drop"
    assert answer.verdict == "fail"


def test_water_that_fills_the_trap_by_hand() -> None:
    """Two legs of 2 in in 3/4 in Schedule 40 PVC (bore 0.824 in, ASTM D1785) and half a ring about the dip.

    Two cylinders 2 x 2 in x 0.5333 in2 = 2.133 in3; the ring by Pappus 0.5333 in2 x pi x 0.412 in = 0.690 in3.
    """
    answer = plan_upkeep(unit={"trap": trap(3, 2), "pan_pressure": -WATER_INCH})
    for season in (SPRING, AUTUMN):
        check, _ = text_of(answer, season, "fill-trap" if season == SPRING else "keep-seal")
        assert "2.82 in3" in check


def test_days_to_dry_out_by_hand() -> None:
    """Stefan tube: x2 / 2a, both legs swept by dry air at 20 degC, 2 in of seal and no pressure.

    a = (D M p / R T rho) ln(p / (p - p_sat)); D = 2.42e-5 m2/s and p_sat = 2339 Pa at 20 degC (handbook values, from
    memory, within 3 %).
    """
    air = AirReading(dry_bulb=293.15, relative_humidity_percent=0.0)
    unit = {
        "trap": trap(2, 2),
        "pan_pressure": 0.0,
        "off_season": OffSeason(unit_side_air=air, outlet_side_air=air, water_temperature=293.15),
    }
    answer = plan_upkeep(unit=unit, cooling_starts=5, cooling_ends=9)
    pressure = 101325.0
    fall = 2.42e-5 * 0.018015 * pressure / (8.314 * 293.15 * 998.2) * math.log(pressure / (pressure - 2339.0))
    days = (2 * INCH) ** 2 / (2 * fall) / DAY
    dry_out = answer.results.days_to_dry_out
    assert dry_out
    assert dry_out.earliest_loss
    assert dry_out.earliest_loss / DAY == pytest.approx(days, rel=0.03)
    assert dry_out.outcome == "lost"
    assert found(answer)["seal-lost-before-spring"] == "/unit/trap/seal_depth"
    check, _ = text_of(answer, WINTER, "refill-trap")
    assert f"every {math.floor(dry_out.earliest_loss / DAY)} days" in check


@settings(max_examples=80, deadline=None)
@given(
    drop=st.floats(0.0, 8.0),
    seal=st.floats(0.01, 12.0),
    inches=st.floats(-3.0, 3.0),
    humidity=st.floats(0.0, 99.0),
    starts=st.integers(1, 12),
    ends=st.integers(1, 12),
    gone=st.none() | st.floats(0.0, 3.0),
)
def test_the_refill_interval_is_never_longer_than_the_earliest_loss(
    drop: float, seal: float, inches: float, humidity: float, starts: int, ends: int, gone: float | None
) -> None:
    """The earliest loss asked for by itself, of the full trap, with swept mouths."""
    air = AirReading(dry_bulb=294.0, relative_humidity_percent=humidity)
    built = trap(drop, seal)
    measured = built if gone is None else replace(built, evaporated_depth=gone * INCH)
    unit = {"trap": measured, "pan_pressure": inches * WATER_INCH, "off_season": OffSeason(unit_side_air=air)}
    answer = plan_upkeep(unit=unit, cooling_starts=starts, cooling_ends=ends)
    alone = dry_out_trap(
        pan_pressure=inches * WATER_INCH,
        outlet_drop=built.outlet_drop,
        seal_depth=built.seal_depth,
        pipe_size="3/4",
        unit_side_air=air,
    ).results
    dry_out = answer.results.days_to_dry_out
    assert dry_out
    assert dry_out.earliest_loss == alone.earliest_loss
    assert dry_out.latest_loss == alone.latest_loss
    if "refill-trap" in codes(answer, WINTER):
        said = re.search(r"every (?:([\d,]+) )?days?,", text_of(answer, WINTER, "refill-trap")[0])
        assert said
        days = int((said[1] or "1").replace(",", ""))
        assert alone.earliest_loss is not None
        assert 1 <= days <= alone.earliest_loss / DAY
        assert dry_out.refill_interval is not None
        assert dry_out.refill_interval <= alone.earliest_loss
    for system in SYSTEMS:
        assert all("{" not in text for text in texts(answer, system))


@settings(max_examples=60, deadline=None)
@given(
    fuel_input=st.floats(100.0, 2e6),
    exhaust=st.none() | st.floats(278.15, 523.15),
    excess=st.none() | st.floats(0.0, 300.0),
    run=st.none() | st.floats(0.0, 1.0),
    tons=st.none() | st.floats(0.3, 200.0),
    together=st.none() | st.booleans(),
)
def test_the_furnace_is_that_of_from_fuel_and_the_shared_drain_carries_the_larger(
    fuel_input: float,
    exhaust: float | None,
    excess: float | None,
    run: float | None,
    tons: float | None,
    together: bool | None,
) -> None:
    burner: dict[str, Any] = {
        "fuel_input": fuel_input,
        "exhaust_temperature": exhaust,
        "excess_air_percent": excess,
        "run_fraction": run,
    }
    furnace = Furnace(**burner, shares_drain=True, runs_with_cooling=together)
    unit: dict[str, Any] = {"pan_pressure": 0.0}
    unit |= {"cooling": Cooling(total_capacity=tons * TON, sensible_heat_ratio=0.7)} if tons else {}
    answer = plan_upkeep(unit=unit, furnace=furnace)
    assert answer.results.furnace_condensate == rate_from_fuel(**burner).results
    shared = answer.results.shared_drain
    assert shared
    assert shared.furnace_peak == answer.results.furnace_condensate.volume_rate
    if not tons:
        assert (shared.coil_peak, shared.carries, shared.peak_flow) == (None, None, None)
        return
    # rated latent capacity over 2465 kJ/kg (1060 Btu/lb), a litre to the kilogram
    coil = 0.3 * tons * TON / (1060 * 2326.0) / 1000.0
    assert shared.coil_peak == pytest.approx(coil, rel=1e-3)
    assert shared.peak_flow is not None
    if together:
        assert shared.carries == "both"
        assert shared.peak_flow == pytest.approx(shared.coil_peak + shared.furnace_peak)
    else:
        assert shared.peak_flow == max(shared.coil_peak, shared.furnace_peak)
        assert shared.carries == ("coil" if shared.coil_peak >= shared.furnace_peak else "furnace")
    assumed = {row.pointer for row in answer.assumptions}
    assert ("/furnace/runs_with_cooling" in assumed) is (together is None)


def test_a_furnace_stands_where_the_unit_does_unless_it_says_otherwise() -> None:
    furnace = Furnace(fuel_input=2e4)
    high = rate_from_fuel(fuel_input=2e4, elevation=1600.0).results
    sea = rate_from_fuel(fuel_input=2e4, station_pressure=101325.0).results
    unit = {"pan_pressure": -100.0, "elevation": 1600.0}
    assert plan_upkeep(unit=unit, furnace=furnace).results.furnace_condensate == high
    given_by_itself = replace(furnace, station_pressure=101325.0)
    assert plan_upkeep(unit=unit, furnace=given_by_itself).results.furnace_condensate == sea


def test_a_shared_drain_too_small_for_both_fails() -> None:
    """By hand: 1.13 gal/h for each 100,000 Btu/h, 70 % of it condensed, is 54 gal/h from 2 MW; the pump moves 37."""
    unit = {"cooling": FIVE_TONS, "pump": pump("wired", 9e-4)}
    furnace = Furnace(fuel_input=2e6, shares_drain=True, neutralizer="fitted")
    answer = plan_upkeep(unit=unit, furnace=furnace)
    shared = answer.results.shared_drain
    assert shared
    assert shared.capacity is not None
    assert shared.peak_flow is not None
    assert shared.capacity < shared.peak_flow
    assert found(answer)["shared-drain-too-small"] == "/furnace/shares_drain"
    assert answer.verdict == "fail"


def test_acid_water_in_a_copper_line_is_told() -> None:
    unit = {"line": LineAsBuilt(material="copper-type-l")}
    answer = plan_upkeep(unit=unit, furnace=FURNACES["shared"])
    assert "acid-water-in-metal-pipe" in found(answer)
    apart = plan_upkeep(unit=unit, furnace=replace(FURNACES["own"], neutralizer="missing"))  # type: ignore[type-var]
    assert "acid-water-not-neutralized" in found(apart)


def test_a_trap_measured_with_water_missing_is_counted_from_full() -> None:
    dried = {"trap": trap(3, 2, evaporated_depth=1.9 * INCH), "pan_pressure": -WATER_INCH}
    full = {"trap": trap(3, 2), "pan_pressure": -WATER_INCH}
    answers = [plan_upkeep(unit=unit) for unit in (dried, full)]
    assert answers[0].results.days_to_dry_out == answers[1].results.days_to_dry_out
    assert "seal-evaporated" in found(answers[0])
    assumed = {row.pointer: row.note for row in answers[0].assumptions}
    assert "from a full trap" in assumed["/unit/trap/evaporated_depth"]


def test_a_seal_with_nothing_to_spare_cannot_be_kept_by_pouring() -> None:
    """By hand: 4 in of suction lift the unit's side 2 in and lower the outlet's by 2 in, to the dip of a 2 in seal."""
    answer = plan_upkeep(unit={"trap": trap(5, 2.0 + 1e-3), "pan_pressure": -4 * WATER_INCH})
    assert "seal-cannot-be-kept-by-pouring" in found(answer)
    assert "refill-trap" not in codes(answer, WINTER)
    assert "keep-seal" in codes(answer, AUTUMN)


def test_a_sanitary_line_fails_and_its_trap_is_never_drained() -> None:
    unit = {"trap": trap(3, 2), "pan_pressure": -WATER_INCH, "can_freeze": True, "discharge": DISCHARGES["sanitary"]}
    answer = plan_upkeep(unit=unit)
    assert {"discharge-into-sanitary", "sanitary-seal-lasts-for"} <= set(found(answer))
    assert "seal-lost-before-spring" not in found(answer)
    assert "drain-for-winter" not in codes(answer, AUTUMN)
    assert {"keep-sewer-gas-out", "refill-trap"} <= set(codes(answer, WINTER))
    assert "sewer-gas" in answer.cautions


def test_a_trap_kept_full_in_the_cold_is_told() -> None:
    answer = plan_upkeep(unit={"trap": TRAPS["kept-full"], "pan_pressure": -WATER_INCH, "can_freeze": True})
    assert found(answer)["full-trap-can-freeze"] == "/unit/trap/kept_full_off_season"
    assert answer.results.days_to_dry_out is None


def test_the_longer_of_two_idle_times_is_used_and_their_difference_told() -> None:
    unit = {"trap": trap(3, 2), "pan_pressure": -WATER_INCH, "off_season": OffSeason(idle_time=60 * DAY)}
    apart = plan_upkeep(unit=unit, cooling_starts=5, cooling_ends=9)
    assert apart.results.idle_time == 213 * DAY
    assert found(apart)["idle-times-differ"] == "/unit/off_season/idle_time"
    alone = plan_upkeep(unit=unit)
    assert alone.results.idle_time == 60 * DAY
    assert "idle-times-differ" not in found(alone)


@pytest.mark.parametrize(("months", "told"), [(0, False), (12, False), (13, True), (600, True), (None, False)])
def test_a_drain_is_cleaned_before_every_season(months: int | None, told: bool) -> None:
    """Common practice, no source."""
    answer = plan_upkeep(last_cleaned=months)
    assert ("cleaning-overdue" in found(answer)) is told
    growth = answer.results.growth_season
    assert (growth.least_months_since is None) is (months is None)


def test_a_contradiction_costs_its_part_only() -> None:
    air = AirReading(dry_bulb=280.0, dew_point=290.0)
    unit = {"trap": trap(3, 2), "pan_pressure": -WATER_INCH, "off_season": OffSeason(unit_side_air=air)}
    answer = plan_upkeep(unit=unit)
    assert found(answer)["dew-point-above-dry-bulb"].startswith("/unit/off_season/unit_side_air")
    assert answer.results.days_to_dry_out is None
    assert "fill-trap" in codes(answer, SPRING)


@pytest.mark.parametrize("name", ["cooling_starts", "cooling_ends", "last_cleaned"])
def test_outside_the_limits_is_refused(name: str) -> None:
    for value in (-1, 601):
        with pytest.raises(OutOfRange):
            plan_upkeep(**{name: value})  # type: ignore[arg-type]
