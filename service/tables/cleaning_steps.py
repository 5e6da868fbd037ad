"""The steps of cleaning a condensate drain, in the order of the work: one row each.

Order, minutes and tools are common practice; no source. Texts are templates like those of the
findings: ``{rinse:gal|L}`` is filled with a number in the reader's units.
"""

from service.tables.cleaning_proof import PROOF_STEPS
from service.tables.cleaning_step_row import StepRow

WORK_STEPS: dict[str, StepRow] = {
    "make-safe": StepRow(
        code="make-safe",
        place="unit",
        minutes=3,
        instruction="Turn the cooling call off, lock out and tag the unit's power, and cover what stands below the "
        "drain.",
        look_for="Water in the pan or below the unit, rust lines, wet insulation: how high has it stood?",
        tool="hand-tools",
        cautions=("lock-out-power",),
    ),
    "unplug-pump": StepRow(
        code="unplug-pump",
        place="pump-tank",
        minutes=1,
        instruction="Unplug the pump or isolate its circuit before a hand goes near its tank.",
        look_for="A dry plug and cord; a tank full to the safety float tells of a dead pump or a blocked tube.",
        cautions=("water-and-electricity",),
    ),
    "look": StepRow(
        code="look",
        place="line",
        minutes=3,
        instruction="Look from the pan to the far end before anything is opened: where water stands, where slime "
        "hangs, where the pipe sags.",
        look_for="Slime at the pan outlet and at the far end, a joint that drips, a second trap, a tube pinched by "
        "a tie.",
        cautions=("biological-slime",),
    ),
    "find-out": StepRow(
        code="find-out",
        place="line",
        minutes=2,
        instruction="Settle what was not known: {unknowns}. Where it is not as the plan assumes, ask for the plan "
        "again with what was found.",
        look_for="Anything that differs from the assumptions of this answer.",
    ),
    "float-switch-out-of-drain": StepRow(
        code="float-switch-out",
        place="trap",
        minutes=2,
        slowed=0.5,
        instruction="Take the float switch out of the drain and lay it clean and dry: brush, gas or suction would "
        "break it. Close its fitting again.",
        look_for="Slime on the float that would hold it up or down.",
    ),
    "float-switch-out-of-pan": StepRow(
        code="float-switch-out",
        place="pan",
        minutes=2,
        slowed=0.5,
        instruction="Take the float switch out of the pan and lay it clean and dry: brush, gas or suction would "
        "break it.",
        look_for="Slime on the float that would hold it up or down.",
    ),
    "float-switch-out-if-any": StepRow(
        code="float-switch-out",
        place="trap",
        minutes=2,
        slowed=0.5,
        instruction="Look for a float switch in the drain and in the pan; take it out and lay it clean and dry: brush, "
        "gas or suction would break it.",
        look_for="A cable at the trap or the pan; slime on the float.",
    ),
    "cut-off-welded-cap": StepRow(
        code="open-up",
        place="cleanout",
        minutes=0,
        slowed=6,
        instruction="Catch the water, cut the solvent-welded cap off and fit a cleanout whose cap turns by hand. Let "
        "the cement set for the time on its can before gas or suction goes on.",
        look_for="Shavings and cement in the bore: take them out before they go down the line.",
        tool="hand-tools",
        cautions=("solvent-cement",),
    ),
    "cut-in-cleanout": StepRow(
        code="open-up",
        place="trap",
        minutes=0,
        slowed=8,
        instruction="Catch the water, cut in a cleanout with a hand-tight cap on top of the trap, and a union at the "
        "unit, in {pipe_size} in pipe. Let the cement set for the time on its can before gas or suction goes on.",
        look_for="Fall towards the outlet kept; shavings and cement in the bore taken out.",
        tool="hand-tools",
        cautions=("solvent-cement",),
    ),
    "open-cleanout": StepRow(
        code="open-cleanout",
        place="cleanout",
        minutes=1,
        instruction="Turn the cap of the cleanout off by hand and catch what comes out.",
        look_for="Water standing up to the cap: the blockage is beyond it. A dry trap: it is before it, or the seal "
        "has dried out.",
        cautions=("biological-slime",),
    ),
    "open-union": StepRow(
        code="open-union",
        place="union",
        minutes=2,
        instruction="Hold the pan outlet steady, open the union at the unit and catch what runs out of both ends.",
        look_for="Water that stays in the pan: the pan outlet itself is blocked.",
        tool="hand-tools",
        cautions=("biological-slime",),
    ),
    "line-out-of-tank": StepRow(
        code="line-out-of-tank",
        place="far-end",
        minutes=1,
        instruction="Pull the end of the line out of the pump's tank and lead it into a bucket: nothing is blown or "
        "pulled through the pump.",
        look_for="Slime round the inlet of the tank.",
        cautions=("biological-slime",),
    ),
    "clean-pan": StepRow(
        code="clean-pan",
        place="pan",
        minutes=5,
        slowed=1,
        instruction="Lift or draw slime and water out of the pan, wipe it down to the outlet, and keep lumps out of "
        "the drain.",
        look_for="Rust, cracks, a pan that does not fall to its outlet, slime coming back from behind the coil.",
        cautions=("biological-slime", "never-mix-cleaners"),
    ),
    "brush-from-cleanout": StepRow(
        code="brush-from-cleanout",
        place="cleanout",
        minutes=4,
        slowed=3,
        instruction="Work the brush from the cleanout back to the pan outlet, through the trap, turning it, until it "
        "comes out clean; then into the line. It reaches {brush_length:ft|m}.",
        look_for="What it brings: slime, scale, insulation. A brush that stops hard has met a fitting, not slime.",
        tool="brush",
        cautions=("biological-slime",),
    ),
    "brush-through-union": StepRow(
        code="brush-through-union",
        place="union",
        minutes=3,
        slowed=2,
        instruction="Brush through the open union both ways: up into the pan outlet, and down through the trap into "
        "the line. It reaches {brush_length:ft|m}.",
        look_for="Light from the pan through the pan outlet.",
        tool="brush",
        cautions=("biological-slime",),
    ),
    "brush-from-pan-outlet": StepRow(
        code="brush-from-pan-outlet",
        place="pan-outlet",
        minutes=4,
        slowed=3,
        instruction="Work the brush from the pan down through the pan outlet and the trap, turning it. It reaches "
        "{brush_length:ft|m}.",
        look_for="Coil fins and wires beside the brush: do not bend or snag them.",
        tool="brush",
        cautions=("biological-slime",),
    ),
    "brush-from-far-end": StepRow(
        code="brush-from-far-end",
        place="far-end",
        minutes=3,
        slowed=2,
        instruction="Brush up the line from the far end as far as it goes, {brush_length:ft|m}, and draw the slime "
        "out.",
        look_for="Insects' nests and mud at the open end.",
        tool="brush",
        cautions=("biological-slime",),
    ),
    "close-for-gas": StepRow(
        code="close-openings",
        place="line",
        minutes=2,
        slowed=0.5,
        instruction="Close every opening between the gun and the blockage: {openings}. Gas comes back through any that "
        "is left open, into the pan or at whoever holds the gun.",
        look_for="Plugs that sit tight: {working_pressure:psi|kPa} pushes them out of a wet bore.",
        tool="plugs",
    ),
    "check-closed-for-gas": StepRow(
        code="close-openings",
        place="line",
        minutes=1,
        instruction="See that nothing is open between the gun and the blockage: gas comes back through any opening, "
        "into the pan or at whoever holds the gun.",
        look_for="A vent, a tee or a second cleanout that the description left out: plug it.",
    ),
    "push-regulated-gas": StepRow(
        code="push-regulated-gas",
        place="union",
        minutes=3,
        slowed=3,
        instruction="See that nobody is at the far end and catch or cover what comes out there. Seal the nozzle at the "
        "{gun_place}. Set the regulator to {working_pressure:psi|kPa} and no more; open the valve for "
        "{time_to_pressure:s} at a time, which brings the closed line up to pressure. When the blockage goes, blow the "
        "open line through for {sweep_time:s}. One drain takes {gas:ft3|L} of free gas.",
        look_for="A puff of slime and then an even breath at the far end. Water or gas at the pan: stop, an opening is "
        "not closed. A gauge that stays up: the blockage holds; stop and look for it.",
        tool="regulated-gas",
        cautions=("compressed-gas", "biological-slime", "hose-carried-water"),
    ),
    "push-cartridge-gas": StepRow(
        code="push-cartridge-gas",
        place="union",
        minutes=3,
        slowed=3,
        instruction="See that nobody is at the far end and catch or cover what comes out there. Seal the gun at the "
        "{gun_place}. Short bursts, with a wait after each: {share} of a cartridge brings the closed line to "
        "{working_pressure:psi|kPa}, where 1 is a whole one. Have {cartridges} at hand for this drain.",
        look_for="A puff of slime and then an even breath at the far end. Water or gas at the pan: stop, an opening is "
        "not closed. No breath after two bursts: the blockage holds; stop and look for it.",
        tool="cartridge-gun",
        cautions=("compressed-gas", "biological-slime"),
    ),
    "close-for-suction": StepRow(
        code="close-openings",
        place="line",
        minutes=1,
        instruction="Close the other openings, {openings}, so that the suction reaches the trap. The way in above "
        "the trap stays open: the air that carries the slime comes in there.",
        look_for="A hiss where air is drawn in.",
        tool="hands",
    ),
    "pull-with-vacuum": StepRow(
        code="pull-with-vacuum",
        place="far-end",
        minutes=4,
        slowed=3,
        instruction="Seal the hose of the wet/dry vacuum round the far end and let it run until only air comes; break "
        "the seal and close it again a few times, so that the line is jerked free.",
        look_for="Slime and water in the drum; the water in the pan going down.",
        tool="wet-dry-vacuum",
        cautions=("biological-slime", "vacuum-and-water"),
    ),
    "take-plugs-out": StepRow(
        code="take-plugs-out",
        place="line",
        minutes=1,
        instruction="Take out again what closed {closed}, and count: {plugs} went in.",
        look_for="A plug left in a drain is the next blockage.",
    ),
    "close-union": StepRow(
        code="close-union",
        place="union",
        minutes=2,
        instruction="Make up the union again, with its gasket clean and in place.",
        look_for="A drip when water runs.",
        tool="hand-tools",
    ),
    "cap-cleanout": StepRow(
        code="cap-cleanout",
        place="cleanout",
        minutes=1,
        instruction="Turn the cap of the cleanout on hand-tight.",
        look_for="No cement on the thread: the next one must get in too.",
    ),
    "rinse": StepRow(
        code="rinse",
        place="pan",
        minutes=2,
        slowed=1.5,
        instruction="Pour {rinse:gal|L} of clean water in at the {pour_place}, as much as trap and line hold, to carry "
        "off what is loose. If a cleaner is used, one only, and rinse it all out.",
        look_for="Clear water at the far end; water that backs up shows that the line is not free yet.",
        cautions=("biological-slime", "never-mix-cleaners"),
    ),
    "clean-tank": StepRow(
        code="clean-tank",
        place="pump-tank",
        minutes=5,
        instruction="With the pump unplugged, empty its tank into a bucket, wipe slime off walls, inlet and floats, "
        "and rinse the check valve.",
        look_for="Floats that move freely through their whole way; grit under the check valve.",
        cautions=("water-and-electricity", "biological-slime", "never-mix-cleaners"),
    ),
    "clean-tube": StepRow(
        code="clean-tube",
        place="pump-tube",
        minutes=5,
        instruction="Take the tube off at the check valve and flush it with {tube:gal|L} of clean water, as much as it "
        "holds, until it runs clear at both ends.",
        look_for="Tube pinched by a tie, kinked at a bend, or furred with slime: replace it.",
        cautions=("biological-slime",),
    ),
    "line-back-into-tank": StepRow(
        code="line-back-into-tank",
        place="far-end",
        minutes=1,
        instruction="Put the end of the line back into the pump's tank, with its fall and above the water.",
        look_for="An end that dips into the water, which would be a second trap.",
    ),
}
"""Steps up to the clean drain, by their keys."""

STEPS: dict[str, StepRow] = {**WORK_STEPS, **PROOF_STEPS}
"""Every step by its key."""

STEP_CODES = tuple(dict.fromkeys(row.code for row in STEPS.values()))
"""Codes of the steps, in the order of the work."""
