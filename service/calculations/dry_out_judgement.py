"""What a technician should know of a drying trap."""

from service.calculations.air_over_trap import OverWater
from service.calculations.answer import Finding
from service.calculations.dry_out_results import TrapDryOut
from service.calculations.trap_sizing import recommended_outlet_drop, recommended_seal_depth
from service.calculations.trap_water import SLACK, Trap
from service.calculations.vapour_diffusion import WaterSurface, overturns

DAY = 86400.0

DEEPEST_SEAL = 0.3
"""Seal beyond which nobody builds a trap, a foot [m]. Common practice, no source."""


def in_days(time: float | None) -> float | str:
    """Days of a time [s] for a sentence, to three digits; None is more than anyone waits."""
    return "more than 3,650" if time is None else time / DAY


def judge_air(over_water: tuple[OverWater, ...], surface: WaterSurface, loss: float) -> list[Finding]:
    """Look at the air at each mouth: whether it takes water at all, and whether it stands still in the leg.

    Parameters
    ----------
    over_water : tuple of OverWater
        The open legs.
    surface : WaterSurface
        The water.
    loss : float
        Fall of the level at which the seal is lost [m].

    Returns
    -------
    list of Finding
    """
    findings = []
    widest = 0.0
    for column in over_water:
        if column.far_fraction >= surface.saturated_fraction:
            values: dict[str, float | int | str] = {
                "side": column.side.replace("-", " "),
                "vapour_pressure": surface.pressure * column.far_fraction,
                "saturation": surface.pressure * surface.saturated_fraction,
            }
            pointer = f"/{column.side.replace('-', '_')}_air"
            findings.append(Finding(code="air-wetter-than-water", pointer=pointer, values=values))
            continue
        if overturns(
            surface,
            air_temperature=column.air.dry_bulb,
            far_fraction=column.far_fraction,
            bore=column.bore,
            path=column.path + loss,
        ):
            widest = max(widest, column.bore)
    if widest > 0.0:
        findings.append(Finding(code="air-overturns-in-trap", pointer="/pipe_size", values={"bore": widest}))
    return findings


def judge_seal_life(trap: Trap, results: TrapDryOut) -> list[Finding]:
    """Compare the life of the seal with the idle season, or just tell it.

    Parameters
    ----------
    trap : Trap
        The trap as it stands at the start.
    results : TrapDryOut
        When its seal is lost.

    Returns
    -------
    list of Finding
    """
    pressure = abs(results.design_pressure)
    values: dict[str, float | int | str] = {
        "seal_depth": trap.seal_depth,
        "evaporated_depth": trap.evaporated_depth,
        "pressure": pressure,
        "fall": -results.loss_level,
        "refill_volume": (trap.unit_side_area + trap.outlet_side_area) * min(trap.evaporated_depth, trap.seal_depth),
        "recommended_seal_depth": recommended_seal_depth(results.design_pressure),
        "recommended_outlet_drop": recommended_outlet_drop(results.design_pressure),
        "earliest": in_days(results.earliest_loss),
        "latest": in_days(results.latest_loss),
        "interval": in_days(results.refill_interval),
    }
    at_seal = "/seal_depth"
    if trap.seal_depth <= SLACK:
        return [Finding(code="trap-without-seal", pointer=at_seal, values=values)]
    if not results.holds_when_full:
        return [Finding(code="seal-fails-when-full", pointer=at_seal, values=values)]
    if trap.evaporated_depth > -results.loss_level + SLACK:
        return [Finding(code="seal-dry-from-start", pointer="/evaporated_depth", values=values)]
    if results.earliest_loss is None:
        return [Finding(code="seal-does-not-dry-out", pointer=at_seal, values=values)]
    idle = results.after_idle
    if idle is None:
        return [Finding(code="seal-lasts-for", pointer=at_seal, values=values)]
    values |= {"idle": in_days(idle.idle_time), "least_seal": idle.least_seal, "most_seal": idle.most_seal}
    if idle.outcome == "holds":
        return []
    code = "seal-dries-out" if idle.outcome == "lost" else "seal-may-dry-out"
    findings = [Finding(code=code, pointer="/idle_time", values=values)]
    lasting = results.lasting_seal_depth or 0.0
    if trap.seal_depth < lasting <= DEEPEST_SEAL:
        values = {**values, "lasting_seal_depth": lasting}
        findings.append(Finding(code="deeper-seal-lasts", pointer=at_seal, values=values))
    return findings
