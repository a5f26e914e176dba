"""Rows of a peak table whose force lies far off those beside it, as a slipped decimal leaves them."""

from __future__ import annotations

import numpy as np

from dynoan.model.arrays import BoolArray, FloatArray

#: [1] a force of a peak table is doubted that is so many times both its neighbours, or they it; judged: force rises
#: with speed, steps of a curve stay within; a slipped decimal makes ten
ODD_APART = 3.0
#: [1] and that lies this share of the median force off them; judged: gas and friction scatter less
ODD_OF_MOST = 0.3
#: [rows] a direction has at least so many; judged: of fewer there is no line to be off
ODD_ROWS = 4


def odd_force(speed: FloatArray, force: FloatArray) -> int | None:
    """Return the row whose force is far off those beside it; None where there is none.

    Parameters
    ----------
    speed, force
        Of one direction, magnitudes, speeds rising, shape (n,), n at least `ODD_ROWS`. [m/s] [N]
    """
    within = far_off(force[1:-1], force[:-2], force[2:])
    beside = np.minimum(np.abs(force[1:-1] - force[:-2]), np.abs(force[1:-1] - force[2:]))
    usual = float(np.median(force))
    found = np.flatnonzero(within & (beside > ODD_OF_MOST * usual)) + 1
    if len(found):
        return int(found[0])
    # An end has one neighbour; force grows with no more than the square of speed.
    first, last = ((speed[i] / speed[j]) ** 2 for i, j in ((1, 0), (-1, -2)))
    if force[-1] > ODD_APART * last * force[-2] or force[-1] * ODD_APART < force[-2]:
        return len(force) - 1
    low = force[0] * ODD_APART * first < force[1] and force[1] > ODD_OF_MOST * usual and force[0] > 0
    return 0 if low or force[0] > ODD_APART * force[1] else None


def far_off(this: FloatArray, before: FloatArray, after: FloatArray) -> BoolArray:
    """Return whether numbers lie far above or far below both neighbours."""
    return (this > ODD_APART * np.maximum(before, after)) | (this * ODD_APART < np.minimum(before, after))
