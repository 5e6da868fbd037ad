"""Payloads of ``cleaning-plan``."""

from service.calculations import cleaning_site, installation
from service.calculations.cleaning_plan import LIMITS
from service.calculations.cleaning_site import FLOAT_SWITCHES, FOULED, MOST_OPENINGS
from service.schemas.assessment import LONGEST_ID
from service.schemas.cleaning_equipment import GasUse, TruckEquipment
from service.schemas.cleaning_examples import EXAMPLES
from service.schemas.envelope import answer_of
from service.schemas.fields import Choice, Flag, Number, Part, Quantity, Rows, Sentence, Text, Whole
from service.schemas.installation import Discharge, LineAsBuilt, PumpAsBuilt, TrapAsBuilt
from service.schemas.overflow_protection import WaterPan
from service.schemas.payload import Payload, Written
from service.tables.cautions import CAUTIONS
from service.tables.cleaning_methods import CARRY_ITEMS, METHODS, REFUSALS
from service.tables.cleaning_step_row import OPENINGS, PLACES, TOOLS
from service.tables.cleaning_steps import STEP_CODES

MOST_STEPS = 100


class DrainAccess(Payload):
    """What of the drain can be got at.

    What is left out is taken as there, and becomes a step to find out. The cleanout is the line's.
    """

    into = cleaning_site.Access

    union = Flag(description="True where there is a union at the unit, between pan outlet and trap.")
    pan_reachable = Flag(description="True where a hand and a jug get at the pan and its outlet.")
    far_end_reachable = Flag(
        description="True where a hose can be sealed round the far end of the line; for a pumped unit, the end in the "
        "pump's tank."
    )
    float_switch = Choice(
        FLOAT_SWITCHES,
        description="Where a float switch stands: `in-drain` is in the trap or the line. When left out, the plan looks "
        "for one.",
    )
    vents = Whole(
        0,
        MOST_OPENINGS,
        description="Vents and other open ends between the unit and the far end; none when left out. The drains of "
        "`line.shared_with` count besides.",
    )


class CleaningPlanRequest(Payload):
    """What is known of a drain, and what is on the truck.

    Everything may be left out: what is not known becomes an assumption and a step to find it out. `trap`, `line`,
    `pan`, `pump` and `discharge` are the same objects as in an assessment, so that one record of a unit serves both.
    """

    at_most_one_of = ("pump", "pumped")

    unit_id = Text(LONGEST_ID, description="The caller's identification of the unit; repeated back.")
    location = Choice(installation.LOCATIONS, description="Where the unit stands: closed places call for more care.")
    access = Part(DrainAccess, description="What of the drain can be got at.")
    fouled = Rows(
        Choice(FOULED, description="One part."),
        most=len(FOULED),
        description="What is fouled; everything there is when left out.",
    )
    trap = Part(TrapAsBuilt, description="The trap as measured; one of 2 in drop and 2 in seal when left out.")
    line = Part(
        LineAsBuilt,
        description="The drain line. `cleanout` is how it can be opened; the plan takes one to stand on top of the "
        "trap. Pan outlet, supports and second traps play no part here.",
    )
    pan = Part(WaterPan, description="The unit's own pan; it fills where the trap's outlet is above its own.")
    pump = Part(PumpAsBuilt, description="The condensate pump, from its leaflet.")
    pumped = Flag(description="True where there is a pump and nothing is known of it. Excludes `pump`.")
    discharge = Part(Discharge, description="Where the water goes.")
    peak_flow = Quantity(
        "water_flow",
        LIMITS["peak_flow"],
        description="Condensate of the peak hour, as another operation gives it; 2.5 gal/h when left out.",
    )
    equipment = Part(
        TruckEquipment,
        description="What is on the truck; a brush, a wet/dry vacuum, a jug and two plugs when left out.",
    )
    pour_rate = Quantity(
        "water_flow",
        LIMITS["pour_rate"],
        description="Of the closing test; when left out, twice the peak and at least a litre a minute, at a pump no "
        "more than half its flow.",
    )
    working_pressure = Quantity(
        "pressure",
        LIMITS["working_pressure"],
        us="psi",
        si="kPa",
        description="Gauge pressure of gas in the line; 30 psi when left out, and never more: a solvent-welded "
        "joint can burst.",
    )
    sweeps = Number(
        LIMITS["sweeps"],
        description="Times that gas fills the open line again once the blockage has gone; 2 when left out.",
    )
    gas_temperature = Quantity(
        "temperature", LIMITS["gas_temperature"], description="Of gas and line; 68 degF when left out."
    )

    examples = EXAMPLES


class CleaningStep(Written):
    """One step of the work."""

    order = Whole(1, MOST_STEPS, required=True, description="Place among the steps, from 1.")
    code = Choice(STEP_CODES, required=True, description="Stable name of the step.")
    place = Choice(PLACES, required=True, description="Where the work is.")
    plug_first = Rows(
        Choice(tuple(OPENINGS), description="One opening."),
        most=len(OPENINGS),
        required=True,
        description="Openings that are closed before or in this step; the cleanout by its own cap.",
    )
    tool = Choice(TOOLS, required=True, description="What it is done with; `hands` where that is all.")
    pressure_limit = Quantity(
        "pressure",
        us="psi",
        si="kPa",
        required=True,
        nullable=True,
        description="Highest gauge pressure of gas in this step; null where there is no gas.",
    )
    instruction = Sentence(required=True, description="What to do, with its numbers.")
    look_for = Sentence(required=True, description="What to look for meanwhile, and what it means.")
    minutes = Number(required=True, description="How long it takes, in minutes; common practice, but for the pour.")
    cautions = Rows(
        Choice(tuple(sorted(CAUTIONS)), description="One code."),
        most=len(CAUTIONS),
        required=True,
        description="Codes of the cautions to show with this step; their texts stand in the envelope.",
    )


class RefusedMethod(Written):
    """A method that may not be used here, and one reason."""

    method = Choice(METHODS, required=True, description="The method.")
    reason = Choice(tuple(REFUSALS), required=True, description="Code of the reason.")
    explanation = Sentence(required=True, description="The reason in words.")


class CarriedItem(Written):
    """One thing to carry to the unit."""

    item = Choice(CARRY_ITEMS, required=True, description="What to carry.")
    count = Whole(1, 10**12, required=True, nullable=True, description="How many; null for what is measured.")
    volume = Quantity("volume", required=True, nullable=True, description="How much water; null for what is counted.")
    free_gas = Quantity(
        "volume",
        us="ft3",
        si="L",
        required=True,
        nullable=True,
        description="How much gas, at 1 atm; null for the rest.",
    )
    on_truck = Flag(
        required=True, nullable=True, description="Whether the truck has it; null where `equipment` does not tell."
    )


class ClosingTest(Written):
    """The proof that it drains: what to pour, how fast, when it must show, what counts as a pass."""

    pour_place = Choice(("pan", "cleanout", "union"), required=True, description="Where the water goes in.")
    pour_rate = Quantity("water_flow", us="gal/min", si="L/min", required=True, description="Steady pour.")
    rate_to_peak = Number(required=True, nullable=True, description="Pour over peak flow; null where the peak is zero.")
    trap_volume = Quantity(
        "volume", us="in3", si="mL", required=True, description="Fills the trap first, in the step before."
    )
    line_hold_up = Quantity(
        "volume",
        required=True,
        description="Wets the line: part-full area at this pour by Manning's formula, times length. The whole bore "
        "where the line does not fall.",
    )
    line_depth_fraction = Number(required=True, description="Depth of the water over the bore.")
    line_velocity = Quantity("velocity", required=True, description="Velocity of the water and of its front.")
    line_time = Quantity(
        "time", us="s", si="s", required=True, description="Length over velocity: until water is through the line."
    )
    tank_volume = Quantity(
        "volume", required=True, nullable=True, description="Pump tank up to the float; null without a pump."
    )
    tank_fill_time = Quantity(
        "time", us="s", si="s", required=True, nullable=True, description="Time in which the pour fills the tank."
    )
    tube_volume = Quantity("volume", required=True, nullable=True, description="Water in the pump's tube.")
    tube_fill_time = Quantity(
        "time",
        us="s",
        si="s",
        required=True,
        nullable=True,
        description="From the pump's first start until the tube is full, at the pump's flow against the full tube; "
        "null without the pump's leaflet.",
    )
    time_to_show = Quantity(
        "time",
        us="s",
        si="s",
        required=True,
        nullable=True,
        description="From the start of the pour, the trap full, until water shows at the discharge: line, tank and "
        "tube. Null where the pump's flow is not known or it cannot lift.",
    )
    latest_time = Quantity(
        "time",
        us="s",
        si="s",
        required=True,
        nullable=True,
        description="Half as long again: no water by then, and the test has failed (common practice).",
    )
    proof_volume = Quantity(
        "volume", required=True, description="Poured after that: a minute of running, and a tankful at a pump."
    )
    pour_volume = Quantity("volume", required=True, description="All of it, the trap's filling included.")
    pour_time = Quantity("time", required=True, description="In which what follows the trap's filling is poured.")
    least_caught = Quantity("volume", required=True, description="What must have come out when it stops dripping.")
    pass_when = Sentence(required=True, description="What counts as a pass, with its numbers.")


class CleaningPlanResults(Written):
    """The visit: steps, reasons, what to carry, gas, closing test."""

    unit_id = Text(LONGEST_ID, required=True, nullable=True, description="Name of the unit, as sent.")
    method = Choice(METHODS, required=True, description="What clears the drain; a brush goes first where there is one.")
    reasons = Rows(
        Sentence(description="One reason."), most=20, required=True, description="Why, the method's reason first."
    )
    alternatives = Rows(
        Choice(METHODS, description="One method."),
        most=len(METHODS),
        required=True,
        description="Methods that may be used here as well, the better first.",
    )
    refused_methods = Rows(
        Part(RefusedMethod, description="One reason against one method."),
        most=100,
        required=True,
        description="Methods that may not be used here, a row for each reason.",
    )
    steps = Rows(
        Part(CleaningStep, description="One step."), most=MOST_STEPS, required=True, description="The steps, in order."
    )
    total_minutes = Number(required=True, description="Time on site, in minutes.")
    good_access_minutes = Number(
        required=True,
        description="What it would be, in minutes, with a cleanout that opens by hand and a union at the unit.",
    )
    carry = Rows(
        Part(CarriedItem, description="One thing."), most=50, required=True, description="What to take to the unit."
    )
    gas = Part(
        GasUse, required=True, nullable=True, description="What the gas on the truck does here; null without any."
    )
    closing_test = Part(ClosingTest, required=True, description="The proof that it drains.")


CleaningPlanAnswer = answer_of(CleaningPlanResults, "CleaningPlanAnswer")
