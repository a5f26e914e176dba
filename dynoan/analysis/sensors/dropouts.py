"""Samples in which a sensor lost its signal: it jumps to zero, or to one level, and back."""

from __future__ import annotations

import numpy as np

from dynoan.analysis.sensors.assumptions import BACK, JUMP, LONGEST, REPEATED, SAME, STEPS
from dynoan.model.arrays import BoolArray, FloatArray


def dropouts(values: FloatArray) -> BoolArray:
    """Return the samples that are drop-outs, shape (n,).

    Parameters
    ----------
    values
        A channel in the logger's unit, shape (n,); NaN where it had none, which is no drop-out here.

    Examples
    --------
    >>> wave = 50 + 20 * np.sin(np.arange(400) / 9)
    >>> wave[[60, 61, 203]] = 0.0
    >>> np.flatnonzero(dropouts(wave)).tolist()
    [60, 61, 203]
    """
    out = np.zeros(len(values), dtype=bool)
    known = np.flatnonzero(np.isfinite(values))
    x = values[known]
    span = float(np.ptp(x)) if len(x) > 2 else 0.0
    if span <= 0:
        return out
    least = max(JUMP * span, STEPS * float(np.quantile(np.abs(np.diff(x)), 0.9)))
    for level in {0.0, float(x.min()), float(x.max())}:
        runs = [r for r in level_runs(np.abs(x - level) <= span * 10.0**-SAME) if _jumps(x, r, least)]
        if level == 0.0 or len(runs) >= REPEATED:
            for start, stop in runs:
                out[known[start:stop]] = True
    return out


def level_runs(there: BoolArray) -> list[tuple[int, int]]:
    """Return where samples in a row are true: first, and behind the last."""
    edges = np.flatnonzero(np.diff(np.concatenate([[0], there.astype(int), [0]])))
    return [(int(a), int(b)) for a, b in zip(edges[::2], edges[1::2], strict=True)]


def _jumps(x: FloatArray, run: tuple[int, int], least: float) -> bool:
    """Tell whether a channel jumps to a level and back to where it was."""
    start, stop = run
    if start == 0 or stop == len(x) or stop - start > LONGEST:
        return False
    into, out = abs(float(x[start] - x[start - 1])), abs(float(x[stop] - x[stop - 1]))
    return min(into, out) >= least and abs(float(x[stop] - x[start - 1])) <= BACK * min(into, out)
