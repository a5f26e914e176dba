"""A curve in oil warmer or cooler than it was measured in."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from dynoan.analysis.clickmap.assumptions.data import (
    REFERENCE_C,
    SLOW_THINNING_SD,
    SLOW_THINNING_SPAN,
    THINNING,
    THINNING_SD,
)
from dynoan.analysis.clickmap.assumptions.identify import UNSAID_WARMTH
from dynoan.analysis.statistics import Z95
from dynoan.model.arrays import FloatArray
from dynoan.model.curve import DIRECTIONS, Curve
from dynoan.model.side import Side


def thinning_sd(speeds: FloatArray) -> FloatArray:
    """Return how far the damping lost a kelvin lies from `THINNING` at speeds, standard deviation. [1/K]"""
    return np.hypot(THINNING_SD, slow_thinning_sd(speeds))


def slow_thinning_sd(speeds: FloatArray) -> FloatArray:
    """Return what of `thinning_sd` is each shock's own at low speed, where leaks rule. [1/K]"""
    return np.asarray(SLOW_THINNING_SD * np.exp(-np.asarray(speeds) / SLOW_THINNING_SPAN))


def in_oil(curve: Curve, celsius: float) -> Curve:
    """Return a curve as it is in oil so warm [°C]: damping less by `THINNING` a kelvin, the band wider by its doubt.

    Where the curve's own temperature is not known, it is taken to be of `REFERENCE_C`, with the doubt that leaves.
    Friction and gas stay.
    """
    known = curve.temperature is not None
    away = celsius - (curve.temperature if curve.temperature is not None else REFERENCE_C)
    factor = float(np.exp(-THINNING * away))
    untold = 0.0 if known else UNSAID_WARMTH
    sides = {name: _side(side, factor, np.hypot(thinning_sd(side.speeds) * away, untold))
             for name in DIRECTIONS for side in (curve.side(name),)}  # fmt: skip
    return replace(curve, compression=sides["compression"], rebound=sides["rebound"], temperature=celsius)


def _side(side: Side, factor: float, doubt: FloatArray) -> Side:
    """Return a direction with its forces times a factor, known to `doubt`, standard deviations on its grid [1]."""
    force = side.force(side.speeds)
    share = Z95 * doubt * factor * force
    down, up = np.hypot(factor * (force - side.low), share), np.hypot(factor * (side.high - force), share)
    total = side.total
    if total is not None:
        middle = total[0] + (factor - 1.0) * force
        total = (middle, middle - np.hypot(total[0] - total[1], share), middle + np.hypot(total[2] - total[0], share))
    segments = tuple(
        replace(s, start_force=factor * s.start_force, slope_in=factor * s.slope_in, bend=factor * s.bend)
        for s in side.segments
    )
    return replace(
        side,
        segments=segments,
        knees=tuple(replace(knee, force=factor * knee.force) for knee in side.knees),
        low=np.maximum(factor * force - down, 0.0),
        high=factor * force + up,
        forces=None if side.forces is None else factor * side.forces,
        total=total,
    )
