"""How soon a unit wants a visit, and why: every condition, the class it puts a unit in, and what that rests on.

A flood needs two things at once: a drain that blocks (or a pump that dies), and nothing that stops the water
before it reaches something it damages. So the rules ask what is happening already, then what stops the water, then what
brings the day nearer. A rule is met where one of its findings was made (any, if it lists none) and all its facts hold.
No rule asks that a finding or a fact be absent: what is found besides never lowers a unit's class. A unit is in the
most urgent class of the rules it meets.

What is not known is a fact too. Protection that nobody has reported stands between protection that is there and
protection that is known to be missing. The order is common practice, no source; what a finding rests on, its own row
says.
"""

from dataclasses import dataclass

BELOW_WORDS = {
    "finished-ceiling": "the finished ceiling",
    "occupied-space": "the occupied space",
    "electrical-equipment": "the electrical equipment",
    "stored-goods": "the stored goods",
}
WHATEVER_BELOW = "whatever stands below"
"""What the water reaches, in words."""

URGENCIES = ("now", "this-week", "this-month", "next-visit")
"""How soon, the most urgent first: today; within a week; within a month; when its turn comes."""

FACTS = {
    "damage": "water would reach something it damages, or nobody has said what stands below",
    "not-stopped": "nothing stops the water when the drain blocks",
    "stop-not-known": "nothing is known of what stops the water",
    "pump-not-stopped": "a pump's full tank does not stop the cooling",
    "pump-stop-not-known": "nothing is known of the pump's safety float",
    "water-standing": "water was found standing in the pan",
    "blocks-soon": "something in the drain holds water or slime, or the last cleaning is a season ago",
    "cleaning-not-known": "nobody has said when the drain was last cleaned",
    "cleaning-overdue": "the last cleaning is a season ago or more",
    "fouled": "trap, line, pan or pump was reported fouled",
    "on-sanitary": "the line is connected straight to a sanitary or soil line",
    "nothing-assessed": "too little is known to assess any part of the unit",
    "nothing-urgent": "none of the other rules is met",
}
"""What a rule may ask besides its findings."""

OVERDUE = 12.0
"""Months after which a cooling season has passed since the last cleaning. Common practice, no source."""

HOLDS_UP = (
    "outlet-drop-too-small",
    "trap-ends-level",
    "trap-outlet-above-pan-outlet",
)
"""The trap keeps water in the pan while the fan runs."""

SEAL_LOST = (
    "trap-without-seal",
    "seal-broken-by-suction",
    "seal-blown-out",
    "seal-evaporated",
    "seal-dry-from-start",
    "seal-fails-when-full",
)
"""Air passes the trap now."""

LINE_FAILS = (
    "line-runs-uphill",
    "line-is-level",
    "pitch-below-minimum",
    "segments-back-fall",
    "segments-flat",
    "segments-below-minimum",
    "pond-fills-bore",
    "pond-reaches-pan",
    "second-trap-unvented",
    "line-smaller-than-needed",
    "line-smaller-than-pan-outlet",
    "length-smaller-than-needed",
    "line-shrinks-downstream",
    "pipe-size-not-made",
)
"""The line holds water or slime, or is too small."""

TRAP_FAILS = (
    "trap-pipe-too-small",
    "trap-reduced-on-the-way",
    "trap-does-not-fit",
    "trap-has-no-room",
    "trap-shared",
    "seal-dries-out",
)

BLOCKING = (
    *HOLDS_UP,
    *LINE_FAILS,
    "trap-without-seal",
    "seal-broken-by-suction",
    "trap-pipe-too-small",
    "trap-reduced-on-the-way",
    "trap-shared",
    "peak-flow-exceeds-line",
    "fouling-margin-small",
    "pond-holds-water",
    "pond-of-unknown-volume",
    "pond-may-fill-bore",
    "drain-can-freeze",
)
"""Findings that bring the day nearer on which the drain blocks: the fact ``blocks-soon``."""

PUMP_OVERWHELMED = ("pump-cannot-lift", "pump-slower-than-inflow")

PUMP_NOT_STOPPED = ("pump-safety-float-unwired", "pump-safety-float-missing", "pump-safety-float-above-overflow")

READING_FAILS = (
    "wet-bulb-above-dry-bulb",
    "dew-point-above-dry-bulb",
    "wet-bulb-too-low",
    "leaving-air-wetter",
    "leaving-air-wetter-than-possible",
    "leaving-air-hotter-and-wetter",
    "capacity-beyond-air",
)
"""Readings that cannot be: they cost their part of the assessment, and tell nothing of the unit."""


@dataclass(frozen=True, kw_only=True, slots=True)
class UrgencyRule:
    """One condition and the class it puts a unit in.

    Parameters
    ----------
    name : str
        Stable name of the condition.
    urgency : str
        One of `URGENCIES`.
    reason : str
        What to tell whoever plans the day; a template that may name ``{below}`` and ``{months}``.
    findings : tuple of str
        Findings of which one must have been made; none asked where empty.
    facts : tuple of str
        Keys of `FACTS` that must all hold.
    basis : str
        ``physics``, ``common practice`` or a code clause.
    """

    name: str
    urgency: str
    reason: str
    findings: tuple[str, ...] = ()
    facts: tuple[str, ...] = ()
    basis: str = "common practice"


RULES: tuple[UrgencyRule, ...] = (
    # it is happening
    UrgencyRule(
        name="running-over",
        urgency="now",
        reason="Water is running over, or runs over whenever the unit cools. It reaches {below} first.",
        findings=("pan-already-full", "pan-overflows-before-draining"),
        basis="physics",
    ),
    UrgencyRule(
        name="water-at-cut-out",
        urgency="now",
        reason="Water stands at the cut-out or the secondary drain: the primary drain is blocked, or the trap holds "
        "water up as high.",
        findings=("cut-out-under-water", "secondary-drain-under-water"),
        basis="physics",
    ),
    UrgencyRule(
        name="water-standing-unstopped",
        urgency="now",
        reason="Water stands in the pan, and nothing stops it from reaching {below}.",
        facts=("water-standing", "not-stopped", "damage"),
    ),
    UrgencyRule(
        name="water-standing-stop-not-known",
        urgency="now",
        reason="Water stands in the pan, and nothing is known that stops it from reaching {below}.",
        facts=("water-standing", "stop-not-known", "damage"),
    ),
    UrgencyRule(
        name="pump-overwhelmed-unstopped",
        urgency="now",
        reason="The pump cannot carry the water, and a full tank does not stop the cooling: it reaches {below}.",
        findings=PUMP_OVERWHELMED,
        facts=("pump-not-stopped", "damage"),
        basis="physics",
    ),
    UrgencyRule(
        name="pump-overwhelmed-stop-not-known",
        urgency="now",
        reason="The pump cannot carry the water, and nothing is known that stops it at a full tank before it "
        "reaches {below}.",
        findings=PUMP_OVERWHELMED,
        facts=("pump-stop-not-known", "damage"),
        basis="physics",
    ),
    UrgencyRule(
        name="sewer-gas-open",
        urgency="now",
        reason="Nothing is known to keep sewer gas out of the air handler. Cap or disconnect the drain.",
        findings=("sanitary-without-trap",),
    ),
    UrgencyRule(
        name="sewer-gas-seal-lost",
        urgency="now",
        reason="The line is connected to a sewer and the trap's seal does not hold: sewer gas can pass now.",
        findings=SEAL_LOST,
        facts=("on-sanitary",),
        basis="physics",
    ),
    # it is near
    UrgencyRule(
        name="water-standing",
        urgency="this-week",
        reason="Water was found standing in the pan: the drain is slow or held up.",
        facts=("water-standing",),
    ),
    UrgencyRule(
        name="blocks-soon-unstopped",
        urgency="this-week",
        reason="The drain is likely to block, and then nothing stops the water from reaching {below}.",
        facts=("blocks-soon", "not-stopped", "damage"),
        basis="IMC 2021 307.2.3",
    ),
    UrgencyRule(
        name="not-stopped-cleaning-not-known",
        urgency="this-week",
        reason="Nobody has said when this drain was last cleaned, and when it blocks nothing stops the water from "
        "reaching {below}.",
        facts=("cleaning-not-known", "not-stopped", "damage"),
        basis="IMC 2021 307.2.3",
    ),
    UrgencyRule(
        name="blocks-soon-stop-not-known",
        urgency="this-week",
        reason="The drain is likely to block, and nothing is known that then stops the water from reaching {below}.",
        facts=("blocks-soon", "stop-not-known", "damage"),
    ),
    UrgencyRule(
        name="pump-not-stopped-over-damage",
        urgency="this-week",
        reason="A pump dies without warning, and a full tank does not stop the cooling: the water reaches {below}.",
        facts=("pump-not-stopped", "damage"),
    ),
    UrgencyRule(
        name="hidden-pump",
        urgency="this-week",
        reason="The pump stands where nobody sees it run over, and no wired safety float was reported.",
        findings=("hidden-pump-unprotected",),
        basis="IRC 2021 M1411.4",
    ),
    UrgencyRule(
        name="pump-overwhelmed",
        urgency="this-week",
        reason="The pump cannot carry the water, or starts again on what runs back: it wears out, or its safety float "
        "ends the cooling.",
        findings=(*PUMP_OVERWHELMED, "pump-restarts-on-fall-back"),
        basis="physics",
    ),
    UrgencyRule(
        name="line-backs-up",
        urgency="this-week",
        reason="The line backs up into the unit as it is built: in the peak hour, or all the time.",
        findings=("peak-flow-exceeds-line", "pond-reaches-pan"),
        basis="physics",
    ),
    UrgencyRule(
        name="sewer-connection",
        urgency="this-week",
        reason="The line is connected straight to a sewer: sewage can come back, and gas once the seal dries out.",
        findings=("discharge-into-sanitary", "sanitary-trap-dries-out", "sanitary-seal-lasts-for"),
    ),
    UrgencyRule(
        name="people-slip",
        urgency="this-week",
        reason="The water runs where people walk or onto the roof.",
        findings=("discharge-is-a-nuisance",),
    ),
    # it will come
    UrgencyRule(
        name="not-stopped",
        urgency="this-month",
        reason="When the drain blocks, nothing stops the water from reaching {below}.",
        facts=("not-stopped", "damage"),
        basis="IMC 2021 307.2.3",
    ),
    UrgencyRule(
        name="stop-not-known",
        urgency="this-month",
        reason="Nothing is known that stops the water from reaching {below} when the drain blocks. Look.",
        facts=("stop-not-known", "damage"),
    ),
    UrgencyRule(
        name="pump-stop-not-known",
        urgency="this-month",
        reason="Nothing is known of the pump's safety float, and its water reaches {below}. Trip it.",
        facts=("pump-stop-not-known", "damage"),
    ),
    UrgencyRule(
        name="held-up",
        urgency="this-month",
        reason="The pan holds water while the fan runs.",
        findings=HOLDS_UP,
        basis="physics",
    ),
    UrgencyRule(
        name="seal-lost",
        urgency="this-month",
        reason="The trap's seal does not hold: air passes the drain.",
        findings=SEAL_LOST,
        basis="physics",
    ),
    UrgencyRule(
        name="line-fails",
        urgency="this-month",
        reason="The line holds water or slime, or is too small: it blocks early.",
        findings=LINE_FAILS,
    ),
    UrgencyRule(
        name="trap-fails",
        urgency="this-month",
        reason="The trap is too narrow, serves more than one unit, or dries out.",
        findings=TRAP_FAILS,
    ),
    UrgencyRule(
        name="protection-fails",
        urgency="this-month",
        reason="What should stop the water is missing, or does not act as it is.",
        findings=(
            "protection-missing",
            "cut-out-too-high",
            "secondary-drain-too-high",
            "auxiliary-pan-shallow",
            "auxiliary-pan-small",
            *PUMP_NOT_STOPPED,
        ),
    ),
    UrgencyRule(
        name="can-freeze",
        urgency="this-month",
        reason="Trap or line can freeze: see to it before the cold.",
        findings=("drain-can-freeze",),
    ),
    UrgencyRule(
        name="fouled",
        urgency="this-month",
        reason="It was reported fouled.",
        facts=("fouled",),
    ),
    UrgencyRule(
        name="cleaning-overdue",
        urgency="this-month",
        reason="It was last cleaned {months} months ago: a cooling season has passed since.",
        facts=("cleaning-overdue",),
    ),
    UrgencyRule(
        name="nothing-assessed",
        urgency="this-month",
        reason="Too little is known of this unit to call it safe. Look at it.",
        facts=("nothing-assessed",),
    ),
    # when its turn comes
    UrgencyRule(
        name="readings-in-doubt",
        urgency="next-visit",
        reason="Readings contradict each other. Take them again.",
        findings=READING_FAILS,
        basis="physics",
    ),
    UrgencyRule(
        name="cleaning-not-known",
        urgency="next-visit",
        reason="Nobody has said when it was last cleaned.",
        facts=("cleaning-not-known",),
    ),
    UrgencyRule(
        name="nothing-urgent",
        urgency="next-visit",
        reason="Nothing that was sent asks for a visit before its turn.",
        facts=("nothing-urgent",),
    ),
)
"""Every rule, the most urgent first."""
