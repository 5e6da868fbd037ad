"""Payloads of ``pump-run``."""

from typing import ClassVar

from service.calculations import pump, pump_curve, pump_tube
from service.calculations.pump_curve import FEWEST_POINTS, MOST_POINTS, POINT_LIMITS
from service.calculations.pump_cycle import PUMP_LIMITS, SAFETY_FLOATS
from service.calculations.pump_run import LIMITS
from service.calculations.pump_tube import MOST_ELBOWS, MOST_FURTHER_SECTIONS, SECTION_LIMITS, TUBE_LIMITS
from service.schemas.envelope import answer_of
from service.schemas.fields import Choice, Flag, Number, Part, Quantity, Rows, Whole
from service.schemas.payload import Payload, Written


class CurvePoint(Payload):
    """One point of the leaflet's curve."""

    into = pump_curve.CurvePoint

    lift = Quantity(
        "length", POINT_LIMITS["lift"], required=True, description="Height the water is lifted, or head worked against."
    )
    flow = Quantity("water_flow", POINT_LIMITS["flow"], required=True, description="Flow at that lift.")


class Pump(Payload):
    """A float-operated tank pump, from its leaflet."""

    into: ClassVar[type | None] = pump.Pump

    curve = Rows(
        Part(CurvePoint, description="One point."),
        fewest=FEWEST_POINTS,
        most=MOST_POINTS,
        required=True,
        description="Points of flow against lift, in any order, best from no lift to no flow. Straight lines join "
        "them; beyond the greatest lift no flow is counted on.",
    )
    tank_volume_between_floats = Quantity(
        "volume",
        PUMP_LIMITS["tank_volume_between_floats"],
        description="Between the level where the pump stops and the level where it starts.",
        example={"value": 0.3, "unit": "gal"},
    )
    volume_to_safety_float = Quantity(
        "volume",
        PUMP_LIMITS["volume_to_safety_float"],
        description="From the level where the pump starts up to the safety float.",
        example={"value": 0.1, "unit": "gal"},
    )
    volume_to_overflow = Quantity(
        "volume",
        PUMP_LIMITS["volume_to_overflow"],
        description="From the level where the pump starts up to where the tank runs over.",
        example={"value": 0.25, "unit": "gal"},
    )
    safety_float = Choice(
        SAFETY_FLOATS,
        description="`wired`: it stops the cooling call. `unwired`: it is there and does nothing. `none`: there is "
        "none.",
    )


class TubeSection(Payload):
    """A length of tube of one bore, behind another."""

    into = pump_tube.TubeSection

    length = Quantity(
        "length", SECTION_LIMITS["length"], required=True, description="Of this section; 0 for a bare reducer."
    )
    bore = Quantity(
        "length",
        SECTION_LIMITS["bore"],
        description="Inside diameter; that of the section before when left out.",
        example={"value": 0.25, "unit": "in"},
    )
    elbows = Whole(0, MOST_ELBOWS, description="Number of 90 degree elbows in it; none when left out.")
    roughness = Quantity(
        "length",
        SECTION_LIMITS["roughness"],
        description="Height of the wall's roughness; that of the section before when left out.",
    )


class Tube(Payload):
    """The discharge tube as installed."""

    into = pump_tube.Tube

    bore = Quantity("length", TUBE_LIMITS["bore"], required=True, description="Inside diameter.")
    length = Quantity(
        "length",
        TUBE_LIMITS["length"],
        required=True,
        description="Whole length, from the pump to the open end; with `further_sections`, to where the first of them "
        "begins.",
    )
    elbows = Whole(0, MOST_ELBOWS, description="Number of 90 degree elbows; none when left out.")
    check_valve = Flag(
        description="Whether a check valve holds the water when the pump stops; taken as without when left out."
    )
    roughness = Quantity(
        "length",
        TUBE_LIMITS["roughness"],
        description="Height of the wall's roughness; that of drawn tubing, 0.0015 mm, when left out.",
    )
    elbow_loss_coefficient = Number(
        TUBE_LIMITS["elbow_loss_coefficient"], description="Velocity heads lost in one elbow; 1.5 when left out."
    )
    check_valve_loss_coefficient = Number(
        TUBE_LIMITS["check_valve_loss_coefficient"],
        description="Velocity heads lost in the open check valve; 2 when left out.",
    )
    check_valve_cracking_head = Quantity(
        "length",
        TUBE_LIMITS["check_valve_cracking_head"],
        description="Head of water that opens the check valve, beyond what the curve includes; 0 when left out.",
    )
    fall_back_share = Number(
        TUBE_LIMITS["fall_back_share"],
        description="Share of the tube, 0 to 1, that empties back into the tank when the pump stops and no check valve "
        "holds, from the pump along the whole length; all of it when left out.",
    )
    further_sections = Rows(
        Part(TubeSection, description="One section."),
        most=MOST_FURTHER_SECTIONS,
        description="Where the bore changes on the way: what follows the first section, in the order the water takes. "
        "Losses at each sudden change of bore are counted in.",
    )


def inflow_field() -> Quantity:
    """The ``inflow`` of a pump's duty."""
    return Quantity("water_flow", LIMITS["inflow"], required=True, description="Condensate arriving in the peak hour.")


def lift_field() -> Quantity:
    """The ``lift`` of a pump's duty."""
    return Quantity(
        "length",
        LIMITS["lift"],
        required=True,
        description="From the water in the tank up to the highest point of the tube.",
    )


def water_temperature_field() -> Quantity:
    """The ``water_temperature`` of a pump's duty."""
    return Quantity(
        "temperature",
        LIMITS["water_temperature"],
        description="Of the water in the tube, for its viscosity; 20 degC when left out.",
    )


def flow_margin_field() -> Number:
    """The ``flow_margin`` of a pump's duty."""
    return Number(
        LIMITS["flow_margin"],
        description="Least flow over inflow that is called enough; 1.5 when left out (common practice: 1.5 to 2).",
    )


class PumpRunRequest(Payload):
    """Water arriving, the lift, the tube and the pump."""

    inflow = inflow_field()
    lift = lift_field()
    tube = Part(Tube, required=True, description="The discharge tube as installed.")
    pump = Part(Pump, required=True, description="The pump, from its leaflet.")
    water_temperature = water_temperature_field()
    flow_margin = flow_margin_field()

    examples = {
        "sound": {
            "summary": "An invented pump that does its job",
            "value": {
                "inflow": {"value": 1.6, "unit": "gal/h"},
                "lift": {"value": 9, "unit": "ft"},
                "tube": {
                    "bore": {"value": 0.375, "unit": "in"},
                    "length": {"value": 28, "unit": "ft"},
                    "elbows": 3,
                    "check_valve": True,
                },
                "pump": {
                    "curve": [
                        {"lift": {"value": 0, "unit": "ft"}, "flow": {"value": 80, "unit": "gal/h"}},
                        {"lift": {"value": 5, "unit": "ft"}, "flow": {"value": 65, "unit": "gal/h"}},
                        {"lift": {"value": 10, "unit": "ft"}, "flow": {"value": 45, "unit": "gal/h"}},
                        {"lift": {"value": 15, "unit": "ft"}, "flow": {"value": 20, "unit": "gal/h"}},
                        {"lift": {"value": 18, "unit": "ft"}, "flow": {"value": 0, "unit": "gal/h"}},
                    ],
                    "tank_volume_between_floats": {"value": 0.3, "unit": "gal"},
                    "volume_to_safety_float": {"value": 0.1, "unit": "gal"},
                    "volume_to_overflow": {"value": 0.25, "unit": "gal"},
                    "safety_float": "wired",
                },
            },
        },
        "too-high": {
            "summary": "A lift beyond what the pump has, its safety float hanging loose",
            "value": {
                "inflow": {"value": 1.2, "unit": "gal/h"},
                "lift": {"value": 21, "unit": "ft"},
                "tube": {"bore": {"value": 0.375, "unit": "in"}, "length": {"value": 40, "unit": "ft"}},
                "pump": {
                    "curve": [
                        {"lift": {"value": 0, "unit": "ft"}, "flow": {"value": 80, "unit": "gal/h"}},
                        {"lift": {"value": 18, "unit": "ft"}, "flow": {"value": 0, "unit": "gal/h"}},
                    ],
                    "safety_float": "unwired",
                },
            },
        },
        "long-and-narrow-si": {
            "summary": "A small pump on a long, narrow tube without a check valve, in SI units",
            "value": {
                "inflow": {"value": 9, "unit": "L/h"},
                "lift": {"value": 2.5, "unit": "m"},
                "tube": {
                    "bore": {"value": 6, "unit": "mm"},
                    "length": {"value": 30, "unit": "m"},
                    "elbows": 6,
                    "check_valve": False,
                },
                "pump": {
                    "curve": [
                        {"lift": {"value": 8, "unit": "m"}, "flow": {"value": 0, "unit": "L/h"}},
                        {"lift": {"value": 5, "unit": "m"}, "flow": {"value": 9, "unit": "L/h"}},
                        {"lift": {"value": 2, "unit": "m"}, "flow": {"value": 16, "unit": "L/h"}},
                        {"lift": {"value": 0, "unit": "m"}, "flow": {"value": 20, "unit": "L/h"}},
                    ],
                    "tank_volume_between_floats": {"value": 0.9, "unit": "L"},
                },
                "water_temperature": {"value": 12, "unit": "degC"},
                "flow_margin": 2,
            },
        },
        "two-bores": {
            "summary": "A riser as it should be, led on through an old line that is too narrow",
            "value": {
                "inflow": {"value": 4, "unit": "gal/h"},
                "lift": {"value": 7, "unit": "ft"},
                "tube": {
                    "bore": {"value": 0.375, "unit": "in"},
                    "length": {"value": 14, "unit": "ft"},
                    "elbows": 1,
                    "check_valve": True,
                    "further_sections": [
                        {"bore": {"value": 0.17, "unit": "in"}, "length": {"value": 150, "unit": "ft"}, "elbows": 4}
                    ],
                },
                "pump": {
                    "curve": [
                        {"lift": {"value": 0, "unit": "ft"}, "flow": {"value": 80, "unit": "gal/h"}},
                        {"lift": {"value": 5, "unit": "ft"}, "flow": {"value": 65, "unit": "gal/h"}},
                        {"lift": {"value": 10, "unit": "ft"}, "flow": {"value": 45, "unit": "gal/h"}},
                        {"lift": {"value": 15, "unit": "ft"}, "flow": {"value": 20, "unit": "gal/h"}},
                        {"lift": {"value": 18, "unit": "ft"}, "flow": {"value": 0, "unit": "gal/h"}},
                    ],
                    "tank_volume_between_floats": {"value": 0.3, "unit": "gal"},
                    "safety_float": "wired",
                },
            },
        },
    }


class SectionFlow(Written):
    """What flows in one section of the tube."""

    bore = Quantity("length", required=True, description="Inside diameter of the section.")
    length = Quantity("length", us="ft", si="m", required=True, description="Length of the section.")
    velocity = Quantity("velocity", required=True, description="Mean velocity in it.")
    reynolds = Number(required=True, description="Reynolds number in it.")
    friction_head = Quantity("length", us="ft", si="m", required=True, description="Head that its wall takes.")
    fittings_head = Quantity(
        "length",
        us="ft",
        si="m",
        required=True,
        description="Head that its elbows, the change of bore at its beginning and, in the first, the check valve "
        "take.",
    )


class PumpRunResults(Written):
    """How the pump runs."""

    operating_flow = Quantity(
        "water_flow",
        required=True,
        description="Flow where pump and tube agree; 0 where the pump cannot lift the water.",
    )
    operating_head = Quantity(
        "length",
        us="ft",
        si="m",
        required=True,
        description="Head the pump works against: lift, friction and fittings; the pump's greatest where nothing "
        "flows.",
    )
    friction_head = Quantity("length", us="ft", si="m", required=True, description="Head that the tube's wall takes.")
    fittings_head = Quantity(
        "length", us="ft", si="m", required=True, description="Head that elbows, changes of bore and check valve take."
    )
    velocity = Quantity("velocity", required=True, description="Mean velocity in the tube, where it is narrowest.")
    reynolds = Number(
        required=True,
        description="Reynolds number in the tube, where it is narrowest: laminar to 2000, turbulent from 4000.",
    )
    flow_ratio = Number(required=True, nullable=True, description="Operating flow over inflow; null with no inflow.")
    fill_time = Quantity(
        "time",
        required=True,
        nullable=True,
        description="From pump off to pump on; 0 where fall-back alone restarts it; null with no inflow or no tank "
        "volume.",
    )
    pump_out_time = Quantity(
        "time",
        required=True,
        nullable=True,
        description="From pump on to pump off, water still arriving; null where it never gets there or without a tank "
        "volume.",
    )
    cycles_per_hour = Number(
        required=True,
        nullable=True,
        description="Starts in an hour; 0 where the pump never starts or never stops; null without a tank volume.",
    )
    duty = Number(
        required=True,
        nullable=True,
        description="Share of the time the motor runs, 0 to 1; null where it depends on a tank volume not given.",
    )
    fall_back_volume = Quantity(
        "volume", required=True, description="Water that returns to the tank each time the pump stops."
    )
    time_to_safety_float = Quantity(
        "time",
        required=True,
        nullable=True,
        description="With the pump dead, from the level where it should have started to the safety float; null without "
        "the volume, without a float, or with no inflow.",
    )
    time_to_overflow = Quantity(
        "time",
        required=True,
        nullable=True,
        description="The same to where the tank runs over, the cooling going on.",
    )
    largest_lift = Quantity(
        "length",
        us="ft",
        si="m",
        required=True,
        nullable=True,
        description="Lift at which, with this tube, the pump still carries the inflow with its margin; null where it "
        "does at none.",
    )
    longest_tube = Quantity(
        "length",
        us="ft",
        si="m",
        required=True,
        nullable=True,
        description="Whole length of such tube, with these fittings and its sections in proportion, with which it "
        "still does so at this lift; null where none does, or where friction sets no limit (nothing flows in, or it is "
        "more than 10 km).",
    )
    needed_flow = Quantity("water_flow", required=True, description="Inflow times its margin.")
    needed_head = Quantity(
        "length", us="ft", si="m", required=True, description="Head that lift, friction and fittings take at that flow."
    )
    shut_off_head = Quantity(
        "length",
        us="ft",
        si="m",
        required=True,
        description="Where the pump's flow ends, or the greatest lift of a curve that does not go so far.",
    )
    sections = Rows(
        Part(SectionFlow, description="One section."),
        fewest=1,
        most=1 + MOST_FURTHER_SECTIONS,
        required=True,
        description="What flows in each section of the tube, from the pump on; one where the bore never changes.",
    )


PumpRunAnswer = answer_of(PumpRunResults, "PumpRunAnswer")
