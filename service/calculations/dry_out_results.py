"""What becomes of a drying trap's seal."""

from service.calculations.frozen import dataclass

OUTCOMES = ("holds", "uncertain", "lost")
"""What an idle season leaves of the seal: in both bounds, in the latest only, in neither."""


@dataclass(frozen=True, kw_only=True, slots=True)
class AfterIdle:
    """The seal at the end of an idle season.

    Parameters
    ----------
    idle_time : float
        As sent [s].
    outcome : str
        One of `OUTCOMES`.
    least_seal, most_seal : float
        Water above the dip in the lower leg as the fan starts [m], with swept mouths and with still air; negative
        where it is short.
    least_evaporated_volume, most_evaporated_volume : float
        Water gone since the start [m3], still and swept; not followed below the dip.
    """

    idle_time: float
    outcome: str
    least_seal: float
    most_seal: float
    least_evaporated_volume: float
    most_evaporated_volume: float


@dataclass(frozen=True, kw_only=True, slots=True)
class TrapDryOut:
    """When the seal is lost.

    Parameters
    ----------
    design_pressure : float
        Worst fan-on pressure in the pan [Pa gauge].
    loss_level : float
        Lowest level at rest from which the seal holds as the fan starts, from the outlet invert [m]; zero where it
        does not hold even when full.
    saturation_vapour_pressure : float
        Vapour pressure at the water's surface [Pa].
    unit_side_vapour_pressure, outlet_side_vapour_pressure : float or None
        Of the air at the mouth [Pa]; None for a closed leg.
    earliest_loss, latest_loss : float or None
        Time until the seal no longer holds as the fan starts [s]; None for never, or more than ten years.
    earliest_uncovered, latest_uncovered : float or None
        Time until the dip is uncovered with the fan off [s]; None likewise.
    evaporated_volume : float
        Water gone from the start to the loss of the seal [m3].
    refill_interval : float or None
        How often a full trap must be refilled to be sure of its seal [s]; None where it never must or where
        refilling does not help.
    after_idle : AfterIdle or None
        Where an idle time was given.
    lasting_seal_depth : float or None
        Seal depth that, full at the start, outlasts that time even with swept mouths [m].
    holds_when_full : bool
        Whether the full trap holds its seal at all.
    """

    design_pressure: float
    loss_level: float
    saturation_vapour_pressure: float
    unit_side_vapour_pressure: float | None
    outlet_side_vapour_pressure: float | None
    earliest_loss: float | None
    latest_loss: float | None
    earliest_uncovered: float | None
    latest_uncovered: float | None
    evaporated_volume: float
    refill_interval: float | None
    after_idle: AfterIdle | None
    lasting_seal_depth: float | None
    holds_when_full: bool
