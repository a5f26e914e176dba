"""Whether a log holds free swings that a fit can use, and if not, why not, in words of its own for each cause."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from dynoan.analysis.bounce import assumptions as taken
from dynoan.analysis.bounce.problem import Logged, Problem
from dynoan.analysis.bounce.pushes import Swing, greatest, noise_of, swings
from dynoan.analysis.bounce.starting import linear_share
from dynoan.errors import FitError

_PUSH = "push the corner down, let go, and wait three seconds before the next"


def free_swings(logged: Logged) -> tuple[Swing, ...]:
    """Return the free swings of a log, what its sensor cut flat left out.

    Raises
    ------
    FitError
        If nothing stands out as a push, what was pushed never swings free, or the sensor runs out of its range.
    """
    let_go = taken.LET_GO_ACCELERATION if logged.acceleration else taken.LET_GO_TRAVEL
    rest = taken.REST_ACCELERATION if logged.acceleration else taken.REST_TRAVEL
    top, noise = greatest(logged.time, logged.values), noise_of(logged.values)
    if top < least_push(logged, noise):
        raise FitError(f"no push is found: nothing stands out of the noise, {_amount(logged, top)} at most", hint=_PUSH)
    found = swings(logged.time, logged.values, let_go, rest)
    if not found and logged.ends is not None and logged.ends.any():
        raise FitError("the sensor runs out of its range, so that no swing is left whole", hint=_range(logged))
    if not found:
        raise FitError(
            f"a push of {_amount(logged, top)} is found, but no free swing after it: it was held to the end, the car "
            "did not come back, or the sensor moved",
            hint=_PUSH,
        )
    whole = _unclipped(logged, found)
    if not whole:
        raise FitError("the sensor runs out of its range in every swing", hint=_range(logged))
    largest = sorted(whole, key=lambda swing: -swing.peak)[: taken.MOST_SWINGS]
    return tuple(swing for swing in whole if swing in largest)


def check_decay(problem: Problem) -> None:
    """Raise where what follows the pushes is no decay.

    Raises
    ------
    FitError
        If the linear decay that comes nearest leaves most of it.
    """
    if linear_share(problem) > taken.NO_DECAY:
        raise FitError(
            "what moves in this log is no swing that dies away: the car drives or is on stands, its engine runs, "
            "or a hand is on it",
            hint=f"its engine off, on its own wheels, {_PUSH}",
        )


def least_push(logged: Logged, noise: float) -> float:
    """Return the least greatest value that counts as a push. [as the values]"""
    floor = taken.LEAST_PUSH_ACCELERATION if logged.acceleration else taken.LEAST_PUSH_TRAVEL
    return max(floor, taken.PUSH_OVER_NOISE * noise)


def _unclipped(logged: Logged, found: tuple[Swing, ...]) -> tuple[Swing, ...]:
    """Return swings from where the last sample that is cut flat lies behind, those that still tell something."""
    if logged.ends is None or not logged.ends.any():
        return found
    kept = []
    step = float(np.median(np.diff(logged.time)))
    for swing in found:
        flat = np.flatnonzero(logged.ends[swing.start : swing.stop])
        start = swing.start + (int(flat[-1]) + 1 if len(flat) else 0)
        left = float(np.max(np.abs(logged.values[start : swing.stop]), initial=0.0))
        if (swing.stop - start) * step >= taken.LEFT_LONG and left >= taken.LEFT_SHARE * swing.peak:
            kept.append(replace(swing, start=start, peak=left if len(flat) else swing.peak))
    return tuple(kept)


def _range(logged: Logged) -> str:
    return (
        "push less far, or set the phone's range wider" if logged.acceleration else "push less far, or move the sensor"
    )


def _amount(logged: Logged, value: float) -> str:
    return f"{value:.2f} m/s²" if logged.acceleration else f"{value * 1e3:.1f} mm"
