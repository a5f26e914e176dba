"""The force that stays as the shaft comes to rest, where tests show one: how large, how sure, and in words."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from dynoan.analysis.clickmap.assumptions.views import REST_SUSPECTED
from dynoan.analysis.clickmap.trends.trend import FittedDirection
from dynoan.analysis.clickmap.valve.law import INDEX
from dynoan.analysis.clickmap.valve.trend import ValveTrend
from dynoan.analysis.statistics import Z95
from dynoan.model.curve import Direction


@dataclass(frozen=True)
class StaysAtRest:
    """A force that stays at rest, in the direction of its damping; below zero it helps the motion."""

    force: float  #: [N]
    sd: float  #: standard error [N]


def at_rest(fitted: FittedDirection) -> StaysAtRest | None:
    """Return the force that stays at rest, or None where none was looked for or none is sure. [N]"""
    trend = fitted.trend
    if not isinstance(trend, ValveTrend) or not trend.roles.rest:
        return None
    k = INDEX["rest"]
    j = fitted.jacobian[:, k]
    left = 1.0 - float(j @ np.linalg.solve(fitted.total, j))
    found = StaysAtRest(float(trend.theta[k]), float(trend.width[k] * np.sqrt(max(left, 0.0))))
    return found if abs(found.force) > REST_SUSPECTED * found.sd else None


def rest_words(fits: Mapping[Direction, FittedDirection]) -> tuple[str, ...]:
    """Return what is said of forces that stay at rest, one text a direction that has one."""
    said = []
    for direction, fitted in fits.items():
        found = at_rest(fitted)
        if found is not None:
            size, half = abs(found.force), Z95 * found.sd
            way = "stays" if found.force > 0 else "is missing"
            said.append(f"in {direction} {size:.0f} N (± {half:.0f}) {way} as the shaft comes to rest, in every test "
                        "alike: a preloaded plate or spring, gas or friction not all taken out, or a zero that is off; "
                        "the map has it")  # fmt: skip
    return tuple(said)
