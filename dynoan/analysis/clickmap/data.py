"""The tested curves of one pack as one table a direction: what a click map is fitted to."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import ClassVar

import numpy as np

from dynoan.analysis.clickmap.assumptions import (
    FIT_SPEEDS,
    LEAST_SHARE,
    LOWEST_SPEED,
    SHARED_ERROR,
    UNBANDED_SHARE,
    UNMEASURED_SHARE,
    UNSTATED_SHARE,
)
from dynoan.errors import FitError
from dynoan.model.arrays import FloatArray, IntArray
from dynoan.model.curve import Curve, Direction, Side
from dynoan.model.shock import ACTS_ON, Adjuster


@dataclass(frozen=True)
class Tested:
    """One tested setting of a pack: the shock, the clicks from closed, and the curve."""

    shock: str
    from_closed: Mapping[str, int]
    curve: Curve

    __test__: ClassVar[bool] = False  # the name is the trade's; test collectors shall pass it by


@dataclass(frozen=True)
class DirectionData:
    """One direction of all tested settings: logarithms of force over clicks and speeds. T tests, A axes, S speeds."""

    direction: Direction
    axes: tuple[Adjuster, ...]  #: the adjusters whose clicks matter here
    clicks: FloatArray  #: from closed, shape (T, A)
    speeds: FloatArray  #: shape (S,) [m/s]
    logs: FloatArray  #: ln(force / 1 N), shape (T, S)
    variance: FloatArray  #: of `logs`, from the curves' bands, shape (T, S)
    shock: IntArray  #: which shock each test is of, shape (T,)
    top_speed: float  #: highest speed the tests hold [m/s]
    #: the part of the errors that all tests share (friction and zero taken out alike), in `logs`, shape (T, S)
    common: FloatArray = field(default_factory=lambda: np.zeros((0, 0)))
    moved: tuple[bool, ...] = field(default=())  #: whether the tests sit at more than one position of each axis

    @property
    def tests(self) -> int:
        """Number of tested settings."""
        return len(self.logs)

    @property
    def last(self) -> FloatArray:
        """Last click of each axis, at least 1, shape (A,). [clicks]"""
        return np.array([max(axis.clicks, 1) for axis in self.axes], dtype=float)

    def without(self, test: int) -> DirectionData:
        """Return the same without one test."""
        return self.only([i for i in range(self.tests) if i != test])

    def only(self, tests: Sequence[int]) -> DirectionData:
        """Return the same with only some tests."""
        keep = np.asarray(list(tests), dtype=int)
        return replace(self, clicks=self.clicks[keep], logs=self.logs[keep], variance=self.variance[keep],
                       shock=self.shock[keep], common=self.common[keep])  # fmt: skip


def usual_clicks(adjusters: Sequence[Adjuster], tested: Sequence[Mapping[str, int]]) -> dict[str, int]:
    """Return the most tested position of each adjuster, from closed; the lowest of equals, 0 where none."""
    usual: dict[str, int] = {}
    for adjuster in adjusters:
        seen = [int(setting[adjuster.name]) for setting in tested if adjuster.name in setting]
        usual[adjuster.name] = max(sorted(set(seen)), key=seen.count) if seen else 0
    return usual


def axes_of(direction: Direction, adjusters: Sequence[Adjuster]) -> tuple[Adjuster, ...]:
    """Return the adjusters meant to act on a direction, at most three."""
    return tuple(a for a in adjusters if direction in ACTS_ON[a.name])[:3]


def crossing_axis(direction: Direction, adjusters: Sequence[Adjuster]) -> Adjuster | None:
    """Return the adjuster of the other direction whose bleed both directions may share, if there is one."""
    other = ("lsr", "r") if direction == "compression" else ("lsc", "c")
    return next((a for a in adjusters if a.name in other), None)


def gather(direction: Direction, axes: tuple[Adjuster, ...], tested: Sequence[Tested]) -> DirectionData:
    """Return one direction of the tested curves over common speeds.

    Raises
    ------
    FitError
        If no test holds a speed above `LOWEST_SPEED`.
    """
    everybody = tested
    tested = [t for t in tested if t.curve.side(direction).top_speed > 0]
    sides = [t.curve.side(direction) for t in tested]
    top = max((side.top_speed for side in sides), default=0.0)
    if top <= LOWEST_SPEED * 1.5:
        raise FitError(f"no test of this pack holds {direction} speeds above {LOWEST_SPEED * 1.5:.3f} m/s; test faster")
    low = float(np.clip(min(side.low_speed for side in sides), LOWEST_SPEED, top / 3))
    speeds = np.geomspace(low, top, FIT_SPEEDS)
    usual = usual_clicks(axes, [t.from_closed for t in tested])
    rows = [_row(side, speeds) for side in sides]
    variance = np.array([row[1] for row in rows])
    unstated = np.array([[axis.name not in t.from_closed for axis in axes] for t in tested]).reshape(len(tested), -1)
    common = np.array([row[2] for row in rows])
    variance = variance + UNSTATED_SHARE**2 * unstated.sum(axis=1, keepdims=True)
    clicks = np.array([[t.from_closed.get(a.name, usual[a.name]) for a in axes] for t in tested], dtype=float)
    names = sorted({t.shock for t in everybody})
    clicks = clicks.reshape(len(tested), len(axes))
    return DirectionData(
        direction=direction, axes=axes, clicks=clicks, speeds=speeds, logs=np.array([row[0] for row in rows]),
        variance=variance, shock=np.array([names.index(t.shock) for t in tested]), top_speed=float(top),
        moved=tuple(len(set(clicks[:, i])) > 1 for i in range(len(axes))), common=common,
    )  # fmt: skip


def _row(side: Side, speeds: FloatArray) -> tuple[FloatArray, FloatArray, FloatArray]:
    """Return ln(force), its variance, and the part of its error that all tests have in common, each (S,).

    Friction and zero are taken out of every test alike, so what that leaves is the same newtons at every speed of
    every test.
    """
    force = np.maximum(side.force(speeds), 1.0)
    low, high = side.band(speeds)
    share = np.nan_to_num((high - low) / (2 * 1.96) / force, nan=UNBANDED_SHARE, posinf=1.0)
    variance = share**2 + LEAST_SHARE**2 + UNMEASURED_SHARE**2 * (speeds < side.low_speed * 0.95)
    variance = np.minimum(variance, 1.0)
    newtons = float(np.min(share * force))
    return np.log(force), variance, np.minimum(SHARED_ERROR * newtons / force, 0.7)
