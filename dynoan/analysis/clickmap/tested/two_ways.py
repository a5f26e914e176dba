"""Tests of one pack whose clicks were counted from the other end than those of the rest.

Two files of one shock may count from different ends. Straight lines over clicks tell: about the middle of its turn a
test counted the other way is mirrored, and of all ways to mirror some the right one leaves far less over.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from dynoan.analysis.clickmap.assumptions import odd_tests as a
from dynoan.analysis.clickmap.tested.data import Tested, axes_of
from dynoan.model.arrays import BoolArray, FloatArray
from dynoan.model.curve import DIRECTIONS
from dynoan.model.shock import Adjuster


@dataclass(frozen=True)
class _Line:
    """One direction of all tests."""

    clicks: FloatArray  #: about the middle of the turn, shares of it, (T, A)
    logs: FloatArray  #: ln(force), (T, S)

    def fitted(self, ways: FloatArray) -> tuple[float, float]:
        """Return the squares that straight lines leave, and the mean rise of force as adjusters open. [1]"""
        design = np.column_stack([np.ones(len(ways)), ways[:, None] * self.clicks])
        slopes, *_ = np.linalg.lstsq(design, self.logs, rcond=None)
        return float(np.sum((self.logs - design @ slopes) ** 2)), float(slopes[1:].mean())


def counted_alike(adjusters: Sequence[Adjuster], tested: Sequence[Tested]) -> tuple[tuple[Tested, ...], frozenset[int]]:
    """Return the tests with their clicks all counted from one end, and which of them, by number, were mirrored."""
    apart = counted_apart(adjusters, tested)
    return tuple(mirrored(adjusters, t) if i in apart else t for i, t in enumerate(tested)), apart


def counted_apart(adjusters: Sequence[Adjuster], tested: Sequence[Tested]) -> frozenset[int]:
    """Return the tests, by number, that fit the others only with all their clicks counted from the other end.

    None where they all count alike, or too few tests tell. Which end is closed follows from force, which rises as
    adjusters are closed.
    """
    lines = _lines(adjusters, tested) if len(tested) >= a.FEWEST_TO_JUDGE else []
    before = _left(lines, np.ones(len(tested)))
    if before <= len(tested) * sum(line.logs.shape[1] for line in lines) * a.MIRRORED_FROM**2:
        return frozenset()
    best = min((_followed(lines, start) for start in _starts(len(tested))), key=lambda ways: _left(lines, ways))
    if _left(lines, best) > a.MIRRORED_LEAVES**2 * before:
        return frozenset()
    if sum(line.fitted(best)[1] for line in lines) > 0.0:
        best = -best
    turned = np.flatnonzero(best < 0.0)
    few = min(len(turned), len(tested) - len(turned))
    return frozenset(int(i) for i in turned) if few >= a.MIRRORED_LEAST else frozenset()


def mirrored(adjusters: Sequence[Adjuster], test: Tested) -> Tested:
    """Return a test with its clicks counted from the other end."""
    most = {one.name: one.clicks for one in adjusters}
    return replace(test, from_closed={name: most.get(name, 2 * n) - n for name, n in test.from_closed.items()})


def _lines(adjusters: Sequence[Adjuster], tested: Sequence[Tested]) -> list[_Line]:
    out = []
    for direction in DIRECTIONS:
        axes = [one for one in axes_of(direction, adjusters) if one.clicks > 0]
        sides = [t.curve.side(direction) for t in tested]
        top = min(side.top_speed for side in sides)
        stated = [[t.from_closed.get(one.name, one.clicks / 2) / one.clicks - 0.5 for one in axes] for t in tested]
        clicks = np.array(stated, dtype=float).reshape(len(tested), len(axes))
        moved: BoolArray = np.ptp(clicks, axis=0) > 0.0
        if top > 0.0 and moved.any():
            speeds = top * np.array(a.MIRRORED_SPEEDS)
            out.append(_Line(clicks[:, moved], np.log([np.maximum(side.force(speeds), 1.0) for side in sides])))
    return out


def _left(lines: Sequence[_Line], ways: FloatArray) -> float:
    return sum(line.fitted(ways)[0] for line in lines)


def _starts(tests: int) -> list[FloatArray]:
    """Return ways to count that change once in the order of the tests, as two files do."""
    return [np.where(np.arange(tests) < cut, 1.0, -1.0) for cut in range(1, tests + 1)]


def _followed(lines: Sequence[_Line], ways: FloatArray) -> FloatArray:
    """Return where turning one test after the other leads, as long as less is left over."""
    left = _left(lines, ways)
    while True:
        trials = [np.where(np.arange(len(ways)) == i, -ways, ways) for i in range(len(ways))]
        sizes = [_left(lines, trial) for trial in trials]
        best = int(np.argmin(sizes))
        if sizes[best] >= left:
            return ways
        ways, left = trials[best], sizes[best]
