"""Findings about condensate hour by hour."""

from service.tables.findings.row import ATTENTION, FAIL, INFO, FindingRow

ROWS: tuple[FindingRow, ...] = (
    FindingRow(
        code="columns-of-different-length",
        severity=FAIL,
        message="The columns have different lengths ({lengths}): only the first {rows} rows, which all of them have, "
        "are computed, leaving out {lost}.",
        remedy="Send columns of one length; look for a row that was dropped on the way, which would shift all that "
        "follow it.",
        basis="physics",
    ),
    FindingRow(
        code="rows-above-dry-bulb",
        severity=ATTENTION,
        message="In {count} of {rows} rows the {member} lies above the dry bulb by more than the 2 degF (1 K) "
        "instruments explain. They have no rate and add nothing to the totals. By index, from 0: {named}.",
        remedy="See whether columns were swapped or shifted against each other; correct or leave out those rows.",
        basis="physics",
    ),
    FindingRow(
        code="rows-too-dry",
        severity=ATTENTION,
        message="In {count} of {rows} rows the wet bulb is lower than even the driest air's at that dry bulb. They "
        "have no rate and add nothing to the totals. By index, from 0: {named}.",
        remedy="See whether columns were swapped or shifted against each other, or send dew points instead.",
        basis="physics",
    ),
    FindingRow(
        code="rows-taken-as-saturated",
        severity=INFO,
        message="In {count} of {rows} rows the {member} lies above the dry bulb by no more than instruments err: "
        "taken as saturated air at the dry bulb. By index, from 0: {named}.",
        remedy="Nothing: fog and rain read so.",
        basis="common practice",
    ),
    FindingRow(
        code="rows-taken-as-driest",
        severity=INFO,
        message="In {count} of {rows} rows the wet bulb means air without water, though by no more than instruments "
        "err: taken as 1 % relative humidity. By index, from 0: {named}.",
        remedy="Nothing: such air makes no condensate.",
        basis="common practice",
    ),
    FindingRow(
        code="rows-beyond-air",
        severity=ATTENTION,
        message="In {count} of {rows} rows this air cannot give up the coil's full capacity: not even a coil as cold "
        "as {surface:degF|degC} takes out so much. They have no rate and add nothing to the totals. By index, from 0: "
        "{named}.",
        remedy="In cool weather the cooling cycles or is off: send `off_below`, and a `run_fraction` column with 0 "
        "where it rests. In warm weather check the air flow against the capacity (about 400 cfm a ton is usual).",
        basis="physics",
    ),
    FindingRow(
        code="rows-will-frost",
        severity=ATTENTION,
        message="In {count} of {rows} rows the coil's surface would be below freezing: water stays on it as frost and "
        "comes down at once when it melts, faster than the rate given. By index, from 0: {named}.",
        remedy="Check the air flow against the capacity, and send `off_below` if the cooling rests in such weather. "
        "Size the drain for the melt, not for these rows.",
        basis="physics",
    ),
    FindingRow(
        code="rows-over-saturated",
        severity=INFO,
        message="In {count} of {rows} rows the air enters so wet that, mixed with the air off the coil, it would be "
        "fog; the fog is counted as condensate. By index, from 0: {named}.",
        remedy="Expect droplets carried past the pan in such weather.",
        basis="physics",
    ),
    FindingRow(
        code="rows-leaving-warmer",
        severity=ATTENTION,
        message="In {count} of {rows} rows that make water the leaving air is warmer than the entering air. By index, "
        "from 0: {named}.",
        remedy="With reheat this is right. Otherwise the cooling is off in such weather: send `off_below`.",
        basis="physics",
    ),
    FindingRow(
        code="too-few-rows-with-rate",
        severity=FAIL,
        message="{count} of {rows} rows, {percent} %, have no rate. They add nothing to the totals, which are that "
        "much too low.",
        remedy="Mend what the other findings name before using the totals; more than a tenth lost is too much.",
        basis="common practice",
    ),
    FindingRow(
        code="series-without-condensate",
        severity=INFO,
        message="None of the {rows} rows makes water: the entering air never holds more than the leaving air, the "
        "coil stays dry, or the cooling is off.",
        remedy="Nothing, if the season is dry; otherwise check the units of the humidity column and `off_below`.",
        basis="physics",
    ),
    FindingRow(
        code="peak-above-capacity",
        severity=FAIL,
        message="Up to {peak_rate:gal/h|L/h} comes, at {peak_time}, more than the {drain_capacity:gal/h|L/h} that the "
        "drain or pump takes; for {time:h|h} in {count} rows there is more than it takes. By index, from 0: {named}.",
        remedy="Carry away at least {peak_rate:gal/h|L/h}, with the margin usual for drains and pumps; until then a "
        "safety float has to stop the cooling.",
        basis="physics",
    ),
    FindingRow(
        code="peak-within-capacity",
        severity=INFO,
        message="The drain or pump takes {drain_capacity:gal/h|L/h}; the most that comes is {peak_rate:gal/h|L/h}.",
        remedy="Nothing; leave room for slime.",
        basis="physics",
    ),
    FindingRow(
        code="demand-beyond-condensate",
        severity=FAIL,
        message="{daily_demand:gal|L} a day is wanted, but the series makes {sustainable:gal|L} a day on average: no "
        "tank makes up for that.",
        remedy="Plan for at most {sustainable:gal|L} a day, or for another source beside the condensate.",
        basis="physics",
    ),
    FindingRow(
        code="tank-needed",
        severity=INFO,
        message="A demand of {daily_demand:gal|L} a day needs a tank of {needed:gal|L} to carry the wet season's "
        "water into the dry one.",
        remedy="Give the tank some more for what evaporates and settles.",
        basis="physics",
    ),
    FindingRow(
        code="tank-too-small",
        severity=ATTENTION,
        message="A tank of {tank_volume:gal|L} falls {shortfall:gal|L} short of the demand of {daily_demand:gal|L} a "
        "day, in {time:h|h} of the series.",
        remedy="Meet the demand in full with a tank of {needed:gal|L}, or have another source for the rest.",
        basis="physics",
    ),
    FindingRow(
        code="tank-large-enough",
        severity=INFO,
        message="A tank of {tank_volume:gal|L} meets the demand of {daily_demand:gal|L} a day in full; {needed:gal|L} "
        "would do.",
        remedy="Nothing.",
        basis="physics",
    ),
)
