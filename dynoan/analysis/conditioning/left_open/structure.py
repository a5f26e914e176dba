"""What a curve leaves of a trace, averaged over the cycle and over travel: structure there is no noise."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from dynoan.analysis.conditioning.left_open.causes import LeftCause, cause_of
from dynoan.analysis.conditioning.samples.rows import Rows
from dynoan.model.arrays import BoolArray, FloatArray, IntArray
from dynoan.model.ranks import percentile

#: bins of the cycle and of the stroke
ANGLES, PLACES = 36, 18
#: a mean counts as structure from so many of its own standard errors on [1]; judged
CLEAR = 3.0
#: bins with fewer rows tell nothing
LEAST = 4
#: the ends of the stroke reach so far [rad]; structure on more than this share of the cycle is broad; judged
END, BROAD = 0.5, 0.25


@dataclass(frozen=True)
class Left:
    """Means of what is left in bins, NaN where a bin is empty; shape (bins,) each."""

    at: FloatArray  #: middles of the bins: angle from the extended end [rad], or travel from mid-stroke [m]
    mean: FloatArray  #: [N]
    error: FloatArray  #: standard error, from the scatter between cycles [N]

    @property
    def clear(self) -> BoolArray:
        """Which means stand out of their error."""
        return np.asarray(np.abs(self.mean) > CLEAR * self.error)


def angles(rows: Rows) -> FloatArray:
    """Return the angle of the cycle, shape (n,): 0 at the extended end, π at the compressed one. [rad]

    Where displacement was not recorded the zeros of velocity alone tell the ends: NaN.
    """
    if rows.displacement is None:
        return np.full(len(rows), np.nan)
    x = rows.displacement - 0.5 * (rows.displacement.min() + rows.displacement.max())
    out = np.empty(len(rows))
    for b in np.unique(rows.block):
        mine = rows.block == b
        top = percentile(np.abs(rows.velocity[mine]), 98) + 1e-12
        reach = percentile(np.abs(x[mine]), 98) + 1e-12
        out[mine] = np.arctan2(rows.velocity[mine] / top, -x[mine] / reach) % (2 * np.pi)
    return out


def over_cycle(rows: Rows, rest: FloatArray, block: int, angle: FloatArray | None = None) -> Left:
    """Return what is left of one block over the angle of its cycle; `rest` is what the curve leaves, shape (n,). [N]

    `angle` may be given where it is known, as `angles` returns it.
    """
    mine = rows.block == block
    at = (angles(rows) if angle is None else angle)[mine]
    return _binned(at, rest[mine], rows.cycle[mine], np.linspace(0.0, 2 * np.pi, ANGLES + 1))


def over_travel(rows: Rows, rest: FloatArray, way: float) -> Left:
    """Return what is left over travel while the shock moves one `way`, 1 for compression, -1 for rebound."""
    if rows.displacement is None:
        return _binned(np.full(len(rows), np.nan), rest, rows.cycle, np.linspace(-1.0, 1.0, PLACES + 1))
    x = rows.displacement - 0.5 * (rows.displacement.min() + rows.displacement.max())
    mine = way * rows.velocity > 0
    reach = float(np.abs(x).max())
    return _binned(x[mine], rest[mine], rows.cycle[mine], np.linspace(-reach, reach, PLACES + 1))


@dataclass(frozen=True)
class Unexplained:
    """Where a trace leaves most."""

    force: float  #: largest mean, signed [N]
    angle: float  #: of the cycle, as `angles` counts it [rad]
    top: float  #: of the block [m/s]
    share: float  #: of that block's cycle on which half as much or more is left, clearly
    cause: LeftCause | None = None  #: where there is evidence for one

    @property
    def at(self) -> str:
        """In words."""
        names = ("at the extended end", "on the way in", "at the compressed end", "on the way out")
        if self.ends:
            return names[0 if np.cos(self.angle) > 0 else 2]
        return names[1 if np.sin(self.angle) > 0 else 3]

    @property
    def ends(self) -> bool:
        """Whether the shock turns around there."""
        return bool(abs(np.sin(self.angle)) < np.sin(END))

    @property
    def broad(self) -> bool:
        """Whether it is no short event."""
        return self.share > BROAD


def most_left(rows: Rows, rest: FloatArray) -> Unexplained | None:
    """Return where most is left of a trace beyond its error, None where nothing is; `rest` has shape (n,). [N]"""
    worst: Unexplained | None = None
    angle, block = angles(rows), 0
    for b in np.unique(rows.block) if rows.displacement is not None else ():
        left = over_cycle(rows, rest, int(b), angle)
        size = np.where(left.clear, np.abs(left.mean), 0.0)
        i = int(np.argmax(size))
        if size[i] > (abs(worst.force) if worst else 0.0):
            top = float(np.max(np.abs(rows.velocity[rows.block == b])))
            worst, block = (
                Unexplained(float(left.mean[i]), float(left.at[i]), top, float(np.mean(size > 0.5 * size[i]))),
                int(b),
            )
    return None if worst is None else replace(worst, cause=cause_of(rows, rest, block))


def _binned(at: FloatArray, rest: FloatArray, cycle: IntArray, edges: FloatArray) -> Left:
    """Return the means in bins; each cycle's mean is one draw, since its rows err together."""
    bins = len(edges) - 1
    good = np.isfinite(at)
    place = np.clip(np.digitize(at[good], edges) - 1, 0, bins - 1)
    turn = np.unique(cycle[good], return_inverse=True)[1]
    turns = int(turn.max(initial=-1)) + 1
    key = place * turns + turn
    count = np.bincount(key, minlength=bins * turns).reshape(bins, turns)
    total = np.bincount(key, rest[good], minlength=bins * turns).reshape(bins, turns)
    some = count > 0
    each = total / np.maximum(count, 1)
    many = some.sum(axis=1)
    known = (count.sum(axis=1) >= LEAST) & (many >= 2)
    mean = np.where(known, each.sum(axis=1) / np.maximum(many, 1), np.nan)
    scatter = np.where(some, (each - mean[:, None]) ** 2, 0.0).sum(axis=1) / np.maximum(many - 1, 1)
    error = np.where(known, np.sqrt(scatter / np.maximum(many, 1)), np.nan)
    return Left(0.5 * (edges[1:] + edges[:-1]), mean, error)
