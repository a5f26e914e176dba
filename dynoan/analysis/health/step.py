"""When a quantity stepped: the best single change of level in a row of values, and how sure its place is."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike

from dynoan.analysis.fitting.assumptions import KNEE_WORTH
from dynoan.analysis.fitting.choice import criterion
from dynoan.analysis.health.assumptions import BAI, FEWEST_VALUES
from dynoan.errors import FitError
from dynoan.model.arrays import FloatArray


@dataclass(frozen=True)
class LevelStep:
    """A change of level after one of several values in a row."""

    last: int  #: place of the last value of the first level
    before: float  #: mean up to there
    after: float  #: mean from there on
    low: int  #: the 95 % interval of `last`
    high: int


def best_step(values: ArrayLike) -> LevelStep:
    """Return the single change of level that leaves the least sum of squares.

    Parameters
    ----------
    values
        In order, shape (n,).

    Raises
    ------
    FitError
        If there are fewer than four values.

    Notes
    -----
    Every place is tried. Interval after Bai (1997, *Review of Economics and Statistics* 79, 551-563), whole places
    outward: ``last ± (11·σ²/δ² + 1)`` with σ² the variance about the levels and δ the step.
    """
    y = np.asarray(values, dtype=float)
    n = len(y)
    if n < 4:
        raise FitError(f"{n} values are too few to place a step", hint="wanted at least 4")
    k = np.arange(1, n)
    first = np.cumsum(y)[:-1]
    before, after = first / k, (y.sum() - first) / (n - k)
    at = int(np.argmax(k * before**2 + (n - k) * after**2))
    last, low, high = at, float(before[at]), float(after[at])
    squares = _squares(y, last)
    reach = int(np.floor(BAI * squares / n / max((high - low) ** 2, 1e-300))) + 1 if high != low else n
    return LevelStep(last, low, high, max(last - reach, 0), min(last + reach, n - 2))


def evident_step(values: ArrayLike) -> LevelStep | None:
    """Return the best step where the values carry it better than one level or a steady drift; else None.

    Schwarz' criterion as for knees: the place of a step is searched for, so it counts as much as a knee.
    """
    y = np.asarray(values, dtype=float)
    n = len(y)
    if n < FEWEST_VALUES:
        return None
    step = best_step(y)
    floor = 1e-12 * float(np.sum(y**2)) + 1e-300
    line = np.polynomial.Polynomial.fit(np.arange(n), y, 1)
    level = criterion(float(np.sum((y - y.mean()) ** 2)) + floor, n, 1)
    drift = criterion(float(np.sum((y - line(np.arange(n))) ** 2)) + floor, n, 2)
    return step if criterion(_squares(y, step.last) + floor, n, 1 + KNEE_WORTH) < min(level, drift) else None


def _squares(y: FloatArray, last: int) -> float:
    parts = (y[: last + 1], y[last + 1 :])
    return float(sum(np.sum((part - part.mean()) ** 2) for part in parts))
