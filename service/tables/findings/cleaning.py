"""Findings of a cleaning plan."""

from service.tables.findings.row import ATTENTION, FAIL, INFO, FindingRow

ROWS: tuple[FindingRow, ...] = (
    FindingRow(
        code="cleaning-starts-with-cutting",
        severity=FAIL,
        message="There is no way into this drain above its trap: no cleanout that opens, no union, and the pan cannot "
        "be reached. It cannot be cleared, refilled or proved without cutting it.",
        remedy="Cut in a cleanout with a hand-tight cap on top of the trap, and a union at the unit, before anything "
        "else; every later visit is then about {good:min|min} of work instead of {total:min|min}.",
        basis="IMC 2021 307.2.5, IRC 2021 M1411.3.3",
    ),
    FindingRow(
        code="cleaning-takes-longer",
        severity=ATTENTION,
        message="With this access the visit takes about {total:min|min}; with a cleanout that opens by hand and a "
        "union at the unit it would be {good:min|min}.",
        remedy="Fit what is missing, {missing}, while the line is open.",
        basis="common practice",
    ),
    FindingRow(
        code="cleaning-facts-assumed",
        severity=INFO,
        message="The plan rests on assumptions about {unknowns}.",
        remedy="Settle them on site, in the step that says so, or ask for the plan again with what is known.",
        basis="common practice",
    ),
    FindingRow(
        code="line-not-reached",
        severity=ATTENTION,
        message="Nothing on the truck that may be used here reaches {left:ft|m} of the {run:ft|m} of line: only water "
        "goes through them, and slime that is left regrows fast.",
        remedy="Fit a union at the unit or open the far end, so that gas or a vacuum may be used; the refused methods "
        "say what each one lacks.",
        basis="common practice",
    ),
    FindingRow(
        code="trap-not-reached",
        severity=ATTENTION,
        message="The trap is fouled, and nothing that may be used here goes through it but water.",
        remedy="Bring a brush that passes {pipe_size} in pipe, or fit a union so that gas can go in ahead of the trap.",
        basis="common practice",
    ),
    FindingRow(
        code="pan-not-reached",
        severity=ATTENTION,
        message="The pan is fouled and cannot be reached: slime from it soon fills the drain again.",
        remedy="Make a way to the pan; have panels or the coil moved if need be.",
        basis="common practice",
    ),
    FindingRow(
        code="pump-not-reached",
        severity=ATTENTION,
        message="The end of the line at the pump cannot be reached: tank and tube are not cleaned, and its safety "
        "float is not tested.",
        remedy="Make a way to the pump before the visit ends: a float that nobody tests is no protection.",
        basis="common practice",
    ),
    FindingRow(
        code="pump-parts-without-pump",
        severity=ATTENTION,
        message="The request says that no pump lifts the water, and names parts of a pump as fouled.",
        remedy="Look which is true: the plan takes it that there is a pump.",
        basis="physics",
    ),
    FindingRow(
        code="cartridge-bursts-only",
        severity=ATTENTION,
        message="Behind a blockage that holds, {percent} % of one cartridge brings this line to "
        "{working_pressure:psi|kPa}; a whole one goes beyond what a solvent-welded joint is trusted with.",
        remedy="Short bursts with a wait after each, or a regulator set to {working_pressure:psi|kPa} instead.",
        basis="physics",
    ),
    FindingRow(
        code="cartridges-not-as-rule",
        severity=INFO,
        message="Trap and line hold {volume:gal|L}, so that one drain takes {count} cartridges by the gas laws; the "
        "rule of two drains a cartridge counts on a shorter line or a smaller bore.",
        remedy="Carry {cartridges} for this drain.",
        basis="physics",
    ),
    FindingRow(
        code="gas-in-small-room",
        severity=ATTENTION,
        message="This plan lets go {gas:ft3|L} of {gas_name} by a unit in a closed place. Come back into the room, "
        "that leaves the air fit to breathe only where the room is larger than {room:ft3|L}.",
        remedy="Ventilate, do not work alone, and close the cylinder between bursts: a cylinder left open lets go far "
        "more than one drain takes.",
        basis="29 CFR 1910.146",
    ),
    FindingRow(
        code="carbon-dioxide-gauge",
        severity=INFO,
        message="The gauge of a carbon dioxide cylinder shows the same pressure until its last liquid is gone.",
        remedy="Weigh the cylinder and send what it contains as `content`.",
        basis="physics",
    ),
    FindingRow(
        code="far-end-not-known",
        severity=INFO,
        message="Nothing says where the line ends.",
        remedy="Find its end before any gas goes in: nobody may stand there, and it must be open.",
        basis="common practice",
    ),
    FindingRow(
        code="closing-test-line-fills",
        severity=ATTENTION,
        message="The line does not fall enough to carry the pour part full: it fills its whole bore, {hold_up:gal|L}, "
        "before anything shows.",
        remedy="Give it at least 1/8 in per ft of fall, better 1/4 in; what stays standing in it grows slime.",
        basis="physics",
    ),
    FindingRow(
        code="closing-test-misses-pan",
        severity=ATTENTION,
        message="The test water goes in at the {pour_place}, because the pan cannot be reached: it proves the line, "
        "not the pan outlet.",
        remedy="Watch the discharge until condensate has run for an hour, or make a way to the pan.",
        basis="common practice",
    ),
    FindingRow(
        code="closing-test-slow",
        severity=ATTENTION,
        message="At this pour the closing test takes {time:h|h} and {volume:gal|L} of water.",
        remedy="Pour faster if pan and pump can take it.",
        basis="physics",
    ),
    FindingRow(
        code="closing-test-below-peak",
        severity=ATTENTION,
        message="The pour of {rate:gal/h|L/h} is less than the {peak:gal/h|L/h} of the peak hour: a drain that passes "
        "may still back up.",
        remedy="Pour at {peak:gal/h|L/h} or more.",
        basis="physics",
    ),
    FindingRow(
        code="closing-test-outruns-pump",
        severity=ATTENTION,
        message="The pour of {rate:gal/h|L/h} is no less than the {flow:gal/h|L/h} that the pump moves: the tank rises "
        "to its safety float although nothing is blocked.",
        remedy="Pour at no more than {half:gal/h|L/h}. If that is less than the peak hour brings, the pump is too "
        "small.",
        basis="physics",
    ),
    FindingRow(
        code="closing-test-pan-overflows",
        severity=FAIL,
        message="The trap's outlet stands {above:in|mm} above the pan outlet and the pan is {depth:in|mm} deep: it "
        "runs over before the test water can leave.",
        remedy="Lower the trap's outlet below the pan outlet before the test.",
        basis="physics",
    ),
    FindingRow(
        code="pump-leaflet-not-given",
        severity=INFO,
        message="Without the pump's leaflet, lift and tube, nothing tells how long its tube takes to fill.",
        remedy="Send `pump` to have the time until water shows at the discharge.",
        basis="physics",
    ),
    FindingRow(
        code="no-trap-to-refill",
        severity=INFO,
        message="There is no trap, so nothing is refilled.",
        remedy="Where the pan is under pressure or suction, or the line ends in a sanitary drain, fit one.",
        basis="common practice",
    ),
    FindingRow(
        code="nothing-to-trip",
        severity=INFO,
        message="There is no float switch and no safety float that can be tested: nothing is known to stop the cooling "
        "when the drain blocks again.",
        remedy="Tell the owner in writing, and offer a listed cut-out in the drain or the pan.",
        basis="common practice",
    ),
    FindingRow(
        code="water-not-on-truck",
        severity=INFO,
        message="There is no jug on the truck, and the closing test needs {volume:gal|L} of water.",
        remedy="Carry that much, or borrow a container on site.",
        basis="common practice",
    ),
)
