"""Two tests held against each other: what their repeats, their files and the warmth of their oil allow to compare."""

from __future__ import annotations

from collections.abc import Sequence

from dynoan.analysis.clickmap.every_click.oil_temperature import in_oil
from dynoan.analysis.clickmap.tested.loss_per_kelvin import OilTold
from dynoan.analysis.conditioning.condition import condition
from dynoan.analysis.matching.assumptions import MATCH_SPEEDS
from dynoan.analysis.matching.match import Basis, Match, scatter, sums_known
from dynoan.analysis.matching.match import match as match_curves
from dynoan.analysis.matching.points import Points, point_curves, same_speeds, sides_of, table_and_curve
from dynoan.model.curve import Curve, Direction
from dynoan.workbench.alone import fitted_alone
from dynoan.workbench.resolving import Resolved


def matched(
    a: Resolved, b: Resolved, tolerance: float, speeds: Sequence[float] = MATCH_SPEEDS, oil: OilTold | None = None
) -> Match:
    """Return the differences of two and whether they are a pair, repeat sweeps telling how well a run repeats.

    Both in oil as warm as the first's, where both tell how warm it was.

    Parameters
    ----------
    a, b
        What is held against what; the difference is the first minus the second.
    tolerance
        What a pair may differ by. [%]
    speeds
        Where they are held against each other, as far as both go. [m/s]
    oil
        What damping loses in warmer oil as their pack's tests tell; else as shocks do.

    Raises
    ------
    CallError
        If the two share no speeds.
    QuantityError
        If the tolerance is not above 0 and below 100 %.
    """
    repeats = [[fitted_alone(sweep) for sweep in one.sweeps] for one in (a, b) if len(one.sweeps) > 1]
    runs = (max(len(a.sweeps), 1), max(len(b.sweeps), 1))
    basis = Basis(runs, scatter(repeats), _friction_sd(a, b), speeds)
    first, second = _pointwise(a, b)
    return match_curves(first, as_warm(second, first, oil), tolerance=tolerance, basis=basis)


def as_warm(curve: Curve, other: Curve, oil: OilTold | None = None) -> Curve:
    """Return a curve as it is in oil as warm as another's, with the doubt of that; as it is where either is untold."""
    if curve.temperature is None or other.temperature is None:
        return curve
    return in_oil(curve, other.temperature, oil)


def _pointwise(a: Resolved, b: Resolved) -> tuple[Curve, Curve]:
    """Return curves from point to point where peak tables allow it, else the fitted ones.

    Two tables are held against each other at the speeds they share, one against another kind of record at its own.
    """
    tables = [len(one.sweeps) == 1 and one.sweeps[0].layout == "peaks" for one in (a, b)]
    if all(tables):
        first, second = _points(a), _points(b)
        return point_curves(first, second, (a.curve, b.curve)) if same_speeds([first, second]) else (a.curve, b.curve)
    if not any(tables) or not sums_known(a.curve, b.curve):
        return a.curve, b.curve
    table, other = (a, b) if tables[0] else (b, a)
    found = table_and_curve(_points(table), table.curve, other.curve, condition(table.sweeps[0]).offset_sd)
    if found is None:
        return a.curve, b.curve
    return found if tables[0] else (found[1], found[0])


def _points(table: Resolved) -> dict[Direction, Points]:
    part = condition(table.sweeps[0])
    return sides_of(part.velocity, part.force)


def _friction_sd(a: Resolved, b: Resolved) -> tuple[float, float] | None:
    """Return the standard errors of both frictions, None where a record does not tell it. [N]"""
    if not (a.sweeps and b.sweeps and a.curve.friction == a.curve.friction and b.curve.friction == b.curve.friction):
        return None
    return a.curve.friction_sd, b.curve.friction_sd
