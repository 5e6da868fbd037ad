"""Diffusion of vapour through still air against handbooks and textbooks."""

import math

import pytest

from service.calculations.level_fall import OpenLeg, fall_time
from service.calculations.vapour_diffusion import WaterSurface, diffusivity, fall_coefficient
from service.calculations.water import density

ATMOSPHERE = 101325.0


@pytest.mark.parametrize(("temperature", "cm2_per_s"), [(293.15, 0.242), (373.15, 0.399)])
def test_diffusivity_is_that_of_the_crc_handbook(temperature, cm2_per_s):
    """CRC Handbook of Chemistry and Physics, table "Diffusion in gases", H2O-air, three digits."""
    assert diffusivity(temperature, ATMOSPHERE) * 1e4 == pytest.approx(cm2_per_s, abs=0.0005)


@pytest.mark.parametrize("temperature", [273.15, 283.15, 293.15, 303.15, 313.15, 333.15])
def test_diffusivity_agrees_with_another_review_of_the_measurements(temperature):
    """Massman, Atmospheric Environment 32 (1998): 0.2178 cm2/s (T / 273.15 K)^1.81.

    Two reviews of the same measurements, whose scatter is about 5 %.
    """
    other = 0.2178e-4 * (temperature / 273.15) ** 1.81
    assert diffusivity(temperature, ATMOSPHERE) == pytest.approx(other, rel=0.05)


def test_diffusivity_goes_as_one_over_pressure():
    assert diffusivity(298.15, 70e3) * 70e3 == pytest.approx(diffusivity(298.15, 101e3) * 101e3)


def test_water_at_the_bottom_of_a_narrow_tube():
    """Geankoplis, Transport Processes and Unit Operations, example 6.2-2 (from memory).

    Water at 293 K under 1 atm and 0.1524 m of still dry air: 1.595e-7 kgmol/m2 s, with D = 0.250e-4 m2/s and
    17.54 mmHg. Corrected for our D; the book rounds to four digits, and the enhancement factor is 0.4 %.
    """
    surface = WaterSurface(temperature=293.0, pressure=ATMOSPHERE)
    speed = fall_coefficient(surface, 0.0) / 0.1524  # m/s
    flux = speed * density(293.0) / 18.015  # kgmol/m2 s
    assert flux * 0.250e-4 / surface.diffusivity == pytest.approx(1.595e-7, rel=0.008)


def test_time_of_a_falling_level():
    """A Stefan tube of toluene, textbook: 820 kg/m3, 92 kg/kmol, 57 mmHg at 303 K and 1.013 bar, 20 to 77.5 mm.

    The level needs 275 h; worked for D with a logarithmic mean x_bm, D = x_bm c_l (z^2 - z0^2) / (2 c t x_a). The
    coefficient of our form of the law holds the logarithm itself.
    """
    vapour = 57.0 / 760.0 * 1.0135 / 1.013
    mean = vapour / math.log(1.0 / (1.0 - vapour))
    mixture, liquid = 1.013e5 / (8314.0 * 303.0), 820.0 / 92.0
    spread = mean * liquid * (0.0775**2 - 0.020**2) / (2.0 * mixture * 275 * 3600.0 * vapour)
    assert spread == pytest.approx(0.8e-5, rel=0.02)  # toluene in air: 0.8e-5 to 0.9e-5 m2/s in the handbooks
    coefficient = spread * mixture / liquid * math.log(1.0 / (1.0 - vapour))
    time = fall_time((OpenLeg(path=0.020, coefficient=coefficient),), 0.0, 0.0575)
    assert time / 3600.0 == pytest.approx(275.0, rel=1e-9)
