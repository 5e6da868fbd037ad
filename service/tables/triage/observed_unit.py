"""Observations at the unit: coil, filter, pan, cabinet, safety float. Basis: common practice and physics."""

from service.tables.triage.scale import ObservationRow, Speaks, ValueRow

_OPENING = ("lock-out-power",)

UNIT: tuple[ObservationRow, ...] = (
    ObservationRow(
        name="coil",
        question="Is or was the coil iced?",
        how="Look at the coil and the suction line for ice or frost; ask whether the air flow had faded before.",
        minutes=5.0,
        cautions=_OPENING,
        values=(
            ValueRow(
                value="iced",
                words="The coil is iced.",
                speaks_for=Speaks(
                    "strong", ("coil-iced", "dirty-filter"), "Ice melts faster than the coil ever drips."
                ),
                speaks_against=Speaks(
                    "moderate", ("no-water-made", "safety-float-stuck", "sweating"), "Ice explains it without that."
                ),
            ),
            ValueRow(
                value="iced-and-thawed",
                words="The coil was iced and has thawed.",
                speaks_for=Speaks(
                    "strong", ("coil-iced", "dirty-filter"), "Ice melts faster than the coil ever drips."
                ),
                speaks_against=Speaks("slight", ("no-water-made", "sweating"), "Melted ice explains it without that."),
            ),
            ValueRow(
                value="free-of-ice",
                words="The coil is free of ice and has been.",
                speaks_against=Speaks("strong", ("coil-iced",), "No ice, no melt."),
            ),
        ),
    ),
    ObservationRow(
        name="filter",
        question="Is the filter dirty?",
        how="Pull the filter and hold it to the light.",
        minutes=3.0,
        cautions=_OPENING,
        values=(
            ValueRow(
                value="clean",
                words="The filter is clean.",
                speaks_against=Speaks("strong", ("dirty-filter",), "It neither adds suction nor starves the coil."),
            ),
            ValueRow(
                value="dirty",
                words="The filter is dirty.",
                speaks_for=Speaks(
                    "strong", ("dirty-filter",), "It adds suction at the pan and starves the coil of air."
                ),
            ),
        ),
    ),
    ObservationRow(
        name="air_flow",
        question="Is there enough air flow for the capacity?",
        how="Take the temperature drop over the coil or the static pressure against the fan table; 400 cfm a ton "
        "is usual.",
        minutes=20.0,
        values=(
            ValueRow(
                value="enough",
                words="The air flow is right for the capacity.",
                speaks_against=Speaks(
                    "moderate", ("dirty-filter", "water-off-the-coil"), "Neither starved nor too fast."
                ),
            ),
            ValueRow(
                value="too-small",
                words="The air flow is too small for the capacity.",
                speaks_for=Speaks("moderate", ("coil-iced", "dirty-filter"), "A starved coil ices."),
                speaks_against=Speaks("strong", ("water-off-the-coil",), "Slow air carries no drops."),
            ),
            ValueRow(
                value="too-large",
                words="The air flow is too large for the coil.",
                speaks_for=Speaks("strong", ("water-off-the-coil",), "Fast air tears drops off the coil."),
                speaks_against=Speaks("moderate", ("dirty-filter", "coil-iced"), "The coil has air enough."),
            ),
        ),
    ),
    ObservationRow(
        name="drops_past_coil",
        question="Are there drops on the air side past the coil?",
        how="Look past the coil with a light or a mirror just after the fan stops: wet liner, drops on blower or "
        "duct floor.",
        minutes=8.0,
        cautions=_OPENING,
        values=(
            ValueRow(
                value="none",
                words="It is dry past the coil.",
                speaks_against=Speaks("strong", ("water-off-the-coil",), "No drops fly."),
            ),
            ValueRow(
                value="seen",
                words="There are drops past the coil.",
                speaks_for=Speaks("strong", ("water-off-the-coil",), "The air carries them there."),
            ),
        ),
    ),
    ObservationRow(
        name="insulation",
        question="Is the insulation of duct, cabinet and cold pipe whole?",
        how="Feel for wet insulation and look for gaps, torn jackets and bare metal.",
        minutes=5.0,
        values=(
            ValueRow(
                value="whole",
                words="The insulation is whole and dry.",
                speaks_against=Speaks("strong", ("sweating",), "No cold surface meets humid air."),
            ),
            ValueRow(
                value="missing-or-torn",
                words="Insulation is missing, torn or wet.",
                speaks_for=Speaks("strong", ("sweating",), "A cold surface meets humid air."),
            ),
        ),
    ),
    ObservationRow(
        name="pan_condition",
        question="Is the pan sound?",
        how="Look under the pan and at its outlet with a light, or plug the outlet and watch the level for ten "
        "minutes.",
        minutes=12.0,
        cautions=_OPENING,
        values=(
            ValueRow(
                value="sound",
                words="The pan is sound.",
                speaks_against=Speaks("strong", ("pan-cracked",), "It holds water."),
            ),
            ValueRow(
                value="cracked-or-rusted",
                words="The pan is cracked, rusted through or loose at its outlet.",
                speaks_for=Speaks("strong", ("pan-cracked",), "It was seen."),
            ),
        ),
    ),
    ObservationRow(
        name="unit_level",
        question="Does the unit stand level, or sloped to its outlet?",
        how="Lay a level on the pan both ways.",
        minutes=3.0,
        values=(
            ValueRow(
                value="to-the-outlet",
                words="The pan is level or slopes to its outlet.",
                speaks_against=Speaks("strong", ("unit-out-of-level",), "Water finds the outlet."),
            ),
            ValueRow(
                value="away-from-outlet",
                words="The pan slopes away from its outlet.",
                speaks_for=Speaks("strong", ("unit-out-of-level",), "Water collects at the low end."),
            ),
        ),
    ),
    ObservationRow(
        name="water_amount",
        question="How much water comes, against what the unit should make?",
        how="Catch the water at the end of the line for ten minutes of steady running and compare it with the "
        "computed rate.",
        minutes=15.0,
        values=(
            ValueRow(
                value="as-computed",
                words="As much water comes as computed.",
                speaks_against=Speaks(
                    "moderate",
                    ("too-much-water", "pan-cracked", "joint-leak", "water-off-the-coil"),
                    "None is lost and none is added.",
                ),
            ),
            ValueRow(
                value="more",
                words="More water comes than computed.",
                speaks_for=Speaks("strong", ("too-much-water",), "Something adds water."),
                speaks_against=Speaks("moderate", ("pan-cracked", "joint-leak", "line-blocked"), "None is missing."),
            ),
            ValueRow(
                value="less",
                words="Less water comes than computed.",
                speaks_for=Speaks(
                    "moderate",
                    ("outlet-drop-too-small", "water-off-the-coil", "pan-cracked", "joint-leak", "line-partly-blocked"),
                    "Part of it is held back or lost.",
                ),
                speaks_against=Speaks("strong", ("too-much-water",), "Nothing adds water."),
            ),
        ),
    ),
    ObservationRow(
        name="other_water",
        question="Does it get wet with the cooling off too?",
        how="Dry the place, leave the cooling off while furnace, humidifier and plumbing run, and look again.",
        minutes=30.0,
        values=(
            ValueRow(
                value="stays-dry",
                words="It stays dry with the cooling off.",
                speaks_against=Speaks("strong", ("other-water-source",), "Only the cooling brings the water."),
            ),
            ValueRow(
                value="gets-wet",
                words="It gets wet with the cooling off too.",
                speaks_for=Speaks("strong", ("other-water-source",), "The cooling does not bring the water."),
                speaks_against=Speaks(
                    "moderate",
                    ("outlet-drop-too-small", "water-off-the-coil", "too-much-water", "sweating", "line-too-small"),
                    "It needs the cooling.",
                ),
            ),
        ),
    ),
    ObservationRow(
        name="float_state",
        question="Where is the safety float, and is there water under it?",
        how="Look at the float switch in pan, drain or pump tank before touching it.",
        minutes=3.0,
        cautions=("do-not-bridge-safety",),
        values=(
            ValueRow(
                value="up-in-water",
                words="The safety float is up, and water holds it up.",
                speaks_for=Speaks(
                    "strong", ("safety-open-on-full-tank", "safety-open-on-full-pan"), "It does what it is there for."
                ),
                speaks_against=Speaks("strong", ("safety-float-stuck", "cooling-side-fault"), "The water explains it."),
            ),
            ValueRow(
                value="up-without-water",
                words="The safety float is up without any water under it.",
                speaks_for=Speaks("strong", ("safety-float-stuck",), "It hangs."),
                speaks_against=Speaks(
                    "strong", ("safety-open-on-full-tank", "safety-open-on-full-pan"), "There is no water to hold it."
                ),
            ),
            ValueRow(
                value="down",
                words="The safety float is down.",
                speaks_for=Speaks("moderate", ("cooling-side-fault", "coil-iced"), "The float lets the cooling run."),
                speaks_against=Speaks(
                    "strong", ("safety-open-on-full-tank", "safety-open-on-full-pan"), "A float that is down is closed."
                ),
            ),
            ValueRow(
                value="none-fitted",
                words="There is no safety float.",
                speaks_against=Speaks(
                    "decisive",
                    ("safety-open-on-full-tank", "safety-open-on-full-pan", "safety-float-stuck"),
                    "There is nothing to open.",
                ),
            ),
        ),
    ),
    ObservationRow(
        name="outdoor_unit",
        question="Does the compressor run while the thermostat calls?",
        how="Set the thermostat to call and listen at the outdoor unit.",
        minutes=5.0,
        only_for=("no-cooling-fan-runs",),
        values=(
            ValueRow(
                value="runs",
                words="The compressor runs.",
                speaks_for=Speaks(
                    "strong", ("cooling-side-fault", "coil-iced", "dirty-filter"), "The call gets through."
                ),
                speaks_against=Speaks(
                    "strong",
                    ("safety-open-on-full-tank", "safety-open-on-full-pan", "safety-float-stuck"),
                    "An open safety would stop it.",
                ),
            ),
            ValueRow(
                value="stopped",
                words="The compressor stands still.",
                speaks_for=Speaks(
                    "slight",
                    ("safety-open-on-full-tank", "safety-open-on-full-pan", "safety-float-stuck", "cooling-side-fault"),
                    "The call does not get through.",
                ),
                speaks_against=Speaks("moderate", ("dirty-filter",), "A dirty filter does not stop the compressor."),
            ),
        ),
    ),
)
