"""Observations at the condensate pump, its tank and its tube. Basis: common practice and physics."""

from service.tables.triage.scale import ObservationRow, Speaks, ValueRow

_DISCHARGE = ("pump-tube-pinched", "pump-tube-blocked", "pump-lift-too-high")
_DEAD = ("pump-no-power", "pump-motor-failed")
_ALL = (
    *_DISCHARGE,
    *_DEAD,
    "pump-float-stuck",
    "pump-worn",
    "check-valve-failed",
    "pump-floats-too-close",
    "safety-open-on-full-tank",
    "pump-tank-overflows",
)
_WATER = ("water-and-electricity",)

PUMP: tuple[ObservationRow, ...] = (
    ObservationRow(
        name="pump",
        question="Is there a condensate pump?",
        how="Follow the drain from the pan: a pump is a small tank with a cord and a thin tube going up.",
        minutes=2.0,
        values=(
            ValueRow(
                value="fitted",
                words="There is a condensate pump.",
                speaks_for=Speaks("slight", _ALL, "There is a pump that can fail."),
            ),
            ValueRow(
                value="none",
                words="There is no condensate pump.",
                speaks_against=Speaks("decisive", _ALL, "There is no pump."),
            ),
        ),
    ),
    ObservationRow(
        name="pump_motor",
        question="What does the pump do when water stands in its tank?",
        how="Pour water into the tank until its float should start it, hands and tools out of the tank, and "
        "watch one run.",
        minutes=5.0,
        needs_pump=True,
        not_for=("repeated-pump-failure",),  # the motor has failed already, whatever killed it
        cautions=_WATER,
        values=(
            ValueRow(
                value="silent",
                words="The pump stays silent with water in its tank.",
                speaks_for=Speaks("strong", (*_DEAD, "pump-float-stuck"), "Nothing starts it, or nothing turns."),
                speaks_against=Speaks(
                    "strong",
                    (*_DISCHARGE, "pump-worn", "check-valve-failed", "pump-floats-too-close", "too-much-water"),
                    "The motor would run.",
                ),
            ),
            ValueRow(
                value="hums",
                words="The pump hums and does not turn.",
                speaks_for=Speaks("strong", ("pump-motor-failed",), "It has power and is jammed or burnt."),
                speaks_against=Speaks(
                    "strong", ("pump-no-power", "pump-float-stuck"), "Power and float have done their part."
                ),
            ),
            ValueRow(
                value="runs-and-empties",
                words="The pump starts, empties its tank and stops.",
                speaks_against=Speaks(
                    "strong", (*_DISCHARGE, *_DEAD, "pump-float-stuck", "pump-worn"), "It does what it should."
                ),
            ),
            ValueRow(
                value="runs-and-stays-full",
                words="The pump runs and its tank stays full.",
                speaks_for=Speaks(
                    "strong",
                    (*_DISCHARGE, "pump-worn", "check-valve-failed", "too-much-water"),
                    "The motor turns and little or no water goes.",
                ),
                speaks_against=Speaks(
                    "strong",
                    (*_DEAD, "pump-float-stuck", "pump-floats-too-close"),
                    "It started, and has water to move.",
                ),
            ),
            ValueRow(
                value="runs-with-empty-tank",
                words="The pump runs on with its tank empty.",
                speaks_for=Speaks("strong", ("pump-float-stuck",), "Its float does not let go."),
                speaks_against=Speaks(
                    "strong", (*_DISCHARGE, *_DEAD, "pump-worn", "too-much-water"), "The water went up the tube."
                ),
            ),
            ValueRow(
                value="starts-often",
                words="The pump starts again soon after each stop.",
                speaks_for=Speaks(
                    "strong", ("check-valve-failed", "pump-floats-too-close"), "Water comes back, or little is moved."
                ),
                speaks_against=Speaks("moderate", (*_DEAD, "pump-tube-blocked"), "It runs and empties."),
            ),
        ),
    ),
    ObservationRow(
        name="pump_power",
        question="Is there voltage at the pump's outlet?",
        how="Test the outlet with a meter or a lamp; look at the breaker and at a ground-fault outlet on the way.",
        minutes=4.0,
        needs_pump=True,
        cautions=_WATER,
        values=(
            ValueRow(
                value="live",
                words="The pump's outlet is live.",
                speaks_against=Speaks("decisive", ("pump-no-power",), "It has power."),
            ),
            ValueRow(
                value="dead",
                words="The pump's outlet is dead.",
                speaks_for=Speaks("decisive", ("pump-no-power",), "It has no power."),
                speaks_against=Speaks(
                    "moderate",
                    ("pump-motor-failed", "pump-float-stuck", *_DISCHARGE, "pump-worn", "check-valve-failed"),
                    "A pump without power shows nothing of them.",
                ),
            ),
        ),
    ),
    ObservationRow(
        name="pump_float",
        question="Does the pump's own float move freely?",
        how="Unplug the pump, lift off the lid, and move the float by hand over its whole way.",
        minutes=5.0,
        needs_pump=True,
        cautions=_WATER,
        values=(
            ValueRow(
                value="moves-freely",
                words="The pump's float moves freely.",
                speaks_against=Speaks("strong", ("pump-float-stuck",), "It does not stick."),
            ),
            ValueRow(
                value="sticks",
                words="The pump's float sticks.",
                speaks_for=Speaks("strong", ("pump-float-stuck",), "It was felt."),
            ),
        ),
    ),
    ObservationRow(
        name="tube_off_test",
        question="What comes out with the tube off at the pump and the float lifted?",
        how="Unplug the pump, take the tube off, hold a bucket at the outlet, plug in and lift the float with a "
        "dry stick.",
        minutes=8.0,
        needs_pump=True,
        cautions=_WATER,
        values=(
            ValueRow(
                value="strong-stream",
                words="With the tube off and the float lifted the pump gives a strong stream.",
                speaks_for=Speaks(
                    "moderate", (*_DISCHARGE, "pump-float-stuck"), "The pump is good; what follows it is not."
                ),
                speaks_against=Speaks("strong", (*_DEAD, "pump-worn"), "The pump itself is good."),
            ),
            ValueRow(
                value="weak-stream",
                words="Even with the tube off the pump gives a weak stream.",
                speaks_for=Speaks("strong", ("pump-worn",), "Nothing but the pump itself holds it back."),
                speaks_against=Speaks(
                    "moderate", (*_DISCHARGE, *_DEAD, "pump-float-stuck"), "The pump itself is weak."
                ),
            ),
            ValueRow(
                value="nothing",
                words="Even with the tube off and the float lifted the pump gives nothing.",
                speaks_for=Speaks("strong", _DEAD, "It does not turn."),
                speaks_against=Speaks(
                    "strong",
                    (*_DISCHARGE, "pump-float-stuck", "check-valve-failed", "pump-floats-too-close"),
                    "Neither tube nor float is in the way now.",
                ),
            ),
        ),
    ),
    ObservationRow(
        name="tube_course",
        question="Is the tube free from pump to end?",
        how="Follow the whole tube with your hand for ties, staples and kinks, look at its end, and blow or pour "
        "it through.",
        minutes=10.0,
        needs_pump=True,
        values=(
            ValueRow(
                value="free",
                words="The tube is free from pump to end.",
                speaks_against=Speaks("strong", ("pump-tube-pinched", "pump-tube-blocked"), "Nothing narrows it."),
            ),
            ValueRow(
                value="pinched-or-kinked",
                words="The tube is pinched or kinked.",
                speaks_for=Speaks("strong", ("pump-tube-pinched",), "It was seen."),
            ),
            ValueRow(
                value="slimed",
                words="The tube or its end is full of slime.",
                speaks_for=Speaks("strong", ("pump-tube-blocked",), "It was seen."),
            ),
        ),
    ),
    ObservationRow(
        name="fall_back",
        question="Does water run back into the tank when the pump stops?",
        how="Watch the level in the tank for a minute after the pump has stopped.",
        minutes=4.0,
        needs_pump=True,
        values=(
            ValueRow(
                value="runs-back",
                words="Water runs back into the tank when the pump stops.",
                speaks_for=Speaks("strong", ("check-valve-failed",), "No tight check valve holds it up."),
            ),
            ValueRow(
                value="stays-up",
                words="The water stays up when the pump stops.",
                speaks_for=Speaks("slight", ("pump-floats-too-close",), "Then something else restarts it."),
                speaks_against=Speaks("strong", ("check-valve-failed",), "The check valve holds."),
            ),
        ),
    ),
    ObservationRow(
        name="pump_lift",
        question="Can this pump do this lift through this tube?",
        how="Measure from the water in the tank up to the highest point of the tube, and compare with the pump's "
        "leaflet.",
        minutes=8.0,
        needs_pump=True,
        values=(
            ValueRow(
                value="within-its-curve",
                words="Lift and tube are well within what the pump can do.",
                speaks_against=Speaks("strong", ("pump-lift-too-high",), "The pump has height to spare."),
            ),
            ValueRow(
                value="near-or-beyond",
                words="Lift and tube are near or beyond what the pump can do.",
                speaks_for=Speaks("strong", ("pump-lift-too-high",), "Little or no flow is left."),
            ),
        ),
    ),
    ObservationRow(
        name="pump_floats",
        question="How much water does the pump move at each run?",
        how="Catch one pump-out in a jug; less than a cup (0.2 L) is little.",
        minutes=6.0,
        needs_pump=True,
        values=(
            ValueRow(
                value="far-enough",
                words="The pump moves enough water at each run.",
                speaks_against=Speaks("strong", ("pump-floats-too-close",), "Start and stop are far enough apart."),
            ),
            ValueRow(
                value="close",
                words="The pump moves very little water at each run.",
                speaks_for=Speaks("strong", ("pump-floats-too-close",), "Start and stop are too close."),
            ),
        ),
    ),
)
