"""Payloads of the reference tables."""

from service.calculations.answer import VERDICTS
from service.schemas.fields import Choice, Number, Quantity, Rows, Text, Wording
from service.schemas.fields import Part as Row
from service.schemas.payload import Written
from service.tables.findings.row import ATTENTION, FAIL, INFO
from service.units import KINDS

MOST_ROWS = 1000
"""Bound on the rows of a table, shown so that no array is unbounded."""


class PipeSize(Written):
    """Dimensions of one nominal size in one material."""

    material = Text(required=True, description="Material and schedule or type.")
    pipe_size = Text(required=True, description="Nominal size.")
    outside_diameter = Quantity("length", required=True, description="Average outside diameter.")
    wall = Quantity("length", required=True, description="Wall thickness that gives the bore.")
    bore = Quantity("length", required=True, description="Inside diameter.")
    standard = Text(required=True, description="Standard the dimensions come from.")


class PipeSizeTable(Written):
    """Pipe bores by material and nominal size."""

    rows = Rows(Row(PipeSize, description="One size."), most=MOST_ROWS, required=True, description="The sizes.")


class DrainSize(Written):
    """The pipe size a total cooling capacity asks for."""

    pipe_size = Text(required=True, nullable=True, description="Smallest nominal size; null where it is engineered.")
    over = Quantity("power", us="ton", si="kW", required=True, description="Total cooling capacity above this.")
    up_to = Quantity(
        "power",
        us="ton",
        si="kW",
        required=True,
        nullable=True,
        description="Total cooling capacity up to and including this; null in the last row.",
    )
    basis = Wording(required=True, description="Code table.")


class DrainSizeTable(Written):
    """Drain line sizes by total cooling capacity."""

    rows = Rows(
        Row(DrainSize, description="One size."), most=MOST_ROWS, required=True, description="Sizes, the smallest first."
    )


class UnitSymbol(Written):
    """One unit symbol of the wire."""

    symbol = Text(required=True, description="Symbol as sent in `unit`.")
    kind = Choice(tuple(KINDS), required=True, description="Kind of quantity.")
    name = Wording(required=True, description="The unit in words.")
    si_unit = Text(required=True, description="SI unit of the kind, in which the factor is given.")
    factor = Number(required=True, description="SI value = (value + offset) x factor.")
    offset = Number(
        required=True, description="Zero but for temperatures, and for Btu/lb, which US charts count from 0 degF."
    )
    ucum = Text(required=True, description="Case-sensitive UCUM code.")
    minimum = Number(required=True, description="Least value any member of this kind accepts in this unit.")
    maximum = Number(required=True, description="Greatest value any member of this kind accepts in this unit.")
    us_default = Choice(("yes", "no"), required=True, description="Whether `?units=us` answers in it by default.")
    si_default = Choice(("yes", "no"), required=True, description="Whether `?units=si` answers in it by default.")


class UnitTable(Written):
    """The closed list of unit symbols."""

    rows = Rows(
        Row(UnitSymbol, description="One symbol."), most=MOST_ROWS, required=True, description="Unit symbols, by kind."
    )


class FindingText(Written):
    """One finding of the catalogue."""

    code = Text(required=True, description="Stable code.")
    severity = Choice((INFO, ATTENTION, FAIL), required=True, description="How bad it is.")
    verdict = Choice(VERDICTS, required=True, description="Verdict it brings about at least.")
    message = Wording(required=True, description="Template of the message; {name:us|si} is a number of the case.")
    remedy = Wording(required=True, description="Template of the remedy.")
    basis = Wording(required=True, description="A code clause, a standard, `physics` or `common practice`.")


class FindingTable(Written):
    """Every finding an answer may hold."""

    rows = Rows(
        Row(FindingText, description="One finding."), most=MOST_ROWS, required=True, description="Findings, by code."
    )


class CautionText(Written):
    """One caution."""

    code = Text(required=True, description="Stable code.")
    message = Wording(required=True, description="The warning, in full.")


class CautionTable(Written):
    """Every caution an answer may hold."""

    rows = Rows(
        Row(CautionText, description="One caution."), most=MOST_ROWS, required=True, description="Cautions, by code."
    )
