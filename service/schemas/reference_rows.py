"""Rows of the reference tables, made from ``tables`` and ``units``."""

from dataclasses import dataclass

from service.calculations.answer import VERDICTS
from service.tables.cautions import CAUTIONS
from service.tables.drain_sizes import DRAIN_SIZES
from service.tables.findings.catalogue import FINDINGS
from service.tables.findings.row import ATTENTION, FAIL, INFO
from service.units import KINDS, SYMBOLS, bounds

_VERDICT_OF = dict(zip((INFO, ATTENTION, FAIL), VERDICTS, strict=True))


@dataclass(frozen=True, kw_only=True, slots=True)
class DrainSizeRow:
    """One line of the drain size table; capacities [W]."""

    pipe_size: str | None
    over: float
    up_to: float | None
    basis: str


@dataclass(frozen=True, kw_only=True, slots=True)
class UnitRow:
    """One unit symbol."""

    symbol: str
    kind: str
    name: str
    si_unit: str
    factor: float
    offset: float
    ucum: str
    minimum: float
    maximum: float
    us_default: str
    si_default: str


@dataclass(frozen=True, kw_only=True, slots=True)
class FindingTextRow:
    """One finding of the catalogue."""

    code: str
    severity: str
    verdict: str
    message: str
    remedy: str
    basis: str


@dataclass(frozen=True, kw_only=True, slots=True)
class CautionRow:
    """One caution."""

    code: str
    message: str


def drain_size_rows() -> tuple[DrainSizeRow, ...]:
    """The drain size table, with the engineered range last."""
    rows, over = [], 0.0
    for size in DRAIN_SIZES:
        rows.append(DrainSizeRow(pipe_size=size.pipe_size, over=over, up_to=size.up_to, basis=size.basis))
        over = size.up_to
    rows.append(DrainSizeRow(pipe_size=None, over=over, up_to=None, basis="engineered; beyond the table"))
    return tuple(rows)


def unit_rows() -> tuple[UnitRow, ...]:
    """Every unit symbol, by kind."""
    rows = []
    for unit in SYMBOLS.values():
        kind = KINDS[unit.kind]
        low, high = bounds(unit.symbol, kind.low, kind.high)
        rows.append(
            UnitRow(
                symbol=unit.symbol,
                kind=unit.kind,
                name=unit.name,
                si_unit=kind.si,
                factor=unit.factor,
                offset=unit.offset,
                ucum=unit.ucum,
                minimum=low,
                maximum=high,
                us_default="yes" if kind.us_symbol == unit.symbol else "no",
                si_default="yes" if kind.si_symbol == unit.symbol else "no",
            )
        )
    return tuple(rows)


def finding_rows() -> tuple[FindingTextRow, ...]:
    """Every finding, by code."""
    return tuple(
        FindingTextRow(
            code=row.code,
            severity=row.severity,
            verdict=_VERDICT_OF[row.severity],
            message=row.message,
            remedy=row.remedy,
            basis=row.basis,
        )
        for row in sorted(FINDINGS.values(), key=lambda row: row.code)
    )


def caution_rows() -> tuple[CautionRow, ...]:
    """Every caution, by code."""
    return tuple(CautionRow(code=code, message=message) for code, message in sorted(CAUTIONS.items()))
