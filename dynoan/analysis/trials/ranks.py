"""Whether one setting's results rank above the other's: exact, whatever the scatter's law."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from dynoan.model.arrays import FloatArray


@dataclass(frozen=True)
class RankTest:
    """Wilcoxon's rank sum of a against b."""

    pairs: float  #: pairs in which b is the larger, ties half
    p: float  #: two-sided
    p_larger: float  #: one-sided: that b is larger
    least: float  #: the smallest two-sided p that so many runs can reach


def rank_test(a: FloatArray, b: FloatArray) -> RankTest:
    """Return the exact rank sum test of two samples, ties by mean ranks.

    Wilcoxon, Biometrics Bulletin 1 (1945) 80, in the form of M. Hollander and D. A. Wolfe, *Nonparametric Statistical
    Methods*, 1973. Counted over all ways to share the ranks out, so it holds for few runs too.

    Parameters
    ----------
    a, b
        Shapes (m,) and (n,).
    """
    both = np.concatenate([a, b])
    _, inverse, counts = np.unique(both, return_inverse=True, return_counts=True)
    last = np.cumsum(counts)
    doubled = (2 * last - counts + 1)[inverse]  # twice the mean rank, a whole number
    ways = _ways([int(r) for r in doubled], len(b))
    total, mine = sum(ways.values()), int(doubled[len(a) :].sum())
    above = sum(n for s, n in ways.items() if s >= mine) / total
    below = sum(n for s, n in ways.items() if s <= mine) / total
    least = 2.0 / math.comb(len(both), len(b))
    return RankTest(mine / 2 - len(b) * (len(b) + 1) / 2, min(1.0, 2 * min(above, below)), above, min(1.0, least))


def _ways(ranks: list[int], chosen: int) -> dict[int, int]:
    """Return in how many ways so many of the ranks add up to each sum."""
    by_size: list[dict[int, int]] = [{0: 1}, *({} for _ in range(chosen))]
    for rank in ranks:
        for size in range(chosen, 0, -1):
            for total, ways in by_size[size - 1].items():
                by_size[size][total + rank] = by_size[size].get(total + rank, 0) + ways
    return by_size[chosen]
