"""Runs of one setting as one record: what is the same in all of them is then told by all of them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Any

import numpy as np

from dynoan.analysis.conditioning.assumptions import ONE_SPEED, SAME_MIDDLE
from dynoan.analysis.conditioning.samples.rows import Rows, one_speed, top_speeds
from dynoan.model.arrays import FloatArray

#: arrays of `Rows` that count from 0 in each run
COUNTED = ("span", "block", "cycle")


def worth_joining(runs: Sequence[Rows]) -> bool:
    """Return whether a run of one speed has others of another speed beside it, all about one place of the stroke."""
    tops = [speed for run in runs for speed in top_speeds(run)]
    if not any(one_speed(run) for run in runs) or max(tops) < ONE_SPEED * min(tops):
        return False
    places = [run.displacement for run in runs if run.displacement is not None]
    if len(places) < len(runs):
        return False
    middles = [0.5 * float(x.min() + x.max()) for x in places]
    return bool(np.ptp(middles) < SAME_MIDDLE * max(float(np.ptp(x)) for x in places))


def joined(runs: Sequence[Rows]) -> Rows:
    """Return the rows of all runs, one after another in time; temperatures only where all of them have them."""
    parts: dict[str, list[FloatArray]] = {}
    start = done = 0.0
    counts = dict.fromkeys(COUNTED, 0)
    for run in runs:
        for name, value in vars(run).items():
            if value is None:
                continue
            moved = value + {"time": start, "work": done}[name] - value[0] if name in ("time", "work") else value
            if name in COUNTED:
                moved = value - value.min() + counts[name]
                counts[name] = int(moved.max()) + 1
            parts.setdefault(name, []).append(moved)
        start, done = float(parts["time"][-1][-1]) + 1.0, float(parts["work"][-1][-1])
    whole: dict[str, Any] = {name: np.concatenate(some) for name, some in parts.items() if len(some) == len(runs)}
    return replace(runs[0], **{"temperature": None, "displacement": None, **whole})
