"""Findings about a unit's year: what must be done in a season, or fails in the next."""

from service.tables.findings.row import ATTENTION, FAIL, INFO, FindingRow

COMMON_PRACTICE = "common practice"
PHYSICS = "physics"

ROWS: tuple[FindingRow, ...] = (
    FindingRow(
        code="seal-lost-before-spring",
        severity=ATTENTION,
        message="Full when the cooling ends, the trap still loses its seal after {earliest} to {latest} days, and the "
        "cooling starts again after {idle} days.",
        remedy="Pour water into it at least every {interval}, or close the pan outlet with a plug for the winter; "
        "fill it before the fan is started.",
        basis=PHYSICS,
    ),
    FindingRow(
        code="seal-may-be-lost-before-spring",
        severity=ATTENTION,
        message="It is uncertain whether the trap keeps its seal until the cooling starts again after {idle} days: "
        "full at first, it lasts {latest} days in still air, and {earliest} days where moving air sweeps its ends.",
        remedy="Pour water into it at least every {interval}, or close the pan outlet with a plug for the winter; "
        "fill it before the fan is started.",
        basis=PHYSICS,
    ),
    FindingRow(
        code="seal-cannot-be-kept-by-pouring",
        severity=ATTENTION,
        message="The full trap has so little to spare against the fan's {pressure:inH2O|Pa} that its seal is lost "
        "within a day without condensate: pouring water in every few days does not keep it.",
        remedy="Close the pan outlet with a plug for the winter, and rebuild the trap with a seal of at least "
        "{lasting_seal_depth:in|mm}, which outlasts {idle} days.",
        basis=PHYSICS,
    ),
    FindingRow(
        code="full-trap-can-freeze",
        severity=ATTENTION,
        message="Something keeps the trap full out of season, and trap or line can freeze.",
        remedy="Insulate and heat-trace whatever stands in the cold before the first frost, or reroute it indoors.",
        basis=COMMON_PRACTICE,
    ),
    FindingRow(
        code="acid-water-in-metal-pipe",
        severity=ATTENTION,
        message="The furnace's water, {volume_rate:gal/h|L/h} while it burns and about as acid as vinegar, runs "
        "through a copper line with no neutralizer: it eats the pipe through.",
        remedy="Fit a neutralizer before the heating season, or lead the furnace's water away in plastic pipe.",
        basis=COMMON_PRACTICE,
    ),
    FindingRow(
        code="acid-water-in-shared-drain",
        severity=ATTENTION,
        message="The furnace's water, {volume_rate:gal/h|L/h} while it burns and about as acid as vinegar, runs into "
        "the coil's drain with no neutralizer: metal fittings, pump, concrete and a septic system downstream suffer.",
        remedy="Fit a neutralizer before the heating season, ahead of where it joins the drain.",
        basis=COMMON_PRACTICE,
    ),
    FindingRow(
        code="acid-water-not-neutralized",
        severity=INFO,
        message="The furnace's water is about as acid as vinegar, and there is no neutralizer.",
        remedy="Where it meets metal pipe, concrete, a pump or a septic system, fit one; local code may ask for it "
        "anyway.",
        basis=COMMON_PRACTICE,
    ),
    FindingRow(
        code="neutralizer-not-known",
        severity=INFO,
        message="Nothing says whether the furnace's acid water goes through a neutralizer.",
        remedy="Look for one on the next visit, and send whether it is fitted.",
        basis=COMMON_PRACTICE,
    ),
    FindingRow(
        code="furnace-water-can-freeze",
        severity=ATTENTION,
        message="In the heating season the furnace sends {volume_rate:gal/h|L/h} {where}: ice closes the pipe, the "
        "burner stops, and the water backs up into furnace and pan.",
        remedy="Insulate and heat-trace the drain to its end before the first frost, or end it indoors in an approved "
        "place.",
        basis=COMMON_PRACTICE,
    ),
    FindingRow(
        code="shared-drain-too-small",
        severity=FAIL,
        message="The drain that coil and furnace share has to carry {peak_flow:gal/h|L/h}, and its {carrier} "
        "{capacity:gal/h|L/h}: it backs up.",
        remedy="Give the furnace a drain of its own, or make this one carry {peak_flow:gal/h|L/h}.",
        basis=PHYSICS,
    ),
    FindingRow(
        code="shared-drain-carries-larger",
        severity=INFO,
        message="The shared drain has to carry {peak_flow:gal/h|L/h}: {words}. The coil brings {coil_peak:gal/h|L/h} "
        "in its peak hour, the furnace {furnace_peak:gal/h|L/h} while it burns.",
        remedy="Size the shared drain and its pump for that.",
        basis=PHYSICS,
    ),
    FindingRow(
        code="shared-drain-not-known",
        severity=INFO,
        message="The furnace brings {furnace_peak:gal/h|L/h} into the shared drain; how much the coil brings is not "
        "known, nor which is the larger.",
        remedy="Send the unit's capacity.",
        basis=COMMON_PRACTICE,
    ),
    FindingRow(
        code="cleaning-overdue",
        severity=ATTENTION,
        message="The drain was last cleaned {since} ago, and has had {least} to {most} months of cooling since for "
        "slime to grow.",
        remedy="Clean pan, trap and line now, and before every season of cooling from then on.",
        basis=COMMON_PRACTICE,
    ),
    FindingRow(
        code="idle-times-differ",
        severity=ATTENTION,
        message="By its months the unit stands {by_months} days without cooling, by its off-season {sent} days; the "
        "longer was used.",
        remedy="Correct whichever is wrong.",
        basis=COMMON_PRACTICE,
    ),
    FindingRow(
        code="upkeep-of-any-unit",
        severity=INFO,
        message="Nothing is known of the unit: these are the checks that any unit needs, and those that find out more.",
        remedy="Send what is known of it, as the assessment takes it.",
        basis=COMMON_PRACTICE,
    ),
    FindingRow(
        code="unit-has-notes",
        severity=INFO,
        message="Further notes on the unit's data: {count}; none is urgent.",
        remedy="Post the unit to the assessment to read them.",
        basis=COMMON_PRACTICE,
    ),
)
