"""Physical limits of an argument, declared once beside the calculation that needs them.

The schemas read the same limits, so that what the document shows is what is enforced.
"""

from collections.abc import Mapping

from service.calculations.frozen import dataclass
from service.errors import OutOfRange

ROUNDING = 1e-9
"""Relative slack for the last bits lost in a unit conversion."""


@dataclass(frozen=True, slots=True)
class Limit:
    """An inclusive range, in SI units.

    Parameters
    ----------
    low, high : float
        Smallest and largest allowed value [SI].
    """

    low: float
    high: float

    def admits(self, value: float) -> bool:
        """Tell whether ``value`` [SI] lies inside, the last bits of rounding aside."""
        if self.low <= value <= self.high:
            return True
        slack = ROUNDING * max(abs(self.low), abs(self.high))
        return self.low - slack <= value <= self.high + slack


def require(limits: Mapping[str, Limit], **arguments: float | None) -> None:
    """Raise `OutOfRange` for the first argument outside its limit.

    Parameters
    ----------
    limits : mapping of str to Limit
        Limits by argument name.
    **arguments : float or None
        The values [SI]; ``None`` (not given) passes.

    Raises
    ------
    OutOfRange
        Also for NaN, which lies in no range.
    """
    for name, value in arguments.items():
        if value is not None and not limits[name].admits(value):
            raise OutOfRange(name, value, limits[name].low, limits[name].high)


def require_members(limits: Mapping[str, Limit], facts: object) -> None:
    """Raise `OutOfRange` for the first member of ``facts`` outside its limit.

    Parameters
    ----------
    limits : mapping of str to Limit
        Limits by member name.
    facts : object
        Has every member of ``limits``, an SI float or ``None`` (not given), which passes.

    Raises
    ------
    OutOfRange
        As `require` does.
    """
    for name, limit in limits.items():
        value = getattr(facts, name)
        if value is not None and not limit.admits(value):
            raise OutOfRange(name, value, limit.low, limit.high)
