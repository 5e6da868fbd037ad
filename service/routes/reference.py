"""``GET /v1/reference/...``: the tables behind the answers."""

from dataclasses import dataclass
from typing import Any

from service.routes.blueprint import Blueprint
from service.schemas.reference import CautionTable, DrainSizeTable, FindingTable, PipeSizeTable, UnitTable
from service.schemas.reference_rows import caution_rows, drain_size_rows, finding_rows, unit_rows
from service.schemas.reference_symptoms import SymptomTable, SymptomTables, symptom_tables
from service.tables.pipe_sizes import PIPE_SIZES

blueprint = Blueprint("reference", __name__, description="The tables behind the answers.")


@dataclass(frozen=True, slots=True)
class Table:
    """A reference table, as its schema writes it."""

    rows: tuple[Any, ...]


@blueprint.route("/v1/reference/pipe-sizes", methods=["GET"])
@blueprint.table(PipeSizeTable)
def list_pipe_sizes() -> Table:
    """Pipe bores by material and nominal size.

    Each row names the standard its dimensions come from. Trap, line and sizing calculations use these bores.
    """
    return Table(PIPE_SIZES)


@blueprint.route("/v1/reference/drain-sizes", methods=["GET"])
@blueprint.table(DrainSizeTable)
def list_drain_sizes() -> Table:
    """Drain line size by total cooling capacity.

    From the codes' table; the upper edge of a row belongs to it. Beyond the last row a line is engineered.
    """
    return Table(drain_size_rows())


@blueprint.route("/v1/reference/units", methods=["GET"])
@blueprint.table(UnitTable)
def list_units() -> Table:
    """The closed list of unit symbols.

    Kind, SI factor, widest bounds and UCUM code of each. No other symbol is accepted.
    """
    return Table(unit_rows())


@blueprint.route("/v1/reference/findings", methods=["GET"])
@blueprint.table(FindingTable)
def list_findings() -> Table:
    """Every finding an answer may hold.

    Code, severity, basis, and the templates of message and remedy. Codes are stable.
    """
    return Table(finding_rows())


@blueprint.route("/v1/reference/cautions", methods=["GET"])
@blueprint.table(CautionTable)
def list_cautions() -> Table:
    """Every caution an answer may hold.

    Codes are stable; show the text to whoever does the work.
    """
    return Table(caution_rows())


@blueprint.route("/v1/reference/symptoms", methods=["GET"])
@blueprint.table(SymptomTable)
def list_symptoms() -> SymptomTables:
    """What the triage of a symptom knows.

    Every symptom with its causes by how common they are, every cause with its remedy, every observation with what each
    of its values speaks for and against, and the scale of the weights.
    """
    return symptom_tables()
