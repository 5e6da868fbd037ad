"""Findings about the drain line."""

from service.tables.findings.row import ATTENTION, FAIL, INFO, FindingRow

ROWS: tuple[FindingRow, ...] = (
    FindingRow(
        code="line-runs-uphill",
        severity=FAIL,
        message="The line rises {rise:in|mm} over its {run:ft|m} run: water stands in it and backs up to the pan.",
        remedy="Re-lay it to fall the whole way: at least {minimum_fall:in|mm} over this run, usually "
        "{recommended_fall:in|mm}.",
        basis="IMC 2021 307.2",
    ),
    FindingRow(
        code="line-is-level",
        severity=FAIL,
        message="The line is level over its {run:ft|m} run: it drains only when water backs up in it.",
        remedy="Give it a fall of at least {minimum_fall:in|mm} over this run, usually {recommended_fall:in|mm}.",
        basis="IMC 2021 307.2",
    ),
    FindingRow(
        code="pitch-below-minimum",
        severity=FAIL,
        message="The line falls {fall:in|mm} over {run:ft|m} ({percent} %); the code minimum of 1/8 in per ft is "
        "{minimum_fall:in|mm} over this run.",
        remedy="Lower the outlet end or raise the unit end until it falls {minimum_fall:in|mm}; the usual "
        "{recommended_fall:in|mm} is better.",
        basis="IMC 2021 307.2",
    ),
    FindingRow(
        code="pitch-below-usual",
        severity=ATTENTION,
        message="The line falls {fall:in|mm} over {run:ft|m} ({percent} %). The code allows it, but the trade installs "
        "1/4 in per ft, {recommended_fall:in|mm} over this run, so that a little sag does not hold water.",
        remedy="Where the line is open to work on, give it {recommended_fall:in|mm}, and support it against sagging.",
        basis="common practice",
    ),
    FindingRow(
        code="line-needs-engineering",
        severity=ATTENTION,
        message="{total_capacity:ton|kW} drain into this line{where}; the code's table ends at {largest:ton|kW}, so no "
        "size can be read from it.",
        remedy="Have the line engineered for a peak hour of {peak_flow:gal/h|L/h}, or split the units over several "
        "lines of at most {largest:ton|kW} each.",
        basis="IMC 2021 Table 307.2.2",
    ),
    FindingRow(
        code="line-size-set-by-pan-outlet",
        severity=INFO,
        message="{total_capacity:ton|kW} alone would allow {row_size} in{where}; the pan outlet of {pipe_size} in sets "
        "the size, because a drain line is never reduced.",
        remedy="Install {pipe_size} in all the way to the place of disposal.",
        basis="IMC 2021 307.2.2",
    ),
    FindingRow(
        code="line-size-of-one-unit",
        severity=INFO,
        message="The code's table is written for lines that several units share; read for this one unit of "
        "{total_capacity:ton|kW} it gives {pipe_size} in.",
        remedy="Install {pipe_size} in, or the size of the pan outlet if the unit's instructions accept that.",
        basis="common practice",
    ),
    FindingRow(
        code="pipe-size-not-made",
        severity=FAIL,
        message="The line must be {pipe_size} in{where}, and {material} pipe is not made in that size.",
        remedy="Choose another material for this line: PVC Schedule 40 and copper are made in {pipe_size} in.",
        basis="ASTM D2846",
    ),
    FindingRow(
        code="bore-under-three-quarter-inch",
        severity=INFO,
        message="{pipe_size} in {material} has a bore of {bore:in|mm}. Recent codes ask for 3/4 in pipe size, which it "
        "is; older editions ask for 3/4 in internal diameter, which it is not.",
        remedy="Where an older edition is in force, use 1 in, or PVC Schedule 40 or copper in 3/4 in.",
        basis="IMC 2021 307.2.2",
    ),
    FindingRow(
        code="peak-flow-exceeds-line",
        severity=FAIL,
        message="The peak hour brings {peak_flow:gal/h|L/h}{where}; a clean {pipe_size} in line at this pitch carries "
        "{capacity:gal/h|L/h}. It backs up even when new.",
        remedy="Give the line more fall or the next larger size, or split the units over two lines.",
        basis="physics",
    ),
    FindingRow(
        code="fouling-margin-small",
        severity=ATTENTION,
        message="A film of slime {film:in|mm} thick, {percent} % of the bore, is enough to make the peak hour of "
        "{peak_flow:gal/h|L/h} back up in this {pipe_size} in line{where}.",
        remedy="Give the line more fall or the next larger size; until then clean it before every cooling season.",
        basis="common practice",
    ),
    FindingRow(
        code="laminar-flow-deeper",
        severity=INFO,
        message="On so little fall the peak hour of {peak_flow:gal/h|L/h}{where} runs laminar, which Manning's formula "
        "does not know: it stands about {laminar_depth:in|mm} deep in this {pipe_size} in line, not {depth:in|mm}.",
        remedy="Count on the greater depth, and give the line more fall.",
        basis="physics",
    ),
    FindingRow(
        code="installed-size-not-made",
        severity=ATTENTION,
        message="The pipe of {length} is said to be {pipe_size} in, and {material} pipe is not made in that size: what "
        "it carries was not computed.",
        remedy="Read size and material off the pipe again.",
        basis="ASTM D2846",
    ),
)
