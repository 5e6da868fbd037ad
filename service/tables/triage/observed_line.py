"""Observations along the drain line and at its end. Basis: common practice and physics."""

from service.tables.triage.scale import ObservationRow, Speaks, ValueRow

LINE: tuple[ObservationRow, ...] = (
    ObservationRow(
        name="line_course",
        question="Does the line fall all the way?",
        how="Sight along the line or lay a level on it every few feet, at the middle between supports too.",
        minutes=10.0,
        values=(
            ValueRow(
                value="falls",
                words="The line falls all the way.",
                speaks_against=Speaks("strong", ("line-back-pitched", "second-trap"), "No water stands in it."),
            ),
            ValueRow(
                value="sags",
                words="The line sags between its supports.",
                speaks_for=Speaks("strong", ("second-trap",), "A sag fills and locks the air behind it."),
            ),
            ValueRow(
                value="flat-or-rises",
                words="The line is too flat or rises.",
                speaks_for=Speaks("strong", ("line-back-pitched",), "Water stands in it and backs up to the pan."),
            ),
        ),
    ),
    ObservationRow(
        name="second_trap",
        question="Is there a second trap on the line without a vent between?",
        how="Follow the line to its end and look for another bend that holds water.",
        minutes=8.0,
        values=(
            ValueRow(
                value="none",
                words="There is no second trap on the line.",
                speaks_against=Speaks("moderate", ("second-trap",), "Only a sag could still lock the air."),
            ),
            ValueRow(
                value="unvented",
                words="There is a second trap on the line without a vent between.",
                speaks_for=Speaks("strong", ("second-trap",), "The air between the two locks the water."),
            ),
        ),
    ),
    ObservationRow(
        name="supports",
        question="Are the line's supports close enough?",
        how="Measure the widest distance between supports; plastic pipe may span 4 ft (1.2 m).",
        minutes=5.0,
        values=(
            ValueRow(
                value="close-enough",
                words="The line's supports are close enough.",
                speaks_against=Speaks("slight", ("second-trap",), "Pipe so held hardly sags."),
            ),
            ValueRow(
                value="too-far-apart",
                words="The line's supports are too far apart.",
                speaks_for=Speaks("slight", ("second-trap", "line-back-pitched"), "Pipe so held sags in time."),
            ),
        ),
    ),
    ObservationRow(
        name="line_size",
        question="Is the line big enough for all the units on it?",
        how="Read the size off the pipe and add up the tons of every unit that drains into it: 3/4 in carries 20 tons.",
        minutes=10.0,
        values=(
            ValueRow(
                value="enough",
                words="The line is big enough for the units on it.",
                speaks_against=Speaks("strong", ("line-too-small",), "Clean, it carries the peak hour."),
            ),
            ValueRow(
                value="too-small",
                words="The line is too small for the units on it.",
                speaks_for=Speaks("strong", ("line-too-small",), "Even clean, it does not carry the peak hour."),
            ),
        ),
    ),
    ObservationRow(
        name="frost_exposure",
        question="Does any part of trap or line stand in the cold?",
        how="Follow the drain through attic, crawl space and outside wall.",
        minutes=5.0,
        values=(
            ValueRow(
                value="none",
                words="No part of the drain stands below freezing.",
                speaks_against=Speaks("strong", ("line-frozen",), "It cannot freeze."),
            ),
            ValueRow(
                value="exposed",
                words="Part of the drain stands below freezing at times.",
                speaks_for=Speaks("moderate", ("line-frozen",), "It can freeze there."),
            ),
        ),
    ),
    ObservationRow(
        name="receptor",
        question="Does the place it drains into take water?",
        how="Pour a bucket into the floor drain, sink or standpipe at the end of the line.",
        minutes=5.0,
        values=(
            ValueRow(
                value="takes-water",
                words="The place it drains into takes water.",
                speaks_against=Speaks("strong", ("receptor-backed-up",), "Nothing backs up there."),
            ),
            ValueRow(
                value="stands-full",
                words="The place it drains into stands full.",
                speaks_for=Speaks("strong", ("receptor-backed-up",), "The line cannot empty into it."),
            ),
        ),
    ),
    ObservationRow(
        name="discharge_into",
        question="Does the line end over an air gap, or straight in a sewer line?",
        how="Follow the line to its end; look for a gap of air above the receptor.",
        minutes=8.0,
        only_for=("sewer-smell",),
        values=(
            ValueRow(
                value="air-gap",
                words="The line ends over an air gap.",
                speaks_for=Speaks("moderate", ("other-drain-dry",), "The sewer's own trap stands between."),
                speaks_against=Speaks(
                    "moderate",
                    ("trap-dry", "trap-missing", "seal-too-shallow", "trap-shared"),
                    "The drain draws room air.",
                ),
            ),
            ValueRow(
                value="sewer-line",
                words="The line is connected straight to a sewer line.",
                speaks_for=Speaks(
                    "strong",
                    ("trap-dry", "trap-missing", "seal-too-shallow", "receptor-backed-up"),
                    "Only the unit's trap stands between the sewer and the air.",
                ),
            ),
        ),
    ),
    ObservationRow(
        name="other_drains",
        question="Is there water in the traps of floor drains and fixtures nearby?",
        how="Shine a light into every floor drain, sink and standpipe near the unit and its return.",
        minutes=5.0,
        only_for=("sewer-smell",),
        values=(
            ValueRow(
                value="full",
                words="The floor drains and fixtures nearby hold water.",
                speaks_against=Speaks("strong", ("other-drain-dry",), "They are sealed."),
            ),
            ValueRow(
                value="dry",
                words="A floor drain or fixture nearby is dry.",
                speaks_for=Speaks("strong", ("other-drain-dry",), "Sewer air comes up there."),
            ),
        ),
    ),
    ObservationRow(
        name="line_joints",
        question="Do the joints of the line hold?",
        how="Dry the line, pour water, and run a paper towel along every joint.",
        minutes=8.0,
        values=(
            ValueRow(
                value="tight",
                words="The joints of the line are dry.",
                speaks_against=Speaks("strong", ("joint-leak",), "Nothing leaves the line on the way."),
            ),
            ValueRow(
                value="leaking",
                words="A joint of the line leaks.",
                speaks_for=Speaks("strong", ("joint-leak",), "It was seen."),
            ),
        ),
    ),
)
