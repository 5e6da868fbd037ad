"""What may stand between a blocked drain and the building: pans, cut-outs, drains and the pump's tank.

References
----------
.. [1] International Mechanical Code 2021, 307.2.3: the four ways and the auxiliary pan's size.
"""

from service.calculations.frozen import dataclass
from service.calculations.limits import Limit
from service.calculations.trap_check import LIMITS as TRAP_LIMITS

PROTECTIONS = ("none", "auxiliary-pan-drain", "secondary-drain", "auxiliary-pan-cut-out", "drain-cut-out")
"""What stands between a blocked drain and the building; after `none`, the four ways of IMC 2021 307.2.3 in its order:
an auxiliary pan with a drain of its own, a secondary drain higher in the pan, an auxiliary pan with a water-level
cut-out, and a cut-out in the pan or its drain."""

AUXILIARY_PANS = ("auxiliary-pan-drain", "auxiliary-pan-cut-out")
"""The two that rely on an auxiliary pan."""

PAN_LIMITS = {
    "area": TRAP_LIMITS["pan_area"],
    "depth": TRAP_LIMITS["pan_depth"],
    "water_depth": Limit(0.0, 0.5),
    "rim_area": Limit(0.0, 50.0),  # walls leaning in to a slit, to the floor of a built-up unit
    "fall": Limit(0.0, 0.5),  # a level bottom, to one that falls by the depth of a deep pan
}

PROTECTION_LIMITS = {
    "cut_out_depth": Limit(0.0, 0.5),  # at the pan's bottom, to a deep pan's rim
    "secondary_drain_depth": Limit(0.0, 0.5),
}

TANK_LIMITS = {"area": Limit(1e-3, 2.0)}  # a tea cup, to a basement sump

AUXILIARY_PAN_LIMITS = {
    "area": TRAP_LIMITS["pan_area"],
    "depth": TRAP_LIMITS["pan_depth"],
    "larger_than_unit": Limit(-2.0, 5.0),  # a tray under a corner, to a curbed floor
}


@dataclass(frozen=True, kw_only=True, slots=True)
class WaterPan:
    """The unit's own pan.

    Parameters
    ----------
    area : float
        Area of its bottom [m2].
    depth : float
        From its bottom up to where it runs over [m].
    water_depth : float or None
        Water already in it when the drain blocks [m].
    rim_area : float or None
        Area at the height where it runs over [m2]; that of the bottom where the walls are upright.
    fall : float or None
        How much lower the bottom is at the outlet than at its high end [m]; depths are measured at the outlet.
    """

    area: float
    depth: float
    water_depth: float | None = None
    rim_area: float | None = None
    fall: float | None = None


@dataclass(frozen=True, kw_only=True, slots=True)
class AuxiliaryPan:
    """The pan under the whole unit.

    Parameters
    ----------
    area, depth : float
        Its bottom [m2], and up to its rim [m].
    larger_than_unit : float or None
        How much longer or wider it is than the unit, the smaller of both [m].
    """

    area: float
    depth: float
    larger_than_unit: float | None = None


@dataclass(frozen=True, kw_only=True, slots=True)
class Protection:
    """What stands between a blocked drain and the building.

    Parameters
    ----------
    kind : str
        One of `PROTECTIONS`: the one relied on.
    cut_out_depth : float or None
        Depth of water at which the cut-out acts, in the pan it stands in [m].
    secondary_drain_depth : float or None
        Height of the secondary drain's inside bottom above the pan's bottom [m].
    auxiliary_pan : AuxiliaryPan or None
        The auxiliary pan, if there is one, whatever the kind.
    """

    kind: str
    cut_out_depth: float | None = None
    secondary_drain_depth: float | None = None
    auxiliary_pan: AuxiliaryPan | None = None


@dataclass(frozen=True, kw_only=True, slots=True)
class PumpTank:
    """The tank of the condensate pump, for the case that the pump dies.

    Parameters
    ----------
    volume_to_safety_float, volume_to_overflow : float or None
        From the level where the pump should start [m3].
    safety_float : str or None
        One of `service.calculations.pump_cycle.SAFETY_FLOATS`.
    area : float or None
        Area of the water in it [m2].
    """

    volume_to_safety_float: float | None = None
    volume_to_overflow: float | None = None
    safety_float: str | None = None
    area: float | None = None


def float_too_high(tank: PumpTank) -> bool:
    """Tell whether the tank runs over before its safety float acts."""
    to_float, to_rim = tank.volume_to_safety_float, tank.volume_to_overflow
    return to_float is not None and to_rim is not None and to_float >= to_rim * (1.0 - 1e-9)
