"""Findings about a trap that dries out between seasons."""

from service.tables.findings.row import ATTENTION, FAIL, INFO, FindingRow

PHYSICS = "physics"

ROWS: tuple[FindingRow, ...] = (
    FindingRow(
        code="seal-dries-out",
        severity=FAIL,
        message="The seal does not last {idle} days without water: evaporation takes it after {earliest} days where "
        "moving air sweeps the trap's ends, after {latest} days where the air in it stands still.",
        remedy="Pour water into the trap at least every {interval} days, or let a trap primer do it; at the least "
        "fill it before the fan is started.",
        basis=PHYSICS,
    ),
    FindingRow(
        code="seal-may-dry-out",
        severity=ATTENTION,
        message="It is uncertain whether the seal lasts {idle} days without water: with still air in the trap it does "
        "({latest} days), but where moving air sweeps its ends it may be gone after {earliest} days.",
        remedy="Look into the trap after {earliest} days. To be sure, pour water into it at least every {interval} "
        "days, and fill it before the fan is started.",
        basis=PHYSICS,
    ),
    FindingRow(
        code="deeper-seal-lasts",
        severity=INFO,
        message="A seal of {lasting_seal_depth:in|mm}, full at the start, would last {idle} days even with moving air "
        "at its ends; this one is {seal_depth:in|mm}.",
        remedy="When the trap is rebuilt, make the seal at least {lasting_seal_depth:in|mm} deep, with an outlet drop "
        "of at least {recommended_outlet_drop:in|mm}.",
        basis=PHYSICS,
    ),
    FindingRow(
        code="seal-lasts-for",
        severity=INFO,
        message="Without water the seal lasts between {earliest} days (moving air sweeps the trap's ends) and {latest} "
        "days (the air in it stands still): until the level has fallen {fall:in|mm}.",
        remedy="Where the unit stands idle for longer, refill the trap at least every {interval} days, and before the "
        "fan is started.",
        basis=PHYSICS,
    ),
    FindingRow(
        code="seal-does-not-dry-out",
        severity=INFO,
        message="In this air the trap loses no water, or so little that its seal lasts for more than ten years.",
        remedy="Make sure the air is as moist the year round; heated indoor air in winter is much drier.",
        basis=PHYSICS,
    ),
    FindingRow(
        code="seal-dry-from-start",
        severity=FAIL,
        message="The water already stands {evaporated_depth:in|mm} below the trap's outlet. With the fan's "
        "{pressure:inH2O|Pa} on the pan it may fall no more than {fall:in|mm}: the seal is lost from the start.",
        remedy="Fill the trap now, with at least {refill_volume:in3|mL}, and before the fan is started after every "
        "idle season.",
        basis=PHYSICS,
    ),
    FindingRow(
        code="seal-fails-when-full",
        severity=FAIL,
        message="Drying out does not matter here: even full, a seal of {seal_depth:in|mm} does not hold against the "
        "fan's {pressure:inH2O|Pa} with this outlet drop.",
        remedy="Rebuild the trap with a seal of at least {recommended_seal_depth:in|mm} and an outlet drop of at least "
        "{recommended_outlet_drop:in|mm}, then ask again.",
        basis=PHYSICS,
    ),
    FindingRow(
        code="air-wetter-than-water",
        severity=INFO,
        message="The air on the {side} holds vapour of {vapour_pressure:inH2O|Pa}, no less than the "
        "{saturation:inH2O|Pa} at the water's surface: no water leaves on that side, and some may condense there. What "
        "condenses is not counted on.",
        remedy="Nothing, if it stays like that. Read the air again in the driest part of the idle season.",
        basis=PHYSICS,
    ),
    FindingRow(
        code="air-overturns-in-trap",
        severity=INFO,
        message="In a bore of {bore:in|mm} the moist air on the water does not stand still: it is lighter than the "
        "drier air above it and overturns. The trap may dry out earlier than told here, which counts on diffusion.",
        remedy="Look into the trap at half of the earliest time. Narrower legs keep the air still.",
        basis=PHYSICS,
    ),
    FindingRow(
        code="closed-leg-facts-not-used",
        severity=INFO,
        message="This leg is said to be closed to the air, so that what was sent about the air over it does not enter.",
        remedy="Leave it out, or say that the leg is open.",
        basis=PHYSICS,
    ),
)
