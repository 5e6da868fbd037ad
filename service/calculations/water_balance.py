"""Water in less water out, over time: a surge, then a steady rest.

While the surge lasts ``surge_rate`` comes in, afterwards ``steady_rate``; the drain takes up to its capacity all the
while. What is in the pan then grows or shrinks evenly in each of the two, so every time is a division. The surge is
never less than the rest, so that water which does not rise in the surge does not rise afterwards.
"""

from service.calculations.frozen import dataclass
from service.calculations.pump_cycle import NO_FLOW, time_to_fill


@dataclass(frozen=True, kw_only=True, slots=True)
class WaterBalance:
    """What comes in and what goes out.

    Parameters
    ----------
    steady_rate : float
        Water coming in after the surge [m3/s].
    surge_rate : float
        Water coming in while it lasts, the steady rate included [m3/s].
    surge_time : float
        How long the surge lasts [s]; 0 without one.
    drain_rate : float
        What the drain takes at most [m3/s].
    """

    steady_rate: float
    surge_rate: float = 0.0
    surge_time: float = 0.0
    drain_rate: float = 0.0

    @property
    def surge_gain(self) -> float:
        """Water gained by the end of the surge [m3]; less than 0 where the drain takes more."""
        return (self.surge_rate - self.drain_rate) * self.surge_time

    @property
    def grows_without_end(self) -> bool:
        """Whether the water goes on rising after the surge."""
        return self.steady_rate - self.drain_rate > NO_FLOW

    def time_to_gain(self, volume: float | None) -> float | None:
        """Time [s] until ``volume`` [m3] more is there than at the start; None where it never is."""
        if volume is None:
            return None
        rest, surging = self.steady_rate - self.drain_rate, self.surge_rate - self.drain_rate
        if self.surge_time <= 0.0:
            return time_to_fill(volume, rest)
        if surging > NO_FLOW and volume <= self.surge_gain:
            return volume / surging
        after = time_to_fill(volume - self.surge_gain, rest)
        return None if after is None else self.surge_time + after

    def rate_at(self, time: float) -> float:
        """Water coming in at a time [m3/s], the drain left out."""
        return self.surge_rate if time < self.surge_time else self.steady_rate
