"""The main job: everything known of one unit, one answer.

It composes the calculations and adds the cross-checks that no single one of them can see. What is missing is
an assumption or a "not assessed" finding, never a guess passed off as fact; a contradiction costs its part only.
"""

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
from service.calculations.answer import Answer
from service.calculations.assessment_checks import (
    check_disposal,
    check_line_details,
    check_measured_rate,
    check_protection,
    check_survey,
    check_trap_surroundings,
)
from service.calculations.assessment_dry_out import judge_dry_out
from service.calculations.assessment_parts import (
    computed_peak,
    find_rates,
    judge_line,
    judge_overflow,
    judge_pump,
    judge_trap,
    survey_line,
)
from service.calculations.dry_out_results import TrapDryOut
from service.calculations.frozen import dataclass
from service.calculations.gathering import ASSESSED, NOT_ASSESSED, Gathering
from service.calculations.installation import (
    AirStates,
    Coil,
    Cooling,
    Discharge,
    LineAsBuilt,
    MeasuredRate,
    OffSeason,
    PumpAsBuilt,
    TrapAsBuilt,
)
from service.calculations.limits import Limit, require
from service.calculations.overflow_time import Protection, WaterPan

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
    trap_dry_out: TrapDryOut | None
    drain_pitch: drain_pitch.DrainPitch | None
    drain_sizing: drain_sizing.DrainSizing | None
    drain_survey: drain_survey.DrainSurvey | None
    pump_run: pump_run.PumpRun | None
    overflow_time: overflow_time.OverflowTime | None


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
    off_season: OffSeason | None = None,
    root: str = "",
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
    off_season : OffSeason or None
    root : str
        RFC 6901 pointer of the unit, where it stands in a larger request.

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
    gathering = Gathering(root)
    parts: list[PartVerdict] = []

    def close(part: str, start: int, assessed: bool) -> None:
        status = ASSESSED if assessed else NOT_ASSESSED
        parts.append(PartVerdict(part=part, status=status, verdict=gathering.worst_of(start)))

    start = 0
    air = {"elevation": elevation, "station_pressure": station_pressure, "run_fraction": run_fraction}
    rates = find_rates(gathering, cooling, air_states, coil, measured_rate, air)
    at_the_time = rates.air_states.volume_rate if rates.air_states else None
    measured_to_predicted = check_measured_rate(gathering, rates.measured, at_the_time, computed_peak(rates))
    close("condensate-rate", start, rates.peak is not None)

    start = len(gathering.findings)
    checked, sized = judge_trap(gathering, trap, pan, pan_pressure, dirty_filter_allowance)
    check_trap_surroundings(gathering, trap, pan_pressure, can_freeze)
    close("trap", start, checked is not None)

    start = len(gathering.findings)
    surveyed = survey_line(gathering, line)
    pitch, sizing = judge_line(gathering, line, rates, cooling, coil, surveyed)
    if line:
        require(LIMITS, support_spacing=line.support_spacing)
        check_line_details(gathering, line, sizing)
        check_survey(gathering, line, surveyed)
    close("line", start, pitch is not None or sizing is not None or surveyed is not None)

    start = len(gathering.findings)
    pumped = judge_pump(gathering, pump, rates.peak)
    if pump:
        close("pump", start, pumped is not None)

    start = len(gathering.findings)
    overflow = judge_overflow(gathering, rates.peak, pan, line, overflow_protection, below, checked)
    check_protection(gathering, overflow_protection, pump, below, location)
    close("overflow", start, overflow is not None)

    start = len(gathering.findings)
    check_disposal(gathering, discharge, trap)
    dried = judge_dry_out(
        gathering,
        trap,
        off_season,
        discharge,
        line,
        pan,
        pan_pressure,
        dirty_filter_allowance,
        elevation,
        station_pressure,
    )
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
        trap_dry_out=dried,
        drain_pitch=pitch,
        drain_sizing=sizing,
        drain_survey=surveyed,
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
