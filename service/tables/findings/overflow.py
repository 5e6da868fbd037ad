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

THAW = (
    "Lay towels, keep a wet vacuum at the pan, and let the ice melt with the unit off: a thaw with the fan alone is "
    "the fastest and floods."
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
    # water that comes all at once
    FindingRow(
        code="line-already-full",
        severity=ATTENTION,
        message="{standing:gal|L} stand in a line that holds {whole:gal|L} up to the blockage: it is full, and takes "
        "no more.",
        remedy="Measure the length to the blockage again; otherwise clear the line now, it is backing up.",
        basis=PHYSICS,
    ),
    FindingRow(
        code="drain-slower-than-inflow",
        severity=FAIL,
        message="The drain carries {capacity:gal/h|L/h} and {inflow:gal/h|L/h} arrive: the water rises in every hour "
        "like this one.",
        remedy="Clear the drain and prove that it carries at least {inflow:gal/h|L/h}: pour that in and watch it run.",
        basis=PHYSICS,
    ),
    FindingRow(
        code="drain-carries-inflow",
        severity=INFO,
        message="The drain carries {capacity:gal/h|L/h} and {inflow:gal/h|L/h} arrive: at this rate nothing rises.",
        remedy="Nothing to do for the steady rate.",
        basis=PHYSICS,
    ),
    FindingRow(
        code="no-ice",
        severity=INFO,
        message="There is no ice on the coil, so none melts.",
        remedy="Nothing to do; leave the ice out, or measure it.",
        basis=PHYSICS,
    ),
    FindingRow(
        code="melt-time-unknown",
        severity=INFO,
        message="The ice holds {volume:gal|L} of water; how fast it comes cannot be said.",
        remedy="Give the time of the melt, the heat that reaches the ice, or the air that the fan blows over it.",
        basis=PHYSICS,
    ),
    FindingRow(
        code="ice-does-not-melt",
        severity=INFO,
        message="The ice holds {volume:gal|L} of water, and nothing warm reaches it: it stays.",
        remedy="Count on it as soon as the fan runs or the space warms up.",
        basis=PHYSICS,
    ),
    FindingRow(
        code="drain-carries-melt",
        severity=INFO,
        message="While the ice melts {rate:gal/h|L/h} arrive for {time:min|min}; the drain carries "
        "{capacity:gal/h|L/h}.",
        remedy="See the drain run freely before the thaw starts.",
        basis=PHYSICS,
    ),
    FindingRow(
        code="pan-takes-melt",
        severity=INFO,
        message="While the ice melts {rate:gal/h|L/h} arrive for {time:min|min}, more than the "
        "{capacity:gal/h|L/h} that the drain carries; the {room:gal|L} of room take the difference.",
        remedy="Watch the pan until the ice is gone; keep a wet vacuum at hand.",
        basis=PHYSICS,
    ),
    FindingRow(
        code="melt-floods-blocked-drain",
        severity=ATTENTION,
        message="The ice brings {volume:gal|L}; with the drain blocked the pan runs over after {overflow:min|min}, and "
        "{lost:gal|L} are lost by the end of the melt.",
        remedy=f"Clear the drain before the thaw. {THAW}",
        basis=PHYSICS,
    ),
    FindingRow(
        code="melt-too-fast-for-drain",
        severity=FAIL,
        message="The melt beats the drain: {rate:gal/h|L/h} arrive for {time:min|min} and the drain carries "
        "{capacity:gal/h|L/h}. The pan runs over after {overflow:min|min}, and {lost:gal|L} are lost.",
        remedy=f"Let it melt over at least {{safe_time:min|min}}, or clear the drain to carry {{rate:gal/h|L/h}}. "
        f"{THAW}",
        basis=PHYSICS,
    ),
    FindingRow(
        code="melt-beats-drain",
        severity=FAIL,
        message="The melt beats the drain: {rate:gal/h|L/h} arrive for {time:min|min} and the drain carries "
        "{capacity:gal/h|L/h}. The pan runs over after {overflow:min|min}, and {lost:gal|L} are lost; however slowly "
        "it melts, this drain does not take it.",
        remedy=f"Clear the drain before the thaw. {THAW}",
        basis=PHYSICS,
    ),
    FindingRow(
        code="melt-outruns-cut-out",
        severity=FAIL,
        message="The cut-out stops the cooling, not the melt: {more:gal|L} still come, and {left:gal|L} fit.",
        remedy=f"Do not rely on the cut-out during a thaw. {THAW}",
        basis=PHYSICS,
    ),
    FindingRow(
        code="held-up-water-floods-tank",
        severity=FAIL,
        message="When the fan stops, {held_up:gal|L} let go at once, and the pump's tank takes {to_rim:gal|L}.",
        remedy="Rebuild the trap so that it holds nothing back: its outlet drop must be larger than the fan's suction.",
        basis=PHYSICS,
    ),
    FindingRow(
        code="little-room-above-float",
        severity=ATTENTION,
        message="After the safety float has stopped the cooling, {after:gal|L} still arrive, and {room:gal|L} fit "
        "above it.",
        remedy="Lower the float, or fit a larger tank, until {after:gal|L} fit above it.",
        basis=PHYSICS,
    ),
)
