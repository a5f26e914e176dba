"""What an order of runs can tell, before it is driven."""

from __future__ import annotations

import math

import numpy as np

from dynoan.analysis.statistics import t_quantile
from dynoan.analysis.trials.assumptions import FEWEST, LENT, LEVEL, MOST_RUNS, POWER, SCATTERS
from dynoan.analysis.trials.difference import RunDesign, RunOrder, Scatter, design


def power(
    made: RunDesign, difference: float, scatter: Scatter, level: float = LEVEL, *, known_by: float = math.inf
) -> float:
    """Return the share of days on which a difference is found the right way round, by the noncentral t. [1]

    Parameters
    ----------
    made
        Of the order of runs.
    difference
        That there truly is, as the results.
    scatter
        What is known of a run's scatter; its degrees of freedom count beside the runs' own, `LENT` of them at most.
    level
        Share of days without a difference on which one is found. [1]
    known_by
        Degrees of freedom by which the scatter itself is known. Of few runs it may as well be larger, and power falls
        further then than it rises where it is smaller: the mean over what it may be is given.
    """
    from scipy.stats import chi2, nct

    dof = min(scatter.dof, LENT) + made.dof
    if dof < 1 or not math.isfinite(made.variance) or scatter.sd <= 0:
        return 0.0
    centre = abs(difference) / (scatter.sd * math.sqrt(made.variance))
    # The limits allow for a bent day; the power is that of a day that drifts evenly.
    bound = t_quantile(1.0 - level / 2.0, dof) * math.sqrt(1.0 + made.bend / made.variance)
    if math.isfinite(known_by):
        places = (np.arange(SCATTERS) + 0.5) / SCATTERS
        centre = centre * np.sqrt(chi2.ppf(places, known_by) / known_by)
    return float(np.mean(nct.sf(bound, int(dof), centre)))


def following(plan: str, done: int) -> str:
    """Return the setting that a plan wants next, the plan begun anew, and turned about, each time it is through."""
    turned = plan.translate(str.maketrans("ab", "ba"))
    return (plan if done // len(plan) % 2 == 0 or len(plan) % 2 else turned)[done % len(plan)]


def extended(plan: str, settings: str, runs: int) -> str:
    """Return what ran, and so many runs more as the plan wants them."""
    for _ in range(runs):
        settings += following(plan, len(settings))
    return settings


def further_runs(plan: str, settings: str, difference: float, scatter: Scatter | None) -> int | None:
    """Return how many more runs find a difference on four days of five; None where too many.

    Parameters
    ----------
    plan
        How the runs go on, such as "abba".
    settings
        What ran already, such as "abb".
    difference
        That is worth knowing, as the results.
    scatter
        What earlier days tell of a run's; None: enough runs to tell it are asked for.
    """
    for more in range(1, MOST_RUNS + 1):
        made = design(RunOrder.of(extended(plan, settings, more)))
        if not math.isfinite(made.variance):
            continue
        if scatter is None:
            if made.dof >= FEWEST:
                return more
        elif power(made, difference, scatter) >= POWER:
            return more
    return None
