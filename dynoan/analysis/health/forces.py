"""How damping force changed between two sessions: at the settings both hold, or through the pack's click map."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

import numpy as np

from dynoan.analysis.clickmap.assumptions.data import LEAST_FORCE
from dynoan.analysis.clickmap.tested.loss_per_kelvin import thinning_at
from dynoan.analysis.health.assumptions import FRICTION_DRIFT, MAP_ERROR, RETURN_CLICKS, RUN_SCATTER, UNKNOWN_CLICK
from dynoan.analysis.health.records import Change, Test
from dynoan.analysis.matching.assumptions import MATCH_SPEEDS, REPEATABILITY, Z_BOTH
from dynoan.analysis.matching.match import common_speeds, common_top, mean_force, mean_total, sums_known
from dynoan.analysis.matching.points import point_curves, same_speeds
from dynoan.analysis.statistics import Z95
from dynoan.model.arrays import FloatArray
from dynoan.model.curve import DIRECTIONS, Curve, Direction


def pairs_of(first: Sequence[Test], last: Sequence[Test]) -> list[tuple[Test, Test]]:
    """Return the tests of both sessions at the settings both hold."""
    by_setting = {t.setting: t for t in first}
    return [(by_setting[t.setting], t) for t in last if t.setting in by_setting]


def force_changes(first: Sequence[Test], last: Sequence[Test], wanted: Sequence[float] = MATCH_SPEEDS) -> list[Change]:
    """Return the change of force by direction and speed, in % of the first, over the settings in common."""
    out = []
    for direction in DIRECTIONS:
        speeds = _speeds([*first, *last], direction, wanted)
        if not len(speeds):
            continue
        pairs = pairs_of(first, last)
        if pairs:
            steps = [_step(a, b, direction, speeds) for a, b in pairs]
        else:
            steps = _against_map(first, last, direction, speeds)
        if not steps:
            continue
        weight = np.array([1 / (s.shared + s.own) for s in steps])
        weight = weight / weight.sum(axis=0)
        value = np.sum([s.off * w for s, w in zip(steps, weight, strict=True)], axis=0)
        # Errors of friction, zero and rig are alike at every setting: more settings do not make them smaller.
        shared = np.mean([s.shared for s in steps], axis=0)
        own = np.sum([s.own * w**2 for s, w in zip(steps, weight, strict=True)], axis=0)
        half = Z_BOTH * np.sqrt(shared + own)
        out += [Change("force", float(v), float(v - h), float(v + h), direction, float(s))
                for v, h, s in zip(100 * value, 100 * half, speeds, strict=True)]  # fmt: skip
    return out


def _speeds(tests: Sequence[Test], direction: Direction, wanted: Sequence[float]) -> FloatArray:
    sides = [t.curve.side(direction) for t in tests if t.curve.side(direction).top_speed > 0]
    if not sides:
        return np.zeros(0)
    lowest = min(sides, key=lambda s: s.top_speed)
    return common_speeds(lowest, max(sides, key=lambda s: s.low_speed), wanted)


class _Step(NamedTuple):
    """A change of force over speeds, (S,) each."""

    off: FloatArray  #: share of the first's force [1]
    shared: FloatArray  #: variance of what other settings err by alike [1]
    own: FloatArray  #: variance of what is this setting's own [1]


def _step(a: Test, b: Test, direction: Direction, speeds: FloatArray) -> _Step:
    """Return the change of force from one test to another, as a share of the first."""
    one, other = _pointwise(a, b)
    both = sums_known(one, other)
    top = common_top(one.side(direction), other.side(direction))
    (fa, ha), (fb, hb) = (
        mean_total(c, direction, speeds, top) if both else mean_force(c.side(direction), speeds, top)
        for c in (one, other)
    )
    mean = np.maximum(fa, LEAST_FORCE)
    own = (ha**2 + hb**2) / (Z95 * mean) ** 2
    shared = np.zeros(len(speeds))
    if both:
        # More friction is another finding: what both records tell of it is taken out again, as far as they tell it.
        more, more_sd = _friction_step(a, b)
        fb, shared = fb - more, (more_sd / mean) ** 2
    scatter = RUN_SCATTER**2 * (1 / a.runs + 1 / b.runs)
    warm = _warmer(a, b)
    rate, doubt = _thinning(b, direction, speeds)
    off = (fb - fa) / mean + rate * warm
    shared = shared + scatter + (doubt * warm) ** 2
    returned = _returned(a, direction, speeds)
    # Points of tables scatter; a fitted curve takes friction and lag alike at every setting.
    if one is a.curve:
        return _Step(np.asarray(off), shared + own, returned)
    return _Step(np.asarray(off), shared, own + returned)


def _pointwise(a: Test, b: Test) -> tuple[Curve, Curve]:
    """Return the curves of two tests, from point to point where both are tables of the same speeds.

    What a table cannot tell, friction from damping or what runs between its rows, is alike both times and cancels.
    """
    if a.points is None or b.points is None or not same_speeds([a.points, b.points]):
        return a.curve, b.curve
    return point_curves(a.points, b.points, (a.curve, b.curve))


def _friction_step(a: Test, b: Test) -> tuple[float, float]:
    """Return how much friction rose from one test to another, and its standard error; 0 where one cannot tell. [N]"""
    if np.isfinite(a.friction.value) and np.isfinite(b.friction.value):
        return b.friction.value - a.friction.value, float(np.hypot(a.friction.sd, b.friction.sd))
    return 0.0, FRICTION_DRIFT


def _warmer(a: Test, b: Test) -> float:
    """Return how much warmer the oil of a test was than that of another, 0 where one does not tell. [K]"""
    if a.temperature is None or b.temperature is None:
        return 0.0
    return b.temperature - a.temperature


def _thinning(test: Test, direction: Direction, speeds: FloatArray) -> tuple[FloatArray, FloatArray]:
    """Return what damping loses a kelvin and its standard deviation, as tests of the pack tell, else as usual. [1/K]"""
    return thinning_at((test.oil or {}).get(direction), speeds)


def _returned(test: Test, direction: Direction, speeds: FloatArray) -> FloatArray:
    """Return the variance owed to screws set to the same clicks twice that do not stand alike, a share squared. [1]"""
    if test.click_share is None:
        return np.full(len(speeds), UNKNOWN_CLICK**2 * 2.0 * RETURN_CLICKS**2)
    grid, share = test.click_share[DIRECTIONS.index(direction)]
    return np.asarray(2.0 * (RETURN_CLICKS * np.interp(speeds, grid, share)) ** 2)


def _against_map(first: Sequence[Test], last: Sequence[Test], direction: Direction, speeds: FloatArray) -> list[_Step]:
    levels = []
    for session in (first, last):
        known = [_level(t, t.expected, direction, speeds) for t in session if t.expected is not None]
        if not known:
            return []
        share = np.mean([k[0] for k in known], axis=0)
        levels.append((share, np.sqrt(np.mean([k[1] ** 2 for k in known], axis=0) + MAP_ERROR**2 / len(known))))
    (a, sa), (b, sb) = levels
    return [_Step(b - a, sa**2 + sb**2, np.zeros(len(speeds)))]


def _level(test: Test, expected: Curve, direction: Direction, speeds: FloatArray) -> tuple[FloatArray, FloatArray]:
    """Return how far a test lies off its pack's map in oil as warm, and its standard error, shares of force. [1]"""
    top = common_top(test.curve.side(direction), expected.side(direction))
    seen, half = mean_force(test.curve.side(direction), speeds, top)
    warm = 0.0
    if test.temperature is not None and expected.temperature is not None:
        warm = test.temperature - expected.temperature
    rate, doubt = _thinning(test, direction, speeds)
    there = mean_force(expected.side(direction), speeds, top)[0] * np.exp(-rate * warm)
    mean = np.maximum(there, LEAST_FORCE)
    own = (half / (Z95 * mean)) ** 2 + REPEATABILITY**2 / test.runs
    return seen / mean - 1, np.sqrt(own + (doubt * warm) ** 2)
