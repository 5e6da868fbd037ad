"""Air read hour by hour: columns of readings, and the water in each row's air.

The rules are those of `air_state.measure_air`, which reads one air: the same formulas, the same allowance for what
instruments err. Here an impossible reading costs its row only.
"""

from collections.abc import Mapping, Sequence
from dataclasses import fields

import numpy as np
from numpy.typing import NDArray

from service.calculations import psychrometrics
from service.calculations.air_state import (
    DRIEST_PERCENT,
    HUMIDITIES,
    MOST_WATER_OF_DRIEST,
    PAIR_ACCURACY,
    TEMPERATURE_ACCURACY,
)
from service.calculations.frozen import dataclass
from service.calculations.limits import Limit, require

Column = NDArray[np.float64]
Rows = NDArray[np.bool_]

LIMITS = {
    "dry_bulb": Limit(223.15, 333.15),  # -58 degF, the coldest towns, to 140 degF, a desert roof in the sun
    "wet_bulb": Limit(218.15, 308.15),  # the same cold air, dry, to 95 degF, the most ever measured outdoors
    "relative_humidity_percent": Limit(1.0, 100.0),
    "dew_point": Limit(213.15, 308.15),  # -76 degF, to 95 degF, the shores of warm seas
}


@dataclass(frozen=True, kw_only=True, slots=True)
class AirColumns:
    """Dry bulb and one measure of humidity, row by row, as read.

    Parameters
    ----------
    dry_bulb : sequence of float
        Temperature [K].
    wet_bulb : sequence of float or None
        Wet-bulb temperature [K].
    relative_humidity_percent : sequence of float or None
        Relative humidity [%].
    dew_point : sequence of float or None
        Dew point [K].

    Raises
    ------
    ValueError
        Unless exactly one of the three humidities is given.
    """

    dry_bulb: Sequence[float]
    wet_bulb: Sequence[float] | None = None
    relative_humidity_percent: Sequence[float] | None = None
    dew_point: Sequence[float] | None = None

    def __post_init__(self) -> None:
        if sum(getattr(self, name) is not None for name in HUMIDITIES) != 1:
            raise ValueError(f"give exactly one of {', '.join(HUMIDITIES)}")

    def lengths(self) -> dict[str, int]:
        """Number of values of each column that is given, by its name."""
        columns = {field.name: getattr(self, field.name) for field in fields(self)}
        return {name: len(column) for name, column in columns.items() if column is not None}


@dataclass(frozen=True, kw_only=True, slots=True)
class MeasuredColumns:
    """Readings turned into air; what ``misread`` marks holds numbers without a meaning.

    Parameters
    ----------
    humidity : str
        Which humidity was read: one of `air_state.HUMIDITIES`.
    dry_bulb : array
        Temperature [K].
    humidity_ratio : array
        Water to dry air [kg/kg].
    above_dry_bulb, too_low : array of bool
        Rows no air can have: wet bulb or dew point above the dry bulb; wet bulb of air without water.
    taken_as_saturated, taken_as_driest : array of bool
        The same by no more than instruments err, and so taken as the nearest air there is.
    """

    humidity: str
    dry_bulb: Column
    humidity_ratio: Column
    above_dry_bulb: Rows
    too_low: Rows
    taken_as_saturated: Rows
    taken_as_driest: Rows

    @property
    def misread(self) -> Rows:
        """Rows without a meaning."""
        return self.above_dry_bulb | self.too_low


def require_column(limits: Mapping[str, Limit], **columns: Column | None) -> None:
    """Raise `OutOfRange` for the first column with an element outside its limit.

    Parameters
    ----------
    limits : mapping of str to Limit
        Limits by argument name.
    **columns : array or None
        The values [SI].
    """
    for name, column in columns.items():
        if column is not None:
            require(limits, **{name: float(column.min())})
            require(limits, **{name: float(column.max())})


def measure_columns(columns: AirColumns, *, rows: int, pressure: float) -> MeasuredColumns:
    """Turn the first rows of the readings into air.

    Parameters
    ----------
    columns : AirColumns
        As measured.
    rows : int
        How many rows; no column is shorter.
    pressure : float
        Station pressure [Pa].

    Returns
    -------
    MeasuredColumns

    Raises
    ------
    OutOfRange
        For an element outside `LIMITS`.

    Examples
    --------
    The handbook's example reads 0.0133 kg/kg off the chart for 30 degC and 50 %; the second row cannot be.

    >>> readings = AirColumns(dry_bulb=[303.15, 293.15], dew_point=[291.58, 296.15])
    >>> measured = measure_columns(readings, rows=2, pressure=101325.0)
    >>> round(float(measured.humidity_ratio[0]), 4), measured.misread.tolist()
    (0.0134, [False, True])
    """
    humidity = next(name for name in HUMIDITIES if getattr(columns, name) is not None)
    dry_bulb = np.asarray(columns.dry_bulb[:rows], dtype=np.float64)
    reading = np.asarray(getattr(columns, humidity)[:rows], dtype=np.float64)
    require_column(LIMITS, **{"dry_bulb": dry_bulb, humidity: reading})
    pressures = np.full(rows, pressure)
    none = np.zeros(rows, dtype=np.bool_)
    if humidity == "relative_humidity_percent":
        ratio = psychrometrics.humidity_ratio_from_relative_humidity(dry_bulb, reading, pressures)
        above = above_little = none
    else:
        above = reading - dry_bulb > PAIR_ACCURACY
        above_little = (reading > dry_bulb) & ~above
        # a wet bulb or dew point at the dry bulb is saturated air
        plausible = np.minimum(reading, dry_bulb)
        if humidity == "dew_point":
            ratio = psychrometrics.humidity_ratio_from_dew_point(plausible, pressures)
        else:
            ratio = psychrometrics.humidity_ratio_from_wet_bulb(dry_bulb, plausible, pressures)
    too_low, driest = none, none
    if humidity == "wet_bulb":
        ratio, too_low, driest = _no_drier_than_possible(dry_bulb, reading, ratio, pressures)
    return MeasuredColumns(
        humidity=humidity,
        dry_bulb=dry_bulb,
        humidity_ratio=ratio,
        above_dry_bulb=above,
        too_low=too_low,
        taken_as_saturated=above_little,
        taken_as_driest=driest,
    )


def _no_drier_than_possible(
    dry_bulb: Column, wet_bulb: Column, ratio: Column, pressures: Column
) -> tuple[Column, Rows, Rows]:
    """Humidity ratios of at least the driest air's; where instruments cannot explain the lack, and where they can."""
    too_low, taken = np.zeros(ratio.shape, dtype=np.bool_), np.zeros(ratio.shape, dtype=np.bool_)
    at = np.flatnonzero(ratio < MOST_WATER_OF_DRIEST)
    if at.size:
        percent = np.full(at.shape, DRIEST_PERCENT)
        driest = psychrometrics.humidity_ratio_from_relative_humidity(dry_bulb[at], percent, pressures[at])
        lacking = ratio[at] < driest
        at, driest = at[lacking], driest[lacking]
    if at.size:
        most = psychrometrics.humidity_ratio_from_wet_bulb(
            dry_bulb[at] - TEMPERATURE_ACCURACY, wet_bulb[at] + TEMPERATURE_ACCURACY, pressures[at]
        )
        ratio = ratio.copy()
        ratio[at] = driest
        too_low[at], taken[at] = most < driest, most >= driest
    return ratio, too_low, taken
