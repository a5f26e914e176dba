"""A logged launch made ready for the model: cut out, zeroed where the car stood, averaged over blocks."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from dynoan.analysis.learning.assumptions import (
    AFTER,
    BEFORE,
    BLOCK,
    REST_FROM,
    REST_SAMPLES,
    REST_UNTIL,
    SHORTEST,
)
from dynoan.analysis.statistics import sample_noise
from dynoan.errors import FitError
from dynoan.model.arrays import FloatArray, IntArray

#: what may be logged: the mean travel of an axle's shocks, acceleration along the car, its speed
CHANNELS = ("front", "rear", "acceleration", "speed")
SHOCKS = CHANNELS[:2]
_UNIFORM = float(np.sqrt(12.0))


@dataclass(frozen=True)
class LoggedChannel:
    """One channel of a launch, averaged over blocks."""

    name: str  #: one of `CHANNELS`
    values: FloatArray  #: zero where the car stood, shape (blocks,) [m, m/s² or m/s]
    noise: float  #: standard deviation of one block's noise
    one_sided: bool = False  #: of an axle, whether one of its shocks alone was logged: the car's leaning shows too


@dataclass(frozen=True)
class LoggedLaunch:
    """What was logged of one launch."""

    name: str  #: of the log, for people
    times: FloatArray  #: of the samples from the beginning of what is looked at, shape (n,) [s]
    block: IntArray  #: which block each sample belongs to, shape (n,)
    channels: tuple[LoggedChannel, ...]
    seen: float  #: when the launch is seen, on the log's clock [s]

    @property
    def length(self) -> float:
        """What is looked at. [s]"""
        return float(self.times[-1])

    @property
    def blocks(self) -> int:
        """How many blocks."""
        return int(self.block[-1]) + 1

    @property
    def middles(self) -> FloatArray:
        """Middle of each block, shape (blocks,). [s]"""
        return np.asarray(np.bincount(self.block, self.times) / np.bincount(self.block))

    @property
    def names(self) -> tuple[str, ...]:
        """Of the channels."""
        return tuple(c.name for c in self.channels)

    def averaged(self, time: FloatArray, values: FloatArray) -> FloatArray:
        """Return rows of the model as the logger would have them, shape (rows, blocks).

        Parameters
        ----------
        time
            Of the model, from the beginning of what is looked at, shape (m,). [s]
        values
            Shape (rows, m).
        """
        place = np.clip((self.times - time[0]) / (time[1] - time[0]), 0, len(time) - 1.001)
        low = place.astype(int)
        sampled = values[:, low] + (place - low) * (values[:, low + 1] - values[:, low])
        edges = np.flatnonzero(np.diff(self.block, prepend=-1))
        counts = np.bincount(self.block)
        return np.asarray(np.add.reduceat(sampled, edges, axis=1) / counts)


def logged_launch(
    name: str, time: FloatArray, columns: Mapping[str, FloatArray], seen: float, *,
    zeroed: frozenset[str] = frozenset(), one_sided: frozenset[str] = frozenset(),
) -> LoggedLaunch:  # fmt: skip
    """Return a launch cut out of a log.

    Parameters
    ----------
    name
        Of the log.
    time
        Shape (n,). [s]
    columns
        By one of `CHANNELS`, shape (n,). [m, m/s² or m/s]
    seen
        When the launch is seen on the log's clock. [s]
    zeroed
        Channels whose zero is told and not to be taken from where the car stood.
    one_sided
        Axles of which one shock alone was logged.

    Raises
    ------
    FitError
        If the car does not stand before it, or the log ends too soon after it.
    """
    inside = (time >= seen - BEFORE) & (time <= seen + AFTER)
    if not inside.any() or float(time[inside][-1]) < seen + SHORTEST:
        left = max(float(time[-1]) - seen, 0.0)
        raise FitError(
            f"the log ends {left:.1f} s after the car leaves the line", where=name, hint=f"it takes {SHORTEST:g} s"
        )
    rest = (time >= seen - REST_FROM) & (time < seen - REST_UNTIL)
    if np.count_nonzero(rest) < REST_SAMPLES:
        raise FitError(
            "the car does not stand long enough before it leaves the line", where=name, hint="log a second of it"
        )
    times = time[inside] - (seen - BEFORE)
    block = _whole_blocks(times)
    made = []
    for channel, values in columns.items():
        zero = 0.0 if channel in zeroed or channel == "speed" else float(np.nanmedian(values[rest]))
        mean = np.bincount(block, values[inside] - zero) / np.bincount(block)
        step = _step(values[inside])
        noise = np.hypot(sample_noise([values[inside]]), step / _UNIFORM)
        made.append(LoggedChannel(channel, mean, float(noise) / float(np.sqrt(np.bincount(block).mean())),
                                  channel in one_sided))  # fmt: skip
    return LoggedLaunch(name, times, block, tuple(made), seen)


def _whole_blocks(times: FloatArray) -> IntArray:
    """Return the block of each sample, numbered from 0 without gaps."""
    raw = np.floor(times / BLOCK).astype(int)
    return np.asarray(np.unique(raw, return_inverse=True)[1], dtype=int)


def _step(values: FloatArray) -> float:
    """Return the step a logger writes in, 0 where none is seen."""
    levels = np.diff(np.unique(np.round(values, 9)))
    return float(np.median(levels)) if 0 < len(levels) < 0.5 * len(values) else 0.0
