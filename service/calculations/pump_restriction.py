"""From a timed pump-out: how much head is missing, and what would take it.

A restriction takes head, a worn pump makes less: one flow at one lift cannot tell the two apart, for either gives
it. A second measurement of the pump alone, with the tube off or held up until the flow stops, can.

References
----------
.. [1] I. E. Idelchik, *Handbook of Hydraulic Resistance*, 3rd edition, 1994, diagram 4-14.
.. [2] I. J. Karassik et al., *Pump Handbook*, affinity laws of centrifugal pumps.
"""

from service.calculations.answer import Answer, Assumption
from service.calculations.frozen import dataclass
from service.calculations.limits import Limit, require
from service.calculations.pinch import pinch_bore, velocity_heads
from service.calculations.pump import Pump
from service.calculations.pump_curve import PumpCurve, read_curve
from service.calculations.pump_cycle import NO_FLOW
from service.calculations.pump_out import MeasuredFlow, PumpOut, measure_flow
from service.calculations.pump_point import operating_flow
from service.calculations.pump_restriction_judgement import SHORT_CAUSES, Evidence, judge_restriction, name_cause
from service.calculations.pump_restriction_results import PumpRestriction
from service.calculations.pump_run import (
    ALL_FALLS_BACK,
    FALL_BACK_SHARE,
    WARMED_UP,
    WATER_TEMPERATURE,
    require_pump,
    require_tube,
)
from service.calculations.pump_run import LIMITS as RUN_LIMITS
from service.calculations.pump_speed import head_at_speed, speed_for, speed_from_shut_off
from service.calculations.pump_tube import Tube, TubeRun, settle_tube
from service.calculations.tube_fouling import fouled_bore

__all__ = ["LIMITS", "PumpOut", "PumpRestriction", "TubeOffPumpOut", "find_restriction"]

SHUT_OFF_HEAD_UNCERTAINTY = 0.1
"""A tape held along a tube in which the water still moves [m]. Common practice, no source."""

LIMITS = {
    "lift": RUN_LIMITS["lift"],
    "water_temperature": RUN_LIMITS["water_temperature"],
    "shut_off_head_measured": Limit(0.0, 100.0),  # a pump that no longer lifts, to the end of any leaflet's curve
    "shut_off_head_uncertainty": Limit(0.0, 10.0),
    "tube_off_lift": Limit(0.0, 50.0),  # straight from the outlet, to a riser held up
}


@dataclass(frozen=True, kw_only=True, slots=True)
class TubeOffPumpOut:
    """A pump-out with the tube off, or through a short wide one, so that the pump alone is measured.

    Parameters
    ----------
    volume, time : float
        Water pumped [m3], and how long the pump took [s].
    lift : float or None
        From the water in the tank up to where it came out [m].
    inflow : float or None
        Water that arrived in the tank meanwhile [m3/s].
    volume_uncertainty, time_uncertainty : float or None
        How far the true volume [m3] and time [s] may lie to either side.
    """

    volume: float
    time: float
    lift: float | None = None
    inflow: float | None = None
    volume_uncertainty: float | None = None
    time_uncertainty: float | None = None


def find_restriction(
    *,
    pump_out: PumpOut,
    lift: float,
    tube: Tube,
    pump: Pump,
    tube_off_pump_out: TubeOffPumpOut | None = None,
    shut_off_head_measured: float | None = None,
    shut_off_head_uncertainty: float | None = None,
    water_temperature: float | None = None,
) -> Answer[PumpRestriction]:
    """Infer from a timed pump-out how much head is missing, and what would take it.

    Parameters
    ----------
    pump_out : PumpOut
        The measurement.
    lift : float
        From the water in the tank up to the highest point of the tube [m].
    tube : Tube
        Discharge tube, as it is when clean.
    pump : Pump
        The pump, by its leaflet; only its curve counts here.
    tube_off_pump_out : TubeOffPumpOut or None
        A second measurement, of the pump alone.
    shut_off_head_measured : float or None
        Another kind of second measurement: height at which the water stops in a tube held up [m]. Where both are
        given, this one counts, for no friction enters it.
    shut_off_head_uncertainty : float or None
        How far that height may lie to either side [m].
    water_temperature : float or None
        Of the water in the tube [K].

    Returns
    -------
    Answer of PumpRestriction

    Raises
    ------
    OutOfRange
        For an argument outside `LIMITS`, `PUMP_OUT_LIMITS`, `TUBE_LIMITS`, `SECTION_LIMITS`, `POINT_LIMITS` or
        `PUMP_LIMITS`.

    Notes
    -----
    missing head = head of the leaflet's curve at the flow - (lift + friction + fittings at the flow) (1). Where the
    pump was measured alone its speed ratio n is known, and the restriction takes
    n^2 x head of the curve at flow / n - (lift + friction + fittings) (2). The pinch is a sharp-edged hole [1]_; the
    worn pump follows the affinity laws [2]_.

    Examples
    --------
    By hand, laminar, the installation of `run_pump`: at 6e-6 m3/s the curve makes 0.6 - 0.18 = 0.42 m, lift and
    friction ask 0.3 + 2077.3 x 6e-6 = 0.3125 m: 0.1075 m are missing.

    >>> from service.calculations.pump_curve import CurvePoint
    >>> curve = (CurvePoint(lift=0.0, flow=2e-5), CurvePoint(lift=0.6, flow=0.0))
    >>> tube = Tube(bore=0.01, length=5.0, elbows=0, check_valve=True, check_valve_loss_coefficient=0.0)
    >>> timed = PumpOut(volume=6e-4, time=100.0)
    >>> found = find_restriction(pump_out=timed, lift=0.3, tube=tube, pump=Pump(curve=curve), water_temperature=293.32)
    >>> round(found.results.missing_head, 4), found.results.cause
    (0.1075, 'cannot-tell')
    """
    require(
        LIMITS,
        lift=lift,
        water_temperature=water_temperature,
        shut_off_head_measured=shut_off_head_measured,
        shut_off_head_uncertainty=shut_off_head_uncertainty,
        tube_off_lift=tube_off_pump_out.lift if tube_off_pump_out else None,
    )
    require_tube(tube)
    require_pump(pump)
    run, assumptions = settle_tube(tube, WATER_TEMPERATURE if water_temperature is None else water_temperature)
    curve = read_curve(pump.curve)
    share = FALL_BACK_SHARE if tube.fall_back_share is None else tube.fall_back_share
    back = 0.0 if tube.check_valve else run.water_within(share * run.length)
    measured, timed = measure_flow(pump_out, fall_back_volume=back, fastest=curve.most_flow, pointer="/pump_out")
    assumptions += timed + _assumptions(tube, measured, water_temperature)
    speed, second = _measured_speed(curve, tube_off_pump_out, shut_off_head_measured, shut_off_head_uncertainty)
    results = _results(curve, run, lift, measured, speed)
    evidence = Evidence(curve=curve, tube=run, lift=lift, measured=measured, second=_second_at(speed))
    return Answer(
        results=results,
        findings=judge_restriction(evidence, results),
        assumptions=assumptions + second,
        cautions=(
            "water-and-electricity",
            *(("biological-slime",) if results.cause in SHORT_CAUSES else ()),
            "local-code",
        ),
        sources=(
            "darcy",
            "epanet",
            "minor-losses",
            "idelchik-orifice",
            "affinity-laws",
            "iapws-liquid-water",
            "common-practice",
        ),
    )


@dataclass(frozen=True, kw_only=True, slots=True)
class _Speed:
    """The pump's speed ratio, its range, and the member that told it; an end is None where nothing is known of it."""

    pointer: str
    ratio: float
    least: float | None
    most: float | None


_LEAFLET = _Speed(pointer="", ratio=1.0, least=1.0, most=1.0)


def _second_at(speed: _Speed | None) -> str | None:
    return speed.pointer if speed else None


def _measured_speed(
    curve: PumpCurve, tube_off: TubeOffPumpOut | None, shut_off_head: float | None, uncertainty: float | None
) -> tuple[_Speed | None, tuple[Assumption, ...]]:
    """Find the pump's speed ratio from the measurement of the pump alone; None without one, or where none fits."""
    if shut_off_head is not None:
        assumptions: tuple[Assumption, ...] = ()
        if uncertainty is None:
            note = "A tape along a tube in which the water still moves. Common practice."
            pointer = "/shut_off_head_uncertainty"
            assumptions = (Assumption(pointer=pointer, value=SHUT_OFF_HEAD_UNCERTAINTY, note=note, symbols="in|mm"),)
        off = SHUT_OFF_HEAD_UNCERTAINTY if uncertainty is None else uncertainty
        ratio = speed_from_shut_off(curve, shut_off_head)
        if ratio is None:
            return None, assumptions
        # a curve that ends early has its shut-off further up: the speed is no more than this
        least = speed_from_shut_off(curve, max(shut_off_head - off, 0.0)) if curve.reaches_zero else None
        most = speed_from_shut_off(curve, shut_off_head + off)
        return _Speed(pointer="/shut_off_head_measured", ratio=ratio, least=least, most=most), assumptions
    if tube_off is None:
        return None, ()
    timed = PumpOut(
        volume=tube_off.volume,
        time=tube_off.time,
        measured_at="tank-while-running",
        inflow=tube_off.inflow,
        volume_uncertainty=tube_off.volume_uncertainty,
        time_uncertainty=tube_off.time_uncertainty,
    )
    pointer = "/tube_off_pump_out"
    measured, assumptions = measure_flow(timed, fall_back_volume=0.0, fastest=curve.most_flow, pointer=pointer)
    if tube_off.lift is None:
        note = "The water is taken to leave at the level of the tank."
        assumptions += (Assumption(pointer=f"{pointer}/lift", value=0.0, note=note, symbols="ft|m"),)
    height = tube_off.lift or 0.0
    ratio = speed_for(curve, measured.flow, height)
    if ratio is None:
        return None, assumptions
    # below the leaflet's least lift a sound pump gives more than its first point: the speed is no more than this
    least = speed_for(curve, measured.least, height) if height >= curve.points[0].lift else None
    most = None if measured.most is None else speed_for(curve, measured.most, height)
    return _Speed(pointer=pointer, ratio=ratio, least=least, most=most), assumptions


def _results(
    curve: PumpCurve, run: TubeRun, lift: float, measured: MeasuredFlow, speed: _Speed | None
) -> PumpRestriction:
    """Compare head made with head asked, as measured and at both ends of the range; equations (1) and (2)."""

    flow, used, shut_off = measured.flow, speed or _LEAFLET, curve.shut_off
    # what the clean tube takes, at the flow as measured and at both ends of its range
    own, own_least = run.loss(flow)[0], run.loss(measured.least)[0]
    own_most = 0.0 if measured.most is None else run.loss(measured.most)[0]
    narrowest = run.narrowest.bore

    def taken(flow: float | None, own: float, ratio: float | None) -> float | None:
        """Head the restriction takes at a flow, from a pump at that speed."""
        if flow is None or ratio is None:
            return None
        made = curve.lift_at(flow) if ratio == 1.0 else head_at_speed(curve, flow, ratio)
        return None if made is None else made - lift - own

    def pinch(flow: float | None, head: float | None) -> float | None:
        return (
            pinch_bore(head=head, flow=flow, tube_bore=narrowest) if head and head > 0.0 and flow is not None else None
        )

    def fouled(flow: float | None, own: float, head: float | None) -> float | None:
        return fouled_bore(run, flow=flow, head=head + own) if head and head > 0.0 and flow is not None else None

    expected = operating_flow(curve, run, lift)
    made = curve.lift_at(flow)
    head, missing = taken(flow, own, used.ratio), None if made is None else made - lift - own
    # least head: most flow from the slowest pump; most head: the other way round
    least_head, most_head = taken(measured.most, own_most, used.least), taken(measured.least, own_least, used.most)
    bore = pinch(flow, head)
    slowed = speed_for(curve, flow, lift + own)
    left, drawn = expected - measured.inflow, measured.volume * (1.0 - measured.inflow / flow)
    return PumpRestriction(
        cause=name_cause(
            expected=expected,
            measured=measured,
            second=speed is not None,
            least_head=least_head,
            most_speed_ratio=speed.most if speed else None,
        ),
        pumped_volume=measured.volume,
        flow=flow,
        least_flow=measured.least,
        most_flow=measured.most,
        expected_flow=expected,
        expected_head=lift + run.loss(expected)[0] if expected > 0.0 else shut_off,
        expected_time=drawn / left if left > NO_FLOW else None,
        flow_over_expected=flow / expected if expected > NO_FLOW else None,
        head_made=made,
        head_asked=lift + own,
        missing_head=missing,
        head_over_shut_off=made / shut_off if made is not None and shut_off > 0.0 else None,
        restriction_head=head,
        least_restriction_head=least_head,
        most_restriction_head=most_head,
        equivalent_pinch_bore=bore,
        narrowest_pinch_bore=pinch(measured.least, most_head),
        widest_pinch_bore=pinch(measured.most, least_head),
        pinch_velocity_heads=velocity_heads(head, flow, bore) if head and bore else None,
        tube_velocity_heads=velocity_heads(head, flow, narrowest) if head and bore else None,
        equivalent_tube_bore=fouled(flow, own, head),
        narrowest_tube_bore=fouled(measured.least, own_least, most_head),
        widest_tube_bore=fouled(measured.most, own_most, least_head),
        equivalent_speed_ratio=slowed,
        measured_speed_ratio=speed.ratio if speed else None,
        least_measured_speed_ratio=speed.least if speed else None,
        most_measured_speed_ratio=speed.most if speed else None,
        shut_off_head_by_leaflet=shut_off,
        shut_off_head_if_worn=None if slowed is None else slowed**2 * shut_off,
        tube_off_flow_by_leaflet=curve.most_flow,
        tube_off_flow_if_worn=None if slowed is None else slowed * curve.most_flow,
    )


def _assumptions(tube: Tube, measured: MeasuredFlow, water_temperature: float | None) -> tuple[Assumption, ...]:
    """Record the defaults that are neither the tube's own nor the pump-out's."""
    assumptions = []
    if measured.filling > 0.0 and tube.fall_back_share is None:
        assumptions.append(ALL_FALLS_BACK)
    if water_temperature is None:
        assumptions.append(WARMED_UP)
    return tuple(assumptions)
