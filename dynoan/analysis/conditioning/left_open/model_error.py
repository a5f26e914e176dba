"""What the model does not explain: residuals that stand still over the phase of the cycle, and how rows are weighed.

The mean residual of one phase of one block is noise where the model holds. What is more than noise is model error: it
does not shrink with more samples, so a phase counts as one datum with that variance, not as many.
"""

from __future__ import annotations

import numpy as np

from dynoan.analysis.conditioning import assumptions as a
from dynoan.analysis.conditioning.samples.phases import phases
from dynoan.analysis.conditioning.samples.rows import Rows
from dynoan.analysis.statistics import robust_scale
from dynoan.model.arrays import FloatArray, IntArray


def calm(rows: Rows, rest: FloatArray) -> FloatArray:
    """Return the weights of the rows by their noise, less for outliers (Huber), shape (n,). [1/N²]"""
    off = np.abs(rest) / np.sqrt(rows.variance)
    scale = max(robust_scale(off), 1e-9)
    return np.asarray(np.minimum(1.0, a.HUBER_FIT * scale / np.maximum(off, 1e-12)) / rows.variance)


def loss(rows: Rows, rest: FloatArray) -> float:
    """Return the mean square of residuals in standard deviations of the noise, outliers bounded. [1]"""
    return float(np.mean(np.minimum(rest**2 / rows.variance, a.BOUND**2)))


def weights(rows: Rows, place: IntArray, rest: FloatArray, parameters: int, unsure: FloatArray) -> FloatArray:
    """Return the weights of the rows with model error counted, shape (n,). [1/N²]

    Parameters
    ----------
    rows
        Of one record.
    place
        The phase of each, shape (n,).
    rest
        Residuals, shape (n,). [N]
    parameters
        How many of the fit they have paid for.
    unsure
        What the model is off by at least, whatever residuals show that the fit may have absorbed, shape (n,). [N]
    """
    share = calm(rows, rest) * rows.variance
    count = np.maximum(np.bincount(place, share), 1e-9)
    mean = np.bincount(place, share * rest) / count
    white = np.bincount(place, share * rows.variance) / count**2
    known = np.bincount(place, share * unsure**2) / count
    free = len(mean) / (len(mean) - min(parameters, 0.6 * len(mean)))
    speed = np.bincount(place, share * rows.velocity) / count
    # By blocks: what lag blurs in a fast one must not take the word from a slow one.
    block = np.zeros(len(mean), dtype=np.int64)
    block[place] = rows.block
    local = np.empty(len(mean))
    for b in np.unique(block):
        mine = np.flatnonzero(block == b)
        mine = mine[np.argsort(speed[mine])]
        local[mine] = _running(mean[mine] ** 2, max(5, len(mine) // 12) | 1) * free
    excess = np.maximum(local - white, 0.0)
    excess = np.maximum(excess, 0.05 * float(np.mean(excess)))
    inflation = correlated(mean / np.sqrt(white + excess)) * a.WHITE_ERROR
    # About zero speed friction and damping are told apart by shapes that no law catches quite.
    about = 1.0 + a.REVERSAL_ERROR * np.exp(-((speed / a.REVERSAL) ** 2))
    variance = (white + np.maximum(a.MODEL_ERROR * about * excess, known)) * inflation
    return np.asarray(share / (variance * count)[place])


def left_over(rows: Rows, rest: FloatArray) -> tuple[float, float]:
    """Return what residuals show at the same phase of every cycle beyond noise, rms: about reversal, and above. [N]"""
    place, share = phases(rows), calm(rows, rest) * rows.variance
    count = np.maximum(np.bincount(place, share), 1e-9)
    mean = np.bincount(place, share * rest) / count
    white = np.bincount(place, share * rows.variance) / count**2
    slow = np.abs(np.bincount(place, share * rows.velocity) / count) < a.REVERSAL
    found = [float(np.mean(mean[some] ** 2 - white[some])) if some.any() else 0.0 for some in (slow, ~slow)]
    return float(np.sqrt(max(found[0], 0.0))), float(np.sqrt(max(found[1], 0.0)))


def turn_scatter(rows: Rows, rest: FloatArray, smooth: FloatArray) -> float:
    """Return the scatter of damping from turn to turn, a share, from how a turn's residuals go with its damping.

    `smooth` is the damping force of the rows, shape (n,). [N]
    """
    turns = rows.cycle - rows.cycle.min()
    w = 1.0 / rows.variance
    bottom = np.bincount(turns, w * smooth * smooth)
    gain = np.bincount(turns, w * smooth * rest) / np.maximum(bottom, 1e-9)
    moving = bottom[bottom > 0]
    keep = bottom > 0.05 * (np.median(moving) if len(moving) else 0.0)
    block = np.zeros(len(bottom), dtype=np.int64)
    block[turns] = rows.block
    apart = [gain[keep & (block == b)] for b in np.unique(block[keep])]
    squares = sum(float(np.sum((g - g.mean()) ** 2)) for g in apart if len(g) > 1)
    free = sum(len(g) - 1 for g in apart if len(g) > 1)
    return float(np.sqrt((squares + a.TURNS_KNOWN * a.TURN_SCATTER**2) / (free + a.TURNS_KNOWN)))


def correlated(series: FloatArray) -> float:
    """Return how much wider a sum varies than one of independent values: one plus twice the correlations. [1]"""
    total, power = 1.0, float(np.mean(series**2)) + 1e-12
    for k in range(1, 13):
        r = float(np.mean(series[k:] * series[:-k])) / power if len(series) > k else 0.0
        if r < 0.05:
            break
        total += 2 * r
    return min(total, 12.0)


def _running(values: FloatArray, width: int) -> FloatArray:
    width = min(width, len(values) if len(values) % 2 else len(values) - 1)
    padded = np.pad(values, width // 2, mode="reflect") if width > 1 else values
    return np.convolve(padded, np.full(max(width, 1), 1.0 / max(width, 1)), mode="valid")
