"""Answers the rows of a batch one by one, so that a bad row spoils only itself."""

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from typing import Any

from flask import request

from service.calculations.answer import Answer
from service.routes.problems import problem_document
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
    """The rows, in the order of the request."""

    rows: tuple[BatchRow, ...]


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
    rows = []
    for index, unit in enumerate(units):
        if unit.error is None:
            answer = calculate(**(unit.arguments or {}))
            rows.append(BatchRow(index=index, status=200, answer=answer, problem=None))
        else:
            problem = problem_document(schema_mismatch(unit.error), f"{request.path}#/units/{index}")
            rows.append(BatchRow(index=index, status=problem["status"], answer=None, problem=problem))
    return Batch(rows=tuple(rows))
