"""Observations by eye, nose and ear: where water shows, smell, sound. Basis: common practice and physics."""

from service.tables.triage.scale import ObservationRow, Speaks, ValueRow

_DRAIN_BLOCKS = ("line-blocked", "trap-blocked", "line-partly-blocked")
_PAN_FULL = (
    *_DRAIN_BLOCKS,
    "outlet-drop-too-small",
    "trap-missing",
    "line-back-pitched",
    "second-trap",
    "line-too-small",
    "line-frozen",
    "safety-open-on-full-pan",
    "unit-out-of-level",
    "receptor-backed-up",
    "trap-shared",
    "coil-iced",
)
_PUMP_TANK_FULL = (
    "safety-open-on-full-tank",
    "pump-tank-overflows",
    "pump-no-power",
    "pump-motor-failed",
    "pump-float-stuck",
    "pump-tube-pinched",
    "pump-tube-blocked",
    "pump-lift-too-high",
    "pump-worn",
)
_AIR_THROUGH_DRAIN = ("trap-dry", "trap-missing", "seal-too-shallow")

SIGNS: tuple[ObservationRow, ...] = (
    ObservationRow(
        name="water_shows",
        question="Where does water show first?",
        how="Look at pan, drain, pump tank, duct and under the unit. Where all is wet, dry it, run the cooling "
        "and follow the "
        "first wet spot up.",
        minutes=10.0,
        values=(
            ValueRow(
                value="nowhere",
                words="No water shows anywhere.",
                speaks_for=Speaks(
                    "moderate",
                    ("safety-float-stuck", "cooling-side-fault", "no-water-made"),
                    "Without water it is not the drain.",
                ),
                speaks_against=Speaks(
                    "moderate",
                    (*_PAN_FULL, "safety-open-on-full-tank", "pan-cracked", "joint-leak", "pump-tank-overflows"),
                    "There would be water to see.",
                ),
            ),
            ValueRow(
                value="unit-pan",
                words="Water stands in the unit's pan.",
                speaks_for=Speaks("moderate", _PAN_FULL, "The pan does not drain."),
                speaks_against=Speaks(
                    "moderate",
                    (
                        "pan-cracked",
                        "joint-leak",
                        "sweating",
                        "other-water-source",
                        "pump-tank-overflows",
                        "safety-open-on-full-tank",
                        "safety-float-stuck",
                        "no-water-made",
                    ),
                    "That would leave the pan empty.",
                ),
            ),
            ValueRow(
                value="secondary-drain",
                words="Water comes from the secondary drain.",
                speaks_for=Speaks("moderate", _PAN_FULL, "The pan stands so high that its overflow runs."),
                speaks_against=Speaks(
                    "moderate",
                    ("pan-cracked", "joint-leak", "sweating", "other-water-source", "no-water-made"),
                    "That would leave the pan empty.",
                ),
            ),
            ValueRow(
                value="auxiliary-pan",
                words="Water stands in the auxiliary pan under the unit.",
                speaks_for=Speaks(
                    "slight",
                    (*_PAN_FULL, "pan-cracked", "joint-leak", "sweating", "water-off-the-coil"),
                    "Something above it overflows, leaks or drips.",
                ),
            ),
            ValueRow(
                value="pump-tank",
                words="The pump's tank stands full.",
                speaks_for=Speaks("strong", _PUMP_TANK_FULL, "Water reaches the pump and goes no further."),
                speaks_against=Speaks(
                    "moderate",
                    (*_PAN_FULL, "pan-cracked", "joint-leak", "safety-float-stuck", "no-water-made"),
                    "The water found its way to the pump.",
                ),
            ),
            ValueRow(
                value="supply-duct",
                words="Water shows inside the supply duct.",
                speaks_for=Speaks("strong", ("water-off-the-coil",), "Only the air carries water into the duct."),
                speaks_against=Speaks(
                    "moderate",
                    ("line-blocked", "trap-blocked", "line-partly-blocked", "pan-cracked", "joint-leak"),
                    "That water would fall, not fly.",
                ),
            ),
            ValueRow(
                value="outside-of-duct-or-pipe",
                words="Water beads on the outside of duct, cabinet or pipe.",
                speaks_for=Speaks("strong", ("sweating",), "Beads on the outside come from the air around it."),
                speaks_against=Speaks(
                    "moderate",
                    (*_PAN_FULL, "pan-cracked", "water-off-the-coil", "pump-tank-overflows"),
                    "That water would come from inside.",
                ),
            ),
            ValueRow(
                value="along-the-line",
                words="Water drips from the drain line on its way.",
                speaks_for=Speaks("moderate", ("joint-leak", "sweating"), "The line leaks, or sweats."),
                speaks_against=Speaks(
                    "moderate",
                    ("pan-cracked", "water-off-the-coil", "unit-out-of-level", "pump-tank-overflows"),
                    "That water would show at the unit.",
                ),
            ),
        ),
    ),
    ObservationRow(
        name="smell",
        question="What does it smell of?",
        how="Smell at the pan and at the nearest register just after the fan starts.",
        minutes=2.0,
        values=(
            ValueRow(
                value="none",
                words="It smells of nothing.",
                speaks_against=Speaks(
                    "slight", ("slime-in-pan", "receptor-backed-up", "other-drain-dry"), "That usually smells."
                ),
            ),
            ValueRow(
                value="sewer",
                words="It smells of sewer.",
                speaks_for=Speaks(
                    "moderate",
                    (*_AIR_THROUGH_DRAIN, "other-drain-dry", "receptor-backed-up"),
                    "Air from a drain comes in somewhere without a water seal.",
                ),
            ),
            ValueRow(
                value="musty",
                words="It smells musty.",
                speaks_for=Speaks(
                    "moderate",
                    ("slime-in-pan", "line-partly-blocked", "line-back-pitched"),
                    "Slime grows where water stands.",
                ),
                speaks_against=Speaks("slight", ("other-drain-dry",), "A dry drain smells of sewer."),
            ),
        ),
    ),
    ObservationRow(
        name="sound",
        question="What is to be heard at the pan and the drain?",
        how="Listen at the pan and at the open end of the trap with the fan on, then feel for air with a wet "
        "hand or smoke.",
        minutes=3.0,
        values=(
            ValueRow(
                value="quiet",
                words="Nothing is to be heard at the drain with the fan on.",
                speaks_against=Speaks(
                    "moderate",
                    (*_AIR_THROUGH_DRAIN, "second-trap", "trap-shared"),
                    "Air on its way through water is heard.",
                ),
            ),
            ValueRow(
                value="gurgling",
                words="It gurgles or spits at the pan.",
                speaks_for=Speaks(
                    "moderate",
                    (*_AIR_THROUGH_DRAIN, "second-trap", "trap-shared"),
                    "Air and water pass each other in the drain.",
                ),
                speaks_against=Speaks("slight", ("line-blocked", "trap-blocked"), "A plugged drain lets no air pass."),
            ),
            ValueRow(
                value="air-rushing",
                words="Air rushes through the drain with the fan on.",
                speaks_for=Speaks("strong", _AIR_THROUGH_DRAIN, "No water seal stops the air."),
                speaks_against=Speaks(
                    "strong",
                    ("line-blocked", "trap-blocked", "line-frozen", "outlet-drop-too-small", "other-drain-dry"),
                    "Where air passes, no water or plug stands in the way.",
                ),
            ),
        ),
    ),
)
