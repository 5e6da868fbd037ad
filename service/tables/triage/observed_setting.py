"""Observations of season, weather, fan and last cleaning. Basis: common practice and physics."""

from service.tables.triage.scale import ObservationRow, Speaks, ValueRow

_DRAIN_BLOCKS = ("line-blocked", "trap-blocked", "line-partly-blocked")
_WANTS_SUCTION = ("outlet-drop-too-small", "dirty-filter", "seal-too-shallow")
_AIR_THROUGH_DRAIN = ("trap-dry", "trap-missing", "seal-too-shallow")

SETTING: tuple[ObservationRow, ...] = (
    ObservationRow(
        name="season",
        question="Which season does it show in?",
        how="Ask when it was first noticed and whether the unit was cooling then.",
        minutes=1.0,
        values=(
            ValueRow(
                value="cooling",
                words="It shows in the middle of the cooling season.",
                speaks_against=Speaks(
                    "moderate",
                    ("trap-dry", "line-frozen", "other-drain-dry"),
                    "Condensate keeps the trap full and nothing freezes while the unit cools every day.",
                ),
            ),
            ValueRow(
                value="first-days-of-cooling",
                words="It shows in the first days of cooling.",
                speaks_for=Speaks(
                    "moderate",
                    ("trap-dry", "line-blocked", "trap-blocked"),
                    "Over the winter traps dry out, and dried slime and nests plug drains.",
                ),
                speaks_against=Speaks("slight", ("line-frozen", "too-much-water"), "It is neither cold nor humid yet."),
            ),
            ValueRow(
                value="heating",
                words="It shows in the heating season.",
                speaks_for=Speaks(
                    "moderate",
                    ("trap-dry", "other-drain-dry", "line-frozen", "other-water-source", "no-water-made"),
                    "No condensate from cooling: traps dry out, lines freeze, and any water comes from something else.",
                ),
                speaks_against=Speaks(
                    "moderate",
                    (
                        "outlet-drop-too-small",
                        "coil-iced",
                        "water-off-the-coil",
                        "too-much-water",
                        "line-too-small",
                        "sweating",
                        "dirty-filter",
                    ),
                    "It takes water from a cooling coil.",
                ),
            ),
            ValueRow(
                value="between-seasons",
                words="It shows between the seasons.",
                speaks_for=Speaks(
                    "moderate",
                    ("trap-dry", "other-drain-dry", "no-water-made"),
                    "Little or no condensate: traps dry out.",
                ),
                speaks_against=Speaks(
                    "slight",
                    ("too-much-water", "line-too-small", "water-off-the-coil", "sweating"),
                    "It takes a coil that works hard.",
                ),
            ),
        ),
    ),
    ObservationRow(
        name="weather",
        question="What is the weather like when it shows?",
        how="Ask, or look up the dew point of those days.",
        minutes=1.0,
        values=(
            ValueRow(
                value="humid",
                words="It shows in humid weather.",
                speaks_for=Speaks(
                    "moderate",
                    ("line-partly-blocked", "line-too-small", "too-much-water", "sweating"),
                    "Humid air brings the peak of water, and wets whatever is cold.",
                ),
                speaks_against=Speaks("strong", ("no-water-made",), "In humid weather a cooling coil makes water."),
            ),
            ValueRow(
                value="dry",
                words="It shows in dry weather.",
                speaks_for=Speaks(
                    "moderate",
                    ("no-water-made", "trap-dry", "other-drain-dry", "other-water-source"),
                    "In dry air the coil makes little water, and traps dry out.",
                ),
                speaks_against=Speaks(
                    "moderate",
                    ("line-too-small", "too-much-water", "sweating", "water-off-the-coil"),
                    "It takes much moisture in the air.",
                ),
            ),
            ValueRow(
                value="freezing",
                words="It shows in freezing weather.",
                speaks_for=Speaks("strong", ("line-frozen",), "Water standing in the cold part of the drain freezes."),
                speaks_against=Speaks(
                    "moderate",
                    ("line-too-small", "too-much-water", "sweating", "water-off-the-coil"),
                    "It takes much moisture in the air.",
                ),
            ),
            ValueRow(
                value="ordinary",
                words="The weather is neither humid, dry nor freezing.",
                speaks_against=Speaks(
                    "moderate", ("line-frozen", "too-much-water", "line-too-small"), "It takes cold, or much moisture."
                ),
            ),
        ),
    ),
    ObservationRow(
        name="fan_state",
        question="What is the fan doing when it shows?",
        how="Watch one whole run: fan on, fan just stopped, fan off for a while.",
        minutes=15.0,
        values=(
            ValueRow(
                value="running",
                words="It shows while the fan runs.",
                speaks_for=Speaks(
                    "moderate",
                    (*_AIR_THROUGH_DRAIN, "outlet-drop-too-small", "water-off-the-coil"),
                    "The fan's suction or the speed of the air makes it.",
                ),
                speaks_against=Speaks(
                    "moderate",
                    ("unit-out-of-level", "pan-cracked", "joint-leak", "other-water-source", "receptor-backed-up"),
                    "It does not need the fan.",
                ),
            ),
            ValueRow(
                value="just-stopped",
                words="It shows when the fan has just stopped.",
                speaks_for=Speaks(
                    "strong",
                    (*_WANTS_SUCTION, "trap-missing"),
                    "Water that suction held in the pan lets go when the fan stops.",
                ),
                speaks_against=Speaks(
                    "moderate",
                    (
                        "line-blocked",
                        "trap-blocked",
                        "line-frozen",
                        "pan-cracked",
                        "joint-leak",
                        "sweating",
                        "water-off-the-coil",
                        "unit-out-of-level",
                        "other-water-source",
                        "receptor-backed-up",
                    ),
                    "It would show while the fan runs too.",
                ),
            ),
            ValueRow(
                value="off",
                words="It shows with the fan off for a long time.",
                speaks_for=Speaks(
                    "moderate",
                    ("other-water-source", "receptor-backed-up", "other-drain-dry"),
                    "It needs neither the fan nor the coil.",
                ),
                speaks_against=Speaks(
                    "moderate",
                    (*_WANTS_SUCTION, "water-off-the-coil", "too-much-water", "line-too-small"),
                    "It needs the fan, or water being made.",
                ),
            ),
            ValueRow(
                value="makes-no-difference",
                words="It is the same with the fan on and off.",
                speaks_for=Speaks(
                    "slight",
                    (
                        "line-blocked",
                        "trap-blocked",
                        "line-frozen",
                        "pan-cracked",
                        "joint-leak",
                        "unit-out-of-level",
                        "receptor-backed-up",
                        "other-water-source",
                    ),
                    "It does not need the fan.",
                ),
                speaks_against=Speaks(
                    "moderate", (*_WANTS_SUCTION, "water-off-the-coil"), "It would change with the fan."
                ),
            ),
        ),
    ),
    ObservationRow(
        name="last_cleaned",
        question="When was the drain last cleaned?",
        how="Ask, or look at the service tag and at the slime in the pan.",
        minutes=2.0,
        values=(
            ValueRow(
                value="this-season",
                words="The drain was cleaned this season.",
                speaks_against=Speaks(
                    "moderate",
                    (*_DRAIN_BLOCKS, "slime-in-pan", "pump-tube-blocked", "pump-float-stuck"),
                    "Slime takes longer to grow back.",
                ),
            ),
            ValueRow(
                value="last-season",
                words="The drain was last cleaned a season ago.",
                speaks_for=Speaks(
                    "slight",
                    (*_DRAIN_BLOCKS, "slime-in-pan", "pump-tube-blocked", "pump-float-stuck"),
                    "A season is long enough for slime to grow back.",
                ),
            ),
            ValueRow(
                value="longer-ago-or-never",
                words="The drain was cleaned longer ago or never.",
                speaks_for=Speaks(
                    "moderate",
                    (*_DRAIN_BLOCKS, "slime-in-pan", "pump-tube-blocked", "pump-float-stuck"),
                    "Slime has had years to grow.",
                ),
            ),
        ),
    ),
)
