"""A corner as its swings tell it: figures with limits, from where the search for it ended."""

from __future__ import annotations

from dataclasses import dataclass, field

import numpy as np

from dynoan.analysis.bounce import assumptions as taken
from dynoan.analysis.bounce.figures import free_frequency, frequency_and_ratio
from dynoan.analysis.bounce.problem import LOGS, Problem
from dynoan.analysis.bounce.pushes import Swing
from dynoan.analysis.bounce.swing import DRY, KAPPA
from dynoan.analysis.statistics import Z95
from dynoan.model.arrays import FloatArray
from dynoan.model.banded import Banded

#: limits further apart than this factor's logarithm say nothing more
_WIDEST = 20.0


@dataclass(frozen=True)
class SwingFit:
    """A corner as its swings tell it."""

    frequency: Banded  #: of the body's swing at the stated travel: the eigenvalue's magnitude [Hz]
    ratio: Banded  #: there, friction left out
    free: Banded  #: frequency as if there were no shock: of masses, spring and tyre alone [Hz]
    rebound_over: Banded  #: slow slope in rebound over that in compression
    friction: Banded  #: over the sprung mass, at the wheel [m/s²]
    told: bool  #: whether friction is told from damping
    parameters: FloatArray  #: as `swing` has them
    swings: tuple[Swing, ...]
    fitted: tuple[FloatArray, ...]  #: what the fit has for each swing
    rms: float  #: of what is left, as logged
    amplitude: float  #: for which frequency and ratio hold [m]
    logged: tuple[FloatArray, ...]  #: each swing as it was logged, smoothed alike
    step: float  #: between samples of those [s]
    #: travel and speed of the body that each swing begins with, shape (swings, 2) [m, m/s]
    begun: FloatArray = field(default_factory=lambda: np.zeros((0, 2)))
    acceleration: bool = False  #: whether that is what was logged, or travel

    @property
    def frequency_stated(self) -> bool:
        """Whether the swing tells its frequency closely enough to state one, 2 % or so."""
        return _stated(self.frequency)

    @property
    def frequency_shown(self) -> bool:
        """Whether the swing tells its frequency closely enough to show one with its limits, 10 % or so."""
        return _stated(self.frequency, taken.SHOWN_FREQUENCY)

    @property
    def ratio_stated(self) -> bool:
        """Whether it tells its ratio at all."""
        return self.ratio.high / self.ratio.low <= taken.STATED_RATIO

    @property
    def cycles(self) -> float:
        """How many cycles the longest of its swings lasts. [1]"""
        return self.frequency.value * self.step * max(len(swing) for swing in self.logged)

    @property
    def left_share(self) -> float:
        """What the fit leaves, over the deviation of what was logged. [1]"""
        return self.rms / max(float(np.std(np.concatenate(self.logged))), 1e-12)

    @property
    def damped(self) -> float:
        """Frequency at which it really swings. [Hz]"""
        return self.frequency.value * float(np.sqrt(max(0.0, 1.0 - self.ratio.value**2)))


def fit_of(problem: Problem, minima: list[FloatArray], scale: float, amplitude: float) -> SwingFit:
    """Return the corner that the best end of a search tells, its limits round those of all ends that fit as well."""
    theta = minima[0]
    each = [_figures(problem, end, scale, amplitude) for end in minima]
    middles, spreads = (np.array(of) for of in zip(*each, strict=True))
    bands = [_banded(m, s) for m, s in zip(middles.T, spreads.T, strict=True)]
    if not _stated(bands[0]):
        more = taken.OPEN_FREQUENCY * np.exp(2 * middles[:, 1]) * spreads[:, 1]
        for n in (0, 4):
            bands[n] = _banded(middles[:, n], np.hypot(spreads[:, n], more))
    made = problem.made(theta)
    left = np.concatenate([m - y for m, y in zip(made, problem.values, strict=True)])
    told = bool(np.all(spreads[:, 3] * taken.TOLD < 1.0))
    return SwingFit(
        bands[0], bands[1], bands[4], bands[2], bands[3], told, problem.parameters(theta), problem.found, tuple(made),
        float(np.sqrt(np.mean(left**2))), amplitude, tuple(problem.values),
        float(np.median(np.concatenate([np.diff(t) for t in problem.times]))),
        theta[LOGS:].reshape(-1, 3)[:, :2], problem.acceleration,
    )  # fmt: skip


def _figures(problem: Problem, theta: FloatArray, scale: float, amplitude: float) -> tuple[FloatArray, FloatArray]:
    """Return logarithms of frequency, ratio, rebound over compression, friction, free frequency, and their spread."""

    def figures(logs: FloatArray) -> FloatArray:
        p = problem.parameters(np.concatenate([logs, theta[LOGS:]]))
        frequency, ratio = frequency_and_ratio(p, amplitude)
        return np.array([np.log(frequency), np.log(ratio), logs[3], logs[6], np.log(free_frequency(p))])

    p, logs = problem.parameters(theta), theta[:LOGS]
    covariance = _covariance(problem, theta, scale)[:LOGS, :LOGS]
    middle, steps = figures(logs), np.eye(LOGS) * 1e-4
    slopes = np.column_stack([(figures(logs + h) - figures(logs - h)) / 2e-4 for h in steps])
    spread = np.sqrt(np.diag(slopes @ covariance @ slopes.T))
    begun = np.hypot(theta[LOGS::3], theta[LOGS + 1 :: 3] / np.sqrt(p[KAPPA]))
    passed = max(amplitude, taken.PASSED * float(begun.max()))
    dry = 2.0 / np.pi * p[DRY] / p[KAPPA] / passed / float(np.exp(middle[1]))  # friction beside damping, per cycle
    model = taken.MODEL_RATIO_ACCELERATION if problem.acceleration else taken.MODEL_RATIO
    of_law = np.hypot(taken.MODEL_FREQUENCY, taken.MODEL_FREQUENCY_DAMPED * float(np.exp(2 * middle[1])))
    spread[0] = np.hypot(spread[0], of_law)
    spread[1] = np.linalg.norm(
        [spread[1], model, taken.MODEL_DAMPED * float(np.exp(middle[1])), taken.MODEL_FRICTION * dry]
    )
    spread[4] = np.hypot(spread[4], of_law)
    return middle, spread * np.sqrt(_strained(problem, theta))


def _stated(frequency: Banded, within: float = taken.STATED_FREQUENCY) -> bool:
    return frequency.high / frequency.low <= (1.0 + within) ** 2


def _banded(middles: FloatArray, spreads: FloatArray) -> Banded:
    """Return a figure from its logarithms at all minima, the best first: limits reach round those of each."""
    half = np.minimum(Z95 * spreads, _WIDEST)
    low, high = float(np.min(middles - half)), float(np.max(middles + half))
    return Banded(float(np.exp(middles[0])), float(np.exp(low)), float(np.exp(high)))


def _strained(problem: Problem, theta: FloatArray) -> float:
    """Return how much less sure all is where the corner is further from what corners are than it should be. [1]

    Then another law may hold: the sum of squares over what it stays below with 95 %, one at least; so R. T. Birge
    treats measurements that disagree, by the average (Phys. Rev. 40 (1932) 207-227, from memory).
    """
    from scipy.special import chdtri

    known = np.isfinite(problem.spread)
    off = (theta[:LOGS] - problem.middle)[known] / problem.spread[known]
    return max(1.0, float(off @ off) / float(chdtri(int(known.sum()), 0.05)))


def _covariance(problem: Problem, theta: FloatArray, scale: float) -> FloatArray:
    jacobian = problem.slopes(theta, scale, 1e-3)
    return np.asarray(np.linalg.pinv(jacobian.T @ jacobian), dtype=float)
