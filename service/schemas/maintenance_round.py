"""Payloads of ``maintenance-round``."""

from typing import ClassVar

from service.calculations.answer import VERDICTS
from service.calculations.cleaning_plan import LIMITS as CLEANING_LIMITS
from service.calculations.cleaning_site import FOULED
from service.calculations.installation import BELOW
from service.calculations.maintenance_round import LIMITS, MOST_TECHNICIANS
from service.calculations.unit_visit import CONSUMING
from service.calculations.unit_visit import LIMITS as VISIT_LIMITS
from service.calculations.visit_urgency import FAILURES, STOPS
from service.schemas.assessment import LONGEST_ID, AssessmentRequest
from service.schemas.assessment_batch import MOST_UNITS, AnyUnit, ProblemObject
from service.schemas.cleaning_equipment import TruckEquipment
from service.schemas.cleaning_plan import DrainAccess
from service.schemas.envelope import Finding, answer_of
from service.schemas.fields import Choice, Flag, Number, Part, Quantity, Rows, Sentence, Text, Whole, Wording
from service.schemas.maintenance_round_examples import EXAMPLES
from service.schemas.payload import Payload, Written
from service.tables.carried_parts import PART_NAMES
from service.tables.cleaning_methods import METHODS
from service.tables.findings.catalogue import FINDINGS
from service.tables.pipe_sizes import NOMINAL_SIZES
from service.tables.round_facts import FACTS
from service.tables.urgency import RULES, URGENCIES

MOST_COUNT = 10**9


class RoundUnit(AssessmentRequest):
    """One unit of a round: what an assessment takes, and what its cleaning needs besides.

    Everything may be left out; what is not known counts as not safe.
    """

    at_least_one_of: ClassVar[tuple[str, ...]] = ()
    examples = {}

    access = Part(DrainAccess, description="What of the drain can be got at; the cleanout is the line's.")
    fouled = Rows(
        Choice(FOULED, description="One part."),
        most=len(FOULED),
        description="What was found fouled. When left out, everything there is gets cleaned, and nothing is known of "
        "how likely the drain is to block.",
    )
    pumped = Flag(description="True where there is a pump and nothing is known of it; `pump`, where sent, goes first.")
    pour_rate = Quantity(
        "water_flow", CLEANING_LIMITS["pour_rate"], description="Of the closing test, as in `cleaning-plan`."
    )
    months_since_cleaning = Number(
        VISIT_LIMITS["months_since_cleaning"],
        description="Months since the drain was last cleaned. From 12 a cooling season has passed; not known is no "
        "better where nothing stops the water.",
    )


class MaintenanceRoundRequest(Payload):
    """The units of an agreement, and what is known of the truck and the day. Each unit is read by itself."""

    units = Rows(
        AnyUnit(payload=RoundUnit, description="One unit: what `assessment` takes, its access and its last cleaning."),
        fewest=1,
        most=MOST_UNITS,
        required=True,
        description="The units.",
    )
    equipment = Part(
        TruckEquipment,
        description="What is on the truck; a brush, a wet/dry vacuum, a jug and two plugs when left out.",
    )
    minutes_available = Number(
        LIMITS["minutes_available"],
        description="Minutes of a technician's day, ways between units included; 480 when left out.",
    )
    technicians = Whole(
        1, MOST_TECHNICIANS, description="Who work at the same time, each at a unit of their own; one when left out."
    )
    travel_minutes = Number(
        LIMITS["travel_minutes"], description="Minutes from one unit to the next; 15 when left out."
    )
    examples = EXAMPLES


class UrgencyReason(Written):
    """One reason for a unit's class."""

    condition = Choice(tuple(rule.name for rule in RULES), required=True, description="Stable name of the rule met.")
    urgency = Choice(URGENCIES, required=True, description="The class this rule asks for.")
    explanation = Sentence(required=True, description="The reason in words.")
    findings = Rows(
        Choice(tuple(sorted(FINDINGS)), description="One code."),
        most=len(FINDINGS),
        required=True,
        description="Codes of the unit's findings that met it; empty where it rests on what was or was not sent.",
    )
    basis = Wording(required=True, description="A code clause, `physics` or `common practice`.")


class SoonestFailure(Written):
    """What brings water into the building soonest."""

    failure = Choice(
        FAILURES,
        required=True,
        description="`running-over`: it does so already. `drain-blocks`, `pump-dies`: should that happen now.",
    )
    stop = Choice(STOPS, required=True, description="Whether something stops the water before it reaches the building.")
    time_to_building = Quantity(
        "time",
        us="min",
        si="min",
        required=True,
        nullable=True,
        description="From the failure until water reaches the building, at the peak rate. Where it is not known what "
        "stops the water, as if nothing did. Null where it is stopped or the time cannot be told.",
    )
    would_wet = Choice(BELOW, required=True, nullable=True, description="What it wets first: `below`, as sent.")


class FindingCounts(Written):
    """How many findings of each severity the unit's assessment made."""

    fail = Whole(0, MOST_COUNT, required=True, description="Findings that fail.")
    attention = Whole(0, MOST_COUNT, required=True, description="Findings that want attention.")
    info = Whole(0, MOST_COUNT, required=True, description="Notes, parts that were not assessed included.")


class UnitVisit(Written):
    """How soon one unit wants a visit and why, and how long that takes."""

    unit_id = Text(LONGEST_ID, required=True, nullable=True, description="Name of the unit, as sent.")
    urgency = Choice(
        URGENCIES, required=True, description="How soon: today, within a week, within a month, when its turn comes."
    )
    reasons = Rows(
        Part(UrgencyReason, description="One reason."),
        fewest=1,
        most=len(RULES),
        required=True,
        description="Why, the most urgent first.",
    )
    soonest_failure = Part(SoonestFailure, required=True, description="What brings water into the building soonest.")
    verdict = Choice(VERDICTS, required=True, description="Verdict of its assessment.")
    finding_counts = Part(FindingCounts, required=True, description="How many findings its assessment has.")
    findings = Rows(
        Part(Finding, description="One finding."),
        most=200,
        required=True,
        description="The findings behind the reasons, worst first; their pointers start at the unit. `assessment` "
        "gives all of them.",
    )
    method = Choice(
        METHODS,
        required=True,
        nullable=True,
        description="What clears its drain with what is on the truck; null where no cleaning could be planned.",
    )
    minutes = Number(
        required=True,
        nullable=True,
        description="On site, cleaning and closing test, as `cleaning-plan` gives it; repairs come on top.",
    )
    good_access_minutes = Number(
        required=True, nullable=True, description="What it would be with a cleanout that opens by hand and a union."
    )


class RoundRow(Written):
    """One unit as sent: its visit, or the problem with it."""

    index = Whole(0, MOST_UNITS - 1, required=True, description="Place of the unit in the request, from 0.")
    status = Whole(200, 599, required=True, description="HTTP status the unit would have had alone.")
    visit = Part(UnitVisit, required=True, nullable=True, description="The unit's visit; null with a problem.")
    problem = ProblemObject(
        required=True, nullable=True, description="What is wrong with this unit; null with a visit."
    )


class VisitSlot(Written):
    """When, and by whom."""

    day = Whole(1, MOST_COUNT, required=True, description="Day of the round, from 1.")
    technician = Whole(1, MOST_TECHNICIANS, required=True, description="Which technician, from 1.")
    start_minute = Number(required=True, description="Minutes into that day at which the work begins.")


class RoundStop(Written):
    """One place of the visiting order."""

    place = Whole(1, MOST_UNITS, required=True, description="Place in the visiting order, from 1.")
    index = Whole(0, MOST_UNITS - 1, required=True, description="Place of the unit in the request, from 0.")
    unit_id = Text(LONGEST_ID, required=True, nullable=True, description="Name of the unit, as sent.")
    urgency = Choice(URGENCIES, required=True, description="How soon it wants its visit.")
    minutes = Number(required=True, nullable=True, description="On site; null where no cleaning could be planned.")
    slot = Part(VisitSlot, required=True, nullable=True, description="When, and by whom; null without minutes.")


class UrgencyCount(Written):
    """Units of one class."""

    urgency = Choice(URGENCIES, required=True, description="Class of urgency.")
    count = Whole(0, MOST_UNITS, required=True, description="How many units.")


class RoundTotals(Written):
    """The round in numbers."""

    units = Whole(1, MOST_UNITS, required=True, description="Units sent.")
    units_read = Whole(0, MOST_UNITS, required=True, description="Units that could be read.")
    on_site_minutes = Number(required=True, description="At the units, of all technicians together.")
    good_access_minutes = Number(
        required=True, description="What that would be with a cleanout that opens by hand and a union at every unit."
    )
    travel_minutes = Number(required=True, description="Between units, of all technicians together.")
    total_minutes = Number(required=True, description="Minutes on site and on the way.")
    days = Whole(0, MOST_COUNT, required=True, description="Working days until the last unit is done.")
    urgencies = Rows(
        Part(UrgencyCount, description="One class."),
        most=len(URGENCIES),
        required=True,
        description="Units by class, the most urgent first.",
    )


_INDEX = Whole(0, MOST_UNITS - 1, description="Place of a unit in the request, from 0.")


class MethodSupplies(Written):
    """What one method takes for every unit it suits, whatever is on the truck."""

    method = Choice(CONSUMING, required=True, description="The method.")
    units = Rows(
        _INDEX,
        most=MOST_UNITS,
        required=True,
        description="Units whose access and line allow it, were it on the truck in plenty.",
    )
    units_chosen = Whole(
        0, MOST_UNITS, required=True, description="Units for which it is the one chosen, with what is on the truck."
    )
    water = Quantity("volume", required=True, description="To rinse, refill and prove those units.")
    most_openings = Whole(
        0,
        MOST_COUNT,
        required=True,
        description="Most openings to plug at one of them: vents, drains of other units, the pan outlet.",
    )
    cartridges = Whole(
        0,
        10**15,
        required=True,
        nullable=True,
        description="Whole cartridges for each unit, by the gas laws, added up; null for other methods.",
    )
    cartridges_by_rule = Whole(
        0,
        MOST_UNITS,
        required=True,
        nullable=True,
        description="By the rule of about two drains a cartridge (common practice); null for other methods.",
    )
    free_gas = Quantity(
        "volume", us="ft3", si="L", required=True, nullable=True, description="Gas at 1 atm; null for other methods."
    )
    cylinders = Whole(
        0,
        10**15,
        required=True,
        nullable=True,
        description="Cylinders like the one on the truck as it is now, or full ones of the usual size where there is "
        "none; null for other methods, and where nothing comes out of it.",
    )
    units_from_truck = Whole(
        0,
        MOST_UNITS,
        required=True,
        nullable=True,
        description="Units, in the visiting order, that the cylinder or the cartridges on the truck will do; null "
        "where there are none, and for other methods.",
    )


class RoundPart(Written):
    """A part worth carrying."""

    part = Choice(PART_NAMES, required=True, description="The part.")
    size = Choice(NOMINAL_SIZES, required=True, nullable=True, description="Nominal size; null for what has none.")
    count = Whole(
        0, MOST_COUNT, required=True, nullable=True, description="Pieces that findings ask for; null for a length."
    )
    count_at_most = Whole(
        0,
        MOST_COUNT,
        required=True,
        nullable=True,
        description="With those that may turn out to be wanted, as where nothing is known of the protection.",
    )
    length = Quantity(
        "length",
        us="ft",
        si="m",
        required=True,
        nullable=True,
        description="Length that findings ask for; null for pieces.",
    )
    length_at_most = Quantity(
        "length", us="ft", si="m", required=True, nullable=True, description="With what may turn out to be wanted."
    )
    units = Rows(_INDEX, most=MOST_UNITS, required=True, description="Units that want it.")
    findings = Rows(
        Choice(tuple(sorted(FINDINGS)), description="One code."),
        most=len(FINDINGS),
        required=True,
        description="Codes of the findings that ask for it; empty where the cleaning itself does.",
    )


class UnknownFact(Written):
    """A fact nobody has said of some units."""

    member = Choice(
        tuple(fact.member for fact in FACTS), required=True, description="RFC 6901 pointer into a unit: what to send."
    )
    tells = Wording(required=True, description="What knowing it is good for.")
    count = Whole(1, MOST_UNITS, required=True, description="How many units.")
    units = Rows(_INDEX, most=MOST_UNITS, required=True, description="Which units, by their index.")


class MaintenanceRoundResults(Written):
    """The round: whom to visit first and why, the time, and what to load."""

    order = Rows(
        Part(RoundStop, description="One place."),
        most=MOST_UNITS,
        required=True,
        description="Visiting order: by class, then by the time until water reaches the building, then by the number "
        "of failures, then as sent. Units with a problem are left out.",
    )
    units = Rows(
        Part(RoundRow, description="One unit."), most=MOST_UNITS, required=True, description="Every unit, as sent."
    )
    totals = Part(RoundTotals, required=True, description="The round in numbers.")
    consumables = Rows(
        Part(MethodSupplies, description="One method."),
        most=len(CONSUMING),
        required=True,
        description="What to load for the whole round, under each method.",
    )
    parts = Rows(
        Part(RoundPart, description="One part."),
        most=500,
        required=True,
        description="Parts worth carrying, from what was found.",
    )
    not_known = Rows(
        Part(UnknownFact, description="One fact."),
        most=len(FACTS),
        required=True,
        description="What was not said, that of most units first. It counts as not safe.",
    )


MaintenanceRoundAnswer = answer_of(MaintenanceRoundResults, "MaintenanceRoundAnswer")
