"""The line as a profile of stations, and the level at which its water stands once no more arrives.

Condensate comes from the pan, so water passes a point only over the highest invert that is still to come. It therefore
stands, when the drain has stopped, at

    level at a point = the highest invert from there to the discharge (and the water at the discharge, if any),

which is one pass from the discharge to the pan. Where that level reaches above the first station the water stands back
into the trap and the pan: that end is open to them, and it is water that is kept, not lost.
"""

from service.calculations.frozen import dataclass

SLACK = 1e-9
"""Heights closer than this [m] are one: the last bits of a unit conversion."""

VERTICAL_RUN = 1e-3
"""Stations closer along the line than 1 mm [m], which no tape tells apart, are a vertical drop or riser."""


@dataclass(frozen=True, kw_only=True, slots=True)
class Station:
    """A place along the line where its height was measured.

    Parameters
    ----------
    distance : float
        Horizontal, from any point upstream [m].
    invert : float or None
        Height of the pipe's inside bottom above the datum [m], up positive.
    drop_below_level_line : float or None
        From a level line down to the inside bottom [m]; instead of ``invert``.
    """

    distance: float
    invert: float | None = None
    drop_below_level_line: float | None = None


@dataclass(frozen=True, kw_only=True, slots=True)
class ProfilePoint:
    """A station in its place along the line.

    Parameters
    ----------
    station : int
        Its place in the request, from 0.
    distance : float
        From the start of the survey, downstream [m].
    invert : float
        Height of the pipe's inside bottom above the datum [m].
    level : float
        Level of the water that stands there; the invert where it is dry [m].
    """

    station: int
    distance: float
    invert: float
    level: float

    @property
    def depth(self) -> float:
        """Water over the inside bottom [m]."""
        depth = self.level - self.invert
        return depth if depth > SLACK else 0.0


def profile(
    stations: tuple[Station, ...], *, level_line_height: float, water_depth_at_outlet: float
) -> tuple[ProfilePoint, ...]:
    """Put the stations in order downstream and find the water's level at each.

    Parameters
    ----------
    stations : tuple of Station
        At least one; those at one distance keep their order.
    level_line_height : float
        Height of the level line above the datum of the inverts [m].
    water_depth_at_outlet : float
        Standing water over the inside bottom of the last station [m].

    Returns
    -------
    tuple of ProfilePoint
    """
    distances = [station.distance for station in stations]
    order = sorted(range(len(stations)), key=distances.__getitem__)
    inverts = [_invert(stations[index], level_line_height) for index in order]
    levels = water_levels(inverts, water_depth_at_outlet)
    return tuple(
        [
            ProfilePoint(station=index, distance=distances[index], invert=invert, level=level)
            for index, invert, level in zip(order, inverts, levels, strict=True)
        ]
    )


def water_levels(inverts: list[float], water_depth_at_outlet: float) -> list[float]:
    """Find the level at which water stands at each station.

    Parameters
    ----------
    inverts : list of float
        Heights of the inside bottom, downstream [m].
    water_depth_at_outlet : float
        Standing water over the last one [m].

    Returns
    -------
    list of float
        Levels [m], each at or above its invert and never rising downstream.

    Examples
    --------
    >>> water_levels([5.0, 1.0, 3.0, 2.0], 0.0)
    [5.0, 3.0, 3.0, 2.0]
    """
    level = inverts[-1] + water_depth_at_outlet
    levels = []
    for invert in reversed(inverts):
        if invert > level:
            level = invert
        levels.append(level)
    levels.reverse()
    return levels


def _invert(station: Station, level_line_height: float) -> float:
    """Height of a station's inside bottom above the datum [m]."""
    if station.invert is not None:
        return station.invert
    return level_line_height - (station.drop_below_level_line or 0.0)
