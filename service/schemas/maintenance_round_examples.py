"""Worked requests of ``maintenance-round``; every unit is invented."""

from typing import Any


def _quantity(value: float, unit: str) -> dict[str, Any]:
    return {"value": value, "unit": unit}


_GOOD_TRAP = {"outlet_drop": _quantity(2.5, "in"), "seal_depth": _quantity(2, "in"), "pipe_size": "3/4"}

_GOOD_LINE = {
    "pipe_size": "3/4",
    "run": _quantity(20, "ft"),
    "fall": _quantity(5, "in"),
    "pan_outlet": "3/4",
    "cleanout": "removable",
    "support_spacing": _quantity(4, "ft"),
}

_GOOD_ACCESS = {
    "union": True,
    "pan_reachable": True,
    "far_end_reachable": True,
    "float_switch": "in-pan",
    "vents": 0,
}

_CUT_OUT = {"kind": "drain-cut-out", "cut_out_depth": _quantity(1, "in")}


def _unit(unit_id: str, **members: Any) -> dict[str, Any]:
    """A unit in good order, but for what is given."""
    good = {
        "unit_id": unit_id,
        "location": "closet",
        "below": "occupied-space",
        "cooling": {"total_capacity": _quantity(3, "ton"), "sensible_heat_ratio": 0.75},
        "pan": {"area": _quantity(3, "ft2"), "depth": _quantity(2, "in")},
        "pan_pressure": _quantity(-0.8, "inH2O"),
        "trap": _GOOD_TRAP,
        "line": _GOOD_LINE,
        "discharge": {"place": "mop-sink", "air_gap": True},
        "overflow_protection": _CUT_OUT,
        "access": _GOOD_ACCESS,
        "months_since_cleaning": 4,
    }
    return {name: value for name, value in {**good, **members}.items() if value is not None}


EXAMPLES: dict[str, Any] = {
    "six-units": {
        "summary": "Six units of one agreement, from running over to in good order, sent the other way round",
        "value": {
            "units": [
                _unit("FC-01"),
                _unit("FC-02", overflow_protection=None, below="finished-ceiling"),
                _unit(
                    "AHU-03",
                    below="finished-ceiling",
                    location="attic",
                    overflow_protection={"kind": "none"},
                    line={**_GOOD_LINE, "fall": _quantity(0, "in"), "cleanout": "solvent-welded"},
                ),
                _unit("FC-04", trap={**_GOOD_TRAP, "outlet_drop": _quantity(0.25, "in")}),
                _unit("RTU-05", location="roof", below="nothing-to-damage", months_since_cleaning=15),
                _unit(
                    "AHU-06",
                    below="electrical-equipment",
                    overflow_protection={"kind": "none"},
                    pan={"area": _quantity(6, "ft2"), "depth": _quantity(2, "in"), "water_depth": _quantity(2, "in")},
                ),
            ],
            "equipment": {
                "brush": {"length": _quantity(5, "ft")},
                "cartridge_gun": {"cartridges": 10, "cartridge_mass": _quantity(16, "g")},
                "cylinder": {"gas": "nitrogen", "full_content": _quantity(40, "ft3")},
                "wet_dry_vacuum": True,
                "jug": True,
                "plugs": 2,
            },
            "minutes_available": 420,
            "technicians": 1,
            "travel_minutes": 10,
        },
    },
    "good-units-si": {
        "summary": "Two units in good order, in SI units, by two technicians",
        "value": {
            "units": [
                _unit(
                    "A-1",
                    cooling={"total_capacity": _quantity(10.5, "kW"), "sensible_heat_ratio": 0.75},
                    pan={"area": _quantity(0.3, "m2"), "depth": _quantity(50, "mm")},
                    pan_pressure=_quantity(-150, "Pa"),
                    trap={"outlet_drop": _quantity(60, "mm"), "seal_depth": _quantity(50, "mm"), "pipe_size": "3/4"},
                    line={**_GOOD_LINE, "run": _quantity(6, "m"), "fall": _quantity(130, "mm")},
                    overflow_protection={"kind": "drain-cut-out", "cut_out_depth": _quantity(25, "mm")},
                ),
                _unit("A-2", below="stored-goods"),
            ],
            "technicians": 2,
        },
    },
    "little-known": {
        "summary": "Three units of which little is known, and one that cannot be read",
        "value": {
            "units": [
                {"unit_id": "1"},
                {"unit_id": "2", "below": "finished-ceiling", "cooling": {"total_capacity": _quantity(5, "ton")}},
                {"unit_id": "3", "pan_presure": _quantity(-0.8, "inH2O")},
                {"unit_id": "4", "location": "attic", "pumped": True, "fouled": ["pump-tank"]},
            ]
        },
    },
}
