"""Whether tests lie off from one another as those of two rigs do: by a factor, in both directions alike."""

from __future__ import annotations

from collections.abc import Mapping

import numpy as np

from dynoan.analysis.clickmap.assumptions.odd_tests import FEWEST_TO_JUDGE, RIGS_ALIKE, RIGS_APART, RIGS_DOUBT
from dynoan.analysis.clickmap.assumptions.spread import EVEN_SHARE
from dynoan.analysis.clickmap.trends.trend import FittedDirection
from dynoan.model.arrays import FloatArray
from dynoan.model.curve import DIRECTIONS, Direction


def rigs_apart(fits: Mapping[Direction, FittedDirection]) -> float:
    """Return by how much the mean of two rigs' scales may be off, a share of force; 0 where no second one shows. [1]

    Of what lies between two rigs the map takes most up, so that what is seen is the least it may be. A scale that
    every test shares does not show.
    """
    both = [_of_runs(fits[direction]) for direction in DIRECTIONS]
    if len(both[0]) != len(both[1]) or len(both[0]) < FEWEST_TO_JUDGE:
        return 0.0
    alike, own = float(np.mean(both[0] * both[1])), [float(np.mean(one**2)) for one in both]
    if alike < RIGS_APART**2 or alike < RIGS_ALIKE * np.sqrt(own[0] * own[1]):
        return 0.0
    return max(float(np.sqrt(alike)), RIGS_DOUBT)


def words(share: float) -> str:
    """Return what is said where tests lie off as those of two rigs do."""
    return ("tests lie off from one another in both directions alike, more than runs on one rig do: two rigs, or a "
            f"load cell set anew? Run one setting on both; the bands allow for {100 * share:.1f} %")  # fmt: skip


def _of_runs(fitted: FittedDirection) -> FloatArray:
    """Return what each test has of its own over all speeds alike, as ln(force), (T,). [1]"""
    runs = fitted.data.runs if len(fitted.data.runs) else np.ones(fitted.data.tests)
    return np.asarray(EVEN_SHARE * fitted.spread.repeat**2 / runs * fitted.pull.sum(axis=1))
