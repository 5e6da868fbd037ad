"""Drain line size by the total cooling capacity that shares the line.

Both codes print the same rows: IMC 2021 Table 307.2.2 and IPC 2021 Table 314.2.2. The upper edge
of each row belongs to it: 20 tons exactly is served by 3/4 in.
"""

from dataclasses import dataclass

TON = 3516.852842066667
"""Watts in one ton of refrigeration: 12,000 International Table Btu per hour."""

EDGE_SLACK = 3.0
"""Watts by which an edge may be passed: what rounding a capacity to 0.01 kW can add to 20 tons
(70.337 kW, and 70.34 by the codes' own footnote of 3.517 kW a ton), and less than 0.001 ton."""


@dataclass(frozen=True, kw_only=True, slots=True)
class DrainSize:
    """One row of the table.

    Parameters
    ----------
    pipe_size : str
        Smallest nominal size.
    up_to : float
        Greatest total cooling capacity it serves, inclusive [W].
    basis : str
        Code table.
    """

    pipe_size: str
    up_to: float
    basis: str


_BASIS = "IMC 2021 Table 307.2.2, IPC 2021 Table 314.2.2"

DRAIN_SIZES: tuple[DrainSize, ...] = tuple(
    DrainSize(pipe_size=size, up_to=tons * TON, basis=_BASIS)
    for size, tons in (("3/4", 20.0), ("1", 40.0), ("1-1/4", 90.0), ("1-1/2", 125.0), ("2", 250.0))
)


def drain_size(total_capacity: float) -> DrainSize | None:
    """Find the row for a total cooling capacity; above the table the line is engineered.

    Parameters
    ----------
    total_capacity : float
        Of all the units that share the line [W].

    Returns
    -------
    DrainSize or None
        None above the table.

    Examples
    --------
    >>> drain_size(20 * TON).pipe_size, drain_size(20.1 * TON).pipe_size, drain_size(251 * TON)
    ('3/4', '1', None)
    """
    return next((row for row in DRAIN_SIZES if total_capacity <= row.up_to + EDGE_SLACK), None)
