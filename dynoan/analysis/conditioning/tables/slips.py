"""Rows of a peak table whose force is several times those beside it, or a small part of them: left out, and said."""

from __future__ import annotations

import numpy as np

from dynoan.model.arrays import FloatArray
from dynoan.model.odd_rows import ODD_ROWS, odd_force


def without_slips(
    v: FloatArray, f: FloatArray, *, towering: bool = False
) -> tuple[tuple[FloatArray, FloatArray], tuple[str, ...]]:
    """Return the rows without one a direction whose force is far off those beside it, and what is said of it.

    Parameters
    ----------
    v, f
        Signed velocities [m/s] and forces [N], rising in speed, shape (n,) each; the slowest stays.
    towering
        Whether those that are a small part of what stands beside them stay as well.
    """
    kept, said = np.ones(len(v), dtype=bool), []
    for sign, direction in ((1.0, "compression"), (-1.0, "rebound")):
        mine = np.flatnonzero(sign * v > 0)
        speed, force = np.abs(v[mine]), sign * f[mine]
        if len(mine) <= ODD_ROWS or (np.diff(speed) <= 0).any():
            continue
        at, force = odd_force(speed, force), np.abs(force)
        if at is None or at == 0:
            continue
        beside = [force[i] for i in (at - 1, at + 1) if i < len(force)]
        if towering and force[at] < max(beside):
            continue
        how = "several times" if force[at] > max(beside) else "a small part of"
        kept[mine[at]] = False
        said.append(
            f"{direction} force of {force[at]:.0f} N at {speed[at] * 1e3:.0f} mm/s is {how} "
            f"{' and '.join(f'{one:.0f} N' for one in beside)} beside it: left out of the curve"
        )
    return (v[kept], f[kept]), tuple(said)


def off_the_line(v: float, f: float, scatter: float) -> str:
    """Return what is said of a row [m/s], [N] off the line of all others, which scatter by a share [1] with it."""
    return (
        f"{'compression' if v > 0 else 'rebound'} force of {abs(f):.0f} N at {abs(v) * 1e3:.0f} mm/s is off the line "
        f"of all others, which scatter by {100 * scatter:.0f} % with it: left out of the curve; check that row"
    )
