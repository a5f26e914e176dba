"""How well an unknown curve fits every click of a click map.

The logarithm of measured over predicted force is taken as Gaussian: a factor common to both directions (another shock,
warmer oil), friction taken for damping, errors of the measurement that hang together over neighbouring speeds, errors
of the map that hang together as its fit has it: mostly as clicks a little off would move force.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from functools import reduce

import numpy as np

from dynoan.analysis.clickmap.asked.equivalent import on_all_axes, over_clicks
from dynoan.analysis.clickmap.assumptions.data import LEAST_FORCE, USUAL_FRICTION_SD
from dynoan.analysis.clickmap.assumptions.identify import (
    FORCE_ERROR,
    FRICTION_SPLIT,
    IDENTIFY_SPEEDS,
    MAP_RUNS_ON,
    RUN_SCATTER,
    SMOOTH_SHARE,
    UNSAID_WARMTH,
)
from dynoan.analysis.clickmap.assumptions.spread import CARRIED_SHARE, EXPECTED_SPREAD, SIDE_SPREAD
from dynoan.analysis.clickmap.assumptions.views import JUDGED_FROM
from dynoan.analysis.clickmap.tested.friction import Rubbing, seen_side, splits
from dynoan.analysis.clickmap.tested.loss_per_kelvin import thinning_at, thinning_of_table
from dynoan.analysis.clickmap.trends.discrepancy import speed_kernel
from dynoan.analysis.statistics import Z95
from dynoan.errors import CallError
from dynoan.model.arrays import FloatArray
from dynoan.model.clickmap import ClickMap, DirectionMap
from dynoan.model.curve import DIRECTIONS, Curve, Direction
from dynoan.model.side import Side


@dataclass(frozen=True)
class _Sums:
    """What one direction adds, at every click: sums over whitened speeds of residual and of what errs in common."""

    rr: FloatArray  #: residual squared
    ur: tuple[FloatArray, FloatArray]  #: residual with each common error
    uu: tuple[FloatArray, FloatArray, FloatArray]  #: of the common errors: first, both, second
    log_sd: FloatArray


def likelihood(
    curve: Curve, map: ClickMap, strange: float, directions: Sequence[Direction] = DIRECTIONS, *, own: bool = False
) -> tuple[FloatArray, FloatArray, FloatArray, int]:
    """Return log-likelihood, chi-squared and mean difference [%] at every click, and how many speeds they rest on.

    `strange`: of a pack akin to this one, which no test tells of, how far its force lies off [1]. Over `directions`.
    `own`: whether the map is that of the very shock that the curve is of.
    """
    freedom = 0
    sums = []
    off: FloatArray = np.zeros(tuple(a.clicks + 1 for a in map.adjusters))
    for direction in directions:
        table = map.direction(direction)
        speeds = _speeds(curve.side(direction), table)
        part, mean = _direction(_seen(curve, direction, speeds, map), table, speeds, strange)
        sums.append(_on_all_axes(part, table, map))
        off = off + on_all_axes(mean, table, map) / len(directions)
        freedom += len(speeds)
    warmer = _warmer(curve, map)
    warm = UNSAID_WARMTH if warmer is None else _even_thinning_sd(map) * warmer
    rubbing = FRICTION_SPLIT if splits(curve) else USUAL_FRICTION_SD
    spread = CARRIED_SHARE if own else _spread(map)
    log_l, chi = _joined(sums, float(np.hypot(np.hypot(spread, warm), strange)), rubbing)
    return log_l, chi, off, freedom


def _warmer(curve: Curve, map: ClickMap) -> float | None:
    """Return by how much the oil of a curve was warmer than what a map is brought to; None where untold. [K]"""
    if curve.temperature is None or map.reference_c is None:
        return None
    return curve.temperature - map.reference_c


def _even_thinning_sd(map: ClickMap) -> float:
    """Return how far what damping loses a kelvin may differ alike at all speeds and in both directions. [1/K]"""
    return min(float(np.min(thinning_at(thinning_of_table(t), t.speeds)[1])) for t in (map.compression, map.rebound))


def _spread(map: ClickMap) -> float:
    """Return how far a shock lies from the one or the mean of those that a map rests on, standard deviation. [1]"""
    table = map.compression
    if len(map.shocks) > 1 and table.spread > 0:
        return table.spread
    return float(np.sqrt(2.0) * EXPECTED_SPREAD)


@dataclass(frozen=True)
class _Seen:
    force: FloatArray  #: what both know: damping, or its sum with friction, (S,) [N]
    sd: FloatArray  #: of that, shares of force, friction's split apart, (S,) [1]
    thinned: FloatArray  #: share of a map's damping that is left in oil so warm, (S,) [1]
    friction: float  #: what a map's damping is to be raised by to be the same [N]


def _seen(curve: Curve, direction: Direction, speeds: FloatArray, map: ClickMap) -> _Seen:
    warmer = _warmer(curve, map) or 0.0
    rate, rate_sd = thinning_at(thinning_of_table(map.direction(direction)), speeds)
    thinned = np.exp(-rate * warmer)
    known = np.isfinite(map.friction)
    if known and splits(curve):
        side, friction = seen_side(curve, direction, speeds, Rubbing(map.friction)), 0.0
    else:
        # Where either holds friction, the sum is what both know: taken off, hardly anything is left at low speed.
        side = seen_side(replace(curve, friction=float("nan")), direction, speeds, Rubbing(0.0))
        friction = map.friction if known else 0.0
    force = np.exp(side.logs)
    slow = np.maximum(rate_sd**2 - _even_thinning_sd(map) ** 2, 0.0) * warmer**2
    sd = np.sqrt(side.variance + RUN_SCATTER**2 + (FORCE_ERROR / force) ** 2 + slow)
    return _Seen(force, sd, thinned, friction)


def _on_all_axes(part: _Sums, table: DirectionMap, map: ClickMap) -> _Sums:
    def wide(values: FloatArray) -> FloatArray:
        return on_all_axes(np.asarray(values), table, map)

    return _Sums(wide(part.rr), (wide(part.ur[0]), wide(part.ur[1])),
                 (wide(part.uu[0]), wide(part.uu[1]), wide(part.uu[2])), wide(part.log_sd))  # fmt: skip


def _joined(sums: Sequence[_Sums], common: float, friction: float) -> tuple[FloatArray, FloatArray]:
    """Return log-likelihood and chi-squared at every click, what both directions err by in common taken out.

    A shock's own factor [1] and friction taken for damping [N] are Gaussian; a rank of two is all that needs solving.
    """
    rr, log_sd = _added(one.rr for one in sums), _added(one.log_sd for one in sums)
    r0, r1 = (common * _added(one.ur[0] for one in sums), friction * _added(one.ur[1] for one in sums))
    a = 1.0 + common**2 * _added(one.uu[0] for one in sums)
    b = common * friction * _added(one.uu[1] for one in sums)
    c = 1.0 + friction**2 * _added(one.uu[2] for one in sums)
    determinant = a * c - b**2
    chi = rr - (c * r0**2 - 2 * b * r0 * r1 + a * r1**2) / determinant
    return np.asarray(-0.5 * (chi + np.log(determinant)) - log_sd), np.asarray(chi)


def _added(values: Iterable[FloatArray]) -> FloatArray:
    return reduce(np.add, values)


def _speeds(side: Side, table: DirectionMap) -> FloatArray:
    top = min(side.top_speed, table.top_speed)
    low = side.low_speed * 0.95
    speeds = [s for s in IDENTIFY_SPEEDS if low <= s <= top * 1.001]
    if not speeds and top <= 0:
        raise CallError("the unknown curve and the known packs share no speeds", hint="test it over the usual speeds")
    return np.array(speeds or [top])


def _direction(seen: _Seen, table: DirectionMap, speeds: FloatArray, strange: float) -> tuple[_Sums, FloatArray]:
    """Return the sums of one direction at every click, and the mean difference, of forces that somebody feels [%].

    `strange`: of a pack akin to this one, which no test tells of, how far its damping lies off [1].
    """
    damping, half = table.at(speeds)
    damping = np.maximum(damping, 1.0)
    force = seen.thinned * damping + seen.friction
    damped = seen.thinned * damping / force
    of_map = damped * np.sqrt(np.maximum((half / (Z95 * damping)) ** 2 - table.spread**2, 0.0) + SIDE_SPREAD**2)
    residual = np.log(seen.force / force)
    alike = speed_kernel(speeds, speeds)
    each = np.eye(len(speeds))
    of_run = np.outer(seen.sd, seen.sd) * (SMOOTH_SHARE * alike + (1 - SMOOTH_SHARE) * each)
    total = of_run + of_map[..., :, None] * of_map[..., None, :] * _map_alike(table, speeds)
    runs_on = MAP_RUNS_ON * alike + (1 - MAP_RUNS_ON) * each
    total = total + strange**2 * damped[..., :, None] * damped[..., None, :] * runs_on
    # A newton more is as much of the logarithm half-way between both forces, be it large or small.
    columns = np.stack(np.broadcast_arrays(residual, damped, 1.0 / np.sqrt(seen.force * force)), axis=-1)
    (z, ones, newtons), log_sd = _whitened(total, columns)

    def dot(x: FloatArray, y: FloatArray) -> FloatArray:
        return np.asarray(np.sum(x * y, axis=-1))

    sums = _Sums(dot(z, z), (dot(z, ones), dot(z, newtons)),
                 (dot(ones, ones), dot(ones, newtons), dot(newtons, newtons)), log_sd)  # fmt: skip
    away = np.abs(force - seen.force) / np.maximum(seen.force, LEAST_FORCE)
    felt = speeds >= JUDGED_FROM * 0.999
    return sums, 100 * np.mean(away[..., felt] if np.any(felt) else away, axis=-1)


def _map_alike(table: DirectionMap, speeds: FloatArray) -> FloatArray:
    """Return how alike a map's errors at speeds are, (clicks…, S, S) or (S, S): wide bands are few doubts, not one a
    speed, and mostly what clicks a little off would do. [1]"""
    runs_on = MAP_RUNS_ON * speed_kernel(speeds, speeds) + (1 - MAP_RUNS_ON) * np.eye(len(speeds))
    if table.errors is None:
        return np.asarray(runs_on)
    errors = table.errors
    at = np.interp(np.log(speeds), np.log(errors.speeds), np.arange(len(errors.speeds)))
    weight = np.maximum(1.0 - np.abs(at[:, None] - np.arange(len(errors.speeds))), 0.0)
    alike = over_clicks(weight @ errors.alike @ weight.T, errors.positions, table.force.shape[:-1])
    size = np.sqrt(np.einsum("...ss->...s", alike))
    alike = alike / (size[..., :, None] * size[..., None, :])
    return np.asarray(MAP_RUNS_ON * alike + (1 - MAP_RUNS_ON) * np.eye(len(speeds)))


def _whitened(total: FloatArray, columns: FloatArray) -> tuple[FloatArray, FloatArray]:
    """Return columns (…, S, K) made white by covariances (…, S, S), shape (K, …, S), and half the logarithm of these.

    Cholesky's way for all of them at once, speed by speed: they are many and small.
    """
    t = np.ascontiguousarray(np.moveaxis(total, (-2, -1), (0, 1)))
    out = np.ascontiguousarray(np.moveaxis(columns, (-2, -1), (0, 1)))
    root = np.zeros_like(t)
    log_sd = np.zeros(t.shape[2:])
    for j in range(len(t)):
        root[j, j] = np.sqrt(t[j, j] - np.sum(root[j, :j] ** 2, axis=0))
        root[j + 1 :, j] = (t[j + 1 :, j] - np.sum(root[j + 1 :, :j] * root[j, :j], axis=1)) / root[j, j]
        out[j] = (out[j] - np.sum(root[j, :j, None] * out[:j], axis=0)) / root[j, j]
        log_sd = log_sd + np.log(root[j, j])
    return np.moveaxis(out, (0, 1), (-1, 0)), log_sd
