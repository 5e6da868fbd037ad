"""The parts of an assessment: each calculation fed from what is known of the unit.

A part that lacks what it needs says so in a "not assessed" finding and gives None.
"""

from dataclasses import replace

from service.calculations import (
    condensate_rate,
    drain_pitch,
    drain_sizing,
    drain_survey,
    overflow_time,
    pump_run,
    trap_check,
    trap_sizing,
)
from service.calculations.answer import Assumption
from service.calculations.assessment_checks import DAMAGED
from service.calculations.drain_pitch import PITCH_CODES
from service.calculations.frozen import dataclass
from service.calculations.gathering import Gathering
from service.calculations.installation import (
    AirStates,
    Coil,
    Cooling,
    LineAsBuilt,
    MeasuredRate,
    PumpAsBuilt,
    TrapAsBuilt,
)
from service.calculations.overflow_time import Protection, WaterPan
from service.calculations.served_unit import ServedUnit
from service.calculations.trap_water import SLACK

ASSUMED_LINE_SIZE = "3/4"
"""The smallest the code allows for condensate (IMC 2021 307.2.2)."""

COMFORT_SENSIBLE_HEAT_RATIO = 0.7
"""Low end of comfort cooling in humid weather, so the wetter guess. Common practice, no source."""


@dataclass(frozen=True, kw_only=True, slots=True)
class Rates:
    """What the three ways to a rate gave, and the peak taken from them."""

    capacity: condensate_rate.CapacityRate | None
    air_states: condensate_rate.AirStatesRate | None
    coil: condensate_rate.CoilRate | None
    measured: float | None
    peak: float | None
    basis: str | None
    daily_volume: float | None


_AIR_MOVES = {name: name for name in ("/elevation", "/station_pressure", "/run_fraction")}


def find_rates(
    gathering: Gathering,
    cooling: Cooling | None,
    air_states: AirStates | None,
    coil: Coil | None,
    measured: MeasuredRate | None,
    air: dict[str, float | None],
) -> Rates:
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
    return Rates(
        capacity=from_capacity,
        air_states=from_air_states,
        coil=from_coil,
        measured=caught,
        peak=peak,
        basis=basis,
        daily_volume=daily_volume,
    )


def computed_peak(rates: Rates) -> float | None:
    """The largest computed rate, without the measured one [m3/s]."""
    computed = (rates.capacity, rates.air_states, rates.coil)
    return max((row.volume_rate for row in computed if row and row.volume_rate is not None), default=None)


def judge_trap(
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
        missing = tuple(name for name, value in (("trap", trap), ("pan_pressure", pan_pressure)) if value is None)
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


def judge_line(
    gathering: Gathering,
    line: LineAsBuilt | None,
    rates: Rates,
    cooling: Cooling | None,
    coil: Coil | None,
    survey: drain_survey.DrainSurvey | None,
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
    elif survey and survey.pitch_ratio is not None and drain_pitch.LIMITS["run"].admits(survey.run):
        length, drop = survey.run, survey.total_fall
        note = "Run and fall were not both given: from the first to the last station of the survey."
        gathering.assume(Assumption(pointer="/line/run", value=length, note=note, symbols="ft|m"))
        gathering.assume(Assumption(pointer="/line/fall", value=drop, note=note, symbols="in|mm"))
        pitch = gathering.take(
            "pitch of the line",
            lambda: drain_pitch.pitch_drain(run=length, fall=drop),
            prefix="/line",
            moves={},
            leave_out=PITCH_CODES,  # the survey says it segment by segment
        )
    else:
        gathering.note("part-not-assessed", "/line", part="Pitch of the line", missing=("line.run", "line.fall"))
    total = cooling.total_capacity if cooling else coil.total_capacity if coil else None
    if total is None and rates.air_states:
        total = rates.air_states.total_load
    if total is None or total <= 0.0:
        gathering.note("part-not-assessed", "/line", part="Size of the line", missing="cooling")
        return pitch, None
    own = ServedUnit(total_capacity=total, peak_flow=rates.peak)
    sizing = gathering.take(
        "size of the line",
        lambda: drain_sizing.size_drain(
            units=(*line.shared_with, own),  # the others first, so that their places are those of the request
            pan_outlet=line.pan_outlet,
            pitch_ratio=pitch.pitch_ratio if pitch else None,
            material=line.material,
            installed_pipe_size=line.pipe_size,
            manning_coefficient=line.manning_coefficient,
            water_temperature=line.water_temperature,
        ),
        prefix="/line",
        moves={
            "/pitch_ratio": "/line/fall",
            "/units": "/line/shared_with",
            "/installed_pipe_size": "/line/pipe_size",
        },
        # said already for the whole run, or said below beside the pan outlet
        leave_out=("length-smaller-than-needed", *(PITCH_CODES if pitch else ())),
    )
    return pitch, sizing


def survey_line(gathering: Gathering, line: LineAsBuilt | None) -> drain_survey.DrainSurvey | None:
    """Work out pitches and standing water of a line whose stations were measured."""
    if line is None or not line.stations:
        return None
    size = line.pipe_size
    if size is None:
        size = ASSUMED_LINE_SIZE
        note = "Not given: the smallest the code allows; it enters the water that stands in the line."
        gathering.assume(Assumption(pointer="/line/pipe_size", value=size, note=note))
    return gathering.take(
        "survey of the line",
        lambda: drain_survey.survey_drain(
            pipe_size=size,
            stations=line.stations,
            material=line.material,
            measurement_tolerance=line.measurement_tolerance,
            level_line_height=line.level_line_height,
            water_depth_at_outlet=line.water_depth_at_outlet,
        ),
        prefix="/line",
        moves={},
    )


def judge_pump(gathering: Gathering, pump: PumpAsBuilt | None, peak: float | None) -> pump_run.PumpRun | None:
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


def judge_overflow(
    gathering: Gathering,
    peak: float | None,
    pan: WaterPan | None,
    line: LineAsBuilt | None,
    protection: Protection | None,
    below: str | None,
    checked: trap_check.TrapCheck | None,
) -> overflow_time.OverflowTime | None:
    """Work out how long there is, and what stops the water; what the trap holds back stands in the pan already."""
    if peak is None or pan is None:
        missing = tuple(name for name, value in (("pan", pan), ("a condensate rate", peak)) if value is None)
        gathering.note("part-not-assessed", "/pan", part="Time to overflow", missing=missing)
        return None
    if pan.water_depth is None and checked and checked.held_water_depth > SLACK:
        pan = replace(pan, water_depth=min(checked.held_water_depth, pan.depth))
        note = (
            "While the fan runs, the trap as built holds this much water in the pan; it is there when the drain blocks."
        )
        gathering.assume(
            Assumption(pointer="/pan/water_depth", value=pan.water_depth or 0.0, note=note, symbols="in|mm")
        )
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
