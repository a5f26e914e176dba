"""Rows of a peak table whose force towers over those beside it: left out, and said."""

from __future__ import annotations

import numpy as np

from dynoan.model.arrays import FloatArray
from dynoan.model.odd_rows import ODD_ROWS, odd_force


def without_slips(v: FloatArray, f: FloatArray) -> tuple[tuple[FloatArray, FloatArray], tuple[str, ...]]:
    """Return the rows without one a direction whose force is several times those beside it, and what is said of it.

    Parameters
    ----------
    v, f
        Signed velocities [m/s] and forces [N], rising in speed, shape (n,) each. A force far below those beside it may
        be rebound that gas pushes the other way: it stays.
    """
    kept, said = np.ones(len(v), dtype=bool), []
    for sign, direction in ((1.0, "compression"), (-1.0, "rebound")):
        mine = np.flatnonzero(sign * v > 0)
        speed, force = np.abs(v[mine]), np.abs(f[mine])
        if len(mine) <= ODD_ROWS or (np.diff(speed) <= 0).any():
            continue
        at = odd_force(speed, force)
        beside = [] if at is None else [force[i] for i in (at - 1, at + 1) if 0 <= i < len(force)]
        if at is None or force[at] < max(beside):
            continue
        kept[mine[at]] = False
        said.append(
            f"{direction} force of {force[at]:.0f} N at {speed[at] * 1e3:.0f} mm/s is several times "
            f"{' and '.join(f'{one:.0f} N' for one in beside)} beside it: left out of the curve"
        )
    return (v[kept], f[kept]), tuple(said)
