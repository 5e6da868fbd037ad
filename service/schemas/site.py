"""Members that tell how thick the air of a place is."""

from service.calculations.air_flow import LIMITS
from service.schemas.fields import Quantity


def elevation_field() -> Quantity:
    """The ``elevation`` of a request."""
    return Quantity(
        "length",
        LIMITS["elevation"],
        us="ft",
        si="m",
        description="Height above sea level. Excludes `station_pressure`; with neither, sea level is assumed.",
    )


def station_pressure_field() -> Quantity:
    """The ``station_pressure`` of a request."""
    return Quantity(
        "pressure",
        LIMITS["station_pressure"],
        description="Absolute air pressure at the place, not reduced to sea level. Excludes `elevation`.",
    )
