"""Gas that warms as it is pressed together, and gives the warmth away within seconds.

Slow strokes press it at one warmth, fast ones do not, and about as slow as it gives its warmth away force stays behind
travel: by a newton or some, in slow runs alone. Left in, that reads as damping of the slow runs, and so as damping that
fades from them to the fast ones.
"""

from __future__ import annotations

import numpy as np

from dynoan.analysis.conditioning.assumptions import GAS_SETTLES
from dynoan.model.arrays import FloatArray

#: samples worked out at a time reach over so many time constants at most: powers beyond that lose digits [1] (numerics)
REACH = 20.0


def unsettled(travel: FloatArray, dt: float | None) -> FloatArray:
    """Return travel less what gas has got used to, for each of `GAS_SETTLES`, shape (n, times). [m]

    Parameters
    ----------
    travel
        Of the shock, at an even pace, at rest before, shape (n,). [m]
    dt
        From sample to sample [s]; None where time is not known: all zero.
    """
    out = np.zeros((len(travel), len(GAS_SETTLES)))
    for column, settles in zip(out.T, GAS_SETTLES if dt else (), strict=False):
        np.subtract(travel, _followed(travel, (dt or 1.0) / settles), out=column)
    return out


def _followed(values: FloatArray, step: float) -> FloatArray:
    """Return what a first-order lag makes of values, `step` from each to the next in its time constants, shape (n,)."""
    keep = float(np.exp(-step))
    many = max(1, min(len(values), int(REACH / step)))
    grow = keep ** -np.arange(1.0, many + 1)
    out, last = np.empty_like(values), float(values[0])
    for first in range(0, len(values), many):
        part = values[first : first + many]
        up = grow[: len(part)]
        out[first : first + many] = (last + (1.0 - keep) * np.cumsum(part * up)) / up
        last = float(out[first + len(part) - 1])
    return out
