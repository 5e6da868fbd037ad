"""The closed list of units, against pint, against UCUM's definitions, and against the published factors."""

import math
import re
from decimal import ROUND_HALF_EVEN, Decimal

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from service.calculations.limits import Limit
from service.units import KINDS, SYMBOLS, SYMBOLS_OF, SYSTEMS, bounds, display, plain

# NIST Special Publication 811 (2008), appendix B.8: factor to SI, as many digits as printed there
# (exact ones are printed in bold: taken with all their digits). Compounds are quotients of two of its rows.
INCH, FOOT, POUND, GRAIN = 2.54e-2, 3.048e-1, 4.5359237e-1, 6.479891e-5  # all exact
GALLON = 3.785411784e-3  # "gallon (U.S.)" 3.785 412 E-03; 231 in3 exactly
PRINTED = 4e-7  # half a unit of the seventh digit of 1.26
HOUR, MINUTE, DAY = 3600.0, 60.0, 86400.0
PUBLISHED = {
    "in": (INCH, 1e-12),
    "ft": (FOOT, 1e-12),
    "mm": (1e-3, 1e-12),
    "cm": (1e-2, 1e-12),
    "m": (1.0, 1e-12),
    "inH2O": (2.490889e2, PRINTED),  # "inch of water, conventional"
    "Pa": (1.0, 1e-12),
    "kPa": (1e3, 1e-12),
    "psi": (6.894757e3, PRINTED),  # "pound-force per square inch (psi)"
    "cfm": (4.719474e-4, PRINTED),  # "cubic foot per minute"
    "m3/h": (1 / HOUR, 1e-12),
    "L/s": (1e-3, 1e-12),
    "gal/h": (GALLON / HOUR, 1e-12),
    "gal/min": (6.309020e-5, PRINTED),  # "gallon (U.S.) per minute (gpm)"
    "L/h": (1e-3 / HOUR, 1e-12),
    "L/min": (1e-3 / MINUTE, 1e-12),
    "gal": (3.785412e-3, PRINTED),
    "L": (1e-3, 1e-12),
    "mL": (1e-6, 1e-12),
    "in3": (1.638706e-5, PRINTED),  # "cubic inch"
    "ft3": (2.831685e-2, PRINTED),  # "cubic foot"
    "Btu/h": (2.930711e-1, PRINTED),  # "British thermal unit IT per hour"
    "kBtu/h": (2.930711e2, PRINTED),
    "ton": (3.516853e3, PRINTED),  # "ton of refrigeration (12 000 Btu IT/h)"
    "kW": (1e3, 1e-12),
    "W": (1.0, 1e-12),
    "oz": (2.834952e-2, PRINTED),  # "ounce (avoirdupois)"
    "lb": (POUND, 1e-12),
    "g": (1e-3, 1e-12),
    "kg": (1.0, 1e-12),
    "lb/h": (1.259979e-4, PRINTED),  # "pound per hour"
    "kg/h": (1 / HOUR, 1e-12),
    "in2": (6.4516e-4, 1e-12),
    "ft2": (9.290304e-2, 1e-12),
    "cm2": (1e-4, 1e-12),
    "m2": (1.0, 1e-12),
    "s": (1.0, 1e-12),
    "min": (MINUTE, 1e-12),
    "h": (HOUR, 1e-12),
    "day": (DAY, 1e-12),
    "lb/lb": (1.0, 1e-12),
    "gr/lb": (1.0 / 7000.0, 1e-12),  # 7000 grains to the pound, exactly
    "g/kg": (1e-3, 1e-12),
    "kg/kg": (1.0, 1e-12),
    "ft/s": (FOOT, 1e-12),
    "m/s": (1.0, 1e-12),
    "Btu/lb": (2.326e3, 1e-12),  # "British thermal unit IT per pound", exact
    "kJ/kg": (1e3, 1e-12),
    "ft3/lb": (6.242796e-2, PRINTED),  # "cubic foot per pound"
    "m3/kg": (1.0, 1e-12),
}

TEMPERATURES = ("degF", "degC", "K")

# pint expressions written anew; a Btu (IT) warms a pound of water by one degF at 4186.8 J/(kg K), by definition
PINT = {
    "in": "in",
    "ft": "ft",
    "mm": "0.001 * m",
    "cm": "0.01 * m",
    "m": "m",
    "inH2O": "2.54 * centimeter_H2O",
    "Pa": "N / m ** 2",
    "kPa": "1000 * Pa",
    "psi": "force_pound / in ** 2",
    "cfm": "ft ** 3 / min",
    "m3/h": "m ** 3 / h",
    "L/s": "dm ** 3 / s",
    "gal/h": "231 * in ** 3 / h",
    "gal/min": "231 * in ** 3 / min",
    "L/h": "dm ** 3 / h",
    "L/min": "dm ** 3 / min",
    "gal": "4 * liquid_quart",
    "L": "dm ** 3",
    "mL": "cm ** 3",
    "in3": "in ** 3",
    "ft3": "ft ** 3",
    "Btu/h": "4186.8 * J / kg * lb * 5 / 9 / h",
    "kBtu/h": "4186800 * J / kg * lb * 5 / 9 / h",
    "ton": "12000 * 4186.8 * J / kg * lb * 5 / 9 / h",
    "kW": "1000 * J / s",
    "W": "J / s",
    "oz": "437.5 * grain",
    "lb": "7000 * grain",
    "g": "0.001 * kg",
    "kg": "kg",
    "lb/h": "7000 * grain / h",
    "kg/h": "kg / h",
    "in2": "in ** 2",
    "ft2": "ft ** 2",
    "cm2": "cm ** 2",
    "m2": "m ** 2",
    "s": "s",
    "min": "60 * s",
    "h": "60 * min",
    "day": "24 * h",
    "lb/lb": "lb / lb",
    "gr/lb": "grain / lb",
    "g/kg": "g / kg",
    "kg/kg": "kg / kg",
    "ft/s": "ft / s",
    "m/s": "m / s",
    "Btu/lb": "4186.8 * J / kg * 5 / 9",
    "kJ/kg": "1000 * J / kg",
    "ft3/lb": "ft ** 3 / lb",
    "m3/kg": "m ** 3 / kg",
}

# UCUM 2.2 (ucum-essence.xml, 2024-06-17): each atom's definition, and whether a metric prefix may stand before it
UCUM_ATOMS: dict[str, tuple[float, bool]] = {
    "m": (1.0, True),
    "s": (1.0, True),
    "g": (1e-3, True),
    "Pa": (1.0, True),
    "J": (1.0, True),
    "W": (1.0, True),
    "L": (1e-3, True),
    "min": (60.0, False),
    "h": (3600.0, False),
    "d": (86400.0, False),
    "[in_i]": (0.0254, False),
    "[ft_i]": (0.3048, False),
    "[cft_i]": (0.3048**3, False),
    "[cin_i]": (0.0254**3, False),
    "[sin_i]": (0.0254**2, False),
    "[sft_i]": (0.3048**2, False),
    "[gal_us]": (231 * 0.0254**3, False),
    "[Btu_IT]": (1055.05585262, False),
    "[oz_av]": (437.5 * 64.79891e-6, False),
    "[lb_av]": (7000 * 64.79891e-6, False),
    "[gr]": (64.79891e-6, False),
    "[in_i'H2O]": (9806.65 * 0.0254, False),
    "[psi]": (7000 * 64.79891e-6 * 9.80665 / 0.0254**2, False),
}
UCUM_PREFIXES = {"m": 1e-3, "c": 1e-2, "k": 1e3}
UCUM_TEMPERATURES = {"degF": "[degF]", "degC": "Cel", "K": "K"}


def ucum_factor(code: str) -> float:
    """Evaluate a UCUM term made of atoms, prefixes, exponents, ``.`` and ``/``."""
    factor = 1.0
    for operator, term in re.findall(r"([./]?)([^./]+)", code):
        match = re.fullmatch(r"(\[[^]]+]|[A-Za-z]+|\d+)(\d?)", term)
        assert match, f"{term} in {code}"
        atom, exponent = match[1], int(match[2] or 1)
        if atom.isdecimal():
            value = float(term)
            exponent = 1
        elif atom in UCUM_ATOMS:
            value = UCUM_ATOMS[atom][0]
        else:
            prefix, atom = atom[0], atom[1:]
            assert UCUM_ATOMS[atom][1], f"{atom} in {code} takes no metric prefix"
            value = UCUM_PREFIXES[prefix] * UCUM_ATOMS[atom][0]
        factor *= value ** (exponent if operator != "/" else -exponent)
    return factor


def test_the_tables_here_name_every_symbol() -> None:
    assert set(PUBLISHED) | set(TEMPERATURES) == set(SYMBOLS)
    assert set(PINT) == set(PUBLISHED)


@pytest.mark.parametrize("symbol", sorted(PUBLISHED))
def test_a_factor_is_the_published_one(symbol: str) -> None:
    factor, tolerance = PUBLISHED[symbol]
    assert SYMBOLS[symbol].factor == pytest.approx(factor, rel=tolerance)
    assert SYMBOLS[symbol].offset == (-0.240 * 32.0 if symbol == "Btu/lb" else 0.0)  # see the next test


@pytest.mark.parametrize(("fahrenheit", "ratio"), [(32.0, 0.0), (80.0, 0.0112), (57.0, 0.0092), (110.0, 0.02)])
def test_enthalpy_of_moist_air_reads_as_on_the_charts_of_either_system(fahrenheit: float, ratio: float) -> None:
    # ASHRAE Handbook: Fundamentals, Psychrometrics: eq. (28) of the IP edition and eq. (30) of the SI edition
    us = 0.240 * fahrenheit + ratio * (1061.0 + 0.444 * fahrenheit)
    celsius = (fahrenheit - 32.0) / 1.8
    si = 1006.0 * celsius + ratio * (2501.0e3 + 1860.0 * celsius)
    assert SYMBOLS["Btu/lb"].from_si(si) == pytest.approx(us, abs=0.05)
    assert SYMBOLS["kJ/kg"].from_si(si) == pytest.approx(si / 1000.0)


@pytest.fixture(scope="module")
def registry() -> pint.UnitRegistry[float]:
    """A registry of the test's own."""
    return pint.UnitRegistry()


@pytest.mark.parametrize("symbol", sorted(PINT))
def test_a_factor_is_what_a_fresh_registry_makes_of_an_independent_expression(
    symbol: str, registry: pint.UnitRegistry[float]
) -> None:
    si = {"": "dimensionless", "m3/s": "m ** 3 / s", "m3": "m ** 3", "kg/s": "kg / s", "m2": "m ** 2"}
    si |= {"kg/kg": "dimensionless", "m/s": "m / s", "J/kg": "J / kg", "m3/kg": "m ** 3 / kg"}
    name = KINDS[SYMBOLS[symbol].kind].si
    factor = registry.parse_expression(PINT[symbol])
    expected = factor.to(si.get(name, name)).magnitude
    assert SYMBOLS[symbol].factor == pytest.approx(expected, rel=1e-13)


def test_an_inch_of_water_balances_an_inch_of_the_water_traps_are_filled_with() -> None:
    # rho g h with 1000 kg/m3 and 9.80665 m/s2
    assert SYMBOLS["inH2O"].to_si(1.0) == pytest.approx(1000.0 * 9.80665 * 0.0254, rel=1e-15)


@pytest.mark.parametrize(
    ("symbol", "value", "kelvin"),
    [
        # by definition: ITS-90 zero of Celsius, steam and ice points of Fahrenheit's scale, absolute zero, the crossing
        ("degC", 0.0, 273.15),
        ("degC", -273.15, 0.0),
        ("degF", 32.0, 273.15),
        ("degF", 212.0, 373.15),
        ("degF", -459.67, 0.0),
        ("degF", -40.0, 233.15),
        ("degC", -40.0, 233.15),
        ("K", 300.0, 300.0),
    ],
)
def test_a_temperature_has_a_zero_of_its_own(symbol: str, value: float, kelvin: float) -> None:
    assert SYMBOLS[symbol].to_si(value) == pytest.approx(kelvin, abs=1e-10)
    assert SYMBOLS[symbol].from_si(kelvin) == pytest.approx(value, abs=1e-10)


@given(st.floats(-100.0, 400.0), st.floats(0.0, 100.0))
def test_a_difference_is_not_a_temperature(degrees: float, rise: float) -> None:
    """18 degF apart are 10 K apart, whatever the temperature; 18 degF itself is 265.4 K, not 10."""
    fahrenheit = SYMBOLS["degF"]
    assert fahrenheit.to_si(degrees + rise) - fahrenheit.to_si(degrees) == pytest.approx(rise * 5 / 9, abs=1e-9)
    assert fahrenheit.to_si(18.0) == pytest.approx(265.372222, abs=1e-6)


def test_every_kind_has_one_si_unit_in_which_the_factor_is_one_or_the_kind_is_a_flow() -> None:
    """No symbol hides in a second kind, and each kind's answers are in symbols of its own."""
    for name, kind in KINDS.items():
        assert kind.us_symbol in SYMBOLS_OF[name]
        assert kind.si_symbol in SYMBOLS_OF[name]
        assert kind.low < kind.high
    assert sorted(symbol for symbols in SYMBOLS_OF.values() for symbol in symbols) == sorted(SYMBOLS)


def test_the_ucum_codes_are_unique() -> None:
    codes = [unit.ucum for unit in SYMBOLS.values()]
    assert len(set(codes)) == len(codes)


@pytest.mark.parametrize("symbol", sorted(set(SYMBOLS) - set(TEMPERATURES)))
def test_a_ucum_code_is_valid_and_means_the_same(symbol: str) -> None:
    assert ucum_factor(SYMBOLS[symbol].ucum) == pytest.approx(SYMBOLS[symbol].factor, rel=1e-12)


def test_the_ucum_codes_of_temperatures_are_its_special_units() -> None:
    assert {symbol: SYMBOLS[symbol].ucum for symbol in TEMPERATURES} == UCUM_TEMPERATURES


@given(st.sampled_from(sorted(SYMBOLS)), st.floats(-1e6, 1e6))
def test_a_value_survives_the_round_trip(symbol: str, value: float) -> None:
    unit = SYMBOLS[symbol]
    assert unit.from_si(unit.to_si(value)) == pytest.approx(value, rel=1e-12, abs=1e-9)


@st.composite
def limits(draw: st.DrawFn) -> tuple[str, Limit]:
    symbol = draw(st.sampled_from(sorted(SYMBOLS)))
    kind = KINDS[SYMBOLS[symbol].kind]
    # no limit of a physical quantity is nearer to zero than a billionth of an SI unit, but zero itself
    physical = st.floats(kind.low, kind.high).filter(lambda value: value == 0.0 or abs(value) > 1e-9)
    low, high = draw(physical), draw(physical)
    low, high = sorted((low, high))
    return symbol, Limit(low, high)


@given(limits())
def test_a_bound_is_never_outside_the_si_limits(drawn: tuple[str, Limit]) -> None:
    """What the schema allows in any unit, the calculation's own limit admits."""
    symbol, limit = drawn
    low, high = bounds(symbol, limit.low, limit.high)
    slack = 1e-9 * max(abs(limit.low), abs(limit.high))  # the last bits of a conversion, as `Limit.admits` allows
    assert SYMBOLS[symbol].to_si(low) >= limit.low - slack
    assert SYMBOLS[symbol].to_si(high) <= limit.high + slack


@given(limits())
def test_a_bound_is_inside_by_less_than_one_in_ten_thousand(drawn: tuple[str, Limit]) -> None:
    """Rounding to a readable number costs a caller nothing that matters."""
    symbol, limit = drawn
    unit = SYMBOLS[symbol]
    low, high = bounds(symbol, limit.low, limit.high)
    for bound, exact in ((low, unit.from_si(limit.low)), (high, unit.from_si(limit.high))):
        # an offset leaves the last bits of 459.67 behind where the bound is near zero
        assert abs(bound - exact) <= 1.0001e-4 * abs(exact) + 1e-12


@given(limits())
def test_a_bound_has_at_most_five_significant_digits(drawn: tuple[str, Limit]) -> None:
    symbol, limit = drawn
    for bound in bounds(symbol, limit.low, limit.high):
        assert float(f"{bound:.4e}") == bound


def test_the_bounds_of_a_whole_kind_are_not_empty() -> None:
    for symbol, unit in SYMBOLS.items():
        low, high = bounds(symbol, KINDS[unit.kind].low, KINDS[unit.kind].high)
        assert low < high, symbol


@pytest.mark.parametrize(
    ("value", "text"),
    [
        # three significant digits but never fewer than the whole number, written by hand
        (0.0, "0"),
        (-0.0, "0"),
        (1.0, "1"),
        (12.0, "12"),
        (0.1, "0.1"),
        (0.12345, "0.123"),
        (1.996, "2"),
        (0.9996, "1"),
        (99.96, "100"),
        (999.6, "1,000"),
        (1234567.8, "1,234,568"),
        (-2.5, "-2.5"),
        (-0.00001234, "-0.0000123"),
        (1e-12, "0"),
        (-1e-12, "0"),
        (100.0, "100"),
        (250, "250"),
        (10, "10"),
    ],
)
def test_a_number_in_a_sentence(value: float, text: str) -> None:
    assert plain(value) == text


@given(st.floats(1e-7, 1e9) | st.floats(-1e9, -1e-7))
def test_a_number_in_a_sentence_is_the_number_to_half_a_percent(value: float) -> None:
    text = plain(value)
    assert "e" not in text
    assert float(text.replace(",", "")) == pytest.approx(value, rel=5.1e-3)


@given(st.floats(1e-6, 1e6) | st.floats(0.9, 1100.0) | st.floats(-1e6, -1e-6))
def test_a_number_in_a_sentence_is_rounded_to_three_digits_as_decimals_are(value: float) -> None:
    exact = Decimal(value)
    places = max(2 - exact.adjusted(), 0)
    assert Decimal(plain(value).replace(",", "")) == exact.quantize(Decimal(1).scaleb(-places), ROUND_HALF_EVEN)


@pytest.mark.parametrize(
    ("si", "symbol", "text"),
    [
        (0.0254, "in", "1 in"),
        (0.3048, "ft", "1 ft"),
        (248.84, "inH2O", "0.999 inH2O"),
        (298.15, "degF", "77 degF"),
        (273.15, "degC", "0 degC"),
        (3516.853, "ton", "1 ton"),
        (1 / 7000, "gr/lb", "1 gr/lb"),
    ],
)
def test_a_quantity_in_a_sentence(si: float, symbol: str, text: str) -> None:
    assert display(si, symbol) == text


@given(st.floats(-1e5, 1e5) | st.floats(-1.0, 1.0), st.sampled_from(sorted(SYMBOLS)))
def test_a_quantity_in_a_sentence_has_the_number_of_any_sentence(si: float, symbol: str) -> None:
    assert display(si, symbol) == f"{plain(SYMBOLS[symbol].from_si(si))} {symbol}"


def test_a_symbol_is_never_an_expression() -> None:
    """Names pint would evaluate are not in the list, and the list cannot be added to."""
    for text in ("9**9**9", "centifermi", "inch", "IN", " in", "in ", "m*m", ""):
        assert text not in SYMBOLS
    with pytest.raises(TypeError):
        SYMBOLS["x"] = SYMBOLS["m"]  # type: ignore[index]
    assert SYSTEMS == ("us", "si")
    assert all(math.isfinite(unit.factor) and unit.factor > 0 for unit in SYMBOLS.values())
