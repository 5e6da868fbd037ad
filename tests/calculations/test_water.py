"""Liquid water: kinds of argument, limits."""

import numpy as np
import pytest

from service.calculations import water
from service.calculations.water import LIMITS
from service.errors import OutOfRange

PROPERTIES = [water.density, water.dynamic_viscosity, water.liquid_enthalpy]


@pytest.mark.parametrize("prop", PROPERTIES)
def test_a_float_gives_a_float_and_an_array_gives_the_same_numbers(prop):
    temperatures = np.array([274.15, 298.15, 350.0])
    answers = prop(temperatures)
    assert answers.shape == (3,)
    for temperature, answer in zip(temperatures.tolist(), answers, strict=True):
        alone = prop(temperature)
        assert type(alone) is float
        assert alone == pytest.approx(answer, rel=1e-13)


@pytest.mark.parametrize("prop", PROPERTIES)
@pytest.mark.parametrize("temperature", [253.0, 383.3, float("nan"), np.array([300.0, 390.0])])
def test_outside_the_release_is_refused(prop, temperature):
    with pytest.raises(OutOfRange):
        prop(temperature)


@pytest.mark.parametrize("prop", PROPERTIES)
def test_both_ends_of_the_range_are_allowed(prop):
    assert np.isfinite(prop(LIMITS["temperature"].low))
    assert np.isfinite(prop(LIMITS["temperature"].high))
