"""Shocks in time: each shock on a date is a state; and the temperature all tests of a pack are brought to."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from typing import NamedTuple

import numpy as np

from dynoan.analysis.clickmap.assumptions import data as a
from dynoan.analysis.clickmap.tested.loss_per_kelvin import thinning, thinning_sd
from dynoan.analysis.clickmap.tested.setting import Tested
from dynoan.analysis.statistics import Z95
from dynoan.model.arrays import FloatArray, IntArray
from dynoan.model.curve import DIRECTIONS


class TestedState(NamedTuple):
    """A shock between two dates, within which it is taken not to change."""

    shock: str
    first: str  #: date of its first runs, ISO; empty where nobody wrote it
    last: str


def day_of(text: str | None) -> date | None:
    """Return the day that an ISO date names; None where it names none."""
    try:
        return date.fromisoformat((text or "")[:10])
    except ValueError:
        return None


def states_of(tested: Sequence[Tested]) -> tuple[tuple[TestedState, ...], IntArray]:
    """Return the states of all shocks, by shock and date, and which of them each test is of, shape (T,).

    Runs no further apart than `SAME_STATE_DAYS` from the first of a state are of that state, unless a later one shows
    at the same setting that the shock has changed since; runs without a date are of a shock's last.
    """
    states: list[TestedState] = []
    where = np.zeros(len(tested), dtype=int)
    for shock in sorted({t.shock for t in tested}):
        mine = [i for i, t in enumerate(tested) if t.shock == shock]
        dated = [(day, i) for i in mine if (day := day_of(tested[i].date)) is not None]
        begun: date | None = None
        here: list[int] = []
        for day, today in _by_day(dated):
            if begun is None or (day - begun).days > a.SAME_STATE_DAYS or _changed(tested, here, today):
                begun, here = day, []
                states.append(TestedState(shock, day.isoformat(), day.isoformat()))
            here += today
            states[-1] = states[-1]._replace(last=day.isoformat())
            where[today] = len(states) - 1
        undated = [i for i in mine if day_of(tested[i].date) is None]
        if undated and begun is None:
            states.append(TestedState(shock, "", ""))
        where[undated] = len(states) - 1
    return tuple(states), where


def _by_day(dated: Sequence[tuple[date, int]]) -> list[tuple[date, list[int]]]:
    """Return the tests of each day, days in order."""
    return [(day, [i for at, i in dated if at == day]) for day in sorted({day for day, _ in dated})]


def _changed(tested: Sequence[Tested], before: Sequence[int], today: Sequence[int]) -> bool:
    """Whether a test of today shows at a setting tested before that the shock has changed since."""
    return any(differ(tested[i], tested[k]) for i in before for k in today
               if tested[i].from_closed == tested[k].from_closed)  # fmt: skip


def differ(one: Tested, other: Tested) -> bool:
    """Return whether two tests of one setting differ by more than runs of an unchanged shock do, in a direction.

    Friction and damping together are compared, which every kind of file tells, each brought to one temperature where
    both tell theirs.
    """
    warmth = [t.curve.temperature for t in (one, other)]
    known = [t for t in warmth if t is not None]
    warmer = known[1] - known[0] if len(known) == 2 else 0.0
    for direction, sign in zip(DIRECTIONS, (1.0, -1.0), strict=True):
        top = min(t.curve.side(direction).top_speed for t in (one, other))
        speeds = np.array([s for s in a.CHANGE_SPEEDS if s <= top * 1.001])
        if not len(speeds):
            continue
        logs, variances = zip(*(_sum_of(t, sign * speeds) for t in (one, other)), strict=True)
        away = float(np.mean(logs[1] - logs[0] + thinning(speeds) * warmer))
        runs = sum(a.CHANGE_REPEAT**2 / max(t.runs, 1) for t in (one, other))
        sd = float(np.sqrt(sum(variances) + runs + float(np.mean(thinning_sd(speeds)) * warmer) ** 2))
        if abs(away) > max(a.CHANGED_SHARE, a.CHANGED_SURELY * sd):
            return True
    return False


def _sum_of(test: Tested, velocity: FloatArray) -> tuple[FloatArray, float]:
    """Return the logarithm of friction and damping together at velocities, and the variance of its mean. [1]"""
    force = np.maximum(np.abs(test.curve.total(velocity)), 1.0)
    low, high = (np.asarray(limit) for limit in test.curve.total_band(velocity))
    half = np.nan_to_num((high - low) / 2 / Z95 / force, nan=a.UNBANDED_SHARE, posinf=1.0)
    return np.log(force), float(np.mean(half)) ** 2


def reference(tested: Sequence[Tested]) -> float | None:
    """Return the temperature that a pack's tests are brought to; None where none tells its own. [°C]

    Their median: what oil does to damping is known roughly, and from the middle no test has far to go.
    """
    known = [t.curve.temperature for t in tested if t.curve.temperature is not None]
    return float(np.median(known)) if known else None


def kelvin(tested: Sequence[Tested]) -> FloatArray:
    """Return how far above the reference each test's oil was, 0 where it is not told, shape (T,). [K]"""
    at = reference(tested)
    warm = [0.0 if at is None or t.curve.temperature is None else t.curve.temperature - at for t in tested]
    return np.array(warm, dtype=float)
