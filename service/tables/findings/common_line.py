"""Findings about a line that units join along the run."""

from service.tables.findings.row import ATTENTION, FAIL, INFO, FindingRow

ROWS: tuple[FindingRow, ...] = (
    FindingRow(
        code="line-size-set-upstream",
        severity=INFO,
        message="{total_capacity:ton|kW}{where} alone would allow {row_size} in; a length of {pipe_size} in runs into "
        "it, and a drain line is never reduced.",
        remedy="Install {pipe_size} in from there to the place of disposal.",
        basis="IMC 2021 307.2.2",
    ),
    FindingRow(
        code="length-smaller-than-needed",
        severity=FAIL,
        message="The pipe of {length} is {pipe_size} in; {total_capacity:ton|kW} drain through it, for which the "
        "code's table and the pan outlets above ask for {needed} in.",
        remedy="Replace it with {needed} in, or lead some of the units another way.",
        basis="IMC 2021 Table 307.2.2",
    ),
    FindingRow(
        code="line-shrinks-downstream",
        severity=FAIL,
        message="The pipe of {length} is {pipe_size} in, and {upstream} in runs into it: a reduction on the way, where "
        "slime and debris catch.",
        remedy="Run {upstream} in from there to the place of disposal.",
        basis="IMC 2021 307.2.2",
    ),
    FindingRow(
        code="length-carries-nothing",
        severity=INFO,
        message="No unit drains through {length}.",
        remedy="Leave it out, or say which units join it.",
        basis="physics",
    ),
    FindingRow(
        code="length-joins-unknown",
        severity=ATTENTION,
        message='The water of {length} is said to join "{name}", and no length after it in the list is called that. It '
        "was taken to run into {taken}.",
        remedy="List the lengths the way the water runs, the last one to the place of disposal, and correct the name.",
        basis="physics",
    ),
    FindingRow(
        code="length-id-repeated",
        severity=ATTENTION,
        message='{count} lengths are called "{name}". A unit was taken to join the first of them, a length the next '
        "one after it.",
        remedy="Give every length a name of its own.",
        basis="physics",
    ),
    FindingRow(
        code="unit-joins-unknown",
        severity=ATTENTION,
        message='This unit is said to join "{name}", and no length is called that. It was taken to join the line at '
        "its upstream end.",
        remedy="Correct the name, or list that length.",
        basis="physics",
    ),
)
