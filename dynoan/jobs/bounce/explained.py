"""What alone would explain a push that swings otherwise than predicted: clicks first, then what a car may well be."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from dynoan.analysis.bounce.assumptions import AMPLITUDE, MAY_BE_OFF, NEAR_CLICKS, TIMES_STATED
from dynoan.errors import DynoanError
from dynoan.jobs.bounce.car import PushedCorners
from dynoan.model.banded import Banded
from dynoan.model.shock import Adjuster

if TYPE_CHECKING:
    from dynoan.workbench import Workbench

#: frequency taken for how fast a shock moves while the body swings [Hz]; judged: it decides which clicks come nearest
_USUAL = 1.7


@dataclass(frozen=True)
class Explanation:
    """One thing that alone would explain the difference, and the value it would take."""

    what: str
    value: float  #: SI, clicks as counted, or a turn of both adjusters
    now: float
    kind: str  #: of quantity for showing, "clicks", or "turn"; "" is a plain number


def explanations(bench: Workbench, pushed: PushedCorners, frequency: Banded, ratio: Banded) -> tuple[Explanation, ...]:
    """Return what would explain a frequency and a ratio that differ, both given as measured over predicted.

    Each alone: where the damping differs, the clicks and the shock's ratio; where the frequency does, the spring and
    its ratio, or the mass. A value that the car's file or sense rules out is not offered.
    """
    corner, stiffer = pushed.corners[0], frequency.value**2
    of_frequency: list[Explanation] = []
    if not frequency.low <= 1.0 <= frequency.high:
        ratio_off = Explanation("spring ratio", corner.spring_ratio * stiffer**0.5, corner.spring_ratio, "")
        values = (
            ("spring", Explanation("spring rate", corner.spring * stiffer, corner.spring, "stiffness")),
            ("spring_ratio", ratio_off),
            ("mass", Explanation("sprung mass", corner.sprung / stiffer, corner.sprung, "mass")),
        )
        of_frequency = [one for key, one in values if _may_be(pushed, key, one)]
    if ratio.low <= 1.0 <= ratio.high:
        return tuple(of_frequency)
    # a frequency that no car explains was misread, and says nothing of the damping
    damped = ratio.value * (frequency.value if of_frequency else 1.0)
    off = Explanation("shock ratio", corner.shock_ratio * damped**0.5, corner.shock_ratio, "")
    shocks = [off] if _may_be(pushed, "shock_ratio", off) else []
    return (*_clicks(bench, pushed, damped), *shocks, *of_frequency)


def _may_be(pushed: PushedCorners, key: str, one: Explanation) -> bool:
    """Tell whether a value of the car may be what an explanation asks for."""
    places = (pushed.axle, pushed.corners[0].name)
    stated = [w for k, w in pushed.car.plus_minus.items() if k in {f"{place}.{key}" for place in places}]
    room = TIMES_STATED * max(stated) if stated else MAY_BE_OFF[key] * abs(one.now)
    return abs(one.value - one.now) <= room


def _clicks(bench: Workbench, pushed: PushedCorners, damped: float) -> list[Explanation]:
    """Return the clicks of each low-speed adjuster alone, then a turn of both, whose damping comes near, if any does.

    Parameters
    ----------
    damped
        By how much the damping is to be multiplied. [1]
    """
    corner = pushed.corners[0]
    speeds = corner.shock_ratio * AMPLITUDE * 2 * np.pi * _USUAL * np.array([-1.0, -0.6, -0.3, 0.3, 0.6, 1.0])
    now = float(np.sum(np.abs(pushed.curves[0](speeds)) * np.abs(speeds)))

    def off(clicks: dict[str, int]) -> float:
        try:
            curve = bench.corner_curve(pushed.car, corner, clicks={**corner.clicks, **clicks}, pieces=False)
        except DynoanError:
            return np.inf
        return abs(float(np.sum(np.abs(curve(speeds)) * np.abs(speeds))) / now / damped - 1.0)

    shock = bench.corner_shock(corner, corner.pack or "")
    slow = [a for a in shock.adjusters if a.name.startswith(("ls", "c", "r")) and a.name in corner.clicks]
    found = []
    for adjuster in slow:
        tried = {click: off({adjuster.name: click}) for click in range(adjuster.clicks + 1)}
        best = min(tried, key=lambda c: tried[c])
        if tried[best] < NEAR_CLICKS:
            found.append(Explanation(f"{adjuster.name} clicks", best, corner.clicks[adjuster.name], "clicks"))
    if len(slow) > 1:
        both = {turn: off(turned) for turn, turned in _turns(slow, corner.clicks).items()}
        best = min(both, key=lambda t: both[t])
        if best and both[best] < NEAR_CLICKS:
            names = " and ".join(a.name for a in slow)
            found.append(Explanation(f"{names} clicks, all turned alike", best, 0, "turn"))
    return found


def _turns(adjusters: list[Adjuster], now: Mapping[str, int]) -> dict[int, dict[str, int]]:
    """Return clicks by a turn of all adjusters alike, as far as all of them go; no turn is among them."""
    low = max(-now[a.name] for a in adjusters)
    high = min(a.clicks - now[a.name] for a in adjusters)
    return {turn: {a.name: now[a.name] + turn for a in adjusters} for turn in range(low, high + 1)}
