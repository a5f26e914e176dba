"""What damping loses a kelvin, as a pack's tests tell or else as shocks do, and how far it may differ."""

from __future__ import annotations

import numpy as np

from dynoan.analysis.clickmap.assumptions.data import (
    SLOW_THINNING,
    SLOW_THINNING_SD,
    SLOW_THINNING_SPAN,
    THINNED_ALIKE,
    THINNING,
    THINNING_SD,
)
from dynoan.model.arrays import FloatArray
from dynoan.model.clickmap import DirectionMap


def thinning(speeds: FloatArray) -> FloatArray:
    """Return what damping loses a kelvin at speeds, of a valve nobody tested warm and cool. [1/K]"""
    return np.asarray(THINNING + SLOW_THINNING * np.exp(-np.asarray(speeds) / SLOW_THINNING_SPAN))


def thinning_sd(speeds: FloatArray) -> FloatArray:
    """Return how far the damping lost a kelvin lies from `thinning` at speeds, standard deviation. [1/K]"""
    return np.hypot(THINNING_SD, slow_thinning_sd(speeds))


def slow_thinning_sd(speeds: FloatArray) -> FloatArray:
    """Return what of `thinning_sd` is each shock's own at low speed, where leaks rule. [1/K]"""
    return np.asarray(SLOW_THINNING_SD * np.exp(-np.asarray(speeds) / SLOW_THINNING_SPAN))


def thinning_parts(speeds: FloatArray) -> FloatArray:
    """Return what of `thinning_sd` tests of a pack have alike, over all speeds and toward rest, (2, S). [1/K]"""
    both = np.stack([np.full(np.shape(speeds), THINNING_SD), slow_thinning_sd(speeds)])
    return np.asarray(np.sqrt(THINNED_ALIKE) * both)


def told_thinning(table: DirectionMap, speeds: FloatArray) -> tuple[FloatArray, FloatArray]:
    """Return what damping of a map loses a kelvin at speeds and its standard deviation, as its tests tell. [1/K]"""
    if table.thinning is None:
        return thinning(speeds), thinning_sd(speeds)
    rate, sd = (np.interp(speeds, table.speeds, row) for row in table.thinning)
    return rate, sd
