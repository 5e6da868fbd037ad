"""What is on the truck: parts of a cleaning plan's request, and what its gas does, in the answer."""

from service.calculations import cleaning_site, gas_supply
from service.calculations.cleaning_site import ACCESS_LIMITS, MOST_PLUGS
from service.calculations.gas_supply import GAS_LIMITS, MOST_CARTRIDGES
from service.schemas.fields import Choice, Flag, Number, Part, Quantity, Whole
from service.schemas.payload import Payload, Written
from service.tables.gases import GASES


class Brush(Payload):
    """A flexible drain brush."""

    into = cleaning_site.Brush

    length = Quantity(
        "length", ACCESS_LIMITS["brush_length"], us="ft", si="m", description="Its reach; 5 ft when left out."
    )


class CartridgeGun(Payload):
    """A cartridge gas gun with its box of carbon dioxide cartridges."""

    into = gas_supply.CartridgeGun

    cartridges = Whole(0, MOST_CARTRIDGES, description="Full cartridges; one when left out.")
    cartridge_mass = Quantity(
        "mass", GAS_LIMITS["cartridge_mass"], description="Carbon dioxide in one, as printed on it; 16 g when left out."
    )


class Cylinder(Payload):
    """A cylinder of gas with a regulator."""

    into = gas_supply.Cylinder
    at_most_one_of = ("internal_volume", "full_content")

    gas = Choice(tuple(GASES), description="Gas in the cylinder; `nitrogen` when left out.")
    internal_volume = Quantity(
        "volume",
        GAS_LIMITS["internal_volume"],
        description="Water volume stamped on the cylinder. Nitrogen and air only.",
    )
    full_content = Quantity(
        "volume",
        GAS_LIMITS["full_content"],
        description="Free gas it holds when full, as cylinders are named in the US; 40 ft3 when neither is given. "
        "Nitrogen and air only.",
    )
    full_pressure = Quantity(
        "pressure",
        GAS_LIMITS["full_pressure"],
        us="psi",
        si="kPa",
        description="Gauge pressure at which it counts as full; 2,200 psi when left out. Nitrogen and air only.",
    )
    pressure = Quantity(
        "pressure",
        GAS_LIMITS["pressure"],
        us="psi",
        si="kPa",
        description="What its gauge shows now; full when left out. Of carbon dioxide it tells nothing.",
    )
    content = Quantity(
        "mass",
        GAS_LIMITS["content"],
        description="Carbon dioxide in it, by weighing; 5 lb when left out. No other gas.",
    )
    nozzle_bore = Quantity(
        "length",
        GAS_LIMITS["nozzle_bore"],
        description="Narrowest bore between regulator and line; 1/8 in when left out.",
    )
    discharge_coefficient = Number(
        GAS_LIMITS["discharge_coefficient"],
        description="Flow of the nozzle over that of an ideal one; 0.8 when left out.",
    )


class TruckEquipment(Payload):
    """What is on the truck. What is not named is not there."""

    into = cleaning_site.Equipment

    brush = Part(Brush, description="A flexible drain brush; `{}` for one of 5 ft.")
    cartridge_gun = Part(CartridgeGun, description="A cartridge gas gun.")
    cylinder = Part(Cylinder, description="A cylinder of nitrogen, air or carbon dioxide with a regulator.")
    wet_dry_vacuum = Flag(description="True where there is a wet/dry vacuum.")
    jug = Flag(description="True where there is a jug or can for water.")
    plugs = Whole(0, MOST_PLUGS, description="Plugs that fit the line's openings.")


class CylinderUse(Written):
    """What the cylinder does for drains like this one."""

    gas = Choice(tuple(GASES), required=True, description="Gas in the cylinder.")
    content = Quantity(
        "volume", us="ft3", si="L", required=True, description="Free gas in it, at 1 atm; of the real gas."
    )
    usable_content = Quantity(
        "volume", us="ft3", si="L", required=True, description="What comes out of it at the working pressure."
    )
    gas_per_drain = Quantity(
        "volume",
        us="ft3",
        si="L",
        required=True,
        description="Free gas that brings this trap and line to the working pressure once, and sweeps them.",
    )
    drains = Whole(0, 10**12, required=True, description="Whole drains like this one that it will do.")
    critical_pressure_ratio = Number(
        required=True, description="Pressure behind the nozzle over that before it, at and below which it is choked."
    )
    choked = Flag(required=True, description="Whether the nozzle is choked while it blows into the open line.")
    nozzle_mass_flow = Quantity("mass_flow", required=True, description="Gas that flows into the open line.")
    nozzle_free_flow = Quantity("air_flow", us="cfm", si="L/s", required=True, description="The same, as gas at 1 atm.")
    time_to_pressure = Quantity(
        "time",
        us="s",
        si="s",
        required=True,
        description="In which the nozzle brings trap and line, closed by the blockage, to the working pressure.",
    )
    sweep_time = Quantity(
        "time", us="s", si="s", required=True, description="In which it sweeps the open line as often as planned."
    )
    smallest_room = Quantity(
        "volume",
        us="ft3",
        si="L",
        required=True,
        nullable=True,
        description="Closed room in which the gas of one drain, stirred in, leaves the air fit to breathe: 19.5 % "
        "oxygen, or 3 % carbon dioxide for a quarter of an hour. Null for air.",
    )
    smallest_room_for_all = Quantity(
        "volume",
        us="ft3",
        si="L",
        required=True,
        nullable=True,
        description="The same, should the whole cylinder be let go.",
    )


class CartridgeUse(Written):
    """What the box of cartridges does for drains like this one."""

    cartridges = Whole(0, MOST_CARTRIDGES, required=True, description="Cartridges on the truck.")
    gas_per_cartridge = Quantity(
        "volume", us="ft3", si="L", required=True, description="Free gas in one, once it has warmed up."
    )
    gas_per_drain = Quantity(
        "volume",
        us="ft3",
        si="L",
        required=True,
        description="Free gas that brings this trap and line to the working pressure once, and sweeps them.",
    )
    cartridges_per_drain = Number(required=True, description="The one over the other, not rounded.")
    cartridges_for_this_drain = Whole(1, 10**12, required=True, description="Whole cartridges to have at hand.")
    drains = Whole(
        0, 10**12, required=True, description="Whole drains like this one that the box will do, as computed."
    )
    drains_by_rule = Whole(
        0, 10**6, required=True, description="By the rule of about two drains a cartridge (common practice)."
    )
    share_into_blocked_line = Number(
        required=True,
        description="Share of one cartridge that brings trap and line, closed by a blockage that holds, to the working "
        "pressure. Below 1, a whole cartridge goes beyond it.",
    )
    smallest_room = Quantity(
        "volume",
        us="ft3",
        si="L",
        required=True,
        description="Closed room in which the gas of one drain, stirred in, stays below 3 % carbon dioxide.",
    )


class GasUse(Written):
    """Gas for this drain."""

    volume = Quantity("volume", required=True, description="Trap and line to be filled.")
    working_pressure = Quantity(
        "pressure", us="psi", si="kPa", required=True, description="Highest gauge pressure put on the line."
    )
    sweeps = Number(required=True, description="Times the open line is filled again after the blockage has gone.")
    cylinder = Part(
        CylinderUse,
        required=True,
        nullable=True,
        description="What the cylinder does for this drain; null without one.",
    )
    cartridges = Part(
        CartridgeUse,
        required=True,
        nullable=True,
        description="What the cartridges do for this drain; null without a gun.",
    )
