"""What a timed pump-out tells: the results."""

from service.calculations.frozen import dataclass

CAUSES = ("none-shown", "cannot-tell", "restriction", "worn-pump", "restriction-and-worn-pump", "more-than-expected")
"""What the measurements prove: nothing; a shortfall that a pinch or a worn pump explains; which of them it is; or more
flow than leaflet and tube promise."""


@dataclass(frozen=True, kw_only=True, slots=True)
class PumpRestriction:
    """What a pump-out tells.

    Least and most are the ends of the range that the readings allow. A result is None where it cannot be computed.

    Parameters
    ----------
    cause : str
        One of `CAUSES`.
    pumped_volume : float
        Water that went through the pump [m3].
    flow, least_flow : float
        The pump's flow [m3/s].
    most_flow : float or None
        Its upper end [m3/s]; None where the time is as uncertain as it is long.
    expected_flow, expected_head : float
        What leaflet and clean tube promise [m3/s], and the head of it [m].
    expected_time : float or None
        Time in which the same volume should go [s]; None where the inflow keeps up with the pump.
    flow_over_expected : float or None
        Flow over the expected one; None where none is expected.
    head_made : float or None
        Head that the leaflet's pump makes at that flow [m]; None for a flow beyond its curve.
    head_asked : float
        Lift, tube and fittings at that flow [m].
    missing_head : float or None
        Head made less head asked [m]; negative where the flow is more than expected.
    head_over_shut_off : float or None
        Head made over the shut-off head; None also without one.
    restriction_head, least_restriction_head, most_restriction_head : float or None
        Head the restriction takes [m]: the missing head, less what a second measurement puts down to the pump.
    equivalent_pinch_bore, narrowest_pinch_bore, widest_pinch_bore : float or None
        Bore of a short sharp-edged pinch that takes that head [m]; None where there is none to take.
    pinch_velocity_heads, tube_velocity_heads : float or None
        That head over v^2 / 2g in the pinch's and in the tube's bore.
    equivalent_tube_bore, narrowest_tube_bore, widest_tube_bore : float or None
        Bore of the whole tube, fouled evenly, that takes that head besides its own [m].
    equivalent_speed_ratio : float or None
        Speed at which the leaflet's pump on the clean tube would give that flow.
    measured_speed_ratio, least_measured_speed_ratio, most_measured_speed_ratio : float or None
        Speed of the pump by the second measurement; None without one.
    shut_off_head_by_leaflet, shut_off_head_if_worn : float or None
        Head at which the flow ends [m]: of a sound pump, and of one that is worn and not restricted.
    tube_off_flow_by_leaflet, tube_off_flow_if_worn : float or None
        Flow with the tube off [m3/s], of the same two.
    """

    cause: str
    pumped_volume: float
    flow: float
    least_flow: float
    most_flow: float | None
    expected_flow: float
    expected_head: float
    expected_time: float | None
    flow_over_expected: float | None
    head_made: float | None
    head_asked: float
    missing_head: float | None
    head_over_shut_off: float | None
    restriction_head: float | None
    least_restriction_head: float | None
    most_restriction_head: float | None
    equivalent_pinch_bore: float | None
    narrowest_pinch_bore: float | None
    widest_pinch_bore: float | None
    pinch_velocity_heads: float | None
    tube_velocity_heads: float | None
    equivalent_tube_bore: float | None
    narrowest_tube_bore: float | None
    widest_tube_bore: float | None
    equivalent_speed_ratio: float | None
    measured_speed_ratio: float | None
    least_measured_speed_ratio: float | None
    most_measured_speed_ratio: float | None
    shut_off_head_by_leaflet: float
    shut_off_head_if_worn: float | None
    tube_off_flow_by_leaflet: float
    tube_off_flow_if_worn: float | None
