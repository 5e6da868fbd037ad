"""The causes: what each is, and what to do about it. Basis of every row: common practice."""

from service.tables.triage.scale import CauseRow

_SLIME = ("biological-slime", "never-mix-cleaners")
_CLEARING = ("compressed-gas", "gas-displaces-air", *_SLIME)
_PUMP = ("water-and-electricity",)

DRAIN: tuple[CauseRow, ...] = (
    CauseRow(
        code="line-blocked",
        name="Drain line blocked",
        words="Slime, dirt or an insect nest plugs the line: the pan fills up and nothing comes out at the far end.",
        remedy="Clear the line from the cleanout both ways, or pull it with a wet/dry vacuum at the far end; rinse it, "
        "refill the trap, and pour water until it runs freely at the discharge.",
        cautions=_CLEARING,
    ),
    CauseRow(
        code="line-partly-blocked",
        name="Drain line partly blocked",
        words="Slime narrows the line: it carries an ordinary day, and backs up when much water comes at once.",
        remedy="Brush and rinse the whole line, not only the part that blocked, because slime grows back fast "
        "from what "
        "is left; then pour water faster than the unit makes it and see that none stands in the pan.",
        cautions=_CLEARING,
        operation="/v1/drain-sizing",
    ),
    CauseRow(
        code="trap-blocked",
        name="Trap or pan outlet blocked",
        words="Slime and dirt settle in the bend of the trap or in the pan outlet: the pan stands full while the line "
        "behind it is free.",
        remedy="Take the cap off the cleanout, brush back to the pan outlet and through the bend, flush, and "
        "refill the "
        "trap before the fan starts.",
        cautions=_SLIME,
    ),
    CauseRow(
        code="line-frozen",
        name="Trap or line frozen",
        words="Ice plugs the part of the drain that stands in the cold, and the next thaw or cooling call floods.",
        remedy="Thaw it with warm water, never with a flame; then insulate and heat-trace it, or reroute it indoors.",
        cautions=("freezing",),
    ),
    CauseRow(
        code="line-back-pitched",
        name="Line too flat or running uphill",
        words="Water stands in the line, slime settles where it stands, and the pan drains only once it has backed up.",
        remedy="Re-lay the line to fall all the way: at least 1/8 in per ft (1 %), usually 1/4 in per ft (2 %), with a "
        "support at least every 4 ft (1.2 m).",
        operation="/v1/drain-survey",
    ),
    CauseRow(
        code="second-trap",
        name="Second trap or sag that locks air",
        words="A second trap, or a sag deep enough to fill the pipe, closes in a plug of air that the little height of "
        "water in the pan cannot push out.",
        remedy="Take the second trap out or support the sag; where both must stay, vent the line between the two.",
        operation="/v1/drain-survey",
    ),
    CauseRow(
        code="line-too-small",
        name="Line too small for the water",
        words="Even clean, the line cannot carry the peak hour of all the units on it.",
        remedy="Replace it with the size its total capacity asks for, never smaller than the pan outlet or 3/4 in, or "
        "split the units over two lines.",
        operation="/v1/drain-sizing",
    ),
    CauseRow(
        code="joint-leak",
        name="Leaking or parted joint in the line",
        words="A joint was never glued, has cracked, or was pulled apart: water leaves the line on the way.",
        remedy="Dry the line, pour water and follow it with a light until the drop shows; remake that joint and "
        "support "
        "the pipe on both sides of it.",
    ),
    CauseRow(
        code="receptor-backed-up",
        name="The place it drains into is backed up",
        words="The floor drain, sink or sewer at the end of the line is full, so the line cannot empty.",
        remedy="Clear the receptor or have a plumber clear it, and end the condensate line above its flood rim with an "
        "air gap.",
        cautions=("sewer-gas",),
    ),
)

TRAP: tuple[CauseRow, ...] = (
    CauseRow(
        code="outlet-drop-too-small",
        name="Trap outlet too high: suction holds the water up",
        words="The trap's outlet lies too little below the pan outlet for the fan's suction: water stands in the "
        "pan while "
        "the fan runs, and lets go all at once when it stops.",
        remedy="Measure the suction at the pan with the fan on and a dirty filter, and rebuild the trap with an outlet "
        "drop of that many inches of water plus 1 in (25 mm).",
        operation="/v1/trap-check",
    ),
    CauseRow(
        code="trap-dry",
        name="Dry trap",
        words="The trap's water evaporated while no condensate refilled it: the fan draws air, and whatever the "
        "air smells "
        "of, in through the drain.",
        remedy="Refill the trap before the fan starts; where it dries out every season, build a deeper seal, or "
        "give it "
        "a primer, and end a drain on a sewer over an air gap instead.",
        cautions=("sewer-gas",),
        operation="/v1/trap-dry-out",
    ),
    CauseRow(
        code="trap-missing",
        name="No trap",
        words="Nothing stops the fan from drawing air in through the drain: the air stops the water, spits it "
        "about, and "
        "brings in the smell of wherever the line ends.",
        remedy="Build a trap of the unit's own, with the outlet drop and the seal that the pan's suction needs, "
        "and fill "
        "it before the fan starts.",
        cautions=("sewer-gas",),
        operation="/v1/trap-sizing",
    ),
    CauseRow(
        code="seal-too-shallow",
        name="Seal too shallow: the fan pulls the trap empty",
        words="The trap holds less water than the suction needs: each start pulls the seal out, and air rushes "
        "through.",
        remedy="Rebuild the trap with a seal at least half as deep as the suction in inches of water plus 1/2 in "
        "(13 mm).",
        operation="/v1/trap-check",
    ),
    CauseRow(
        code="trap-shared",
        name="One trap for several units",
        words="Units with different pressures share one trap: the stronger fan draws air or water through the drain of "
        "the weaker one.",
        remedy="Give each unit a trap of its own and join the lines downstream of the traps.",
    ),
    CauseRow(
        code="other-drain-dry",
        name="A floor drain or fixture nearby is dry",
        words="The smell comes from another trap in the room that has dried out, and the return air spreads it.",
        remedy="Pour water into every floor drain, sink and standpipe near the unit and its return; keep the "
        "seldom-used "
        "ones filled.",
        cautions=("sewer-gas",),
    ),
)

UNIT: tuple[CauseRow, ...] = (
    CauseRow(
        code="pan-cracked",
        name="Pan cracked, rusted through or loose at its outlet",
        words="Water leaves through the pan itself instead of through its outlet.",
        remedy="Dry the pan, pour water in with the outlet plugged, and find the leak; replace the pan, or seal it for "
        "the season where the maker allows that.",
        cautions=("lock-out-power",),
    ),
    CauseRow(
        code="unit-out-of-level",
        name="Unit out of level",
        words="The pan slopes away from its outlet: water stands at the low end and runs over there.",
        remedy="Level the unit, or tip it slightly toward the pan outlet as its instructions say; check again "
        "with water "
        "in the pan.",
    ),
    CauseRow(
        code="water-off-the-coil",
        name="Water blown off the coil",
        words="Air passes the coil too fast, or only through its clean part, and carries drops past the pan into "
        "the duct.",
        remedy="Clean the coil, then bring the air flow down to what the coil is made for, usually 350 to 450 "
        "cfm a ton "
        "(47 to 60 L/s a kW); fit an eliminator where the speed cannot come down.",
        cautions=("lock-out-power",),
    ),
    CauseRow(
        code="sweating",
        name="Sweating duct, cabinet or line",
        words="A cold surface without whole insulation is below the dew point of the air around it: this water "
        "never was "
        "in the pan.",
        remedy="Insulate the sweating part with a whole vapor retarder, seal cold air leaks near it, and bring the "
        "humidity around it down.",
    ),
    CauseRow(
        code="dirty-filter",
        name="Dirty filter",
        words="A clogged filter raises the suction at the pan, which holds water up, and starves the coil of air "
        "until it "
        "ices.",
        remedy="Change the filter, then see whether the drain works with the fan on; a trap that needs a clean "
        "filter to "
        "drain still wants more outlet drop.",
        cautions=("lock-out-power",),
        operation="/v1/trap-check",
    ),
    CauseRow(
        code="coil-iced",
        name="Iced coil: the melt comes faster than it drains",
        words="Too little air or too little refrigerant let the coil ice up; the ice melts within an hour or two and "
        "brings many times the usual water at once.",
        remedy="Find why it iced: filter, dirty coil, blower and closed dampers first, then the refrigerant "
        "charge. Prove "
        "that the drain takes several times the peak rate.",
        cautions=("refrigerant-work",),
        operation="/v1/condensate-rate/from-coil",
    ),
    CauseRow(
        code="slime-in-pan",
        name="Slime in pan, trap or on the coil",
        words="Wet dust grows slime that smells musty whenever the fan starts.",
        remedy="Clean coil, pan, trap and line in one visit, see that no water is left standing in the pan, and "
        "plan the "
        "next cleaning before the growth is back.",
        cautions=_SLIME,
    ),
    CauseRow(
        code="too-much-water",
        name="More water than the drain was made for",
        words="Outdoor air leaks into the return, a door stands open, or another unit drains into this pan: the "
        "peak is "
        "above what drain or pump were sized for.",
        remedy="Catch the water in a jug for ten minutes and compare it with the computed peak; seal the return, "
        "stop the "
        "other inflow, or size drain and pump for what was caught.",
        operation="/v1/condensate-rate/from-air-states",
    ),
    CauseRow(
        code="other-water-source",
        name="Water from something else",
        words="A condensing furnace, a humidifier, a pipe or the roof wets the same place.",
        remedy="Dry the place, turn the cooling off and see whether it gets wet again; then look at furnace drain, "
        "humidifier, plumbing and roof above it.",
    ),
    CauseRow(
        code="no-water-made",
        name="Nothing wrong: the coil makes no water now",
        words="In dry air the coil stays above the dew point: there is nothing to drain.",
        remedy="Pour water into the pan until it runs at the discharge: that proves the drain without waiting "
        "for humid "
        "weather.",
        harmless=True,
    ),
)

CONTROL: tuple[CauseRow, ...] = (
    CauseRow(
        code="safety-open-on-full-tank",
        name="Full pump tank holds the safety float open",
        words="The tank stands full, so the safety float has stopped the cooling call while the fan goes on: it "
        "does its "
        "job.",
        remedy="Leave the float wired. Empty the tank, then find why the pump did not.",
        cautions=("do-not-bridge-safety", *_PUMP),
        go_on_with="pump-tank-full",
    ),
    CauseRow(
        code="safety-open-on-full-pan",
        name="Full pan holds the cut-out open",
        words="Water stands in the pan or the drain up to the cut-out, which has stopped the cooling call while "
        "the fan "
        "goes on: it does its job.",
        remedy="Leave the cut-out wired. Take the water out, then find why the pan did not drain.",
        cautions=("do-not-bridge-safety",),
        go_on_with="water-at-pan",
    ),
    CauseRow(
        code="safety-float-stuck",
        name="Safety float stuck up, or its wiring open",
        words="The float hangs on slime or on the wall, or a wire is off: the cooling is stopped without any water.",
        remedy="Clean and free the float, mend the wiring, and trip-test it with water: up must stop the "
        "cooling, down must "
        "start it.",
        cautions=("do-not-bridge-safety", "lock-out-power"),
    ),
    CauseRow(
        code="cooling-side-fault",
        name="Fault of the cooling itself, not of the drain",
        words="Thermostat, control, contactor, capacitor, compressor or charge: the drain has nothing to do with it.",
        remedy="Prove that pan and tank are empty and the float is closed, then go on with the cooling's own fault "
        "finding.",
        cautions=("lock-out-power", "refrigerant-work"),
    ),
    CauseRow(
        code="pump-tank-overflows",
        name="Pump tank runs over",
        words="The pump does not keep up or does not run, and the tank's water goes where the pump stands.",
        remedy="Empty the tank and find why the pump did not; see that its safety float is wired and stops the "
        "cooling.",
        cautions=_PUMP,
        go_on_with="pump-tank-full",
        operation="/v1/overflow-time",
    ),
)

PUMP: tuple[CauseRow, ...] = (
    CauseRow(
        code="pump-no-power",
        name="Pump has no power",
        words="Cord pulled, outlet switched, breaker or ground-fault outlet tripped: the tank fills and nothing runs.",
        remedy="Find out why it tripped before switching it on again; give the pump an outlet that nobody "
        "switches off.",
        cautions=_PUMP,
    ),
    CauseRow(
        code="pump-motor-failed",
        name="Pump motor dead or jammed",
        words="The motor gets power and a raised float and does not turn, or only hums.",
        remedy="Replace the pump, and find what killed this one before the new one runs: pinched tube, too much lift, "
        "slime, short cycling.",
        cautions=_PUMP,
    ),
    CauseRow(
        code="pump-float-stuck",
        name="Pump float stuck",
        words="Slime or the tank wall holds the pump's own float: down, it never starts; up, it never stops.",
        remedy="Clean tank and float until the float moves by itself over its whole way, and set the tank level.",
        cautions=("biological-slime", *_PUMP),
    ),
    CauseRow(
        code="pump-tube-pinched",
        name="Tube pinched or kinked",
        words="A tie, a staple or a tight bend squeezes the tube: the motor works against nearly closed flow, "
        "runs long and "
        "hot, and fails early.",
        remedy="Cut the tie or open the bend, replace the flattened length, and time a pump-out before and after.",
        cautions=_PUMP,
        operation="/v1/pump-restriction",
    ),
    CauseRow(
        code="pump-tube-blocked",
        name="Tube blocked with slime",
        words="Slime in the tube, at its end or in the check valve stops the flow while the motor runs.",
        remedy="Replace the tube or flush it out into a bucket, clean the check valve and the tank, and time a "
        "pump-out.",
        cautions=("biological-slime", *_PUMP),
        operation="/v1/pump-restriction",
    ),
    CauseRow(
        code="pump-lift-too-high",
        name="Too much lift or tube for this pump",
        words="Height and friction leave the pump little or no flow: it runs on, labors and wears out.",
        remedy="Compare lift and tube with the pump's leaflet; lead the tube to a lower or nearer place, use a "
        "wider tube, or "
        "fit a stronger pump.",
        cautions=_PUMP,
        operation="/v1/pump-run",
    ),
    CauseRow(
        code="check-valve-failed",
        name="Check valve missing, leaking or stuck",
        words="Without a tight check valve the tube runs back into the tank at every stop and is pumped again; "
        "stuck shut, "
        "it stops the flow.",
        remedy="Fit a new check valve at the pump outlet, the right way round, and watch that the level stays "
        "down after a "
        "stop.",
        cautions=_PUMP,
        operation="/v1/pump-run",
    ),
    CauseRow(
        code="pump-floats-too-close",
        name="Start and stop levels too close",
        words="The float switches over so little water that the pump starts again and again.",
        remedy="Set start and stop further apart, level the tank, or fit a pump with a larger tank.",
        cautions=_PUMP,
        operation="/v1/pump-run",
    ),
    CauseRow(
        code="pump-worn",
        name="Pump worn or its impeller clogged",
        words="The motor turns and little water moves, even with the tube off.",
        remedy="Clean inlet screen and impeller; if the stream stays weak with the tube off, replace the pump.",
        cautions=("biological-slime", *_PUMP),
        operation="/v1/pump-restriction",
    ),
)

CAUSES: dict[str, CauseRow] = {row.code: row for group in (DRAIN, TRAP, UNIT, CONTROL, PUMP) for row in group}
"""Every cause by its code."""
