"""Findings about the drain line."""

from service.tables.findings.row import ATTENTION, FAIL, FindingRow

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
)
