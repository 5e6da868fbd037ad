"""Out of season: how long the trap of an assessed unit keeps its seal."""

from service.calculations.answer import Assumption
from service.calculations.assessment_checks import SANITARY
from service.calculations.dry_out_judgement import in_days
from service.calculations.dry_out_results import TrapDryOut
from service.calculations.gathering import Gathering
from service.calculations.installation import Discharge, LineAsBuilt, OffSeason, TrapAsBuilt
from service.calculations.overflow_time import WaterPan
from service.calculations.trap_dry_out import LIMITS, dry_out_trap
from service.tables.findings import dry_out

LONGEST_PATH = LIMITS["outlet_side_path"].high
"""Longest line whose run is taken for the path of still air [m]; beyond it every path is as good as closed."""

_OFF_SEASON = ("unit_side_air", "outlet_side_air", "outlet_side_path", "open_legs", "water_temperature", "idle_time")

_MOVES = {
    "/pan_pressure": "/pan_pressure",
    "/dirty_filter_allowance": "/dirty_filter_allowance",
    "/pan_area": "/pan/area",
    "/pan_depth": "/pan/depth",
    "/elevation": "/elevation",
    "/station_pressure": "/station_pressure",
    **{f"/{name}": f"/off_season/{name}" for name in _OFF_SEASON},
}

_SAID_IN_AN_ASSESSMENT = {"air-wetter-than-water", "closed-leg-facts-not-used"}
_LEFT_OUT = (
    *(row.code for row in dry_out.ROWS if row.code not in _SAID_IN_AN_ASSESSMENT),
    "trap-without-seal",
    "pan-without-pressure",
)
"""What the assessment says in its own words, by where the drain ends, or has said of the trap already."""


def judge_dry_out(
    gathering: Gathering,
    trap: TrapAsBuilt | None,
    off_season: OffSeason | None,
    discharge: Discharge | None,
    line: LineAsBuilt | None,
    pan: WaterPan | None,
    pan_pressure: float | None,
    dirty_filter_allowance: float | None,
    elevation: float | None,
    station_pressure: float | None,
) -> TrapDryOut | None:
    """Work out how long the seal lasts, where a dry trap lets sewer gas in, or where the season was described.

    Parameters
    ----------
    gathering : Gathering
    trap : TrapAsBuilt or None
    off_season : OffSeason or None
    discharge : Discharge or None
    line : LineAsBuilt or None
        Its run is the still air beyond the trap's outlet, where that was not given.
    pan : WaterPan or None
    pan_pressure : float or None
        With the fan on [Pa gauge]; without it the seal is lost at the dip.
    dirty_filter_allowance : float or None
        Suction a dirty filter adds [Pa].
    elevation, station_pressure : float or None
        Of the site [m], or instead of it [Pa].

    Returns
    -------
    TrapDryOut or None
        None without a trap with a seal, with one that is kept full, and with one whose outlet lies above the pan
        outlet: water stands in the pan there, and the trap's own finding says so.
    """
    if trap is None or not trap.seal_depth or trap.outlet_drop < 0.0 or trap.kept_full_off_season:
        return None
    sanitary = discharge is not None and discharge.place in SANITARY and discharge.air_gap is not True
    if not sanitary and off_season is None:
        return None
    season = off_season or OffSeason()
    if pan_pressure is None:
        note = "Not given: no pressure, so that the seal is counted down to the top of the bend. A fan takes it sooner."
        gathering.assume(Assumption(pointer="/pan_pressure", value=0.0, note=note, symbols="inH2O|Pa"))
    path = season.outlet_side_path
    if path is None and season.open_legs != "unit-side" and line and line.run and line.run <= LONGEST_PATH:
        path = line.run
        note = "Not given: the run of the line, with no vent on the way. A nearer vent makes the latest day earlier."
        gathering.assume(Assumption(pointer="/off_season/outlet_side_path", value=path, note=note, symbols="ft|m"))
    results = gathering.take(
        "drying out of the trap",
        lambda: dry_out_trap(
            pan_pressure=pan_pressure or 0.0,
            dirty_filter_allowance=0.0 if pan_pressure is None else dirty_filter_allowance,
            outlet_drop=trap.outlet_drop,
            seal_depth=trap.seal_depth,
            pipe_size=trap.pipe_size,
            unit_side_pipe_size=trap.unit_side_pipe_size,
            outlet_side_pipe_size=trap.outlet_side_pipe_size,
            pan_area=pan.area if pan else None,
            pan_depth=pan.depth if pan else None,
            evaporated_depth=trap.evaporated_depth,
            open_legs=season.open_legs,
            unit_side_air=season.unit_side_air,
            outlet_side_air=season.outlet_side_air,
            outlet_side_path=path,
            water_temperature=season.water_temperature,
            elevation=elevation,
            station_pressure=station_pressure,
            idle_time=season.idle_time,
            judged=False,
        ),
        prefix="/trap",
        moves=_MOVES,
        leave_out=_LEFT_OUT,
    )
    if results is not None and results.holds_when_full:
        _tell(gathering, results, sanitary, discharge)
    return results


def _tell(gathering: Gathering, results: TrapDryOut, sanitary: bool, discharge: Discharge | None) -> None:
    """Say how long the seal lasts, as gravely as the place of disposal asks."""
    values: dict[str, float | str] = {
        "earliest": in_days(results.earliest_loss),
        "latest": in_days(results.latest_loss),
        "place": discharge.place.replace("-", " ") if discharge else "drain",
    }
    idle = results.after_idle
    if results.earliest_loss is None:
        gathering.note("seal-does-not-dry-out", "/trap/seal_depth")
    elif idle is not None and idle.outcome == "holds":
        gathering.note("seal-outlasts-off-season", "/off_season/idle_time", **values, idle=in_days(idle.idle_time))
    elif sanitary:
        interval = in_days(results.refill_interval)
        gathering.note("sanitary-seal-lasts-for", "/trap/seal_depth", **values, interval=interval)
        gathering.warn("sewer-gas")
    else:
        gathering.note("trap-dries-out-off-season", "/trap/seal_depth", **values)
