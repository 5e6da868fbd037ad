"""Floats and arrays take the same road."""

import numpy as np

from service.calculations.elementwise import piecewise


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
