"""One formula for floats and arrays: the few functions that must know which they got.

A plain float goes through ``math``, which is twenty times faster for one number than numpy.
"""

import math
from collections.abc import Callable
from typing import TypeVar, cast

import numpy as np
from numpy.typing import NDArray

Real = TypeVar("Real", float, NDArray[np.float64])


def exp(value: Real) -> Real:
    """e to the power of ``value``."""
    return math.exp(value) if isinstance(value, float) else np.exp(value)


def log(value: Real) -> Real:
    """Natural logarithm."""
    return math.log(value) if isinstance(value, float) else np.log(value)


def where(condition: bool | NDArray[np.bool_], yes: Real, no: Real) -> Real:
    """``yes`` where the condition holds, otherwise ``no``."""
    if isinstance(condition, bool):
        return yes if condition else no
    return cast(Real, np.where(condition, yes, no))


def piecewise(
    condition: bool | NDArray[np.bool_], yes: Callable[[Real], Real], no: Callable[[Real], Real], value: Real
) -> Real:
    """``yes(value)`` where the condition holds, otherwise ``no(value)``; no element is asked of the other."""
    if isinstance(condition, bool) or isinstance(value, float):
        return yes(value) if condition else no(value)
    if condition.all():
        return yes(value)
    if not condition.any():
        return no(value)
    result = np.empty_like(value)
    result[condition] = yes(value[condition])
    result[~condition] = no(value[~condition])
    return result


def smallest(value: Real) -> float:
    """The smallest of the elements; NaN if one is."""
    return float(value.min()) if isinstance(value, np.ndarray) else value


def largest(value: Real) -> float:
    """The largest of the elements; NaN if one is."""
    return float(value.max()) if isinstance(value, np.ndarray) else value
