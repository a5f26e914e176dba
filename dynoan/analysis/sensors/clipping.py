"""Samples at an end of a sensor's range: motion cut flat, which says "at least" in place of how far."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from dynoan.analysis.sensors.assumptions import (
    EDGES,
    ENTRIES,
    FLAT,
    FLAT_ALONE,
    LEVEL,
    NOISE_SAMPLES,
    QUIET,
    SAME,
    SHARP,
)
from dynoan.analysis.sensors.dropouts import level_runs
from dynoan.analysis.statistics import sample_noise
from dynoan.model.arrays import BoolArray, FloatArray


@dataclass(frozen=True)
class Clipped:
    """Which samples of a channel lie at an end of its sensor's range, shape (n,) each."""

    low: BoolArray
    high: BoolArray

    @property
    def either(self) -> BoolArray:
        """At one of both ends, shape (n,)."""
        return np.asarray(self.low | self.high)

    @property
    def share(self) -> float:
        """Of all samples. [1]"""
        return float(np.mean(self.either))


def clipped(values: FloatArray) -> Clipped:
    """Return the samples that are cut flat at the smallest and at the largest reading.

    What is held by a hand, or stands, is flat too, but comes to it slowly; a sensor's end it runs into.

    Parameters
    ----------
    values
        A channel in any unit, evenly spaced, shape (n,); NaN where the logger had none.

    Examples
    --------
    >>> wave = np.sin(np.arange(400) / 9)
    >>> bool(clipped(wave).either.any()), round(clipped(np.clip(wave, -2.0, 0.7)).share, 2)
    (False, 0.25)
    """
    known = np.flatnonzero(np.isfinite(values))
    x = values[known]
    high, low = np.zeros(len(values), dtype=bool), np.zeros(len(values), dtype=bool)
    if len(x) > NOISE_SAMPLES and np.ptp(x) > 0:
        finest = float(np.ptp(x)) * 10.0**-SAME + _resolution(x)
        for width in (finest, max(finest, LEVEL * _noise(x))):
            high[known] |= _at_top(x, width)
            low[known] |= _at_top(-x, width)
    return Clipped(low, high)


def _at_top(x: FloatArray, width: float) -> BoolArray:
    """Return the samples that are cut flat at the top; none where it is not run into."""
    near = x >= x.max() - width
    flat = [(a, b) for a, b in level_runs(near) if b - a >= FLAT]
    entries = sum(a >= 2 and abs(float(x[a - 1] - x[a - 2])) >= SHARP * width for a, _ in flat)
    exits = sum(b + 1 < len(x) and abs(float(x[b + 1] - x[b])) >= SHARP * width for _, b in flat)
    if not any(b - a >= FLAT_ALONE for a, b in flat) and len(flat) < 2:
        return np.zeros(len(x), dtype=bool)
    return np.asarray(near) if entries >= ENTRIES and entries + exits >= EDGES else np.zeros(len(x), dtype=bool)


def _resolution(x: FloatArray) -> float:
    """Return the step in which a logger writes; 0 where it is finer than what it logs."""
    levels = np.unique(np.round(x / np.ptp(x), SAME))
    return float(np.min(np.diff(levels)) * np.ptp(x)) if len(levels) > 1 else 0.0


def _noise(x: FloatArray) -> float:
    blocks = [x[i : i + NOISE_SAMPLES] for i in range(0, len(x) - NOISE_SAMPLES + 1, NOISE_SAMPLES)]
    return float(np.quantile([sample_noise([b]) for b in blocks], QUIET))
