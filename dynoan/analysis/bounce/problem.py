"""A log's free swings as a problem of least squares: its parameters, what is left, what is known beforehand."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from dynoan.analysis.bounce import assumptions as taken
from dynoan.analysis.bounce.pushes import Swing
from dynoan.analysis.bounce.swing import (
    COMPRESSION,
    DRY,
    FAST,
    KAPPA,
    KNEE_AT,
    PARAMETERS,
    REBOUND,
    TAU,
    TURN,
    TYRE_DAMPING,
    WHEEL,
    swing,
)
from dynoan.model.arrays import BoolArray, FloatArray

#: logarithms that are fitted: κ, τ/κ, √(c·r), r/c, q, knee, friction, wheel, travel over which friction turns,
#: the tyre's damping
LOGS = 10
#: ends of the search, so that no step of the integration grows too short: q, τ/κ, friction [m/s²]
_LEAST_FAST, _MOST_FAST, _STIFFEST, _DRIEST = 0.1, 4.0, 30.0, 30.0
#: the same: spring over the quickest body's, slow slope over that of the greatest ratio [1]
_STIFFER, _STEEPER = 2.0, 4.0
#: the same of the travel over which friction turns [m]
_SHORTEST_TURN, _LONGEST_TURN = 1e-5, 2e-3
#: the same of the wheel's mass over the sprung mass [1]
_LIGHTEST = 0.02
#: the same of the tyre's damping over the sprung mass [1/s]
_MOST_TYRE_DAMPING = 10.0


@dataclass(frozen=True)
class Logged:
    """What is to be fitted: one channel, at rest about zero."""

    time: FloatArray  #: [s]
    values: FloatArray  #: shock travel at the wheel [m], or acceleration upward [m/s²]
    acceleration: bool
    ends: BoolArray | None = None  #: samples at an end of the sensor's range, shape (n,); None: none


@dataclass(frozen=True)
class KnownCorner:
    """What is known of a corner beforehand."""

    tyre_over_wheel: float = taken.TYRE_OVER_WHEEL  #: tyre rate over wheel rate
    wheel_mass: float = taken.WHEEL  #: unsprung over sprung mass
    stated: bool = False  #: whether a car's file says so


def kernel_of(step: float) -> FloatArray:
    """Return the weights that log and equations are smoothed with alike: what is quicker is the wheel's own motion.

    Parameters
    ----------
    step
        Between samples. [s]
    """
    width = 2 * round(0.5 * taken.SMOOTHED / step) + 1
    weights = np.hanning(width + 2)[1:-1]
    return np.asarray(weights / weights.sum())


class Problem:
    """Residuals of the swings, and of what is known beforehand."""

    def __init__(self, logged: Logged, found: tuple[Swing, ...], known: KnownCorner) -> None:
        self.found = found
        self.acceleration = logged.acceleration
        self.offset = taken.ZERO_ACCELERATION if logged.acceleration else taken.ZERO_TRAVEL
        self.times = [logged.time[s.start : s.stop] - logged.time[s.start] for s in found]
        self.kernel = kernel_of(float(np.median(np.diff(logged.time))))
        self.raw = [logged.values[s.start : s.stop] for s in found]
        self.values = [np.convolve(v, self.kernel, mode="valid") for v in self.raw]
        over, spread = known.tyre_over_wheel, taken.TYRE_STATED_SPREAD if known.stated else taken.TYRE_SPREAD
        self.middle = np.log([
            1.0, over, 1.0, taken.REBOUND_OVER, taken.FAST_OVER_SLOW, taken.KNEE, taken.FRICTION,
            known.wheel_mass, taken.TURN, taken.TYRE_DAMPING,
        ])  # fmt: skip
        self.spread = np.array([
            np.inf, spread, np.inf, taken.REBOUND_SPREAD, taken.FAST_SPREAD, taken.KNEE_SPREAD,
            taken.FRICTION_SPREAD, taken.WHEEL_SPREAD if known.stated else taken.WHEEL_SPREAD * 2, taken.TURN_SPREAD,
            taken.TYRE_DAMPING_SPREAD,
        ])  # fmt: skip

    def parameters(self, theta: FloatArray) -> FloatArray:
        """Return the corner's parameters of what is fitted, (PARAMETERS,). [as `swing` has them]"""
        e = np.exp(np.clip(theta[:LOGS], -30.0, 30.0))
        p = np.empty(PARAMETERS)
        p[KAPPA] = min(e[0], _STIFFER * (2 * np.pi * taken.FASTEST) ** 2)
        p[TAU] = p[KAPPA] * e[1]
        p[COMPRESSION], p[REBOUND] = e[2] / np.sqrt(e[3]), e[2] * np.sqrt(e[3])
        p[FAST], p[KNEE_AT], p[DRY] = np.clip(e[4], _LEAST_FAST, _MOST_FAST), e[5], min(e[6], _DRIEST)
        p[WHEEL], p[TURN] = max(e[7], _LIGHTEST), min(max(e[8], _SHORTEST_TURN), _LONGEST_TURN)
        p[TYRE_DAMPING] = min(e[9], _MOST_TYRE_DAMPING)
        linear = 2.0 * np.sqrt(p[KAPPA])
        least, most = taken.LEAST_RATIO * linear, _STEEPER * taken.MOST_RATIO * linear
        p[COMPRESSION], p[REBOUND] = np.clip(p[[COMPRESSION, REBOUND]], least, most)
        p[TAU] = min(p[TAU], _STIFFEST * p[KAPPA])
        return p

    def made(self, theta: FloatArray) -> list[FloatArray]:
        """Return each swing as the parameters have it, smoothed as the log was. [m, or m/s²]"""
        p = self.parameters(theta)
        out = []
        for n, t in enumerate(self.times):
            z, v, offset = theta[LOGS + 3 * n : LOGS + 3 * n + 3]
            made = swing(t, np.array([z, v]), p)[1 if self.acceleration else 0] + offset
            out.append(np.convolve(made, self.kernel, mode="valid"))
        return out

    def residuals(self, theta: FloatArray, scale: float) -> FloatArray:
        """Return what is left over its scatter `scale`, and how far each value is off what is known of it, (R,). [1]"""
        left = np.concatenate([m - y for m, y in zip(self.made(theta), self.values, strict=True)]) / scale
        prior = (theta[:LOGS] - self.middle) / self.spread
        offsets = theta[LOGS + 2 :: 3] / self.offset
        return np.concatenate([np.nan_to_num(left, nan=1e6, posinf=1e6, neginf=-1e6), prior, offsets])

    def slopes(self, theta: FloatArray, scale: float, share: float = 1e-5) -> FloatArray:
        """Return the Jacobian of the residuals, (R, values), by steps of a share of `sizes_of`. [1 over the unit]

        A swing's own beginning moves that swing alone, so all move at once.
        """
        sizes = share * sizes_of(theta)
        at = self.residuals(theta, scale)
        out = np.zeros((len(at), len(theta)))
        ends = np.cumsum([0, *(len(v) for v in self.values)])
        for n in range(LOGS):
            moved = theta.copy()
            moved[n] += sizes[n]
            out[:, n] = (self.residuals(moved, scale) - at) / sizes[n]
        for own in range(3):
            moved = theta.copy()
            moved[LOGS + own :: 3] += sizes[LOGS + own :: 3]
            change = self.residuals(moved, scale) - at
            for n in range(len(self.found)):
                rows, column = slice(ends[n], ends[n + 1]), LOGS + 3 * n + own
                out[rows, column] = change[rows] / sizes[column]
        out[len(at) - len(self.found) :, LOGS + 2 :: 3] = np.eye(len(self.found)) / self.offset
        return out


def sizes_of(theta: FloatArray) -> FloatArray:
    """Return how large steps of the fitted values are, (values,). [as these]"""
    sizes = np.full(len(theta), 0.3)
    begun = np.abs(theta[LOGS:])
    sizes[LOGS:] = np.maximum(begun, 0.05 * begun.max())
    return sizes
