"""A timed pump-out: what a jug, a tank and a stopwatch say of a pump's flow, and how surely.

References
----------
.. [1] Joint Committee for Guides in Metrology, JCGM 100:2008, *Guide to the Expression of Uncertainty in
   Measurement*, 4.3.7: what is known of a reading is often only that it lies between two bounds.
"""

from service.calculations.answer import Assumption
from service.calculations.frozen import dataclass
from service.calculations.limits import Limit, require_members

MEASURED_AT = ("tank-while-running", "tank-after-fall-back", "tube-end")
"""Where the volume was measured: the drop in the tank from pump on to pump off, the drop once the tube has run back,
or what was caught at the tube's end while it ran there."""

TIME_UNCERTAINTY = 1.0
"""A stopwatch started and stopped by ear [s]. Common practice, no source."""

VOLUME_UNCERTAINTY = 0.05
"""Share of the volume by which a jug, or a leaflet's tank volume, may be out. Common practice, no source."""

PUMP_OUT_LIMITS = {
    "volume": Limit(1e-5, 1.0),  # a few spoonfuls, to a basement sump
    "time": Limit(1.0, 86400.0),  # a second, to a day of dripping
    "inflow": Limit(0.0, 2e-3),  # as for the pump's own run
    "volume_uncertainty": Limit(0.0, 1.0),  # measured to the drop, to not at all
    "time_uncertainty": Limit(0.0, 3600.0),
}


@dataclass(frozen=True, kw_only=True, slots=True)
class PumpOut:
    """Water pumped, against a clock.

    Parameters
    ----------
    volume : float
        Measured volume [m3].
    time : float
        How long the pump took for it [s].
    measured_at : str or None
        One of `MEASURED_AT`.
    inflow : float or None
        Water that arrived in the tank meanwhile [m3/s].
    volume_uncertainty, time_uncertainty : float or None
        How far the true volume [m3] and time [s] may lie to either side.
    """

    volume: float
    time: float
    measured_at: str | None = None
    inflow: float | None = None
    volume_uncertainty: float | None = None
    time_uncertainty: float | None = None


@dataclass(frozen=True, kw_only=True, slots=True)
class MeasuredFlow:
    """The pump's flow by a pump-out.

    Parameters
    ----------
    volume : float
        Water that went through the pump [m3].
    flow : float
        Its mean flow [m3/s].
    least : float
        Least steady flow that fits [m3/s].
    most : float or None
        Greatest that fits [m3/s]; None where the time is as uncertain as it is long.
    inflow : float
        Water that arrived meanwhile, where it counts [m3/s].
    filling : float
        Part of the volume that first filled the empty tube [m3].
    """

    volume: float
    flow: float
    least: float
    most: float | None
    inflow: float
    filling: float

    @property
    def spread(self) -> float | None:
        """Width of the range over the flow; None where the range has no upper end."""
        return None if self.most is None else (self.most - self.least) / self.flow


def measure_flow(
    pump_out: PumpOut, *, fall_back_volume: float, fastest: float, pointer: str
) -> tuple[MeasuredFlow, tuple[Assumption, ...]]:
    """Work out the pump's flow from a pump-out, and the range it lies in.

    Parameters
    ----------
    pump_out : PumpOut
        As measured.
    fall_back_volume : float
        Water that runs back from the tube when the pump stops [m3].
    fastest : float
        Most the pump gives against no head [m3/s].
    pointer : str
        Where the pump-out stands in the request.

    Returns
    -------
    MeasuredFlow and tuple of Assumption

    Notes
    -----
    In the tank, water through the pump = drop + inflow x time (1). Where the drop is read after the tube has run
    back, that water has gone through the pump as well: + fall-back (2). At the tube's end it is what was caught.
    The range takes both readings at their worst together, as bounds [1]_.

    A tube that had run empty fills first, against less than the whole lift, so that the mean flow is above the
    steady one. While it fills, no more than ``fastest`` flows; so (V - B) / (t - B / fastest) (3) is the least that
    the steady flow can be, B being the water that fills the tube.

    Examples
    --------
    By hand: 1 L down in 60 s while 6 L/h arrive: 60 + 6 = 66 L/h went through the pump. With 2 % and 1 s to either
    side, 0.98 L in 61 s and 1.02 L in 59 s: 57.84 + 6 and 62.24 + 6 L/h:

    >>> measured, _ = measure_flow(
    ...     PumpOut(volume=1e-3, time=60.0, inflow=6e-3 / 3600, volume_uncertainty=2e-5, time_uncertainty=1.0),
    ...     fall_back_volume=0.0, fastest=1e-3, pointer="/pump_out")
    >>> [round(flow * 3.6e6, 2) for flow in (measured.flow, measured.least, measured.most)]
    [66.0, 63.84, 68.24]
    """
    require_members(PUMP_OUT_LIMITS, pump_out)
    assumptions: list[Assumption] = []

    def settled(name: str, default: float, note: str, symbols: str) -> float:
        given: float | None = getattr(pump_out, name)
        if given is None:
            assumptions.append(Assumption(pointer=f"{pointer}/{name}", value=default, note=note, symbols=symbols))
        return default if given is None else given

    place = pump_out.measured_at or MEASURED_AT[0]
    if pump_out.measured_at is None:
        note = "Taken as the drop in the tank from pump on to pump off."
        assumptions.append(Assumption(pointer=f"{pointer}/measured_at", value=place, note=note))
    in_tank = place != "tube-end"
    inflow = 0.0
    if in_tank:
        inflow = settled("inflow", 0.0, "No water was said to arrive in the tank meanwhile.", "gal/h|L/h")
    note = "5 % of the volume: a jug, or a leaflet's tank volume. Common practice."
    volume_off = settled("volume_uncertainty", VOLUME_UNCERTAINTY * pump_out.volume, note, "gal|L")
    note = "A stopwatch started and stopped by ear. Common practice."
    time_off = settled("time_uncertainty", TIME_UNCERTAINTY, note, "s")

    time, back = pump_out.time, fall_back_volume if place == "tank-after-fall-back" else 0.0
    filling = fall_back_volume if in_tank else 0.0
    longest, shortest = time + time_off, time - time_off
    # equations (1) and (2), the readings as they are and at their worst
    volume = pump_out.volume + back + inflow * time
    least_volume = max(pump_out.volume - volume_off, 0.0) + back + inflow * longest
    most = (pump_out.volume + volume_off + back) / shortest + inflow if shortest > 0.0 else None
    return (
        MeasuredFlow(
            volume=volume,
            flow=volume / time,
            least=_steady(least_volume, longest, filling, fastest),
            most=most,
            inflow=inflow,
            filling=filling,
        ),
        tuple(assumptions),
    )


def _steady(volume: float, time: float, filling: float, fastest: float) -> float:
    """Least steady flow [m3/s] where ``filling`` [m3] of the volume may have run as fast as ``fastest`` [m3/s]."""
    mean = volume / time
    if filling <= 0.0 or mean >= fastest:
        return mean
    if volume <= filling:
        return 0.0
    # equation (3); below the mean, for the part taken out is faster than it
    return (volume - filling) / (time - filling / fastest)
