"""How much one caller, and all callers together, may ask of one worker.

Both limits are of one process: with several workers a caller gets up to as many times the quota. A limit over the whole
service belongs into the gateway in front of it.

References
----------
.. [1] RateLimit header fields for HTTP, draft-ietf-httpapi-ratelimit-headers (RateLimit-Policy, RateLimit).
.. [2] RFC 9110, 10.2.3 (Retry-After). RFC 6585, 4 (429). RFC 9651, Structured Field Values.
"""

import ipaddress
import math
import time
from collections import OrderedDict
from collections.abc import Callable
from dataclasses import dataclass
from threading import Lock

from service.settings import Rate

MOST_CALLERS = 10_000
"""Callers remembered, about 2 MB; beyond, the one not seen for longest is forgotten, which only ever favours it."""


@dataclass(frozen=True, slots=True)
class Standing:
    """What a caller has left after asking.

    Parameters
    ----------
    allowed : bool
        Whether this request is within the quota.
    remaining : int
        Requests left at this moment.
    full_in : int
        Time until the whole quota is there again [s].
    retry_in : int
        Time until the next request is within the quota [s].
    """

    allowed: bool
    remaining: int
    full_in: int
    retry_in: int


class RateLimiter:
    """A bucket of tokens for each caller, filled at a steady rate up to the quota.

    Parameters
    ----------
    rate : Rate
    clock : callable
        Seconds that never run backwards.
    """

    def __init__(self, rate: Rate, clock: Callable[[], float] = time.monotonic) -> None:
        self._quota = rate.quota
        self._per_second = rate.quota / rate.window
        self._clock = clock
        self._lock = Lock()
        self._buckets: OrderedDict[str, tuple[float, float]] = OrderedDict()
        self.policy = f'"caller";q={rate.quota};w={rate.window}'

    def take(self, caller: str) -> Standing:
        """Take one token of a caller's, if there is one."""
        now = self._clock()
        with self._lock:
            tokens, filled = self._buckets.pop(caller, (float(self._quota), now))
            tokens = min(self._quota, tokens + (now - filled) * self._per_second)
            allowed = tokens >= 1.0
            if allowed:
                tokens -= 1.0
            self._buckets[caller] = (tokens, now)
            if len(self._buckets) > MOST_CALLERS:
                self._buckets.popitem(last=False)
        return Standing(
            allowed=allowed,
            remaining=int(tokens),
            full_in=math.ceil((self._quota - tokens) / self._per_second),
            retry_in=max(1, math.ceil((1.0 - tokens) / self._per_second)),
        )

    def fields(self, standing: Standing) -> dict[str, str]:
        """The header fields [1]_ that tell a caller how it stands."""
        return {
            "RateLimit-Policy": self.policy,
            "RateLimit": f'"caller";r={standing.remaining};t={standing.full_in}',
        }


class ConcurrencyLimiter:
    """Counts what runs at once, and refuses beyond a limit.

    Parameters
    ----------
    most : int
    """

    def __init__(self, most: int) -> None:
        self._most = most
        self._running = 0
        self._lock = Lock()

    def enter(self) -> bool:
        """Begin, unless as many run as may."""
        with self._lock:
            if self._running >= self._most:
                return False
            self._running += 1
            return True

    def leave(self) -> None:
        """End what `enter` let in."""
        with self._lock:
            self._running -= 1


def caller_at(address: str) -> str:
    """The caller behind an address: of IPv6 the network of 64 bits, which one site has to itself.

    Examples
    --------
    >>> caller_at("192.0.2.7"), caller_at("2001:db8::1:2:3:4")
    ('192.0.2.7', '2001:db8::/64')
    """
    if ":" not in address:
        return address
    try:
        return str(ipaddress.IPv6Network((address.partition("%")[0], 64), strict=False))
    except ValueError:
        return "unknown"
