"""Every observation by its name; the order is the order of the request's members."""

from service.tables.triage.observed_line import LINE
from service.tables.triage.observed_pump import PUMP
from service.tables.triage.observed_setting import SETTING
from service.tables.triage.observed_signs import SIGNS
from service.tables.triage.observed_trap import TRAP
from service.tables.triage.observed_unit import UNIT
from service.tables.triage.scale import ObservationRow, ValueRow

OBSERVATIONS: dict[str, ObservationRow] = {
    row.name: row for group in (SETTING, SIGNS, UNIT, TRAP, LINE, PUMP) for row in group
}


_VALUES = {(row.name, value.value): value for row in OBSERVATIONS.values() for value in row.values}


def value_row(name: str, value: str) -> ValueRow:
    """The row of one value of one observation.

    Raises
    ------
    KeyError
        Where there is no such observation or value.
    """
    try:
        return _VALUES[name, value]
    except KeyError:
        raise KeyError(f"{name}: {value}") from None
