"""Whether two shocks or settings are a pair within a tolerance, and what to turn so that they are."""

from __future__ import annotations

from dynoan.analysis.conditioning.condition import condition
from dynoan.analysis.matching.match import Basis, Match, scatter
from dynoan.analysis.matching.match import match as match_curves
from dynoan.analysis.matching.points import point_curves, same_speeds, sides_of
from dynoan.model.curve import Curve
from dynoan.workbench.alone import fitted_alone
from dynoan.workbench.resolving import Resolved


def matched(a: Resolved, b: Resolved, tolerance: float) -> Match:
    """Hold two against each other, their repeatability from repeat sweeps where there are some.

    Parameters
    ----------
    a, b
        What is held against what; the difference is the first minus the second.
    tolerance
        What a pair may differ by. [%]

    Raises
    ------
    CallError
        If the two share no speeds.
    QuantityError
        If the tolerance is not above 0 and below 100 %.
    """
    repeats = [[fitted_alone(sweep) for sweep in one.sweeps] for one in (a, b) if len(one.sweeps) > 1]
    runs = (max(len(a.sweeps), 1), max(len(b.sweeps), 1))
    basis = Basis(runs, scatter(repeats), _friction_sd(a, b))
    first, second = _pointwise(a, b)
    return match_curves(first, second, tolerance=tolerance, basis=basis)


def _pointwise(a: Resolved, b: Resolved) -> tuple[Curve, Curve]:
    """Return curves from point to point where both are peak tables at the same speeds, else the fitted ones."""
    if any(len(one.sweeps) != 1 or one.sweeps[0].layout != "peaks" for one in (a, b)):
        return a.curve, b.curve
    parts = [condition(one.sweeps[0]) for one in (a, b)]
    tables = [sides_of(part.velocity, part.force) for part in parts]
    return point_curves(tables[0], tables[1], (a.curve, b.curve)) if same_speeds(tables) else (a.curve, b.curve)


def _friction_sd(a: Resolved, b: Resolved) -> tuple[float, float] | None:
    """Return the standard errors of both frictions, None where a record does not tell it. [N]"""
    if not (a.sweeps and b.sweeps and a.curve.friction == a.curve.friction and b.curve.friction == b.curve.friction):
        return None
    return a.curve.friction_sd, b.curve.friction_sd
