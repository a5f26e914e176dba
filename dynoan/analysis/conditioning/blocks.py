"""Cut a record into cycles, and cycles into blocks of constant speed."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

import numpy as np

from dynoan.model.arrays import BoolArray, FloatArray, IntArray

#: cycles belong together whose period and stroke differ by less
ALIKE = 0.03
#: a cycle counts where the motion leaves the middle by this share of the whole stroke, both ways
HYSTERESIS = 0.06

Kind = Literal["steady", "irregular"]


@dataclass(frozen=True)
class Block:
    """A run of cycles alike, or a stretch that has none."""

    bounds: tuple[int, ...]  #: first sample of each cycle, and the sample after the last
    kind: Kind
    stroke: float  #: range of the signal within it

    @property
    def start(self) -> int:
        """First sample."""
        return self.bounds[0]

    @property
    def stop(self) -> int:
        """The sample after the last."""
        return self.bounds[-1]

    @property
    def cycles(self) -> int:
        """Number of whole cycles."""
        return len(self.bounds) - 1

    @property
    def period(self) -> float:
        """Mean cycle length. [samples]"""
        return (self.stop - self.start) / max(self.cycles, 1)


def cycle_starts(signal: FloatArray) -> IntArray:
    """Return the samples where the signal passes its middle upward, after having been clearly below it.

    Works on displacement or on velocity. Noise cannot fake a cycle: between two starts the signal was well above and
    well below its middle.
    """
    thin = signal[:: max(1, len(signal) // 100_000)]
    low, high = np.percentile(thin, [0.2, 99.8])
    middle, reach = 0.5 * (low + high), HYSTERESIS * (high - low)
    state = np.zeros(len(signal), dtype=np.int8)
    state[signal > middle + reach] = 1
    state[signal < middle - reach] = -1
    clear = np.flatnonzero(state)
    if len(clear) == 0:
        return np.empty(0, dtype=np.int64)
    turns = np.flatnonzero(np.diff(state[clear]) == 2)
    before, after = clear[turns], clear[turns + 1]
    return np.array([_crossing(signal, b, a, middle) for b, a in zip(before, after, strict=True)], dtype=np.int64)


def _crossing(signal: FloatArray, before: int, after: int, middle: float) -> int:
    return int(before) + 1 + int(np.argmax(signal[before + 1 : after + 1] >= middle))


def cut(signal: FloatArray) -> tuple[Block, ...]:
    """Return the blocks of a record: runs of at least two cycles alike are steady, all else is irregular.

    Parameters
    ----------
    signal
        Displacement, or velocity where that is all there is, shape (n,).
    """
    starts = cycle_starts(signal)
    if len(starts) < 3:
        return (Block((0, len(signal)), "irregular", float(np.ptp(signal))),)
    period = np.diff(starts).astype(float)
    strokes = np.maximum.reduceat(signal, starts[:-1]) - np.minimum.reduceat(signal, starts[:-1])
    strokes[-1] = np.ptp(signal[starts[-2] : starts[-1]])
    blocks: list[Block] = []
    first = 0
    for i in range(1, len(period) + 1):
        if i < len(period) and _alike(period, strokes, first, i):
            continue
        kind: Kind = "steady" if i - first >= 2 else "irregular"
        bounds = tuple(int(s) for s in starts[first : i + 1])
        blocks.append(Block(bounds, kind, float(np.median(strokes[first:i]))))
        first = i
    return tuple(blocks)


def _alike(period: FloatArray, strokes: FloatArray, first: int, i: int) -> bool:
    # One sample of doubt in each crossing: a cycle of ten samples cannot be timed to 3 %.
    slack = ALIKE + 1.5 / period[first]
    return bool(abs(period[i] / period[first] - 1) < slack and abs(strokes[i] / strokes[first] - 1) < 2 * ALIKE)


def pauses(velocity: FloatArray, displacement: FloatArray | None, dt: float | None) -> BoolArray:
    """Return True where the shock stands still: slower than 1 mm/s for over 0.2 s without going anywhere."""
    if displacement is not None and dt:
        # Over a tenth of a second either way the noise of displacement makes no speed.
        w = max(1, round(0.1 / dt))
        padded = np.pad(displacement, w, mode="edge")
        velocity = (padded[2 * w :] - padded[: -2 * w]) / (2 * w * dt)
    slow = np.abs(velocity) < 1e-3
    edges = np.flatnonzero(np.diff(np.concatenate([[0], slow.astype(np.int8), [0]])))
    still = np.zeros(len(velocity), dtype=bool)
    shortest = 0.2 / dt if dt else 50.0
    travel = 2e-3 * float(np.ptp(displacement)) if displacement is not None else np.inf
    for a, b in zip(edges[::2], edges[1::2], strict=True):
        if b - a > shortest and (displacement is None or float(np.ptp(displacement[a:b])) < travel):
            still[a:b] = True
    return still
