"""What a gravity line carries when clean, and how much slime it may take.

References
----------
.. [1] V. T. Chow, *Open-Channel Hydraulics*, 1959: Manning's formula in a circular section.
"""

from dataclasses import dataclass

from service.calculations.pipe_flow import full_bore_flow, part_full_depth

MANNING_COEFFICIENT = 0.011
"""Rough end of the 0.009 to 0.011 handbooks give for plastic pipe, and their figure for copper."""


@dataclass(frozen=True, kw_only=True, slots=True)
class LineFlow:
    """A clean line in the peak hour.

    Parameters
    ----------
    bore : float
        Inside diameter [m].
    full_bore_capacity : float
        What it carries just full at its pitch [m3/s]; 0 where it does not fall.
    depth_fraction : float or None
        Depth of water over bore; 1 where the line cannot carry the peak hour, None where it
        does not fall.
    fouling_margin : float
        Share of the clean bore's area that an even film of slime may take before the peak hour
        fills what is left; 0 where the clean line is already too small or does not fall.
    fouling_film_thickness : float
        Thickness of that film [m].
    """

    bore: float
    full_bore_capacity: float
    depth_fraction: float | None
    fouling_margin: float
    fouling_film_thickness: float


def line_flow(*, peak_flow: float, bore: float, pitch_ratio: float, manning_coefficient: float) -> LineFlow:
    """Tell what a clean line carries, and how much slime it may take.

    Parameters
    ----------
    peak_flow : float
        Water of the peak hour [m3/s].
    bore : float
        Inside diameter of the clean line [m].
    pitch_ratio : float
        Fall over run, positive downstream.
    manning_coefficient : float
        Manning's roughness coefficient [s/m^(1/3)].

    Returns
    -------
    LineFlow

    Notes
    -----
    A film that leaves a bore d of a clean bore D leaves the capacity (d/D)^(8/3) by Manning
    [1]_, so the peak flow Q fills it when the area left is (d/D)^2 = (Q/Q_full)^(3/4).

    Examples
    --------
    By hand: a line that carries 16 times the peak hour keeps (1/16)^(3/4) = 1/8 of its area when
    slime just makes it back up, so 7/8 may foul:

    >>> full = full_bore_flow(bore=0.02, pitch_ratio=0.01, manning_coefficient=0.011)
    >>> flow = line_flow(peak_flow=full / 16, bore=0.02, pitch_ratio=0.01, manning_coefficient=0.011)
    >>> round(flow.fouling_margin, 12)
    0.875
    """
    capacity = full_bore_flow(bore=bore, pitch_ratio=pitch_ratio, manning_coefficient=manning_coefficient)
    if capacity <= 0.0:
        return LineFlow(
            bore=bore, full_bore_capacity=0.0, depth_fraction=None, fouling_margin=0.0, fouling_film_thickness=0.0
        )
    share = peak_flow / capacity
    depth = part_full_depth(share)
    bore_left = min(pow(share, 3.0 / 8.0), 1.0)
    return LineFlow(
        bore=bore,
        full_bore_capacity=capacity,
        depth_fraction=1.0 if depth is None else depth,
        fouling_margin=1.0 - bore_left**2,
        fouling_film_thickness=bore * (1.0 - bore_left) / 2.0,
    )
