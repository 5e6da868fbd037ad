"""Gas for a drain: by hand, in proportion, and how many drains it will do."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from service.calculations.cleaning_gas import gas_per_drain, use_gas
from service.calculations.gas import ATMOSPHERE
from service.calculations.gas_supply import GAS_LIMITS, CartridgeGun, Cylinder
from service.tables.gases import GASES, NITROGEN

FOOT, INCH = 0.3048, 0.0254
# 3/4 in PVC Schedule 40 of 0.824 in bore (ASTM D1785), 20 ft: pi/4 x 0.824^2 x 240 = 127.98 in3 = 2.0973 L
VOLUME = math.pi / 4 * (0.824 * INCH) ** 2 * 20 * FOOT


def use(volume=VOLUME, *, cylinder=None, gun=None, pressure=None, sweeps=None, temperature=None):
    found, assumptions = use_gas(
        volume=volume,
        cylinder=cylinder,
        cartridge_gun=gun,
        working_pressure=pressure,
        sweeps=sweeps,
        gas_temperature=temperature,
    )
    return found, [assumption.pointer for assumption in assumptions]


def test_without_gas_there_is_no_answer_and_no_assumption():
    assert use() == (None, [])


def test_gas_for_a_line_by_hand():
    # 30 psi over 14.696 psi is 2.0414 line volumes more, and two sweeps: 4.0414 x 2.0973 L = 8.476 L
    assert pytest.approx(2.0973, rel=1e-4) == VOLUME * 1e3
    found, _ = use(cylinder=Cylinder())
    assert found.cylinder.gas_per_drain * 1e3 == pytest.approx(8.476, rel=2e-3)
    assert found.cylinder.choked  # 14.7 of 44.7 psia is 0.329, below 0.528


def test_a_cylinder_by_hand():
    # 40 ft3 of free gas at 2200 psi gauge; at 1100 psi, nearly ideal, half of it: 20 ft3; 30 psi stay in it
    found, pointers = use(
        cylinder=Cylinder(
            gas="nitrogen",
            full_content=40 * FOOT**3,
            full_pressure=2200 * 6894.757,
            pressure=1100 * 6894.757,
            nozzle_bore=0.003,
            discharge_coefficient=0.8,
        ),
        pressure=30 * 6894.757,
        sweeps=2.0,
        temperature=293.15,
    )
    cylinder = found.cylinder
    assert cylinder.content / FOOT**3 == pytest.approx(20.0, rel=0.04)  # Z is 1.00 there and 1.02 when full
    assert cylinder.content / FOOT**3 > 20.0
    assert (cylinder.content - cylinder.usable_content) / FOOT**3 == pytest.approx(40 * 44.7 / 2214.7, rel=0.03)
    assert cylinder.drains == int(cylinder.usable_content / cylinder.gas_per_drain)
    assert pointers == []


def test_a_cylinder_named_by_its_water_volume_agrees_with_one_named_by_its_content():
    named, _ = use(cylinder=Cylinder(full_content=1.0, full_pressure=15e6, pressure=15e6))
    # the ideal water volume is content x p_atm / p; 2 % of Z more
    by_volume, _ = use(cylinder=Cylinder(internal_volume=1.0 * ATMOSPHERE / 15.1e6 * 1.02, pressure=15e6))
    assert named.cylinder.content == pytest.approx(1.0, rel=1e-9)
    assert by_volume.cylinder.content == pytest.approx(1.0, rel=3e-3)


def test_an_empty_cylinder_gives_nothing():
    for pressure in (0.0, 1e5, 30 * 6894.757):
        found, _ = use(cylinder=Cylinder(internal_volume=0.01, pressure=pressure))
        assert found.cylinder.usable_content == 0.0
        assert found.cylinder.drains == 0


def test_cartridges_by_hand():
    # one 16 g cartridge is 8.70 L at 20 degC; a drain of 8.5 L takes 0.98 of it: one drain a cartridge, not two
    found, pointers = use(gun=CartridgeGun(cartridges=10, cartridge_mass=0.016))
    cartridges = found.cartridges
    assert cartridges.cartridges_per_drain == pytest.approx(8.53 / 8.70, rel=5e-3)
    assert (cartridges.drains, cartridges.drains_by_rule, cartridges.cartridges_for_this_drain) == (10, 20, 1)
    # the rule of two drains holds for half that line: 10 ft
    half, _ = use(VOLUME / 2, gun=CartridgeGun(cartridges=10, cartridge_mass=0.016))
    assert half.cartridges.drains == 20
    # and half as long again takes two each
    longer, _ = use(VOLUME * 1.5, gun=CartridgeGun(cartridges=9, cartridge_mass=0.016))
    assert (longer.cartridges.cartridges_for_this_drain, longer.cartridges.drains) == (2, 4)
    assert pointers == ["/working_pressure", "/sweeps", "/gas_temperature"]


def test_a_whole_cartridge_bursts_a_short_line_that_is_blocked():
    # 8.70 L let into 2.0973 L that hold: (1 + 8.70/2.0973) atm absolute is 61 psi gauge, twice the 30 allowed
    found, _ = use(gun=CartridgeGun(cartridges=1))
    assert found.cartridges.share_into_blocked_line == pytest.approx(30 / 61, rel=0.02)


def test_every_default_that_enters_is_recorded_and_no_other():
    _, pointers = use(cylinder=Cylinder(), gun=CartridgeGun())
    at = "/equipment/cylinder"
    assert pointers == [
        "/working_pressure",
        "/sweeps",
        "/gas_temperature",
        f"{at}/gas",
        f"{at}/full_pressure",
        f"{at}/full_content",
        f"{at}/pressure",
        f"{at}/nozzle_bore",
        f"{at}/discharge_coefficient",
        "/equipment/cartridge_gun/cartridges",
        "/equipment/cartridge_gun/cartridge_mass",
    ]
    carbon, pointers = use(cylinder=Cylinder(gas="carbon-dioxide", pressure=5e6))
    assert f"{at}/content" in pointers
    assert not {f"{at}/full_pressure", f"{at}/full_content", f"{at}/pressure"} & set(pointers)
    # 5 lb, 2268 g: 2268/44.01 x 24.05 L less half a percent = 1233 L
    assert carbon.cylinder.content * 1e3 == pytest.approx(1233, rel=2e-3)
    _, pointers = use(cylinder=Cylinder(internal_volume=0.01, pressure=1e7))
    assert f"{at}/full_pressure" not in pointers


def within(name):
    limit = GAS_LIMITS[name]
    return st.floats(limit.low, limit.high)


CYLINDERS = st.builds(
    Cylinder,
    gas=st.none() | st.sampled_from(sorted(GASES)),
    **{
        name: st.none() | within(name)
        for name in (
            "internal_volume",
            "full_content",
            "full_pressure",
            "pressure",
            "content",
            "nozzle_bore",
            "discharge_coefficient",
        )
    },
)
GUNS = st.builds(CartridgeGun, cartridges=st.none() | st.integers(0, 10_000), cartridge_mass=within("cartridge_mass"))


@given(
    st.floats(1e-5, 3.0),
    CYLINDERS,
    GUNS,
    within("working_pressure"),
    within("sweeps"),
    within("gas_temperature"),
    st.floats(1.0, 5.0),
)
def test_more_line_takes_more_gas_and_fewer_drains(volume, cylinder, gun, pressure, sweeps, temperature, more):
    small, _ = use(volume, cylinder=cylinder, gun=gun, pressure=pressure, sweeps=sweeps, temperature=temperature)
    large, _ = use(volume * more, cylinder=cylinder, gun=gun, pressure=pressure, sweeps=sweeps, temperature=temperature)
    for found in (small, large):
        cylinder_use, cartridges = found.cylinder, found.cartridges
        assert 0.0 <= cylinder_use.usable_content <= cylinder_use.content < math.inf
        assert cylinder_use.drains * cylinder_use.gas_per_drain <= cylinder_use.usable_content * (1 + 1e-9)
        assert cartridges.drains * min(cartridges.cartridges_per_drain, 1) <= cartridges.cartridges * (1 + 1e-9)
        assert cartridges.cartridges_for_this_drain >= cartridges.cartridges_per_drain * (1 - 1e-9)
        assert 0.0 < cylinder_use.time_to_pressure < math.inf
        assert cylinder_use.nozzle_mass_flow > 0.0
    assert large.cylinder.gas_per_drain == pytest.approx(more * small.cylinder.gas_per_drain, rel=1e-9)
    assert large.cylinder.time_to_pressure == pytest.approx(more * small.cylinder.time_to_pressure, rel=1e-9)
    assert large.cylinder.drains <= small.cylinder.drains
    assert large.cartridges.drains <= small.cartridges.drains


@given(within("working_pressure"), within("sweeps"), st.floats(0.0, 1.0))
def test_less_pressure_and_fewer_sweeps_take_less(pressure, sweeps, share):
    whole = gas_per_drain(NITROGEN, 1e-3, pressure, sweeps, 293.15)
    assert gas_per_drain(NITROGEN, 1e-3, share * pressure, sweeps, 293.15) <= whole + 1e-15
    assert gas_per_drain(NITROGEN, 1e-3, pressure, share * sweeps, 293.15) <= whole + 1e-15
