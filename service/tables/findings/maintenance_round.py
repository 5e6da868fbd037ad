"""Findings about a whole round."""

from service.tables.findings.row import ATTENTION, FAIL, INFO, FindingRow

ROWS: tuple[FindingRow, ...] = (
    FindingRow(
        code="round-units-cannot-wait",
        severity=FAIL,
        message="Units that cannot wait: {count} of {units}. Water is running over or about to, or sewer gas gets in.",
        remedy="Have the cooling of these units turned off where water stands or runs, and visit them first, today.",
        basis="common practice",
    ),
    FindingRow(
        code="round-units-fail",
        severity=FAIL,
        message="Units with something that fails: {count} of {units}.",
        remedy="Visit them in the order given; the reasons of each unit say what to look at, its assessment the rest.",
        basis="common practice",
    ),
    FindingRow(
        code="round-units-want-attention",
        severity=ATTENTION,
        message="Units with nothing that fails and something that wants attention: {count} of {units}.",
        remedy="Put it right when the unit's turn comes.",
        basis="common practice",
    ),
    FindingRow(
        code="round-units-unprotected",
        severity=FAIL,
        message="Units whose water nothing stops before it reaches something it damages: {count} of {units}.",
        remedy="Carry a listed cut-out for each, fit and trip it, and tell the owner in writing where that is refused.",
        basis="IMC 2021 307.2.3",
    ),
    FindingRow(
        code="round-protection-not-known",
        severity=ATTENTION,
        message="Units of which nobody has said what stops the water before it damages something: {count} of {units}.",
        remedy="Look for it on the round, trip it, and send `overflow_protection` the next time.",
        basis="IMC 2021 307.2.3",
    ),
    FindingRow(
        code="round-units-not-read",
        severity=ATTENTION,
        message="Units that could not be read: {count} of {units}. They have no place in the order.",
        remedy="Their rows say what is wrong with them; send them again.",
        basis="common practice",
    ),
    FindingRow(
        code="round-units-without-minutes",
        severity=ATTENTION,
        message="Units for which no cleaning could be planned: {count} of {units}. Their time is not in the totals.",
        remedy="Look for slips of unit or decimal point in what was sent of trap, line and pump.",
        basis="common practice",
    ),
    FindingRow(
        code="round-short-of-cartridges",
        severity=ATTENTION,
        message="{count} units are to be cleaned with cartridges and take {needed} of them; there are {held} on the "
        "truck.",
        remedy="Load {short} more.",
        basis="physics",
    ),
    FindingRow(
        code="round-short-of-gas",
        severity=ATTENTION,
        message="{count} units are to be cleaned with regulated gas and take {needed:ft3|L} of it; the cylinder on the "
        "truck gives {held:ft3|L}.",
        remedy="Load {cylinders} cylinders like it as it is now, or a fuller one.",
        basis="physics",
    ),
    FindingRow(
        code="round-unit-longer-than-day",
        severity=INFO,
        message="Units that take longer than a day's {minutes} minutes each: {count}.",
        remedy="Plan them over several days, or send more people to them.",
        basis="common practice",
    ),
)
