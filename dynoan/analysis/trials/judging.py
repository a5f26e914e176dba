"""The verdict on a trial's runs."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

import numpy as np

from dynoan.analysis.trials.assumptions import BENT, LEFT_FOR_BEND, LENT, LEVEL, STRAIGHT
from dynoan.analysis.trials.difference import DifferenceLimits, DriftFit, RunOrder, Scatter, drift_fit, limits, pooled
from dynoan.analysis.trials.ranks import RankTest, rank_test

TrialVerdict = Literal["b better", "a better", "cannot tell"]


@dataclass(frozen=True)
class Judged:
    """What a trial's runs tell."""

    verdict: TrialVerdict
    fit: DriftFit
    found: DifferenceLimits | None  #: None where there is no difference yet, or no scatter to hold it against
    scatter: Scatter | None  #: of one run, with what earlier days lend
    ranks: RankTest | None
    bent: DifferenceLimits | None  #: with a drift that bends taken out, where the drift plainly bends
    bend_alike: bool = False  #: whether a drift that bends would look like the difference in this order of runs

    @property
    def p(self) -> float | None:
        """The larger p of the drifts that were tried; None where there is no difference yet. [1]"""
        return None if self.found is None else max(self.found.p, 0.0 if self.bent is None else self.bent.p)


def judge(order: RunOrder, results: Sequence[float], *, less: bool, lent: Scatter | None = None) -> Judged:
    """Return whether b is better than a, with the day's drift taken out.

    Parameters
    ----------
    order
        Which setting ran when.
    results
        One a run.
    less
        Whether less is better.
    lent
        A run's scatter as earlier days of the same measure tell it.

    Raises
    ------
    QuantityError
        If a result is not finite.
    """
    fit = drift_fit(order, results, STRAIGHT)
    scatter = pooled(fit.scatter, lent, LENT)
    if fit.difference is None or scatter is None:
        return Judged("cannot tell", fit, None, scatter, None, None)
    found = limits(fit.difference, fit.design.variance, scatter, bend=fit.design.bend)
    bent = _bent(order, results, lent)
    sides = [s for s in (found, bent) if s is not None]
    agreed = all(s.p <= LEVEL and s.difference * found.difference > 0 for s in sides)
    ranks = rank_test(fit.left[order.items == 0], fit.left[order.items == 1])
    alike = drift_fit(order, results, BENT).difference is None
    verdict = _verdict(found.difference, less) if agreed else "cannot tell"
    return Judged(verdict, fit, found, scatter, ranks, bent, alike)


def _verdict(difference: float, less: bool) -> TrialVerdict:
    return "b better" if (difference < 0) == less else "a better"


def _bent(order: RunOrder, results: Sequence[float], lent: Scatter | None) -> DifferenceLimits | None:
    """Return the difference with a bent drift taken out, where the runs show the drift to bend."""
    fit = drift_fit(order, results, BENT)
    if fit.design.dof < LEFT_FOR_BEND or fit.difference is None or fit.scatter is None:
        return None
    straight = drift_fit(order, results, STRAIGHT)
    lost = float(np.sum((results - straight.design.matrix @ straight.values) ** 2)) - fit.scatter.sd**2 * fit.design.dof
    steps = straight.design.dof - fit.design.dof
    if steps < 1 or lost / steps <= _bound(fit.design.dof) * fit.scatter.sd**2:
        return None
    scatter = pooled(fit.scatter, lent, LENT)
    return limits(fit.difference, fit.design.variance, scatter or fit.scatter)


def _bound(dof: int) -> float:
    from dynoan.analysis.statistics import t_quantile

    return t_quantile(1.0 - LEVEL / 2.0, dof) ** 2
