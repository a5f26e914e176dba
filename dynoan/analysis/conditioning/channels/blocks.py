"""Cut a record into cycles, and cycles into blocks of constant speed."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Literal

import numpy as np

from dynoan.analysis.conditioning.assumptions import ENOUGH_CYCLES, MOSTLY_STEADY
from dynoan.model.arrays import BoolArray, FloatArray, IntArray

#: cycles belong together whose period and stroke differ by less [1]; judged
ALIKE = 0.03
#: a cycle counts where the motion leaves the middle by this share of the whole stroke, both ways [1]; judged
HYSTERESIS = 0.06
#: share of that within which a record's end is in the middle, or where it began [1]; judged: 1 % of a cycle
EDGE = 0.5
#: or within so many steps of a motion that goes there [samples]; judged: a cycle is cut to whole samples
STEPS_OFF = 1.5
#: a record ends at a turn where less than this share of the last half stroke is left [1]; judged
AT_END = 0.05

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


def middle_of(signal: FloatArray) -> tuple[float, float]:
    """Return a signal's middle and how far from it is clearly off it. [as the signal]"""
    thin = signal[:: max(1, len(signal) // 100_000)]
    low, high = np.percentile(thin, [0.2, 99.8])
    return float(0.5 * (low + high)), float(HYSTERESIS * (high - low))


def cycle_starts(signal: FloatArray, about: tuple[float, float]) -> IntArray:
    """Return the samples where a displacement or velocity passes its middle upward, after having been clearly below it.

    Noise cannot fake a cycle: between two starts the signal was well above and well below its middle. A record that
    begins or ends in its middle, rising, has a start there. `about` is that middle and how far from it is clearly off.
    """
    middle, reach = about
    state = np.zeros(len(signal), dtype=np.int8)
    state[signal > middle + reach] = 1
    state[signal < middle - reach] = -1
    clear = np.flatnonzero(state)
    if len(clear) == 0 or len(signal) < 2:
        return np.empty(0, dtype=np.int64)
    turns = np.flatnonzero(np.diff(state[clear]) == 2)
    before, after = clear[turns], clear[turns + 1]
    found = [_crossing(signal, b, a, middle) for b, a in zip(before, after, strict=True)]
    first, last = int(clear[0]), int(clear[-1])
    near = EDGE * reach
    if (
        state[first] == 1
        and signal[0] - middle <= max(near, STEPS_OFF * (signal[1] - signal[0]))
        and (first or found[:1] != [0])
    ):
        found.insert(0, 0)
    if state[last] == -1 and middle - signal[-1] <= max(near, STEPS_OFF * (signal[-1] - signal[-2])):
        found.append(len(signal))
    return np.array(found, dtype=np.int64)


def _crossing(signal: FloatArray, before: int, after: int, middle: float) -> int:
    return int(before) + 1 + int(np.argmax(signal[before + 1 : after + 1] >= middle))


def cut(signal: FloatArray, stretches: Sequence[tuple[int, int]] = ()) -> tuple[Block, ...]:
    """Return the blocks of a record: runs of at least two cycles alike are steady, all else is irregular.

    Parameters
    ----------
    signal
        Displacement, or velocity where that is all there is, shape (n,).
    stretches
        First sample, and that after the last, of what lies between pauses of the logger and changes of its rate. One
        that turns evenly is a block as the rig made it, were it a single cycle, wherever in the stroke it starts.
    """
    about = middle_of(signal)
    if len(stretches) < 2:
        return _runs(signal, 0, cycle_starts(signal, about)) or (_irregular(signal, 0, len(signal)),)
    blocks: list[Block] = []
    for a, b in stretches:
        part = signal[a:b]
        starts = cycle_starts(part, about)
        whole = _even_turns(part, starts, about)
        blocks += _runs(part, a, starts) if whole is None else (_block(part, a, whole, "steady"),)
    return tuple(blocks) or (_irregular(signal, 0, len(signal)),)


def lone_cycles(signal: FloatArray) -> list[tuple[Block, ...]]:
    """Return a displacement cut into single cycles: at its middle on the way up and down, at its tops and its bottoms.

    Whoever keeps one cycle of each speed begins them where the machine's mark is. `signal` is of shape (n,).
    """
    about = middle_of(signal)
    up, down = cycle_starts(signal, about), cycle_starts(2 * about[0] - signal, about)
    edges = np.unique(np.concatenate([[0], up, down, [len(signal)]]))
    tops: list[int] = []
    bottoms: list[int] = []
    for a, b in pairwise(int(edge) for edge in edges):
        high = float(np.mean(signal[a:b])) > about[0]
        at = int(np.argmax(signal[a:b]) if high else np.argmin(signal[a:b])) + a
        (tops if high else bottoms).append(len(signal) if b == len(signal) and b - at <= AT_END * (b - a) else at)
    marks = (up, down, np.array(tops), np.array(bottoms))
    return [tuple(_irregular(signal, int(a), int(b)) for a, b in pairwise(np.unique(some))) for some in marks]


def _even_turns(part: FloatArray, starts: IntArray, about: tuple[float, float]) -> IntArray | None:
    """Return the bounds of a stretch's cycles counted from its first sample, None where it does not turn evenly."""
    n = len(part)
    back = cycle_starts(2 * about[0] - part, about)
    turns = np.concatenate([np.diff(starts), np.diff(back)]).astype(float)
    closes = abs(part[-1] - part[0]) <= EDGE * about[1]
    if len(turns) == 0 and len(starts) + len(back) and closes:
        turns = np.array([float(n)])
    if len(turns) == 0 or np.ptp(turns) > ALIKE * turns.min() + 3.0:
        return None
    period = float(turns.mean())
    cycles = int(n / period + ALIKE)
    return np.minimum(np.round(period * np.arange(cycles + 1)).astype(np.int64), n) if cycles else None


def _irregular(signal: FloatArray, a: int, b: int) -> Block:
    return Block((a, b), "irregular", float(np.ptp(signal)))


def _block(part: FloatArray, a: int, bounds: IntArray, kind: Kind) -> Block:
    strokes = [float(np.ptp(part[i:j])) for i, j in pairwise(bounds)]
    return Block(tuple(a + int(s) for s in bounds), kind, float(np.median(strokes)))


def _runs(part: FloatArray, a: int, starts: IntArray) -> tuple[Block, ...]:
    """Return the runs of cycles alike of a part that begins at sample `a`, none where it has no two cycles."""
    if len(starts) < 3:
        return ()
    period = np.diff(starts).astype(float)
    strokes = np.maximum.reduceat(part, starts[:-1]) - np.minimum.reduceat(part, starts[:-1])
    strokes[-1] = np.ptp(part[starts[-2] : starts[-1]])
    blocks: list[Block] = []
    first = 0
    for i in range(1, len(period) + 1):
        if i < len(period) and _together(period, strokes, first, i):
            continue
        blocks.append(_block(part, a, starts[first : i + 1], "steady" if i - first >= 2 else "irregular"))
        first = i
    return tuple(blocks)


def _together(period: FloatArray, strokes: FloatArray, first: int, i: int) -> bool:
    # One sample of doubt in each crossing: a cycle of ten samples cannot be timed to 3 %.
    slack = ALIKE + 1.5 / period[first]
    return bool(abs(period[i] / period[first] - 1) < slack and abs(strokes[i] / strokes[first] - 1) < 2 * ALIKE)


def mostly_steady(blocks: tuple[Block, ...], still: BoolArray) -> bool:
    """Return whether cycles of constant speed are enough, and most of what moves; `still` tells where nothing does."""
    runs = [block for block in blocks if block.kind == "steady"]
    if sum(block.cycles for block in runs) < ENOUGH_CYCLES:
        return False
    held = sum(int(np.count_nonzero(~still[block.start : block.stop])) for block in runs)
    return held >= MOSTLY_STEADY * int(np.count_nonzero(~still))
