"""What the closed lists of words are called in the document.

Client generators make one type of each named list, whichever members hold it, and call it by this name; a list without
a name becomes another type for every member.
"""

import re
from dataclasses import dataclass
from typing import Any

from service.calculations.air_flow import BASES, PLACES
from service.calculations.air_over_trap import OPEN_LEGS
from service.calculations.answer import VERDICTS
from service.calculations.cleaning_site import FLOAT_SWITCHES, FOULED
from service.calculations.condensate_series_results import STATUSES
from service.calculations.drain_segment import JUDGEMENTS
from service.calculations.dry_out_results import OUTCOMES
from service.calculations.fuel_rate import FUELS
from service.calculations.furnace_drain import CARRIED, NEUTRALIZERS
from service.calculations.gathering import ASSESSED, NOT_ASSESSED
from service.calculations.installation import BELOW, CLEANOUTS, DISCHARGE_PLACES, LOCATIONS
from service.calculations.overflow_protection import PROTECTIONS
from service.calculations.overflow_results import STOPPERS
from service.calculations.pump_compare import RUN_TOGETHER
from service.calculations.pump_cycle import SAFETY_FLOATS
from service.calculations.pump_out import MEASURED_AT
from service.calculations.pump_ranking import CARRIES, DECIDED_BY
from service.calculations.pump_restriction_results import CAUSES as RESTRICTION_CAUSES
from service.calculations.trap_water import STATES
from service.calculations.triage_ranking import COMPUTED, IMPLIED, SEEN, STANDINGS
from service.calculations.unit_visit import CONSUMING
from service.calculations.visit_urgency import FAILURES, STOPS
from service.tables.carried_parts import PART_NAMES
from service.tables.cautions import CAUTIONS
from service.tables.cleaning_methods import CARRY_ITEMS, METHODS, REFUSALS
from service.tables.cleaning_step_row import OPENINGS, TOOLS
from service.tables.cleaning_step_row import PLACES as STEP_PLACES
from service.tables.cleaning_steps import STEP_CODES
from service.tables.drain_sizes import DRAIN_SIZES
from service.tables.findings.catalogue import FINDINGS
from service.tables.findings.row import ATTENTION, FAIL, INFO
from service.tables.gases import GASES
from service.tables.pipe_sizes import COMMON_SIZES, MATERIALS, NOMINAL_SIZES
from service.tables.problems import PROBLEMS
from service.tables.round_facts import FACTS
from service.tables.triage.causes import CAUSES
from service.tables.triage.observations import OBSERVATIONS
from service.tables.triage.scale import COMMONNESS, STRENGTHS
from service.tables.triage.symptoms import SYMPTOMS
from service.tables.upkeep.checks import CODES
from service.tables.upkeep.row import SEASONS
from service.tables.urgency import RULES, URGENCIES
from service.units import KINDS, SYMBOLS_OF, SYSTEMS

_SIZE_NAMES = {
    "1/2": "HALF_INCH",
    "3/4": "THREE_QUARTER_INCH",
    "1": "ONE_INCH",
    "1-1/4": "ONE_AND_A_QUARTER_INCH",
    "1-1/2": "ONE_AND_A_HALF_INCH",
    "2": "TWO_INCH",
    "2-1/2": "TWO_AND_A_HALF_INCH",
    "3": "THREE_INCH",
    "4": "FOUR_INCH",
}


@dataclass(frozen=True, slots=True)
class WordList:
    """A closed list of words that has a name.

    Parameters
    ----------
    name : str
        Of the component in the document.
    words : tuple of str
    description : str
        What the words tell apart.
    """

    name: str
    words: tuple[str, ...]
    description: str

    def json_schema(self) -> dict[str, Any]:
        """The component: the words, and what a generator calls each, for many a word is no name in a program."""
        return {
            "type": "string",
            "enum": list(self.words),
            "x-enum-varnames": [constant_name(word) for word in self.words],
            "description": self.description,
        }


def constant_name(word: str) -> str:
    """What a program calls a word.

    Examples
    --------
    >>> [constant_name(word) for word in ("3/4", "gal/min", "/line/run", "drain-cut-out")]
    ['THREE_QUARTER_INCH', 'GAL_PER_MIN', 'LINE_RUN', 'DRAIN_CUT_OUT']
    """
    if word in _SIZE_NAMES:
        return _SIZE_NAMES[word]
    per = "_" if word.startswith("/") else "_PER_"
    return re.sub(r"[^A-Z0-9]+", "_", word.strip("/").replace("/", per).upper())


SIDES = ("request", "answer")

MEMBER_KINDS = ("quantity", "column", "number", "count", "choice", "text", "moment", "flag", "object", "list", "any")

PROBLEM_SLUGS = WordList("ProblemSlug", tuple(PROBLEMS), "Last segment of the `type` of a problem.")

UNIT_LISTS = tuple(
    WordList(f"{kind.title}Unit", tuple(SYMBOLS_OF[kind.name]), f"Unit of {kind.name.replace('_', ' ')}.")
    for kind in KINDS.values()
)

WORD_LISTS = {
    each.words: each
    for each in (
        WordList("UnitSystem", SYSTEMS, "System of units of an answer: US customary or SI."),
        WordList("Verdict", VERDICTS, "The worst severity among findings, `info` counting as `pass`."),
        WordList("Severity", (INFO, ATTENTION, FAIL), "How bad a finding is."),
        WordList("FindingCode", tuple(sorted(FINDINGS)), "Code of a finding; later versions may bring more."),
        WordList("CautionCode", tuple(sorted(CAUTIONS)), "Code of a caution; later versions may bring more."),
        WordList("QuantityKind", tuple(KINDS), "Kind of quantity."),
        WordList("MemberSide", SIDES, "Whether a member is sent or answered."),
        WordList("MemberKind", MEMBER_KINDS, "What the value of a member looks like."),
        WordList("YesOrNo", ("yes", "no"), "Yes or no."),
        WordList("NominalSize", NOMINAL_SIZES, "Nominal pipe size in inches."),
        WordList("CommonSize", COMMON_SIZES, "Nominal size that is made in every material."),
        WordList(
            "TableSize", tuple(row.pipe_size for row in DRAIN_SIZES), "Nominal size of the codes' table of drains."
        ),
        WordList("PipeMaterial", MATERIALS, "Material and schedule or type of a pipe."),
        WordList("AirFlowBasis", BASES, "Whether an air flow is as measured or of standard air."),
        WordList("CoilSide", PLACES, "Side of the coil."),
        WordList("Location", LOCATIONS, "Where a unit stands."),
        WordList("SpaceBelow", BELOW, "What water from a unit would wet first."),
        WordList("DischargePlace", DISCHARGE_PLACES, "Where a drain line ends."),
        WordList("Cleanout", CLEANOUTS, "How a line can be opened for cleaning."),
        WordList("ProtectionKind", PROTECTIONS, "What stops the water when a drain blocks."),
        WordList("StoppedBy", STOPPERS, "What ends the water when a drain is blocked or a pump dead."),
        WordList("SafetyFloat", SAFETY_FLOATS, "Whether a pump's safety float stops the cooling call."),
        WordList("Fuel", tuple(FUELS), "Fuel of a furnace or boiler."),
        WordList("Neutralizer", NEUTRALIZERS, "Whether acid water goes through a neutralizer."),
        WordList("PartStatus", (ASSESSED, NOT_ASSESSED), "Whether there was enough to assess a part."),
        WordList("TrapMoment", STATES, "When the water in a trap stands so."),
        WordList("OpenLegs", OPEN_LEGS, "Legs of a trap that are open to the air."),
        WordList("SealOutcome", OUTCOMES, "Whether a seal lasts."),
        WordList("SegmentJudgement", JUDGEMENTS, "How a segment of a line falls."),
        WordList("PondMove", ("raise", "lower"), "Which way a station has to go to let a pond drain."),
        WordList("RowStatus", STATUSES, "What a row of a series tells."),
        WordList("RunTogether", RUN_TOGETHER, "How several pumps in one tank take their turns."),
        WordList("PumpReserve", CARRIES, "Whether a pump carries the water, and with what reserve."),
        WordList("RankingReason", DECIDED_BY, "What puts a pump behind the one before it."),
        WordList("PumpOutMeasuredAt", MEASURED_AT, "Where a pump-out was timed."),
        WordList("RestrictionCause", RESTRICTION_CAUSES, "What a timed pump-out tells of the tube and the pump."),
        WordList("Symptom", tuple(SYMPTOMS), "What the trouble looks like."),
        WordList("Cause", tuple(CAUSES), "Cause of a symptom."),
        WordList("CauseStanding", STANDINGS, "How a cause stands against the leading one."),
        WordList("Observation", tuple(OBSERVATIONS), "Something that can be looked at, heard or tried."),
        WordList("EvidenceOrigin", (SEEN, COMPUTED, IMPLIED), "Where evidence comes from."),
        WordList("EvidenceStrength", tuple(STRENGTHS), "How strongly evidence speaks."),
        WordList("HowCommon", tuple(COMMONNESS), "How common a cause is behind a symptom."),
        WordList("Urgency", URGENCIES, "How soon a unit needs its visit."),
        WordList("UrgencyCondition", tuple(rule.name for rule in RULES), "Rule that makes a unit urgent."),
        WordList("FailureKind", FAILURES, "What goes wrong first."),
        WordList("FailureStop", STOPS, "Whether something stops the water before it reaches the building."),
        WordList("PartName", PART_NAMES, "Part worth having on the truck."),
        WordList("UnknownMember", tuple(fact.member for fact in FACTS), "Pointer to a member of a unit worth knowing."),
        WordList("FouledPart", FOULED, "Part that is fouled."),
        WordList("FloatSwitch", FLOAT_SWITCHES, "Where a float switch stands."),
        WordList("CleaningMethod", METHODS, "What clears a drain."),
        WordList("SupplyMethod", CONSUMING, "Method of cleaning that brings something to the unit or uses it up."),
        WordList("RefusalReason", tuple(REFUSALS), "Why a method is refused."),
        WordList("CleaningGas", tuple(GASES), "Gas that blows a line clear."),
        WordList("StepCode", STEP_CODES, "Stable name of a step of cleaning."),
        WordList("StepPlace", STEP_PLACES, "Where a step is done."),
        WordList("StepTool", TOOLS, "What a step is done with."),
        WordList("Opening", tuple(OPENINGS), "Opening of a drain that is closed before it is blown through."),
        WordList("CarriedThing", CARRY_ITEMS, "What goes along for a cleaning."),
        WordList("PourPlace", ("pan", "cleanout", "union"), "Where the water of the closing test goes in."),
        WordList("Season", SEASONS, "Season, by its work."),
        WordList("UpkeepCode", CODES, "Stable name of a check of the season."),
        WordList("DrainSource", CARRIED, "Whose water a shared drain carries."),
    )
}
"""Every list that a member may hold a word of, by its words."""
