"""Rows of equal length in time: when each begins, and sums by day and month.

Times are local standard time, without a change to summer time.
"""

from datetime import datetime, timedelta

import numpy as np
from numpy.typing import NDArray

from service.calculations.air_column import Column, Rows
from service.calculations.frozen import dataclass
from service.calculations.limits import Limit

HOUR, DAY = 3600.0, 86400.0  # [s]

LIMITS = {"step": Limit(60.0, DAY)}  # a minute, a data logger's fastest, to a day, a weather summary's

_ROUNDING = 1e-6  # what a step given in hours may lack of whole seconds [s]


@dataclass(frozen=True, kw_only=True, slots=True)
class Timeline:
    """When each row begins.

    Parameters
    ----------
    start : datetime.datetime
        Begin of the first row.
    step : float
        Length of a row [s].
    rows : int
        How many.
    """

    start: datetime
    step: float
    rows: int

    def text(self, index: int) -> str:
        """Begin of a row as ISO 8601, to the minute where that says all."""
        begin = self.start + timedelta(seconds=int(index * self.step + _ROUNDING))
        return begin.isoformat(timespec="seconds" if begin.second else "minutes")

    def days(self) -> "Periods":
        """The days from the first row's to the last's."""
        return self._periods("D")

    def months(self) -> "Periods":
        """The months from the first row's to the last's."""
        return self._periods("M")

    def _periods(self, unit: str) -> "Periods":
        seconds = np.floor(np.arange(self.rows) * self.step + _ROUNDING).astype(np.int64)
        begins = np.datetime64(self.start, "s") + seconds.astype("timedelta64[s]")
        periods = begins.astype(f"datetime64[{unit}]").astype(np.int64)
        numbers = np.arange(periods[0], periods[-1] + 1)
        return Periods(names=tuple(numbers.astype(f"datetime64[{unit}]").astype(str)), of_row=periods - periods[0])


@dataclass(frozen=True, kw_only=True, slots=True)
class Periods:
    """Days or months in order, none left out, and which one each row begins in.

    Parameters
    ----------
    names : tuple of str
        ISO 8601: ``2026-07-14`` or ``2026-07``.
    of_row : array of int
        Index of the period that each row belongs to.
    """

    names: tuple[str, ...]
    of_row: NDArray[np.int64]

    def sums(self, values: Column | Rows) -> Column:
        """Sum of the rows' values in each period; of flags, how many are set."""
        weights = values.astype(np.float64)
        return np.bincount(self.of_row, weights=weights, minlength=len(self.names)).astype(np.float64)

    def largest(self, values: Column) -> Column:
        """Largest of the rows' values in each period; zero at least."""
        result = np.zeros(len(self.names))
        np.maximum.at(result, self.of_row, values)
        return result
