"""A float-operated pump over time: filling, pumping out, falling back, and dead.

The tank fills at the inflow from the level where the pump stops to the level where it starts;
while the pump runs, water goes on coming. Without a check valve the tube empties back into the
tank each time the pump stops, and that water is pumped again. The pump's flow is taken as
steady: the second or two in which the tube fills is left out.
"""

from service.calculations.frozen import dataclass
from service.calculations.limits import Limit

NO_FLOW = 1e-12
"""Flow [m3/s] up to which there is none to speak of: a tenth of a millilitre a day."""

SAFETY_FLOATS = ("wired", "unwired", "none")
"""What the pump's safety float does: stops the cooling call, nothing, or is not there."""

PUMP_LIMITS = {
    "tank_volume_between_floats": Limit(1e-5, 1.0),  # a few spoonfuls, to a basement sump
    "volume_to_safety_float": Limit(1e-6, 1.0),
    "volume_to_overflow": Limit(1e-6, 1.0),
}


@dataclass(frozen=True, kw_only=True, slots=True)
class PumpCycle:
    """How a pump runs at one inflow.

    Parameters
    ----------
    fill_time : float or None
        From pump off to pump on [s]; 0 where fall-back alone restarts it; None with no inflow or no tank volume.
    pump_out_time : float or None
        From pump on to pump off, inflow going on [s]; None where it never gets there or without a tank volume.
    cycles_per_hour : float or None
        Starts in an hour; 0 where it never starts or never stops; None without a tank volume.
    duty : float or None
        Share of the time the motor runs; None where it depends on a tank volume not given.
    """

    fill_time: float | None
    pump_out_time: float | None
    cycles_per_hour: float | None
    duty: float | None


def cycle_pump(
    *, inflow: float, operating_flow: float, tank_volume: float | None, fall_back_volume: float
) -> PumpCycle:
    """Work out filling, pumping out, starts and duty.

    Parameters
    ----------
    inflow : float
        Water arriving [m3/s].
    operating_flow : float
        Water the pump moves [m3/s].
    tank_volume : float or None
        Between the levels where the pump stops and starts [m3].
    fall_back_volume : float
        Water that returns each time it stops [m3].

    Returns
    -------
    PumpCycle

    Examples
    --------
    By hand: 0.9 L at 6 L/h in and 90 L/h out: fills in 540 s, empties in 0.9/84 h = 38.57 s, 3600/578.57 =
    6.22 starts an hour, duty 6/90:

    >>> cycle = cycle_pump(inflow=6e-3 / 3600, operating_flow=0.09 / 3600, tank_volume=9e-4, fall_back_volume=0.0)
    >>> round(cycle.fill_time, 6), round(cycle.pump_out_time, 2), round(cycle.cycles_per_hour, 2)
    (540.0, 38.57, 6.22)
    >>> round(cycle.duty * 90, 9)
    6.0
    """
    flows, outpaced = inflow > NO_FLOW, operating_flow <= max(inflow, NO_FLOW)
    if outpaced:
        duty: float | None = 1.0 if flows else 0.0
    else:
        # without fall-back the tank's size drops out: duty = inflow / operating flow
        duty = inflow / operating_flow if fall_back_volume <= 0.0 else None
    if tank_volume is None:
        return PumpCycle(fill_time=None, pump_out_time=None, cycles_per_hour=None, duty=duty)
    to_fill = max(tank_volume - fall_back_volume, 0.0)
    fill_time = to_fill / inflow if flows else (None if to_fill else 0.0)
    if outpaced:
        return PumpCycle(fill_time=fill_time, pump_out_time=None, cycles_per_hour=0.0, duty=duty)
    pump_out_time = tank_volume / (operating_flow - inflow)
    if fill_time is None:
        return PumpCycle(fill_time=None, pump_out_time=pump_out_time, cycles_per_hour=0.0, duty=0.0)
    whole = fill_time + pump_out_time
    return PumpCycle(
        fill_time=fill_time, pump_out_time=pump_out_time, cycles_per_hour=3600.0 / whole, duty=pump_out_time / whole
    )


def time_to_fill(volume: float | None, inflow: float) -> float | None:
    """Time [s] in which ``inflow`` [m3/s] fills ``volume`` [m3]; None without either."""
    return volume / inflow if volume is not None and inflow > NO_FLOW else None
