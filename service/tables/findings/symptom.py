"""Findings of a symptom's triage: what leads, how sure that is, and what must not wait."""

from service.tables.findings.row import ATTENTION, FAIL, INFO, FindingRow

COMMON_PRACTICE = "common practice"

ROWS: tuple[FindingRow, ...] = (
    # what must not wait
    FindingRow(
        code="water-at-electrical-parts",
        severity=FAIL,
        message="Water reaches electrical parts.",
        remedy="Keep off, switch the power off at the breaker from a dry place, and lock it out before anything else.",
        basis=COMMON_PRACTICE,
    ),
    FindingRow(
        code="water-in-the-building",
        severity=FAIL,
        message="Water is getting into the building.",
        remedy="Turn the cooling off at the thermostat, protect what is below, and leave the cooling off until "
        "the drain "
        "is proved.",
        basis=COMMON_PRACTICE,
    ),
    FindingRow(
        code="sewer-gas-in-the-building",
        severity=FAIL,
        message="Sewer gas is reported in the building: it is poisonous and can burn.",
        remedy="No flames; switch the fan off, open windows, close the drain's open end, and leave where the smell is "
        "strong. If it could be fuel gas, call the gas utility from outside.",
        basis=COMMON_PRACTICE,
    ),
    # what leads
    FindingRow(
        code="most-likely-cause",
        severity=ATTENTION,
        message='Most likely: "{cause}", {commonness} behind this symptom. Of what is known, for it: {count_for}; '
        "against it: {count_against}.",
        remedy="{remedy}",
        basis=COMMON_PRACTICE,
    ),
    FindingRow(
        code="most-likely-nothing-wrong",
        severity=INFO,
        message='Most likely: "{cause}", {commonness} behind this symptom. Of what is known, for it: {count_for}; '
        "against it: {count_against}.",
        remedy="{remedy}",
        basis=COMMON_PRACTICE,
    ),
    FindingRow(
        code="leading-causes-close",
        severity=ATTENTION,
        message='Two causes lie close together: "{first}" and "{second}".',
        remedy="Tell them apart before changing anything. {check}",
        basis=COMMON_PRACTICE,
    ),
    FindingRow(
        code="no-cause-fits",
        severity=ATTENTION,
        message="With what was observed, no cause that is listed for this symptom is likelier than something not "
        'listed. The first of them is "{cause}".',
        remedy="Look again at what was observed, ask once more what the customer sees, and try another symptom that "
        "describes it.",
        basis=COMMON_PRACTICE,
    ),
    FindingRow(
        code="no-safety-float",
        severity=ATTENTION,
        message="There is no safety float: when the drain blocks or the pump dies, the cooling goes on.",
        remedy="Fit a float switch or water-level cut-out in the pan, and in the tank where there is a pump, wired "
        "into the cooling call; trip it to prove it.",
        basis="IMC 2021 307.2.3",
    ),
    FindingRow(
        code="symptom-only",
        severity=INFO,
        message="Nothing but the symptom is known: the order says only how common the causes are.",
        remedy="Make the next check, and send what it shows.",
        basis=COMMON_PRACTICE,
    ),
    FindingRow(
        code="observations-disagree",
        severity=ATTENTION,
        message='These two do not go together: "{first}" and "{second}" Both count in the ranking.',
        remedy="Look again at both, and leave out the one that was wrong.",
        basis=COMMON_PRACTICE,
    ),
    FindingRow(
        code="unit-has-other-findings",
        severity=INFO,
        message="The unit's data give {count} further findings that do not bear on this symptom.",
        remedy="Post the unit to the assessment to read them all.",
        basis=COMMON_PRACTICE,
    ),
)
