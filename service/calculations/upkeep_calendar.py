"""The year of a cooling unit: months with and without cooling, and how long the drain stands idle."""

from service.calculations.answer import Assumption
from service.calculations.frozen import dataclass
from service.tables.upkeep.row import AUTUMN, MID_SEASON, SPRING, WINTER

MONTHS = 12

USUAL_START, USUAL_MONTHS = 5, 5
"""Cooling from May to September, as in a temperate northern climate. Common practice, no source."""

DAYS = (31, 29, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31)
"""Days of each month, of the longest year there is."""

DAY = 86400.0


@dataclass(frozen=True, kw_only=True, slots=True)
class CoolingYear:
    """Months of a year, as numbers from 1.

    Parameters
    ----------
    cooling : tuple of int
        Months with cooling, in their order.
    idle : tuple of int
        Months without, in their order; none where the unit cools all year.
    assumptions : tuple of Assumption
        Months that were not given.
    """

    cooling: tuple[int, ...]
    idle: tuple[int, ...]
    assumptions: tuple[Assumption, ...]

    @property
    def idle_time(self) -> float:
        """Time without cooling [s], of the longest year there is."""
        return DAY * sum(DAYS[month - 1] for month in self.idle)

    def months_of(self, season: str) -> tuple[int, ...]:
        """Months in which a season's work falls due.

        Parameters
        ----------
        season : str
            One of `service.tables.upkeep.row.SEASONS`.

        Returns
        -------
        tuple of int
            Start-up in the last month before the cooling, shut-down in the first after it; winter between the two, or
            in the same months where there is nothing between; mid-season likewise within the cooling. Where the unit
            cools all year: the first and the last month of it, and no winter.
        """
        around = self.idle or self.cooling
        first, last = (self.idle[-1:], self.idle[:1]) if self.idle else (around[:1], around[-1:])
        return {
            SPRING: first,
            MID_SEASON: self.cooling[1:-1] or self.cooling,
            AUTUMN: last,
            WINTER: self.idle[1:-1] or self.idle,
        }[season]


def read_year(cooling_starts: int | None, cooling_ends: int | None) -> CoolingYear:
    """Find the months with and without cooling.

    Parameters
    ----------
    cooling_starts, cooling_ends : int or None
        First and last month with cooling, 1 to 12; the year may turn between them.

    Returns
    -------
    CoolingYear

    Examples
    --------
    A southern summer, November to March:

    >>> read_year(11, 3).cooling, read_year(11, 3).idle
    ((11, 12, 1, 2, 3), (4, 5, 6, 7, 8, 9, 10))
    """
    assumptions = []
    first, last = cooling_starts, cooling_ends
    if first is None:
        first = USUAL_START if last is None else _turned(last - USUAL_MONTHS + 1)
        note = "Not given: four months before the last. Common practice."
        if last is None:
            note = "Not given: May. Common practice."
        assumptions.append(Assumption(pointer="/cooling_starts", value=first, note=note))
    if last is None:
        last = _turned(first + USUAL_MONTHS - 1)
        note = "Not given: four months after the first. Common practice."
        assumptions.append(Assumption(pointer="/cooling_ends", value=last, note=note))
    count = (last - first) % MONTHS + 1
    months = tuple(_turned(first + step) for step in range(MONTHS))
    return CoolingYear(cooling=months[:count], idle=months[count:], assumptions=tuple(assumptions))


def growth_since(year: CoolingYear, months: int) -> tuple[int, int]:
    """Fewest and most months with cooling among so many past months, whichever month it is now.

    Parameters
    ----------
    year : CoolingYear
    months : int
        Months gone by.

    Returns
    -------
    tuple of int

    Examples
    --------
    Of three months all may have had cooling, or none:

    >>> growth_since(read_year(5, 9), 3)
    (0, 3)
    """
    years, rest = divmod(months, MONTHS)  # of the rest at best all fall into the season, or all months outside it
    whole = years * len(year.cooling)
    return whole + max(rest - len(year.idle), 0), whole + min(rest, len(year.cooling))


def _turned(month: int) -> int:
    return (month - 1) % MONTHS + 1
