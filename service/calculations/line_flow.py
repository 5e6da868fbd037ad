"""What the water does in a clean gravity line, and how much slime the line may take.

References
----------
.. [1] V. T. Chow, *Open-Channel Hydraulics*, 1959: Manning's formula in a circular section.
.. [2] National Standard Plumbing Code 2009, appendix K, Flow in Sloping Drains: 2 ft/s scours horizontal
   sanitary drains.
"""

from math import pow

from service.calculations.frozen import dataclass
from service.calculations.gravity_flow import (
    full_bore_flow,
    hydraulic_diameter,
    laminar_depth,
    laminar_full_bore_flow,
    part_full_depth,
    part_full_velocity_ratio,
)
from service.calculations.pipe_flow import LAMINAR_ENDS, velocity

MANNING_COEFFICIENT = 0.011
"""Rough end of the 0.009 to 0.011 handbooks give for plastic pipe, and their figure for copper."""

WATER_TEMPERATURE = 293.15
"""20 degC: condensate leaves the coil at 10 to 15 and warms up on its way."""

SCOURING_VELOCITY = 2.0 * 0.3048
"""2 ft/s [m/s], at which a sanitary drain keeps solids moving [2]_."""


@dataclass(frozen=True, kw_only=True, slots=True)
class LineFlow:
    """A clean line in the peak hour; every member is None where there is no such pipe to compute.

    Parameters
    ----------
    bore : float or None
        Inside diameter [m].
    full_bore_capacity : float or None
        What it carries just full at its pitch [m3/s]; 0 where it does not fall.
    full_bore_velocity : float or None
        Mean velocity when just full [m/s]; 0 where it does not fall.
    depth, depth_fraction : float or None
        Depth of water [m], and over the bore; the whole bore where the line cannot carry the peak hour, None where
        it does not fall.
    velocity : float or None
        Mean velocity at that depth [m/s]; None where it does not fall.
    reynolds : float or None
        Reynolds number of that flow on its hydraulic diameter; laminar up to 2000.
    laminar_depth : float or None
        Depth by the law of laminar flow [m]; None where the flow is not laminar.
    self_cleansing : bool or None
        Whether the velocity reaches `SCOURING_VELOCITY`.
    fouling_margin : float or None
        Share of the clean bore's area that an even film of slime may take before the peak hour
        fills what is left; 0 where the clean line is already too small or does not fall.
    fouling_film_thickness : float or None
        Thickness of that film [m].
    """

    bore: float | None = None
    full_bore_capacity: float | None = None
    full_bore_velocity: float | None = None
    depth: float | None = None
    depth_fraction: float | None = None
    velocity: float | None = None
    reynolds: float | None = None
    laminar_depth: float | None = None
    self_cleansing: bool | None = None
    fouling_margin: float | None = None
    fouling_film_thickness: float | None = None


def line_flow(
    *, peak_flow: float, bore: float, pitch_ratio: float, manning_coefficient: float, kinematic_viscosity: float
) -> LineFlow:
    """Tell how the peak hour runs in a clean line, and how much slime the line may take.

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
    kinematic_viscosity : float
        Of the water [m2/s].

    Returns
    -------
    LineFlow

    Notes
    -----
    A film that leaves a bore d of a clean bore D leaves the capacity (d/D)^(8/3) by Manning [1]_, so the peak flow Q
    fills it when the area left is (d/D)^2 = (Q/Q_full)^(3/4). The film is then (D - d)/2 thick.

    Between 0.82 and the whole of the bore two depths carry the same flow, a little more than the full bore does. The
    lower is given. The capacity is counted as that of the full bore, because so near the crown any ripple or slime
    closes the bore.

    Manning's formula [1]_ is made for turbulent flow. A few gallons an hour run laminar: deeper and slower than it
    says below a Reynolds number of about 1000, shallower from there to 2000; `laminar_depth` has the figure. With the
    usual coefficient, at the code's pitches and in the sizes it allows, that is at most 3 % of the bore deeper, and
    the film that laminar flow leaves room for takes at most 0.03 less of the bore than the fouling margin says. On a
    line that is almost level the difference shows, and is a finding.

    Examples
    --------
    By hand: a line that carries 16 times the peak hour keeps (1/16)^(3/4) = 1/8 of its area when
    slime just makes it back up, so 7/8 may foul:

    >>> full = full_bore_flow(bore=0.02, pitch_ratio=0.01, manning_coefficient=0.011)
    >>> line = {"bore": 0.02, "pitch_ratio": 0.01, "manning_coefficient": 0.011, "kinematic_viscosity": 1e-6}
    >>> round(line_flow(peak_flow=full / 16, **line).fouling_margin, 12)
    0.875

    Half the flow runs at half the depth, as fast as the full bore, V = Q / A:

    >>> half = line_flow(peak_flow=full / 2, **line)
    >>> round(half.depth, 6), round(half.velocity / half.full_bore_velocity, 9)
    (0.01, 1.0)
    """
    capacity = full_bore_flow(bore=bore, pitch_ratio=pitch_ratio, manning_coefficient=manning_coefficient)
    if capacity <= 0.0:
        return LineFlow(
            bore=bore,
            full_bore_capacity=0.0,
            full_bore_velocity=0.0,
            fouling_margin=0.0,
            fouling_film_thickness=0.0,
        )
    share = peak_flow / capacity
    depth = part_full_depth(share)
    if depth is None:
        depth = 1.0
    full_speed = velocity(capacity, bore)
    speed = full_speed * part_full_velocity_ratio(depth)
    reynolds = speed * hydraulic_diameter(bore=bore, depth_fraction=depth) / kinematic_viscosity
    laminar = None
    if reynolds <= LAMINAR_ENDS:
        laminar = bore * _laminar_depth(peak_flow, bore, pitch_ratio, kinematic_viscosity)
    bore_left = min(pow(share, 3.0 / 8.0), 1.0)
    return LineFlow(
        bore=bore,
        full_bore_capacity=capacity,
        full_bore_velocity=full_speed,
        depth=bore * depth,
        depth_fraction=depth,
        velocity=speed,
        reynolds=reynolds,
        laminar_depth=laminar,
        self_cleansing=speed >= SCOURING_VELOCITY,
        fouling_margin=1.0 - bore_left**2,
        fouling_film_thickness=bore * (1.0 - bore_left) / 2.0,
    )


def _laminar_depth(peak_flow: float, bore: float, pitch_ratio: float, kinematic_viscosity: float) -> float:
    """Depth over bore of laminar flow; 1 where no depth carries it."""
    full = laminar_full_bore_flow(bore=bore, pitch_ratio=pitch_ratio, kinematic_viscosity=kinematic_viscosity)
    if peak_flow <= 0.0:
        return 0.0
    depth = laminar_depth(peak_flow / full) if full > 0.0 else None
    return 1.0 if depth is None else depth
