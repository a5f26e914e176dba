"""What a search over all clicks of an axle is after, and what it finds; `large.search` and `large.best` do it."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

import numpy as np

from dynoan.analysis.launch.objectives import OBJECTIVES
from dynoan.model.arrays import BoolArray, FloatArray, IntArray


@dataclass(frozen=True)
class ClickSearch:
    """Every setting of the axle with its figures; row i of `clicks` belongs to element i of each figure."""

    objective: str
    adjusters: tuple[str, ...]
    clicks: IntArray  #: from closed, shape (m, adjusters)
    figures: Mapping[str, FloatArray]  #: each of shape (m,)
    best: int
    now: int | None  #: the setting on the car, where it is one of these
    front: IntArray  #: rows on the trade-off line of the objective and its counterpart, best objective first
    fine: BoolArray  #: whether the figures come from the fine time step, shape (m,)
    possible: int = 0  #: how many settings there are, where not all were run

    def setting(self, row: int) -> dict[str, int]:
        """Return the clicks from closed of a row."""
        return {name: int(click) for name, click in zip(self.adjusters, self.clicks[row], strict=True)}

    @property
    def axes(self) -> tuple[str, str]:
        """The figure to make small and the one it is traded against."""
        return OBJECTIVES[self.objective].aim, OBJECTIVES[self.objective].against


def pareto(x: FloatArray, y: FloatArray) -> IntArray:
    """Return the rows that no other beats in both `x` and `y` (small is good), by rising x.

    Parameters
    ----------
    x, y
        Shape (m,).

    Examples
    --------
    >>> pareto(np.array([1.0, 2.0, 3.0]), np.array([5.0, 6.0, 4.0])).tolist()
    [0, 2]
    """
    order = np.lexsort((y, x))
    least = np.minimum.accumulate(np.concatenate([[np.inf], y[order]]))[:-1]
    return np.asarray(order[y[order] < least], dtype=int)


def spread(front: IntArray, most: int) -> Iterable[int]:
    """Return at most `most` rows of a trade-off line, evenly along it, both ends included."""
    if len(front) <= most:
        return [int(row) for row in front]
    return [int(front[i]) for i in np.unique(np.linspace(0, len(front) - 1, most).round().astype(int))]
