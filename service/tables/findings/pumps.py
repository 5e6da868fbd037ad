"""Findings about several pumps: which to take, and how they run in one tank."""

from service.tables.findings.row import ATTENTION, FAIL, INFO, FindingRow

_BEHIND = "Ranked {rank} of {count}, behind '{above}': "
_OWN = "See this pump's own findings before it is ruled out."

ROWS: tuple[FindingRow, ...] = (
    FindingRow(
        code="pump-choice-sound",
        severity=INFO,
        message="Pump '{name}' comes first of {count}: it moves {flow:gal/h|L/h} against the {needed:gal/h|L/h} "
        "wanted, at {head:ft|m} of the {shut_off:ft|m} of head it has.",
        remedy="Fit it as described.",
        basis="common practice",
    ),
    FindingRow(
        code="pump-choice-with-reserve",
        severity=ATTENTION,
        message="Pump '{name}' comes first of {count} with {flow:gal/h|L/h} against the {needed:gal/h|L/h} wanted, at "
        "{head:ft|m} of the {shut_off:ft|m} of head it has, but it is not without faults.",
        remedy="Put right what its own findings name, or look for a pump that has none.",
        basis="common practice",
    ),
    FindingRow(
        code="pump-choice-fails",
        severity=FAIL,
        message="Pump '{name}' comes first of {count} and carries the water, {flow:gal/h|L/h} against the "
        "{needed:gal/h|L/h} wanted, but as described it fails for another reason.",
        remedy="Put right what its own findings name before it is put to work.",
        basis="common practice",
    ),
    FindingRow(
        code="pump-choice-none",
        severity=FAIL,
        message="None of the {count} pumps carries the {inflow:gal/h|L/h} of the peak hour through this tube; '{name}' "
        "comes nearest with {flow:gal/h|L/h}.",
        remedy="Look for a pump that gives {needed:gal/h|L/h}, or lower the lift or widen the tube: the findings of "
        "each pump say which.",
        basis="physics",
    ),
    FindingRow(
        code="pump-choice-none-lifts",
        severity=FAIL,
        message="None of the {count} pumps moves water up {lift:ft|m} of lift; '{name}' comes nearest, its flow ends "
        "at {shut_off:ft|m}.",
        remedy="Look for a pump that gives {needed:gal/h|L/h} at {lift:ft|m} and the tube's friction, or lead the tube "
        "to a lower place of disposal.",
        basis="physics",
    ),
    FindingRow(
        code="pump-ranked-first",
        severity=INFO,
        message="Ranked 1 of {count}.",
        remedy="See the findings of the comparison.",
        basis="common practice",
    ),
    FindingRow(
        code="pump-behind-flow",
        severity=INFO,
        message=_BEHIND + "of the {needed:gal/h|L/h} wanted this one moves {flow:gal/h|L/h}, '{above}' "
        "{above_flow:gal/h|L/h}.",
        remedy=_OWN,
        basis="physics",
    ),
    FindingRow(
        code="pump-behind-shut-off-head",
        severity=INFO,
        message=_BEHIND + "neither moves water up {lift:ft|m} of lift; this one's flow ends at {shut_off:ft|m}, that "
        "of '{above}' at {above_shut_off:ft|m}.",
        remedy=_OWN,
        basis="physics",
    ),
    FindingRow(
        code="pump-behind-safety-float",
        severity=INFO,
        message=_BEHIND + "its safety float is {safety_float}, that of '{above}' is {above_safety_float}.",
        remedy="See that the safety float stops the cooling, and say so.",
        basis="IRC 2021 M1411.4",
    ),
    FindingRow(
        code="pump-behind-near-shut-off",
        severity=INFO,
        message=_BEHIND + "it works against {head:ft|m} of the {shut_off:ft|m} of head it has, near its end; '{above}' "
        "against {above_head:ft|m} of {above_shut_off:ft|m}.",
        remedy=_OWN,
        basis="common practice",
    ),
    FindingRow(
        code="pump-behind-starts",
        severity=INFO,
        message=_BEHIND + "in the peak hour it starts {starts} times, '{above}' {above_starts} times.",
        remedy=_OWN,
        basis="common practice",
    ),
    FindingRow(
        code="pump-behind-starts-not-known",
        severity=INFO,
        message=_BEHIND + "without the volume between its floats nothing is known of its starts.",
        remedy="Give the volume between the floats from the leaflet.",
        basis="common practice",
    ),
    FindingRow(
        code="pump-behind-spare-lift",
        severity=INFO,
        message=_BEHIND + "with the margin wanted it carries the water up to {largest:ft|m} of lift, '{above}' up to "
        "{above_largest:ft|m}.",
        remedy=_OWN,
        basis="common practice",
    ),
    FindingRow(
        code="pump-behind-order",
        severity=INFO,
        message="Ranked {rank} of {count}, level with '{above}' in all that counts; named after it in the request.",
        remedy="Choose by what counts otherwise: noise, spare parts, access.",
        basis="common practice",
    ),
    FindingRow(
        code="pumps-at-once-gain",
        severity=INFO,
        message="All {count} pumps running at once move {flow:gal/h|L/h}, {gain} times the {alone:gal/h|L/h} of "
        "'{name}' alone: more flow through one tube meets more head.",
        remedy="For more gain, use a wider tube or a tube for each.",
        basis="physics",
    ),
    FindingRow(
        code="pumps-at-once-too-slow",
        severity=FAIL,
        message="All {count} pumps running at once move {flow:gal/h|L/h}, less than the {inflow:gal/h|L/h} of the peak "
        "hour or nothing at all: the tank fills up.",
        remedy="Bring the flow up to {needed:gal/h|L/h}, {margin} times the inflow: a wider tube, a lower lift, "
        "stronger pumps.",
        basis="physics",
    ),
    FindingRow(
        code="pumps-at-once-margin-small",
        severity=ATTENTION,
        message="All {count} pumps running at once move {flow:gal/h|L/h}; {needed:gal/h|L/h}, {margin} times the "
        "inflow of {inflow:gal/h|L/h}, are wanted.",
        remedy="Bring the flow up: a wider tube, a lower lift, stronger pumps.",
        basis="common practice",
    ),
    FindingRow(
        code="pumps-in-turn-too-slow",
        severity=FAIL,
        message="Taking turns, '{name}' moves {flow:gal/h|L/h}, less than the {inflow:gal/h|L/h} of the peak hour or "
        "nothing at all: the tank fills up during its turn.",
        remedy="Have the other start too when the water rises further, or replace '{name}' by a pump that moves "
        "{needed:gal/h|L/h}.",
        basis="physics",
    ),
    FindingRow(
        code="pumps-in-turn-margin-small",
        severity=ATTENTION,
        message="Taking turns, '{name}' moves {flow:gal/h|L/h}; {needed:gal/h|L/h}, {margin} times the inflow of "
        "{inflow:gal/h|L/h}, are wanted.",
        remedy="Have the other start too when the water rises further, or replace '{name}' by a stronger pump.",
        basis="common practice",
    ),
    FindingRow(
        code="pumps-one-failed-carries",
        severity=INFO,
        message="If '{name}' fails, what is left still moves {flow:gal/h|L/h}, {ratio} times the {inflow:gal/h|L/h} of "
        "the peak hour.",
        remedy="See that a failed pump is noticed: an alarm, and a look at every visit.",
        basis="physics",
    ),
    FindingRow(
        code="pumps-one-failed-too-slow",
        severity=ATTENTION,
        message="If '{name}' fails, what is left moves {flow:gal/h|L/h}, less than the {inflow:gal/h|L/h} of the peak "
        "hour: the tank fills up.",
        remedy="Do not count on one pump standing by for the other; the safety float must stop the cooling.",
        basis="physics",
    ),
    FindingRow(
        code="pumps-one-held-shut",
        severity=ATTENTION,
        message="Pump '{name}' adds nothing while all run: they bring the head in the tube to {head:ft|m}, and its "
        "flow ends at {shut_off:ft|m}. Its motor runs against a shut valve.",
        remedy="Use pumps of like shut-off head, a wider tube, or a tube for each.",
        basis="physics",
    ),
    FindingRow(
        code="pumps-share-tube-without-check-valves",
        severity=FAIL,
        message="The pumps share a tube without check valves: a running pump pushes water back into the tank through "
        "one that stands. The flows given leave that out.",
        remedy="Fit a check valve at the outlet of each pump.",
        basis="physics",
    ),
    FindingRow(
        code="pumps-check-valves-not-given",
        severity=ATTENTION,
        message="Nothing says whether each pump has a check valve. Without, a running pump pushes water back into the "
        "tank through one that stands; the flows given leave that out.",
        remedy="Look for a check valve at the outlet of each pump, and say so.",
        basis="physics",
    ),
)
