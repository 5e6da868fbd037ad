"""The water in a condensate trap: where it stands, and where every drop of it goes.

A trap is two upright legs joined by a bend. The unit-side leg comes down from the pan; the
outlet-side leg ends at the outlet invert, over which water runs away. Heights are measured
from the outlet invert, up positive: the dip (the top of the bend) lies ``seal_depth`` below
it, the pan outlet ``outlet_drop`` above it. The dip is what keeps air out: as long as
both legs stand at or above it, no air passes.

Only three things are used: a pressure difference p holds up a column p / (rho g) [1]_; water that
does not leave stays in the legs and the pan; water leaves over the outlet invert, or over the
pan's rim. The trade's rules follow from them and are nowhere typed in.
"""

import math
from dataclasses import field

from service.calculations.frozen import dataclass

WATER_DENSITY = 1000.0
"""Density [kg/m3] in the definition of a conventional water column."""

GRAVITY = 9.80665
"""Standard acceleration of free fall [m/s2] in the same definition."""

SLACK = 1e-7
"""Height [m] no rule can see; swallows the last bits lost in unit conversions."""

STATES = ("at_rest", "start_up", "running", "fan_stopped")
"""The four states, in the order they follow each other."""


def head(pressure: float) -> float:
    """Height of the conventional water column that a pressure holds.

    Parameters
    ----------
    pressure : float
        Gauge pressure [Pa].

    Returns
    -------
    float
        h = p / (rho g) [m] with 1000 kg/m3 and 9.80665 m/s2, so that 1 inH2O is exactly 1 in. This holds at
        any elevation: a gauge that reads inches of water is the same balance of water as the trap.

    Examples
    --------
    >>> round(head(249.08891) / 0.0254, 12)
    1.0
    """
    return pressure / (WATER_DENSITY * GRAVITY)


def head_pressure(height: float) -> float:
    """Pressure [Pa] of a conventional water column of ``height`` [m]; the inverse of `head`."""
    return height * WATER_DENSITY * GRAVITY


def bore_area(bore: float) -> float:
    """Area [m2] of a round bore [m]."""
    return 0.25 * math.pi * bore * bore


@dataclass(frozen=True, kw_only=True, slots=True)
class Trap:
    """A trap as built, with the pan above it.

    Parameters
    ----------
    outlet_drop : float
        Height of the pan outlet above the trap's outlet invert [m]; negative where the trap's outlet is the higher.
    seal_depth : float
        Depth of the dip below the outlet invert [m].
    unit_side_bore, outlet_side_bore : float
        Bores of the legs [m].
    pan_area : float
        Area of the water in the pan [m2].
    pan_depth : float
        Height of the pan's rim above the pan outlet [m]; infinite where the pan cannot run over.
    evaporated_depth : float
        How far the water at rest has fallen below where it stands when full [m].

    Attributes
    ----------
    unit_side_area, outlet_side_area : float
        Areas of the legs [m2].
    rim : float
        Height of the pan's rim above the outlet invert [m].
    knee : float
        Level at which water on the unit side starts to fill the pan instead of the leg [m].
    """

    outlet_drop: float
    seal_depth: float
    unit_side_bore: float
    outlet_side_bore: float
    pan_area: float
    pan_depth: float = math.inf
    evaporated_depth: float = 0.0

    unit_side_area: float = field(init=False)
    outlet_side_area: float = field(init=False)
    rim: float = field(init=False)
    knee: float = field(init=False)

    def __post_init__(self) -> None:
        derive = object.__setattr__  # once, for they are read many times
        derive(self, "unit_side_area", bore_area(self.unit_side_bore))
        derive(self, "outlet_side_area", bore_area(self.outlet_side_bore))
        derive(self, "rim", self.outlet_drop + self.pan_depth)
        derive(self, "knee", max(self.outlet_drop, -self.seal_depth))

    @property
    def bend_volume(self) -> float:
        """Water below the dip [m3], for the tightest bend there is.

        The bend turns about the dip itself: half a ring of mean radius bore / 2, which by Pappus holds
        area x pi x bore / 2. Legs of two sizes: the mean of both. A wider bend holds more; the levels
        do not depend on it.
        """
        mean_bore = 0.5 * (self.unit_side_bore + self.outlet_side_bore)
        mean_area = 0.5 * (self.unit_side_area + self.outlet_side_area)
        return mean_area * 0.5 * math.pi * mean_bore

    def water_above_dip(self, unit_side_level: float, outlet_side_level: float) -> float:
        """Water [m3] that stands above the dip with the legs (and the pan) at these levels [m].

        A level below the dip counts negative: the water that is missing there.
        """
        in_leg = self.unit_side_area * (min(unit_side_level, self.knee) + self.seal_depth)
        in_pan = self.pan_area * max(unit_side_level - self.knee, 0.0)
        return in_leg + in_pan + self.outlet_side_area * (outlet_side_level + self.seal_depth)


@dataclass(frozen=True, kw_only=True, slots=True)
class TrapState:
    """Where the water stands in one state.

    Parameters
    ----------
    state : str
        One of `STATES`.
    unit_side_level, outlet_side_level : float
        Levels above the outlet invert [m], up positive.
    seal_remaining : float
        Water left above the dip in the lower leg [m]. Negative: how much deeper the dip would have to be.
    seal_holds : bool
        No air passes.
    pan_water_depth : float
        Depth of the water in the pan, above the pan outlet [m].
    water_volume : float or None
        Water in trap and pan [m3], bend included.
    water_added : float or None
        Condensate that has stayed since the state before [m3].
    water_spilled : float or None
        Water that has run over the outlet invert since the state before [m3], besides the condensate
        that passes through while running.
    water_overflowed : float or None
        Water that has run over the pan's rim since the state before [m3], besides the condensate
        that goes the same way while the pan is full.

    Notes
    -----
    Where the pan is not known, None stands for the volumes that depend on it.
    """

    state: str
    unit_side_level: float
    outlet_side_level: float
    seal_remaining: float
    seal_holds: bool
    pan_water_depth: float
    water_volume: float | None
    water_added: float | None
    water_spilled: float | None
    water_overflowed: float | None


@dataclass(slots=True)
class _Standing:
    """Levels [m], seal [m] and the water above the dip [m3] after it has settled."""

    unit: float
    outlet: float
    seal: float
    water: float
    spilled: float
    overflowed: float


def trap_states(trap: Trap, pressure: float, *, pan_known: bool = True) -> tuple[TrapState, ...]:
    """Follow the water of a trap through one run of the fan.

    Parameters
    ----------
    trap : Trap
        The trap and its pan.
    pressure : float
        Fan-on pressure in the pan [Pa gauge]; suction is negative.
    pan_known : bool
        False where the pan's area is a guess: volumes are left out where water stands in it, or has just left it.

    Returns
    -------
    tuple of TrapState
        At rest (full to the outlet invert, less what has evaporated), start-up (pressure on, no condensate yet),
        running (steady, condensate arriving and leaving), fan stopped (pressure off, held-up water gone).

    Notes
    -----
    Hydrostatic: levels after they have settled, no surge. Where start-up has broken the seal, air rushes
    through; ``running`` is then the state once condensate has filled the trap again (``water_added``), which the
    rush of air may delay or prevent.

    Examples
    --------
    Suction of 1 in on equal legs, by hand: half an inch up and down at start-up; when running, the unit
    side stands 1 in above the outlet invert.

    >>> trap = Trap(outlet_drop=0.0508, seal_depth=0.0254, unit_side_bore=0.02, outlet_side_bore=0.02, pan_area=0.3)
    >>> [round(state.unit_side_level / 0.0254, 9) for state in trap_states(trap, -249.08891)]
    [0.0, 0.5, 1.0, 0.0]

    References
    ----------
    .. [1] Hydrostatics: dp = rho g dh.
    """
    if trap.rim <= -trap.seal_depth:
        return _never_filled(trap, pan_known)
    column = -head(pressure)  # height by which the unit side stands above the outlet side
    dip = -trap.seal_depth
    level, water = _at_rest(trap, trap.evaporated_depth)
    resting = max(level, dip)
    at_rest = _Standing(resting, resting, level - dip, max(water, 0.0), 0.0, 0.0)
    start_up = _settle(trap, water, column)
    running = _fill(trap, column)
    fan_stopped = _settle(trap, running.water, 0.0)
    below = _water_below_dip(trap)
    arrived = max(running.water - start_up.water, 0.0)
    states, was_wet = [], False
    for name, standing in zip(STATES, (at_rest, start_up, running, fan_stopped), strict=True):
        depth = max(standing.unit - trap.outlet_drop, 0.0)
        wet = not pan_known and depth > SLACK
        told = not (wet or was_wet)
        states.append(
            TrapState(
                state=name,
                unit_side_level=standing.unit,
                outlet_side_level=standing.outlet,
                seal_remaining=standing.seal,
                seal_holds=standing.seal >= -SLACK and trap.seal_depth > SLACK,
                pan_water_depth=depth,
                water_volume=None if wet else standing.water + below,
                water_added=(arrived if name == "running" else 0.0) if told else None,
                water_spilled=standing.spilled if told else None,
                water_overflowed=standing.overflowed if told else None,
            )
        )
        was_wet = wet
    return tuple(states)


def seal_at_start_up(trap: Trap, pressure: float, *, evaporated_depth: float) -> float:
    """Water left above the dip at start-up, as `trap_states` has it for a trap with this ``evaporated_depth``.

    Parameters
    ----------
    trap : Trap
        The trap and its pan; its own ``evaporated_depth`` does not matter.
    pressure : float
        Fan-on pressure in the pan [Pa gauge]; suction is negative.
    evaporated_depth : float
        How far the water at rest has fallen below where it stands when full [m].

    Returns
    -------
    float
        Height [m]; negative where it is short.
    """
    if trap.rim <= -trap.seal_depth:
        return trap.rim + trap.seal_depth
    _, water = _at_rest(trap, evaporated_depth)
    return _settle(trap, water, -head(pressure)).seal


def water_when_full(trap: Trap) -> float:
    """Water [m3] of trap and pan, bend included, at rest and nothing evaporated; as `trap_states` has it."""
    if trap.rim <= -trap.seal_depth:
        return trap.pan_area * trap.pan_depth
    _, water = _at_rest(trap, 0.0)
    return water + _water_below_dip(trap)


def _at_rest(trap: Trap, evaporated_depth: float) -> tuple[float, float]:
    """Level at rest [m] and water above the dip [m3]; where it has dried out below the dip, by what is missing."""
    level = min(0.0, trap.rim) - evaporated_depth
    return level, trap.water_above_dip(level, level)


def _water_below_dip(trap: Trap) -> float:
    """Water [m3] in the bend, and in a pan whose outlet lies below the dip: always under water."""
    return trap.bend_volume + trap.pan_area * (trap.knee - trap.outlet_drop)


def _settle(trap: Trap, water: float, column: float) -> _Standing:
    """Let a given volume of water settle under a column; none arrives.

    Solves unit - outlet = column (1) with water_above_dip(unit, outlet) = water (2), both piecewise linear.
    """
    dip, knee, rim = -trap.seal_depth, trap.knee, trap.rim
    unit_area, outlet_area = trap.unit_side_area, trap.outlet_side_area
    available = max(water, 0.0)
    # (1) and (2) with the unit side below the knee: unit-side area x (unit - dip) + outlet area x (unit - column - dip)
    unit = dip + (water + outlet_area * column) / (unit_area + outlet_area)
    if unit > knee:  # (2) with all of the leg full and the rest in the pan
        in_legs = unit_area * (knee - dip) + outlet_area * (knee - column - dip)
        unit = knee + (water - in_legs) / (trap.pan_area + outlet_area)
    outlet = unit - column
    spills = outlet > 0.0 and column <= rim  # over the outlet invert
    overflows = not spills and unit > rim  # over the pan's rim
    if spills:
        unit, outlet = column, 0.0
    elif overflows:
        unit, outlet = rim, rim - column
    seal = min(unit, outlet) - dip
    if outlet < dip:  # air drawn in through the bend: all the water is on the unit side
        unit, outlet = _unit_level(trap, available), dip
        overflows = unit > rim
        unit = min(unit, rim)
    elif unit < dip:  # air blown out through the bend: all the water is on the outlet side
        unit, outlet = dip, dip + available / outlet_area
        spills = outlet > 0.0
        outlet = min(outlet, 0.0)
    left = trap.water_above_dip(unit, outlet) if spills or overflows else available
    lost = available - left
    return _Standing(unit, outlet, seal, left, lost if spills else 0.0, lost if overflows else 0.0)


def _fill(trap: Trap, column: float) -> _Standing:
    """Let condensate arrive until as much leaves as comes, over the outlet invert or over the pan's rim."""
    dip = -trap.seal_depth
    unit = min(column, trap.rim)
    outlet = min(unit - column, 0.0)
    seal = min(unit, outlet) - dip
    unit, outlet = max(unit, dip), max(outlet, dip)
    return _Standing(unit, outlet, seal, trap.water_above_dip(unit, outlet), 0.0, 0.0)


def _unit_level(trap: Trap, water: float) -> float:
    """Level of the unit side when it alone holds ``water`` [m3] above the dip."""
    in_leg = trap.unit_side_area * (trap.knee + trap.seal_depth)
    if water <= in_leg:
        return -trap.seal_depth + water / trap.unit_side_area
    return trap.knee + (water - in_leg) / trap.pan_area


def _never_filled(trap: Trap, pan_known: bool) -> tuple[TrapState, ...]:
    """Rim at or below the dip: the pan runs over before any water reaches the bend, whatever the fan does."""
    none_moved = 0.0 if pan_known else None
    return tuple(
        TrapState(
            state=name,
            unit_side_level=trap.rim,
            outlet_side_level=-trap.seal_depth,
            seal_remaining=trap.rim + trap.seal_depth,
            seal_holds=False,
            pan_water_depth=trap.pan_depth,
            water_volume=trap.pan_area * trap.pan_depth if pan_known else None,
            water_added=none_moved,
            water_spilled=none_moved,
            water_overflowed=none_moved,
        )
        for name in STATES
    )
