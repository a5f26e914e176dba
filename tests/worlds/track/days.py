"""Made test days: runs in a given order, a track that drifts, a driver who scatters, and a difference that is known."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np


@dataclass(frozen=True)
class Weather:
    """How a day goes: shares of the scatter of one run, so that a day is the same in any unit."""

    scatter: float = 0.1  #: standard deviation of one run [s]
    drift: float = 4.0  #: standard deviation of the drift from the first run to the last, in scatters
    bend: float = 0.0  #: the same of how far its middle lies off the straight line
    heavy: bool = False  #: whether some runs go wrong: Student's t on 4 degrees of freedom in the place of a normal
    clock: float = 0.0  #: what results are rounded to, a share of the scatter; 0: not at all
    uneven: float = 0.0  #: how much scatter differs from day to day: standard deviation of its logarithm


@dataclass(frozen=True)
class Day:
    """What was written down, and what was true."""

    order: str  #: of settings, such as "abba"
    results: tuple[float, ...]  #: [s]
    difference: float  #: b - a, as it truly is [s]


def day(seed: int, order: str, difference: float = 0.0, weather: Weather | None = None) -> Day:
    """A day of runs; `difference` is what b truly adds."""
    how = weather or Weather()
    random = np.random.default_rng(seed)
    along = np.linspace(-0.5, 0.5, len(order)) if len(order) > 1 else np.zeros(1)
    scatter = how.scatter * np.exp(how.uneven * random.normal())
    runs = random.standard_t(4, len(order)) / np.sqrt(2.0) if how.heavy else random.normal(size=len(order))
    drift = how.drift * random.normal() * along + how.bend * random.normal() * (0.25 - along**2) * 4.0
    base = 4.8 + 0.2 * random.normal()
    results = base + scatter * (runs + drift) + difference * np.array([setting == "b" for setting in order])
    if how.clock:
        step = how.clock * how.scatter
        results = np.round(results / step) * step
    return Day(order, tuple(float(r) for r in results), difference)
