"""Where a record was put together: displacement that jumps from one row to the next, though time goes on."""

from __future__ import annotations

from itertools import pairwise

import numpy as np

from dynoan.model.arrays import FloatArray, IntArray

#: a jump is so many times as long as the longest step of the motion [1], and such a share of the travel [1]; there are
#: at most so many of them [1], as a share of the rows; judged: between twelve rows a turn steps are alike to a tenth
JUMP, LEAST_JUMP, FEW = 4.0, 0.02, 0.01


def joints(x: FloatArray) -> IntArray:
    """Return the samples at which displacement goes on elsewhere, none where it moves as a shock does.

    `x` is the displacement, shape (n,), none missing. A lone row off its place is no joint. [any unit]
    """
    step = np.abs(np.diff(x))
    longest = np.argsort(step)[::-1][: max(2, int(FEW * len(step)))]
    high = step[longest]
    far = (high[:-1] > JUMP * high[1:]) & (high[:-1] > LEAST_JUMP * float(np.ptp(x)))
    if not far.any():
        return np.empty(0, dtype=np.int64)
    at = np.sort(longest[: int(np.flatnonzero(far)[-1]) + 1])
    lone = np.diff(at, prepend=-2) == 1
    lone[:-1] |= lone[1:]
    return np.asarray(at[~lone] + 1, dtype=np.int64)


def cut_at(stretches: tuple[tuple[int, int], ...], cuts: IntArray, samples: int) -> tuple[tuple[int, int], ...]:
    """Return the stretches of a record of so many samples, cut where it was put together, too."""
    if not len(cuts):
        return stretches
    parts = []
    for a, b in stretches or ((0, samples),):
        inner = cuts[(cuts > a) & (cuts < b)]
        parts += list(pairwise([a, *(int(c) for c in inner), b]))
    return tuple(parts)
