"""Where the least of a function lies that is known at a few places only."""

from __future__ import annotations

import numpy as np

from dynoan.model.arrays import FloatArray


def least_of(at: FloatArray, values: FloatArray) -> float:
    """Return where a parabola through the lowest of some values and its neighbours is least, within them. [as `at`]

    Parameters
    ----------
    at
        Rising places, shape (n,), n of three or more.
    values
        What was found there, shape (n,).

    Returns
    -------
    :
        The place of the lowest value itself where that is the first or the last.

    Examples
    --------
    >>> round(least_of(np.array([0.0, 1.0, 3.0]), np.array([4.0, 1.0, 1.0])), 9)
    2.0
    """
    k = int(np.argmin(values))
    if k in (0, len(at) - 1):
        return float(at[k])
    near = slice(k - 1, k + 2)
    curve = np.polyfit(at[near] - at[k], values[near], 2)
    return float(at[k] - curve[1] / (2.0 * curve[0]))
