"""Where the shock stands still: in pauses, at stops, and where a record waits at its ends."""

from __future__ import annotations

import numpy as np

from dynoan.model.arrays import BoolArray, FloatArray
from dynoan.model.ramps import STANDING

#: a record that stays at its first place, or at its last, for so long [s] waits there: within so many standard
#: deviations of the noise [1], or that share of its travel [1]; judged: a slow stroke is gone by then
WAITS, WAITS_WITHIN, WAITS_SHARE = 0.04, 4.0, 1e-4
#: after so much travel the seals slide, however they were held before [m]; judged: some ten micrometres, with hose or
#: bush some more
SLIDES_AFTER = 1e-4


def pauses(velocity: FloatArray, displacement: FloatArray | None, dt: float | None) -> BoolArray:
    """Return True where the shock stands still: slower than 1 mm/s for over 0.2 s without going anywhere."""
    if displacement is not None and dt:
        # Over a tenth of a second either way the noise of displacement makes no speed.
        w = max(1, round(0.1 / dt))
        padded = np.pad(displacement, w, mode="edge")
        velocity = (padded[2 * w :] - padded[: -2 * w]) / (2 * w * dt)
    return stops(velocity, displacement, dt)


def stops(velocity: FloatArray, displacement: FloatArray | None, dt: float | None) -> BoolArray:
    """Return True where the shock stands still by its velocity, which noise of displacement has no part in.

    Shape (n,), as both. Slower than 1 mm/s for over 0.2 s without going anywhere.
    """
    slow = np.abs(velocity) < STANDING
    edges = np.flatnonzero(np.diff(np.concatenate([[0], slow.astype(np.int8), [0]])))
    still = np.zeros(len(velocity), dtype=bool)
    shortest = 0.2 / dt if dt else 50.0
    travel = 2e-3 * float(np.ptp(displacement)) if displacement is not None else np.inf
    gone = np.cumsum(velocity) * dt if dt else displacement
    for a, b in zip(edges[::2], edges[1::2], strict=True):
        if b - a > shortest and (gone is None or float(np.ptp(gone[a:b])) < travel):
            still[a:b] = True
    return still


def waits(displacement: FloatArray, noise: float, dt: float) -> BoolArray:
    """Return True where a record waits in one place before it first moves, or after it last did, shape (n,).

    However short that is, friction holds there as it happened to, and until the seals slide: the force says nothing of
    slow motion.

    Parameters
    ----------
    displacement
        In even steps of time, shape (n,). [m]
    noise
        Its standard deviation. [m]
    dt
        Time from one sample to the next. [s]
    """
    still = np.zeros(len(displacement), dtype=bool)
    few = max(3, round(WAITS / dt))
    near = max(WAITS_WITHIN * noise, WAITS_SHARE * float(np.ptp(displacement)))
    for whole, part, slid in ((displacement, still, SLIDES_AFTER), (displacement[::-1], still[::-1], 0.0)):
        off = np.abs(whole - np.median(whole[:few]))
        if _first(off > near) >= few:
            part[: _first(off > max(near, slid))] = True
    return still


def _first(some: BoolArray) -> int:
    """Return the number of the first that is so, or how many there are where none is."""
    return int(np.argmax(some)) if some.any() else len(some)
