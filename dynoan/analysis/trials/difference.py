"""b minus a by least squares, each day's own level and drift taken out."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from dynoan.analysis.statistics import t_cdf, t_quantile
from dynoan.analysis.trials.assumptions import BEND, LEVEL, ROUNDED_TO, STRAIGHT
from dynoan.errors import QuantityError
from dynoan.model.arrays import BoolArray, FloatArray, IntArray

_SAME = 1e-9  #: below this share, two directions of a design are one


@dataclass(frozen=True)
class Scatter:
    """How much one run scatters."""

    sd: float  #: as the results
    dof: float  #: degrees of freedom it is known by


@dataclass(frozen=True)
class RunOrder:
    """Which setting ran when: item numbers and places, one a run, and the day each was run on."""

    items: IntArray  #: 0 is a, 1 is b; more may be compared, shape (n,)
    places: FloatArray  #: in the day's order, shape (n,)
    days: IntArray  #: shape (n,)

    @classmethod
    def of(cls, settings: str, days: Sequence[int] | None = None, places: Sequence[float] | None = None) -> RunOrder:
        """Return the order of settings written as letters, such as "abba"; one day, and places as they stand."""
        items = np.array([ord(s) - ord("a") for s in settings], dtype=int)
        where = np.arange(len(items), dtype=float) if places is None else np.asarray(places, dtype=float)
        return cls(items, where, np.zeros(len(items), int) if days is None else np.asarray(days, dtype=int))


@dataclass(frozen=True)
class RunDesign:
    """Least squares of an order of runs: what each run weighs in b minus a."""

    matrix: FloatArray  #: a column an item, then level (but of the first day) and drift of each day, shape (n, p)
    weights: FloatArray | None  #: of the runs in b minus a, shape (n,); None where the order cannot tell it
    rank: int
    bows: FloatArray  #: a column a day: 1 in the middle of its runs, 0 at their ends, shape (n, days) [1]

    @property
    def dof(self) -> int:
        """Degrees of freedom that are left for scatter."""
        return len(self.matrix) - self.rank

    @property
    def variance(self) -> float:
        """Variance of b minus a over that of one run; infinite where the order cannot tell it. [1]"""
        return math.inf if self.weights is None else float(self.weights @ self.weights)

    @property
    def bend(self) -> float:
        """Variance that days which bend by `BEND` of a run's scatter add to b minus a, over that of one run. [1]"""
        return 0.0 if self.weights is None else float(np.sum((BEND * (self.weights @ self.bows)) ** 2))


def design(order: RunOrder, degree: int = STRAIGHT) -> RunDesign:
    """Return the design of an order of runs under drift.

    Parameters
    ----------
    order
        Which setting ran when.
    degree
        Of each day's drift, a polynomial over the places; 0: the days have levels only.

    Returns
    -------
    :
        Weights and rank; without weights where drift and difference cannot be told apart.
    """
    items = [(order.items == k).astype(float) for k in range(int(order.items.max(initial=1)) + 1)]
    columns, bows = list(items), []
    for number, day in enumerate(np.unique(order.days)):
        here = order.days == day
        at = np.where(here, order.places - order.places[here][0], 0.0)
        columns += ([here.astype(float)] if number else []) + [at**k for k in range(1, degree + 1)]
        bows.append(np.where(here, _bow(at, here), 0.0))
    matrix = np.column_stack(columns) if len(order.items) else np.zeros((0, 2))
    scale = np.maximum(np.linalg.norm(matrix, axis=0), 1e-300)
    inverse = np.linalg.pinv(matrix / scale, rcond=_SAME)
    wanted = np.zeros(matrix.shape[1])
    wanted[:2] = -1.0, 1.0
    weights = (wanted / scale) @ inverse
    told = bool(np.allclose(weights @ matrix, wanted, atol=1e-7))
    rank = int(np.linalg.matrix_rank(matrix / scale, tol=_SAME))
    return RunDesign(matrix, weights if told else None, rank, np.column_stack(bows) if bows else np.zeros((0, 1)))


def _bow(at: FloatArray, here: BoolArray) -> FloatArray:
    """Return a parabola over a day's places that is 1 in the middle of its runs and 0 at their ends. [1]"""
    low, high = float(at[here].min()), float(at[here].max())
    half = 0.5 * (high - low)
    return 1.0 - ((at - low) / half - 1.0) ** 2 if half > 0 else np.zeros_like(at)


@dataclass(frozen=True)
class DriftFit:
    """Results over an order of runs by least squares."""

    design: RunDesign
    values: FloatArray  #: coefficients of the design's columns
    difference: float | None  #: b minus a; None where the order cannot tell it
    scatter: Scatter | None  #: of one run; None where no degree of freedom is left
    left: FloatArray  #: results less their day's level and drift, the difference left in, shape (n,)

    @property
    def error(self) -> float | None:
        """Standard error of the difference by the runs' own scatter; None where there is none. [as the results]"""
        if self.scatter is None or self.difference is None:
            return None
        return self.scatter.sd * math.sqrt(self.design.variance)


def drift_fit(order: RunOrder, results: Sequence[float] | FloatArray, degree: int = STRAIGHT) -> DriftFit:
    """Return results over an order of runs by least squares, a polynomial drift of each day taken out.

    Parameters
    ----------
    order
        Which setting ran when, n runs.
    results
        Shape (n,).
    degree
        Of the drift.

    Raises
    ------
    QuantityError
        If there are not as many results as runs, or one is not finite.
    """
    y = np.asarray(results, dtype=float)
    if len(y) != len(order.items) or not np.all(np.isfinite(y)):
        raise QuantityError(f"{len(y)} results for {len(order.items)} runs: one finite number a run is wanted")
    made = design(order, degree)
    values = np.linalg.lstsq(made.matrix, y, rcond=_SAME)[0] if len(y) else np.zeros(2)
    rest = y - made.matrix @ values
    items = int(order.items.max(initial=1)) + 1
    spread = max(math.sqrt(float(rest @ rest) / made.dof), rounding(y)) if made.dof > 0 else None
    return DriftFit(
        made, values, None if made.weights is None else float(made.weights @ y),
        None if spread is None else Scatter(spread, made.dof), y - made.matrix[:, items:] @ values[items:],
    )  # fmt: skip


def rounding(results: FloatArray) -> float:
    """Return the standard deviation that results have for being rounded; 0 where they are not. [as the results]

    A few rounded results may lie on a straight line by chance, which says nothing of how runs scatter.
    """
    for digits in range(-3, ROUNDED_TO + 1):
        step = 10.0**-digits
        if np.all(np.abs(results / step - np.round(results / step)) < 1e-6):
            return step / math.sqrt(12.0)
    return 0.0


def pooled(own: Scatter | None, lent: Scatter | None, most: float) -> Scatter | None:
    """Return a day's scatter with what earlier days lend it, weighed by degrees of freedom, `most` of theirs at most.

    None where neither tells any.
    """
    if own is None or lent is None:
        return own if lent is None else Scatter(lent.sd, min(lent.dof, most))
    borrowed = min(lent.dof, most)
    dof = own.dof + borrowed
    return Scatter(math.sqrt((own.sd**2 * own.dof + lent.sd**2 * borrowed) / dof), dof)


@dataclass(frozen=True)
class DifferenceLimits:
    """A difference with its limits and how surprising it would be without any."""

    difference: float
    low: float
    high: float
    t: float
    p: float  #: two-sided


def limits(
    difference: float, variance: float, scatter: Scatter, level: float = LEVEL, *, bend: float = 0.0
) -> DifferenceLimits:
    """Return a difference's limits by Student's t.

    Parameters
    ----------
    difference
        b minus a, as the results.
    variance
        Of it over that of one run. [1]
    scatter
        Of one run.
    level
        Share of days on which the truth may lie outside. [1]
    bend
        What a bent day may add to the variance, over that of one run. [1]
    """
    error = scatter.sd * math.sqrt(variance + bend)
    half = t_quantile(1.0 - level / 2.0, scatter.dof) * error
    t = difference / error if error > 0 else math.copysign(math.inf, difference) if difference else 0.0
    p = 2.0 * (1.0 - t_cdf(min(abs(t), 1e8), max(1, int(scatter.dof))))
    return DifferenceLimits(difference, difference - half, difference + half, t, p)
