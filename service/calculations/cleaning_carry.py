"""What to carry to the unit, and what of it is not on the truck."""

from math import fsum

from service.calculations.cleaning_job import Job
from service.calculations.cleaning_method import GAS_METHODS
from service.calculations.frozen import dataclass


@dataclass(frozen=True, kw_only=True, slots=True)
class CarriedItem:
    """One thing to carry.

    Parameters
    ----------
    item : str
        One of `service.tables.cleaning_methods.CARRY_ITEMS`.
    count : int or None
        How many; None for what is measured.
    volume : float or None
        How much water [m3].
    free_gas : float or None
        How much gas, at one atmosphere [m3].
    on_truck : bool or None
        Whether the truck has it; None where the request does not tell.
    """

    item: str
    count: int | None
    volume: float | None
    free_gas: float | None
    on_truck: bool | None


def list_what_to_carry(job: Job) -> tuple[CarriedItem, ...]:
    """List what the plan needs at the unit.

    Parameters
    ----------
    job : Job
        What is to be done.

    Returns
    -------
    tuple of CarriedItem
    """
    site, way, choice, tools = job.site, job.way, job.choice, job.site.equipment
    found = list(_ALWAYS)
    if way.opening:
        found += [_counted("cleanout-fittings"), _counted("primer-and-cement")]
    if way.opening == "cut-in-cleanout":
        found.append(_counted("union"))
    if choice.brushed:
        found.append(_counted("brush", on_truck=tools.brush is not None))
    if choice.method == "wet-dry-vacuum" or ("pan" in site.fouled and site.pan_reachable and tools.wet_dry_vacuum):
        found.append(_counted("wet-dry-vacuum", on_truck=bool(tools.wet_dry_vacuum)))
    plugs = site.vents + site.other_units if choice.method == "wet-dry-vacuum" else 0
    if choice.method in GAS_METHODS and job.gas:
        plugs = way.gun_plugs
        if choice.method == "regulated-gas" and job.gas.cylinder:
            gas = job.gas.cylinder.gas_per_drain
            found.append(CarriedItem(item="regulated-gas", count=1, volume=None, free_gas=gas, on_truck=True))
        elif job.gas.cartridges:
            found.append(_counted("cartridge-gun", on_truck=True))
            count, gas = job.gas.cartridges.cartridges_for_this_drain, job.gas.cartridges.gas_per_drain
            found.append(CarriedItem(item="cartridges", count=count, volume=None, free_gas=gas, on_truck=True))
    if plugs:
        found.append(_counted("plugs", plugs, on_truck=(tools.plugs or 0) >= plugs))
    found.append(_counted("jug", on_truck=bool(tools.jug)))
    found.append(CarriedItem(item="water", count=None, volume=water_needed(job), free_gas=None, on_truck=None))
    return tuple(found)


def water_needed(job: Job) -> float:
    """Water of the whole visit [m3]: rinse, tube flush, trap and closing test, trip test."""
    flushed = job.site.pumped and "pump-tube" in job.site.fouled and job.site.far_end_reachable
    return fsum(
        (
            job.rinse_volume if job.choice.method != "by-hand" else 0.0,
            job.tube_volume if flushed else 0.0,
            job.test.pour_volume,
            job.safety_volume or 0.0,
        )
    )


def _counted(item: str, count: int = 1, *, on_truck: bool | None = None) -> CarriedItem:
    return CarriedItem(item=item, count=count, volume=None, free_gas=None, on_truck=on_truck)


_ALWAYS = tuple(_counted(item) for item in ("gloves-and-eye-protection", "lock-and-tag", "bucket"))
