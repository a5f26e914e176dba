"""Curves over one another: where they cross, and by how much they differ."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from dynoan.analysis.matching.assumptions import ALIKE_SHARE
from dynoan.model.arrays import FloatArray
from dynoan.model.curve import DIRECTIONS, Curve, Direction


@dataclass(frozen=True)
class Crossing:
    """Where two curves change places."""

    first: int  #: which curve is the stiffer below
    second: int
    direction: Direction
    speed: float  #: [m/s]
    force: float  #: [N]
    clear: bool = True  #: the curves differ by more than their bands somewhere on either side of it


def crossings(curves: Sequence[Curve]) -> tuple[Crossing, ...]:
    """Return where each two of the curves cross, within the speeds both hold, slowest first."""
    found = [
        one
        for i in range(len(curves))
        for j in range(i + 1, len(curves))
        for direction in DIRECTIONS
        for one in _between(curves, (i, j), direction)
    ]
    return tuple(sorted(found, key=lambda c: (c.direction, c.speed)))


def _between(curves: Sequence[Curve], pair: tuple[int, int], direction: Direction) -> list[Crossing]:
    a, b = (curves[i].side(direction) for i in pair)
    top, low = min(a.top_speed, b.top_speed), max(a.low_speed, b.low_speed, 0.01)
    if top <= low * 1.05:
        return []
    speeds = np.geomspace(low, top, 400)
    (fa, a_low, a_high), (fb, b_low, b_high) = a.force_and_band(speeds), b.force_and_band(speeds)
    certain = np.abs(fa - fb) > np.hypot(a_high - a_low, b_high - b_low) / 2
    share = (fa - fb) / np.maximum((fa + fb) / 2, 1.0)
    # Only a change of sides that becomes visible on both sides counts.
    state = np.where(share > ALIKE_SHARE, 1, np.where(share < -ALIKE_SHARE, -1, 0))
    visible = np.flatnonzero(state)
    turns = [(left, right) for left, right in pairwise(visible) if state[left] != state[right]]
    out = []
    for n, (left, right) in enumerate(turns):
        at = _zero(speeds[left : right + 1], share[left : right + 1])
        first, second = pair if state[left] > 0 else pair[::-1]
        since = turns[n - 1][1] if n else 0
        until = turns[n + 1][0] if n + 1 < len(turns) else len(speeds) - 1
        clear = bool(certain[since : left + 1].any() and certain[right : until + 1].any())
        out.append(Crossing(first, second, direction, at, float(a.force(at)), clear))
    return out


def _zero(speeds: FloatArray, share: FloatArray) -> float:
    i = int(np.flatnonzero(np.sign(share[:-1]) != np.sign(share[1:]))[0])
    a, b = float(share[i]), float(share[i + 1])
    return float(speeds[i] + (speeds[i + 1] - speeds[i]) * a / (a - b))
