"""Observations at pan outlet and trap, and of the water on its way. Basis: common practice and physics."""

from service.tables.triage.scale import ObservationRow, Speaks, ValueRow

_FALLING = ("outlet-drop-too-small", "dirty-filter", "trap-missing", "seal-too-shallow", "trap-dry")
_PLUGS = ("line-blocked", "trap-blocked", "line-frozen")
_LINE_HOLDS = ("line-blocked", "line-frozen", "receptor-backed-up", "second-trap", "line-back-pitched")
_SLIME = ("biological-slime",)
_OPENING = ("lock-out-power",)

TRAP: tuple[ObservationRow, ...] = (
    ObservationRow(
        name="discharge_flow",
        question="How does water come out at the end of the line?",
        how="Run the cooling for 15 minutes and watch the end of the line or tube, also when the fan stops.",
        minutes=15.0,
        values=(
            ValueRow(
                value="steady",
                words="Water runs steadily at the end of the line.",
                speaks_against=Speaks(
                    "strong",
                    (
                        *_PLUGS,
                        "outlet-drop-too-small",
                        "no-water-made",
                        "receptor-backed-up",
                        "pump-no-power",
                        "pump-motor-failed",
                        "safety-open-on-full-tank",
                        "safety-open-on-full-pan",
                    ),
                    "The drain carries water while the fan runs.",
                ),
            ),
            ValueRow(
                value="trickle",
                words="Only a trickle comes out at the end of the line.",
                speaks_for=Speaks(
                    "moderate",
                    ("line-partly-blocked", "joint-leak", "pan-cracked", "pump-worn", "pump-tube-pinched"),
                    "Part of the water is held back or lost on the way.",
                ),
                speaks_against=Speaks(
                    "moderate", ("no-water-made", "line-blocked", "line-frozen"), "Nothing at all would come out."
                ),
            ),
            ValueRow(
                value="nothing",
                words="Nothing comes out at the end of the line.",
                speaks_for=Speaks(
                    "moderate",
                    (
                        *_PLUGS,
                        "outlet-drop-too-small",
                        "no-water-made",
                        "second-trap",
                        "pump-no-power",
                        "pump-motor-failed",
                    ),
                    "Water is not made, or does not get through.",
                ),
                speaks_against=Speaks(
                    "moderate",
                    ("line-partly-blocked", "line-too-small", "too-much-water", "sweating", "slime-in-pan"),
                    "Some water would come out.",
                ),
            ),
            ValueRow(
                value="rush-when-fan-stops",
                words="Water rushes out at the end of the line when the fan stops.",
                speaks_for=Speaks("strong", _FALLING, "Suction or rushing air held the water in the pan."),
                speaks_against=Speaks(
                    "strong", (*_PLUGS, "pan-cracked", "no-water-made", "receptor-backed-up"), "The drain is open."
                ),
            ),
        ),
    ),
    ObservationRow(
        name="pour_test",
        question="Does water poured into the pan drain with the fan off?",
        how="Fan and cooling off: pour a quart (a liter) into the pan and watch it, with a towel and a bucket at hand.",
        minutes=8.0,
        cautions=(*_OPENING, "water-damage"),
        values=(
            ValueRow(
                value="drains-freely",
                words="Water poured into the pan drains freely with the fan off.",
                speaks_for=Speaks(
                    "moderate",
                    (
                        *_FALLING,
                        "pan-cracked",
                        "water-off-the-coil",
                        "sweating",
                        "coil-iced",
                        "no-water-made",
                        "too-much-water",
                        "other-water-source",
                    ),
                    "The drain itself is open; something else is at work.",
                ),
                speaks_against=Speaks(
                    "strong",
                    (*_PLUGS, "receptor-backed-up", "second-trap", "line-partly-blocked", "line-back-pitched"),
                    "It would hold the water up.",
                ),
            ),
            ValueRow(
                value="drains-slowly",
                words="Water poured into the pan drains slowly with the fan off.",
                speaks_for=Speaks(
                    "strong",
                    ("line-partly-blocked", "line-back-pitched", "second-trap", "line-too-small"),
                    "Something narrows the line or holds water in it.",
                ),
                speaks_against=Speaks(
                    "moderate",
                    (*_FALLING, "line-blocked", "line-frozen", "pan-cracked", "sweating", "water-off-the-coil"),
                    "It would drain freely, or not at all.",
                ),
            ),
            ValueRow(
                value="does-not-drain",
                words="Water poured into the pan stays there with the fan off.",
                speaks_for=Speaks(
                    "strong",
                    (*_PLUGS, "receptor-backed-up", "second-trap"),
                    "Something stops the water, fan or no fan.",
                ),
                speaks_against=Speaks(
                    "strong",
                    (
                        *_FALLING,
                        "line-too-small",
                        "too-much-water",
                        "pan-cracked",
                        "sweating",
                        "water-off-the-coil",
                        "no-water-made",
                        "joint-leak",
                    ),
                    "The water would leave with the fan off.",
                ),
            ),
        ),
    ),
    ObservationRow(
        name="cleanout_test",
        question="Does water poured into the cleanout behind the trap run off?",
        how="Open the cleanout on the line's side of the trap, pour a quart (a liter) and watch the end of the line.",
        minutes=10.0,
        needs_trap=True,
        cautions=_SLIME,
        values=(
            ValueRow(
                value="runs-off",
                words="Water poured in behind the trap runs off.",
                speaks_for=Speaks("moderate", ("trap-blocked",), "The line is free, so what blocks is the trap."),
                speaks_against=Speaks("strong", (*_LINE_HOLDS, "line-partly-blocked"), "The line is free."),
            ),
            ValueRow(
                value="backs-up",
                words="Water poured in behind the trap backs up.",
                speaks_for=Speaks(
                    "strong", (*_LINE_HOLDS, "line-partly-blocked"), "The line behind the trap holds it."
                ),
                speaks_against=Speaks(
                    "strong",
                    ("trap-blocked", "outlet-drop-too-small", "dirty-filter", "seal-too-shallow", "no-water-made"),
                    "The trouble lies behind the trap.",
                ),
            ),
        ),
    ),
    ObservationRow(
        name="trap_state",
        question="Is there a trap, and does water stand in it?",
        how="Fan off: look or feel for water in the bend, through the cleanout or with a stick.",
        minutes=4.0,
        values=(
            ValueRow(
                value="full",
                words="Water stands in the trap.",
                speaks_against=Speaks("strong", ("trap-dry", "trap-missing"), "There is a trap with water in it."),
            ),
            ValueRow(
                value="dry",
                words="The trap is dry.",
                speaks_for=Speaks("strong", ("trap-dry",), "Nothing seals the drain."),
                speaks_against=Speaks(
                    "strong",
                    ("trap-missing", "line-blocked", "line-frozen", "outlet-drop-too-small", "other-drain-dry"),
                    "There is a trap, and no water waits in it.",
                ),
            ),
            ValueRow(
                value="missing",
                words="There is no trap.",
                speaks_for=Speaks("decisive", ("trap-missing",), "It was seen."),
                speaks_against=Speaks(
                    "strong",
                    ("trap-dry", "seal-too-shallow", "outlet-drop-too-small", "trap-shared", "other-drain-dry"),
                    "Without a trap it cannot be the trap's build.",
                ),
            ),
            ValueRow(
                value="slimed",
                words="The trap is full of slime or dirt.",
                speaks_for=Speaks("strong", ("trap-blocked", "slime-in-pan"), "It was seen."),
                speaks_against=Speaks("strong", ("trap-dry", "trap-missing", "no-water-made"), "Slime grows in water."),
            ),
        ),
    ),
    ObservationRow(
        name="outlet_drop",
        question="Is the trap's outlet far enough below the pan outlet for the fan's suction?",
        how="Measure the suction at the pan with the fan on and the panels shut, and the height from the pan "
        "outlet down to "
        "the trap's outlet, inside bottom to inside bottom. The height must be more than the inches of water.",
        minutes=15.0,
        needs_trap=True,
        cautions=_OPENING,
        values=(
            ValueRow(
                value="enough",
                words="The outlet drop is more than the suction.",
                speaks_against=Speaks(
                    "strong", ("outlet-drop-too-small", "dirty-filter"), "The trap drains with the fan running."
                ),
            ),
            ValueRow(
                value="too-small",
                words="The outlet drop is less than the suction.",
                speaks_for=Speaks(
                    "strong",
                    ("outlet-drop-too-small", "dirty-filter"),
                    "Water has to stand higher than the pan outlet before any leaves.",
                ),
            ),
        ),
    ),
    ObservationRow(
        name="seal_depth",
        question="Is the trap's seal deep enough for the fan's suction?",
        how="Measure from the trap's outlet down to the top of the bend, inside; it must be more than half the "
        "inches of "
        "water that the fan pulls.",
        minutes=15.0,
        needs_trap=True,
        values=(
            ValueRow(
                value="enough",
                words="The seal is deep enough for the suction.",
                speaks_against=Speaks("strong", ("seal-too-shallow",), "The fan cannot pull it out."),
            ),
            ValueRow(
                value="too-small",
                words="The seal is too shallow for the suction.",
                speaks_for=Speaks("strong", ("seal-too-shallow",), "The fan pulls it out at each start."),
            ),
        ),
    ),
    ObservationRow(
        name="trap_shared",
        question="Does the trap serve one unit only?",
        how="Follow the pipe from each pan outlet to its trap.",
        minutes=5.0,
        needs_trap=True,
        values=(
            ValueRow(
                value="one-unit",
                words="The trap serves one unit.",
                speaks_against=Speaks("strong", ("trap-shared",), "No other fan pulls on it."),
            ),
            ValueRow(
                value="several-units",
                words="One trap serves several units.",
                speaks_for=Speaks("strong", ("trap-shared",), "The stronger fan pulls through the weaker one's drain."),
            ),
        ),
    ),
    ObservationRow(
        name="off_season_seal",
        question="Does the trap keep its water while the cooling rests?",
        how="Look for a primer or another regular inflow, and ask whether anybody fills it; the dry-out "
        "calculation gives days.",
        minutes=5.0,
        needs_trap=True,
        values=(
            ValueRow(
                value="lasts",
                words="The trap keeps its water while the cooling rests.",
                speaks_against=Speaks("moderate", ("trap-dry",), "Its water outlasts the rest, or is refilled."),
            ),
            ValueRow(
                value="dries-out",
                words="The trap loses its water while the cooling rests.",
                speaks_for=Speaks("slight", ("trap-dry",), "After the rest it is dry."),
            ),
        ),
    ),
)
