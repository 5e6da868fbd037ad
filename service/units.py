"""The one pint registry, and the closed list of unit symbols on the wire.

pint works the factors out, once, when this module is imported, from the few exact definitions it needs here: reading
its own thousand would be a third of the service's start. A test proves that both give the same. A caller's text is only
ever looked up in `SYMBOLS`: pint would evaluate it as an expression (``cfm`` would be a centi-femto-metre, ``9**9**9``
would never return).

References
----------
.. [1] The Unified Code for Units of Measure (UCUM), https://ucum.org
.. [2] NIST Special Publication 811 (2008), appendix B.
"""

import math
from collections.abc import Callable
from dataclasses import dataclass
from functools import cache
from types import MappingProxyType

import pint

DISPLAY_DIGITS = 3
"""Significant digits of a number in a sentence."""

BOUND_DIGITS = 5
"""Significant digits of a bound shown in a unit other than its SI one."""

SYSTEMS = ("us", "si")

US_ENTHALPY_ZERO = 0.240 * 32.0
"""Btu/lb of dry air at 32 degF on US charts, which count moist air's enthalpy from 0 degF; SI charts count it from
0 degC. 0.240 Btu/lb degF is the ASHRAE Handbook's specific heat of dry air (Psychrometrics, IP edition, eq. 28)."""


@dataclass(frozen=True, slots=True)
class Unit:
    """One symbol of the wire.

    Parameters
    ----------
    symbol : str
        The trade's plain symbol.
    kind : str
        Kind of quantity, in snake case.
    factor, offset : float
        ``si = (value + offset) * factor``; the offset is zero but for temperatures and for Btu/lb, whose zero is
        another on US charts of moist air.
    ucum : str
        Case-sensitive UCUM code [1]_.
    name : str
        The unit in words.
    """

    symbol: str
    kind: str
    factor: float
    offset: float
    ucum: str
    name: str

    def to_si(self, value: float) -> float:
        """Convert ``value`` in this unit to SI."""
        return (value + self.offset) * self.factor

    def from_si(self, value: float) -> float:
        """Convert ``value`` in SI to this unit."""
        return value / self.factor - self.offset


@dataclass(frozen=True, slots=True)
class Kind:
    """A kind of quantity: its component name in the document, and what its SI unit is.

    Parameters
    ----------
    name : str
        In snake case, as in ``Unit.kind``.
    title : str
        Name of the component in the OpenAPI document.
    si : str
        SI unit in words and symbols, the unit calculations work in.
    us_symbol, si_symbol : str
        Symbols an answer uses by default in either unit system.
    low, high : float
        Widest range any field of this kind accepts [SI].
    """

    name: str
    title: str
    si: str
    us_symbol: str
    si_symbol: str
    low: float
    high: float


_KINDS = (
    Kind("length", "Length", "m", "in", "mm", -1.0e5, 1.0e5),
    Kind("pressure", "Pressure", "Pa", "inH2O", "Pa", -1.2e5, 2.5e7),
    Kind("temperature", "Temperature", "K", "degF", "degC", 173.15, 473.15),
    Kind("air_flow", "AirFlow", "m3/s", "cfm", "L/s", 0.0, 1.0e3),
    Kind("water_flow", "WaterFlow", "m3/s", "gal/h", "L/h", 0.0, 1.0),
    Kind("volume", "Volume", "m3", "gal", "L", 0.0, 1.0e4),
    Kind("power", "Power", "W", "Btu/h", "W", 0.0, 1.0e9),
    Kind("mass", "Mass", "kg", "lb", "kg", 0.0, 1.0e4),
    Kind("mass_flow", "MassFlow", "kg/s", "lb/h", "kg/h", 0.0, 1.0e3),
    Kind("area", "Area", "m2", "in2", "cm2", 0.0, 1.0e4),
    Kind("time", "Time", "s", "min", "min", 0.0, 3.2e8),
    Kind("humidity_ratio", "HumidityRatio", "kg/kg", "gr/lb", "g/kg", 0.0, 1.0),
    Kind("velocity", "Velocity", "m/s", "ft/s", "m/s", 0.0, 1.0e3),
    Kind("specific_enthalpy", "SpecificEnthalpy", "J/kg", "Btu/lb", "kJ/kg", -1.0e6, 1.0e7),
    Kind("specific_volume", "SpecificVolume", "m3/kg", "ft3/lb", "m3/kg", 0.0, 1.0e3),
)

# in pint's language; the customary ones are exact by definition [2]_
_DEFINITIONS = """
milli- = 1e-3
centi- = 1e-2
kilo- = 1e3
meter = [length]
second = [time]
gram = [mass]
kelvin = [temperature]; offset: 0
degree_Celsius = kelvin; offset: 273.15 = _ = degC
degree_Fahrenheit = 5 / 9 * kelvin; offset: 233.15 + 200 / 9 = _ = degF
minute = 60 * second
hour = 60 * minute
day = 24 * hour
inch = 0.0254 * meter
foot = 12 * inch
liter = 1e-3 * meter ** 3
US_liquid_gallon = 231 * inch ** 3
pound = 0.45359237 * kilogram
ounce = pound / 16
grain = pound / 7000
standard_gravity = 9.80665 * meter / second ** 2
conventional_water_density = 1000 * kilogram / meter ** 3
pascal = kilogram / meter / second ** 2
psi = pound * standard_gravity / inch ** 2
joule = kilogram * meter ** 2 / second ** 2
Btu_it = 1055.05585262 * joule
watt = joule / second
"""

# symbol, kind, pint expression, UCUM code, name in words
_SYMBOLS = (
    ("in", "length", "inch", "[in_i]", "inch"),
    ("ft", "length", "foot", "[ft_i]", "foot"),
    ("mm", "length", "millimeter", "mm", "millimetre"),
    ("cm", "length", "centimeter", "cm", "centimetre"),
    ("m", "length", "meter", "m", "metre"),
    # conventional water of 1000 kg/m3 under standard gravity, so that 1 in of water stands against 1 inH2O
    ("inH2O", "pressure", "inch * conventional_water_density * standard_gravity", "[in_i'H2O]", "inch of water column"),
    ("Pa", "pressure", "pascal", "Pa", "pascal"),
    ("kPa", "pressure", "kilopascal", "kPa", "kilopascal"),
    ("psi", "pressure", "psi", "[psi]", "pound-force per square inch"),
    ("degF", "temperature", "degF", "[degF]", "degree Fahrenheit"),
    ("degC", "temperature", "degC", "Cel", "degree Celsius"),
    ("K", "temperature", "kelvin", "K", "kelvin"),
    ("cfm", "air_flow", "foot ** 3 / minute", "[cft_i]/min", "cubic foot per minute"),
    ("m3/h", "air_flow", "meter ** 3 / hour", "m3/h", "cubic metre per hour"),
    ("L/s", "air_flow", "liter / second", "L/s", "litre per second"),
    ("gal/h", "water_flow", "US_liquid_gallon / hour", "[gal_us]/h", "US gallon per hour"),
    ("gal/min", "water_flow", "US_liquid_gallon / minute", "[gal_us]/min", "US gallon per minute"),
    ("L/h", "water_flow", "liter / hour", "L/h", "litre per hour"),
    ("L/min", "water_flow", "liter / minute", "L/min", "litre per minute"),
    ("gal", "volume", "US_liquid_gallon", "[gal_us]", "US gallon"),
    ("L", "volume", "liter", "L", "litre"),
    ("mL", "volume", "milliliter", "mL", "millilitre"),
    ("in3", "volume", "inch ** 3", "[cin_i]", "cubic inch"),
    ("ft3", "volume", "foot ** 3", "[cft_i]", "cubic foot"),
    ("Btu/h", "power", "Btu_it / hour", "[Btu_IT]/h", "British thermal unit (International Table) per hour"),
    ("kBtu/h", "power", "1000 * Btu_it / hour", "1000.[Btu_IT]/h", "thousand British thermal units per hour"),
    ("ton", "power", "12000 * Btu_it / hour", "12000.[Btu_IT]/h", "ton of refrigeration"),
    ("kW", "power", "kilowatt", "kW", "kilowatt"),
    ("W", "power", "watt", "W", "watt"),
    ("oz", "mass", "ounce", "[oz_av]", "avoirdupois ounce"),
    ("lb", "mass", "pound", "[lb_av]", "pound"),
    ("g", "mass", "gram", "g", "gram"),
    ("kg", "mass", "kilogram", "kg", "kilogram"),
    ("lb/h", "mass_flow", "pound / hour", "[lb_av]/h", "pound per hour"),
    ("kg/h", "mass_flow", "kilogram / hour", "kg/h", "kilogram per hour"),
    ("in2", "area", "inch ** 2", "[sin_i]", "square inch"),
    ("ft2", "area", "foot ** 2", "[sft_i]", "square foot"),
    ("cm2", "area", "centimeter ** 2", "cm2", "square centimetre"),
    ("m2", "area", "meter ** 2", "m2", "square metre"),
    ("s", "time", "second", "s", "second"),
    ("min", "time", "minute", "min", "minute"),
    ("h", "time", "hour", "h", "hour"),
    ("day", "time", "day", "d", "day"),
    ("lb/lb", "humidity_ratio", "pound / pound", "[lb_av]/[lb_av]", "pound of water per pound of dry air"),
    ("gr/lb", "humidity_ratio", "grain / pound", "[gr]/[lb_av]", "grain of water per pound of dry air"),
    ("g/kg", "humidity_ratio", "gram / kilogram", "g/kg", "gram of water per kilogram of dry air"),
    ("kg/kg", "humidity_ratio", "kilogram / kilogram", "kg/kg", "kilogram of water per kilogram of dry air"),
    ("ft/s", "velocity", "foot / second", "[ft_i]/s", "foot per second"),
    ("m/s", "velocity", "meter / second", "m/s", "metre per second"),
    ("Btu/lb", "specific_enthalpy", "Btu_it / pound", "[Btu_IT]/[lb_av]", "British thermal unit per pound"),
    ("kJ/kg", "specific_enthalpy", "kilojoule / kilogram", "kJ/kg", "kilojoule per kilogram"),
    ("ft3/lb", "specific_volume", "foot ** 3 / pound", "[cft_i]/[lb_av]", "cubic foot per pound"),
    ("m3/kg", "specific_volume", "meter ** 3 / kilogram", "m3/kg", "cubic metre per kilogram"),
)

_SI_EXPRESSIONS = {
    "length": "meter",
    "pressure": "pascal",
    "temperature": "kelvin",
    "air_flow": "meter ** 3 / second",
    "water_flow": "meter ** 3 / second",
    "volume": "meter ** 3",
    "power": "watt",
    "mass": "kilogram",
    "mass_flow": "kilogram / second",
    "area": "meter ** 2",
    "time": "second",
    "humidity_ratio": "dimensionless",
    "velocity": "meter / second",
    "specific_enthalpy": "joule / kilogram",
    "specific_volume": "meter ** 3 / kilogram",
}


def _clean(factor: float) -> float:
    """Drop the last bits that pint's chain of products leaves: 0.3048, not 0.30479999999999996."""
    return float(f"{factor:.16g}")


def _read_units() -> dict[str, Unit]:
    """Let pint work out every factor, once."""
    registry: pint.UnitRegistry[float] = pint.UnitRegistry(None)
    registry.load_definitions(_DEFINITIONS.splitlines())
    units = {}
    for symbol, kind, expression, ucum, name in _SYMBOLS:
        si = registry.parse_units(_SI_EXPRESSIONS[kind])
        if kind == "temperature":
            # a temperature has a zero of its own: the slope comes from the difference unit
            zero = registry.Quantity(0.0, expression).to(si).magnitude
            slope = 1.0 if expression == "kelvin" else registry.Quantity(1.0, f"delta_{expression}").to(si).magnitude
            units[symbol] = Unit(symbol, kind, _clean(slope), _clean(zero / slope), ucum, name)
        else:
            factor = registry.parse_expression(expression).to(si).magnitude
            offset = -US_ENTHALPY_ZERO if symbol == "Btu/lb" else 0.0
            units[symbol] = Unit(symbol, kind, _clean(factor), offset, ucum, name)
    return units


KINDS = MappingProxyType({kind.name: kind for kind in _KINDS})
SYMBOLS = MappingProxyType(_read_units())
SYMBOLS_OF = MappingProxyType(
    {kind: tuple(unit.symbol for unit in SYMBOLS.values() if unit.kind == kind) for kind in KINDS}
)


def _inward(value: float, up: bool) -> float:
    """Round to `BOUND_DIGITS` significant digits, towards +inf if ``up``, else towards -inf."""
    if value == 0.0:
        return 0.0
    digits = BOUND_DIGITS - 1 - math.floor(math.log10(abs(value)))
    scale = 10.0**digits
    nearest = round(value * scale)
    if abs(nearest - value * scale) > 1e-6:  # else it is that round number, the last bits aside
        nearest = math.ceil(value * scale) if up else math.floor(value * scale)
    return float(round(nearest / scale, max(digits, 0)))


def bounds(symbol: str, low: float, high: float) -> tuple[float, float]:
    """Limits of a field in one of its units, rounded inward to a readable number.

    Parameters
    ----------
    symbol : str
        A key of `SYMBOLS`.
    low, high : float
        Inclusive limits [SI].

    Returns
    -------
    tuple of float
        The same limits in ``symbol``, never outside the SI ones.

    Examples
    --------
    >>> bounds("ft", 0.0, 10.0)
    (0.0, 32.808)
    """
    unit = SYMBOLS[symbol]
    return _inward(unit.from_si(low), True), _inward(unit.from_si(high), False)


def plain(value: float, digits: int = DISPLAY_DIGITS) -> str:
    """Write a number for a sentence: a few significant digits, no exponent, no trailing zeros.

    Examples
    --------
    >>> plain(0.250001), plain(1234.56), plain(-0.0), plain(12.0)
    ('0.25', '1,235', '0', '12')
    """
    if 1e-4 <= abs(value) < 999.5 and digits == DISPLAY_DIGITS:
        return f"{value:.3g}"  # the same as below, for nearly every number there is
    if value == 0.0:
        return "0"
    decimals = max(digits - 1 - math.floor(math.log10(abs(value))), 0)
    text = f"{value:,.{min(decimals, 9)}f}"
    text = text.rstrip("0").rstrip(".") if "." in text else text
    return "0" if text in ("-0", "0") else text


@cache
def displayer(symbol: str) -> Callable[[float], str]:
    """Make the function that writes an SI float in ``symbol``, rounded for a reader.

    Examples
    --------
    >>> displayer("in")(0.0254), displayer("degF")(298.15)
    ('1 in', '77 degF')
    """
    factor, offset = SYMBOLS[symbol].factor, SYMBOLS[symbol].offset

    def write(value: float) -> str:
        number = value / factor - offset
        if 1e-4 <= number < 999.5:
            return f"{number:.3g} {symbol}"  # as `plain` does, for nearly every number there is
        return f"{plain(number)} {symbol}"

    return write


def display(value: float, symbol: str) -> str:
    """Write an SI float in ``symbol``, rounded for a reader.

    Examples
    --------
    >>> display(0.0254, "in"), display(298.15, "degF")
    ('1 in', '77 degF')
    """
    return displayer(symbol)(value)
