"""The shape of a row of upkeep, the four seasons of the work, and what a row may depend on."""

from dataclasses import dataclass

SPRING, MID_SEASON, AUTUMN, WINTER = SEASONS = ("spring-start-up", "mid-season", "autumn-shut-down", "winter")
"""Named by the work, in its order through a year of cooling; the months make them fit either hemisphere."""

COMMON_PRACTICE = "common practice"
PHYSICS = "physics"

SLIME = ("biological-slime",)
CLEARING = ("lock-out-power", "biological-slime", "never-mix-cleaners", "compressed-gas", "gas-displaces-air")

CONDITIONS: dict[str, str] = {
    "always": "Whatever is known of the unit.",
    # the line
    "cleanout-removable": "The line has a cleanout that opens by hand.",
    "cleanout-welded": "The line's cleanout is solvent-welded.",
    "no-cleanout": "The line has no cleanout.",
    "cleanout-unknown": "Nothing says whether there is a cleanout.",
    "line-falls-short": "The line was found not to fall all the way, or to hold water.",
    "supports-too-wide": "The line's supports were found too far apart.",
    # the trap
    "trap-unknown": "No trap was described.",
    "no-seal": "The drain has no water seal.",
    "trap-kept-full": "Something refills the trap out of season.",
    "drained-trap": "The trap is drained for the winter, because it can freeze.",
    "seal-lost-by-spring": "The seal is gone before the cooling starts again, whatever the air does.",
    "seal-may-be-lost": "The seal may be gone before the cooling starts again.",
    "seal-lasts": "The seal outlasts the time without cooling.",
    "seal-not-followed": "There is a seal, and no count of days applies to it.",
    "refill-helps": "A trap that would dry out can be kept full by pouring water in every few days.",
    "held-water": "The fan's suction holds water in the pan.",
    "seal-broken": "The seal does not hold against the fan.",
    "pressure-known": "The pressure in the pan is known.",
    "pressure-unknown": "The pressure in the pan is not known.",
    "suction": "The pan is under suction.",
    "no-suction": "The pan is not under suction, or nothing says so.",
    # where the water goes
    "gravity-peak-known": "No pump is known, and the peak rate is.",
    "gravity-peak-unknown": "No pump is known, and neither is the peak rate.",
    "ends-outdoors": "The line ends in the open.",
    "sanitary-direct": "The drain connects directly to a sanitary or soil line.",
    "discharge-unknown": "Nothing says where the line ends.",
    # the pump
    "pump-unknown": "Nothing says whether there is a pump.",
    "tank-known": "There is a pump, and the volume between its floats is known.",
    "tank-unknown": "There is a pump, and the volume between its floats is not known.",
    "cycles-known": "There is a pump, and how often it starts in the peak hour is known.",
    "cycles-unknown": "There is a pump, and how often it starts is not known.",
    "pump-float-wired": "The pump's safety float stops the cooling call.",
    "pump-float-to-wire": "The pump's safety float is not wired, or there is none.",
    "pump-float-unknown": "There is a pump, and nothing is known of its safety float.",
    # what stops the water
    "cut-out-depth-known": "A cut-out stops the cooling call, at a known depth of water.",
    "cut-out-depth-unknown": "A cut-out stops the cooling call, at a depth that is not known.",
    "second-way-out": "A secondary drain, or an auxiliary pan with its own drain, takes the water.",
    "auxiliary-pan": "There is an auxiliary pan.",
    "protection-none": "Nothing stops the water when the drain blocks.",
    "protection-unknown": "Nothing is known of the overflow protection.",
    # frost
    "drain-for-winter": "The drain can freeze, and no water need run or stand in it in the winter.",
    "frost-and-water": "The drain can freeze, and water has to run or stand in it in the winter.",
    "can-freeze": "Trap or line stand below freezing at times.",
    "frost-unknown": "Nothing says whether trap or line can freeze.",
    # the furnace
    "furnace-unknown": "Nothing says whether there is a condensing furnace or boiler.",
    "has-furnace": "There is a furnace or boiler.",
    "furnace-condenses": "The furnace makes water.",
    "furnace-stays-dry": "The flue gas leaves too hot to make water.",
    "sharing-unknown": "Nothing says whether the furnace shares the drain.",
    "own-drain": "The furnace makes water and has a drain of its own.",
    "shared-peak-known": "The furnace shares the drain, and the water of both is known.",
    "shared-peak-unknown": "The furnace shares the drain, and the coil's water is not known.",
    "acid-into-pump": "The furnace's water goes through the condensate pump.",
    "neutralizer-fitted": "The furnace's water goes through a neutralizer.",
    "neutralizer-missing": "The furnace makes water, and there is no neutralizer.",
    "neutralizer-unknown": "The furnace makes water, and nothing says whether there is a neutralizer.",
    "furnace-frost": "The furnace's water runs out where it can freeze.",
}
"""What a row may depend on, in words; `service.calculations.upkeep_conditions` decides which hold."""


@dataclass(frozen=True, kw_only=True, slots=True, eq=False)
class UpkeepRow:
    """One check, in one set of circumstances; a row is equal to itself only, and so quickly found again.

    Parameters
    ----------
    code : str
        Stable kebab-case name; rows of one code are the same check in other circumstances.
    seasons : tuple of str
        Of `SEASONS`: when it falls due.
    condition : str
        Key of `CONDITIONS`: when it applies.
    check, why : str
        What to do, and the reason; templates like those of a finding.
    minutes : float
        How long it takes. Common practice, no source.
    basis : str
        A code clause, ``physics`` or ``common practice``.
    cautions : tuple of str
        Codes of `service.tables.cautions`.
    at_unit : bool
        Done at the unit itself; where that stands at a height, the height counts.
    """

    code: str
    seasons: tuple[str, ...]
    condition: str
    check: str
    why: str
    minutes: float
    basis: str = COMMON_PRACTICE
    cautions: tuple[str, ...] = ()
    at_unit: bool = True
