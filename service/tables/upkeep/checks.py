"""Every row of upkeep, in the order of the work within a season."""

from service.tables.upkeep import drain, furnace, overflow, trap
from service.tables.upkeep.row import SEASONS, UpkeepRow

_ORDER = (
    # what frost did, and what is there at all
    "look-after-frost",
    "find-trap",
    "find-outlet",
    "find-pump",
    "find-protection",
    "find-frost",
    "find-furnace",
    "find-furnace-drain",
    "find-neutralizer",
    # clean, and put right
    "clean-line",
    "look-for-slime",
    "rinse-pan",
    "clear-outlet",
    "sight-along-line",
    "correct-fall",
    "add-supports",
    "change-filter",
    # fill, and prove
    "drain-for-winter",
    "protect-from-frost",
    "keep-seal",
    "test-refilling",
    "refill-trap",
    "keep-sewer-gas-out",
    "fill-trap",
    "pour-test",
    "pump-test",
    "measure-pan-pressure",
    "feel-for-air",
    "look-for-spitting",
    "look-for-held-water",
    "watch-discharge",
    "watch-pump",
    # the furnace
    "fill-furnace-trap",
    "follow-furnace-drain",
    "prove-shared-drain",
    "look-at-acid-pump",
    "renew-neutralizer",
    "fit-neutralizer",
    "watch-furnace-water",
    "find-why-dry",
    "look-for-ice",
    "feel-heat-tape",
    # last, what stops the water
    "clear-second-way-out",
    "watch-second-way-out",
    "look-into-auxiliary-pan",
    "look-for-overflow",
    "look-for-water",
    "trip-pump-float",
    "trip-cut-out",
)

CHECKS: tuple[UpkeepRow, ...] = tuple(
    sorted((*trap.ROWS, *drain.ROWS, *overflow.ROWS, *furnace.ROWS), key=lambda row: _ORDER.index(row.code))
)
"""Every row."""

BY_SEASON: dict[str, tuple[UpkeepRow, ...]] = {
    season: tuple(row for row in CHECKS if season in row.seasons) for season in SEASONS
}
"""The rows of each season."""

CODES: tuple[str, ...] = tuple(dict.fromkeys(row.code for row in CHECKS))
"""Every check's code, once."""
