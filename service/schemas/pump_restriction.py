"""Payloads of ``pump-restriction``."""

from service.calculations import pump_out, pump_restriction
from service.calculations.pump_out import MEASURED_AT, PUMP_OUT_LIMITS
from service.calculations.pump_restriction import LIMITS
from service.calculations.pump_restriction_results import CAUSES
from service.schemas.envelope import answer_of
from service.schemas.fields import Choice, Number, Part, Quantity
from service.schemas.payload import Payload, Written
from service.schemas.pump_run import Pump, Tube


class PumpOut(Payload):
    """Water pumped, against a clock."""

    into = pump_out.PumpOut

    volume = Quantity("volume", PUMP_OUT_LIMITS["volume"], required=True, description="Volume measured.")
    time = Quantity("time", PUMP_OUT_LIMITS["time"], required=True, description="How long the pump took for it.")
    measured_at = Choice(
        MEASURED_AT,
        description="`tank-while-running`: the drop in the tank from pump on to pump off, which the inflow adds to; "
        "this when left out. `tank-after-fall-back`: the drop read once the tube has run back. `tube-end`: caught at "
        "the tube's end and timed while it ran there.",
    )
    inflow = Quantity(
        "water_flow",
        PUMP_OUT_LIMITS["inflow"],
        description="Water that arrived in the tank meanwhile; none when left out. Does not count at the tube's end.",
    )
    volume_uncertainty = Quantity(
        "volume",
        PUMP_OUT_LIMITS["volume_uncertainty"],
        description="How far the true volume may lie to either side; 5 % of it when left out.",
    )
    time_uncertainty = Quantity(
        "time",
        PUMP_OUT_LIMITS["time_uncertainty"],
        us="s",
        si="s",
        description="How far the true time may lie to either side; 1 s when left out.",
    )


class TubeOffPumpOut(Payload):
    """A pump-out of the pump alone: with the tube off, or through a short wide one."""

    into = pump_restriction.TubeOffPumpOut

    volume = Quantity("volume", PUMP_OUT_LIMITS["volume"], required=True, description="Drop in the tank.")
    time = Quantity("time", PUMP_OUT_LIMITS["time"], required=True, description="How long the pump took for it.")
    lift = Quantity(
        "length",
        LIMITS["tube_off_lift"],
        description="From the water in the tank up to where it came out; 0 when left out.",
    )
    inflow = Quantity(
        "water_flow",
        PUMP_OUT_LIMITS["inflow"],
        description="Water that arrived in the tank meanwhile; none when left out.",
    )
    volume_uncertainty = Quantity(
        "volume",
        PUMP_OUT_LIMITS["volume_uncertainty"],
        description="How far the true volume may lie to either side; 5 % of it when left out.",
    )
    time_uncertainty = Quantity(
        "time",
        PUMP_OUT_LIMITS["time_uncertainty"],
        description="How far the true time may lie to either side; 1 s when left out.",
    )


_TUBE = {
    "bore": {"value": 0.375, "unit": "in"},
    "length": {"value": 28, "unit": "ft"},
    "elbows": 3,
    "check_valve": True,
}
_CURVE = {
    "curve": [
        {"lift": {"value": 0, "unit": "ft"}, "flow": {"value": 80, "unit": "gal/h"}},
        {"lift": {"value": 5, "unit": "ft"}, "flow": {"value": 65, "unit": "gal/h"}},
        {"lift": {"value": 10, "unit": "ft"}, "flow": {"value": 45, "unit": "gal/h"}},
        {"lift": {"value": 15, "unit": "ft"}, "flow": {"value": 20, "unit": "gal/h"}},
        {"lift": {"value": 18, "unit": "ft"}, "flow": {"value": 0, "unit": "gal/h"}},
    ]
}


class PumpRestrictionRequest(Payload):
    """A timed pump-out, and what it is held against."""

    pump_out = Part(PumpOut, required=True, description="The pump-out, with the tube on.")
    lift = Quantity(
        "length",
        LIMITS["lift"],
        required=True,
        description="From the water in the tank up to the highest point of the tube.",
    )
    tube = Part(Tube, required=True, description="The discharge tube as it is when clean.")
    pump = Part(Pump, required=True, description="The pump, from its leaflet; only its curve counts here.")
    tube_off_pump_out = Part(
        TubeOffPumpOut, description="A second measurement, of the pump alone: it tells a restriction from a worn pump."
    )
    shut_off_head_measured = Quantity(
        "length",
        LIMITS["shut_off_head_measured"],
        description="Another second measurement: height above the water in the tank at which the flow stops in a tube "
        "held straight up. Counts instead of `tube_off_pump_out` where both are given.",
    )
    shut_off_head_uncertainty = Quantity(
        "length",
        LIMITS["shut_off_head_uncertainty"],
        description="How far that height may lie to either side; 100 mm (4 in) when left out.",
    )
    water_temperature = Quantity(
        "temperature",
        LIMITS["water_temperature"],
        description="Of the water in the tube, for its viscosity; 20 degC when left out.",
    )

    examples = {
        "as-it-should": {
            "summary": "A pump-out as leaflet and tube promise it",
            "value": {
                "pump_out": {
                    "volume": {"value": 0.6, "unit": "gal"},
                    "time": {"value": 55, "unit": "s"},
                    "measured_at": "tube-end",
                    "volume_uncertainty": {"value": 0.02, "unit": "gal"},
                },
                "lift": {"value": 9, "unit": "ft"},
                "tube": _TUBE,
                "pump": _CURVE,
            },
        },
        "pinch-or-wear": {
            "summary": "Half of what was promised: a pinch, slime or a worn pump, and how to tell them apart",
            "value": {
                "pump_out": {
                    "volume": {"value": 0.3, "unit": "gal"},
                    "time": {"value": 55, "unit": "s"},
                    "inflow": {"value": 1.6, "unit": "gal/h"},
                },
                "lift": {"value": 9, "unit": "ft"},
                "tube": _TUBE,
                "pump": _CURVE,
            },
        },
        "pinched-si": {
            "summary": "The same in SI, the pump sound when it was measured with the tube off",
            "value": {
                "pump_out": {
                    "volume": {"value": 1.14, "unit": "L"},
                    "time": {"value": 80, "unit": "s"},
                    "time_uncertainty": {"value": 1, "unit": "s"},
                },
                "lift": {"value": 2.7, "unit": "m"},
                "tube": {
                    "bore": {"value": 9.5, "unit": "mm"},
                    "length": {"value": 8.5, "unit": "m"},
                    "elbows": 3,
                    "check_valve": True,
                },
                "pump": {
                    "curve": [
                        {"lift": {"value": 0, "unit": "m"}, "flow": {"value": 300, "unit": "L/h"}},
                        {"lift": {"value": 3, "unit": "m"}, "flow": {"value": 170, "unit": "L/h"}},
                        {"lift": {"value": 5.5, "unit": "m"}, "flow": {"value": 0, "unit": "L/h"}},
                    ],
                    "tank_volume_between_floats": {"value": 1.14, "unit": "L"},
                    "volume_to_safety_float": {"value": 0.4, "unit": "L"},
                    "volume_to_overflow": {"value": 0.9, "unit": "L"},
                },
                "tube_off_pump_out": {
                    "volume": {"value": 3, "unit": "L"},
                    "time": {"value": 36.5, "unit": "s"},
                    "volume_uncertainty": {"value": 50, "unit": "mL"},
                },
                "water_temperature": {"value": 15, "unit": "degC"},
            },
        },
        "worn": {
            "summary": "A worn pump: held up, the water stops far below the leaflet's shut-off head",
            "value": {
                "pump_out": {"volume": {"value": 0.3, "unit": "gal"}, "time": {"value": 55, "unit": "s"}},
                "lift": {"value": 9, "unit": "ft"},
                "tube": _TUBE,
                "pump": _CURVE,
                "shut_off_head_measured": {"value": 12.5, "unit": "ft"},
            },
        },
    }


def _flow(description: str, *, nullable: bool = False) -> Quantity:
    return Quantity("water_flow", required=True, nullable=nullable, description=description)


def _head(description: str, *, nullable: bool = True) -> Quantity:
    return Quantity("length", us="ft", si="m", required=True, nullable=nullable, description=description)


def _bore(description: str) -> Quantity:
    return Quantity("length", required=True, nullable=True, description=description)


def _ratio(description: str) -> Number:
    return Number(required=True, nullable=True, description=description)


class PumpRestrictionResults(Written):
    """What the pump-out tells."""

    cause = Choice(
        CAUSES,
        required=True,
        description="What the measurements prove. `cannot-tell`: head is missing, and a restriction explains it as "
        "well as a worn pump. `none-shown`: the expected flow lies within what was measured.",
    )
    pumped_volume = Quantity("volume", required=True, description="Water that went through the pump.")
    flow = _flow("The pump's mean flow.")
    least_flow = _flow("Least steady flow that fits the readings and their uncertainty.")
    most_flow = _flow("Greatest that fits; null where the time is as uncertain as it is long.", nullable=True)
    expected_flow = _flow("What the leaflet's pump gives through the clean tube; 0 where it cannot lift the water.")
    expected_head = _head("Head it works against then.", nullable=False)
    expected_time = Quantity(
        "time",
        us="s",
        si="s",
        required=True,
        nullable=True,
        description="Time the same volume should take; null where no more is expected than arrives.",
    )
    flow_over_expected = _ratio("Flow over expected flow; null where none is expected.")
    head_made = _head("Head the leaflet's pump makes at that flow; null for a flow beyond its curve.")
    head_asked = _head("Lift, tube and fittings at that flow.", nullable=False)
    missing_head = _head("Head made less head asked; negative where the flow is more than expected; null as head made.")
    head_over_shut_off = _ratio(
        "How near to shut-off a sound pump works: head made over shut-off head, 0 to 1; null as head made."
    )
    restriction_head = _head(
        "Head put down to a restriction: the missing head, corrected for the pump's own state where a second "
        "measurement tells it; null where the flow is beyond the pump's curve."
    )
    least_restriction_head = _head(
        "Least of it that fits the measurements; no restriction is proved unless it is above 0. Null where unknown."
    )
    most_restriction_head = _head("Greatest of it that fits; null where unknown.")
    equivalent_pinch_bore = _bore(
        "Bore of a short sharp-edged pinch (Idelchik, diagram 4-14) that takes the restriction head; a long squeezed "
        "stretch is some 15 % narrower for the same head. Null where there is no head to take."
    )
    narrowest_pinch_bore = _bore("Narrowest that fits the measurements; null where unknown or none.")
    widest_pinch_bore = _bore("Widest that fits; null where unknown, or where no pinch at all fits too.")
    pinch_velocity_heads = _ratio("Restriction head in velocity heads of the pinch's bore; null without a pinch.")
    tube_velocity_heads = _ratio(
        "The same in velocity heads of the tube's narrowest bore, as loss coefficients of fittings are given."
    )
    equivalent_tube_bore = _bore(
        "Bore to which the whole tube would have to be fouled, evenly, to take that head, where the tube is "
        "narrowest; null where there is none to take, or where that bore were too narrow for its roughness."
    )
    narrowest_tube_bore = _bore("Narrowest that fits the measurements; null where unknown or none.")
    widest_tube_bore = _bore("Widest that fits; null where unknown, or where a clean tube fits too.")
    equivalent_speed_ratio = _ratio(
        "The other explanation: speed over the leaflet's at which the pump would give that flow through the clean "
        "tube, by the affinity laws; null where none would."
    )
    measured_speed_ratio = _ratio("Speed ratio of the pump by the second measurement; null without one.")
    least_measured_speed_ratio = _ratio("Least that fits the second measurement; null where unknown.")
    most_measured_speed_ratio = _ratio("Greatest that fits the second measurement; null where unknown.")
    shut_off_head_by_leaflet = _head(
        "Height at which the water of a sound pump stops in a tube held up.", nullable=False
    )
    shut_off_head_if_worn = _head("The same of a pump that is worn and not restricted; null without a speed ratio.")
    tube_off_flow_by_leaflet = _flow("Flow of a sound pump with the tube off.")
    tube_off_flow_if_worn = _flow(
        "The same of a pump that is worn and not restricted; null without a speed ratio.", nullable=True
    )


PumpRestrictionAnswer = answer_of(PumpRestrictionResults, "PumpRestrictionAnswer")
