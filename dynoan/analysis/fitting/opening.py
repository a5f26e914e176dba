"""What the records of one direction leave open of damping, and of damping and friction together."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from dynoan.analysis.conditioning.found.result import Conditioned
from dynoan.analysis.conditioning.left_open.open_end import Open
from dynoan.analysis.fitting.assumptions import LEAST_SHARE, LEAST_SPAN, LOADED_FRICTION, START
from dynoan.model.arrays import FloatArray


@dataclass(frozen=True)
class Opening:
    """One direction at speeds, magnitudes; shape (s,), an error's (2, s): below and above, standard deviations. [N]"""

    damping: FloatArray
    damping_sd: FloatArray
    taken: FloatArray  #: friction that stands no more in the points: a peak table's does still
    total: FloatArray
    total_sd: FloatArray


class Opener:
    """The records of one direction, to be asked at speeds.

    `taken` says of each whether friction is out of its points; `speed_sd` is how sure they are of the scale of speed,
    standard error, a share.
    """

    def __init__(self, records: Sequence[Open], sign: float, taken: Sequence[bool], speed_sd: float = 0.0) -> None:
        self.records, self.sign, self.taken, self.speed_sd = records, sign, taken, speed_sd

    def __call__(self, speed: FloatArray) -> Opening:
        """Return what is open at rising speeds [m/s]; errors of several records are taken as independent.

        But for the scale of speed: it is one rig's.
        """
        v = self.sign * np.asarray(speed, dtype=float)
        damping = [self.sign * one.damping(v) for one in self.records]
        rub = [self.sign * one.friction(v) for one in self.records]
        total = [d + f for d, f in zip(damping, rub, strict=True)]
        force, sd = _pooled(damping)
        # Friction that grows with the valve's force is damping by its looks.
        # A record's draws may be fewer than another's: each record counts as one.
        loaded = LOADED_FRICTION * float(np.mean([np.mean(np.abs(draws)) for draws in rub])) * np.abs(force)
        least = LEAST_SHARE * np.abs(force) + LEAST_SPAN * float(np.max(np.abs(force)))
        scale = self.speed_sd * np.abs(speed * np.gradient(force, speed)) if self.speed_sd else np.zeros(len(speed))
        both, both_sd = _pooled(total)
        taken, _ = _pooled([draws * out for draws, out in zip(rub, self.taken, strict=True)])
        common = np.hypot(least, scale)
        return Opening(force, np.sqrt(sd**2 + loaded**2 + common**2), taken, both, np.hypot(both_sd, common))

    def off(self, speed: FloatArray) -> FloatArray:
        """Return how far draws of the friction are off their mean at speeds [m/s], shape (draws, s). [N]"""
        v = self.sign * np.asarray(speed, dtype=float)
        draws = [one.friction(v) for one in self.records]
        few = min(len(d) for d in draws)
        return np.asarray(sum(d[:few] - d[:few].mean(axis=0) for d in draws) / len(draws))

    def at_start(self, speed: FloatArray) -> FloatArray:
        """Return how far off friction leaves the start of the curve at speeds, standard deviation, shape (s,). [N]

        Friction taken out by a newton too much or too little is a step at zero speed, which looks like a knee.
        """
        return np.asarray(self.off(speed).std(axis=0, ddof=1) * np.exp(-((np.asarray(speed) / START) ** 2)))


def opening(parts: Sequence[Conditioned], sign: float) -> Opener | None:
    """Return the opener of one direction (`sign` 1 or -1), None where a record does not say what it leaves open."""
    known = [part.open for part in parts if part.open is not None]
    taken = [part.layout != "peaks" for part in parts]
    speed_sd = max((part.speed_sd for part in parts), default=0.0)
    return Opener(known, sign, taken, speed_sd) if len(known) == len(parts) else None


def _pooled(draws: Sequence[FloatArray]) -> tuple[FloatArray, FloatArray]:
    """Return the mean of records, shape (s,), and its standard deviations below and above, shape (2, s). [N]

    Each side by itself: what is bounded on one side, as friction is at nothing, leaves an error that leans to the
    other. Twice the mean square of one side, which is the variance where both are alike (a normal law in two pieces).
    """
    mean = np.mean([d.mean(axis=0) for d in draws], axis=0)
    return mean, np.sqrt(np.sum([_two_sided(d) for d in draws], axis=0)) / len(draws)


def _two_sided(draws: FloatArray) -> FloatArray:
    """Return the variances below and above the mean, shape (2, s), its own error by so few draws counted. [N²]"""
    n, off = len(draws), draws - draws.mean(axis=0)
    sides = [np.sum(np.where(side * off > 0, off, 0.0) ** 2, axis=0) for side in (-1.0, 1.0)]
    return np.asarray(2.0 * (1.0 + 1.0 / n) / max(n - 1, 1) * np.array(sides))
