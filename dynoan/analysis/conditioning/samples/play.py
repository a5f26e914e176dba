"""Play in the joints: while the shock goes from one face of a loose joint to the other, the cell carries nothing.

Force then stands still at the cell's zero while the machine moves on, by the same travel every time, and jumps on.
What is recorded meanwhile says nothing of the valve. Left in, it reads as friction over travel or as gas.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from dynoan.analysis.conditioning.samples.rows import Rows
from dynoan.model.arrays import BoolArray, FloatArray, IntArray

#: force counts as standing still within so many standard deviations of its noise, and this share of its peak [1];
#: judged
STILL, STILL_SHARE = 4.0, 0.004
#: play is looked for from this travel on [m]; judged: less is lost in the noise of most rigs
LEAST = 2e-5
#: and where the force stands still over so many times the travel that it takes through as much force beside [1];
#: judged: damping that starts flat, as speed to the third, makes two
CLEAR = 4.0
#: passes that must show it, and levels of force tried
FEWEST, LEVELS = 6, 5
#: shares of the passes of which one must show it; the play is read off at the first of those that do [1]; judged
SHARES = (0.25, 0.5, 0.75)
#: a cell that carries nothing reads at most this share of the peak force, or so much [N]; common practice, no source:
#: zeros are set better. Farther off, what stands still is gas and friction of a shock that sticks. Gas taken out of the
#: file beforehand moves that, and play is then not found
ZERO_SHARE, ZERO = 0.005, 10.0
#: and so many times as many rows as at forces beside it lie there: a joint that carries nothing heaps them up [1];
#: judged
HEAP = 1.25
#: rows left out beside a pass: those that the slope of force is smoothed over reach so far
BESIDE = 2
#: rows in which force stands still without passing are left out up to so many times the play [1]; judged
REACH = 1.6


@dataclass(frozen=True)
class Play:
    """Lost motion of a joint."""

    travel: float  #: [m]
    level: float  #: force where the cell carries nothing [N]
    passes: int  #: it was seen in


@dataclass(frozen=True)
class _Path:
    """The rows' force over the way the machine has come; `way` jumps from span to span."""

    force: FloatArray
    way: FloatArray
    span: IntArray

    def passes(self, level: float, width: float) -> tuple[IntArray, IntArray]:
        """Return the last rows before and the first after force passed through a level ± a width. [row]"""
        state = np.where(self.force > level + width, 1, np.where(self.force < level - width, -1, 0))
        clear = np.flatnonzero(state)
        first, last = clear[:-1], clear[1:]
        through = (state[first] * state[last] < 0) & (self.span[first] == self.span[last])
        return first[through], last[through]

    def heaped(self, level: float, width: float) -> bool:
        """Return whether far more rows lie at a level than beside it: force stands there while the machine moves."""
        below, here, above = (int(np.sum(np.abs(self.force - level - k * width) < width)) for k in (-2.0, 0.0, 2.0))
        return here > HEAP * 0.5 * (below + above)

    def travel(self, level: float, width: float) -> tuple[FloatArray, FloatArray]:
        """Return how far the machine goes in passes upward and in those downward, shape (passes,) each. [m]"""
        first, last = self.passes(level, width)
        # The jump is somewhere between two rows: half of the way there belongs to it.
        beyond = 0.5 * (self.way[last] + self.way[last - 1] - self.way[first] - self.way[first + 1])
        gone, up = np.where(last - first > 1, beyond, 0.0), self.force[last] > level
        return gone[up], gone[~up]


def without_play(rows: Rows) -> tuple[Rows, Play | None]:
    """Return the rows, none recorded while a loose joint carried nothing, and the play found, if any."""
    if rows.displacement is None or not len(rows.force):
        return rows, None
    step = np.where(np.diff(rows.span, prepend=rows.span[:1]) == 0,
                    np.abs(np.diff(rows.displacement, prepend=rows.displacement[:1])), 0.0)  # fmt: skip
    path = _Path(rows.force, np.cumsum(step), rows.span)
    peak = float(np.percentile(np.abs(rows.force - np.median(rows.force)), 99))
    width = max(STILL * float(np.sqrt(np.median(rows.variance))), STILL_SHARE * peak)
    found = max((_seen(path, level, width) for level in _levels(path, width, max(ZERO, ZERO_SHARE * peak))),
                key=lambda play: play.travel, default=None)  # fmt: skip
    if found is None or found.travel < LEAST:
        return rows, None
    lost = _lost(path, found, width)
    return replace(rows, count=np.where(lost, 0.0, rows.count)), found


def _levels(path: _Path, width: float, zero: float) -> list[float]:
    """Return the forces from which the force jumps most often after having stood still, none above `zero`. [N]"""
    jump = np.diff(path.force)
    off = np.abs(jump[1:]) > width
    calm = (np.abs(jump[:-1]) < width) & (np.abs(path.force[1:-1]) < zero) & (path.span[2:] == path.span[:-2])
    at = 0.5 * (path.force[:-2] + path.force[1:-1])[off & calm]
    if len(at) < FEWEST:
        return []
    # Two grids, half a cell apart: none cuts a level in two.
    low, out = float(at.min()), []
    for begin in (low, low - 0.5 * width):
        place = ((at - begin) / width).astype(int)
        many = np.bincount(place)
        out += [float(np.median(at[place == k])) for k in np.argsort(-many)[:LEVELS] if many[k] >= FEWEST]
    return out


def _seen(path: _Path, level: float, width: float) -> Play:
    """Return the play that a level shows, without travel where it shows none.

    Hardly any travel is spent at forces beside it. A fast stroke passes between two rows and shows nothing, and into
    the play force may come slowly: the slow half or quarter of the passes may tell.
    """
    here = path.travel(level, width)
    shown = np.concatenate(here)
    shown = shown[shown > LEAST]
    nothing = Play(0.0, level, len(shown))
    if len(shown) < FEWEST or min(map(len, here)) < FEWEST // 2:
        return nothing
    below, above = (path.travel(level + sign * 2.0 * width, width) for sign in (-1.0, 1.0))
    if not (_more(here[0], [above[0]]) and _more(here[1], [below[1]])):
        return nothing
    both = [np.concatenate(one) for one in (below, above)]
    if not _more(np.concatenate(here), both) or not path.heaped(level, width):
        return nothing
    # What the shock moves by itself meanwhile comes on top: the shortest passes are nearest to the play.
    return Play(float(np.quantile(shown, SHARES[0])), level, len(shown))


def _more(here: FloatArray, beside: list[FloatArray]) -> bool:
    """Return whether the machine goes far more in passes here than in those beside, in one of `SHARES` of them."""
    if not all(map(len, beside)):
        return False
    around = np.mean([np.quantile(one, SHARES) for one in beside], axis=0)
    q = np.quantile(here, SHARES)
    return bool(np.any((q > LEAST) & (q > CLEAR * around)))


def _lost(path: _Path, play: Play, width: float) -> BoolArray:
    """Return the rows at which the joint carries nothing, shape (n,)."""
    still = np.abs(path.force - play.level) < width
    begin = np.flatnonzero(still & ~np.concatenate([[False], still[:-1]]))
    start = begin[np.maximum(np.searchsorted(begin, np.arange(len(still)), side="right") - 1, 0)] if len(begin) else 0
    lost = still & (path.way - path.way[start] < REACH * play.travel)
    for first, last in zip(*path.passes(play.level, width), strict=True):
        lost[max(first + 1 - BESIDE, 0) : last + BESIDE] = True
    return np.asarray(lost)
