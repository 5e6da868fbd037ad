"""Upkeep of the line: clean, falling, open at its end, and safe in frost."""

from service.tables.upkeep.row import (
    AUTUMN,
    CLEARING,
    MID_SEASON,
    PHYSICS,
    SLIME,
    SPRING,
    WINTER,
    UpkeepRow,
)

GROWTH = (
    "Slime grows back fast from whatever is left in the line, with {growth} of cooling ahead. It takes about four "
    "times as long as through a cleanout that opens by hand."
)

GROWTH_NOTE = (
    "Slime builds up through {growth} of cooling in a year, and regrows fast from whatever is left in the line. Pan "
    "tablets slow it down; they do not replace cleaning."
)
GROWTH_SINCE = (
    GROWTH_NOTE + " Since the last cleaning, {since} ago, it has had {least} to {most} months of cooling to grow."
)
"""What a season of cooling does to the drain, in words."""

A_MONTH, SOME_MONTHS = "{count} month", "{count} months"
"""A count of months, in words."""

ROWS: tuple[UpkeepRow, ...] = (
    UpkeepRow(
        code="clean-line",
        seasons=(SPRING,),
        condition="cleanout-removable",
        check="Brush from the cleanout back to the pan outlet and through the trap, push or pull the rest out, and "
        "rinse pan, trap and line.",
        why="Slime grows back fast from whatever is left in the line, with {growth} of cooling ahead.",
        minutes=20,
        cautions=CLEARING,
    ),
    UpkeepRow(
        code="clean-line",
        seasons=(SPRING,),
        condition="cleanout-welded",
        check="Cut the solvent-welded cleanout open, brush back to the pan outlet and through the trap, push or pull "
        "the rest out, rinse, and fit a cleanout whose cap turns by hand.",
        why=GROWTH,
        minutes=80,
        cautions=CLEARING,
    ),
    UpkeepRow(
        code="clean-line",
        seasons=(SPRING,),
        condition="no-cleanout",
        check="Cut a cleanout with a hand-tight cap in on top of the trap; then brush back to the pan outlet and "
        "through the trap, push or pull the rest out, and rinse.",
        why=GROWTH + " A drain has to be clearable without cutting it.",
        minutes=80,
        basis="IMC 2021 307.2.5",
        cautions=CLEARING,
    ),
    UpkeepRow(
        code="clean-line",
        seasons=(SPRING,),
        condition="cleanout-unknown",
        check="Look for a cleanout and see whether its cap turns by hand. Clean pan, trap and line through it: brush, "
        "push or pull, rinse.",
        why="Slime grows back fast from whatever is left in the line, with {growth} of cooling ahead. "
        "Without a cleanout that opens by hand it takes about four times as long.",
        minutes=20,
        cautions=CLEARING,
    ),
    UpkeepRow(
        code="sight-along-line",
        seasons=(SPRING,),
        condition="always",
        check="Sight along the line with a level: it falls all the way, at least 1/8 in per ft (1 %), usually 1/4 in "
        "per ft (2 %); no hanger is off, no joint split, nothing stands on it.",
        why="Frost, other trades and its own weight move a line over the winter, and every sag holds water and slime.",
        minutes=10,
    ),
    UpkeepRow(
        code="correct-fall",
        seasons=(SPRING,),
        condition="line-falls-short",
        check="Correct the line where it does not fall or holds water, as the findings tell, before the cooling "
        "starts; then see it run empty after the pour test.",
        why="It was measured not to fall all the way: water stands in it, slime settles there first, and the pan "
        "drains only once it has backed up.",
        minutes=60,
        basis=PHYSICS,
    ),
    UpkeepRow(
        code="add-supports",
        seasons=(SPRING,),
        condition="supports-too-wide",
        check="Add supports until none is more than 4 ft (1.2 m) from the next, then look at the fall again.",
        why="Supports stand {support_spacing:ft|m} apart: the pipe sags between them, most of all on warm days.",
        minutes=30,
        basis="IMC 2021 Table 305.4",
    ),
    UpkeepRow(
        code="pour-test",
        seasons=(SPRING,),
        condition="gravity-peak-known",
        check="Pour water into the pan until it runs freely at the discharge, at least twice as fast as the "
        "{peak:gal/h|L/h} of the peak hour; no water may stand in the pan afterwards.",
        why="It proves trap and line together, before the cooling depends on them.",
        minutes=10,
        cautions=("water-damage",),
    ),
    UpkeepRow(
        code="pour-test",
        seasons=(SPRING,),
        condition="gravity-peak-unknown",
        check="Pour water into the pan until it runs freely at the discharge; no water may stand in the pan "
        "afterwards.",
        why="It proves trap and line together, before the cooling depends on them.",
        minutes=10,
        cautions=("water-damage",),
    ),
    UpkeepRow(
        code="clear-outlet",
        seasons=(SPRING, AUTUMN),
        condition="ends-outdoors",
        check="Clear the line's end of leaves, mud and insect nests, and see that it stands above the ground.",
        why="It ends in the open, where nests and leaves plug it while no water runs.",
        minutes=3,
        at_unit=False,
    ),
    UpkeepRow(
        code="find-outlet",
        seasons=(SPRING,),
        condition="discharge-unknown",
        check="Follow the line to its end: an approved place, with an air gap, not a sanitary or soil line.",
        why="Nothing says where the water goes; a dry trap on a sanitary line lets sewer gas into the air.",
        minutes=5,
    ),
    UpkeepRow(
        code="look-for-slime",
        seasons=(MID_SEASON,),
        condition="always",
        check="Look at pan, pan outlet and trap for slime and rust, and wipe or brush out what there is. Renew pan "
        "tablets where they are used, away from the outlet.",
        why="Slime builds up through {growth} of cooling. Tablets slow it down; they do not replace cleaning.",
        minutes=10,
        cautions=("lock-out-power", "biological-slime", "never-mix-cleaners"),
    ),
    UpkeepRow(
        code="watch-discharge",
        seasons=(MID_SEASON,),
        condition="gravity-peak-known",
        check="On a humid day, after half an hour of running, look at the line's end: up to {peak:gal/h|L/h} are to be "
        "expected, in a steady trickle.",
        why="Much less, or bursts when the fan stops, tells that water is held up on the way.",
        minutes=3,
        at_unit=False,
    ),
    UpkeepRow(
        code="watch-discharge",
        seasons=(MID_SEASON,),
        condition="gravity-peak-unknown",
        check="On a humid day, after half an hour of running, look at the line's end for a steady trickle; catch it "
        "in a jug for some minutes.",
        why="Nothing, or bursts when the fan stops, tells that water is held up on the way; the jug tells how much the "
        "drain has to carry.",
        minutes=8,
        at_unit=False,
    ),
    UpkeepRow(
        code="rinse-pan",
        seasons=(AUTUMN,),
        condition="always",
        check="Wash the pan and rinse pan, trap and line with water, then see the line run empty.",
        why="The season's slime dries hard over the winter, and what is left grows again in the first warm week.",
        minutes=15,
        cautions=("lock-out-power", *SLIME, "never-mix-cleaners"),
    ),
    UpkeepRow(
        code="drain-for-winter",
        seasons=(AUTUMN,),
        condition="drain-for-winter",
        check="Make sure that no furnace drains into it. Then let all water out of trap, sags and pump, close the pan "
        "outlet with a plug, and hang a tag at the thermostat: no cooling before the plug is out.",
        why="Trap or line can freeze. Ice breaks pipe and blocks the drain; an empty trap without a plug would let the "
        "heating fan draw air through it.",
        minutes=15,
        cautions=("freezing",),
    ),
    UpkeepRow(
        code="protect-from-frost",
        seasons=(AUTUMN,),
        condition="frost-and-water",
        check="Do not drain it. Insulate whatever stands in the cold, with heat tape under the insulation; switch the "
        "tape on and feel it get warm.",
        why="Trap or line can freeze, and water has to run or stand there in the winter.",
        minutes=15,
        cautions=("freezing",),
    ),
    UpkeepRow(
        code="find-frost",
        seasons=(AUTUMN,),
        condition="frost-unknown",
        check="Follow trap and line and see whether any of it stands where it freezes: attic, crawl space, outside "
        "wall, outdoors.",
        why="Nothing says whether it can freeze; what can must be drained, or insulated and heat-traced.",
        minutes=5,
    ),
    UpkeepRow(
        code="look-after-frost",
        seasons=(SPRING,),
        condition="can-freeze",
        check="Look for split pipe, pushed joints and a cracked pump tank or trap before water is poured in.",
        why="Trap or line stand below freezing at times, and a crack shows only when it leaks.",
        minutes=5,
        cautions=("water-damage",),
    ),
    UpkeepRow(
        code="feel-heat-tape",
        seasons=(WINTER,),
        condition="frost-and-water",
        check="In frost, feel whether the heat tape is warm and whether water still comes at the line's end.",
        why="A tripped breaker or a dead tape shows when the drain has frozen.",
        minutes=5,
        cautions=("freezing",),
    ),
    UpkeepRow(
        code="keep-sewer-gas-out",
        seasons=(AUTUMN, WINTER),
        condition="sanitary-direct",
        check="Look whether water stands in the trap, and smell at the unit with the fan on. Until the drain ends "
        "over an air gap, the trap must never be empty.",
        why="The drain connects directly to a {place}; without condensate only water that somebody pours in keeps "
        "sewer gas out of the air.",
        minutes=3,
        cautions=("sewer-gas",),
    ),
    UpkeepRow(
        code="look-for-water",
        seasons=(WINTER,),
        condition="always",
        check="Look once into the pan and under the unit: both should be dry while nothing cools.",
        why="Water there in winter comes from a humidifier, a roof, a furnace or another unit, and meets a drain that "
        "nobody watches.",
        minutes=3,
        cautions=("lock-out-power",),
    ),
)
"""Rows of the line."""
