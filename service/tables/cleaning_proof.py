"""The last steps of cleaning a condensate drain: trap refilled, drain proved, safety back; and what counts as a pass.

Common practice; no source.
"""

from service.tables.cleaning_step_row import StepRow

PROOF_STEPS: dict[str, StepRow] = {
    "refill-trap": StepRow(
        code="refill-trap",
        place="pan",
        minutes=1,
        instruction="Pour {trap_volume:in3|mL} of clean water in at the {pour_place}: that fills the trap to its "
        "outlet.",
        look_for="Water that stands in the trap and stays.",
    ),
    "plug-pump-in": StepRow(
        code="plug-pump-in",
        place="pump-tank",
        minutes=1,
        instruction="Close the tank, dry hands and cord, and plug the pump in again.",
        look_for="A pump that stays off while its tank is empty.",
        cautions=("water-and-electricity",),
    ),
    "closing-test": StepRow(
        code="closing-test",
        place="pan",
        minutes=1,
        instruction="Pour {rest:gal|L} in at the {pour_place} at a steady {rate:gal/min|L/min}, {rate_to_peak} times "
        "the flow of the peak hour, and take the time until it shows at the discharge.",
        look_for="Water that rises in the pan or at the cleanout, gurgling, a drip at any joint.",
    ),
    "closing-test-without-peak": StepRow(
        code="closing-test",
        place="pan",
        minutes=1,
        instruction="Pour {rest:gal|L} in at the {pour_place} at a steady {rate:gal/min|L/min}, and take the time "
        "until it shows at the discharge.",
        look_for="Water that rises in the pan or at the cleanout, gurgling, a drip at any joint.",
    ),
    "float-switch-back": StepRow(
        code="float-switch-back",
        place="trap",
        minutes=2,
        slowed=0.5,
        instruction="Put the clean float switch back, upright and at its old height, its wires as they were.",
        look_for="A float that moves freely and a fitting that is tight.",
    ),
    "power-back": StepRow(
        code="power-back",
        place="unit",
        minutes=3,
        instruction="Doors on, lock off, power on, cooling call on. Watch the pan with the fan running: suction that "
        "holds water back shows only now.",
        look_for="Water that stands in the pan while the fan runs and leaves when it stops: the trap's outlet drop is "
        "too small.",
        tool="hand-tools",
    ),
    "trip-test": StepRow(
        code="trip-test",
        place="trap",
        minutes=2,
        instruction="With the unit cooling, lift the float of the switch: the cooling call must stop. Let it down: the "
        "call must come back.",
        look_for="A compressor or fan that goes on: the switch is not wired to stop the call. Do not leave it so.",
        cautions=("water-and-electricity",),
    ),
    "trip-test-at-pump": StepRow(
        code="trip-test",
        place="pump-tank",
        minutes=3,
        instruction="With the unit cooling, unplug the pump and pour water into its tank until the safety float lifts: "
        "the cooling call must stop. Plug the pump in: it empties the tank and the call must come back.",
        look_for="A compressor or fan that goes on: the safety float is not wired to stop the call. Do not leave it "
        "so.",
        cautions=("water-and-electricity",),
    ),
    "trip-test-at-pump-measured": StepRow(
        code="trip-test",
        place="pump-tank",
        minutes=3,
        instruction="With the unit cooling, unplug the pump and pour up to {safety_volume:gal|L} into its empty tank "
        "until the safety float lifts: the cooling call must stop. Plug the pump in: it empties the tank and the call "
        "must come back.",
        look_for="A compressor or fan that goes on: the safety float is not wired to stop the call. Do not leave it "
        "so.",
        cautions=("water-and-electricity",),
    ),
}
"""Steps by their keys, in the order of the work."""

PROVED_BY_GRAVITY = (
    "Water shows at the discharge after about {shows:s}, at the latest after {latest:s}; it runs freely for "
    "{proof_time:s} more while the pour goes on; nothing rises in the pan or at the cleanout; and when it has stopped "
    "dripping, at least {least:gal|L} of what followed the trap's filling have come out."
)
PROVED_AT_A_PUMP = (
    "The pump starts, and water shows at the end of its tube about {shows:s} after the pour began, at the latest after "
    "{latest:s}; the tank never rises to the safety float; the pump stops by itself; and at least {least:gal|L} have "
    "come out."
)
PROVED_WITHOUT_A_TIME = (
    "The pump starts by itself, water comes out at the end of its tube in a steady stream, the tank never rises to the "
    "safety float, the pump stops by itself, and at least {least:gal|L} have come out."
)
