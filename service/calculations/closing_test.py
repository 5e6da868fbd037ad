"""The closing test: water poured on purpose, how much, how fast, and when it must show at the discharge.

What is poured first wets the line: at a steady pour Q the line holds A(Q) L, the part-full area of the flow by
Manning's formula times the length, and the front of the water arrives after A L / Q = L / velocity. A pump
then waits for its tank to fill, and its tube has to fill before anything is seen. A line that does not fall, or
is too small for the pour, fills its whole bore first.

References
----------
.. [1] V. T. Chow, *Open-Channel Hydraulics*, 1959: Manning's formula in a circular section.
"""

from math import ceil

from service.calculations.answer import Sentence
from service.calculations.frozen import dataclass
from service.calculations.gravity_flow import full_bore_flow, part_full_depth
from service.calculations.limits import Limit
from service.calculations.pipe_water import segment_area
from service.calculations.pump_cycle import NO_FLOW
from service.tables.cleaning_proof import PROVED_AT_A_PUMP, PROVED_BY_GRAVITY, PROVED_WITHOUT_A_TIME

PROOF_TIME = 60.0
"""Time [s] for which water must run freely once it shows. Common practice, no source."""

LATE = 1.5
"""How many times the computed time water may take: slime left over holds it back. Common practice, no source."""

CAUGHT_SHARE = 0.9
"""Share of what must come out that is counted on; the rest stays as a film on the wall. Common practice, no source."""

HANDY_RATE = 1e-3 / 60.0
"""A steady pour from a jug, a litre a minute [m3/s]. Common practice, no source."""

PEAK_MARGIN = 2.0
"""Pour over peak flow, so that the drain is proved with something in hand. Common practice, no source."""

PUMP_SHARE = 0.5
"""Largest share of a pump's flow that is poured, so that the tank does not rise to its safety float."""

POUR_LIMITS = {"pour_rate": Limit(1e-6, 2e-3)}  # 1 gal/h from a cup, to a 1-1/4 in hose


@dataclass(frozen=True, kw_only=True, slots=True)
class WettedLine:
    """A line with water poured through it.

    Parameters
    ----------
    hold_up : float
        Water in it [m3].
    depth_fraction : float
        Depth over bore.
    velocity : float
        Of the water, and of its front [m/s].
    time : float
        Until the front is through [s].
    fills : bool
        Whether the whole bore fills first: no fall, or too small for this pour.
    """

    hold_up: float
    depth_fraction: float
    velocity: float
    time: float
    fills: bool


@dataclass(frozen=True, kw_only=True, slots=True)
class PumpedPart:
    """Tank and tube of a pumped unit, as the closing test sees them.

    Parameters
    ----------
    tank_volume : float
        From the level where the pump stops to where it starts [m3].
    tube_volume : float
        Bore of the tube times its length [m3].
    flow : float or None
        What the pump moves against lift and tube [m3/s]; None without its leaflet, 0 where it cannot lift.
    holds : bool
        Whether a check valve keeps the tube full between starts.
    """

    tank_volume: float
    tube_volume: float
    flow: float | None
    holds: bool


@dataclass(frozen=True, kw_only=True, slots=True)
class ClosingTest:
    """What to pour and what to see.

    Parameters
    ----------
    pour_place : str
        Where the water goes in.
    pour_rate : float
        Steady pour [m3/s].
    rate_to_peak : float or None
        Pour over the peak flow; None where there is no peak.
    trap_volume : float
        Fills the trap first [m3].
    line_hold_up : float
        Wets the line at this pour [m3].
    line_depth_fraction : float
        Depth of the water over the bore.
    line_velocity : float
        Of its front [m/s].
    line_time : float
        Until it is through the line [s].
    tank_volume, tank_fill_time : float or None
        Pump tank up to the float [m3], and how long that takes [s]; None without a pump.
    tube_volume, tube_fill_time : float or None
        Tube [m3], and how long the pump takes to fill it [s]; None without a pump, the time also without a flow.
    time_to_show : float or None
        From the start of the pour, trap full, until water shows at the discharge [s]; None where it cannot be told.
    latest_time : float or None
        When the test has failed [s].
    proof_volume : float
        Poured after that, to see it run freely [m3].
    pour_volume : float
        All of it, trap included [m3].
    pour_time : float
        In which what follows the trap's filling is poured [s].
    least_caught : float
        What must come out by then [m3].
    pass_when : Sentence
        What counts as a pass.
    """

    pour_place: str
    pour_rate: float
    rate_to_peak: float | None
    trap_volume: float
    line_hold_up: float
    line_depth_fraction: float
    line_velocity: float
    line_time: float
    tank_volume: float | None
    tank_fill_time: float | None
    tube_volume: float | None
    tube_fill_time: float | None
    time_to_show: float | None
    latest_time: float | None
    proof_volume: float
    pour_volume: float
    pour_time: float
    least_caught: float
    pass_when: Sentence


def wet_line(
    *, pour_rate: float, bore: float, length: float, pitch_ratio: float, manning_coefficient: float
) -> WettedLine:
    """Work out what a line holds while water is poured through it.

    Parameters
    ----------
    pour_rate : float
        Steady pour [m3/s], above 0.
    bore, length : float
        Of the line [m].
    pitch_ratio : float
        Fall over run.
    manning_coefficient : float
        Manning's roughness coefficient [s/m^(1/3)].

    Returns
    -------
    WettedLine

    Examples
    --------
    By hand, half full: the pour is half the full-bore flow, the area half, so the speed is the full bore's.

    >>> full = full_bore_flow(bore=0.02, pitch_ratio=0.01, manning_coefficient=0.011)
    >>> line = wet_line(pour_rate=full / 2, bore=0.02, length=10.0, pitch_ratio=0.01, manning_coefficient=0.011)
    >>> round(line.depth_fraction, 9), round(line.hold_up / (3.141592654e-4 * 10.0), 9)
    (0.5, 0.5)
    """
    capacity = full_bore_flow(bore=bore, pitch_ratio=pitch_ratio, manning_coefficient=manning_coefficient)
    depth = part_full_depth(pour_rate / capacity) if capacity > 0.0 else None
    wetted = segment_area(bore=bore, depth=bore if depth is None else depth * bore)
    speed = pour_rate / wetted
    return WettedLine(
        hold_up=wetted * length,
        depth_fraction=1.0 if depth is None else depth,
        velocity=speed,
        time=length / speed,
        fills=depth is None,
    )


def time_to_fill_tube(pumped: PumpedPart, pour_rate: float) -> float | None:
    """Time from the pump's first start until its tube is full, water going on being poured.

    Parameters
    ----------
    pumped : PumpedPart
        Tank, tube and flow.
    pour_rate : float
        Arriving in the tank [m3/s], above 0.

    Returns
    -------
    float or None
        Time [s]; None without a flow. The flow is that of the full tube, so it takes no longer.

    Notes
    -----
    One run moves W = tank x flow / (flow - pour); the pump does not stop where the pour is as fast. A tube that holds
    more takes k more whole cycles of running and filling where a check valve holds it; where it empties back, water
    shows once the tank's volume and what was poured since make up the tube.

    Examples
    --------
    By hand: 1 L at 0.02 L/s with 0.01 L/s poured runs 100 s and moves 2 L, so a tube of 1.5 L takes 75 s:

    >>> time_to_fill_tube(PumpedPart(tank_volume=1e-3, tube_volume=1.5e-3, flow=2e-5, holds=True), 1e-5)
    75.0
    """
    flow, tank, tube = pumped.flow, pumped.tank_volume, pumped.tube_volume
    if flow is None or flow <= NO_FLOW:
        return None
    if flow <= pour_rate:
        return tube / flow
    run = tank / (flow - pour_rate)
    if tube <= run * flow:
        return tube / flow
    if not pumped.holds:
        return (tube - tank) / pour_rate + tube / flow
    more = ceil(tube / (run * flow)) - 1
    return more * (run + tank / pour_rate) + (tube - more * run * flow) / flow


def choose_pour_rate(peak_flow: float, pump_flow: float | None) -> float:
    """Rate to pour at where the request names none.

    Parameters
    ----------
    peak_flow : float
        Condensate of the peak hour [m3/s].
    pump_flow : float or None
        What the pump moves [m3/s].

    Returns
    -------
    float
        Twice the peak, at least a litre a minute [m3/s]; at a pump no more than half its flow, but never less than
        the peak, which is what the drain must carry, or than a cup gives.

    Examples
    --------
    >>> [round(60e3 * choose_pour_rate(*flows), 9) for flows in ((2e-6, None), (2e-5, None), (2e-6, 1e-5))]
    [1.0, 2.4, 0.3]
    """
    rate = max(PEAK_MARGIN * peak_flow, HANDY_RATE)
    if pump_flow is None or pump_flow <= NO_FLOW:
        return rate
    return max(peak_flow, POUR_LIMITS["pour_rate"].low, min(rate, PUMP_SHARE * pump_flow))


def plan_closing_test(
    *,
    pour_place: str,
    pour_rate: float,
    peak_flow: float,
    trap_volume: float,
    line: WettedLine,
    falls: bool,
    pumped: PumpedPart | None,
) -> ClosingTest:
    """Put the closing test together.

    Parameters
    ----------
    pour_place : str
        Where the water goes in.
    pour_rate, peak_flow : float
        Steady pour, and condensate of the peak hour [m3/s].
    trap_volume : float
        Water that fills the trap [m3].
    line : WettedLine
        At that pour.
    falls : bool
        Whether what wets the line runs out again.
    pumped : PumpedPart or None
        Where a pump follows.

    Returns
    -------
    ClosingTest
    """
    proof = pour_rate * PROOF_TIME
    poured, shows = line.hold_up, line.time
    tube_time: float | None = None
    known = True
    if pumped:
        tube_time = time_to_fill_tube(pumped, pour_rate)
        known = tube_time is not None
        poured += pumped.tank_volume
        # without a time: as much as the tube holds passes through the tank
        poured += pumped.tube_volume if tube_time is None else pour_rate * tube_time
        shows += pumped.tank_volume / pour_rate + (tube_time or 0.0)
        proof += pumped.tank_volume  # so that the pump is seen to stop, and to start again
    least = CAUGHT_SHARE * (proof - pumped.tank_volume if pumped else proof + (line.hold_up if falls else 0.0))
    latest = LATE * shows
    text = PROVED_AT_A_PUMP if pumped else PROVED_BY_GRAVITY
    values = {"shows": shows, "latest": latest, "least": least, "rate": pour_rate, "proof_time": PROOF_TIME}
    return ClosingTest(
        pour_place=pour_place,
        pour_rate=pour_rate,
        rate_to_peak=pour_rate / peak_flow if peak_flow > NO_FLOW else None,
        trap_volume=trap_volume,
        line_hold_up=line.hold_up,
        line_depth_fraction=line.depth_fraction,
        line_velocity=line.velocity,
        line_time=line.time,
        tank_volume=pumped.tank_volume if pumped else None,
        tank_fill_time=pumped.tank_volume / pour_rate if pumped else None,
        tube_volume=pumped.tube_volume if pumped else None,
        tube_fill_time=tube_time,
        time_to_show=shows if known else None,
        latest_time=latest if known else None,
        proof_volume=proof,
        pour_volume=trap_volume + poured + proof,
        pour_time=(poured + proof) / pour_rate,
        least_caught=least,
        pass_when=Sentence(text=text if known else PROVED_WITHOUT_A_TIME, values=values),
    )
