"""Findings from a timed pump-out: a restriction, a worn pump, or neither."""

from service.tables.findings.row import ATTENTION, FAIL, INFO, FindingRow

LOOK = (
    "Follow the tube for a tie pulled tight, a kink, a sharp bend or a crushed place; take out and clean the check "
    "valve; flush the slime out of tank and tube."
)

ROWS: tuple[FindingRow, ...] = (
    FindingRow(
        code="restriction-found",
        severity=FAIL,
        message="The pump moves {flow:gal/h|L/h} where leaflet and clean tube promise {expected:gal/h|L/h}. The pump "
        "was measured alone, so the restriction is proved: it takes {head:ft|m} of head, as a pinch of "
        "{pinch_bore:in|mm} bore would, or the whole {bore:in|mm} tube fouled to {tube_bore:in|mm}.",
        remedy=f"{LOOK} Time it again: a clean tube on a sound pump takes {{time:s|s}} for the same volume.",
        basis="physics",
    ),
    FindingRow(
        code="flow-below-expected",
        severity=ATTENTION,
        message="The pump moves {flow:gal/h|L/h} (at most {most_flow:gal/h|L/h}) where leaflet and clean tube promise "
        "{expected:gal/h|L/h}: {head:ft|m} of head are missing. A pinch of {pinch_bore:in|mm} bore would take them, or "
        "the whole {bore:in|mm} tube fouled to {tube_bore:in|mm}, or a worn pump.",
        remedy=f"{LOOK} Time it again: {{time:s|s}} for the same volume is right.",
        basis="physics",
    ),
    FindingRow(
        code="measurement-cannot-tell",
        severity=INFO,
        message="One pump-out cannot tell a restriction from a worn pump: one that works as if at {percent} % of its "
        "speed moves as little through a clean tube.",
        remedy="Measure the pump alone. Take the tube off and time a pump-out: about {tube_off_flow:gal/h|L/h} is a "
        "sound pump, {worn_flow:gal/h|L/h} a worn one. Or hold the tube straight up until the water stops: "
        "{shut_off:ft|m} is a sound pump, {worn_shut_off:ft|m} a worn one.",
        basis="physics",
    ),
    FindingRow(
        code="second-measurement-cannot-tell",
        severity=INFO,
        message="The second measurement is not sharp enough to tell a restriction from a worn pump: what the pump does "
        "alone fits a sound one as well as one at {percent} % of its speed.",
        remedy="Measure the pump alone again, more exactly: with the tube off about {tube_off_flow:gal/h|L/h} is a "
        "sound pump and {worn_flow:gal/h|L/h} a worn one; in a tube held up the water stops at {shut_off:ft|m} or at "
        "{worn_shut_off:ft|m}.",
        basis="physics",
    ),
    FindingRow(
        code="pump-worn",
        severity=FAIL,
        message="Measured alone, the pump works as if at {percent} % of its speed: it is worn or slimed, or its motor "
        "is slow.",
        remedy="Check the voltage at the pump while it runs, clean impeller and inlet, measure it alone again. If it "
        "stays as weak, replace it: sound, it gives {tube_off_flow:gal/h|L/h} against no lift and stops at "
        "{shut_off:ft|m}.",
        basis="physics",
    ),
    FindingRow(
        code="restriction-near-shut-off",
        severity=FAIL,
        message="Unless the pump is worn, it works against {head:ft|m} of head, {percent} % of the {shut_off:ft|m} at "
        "which its flow ends. So near to shut-off the motor labours, runs long and hot, and dies early.",
        remedy="Clear the restriction before the pump is replaced: a new pump dies of it as well.",
        basis="common practice",
    ),
    FindingRow(
        code="no-restriction",
        severity=INFO,
        message="The pump moves {flow:gal/h|L/h}, between {least_flow:gal/h|L/h} and {most_flow:gal/h|L/h} by how well "
        "it was measured. Leaflet and clean tube promise {expected:gal/h|L/h}, within that: no restriction can be "
        "concluded.",
        remedy="Nothing to do. A pinch of {hidden_bore:in|mm} bore or more could hide in the measurement; a longer "
        "pump-out measures more finely.",
        basis="physics",
    ),
    FindingRow(
        code="flow-above-expected",
        severity=ATTENTION,
        message="The pump moves {flow:gal/h|L/h}, at least {least_flow:gal/h|L/h}, and leaflet and tube promise "
        "{expected:gal/h|L/h} only: more than can be.",
        remedy="Check that the leaflet is this pump's, that the volume is what was pumped, and the lift: a tube that "
        "ends lower than the tank siphons.",
        basis="physics",
    ),
    FindingRow(
        code="pump-stronger-than-leaflet",
        severity=ATTENTION,
        message="Measured alone, the pump works as if at {percent} % of its leaflet's speed: more than can be.",
        remedy="Check that the leaflet is this pump's, and the second measurement; a tube end lower than the tank "
        "siphons.",
        basis="physics",
    ),
    FindingRow(
        code="tube-fills-first",
        severity=ATTENTION,
        message="No check valve holds the water, so that {fill:gal|L}, {percent} % of what was pumped, fill the empty "
        "tube first, against less than the whole lift. The steady flow is below the {flow:gal/h|L/h} measured, but not "
        "below {least_flow:gal/h|L/h}.",
        remedy="Catch the water at the tube's end and time it while it runs there, or say that there is a check valve.",
        basis="physics",
    ),
    FindingRow(
        code="measurement-too-coarse",
        severity=ATTENTION,
        message="Volume and time are too uncertain to say much of a flow of {flow:gal/h|L/h}.",
        remedy="Fill the tank by hand so that the pump runs at least {times} times as long as the clock may be out, "
        "and measure the volume to 5 %.",
        basis="common practice",
    ),
)
