"""The tested curves of one pack as one table a direction: what a click map is fitted to."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace

import numpy as np

from dynoan.analysis.clickmap.assumptions import data as a
from dynoan.analysis.clickmap.tested.friction import SeenSide, alike_newtons, friction_of, pooled, seen_side, splits
from dynoan.analysis.clickmap.tested.loss_per_kelvin import thinning, thinning_sd
from dynoan.analysis.clickmap.tested.setting import Tested
from dynoan.analysis.clickmap.tested.states import TestedState, kelvin, states_of
from dynoan.errors import FitError
from dynoan.model.arrays import FloatArray, IntArray
from dynoan.model.curve import Direction
from dynoan.model.shock import ACTS_ON, Adjuster

__all__ = ["DirectionData", "Tested", "axes_of", "crossing_axis", "gather", "usual_clicks"]


@dataclass(frozen=True, eq=False)  # each is itself: what follows from one is remembered
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
    #: a test's own error of friction taken for damping, alike at all its speeds, in `logs`, shape (T, S)
    split: FloatArray = field(default_factory=lambda: np.zeros((0, 0)))
    #: error of the shock's friction where tests cannot split it off, shared by these, in `logs`, shape (T, S)
    rubbed: FloatArray = field(default_factory=lambda: np.zeros((0, 0)))
    state: IntArray = field(default_factory=lambda: np.zeros(0, dtype=int))  #: which of `states`, shape (T,)
    states: tuple[TestedState, ...] = ()  #: of the shocks, in the order of shocks and dates
    warm: FloatArray = field(default_factory=lambda: np.zeros(0))  #: above the reference temperature, shape (T,) [K]
    runs: FloatArray = field(default_factory=lambda: np.zeros(0))  #: how many runs each test rests on, shape (T,)
    #: error that all tests have alike and that no form of a curve tells from damping, the same newtons at all speeds,
    #: standard deviation; NaN where no test tells friction at all [N]
    alike: float = float("nan")

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
        named = ("clicks", "logs", "variance", "shock", "common", "split", "rubbed", "state", "warm", "runs")
        return replace(self, **{name: getattr(self, name)[keep] for name in named})


def usual_clicks(adjusters: Sequence[Adjuster], tested: Sequence[Mapping[str, int]]) -> dict[str, int]:
    """Return the most tested position of each adjuster, from closed; the lowest of equals, 0 where none."""
    usual: dict[str, int] = {}
    for adjuster in adjusters:
        seen = [int(setting[adjuster.name]) for setting in tested if adjuster.name in setting]
        usual[adjuster.name] = max(sorted(set(seen)), key=seen.count) if seen else 0
    return usual


def axes_of(direction: Direction, adjusters: Sequence[Adjuster]) -> tuple[Adjuster, ...]:
    """Return the adjusters meant to act on a direction, at most three."""
    return tuple(one for one in adjusters if direction in ACTS_ON[one.name])[:3]


def crossing_axis(direction: Direction, adjusters: Sequence[Adjuster]) -> Adjuster | None:
    """Return the adjuster of the other direction whose bleed both directions may share, if there is one."""
    other = ("lsr", "r") if direction == "compression" else ("lsc", "c")
    return next((one for one in adjusters if one.name in other), None)


def gather(direction: Direction, axes: tuple[Adjuster, ...], tested: Sequence[Tested]) -> DirectionData:
    """Return one direction of the tested curves over common speeds, all brought to one temperature.

    Raises
    ------
    FitError
        If no test holds a speed above `LOWEST_SPEED`.
    """
    everybody = tested
    tested = [t for t in tested if t.curve.side(direction).top_speed > 0]
    speeds = _speeds(direction, tested)
    usual = usual_clicks(axes, [t.from_closed for t in tested])
    rubbing = friction_of(everybody)
    states, which = states_of(everybody)
    held = [t.curve.side(direction).top_speed > 0 for t in everybody]
    rows = pooled([seen_side(t.curve, direction, speeds, rubbing[t.shock]) for t in tested],
                  [t.curve for t in tested], which[held].tolist())  # fmt: skip
    unstated = np.array([[axis.name not in t.from_closed for axis in axes] for t in tested]).reshape(len(tested), -1)
    variance = np.array([row.variance for row in rows])
    variance = variance + a.UNSTATED_SHARE**2 * unstated.sum(axis=1, keepdims=True)
    warm = kelvin(everybody)[held]
    variance = variance + (1.0 - a.THINNED_ALIKE) * (warm[:, None] * thinning_sd(speeds)) ** 2
    clicks = np.array([[t.from_closed.get(one.name, usual[one.name]) for one in axes] for t in tested], dtype=float)
    clicks = clicks.reshape(len(tested), len(axes))
    names = sorted({t.shock for t in everybody})
    return DirectionData(
        direction=direction, axes=axes, clicks=clicks, speeds=speeds, variance=variance,
        logs=np.array([row.logs for row in rows]) + thinning(speeds) * warm[:, None],
        shock=np.array([names.index(t.shock) for t in tested]), top_speed=float(speeds[-1]),
        moved=tuple(len(set(clicks[:, i])) > 1 for i in range(len(axes))), common=_common(rows),
        split=np.array([row.split for row in rows]), rubbed=np.array([row.rubbed for row in rows]),
        state=which[held], states=states, warm=warm,
        runs=np.array([max(t.runs, 1) for t in tested], dtype=float),
        alike=alike_newtons(rows) if any(splits(t.curve) for t in everybody) else float("nan"),
    )  # fmt: skip


def _speeds(direction: Direction, tested: Sequence[Tested]) -> FloatArray:
    sides = [t.curve.side(direction) for t in tested]
    top = max((side.top_speed for side in sides), default=0.0)
    if top <= a.LOWEST_SPEED * 1.5:
        raise FitError(
            f"no test of this pack holds {direction} speeds above {1000 * a.LOWEST_SPEED * 1.5:.0f} mm/s",
            hint="test faster",
        )
    low = float(np.clip(min(side.low_speed for side in sides), a.LOWEST_SPEED, top / 3))
    return np.asarray(np.geomspace(low, top, a.FIT_SPEEDS))


def _common(rows: Sequence[SeenSide]) -> FloatArray:
    """Return the part of the errors that all tests have in common, shape (T, S). [1]

    Friction and zero are taken out of every test alike, so what that leaves is the same newtons at every speed of
    every test.
    """
    return np.array([np.minimum(row.common, a.MOST_COMMON) for row in rows])
