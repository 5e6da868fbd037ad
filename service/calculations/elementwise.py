"""One formula for floats and arrays: the few functions that must know which they got.

A plain float goes through ``math``, which is twenty times faster for one number than numpy.
"""

import math
from collections.abc import Callable
from itertools import repeat
from typing import TypeVar, cast

import numpy as np
from numpy.typing import NDArray

Real = TypeVar("Real", float, NDArray[np.float64])


def exp(value: Real) -> Real:
    """e to the power of ``value``."""
    return np.exp(value) if isinstance(value, np.ndarray) else math.exp(value)


def log(value: Real) -> Real:
    """Natural logarithm."""
    return np.log(value) if isinstance(value, np.ndarray) else math.log(value)


def where(condition: bool | NDArray[np.bool_], yes: Real, no: Real) -> Real:
    """``yes`` where the condition holds, otherwise ``no``."""
    if isinstance(condition, np.ndarray):
        return cast(Real, np.where(condition, yes, no))
    return yes if condition else no


def piecewise(
    condition: bool | NDArray[np.bool_], yes: Callable[[Real], Real], no: Callable[[Real], Real], value: Real
) -> Real:
    """``yes(value)`` where the condition holds, otherwise ``no(value)``; no element is asked of the other."""
    if not isinstance(condition, np.ndarray) or not isinstance(value, np.ndarray):
        return yes(value) if condition else no(value)
    if condition.all():
        return yes(value)
    if not condition.any():
        return no(value)
    result = np.empty_like(value)
    result[condition] = yes(value[condition])
    result[~condition] = no(value[~condition])
    return result


def powers(value: Real, *exponents: float) -> tuple[Real, ...]:
    """``value`` to the power of each exponent; an array pays for one logarithm and cheap exponentials."""
    if isinstance(value, np.ndarray):
        logarithm = np.log(value)
        return tuple(np.exp(exponent * logarithm) for exponent in exponents)
    return tuple(map(pow, repeat(value), exponents))


def smallest(value: Real) -> float:
    """The smallest of the elements; NaN if one is."""
    return float(value.min()) if isinstance(value, np.ndarray) else value


def largest(value: Real) -> float:
    """The largest of the elements; NaN if one is."""
    return float(value.max()) if isinstance(value, np.ndarray) else value
