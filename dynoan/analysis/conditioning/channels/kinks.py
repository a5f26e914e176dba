"""Corners of the motion that are sharper than the samples show: speed there is neither that before nor that after."""

from __future__ import annotations

import numpy as np

from dynoan.model.arrays import BoolArray, FloatArray

#: spacings that are tried; the wider ones see corners that noise hides from the narrower [samples]; numerics
SPACINGS = (1, 2, 4, 8)
#: a corner bends so many times as much as what lies beside it [1], and so many standard deviations of noise [1]; judged
BENDS, CLEAR = 4.0, 6.0
#: noise of a channel that counts at least, as a share of its range [1]; numerics
LEAST_NOISE = 1e-6


def kinks(x: FloatArray, noise: float) -> BoolArray:
    """Return which samples of a displacement stand at a corner that is turned within two samples, shape (n,).

    Where it is turned over more of them, they show how; a wider spacing is looked at only for what noise hides.

    Parameters
    ----------
    x
        Displacement in even steps of time, shape (n,).
    noise
        Its standard deviation. [as `x`]
    """
    out = np.zeros(len(x), dtype=bool)
    least = CLEAR * np.sqrt(6.0) * max(noise, LEAST_NOISE * float(np.ptp(x)))
    for k in SPACINGS:
        if len(x) < 8 * k + 1:
            break
        bend = np.zeros(len(x))
        bend[k:-k] = np.abs(x[2 * k :] - 2 * x[k:-k] + x[: -2 * k])
        sharp = bend > least
        sharp[: 4 * k] = sharp[len(x) - 4 * k :] = False
        if k > 1:
            sharp &= 0.5 * bend < least
        at = np.flatnonzero(sharp)
        beside = np.max([bend[at + j * k] for j in (-4, -3, -2, 2, 3, 4)], axis=0)
        for i in at[bend[at] > BENDS * beside]:
            out[i - k : i + k + 1] = True
    return out
