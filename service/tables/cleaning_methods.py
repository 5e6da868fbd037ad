"""Ways to clean a drain, why one is taken, and why another is refused. Common practice; no source."""

METHODS = ("wet-dry-vacuum", "regulated-gas", "cartridge-gas", "brush", "water-rinse", "by-hand")
"""What clears the drain, the first that may be used before the next. A brush goes before the first three where there is
one; `by-hand` is for a drain whose line and trap are clean."""

METHOD_NAMES = {
    "wet-dry-vacuum": "wet/dry vacuum",
    "regulated-gas": "cylinder with a regulator",
    "cartridge-gas": "cartridge gas gun",
    "brush": "brush",
}
"""What has to be on the truck for a method, in words."""

REFUSALS = {
    "not-on-truck": "There is no {tool} on the truck.",
    "far-end-out-of-reach": "A vacuum pulls at the far end, which cannot be reached.",
    "far-end-closed": "The line is connected straight to a {place}: there is no open end to seal a hose round, and gas "
    "would go into the building's drains and out through their traps.",
    "far-end-not-known": "Nothing says where the line ends, and the end cannot be reached: gas would blow slime out "
    "where nobody is looking.",
    "bypasses-trap": "Gas could only go in at the cleanout, and the way back to the pan cannot be closed: neither the "
    "pan outlet nor a union can be reached. It would bypass the trap into the pan.",
    "openings-left-open": "{needed} openings lie between the gun and the blockage and there are {plugs} plugs: gas "
    "would come back through what stays open.",
    "bore-not-suited": "Gas suits 3/4 to 1 in pipe. In {pipe_size} in it does not push the slime in front of it.",
    "not-enough-gas": "One drain takes {needed:ft3|L} of free gas, and there are {available:ft3|L} to use.",
    "into-pump-tank": "The line ends in the tank of a pump that cannot be reached: gas would blow the slime into it.",
    "bore-too-narrow": "A flexible brush passes 3/4 in pipe and larger; this is {pipe_size} in.",
}
"""Why a method is refused, by code."""

REASONS = {
    "wet-dry-vacuum": "Pull with the wet/dry vacuum: the far end can be reached, suction strains no joint, and it "
    "blows nothing at anybody.",
    "regulated-gas": "Push with regulated gas at the {gun_place}: a regulator holds it at {working_pressure:psi|kPa}, "
    "the way back to the pan is closed there, and {usable:ft3|L} of gas are enough for {drains} drains like this.",
    "cartridge-gas": "Push with the cartridge gun at the {gun_place}: the way back to the pan is closed there, and "
    "{held} cartridges are enough for {drains} drains like this. Nothing but short bursts holds its pressure down.",
    "brush": "Brush only: there is nothing that may pull or push here. Of {run:ft|m} of line the brush reaches "
    "{reached:ft|m}.",
    "brush-trap": "Brush only: the trap is what is fouled, and the brush passes it.",
    "water-rinse": "Water only: there is no brush, vacuum or gas that may be used here, so what water does not carry "
    "off stays.",
    "by-hand": "Line and trap are not fouled: nothing has to be brushed, pushed or pulled.",
    "brush-first": "The brush goes first: what it has loosened can be pulled or pushed out, and gas or suction alone "
    "leaves the film on the wall, which regrows.",
    "opened-for-test": "The plan begins by cutting, because nothing else lets water in above the trap: it could be "
    "neither refilled nor proved.",
    "slow-access": "A cleanout that does not open by hand, or no union, makes the work about four times as long "
    "(common practice).",
    "no-gas-through-pump": "The line comes out of the pump's tank first: no gas or suction goes through the pump.",
    "through-cleanout-only": "Gas goes in at the cleanout, so the trap itself gets the brush and the rinse, not the "
    "gas.",
}
"""Why the plan is as it is, by key."""

UNKNOWNS = {
    "cleanout": "whether there is a cleanout and its cap turns by hand",
    "union": "whether there is a union at the unit",
    "pan": "whether the pan can be reached",
    "far-end": "whether the far end can be reached",
    "float-switch": "whether a float switch stands in the drain or the pan",
    "vents": "how many vents and open ends the line has",
    "discharge": "where the line ends",
    "run": "how long the line is",
    "pipe-size": "what size the line is",
    "pump": "the pump's leaflet, lift and tube",
}
"""What a plan asks to be found out, in words."""

CARTRIDGE, CARTRIDGES = "{count} cartridge", "{count} cartridges"
"""A count of cartridges, in words."""

CLOSED_PLACES = ("attic", "crawl-space", "above-ceiling", "closet")
"""Where gas let go gathers."""

OPEN_PLACES = ("roof", "outdoors")
"""Where it does not."""

HIGH_PLACES = ("attic", "above-ceiling", "roof")
"""Where somebody can fall."""

CARRY_ITEMS = (
    "gloves-and-eye-protection",
    "lock-and-tag",
    "brush",
    "wet-dry-vacuum",
    "regulated-gas",
    "cartridge-gun",
    "cartridges",
    "plugs",
    "cleanout-fittings",
    "union",
    "primer-and-cement",
    "bucket",
    "jug",
    "water",
)
"""What may have to be carried to the unit."""
