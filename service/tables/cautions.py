"""Cautions: what can hurt someone or flood a building, by code."""

CAUTIONS: dict[str, str] = {
    "lock-out-power": "Lock out and tag the unit's electrical power before opening it; the fan can start by itself.",
    "water-and-electricity": "Water and line voltage meet at a condensate pump: unplug or isolate it before touching the tank, and keep its cord dry.",
    "compressed-gas": "Never put more than 30 psi of gas into a drain line: more can burst a solvent-welded joint. Wear eye protection and keep everybody away from the far end.",
    "gas-displaces-air": "Nitrogen and carbon dioxide displace air: ventilate attics, closets and crawl spaces and do not work there alone.",
    "biological-slime": "Drain slime is biological: wear gloves and eye protection, and never blow it dry into an occupied space.",
    "hose-carried-water": "A hose that has carried water never goes back on refrigerant service: mark it and keep it for drains.",
    "vacuum-and-water": "Run a wet/dry vacuum on a circuit with ground-fault protection, its plug away from the water, and never after solvents or over a flame.",
    "solvent-cement": "Primer and cement give off vapour that burns and numbs: ventilate, no flame, and let joints set before they are loaded.",
    "never-mix-cleaners": "Never mix bleach with acid or ammonia cleaners: the gas is poisonous.",
    "heights": "Roof edges, attics and ladders: work tied off or footed, and not alone.",
    "water-damage": "Water may already be where it should not be: protect what is below, and stop the cooling call until the drain is proved.",
    "freezing": "Where the trap or line can freeze, protect it or drain it: ice blocks the drain and breaks pipe.",
    "sewer-gas": "Sewer gas is poisonous and can burn: a condensate drain never connects directly to a sanitary or soil line.",
    "do-not-bridge-safety": "Never bridge a float switch or water-level cut-out to get the cooling going: it is what keeps the water out of the building.",
    "refrigerant-work": "Only a technician certified for it opens the refrigerant circuit or changes its charge.",
    "acid-condensate": "Water from flue gas is acid: wear gloves and eye protection, keep it off metal and concrete, and handle neutralizer media by its label.",
    "flue-gas": "A loose or dry condensate trap of a furnace or boiler lets flue gas, carbon monoxide in it, into the building: close it up and refill it before the burner runs.",
    "local-code": "Local code and the authority having jurisdiction, the equipment's instructions and licensed practice govern; this answer does not replace them.",
}
