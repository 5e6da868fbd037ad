"""Findings about condensate."""

from service.tables.findings.row import ATTENTION, FAIL, INFO, FindingRow

ROWS: tuple[FindingRow, ...] = (
    FindingRow(
        code="rating-latent-heat-used",
        severity=INFO,
        message="Latent capacity was turned into water with 1060 Btu/lb (2.466 MJ/kg), the figure by which ratings "
        "define it.",
        remedy="For a peak hour at other air than the rating's, send air flow with entering air and capacity, or with "
        "the air on both sides.",
        basis="ASHRAE Standard 37",
    ),
    FindingRow(
        code="rate-above-usual",
        severity=ATTENTION,
        message="{volume_rate:gal/h|L/h} from {total_load:ton|kW} is more than the {most:gal/h|L/h} the trade expects "
        "at most, 0.5 gal per ton and hour.",
        remedy="Check the sensible heat ratio or the air readings. If they are right, as with much outdoor air, a pool "
        "hall or a dehumidifier, size drain and pump for this rate, not by the ton.",
        basis="common practice",
    ),
    FindingRow(
        code="wet-bulb-above-dry-bulb",
        severity=FAIL,
        message="A wet bulb of {wet_bulb:degF|degC} cannot lie above the dry bulb of {dry_bulb:degF|degC}; instruments "
        "explain 2 degF (1 K) at most.",
        remedy="See whether the two were swapped, or the dry bulb was read before the thermometer settled, and read "
        "both again at one place.",
        basis="physics",
    ),
    FindingRow(
        code="dew-point-above-dry-bulb",
        severity=FAIL,
        message="A dew point of {dew_point:degF|degC} cannot lie above the dry bulb of {dry_bulb:degF|degC}; "
        "instruments explain 2 degF (1 K) at most.",
        remedy="See whether the two were swapped, and read both again at one place.",
        basis="physics",
    ),
    FindingRow(
        code="wet-bulb-too-low",
        severity=FAIL,
        message="A wet bulb of {wet_bulb:degF|degC} at a dry bulb of {dry_bulb:degF|degC} means air without any "
        "water; even at {percent} % relative humidity it reads {lowest:degF|degC}.",
        remedy="Read both again at one place, with instruments that have had time to settle.",
        basis="physics",
    ),
    FindingRow(
        code="air-taken-as-saturated",
        severity=ATTENTION,
        message="The {member} reads {reading:degF|degC}, above the dry bulb of {dry_bulb:degF|degC} by no more than "
        "instruments err: taken as saturated air at the dry bulb.",
        remedy="Nothing, if the air comes straight off a wet coil; otherwise read it again where no droplets hit the "
        "thermometer.",
        basis="common practice",
    ),
    FindingRow(
        code="air-taken-as-driest",
        severity=ATTENTION,
        message="A wet bulb of {wet_bulb:degF|degC} at {dry_bulb:degF|degC} means air without water, though by no "
        "more than instruments err: taken as {percent} % relative humidity, a wet bulb of {lowest:degF|degC}.",
        remedy="Measure the relative humidity instead: in air so dry a wet bulb tells little.",
        basis="common practice",
    ),
    FindingRow(
        code="leaving-air-wetter",
        severity=FAIL,
        message="The leaving air holds {leaving_humidity_ratio:gr/lb|g/kg} of water, the entering air "
        "{entering_humidity_ratio:gr/lb|g/kg}; instruments explain {doubt:gr/lb|g/kg} of the difference. The air picks "
        "up water instead of losing it, so no rate can be computed.",
        remedy="See whether entering and leaving were swapped, a humidifier runs, outdoor air comes in between the "
        "two places, or the cooling is off and a wet coil dries. Then read both sides within a few minutes, with one "
        "instrument.",
        basis="physics",
    ),
    FindingRow(
        code="leaving-air-wetter-than-possible",
        severity=FAIL,
        message="The leaving air holds {leaving_humidity_ratio:gr/lb|g/kg} of water. The entering air was read at "
        "{entering_humidity_ratio:gr/lb|g/kg} and, at its wet bulb of {entering:degF|degC}, can take up water to "
        "{most:gr/lb|g/kg} at most unless it is heated.",
        remedy="Swap entering and leaving if they were mixed up; otherwise read both sides again within a few "
        "minutes, with one instrument.",
        basis="physics",
    ),
    FindingRow(
        code="leaving-air-hotter-and-wetter",
        severity=FAIL,
        message="The leaving air reads {leaving:degF|degC} with {leaving_humidity_ratio:gr/lb|g/kg} of water, the "
        "entering air {entering:degF|degC} with {entering_humidity_ratio:gr/lb|g/kg}: a coil that cools makes air "
        "neither hotter nor wetter.",
        remedy="Swap entering and leaving if they were mixed up; otherwise read both sides again within a few "
        "minutes, with one instrument.",
        basis="physics",
    ),
    FindingRow(
        code="no-measurable-condensate",
        severity=ATTENTION,
        message="The leaving air reads {difference:gr/lb|g/kg} wetter than the entering air, or as wet; instruments "
        "may err by {doubt:gr/lb|g/kg} together. The rate is taken as zero.",
        remedy="If the pan is wet the coil is making water after all: read both sides again with one instrument after "
        "15 minutes of steady running.",
        basis="common practice",
    ),
    FindingRow(
        code="rate-within-reading-accuracy",
        severity=ATTENTION,
        message="The air loses {difference:gr/lb|g/kg} of water over the coil, less than the {doubt:gr/lb|g/kg} "
        "instruments may err together: the true rate lies anywhere between nothing and {most:gal/h|L/h}.",
        remedy="Read both sides again with one instrument after 15 minutes of steady running, or catch the water in a "
        "jug.",
        basis="common practice",
    ),
    FindingRow(
        code="leaving-air-warmer",
        severity=ATTENTION,
        message="The leaving air is at {leaving:degF|degC}, warmer than the entering air at {entering:degF|degC}: "
        "something heats it.",
        remedy="With reheat, as in a dehumidifier, this is right. Otherwise see whether the two readings were swapped, "
        "or the heating runs.",
        basis="physics",
    ),
    FindingRow(
        code="coil-is-dry",
        severity=INFO,
        message="The coil's surface, at {surface:degF|degC}, stays above the entering air's dew point of "
        "{dew_point:degF|degC}: it makes no water.",
        remedy="Nothing; use the wettest entering air of the year for a peak rate.",
        basis="physics",
    ),
    FindingRow(
        code="coil-will-frost",
        severity=ATTENTION,
        message="The coil's surface would be at {surface:degF|degC}, below freezing: water stays on it as frost, "
        "narrows the air's way, and comes down at once when it melts.",
        remedy="Check that the air flow is not too small for the capacity, and how the unit defrosts. Expect the melt "
        "to be faster than this rate.",
        basis="physics",
    ),
    FindingRow(
        code="air-over-saturated",
        severity=INFO,
        message="The air enters so wet that, mixed with the air off the coil, it would be fog; the fog is counted as "
        "condensate and the air leaves saturated.",
        remedy="Expect droplets carried past the pan; check the eliminator or the air speed over the coil.",
        basis="physics",
    ),
    FindingRow(
        code="capacity-beyond-air",
        severity=FAIL,
        message="{air_flow:cfm|L/s} of this air cannot give up {total_capacity:ton|kW}: a coil as cold as "
        "{surface:degF|degC} with this bypass factor takes out {largest:ton|kW}. No rate can be computed.",
        remedy="Check the air flow (about 400 cfm a ton is usual), the capacity, and the units of both. A real unit "
        "with so little air freezes up.",
        basis="physics",
    ),
    FindingRow(
        code="flue-gas-stays-dry",
        severity=INFO,
        message="The flue gas leaves at {exhaust:degF|degC} and begins to condense at {dew_point:degF|degC}: no water "
        "is made.",
        remedy="Nothing for the drain. Where a condensing appliance never gets below its dew point, its return water "
        "or its air flow is worth a look.",
        basis="physics",
    ),
    FindingRow(
        code="flue-condensate-is-acid",
        severity=INFO,
        message="The flue gas makes {volume_rate:gal/h|L/h} of water while the burner runs. It is acid, about as "
        "vinegar (pH 3 to 5).",
        remedy="Lead it through a neutralizer, renewed each year, before it meets metal pipe, concrete or a septic "
        "system, in plastic pipe that cannot freeze; where it shares a drain with the cooling coil, size it for both.",
        basis="common practice",
    ),
)
