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
        Of one direction, speeds rising, force positive with that direction, shape (n,), n at least `ODD_ROWS`. Where
        gas outweighs slow rebound damping its force passes through zero: rows in order are none that slipped. [m/s] [N]
    """
    size = np.abs(force)
    in_order = (force[:-2] < 0) & (force[:-2] <= force[1:-1]) & (force[1:-1] <= force[2:])
    usual = float(np.median(size))
    within = far_off(size[1:-1], size[:-2], size[2:])
    beside = np.minimum(np.abs(size[1:-1] - size[:-2]), np.abs(size[1:-1] - size[2:]))
    strong = np.minimum(size[:-2], size[2:]) > ODD_OF_MOST * usual
    found = np.flatnonzero(within & strong & ~in_order & (beside > ODD_OF_MOST * usual)) + 1
    if len(found):
        return int(found[0])
    # An end has one neighbour; force grows with no more than the square of speed.
    first, last = ((speed[i] / speed[j]) ** 2 for i, j in ((1, 0), (-1, -2)))
    if force[-2] > ODD_OF_MOST * usual and (size[-1] > ODD_APART * last * size[-2] or size[-1] * ODD_APART < size[-2]):
        return len(size) - 1
    if force[0] < 0:
        return None
    low = size[0] * ODD_APART * first < size[1] and size[1] > ODD_OF_MOST * usual and force[0] > 0
    return 0 if low or size[0] > ODD_APART * size[1] > ODD_APART * ODD_OF_MOST * usual else None


def far_off(this: FloatArray, before: FloatArray, after: FloatArray) -> BoolArray:
    """Return whether numbers lie far above or far below both neighbours."""
    return (this > ODD_APART * np.maximum(before, after)) | (this * ODD_APART < np.minimum(before, after))
