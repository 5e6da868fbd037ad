"""Air as measured, and the whole state that follows from it.

Hand-held instruments err, so a reading is allowed to be wrong by what they usually are:
1 degF (0.5 K) in a temperature and 3 % in relative humidity. Common practice, no source.
"""

from collections.abc import Mapping
from typing import cast

from service.calculations import psychrometrics, saturation, virial
from service.calculations.answer import Finding
from service.calculations.frozen import dataclass
from service.calculations.limits import Limit, require
from service.errors import Contradiction

TEMPERATURE_ACCURACY = 0.5
"""Error of a hand-held thermometer, 1 degF rounded [K]. Common practice, no source."""

HUMIDITY_ACCURACY_PERCENT = 3.0
"""Error of a hand-held humidity sensor [% relative humidity]. Common practice, no source."""

PAIR_ACCURACY = 2.0 * TEMPERATURE_ACCURACY
"""What two temperatures may differ by in the wrong direction [K]: both off, opposite ways."""

DRIEST_PERCENT = 1.0
"""Lowest relative humidity believed of any air a coil meets [%]; deserts reach 2 %."""

MOST_WATER_OF_DRIEST = 0.005
"""No air at `DRIEST_PERCENT` up to 333.15 K, at any station pressure, holds more [kg/kg]."""

PLAIN_CONTRADICTIONS = ("wet-bulb-above-dry-bulb", "dew-point-above-dry-bulb")
"""What anybody sees in the two numbers of a reading; that a wet bulb is too low takes a calculation to see."""

HUMIDITIES = ("wet_bulb", "relative_humidity_percent", "dew_point")
"""The members an air reading has exactly one of."""


ENTERING_AIR_LIMITS = {
    "dry_bulb": Limit(283.15, 333.15),  # 50 degF, a wine cellar, to 140 degF, a desert roof in the sun
    "wet_bulb": Limit(273.15, 303.15),  # freezing, dry mountain air, to 86 degF, a tropical coast
    "relative_humidity_percent": Limit(1.0, 100.0),
    "dew_point": Limit(233.15, 303.15),  # -40, air heated in deep frost, to 86 degF, a tropical coast
}

LEAVING_AIR_LIMITS = {
    "dry_bulb": Limit(274.15, 300.15),  # 34 degF, a coil about to frost, to 80 degF, one that hardly cools
    "wet_bulb": Limit(268.15, 293.15),  # 23 degF, dry air near freezing, to 68 degF
    "relative_humidity_percent": Limit(1.0, 100.0),
    "dew_point": Limit(213.15, 291.15),  # -76 degF, a desiccant dryer, to 64 degF
}


@dataclass(frozen=True, kw_only=True, slots=True)
class AirReading:
    """Dry bulb and one measure of humidity, as read.

    Parameters
    ----------
    dry_bulb : float
        Temperature [K].
    wet_bulb : float or None
        Wet-bulb temperature [K].
    relative_humidity_percent : float or None
        Relative humidity [%].
    dew_point : float or None
        Dew point [K].

    Raises
    ------
    ValueError
        Unless exactly one of the three humidities is given.
    """

    dry_bulb: float
    wet_bulb: float | None = None
    relative_humidity_percent: float | None = None
    dew_point: float | None = None

    def __post_init__(self) -> None:
        if (self.wet_bulb, self.relative_humidity_percent, self.dew_point).count(None) != 2:
            raise ValueError(f"give exactly one of {', '.join(HUMIDITIES)}")

    @property
    def humidity(self) -> str:
        """Which humidity was read: one of `HUMIDITIES`."""
        if self.wet_bulb is not None:
            return "wet_bulb"
        return "dew_point" if self.relative_humidity_percent is None else "relative_humidity_percent"


@dataclass(frozen=True, kw_only=True, slots=True)
class AirState:
    """Everything about a kilogram of dry air and the water in it.

    Parameters
    ----------
    dry_bulb, wet_bulb, dew_point : float
        Temperatures [K].
    relative_humidity_percent : float
        Relative humidity [%].
    humidity_ratio : float
        Water to dry air [kg/kg].
    specific_enthalpy : float
        Enthalpy [J per kg of dry air].
    specific_volume : float
        Volume [m3 per kg of dry air].
    """

    dry_bulb: float
    wet_bulb: float
    dew_point: float
    relative_humidity_percent: float
    humidity_ratio: float
    specific_enthalpy: float
    specific_volume: float


@dataclass(frozen=True, kw_only=True, slots=True)
class MeasuredAir:
    """A reading turned into a state.

    Parameters
    ----------
    reading : AirReading
        As measured.
    pressure : float
        Station pressure [Pa].
    state : AirState
        The state.
    finding : Finding or None
        What had to be taken otherwise than read.
    """

    reading: AirReading
    pressure: float
    state: AirState
    finding: Finding | None = None

    @property
    def doubt(self) -> float:
        """How much more water the air may hold than was read, by the instruments' accuracy [kg/kg]."""
        return max(_most_water(self.reading, self.pressure) - self.state.humidity_ratio, 0.0)


def air_state(
    dry_bulb: float,
    humidity_ratio: float,
    pressure: float,
    *,
    wet_bulb: float | None = None,
    dew_point: float | None = None,
    relative_humidity_percent: float | None = None,
) -> AirState:
    """Work out the state of air from two of its properties.

    Parameters
    ----------
    dry_bulb : float
        Temperature [K].
    humidity_ratio : float
        Water to dry air, at most that of saturation [kg/kg].
    pressure : float
        Station pressure [Pa].
    wet_bulb, dew_point, relative_humidity_percent : float or None
        Where it was read; worked out otherwise [K, K, %].

    Returns
    -------
    AirState

    Examples
    --------
    ASHRAE Fundamentals 2017 chapter 1, table 2 (from memory), saturated air at 20 degC:
    0.8498 m3/kg.

    >>> round(air_state(293.15, 0.014758, 101325.0).specific_volume, 4)
    0.8498
    """
    known = virial.pairs(dry_bulb)
    enthalpy = virial.specific_enthalpy(dry_bulb, humidity_ratio, pressure, known)
    if dew_point is None:
        dew_point = psychrometrics.dew_point(humidity_ratio, pressure)
    if wet_bulb is None:
        wet_bulb = psychrometrics.wet_bulb(
            dry_bulb, humidity_ratio, pressure, dew_point=dew_point, specific_enthalpy=enthalpy
        )
    if relative_humidity_percent is None:
        relative_humidity_percent = psychrometrics.relative_humidity_percent(dry_bulb, humidity_ratio, pressure, known)
    return AirState(
        dry_bulb=dry_bulb,
        wet_bulb=wet_bulb,
        dew_point=dew_point,
        relative_humidity_percent=relative_humidity_percent,
        humidity_ratio=humidity_ratio,
        specific_enthalpy=enthalpy,
        specific_volume=virial.specific_volume(dry_bulb, humidity_ratio, pressure, known),
    )


def measure_air(reading: AirReading, *, limits: Mapping[str, Limit], pressure: float, pointer: str) -> MeasuredAir:
    """Turn a reading into a state.

    Parameters
    ----------
    reading : AirReading
        As measured.
    limits : mapping of str to Limit
        Limits of each member of the reading [K, %].
    pressure : float
        Station pressure [Pa].
    pointer : str
        Where the reading stands in the request.

    Returns
    -------
    MeasuredAir

    Raises
    ------
    OutOfRange
        For a member outside its limits.
    Contradiction
        Wet bulb or dew point above the dry bulb, or a wet bulb too low for even the driest air,
        by more than the instruments may err. By less, the air is taken as saturated, or as
        the driest, and a finding says so.

    Examples
    --------
    >>> limits = {"dry_bulb": Limit(250.0, 330.0), "relative_humidity_percent": Limit(1.0, 100.0)}
    >>> reading = AirReading(dry_bulb=303.15, relative_humidity_percent=50.0)
    >>> measured = measure_air(reading, limits=limits, pressure=101325.0, pointer="/entering_air")
    >>> round(measured.state.humidity_ratio, 4), round(measured.state.specific_volume, 3)
    (0.0134, 0.877)
    """
    dry_bulb = reading.dry_bulb
    humidity = reading.humidity
    read = getattr(reading, humidity)
    require(limits, **{"dry_bulb": dry_bulb, humidity: read})
    if humidity == "relative_humidity_percent":
        ratio = psychrometrics.humidity_ratio_from_relative_humidity(dry_bulb, read, pressure)
    elif read > dry_bulb:
        return _saturated(reading, pressure, pointer)
    elif humidity == "dew_point":
        ratio = psychrometrics.humidity_ratio_from_dew_point(read, pressure)
    else:
        ratio = psychrometrics.humidity_ratio_from_wet_bulb(dry_bulb, read, pressure)
        if ratio < MOST_WATER_OF_DRIEST:
            driest = psychrometrics.humidity_ratio_from_relative_humidity(dry_bulb, DRIEST_PERCENT, pressure)
            if ratio < driest:
                return _driest(reading, driest, pressure, pointer)
    return MeasuredAir(
        reading=reading, pressure=pressure, state=air_state(dry_bulb, ratio, pressure, **{humidity: read})
    )


def _most_water(reading: AirReading, pressure: float) -> float:
    """Humidity ratio of the wettest air an instrument could show so [kg/kg]."""
    if reading.relative_humidity_percent is not None:
        return psychrometrics.humidity_ratio_from_relative_humidity(
            reading.dry_bulb + TEMPERATURE_ACCURACY,
            reading.relative_humidity_percent + HUMIDITY_ACCURACY_PERCENT,
            pressure,
        )
    if reading.wet_bulb is not None:
        return psychrometrics.humidity_ratio_from_wet_bulb(
            reading.dry_bulb - TEMPERATURE_ACCURACY, reading.wet_bulb + TEMPERATURE_ACCURACY, pressure
        )
    # an instrument works the dew point out of both of its sensors, so it errs as a pair does
    return psychrometrics.humidity_ratio_from_dew_point(cast(float, reading.dew_point) + PAIR_ACCURACY, pressure)


def _driest(reading: AirReading, driest: float, pressure: float, pointer: str) -> MeasuredAir:
    """The driest air, for a wet bulb too low by no more than readings err."""
    state = air_state(reading.dry_bulb, driest, pressure)
    values: dict[str, float | str] = {
        "wet_bulb": cast(float, reading.wet_bulb),
        "dry_bulb": reading.dry_bulb,
        "lowest": state.wet_bulb,
        "percent": f"{DRIEST_PERCENT:g}",
    }
    if _most_water(reading, pressure) < driest:
        raise Contradiction("wet-bulb-too-low", f"{pointer}/wet_bulb", values)
    finding = Finding(code="air-taken-as-driest", pointer=f"{pointer}/wet_bulb", values=values)
    return MeasuredAir(reading=reading, pressure=pressure, state=state, finding=finding)


def _saturated(reading: AirReading, pressure: float, pointer: str) -> MeasuredAir:
    """Saturated air, for a wet bulb or dew point above the dry bulb by no more than readings err."""
    dry_bulb, member = reading.dry_bulb, reading.humidity
    read = getattr(reading, member)
    if read - dry_bulb > PAIR_ACCURACY:
        code = f"{member.replace('_', '-')}-above-dry-bulb"
        raise Contradiction(code, f"{pointer}/{member}", {member: read, "dry_bulb": dry_bulb})
    ratio = saturation.saturation_humidity_ratio(dry_bulb, pressure)
    finding = Finding(
        code="air-taken-as-saturated",
        pointer=f"{pointer}/{member}",
        values={"member": member.replace("_", " "), "reading": read, "dry_bulb": dry_bulb},
    )
    state = air_state(dry_bulb, ratio, pressure, wet_bulb=dry_bulb, dew_point=dry_bulb, relative_humidity_percent=100.0)
    return MeasuredAir(reading=reading, pressure=pressure, state=state, finding=finding)
