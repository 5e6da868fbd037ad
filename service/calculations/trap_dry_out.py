"""How many days until a trap's seal is lost between seasons?"""

import math

from service.calculations import air_flow
from service.calculations.air_flow import station_pressure_of
from service.calculations.air_over_trap import OverWater, find_air_over_water, find_water_temperature
from service.calculations.air_state import AirReading
from service.calculations.answer import Answer, Assumption, Finding
from service.calculations.dry_out_judgement import judge_air, judge_seal_life
from service.calculations.dry_out_results import AfterIdle, TrapDryOut
from service.calculations.level_fall import OpenLeg, fall_after, fall_time
from service.calculations.limits import Limit, require
from service.calculations.saturation import TRIPLE_POINT
from service.calculations.seal_loss import lowest_holding_level
from service.calculations.trap_check import DEEP_ENOUGH, TYPICAL_PAN_AREA, trap_legs
from service.calculations.trap_check import LIMITS as TRAP_LIMITS
from service.calculations.trap_sizing import design_pressure
from service.calculations.trap_water import SLACK, Trap, head, seal_at_start_up
from service.calculations.vapour_diffusion import WaterSurface, fall_coefficient

LONGEST_TIME = 3650.0 * 86400.0
"""Ten years [s]; a seal that lasts longer does not dry out for any practical purpose."""

_FULL = Assumption(
    pointer="/evaporated_depth",
    value=0.0,
    note="Nothing was said of drying out so far: the trap starts full to its outlet invert.",
    symbols="in|mm",
)
_TYPICAL_PAN = Assumption(
    pointer="/pan_area",
    value=TYPICAL_PAN_AREA,
    note="The pan's area was not given: a typical one, for the water that the fan lifts into it.",
    symbols="in2|cm2",
)

LIMITS = {
    **{
        name: TRAP_LIMITS[name]
        for name in (
            "pan_pressure",
            "dirty_filter_allowance",
            "seal_depth",
            "pan_area",
            "pan_depth",
            "evaporated_depth",
        )
    },
    "outlet_drop": Limit(0.0, 1.5),  # level ends, to five feet; with the outlet higher the pan never dries
    "outlet_side_path": Limit(0.0, 100.0),  # open right at the trap, to the far end of a long line
    "water_temperature": Limit(TRIPLE_POINT, 333.15),  # about to freeze, to an attic in the sun; it boils far above
    "elevation": air_flow.LIMITS["elevation"],
    "station_pressure": air_flow.LIMITS["station_pressure"],
    "idle_time": Limit(0.0, 730.0 * 86400.0),  # no time at all, to two years shut down
}


def dry_out_trap(
    *,
    pan_pressure: float,
    outlet_drop: float,
    seal_depth: float,
    dirty_filter_allowance: float | None = None,
    pipe_size: str | None = None,
    unit_side_pipe_size: str | None = None,
    outlet_side_pipe_size: str | None = None,
    pan_area: float | None = None,
    pan_depth: float | None = None,
    evaporated_depth: float | None = None,
    open_legs: str | None = None,
    unit_side_air: AirReading | None = None,
    outlet_side_air: AirReading | None = None,
    outlet_side_path: float | None = None,
    water_temperature: float | None = None,
    elevation: float | None = None,
    station_pressure: float | None = None,
    idle_time: float | None = None,
    judged: bool = True,
) -> Answer[TrapDryOut]:
    """Find the earliest and the latest day on which evaporation has taken the seal.

    Parameters
    ----------
    pan_pressure : float
        Pressure in the pan with the fan on [Pa gauge]; negative where the coil is upstream of the fan.
    outlet_drop : float
        From the pan outlet down to the trap's outlet invert [m].
    seal_depth : float
        From the trap's outlet invert down to the top of the bend [m].
    dirty_filter_allowance : float or None
        What a dirty filter adds to the suction [Pa].
    pipe_size : str or None
        Nominal size of both legs, where a leg's own is not given.
    unit_side_pipe_size, outlet_side_pipe_size : str or None
        Nominal size of a leg.
    pan_area : float or None
        Area of the pan [m2].
    pan_depth : float or None
        From the pan outlet up to where the pan runs over [m].
    evaporated_depth : float or None
        How far the water has fallen already [m].
    open_legs : str or None
        One of `service.calculations.air_over_trap.OPEN_LEGS`.
    unit_side_air, outlet_side_air : AirReading or None
        Air at the mouth of either leg: dry bulb with relative humidity or dew point.
    outlet_side_path : float or None
        From the trap's outlet along the pipe to where the outlet leg meets the open air [m].
    water_temperature : float or None
        Of the water and the still air on it [K].
    elevation, station_pressure : float or None
        Of the site [m], or instead of it [Pa].
    idle_time : float or None
        How long no water arrives [s].
    judged : bool
        Whether to say what the seal's life means; an assessment says so by where the drain ends.

    Returns
    -------
    Answer of TrapDryOut

    Raises
    ------
    OutOfRange
        For an argument outside `LIMITS` or `service.calculations.vapour_diffusion.AIR_LIMITS`.
    Contradiction
        For a dew point above the dry bulb.

    Notes
    -----
    Diffusion through still air in both bounds (`vapour_diffusion`), its column growing as the level falls
    (`level_fall`); the level is that of one body of water, and both open legs take from it.

    * Latest: the air in the legs stands still from the water to the mouth, which is the pan outlet in one leg and
      ``outlet_side_path`` beyond the trap's outlet in the other.
    * Earliest: moving air sweeps the mouths and reaches down to where the water stands at the start, without the
      film of a millimetre or two that any real sweep leaves. From there on the column grows by what has
      evaporated: below the swept mouth the air stands still.

    A leg whose air is wetter than the water's surface condenses; what it adds is not counted on. The water keeps one
    temperature (evaporation takes only a watt or two from a square metre). In bores so wide that the light moist air
    overturns the trap dries out earlier; a finding says so.

    Examples
    --------
    Both legs of a 2 in seal open to dry air, swept, no pressure: x = 50.8 mm and a = 36.8 mm2 a day give
    x^2 / 2a = 35 days.

    >>> answer = dry_out_trap(pan_pressure=0.0, outlet_drop=0.05, seal_depth=0.0508, water_temperature=293.15,
    ...                       unit_side_air=AirReading(dry_bulb=293.15, relative_humidity_percent=0.0))
    >>> round(answer.results.earliest_loss / 86400.0)
    35
    """
    require(
        LIMITS,
        pan_pressure=pan_pressure,
        outlet_drop=outlet_drop,
        seal_depth=seal_depth,
        dirty_filter_allowance=dirty_filter_allowance,
        pan_area=pan_area,
        pan_depth=pan_depth,
        evaporated_depth=evaporated_depth,
        outlet_side_path=outlet_side_path,
        water_temperature=water_temperature,
        elevation=elevation,
        station_pressure=station_pressure,
        idle_time=idle_time,
    )
    findings: list[Finding] = []
    assumptions: list[Assumption] = []
    pressure = design_pressure(pan_pressure, dirty_filter_allowance, findings, assumptions)
    unit_side, outlet_side = trap_legs(pipe_size, unit_side_pipe_size, outlet_side_pipe_size, findings, assumptions)
    if evaporated_depth is None:
        assumptions.append(_FULL)
    trap = Trap(
        outlet_drop=outlet_drop,
        seal_depth=seal_depth,
        unit_side_bore=unit_side.bore,
        outlet_side_bore=outlet_side.bore,
        pan_area=TYPICAL_PAN_AREA if pan_area is None else pan_area,
        pan_depth=math.inf if pan_depth is None else pan_depth,
        evaporated_depth=evaporated_depth or 0.0,
    )
    assumptions += _pan_assumptions(trap, pressure, pan_area, pan_depth, idle_time)
    site = station_pressure_of(elevation, station_pressure)
    assumptions += site.assumptions
    over_water = find_air_over_water(
        trap,
        open_legs=open_legs,
        unit_side_air=unit_side_air,
        outlet_side_air=outlet_side_air,
        outlet_side_path=outlet_side_path,
        pressure=site.pressure,
        findings=findings,
        assumptions=assumptions,
    )
    temperature = find_water_temperature(water_temperature, over_water, assumptions)
    surface = WaterSurface(temperature=temperature, pressure=site.pressure)
    results = _results(trap, pressure, over_water, surface, idle_time)
    findings += judge_air(over_water, surface, -results.loss_level)
    if judged:
        findings += judge_seal_life(trap, results)
    freezing = any(column.air.dry_bulb < TRIPLE_POINT for column in over_water)
    return Answer(
        results=results,
        findings=tuple(findings),
        assumptions=tuple(assumptions),
        cautions=(*(("freezing",) if freezing else ()), "local-code"),
        sources=(
            "stefan-tube",
            "vapour-diffusivity",
            "ashrae-psychrometrics",
            "ashrae-enhancement",
            "iapws-liquid-water",
            "hydrostatics",
            "astm-d1785",
        ),
    )


def _pan_assumptions(
    trap: Trap, pressure: float, pan_area: float | None, pan_depth: float | None, idle_time: float | None
) -> list[Assumption]:
    """Record what was taken of the pan, where the fan lifts water into it at the loss or after the idle time."""
    column = head(-pressure)
    highest = column - trap.seal_depth
    if idle_time is not None:
        share = trap.outlet_side_area / (trap.unit_side_area + trap.outlet_side_area)
        highest = max(highest, share * column - trap.evaporated_depth)
    if highest <= trap.outlet_drop + SLACK:
        return []
    assumptions = []
    if pan_area is None:
        assumptions.append(_TYPICAL_PAN)
    if pan_depth is None:
        assumptions.append(DEEP_ENOUGH)
    return assumptions


def _results(
    trap: Trap,
    pressure: float,
    over_water: tuple[OverWater, ...],
    surface: WaterSurface,
    idle_time: float | None,
) -> TrapDryOut:
    area = trap.unit_side_area + trap.outlet_side_area
    shares = {"unit-side": trap.unit_side_area / area, "outlet-side": trap.outlet_side_area / area}
    # as a rule both legs meet the same air; what condenses from air that is wetter is not counted on
    coefficients = {far: max(fall_coefficient(surface, far), 0.0) for far in {leg.far_fraction for leg in over_water}}
    still = tuple(
        [OpenLeg(path=leg.path, coefficient=shares[leg.side] * coefficients[leg.far_fraction]) for leg in over_water]
    )
    start = trap.evaporated_depth
    # moving air reaches down to the water as it stands at the start, and its fall is counted from there
    swept = tuple([OpenLeg(path=0.0, coefficient=leg.coefficient) for leg in still])
    level = lowest_holding_level(trap, pressure)
    loss = -level if level is not None else 0.0
    after_idle, lasting = None, None
    if idle_time is not None:
        gone = fall_after(swept, 0.0, idle_time)
        after_idle = _after_idle(trap, pressure, area, idle_time, fall_after(still, start, idle_time), start + gone)
        column = shares["unit-side"] * head(-pressure) if pressure < 0.0 else shares["outlet-side"] * head(pressure)
        lasting = max(gone + column, head(pressure))
    vapour_pressures = {column.side: surface.pressure * column.far_fraction for column in over_water}
    return TrapDryOut(
        design_pressure=pressure,
        loss_level=-loss,
        saturation_vapour_pressure=surface.pressure * surface.saturated_fraction,
        unit_side_vapour_pressure=vapour_pressures.get("unit-side"),
        outlet_side_vapour_pressure=vapour_pressures.get("outlet-side"),
        earliest_loss=_practical(fall_time(swept, 0.0, loss - start)),
        latest_loss=_practical(fall_time(still, start, loss)),
        earliest_uncovered=_practical(fall_time(swept, 0.0, trap.seal_depth - start)),
        latest_uncovered=_practical(fall_time(still, start, trap.seal_depth)),
        evaporated_volume=area * max(loss - start, 0.0),
        refill_interval=_practical(fall_time(swept, 0.0, loss)) if loss > SLACK else None,
        after_idle=after_idle,
        lasting_seal_depth=lasting,
        holds_when_full=level is not None and trap.seal_depth > SLACK,
    )


def _practical(time: float) -> float | None:
    return time if time <= LONGEST_TIME else None


def _after_idle(
    trap: Trap, pressure: float, area: float, idle_time: float, slowest: float, fastest: float
) -> AfterIdle:
    deepest = max(trap.seal_depth, trap.evaporated_depth)  # not followed below the dip
    least_gone, most_gone = min(slowest, deepest), min(fastest, deepest)
    most = seal_at_start_up(trap, pressure, evaporated_depth=least_gone)
    least = seal_at_start_up(trap, pressure, evaporated_depth=most_gone)

    def seals(fall: float, seal: float) -> bool:
        return seal >= -SLACK and trap.seal_depth > SLACK and fall <= trap.seal_depth + SLACK

    holds, held = seals(fastest, least), seals(slowest, most)
    return AfterIdle(
        idle_time=idle_time,
        outcome="holds" if holds else "uncertain" if held else "lost",
        least_seal=least,
        most_seal=most,
        least_evaporated_volume=area * (least_gone - trap.evaporated_depth),
        most_evaporated_volume=area * (most_gone - trap.evaporated_depth),
    )
