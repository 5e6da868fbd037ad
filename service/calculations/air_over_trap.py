"""The air over a trap's water: at the mouth of each open leg, and between the mouth and the water."""

from service.calculations.air_state import AirReading
from service.calculations.answer import Assumption, Finding, Sentence
from service.calculations.frozen import dataclass
from service.calculations.saturation import TRIPLE_POINT
from service.calculations.trap_water import Trap
from service.calculations.vapour_diffusion import far_vapour_fraction

OPEN_LEGS = ("both", "unit-side", "outlet-side")
"""Legs that are open to the air."""

HEATED_AIR = AirReading(dry_bulb=529.67 / 1.8, relative_humidity_percent=30.0)
"""Heated indoor air in winter, 70 degF and 30 %. Common practice, no source."""

_BOTH_OPEN = Assumption(
    pointer="/open_legs",
    value="both",
    note="Nothing was said of a closed leg: both are taken as open to the air, which dries the trap soonest.",
)
_SAME_AIR = Assumption(
    pointer="/outlet_side_air",
    value=Sentence(text="as on the unit's side"),
    note="The air at the outlet's mouth was not given: taken as that on the unit's side.",
)
_NO_PATH = Assumption(
    pointer="/outlet_side_path",
    value=0.0,
    note="Not given: the outlet leg is taken to meet the open air right at the trap's outlet, as at a vent. "
    "Farther away, the latest day is later; the earliest stays.",
    symbols="ft|m",
)


@dataclass(frozen=True, kw_only=True, slots=True)
class OverWater:
    """The air over the water in one open leg.

    Parameters
    ----------
    side : str
        ``unit-side`` or ``outlet-side``.
    bore : float
        Of the leg [m].
    path : float
        Still air from the full water to the mouth [m].
    air : AirReading
        At the mouth, as read.
    far_fraction : float
        Mole fraction of vapour at the mouth [-].
    """

    side: str
    bore: float
    path: float
    air: AirReading
    far_fraction: float


def find_air_over_water(
    trap: Trap,
    *,
    open_legs: str | None,
    unit_side_air: AirReading | None,
    outlet_side_air: AirReading | None,
    outlet_side_path: float | None,
    pressure: float,
    findings: list[Finding],
    assumptions: list[Assumption],
) -> tuple[OverWater, ...]:
    """Find the air over the water of each open leg, noting how on the two lists.

    Parameters
    ----------
    trap : Trap
        The trap.
    open_legs : str or None
        One of `OPEN_LEGS`; both by default.
    unit_side_air, outlet_side_air : AirReading or None
        At the mouth of either leg; `HEATED_AIR` by default, on the outlet's side that of the unit's side.
    outlet_side_path : float or None
        From the trap's outlet to the mouth of that leg [m]; none by default.
    pressure : float
        Station pressure [Pa].
    findings, assumptions : list
        What a person should know about it is appended.

    Returns
    -------
    tuple of OverWater
        One or two, the unit's side first. Its leg opens into the pan, ``outlet_drop`` above the full water.

    Raises
    ------
    OutOfRange
    Contradiction
        See `far_vapour_fraction`.
    """
    if open_legs is None:
        assumptions.append(_BOTH_OPEN)
    unit_open, outlet_open = open_legs != "outlet-side", open_legs != "unit-side"
    over_water = []
    if unit_open:
        unit_side_air = unit_side_air or _heated_air("/unit_side_air", assumptions)
        fraction = far_vapour_fraction(unit_side_air, pressure=pressure, pointer="/unit_side_air", findings=findings)
        over_water.append(
            OverWater(
                side="unit-side",
                bore=trap.unit_side_bore,
                path=trap.outlet_drop,
                air=unit_side_air,
                far_fraction=fraction,
            )
        )
    elif unit_side_air is not None:
        findings.append(Finding(code="closed-leg-facts-not-used", pointer="/unit_side_air"))
    if not outlet_open:
        given = {"/outlet_side_air": outlet_side_air, "/outlet_side_path": outlet_side_path}
        findings += [
            Finding(code="closed-leg-facts-not-used", pointer=pointer)
            for pointer, fact in given.items()
            if fact is not None
        ]
        return tuple(over_water)
    if outlet_side_air is not None:
        pointer = "/outlet_side_air"
        fraction = far_vapour_fraction(outlet_side_air, pressure=pressure, pointer=pointer, findings=findings)
    elif over_water:
        assumptions.append(_SAME_AIR)
        outlet_side_air, fraction = over_water[0].air, over_water[0].far_fraction
    else:
        outlet_side_air = _heated_air("/outlet_side_air", assumptions)
        fraction = far_vapour_fraction(outlet_side_air, pressure=pressure, pointer="", findings=findings)
    if outlet_side_path is None:
        assumptions.append(_NO_PATH)
    over_water.append(
        OverWater(
            side="outlet-side",
            bore=trap.outlet_side_bore,
            path=outlet_side_path or 0.0,
            air=outlet_side_air,
            far_fraction=fraction,
        )
    )
    return tuple(over_water)


def find_water_temperature(
    given: float | None, over_water: tuple[OverWater, ...], assumptions: list[Assumption]
) -> float:
    """Temperature of the water, by default that of the air over it.

    Parameters
    ----------
    given : float or None
        As measured [K].
    over_water : tuple of OverWater
        The first one's air is what the water is taken to be as warm as.
    assumptions : list
        A default is appended.

    Returns
    -------
    float
        Temperature [K], never below freezing: a frozen trap is another matter.
    """
    if given is not None:
        return given
    first = over_water[0]
    temperature = first.air.dry_bulb
    note = Sentence(text="Not given: that of the air on the {side}.", values={"side": first.side.replace("-", " ")})
    if temperature < TRIPLE_POINT:
        temperature = TRIPLE_POINT
        note = Sentence(text="Not given, and the air is below freezing: water that is about to freeze.")
    assumptions.append(Assumption(pointer="/water_temperature", value=temperature, note=note, symbols="degF|degC"))
    return temperature


def _heated_air(pointer: str, assumptions: list[Assumption]) -> AirReading:
    note = "Not given: heated indoor air in the cold season, which is dry. Common practice."
    bulb, humidity = HEATED_AIR.dry_bulb, HEATED_AIR.relative_humidity_percent or 0.0
    assumptions.append(Assumption(pointer=f"{pointer}/dry_bulb", value=bulb, note=note, symbols="degF|degC"))
    assumptions.append(Assumption(pointer=f"{pointer}/relative_humidity_percent", value=humidity, note=note))
    return HEATED_AIR
