"""Findings about the condensate pump."""

from service.tables.findings.row import ATTENTION, FAIL, INFO, FindingRow

ROWS: tuple[FindingRow, ...] = (
    FindingRow(
        code="pump-cannot-lift",
        severity=FAIL,
        message="The water must be lifted {lift:ft|m} and this pump's flow ends at {shut_off:ft|m}: nothing comes out "
        "and the motor runs on until the tank is full.",
        remedy="Fit a pump whose curve still gives {needed:gal/h|L/h} at {lift:ft|m} and the tube's friction, or "
        "lead the tube to a lower place of disposal.",
        basis="physics",
    ),
    FindingRow(
        code="pump-slower-than-inflow",
        severity=FAIL,
        message="The pump moves {flow:gal/h|L/h} against {head:ft|m} of head, less than the {inflow:gal/h|L/h} that "
        "arrives in the peak hour: the tank fills up while the motor runs without a stop.",
        remedy="Bring the flow up to {needed:gal/h|L/h}, {margin} times the inflow: see the finding that names what "
        "takes it away.",
        basis="physics",
    ),
    FindingRow(
        code="pump-margin-small",
        severity=ATTENTION,
        message="The pump moves {flow:gal/h|L/h} against {head:ft|m} of head, {ratio} times the {inflow:gal/h|L/h} of "
        "the peak hour; at least {margin} times is wanted, because slime and wear take from it.",
        remedy="Bring the flow up to {needed:gal/h|L/h}: see the finding that names what takes it away.",
        basis="common practice",
    ),
    FindingRow(
        code="pump-too-small",
        severity=ATTENTION,
        message="Even at the least lift of its curve this pump gives {most_flow:gal/h|L/h}; the inflow with its margin "
        "is {needed:gal/h|L/h}.",
        remedy="Fit a larger pump, or share the water between two.",
        basis="common practice",
    ),
    FindingRow(
        code="pump-lift-too-high",
        severity=ATTENTION,
        message="The pump gives the {needed:gal/h|L/h} wanted up to {top:ft|m} of head at most; the lift of "
        "{lift:ft|m} and the fittings leave nothing for the tube.",
        remedy="Lead the tube to a lower place of disposal, or fit a pump with a greater lift.",
        basis="common practice",
    ),
    FindingRow(
        code="pump-tube-too-long",
        severity=ATTENTION,
        message="Friction takes {friction:ft|m} of head in {length:ft|m} of tube. With the margin wanted, this pump "
        "carries the water through {longest:ft|m} of such tube at this lift.",
        remedy="Shorten the tube to {longest:ft|m}, use a wider one, lead it into a gravity drain on the way, or fit "
        "a stronger pump.",
        basis="physics",
    ),
    FindingRow(
        code="pump-tube-too-narrow",
        severity=ATTENTION,
        message="Friction takes {friction:ft|m} of head in {length:ft|m} of tube. With the margin wanted, this pump "
        "carries the water through {longest:ft|m} of such tube, less than the {lift:ft|m} it must rise.",
        remedy="Use a tube of a wider bore, or fit a stronger pump; to shorten it is not enough.",
        basis="physics",
    ),
    FindingRow(
        code="pump-near-shut-off",
        severity=ATTENTION,
        message="The pump works against {head:ft|m} of head and its flow ends at {shut_off:ft|m}: the motor labours, "
        "runs long and hot, and a little slime stops the flow.",
        remedy="Lower the lift, use a wider or shorter tube, or fit a pump with a greater lift.",
        basis="common practice",
    ),
    FindingRow(
        code="pump-has-no-inflow",
        severity=INFO,
        message="No water arrives, so there is no flow ratio and no time to anything; the operating flow of "
        "{flow:gal/h|L/h} stands.",
        remedy="Give the peak inflow to have the pump judged against it.",
        basis="physics",
    ),
    FindingRow(
        code="pump-tube-bore-small",
        severity=ATTENTION,
        message="Friction in {length:ft|m} of {bore:in|mm} bore takes {friction:ft|m} of head, more than half of the "
        "{shut_off:ft|m} the pump has.",
        remedy="Use tube of a wider bore, or shorten it; look for a tie or a bend that pinches it.",
        basis="common practice",
    ),
    FindingRow(
        code="pump-section-bore-small",
        severity=ATTENTION,
        message="Friction in {length:ft|m} of tube takes {friction:ft|m} of head, more than half of the "
        "{shut_off:ft|m} the pump has; {section_friction:ft|m} of it goes in the {section_length:ft|m} of "
        "{bore:in|mm} bore.",
        remedy="Use a wider bore there first, or shorten it; look for a tie or a bend that pinches it.",
        basis="common practice",
    ),
    FindingRow(
        code="pump-tube-shorter-than-lift",
        severity=ATTENTION,
        message="The tube is {length:ft|m} long and cannot reach {lift:ft|m} up.",
        remedy="Measure both again: the lift is from the water in the tank up to the highest point of the tube.",
        basis="physics",
    ),
    FindingRow(
        code="pump-falls-back",
        severity=ATTENTION,
        message="There is no check valve: each time the pump stops, {fall_back:gal|L} run back into the tank and are "
        "pumped again.",
        remedy="Fit a check valve at the pump's outlet.",
        basis="physics",
    ),
    FindingRow(
        code="pump-falls-back-each-cycle",
        severity=ATTENTION,
        message="There is no check valve: each time the pump stops, {fall_back:gal|L} run back and fill {percent} % of "
        "the {tank:gal|L} between the floats. Filling time and starts an hour count it in.",
        remedy="Fit a check valve at the pump's outlet.",
        basis="physics",
    ),
    FindingRow(
        code="pump-restarts-on-fall-back",
        severity=FAIL,
        message="There is no check valve, and the {fall_back:gal|L} that run back when the pump stops fill the "
        "{tank:gal|L} between the floats: the pump starts again at once, without end.",
        remedy="Fit a check valve at the pump's outlet.",
        basis="physics",
    ),
    FindingRow(
        code="pump-check-valve-not-given",
        severity=INFO,
        message="Nothing says whether there is a check valve. Without one {fall_back:gal|L} run back at every stop, "
        "{percent} % of the {tank:gal|L} between the floats; filling time and starts an hour count it in.",
        remedy="Look for a check valve at the pump's outlet, and say so.",
        basis="common practice",
    ),
    FindingRow(
        code="pump-short-cycling",
        severity=ATTENTION,
        message="In the peak hour the pump starts {starts} times an hour; beyond {most} its switch and motor wear out "
        "early.",
        remedy="Fit a check valve if there is none, set the floats further apart, or fit a larger tank.",
        basis="common practice",
    ),
    FindingRow(
        code="pump-tank-not-given",
        severity=INFO,
        message="Without the volume between the floats, filling and pumping time and starts an hour are not assessed.",
        remedy="Catch what one pump-out delivers in a jug, or take the volume from the leaflet.",
        basis="physics",
    ),
    FindingRow(
        code="pump-safety-float-unwired",
        severity=FAIL,
        message="The pump's safety float is not wired: when the pump dies the cooling goes on and the tank overflows.",
        remedy="Wire the float into the cooling call and trip-test it. Report it to the owner in writing until that is "
        "done; in attics and crawl spaces the code demands it.",
        basis="IRC 2021 M1411.4",
    ),
    FindingRow(
        code="pump-safety-float-missing",
        severity=FAIL,
        message="The pump has no safety float: when it dies the cooling goes on and the tank overflows.",
        remedy="Fit a pump with a safety float, or a float switch in the pan, wired into the cooling call. Report it "
        "to the owner in writing until that is done; in attics and crawl spaces the code demands it.",
        basis="IRC 2021 M1411.4",
    ),
    FindingRow(
        code="pump-safety-float-not-given",
        severity=INFO,
        message="Nothing says whether the pump's safety float stops the cooling call.",
        remedy="Lift the float by hand with the cooling on: the cooling must stop. In attics and crawl spaces the code "
        "demands it.",
        basis="IRC 2021 M1411.4",
    ),
    FindingRow(
        code="pump-safety-float-above-overflow",
        severity=FAIL,
        message="The safety float acts {to_float:gal|L} above the level where the pump starts, and the tank overflows "
        "at {to_overflow:gal|L}: it acts too late.",
        remedy="Set the float lower, or measure both volumes again.",
        basis="physics",
    ),
    FindingRow(
        code="pump-dead-time-to-safety-float",
        severity=INFO,
        message="If the pump dies, the safety float acts {time:min|min} after the level where the pump should start, "
        "at {inflow:gal/h|L/h}.",
        remedy="Trip-test the float at every visit.",
        basis="physics",
    ),
    FindingRow(
        code="pump-dead-time-to-overflow",
        severity=INFO,
        message="If the pump dies and the cooling goes on, the tank overflows {time:min|min} after the level where the "
        "pump should start, at {inflow:gal/h|L/h}.",
        remedy="The safety float must stop the cooling before that: see that it is wired, and trip-test it.",
        basis="physics",
    ),
    FindingRow(
        code="pump-curve-rises",
        severity=ATTENTION,
        message="The curve gives {flow:gal/h|L/h} at {lift:ft|m}, more than at the same or a smaller lift, which no "
        "such pump does; the smaller flow was used.",
        remedy="Check the points against the leaflet.",
        basis="physics",
    ),
    FindingRow(
        code="pump-curve-ends-early",
        severity=INFO,
        message="The curve ends at {lift:ft|m} with {flow:gal/h|L/h}; beyond that lift no flow was counted on.",
        remedy="Add the leaflet's shut-off head, the lift at which the flow is zero.",
        basis="common practice",
    ),
    FindingRow(
        code="pump-curve-starts-late",
        severity=INFO,
        message="The pump works against {head:ft|m}, below the curve's first point at {lift:ft|m}; the flow of that "
        "point, {flow:gal/h|L/h}, was used.",
        remedy="Add the leaflet's flow at no lift.",
        basis="common practice",
    ),
)
