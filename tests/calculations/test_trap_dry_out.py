"""Traps that dry out: conservation, limits, invariance, and what is said about it."""

import math
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.integrate import quad

from service.calculations.air_over_trap import OPEN_LEGS
from service.calculations.air_state import AirReading
from service.calculations.trap_check import check_trap
from service.calculations.trap_dry_out import LIMITS, dry_out_trap
from service.calculations.vapour_diffusion import (
    AIR_LIMITS,
    WaterSurface,
    diffusivity,
    fall_coefficient,
    far_vapour_fraction,
    overturns,
)
from service.calculations.water import density
from service.errors import Contradiction, OutOfRange
from service.schemas.writing import fill
from service.tables.findings.catalogue import FINDINGS
from service.tables.pipe_sizes import NOMINAL_SIZES

INCH, INH2O, DAY = 0.0254, 249.08891, 86400.0
ROOM = AirReading(dry_bulb=294.15, relative_humidity_percent=30.0)
WET = AirReading(dry_bulb=300.0, relative_humidity_percent=100.0)
TRAP = {
    "pan_pressure": -INH2O,
    "outlet_drop": 2 * INCH,
    "seal_depth": 2 * INCH,
    "dirty_filter_allowance": 0.0,
    "pipe_size": "3/4",
    "evaporated_depth": 0.0,
    "open_legs": "both",
    "unit_side_air": ROOM,
    "outlet_side_air": ROOM,
    "outlet_side_path": 0.0,
    "water_temperature": 294.15,
    "elevation": 0.0,
}


def ask(**changes):
    return dry_out_trap(**{**TRAP, **changes})


def codes(answer):
    return {finding.code for finding in answer.findings}


def days(**changes):
    results = ask(**changes).results
    return results.earliest_loss / DAY, results.latest_loss / DAY


def pull(air=ROOM, temperature=294.15, pressure=101325.0):
    """(D p M / (R T rho)) ln[(p - p_far) / (p - p_sat)] [m2/s], Antoine's equation for the vapour pressures.

    Antoine's constants for water, 1 to 100 degC, mmHg and degC, are from memory and good to 0.2 %; with the
    enhancement factor left out that makes 1 %.
    """

    def antoine(kelvin):
        return 133.322 * 10.0 ** (8.07131 - 1730.63 / (233.426 + kelvin - 273.15))

    far = air.relative_humidity_percent / 100.0 * antoine(air.dry_bulb)
    spread = 1.87e-10 * temperature**2.072 * 101325.0 / pressure
    carried = spread * pressure * 0.018015 / (8.314462618 * temperature * 998.0)
    return carried * math.log((pressure - far) / (pressure - antoine(temperature)))


def test_swept_and_still_by_hand():
    """Equal legs of 2 in of seal under 1 in of suction: lost 1-1/2 in down.

    Swept, both start at nothing: x^2 / 2a. Still, one column starts at 2 in and the other at nothing; each takes
    half: the integral of 1 / (a/2 (1/(P + x) + 1/x)).
    """
    earliest, latest = days()
    a, end, drop = pull(), 1.5 * INCH, 2 * INCH
    assert earliest == pytest.approx(end**2 / (2 * a) / DAY, rel=0.012)
    still, _ = quad(lambda x: 2.0 / a * (drop + x) * x / (drop + 2 * x), 0.0, end)
    assert latest == pytest.approx(still / DAY, rel=0.012)


def test_one_open_leg_loses_half_as_fast_swept():
    """The level falls in both legs, and only one of two equal areas gives water."""
    both, _ = days()
    unit_side, slowest = days(open_legs="unit-side", outlet_side_air=None, outlet_side_path=None)
    assert unit_side == pytest.approx(2 * both)
    a, end, drop = pull(), 1.5 * INCH, 2 * INCH
    assert slowest == pytest.approx(2 * ((drop + end) ** 2 - drop**2) / (2 * a) / DAY, rel=0.012)
    outlet_side, soon = days(open_legs="outlet-side", unit_side_air=None)
    assert outlet_side == pytest.approx(2 * both)
    assert soon == pytest.approx(outlet_side)  # its mouth is where the water stands


def test_the_bore_of_equal_legs_does_not_matter():
    times = [days(pipe_size=size) for size in NOMINAL_SIZES]
    assert times == [pytest.approx(times[0], rel=1e-12)] * len(NOMINAL_SIZES)
    small, large = (ask(pipe_size=size).results.evaporated_volume for size in ("3/4", "1-1/2"))
    # PVC Schedule 40 (ASTM D1785), bores 0.824 and 1.610 in
    assert small == pytest.approx(2 * math.pi / 4 * (0.824 * INCH) ** 2 * 1.5 * INCH)
    assert large / small == pytest.approx((1.610 / 0.824) ** 2)


def test_a_wider_leg_gives_more_of_the_water():
    """Only the unit side is open: the more of the area it has, the sooner the common level falls."""
    one = {"open_legs": "unit-side", "outlet_side_air": None, "outlet_side_path": None, "pan_pressure": 0.0}
    narrow, _ = days(unit_side_pipe_size="3/4", outlet_side_pipe_size="1", **one)
    equal, _ = days(**one)
    share = 0.824**2 / (0.824**2 + 1.049**2)  # bores of ASTM D1785
    assert narrow == pytest.approx(equal * 0.5 / share)


@settings(max_examples=40)
@given(
    drop=st.floats(0.0, 0.3),
    seal=st.floats(0.01, 0.3),
    path=st.floats(0.0, 5.0),
    percent=st.floats(0.0, 90.0),
    outlet_percent=st.floats(0.0, 90.0),
    sizes=st.tuples(st.sampled_from(NOMINAL_SIZES), st.sampled_from(NOMINAL_SIZES)),
)
def test_the_vapour_that_leaves_is_the_water_that_is_lost(drop, seal, path, percent, outlet_percent, sizes):
    """Integrate the two mass fluxes over the latest time, level by level: they carry off rho x the volume."""
    airs = [AirReading(dry_bulb=294.15, relative_humidity_percent=share) for share in (percent, outlet_percent)]
    results = ask(
        outlet_drop=drop,
        seal_depth=seal,
        pan_pressure=0.0,
        outlet_side_path=path,
        unit_side_air=airs[0],
        outlet_side_air=airs[1],
        unit_side_pipe_size=sizes[0],
        outlet_side_pipe_size=sizes[1],
    ).results
    if results.latest_loss is None:
        return
    bores = {"1/2": 0.622, "3/4": 0.824, "1": 1.049, "1-1/4": 1.380, "1-1/2": 1.610, "2": 2.067}
    areas = [math.pi / 4 * (bores.get(size, 0.0) * INCH) ** 2 for size in sizes]
    if not all(areas):
        return
    rho, temperature, pressure = density(294.15), 294.15, 101325.0
    saturated = results.saturation_vapour_pressure
    far = (results.unit_side_vapour_pressure, results.outlet_side_vapour_pressure)
    conductance = diffusivity(temperature, pressure) * pressure * 0.018015268 / (8.314462618 * temperature)

    def fluxes(fall):  # kg/s leaving both legs
        return sum(
            area * conductance / max(start + fall, 1e-30) * math.log((pressure - vapour) / (pressure - saturated))
            for area, start, vapour in zip(areas, (drop, path), far, strict=True)
        )

    time, _ = quad(lambda fall: rho * sum(areas) / fluxes(fall), 0.0, seal, epsrel=1e-9, limit=200)
    assert results.latest_loss == pytest.approx(time, rel=1e-5)
    assert results.evaporated_volume == pytest.approx(sum(areas) * seal, rel=1e-3)


def test_no_pressure_counts_to_the_dip_and_pressure_takes_the_seal_sooner():
    calm = ask(pan_pressure=0.0).results
    assert calm.loss_level == pytest.approx(-2 * INCH)
    assert (calm.earliest_loss, calm.latest_loss) == (calm.earliest_uncovered, calm.latest_uncovered)
    sucked = ask().results
    assert sucked.loss_level == pytest.approx(-1.5 * INCH)
    assert sucked.earliest_loss == pytest.approx(calm.earliest_loss * (1.5 / 2.0) ** 2)
    assert sucked.earliest_uncovered == calm.earliest_uncovered
    blown = ask(pan_pressure=INH2O).results
    assert blown.earliest_loss == pytest.approx(sucked.earliest_loss)


def test_the_loss_is_the_trap_checks_loss():
    """At the level told, trap-check finds no water left above the dip; a hair less has evaporated, and it holds."""
    level = ask().results.loss_level
    facts = {"pan_pressure": -INH2O, "outlet_drop": 2 * INCH, "seal_depth": 2 * INCH, "pipe_size": "3/4"}
    assert check_trap(**facts, evaporated_depth=-level).results.seal_margin == pytest.approx(0.0, abs=1e-9)


def test_a_bound_on_speed_holds_between_the_bounds():
    """Any mouth between swept and still gives a day between the two."""
    earliest, latest = days(outlet_side_path=1.0)
    for drop, path in ((0.0, 0.0), (0.01, 0.3), (2 * INCH, 0.0)):
        _, between = days(outlet_drop=drop, outlet_side_path=path)
        assert earliest <= between * (1 + 1e-12)
        assert between <= latest


def test_altitude_dries_faster_by_the_thinner_air():
    """a = D p M ln(...) / (R T rho), and D p is constant: only the logarithm grows, as p_sat - p_far over p."""
    sea, _ = days()
    high, _ = days(elevation=None, station_pressure=70e3)
    assert sea / high == pytest.approx(pull(pressure=70e3) / pull(), rel=1e-3)


def test_a_deficit_of_nothing_loses_nothing():
    still_wet = AirReading(dry_bulb=294.15, relative_humidity_percent=100.0)
    answer = ask(unit_side_air=still_wet, outlet_side_air=still_wet, idle_time=200 * DAY)
    results = answer.results
    assert results.earliest_loss is results.latest_loss is results.refill_interval is None
    assert results.after_idle.outcome == "holds"
    assert results.after_idle.most_evaporated_volume == 0.0
    assert results.after_idle.least_seal == pytest.approx(1.5 * INCH)
    assert codes(answer) == {"air-wetter-than-water", "seal-does-not-dry-out"}
    assert answer.verdict == "pass"
    nearly = ask(unit_side_air=replace(still_wet, relative_humidity_percent=99.999), outlet_side_air=still_wet)
    assert nearly.results.earliest_loss is None  # ten years and more
    assert "seal-does-not-dry-out" in codes(nearly)


def test_condensation_on_one_side_is_not_counted_on():
    earliest, latest = days(outlet_side_air=WET)
    assert (earliest, latest) == pytest.approx(
        days(open_legs="unit-side", outlet_side_air=None, outlet_side_path=None), rel=1e-12
    )
    (finding,) = (row for row in ask(outlet_side_air=WET).findings if row.code == "air-wetter-than-water")
    assert finding.pointer == "/outlet_side_air"


@pytest.mark.parametrize(("seal", "drop"), [(1.0, 1.5), (1.0, 0.0), (0.002, 1.5)])
def test_from_a_lip_to_a_huge_depth(seal, drop):
    results = ask(seal_depth=seal, outlet_drop=drop, pan_pressure=0.0).results
    a = pull()
    expected = seal**2 / (2 * a)
    if expected > 3650 * DAY:
        assert results.earliest_loss is None
    else:
        assert results.earliest_loss == pytest.approx(expected, rel=0.012)


def test_the_idle_season():
    """Lost after 27 to 57 days: a month holds only in still air, three months not at all, three weeks surely."""
    earliest, latest = days()
    outcomes = {
        0.5 * earliest: ("holds", set()),
        0.5 * (earliest + latest): ("uncertain", {"seal-may-dry-out", "deeper-seal-lasts"}),
        1.5 * latest: ("lost", {"seal-dries-out", "deeper-seal-lasts"}),
    }
    for idle, (outcome, expected) in outcomes.items():
        answer = ask(idle_time=idle * DAY)
        assert answer.results.after_idle.outcome == outcome
        assert codes(answer) - {"air-overturns-in-trap"} == expected


def test_what_is_left_at_the_very_day_of_the_loss_is_nothing():
    earliest, latest = days()
    assert ask(idle_time=earliest * DAY).results.after_idle.least_seal == pytest.approx(0.0, abs=1e-9)
    after = ask(idle_time=latest * DAY).results.after_idle
    assert after.most_seal == pytest.approx(0.0, abs=1e-9)
    assert after.least_evaporated_volume == pytest.approx(ask().results.evaporated_volume)


def test_a_seal_of_the_depth_named_lasts_the_season():
    for pressure in (-INH2O, 0.0, INH2O):
        depth = ask(pan_pressure=pressure, idle_time=150 * DAY).results.lasting_seal_depth
        rebuilt = ask(pan_pressure=pressure, seal_depth=depth, idle_time=150 * DAY).results
        assert rebuilt.earliest_loss / DAY == pytest.approx(150.0)
        assert rebuilt.after_idle.outcome == "holds"
    unequal = {"unit_side_pipe_size": "1", "outlet_side_pipe_size": "1-1/2", "idle_time": 90 * DAY}
    depth = ask(**unequal).results.lasting_seal_depth
    assert ask(**unequal, seal_depth=depth).results.earliest_loss / DAY == pytest.approx(90.0)


def test_refilling_at_the_interval_keeps_the_seal():
    results = ask(evaporated_depth=INCH).results
    interval = results.refill_interval
    assert interval / DAY == pytest.approx(days()[0])  # counted from full
    assert ask(idle_time=0.999 * interval).results.after_idle.outcome == "holds"


CASES = [
    ({}, {"seal-lasts-for"}),
    ({"seal_depth": 0.0}, {"trap-without-seal"}),
    ({"evaporated_depth": 1.6 * INCH}, {"seal-dry-from-start"}),
    ({"evaporated_depth": 1.5 * INCH}, {"seal-lasts-for"}),  # at the last moment it still holds
    ({"evaporated_depth": 5 * INCH}, {"seal-dry-from-start"}),
    ({"pan_pressure": -4.1 * INH2O, "outlet_drop": 0.2}, {"seal-fails-when-full"}),
    ({"pan_pressure": 2.1 * INH2O}, {"seal-fails-when-full"}),
    ({"pipe_size": "1/2"}, {"trap-pipe-too-small", "seal-lasts-for"}),
    ({"pan_pressure": 0.0}, {"pan-without-pressure", "seal-lasts-for"}),
    ({"open_legs": "unit-side"}, {"closed-leg-facts-not-used", "seal-lasts-for"}),
    ({"open_legs": "outlet-side"}, {"closed-leg-facts-not-used", "seal-lasts-for"}),
    ({"outlet_side_air": WET}, {"air-wetter-than-water", "seal-lasts-for"}),
    ({"idle_time": 700 * DAY}, {"seal-dries-out", "deeper-seal-lasts"}),
    # a swept trap that lasts two years in bone-dry air at 60 degC would be more than a foot deep
    (
        {
            "idle_time": 700 * DAY,
            "water_temperature": 333.0,
            "unit_side_air": AirReading(dry_bulb=333.0, relative_humidity_percent=0.0),
        },
        {"seal-dries-out"},
    ),
    (
        {"unit_side_air": AirReading(dry_bulb=284.0, dew_point=284.9)},
        {"air-taken-as-saturated", "seal-lasts-for"},
    ),
]


@pytest.mark.parametrize(("changes", "expected"), CASES)
def test_findings(changes, expected):
    assert codes(ask(**changes)) - {"air-overturns-in-trap"} == expected


def test_moist_air_overturns_in_wide_legs_only():
    """3/4 in keeps the air of a warm room still over 3-1/2 in, 2 in does not; cool water under warm air always does."""
    assert "air-overturns-in-trap" not in codes(ask(outlet_side_path=0.3))
    assert "air-overturns-in-trap" in codes(ask(outlet_side_path=0.3, pipe_size="2"))
    warm = AirReading(dry_bulb=303.15, relative_humidity_percent=20.0)
    assert "air-overturns-in-trap" not in codes(ask(unit_side_air=warm, outlet_side_air=warm, pipe_size="2"))


def test_overturning_by_hand():
    """Dry air over water at 20 degC: 0.378 x 23.4 / 1013 = 0.88 % lighter; nu 1.5e-5, D 2.42e-5 m2/s (textbook).

    On a radius of 10.5 mm and 100 mm of height: 9.81 x 0.0088 x 0.0105^4 / (1.5e-5 x 2.42e-5 x 0.1) = 29 < 68;
    with 20 mm of radius 13 times as much.
    """
    surface = WaterSurface(temperature=293.15, pressure=101325.0)
    facts = {"air_temperature": 293.15, "far_fraction": 0.0, "path": 0.1}
    assert not overturns(surface, bore=0.021, **facts)
    assert overturns(surface, bore=0.040, **facts)
    # too short a column to turn over in: 9.81 x 0.0088 x 0.015^3 / 3.6e-10 = 810 < 1101
    assert not overturns(surface, bore=0.040, **{**facts, "path": 0.015})


def test_only_defaults_that_enter_are_assumed():
    def pointers(**changes):
        return [row.pointer for row in ask(**changes).assumptions]

    assert pointers() == []
    nothing = dict.fromkeys(
        (
            "dirty_filter_allowance",
            "pipe_size",
            "evaporated_depth",
            "open_legs",
            "unit_side_air",
            "outlet_side_air",
            "outlet_side_path",
            "water_temperature",
            "elevation",
        )
    )
    assert pointers(**nothing) == [
        "/dirty_filter_allowance",
        "/pipe_size",
        "/evaporated_depth",
        "/elevation",
        "/open_legs",
        "/unit_side_air/dry_bulb",
        "/unit_side_air/relative_humidity_percent",
        "/outlet_side_air",
        "/outlet_side_path",
        "/water_temperature",
    ]
    outlet_only = pointers(open_legs="outlet-side", outlet_side_air=None, unit_side_air=None, water_temperature=None)
    assert outlet_only == [
        "/outlet_side_air/dry_bulb",
        "/outlet_side_air/relative_humidity_percent",
        "/water_temperature",
    ]
    # 4 in of suction on 3 in of seal and 1/2 in of drop: the fan lifts water into the pan before the seal is lost
    assert pointers(pan_pressure=-4 * INH2O, outlet_drop=0.5 * INCH, seal_depth=3 * INCH) == ["/pan_area", "/pan_depth"]
    assert pointers(pan_pressure=-4 * INH2O, outlet_drop=INCH, seal_depth=3 * INCH) == []


def test_air_below_freezing_means_water_about_to_freeze():
    answer = ask(unit_side_air=AirReading(dry_bulb=268.0, relative_humidity_percent=80.0), water_temperature=None)
    (row,) = answer.assumptions
    assert row.value == 273.16
    assert "freezing" in answer.cautions


def test_a_dew_point_above_the_dry_bulb_is_a_contradiction_beyond_what_instruments_err():
    for side in ("unit_side_air", "outlet_side_air"):
        with pytest.raises(Contradiction) as fault:
            ask(**{side: AirReading(dry_bulb=283.15, dew_point=285.15)})
        assert (fault.value.code, fault.value.pointer) == ("dew-point-above-dry-bulb", f"/{side}/dew_point")


@pytest.mark.parametrize("name", LIMITS)
def test_outside_its_limits_an_argument_is_refused(name):
    for value in (LIMITS[name].low - 1.0, LIMITS[name].high + 1.0, math.nan):
        with pytest.raises(OutOfRange):
            ask(**{name: value})


def test_water_near_boiling_is_refused():
    """At 81 degC water boils under 50 kPa (steam tables): the logarithm has no end there, and nothing comes near."""
    assert LIMITS["water_temperature"].high < 354.0 - 20.0
    with pytest.raises(OutOfRange):
        ask(water_temperature=350.0, elevation=None, station_pressure=50e3)
    hottest = WaterSurface(temperature=LIMITS["water_temperature"].high, pressure=LIMITS["station_pressure"].low)
    assert math.isfinite(fall_coefficient(hottest, 0.0))


@pytest.mark.parametrize("name", AIR_LIMITS)
def test_air_outside_its_limits_is_refused(name):
    for value in (AIR_LIMITS[name].low - 1.0, AIR_LIMITS[name].high + 1.0):
        fields = {"dry_bulb": 294.0, "relative_humidity_percent": None, "dew_point": None, name: value}
        if name == "dry_bulb":
            fields["relative_humidity_percent"] = 50.0
        with pytest.raises(OutOfRange):
            ask(unit_side_air=AirReading(**fields))


def test_dew_point_and_humidity_tell_the_same_air():
    # 21 degC and 9.1 degC dew point is about 46.6 % (psychrometric chart); either reading holds the same vapour
    by_dew_point = far_vapour_fraction(
        AirReading(dry_bulb=294.15, dew_point=282.25), pressure=101325.0, pointer="", findings=[]
    )
    by_humidity = far_vapour_fraction(
        AirReading(dry_bulb=294.15, relative_humidity_percent=46.6), pressure=101325.0, pointer="", findings=[]
    )
    assert by_dew_point == pytest.approx(by_humidity, rel=0.01)


def strategy(name, limits=LIMITS):
    limit = limits[name]
    return st.one_of(st.sampled_from([limit.low, limit.high]), st.floats(limit.low, limit.high))


AIRS = st.one_of(
    st.builds(
        AirReading,
        dry_bulb=strategy("dry_bulb", AIR_LIMITS),
        relative_humidity_percent=strategy("relative_humidity_percent", AIR_LIMITS),
    ),
    st.builds(AirReading, dry_bulb=st.floats(293.15, 333.15), dew_point=strategy("dew_point", AIR_LIMITS)),
)
PLACE = st.one_of(
    st.just({}),
    st.fixed_dictionaries({"elevation": strategy("elevation")}),
    st.fixed_dictionaries({"station_pressure": strategy("station_pressure")}),
)
OPTIONAL = {
    **{
        name: strategy(name)
        for name in LIMITS
        if name not in ("pan_pressure", "outlet_drop", "seal_depth", "elevation", "station_pressure")
    },
    "unit_side_air": AIRS,
    "outlet_side_air": AIRS,
    "open_legs": st.sampled_from(OPEN_LEGS),
    **{f"{leg}pipe_size": st.sampled_from(NOMINAL_SIZES) for leg in ("", "unit_side_", "outlet_side_")},
}
REQUESTS = st.builds(
    lambda facts, place: {**facts, **place},
    st.fixed_dictionaries(
        {name: strategy(name) for name in ("pan_pressure", "outlet_drop", "seal_depth")}, optional=OPTIONAL
    ),
    PLACE,
)


def numbers(part):
    for name in part.__slots__:
        value = getattr(part, name)
        if hasattr(value, "__slots__"):
            yield from numbers(value)
        elif isinstance(value, float):
            yield value


@settings(max_examples=300)
@given(REQUESTS)
def test_every_request_is_answered_with_finite_numbers_and_whole_sentences(request):
    answer = dry_out_trap(**request)
    results = answer.results
    assert all(math.isfinite(value) for value in numbers(results))
    for early, late in (
        (results.earliest_loss, results.latest_loss),
        (results.earliest_uncovered, results.latest_uncovered),
        (results.earliest_loss, results.earliest_uncovered),
    ):
        assert late is None or (early is not None and 0.0 <= early <= late * (1 + 1e-6) + 1e-3)
    after = results.after_idle
    if after:
        assert after.least_seal <= after.most_seal + 1e-9
        assert 0.0 <= after.least_evaporated_volume <= after.most_evaporated_volume + 1e-12
    for finding in answer.findings:
        row = FINDINGS[finding.code]
        for system in ("us", "si"):
            sentence = fill(row.message, finding.values, system) + fill(row.remedy, finding.values, system)
            assert "inf" not in sentence
            assert "nan" not in sentence
            assert " -" not in sentence


@given(st.floats(0.001, 0.5), st.floats(0.0, 0.5), st.floats(0.0, 95.0), st.floats(0.5, 5.0))
def test_deeper_wetter_and_longer_columns_last_longer(seal, drop, percent, more):
    air = AirReading(dry_bulb=294.15, relative_humidity_percent=percent)
    facts = {"seal_depth": seal, "outlet_drop": drop, "unit_side_air": air, "outlet_side_air": air, "pan_pressure": 0.0}

    def latest(**changes):
        found = ask(**{**facts, **changes}).results.latest_loss
        return math.inf if found is None else found

    wetter = AirReading(dry_bulb=294.15, relative_humidity_percent=percent + more)
    base = latest()
    assert latest(seal_depth=seal * 1.1) >= base
    assert latest(outlet_drop=drop + 0.01) >= base * (1 - 1e-9)
    assert latest(outlet_side_path=0.1) >= base * (1 - 1e-9)
    assert latest(unit_side_air=wetter) >= base * (1 - 1e-9)


def test_a_season_longer_than_the_loss_is_not_outlasted_by_a_seal_without_pressure():
    """With no pressure only the dip counts: what has dried out below it holds nothing, however long it has been dry."""
    facts = {"pan_pressure": 0.0, "seal_depth": 2 * INCH, "outlet_drop": 3 * INCH}
    dry = ask(**facts).results
    early, late = dry.earliest_loss, dry.latest_loss
    for idle, outcome in (
        (0.99 * early, "holds"),
        (1.01 * early, "uncertain"),
        (0.99 * late, "uncertain"),
        (1.01 * late, "lost"),
        (10 * late, "lost"),
    ):
        answer = ask(**facts, idle_time=min(idle, LIMITS["idle_time"].high))
        assert answer.results.after_idle.outcome == outcome
        assert ("seal-dries-out" in codes(answer)) is (outcome == "lost")
