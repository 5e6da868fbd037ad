"""Payloads of ``symptom-triage``."""

from service.calculations.triage_ranking import COMPUTED, IMPLIED, SEEN, STANDINGS
from service.schemas.assessment import AssessmentRequest
from service.schemas.envelope import Finding, answer_of
from service.schemas.fields import Choice, Flag, Number, Part, Quantity, Rows, Text, Whole, Wording
from service.schemas.payload import Payload, Written
from service.schemas.word_lists import WordList
from service.tables.triage.causes import CAUSES
from service.tables.triage.observations import OBSERVATIONS
from service.tables.triage.scale import COMMONNESS, STRENGTHS, ObservationRow
from service.tables.triage.symptoms import SYMPTOMS

LONGEST_DESCRIPTION = 2000
MOST_CAUSES = len(CAUSES)
MOST_FACTS = 200
MOST_VALUES = 20
MOST_POINTS = 1000


def _observation(row: ObservationRow) -> Choice:
    """The request member of one observation: its question and what each value means."""
    meanings = " ".join(f"`{value.value}`: {value.words[0].lower()}{value.words[1:]}" for value in row.values)
    words = tuple(value.value for value in row.values)
    name = "".join(part.capitalize() for part in row.name.split("_"))
    return Choice(
        words, named=WordList(f"Observed{name}", words, row.question), description=f"{row.question} {meanings}"
    )


TriageObservations: type[Payload] = type(
    "TriageObservations",
    (Payload,),
    {
        "__doc__": "What was observed. Every member is optional; leave out what is not known.",
        **{name: _observation(row) for name, row in OBSERVATIONS.items()},
    },
)


class SymptomTriageRequest(Payload):
    """A symptom, and whatever was observed around it."""

    symptom = Choice(
        tuple(SYMPTOMS),
        required=True,
        description="What is reported. " + " ".join(f"`{row.code}`: {row.words}" for row in SYMPTOMS.values()),
    )
    observations = Part(TriageObservations, description="What was observed.")
    water_near_electrical = Flag(
        description="True where water reaches wiring, outlets, lights or controls; false where somebody looked."
    )
    building_getting_wet = Flag(description="True where water is getting into the building.")
    unit = Part(
        AssessmentRequest,
        description="What is known of the unit, as `assessment` takes it; its findings count as observations.",
    )
    description = Text(
        LONGEST_DESCRIPTION, description="Free text for the caller's own records; neither interpreted nor repeated."
    )

    examples = {
        "held-up-by-suction": {
            "summary": "Invented: water when the fan stops, and the trap was measured",
            "value": {
                "symptom": "water-when-fan-stops",
                "observations": {
                    "season": "cooling",
                    "pour_test": "drains-freely",
                    "discharge_flow": "rush-when-fan-stops",
                    "filter": "clean",
                },
                "water_near_electrical": False,
                "building_getting_wet": True,
                "unit": {
                    "unit_id": "AHU-3",
                    "location": "attic",
                    "below": "finished-ceiling",
                    "pan_pressure": {"value": -1.2, "unit": "inH2O"},
                    "trap": {
                        "outlet_drop": {"value": 0.25, "unit": "in"},
                        "seal_depth": {"value": 2, "unit": "in"},
                        "pipe_size": "3/4",
                    },
                },
                "description": "Invented: the tenant says it rains from the ceiling at night",
            },
        },
        "smell-in-winter": {
            "summary": "A sewer smell in the heating season",
            "value": {
                "symptom": "sewer-smell",
                "observations": {"season": "heating", "trap_state": "dry", "discharge_into": "sewer-line"},
            },
        },
        "pump-runs-on-si": {
            "summary": "Invented: a pump that runs on, with lift and tube in SI units",
            "value": {
                "symptom": "pump-runs-on",
                "observations": {"pump_motor": "runs-and-stays-full", "fall_back": "stays-up"},
                "unit": {
                    "cooling": {"total_capacity": {"value": 10.5, "unit": "kW"}, "sensible_heat_ratio": 0.75},
                    "pump": {
                        "lift": {"value": 5.6, "unit": "m"},
                        "tube": {
                            "bore": {"value": 9.5, "unit": "mm"},
                            "length": {"value": 12, "unit": "m"},
                            "elbows": 4,
                            "check_valve": True,
                        },
                        "pump": {
                            "curve": [
                                {"lift": {"value": 0, "unit": "m"}, "flow": {"value": 300, "unit": "L/h"}},
                                {"lift": {"value": 6, "unit": "m"}, "flow": {"value": 0, "unit": "L/h"}},
                            ],
                            "safety_float": "wired",
                        },
                    },
                },
            },
        },
        "nothing-wrong": {
            "summary": "No water at the discharge in dry weather, and the drain takes what is poured",
            "value": {
                "symptom": "no-water-at-discharge",
                "observations": {
                    "season": "between-seasons",
                    "weather": "dry",
                    "water_shows": "nowhere",
                    "pour_test": "drains-freely",
                },
                "water_near_electrical": False,
            },
        },
        "symptom-only": {"summary": "Nothing but the symptom is known", "value": {"symptom": "no-cooling-fan-runs"}},
    }


class TriageEvidence(Written):
    """What one thing known says of one cause."""

    observation = Choice(tuple(OBSERVATIONS), required=True, description="The observation.")
    value = Text(required=True, description="What was found.")
    words = Wording(required=True, description="The same in words.")
    why = Wording(required=True, description="Why it speaks for the cause, or against it.")
    strength = Choice(tuple(STRENGTHS), required=True, description="How strongly it speaks.")
    points = Whole(
        -MOST_POINTS,
        MOST_POINTS,
        required=True,
        description="Points it adds; each doubles the odds, each minus halves.",
    )
    origin = Choice(
        (SEEN, COMPUTED, IMPLIED), required=True, description="Whether it was observed or follows from the unit's data."
    )
    findings = Rows(
        Part(Finding, description="One finding."),
        most=MOST_FACTS,
        required=True,
        description="Findings on the unit's data it follows from, with their numbers.",
    )
    basis = Wording(required=True, description="Basis of the fact; the weight is always common practice.")


class TriageCause(Written):
    """One cause with its place and what speaks for and against it."""

    rank = Whole(1, MOST_CAUSES, required=True, description="Rank of the cause; 1 is the most likely.")
    cause = Choice(tuple(CAUSES), required=True, description="Stable code.")
    name = Wording(required=True, description="What a technician calls it.")
    words = Wording(required=True, description="What happens, and why it shows.")
    standing = Choice(STANDINGS, required=True, description="How it stands against the leading one.")
    share = Number(
        required=True,
        description="Share among all causes, 0 to 1: a ranking aid from judged weights, not a probability.",
    )
    points = Whole(-MOST_POINTS, MOST_POINTS, required=True, description="Start points plus those of the evidence.")
    how_common = Choice(tuple(COMMONNESS), required=True, description="How common it is behind this symptom.")
    start_points = Whole(0, MOST_POINTS, required=True, description="Points for how common it is.")
    evidence_for = Rows(
        Part(TriageEvidence, description="One thing."),
        most=MOST_FACTS,
        required=True,
        description="What speaks for it, strongest first.",
    )
    evidence_against = Rows(
        Part(TriageEvidence, description="One thing."),
        most=MOST_FACTS,
        required=True,
        description="What speaks against it, strongest first.",
    )
    remedy = Wording(required=True, description="What to do about it.")
    go_on_with = Choice(
        tuple(SYMPTOMS),
        required=True,
        nullable=True,
        description="Symptom to post next if it is this; null where none.",
    )
    operation = Text(
        required=True, nullable=True, description="Path of the operation that puts numbers to it; null where none does."
    )
    basis = Wording(required=True, description="Basis of cause, remedy and weights.")


class TriageCauseName(Written):
    """A cause by its code and name."""

    cause = Choice(tuple(CAUSES), required=True, description="Stable code.")
    name = Wording(required=True, description="What a technician calls it.")


class TriageOutcome(Written):
    """One outcome of a check and what it would mean."""

    value = Text(required=True, description="Value to send if this is found.")
    words = Wording(required=True, description="The same in words.")
    leading_cause = Choice(tuple(CAUSES), required=True, description="The cause that would lead.")
    leading_name = Wording(required=True, description="Name of that cause.")
    order = Rows(
        Choice(tuple(CAUSES), description="Code."),
        most=MOST_CAUSES,
        required=True,
        description="The first causes there would be, best first.",
    )


class TriageCheck(Written):
    """A check that has not been made."""

    check = Choice(tuple(OBSERVATIONS), required=True, description="Observation to send afterwards.")
    question = Wording(required=True, description="What to find out.")
    how = Wording(required=True, description="How to find it out.")
    time = Quantity("time", us="min", si="min", required=True, description="How long that takes, once at the unit.")
    information = Number(
        required=True, description="What it is expected to tell about the leading causes, in bits; a ranking aid."
    )
    splits_first_two = Flag(required=True, description="Whether it tells the first two causes apart.")
    changes_leader = Flag(required=True, description="Whether its outcomes give different leading causes.")
    tells_apart = Rows(
        Part(TriageCauseName, description="One cause."),
        most=MOST_CAUSES,
        required=True,
        description="The leading causes it tells apart.",
    )
    outcomes = Rows(
        Part(TriageOutcome, description="One outcome."),
        most=MOST_VALUES,
        required=True,
        description="What may be found, and the order of causes it would give.",
    )
    basis = Wording(required=True, description="What it rests on: a standard, `physics` or `common practice`.")


class TriageOpenCheck(Written):
    """A check that has not been made and would help; `next_check` tells more of the first of them."""

    check = Choice(tuple(OBSERVATIONS), required=True, description="Observation to send afterwards.")
    question = Wording(required=True, description="What to find out.")
    how = Wording(required=True, description="How to find it out.")
    time = Quantity("time", us="min", si="min", required=True, description="How long that takes, once at the unit.")
    information = Number(
        required=True, description="What it is expected to tell about the leading causes, in bits; a ranking aid."
    )
    splits_first_two = Flag(required=True, description="Whether it tells the first two causes apart.")
    changes_leader = Flag(required=True, description="Whether its outcomes give different leading causes.")


class TriageSafeStep(Written):
    """One thing to make safe before the first check."""

    code = Text(required=True, description="Stable code.")
    do = Wording(required=True, description="What to do.")
    why = Wording(required=True, description="The reason.")


class TriageWithoutWeight(Written):
    """Something sent that tells no causes apart."""

    observation = Choice(tuple(OBSERVATIONS), required=True, description="The observation.")
    value = Text(required=True, description="What was found.")
    words = Wording(required=True, description="The same in words.")
    why = Wording(required=True, description="Why it does not count.")


class SymptomTriageResults(Written):
    """The causes in order, the next check, and what to make safe first."""

    symptom = Choice(tuple(SYMPTOMS), required=True, description="The symptom, as sent.")
    symptom_words = Wording(required=True, description="The symptom in words.")
    make_safe = Rows(
        Part(TriageSafeStep, description="One step."),
        most=MOST_VALUES,
        required=True,
        description="Before anything else, in this order.",
    )
    causes = Rows(
        Part(TriageCause, description="One cause."),
        most=MOST_CAUSES,
        required=True,
        description="Every cause listed for the symptom, best first.",
    )
    something_else_share = Number(
        required=True,
        description="Share of what is not listed for this symptom; with the shares of the causes it makes 1.",
    )
    next_check = Part(
        TriageCheck,
        required=True,
        nullable=True,
        description="The open check that tells the leading causes apart best for its time; null where none does.",
    )
    not_known = Rows(
        Part(TriageOpenCheck, description="One check."),
        most=MOST_FACTS,
        required=True,
        description="Every open check that would help, the most useful first.",
    )
    without_weight = Rows(
        Part(TriageWithoutWeight, description="One thing."),
        most=MOST_FACTS,
        required=True,
        description="What was sent and tells no causes of this symptom apart.",
    )
    explanation = Wording(required=True, description="How the ranking comes about.")


SymptomTriageAnswer = answer_of(SymptomTriageResults, "SymptomTriageAnswer")
