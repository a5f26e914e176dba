"""A test that the others do not lead one to expect: wrong clicks, the wrong pack, or a fault.

Where one test is wrong, a map that believes it must take its adjusters for odd; without it they are regular.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from dynoan.analysis.clickmap.assumptions.odd_tests import FEW_OF_STATE, FEWEST_TO_JUDGE, LESS_ODD, SUSPECTS, SUSPICIOUS
from dynoan.analysis.clickmap.tested.data import DirectionData, Tested, axes_of, gather
from dynoan.analysis.clickmap.trends.discrepancy import leave_one_out, pieces
from dynoan.analysis.clickmap.trends.sizes import fitted_sizes
from dynoan.analysis.clickmap.trends.spread import MapSpread
from dynoan.analysis.clickmap.trends.trend import FittedDirection
from dynoan.analysis.clickmap.valve.fit import fit_parameters
from dynoan.analysis.clickmap.valve.prior import first_spread, roles_of
from dynoan.model.arrays import FloatArray
from dynoan.model.curve import DIRECTIONS
from dynoan.model.shock import Adjuster


def outliers(adjusters: Sequence[Adjuster], tested: Sequence[Tested]) -> frozenset[int]:
    """Return the tests, by number, without which the others obey the valve far better: one at most."""
    if len(tested) < FEWEST_TO_JUDGE:
        return frozenset()
    judged: dict[int, float] = {}
    for direction in DIRECTIONS:
        data = gather(direction, axes_of(direction, adjusters), tested)
        if data.tests < len(tested):
            continue
        size, away = _misfit(data)
        if size < SUSPICIOUS:
            continue
        # A test that leaves an adjuster open may well lie off.
        stated = [all(axis.name in t.from_closed for axis in data.axes) for t in tested]
        stated = [held and not _outermost(data, i) and not _changed(data, i) for i, held in enumerate(stated)]
        for number in (int(i) for i in np.argsort(-away)[:SUSPECTS] if stated[i]):
            share = _misfit(data.without(number))[0] / size
            judged[number] = min(judged.get(number, 1.0), share)
    best = min(judged, key=lambda i: judged[i], default=None)
    return frozenset() if best is None or judged[best] > LESS_ODD else frozenset({best})


def _outermost(data: DirectionData, test: int) -> bool:
    """Return whether a test alone holds the end of an adjuster's tested clicks: an odd adjuster would show there too,
    and nobody else could tell."""
    clicks = data.clicks
    ends = (clicks == clicks.min(axis=0)) | (clicks == clicks.max(axis=0))
    alone = (clicks == clicks[test]).sum(axis=0) == 1
    return bool(np.any(ends[test] & alone & np.asarray(data.moved)))


def _changed(data: DirectionData, test: int) -> bool:
    """Return whether a test may lie off because its shock has changed: one of the few of another state of it."""
    mine = data.states[data.state[test]]
    others = any(state.shock == mine.shock and state != mine for state in data.states)
    return others and int(np.sum(data.state == data.state[test])) <= FEW_OF_STATE


def _misfit(data: DirectionData) -> tuple[float, FloatArray]:
    """Return how much a regular valve leaves over, a share of force, and how far off each test lies left out. [1]"""
    spread: MapSpread = first_spread(data)
    trend = fit_parameters(data, roles_of(data), spread)
    bare = FittedDirection(data, trend, spread, np.zeros(data.logs.size))
    fitted = fitted_sizes(bare)
    total = pieces(data, fitted.spread, fitted.jacobian, fitted.slopes, fitted.worn).total(fitted.spread)
    error, sd = leave_one_out(total, fitted.residual, data.tests)
    rest = np.abs(data.logs - trend.logs(data.clicks, data.speeds))
    return float(np.sqrt(np.mean(rest**2))), np.sqrt(np.mean((error / sd) ** 2, axis=1))
