"""Findings of an assessment's own cross-checks."""

from service.tables.findings.row import ATTENTION, FAIL, INFO, FindingRow

ROWS: tuple[FindingRow, ...] = (
    FindingRow(
        code="part-not-assessed",
        severity=INFO,
        message="{part}: not assessed. Missing: {missing}.",
        remedy="Find it out on the next visit and send it; the answer then covers it.",
        basis="common practice",
    ),
    FindingRow(
        code="part-out-of-range",
        severity=ATTENTION,
        message="The {part} was not assessed: with the numbers sent, its {member} lies outside what can be calculated.",
        remedy="Check the numbers this part is made from for a slip of unit or decimal point.",
        basis="physics",
    ),
    FindingRow(
        code="measured-above-computed",
        severity=ATTENTION,
        message="{measured:gal/h|L/h} was caught, {percent} % of the {predicted:gal/h|L/h} computed: more water than "
        "the numbers explain.",
        remedy="Check air flow and capacity as entered, look for outdoor air leaking into the return, and for another "
        "unit or a roof leak draining into the same pan. Size drain and pump for the caught rate meanwhile.",
        basis="common practice",
    ),
    FindingRow(
        code="measured-below-computed",
        severity=ATTENTION,
        message="{measured:gal/h|L/h} was caught, {percent} % of the {predicted:gal/h|L/h} computed: water is going "
        "somewhere else, or the readings were not taken in the same hour.",
        remedy="Look for water held in the pan by suction, carried off the coil into the duct, or leaking from pan or "
        "line. Then catch it again after half an hour of steady running.",
        basis="common practice",
    ),
    FindingRow(
        code="trap-shared",
        severity=FAIL,
        message="One trap serves several pans. Where their pressures differ, one unit sucks air or water through "
        "the other's drain.",
        remedy="Give each unit a trap of its own, and join the lines downstream of the traps.",
        basis="common practice",
    ),
    FindingRow(
        code="drain-can-freeze",
        severity=ATTENTION,
        message="Trap or line can freeze: ice blocks the drain, and the next thaw or cooling call floods.",
        remedy="Insulate and heat-trace it, reroute it indoors, or drain it before the cold and refill it in spring.",
        basis="common practice",
    ),
    FindingRow(
        code="line-smaller-than-needed",
        severity=FAIL,
        message="The line is {pipe_size} in; {total_capacity:ton|kW} on it needs {needed} in.",
        remedy="Replace it with {needed} in from the last unit's connection to the place of disposal, or split the "
        "units over two lines.",
        basis="IMC 2021 Table 307.2.2",
    ),
    FindingRow(
        code="line-smaller-than-pan-outlet",
        severity=FAIL,
        message="The line is {pipe_size} in, smaller than the {pan_outlet} in pan outlet: a reduction on the way.",
        remedy="Run {pan_outlet} in from the pan outlet to the place of disposal.",
        basis="IMC 2021 307.2.2",
    ),
    FindingRow(
        code="line-not-cleanable",
        severity=ATTENTION,
        message="The line has no cleanout: it cannot be cleared without cutting it.",
        remedy="Put in a cleanout with a hand-tight cap on top of the trap, and a union at the unit.",
        basis="IMC 2021 307.2.5",
    ),
    FindingRow(
        code="cleanout-welded",
        severity=ATTENTION,
        message="The cleanout is solvent-welded shut; each cleaning takes about four times as long.",
        remedy="Replace it with a cleanout whose cap turns by hand.",
        basis="common practice",
    ),
    FindingRow(
        code="supports-too-far-apart",
        severity=ATTENTION,
        message="Supports are {spacing:ft|m} apart; plastic pipe may span {allowed:ft|m} and sags beyond it. A sag "
        "holds water and slime.",
        remedy="Add supports until none is more than {allowed:ft|m} from the next, and check the fall again.",
        basis="IMC 2021 Table 305.4",
    ),
    FindingRow(
        code="second-trap-unvented",
        severity=FAIL,
        message="There is a second trap on the line with no vent between: the air between the two locks the water.",
        remedy="Take the second trap out, or vent the line between the two.",
        basis="common practice",
    ),
    FindingRow(
        code="discharge-into-sanitary",
        severity=FAIL,
        message="The drain connects directly to a {place}: sewage can come back into the pan, and sewer gas into the "
        "air.",
        remedy="Disconnect it and end it over an indirect waste receptor with an air gap; have a licensed plumber "
        "close the opening.",
        basis="IPC 2021 314.2.1",
    ),
    FindingRow(
        code="sanitary-without-trap",
        severity=FAIL,
        message="Nothing is known to stand between the {place} and the air handler: no trap with a seal was described, "
        "and the fan pulls sewer gas in.",
        remedy="Cap or disconnect the drain from the {place} now, then end it over an air gap.",
        basis="common practice",
    ),
    FindingRow(
        code="sanitary-trap-dries-out",
        severity=FAIL,
        message="Only the trap's water keeps sewer gas from the {place} out of the air handler, and out of season "
        "nothing refills it.",
        remedy="End the drain over an air gap. Until then keep the trap full the year round and check it at the start "
        "of the heating season.",
        basis="common practice",
    ),
    FindingRow(
        code="sanitary-seal-lasts-for",
        severity=FAIL,
        message="Without condensate the seal between the {place} and the air handler is lost after {earliest} days "
        "at the earliest (moving air sweeps the trap's ends) and {latest} days at the latest (the air in it stands "
        "still). Then sewer gas can pass.",
        remedy="Until the drain ends over an air gap, pour water into the trap at least every {interval} days out of "
        "season, or let a trap primer do it.",
        basis="physics",
    ),
    FindingRow(
        code="trap-dries-out-off-season",
        severity=INFO,
        message="Without condensate the trap's seal is lost after {earliest} to {latest} days. At the next start it "
        "may spit until condensate has filled it again.",
        remedy="Fill the trap with water before the first cooling call of the season.",
        basis="physics",
    ),
    FindingRow(
        code="seal-outlasts-off-season",
        severity=INFO,
        message="The trap's seal outlasts the {idle} days without condensate: it is lost after {earliest} to {latest} "
        "days.",
        remedy="Look at the water in the trap once before the season all the same.",
        basis="physics",
    ),
    FindingRow(
        code="discharge-without-air-gap",
        severity=ATTENTION,
        message="The line ends in the {place} without an air gap: what backs up there backs up into the line.",
        remedy="Raise the end of the line above the flood rim: at least twice its bore.",
        basis="common practice",
    ),
    FindingRow(
        code="discharge-is-a-nuisance",
        severity=FAIL,
        message="The water runs onto a {place}: people slip, roofing wears, and ice forms in the cold.",
        remedy="Take it on to an approved place of disposal.",
        basis="IMC 2021 307.2.1",
    ),
    FindingRow(
        code="discharge-needs-approval",
        severity=INFO,
        message="Condensate to a {place} is allowed in some places and not in others.",
        remedy="Ask the authority having jurisdiction before relying on it.",
        basis="IMC 2021 307.2.1",
    ),
    FindingRow(
        code="protection-unknown",
        severity=ATTENTION,
        message="Water from this unit would reach the {below}, and nothing is known of its overflow protection.",
        remedy="Look for an auxiliary pan with its own drain, a secondary drain, or a water-level cut-out, and trip it "
        "to see the unit stop.",
        basis="IMC 2021 307.2.3",
    ),
    FindingRow(
        code="protection-missing",
        severity=FAIL,
        message="Water from this unit would reach the {below}, and nothing stops it when the drain blocks.",
        remedy="Fit one of: an auxiliary pan with its own drain to where it is seen, a secondary drain higher in the "
        "pan, an auxiliary pan with a cut-out, or a listed cut-out in the primary drain. Tell the owner in writing.",
        basis="IMC 2021 307.2.3",
    ),
    FindingRow(
        code="hidden-pump-unprotected",
        severity=FAIL,
        message="The pump stands in the {location}, where nobody sees it run over, and no wired safety float was "
        "reported.",
        remedy="Wire the safety float so that a full tank stops the cooling call, trip it to prove it, and tell the "
        "owner in writing.",
        basis="IRC 2021 M1411.4",
    ),
)
