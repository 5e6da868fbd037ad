"""Findings about the trap: its drop, its seal, its pipe, and the pan above it."""

from service.tables.findings.row import ATTENTION, FAIL, INFO, FindingRow

COMMON_PRACTICE = "common practice"
PHYSICS = "physics"
IMC_SIZE = "IMC 2021 307.2.2"

ROWS: tuple[FindingRow, ...] = (
    # the pressure
    FindingRow(
        code="pan-pressure-unusual",
        severity=ATTENTION,
        message="A pan pressure of {pressure:inH2O|Pa} is far beyond what most units reach.",
        remedy="Check the unit of the reading, where the gauge was connected, and whether the filter or a damper "
        "is blocked, before building a trap for it.",
        basis=COMMON_PRACTICE,
    ),
    FindingRow(
        code="pan-without-pressure",
        severity=INFO,
        message="The pan is at the pressure of the room: the fan neither holds the water back nor pushes it out.",
        remedy="Make sure the pressure was read at the pan with the fan on and the doors shut; a draw-through unit "
        "always shows suction there.",
        basis=PHYSICS,
    ),
    FindingRow(
        code="filter-allowance-not-added",
        severity=INFO,
        message="The allowance of {allowance:inH2O|Pa} for a dirty filter was not added to the pan pressure of "
        "{pan_pressure:inH2O|Pa}: a dirty filter lets the fan push less air, so that the pressure in a pan "
        "downstream of it falls. The clean filter is the worst case.",
        remedy="If there is a filter downstream of this pan, enter the pan pressure measured with that filter dirty.",
        basis=PHYSICS,
    ),
    # sizing
    FindingRow(
        code="trap-does-not-fit",
        severity=FAIL,
        message="The trap is {overall_depth:in|mm} deep overall and there is {clearance:in|mm} under the pan outlet: "
        "{short_by:in|mm} short.",
        remedy="Raise the unit by at least {short_by:in|mm}, run the drain on a fall to a place with more room and "
        "build the trap there, or drain to a condensate pump that has its own trap ahead of it. As it stands there "
        "is room for a {direction} of no more than {largest_pressure:inH2O|Pa} instead of {pressure:inH2O|Pa}.",
        basis=PHYSICS,
    ),
    FindingRow(
        code="trap-has-no-room",
        severity=FAIL,
        message="The trap is {overall_depth:in|mm} deep overall and there is {clearance:in|mm} under the pan outlet: "
        "{short_by:in|mm} short. No trap of this pipe size fits, whatever the {direction}.",
        remedy="Raise the unit by at least {short_by:in|mm}, or run the drain on a fall to a place with more room and "
        "build the trap there. A condensate pump helps only where its trap has the room.",
        basis=PHYSICS,
    ),
    FindingRow(
        code="seal-shallow",
        severity=INFO,
        message="A seal of {seal_depth:in|mm} is enough for this pressure, but it dries out sooner than a deeper one.",
        remedy="Where there is room and the trap stands unused for a season, make the seal at least "
        "{shallow_seal:in|mm}, and refill it before the season.",
        basis=COMMON_PRACTICE,
    ),
    FindingRow(
        code="trap-building-details",
        severity=INFO,
        message="Build it {outlet_drop:in|mm} from the pan outlet down to the trap's outlet, inside bottom to inside "
        "bottom, and {seal_depth:in|mm} from there down to the top of the bend, inside. It takes about "
        "{water_volume:in3|mL} of water to fill.",
        remedy="Give every unit a trap of its own and never put two traps on one line without a vent between them: "
        "the air between locks the water. Put a cleanout on top with its cap hand-tight, and fill the trap before "
        "the fan is started.",
        basis=COMMON_PRACTICE,
    ),
    FindingRow(
        code="trap-optional-under-pressure",
        severity=INFO,
        message="This pan is under pressure and would drain without a trap, but the trap keeps {pressure:inH2O|Pa} of "
        "conditioned air from blowing out through the drain.",
        remedy="Build it all the same, and fill it before the fan is started.",
        basis=COMMON_PRACTICE,
    ),
    # the pipe
    FindingRow(
        code="trap-pipe-too-small",
        severity=FAIL,
        message="The trap is built in {pipe_size} in pipe; condensate piping is at least {smallest_size} in.",
        remedy="Rebuild it in {smallest_size} in pipe, or the size of the pan outlet if that is larger.",
        basis=IMC_SIZE,
    ),
    FindingRow(
        code="trap-reduced-on-the-way",
        severity=FAIL,
        message="The trap narrows from {unit_side} in on the unit side to {outlet_side} in on the outlet side; "
        "condensate piping may not get smaller on the way.",
        remedy="Rebuild the outlet side in {unit_side} in pipe.",
        basis=IMC_SIZE,
    ),
    # draining
    FindingRow(
        code="outlet-drop-too-small",
        severity=FAIL,
        message="The fan pulls {suction:inH2O|Pa} on the pan, so that water has to stand {suction_head:in|mm} above "
        "the trap's outlet before any leaves. The outlet drop is {outlet_drop:in|mm}, less than that: the pan holds "
        "{held_water_depth:in|mm} of water while the fan runs.",
        remedy="Make the outlet drop at least {recommended_outlet_drop:in|mm}.",
        basis=PHYSICS,
    ),
    FindingRow(
        code="outlet-drop-margin-small",
        severity=ATTENTION,
        message="The trap drains: its outlet drop of {outlet_drop:in|mm} is no less than the {suction_head:in|mm} of "
        "water that the fan holds up. It lacks the usual margin of 1 in (25 mm) for dirt and a misread gauge.",
        remedy="Make the outlet drop at least {recommended_outlet_drop:in|mm} when the trap is next rebuilt; until "
        "then keep the filters clean.",
        basis=COMMON_PRACTICE,
    ),
    FindingRow(
        code="trap-ends-level",
        severity=FAIL,
        message="The two ends of the trap are level. Such a trap cannot drain a pan under suction, however deep its "
        "seal.",
        remedy="Lower the trap's outlet to at least {recommended_outlet_drop:in|mm} below the pan outlet.",
        basis=PHYSICS,
    ),
    FindingRow(
        code="trap-outlet-above-pan-outlet",
        severity=FAIL,
        message="The trap's outlet is {above:in|mm} higher than the pan outlet. The pan holds that much water even "
        "with the fan off.",
        remedy="Rebuild the trap with its outlet at least {recommended_outlet_drop:in|mm} below the pan outlet.",
        basis=PHYSICS,
    ),
    FindingRow(
        code="outlet-drop-small-positive-pan",
        severity=ATTENTION,
        message="The trap's outlet is {outlet_drop:in|mm} below the pan outlet. The fan's pressure pushes the water "
        "out, but with the fan off it has little fall.",
        remedy="Make the outlet drop at least {recommended_outlet_drop:in|mm}.",
        basis=COMMON_PRACTICE,
    ),
    FindingRow(
        code="pan-overflows-before-draining",
        severity=FAIL,
        message="Water would have to stand {needed_depth:in|mm} deep in the pan before it could leave through the "
        "trap. The pan is {pan_depth:in|mm} deep: it runs over into the unit.",
        remedy="Stop the unit until the trap is rebuilt with an outlet drop of at least "
        "{recommended_outlet_drop:in|mm}.",
        basis=PHYSICS,
    ),
    FindingRow(
        code="release-surge",
        severity=ATTENTION,
        message="The pan holds back {release_volume:gal|L} while the fan runs and lets it go all at once when the fan "
        "stops. A line or pump that keeps up with the running rate may not keep up with that.",
        remedy="An outlet drop of at least {recommended_outlet_drop:in|mm} holds nothing back. Until then expect "
        "water when the fan stops, and look at the line and the pump for it.",
        basis=PHYSICS,
    ),
    FindingRow(
        code="pan-area-unknown",
        severity=INFO,
        message="How much water the pan lets go when the fan stops cannot be said without the pan's area: it holds "
        "{held_water_depth:in|mm} over all of it.",
        remedy="Measure the pan's length and width and give its area.",
        basis=PHYSICS,
    ),
    # the seal
    FindingRow(
        code="trap-without-seal",
        severity=FAIL,
        message="The top of the bend is no lower than the outlet: there is no water seal, and air passes freely.",
        remedy="Build a trap with a seal of at least {recommended_seal_depth:in|mm} and an outlet drop of at least "
        "{recommended_outlet_drop:in|mm}.",
        basis=PHYSICS,
    ),
    FindingRow(
        code="seal-broken-by-suction",
        severity=FAIL,
        message="The fan pulls the seal out: against {pressure:inH2O|Pa} of suction it would have to be "
        "{needed_seal_depth:in|mm} deep just to hold, and it is {seal_depth:in|mm}, {short_by:in|mm} short. Air rushes "
        "in through the drain, can keep the water in the pan, and spits it about.",
        remedy="Make the seal at least {recommended_seal_depth:in|mm} deep, with an outlet drop of at least "
        "{recommended_outlet_drop:in|mm}.",
        basis=PHYSICS,
    ),
    FindingRow(
        code="seal-blown-out",
        severity=FAIL,
        message="The fan blows the seal out: against {pressure:inH2O|Pa} it would have to be "
        "{needed_seal_depth:in|mm} deep just to hold, and it is {seal_depth:in|mm}, {short_by:in|mm} short. "
        "Conditioned air blows out through the drain.",
        remedy="Make the seal at least {recommended_seal_depth:in|mm} deep.",
        basis=PHYSICS,
    ),
    FindingRow(
        code="seal-evaporated",
        severity=FAIL,
        message="The trap has dried out by {evaporated_depth:in|mm}. Full, its seal of {seal_depth:in|mm} would hold; "
        "as it is, it is {short_by:in|mm} short.",
        remedy="Refill the trap with at least {refill_volume:in3|mL} of water before the fan is started, and again "
        "before every season.",
        basis=PHYSICS,
    ),
    FindingRow(
        code="seal-margin-small",
        severity=ATTENTION,
        message="The seal holds with {seal_margin:in|mm} of water to spare; 1/2 in (13 mm) is usual, for drying out "
        "and surging.",
        remedy="Make the seal at least {recommended_seal_depth:in|mm} deep when the trap is next rebuilt, and keep it "
        "filled.",
        basis=COMMON_PRACTICE,
    ),
    FindingRow(
        code="seal-deeper-than-needed",
        severity=INFO,
        message="The seal is {seal_depth:in|mm} deep where {recommended_seal_depth:in|mm} would do. It drains none the "
        "worse, but holds more slime, freezes harder and is awkward to clean.",
        remedy="Leave it unless it keeps blocking; then rebuild it shallower.",
        basis=COMMON_PRACTICE,
    ),
)
