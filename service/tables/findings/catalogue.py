"""All findings by code."""

from service.tables.findings import (
    assessment,
    cleaning,
    common_line,
    condensate,
    condensate_series,
    drain,
    drain_survey,
    dry_out,
    maintenance_round,
    overflow,
    overflow_surge,
    pump,
    pump_restriction,
    pumps,
    symptom,
    trap,
    upkeep,
)
from service.tables.findings.row import FindingRow

_SUBJECTS = (
    condensate,
    condensate_series,
    trap,
    dry_out,
    drain,
    common_line,
    drain_survey,
    pump,
    pumps,
    pump_restriction,
    overflow,
    overflow_surge,
    assessment,
    symptom,
    cleaning,
    upkeep,
    maintenance_round,
)

FINDINGS: dict[str, FindingRow] = {row.code: row for subject in _SUBJECTS for row in subject.ROWS}
