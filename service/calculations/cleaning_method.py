"""Which way a drain is cleaned, where the gun or hose goes, and what forbids the other ways.

A method is chosen by what forbids it, never by preference alone: every method is tried, each
reason against it is kept, and the first of `service.tables.cleaning_methods.METHODS` that has none is taken.
"""

from service.calculations.answer import Sentence, Value
from service.calculations.cleaning_gas import GasUse
from service.calculations.cleaning_site import Site
from service.calculations.frozen import dataclass
from service.tables.cleaning_methods import METHOD_NAMES, REASONS, REFUSALS
from service.tables.cleaning_step_row import IN_WORDS
from service.tables.pipe_sizes import NOMINAL_SIZES

GAS_SIZES = ("3/4", "1")
"""Nominal sizes that gas suits. Common practice, no source."""

LEAST_BRUSHED = "3/4"
"""Smallest nominal size a flexible brush passes. Common practice, no source."""

GAS_METHODS = ("regulated-gas", "cartridge-gas")


@dataclass(frozen=True, kw_only=True, slots=True)
class RefusedMethod:
    """A method that may not be used: its name, the code of one reason, and the reason in words."""

    method: str
    reason: str
    explanation: Sentence


@dataclass(frozen=True, kw_only=True, slots=True)
class WayIn:
    """How the drain is opened, and where gas may go in.

    Parameters
    ----------
    opening : str or None
        Key of the step that cuts the line open, or None where nothing has to be cut.
    cleanout, union : bool
        What can be opened by hand once that is done.
    pour_place : str
        Where water goes in: ``pan``, ``cleanout`` or ``union``.
    gun_place : str or None
        Where gas goes in; None where its way back to the pan cannot be closed.
    gun_closes : tuple of str
        Openings closed for that.
    gun_plugs : int
        Plugs that takes.
    """

    opening: str | None
    cleanout: bool
    union: bool
    pour_place: str
    gun_place: str | None
    gun_closes: tuple[str, ...]
    gun_plugs: int


@dataclass(frozen=True, kw_only=True, slots=True)
class MethodChoice:
    """The way the drain is cleaned.

    Parameters
    ----------
    method : str
        One of `service.tables.cleaning_methods.METHODS`.
    brushed : bool
        Whether a brush goes in, before the method or as the method.
    reasons : tuple of Sentence
        Why.
    alternatives : tuple of str
        Methods that might be used as well.
    refused : tuple of RefusedMethod
        Methods that may not, one row for each reason.
    reached : float
        Length of line that brush, suction or gas goes through [m].
    trap_reached : bool
        Whether one of them goes through the trap.
    """

    method: str
    brushed: bool
    reasons: tuple[Sentence, ...]
    alternatives: tuple[str, ...]
    refused: tuple[RefusedMethod, ...]
    reached: float
    trap_reached: bool


def find_way_in(site: Site) -> WayIn:
    """Find how the drain is opened, and where gas may go in.

    Parameters
    ----------
    site : Site
        As found.

    Returns
    -------
    WayIn
        It cuts only where nothing else lets water in above the trap, because then the trap could be neither refilled
        nor proved. Gas goes in at the union, where the pan is taken off altogether; else at the cleanout, with the
        pan outlet plugged; else at the pan outlet itself, where plugs are short. At a union and at the pan outlet it
        goes through the trap as well.
    """
    cleanout, union, opening = site.cleanout == "removable", site.union, None
    if not (cleanout or union or site.pan_reachable):
        opening = "cut-off-welded-cap" if site.cleanout == "solvent-welded" else "cut-in-cleanout"
        cleanout, union = True, opening == "cut-in-cleanout"
    others = tuple(name for name, count in (("vents", site.vents), ("other-units", site.other_units)) if count > 0)
    plugs = site.vents + site.other_units
    cap = ("cleanout",) if cleanout else ()
    places: list[tuple[str, tuple[str, ...], int]] = []
    if union:
        places.append(("union", (*cap, *others), plugs))
    if cleanout and site.pan_reachable:
        places.append(("cleanout", ("pan-outlet", *others), plugs + 1))
    if site.pan_reachable:
        places.append(("pan-outlet", (*cap, *others), plugs))
    held = site.equipment.plugs or 0
    place, closes, needed = next(
        (found for found in places if found[2] <= held), min(places, key=lambda found: found[2], default=(None, (), 0))
    )
    above_trap = "cleanout" if cleanout else "union"
    return WayIn(
        opening=opening,
        cleanout=cleanout,
        union=union,
        pour_place="pan" if site.pan_reachable else above_trap,
        gun_place=place,
        gun_closes=closes,
        gun_plugs=needed,
    )


def choose_method(site: Site, way: WayIn, gas: GasUse | None) -> MethodChoice:
    """Choose how the drain is cleaned.

    Parameters
    ----------
    site : Site
        As found.
    way : WayIn
        From `find_way_in`.
    gas : GasUse or None
        What the gas on the truck does for this drain.

    Returns
    -------
    MethodChoice
    """
    refused = (
        *_against_vacuum(site),
        *_against_gas("regulated-gas", site, way, gas),
        *_against_gas("cartridge-gas", site, way, gas),
        *_against_brush(site),
    )
    forbidden = {refusal.method for refusal in refused}
    possible = tuple(method for method in METHOD_NAMES if method not in forbidden)
    line, trap, brush = "line" in site.fouled, "trap" in site.fouled, "brush" in possible
    if not (line or trap):
        method = "by-hand"
    elif not line and brush:
        method = "brush"
    else:
        method = next(iter(possible), "water-rinse")
    brushed = brush and method != "by-hand"
    through_trap = method == "wet-dry-vacuum" or (method in GAS_METHODS and way.gun_place != "cleanout")
    if method == "wet-dry-vacuum" or method in GAS_METHODS:
        reached = site.run
    else:
        ends = 2 if site.far_end_reachable and not site.end_closed and line else 1
        reached = min(site.run, ends * site.brush_length) if brushed else 0.0
    return MethodChoice(
        method=method,
        brushed=brushed,
        reasons=_reasons(site, way, gas, method, brushed, reached),
        alternatives=tuple(name for name in possible if name != method and method != "by-hand"),
        refused=refused,
        reached=reached,
        trap_reached=brushed or through_trap,
    )


def _refuse(method: str, reason: str, **values: Value) -> RefusedMethod:
    return RefusedMethod(method=method, reason=reason, explanation=Sentence(text=REFUSALS[reason], values=values))


def _against_vacuum(site: Site) -> list[RefusedMethod]:
    """Everything that forbids pulling."""
    method, found = "wet-dry-vacuum", []
    if not site.equipment.wet_dry_vacuum:
        found.append(_refuse(method, "not-on-truck", tool=METHOD_NAMES[method]))
    if not site.far_end_reachable:
        found.append(_refuse(method, "far-end-out-of-reach"))
    if site.end_closed:
        found.append(_refuse(method, "far-end-closed", place=site.end or ""))
    return found


def _against_gas(method: str, site: Site, way: WayIn, gas: GasUse | None) -> list[RefusedMethod]:
    """Everything that forbids pushing with one kind of gas."""
    found: list[RefusedMethod] = []
    use = (gas.cylinder if method == "regulated-gas" else gas.cartridges) if gas else None
    if use is None:
        found.append(_refuse(method, "not-on-truck", tool=METHOD_NAMES[method]))
    elif use.drains < 1:
        cartridges = gas.cartridges if gas else None
        held = gas.cylinder.usable_content if gas and gas.cylinder else 0.0
        if method == "cartridge-gas" and cartridges:
            held = cartridges.cartridges * cartridges.gas_per_cartridge
        found.append(_refuse(method, "not-enough-gas", needed=use.gas_per_drain, available=held))
    if site.pipe_size not in GAS_SIZES:
        found.append(_refuse(method, "bore-not-suited", pipe_size=site.pipe_size))
    if way.gun_place is None:
        found.append(_refuse(method, "bypasses-trap"))
    elif way.gun_plugs > (site.equipment.plugs or 0):
        values = {"needed": way.gun_plugs, "plugs": site.equipment.plugs or 0}
        found.append(_refuse(method, "openings-left-open", **values))
    if site.end_closed:
        found.append(_refuse(method, "far-end-closed", place=site.end or ""))
    if site.pumped and not site.far_end_reachable:
        found.append(_refuse(method, "into-pump-tank"))
    elif site.end is None and not site.far_end_reachable:
        found.append(_refuse(method, "far-end-not-known"))
    return found


def _against_brush(site: Site) -> list[RefusedMethod]:
    """Everything that forbids brushing."""
    found = []
    if site.equipment.brush is None:
        found.append(_refuse("brush", "not-on-truck", tool=METHOD_NAMES["brush"]))
    if NOMINAL_SIZES.index(site.pipe_size) < NOMINAL_SIZES.index(LEAST_BRUSHED):
        found.append(_refuse("brush", "bore-too-narrow", pipe_size=site.pipe_size))
    return found


def _reasons(
    site: Site, way: WayIn, gas: GasUse | None, method: str, brushed: bool, reached: float
) -> tuple[Sentence, ...]:
    """Say why, the method first."""
    values: dict[str, Value] = {"run": site.run, "reached": reached}
    if gas and method in GAS_METHODS:
        values |= {"gun_place": IN_WORDS.get(way.gun_place or "", ""), "working_pressure": gas.working_pressure}
        if method == "regulated-gas" and gas.cylinder:
            values |= {"usable": gas.cylinder.usable_content, "drains": gas.cylinder.drains}
        elif gas.cartridges:
            values |= {"held": gas.cartridges.cartridges, "drains": gas.cartridges.drains}
    keys = ["brush-trap" if method == "brush" and "line" not in site.fouled else method]
    if brushed and method != "brush":
        keys.append("brush-first")
    if method in GAS_METHODS and way.gun_place == "cleanout":
        keys.append("through-cleanout-only")
    if site.pumped and (method in GAS_METHODS or method == "wet-dry-vacuum"):
        keys.append("no-gas-through-pump")
    if way.opening:
        keys.append("opened-for-test")
    if is_slow(site, way, method):
        keys.append("slow-access")
    return tuple(Sentence(text=REASONS[key], values=values) for key in keys)


def is_slow(site: Site, way: WayIn, method: str) -> bool:
    """Whether access, as found, makes this work slow: a cleanout that does not open by hand, or no union."""
    return (site.cleanout != "removable" or not site.union) and (method != "by-hand" or way.opening is not None)
