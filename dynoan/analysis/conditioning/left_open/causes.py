"""What leaves force unexplained, each named on its own evidence: damping by travel, cavitation, too few samples."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

import numpy as np

from dynoan.analysis.conditioning.samples.rows import Rows
from dynoan.model.arrays import FloatArray
from dynoan.model.ranks import percentile

#: the ends and the middle of a block's stroke, shares of its half [1]; rows there are faster than this share of the
#: block's top speed, so that friction and lag count for little [1]; judged
END, MIDDLE, MOVING = 0.7, 0.3, 0.25
#: blocks slower than this share of the fastest say little of damping [1]; judged
SLOWEST = 0.2
#: force that differs so from mid-stroke, a share of its range that way, is there; and is not [1]; judged
THERE, ABSENT = 0.05, 0.03
#: more of it at an end, in fast blocks and in slow ones, where gas over travel has taken some of it [1]; judged
MORE_FAST, MORE_SLOW = 0.04, 0.025
#: and in fast blocks alone from this share on [1], so many times as much at the compressed end as at the other; judged
FAST_ALONE, LOPSIDED = 0.08, 4.0
#: damping by travel is named where it makes such a part of what is left most [1]; judged
GOOD_PART = 0.2
#: force that changes by so much of its range from sample to sample is not followed; by so much it is [1]; judged
LEAP, FOLLOWED = 0.1, 0.03
#: rows of so many samples or fewer are samples [1]; judged: a logger may miss some
ALONE = 1.5

Kind = Literal["travel", "cavitation", "samples"]


@dataclass(frozen=True)
class LeftCause:
    """Why force is left unexplained."""

    kind: Kind
    share: float  #: of the force's range: by how much it differs, or leaps
    way: float = 0.0  #: 1 where it is seen on the way in, -1 on the way out
    end: float = 0.0  #: 1 where it is at the compressed end, -1 at the extended one
    speed: float = 0.0  #: top speed of the slowest block in which it is there [m/s]
    rate: float = 0.0  #: sample rate that would follow [Hz]


@dataclass(frozen=True)
class _Zones:
    """What is left of each block on one way, over the range of its force; rising in top speed. Shape (blocks,)."""

    top: FloatArray  #: [m/s]
    extended: FloatArray  #: at the extended end, more resistance counting up
    middle: FloatArray
    compressed: FloatArray

    def beyond(self, end: float) -> FloatArray:
        """Return by how much more an end resists than mid-stroke, of the blocks that tell."""
        return (self.compressed if end > 0 else self.extended) - self.middle


def cause_of(rows: Rows, rest: FloatArray, block: int) -> LeftCause | None:
    """Return what leaves most of a record unexplained, None where no evidence stands for any one cause.

    Parameters
    ----------
    rows
        Of a record with displacement.
    rest
        What the curve leaves, shape (n,). [N]
    block
        That where most is left.
    """
    zones = {way: _zones(rows, rest, way) for way in (1.0, -1.0)}
    found = _cavitation(zones)
    # What is left most in a slower block is another thing.
    top = float(np.percentile(np.abs(rows.velocity[rows.block == block]), 98))
    travel = _by_travel(zones)
    if travel and not _makes_up(travel, rows, rest, block):
        travel = None
    return travel or (found if found and top > 0.9 * found.speed else None) or _too_few(rows, block)


def _makes_up(travel: LeftCause, rows: Rows, rest: FloatArray, block: int) -> bool:
    """Whether damping by travel is a good part of what is left of a block, and not a trifle beside it."""
    going = rows.force[travel.way * rows.velocity > 0]
    most = float(np.percentile(np.abs(rest[rows.block == block]), 98))
    return abs(travel.share) * float(np.ptp(going)) > GOOD_PART * most


def _zones(rows: Rows, rest: FloatArray, way: float) -> _Zones:
    assert rows.displacement is not None
    found = []
    for b in np.unique(rows.block):
        mine = rows.block == b
        x, v, left, force = rows.displacement[mine], rows.velocity[mine], rest[mine], rows.force[mine]
        top = percentile(np.abs(v), 98)
        place = (x - 0.5 * (x.min() + x.max())) / (0.5 * float(np.ptp(x)) + 1e-12)
        going = way * v > MOVING * top
        size = float(np.ptp(force[way * v > 0])) if np.any(way * v > 0) else 0.0
        parts = [going & (place < -END), going & (np.abs(place) < MIDDLE), going & (place > END)]
        if size > 0 and all(np.count_nonzero(part) >= 3 for part in parts):
            found.append([top, *(way * float(np.mean(left[part])) / size for part in parts)])
    table = np.array(sorted(found)).reshape(-1, 4)
    telling = table[:, 0] >= SLOWEST * table[:, 0].max(initial=0.0)
    return _Zones(*table[telling].T)


def _halves(of: FloatArray) -> tuple[float, float]:
    """Return the middle of the slower half of blocks and that of the faster. [as `of`]"""
    half = len(of) // 2
    return float(np.median(of[:half])), float(np.median(of[len(of) - half :]))


def _by_travel(zones: dict[float, _Zones]) -> LeftCause | None:
    """Return damping by travel: the same end, the same way, in slow and fast blocks alike."""
    best: LeftCause | None = None
    for way, zone in zones.items():
        for end in (1.0, -1.0):
            more = zone.beyond(end)
            if len(more) < 2:
                continue
            slow, fast = _halves(more)
            stronger, weaker = slow > MORE_SLOW and fast > MORE_FAST, max(slow, fast) < -THERE
            if (stronger or weaker) and np.mean(more * fast > 0) > 0.7:
                share = float(np.median(more))
                if best is None or abs(share) > abs(best.share):
                    best = LeftCause("travel", share, way, end, float(zone.top[0]))
    return best


def _cavitation(zones: dict[float, _Zones]) -> LeftCause | None:
    """Return cavitation: in fast blocks alone compression tops out, or rebound comes late after the compressed end."""
    in_, out = zones[1.0], zones[-1.0]
    tops_out = np.minimum(in_.beyond(1.0), LOPSIDED * in_.beyond(-1.0))
    # What comes late at the other end too is a slow channel's, or a flank's.
    late = -out.compressed
    both = len(late) and len(in_.extended) and abs(float(in_.extended[-1])) > THERE
    for one, top in ((tops_out, in_.top), (np.zeros(0) if both else late, out.top)):
        if len(one) > 1 and one[-1] > FAST_ALONE and abs(_halves(one)[0]) < ABSENT:
            there = one > THERE
            return LeftCause("cavitation", float(one[-1]), speed=float(top[np.flatnonzero(there)[0]]))
    return None


def _too_few(rows: Rows, block: int) -> LeftCause | None:
    """Return too few samples: force leaps from one to the next about where the shock turns around."""
    mine = rows.block == block
    step = np.diff(rows.time[mine])
    follow = np.diff(rows.span[mine]) == 0
    if not follow.any() or float(np.mean(rows.count[mine])) > ALONE:
        return None
    force = rows.force[mine]
    leap = float(np.percentile(np.abs(np.diff(force))[follow], 98)) / (float(np.ptp(force)) + 1e-9)
    each = float(np.median(step[follow]))
    if leap < LEAP or each <= 0:
        return None
    return LeftCause("samples", leap, rate=leap / FOLLOWED / each)
