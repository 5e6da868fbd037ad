"""What to make safe before anything is looked for, in order. Basis of every row: common practice."""

from dataclasses import dataclass


@dataclass(frozen=True, kw_only=True, slots=True)
class SafeStep:
    """One step that comes before the first check.

    Parameters
    ----------
    code : str
        Stable kebab-case name.
    when : tuple of str
        Situations, any of which calls for it.
    do : str
        What to do.
    why : str
        The reason.
    cautions : tuple of str
        Codes of the cautions it stands for.
    """

    code: str
    when: tuple[str, ...]
    do: str
    why: str
    cautions: tuple[str, ...] = ()


MAKE_SAFE: tuple[SafeStep, ...] = (
    SafeStep(
        code="switch-off-where-water-is",
        when=("water-near-electrical",),
        do="Do not touch the unit or step into the water. Switch the power off at the breaker, from a dry place, "
        "and lock "
        "it out.",
        why="Water reaches electrical parts.",
        cautions=("lock-out-power", "water-and-electricity"),
    ),
    SafeStep(
        code="look-for-electrical-parts",
        when=("wet-electrical-not-known",),
        do="Before touching anything, look whether water reaches wiring, outlets, lights or a control box. If it "
        "does, or "
        "you cannot see, switch the power off at the breaker from a dry place.",
        why="Nobody has said whether water reaches electrical parts.",
        cautions=("water-and-electricity",),
    ),
    SafeStep(
        code="catch-held-water",
        when=("held-water",),
        do="Put a bucket or towels under the unit before you stop the fan.",
        why="The pan may let go of all the water that suction holds up when the fan stops.",
        cautions=("water-damage",),
    ),
    SafeStep(
        code="stop-the-cooling-call",
        when=("water-coming", "iced"),
        do="Turn the cooling off at the thermostat, and leave it off until the drain is proved.",
        why="Without a cooling call no new water is made.",
        cautions=("water-damage",),
    ),
    SafeStep(
        code="let-the-ice-melt",
        when=("iced",),
        do="Let the coil thaw by itself with the cooling off and the drain watched; never chip the ice or use a flame.",
        why="The melt brings many times the usual water within an hour or two.",
        cautions=("water-damage",),
    ),
    SafeStep(
        code="protect-the-building",
        when=("building-wet", "damage-below"),
        do="Move or cover what is below, take up standing water, and open a bulging ceiling only where nobody "
        "stands under "
        "it and its lights are off.",
        why="Water is in the building, or would go there next.",
        cautions=("water-damage",),
    ),
    SafeStep(
        code="keep-sewer-gas-out",
        when=("sewer-gas",),
        do="No flames, no smoking. Switch the fan off, open windows, and close the drain's open end; where the "
        "smell is "
        "strong or anybody feels ill, everybody leaves. If it could be fuel gas, call the gas utility from outside.",
        why="Sewer gas is poisonous and can burn, and the fan spreads it through the building.",
        cautions=("sewer-gas",),
    ),
    SafeStep(
        code="leave-the-safety-wired",
        when=("safety-may-be-open",),
        do="Do not bridge a float switch or cut-out to get the cooling going.",
        why="It may be all that keeps the water out of the building.",
        cautions=("do-not-bridge-safety",),
    ),
    SafeStep(
        code="mind-where-you-stand",
        when=("at-a-height",),
        do="Secure the ladder, keep back from the roof edge, and step only on framing or planks in an attic.",
        why="The unit stands where people fall.",
        cautions=("heights",),
    ),
    SafeStep(
        code="unplug-the-pump",
        when=("pump",),
        do="Unplug or isolate the pump before a hand goes into its tank; for a test run, take hands and tools "
        "out first.",
        why="The float can start it at any moment.",
        cautions=("water-and-electricity",),
    ),
    SafeStep(
        code="lock-out-before-opening",
        when=("always",),
        do="Lock out and tag the unit's power before a panel comes off.",
        why="The fan can start by itself.",
        cautions=("lock-out-power",),
    ),
)

FACT_CAUTIONS: dict[tuple[str, str], str] = {
    ("discharge_into", "sewer-line"): "sewer-gas",
    ("receptor", "stands-full"): "sewer-gas",
    ("frost_exposure", "exposed"): "freezing",
    ("weather", "freezing"): "freezing",
}
"""Cautions that something known brings by itself: observation and value to code."""
