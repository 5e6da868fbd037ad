"""Findings about overflow: the time there is, and what stops the water."""

from service.tables.findings.row import ATTENTION, FAIL, INFO, FindingRow

COMMON_PRACTICE = "common practice"
PHYSICS = "physics"
IMC_OVERFLOW = "IMC 2021 307.2.3"
IRC_PUMP = "IRC 2021 M1411.4"

FOUR_WAYS = (
    "an auxiliary pan with a drain of its own to where it is seen, a secondary drain higher in the pan, an auxiliary "
    "pan with a water-level cut-out, or a listed cut-out in the pan or its drain"
)

ROWS: tuple[FindingRow, ...] = (
    FindingRow(
        code="overflow-no-inflow",
        severity=INFO,
        message="No water arrives, so nothing runs over and no time can be given.",
        remedy="Give the condensate rate of the peak hour.",
        basis=PHYSICS,
    ),
    FindingRow(
        code="overflow-room-unknown",
        severity=ATTENTION,
        message="Nothing was said of the room there is, so no time can be given.",
        remedy="Measure the pan's length, width and depth up to where it runs over.",
        basis=PHYSICS,
    ),
    FindingRow(
        code="pan-already-full",
        severity=FAIL,
        message="Water stands {water_depth:in|mm} deep in a pan of {depth:in|mm}: it is running over already.",
        remedy="Stop the cooling, take the water out and clear the drain before the unit runs again.",
        basis=PHYSICS,
    ),
    FindingRow(
        code="pan-bottom-above-rim",
        severity=ATTENTION,
        message="The bottom falls by {fall:in|mm} and the pan is {depth:in|mm} deep at the outlet: its high end stands "
        "above where it runs over.",
        remedy="Measure both again, at the outlet; if they are right, level the pan so that all of it can hold water.",
        basis=PHYSICS,
    ),
    FindingRow(
        code="little-time-to-overflow",
        severity=ATTENTION,
        message="With the drain blocked, water reaches the building in {time:min|min}: too soon for anyone to notice.",
        remedy="Fit a cut-out that stops the cooling call before the pan runs over, and trip it to prove it.",
        basis=COMMON_PRACTICE,
    ),
    # what is relied on
    FindingRow(
        code="overflow-protection-unknown",
        severity=ATTENTION,
        message="Nothing is known of this unit's overflow protection.",
        remedy=f"Look for one of: {FOUR_WAYS}.",
        basis=IMC_OVERFLOW,
    ),
    FindingRow(
        code="overflow-protection-none",
        severity=ATTENTION,
        message="Nothing stops the water when the drain blocks.",
        remedy=f"Where it can damage the building, fit one of: {FOUR_WAYS}.",
        basis=IMC_OVERFLOW,
    ),
    FindingRow(
        code="auxiliary-pan-only-delays",
        severity=ATTENTION,
        message="The auxiliary pan has neither a drain of its own nor a cut-out: it fills and then runs over.",
        remedy="Give it a drain to where it is seen, or a water-level cut-out that stops the cooling call.",
        basis=IMC_OVERFLOW,
    ),
    FindingRow(
        code="cut-out-too-high",
        severity=FAIL,
        message="The cut-out acts at {level:in|mm} of water in a pan that runs over at {depth:in|mm}: it never stops "
        "anything.",
        remedy="Lower it until it acts well below {depth:in|mm}, and pour water in to prove that the unit stops.",
        basis=IMC_OVERFLOW,
    ),
    FindingRow(
        code="cut-out-depth-unknown",
        severity=INFO,
        message="How soon the cut-out acts cannot be said without the depth it acts at and the pan's dimensions.",
        remedy="Pour water in until the unit stops, and measure the depth.",
        basis=PHYSICS,
    ),
    FindingRow(
        code="cut-out-under-water",
        severity=ATTENTION,
        message="Water stands {water_depth:in|mm} deep and the cut-out acts at {level:in|mm}: either it holds the unit "
        "off now, or it does not work.",
        remedy="Drain the pan, then trip the cut-out by hand and see the unit stop.",
        basis=PHYSICS,
    ),
    FindingRow(
        code="little-room-after-cut-out",
        severity=ATTENTION,
        message="After the cut-out has acted at {level:in|mm} there is room for {room:gal|L}, and a wet coil may still "
        "drip {drip_volume:gal|L}.",
        remedy="Lower the cut-out by at least {lower_by:in|mm} where the pan allows, or fit a deeper pan.",
        basis=COMMON_PRACTICE,
    ),
    FindingRow(
        code="secondary-drain-too-high",
        severity=FAIL,
        message="The secondary drain starts at {level:in|mm} in a pan that runs over at {depth:in|mm}: it never "
        "carries anything.",
        remedy="Lower it until it starts well below {depth:in|mm} and above the primary drain.",
        basis=IMC_OVERFLOW,
    ),
    FindingRow(
        code="secondary-drain-depth-unknown",
        severity=INFO,
        message="How soon the secondary drain runs cannot be said without its height and the pan's dimensions.",
        remedy="Measure its inside bottom above the pan's bottom.",
        basis=PHYSICS,
    ),
    FindingRow(
        code="secondary-drain-under-water",
        severity=ATTENTION,
        message="Water stands {water_depth:in|mm} deep and the secondary drain starts at {level:in|mm}: it should be "
        "running now, which means that the primary drain does not.",
        remedy="See whether it runs where it comes out, and clear the primary drain.",
        basis=PHYSICS,
    ),
    FindingRow(
        code="auxiliary-pan-unknown",
        severity=INFO,
        message="The auxiliary pan's size was not given, so the time it gains cannot be said.",
        remedy="Measure its length, width and depth.",
        basis=PHYSICS,
    ),
    FindingRow(
        code="auxiliary-pan-shallow",
        severity=FAIL,
        message="The auxiliary pan is {depth:in|mm} deep; at least {least_depth:in|mm} is asked for.",
        remedy="Replace it with one at least {least_depth:in|mm} deep.",
        basis=IMC_OVERFLOW,
    ),
    FindingRow(
        code="auxiliary-pan-small",
        severity=FAIL,
        message="The auxiliary pan is larger than the unit by {larger:in|mm}; at least {least_larger:in|mm} in width "
        "and length is asked for.",
        remedy="Replace it with one at least {wider_by:in|mm} longer and wider.",
        basis=IMC_OVERFLOW,
    ),
    # the pump's tank
    FindingRow(
        code="tank-float-unwired",
        severity=FAIL,
        message="The pump has a safety float that is not wired: a dead pump floods whatever is around its tank.",
        remedy="Wire it so that a full tank stops the cooling call and trip it to prove it. If that is refused, report "
        "it to the owner in writing.",
        basis=IRC_PUMP,
    ),
    FindingRow(
        code="tank-float-missing",
        severity=FAIL,
        message="The pump has no safety float: a dead pump floods whatever is around its tank.",
        remedy="Fit one, wired so that a full tank stops the cooling call. If that is refused, report it to the owner "
        "in writing.",
        basis=IRC_PUMP,
    ),
    FindingRow(
        code="tank-float-unknown",
        severity=ATTENTION,
        message="Nothing is known of the pump's safety float.",
        remedy="Look whether it is wired, fill the tank with the pump unplugged and see the unit stop.",
        basis=IRC_PUMP,
    ),
    FindingRow(
        code="tank-float-too-high",
        severity=FAIL,
        message="The safety float acts after {to_float:gal|L}, and the tank runs over after {to_rim:gal|L}.",
        remedy="Lower the float, or level the tank, until it acts before the tank runs over.",
        basis=PHYSICS,
    ),
)
