"""The main job: everything known of one unit, one answer.

It composes the calculations and adds the cross-checks that no single one of them can see. What is missing is
an assumption or a "not assessed" finding, never a guess passed off as fact; a contradiction costs its part only.
"""

from dataclasses import dataclass

from service.calculations import (
    condensate_rate,
    drain_pitch,
    drain_sizing,
    overflow_time,
    pump_run,
    trap_check,
    trap_sizing,
)
from service.calculations.answer import Answer, Assumption
from service.calculations.assessment_checks import (
    DAMAGED,
    check_disposal,
    check_line_details,
    check_measured_rate,
    check_protection,
    check_trap_surroundings,
)
from service.calculations.gathering import ASSESSED, NOT_ASSESSED, Gathering
from service.calculations.installation import (
    AirStates,
    Coil,
    Cooling,
    Discharge,
    LineAsBuilt,
    MeasuredRate,
    PumpAsBuilt,
    TrapAsBuilt,
)
from service.calculations.limits import Limit, require
from service.calculations.overflow_time import Protection, WaterPan

COMFORT_SENSIBLE_HEAT_RATIO = 0.7
"""Low end of comfort cooling in humid weather, so the wetter guess. Common practice, no source."""

LIMITS = {
    "volume": Limit(2e-5, 0.2),  # a tablespoon, to a drum
    "time": Limit(10.0, 86400.0),  # ten seconds, to a day
    "support_spacing": Limit(0.1, 15.0),
}


@dataclass(frozen=True, kw_only=True, slots=True)
class PartVerdict:
    """One part of the assessment: whether it was assessed, and its own verdict."""

    part: str
    status: str
    verdict: str


@dataclass(frozen=True, kw_only=True, slots=True)
class Assessment:
    """All results of one unit.

    Parameters
    ----------
    unit_id : str or None
        As sent.
    parts : tuple of PartVerdict
        Every part, in the order water takes.
    peak_rate : float or None
        Condensate the drain must carry in the peak hour [m3/s].
    peak_rate_basis : str or None
        Where the peak comes from.
    daily_volume : float or None
        Water in a day at the run fraction, from the same basis [m3].
    measured_rate : float or None
        Caught rate [m3/s].
    measured_to_predicted : float or None
        Measured over computed rate [-].
    """

    unit_id: str | None
    parts: tuple[PartVerdict, ...]
    peak_rate: float | None
    peak_rate_basis: str | None
    daily_volume: float | None
    measured_rate: float | None
    measured_to_predicted: float | None
    rate_from_capacity: condensate_rate.CapacityRate | None
    rate_from_air_states: condensate_rate.AirStatesRate | None
    rate_from_coil: condensate_rate.CoilRate | None
    trap_check: trap_check.TrapCheck | None
    trap_sizing: trap_sizing.TrapSize | None
    drain_pitch: drain_pitch.DrainPitch | None
    drain_sizing: drain_sizing.DrainSizing | None
    pump_run: pump_run.PumpRun | None
    overflow_time: overflow_time.OverflowTime | None


@dataclass(frozen=True, kw_only=True, slots=True)
class _Rates:
    """What the three ways to a rate gave, and the peak taken from them."""

    capacity: condensate_rate.CapacityRate | None
    air_states: condensate_rate.AirStatesRate | None
    coil: condensate_rate.CoilRate | None
    measured: float | None
    peak: float | None
    basis: str | None
    daily_volume: float | None


def assess_unit(
    *,
    unit_id: str | None = None,
    description: str | None = None,
    location: str | None = None,
    below: str | None = None,
    can_freeze: bool | None = None,
    elevation: float | None = None,
    station_pressure: float | None = None,
    run_fraction: float | None = None,
    cooling: Cooling | None = None,
    air_states: AirStates | None = None,
    coil: Coil | None = None,
    measured_rate: MeasuredRate | None = None,
    pan: WaterPan | None = None,
    pan_pressure: float | None = None,
    dirty_filter_allowance: float | None = None,
    trap: TrapAsBuilt | None = None,
    line: LineAsBuilt | None = None,
    pump: PumpAsBuilt | None = None,
    discharge: Discharge | None = None,
    overflow_protection: Protection | None = None,
) -> Answer[Assessment]:
    """Assess one unit from whatever is known of it.

    Parameters
    ----------
    unit_id, description : str or None
        Identification, repeated back.
    location : str or None
        One of `installation.LOCATIONS`.
    below : str or None
        One of `installation.BELOW`.
    can_freeze : bool or None
        Whether trap or line stand below freezing at times.
    elevation : float or None
        Of the site [m].
    station_pressure : float or None
        Instead of the elevation [Pa].
    run_fraction : float or None
        Share of the day the unit cools [-].
    cooling : Cooling or None
    air_states : AirStates or None
    coil : Coil or None
    measured_rate : MeasuredRate or None
    pan : WaterPan or None
    pan_pressure : float or None
        With the fan on [Pa gauge]; negative upstream of the fan.
    dirty_filter_allowance : float or None
        Suction a dirty filter adds [Pa].
    trap : TrapAsBuilt or None
    line : LineAsBuilt or None
    pump : PumpAsBuilt or None
    discharge : Discharge or None
    overflow_protection : Protection or None

    Returns
    -------
    Answer of Assessment

    Raises
    ------
    OutOfRange
        For a measured rate or a support spacing outside `LIMITS`; every other limit belongs to its calculation.
    """
    if measured_rate:
        require(LIMITS, volume=measured_rate.volume, time=measured_rate.time)
    gathering = Gathering()
    parts: list[PartVerdict] = []

    def close(part: str, start: int, assessed: bool) -> None:
        status = ASSESSED if assessed else NOT_ASSESSED
        parts.append(PartVerdict(part=part, status=status, verdict=gathering.worst_of(start)))

    start = 0
    air = {"elevation": elevation, "station_pressure": station_pressure, "run_fraction": run_fraction}
    rates = _rates(gathering, cooling, air_states, coil, measured_rate, air)
    at_the_time = rates.air_states.volume_rate if rates.air_states else None
    measured_to_predicted = check_measured_rate(gathering, rates.measured, at_the_time, _computed_peak(rates))
    close("condensate-rate", start, rates.peak is not None)

    start = len(gathering.findings)
    checked, sized = _trap(gathering, trap, pan, pan_pressure, dirty_filter_allowance)
    check_trap_surroundings(gathering, trap, pan_pressure, can_freeze)
    close("trap", start, checked is not None)

    start = len(gathering.findings)
    pitch, sizing = _line(gathering, line, rates, cooling, coil)
    if line:
        require(LIMITS, support_spacing=line.support_spacing)
        check_line_details(gathering, line, sizing)
    close("line", start, pitch is not None or sizing is not None)

    start = len(gathering.findings)
    pumped = _pump(gathering, pump, rates.peak)
    if pump:
        close("pump", start, pumped is not None)

    start = len(gathering.findings)
    overflow = _overflow(gathering, rates.peak, pan, line, overflow_protection, below)
    check_protection(gathering, overflow_protection, pump, below, location)
    close("overflow", start, overflow is not None)

    start = len(gathering.findings)
    check_disposal(gathering, discharge, trap)
    close("discharge", start, discharge is not None)

    gathering.warn("local-code")
    results = Assessment(
        unit_id=unit_id,
        parts=tuple(parts),
        peak_rate=rates.peak,
        peak_rate_basis=rates.basis,
        daily_volume=rates.daily_volume,
        measured_rate=rates.measured,
        measured_to_predicted=measured_to_predicted,
        rate_from_capacity=rates.capacity,
        rate_from_air_states=rates.air_states,
        rate_from_coil=rates.coil,
        trap_check=checked,
        trap_sizing=sized,
        drain_pitch=pitch,
        drain_sizing=sizing,
        pump_run=pumped,
        overflow_time=overflow,
    )
    return Answer(
        results=results,
        findings=tuple(gathering.findings),
        assumptions=tuple(gathering.assumptions),
        cautions=tuple(gathering.cautions),
        sources=tuple(gathering.sources),
    )


_AIR_MOVES = {name: name for name in ("/elevation", "/station_pressure", "/run_fraction")}


def _rates(
    gathering: Gathering,
    cooling: Cooling | None,
    air_states: AirStates | None,
    coil: Coil | None,
    measured: MeasuredRate | None,
    air: dict[str, float | None],
) -> _Rates:
    """Compute the rate every way the request allows; the largest is the peak the drain must carry."""
    from_capacity = from_air_states = from_coil = None
    if cooling:
        ratio = cooling.sensible_heat_ratio
        if ratio is None:
            ratio = COMFORT_SENSIBLE_HEAT_RATIO
            note = "Not given: the low end of comfort cooling, which makes the most water. Common practice."
            gathering.assume(Assumption(pointer="/cooling/sensible_heat_ratio", value=ratio, note=note))
        from_capacity = gathering.take(
            "condensate rate from capacity",
            lambda: condensate_rate.rate_from_capacity(
                total_capacity=cooling.total_capacity, sensible_heat_ratio=ratio, run_fraction=air["run_fraction"]
            ),
            prefix="/cooling",
            moves=_AIR_MOVES,
        )
    if air_states:
        from_air_states = gathering.take(
            "condensate rate from air states",
            lambda: condensate_rate.rate_from_air_states(
                air_flow=air_states.air_flow,
                entering_air=air_states.entering_air,
                leaving_air=air_states.leaving_air,
                air_flow_basis=air_states.air_flow_basis,
                air_flow_measured_at=air_states.air_flow_measured_at,
                **air,
            ),
            prefix="/air_states",
            moves=_AIR_MOVES,
        )
    if coil:
        from_coil = gathering.take(
            "condensate rate from the coil",
            lambda: condensate_rate.rate_from_coil(
                air_flow=coil.air_flow,
                entering_air=coil.entering_air,
                total_capacity=coil.total_capacity,
                bypass_factor=coil.bypass_factor,
                air_flow_basis=coil.air_flow_basis,
                **air,
            ),
            prefix="/coil",
            moves=_AIR_MOVES,
        )
    caught = measured.volume / measured.time if measured else None
    candidates = [
        (results.volume_rate, basis, results.daily_volume)
        for results, basis in (
            (from_capacity, "rated capacity"),
            (from_air_states, "air states"),
            (from_coil, "coil"),
        )
        if results is not None and results.volume_rate is not None
    ]
    if caught is not None:
        candidates.append((caught, "measured", None))
    peak, basis, daily_volume = max(candidates, key=lambda row: row[0], default=(None, None, None))
    if peak is None:
        gathering.note(
            "part-not-assessed",
            "/cooling",
            part="Condensate rate",
            missing="cooling, air_states, coil or measured_rate",
        )
    return _Rates(
        capacity=from_capacity,
        air_states=from_air_states,
        coil=from_coil,
        measured=caught,
        peak=peak,
        basis=basis,
        daily_volume=daily_volume,
    )


def _computed_peak(rates: _Rates) -> float | None:
    """The largest computed rate, without the measured one [m3/s]."""
    computed = (rates.capacity, rates.air_states, rates.coil)
    return max((row.volume_rate for row in computed if row and row.volume_rate is not None), default=None)


def _trap(
    gathering: Gathering,
    trap: TrapAsBuilt | None,
    pan: WaterPan | None,
    pan_pressure: float | None,
    dirty_filter_allowance: float | None,
) -> tuple[trap_check.TrapCheck | None, trap_sizing.TrapSize | None]:
    """Judge the trap as built, or say what trap the pan pressure asks for."""
    moves = {
        "/pan_pressure": "/pan_pressure",
        "/dirty_filter_allowance": "/dirty_filter_allowance",
        "/pan_area": "/pan/area",
        "/pan_depth": "/pan/depth",
    }
    if pan_pressure is None or trap is None:
        missing = " and ".join(
            name for name, value in (("trap", trap), ("pan_pressure", pan_pressure)) if value is None
        )
        gathering.note("part-not-assessed", "/trap" if trap is None else "/pan_pressure", part="Trap", missing=missing)
    if pan_pressure is None:
        return None, None
    if trap is None:
        sized = gathering.take(
            "trap sizing",
            lambda: trap_sizing.size_trap(pan_pressure=pan_pressure, dirty_filter_allowance=dirty_filter_allowance),
            prefix="/trap",
            moves=moves,
        )
        return None, sized
    checked = gathering.take(
        "trap",
        lambda: trap_check.check_trap(
            pan_pressure=pan_pressure,
            outlet_drop=trap.outlet_drop,
            seal_depth=trap.seal_depth,
            dirty_filter_allowance=dirty_filter_allowance,
            pipe_size=trap.pipe_size,
            unit_side_pipe_size=trap.unit_side_pipe_size,
            outlet_side_pipe_size=trap.outlet_side_pipe_size,
            pan_area=pan.area if pan else None,
            pan_depth=pan.depth if pan else None,
            evaporated_depth=trap.evaporated_depth,
        ),
        prefix="/trap",
        moves=moves,
    )
    return checked, None


def _line(
    gathering: Gathering,
    line: LineAsBuilt | None,
    rates: _Rates,
    cooling: Cooling | None,
    coil: Coil | None,
) -> tuple[drain_pitch.DrainPitch | None, drain_sizing.DrainSizing | None]:
    """Judge the line's fall, and the size it needs for every unit on it."""
    if line is None:
        gathering.note("part-not-assessed", "/line", part="Drain line", missing="line")
        return None, None
    pitch = sizing = None
    if line.run is not None and line.fall is not None:
        run, fall = line.run, line.fall
        pitch = gathering.take(
            "pitch of the line", lambda: drain_pitch.pitch_drain(run=run, fall=fall), prefix="/line", moves={}
        )
    else:
        gathering.note("part-not-assessed", "/line", part="Pitch of the line", missing="line.run and line.fall")
    total = cooling.total_capacity if cooling else coil.total_capacity if coil else None
    if total is None and rates.air_states:
        total = rates.air_states.total_load
    if total is None or total <= 0.0:
        gathering.note("part-not-assessed", "/line", part="Size of the line", missing="cooling")
        return pitch, None
    own = drain_sizing.ServedUnit(total_capacity=total, peak_flow=rates.peak)
    sizing = gathering.take(
        "size of the line",
        lambda: drain_sizing.size_drain(
            units=(*line.shared_with, own),  # the others first, so that their places are those of the request
            pan_outlet=line.pan_outlet,
            pitch_ratio=pitch.pitch_ratio if pitch else None,
            material=line.material,
            manning_coefficient=line.manning_coefficient,
        ),
        prefix="/line",
        moves={"/pitch_ratio": "/line/fall", "/units": "/line/shared_with"},
    )
    return pitch, sizing


def _pump(gathering: Gathering, pump: PumpAsBuilt | None, peak: float | None) -> pump_run.PumpRun | None:
    """Run the pump against its lift at the computed peak."""
    if pump is None:
        return None
    if peak is None:
        gathering.note("part-not-assessed", "/pump", part="Pump", missing="a condensate rate for it to carry")
        return None
    return gathering.take(
        "pump",
        lambda: pump_run.run_pump(
            inflow=peak,
            lift=pump.lift,
            tube=pump.tube,
            pump=pump.pump,
            water_temperature=pump.water_temperature,
            flow_margin=pump.flow_margin,
        ),
        prefix="/pump",
        moves={"/inflow": ""},
    )


def _overflow(
    gathering: Gathering,
    peak: float | None,
    pan: WaterPan | None,
    line: LineAsBuilt | None,
    protection: Protection | None,
    below: str | None,
) -> overflow_time.OverflowTime | None:
    """Work out how long there is, and what stops the water."""
    if peak is None or pan is None:
        missing = " and ".join(name for name, value in (("pan", pan), ("a condensate rate", peak)) if value is None)
        gathering.note("part-not-assessed", "/pan", part="Time to overflow", missing=missing)
        return None
    return gathering.take(
        "time to overflow",
        lambda: overflow_time.overflow_time(
            inflow=peak, pan=pan, line_volume=line.empty_volume if line else None, protection=protection
        ),
        prefix="",
        moves={"/protection": "/overflow_protection", "/inflow": "", "/line_volume": "/line/empty_volume"},
        # said below with what the water would wet
        leave_out=("overflow-protection-unknown", "overflow-protection-none") if below in DAMAGED else (),
    )
