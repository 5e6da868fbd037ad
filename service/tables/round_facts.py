"""What a round would like to know of every unit, and what it is for. Common practice, no source."""

from dataclasses import dataclass, field


@dataclass(frozen=True, kw_only=True, slots=True)
class RoundFact:
    """One fact, known where any of its members was sent.

    Parameters
    ----------
    member : str
        RFC 6901 pointer into the unit: the member to send.
    instead : tuple of str
        Members that tell the same.
    only_with : str
        Member without which the fact is none, as a pump's float without a pump; empty for every unit.
    tells : str
        What it is for.
    """

    member: str
    tells: str
    instead: tuple[str, ...] = ()
    only_with: str = ""
    paths: tuple[tuple[str, ...], ...] = field(init=False, repr=False, compare=False)

    def __post_init__(self) -> None:
        """Take the pointers of the members that tell it apart once, into the names on the way."""
        paths = tuple(tuple(pointer[1:].split("/")) for pointer in (self.member, *self.instead))
        object.__setattr__(self, "paths", paths)


FACTS: tuple[RoundFact, ...] = (
    RoundFact(member="/below", tells="What the water would wet first."),
    RoundFact(member="/overflow_protection", tells="What stops the water when the drain blocks."),
    RoundFact(
        member="/cooling",
        instead=("/air_states", "/coil", "/measured_rate"),
        tells="How much water there is: without it no time can be given.",
    ),
    RoundFact(member="/pan", tells="How long there is when the drain blocks."),
    RoundFact(member="/months_since_cleaning", instead=("/fouled",), tells="How likely it is to block."),
    RoundFact(member="/pan_pressure", tells="What trap the unit needs."),
    RoundFact(member="/trap", tells="Whether it drains while the fan runs, and keeps its seal."),
    RoundFact(member="/line/run", instead=("/line/stations",), tells="Fall, gas and water for cleaning."),
    RoundFact(member="/line/fall", instead=("/line/stations",), tells="Whether the line drains by itself."),
    RoundFact(member="/line/pipe_size", tells="Which fittings to carry, and which methods suit."),
    RoundFact(member="/line/cleanout", tells="How the line is opened, and how long that takes."),
    RoundFact(member="/access/union", tells="Where gas can go in, and how long the work takes."),
    RoundFact(member="/access/pan_reachable", tells="Where water is poured and what must be plugged."),
    RoundFact(member="/access/far_end_reachable", tells="Whether a vacuum can pull there."),
    RoundFact(member="/access/float_switch", tells="What is taken out first and tripped last."),
    RoundFact(member="/discharge", tells="Where the water goes, and whether gas may come back."),
    RoundFact(member="/pump", only_with="/pumped", tells="Whether the pump can carry the water."),
    RoundFact(member="/pump/pump/safety_float", only_with="/pump", tells="What stops the water when the pump dies."),
)
