"""Gas for one drain: how much it takes, and for how many drains a cylinder or a box of cartridges will do."""

from service.calculations.answer import Assumption
from service.calculations.frozen import dataclass
from service.calculations.gas import (
    ATMOSPHERE,
    critical_pressure_ratio,
    fill_time,
    free_volume,
    molar_density,
    nozzle_mass_flow,
    smallest_room,
)
from service.calculations.gas_supply import (
    CARBON_DIOXIDE_CONTENT,
    CARTRIDGE_MASS,
    DISCHARGE_COEFFICIENT,
    DRAINS_PER_CARTRIDGE,
    FULL_CONTENT,
    FULL_PRESSURE,
    GAS_TEMPERATURE,
    LARGEST_PRESSURE,
    NOZZLE_BORE,
    SWEEPS,
    CartridgeGun,
    Cylinder,
)
from service.tables.gases import CARBON_DIOXIDE, GASES, Gas


@dataclass(frozen=True, kw_only=True, slots=True)
class CylinderUse:
    """What a cylinder does for drains like this one.

    Parameters
    ----------
    gas : str
        Its gas.
    content : float
        Free gas in it [m3].
    usable_content : float
        Free gas that comes out at the working pressure [m3].
    gas_per_drain : float
        Free gas that one drain takes [m3].
    drains : int
        Whole drains it will do.
    critical_pressure_ratio : float
        Pressure behind the nozzle over that before it, below which its flow is choked.
    choked : bool
        Whether it is, into an open line.
    nozzle_mass_flow : float
        Into an open line [kg/s].
    nozzle_free_flow : float
        The same as free gas [m3/s].
    time_to_pressure : float
        In which it brings the closed line to the working pressure [s].
    sweep_time : float
        In which it sweeps the open line as often as planned [s].
    smallest_room, smallest_room_for_all : float or None
        Room that takes the gas of one drain, and of the whole cylinder, and stays fit to breathe [m3]; None for air.
    """

    gas: str
    content: float
    usable_content: float
    gas_per_drain: float
    drains: int
    critical_pressure_ratio: float
    choked: bool
    nozzle_mass_flow: float
    nozzle_free_flow: float
    time_to_pressure: float
    sweep_time: float
    smallest_room: float | None
    smallest_room_for_all: float | None


@dataclass(frozen=True, kw_only=True, slots=True)
class CartridgeUse:
    """What a box of cartridges does for drains like this one.

    Parameters
    ----------
    cartridges : int
        On the truck.
    gas_per_cartridge : float
        Free gas in one [m3].
    gas_per_drain : float
        Free gas that one drain takes [m3].
    cartridges_per_drain : float
        That many, not rounded.
    cartridges_for_this_drain : int
        Whole cartridges to have at hand.
    drains : int
        Whole drains the box will do, as computed.
    drains_by_rule : int
        By the rule of two drains a cartridge.
    share_into_blocked_line : float
        Share of one cartridge that brings the closed line to the working pressure; above 1 a whole one does not.
    smallest_room : float
        Room that takes the gas of one drain and stays fit to breathe [m3].
    """

    cartridges: int
    gas_per_cartridge: float
    gas_per_drain: float
    cartridges_per_drain: float
    cartridges_for_this_drain: int
    drains: int
    drains_by_rule: int
    share_into_blocked_line: float
    smallest_room: float


@dataclass(frozen=True, kw_only=True, slots=True)
class GasUse:
    """Gas for this drain.

    Parameters
    ----------
    volume : float
        Trap and line to be filled [m3].
    working_pressure : float
        Highest gauge pressure put on it [Pa].
    sweeps : float
        Times the open line is swept [-].
    cylinder : CylinderUse or None
        Where there is a cylinder.
    cartridges : CartridgeUse or None
        Where there is a cartridge gun.
    """

    volume: float
    working_pressure: float
    sweeps: float
    cylinder: CylinderUse | None
    cartridges: CartridgeUse | None


def gas_per_drain(gas: Gas, volume: float, working_pressure: float, sweeps: float, temperature: float) -> float:
    """Free gas that brings a closed line to the working pressure once and then sweeps it.

    Parameters
    ----------
    gas : Gas
        A row of `service.tables.gases`.
    volume : float
        Of the line [m3].
    working_pressure : float
        Gauge pressure [Pa].
    sweeps : float
        Times the open line is filled again [-].
    temperature : float
        Of the gas [K].

    Returns
    -------
    float
        Free gas [m3]: V [rho(p) - rho(1 atm)] / rho(1 atm) + sweeps V.

    Examples
    --------
    By hand, nearly ideal: 1 L to 2 atm gauge takes 2 L, swept twice 2 L more:

    >>> from service.tables.gases import NITROGEN
    >>> round(1e3 * gas_per_drain(NITROGEN, 1e-3, 2 * 101325.0, 2.0, 293.15), 2)
    4.0
    """
    open_line = molar_density(gas, ATMOSPHERE, temperature)
    closed = molar_density(gas, ATMOSPHERE + working_pressure, temperature)
    return volume * (closed / open_line - 1.0 + sweeps)


def use_gas(
    *,
    volume: float,
    cylinder: Cylinder | None,
    cartridge_gun: CartridgeGun | None,
    working_pressure: float | None,
    sweeps: float | None,
    gas_temperature: float | None,
) -> tuple[GasUse | None, tuple[Assumption, ...]]:
    """Work out what the gas on the truck does for a drain.

    Parameters
    ----------
    volume : float
        Trap and line to be filled [m3].
    cylinder : Cylinder or None
        With its regulator.
    cartridge_gun : CartridgeGun or None
        With its cartridges.
    working_pressure : float or None
        Gauge pressure [Pa].
    sweeps : float or None
        Times the open line is swept [-].
    gas_temperature : float or None
        Of gas and line [K].

    Returns
    -------
    GasUse and tuple of Assumption
        None where there is no gas on the truck.
    """
    if cylinder is None and cartridge_gun is None:
        return None, ()
    notes = _Notes()
    note = "The most that goes into a drain line: more can burst a solvent-welded joint. Common practice."
    pressure = notes.settled("/working_pressure", working_pressure, LARGEST_PRESSURE, note, "psi|kPa")
    note = "The open line is blown through twice after the blockage has gone. Common practice."
    times = notes.settled("/sweeps", sweeps, SWEEPS, note)
    temperature = notes.settled("/gas_temperature", gas_temperature, GAS_TEMPERATURE, "Room temperature.", "degF|degC")
    use = GasUse(
        volume=volume,
        working_pressure=pressure,
        sweeps=times,
        cylinder=_cylinder(cylinder, volume, pressure, times, temperature, notes) if cylinder else None,
        cartridges=_cartridges(cartridge_gun, volume, pressure, times, temperature, notes) if cartridge_gun else None,
    )
    return use, tuple(notes.assumptions)


class _Notes:
    """Collects the defaults that entered."""

    def __init__(self) -> None:
        self.assumptions: list[Assumption] = []

    def settled(
        self, pointer: str, given: float | None, default: float, note: str, symbols: str | None = None
    ) -> float:
        if given is not None:
            return given
        self.assumptions.append(Assumption(pointer=pointer, value=default, note=note, symbols=symbols))
        return default


def _cylinder(
    cylinder: Cylinder, volume: float, pressure: float, sweeps: float, temperature: float, notes: _Notes
) -> CylinderUse:
    """Content, nozzle and drains of a cylinder."""
    at = "/equipment/cylinder"
    if cylinder.gas is None:
        note = "Dry nitrogen is what a refrigeration truck carries."
        notes.assumptions.append(Assumption(pointer=f"{at}/gas", value="nitrogen", note=note))
    gas = GASES[cylinder.gas or "nitrogen"]
    if gas is CARBON_DIOXIDE:
        note = "A small cylinder, full: weigh it, for its gauge tells nothing while there is liquid in it."
        mass = notes.settled(f"{at}/content", cylinder.content, CARBON_DIOXIDE_CONTENT, note, "lb|kg")
        content = usable = mass / gas.molar_mass
    else:
        inside, found = _inside(cylinder, gas, temperature, notes)
        content = inside * molar_density(gas, ATMOSPHERE + found, temperature)
        kept = inside * molar_density(gas, ATMOSPHERE + pressure, temperature)
        usable = max(content - kept, 0.0)
    note = "The narrowest place between regulator and line."
    bore = notes.settled(f"{at}/nozzle_bore", cylinder.nozzle_bore, NOZZLE_BORE, note, "in|mm")
    note = "Between a sharp-edged hole and a rounded nozzle."
    share = notes.settled(f"{at}/discharge_coefficient", cylinder.discharge_coefficient, DISCHARGE_COEFFICIENT, note)
    upstream = ATMOSPHERE + pressure
    ratio = critical_pressure_ratio(gas.heat_capacity_ratio)
    flow = nozzle_mass_flow(
        gas=gas,
        upstream=upstream,
        downstream=ATMOSPHERE,
        temperature=temperature,
        bore=bore,
        discharge_coefficient=share,
    )
    free_flow = free_volume(gas, flow / gas.molar_mass, temperature)
    needed = gas_per_drain(gas, volume, pressure, sweeps, temperature)
    usable_content, all_content = free_volume(gas, usable, temperature), free_volume(gas, content, temperature)
    return CylinderUse(
        gas=gas.name,
        content=all_content,
        usable_content=usable_content,
        gas_per_drain=needed,
        drains=int(usable_content / needed),
        critical_pressure_ratio=ratio,
        choked=ATMOSPHERE / upstream <= ratio,
        nozzle_mass_flow=flow,
        nozzle_free_flow=free_flow,
        time_to_pressure=fill_time(
            gas=gas,
            volume=volume,
            upstream=upstream,
            start=ATMOSPHERE,
            end=upstream,
            temperature=temperature,
            bore=bore,
            discharge_coefficient=share,
        ),
        sweep_time=sweeps * volume / free_flow,
        smallest_room=smallest_room(gas, needed),
        smallest_room_for_all=smallest_room(gas, all_content),
    )


def _inside(cylinder: Cylinder, gas: Gas, temperature: float, notes: _Notes) -> tuple[float, float]:
    """Internal volume [m3] and gauge pressure [Pa] of a cylinder of nitrogen or air."""
    at = "/equipment/cylinder"
    note = "The usual pressure of a full service cylinder. Common practice."
    full = cylinder.full_pressure
    if full is None and (cylinder.pressure is None or cylinder.internal_volume is None):
        full = notes.settled(f"{at}/full_pressure", None, FULL_PRESSURE, note, "psi|kPa")
    if cylinder.internal_volume is not None:
        inside = cylinder.internal_volume
    else:
        note = "The small cylinder that is carried up a ladder. Common practice."
        rated = notes.settled(f"{at}/full_content", cylinder.full_content, FULL_CONTENT, note, "ft3|L")
        free = molar_density(gas, ATMOSPHERE, GAS_TEMPERATURE)  # cylinders are rated at room temperature
        inside = rated * free / molar_density(gas, ATMOSPHERE + (full or FULL_PRESSURE), GAS_TEMPERATURE)
    note = "Nothing tells the gauge's reading: taken as full."
    return inside, notes.settled(f"{at}/pressure", cylinder.pressure, full or FULL_PRESSURE, note, "psi|kPa")


def _cartridges(
    gun: CartridgeGun, volume: float, pressure: float, sweeps: float, temperature: float, notes: _Notes
) -> CartridgeUse:
    """Gas and drains of a box of cartridges."""
    at, gas = "/equipment/cartridge_gun", CARBON_DIOXIDE
    if gun.cartridges is None:
        notes.assumptions.append(
            Assumption(pointer=f"{at}/cartridges", value=1, note="A gun is carried with one cartridge in it.")
        )
    note = "The usual cartridge. Common practice."
    mass = notes.settled(f"{at}/cartridge_mass", gun.cartridge_mass, CARTRIDGE_MASS, note, "g|g")
    held = 1 if gun.cartridges is None else gun.cartridges
    each = free_volume(gas, mass / gas.molar_mass, temperature)
    to_pressure = gas_per_drain(gas, volume, pressure, 0.0, temperature)
    needed = to_pressure + sweeps * volume
    count = needed / each
    whole = max(-int(-count // 1), 1)
    return CartridgeUse(
        cartridges=held,
        gas_per_cartridge=each,
        gas_per_drain=needed,
        cartridges_per_drain=count,
        cartridges_for_this_drain=whole,
        # what is left in a cartridge serves the next drain only where it is enough for it
        drains=held * int(1.0 / count) if count <= 1.0 else held // whole,
        drains_by_rule=int(held * DRAINS_PER_CARTRIDGE),
        share_into_blocked_line=to_pressure / each,
        smallest_room=smallest_room(gas, needed) or 0.0,
    )
