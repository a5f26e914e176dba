"""What damping loses a kelvin, as a pack's tests tell or else as shocks do, and how far it may differ."""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple

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
from dynoan.model.curve import Direction


class Thinning(NamedTuple):
    """What damping of one direction loses a kelvin, over speeds."""

    speeds: FloatArray  #: shape (S,) [m/s]
    rate: FloatArray  #: shape (S,) [1/K]
    sd: FloatArray  #: its standard deviation, shape (S,) [1/K]


#: what damping loses a kelvin, by direction, as tests of a pack at unlike temperatures tell it
OilTold = Mapping[Direction, Thinning]


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


def thinning_of_table(table: DirectionMap) -> Thinning | None:
    """Return what damping of a map's direction loses a kelvin, None where its tests do not tell."""
    return None if table.thinning is None else Thinning(table.speeds, *table.thinning)


def thinning_at(told: Thinning | None, speeds: FloatArray) -> tuple[FloatArray, FloatArray]:
    """Return what damping loses a kelvin at speeds and its standard deviation, as told, else as shocks do. [1/K]"""
    if told is None:
        return thinning(speeds), thinning_sd(speeds)
    return np.interp(speeds, told.speeds, told.rate), np.interp(speeds, told.speeds, told.sd)
