"""``GET /v1/reference/...``: the tables behind the answers."""

from dataclasses import dataclass
from typing import Any

from flask import current_app, request

from service.routes.blueprint import Blueprint, UnitsQuery
from service.routes.document import outline_of
from service.schemas.fields import Text
from service.schemas.glossary import LONGEST_TERM, Glossary
from service.schemas.glossary_rows import GlossaryRows, glossary_rows
from service.schemas.reference import CautionTable, DrainSizeTable, FindingTable, PipeSizeTable, UnitTable
from service.schemas.reference_rows import caution_rows, drain_size_rows, finding_rows, unit_rows
from service.schemas.reference_symptoms import SymptomTable, SymptomTables, symptom_tables
from service.tables.pipe_sizes import PIPE_SIZES

blueprint = Blueprint("reference", __name__, description="The tables the answers rest on.")


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


class GlossaryQuery(UnitsQuery):
    """The query of the glossary."""

    term = Text(
        LONGEST_TERM,
        description="Only what is called so: a member, a finding's code or a problem's slug. All when left out.",
    )


@blueprint.route("/v1/reference/glossary", methods=["GET"])
@blueprint.table(Glossary, GlossaryQuery)
def explain_terms() -> GlossaryRows:
    """Every member, finding and problem type, in words.

    Each member of a request or an answer with what it is, its kind, its units, what is accepted and the operations that
    have it; each finding as a technician reads it; each problem type with what to do about it. Made from this document
    and the tables themselves. Findings are in the language asked for, the rest is for programmers and in English.
    `?term=seal_depth` picks out one name.
    """
    kept: dict[str, GlossaryRows] = current_app.extensions.setdefault("glossary", {})
    if not kept:
        kept["rows"] = glossary_rows(outline_of(current_app))
    return kept["rows"].only(request.args.get("term"))
