"""Slow rows of a peak table that do not rise with speed.

A table may hold the extremes of each cycle: in a slow one that is gas, and friction that breaks away, at an end of the
stroke, and more than what stands at the highest speed.
"""

from __future__ import annotations

import numpy as np

from dynoan.analysis.conditioning.tables import assumptions as of_table
from dynoan.model.arrays import FloatArray


def flat(v: FloatArray, f: FloatArray) -> FloatArray:
    """Return 1 or -1 by direction at slow rows whose force does not rise with speed yet, 0 elsewhere, shape (n,). [1]

    Parameters
    ----------
    v, f
        Signed velocities [m/s] and forces [N], rising in speed, shape (n,) each.
    """
    out, peak = np.zeros(len(v)), float(np.max(np.abs(f)))
    for sign in (1.0, -1.0):
        mine = np.flatnonzero(sign * v > 0)
        size = sign * f[mine]
        level = np.array([np.median(size[: max(k, 2)]) for k in range(len(size))])
        far = np.abs(size - level) > of_table.TABLE_FLAT * np.hypot(size, 0.15 * peak)
        calm = int(np.argmax(far)) if far.any() else len(far)
        # Where each row is stronger than the one before, force does rise, were it by little; repeats are one row.
        speeds, row = np.unique(np.abs(v[mine[: calm + 1]]), return_inverse=True)
        mean = np.bincount(row, size[: calm + 1]) / np.bincount(row)
        if len(speeds) > of_table.TABLE_FLAT_ROWS and not np.all(np.diff(mean) > 0):
            out[mine[:calm]] = sign
    return out
