"""Answers the rows of a batch one by one, so that a bad row spoils only itself."""

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from functools import partial
from typing import Any, cast

from flask import request
from marshmallow import ValidationError

from service.calculations.answer import Answer
from service.calculations.cleaning_site import Equipment
from service.calculations.maintenance_round import (
    RoundTotals,
    Stop,
    UnknownFact,
    plan_round,
    settle_truck,
)
from service.calculations.round_parts import RoundPart
from service.calculations.round_supplies import MethodSupplies
from service.calculations.unit_visit import UnitVisit, visit_unit
from service.routes.problems import Problem, problem_document
from service.routes.reading import schema_mismatch
from service.schemas.assessment_batch import ReadUnit


@dataclass(frozen=True, kw_only=True, slots=True)
class BatchRow:
    """One row: an answer or a problem."""

    index: int
    status: int
    answer: Answer[Any] | None
    problem: dict[str, Any] | None


@dataclass(frozen=True, kw_only=True, slots=True)
class Batch:
    """The rows, in the order of the request, each made when it is asked for."""

    rows: Iterator[BatchRow]


def answer_each(units: Iterable[ReadUnit], calculate: Callable[..., Answer[Any]]) -> Batch:
    """Answer every row with ``calculate``, or with the problem of reading it.

    Parameters
    ----------
    units : iterable of ReadUnit
    calculate : callable
        Takes a row's members as keyword arguments.

    Returns
    -------
    Batch
    """
    path = request.path
    return Batch(rows=(_row(index, unit, calculate, path) for index, unit in enumerate(units)))


def _row(index: int, unit: ReadUnit, calculate: Callable[..., Answer[Any]], path: str) -> BatchRow:
    if unit.error is None:
        answer = calculate(**(unit.arguments or {}))
        return BatchRow(index=index, status=200, answer=answer, problem=None)
    place = f"/units/{index}" if unit.line is None else f"line={unit.line}"
    problem = problem_document(_problem_of(unit.error, unit.line), f"{path}#{place}")
    return BatchRow(index=index, status=problem["status"], answer=None, problem=problem)


def _problem_of(error: Exception, line: int | None) -> Problem:
    if not isinstance(error, Problem):
        return schema_mismatch(cast(ValidationError, error), line)
    fault = {"line": line, "detail": f"Line {line}: {error.detail}"}
    return Problem(error.slug, detail=error.detail, errors=[fault])


@dataclass(frozen=True, kw_only=True, slots=True)
class RoundRow:
    """One unit of a round: a visit or a problem."""

    index: int
    status: int
    visit: UnitVisit | None
    problem: dict[str, Any] | None


@dataclass(frozen=True, kw_only=True, slots=True)
class AnsweredRound:
    """A round, with the problems of the units that could not be read."""

    order: tuple[Stop, ...]
    units: tuple[RoundRow, ...]
    totals: RoundTotals
    consumables: tuple[MethodSupplies, ...]
    parts: tuple[RoundPart, ...]
    not_known: tuple[UnknownFact, ...]


def answer_round(
    *,
    units: Iterable[ReadUnit],
    equipment: Equipment | None = None,
    **day: Any,
) -> Answer[AnsweredRound]:
    """Visit every unit that could be read, and plan the round of them.

    Parameters
    ----------
    units : iterable of ReadUnit
        As read, each by itself.
    equipment : Equipment or None
        What is on the truck.
    **day : Any
        What else `service.calculations.maintenance_round.plan_round` takes.

    Returns
    -------
    Answer of AnsweredRound
    """
    rows = tuple(answer_each(units, partial(visit_unit, equipment=settle_truck(equipment))).rows)
    planned = plan_round(visits=[row.answer for row in rows], equipment=equipment, **day)
    results = AnsweredRound(
        order=planned.results.order,
        units=tuple(
            RoundRow(index=row.index, status=row.status, visit=visit, problem=row.problem)
            for row, visit in zip(rows, planned.results.visits, strict=True)
        ),
        totals=planned.results.totals,
        consumables=planned.results.consumables,
        parts=planned.results.parts,
        not_known=planned.results.not_known,
    )
    return Answer(
        results=results,
        findings=planned.findings,
        assumptions=planned.assumptions,
        cautions=planned.cautions,
        sources=planned.sources,
    )
