"""Least squares of a swinging corner on the free swings of a log."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from dynoan.analysis.bounce import assumptions as taken
from dynoan.analysis.bounce.figures import free_frequency, frequency_and_ratio
from dynoan.analysis.bounce.problem import LOGS, KnownCorner, Logged, Problem, sizes_of
from dynoan.analysis.bounce.pushes import Swing, swings
from dynoan.analysis.bounce.swing import DRY, KAPPA
from dynoan.analysis.statistics import Z95
from dynoan.errors import FitError
from dynoan.model.arrays import FloatArray
from dynoan.model.banded import Banded

#: of these: rate, damping and friction, by which two ends of a search are told apart
_TOLD = [0, 2, 6]
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

    @property
    def frequency_stated(self) -> bool:
        """Whether the swing tells its frequency closely enough to state one, 2 % or so."""
        return self.frequency.high / self.frequency.low <= (1.0 + taken.STATED_FREQUENCY) ** 2

    @property
    def ratio_stated(self) -> bool:
        """Whether it tells its ratio at all."""
        return self.ratio.high / self.ratio.low <= taken.STATED_RATIO

    @property
    def damped(self) -> float:
        """Frequency at which it really swings. [Hz]"""
        return self.frequency.value * float(np.sqrt(max(0.0, 1.0 - self.ratio.value**2)))


def fit_swings(logged: Logged, known: KnownCorner | None = None, amplitude: float = taken.AMPLITUDE) -> SwingFit:
    """Return a corner's frequency and ratio from the free swings of a log.

    Parameters
    ----------
    logged
        A channel, about zero at rest.
    known
        What the car's file tells; None: what corners have as a rule.
    amplitude
        For which frequency and ratio are given: shock travel at the wheel. [m]

    Raises
    ------
    FitError
        If no push is found, or none swings long enough to tell.
    """
    let_go = taken.LET_GO_ACCELERATION if logged.acceleration else taken.LET_GO_TRAVEL
    logged = _thinned(logged)
    rest = taken.REST_ACCELERATION if logged.acceleration else taken.REST_TRAVEL
    found = swings(logged.time, logged.values, let_go, rest)
    if not found:
        raise FitError("no push is found: push the corner down, let go, and wait three seconds before the next")
    problem = Problem(logged, found, known or KnownCorner())
    minima, scale = _solved(problem)
    free = _without_hands(problem, minima[0])
    if free != problem.found:
        problem = Problem(logged, free, known or KnownCorner())
        minima, scale = _solved(problem)
    return _fit_of(problem, minima, scale, amplitude)


def _thinned(logged: Logged) -> Logged:
    """Return a log with neighbouring samples averaged, where it is quicker than a swing needs."""
    step = float(np.median(np.diff(logged.time)))
    many = int(1.0 / (step * taken.QUICK_ENOUGH))
    if many < 2:
        return logged
    rows = len(logged.time) // many
    time, values = (a[: rows * many].reshape(rows, many).mean(axis=1) for a in (logged.time, logged.values))
    return Logged(time, values, logged.acceleration)


def _solved(problem: Problem) -> tuple[list[FloatArray], float]:
    """Return the best values, others that fit as well within the limits, and the scatter of what they leave.

    Weights are set from the scatter twice. Friction and damping take each other's place in a short swing, so that a
    search may end in several places: each is followed.
    """
    y = np.concatenate(problem.values)
    scale = 0.03 * float(np.sqrt(np.mean(y**2)))
    tried = [_closest(problem, begun, scale) for begun in _starts(problem)]
    tried.sort(key=lambda done: done[0])
    theta = tried[0][1]
    for _ in range(2):
        theta = _closest(problem, theta, scale)[1]
        left = np.concatenate([m - v for m, v in zip(problem.made(theta), problem.values, strict=True)])
        scale = max(float(np.sqrt(np.mean(left**2))), 1e-9) * np.sqrt(_correlated(problem, theta))
    near = taken.FOLLOWED * tried[0][0]
    apart = [t for cost, t in tried if cost < near and np.abs(t[_TOLD] - theta[_TOLD]).max() > taken.APART]
    ends = sorted((_closest(problem, start, scale) for start in (theta, *apart)), key=lambda end: end[0])
    return [end for cost, end in ends if cost <= ends[0][0] + taken.AS_GOOD], scale


def _without_hands(problem: Problem, theta: FloatArray) -> tuple[Swing, ...]:
    """Return the swings, those cut short at whose end a hand was on the car again while it still swung."""
    kept = []
    for made, y, t, swing in zip(problem.made(theta), problem.values, problem.times, problem.found, strict=True):
        left = np.abs(made - y)
        count = max(2, int(np.searchsorted(t, t[0] + taken.HAND_END)))
        usual = taken.HAND_OVER * float(np.sqrt(np.mean(left[:-count] ** 2))) if len(left) > 2 * count else np.inf
        if left[-count:].max() > max(usual, taken.HAND_SHARE * swing.peak):
            much = np.flatnonzero(left <= 0.5 * taken.HAND_SHARE * swing.peak)
            before = int(np.searchsorted(t, t[0] + taken.HAND_BEFORE))
            stop = swing.start + max(int(much[-1]) + 1 - before, 3 * count)
            swing = replace(swing, stop=min(swing.stop, stop))
        kept.append(swing)
    return tuple(kept)


def _starts(problem: Problem) -> list[FloatArray]:
    """Return where searches begin: a linear decay, with more or less friction; held by friction, where a tyre rings."""
    guess = _guess(problem)
    starts = []
    for dry, share in taken.BEGUN:
        begun = guess.copy()
        begun[6], begun[2] = np.log(dry), guess[2] + np.log(share)
        starts.append(begun)
    rings = ringing(problem.times, problem.raw) if problem.acceleration else None
    if rings is not None and (2 * np.pi * rings) ** 2 > taken.RINGS_STIFFER * np.exp(guess[0]):
        for begun in [s.copy() for s in starts[1:3]]:
            begun[1] = 2 * np.log(2 * np.pi * rings) + np.log1p(np.exp(begun[7])) - begun[0]
            begun[8] = np.log(taken.HELD)
            starts.append(begun)
    return starts


def _closest(problem: Problem, begun: FloatArray, scale: float) -> tuple[float, FloatArray]:
    """Return the least cost that a search comes to from a start, and where."""
    from scipy.optimize import least_squares

    done = least_squares(problem.residuals, begun, problem.slopes, args=(scale,), x_scale=sizes_of(begun), max_nfev=25)
    return float(done.cost), np.asarray(done.x)


def _correlated(problem: Problem, theta: FloatArray) -> float:
    """Return how many neighbouring residuals count as one: the integrated autocorrelation, one at least."""
    total = 1.0
    for m, y in zip(problem.made(theta), problem.values, strict=True):
        left = m - y
        left = left - left.mean()
        power = float(left @ left)
        if power <= 0 or len(left) < 8:
            continue
        rho = np.correlate(left, left, "full")[len(left) :] / power
        below = np.flatnonzero(rho < 0)
        total = max(total, 1.0 + 2.0 * float(np.sum(rho[: below[0] if len(below) else len(rho)])))
    return total


def _guess(problem: Problem) -> FloatArray:
    """Return where to begin: the linear decay that fits best, over a grid of frequencies and ratios."""
    best = (np.inf, 1.5, 0.3)
    for frequency in np.geomspace(taken.SLOWEST, taken.FASTEST, 36):
        for ratio in (0.05, 0.1, 0.2, 0.3, 0.45, 0.65, 0.9):
            left = _linear_left(problem, frequency, ratio)
            best = min(best, (left, float(frequency), ratio))
    _, frequency, ratio = best
    omega = 2 * np.pi * frequency
    theta = np.concatenate([problem.middle, np.zeros(3 * len(problem.found))])
    over = np.exp(problem.middle[1])
    theta[0] = np.log(omega**2 * (1 + over) / over)
    theta[2] = np.log(2 * ratio * omega * 1.3)
    for n, (t, y) in enumerate(zip(problem.times, problem.raw, strict=True)):
        (a, b, offset), _ = _linear(t, y, frequency, ratio)
        slope = b * omega * np.sqrt(1 - ratio**2) - a * ratio * omega
        size = 1 / omega**2 if problem.acceleration else 1.0
        theta[LOGS + 3 * n : LOGS + 3 * n + 3] = a * size, slope * size, offset * 0.0
    return theta


def ringing(times: list[FloatArray], values: list[FloatArray]) -> float | None:
    """Return the frequency at which a body bounces on its tyres once friction holds its shocks. [Hz]

    Parameters
    ----------
    times, values
        Of each swing from where the car is let go, and its acceleration.

    Returns
    -------
    :
        None where nothing goes on behind the swing.
    """
    tails = [(t[late], y[late]) for t, y in zip(times, values, strict=True) for late in [t > taken.SWUNG]]
    tails = [(t, y - y.mean()) for t, y in tails if len(t) and t[-1] - t[0] > taken.RINGS_FOR]
    if not tails:
        return None
    tried = np.linspace(*taken.RINGS, 181)
    left = [sum(_linear(t, y, float(f), 0.0)[1] for t, y in tails) for f in tried]
    whole = sum(float(y @ y) for _, y in tails)
    return float(tried[int(np.argmin(left))]) if min(left) < taken.RINGS_SHARE * whole else None


def _linear_left(problem: Problem, frequency: float, ratio: float) -> float:
    return sum(_linear(t, y, frequency, ratio)[1] for t, y in zip(problem.times, problem.raw, strict=True))


def _linear(t: FloatArray, y: FloatArray, frequency: float, ratio: float) -> tuple[FloatArray, float]:
    omega = 2 * np.pi * frequency
    fall = np.exp(-ratio * omega * t)
    turn = omega * np.sqrt(1 - ratio**2) * t
    base = np.column_stack([fall * np.cos(turn), fall * np.sin(turn), np.ones(len(t))])
    values = np.linalg.lstsq(base, y, rcond=None)[0]
    return values, float(np.sum((y - base @ values) ** 2))


def _fit_of(problem: Problem, minima: list[FloatArray], scale: float, amplitude: float) -> SwingFit:
    theta = minima[0]
    each = [_figures(problem, end, scale, amplitude) for end in minima]
    middles, spreads = (np.array(of) for of in zip(*each, strict=True))
    bands = [_banded(m, s) for m, s in zip(middles.T, spreads.T, strict=True)]
    made = problem.made(theta)
    left = np.concatenate([m - y for m, y in zip(made, problem.values, strict=True)])
    told = bool(np.all(spreads[:, 3] * taken.TOLD < 1.0))
    return SwingFit(
        bands[0], bands[1], bands[4], bands[2], bands[3], told, problem.parameters(theta), problem.found, tuple(made),
        float(np.sqrt(np.mean(left**2))), amplitude, tuple(problem.values),
        float(np.median(np.concatenate([np.diff(t) for t in problem.times]))),
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
    dry = 2.0 / np.pi * p[DRY] / p[KAPPA] / amplitude / float(np.exp(middle[1]))  # friction beside damping, per cycle
    model = taken.MODEL_RATIO_ACCELERATION if problem.acceleration else taken.MODEL_RATIO
    spread[0] = np.hypot(spread[0], taken.MODEL_FREQUENCY)
    spread[1] = np.linalg.norm([spread[1], model, taken.MODEL_FRICTION * dry])
    spread[4] = np.hypot(spread[4], taken.MODEL_FREQUENCY)
    return middle, spread * np.sqrt(_strained(problem, theta))


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
