"""Upkeep of the trap: its water through the year, and what the fan does with it."""

from service.tables.upkeep.row import (
    AUTUMN,
    MID_SEASON,
    PHYSICS,
    SPRING,
    WINTER,
    UpkeepRow,
)

FILL = (
    "Fill the trap with water, about {trap_volume:in3|mL} from empty, before the fan is started, and see it stand "
    "there."
)
UNPLUG_AND_FILL = f"Take out the plug, if the drain was closed for the winter. {FILL}"
KEEP = (
    "Fill the trap to its outlet, {trap_volume:in3|mL} from empty. Where nobody can come back to refill it, close the "
    "pan outlet with a plug instead, and hang a tag at the thermostat: no cooling before the plug is out."
)
MEASURE_PRESSURE = (
    "With a clean filter, the doors shut and the fan at its highest speed, measure the pressure in the pan"
)

EVERY_DAY, EVERY_DAYS = "day", "{days} days"
"""How often a trap is refilled, after "every"."""

ROWS: tuple[UpkeepRow, ...] = (
    UpkeepRow(
        code="fill-trap",
        seasons=(SPRING,),
        condition="seal-lost-by-spring",
        check=UNPLUG_AND_FILL,
        why="Left alone, evaporation takes its seal after {earliest} to {latest} days, and it stands {idle} days "
        "without condensate: the fan would draw or blow air through it and keep the water from draining.",
        minutes=5,
        basis=PHYSICS,
    ),
    UpkeepRow(
        code="fill-trap",
        seasons=(SPRING,),
        condition="seal-may-be-lost",
        check=UNPLUG_AND_FILL,
        why="It stands {idle} days without condensate. Its seal lasts between {earliest} days, where moving air sweeps "
        "its ends, and {latest} days in still air: it may be dry.",
        minutes=5,
        basis=PHYSICS,
    ),
    UpkeepRow(
        code="fill-trap",
        seasons=(SPRING,),
        condition="seal-lasts",
        check=FILL,
        why="Its seal should have outlasted the {idle} days without condensate; filling it costs a jug of water and "
        "shows whether it leaks.",
        minutes=3,
    ),
    UpkeepRow(
        code="fill-trap",
        seasons=(SPRING,),
        condition="seal-not-followed",
        check=FILL,
        why="A trap that starts dry draws or blows air, and keeps the water from draining until condensate has filled "
        "it.",
        minutes=5,
    ),
    UpkeepRow(
        code="fill-trap",
        seasons=(SPRING,),
        condition="drained-trap",
        check=UNPLUG_AND_FILL,
        why="It was drained for the winter, because it can freeze.",
        minutes=5,
    ),
    UpkeepRow(
        code="fill-trap",
        seasons=(SPRING,),
        condition="trap-kept-full",
        check=FILL,
        why="Something refills it out of season; that it did so shows only when somebody looks.",
        minutes=3,
    ),
    UpkeepRow(
        code="find-trap",
        seasons=(SPRING,),
        condition="trap-unknown",
        check="Look whether there is a trap at the unit. Measure how far its outlet lies below the pan outlet, and how "
        "far the top of the bend lies below that outlet; fill it with water.",
        why="No trap was described: whether this drain works with the fan on, and how long it keeps air and gas out, "
        "cannot be said.",
        minutes=8,
    ),
    UpkeepRow(
        code="feel-for-air",
        seasons=(SPRING, MID_SEASON),
        condition="no-seal",
        check="With the fan on, hold a hand to the end of the drain and look into the pan: air drawn in or blown out, "
        "and water that is spat about or does not leave.",
        why="The drain has no water seal, so that air passes freely.",
        minutes=3,
        basis=PHYSICS,
    ),
    UpkeepRow(
        code="look-for-spitting",
        seasons=(MID_SEASON,),
        condition="seal-broken",
        check="With the fan on, listen for gurgling at the trap, and look for water spat off the pan onto the filter "
        "or into the duct.",
        why="Against {pressure:inH2O|Pa} the seal of {seal_depth:in|mm} does not hold: the fan passes air through it.",
        minutes=3,
        basis=PHYSICS,
    ),
    UpkeepRow(
        code="look-for-held-water",
        seasons=(MID_SEASON,),
        condition="held-water",
        check="With the fan on and the cooling running, look how deep the water stands in the pan; {held_water:in|mm} "
        "are to be expected. Stop the fan and watch the drain, the pump and the ceiling while it lets go.",
        why="The outlet drop of {outlet_drop:in|mm} is too small for {pressure:inH2O|Pa} of pan pressure, so that the "
        "pan holds water as long as the fan runs, and slime and rust with it.",
        minutes=10,
        basis=PHYSICS,
        cautions=("water-damage",),
    ),
    UpkeepRow(
        code="measure-pan-pressure",
        seasons=(SPRING,),
        condition="pressure-known",
        check=f"{MEASURE_PRESSURE}, and compare it with the {{pan_pressure:inH2O|Pa}} that is on record.",
        why="The trap is judged for that pressure; another coil, filter or fan setting changes it.",
        minutes=10,
        cautions=("lock-out-power",),
    ),
    UpkeepRow(
        code="measure-pan-pressure",
        seasons=(SPRING,),
        condition="pressure-unknown",
        check=f"{MEASURE_PRESSURE}; note whether it is suction.",
        why="Without it nobody can say whether the trap drains with the fan on and keeps its seal.",
        minutes=10,
        cautions=("lock-out-power",),
    ),
    UpkeepRow(
        code="change-filter",
        seasons=(SPRING, MID_SEASON),
        condition="suction",
        check="Look at the filter; change or clean it.",
        why="Dirt in the filter adds to the suction on the pan, {pan_pressure:inH2O|Pa} on record: it holds water up "
        "in the pan and pulls at the trap's seal. It also starves the coil of air until it ices.",
        minutes=5,
        cautions=("lock-out-power",),
    ),
    UpkeepRow(
        code="change-filter",
        seasons=(SPRING, MID_SEASON),
        condition="no-suction",
        check="Look at the filter; change or clean it.",
        why="A dirty filter starves the coil of air until it ices, and adds to the suction on a pan upstream of the "
        "fan.",
        minutes=5,
        cautions=("lock-out-power",),
    ),
    UpkeepRow(
        code="keep-seal",
        seasons=(AUTUMN,),
        condition="seal-lost-by-spring",
        check=KEEP,
        why="From full, the seal is gone after {earliest} to {latest} days, and the cooling starts again after {idle} "
        "days.",
        minutes=5,
        basis=PHYSICS,
    ),
    UpkeepRow(
        code="keep-seal",
        seasons=(AUTUMN,),
        condition="seal-may-be-lost",
        check=KEEP,
        why="From full, the seal lasts between {earliest} days, where moving air sweeps the trap's ends, and {latest} "
        "days in still air; the cooling starts again after {idle} days.",
        minutes=5,
        basis=PHYSICS,
    ),
    UpkeepRow(
        code="keep-seal",
        seasons=(AUTUMN,),
        condition="seal-lasts",
        check="Fill the trap to its outlet, {trap_volume:in3|mL} from empty.",
        why="From full, its seal outlasts the {idle} days without condensate: at the earliest it is gone after "
        "{earliest} days.",
        minutes=3,
        basis=PHYSICS,
    ),
    UpkeepRow(
        code="keep-seal",
        seasons=(AUTUMN,),
        condition="seal-not-followed",
        check="Fill the trap to its outlet, {trap_volume:in3|mL} from empty.",
        why="No condensate comes to refill it until the cooling starts again.",
        minutes=3,
    ),
    UpkeepRow(
        code="test-refilling",
        seasons=(AUTUMN, WINTER),
        condition="trap-kept-full",
        check="Make the primer, or whatever refills the trap, run once, and see water arrive in the trap.",
        why="The seal depends on it as long as no condensate comes.",
        minutes=5,
    ),
    UpkeepRow(
        code="refill-trap",
        seasons=(WINTER,),
        condition="refill-helps",
        check="Pour water into the trap at least every {interval}, up to {trap_volume:in3|mL}, unless the pan outlet "
        "was plugged. Somebody in the building can do it from a jug.",
        why="Full and with moving air at its ends, the trap loses its seal after {earliest} days at the earliest; "
        "{idle} days pass without condensate.",
        minutes=3,
        basis=PHYSICS,
    ),
)
"""Rows of the trap."""
