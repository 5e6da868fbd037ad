"""Floats and arrays take the same road."""

import numpy as np
import pytest

from service.calculations.elementwise import piecewise, powers


def test_no_element_is_asked_of_the_branch_it_does_not_take() -> None:
    def positive(value: np.ndarray) -> np.ndarray:
        assert (value > 0.0).all()
        return np.sqrt(value)

    def negative(value: np.ndarray) -> np.ndarray:
        assert (value <= 0.0).all()
        return value

    for values in ([4.0, -1.0, 9.0], [4.0, 9.0], [-1.0, -2.0]):
        array = np.array(values)
        result = piecewise(array > 0.0, positive, negative, array)
        assert result.tolist() == [value**0.5 if value > 0.0 else value for value in values]


def test_powers_of_an_array_are_those_of_its_elements() -> None:
    exponents = (-8.3, -0.237, 0.0, 1.0, 3.35)
    values = [0.3, 1.0, 2.93]
    columns = powers(np.array(values), *exponents)
    for row, value in enumerate(values):
        assert powers(value, *exponents) == tuple(value**exponent for exponent in exponents)
        assert [column[row] for column in columns] == pytest.approx(powers(value, *exponents), rel=1e-14)
