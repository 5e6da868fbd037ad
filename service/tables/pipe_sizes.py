"""Pipe and tube dimensions by material and nominal size, each row with its standard.

Bore is the outside diameter less two walls. For the plastics the wall is the standard's
*minimum* wall, so the bore is the one handbooks print for the size (3/4 in PVC Schedule 40:
0.824 in); pipe off the shelf is up to 0.02 in tighter. For copper it is the nominal wall.

Not every material is made in every nominal size: ASTM D2846 stops at 2 in. `sizes_made` tells
which there are and `is_made` whether one is; every material has 1/2 to 2 in (`COMMON_SIZES`),
and `DEFAULT_MATERIAL` has all of `NOMINAL_SIZES`.
"""

from dataclasses import dataclass

INCH = 0.0254
"""Metres in one inch, exact."""


@dataclass(frozen=True, kw_only=True, slots=True)
class PipeSize:
    """One size of one kind of pipe.

    Parameters
    ----------
    material : str
        Kind of pipe, one of `MATERIALS`.
    pipe_size : str
        Nominal size, one of `NOMINAL_SIZES`.
    outside_diameter, wall, bore : float
        Dimensions [m].
    standard : str
        The standard that the dimensions are taken from.
    """

    material: str
    pipe_size: str
    outside_diameter: float
    wall: float
    bore: float
    standard: str


NOMINAL_SIZES: tuple[str, ...] = ("1/2", "3/4", "1", "1-1/4", "1-1/2", "2", "2-1/2", "3", "4")
"""Every nominal size there is in any material, smallest first."""

DEFAULT_MATERIAL = "pvc-schedule-40"
"""What the trade mostly installs (common practice)."""

_IRON_PIPE_OUTSIDE = (0.840, 1.050, 1.315, 1.660, 1.900, 2.375, 2.875, 3.500, 4.500)
_COPPER_TUBE_OUTSIDE = (0.625, 0.875, 1.125, 1.375, 1.625, 2.125, 2.625, 3.125, 4.125)

# material: (standard, outside diameters, walls), inches, in the order of NOMINAL_SIZES
_DIMENSIONS: dict[str, tuple[str, tuple[float, ...], tuple[float, ...]]] = {
    "pvc-schedule-40": (
        "ASTM D1785",
        _IRON_PIPE_OUTSIDE,
        (0.109, 0.113, 0.133, 0.140, 0.145, 0.154, 0.203, 0.216, 0.237),
    ),
    # ends at 2 in: the standard goes no further
    "cpvc-sdr-11": ("ASTM D2846", _COPPER_TUBE_OUTSIDE, (0.068, 0.080, 0.102, 0.125, 0.148, 0.193)),
    "copper-type-m": (
        "ASTM B88",
        _COPPER_TUBE_OUTSIDE,
        (0.028, 0.032, 0.035, 0.042, 0.049, 0.058, 0.065, 0.072, 0.095),
    ),
    "copper-type-l": (
        "ASTM B88",
        _COPPER_TUBE_OUTSIDE,
        (0.040, 0.045, 0.050, 0.055, 0.060, 0.070, 0.080, 0.090, 0.110),
    ),
}

MATERIALS: tuple[str, ...] = tuple(_DIMENSIONS)
"""Every material, the default first."""

PIPE_SIZES: tuple[PipeSize, ...] = tuple(
    PipeSize(
        material=material,
        pipe_size=pipe_size,
        outside_diameter=outside * INCH,
        wall=wall * INCH,
        bore=(outside - 2 * wall) * INCH,
        standard=standard,
    )
    for material, (standard, outsides, walls) in _DIMENSIONS.items()
    for pipe_size, outside, wall in zip(NOMINAL_SIZES, outsides, walls, strict=False)
)
"""Every row, by material and then size."""

_BY_NAME = {(row.material, row.pipe_size): row for row in PIPE_SIZES}

COMMON_SIZES: tuple[str, ...] = tuple(
    size for size in NOMINAL_SIZES if all((material, size) in _BY_NAME for material in MATERIALS)
)
"""The nominal sizes that every material has, smallest first."""


def is_made(material: str, pipe_size: str) -> bool:
    """Tell whether ``material`` is made in ``pipe_size``.

    Examples
    --------
    >>> is_made("cpvc-sdr-11", "2"), is_made("cpvc-sdr-11", "3")
    (True, False)
    """
    return (material, pipe_size) in _BY_NAME


def sizes_made(material: str) -> tuple[str, ...]:
    """Return the nominal sizes ``material`` is made in, smallest first.

    Examples
    --------
    >>> sizes_made("cpvc-sdr-11")[-1]
    '2'
    """
    return tuple(size for size in NOMINAL_SIZES if is_made(material, size))


def pipe(material: str, pipe_size: str) -> PipeSize:
    """Look up the dimensions of a pipe.

    Parameters
    ----------
    material : str
        One of `MATERIALS`.
    pipe_size : str
        Nominal size, one of those that `sizes_made` lists for the material.

    Returns
    -------
    PipeSize
        The row of the standard.

    Raises
    ------
    ValueError
        No such row. Where a request may name a material, ask `is_made` first and answer with
        a finding: it cannot happen for `DEFAULT_MATERIAL` with any of `NOMINAL_SIZES`, nor for
        any material with one of `COMMON_SIZES`.

    Examples
    --------
    >>> round(pipe("pvc-schedule-40", "3/4").bore / INCH, 3)
    0.824
    """
    row = _BY_NAME.get((material, pipe_size))
    if row is None:
        raise ValueError(f"no {pipe_size} in pipe of {material}")
    return row
