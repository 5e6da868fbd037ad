"""What an hour-by-hour condensate rate answers."""

from service.calculations.frozen import dataclass

STATUSES = ("wet", "dry", "off", "misread", "beyond-air")
"""Of a row: makes water; makes none; cooling off; no air reads so; the air cannot give up so much heat."""


@dataclass(frozen=True, kw_only=True, slots=True)
class DayTotals:
    """Days in order, as columns.

    Parameters
    ----------
    dates : tuple of str
        ISO 8601.
    volumes : tuple of float
        Water of each day [m3].
    peak_rates : tuple of float
        Largest rate of each day [m3/s].
    """

    dates: tuple[str, ...]
    volumes: tuple[float, ...]
    peak_rates: tuple[float, ...]


@dataclass(frozen=True, kw_only=True, slots=True)
class MonthTotal:
    """One month.

    Parameters
    ----------
    month : str
        ISO 8601, ``2026-07``.
    volume : float
        Water [m3].
    peak_rate : float
        Largest rate [m3/s].
    wet_time : float
        Time with water being made [s].
    rows : int
        Rows that begin in it.
    rows_without_rate : int
        How many of them have no rate, and add nothing.
    """

    month: str
    volume: float
    peak_rate: float
    wet_time: float
    rows: int
    rows_without_rate: int


@dataclass(frozen=True, kw_only=True, slots=True)
class PeakDay:
    """The day with the most water.

    Parameters
    ----------
    date : str
        ISO 8601.
    volume : float
        Water [m3].
    """

    date: str
    volume: float


@dataclass(frozen=True, kw_only=True, slots=True)
class Storage:
    """Re-use of the water at a steady daily demand, the series repeating itself.

    Parameters
    ----------
    demand : float
        Water wanted over the series [m3].
    needed_volume : float or None
        Smallest tank with which the demand never fails [m3]; None where more is wanted than comes.
    sustainable_daily_demand : float
        The most that any tank can give each day: all the water, evenly [m3].
    used, spilled, shortfall : float or None
        With a tank: water drawn, run over, lacking [m3].
    start_volume, end_volume : float or None
        With a tank: water in it before the first row and after the last [m3].
    met_fraction : float or None
        With a tank: part of the demand that is met.
    short_time : float or None
        With a tank: time in which the demand is not met in full [s].
    """

    demand: float
    needed_volume: float | None
    sustainable_daily_demand: float
    used: float | None = None
    spilled: float | None = None
    shortfall: float | None = None
    start_volume: float | None = None
    end_volume: float | None = None
    met_fraction: float | None = None
    short_time: float | None = None


@dataclass(frozen=True, kw_only=True, slots=True)
class RowRates:
    """Every row, as columns.

    Parameters
    ----------
    rates : tuple of float or None
        Water made while the coil runs [m3/s]; None without a rate.
    statuses : tuple of str
        Of `STATUSES`.
    """

    rates: tuple[float | None, ...]
    statuses: tuple[str, ...]


@dataclass(frozen=True, kw_only=True, slots=True)
class SeriesRate:
    """Water made hour by hour; totals and peaks are None where no row has a rate.

    Parameters
    ----------
    rows, rows_without_rate : int
        Rows computed, and how many of them have no rate.
    total_volume : float or None
        Water of all rows that have a rate [m3].
    average_daily_volume : float or None
        The same, spread over the length of the series [m3 a day].
    peak_rate : float or None
        Largest rate while the coil runs [m3/s].
    peak_time : str or None
        Begin of its row, ISO 8601; None too where no water is made.
    peak_index : int or None
        Its place in the columns, from 0.
    peak_day : PeakDay or None
        The day with the most water.
    wet_time : float or None
        Time in which water is made, run fraction counted [s].
    time_above_capacity : float or None
        Time in which more comes than the capacity, run fraction counted [s]; None without a capacity.
    monthly : tuple of MonthTotal
        Months from the first row's to the last's.
    daily : DayTotals
        Days from the first row's to the last's.
    storage : Storage or None
        With a daily demand.
    hourly : RowRates or None
        Where asked for.
    """

    rows: int
    rows_without_rate: int
    total_volume: float | None
    average_daily_volume: float | None
    peak_rate: float | None
    peak_time: str | None
    peak_index: int | None
    peak_day: PeakDay | None
    wet_time: float | None
    time_above_capacity: float | None
    monthly: tuple[MonthTotal, ...]
    daily: DayTotals
    storage: Storage | None
    hourly: RowRates | None
