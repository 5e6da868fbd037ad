"""How far the water of a trap may fall before the fan takes the seal."""

from service.calculations.trap_water import SLACK, Trap, head


def lowest_holding_level(trap: Trap, pressure: float) -> float | None:
    """Lowest level at rest from which the seal still holds when the fan starts.

    Parameters
    ----------
    trap : Trap
        The trap and its pan; its own ``evaporated_depth`` does not matter.
    pressure : float
        Fan-on pressure in the pan [Pa gauge]; suction is negative.

    Returns
    -------
    float or None
        Level above the outlet invert [m], zero or less; with no pressure the dip itself. None where the
        seal does not hold even with the trap full.

    Notes
    -----
    At the last moment the lower leg stands at the dip and the other one the pressure's column above it. The water
    this takes, back at rest, stands equally high in both legs:

        level = dip + water_above_dip / (unit-side area + outlet-side area)

    With equal legs that is half the column above the dip, as `trap_water.trap_states` finds from the other end.

    Examples
    --------
    A seal of 2 in under 1 in of suction, equal legs, by hand: it may fall 1-1/2 in.

    >>> trap = Trap(outlet_drop=0.0508, seal_depth=0.0508, unit_side_bore=0.02, outlet_side_bore=0.02, pan_area=0.3)
    >>> round(lowest_holding_level(trap, -249.08891) / 0.0254, 9)
    -1.5
    """
    column = -head(pressure)
    dip = -trap.seal_depth
    unit, outlet = dip + max(column, 0.0), dip + max(-column, 0.0)
    if unit > trap.rim + SLACK or outlet > SLACK:  # the water would run over first
        return None
    level = dip + trap.water_above_dip(unit, outlet) / (trap.unit_side_area + trap.outlet_side_area)
    return min(level, 0.0) if level <= SLACK else None
