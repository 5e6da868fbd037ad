"""The table behind ``symptom-triage``, as ``reference/symptoms`` shows it."""

from dataclasses import dataclass
from functools import cache

from service.schemas.fields import Choice, Flag, Part, Quantity, Rows, Text, Whole, Wording
from service.schemas.payload import Written
from service.tables.triage.causes import CAUSES
from service.tables.triage.observations import OBSERVATIONS
from service.tables.triage.scale import (
    BASIS,
    COMMONNESS,
    EXPLANATION,
    STRENGTHS,
    CauseRow,
    ObservationRow,
    Speaks,
    SymptomRow,
    ValueRow,
)
from service.tables.triage.symptoms import SYMPTOMS

MOST_ROWS = 1000
MINUTE = 60.0


class ScaleWord(Written):
    """A word of the scale and its points."""

    word = Text(required=True, description="The word.")
    points = Whole(0, MOST_ROWS, required=True, description="Points; each doubles the odds.")


class SymptomCauseShare(Written):
    """A cause of a symptom and how common it is behind it."""

    cause = Choice(tuple(CAUSES), required=True, description="Code of the cause.")
    how_common = Choice(tuple(COMMONNESS), required=True, description="How common it is behind the symptom.")


class ImpliedObservation(Written):
    """An observation that the symptom itself states."""

    observation = Choice(tuple(OBSERVATIONS), required=True, description="The observation.")
    value = Text(required=True, description="The value it states.")


class SymptomText(Written):
    """One symptom."""

    symptom = Choice(tuple(SYMPTOMS), required=True, description="Stable code.")
    words = Wording(required=True, description="The symptom as people say it.")
    causes = Rows(
        Part(SymptomCauseShare, description="One cause."),
        most=MOST_ROWS,
        required=True,
        description="Its causes, the most common first.",
    )
    implied = Rows(
        Part(ImpliedObservation, description="One observation."),
        most=MOST_ROWS,
        required=True,
        description="What the symptom itself says; it counts in how common the causes are.",
    )
    basis = Wording(required=True, description="What it rests on: a standard, `physics` or `common practice`.")


class SymptomCauseText(Written):
    """One cause."""

    cause = Choice(tuple(CAUSES), required=True, description="Stable code.")
    name = Wording(required=True, description="What a technician calls it.")
    words = Wording(required=True, description="What happens, and why it shows.")
    remedy = Wording(required=True, description="What to do about it.")
    go_on_with = Choice(
        tuple(SYMPTOMS), required=True, nullable=True, description="Symptom to ask about next; null where none."
    )
    operation = Text(
        required=True, nullable=True, description="Path of the operation that puts numbers to it; null where none does."
    )
    basis = Wording(required=True, description="What it rests on: a standard, `physics` or `common practice`.")


class CauseEvidence(Written):
    """What a value says of some causes, all with one strength."""

    strength = Choice(tuple(STRENGTHS), required=True, description="How strongly it speaks.")
    causes = Rows(
        Choice(tuple(CAUSES), description="Code."), most=MOST_ROWS, required=True, description="Causes it speaks of."
    )
    why = Wording(required=True, description="The reason.")


class SymptomValueText(Written):
    """One value of an observation."""

    value = Text(required=True, description="The word to send.")
    words = Wording(required=True, description="What was seen.")
    speaks_for = Part(CauseEvidence, required=True, nullable=True, description="What it speaks for.")
    speaks_against = Part(CauseEvidence, required=True, nullable=True, description="What it speaks against.")


class SymptomObservationText(Written):
    """One observation, which is also a check."""

    observation = Choice(tuple(OBSERVATIONS), required=True, description="Member of the request.")
    question = Wording(required=True, description="What to find out.")
    how = Wording(required=True, description="How to find it out.")
    time = Quantity("time", us="min", si="min", required=True, description="How long that takes, once at the unit.")
    needs_pump = Flag(required=True, description="True where it has a sense only with a pump.")
    needs_trap = Flag(required=True, description="True where it has a sense only with a trap.")
    only_for = Rows(
        Choice(tuple(SYMPTOMS), description="Code."),
        most=MOST_ROWS,
        required=True,
        description="Symptoms it counts for; all but those of `not_for` where empty.",
    )
    not_for = Rows(
        Choice(tuple(SYMPTOMS), description="Code."),
        most=MOST_ROWS,
        required=True,
        description="Symptoms it does not count for.",
    )
    values = Rows(
        Part(SymptomValueText, description="One value."),
        most=MOST_ROWS,
        required=True,
        description="What may be found.",
    )
    basis = Wording(required=True, description="What it rests on: a standard, `physics` or `common practice`.")


class SymptomTable(Written):
    """What the triage of a symptom knows: judgement of the trade, laid open."""

    explanation = Wording(required=True, description="How the ranking comes about.")
    commonness = Rows(
        Part(ScaleWord, description="One word."),
        most=MOST_ROWS,
        required=True,
        description="Points a cause starts with.",
    )
    strengths = Rows(
        Part(ScaleWord, description="One word."),
        most=MOST_ROWS,
        required=True,
        description="Points an observation adds or takes away.",
    )
    symptoms = Rows(
        Part(SymptomText, description="One symptom."), most=MOST_ROWS, required=True, description="The symptoms."
    )
    causes = Rows(
        Part(SymptomCauseText, description="One cause."), most=MOST_ROWS, required=True, description="The causes."
    )
    observations = Rows(
        Part(SymptomObservationText, description="One observation."),
        most=MOST_ROWS,
        required=True,
        description="The observations.",
    )


@dataclass(frozen=True, kw_only=True, slots=True)
class ScalePoints:
    """A word of the scale and its points."""

    word: str
    points: int


@dataclass(frozen=True, kw_only=True, slots=True)
class CauseShare:
    """A cause of a symptom and how common it is behind it."""

    cause: str
    how_common: str


@dataclass(frozen=True, kw_only=True, slots=True)
class Implied:
    """An observation that a symptom states."""

    observation: str
    value: str


@dataclass(frozen=True, kw_only=True, slots=True)
class SymptomEntry:
    """One symptom."""

    symptom: str
    words: str
    causes: tuple[CauseShare, ...]
    implied: tuple[Implied, ...]
    basis: str = BASIS


@dataclass(frozen=True, kw_only=True, slots=True)
class CauseEntry:
    """One cause."""

    cause: str
    name: str
    words: str
    remedy: str
    go_on_with: str | None
    operation: str | None
    basis: str = BASIS


@dataclass(frozen=True, kw_only=True, slots=True)
class ValueEntry:
    """One value of an observation."""

    value: str
    words: str
    speaks_for: Speaks | None
    speaks_against: Speaks | None


@dataclass(frozen=True, kw_only=True, slots=True)
class ObservationEntry:
    """One observation; time [s]."""

    observation: str
    question: str
    how: str
    time: float
    needs_pump: bool
    needs_trap: bool
    only_for: tuple[str, ...]
    not_for: tuple[str, ...]
    values: tuple[ValueEntry, ...]
    basis: str = BASIS


@dataclass(frozen=True, kw_only=True, slots=True)
class SymptomTables:
    """The whole table."""

    explanation: str
    commonness: tuple[ScalePoints, ...]
    strengths: tuple[ScalePoints, ...]
    symptoms: tuple[SymptomEntry, ...]
    causes: tuple[CauseEntry, ...]
    observations: tuple[ObservationEntry, ...]


@cache
def symptom_tables() -> SymptomTables:
    """The table as its schema writes it."""
    return SymptomTables(
        explanation=EXPLANATION,
        commonness=tuple(ScalePoints(word=word, points=points) for word, points in COMMONNESS.items()),
        strengths=tuple(ScalePoints(word=word, points=points) for word, points in STRENGTHS.items()),
        symptoms=tuple(_symptom(row) for row in SYMPTOMS.values()),
        causes=tuple(_cause(row) for row in CAUSES.values()),
        observations=tuple(_observation(row) for row in OBSERVATIONS.values()),
    )


def _symptom(row: SymptomRow) -> SymptomEntry:
    causes = tuple(CauseShare(cause=cause, how_common=word) for cause, word in row.causes().items())
    implied = tuple(Implied(observation=name, value=value) for name, value in row.implied)
    return SymptomEntry(symptom=row.code, words=row.words, causes=causes, implied=implied)


def _cause(row: CauseRow) -> CauseEntry:
    return CauseEntry(
        cause=row.code,
        name=row.name,
        words=row.words,
        remedy=row.remedy,
        go_on_with=row.go_on_with,
        operation=row.operation,
    )


def _observation(row: ObservationRow) -> ObservationEntry:
    return ObservationEntry(
        observation=row.name,
        question=row.question,
        how=row.how,
        time=row.minutes * MINUTE,
        needs_pump=row.needs_pump,
        needs_trap=row.needs_trap,
        only_for=row.only_for,
        not_for=row.not_for,
        values=tuple(_value(value) for value in row.values),
    )


def _value(row: ValueRow) -> ValueEntry:
    return ValueEntry(value=row.value, words=row.words, speaks_for=row.speaks_for, speaks_against=row.speaks_against)
