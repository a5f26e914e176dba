"""What reaches the valve: force with the channel's lag out, and what that lag does to the columns."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from dynoan.analysis.conditioning import assumptions as a
from dynoan.analysis.conditioning.forces.effects import Effect
from dynoan.analysis.conditioning.forces.state import Lag
from dynoan.model.arrays import FloatArray


@dataclass(frozen=True)
class Valve:
    """What reaches the valve at the rows."""

    force: FloatArray  #: the channel's lag out [N]
    rate: FloatArray  #: its time derivative [N/s]
    second: FloatArray  #: and the second [N/s²]
    other_rate: FloatArray  #: rate of what does not load the spring: gas and friction [N/s]
    soft: FloatArray  #: share of the give of air that is left at the force there
    velocity: FloatArray  #: of the valve [m/s]


def earlier(
    whole: tuple[FloatArray, FloatArray, FloatArray, FloatArray], step: float, at: FloatArray
) -> tuple[FloatArray, FloatArray, FloatArray]:
    """Return force, its rate and second derivative at times, shape (n,) each. [N], [N/s], [N/s²]

    `whole` is the clock, force, its rate and second derivative of all rows, `step` the longest between two of them [s].
    From the nearest row on by its derivatives: straight lines between rows would smooth the noise, so that a lag
    of half a row fitted better than none.
    """
    clock, force, rate, second = whole
    after = np.clip(np.searchsorted(clock, at), 1, len(clock) - 1)
    near = np.where(at - clock[after - 1] < clock[after] - at, after - 1, after)
    rest = np.clip(at - clock[near], -0.5 * step, 0.5 * step)
    return (
        force[near] + rest * (rate[near] + 0.5 * rest * second[near]),
        rate[near] + rest * second[near],
        second[near],
    )


def of_lag(lag: Lag, valve: Valve, steep: FloatArray) -> list[Effect]:
    """Return what the lags do, to first order."""
    bend = -steep * (valve.rate - valve.other_rate)
    return [
        Effect("lag", -valve.rate, a.LAG, True), Effect("early", valve.rate, a.EARLY, True),
        Effect("spread", 0.5 * valve.second, max(lag.lag**2, a.LAG_SPREAD), True),
        Effect("give", bend, a.GIVE, True), Effect("air", bend * valve.soft, a.AIR, True),
    ]  # fmt: skip
