"""Traps against an independent model that moves water in small parcels, and pint's column of water."""

import math

import pint
import pytest

from service.calculations.trap_water import Trap, head, trap_states

INCH = 0.0254
SMALLEST_PARCEL = 1e-9  # cubic inches; the levels are known to some 1e-8 in


def test_a_column_of_water_is_pints_conventional_one():
    """pint's centimeter_H2O is a centimetre of conventional water under standard gravity; tolerance double rounding."""
    pressure = pint.UnitRegistry().Quantity(1.0, "centimeter_H2O").to("Pa").magnitude
    assert head(pressure) == pytest.approx(0.01, rel=1e-14)


class Parcels:
    """A trap as two vessels that exchange parcels of water until nothing moves.

    Nothing is solved: a parcel goes to the side that lacks it, the smaller the less is lacking; water above the
    outlet invert is thrown away; a side that is empty down to the dip gives none. Lengths in inches, pressures in
    inches of water.
    """

    def __init__(self, *, drop, seal, unit_area, outlet_area, pan_area):
        self.drop, self.seal = drop, seal
        self.unit_area, self.outlet_area, self.pan_area = unit_area, outlet_area, pan_area
        self.unit = unit_area * (min(0.0, drop) + seal) + pan_area * max(-drop, 0.0)
        self.outlet = outlet_area * seal
        self.spilled = 0.0

    def unit_level(self):
        leg = self.unit_area * (self.drop + self.seal)
        if self.unit <= leg:
            return -self.seal + self.unit / self.unit_area
        return self.drop + (self.unit - leg) / self.pan_area

    def outlet_level(self):
        return -self.seal + self.outlet / self.outlet_area

    def settle(self, suction):
        while True:
            pull = suction - (self.unit_level() - self.outlet_level())
            parcel = 0.1 * abs(pull) * min(self.unit_area, self.outlet_area)
            parcel = min(parcel, self.outlet if pull > 0.0 else self.unit)
            if parcel < SMALLEST_PARCEL:
                return
            self.unit += math.copysign(parcel, pull)
            self.outlet -= math.copysign(parcel, pull)
            surplus = max(self.outlet - self.outlet_area * self.seal, 0.0)
            self.outlet, self.spilled = self.outlet - surplus, self.spilled + surplus


CASES = [
    # drop, seal, unit-side bore, outlet-side bore, pan area, suction: inches and square inches
    (2.7, 1.35, 0.824, 0.824, 300.0, 1.7),
    (0.25, 3.0, 0.824, 0.824, 300.0, 1.2),
    (0.25, 3.0, 1.049, 0.824, 40.0, 2.5),
    (3.0, 2.0, 0.824, 1.380, 300.0, 2.0),
    (5.0, 1.0, 0.824, 0.824, 300.0, 4.0),
    (-0.5, 2.0, 0.824, 0.824, 60.0, 1.0),
    (0.5, 1.7, 0.824, 0.824, 300.0, -1.2),
    (0.5, 1.7, 1.380, 0.824, 300.0, -1.2),
    (0.5, 0.8, 0.824, 1.049, 300.0, -2.0),
    (1.0, 1.0, 0.824, 0.824, 300.0, 0.0),
]


@pytest.mark.parametrize(("drop", "seal", "unit_bore", "outlet_bore", "pan_area", "suction"), CASES)
def test_start_up_and_fan_stop_agree_with_parcels_of_water(drop, seal, unit_bore, outlet_bore, pan_area, suction):
    trap = Trap(
        outlet_drop=drop * INCH,
        seal_depth=seal * INCH,
        unit_side_bore=unit_bore * INCH,
        outlet_side_bore=outlet_bore * INCH,
        pan_area=pan_area * INCH**2,
    )
    _, start_up, running, stopped = trap_states(trap, -suction * 249.08891)
    parcels = Parcels(
        drop=drop,
        seal=seal,
        unit_area=math.pi / 4 * unit_bore**2,
        outlet_area=math.pi / 4 * outlet_bore**2,
        pan_area=pan_area,
    )
    parcels.settle(suction)
    assert start_up.unit_side_level / INCH == pytest.approx(parcels.unit_level(), abs=1e-7)
    assert start_up.outlet_side_level / INCH == pytest.approx(parcels.outlet_level(), abs=1e-7)
    assert start_up.water_spilled / INCH**3 == pytest.approx(parcels.spilled, abs=1e-7)
    if suction < 0.0 or running.water_added == 0.0:
        # nothing arrives before the fan stops: the same water settles without the pressure
        parcels.settle(0.0)
        assert stopped.unit_side_level / INCH == pytest.approx(parcels.unit_level(), abs=1e-7)
        assert stopped.outlet_side_level / INCH == pytest.approx(parcels.outlet_level(), abs=1e-7)
