"""Worked requests of ``cleaning-plan``; every installation is invented."""

from typing import Any

EXAMPLES: dict[str, Any] = {
    "closet-unit": {
        "summary": "A closet unit with good access; the far end hangs in reach and the vacuum does it",
        "value": {
            "unit_id": "FC-07",
            "location": "closet",
            "access": {
                "union": True,
                "pan_reachable": True,
                "far_end_reachable": True,
                "float_switch": "in-pan",
                "vents": 1,
            },
            "fouled": ["line", "trap", "pan"],
            "trap": {
                "outlet_drop": {"value": 2, "unit": "in"},
                "seal_depth": {"value": 2, "unit": "in"},
                "pipe_size": "3/4",
            },
            "line": {
                "pipe_size": "3/4",
                "material": "pvc-schedule-40",
                "run": {"value": 24, "unit": "ft"},
                "fall": {"value": 6, "unit": "in"},
                "cleanout": "removable",
            },
            "discharge": {"place": "mop-sink", "air_gap": True},
            "peak_flow": {"value": 1.6, "unit": "gal/h"},
            "equipment": {
                "brush": {"length": {"value": 5, "unit": "ft"}},
                "cartridge_gun": {"cartridges": 10, "cartridge_mass": {"value": 16, "unit": "g"}},
                "wet_dry_vacuum": True,
                "jug": True,
                "plugs": 2,
            },
        },
    },
    "attic-unit-pushed": {
        "summary": "An attic unit whose far end nobody can reach: regulated nitrogen at the union, and how far it goes",
        "value": {
            "unit_id": "AHU-3",
            "location": "attic",
            "access": {
                "union": True,
                "pan_reachable": True,
                "far_end_reachable": False,
                "float_switch": "in-drain",
                "vents": 1,
            },
            "line": {
                "pipe_size": "3/4",
                "run": {"value": 32, "unit": "ft"},
                "fall": {"value": 4, "unit": "in"},
                "cleanout": "solvent-welded",
            },
            "discharge": {"place": "outdoors"},
            "peak_flow": {"value": 3.6, "unit": "gal/h"},
            "equipment": {
                "brush": {},
                "cylinder": {
                    "gas": "nitrogen",
                    "full_content": {"value": 40, "unit": "ft3"},
                    "pressure": {"value": 1400, "unit": "psi"},
                },
                "cartridge_gun": {"cartridges": 4},
                "jug": True,
                "plugs": 2,
            },
        },
    },
    "no-way-in": {
        "summary": "A drain without cleanout, union or a pan in reach, hard piped into a sanitary line",
        "value": {
            "location": "above-ceiling",
            "access": {
                "union": False,
                "pan_reachable": False,
                "far_end_reachable": False,
                "float_switch": "none",
                "vents": 0,
            },
            "line": {"pipe_size": "1", "run": {"value": 40, "unit": "ft"}, "cleanout": "none"},
            "discharge": {"place": "sanitary-line", "air_gap": False},
            "equipment": {"brush": {"length": {"value": 25, "unit": "ft"}}, "cartridge_gun": {"cartridges": 6}},
        },
    },
    "pumped-unit-si": {
        "summary": "A pumped unit in SI units: line, tank and tube fouled",
        "value": {
            "unit_id": "FC-12",
            "location": "mechanical-room",
            "access": {
                "union": False,
                "pan_reachable": True,
                "far_end_reachable": True,
                "float_switch": "none",
                "vents": 0,
            },
            "fouled": ["line", "trap", "pump-tank", "pump-tube"],
            "trap": {
                "outlet_drop": {"value": 50, "unit": "mm"},
                "seal_depth": {"value": 40, "unit": "mm"},
                "pipe_size": "3/4",
            },
            "line": {
                "pipe_size": "3/4",
                "run": {"value": 1.2, "unit": "m"},
                "fall": {"value": 25, "unit": "mm"},
                "cleanout": "removable",
            },
            "pump": {
                "lift": {"value": 2.7, "unit": "m"},
                "tube": {
                    "bore": {"value": 9.5, "unit": "mm"},
                    "length": {"value": 8.5, "unit": "m"},
                    "check_valve": True,
                },
                "pump": {
                    "curve": [
                        {"lift": {"value": 0, "unit": "m"}, "flow": {"value": 300, "unit": "L/h"}},
                        {"lift": {"value": 3, "unit": "m"}, "flow": {"value": 170, "unit": "L/h"}},
                        {"lift": {"value": 5.5, "unit": "m"}, "flow": {"value": 0, "unit": "L/h"}},
                    ],
                    "tank_volume_between_floats": {"value": 0.9, "unit": "L"},
                    "volume_to_safety_float": {"value": 0.4, "unit": "L"},
                    "safety_float": "wired",
                },
            },
            "peak_flow": {"value": 6, "unit": "L/h"},
            "equipment": {
                "brush": {"length": {"value": 1.5, "unit": "m"}},
                "wet_dry_vacuum": True,
                "jug": True,
                "plugs": 1,
            },
        },
    },
}
