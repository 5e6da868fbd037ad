"""Upkeep of a condensing furnace or boiler where its acid water meets the coil's drain."""

from service.tables.upkeep.row import AUTUMN, PHYSICS, WINTER, UpkeepRow

ACID = ("acid-condensate",)

LARGER_WORDS = {
    "coil": "the coil's water, the larger of the two, because they do not run together",
    "furnace": "the furnace's water, the larger of the two, because they do not run together",
    "both": "the coil's and the furnace's together, because the furnace reheats while the coil takes the moisture out",
}
"""Whose water the shared drain has to carry."""

FROST_WORDS = {
    "can-freeze": "through a drain that can freeze",
    "outdoors": "out in the open",
}
"""Where the furnace's water can freeze."""

ROWS: tuple[UpkeepRow, ...] = (
    UpkeepRow(
        code="find-furnace",
        seasons=(AUTUMN,),
        condition="furnace-unknown",
        check="Look whether a condensing furnace or boiler drains into the same line, pump or floor drain.",
        why="Its water is acid and comes in winter, when the coil's drain may be dry, plugged or frozen.",
        minutes=3,
    ),
    UpkeepRow(
        code="fill-furnace-trap",
        seasons=(AUTUMN,),
        condition="has-furnace",
        check="Clean the furnace's own condensate trap and its hoses, fill it with water and see that nothing is "
        "loose, before the burner runs.",
        why="A dry or loose furnace trap lets flue gas, carbon monoxide in it, into the building, or stops the burner.",
        minutes=10,
        cautions=("lock-out-power", "flue-gas"),
    ),
    UpkeepRow(
        code="find-furnace-drain",
        seasons=(AUTUMN,),
        condition="sharing-unknown",
        check="Follow the furnace's drain to its end, and see whether it joins the coil's.",
        why="What a shared drain has to carry, and whether it may be drained or plugged for the winter, depends on it.",
        minutes=5,
    ),
    UpkeepRow(
        code="follow-furnace-drain",
        seasons=(AUTUMN,),
        condition="own-drain",
        check="Follow the furnace's own drain to its end: plastic all the way, falling, not in the cold, and not onto "
        "metal or concrete.",
        why="Its water is acid and comes in frost.",
        minutes=5,
        cautions=ACID,
    ),
    UpkeepRow(
        code="prove-shared-drain",
        seasons=(AUTUMN,),
        condition="shared-peak-known",
        check="Pour water in where the furnace joins the drain, and see it run freely: the drain has to carry "
        "{shared_peak:gal/h|L/h}, {larger_words}.",
        why="The coil brings {coil_peak:gal/h|L/h} in its peak hour, the furnace {furnace_rate:gal/h|L/h} while it "
        "burns; the season's slime is in the line when the heating starts.",
        minutes=5,
        basis=PHYSICS,
        cautions=ACID,
    ),
    UpkeepRow(
        code="prove-shared-drain",
        seasons=(AUTUMN,),
        condition="shared-peak-unknown",
        check="Pour water in where the furnace joins the drain, and see it run freely: the furnace brings "
        "{furnace_rate:gal/h|L/h} while it burns.",
        why="The season's slime is in the line when the heating starts. How much the coil brings is not known.",
        minutes=5,
        basis=PHYSICS,
        cautions=ACID,
    ),
    UpkeepRow(
        code="look-at-acid-pump",
        seasons=(AUTUMN,),
        condition="acid-into-pump",
        check="Read on the pump whether it is made for the acid water of condensing appliances; look at its float, "
        "check valve and tube for brittle or swollen parts, and run it once.",
        why="The furnace's water goes through it, and many condensate pumps are made for the coil's water only.",
        minutes=5,
        cautions=("water-and-electricity", *ACID),
    ),
    UpkeepRow(
        code="renew-neutralizer",
        seasons=(AUTUMN,),
        condition="neutralizer-fitted",
        check="Renew the neutralizer's media, rinse its case, and test what leaves it with pH paper: 6 or more.",
        why="The media are used up by a heating season: in a day the furnace makes {furnace_daily:gal|L} of water "
        "about as acid as vinegar.",
        minutes=15,
        cautions=ACID,
    ),
    UpkeepRow(
        code="fit-neutralizer",
        seasons=(AUTUMN,),
        condition="neutralizer-missing",
        check="Fit a neutralizer ahead of where the furnace's water meets metal pipe, concrete, a pump or a septic "
        "system.",
        why="Nothing neutralizes its water, {furnace_daily:gal|L} in a day, about as acid as vinegar.",
        minutes=45,
        cautions=ACID,
    ),
    UpkeepRow(
        code="find-neutralizer",
        seasons=(AUTUMN,),
        condition="neutralizer-unknown",
        check="Look for a neutralizer in the furnace's drain, and when its media were renewed; test what leaves the "
        "drain with pH paper.",
        why="The furnace makes {furnace_daily:gal|L} of acid water in a day, and nothing says what becomes of it.",
        minutes=5,
        cautions=ACID,
    ),
    UpkeepRow(
        code="find-why-dry",
        seasons=(WINTER,),
        condition="furnace-stays-dry",
        check="Look once whether water comes out of the furnace's drain while it burns.",
        why="With the numbers sent its flue gas leaves too hot to condense; a condensing furnace that stays dry wastes "
        "fuel, and its trap dries out.",
        minutes=5,
        cautions=("flue-gas",),
    ),
    UpkeepRow(
        code="watch-furnace-water",
        seasons=(WINTER,),
        condition="furnace-condenses",
        check="While the burner runs, see water come at the end of its drain: about {furnace_rate:gal/h|L/h}.",
        why="If none comes, it stands in the furnace or freezes on the way; the burner stops when it backs up.",
        minutes=3,
        cautions=("flue-gas", *ACID),
    ),
    UpkeepRow(
        code="look-for-ice",
        seasons=(WINTER,),
        condition="furnace-frost",
        check="In frost, look at the end of the drain for ice, and clear it before it closes the pipe.",
        why="The furnace's {furnace_rate:gal/h|L/h} run {frost_words} in the very weather that freezes them: a plug of "
        "ice stops the burner and backs water up into furnace and pan.",
        minutes=5,
        cautions=("freezing", *ACID),
        at_unit=False,
    ),
)
"""Rows of the furnace."""
