"""Strokes of constant speed, as a servo or a screw makes them."""

from __future__ import annotations

from itertools import pairwise

import numpy as np

from dynoan.model.arrays import BoolArray, FloatArray

#: slower than this a shock stands still [m/s]; judged
STANDING = 1e-3
#: a stroke is a ramp where such a share of it runs within so much of its middle speed [1]; judged: of a sine's a sixth
#: does, of a crank's no more
RAMP_SHARE, RAMP_WITHIN = 0.6, 0.1


def ramps(velocity: FloatArray, standing: float = STANDING) -> BoolArray:
    """Return True on strokes of constant speed, as a servo or a screw makes them, shape (n,).

    Slower than `standing` the shock stands still. [as `velocity`]
    """
    way = np.where(np.abs(velocity) < standing, 0.0, np.sign(velocity))
    out = np.zeros(len(velocity), dtype=bool)
    for a, b in pairwise([0, *(np.flatnonzero(np.diff(way)) + 1), len(velocity)]):
        if way[a]:
            speed = np.abs(velocity[a:b])
            middle = float(np.median(speed))
            out[a:b] = float(np.mean(np.abs(speed - middle) < RAMP_WITHIN * middle)) > RAMP_SHARE
    return out
