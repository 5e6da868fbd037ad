"""The scale that weighs causes, and the shape of the rows.

A cause's points are a logarithm to the base 2 of its odds: one point more doubles the odds, one less halves them. A
cause starts with the points of how common it is behind the symptom; each observation adds points or takes them away,
as if the observations were independent of each other once the cause is given (naive Bayes).

Every value of an observation speaks for the causes it names with one strength, and against the causes it names with
one strength. That is more than tidiness: it makes sure that what speaks for a cause never lowers its share or its
rank, and what speaks against it never raises them, whatever else is known.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field

STRENGTHS = {"slight": 1, "moderate": 2, "strong": 4, "decisive": 8}
"""Points by strength: the odds times 2, 4, 16 and 256. Judgement; common practice, no source."""

COMMONNESS = {"usual": 4, "common": 2, "occasional": 1, "rare": 0}
"""Points a cause starts with, by how common it is behind the symptom. Judgement; common practice, no source."""

SOMETHING_ELSE_POINTS = 0
"""Points of all that this table does not hold: as common as one rare cause, and no observation changes it."""

BASIS = "common practice"

EXPLANATION = (
    "Each cause starts with points for how common it is behind this symptom: usual 4, common 2, occasional 1, rare 0. "
    "What was observed adds points or takes them away: slight 1, moderate 2, strong 4, decisive 8. One point "
    "doubles or "
    "halves the odds. The share compares a cause with all the others and with something not listed here, as if only "
    "one of them were at work. The weights are judgement (common practice, no source): use points and share to decide "
    "what to check first, not as a probability."
)
"""How the ranking comes about, for the reader of an answer."""


IMPLIED_BY_SYMPTOM = "The symptom says so."
"""Why a value that was not sent is taken."""

SAID_BY_SYMPTOM = "The symptom says so already."
SAYS_NOTHING_HERE = "For this symptom it follows from the trouble, whatever its cause."
EQUALLY_LIKELY = "It is as likely under each of these causes."
"""Why something that was sent has no weight."""


@dataclass(frozen=True, kw_only=True, slots=True)
class CauseRow:
    """A cause of trouble with condensate.

    Parameters
    ----------
    code : str
        Stable kebab-case name.
    name : str
        What a technician calls it.
    words : str
        What happens, and why it shows.
    remedy : str
        What to do about it.
    cautions : tuple of str
        Codes of cautions that its remedy needs.
    go_on_with : str or None
        Symptom to ask about next, where this cause has causes of its own.
    operation : str or None
        Path of the operation that puts numbers to it.
    harmless : bool
        Nothing is wrong.
    """

    code: str
    name: str
    words: str
    remedy: str
    cautions: tuple[str, ...] = ()
    go_on_with: str | None = None
    operation: str | None = None
    harmless: bool = False


@dataclass(frozen=True, kw_only=True, slots=True)
class SymptomRow:
    """What a customer or a technician reports.

    Parameters
    ----------
    code : str
        Stable kebab-case name.
    words : str
        The symptom as people say it.
    usual, common, occasional, rare : tuple of str
        Codes of its causes by how common they are behind it.
    wet : bool
        Water is, or soon will be, where it should not be.
    implied : mapping
        Observations that the symptom itself states: name to value. They count in how common the causes are.
    """

    code: str
    words: str
    usual: tuple[str, ...]
    common: tuple[str, ...] = ()
    occasional: tuple[str, ...] = ()
    rare: tuple[str, ...] = ()
    wet: bool = False
    implied: tuple[tuple[str, str], ...] = ()
    _causes: dict[str, str] = field(init=False, repr=False, compare=False)

    def __post_init__(self) -> None:
        """Put the causes together once."""
        groups = (("usual", self.usual), ("common", self.common), ("occasional", self.occasional), ("rare", self.rare))
        object.__setattr__(self, "_causes", {code: word for word, codes in groups for code in codes})

    def causes(self) -> Mapping[str, str]:
        """Code of each cause to how common it is, the most common first."""
        return self._causes


@dataclass(frozen=True, slots=True)
class Speaks:
    """What a value says of some causes, all with one strength.

    Parameters
    ----------
    strength : str
        Key of `STRENGTHS`.
    causes : tuple of str
        Codes of the causes.
    why : str
        The reason, as a sentence.
    """

    strength: str
    causes: tuple[str, ...]
    why: str


@dataclass(frozen=True, kw_only=True, slots=True)
class ValueRow:
    """One value of an observation.

    Parameters
    ----------
    value : str
        Kebab-case word.
    words : str
        What was seen, as a sentence.
    speaks_for, speaks_against : Speaks or None
        What it says of causes.
    """

    value: str
    words: str
    speaks_for: Speaks | None = None
    speaks_against: Speaks | None = None
    weights: dict[str, int] = field(init=False, repr=False, compare=False)
    most: int = field(init=False, repr=False, compare=False)

    def __post_init__(self) -> None:
        """Read once the points of each cause, positive for it, negative against it, and the most it gives for one."""
        weights: dict[str, int] = {}
        for says, sign in ((self.speaks_for, 1), (self.speaks_against, -1)):
            if says:
                weights |= dict.fromkeys(says.causes, sign * STRENGTHS[says.strength])
        object.__setattr__(self, "weights", weights)
        object.__setattr__(self, "most", STRENGTHS[self.speaks_for.strength] if self.speaks_for else 0)


@dataclass(frozen=True, kw_only=True, slots=True)
class ObservationRow:
    """Something to look at or ask, with the values it may have.

    Parameters
    ----------
    name : str
        Member of the request.
    question : str
        What to find out.
    how : str
        How to find it out.
    minutes : float
        How long that takes once at the unit. Common practice, no source.
    values : tuple of ValueRow
        What may be found.
    needs_pump : bool
        It has a sense only where there is a pump.
    needs_trap : bool
        It has a sense only where there is a trap.
    only_for, not_for : tuple of str
        Symptoms it counts for; all, where both are empty.
    cautions : tuple of str
        Codes of cautions that finding it out needs.
    """

    name: str
    question: str
    how: str
    minutes: float
    values: tuple[ValueRow, ...]
    needs_pump: bool = False
    needs_trap: bool = False
    only_for: tuple[str, ...] = ()
    not_for: tuple[str, ...] = ()
    cautions: tuple[str, ...] = ()
    tells_of: frozenset[str] = field(init=False, repr=False, compare=False)

    def __post_init__(self) -> None:
        """Collect the causes that its values speak of once."""
        object.__setattr__(self, "tells_of", frozenset(cause for value in self.values for cause in value.weights))

    def counts_for(self, symptom: str) -> bool:
        """Tell whether the observation says anything about this symptom's causes."""
        return (not self.only_for or symptom in self.only_for) and symptom not in self.not_for
