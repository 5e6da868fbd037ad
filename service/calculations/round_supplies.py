"""What to load for a round: gas, cartridges and water under each method, and whether the truck has enough."""

from collections.abc import Sequence
from dataclasses import replace
from math import ceil, fsum

from service.calculations.answer import Assumption, Finding
from service.calculations.cleaning_gas import use_gas
from service.calculations.cleaning_site import Equipment
from service.calculations.frozen import dataclass
from service.calculations.gas_supply import DRAINS_PER_CARTRIDGE, CartridgeGun, Cylinder
from service.calculations.unit_visit import CONSUMING, UnitVisit

_ONE_LITRE = 1e-3

_NOT_ENTERING = ("/equipment/cylinder/nozzle_bore", "/equipment/cylinder/discharge_coefficient")
"""Defaults of the gas that change how fast it flows, not how much there is."""


@dataclass(frozen=True, kw_only=True, slots=True)
class MethodSupplies:
    """What one method takes for every unit it suits.

    Parameters
    ----------
    method : str
        One of `service.calculations.unit_visit.CONSUMING`.
    units : tuple of int
        Indices of the units it suits.
    units_chosen : int
        Units for which it is the one chosen with what is on the truck.
    water : float
        To rinse, refill and prove them [m3].
    most_openings : int
        Most openings to close at one of them.
    cartridges, cartridges_by_rule : int or None
        Whole cartridges, by the gas laws for each unit, and by the rule of two drains a cartridge; None without.
    free_gas : float or None
        Gas, at one atmosphere [m3]; None without.
    cylinders : int or None
        Cylinders like that on the truck, as it is now; a full one of the usual size where there is none. None without,
        or where nothing comes out of it.
    units_from_truck : int or None
        Units, in the visiting order, that the gas on the truck does; None without.
    """

    method: str
    units: tuple[int, ...]
    units_chosen: int
    water: float
    most_openings: int
    cartridges: int | None
    cartridges_by_rule: int | None
    free_gas: float | None
    cylinders: int | None
    units_from_truck: int | None


@dataclass(frozen=True, kw_only=True, slots=True)
class GasSupply:
    """Gas to count with.

    Parameters
    ----------
    cartridges : int
        On the truck.
    usable : float
        Free gas that comes out of the cylinder [m3]; of a usual one, full, where there is none.
    """

    cartridges: int
    usable: float


def find_gas(truck: Equipment) -> tuple[GasSupply, tuple[Assumption, ...]]:
    """Find the gas to count with.

    Parameters
    ----------
    truck : Equipment
        What is on it.

    Returns
    -------
    GasSupply and tuple of Assumption
        With the defaults that entered.
    """
    use, notes = use_gas(
        volume=_ONE_LITRE,  # what a cylinder holds does not depend on the line
        cylinder=truck.cylinder or Cylinder(),
        cartridge_gun=truck.cartridge_gun or CartridgeGun(cartridges=0),
        working_pressure=None,
        sweeps=None,
        gas_temperature=None,
    )
    gas = GasSupply(
        cartridges=use.cartridges.cartridges if use and use.cartridges else 0,
        usable=use.cylinder.usable_content if use and use.cylinder else 0.0,
    )
    # pressure, sweeps and temperature are no members of a round: what a cylinder does follows from them and the truck
    return gas, tuple(
        note if note.pointer.startswith("/equipment") else replace(note, pointer="/equipment")
        for note in notes
        if note.pointer not in _NOT_ENTERING
    )


def list_supplies(
    ordered: Sequence[tuple[int, UnitVisit]], truck: Equipment, gas: GasSupply
) -> tuple[MethodSupplies, ...]:
    """List what each method takes.

    Parameters
    ----------
    ordered : sequence of tuple
        Index and visit of each unit, in visiting order.
    truck : Equipment
        What is on it.
    gas : GasSupply
        From `find_gas`.

    Returns
    -------
    tuple of MethodSupplies
        One for each of `CONSUMING`.
    """
    rows = []
    for method in CONSUMING:
        suited = [(index, visit) for index, visit in ordered if method in visit.suited_methods]
        cartridges = free_gas = from_truck = None
        if method == "cartridge-gas":
            counts = [float(visit.cartridges or 0) for _, visit in suited]
            cartridges = int(sum(counts))
            from_truck = _lasts(counts, gas.cartridges) if truck.cartridge_gun else None
        elif method == "regulated-gas":
            volumes = [visit.free_gas or 0.0 for _, visit in suited]
            free_gas = fsum(volumes)
            from_truck = _lasts(volumes, gas.usable) if truck.cylinder else None
        rows.append(
            MethodSupplies(
                method=method,
                units=tuple(sorted(index for index, _ in suited)),
                units_chosen=sum(visit.method == method for _, visit in ordered),
                water=fsum(visit.water or 0.0 for _, visit in suited),
                most_openings=max((visit.openings for _, visit in suited), default=0),
                cartridges=cartridges,
                cartridges_by_rule=None if cartridges is None else ceil(len(suited) / DRAINS_PER_CARTRIDGE),
                free_gas=free_gas,
                cylinders=_cylinders(free_gas, gas.usable),
                units_from_truck=from_truck,
            )
        )
    return tuple(rows)


def _lasts(needs: Sequence[float], held: float) -> int:
    """How many needs, in their order, ``held`` covers."""
    done = 0
    for need in needs:
        if need > held * (1.0 + 1e-12):
            break
        held -= need
        done += 1
    return done


def _cylinders(free_gas: float | None, usable: float) -> int | None:
    if free_gas is None or usable <= 0.0:
        return None
    return ceil(free_gas / usable * (1.0 - 1e-12))


def find_shortage(visits: Sequence[UnitVisit], truck: GasSupply) -> list[Finding]:
    """Find where the gas on the truck does not suffice for the units to be cleaned with it.

    Parameters
    ----------
    visits : sequence of UnitVisit
        Of the round.
    truck : GasSupply
        From `find_gas`.

    Returns
    -------
    list of Finding
    """
    found = []
    pushed = [visit for visit in visits if visit.method == "cartridge-gas"]
    needed = sum(visit.cartridges or 0 for visit in pushed)
    if needed > truck.cartridges:
        values = {"count": len(pushed), "needed": needed, "held": truck.cartridges, "short": needed - truck.cartridges}
        found.append(Finding(code="round-short-of-cartridges", pointer="/equipment/cartridge_gun", values=values))
    blown = [visit for visit in visits if visit.method == "regulated-gas"]
    gas = fsum(visit.free_gas or 0.0 for visit in blown)
    cylinders = _cylinders(gas, truck.usable)
    if cylinders is not None and cylinders > 1:
        amounts = {"count": len(blown), "needed": gas, "held": truck.usable, "cylinders": cylinders}
        found.append(Finding(code="round-short-of-gas", pointer="/equipment/cylinder", values=amounts))
    return found
