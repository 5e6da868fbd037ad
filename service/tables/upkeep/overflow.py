"""Upkeep of the pump, and of what stops the water."""

from service.tables.upkeep.row import COMMON_PRACTICE, MID_SEASON, SPRING, UpkeepRow

IMC_OVERFLOW = "IMC 2021 307.2.3"
IRC_PUMP = "IRC 2021 M1411.4"
TRIP = ("do-not-bridge-safety",)
PUMP = ("water-and-electricity",)

ROWS: tuple[UpkeepRow, ...] = (
    UpkeepRow(
        code="pump-test",
        seasons=(SPRING,),
        condition="tank-known",
        check="Unplug the pump and clean tank, float and tube. Plug it in and pour water in until it has run twice, at "
        "least {tank_volume:gal|L} each time; see the water come at the discharge.",
        why="Slime holds the float and narrows the tube; a pump that stood still over the winter may not start.",
        minutes=15,
        cautions=(*PUMP, "biological-slime"),
    ),
    UpkeepRow(
        code="pump-test",
        seasons=(SPRING,),
        condition="tank-unknown",
        check="Unplug the pump and clean tank, float and tube. Plug it in and pour water in until it has run twice; "
        "catch what one run delivers in a jug, and see the water come at the discharge.",
        why="Slime holds the float and narrows the tube; a pump that stood still over the winter may not start. The "
        "jug tells the volume between its floats.",
        minutes=18,
        cautions=(*PUMP, "biological-slime"),
    ),
    UpkeepRow(
        code="find-pump",
        seasons=(SPRING,),
        condition="pump-unknown",
        check="Look whether a pump lifts the water; if so, read its plate and test its float and its safety float.",
        why="Nothing says whether the unit drains by gravity.",
        minutes=3,
        cautions=PUMP,
    ),
    UpkeepRow(
        code="watch-pump",
        seasons=(MID_SEASON,),
        condition="cycles-known",
        check="Count the pump's starts for ten minutes while the unit cools: {starts} an hour are to be expected in "
        "the peak hour, and no more.",
        why="More starts come from a check valve that leaks or a float that hangs; runs that get longer, from a tube "
        "that is pinched or slimed.",
        minutes=10,
        cautions=PUMP,
    ),
    UpkeepRow(
        code="watch-pump",
        seasons=(MID_SEASON,),
        condition="cycles-unknown",
        check="Count the pump's starts for ten minutes while the unit cools, and time one run.",
        why="Many short runs come from a check valve that leaks or a float that hangs; long ones from a tube that is "
        "pinched or slimed.",
        minutes=10,
        cautions=PUMP,
    ),
    UpkeepRow(
        code="trip-pump-float",
        seasons=(SPRING,),
        condition="pump-float-wired",
        check="With the cooling running, lift the pump's safety float by hand or fill the tank with the pump "
        "unplugged: the cooling must stop. Plug the pump in again.",
        why="It is what stops the water when the pump dies.",
        minutes=5,
        basis=IRC_PUMP,
        cautions=(*PUMP, *TRIP),
    ),
    UpkeepRow(
        code="trip-pump-float",
        seasons=(SPRING,),
        condition="pump-float-to-wire",
        check="Wire a safety float into the cooling call, or fit one, and trip it; report it to the owner in writing "
        "until that is done.",
        why="When the pump dies, nothing stops the cooling, and its tank runs over.",
        minutes=45,
        basis=IRC_PUMP,
        cautions=("lock-out-power", *PUMP, *TRIP),
    ),
    UpkeepRow(
        code="trip-pump-float",
        seasons=(SPRING,),
        condition="pump-float-unknown",
        check="Look for the pump's safety float and lift it by hand with the cooling running: the cooling must stop.",
        why="Nothing says whether it is there and wired.",
        minutes=5,
        basis=IRC_PUMP,
        cautions=(*PUMP, *TRIP),
    ),
    UpkeepRow(
        code="trip-cut-out",
        seasons=(SPRING,),
        condition="cut-out-depth-known",
        check="With the cooling running, pour water in until it stands {cut_out_depth:in|mm} deep at the cut-out: the "
        "cooling must stop there. Take the water out again.",
        why="It is what stops the water when the drain blocks.",
        minutes=8,
        basis=IMC_OVERFLOW,
        cautions=TRIP,
    ),
    UpkeepRow(
        code="trip-cut-out",
        seasons=(SPRING,),
        condition="cut-out-depth-unknown",
        check="With the cooling running, pour water in until the cut-out stops it; measure how deep the water stands "
        "then, and take it out again.",
        why="It is what stops the water when the drain blocks, and the depth it acts at is not on record.",
        minutes=10,
        basis=IMC_OVERFLOW,
        cautions=TRIP,
    ),
    UpkeepRow(
        code="clear-second-way-out",
        seasons=(SPRING,),
        condition="second-way-out",
        check="Pour water into the secondary or auxiliary drain, and see it come where people notice it.",
        why="It is used only when the primary drain blocks; until then nests and dust plug it unseen.",
        minutes=5,
        basis=IMC_OVERFLOW,
    ),
    UpkeepRow(
        code="watch-second-way-out",
        seasons=(MID_SEASON,),
        condition="second-way-out",
        check="Look at the end of the secondary or auxiliary drain. If it drips, the primary drain is blocked: clear "
        "that.",
        why="It carries water only when the primary drain does not.",
        minutes=2,
        at_unit=False,
    ),
    UpkeepRow(
        code="look-into-auxiliary-pan",
        seasons=(SPRING, MID_SEASON),
        condition="auxiliary-pan",
        check="Look into the auxiliary pan: it must be dry and clean, without rust or insulation in it.",
        why="Water there comes from a blocked primary drain or a cracked pan.",
        minutes=2,
        basis=COMMON_PRACTICE,
    ),
    UpkeepRow(
        code="look-for-overflow",
        seasons=(SPRING, MID_SEASON),
        condition="protection-none",
        check="Look under the unit for stains, and offer the owner a cut-out, a secondary drain or an auxiliary pan in "
        "writing.",
        why="Nothing stops the water when the drain blocks, so that only looking finds it early.",
        minutes=5,
        basis=IMC_OVERFLOW,
        cautions=("water-damage",),
    ),
    UpkeepRow(
        code="find-protection",
        seasons=(SPRING,),
        condition="protection-unknown",
        check="Look for an auxiliary pan with its own drain, a secondary drain or a water-level cut-out; trip or pour "
        "to prove it.",
        why="Nothing is known of what stops the water when the drain blocks.",
        minutes=8,
        basis=IMC_OVERFLOW,
        cautions=TRIP,
    ),
)
"""Rows of pump and overflow protection."""
