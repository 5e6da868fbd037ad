"""Can this pump push this water up this lift through this tube, and how will it run?

References
----------
.. [1] L. A. Rossman et al., *EPANET 2.2 User Manual*, US EPA, 2020: the same curve and friction
   law give the same operating point.
"""

from operator import attrgetter

from service.calculations.answer import Answer, Assumption
from service.calculations.limits import Limit, require, require_members
from service.calculations.pipe_flow import velocity
from service.calculations.pump import Duty, Pump, PumpRun, SectionFlow
from service.calculations.pump_curve import POINT_LIMITS, read_curve
from service.calculations.pump_cycle import NO_FLOW, PUMP_LIMITS, cycle_pump, time_to_fill
from service.calculations.pump_judgement import judge_pump
from service.calculations.pump_point import longest_tube, operating_flow
from service.calculations.pump_tube import SECTION_LIMITS, TUBE_LIMITS, Tube, TubeRun, settle_tube

__all__ = ["LIMITS", "Pump", "PumpRun", "Tube", "run_pump"]

FLOW_MARGIN = 1.5
"""Least flow of a condensate pump over the peak inflow; 2 is better. Common practice, no source."""

FALL_BACK_SHARE = 1.0
"""All of the tube empties back; less where its far part falls to the open end."""

WATER_TEMPERATURE = 293.15
"""20 degC: condensate leaves the coil at 10 to 15 and warms up in tank and tube."""

ALL_FALLS_BACK = Assumption(
    pointer="/tube/fall_back_share",
    value=FALL_BACK_SHARE,
    note="Without a check valve the whole tube is taken to empty back into the tank.",
)

WARMED_UP = Assumption(
    pointer="/water_temperature",
    value=WATER_TEMPERATURE,
    note="Condensate leaves the coil at 10 to 15 degC and warms up in tank and tube.",
    symbols="degF|degC",
)

_USUAL_MARGIN = Assumption(
    pointer="/flow_margin",
    value=FLOW_MARGIN,
    note="A condensate pump should move at least 1.5 times the peak inflow, better 2. Common practice.",
)

LIMITS = {
    "inflow": Limit(0.0, 2e-3),  # dry, to 1,900 gal/h
    "lift": Limit(0.0, 50.0),  # level, to beyond any float-operated tank pump
    "water_temperature": Limit(273.15, 323.15),  # melting ice, to a hot attic
    "flow_margin": Limit(1.0, 5.0),
}


def run_pump(
    *,
    inflow: float,
    lift: float,
    tube: Tube,
    pump: Pump,
    water_temperature: float | None = None,
    flow_margin: float | None = None,
) -> Answer[PumpRun]:
    """Find a condensate pump's operating point, and judge how it will run.

    Parameters
    ----------
    inflow : float
        Condensate of the peak hour [m3/s].
    lift : float
        From the water in the tank up to the highest point of the tube [m].
    tube : Tube
        Discharge tube.
    pump : Pump
        Curve, tank and safety float.
    water_temperature : float or None
        Of the water in the tube [K].
    flow_margin : float or None
        Least flow over the inflow that is called enough.

    Returns
    -------
    Answer of PumpRun

    Raises
    ------
    OutOfRange
        For an argument outside `LIMITS`, `TUBE_LIMITS`, `SECTION_LIMITS`, `POINT_LIMITS` or `PUMP_LIMITS`.

    Notes
    -----
    The operating point is where curve and tube agree:
    lift_at(Q) = lift + sum of f (L/d) v^2/2g + K v^2/2g over the sections + check valve's cracking head. The
    right side rises with Q and the left never does, so there is one. The leaflet's own short tube and open end
    are part of its curve; a last section of another bore than the first leaves a difference of their velocity
    heads, which is what some 30 to 40 bores of the last section take in friction.

    Examples
    --------
    By hand, laminar: a curve from 0.6 m at no flow down to none at 2e-5 m3/s, 0.3 m of lift, 5 m of 10 mm bore
    at 1e-6 m2/s: friction 128 nu L Q/(pi g d^4) = 2077.3 Q, curve 0.6 - 30000 Q; Q = 0.3/32077.3 = 9.35e-6:

    >>> from service.calculations.pump_curve import CurvePoint
    >>> curve = (CurvePoint(lift=0.0, flow=2e-5), CurvePoint(lift=0.6, flow=0.0))
    >>> tube = Tube(bore=0.01, length=5.0, elbows=0, check_valve=False)
    >>> run = run_pump(inflow=2e-6, lift=0.3, tube=tube, pump=Pump(curve=curve), water_temperature=293.32).results
    >>> round(run.operating_flow * 1e6, 2)
    9.35
    """
    return run_on(settle_duty(inflow, lift, tube, water_temperature, flow_margin), pump)


def settle_duty(
    inflow: float, lift: float, tube: Tube, water_temperature: float | None, flow_margin: float | None
) -> Duty:
    """Hold what a pump is asked to do to its limits, and put defaults where the request is silent.

    Parameters
    ----------
    inflow, lift, tube, water_temperature, flow_margin
        As those of `run_pump`.

    Returns
    -------
    Duty

    Raises
    ------
    OutOfRange
        For an argument outside `LIMITS`, `TUBE_LIMITS` or `SECTION_LIMITS`.
    """
    require(LIMITS, inflow=inflow, lift=lift, water_temperature=water_temperature, flow_margin=flow_margin)
    require_tube(tube)
    margin = FLOW_MARGIN if flow_margin is None else flow_margin
    run, assumptions = settle_tube(tube, WATER_TEMPERATURE if water_temperature is None else water_temperature)
    return Duty(
        inflow=inflow,
        lift=lift,
        margin=margin,
        tube=tube,
        run=run,
        friction=run.friction(margin * inflow),
        fittings=run.fittings(margin * inflow),
        assumptions=assumptions + _assumptions(tube, water_temperature, flow_margin),
    )


def run_on(duty: Duty, pump: Pump) -> Answer[PumpRun]:
    """Find how a pump does a duty, and judge it.

    Parameters
    ----------
    duty : Duty
    pump : Pump

    Returns
    -------
    Answer of PumpRun

    Raises
    ------
    OutOfRange
        For a number of the pump outside `PUMP_LIMITS` or `POINT_LIMITS`.
    """
    require_pump(pump)
    inflow, lift, tube, run = duty.inflow, duty.lift, duty.tube, duty.run
    curve = read_curve(pump.curve)
    flow = operating_flow(curve, run, lift)
    sections = _section_flows(run, flow)
    narrowest = min(sections, key=attrgetter("bore"))
    friction, fittings = sum([part.friction_head for part in sections]), sum([part.fittings_head for part in sections])
    length, shut_off = run.length, curve.shut_off
    back = 0.0
    if not tube.check_valve:
        back = run.water_within((FALL_BACK_SHARE if tube.fall_back_share is None else tube.fall_back_share) * length)
    cycle = cycle_pump(
        inflow=inflow,
        operating_flow=flow,
        tank_volume=pump.tank_volume_between_floats,
        fall_back_volume=back,
    )
    needed, needed_losses = duty.margin * inflow, duty.friction + duty.fittings
    top = curve.lift_at(needed)
    results = PumpRun(
        operating_flow=flow,
        operating_head=lift + friction + fittings if flow > 0.0 else shut_off,
        friction_head=friction,
        fittings_head=fittings,
        velocity=narrowest.velocity,
        reynolds=narrowest.reynolds,
        flow_ratio=flow / inflow if inflow > NO_FLOW else None,
        fill_time=cycle.fill_time,
        pump_out_time=cycle.pump_out_time,
        cycles_per_hour=cycle.cycles_per_hour,
        duty=cycle.duty,
        fall_back_volume=back,
        time_to_safety_float=None if pump.safety_float == "none" else time_to_fill(pump.volume_to_safety_float, inflow),
        time_to_overflow=time_to_fill(pump.volume_to_overflow, inflow),
        largest_lift=None if top is None or top < needed_losses else top - needed_losses,
        longest_tube=None if top is None else longest_tube(top - lift - duty.fittings, duty.friction / length),
        needed_flow=needed,
        needed_head=lift + needed_losses,
        shut_off_head=shut_off,
        sections=sections,
    )
    changes = ("crane-changes-of-bore",) if tube.further_sections else ()
    return Answer(
        results=results,
        findings=judge_pump(duty, pump, curve, results),
        assumptions=duty.assumptions,
        cautions=("water-and-electricity", *(("water-damage",) if flow < inflow else ()), "local-code"),
        sources=("darcy", "epanet", "minor-losses", *changes, "iapws-liquid-water", "irc-pump", "common-practice"),
    )


def require_tube(tube: Tube) -> None:
    """Raise `OutOfRange` for a number of the tube outside its limit."""
    require_members(TUBE_LIMITS, tube)
    for section in tube.further_sections:
        require_members(SECTION_LIMITS, section)


def require_pump(pump: Pump) -> None:
    """Raise `OutOfRange` for a number of the pump outside its limit."""
    require_members(PUMP_LIMITS, pump)
    for point in pump.curve:
        require_members(POINT_LIMITS, point)


def _section_flows(run: TubeRun, flow: float) -> tuple[SectionFlow, ...]:
    """Tell what flows in each section; the check valve counts to the first."""
    check_valve = run.check_valve(flow) if flow > 0.0 else 0.0
    flows = []
    for section in run.sections:
        speed = velocity(flow, section.bore)
        flows.append(
            SectionFlow(
                bore=section.bore,
                length=section.length,
                velocity=speed,
                reynolds=speed * section.bore / section.kinematic_viscosity,
                friction_head=section.friction(flow),
                fittings_head=section.fittings(flow) + check_valve,
            )
        )
        check_valve = 0.0
    return tuple(flows)


def _assumptions(tube: Tube, water_temperature: float | None, flow_margin: float | None) -> tuple[Assumption, ...]:
    """Record the defaults that are not the tube's own."""
    assumptions = []
    if not tube.check_valve and tube.fall_back_share is None:
        assumptions.append(ALL_FALLS_BACK)
    if water_temperature is None:
        assumptions.append(WARMED_UP)
    if flow_margin is None:
        assumptions.append(_USUAL_MARGIN)
    return tuple(assumptions)
