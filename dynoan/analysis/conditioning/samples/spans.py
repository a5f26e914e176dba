"""Samples that follow one another without a gap, averaged to rows."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from dynoan.analysis.conditioning.channels.record import Record
from dynoan.analysis.conditioning.channels.slopes import force_rate
from dynoan.analysis.conditioning.channels.velocity import StrokeMotion
from dynoan.analysis.conditioning.samples.rubbing import Rubbed
from dynoan.model.arrays import FloatArray
from dynoan.model.ranks import percentile

#: rows a cycle; neighbours closer than that are averaged
ROWS_A_CYCLE = 250
#: nor are samples averaged over which speed changes by more than this: it would round off what happens at zero [m/s];
#: judged
STEP = 0.002
#: rows that a span makes at least, however short it is; a span has eight samples or more
FEWEST_ROWS = 4


@dataclass(frozen=True)
class Span:
    """Samples that follow one another without a gap, averaged to rows; channels not recorded are empty. SI."""

    index: FloatArray  #: mean sample number of each row
    displacement: FloatArray
    velocity: FloatArray
    force: FloatArray
    unsettled: FloatArray  #: travel less what gas has got used to, shape (rows, times) [m]
    force_rate: FloatArray
    temperature: FloatArray
    work: FloatArray
    count: FloatArray
    half: FloatArray  #: by how much velocity moves either way within each, or may be off [m/s]
    block: int
    window: float  #: that `force_rate` was taken over [rows]
    rubbing: Rubbed
    averaged: int  #: samples to a row


def averaged(record: Record, motion: StrokeMotion, span: tuple[int, int], period: float) -> int:
    """Return how many samples are averaged to a row."""
    part = motion.velocity[span[0] : span[1]]
    change = percentile(np.abs(np.diff(part)), 98) if record.displacement is not None else np.inf
    return max(1, int(min(period / ROWS_A_CYCLE, STEP / max(change, 1e-9))))


def mean_of(values: FloatArray, m: int, q: int) -> FloatArray:
    """Return the means of `q` neighbours each, shape (m,). [as `values`]"""
    return np.asarray(values.reshape(m, q).mean(axis=1))


def span_of(
    record: Record, motion: StrokeMotion, span: tuple[int, int, int], block: int,
    warmed: tuple[FloatArray | None, FloatArray],
) -> Span:  # fmt: skip
    """Return the rows of a span of samples: its first, that after its last, and how many are averaged to a row.

    `warmed` are what gas has not got used to and the work done up to each sample.
    """
    a, b, q = span
    heat, work = warmed
    m = (b - a) // q

    def mean(values: FloatArray | None) -> FloatArray:
        return np.empty(0) if values is None else np.asarray(values[a : a + m * q].reshape(m, q).mean(axis=1))

    force = mean(record.force)
    # What is even over a width that scatters so has that width.
    off = np.sqrt(3.0) * motion.error[a : a + m * q]
    rubbing = Rubbed.along(motion.velocity[a : a + m * q], record.dt or 1.0, off)
    warm = np.empty((m, 0)) if heat is None else heat[a : a + m * q].reshape(m, q, -1).mean(axis=1)
    dt = record.dt or 0.0
    # Of the samples, not of the rows: a row may be longer than force takes to turn around.
    rate, window = force_rate(record.force[a : a + m * q], record.force_noise) if dt and m > 8 else (np.zeros(m * q), 1)
    index: FloatArray = a + q * np.arange(m, dtype=float) + (q - 1) / 2
    count = record.own[a : a + m * q].reshape(m, q).sum(axis=1).astype(float)
    samples = motion.velocity[a : a + m * q].reshape(m, q)
    # The first and the last sample stand half a sample within the row's ends.
    half = 0.5 * np.abs(samples[:, -1] - samples[:, 0]) * (q / max(q - 1, 1))
    half = np.hypot(half, np.sqrt(np.mean(off.reshape(m, q) ** 2, axis=1) / q))
    rates = mean_of(rate, m, q) / (dt or 1.0)
    return Span(index, mean(record.displacement), samples.mean(axis=1), force, warm, rates,
                mean(record.temperature), mean(work), count, half, block, window / q, rubbing, q)  # fmt: skip
