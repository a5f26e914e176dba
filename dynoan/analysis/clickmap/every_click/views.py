"""Which view of a pack is taken, and how wide its bands are: both as left-out tests tell.

Two views are fitted, a hydraulic one and an interpolated one; the one that predicts left-out tests better is kept.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from dynoan.analysis.clickmap.assumptions.data import LEAST_FORCE, LEAST_SHARE
from dynoan.analysis.clickmap.assumptions.screws import CROSSING_BELIEVED
from dynoan.analysis.clickmap.assumptions.views import CLEARLY_WORSE, JUDGED_FROM, LEFT_OUT_PRIOR, MOST_SQUARES
from dynoan.analysis.clickmap.tested.data import DirectionData, Tested, axes_of, crossing_axis, gather
from dynoan.analysis.clickmap.trends.discrepancy import leave_one_out
from dynoan.analysis.clickmap.trends.interpolated import fit_interpolated, left_out_errors
from dynoan.analysis.clickmap.trends.trend import FittedDirection
from dynoan.analysis.clickmap.valve.crossing import crossing_suspected
from dynoan.analysis.clickmap.valve.hydraulic import fit_hydraulic
from dynoan.model.arrays import FloatArray
from dynoan.model.clickmap import View
from dynoan.model.curve import DIRECTIONS, Direction
from dynoan.model.shock import Adjuster


def better_view(
    adjusters: tuple[Adjuster, ...], tested: Sequence[Tested], view: View | None
) -> tuple[dict[Direction, FittedDirection], dict[Direction, FloatArray], View]:
    """Return the fits, the left-out errors and the view, of each direction: the valve, unless it clearly errs more.

    Errors are of the logarithm of force. [1] The view is called interpolated where both directions are.
    """
    fits, left, bare = {}, {}, []
    for direction in DIRECTIONS:
        valve = _with_crossing(direction, adjusters, tested)
        fits[direction] = valve
        left[direction] = leave_one_out(valve.total, valve.residual, valve.data.tests)[0]
        plain = left_out_errors(valve.data)
        size = [float(np.mean(felt_errors(valve.data, error))) for error in (left[direction], plain)]
        if view == "interpolated" or (view is None and size[0] > CLEARLY_WORSE * size[1]):
            interpolated = fit_interpolated(valve.data, valve.spread)
            fits[direction] = replace(interpolated, openings=valve.openings, crossing=valve.crossing)
            left[direction] = plain
            bare.append(direction)
    scaled = {direction: _scaled_by_left_out(fitted) for direction, fitted in fits.items()}
    return scaled, left, "interpolated" if len(bare) == len(DIRECTIONS) else "hydraulic"


def _with_crossing(direction: Direction, adjusters: tuple[Adjuster, ...], tested: Sequence[Tested]) -> FittedDirection:
    """Fit one direction, with the other direction's adjuster where the tests speak for it."""
    axes = axes_of(direction, adjusters)
    other = crossing_axis(direction, adjusters)
    if other is not None and len(axes) < 3:
        data = gather(direction, (*axes, other), tested)
        begun = crossing_suspected(data, other.name) if data.moved[-1] else None
        if begun is not None:
            crossed = fit_hydraulic(data, other.name, begun)
            if crossed.crossing > CROSSING_BELIEVED:
                return crossed
    return fit_hydraulic(gather(direction, axes, tested))


def _scaled_by_left_out(fitted: FittedDirection) -> FittedDirection:
    """Return a fit whose standard deviations are as much wider as left-out tests lie further off than they say."""
    error, sd = leave_one_out(fitted.total, fitted.residual, fitted.data.tests)
    squares = np.mean((error / np.maximum(sd, LEAST_SHARE)) ** 2, axis=1)
    # One test that is wrong shall not widen the whole map: see `outliers`.
    counted = np.minimum(squares, MOST_SQUARES)
    scale = np.sqrt((LEFT_OUT_PRIOR + float(np.sum(counted))) / (LEFT_OUT_PRIOR + len(counted)))
    return replace(fitted, scale=max(float(scale), 1.0))


def felt_errors(data: DirectionData, logs: FloatArray) -> FloatArray:
    """Return errors of ln(force) as shares of a force that somebody feels, at speeds that matter, (T, S'). [1]"""
    seen = np.exp(data.logs)
    newtons = np.abs(seen - np.exp(data.logs - logs))
    return np.asarray((newtons / np.maximum(seen, LEAST_FORCE))[:, data.speeds >= JUDGED_FROM * 0.999])
