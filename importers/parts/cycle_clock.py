"""A run whose clock starts again at each cycle, as rigs log "cycle 1, cycle 2", on one clock."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise

import numpy as np

from dynoan.model.arrays import FloatArray
from importers.assumptions.parts import CYCLE_LEAST_SAMPLES, CYCLE_SIDE, CYCLE_STEPS, CYCLES_LEAST, TURN_STEP
from importers.parts.part import SweepPart

_MOTIONS = ("displacement", "velocity")


def with_cycles_on_one_clock(part: SweepPart, restarts: Sequence[int]) -> SweepPart | None:
    """Return a part whose time runs on from cycle to cycle, with a warning; None where its restarts begin runs.

    They begin cycles where the motion goes on over each of them and either a column of cycles counts on just there, or
    every piece between them is one cycle.

    Parameters
    ----------
    part
        With a column of time.
    restarts
        The rows in which time starts again, rising.
    """
    column = next((c for name in _MOTIONS if (c := part.roles.channels.get(name)) and c.index in part.values), None)
    if not restarts or column is None:
        return None
    motion = part.values[column.index]
    bounds = [*pairwise([0, *restarts, part.rows])]
    index = part.roles.channels["time"].index
    time = part.values[index]
    if any(b - a < CYCLE_LEAST_SAMPLES or not np.isfinite(time[a]) for a, b in bounds):
        return None
    if not all(_goes_on(motion, at) for at in restarts):
        return None
    if not _counted(part, restarts):
        one_each = len(bounds) >= CYCLES_LEAST and all(_turns(motion[a:b]) <= 2 for a, b in bounds)
        if not one_each or not all(_closed(motion, a, b) for a, b in bounds[:-1]):
            return None
    said = (
        f"time starts again at each of {len(bounds)} cycles: taken as one run on one clock; runs of different settings"
        " go in files of their own"
    )
    facts = replace(part.facts, warnings=(*part.facts.warnings, said))
    return replace(part, values={**part.values, index: _running_on(time, bounds)}, facts=facts)


def _counted(part: SweepPart, restarts: Sequence[int]) -> bool:
    """Whether a column of cycles takes another value just where time starts again."""
    column = part.roles.keys.get("cycle")
    x = None if column is None else part.values.get(column.index)
    return x is not None and np.array_equal(np.flatnonzero(np.diff(x)) + 1, restarts)


def _goes_on(motion: FloatArray, at: int) -> bool:
    """Whether a motion steps no further at a row than it does beside it, and goes the same way; NaN tells nothing."""
    before, after = np.diff(motion[max(at - 3, 0) : at]), np.diff(motion[at : at + 3])
    beside = [*np.abs(before).tolist(), *np.abs(after).tolist()]
    usual = max([float(np.ptp(motion[np.isfinite(motion)])) / len(motion), *beside])
    back = bool(np.all(before > 0) and np.all(after < 0)) or bool(np.all(before < 0) and np.all(after > 0))
    turns = (
        len(before) > 0
        and len(after) > 0
        and back
        and min(np.abs(before).min(), np.abs(after).min()) > TURN_STEP * usual
    )
    return not turns and not abs(motion[at] - motion[at - 1]) > CYCLE_STEPS * usual


def _closed(motion: FloatArray, start: int, stop: int) -> bool:
    """Whether a piece of a motion, to the sample after it, ends where it began."""
    usual = float(np.nanmax(np.abs(np.diff(motion[start:stop]))))
    return not abs(motion[stop] - motion[start]) > CYCLE_STEPS * usual


def _turns(motion: FloatArray) -> int:
    """Return how often a piece of a motion goes from one side of its middle to the other: up to twice in a cycle."""
    x = motion[np.isfinite(motion)]
    if not len(x) or not np.ptp(x) > 0:
        return 0
    off = (x - (x.max() + x.min()) / 2) / np.ptp(x)
    side = np.sign(off[np.abs(off) > CYCLE_SIDE])
    return int(np.count_nonzero(np.diff(side)))


def _running_on(time: FloatArray, bounds: Sequence[tuple[int, int]]) -> FloatArray:
    """Return times that go on by a usual step from one piece to the next."""
    out, start = time.copy(), float(time[0])
    for a, b in bounds:
        step = float(np.nanmedian(np.diff(time[a:b])))
        out[a:b] = time[a:b] - time[a] + start
        start = float(out[b - 1]) + step
    return out
