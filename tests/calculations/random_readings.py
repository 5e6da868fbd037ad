"""Random requests that the limits allow: uniform within each limit, the three humidities equally likely."""

import random

from service.calculations.air_state import ENTERING_AIR_LIMITS, HUMIDITIES, LEAVING_AIR_LIMITS, AirReading
from service.calculations.condensate_rate import LIMITS, rate_from_air_states, rate_from_coil
from service.errors import Contradiction


def within(draw, limit):
    """A number anywhere within a limit."""
    return draw.uniform(limit.low, limit.high)


def reading(draw, limits):
    """A random air reading."""
    humidity = draw.choice(HUMIDITIES)
    return AirReading(dry_bulb=within(draw, limits["dry_bulb"]), **{humidity: within(draw, limits[humidity])})


def from_air_states(draw):
    """Answer of a random request, or its contradiction."""
    return rate_from_air_states(
        air_flow=within(draw, LIMITS["air_flow"]),
        entering_air=reading(draw, ENTERING_AIR_LIMITS),
        leaving_air=reading(draw, LEAVING_AIR_LIMITS),
        **{place: within(draw, LIMITS[place]) for place in draw.sample(("elevation", "station_pressure"), 1)},
    )


def from_coil(draw):
    """Answer of a random request, or its contradiction."""
    return rate_from_coil(
        air_flow=within(draw, LIMITS["air_flow"]),
        entering_air=reading(draw, ENTERING_AIR_LIMITS),
        total_capacity=within(draw, LIMITS["total_capacity"]),
        bypass_factor=within(draw, LIMITS["bypass_factor"]),
        **{place: within(draw, LIMITS[place]) for place in draw.sample(("elevation", "station_pressure"), 1)},
    )


def contradictions(request, count, seed=1):
    """How often each contradiction comes up among ``count`` random requests [-].

    Run as ``python -m tests.calculations.random_readings`` to see the shares.
    """
    draw = random.Random(seed)  # noqa: S311 - reproducible, not secret
    shares: dict[str, float] = {}
    for _ in range(count):
        try:
            request(draw)
        except Contradiction as contradiction:
            code = f"{contradiction.pointer.split('/')[1]} {contradiction.code}"
            shares[code] = shares.get(code, 0.0) + 1.0 / count
    return shares


if __name__ == "__main__":
    for request in (from_air_states, from_coil):
        found = contradictions(request, 20000)
        print(f"{request.__name__}: {sum(found.values()):.1%}")
        for code, share in sorted(found.items()):
            print(f"  {share:6.1%}  {code}")
