"""Findings in the words of whoever owns the building: what is the matter, what it means, what we recommend.

A technician reads every finding; the owner reads the few things they amount to. Each code of a finding that is more
than a note belongs to one concern. The words are ours; what they rest on is the finding's own basis.
"""

from dataclasses import dataclass
from types import MappingProxyType


@dataclass(frozen=True, kw_only=True, slots=True)
class Concern:
    """One thing an owner should know.

    Parameters
    ----------
    heading : str
        In a few words.
    fails, wants : str
        What we found: where it fails, and where it works but wants attention.
    means : str
        What it may lead to.
    advice : str
        What we recommend.
    codes : tuple of str
        Findings that amount to it.
    """

    heading: str
    fails: str
    wants: str
    means: str
    advice: str
    codes: tuple[str, ...]


CONCERNS = MappingProxyType(
    {
        "water-now": Concern(
            heading="Water is standing where it should not",
            fails="Water is running over, or stands so high that nothing holds it any more.",
            wants="Water stands higher in the unit than it should.",
            means="Ceilings, walls and whatever stands below may be getting wet now.",
            advice="Keep the cooling off until the drain is cleared and proved, and protect what is below.",
            codes=("pan-already-full", "cut-out-under-water", "secondary-drain-under-water"),
        ),
        "held-up": Concern(
            heading="The unit holds its water back while it runs",
            fails="The drain's trap is built so that the fan keeps water from leaving; it collects inside the unit.",
            wants="The drain's trap empties the unit, with less to spare than it should have.",
            means="Standing water grows slime and rust, and can spill when the fan stops or the filter gets dirty.",
            advice="Have the trap rebuilt to the dimensions on the technician's page.",
            codes=(
                "outlet-drop-too-small",
                "outlet-drop-margin-small",
                "outlet-drop-small-positive-pan",
                "trap-ends-level",
                "trap-outlet-above-pan-outlet",
                "pan-overflows-before-draining",
                "release-surge",
                "pan-pressure-unusual",
            ),
        ),
        "seal": Concern(
            heading="The drain's water seal does not hold",
            fails="Air passes through the drain, because its water seal is missing, too shallow or dried out.",
            wants="The drain's water seal holds, with less to spare than it should have.",
            means="The fan can blow conditioned air away, or pull air in and throw water about in the unit.",
            advice="Have the trap filled, and rebuilt where it is too shallow.",
            codes=(
                "trap-without-seal",
                "seal-broken-by-suction",
                "seal-blown-out",
                "seal-evaporated",
                "seal-margin-small",
                "seal-dries-out",
                "seal-may-dry-out",
                "seal-dry-from-start",
                "seal-fails-when-full",
            ),
        ),
        "trap-build": Concern(
            heading="The trap's size or place is not right",
            fails="The trap does not fit where it is, is too narrow, or serves more than one unit.",
            wants="The trap's size or place could be better.",
            means="It blocks easily, or one unit disturbs the drain of another.",
            advice="Have a trap of the right size fitted for each unit, where there is room for it.",
            codes=(
                "trap-does-not-fit",
                "trap-has-no-room",
                "trap-pipe-too-small",
                "trap-reduced-on-the-way",
                "trap-shared",
            ),
        ),
        "fall": Concern(
            heading="The drain line does not fall as it should",
            fails="Somewhere the line is level, runs uphill or locks the water in.",
            wants="The line falls less than is usual, or may sag.",
            means="Water stands in the line; slime grows in it and blocks it sooner.",
            advice="Have the line rehung with an even fall.",
            codes=(
                "line-runs-uphill",
                "line-is-level",
                "pitch-below-minimum",
                "pitch-below-usual",
                "supports-too-far-apart",
                "second-trap-unvented",
                "segments-back-fall",
                "segments-flat",
                "segments-below-minimum",
                "segments-near-minimum",
                "segments-below-usual",
                "pond-holds-water",
                "pond-of-unknown-volume",
                "pond-fills-bore",
                "pond-may-fill-bore",
                "pond-reaches-pan",
                "outlet-under-water",
            ),
        ),
        "line-size": Concern(
            heading="The drain line is too small or gets smaller",
            fails="The line is smaller than the water, the unit or the code asks for.",
            wants="The line's size leaves little to spare.",
            means="A little slime is enough to back the water up into the unit.",
            advice="Have the line replaced in the size on the technician's page.",
            codes=(
                "line-smaller-than-needed",
                "line-smaller-than-pan-outlet",
                "peak-flow-exceeds-line",
                "fouling-margin-small",
                "pipe-size-not-made",
                "installed-size-not-made",
                "line-needs-engineering",
            ),
        ),
        "access": Concern(
            heading="The drain is hard to clean",
            fails="The drain cannot be cleaned without cutting it.",
            wants="The drain cannot be opened easily for cleaning.",
            means="Each cleaning takes longer and costs more, and is put off.",
            advice="Have a cleanout fitted that opens by hand.",
            codes=("line-not-cleanable", "cleanout-welded"),
        ),
        "pump": Concern(
            heading="The condensate pump does not suit its work",
            fails="The pump cannot move the water that arrives, or starts and stops until it wears out.",
            wants="The pump does its work, with little to spare or with needless starts.",
            means="It wears out early, and when it fails its tank runs over.",
            advice="Have the tube, the check valve or the pump put right as the technician's page says.",
            codes=(
                "pump-cannot-lift",
                "pump-slower-than-inflow",
                "pump-margin-small",
                "pump-too-small",
                "pump-lift-too-high",
                "pump-tube-too-long",
                "pump-tube-too-narrow",
                "pump-near-shut-off",
                "pump-tube-bore-small",
                "pump-section-bore-small",
                "pump-tube-shorter-than-lift",
                "pump-falls-back",
                "pump-falls-back-each-cycle",
                "pump-restarts-on-fall-back",
                "pump-short-cycling",
                "pump-curve-rises",
            ),
        ),
        "pump-safety": Concern(
            heading="Nothing stops the cooling when the pump fails",
            fails="The pump's safety switch is missing, not connected or set too high.",
            wants="Nobody knows whether the pump's safety switch works.",
            means="When the pump fails, the unit goes on making water and the tank runs over.",
            advice="Have the safety switch connected so that a full tank stops the cooling.",
            codes=(
                "pump-safety-float-unwired",
                "pump-safety-float-missing",
                "pump-safety-float-above-overflow",
                "tank-float-unwired",
                "tank-float-missing",
                "tank-float-unknown",
                "tank-float-too-high",
                "hidden-pump-unprotected",
            ),
        ),
        "protection": Concern(
            heading="Little or nothing stops the water when the drain blocks",
            fails="When the drain blocks, nothing stops the water before it reaches the building.",
            wants="What should stop the water when the drain blocks leaves little time, or nobody knows of it.",
            means="Drains do block. Then the water goes into the ceiling, or whatever else is below.",
            advice="Have a second pan, a second drain or a water-level switch fitted that stops the cooling.",
            codes=(
                "protection-missing",
                "protection-unknown",
                "overflow-protection-none",
                "overflow-protection-unknown",
                "overflow-room-unknown",
                "little-time-to-overflow",
                "little-room-after-cut-out",
                "auxiliary-pan-only-delays",
                "pan-bottom-above-rim",
                "auxiliary-pan-shallow",
                "auxiliary-pan-small",
                "cut-out-too-high",
                "secondary-drain-too-high",
            ),
        ),
        "sewer": Concern(
            heading="The drain is joined to the sewer",
            fails="The drain connects to a sanitary line, with little or nothing to keep sewer gas out.",
            wants="The drain ends where dirty water could back up into it.",
            means="Sewer gas can get into the air you breathe, and sewage can come back into the unit.",
            advice="Have the drain end above an open, approved receptor, with an air gap.",
            codes=(
                "discharge-into-sanitary",
                "sanitary-without-trap",
                "sanitary-trap-dries-out",
                "sanitary-seal-lasts-for",
                "discharge-without-air-gap",
            ),
        ),
        "outfall": Concern(
            heading="The water ends in a bad place",
            fails="The water runs out where people walk or where it harms the building.",
            wants="The water runs out where it may be a nuisance.",
            means="People can slip, surfaces wear, and ice forms in the cold.",
            advice="Have the drain led to a place your local code approves.",
            codes=("discharge-is-a-nuisance",),
        ),
        "frost": Concern(
            heading="Something can freeze",
            fails="Part of the drain or the coil freezes.",
            wants="Part of the drain or the coil can freeze.",
            means="Ice blocks the water's way, and when it melts the water comes all at once.",
            advice="Have the drain protected from frost, and the air flow and refrigerant of a freezing coil checked.",
            codes=("drain-can-freeze", "coil-will-frost"),
        ),
        "more-or-less": Concern(
            heading="The water that comes out is not what was expected",
            fails="More or less water comes out than the numbers explain.",
            wants="More or less water comes out than the numbers explain.",
            means="Water may be going somewhere else, or coming from somewhere else.",
            advice="Have the readings repeated, and the unit looked over for where the water goes.",
            codes=("measured-above-computed", "measured-below-computed", "rate-above-usual"),
        ),
        "readings": Concern(
            heading="Some readings cannot be right",
            fails="Some of the readings taken cannot all be true, so that part was not judged.",
            wants="Some of the readings taken are at the edge of what instruments can tell.",
            means="This report says less about that part than it could.",
            advice="Have the readings taken again on the next visit.",
            codes=(
                "wet-bulb-above-dry-bulb",
                "dew-point-above-dry-bulb",
                "wet-bulb-too-low",
                "air-taken-as-saturated",
                "air-taken-as-driest",
                "leaving-air-wetter",
                "leaving-air-wetter-than-possible",
                "leaving-air-hotter-and-wetter",
                "leaving-air-warmer",
                "no-measurable-condensate",
                "rate-within-reading-accuracy",
                "capacity-beyond-air",
                "part-out-of-range",
                "survey-mixes-readings",
                "fall-differs-from-survey",
                "pipe-bore-unknown",
            ),
        ),
    }
)
"""Concerns by slug, the most urgent first."""

CONCERN_OF = MappingProxyType({code: concern for concern in CONCERNS.values() for code in concern.codes})
"""The concern a finding amounts to, by the finding's code."""
