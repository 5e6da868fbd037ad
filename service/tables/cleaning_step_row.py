"""One step of cleaning a drain, as the tables of steps have it: its members, and the words they may hold."""

from dataclasses import dataclass


@dataclass(frozen=True, kw_only=True, slots=True)
class StepRow:
    """One step.

    Parameters
    ----------
    code : str
        Stable kebab-case name; rows of one code are the same step in other circumstances.
    place : str
        Where the work is, one of `PLACES`; a plan may move it.
    minutes : float
        With good access.
    slowed : float
        Share, in parts, of the time that bad access adds to the visit; 0 where access makes no difference.
    instruction, look_for : str
        Templates.
    tool : str
        One of `TOOLS`; a plan may change it.
    cautions : tuple of str
        Codes of `service.tables.cautions`.
    """

    code: str
    place: str
    minutes: float
    slowed: float = 0.0
    instruction: str
    look_for: str
    tool: str = "hands"
    cautions: tuple[str, ...] = ()


PLACES = (
    "unit",
    "pan",
    "pan-outlet",
    "union",
    "trap",
    "cleanout",
    "line",
    "far-end",
    "pump-tank",
    "pump-tube",
)
"""Where a step is done."""

IN_WORDS = {"pan": "pan", "pan-outlet": "pan outlet", "cleanout": "cleanout", "union": "union"}
"""Where water is poured or gas goes in, in words."""

TOOLS = (
    "hands",
    "hand-tools",
    "brush",
    "plugs",
    "regulated-gas",
    "cartridge-gun",
    "wet-dry-vacuum",
    "jug",
    "building-water",
)
"""What a step is done with. `building-water` is a container or hose borrowed on site."""

OPENINGS = {
    "pan-outlet": "the pan outlet",
    "cleanout": "the cleanout (its own cap)",
    "vents": "every vent and open end",
    "other-units": "the drains of the other units on the line",
}
"""Openings of a drain that a step closes first, in words."""
