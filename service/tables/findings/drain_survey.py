"""Findings about a surveyed drain line: its segments, its standing water, and the survey itself."""

from service.tables.findings.row import ATTENTION, FAIL, INFO, FindingRow

COMMON_PRACTICE = "common practice"
PHYSICS = "physics"
IMC_SLOPE = "IMC 2021 307.2"

ROWS: tuple[FindingRow, ...] = (
    # segments
    FindingRow(
        code="segments-back-fall",
        severity=FAIL,
        message="Segments that fall back towards the pan: {count} of {segments}. The worst, from {start:ft|m} to "
        "{end:ft|m}, rises {rise:in|mm}; water and slime collect above it.",
        remedy="There, raise the upstream end or lower the downstream end by {short_of_minimum:in|mm} for the code "
        "minimum of 1/8 in per ft, {short_of_usual:in|mm} for the usual 1/4 in per ft.",
        basis=IMC_SLOPE,
    ),
    FindingRow(
        code="segments-flat",
        severity=FAIL,
        message="Level segments: {count} of {segments}. The longest, from {start:ft|m} to {end:ft|m}, has no fall: it "
        "drains only when water backs up in it.",
        remedy="There, raise the upstream end or lower the downstream end by {minimum_fall:in|mm} for the code "
        "minimum, {recommended_fall:in|mm} for the usual pitch.",
        basis=IMC_SLOPE,
    ),
    FindingRow(
        code="segments-below-minimum",
        severity=FAIL,
        message="Segments that fall less than the code minimum of 1/8 in per ft: {count} of {segments}. The worst, "
        "from {start:ft|m} to {end:ft|m}, falls {fall:in|mm} ({percent} %); the minimum there is {minimum_fall:in|mm}.",
        remedy="There, raise the upstream end or lower the downstream end by {short_of_minimum:in|mm} for the minimum, "
        "{short_of_usual:in|mm} for the usual pitch.",
        basis=IMC_SLOPE,
    ),
    FindingRow(
        code="segments-below-usual",
        severity=ATTENTION,
        message="Segments that the code allows but that fall less than the usual 1/4 in per ft: {count} of {segments}. "
        "The worst, from {start:ft|m} to {end:ft|m}, falls {fall:in|mm} ({percent} %); usual there is "
        "{recommended_fall:in|mm}.",
        remedy="Where the line is open to work on, give that segment {short_of_usual:in|mm} more fall, and support the "
        "line against sagging.",
        basis=COMMON_PRACTICE,
    ),
    FindingRow(
        code="segments-near-minimum",
        severity=ATTENTION,
        message="Segments that read less than the code minimum, but by no more than two readings may be off together "
        "({doubt:in|mm}): {count} of {segments}. The worst, from {start:ft|m} to {end:ft|m}, reads a fall of "
        "{fall:in|mm}, and the minimum there is {minimum_fall:in|mm}.",
        remedy="Measure them again with a finer reading, or judge the fall over at least {telling_length:ft|m}: there "
        "the minimum is four times that doubt.",
        basis=COMMON_PRACTICE,
    ),
    FindingRow(
        code="segments-within-tolerance",
        severity=INFO,
        message="Segments nearer to a mark than two readings can tell ({doubt:in|mm}): {count} of {segments}. For "
        "instance from {start:ft|m} to {end:ft|m} the line reads a fall of {fall:in|mm}, where the code minimum is "
        "{minimum_fall:in|mm} and usual is {recommended_fall:in|mm}.",
        remedy="Take it as it reads if the pipe looks straight; to be sure, judge the fall over at least "
        "{telling_length:ft|m}, or read finer.",
        basis=COMMON_PRACTICE,
    ),
    # standing water
    FindingRow(
        code="pond-holds-water",
        severity=ATTENTION,
        message="Places where water stands when the drain has stopped: {count}, holding {volume:gal|L} together. The "
        "deepest is {depth:in|mm} deep, from {start:ft|m} to {end:ft|m}, lowest at {low:ft|m}. Slime grows there "
        "first.",
        remedy="At the deepest, {move} the line by {by:in|mm} at {place:ft|m} (stations to move: {station_count}) and "
        "nothing stands; by up to {by_for_minimum_pitch:in|mm} and it has the code's minimum pitch as well. "
        "Then support it so that it stays.",
        basis=PHYSICS,
    ),
    FindingRow(
        code="pond-of-unknown-volume",
        severity=ATTENTION,
        message="Places where water stands when the drain has stopped: {count}. The deepest is {depth:in|mm} deep, "
        "from {start:ft|m} to {end:ft|m}, lowest at {low:ft|m}. Slime grows there first.",
        remedy="At the deepest, {move} the line by {by:in|mm} at {place:ft|m} (stations to move: {station_count}) and "
        "nothing stands; by up to {by_for_minimum_pitch:in|mm} and it has the code's minimum pitch as well. "
        "Then support it so that it stays.",
        basis=PHYSICS,
    ),
    FindingRow(
        code="pond-within-tolerance",
        severity=INFO,
        message="Places where a little water may stand, no deeper than two readings may be off together "
        "({doubt:in|mm}): {count}. The deepest reads {depth:in|mm}, at {low:ft|m}.",
        remedy="Look into the line there, or measure again with a finer reading, before moving a hanger.",
        basis=PHYSICS,
    ),
    FindingRow(
        code="pond-fills-bore",
        severity=FAIL,
        message="Places where standing water fills the bore of {bore:in|mm}: {count}. The deepest, {depth:in|mm} at "
        "{low:ft|m}, fills it over {full_length:ft|m}. That is a second trap: the air shut in between it and the "
        "unit's own trap holds the water back.",
        remedy="To let it out, {move} the line by {by:in|mm} at {place:ft|m} (stations to move: {station_count}). If "
        "that cannot be done at once, vent the line between the two traps.",
        basis=PHYSICS,
    ),
    FindingRow(
        code="pond-may-fill-bore",
        severity=ATTENTION,
        message="Places where standing water may fill the bore of {bore:in|mm} for all that two readings can tell "
        "({doubt:in|mm}): {count}. The deepest reads {depth:in|mm}, at {low:ft|m}. If it does, it is a second trap.",
        remedy="Measure again with a finer reading, or {move} the line by {by:in|mm} at {place:ft|m} (stations to "
        "move: {station_count}) and nothing stands.",
        basis=PHYSICS,
    ),
    FindingRow(
        code="pond-reaches-pan",
        severity=FAIL,
        message="Water stands {depth:in|mm} over the inside bottom of the line's upstream end, held back by the high "
        "point at {sill:ft|m}: it backs up into the trap, and into the pan if that is no higher.",
        remedy="Lower the line at {sill:ft|m} and from there on by more than {depth:in|mm}, or raise its upstream end "
        "and the unit by as much.",
        basis=PHYSICS,
    ),
    FindingRow(
        code="outlet-under-water",
        severity=ATTENTION,
        message="The discharge ends {depth:in|mm} under water, which stands back {length:ft|m} into the line. Such an "
        "end takes in no air and can draw dirty water back.",
        remedy="End the line above the flood rim with an air gap; until then clear whatever keeps the water there.",
        basis=COMMON_PRACTICE,
    ),
    # the survey
    FindingRow(
        code="survey-too-coarse",
        severity=INFO,
        message="Stations lie up to {length:ft|m} apart, from {start:ft|m} to {end:ft|m}; plastic pipe is hung every "
        "{spacing:ft|m}. A sag between two stations does not show. Segments longer than that: {count} of {segments}.",
        remedy="Sight along the pipe there, or measure at every hanger and halfway between.",
        basis="IMC 2021 Table 305.4",
    ),
    FindingRow(
        code="survey-out-of-order",
        severity=INFO,
        message="The stations were not sent in order of distance (number {station} is the first that belongs further "
        "up); they were put in order.",
        remedy="Check that every distance is counted downstream from one and the same point.",
        basis=COMMON_PRACTICE,
    ),
    FindingRow(
        code="survey-mixes-readings",
        severity=ATTENTION,
        message="The survey mixes drops below a level line ({drops} stations) with inverts ({inverts} stations), and "
        "nothing says how high the level line is: it was taken to be at the datum of the inverts.",
        remedy="Give level_line_height, or send one kind of reading for the whole line.",
        basis=COMMON_PRACTICE,
    ),
    FindingRow(
        code="pipe-bore-unknown",
        severity=ATTENTION,
        message="{material} pipe is not made in {pipe_size} in, so the bore is not known: no volume of standing water, "
        "and no telling whether it fills the bore.",
        remedy="Read the size and the material off the pipe again.",
        basis="ASTM D2846",
    ),
    FindingRow(
        code="fall-differs-from-survey",
        severity=ATTENTION,
        message="The fall of the line was given as {fall:in|mm}; its stations fall {surveyed:in|mm} from the first to "
        "the last.",
        remedy="Find out which is right; the size and pitch of the line were worked out from the fall given.",
        basis=COMMON_PRACTICE,
    ),
)
