"""What a cleaning is made from, and the steps it comes to."""

from collections.abc import Mapping

from service.calculations.answer import Sentence, Value
from service.calculations.cleaning_gas import GasUse
from service.calculations.cleaning_method import MethodChoice, WayIn
from service.calculations.cleaning_site import Site
from service.calculations.closing_test import ClosingTest
from service.calculations.frozen import dataclass
from service.tables.cleaning_step_row import StepRow


@dataclass(frozen=True, kw_only=True, slots=True)
class Step:
    """One step of the plan.

    Parameters
    ----------
    order : int
        From 1.
    row : StepRow
        Of `service.tables.cleaning_steps.STEPS`: what is always the same.
    values : mapping
        What its texts may name.
    place : str
        One of `service.tables.cleaning_step_row.PLACES`.
    plug_first : tuple of str
        Openings to close before it, keys of `service.tables.cleaning_step_row.OPENINGS`.
    tool : str
        One of `service.tables.cleaning_step_row.TOOLS`.
    pressure_limit : float or None
        Highest gauge pressure of gas [Pa]; None where there is none.
    minutes : float
        How long it takes [min].
    cautions : tuple of str
        Codes of `service.tables.cautions`.
    """

    order: int
    row: StepRow
    values: Mapping[str, Value]
    place: str
    plug_first: tuple[str, ...]
    tool: str
    pressure_limit: float | None
    minutes: float
    cautions: tuple[str, ...]

    @property
    def code(self) -> str:
        """One of `service.tables.cleaning_steps.STEP_CODES`."""
        return self.row.code

    @property
    def instruction(self) -> Sentence:
        """What to do."""
        return Sentence(text=self.row.instruction, values=self.values)

    @property
    def look_for(self) -> Sentence:
        """What to look for meanwhile."""
        return Sentence(text=self.row.look_for, values=self.values)


@dataclass(frozen=True, kw_only=True, slots=True)
class Job:
    """Everything the steps are made from.

    Parameters
    ----------
    site : Site
        As found.
    way : WayIn
        How it is opened.
    choice : MethodChoice
        How it is cleaned.
    gas : GasUse or None
        Gas on the truck.
    test : ClosingTest
        What to pour at the end.
    rinse_volume : float
        Water to rinse with [m3].
    tube_volume : float
        Water to flush a pump's tube with [m3].
    has_trap : bool
        Whether there is a seal to refill.
    safety_float : str or None
        Of the pump: one of `service.calculations.pump_cycle.SAFETY_FLOATS`.
    safety_volume : float or None
        Water that lifts it, from an empty tank [m3].
    """

    site: Site
    way: WayIn
    choice: MethodChoice
    gas: GasUse | None
    test: ClosingTest
    rinse_volume: float
    tube_volume: float
    has_trap: bool
    safety_float: str | None
    safety_volume: float | None


@dataclass(frozen=True, kw_only=True, slots=True)
class Work:
    """The steps, and their time.

    Parameters
    ----------
    steps : tuple of Step
        In order.
    minutes : float
        All of them together [min].
    good_minutes : float
        What it would be with a cleanout that opens by hand and a union [min].
    """

    steps: tuple[Step, ...]
    minutes: float
    good_minutes: float
