"""Rows of launches, packed for the compiled car and run: settings, bands and roads, side by side or figures alone."""

from __future__ import annotations

import os
from collections.abc import Sequence
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from dynoan.analysis.launch.assumptions import BEHIND, MOST_THREADS, NO_LIMIT, ROAD_BAND, START
from dynoan.analysis.launch.large import layout as at
from dynoan.analysis.launch.large.held import held_start
from dynoan.analysis.launch.large.model import LargeCar
from dynoan.analysis.launch.large.translated import step as step_of_car
from dynoan.analysis.launch.large.tyre import law_of, load_sensitivity
from dynoan.analysis.launch.model import Axle
from dynoan.analysis.launch.scene import Scene, check
from dynoan.analysis.launch.sides import Sides
from dynoan.analysis.road import profile
from dynoan.model.arrays import FloatArray, IntArray
from dynoan.units import GRAVITY

#: time step [s]: errors of some 1e-5 of the range, see `tests/benchmarks/bench_launch.py` (numerics)
STEP = 1e-3
#: roads are sampled this finely, cubics between [m] (numerics): the shortest wave of the band is 35 cm long
SPACING = 0.02
#: farther than this no launch goes [m] (numerics)
LONGEST_ROAD = 2000.0
#: rows run at a time, so that threads share the work and memory stays small
AT_ONCE = 256


@dataclass(frozen=True)
class RowsMotion:
    """The motion of m rows over n times; what stands where is in `layout`."""

    time: FloatArray  #: shape (n,) [s]
    states: FloatArray  #: shape (m, STATES, n)
    kept: FloatArray  #: shape (m, KEPT, n)
    figures: FloatArray  #: shape (m, FIGURES)

    @property
    def energy_off(self) -> FloatArray:
        """By how much the energy does not add up, a share of all that was turned over, shape (m,). [1]"""
        work, energy = self.states[:, at.WORK], self.kept[:, at.ENERGY]
        turned = np.abs(np.diff(work, axis=1)).sum(axis=1)
        return np.asarray(np.abs(energy - energy[:, :1] - work).max(axis=1) / np.maximum(turned, 1e-9))


def packed(car: LargeCar, *, slips: bool) -> tuple[FloatArray, FloatArray]:
    """Return parameters and paths as the compiled car takes them, shapes (PARAMETERS,) and (2, 2, POWERS). [SI]

    Parameters
    ----------
    car
        At large angles.
    slips
        Whether the wheels turn by torque and slip, or a force is given.
    """
    half, p = car.half, np.zeros(at.PARAMETERS)
    p[at.SPRUNG], p[at.INERTIA], p[at.RADIUS], p[at.HEIGHT] = half.sprung, half.pitch_inertia, car.radius, car.height
    p[at.WHEELBASE], p[at.SLIPS], p[at.CHANGE] = half.frame.wheelbase, float(slips), half.driven_loads.change
    p[at.RATIO] = 1.0 if car.engine is None else car.engine.ratio
    if car.bar is not None:
        p[at.BAR_BEHIND], p[at.BAR_ABOVE], p[at.BAR_RATE] = car.bar.behind, car.bar.above, car.bar.rate
    paths = np.zeros((2, 2, at.POWERS))
    places, driven = (half.arms.front, -half.arms.rear), half.driven_loads
    for i, (begin, axle) in enumerate(zip(at.AXLES, (half.front, half.rear), strict=True)):
        values = {
            at.PLACE: places[i], at.UNSPRUNG: axle.unsprung, at.STATIC: axle.static_load, at.TYRE: axle.tyre,
            at.TYRE_DAMPING: car.tyre_damping[i], at.SPRING: axle.spring, at.GAS: axle.gas, at.PRELOAD: axle.preload,
            at.FRICTION: car.friction[i], at.STUCK: car.stuck[i] * car.friction[i],
            at.GRIPS: float(np.arctanh(car.stuck[i])),
            at.HELD: axle.sprung * GRAVITY, at.SPIN: car.spin[i], at.SHARE: axle.share, at.THROUGH: car.through[i],
            at.DRIVEN: driven.front if i == 0 else driven.rear,
        }  # fmt: skip
        for key, value in values.items():
            p[begin + key] = value
        p[begin + at.STOPS : begin + at.AXLE] = _stops(axle)
        path = car.paths[i]
        paths[i, 0, : len(path.ahead)], paths[i, 1, : len(path.turn)] = path.ahead, path.turn
    return p, paths


def _stops(axle: Axle) -> FloatArray:
    out = np.zeros((2, 2, at.STOP_HINGES))
    out[:, 0] = at.NO_HINGE
    for side, hinges in enumerate(axle.hinges):
        out[side, :, : len(hinges)] = np.array(hinges).T
    return out.ravel()


def hinges_of(damping: Sides) -> FloatArray:
    """Return hinge sums as the compiled car takes them, shape (2, 2, 2, hinges, settings). [SI]"""
    sides = [np.stack([side.knots.T, side.gains.T]) for side in damping]
    return np.ascontiguousarray(np.stack([np.stack(sides[:2]), np.stack(sides[2:])]))


@lru_cache(maxsize=64)
def _road(roughness: float, seed: int, length: float, wheelbase: float) -> FloatArray:
    """Return the road from a little behind the rear wheels on. [m]"""
    place = START - wheelbase + SPACING * np.arange(-BEHIND, int(length / SPACING))
    return profile(roughness, place, seed=seed, band=ROAD_BAND)


def _roads(scenes: Sequence[Scene], length: float, wheelbase: float) -> FloatArray:
    roads = [_road(s.surface.roughness, s.seed, length, wheelbase) for s in scenes]
    rough = any(s.surface.roughness for s in scenes)
    return np.ascontiguousarray(np.stack(roads)) if rough else np.zeros((len(roads), 1))


def _grounds(scenes: Sequence[Scene], roads: FloatArray, wheelbase: float) -> FloatArray:
    out = np.zeros((len(scenes), at.GROUNDS))
    out[:, : at.STOOD] = [_ground(s) for s in scenes]
    if roads.shape[1] > 1:
        place = np.arange(roads.shape[1]) - float(BEHIND)
        for i, stood in enumerate((wheelbase / SPACING, 0.0)):
            out[:, at.STOOD + i] = [np.interp(stood, place, road) for road in roads]
    return out


def run(
    car: LargeCar, damping: Sides, scenes: Sequence[Scene], of_row: Sequence[tuple[int, int]], *, keep: bool,
    step: float = STEP, threads: int | None = None,
) -> RowsMotion:  # fmt: skip
    """Return the motion, or the figures alone, of rows.

    Parameters
    ----------
    car
        At large angles.
    damping
        Of the settings.
    scenes
        Drive, surface and road, all of one duration and one way of driving off.
    of_row
        Setting and scene of each row.
    keep
        Whether the motion is kept, or its figures alone.
    step
        [s]
    threads
        None: as many as there are cores, `MOST_THREADS` at most.

    Raises
    ------
    QuantityError
        If a scene is none of a launch.
    """
    kernel = step_of_car()
    for scene in scenes:
        check(scene)
    first = scenes[0]
    steps = round(first.duration / step)
    slips = first.drive.turning is not None
    p, paths = packed(car, slips=slips)
    hinges, base = hinges_of(damping), car.half.frame.wheelbase
    half_steps = np.arange(2 * steps + 1) * step / 2
    forces = np.stack([np.interp(half_steps, s.drive.time, s.drive.asked) * car.half.frame.mass for s in scenes])
    throttles, engine = _turned(scenes, half_steps)
    starts = np.stack([held_start(car, scene) for scene in scenes])
    starts[:, at.FOOT] = [0.0 if s.drive.foot is None else s.drive.foot.begins for s in scenes]
    length = min(LONGEST_ROAD, 15.0 * first.duration**2 + 10.0)
    roads = _roads(scenes, length, base)
    grounds = _grounds(scenes, roads, base)
    rows: IntArray = np.array([(setting, scene, scene, scene) for setting, scene in of_row], dtype=np.int64)
    count, kept_steps = len(rows), steps + 1 if keep else 1
    figures = np.zeros((count, at.FIGURES))
    states, kept = np.zeros((count, at.STATES, kept_steps)), np.zeros((count, at.KEPT, kept_steps))

    def part(begin: int) -> None:
        cut = slice(begin, begin + AT_ONCE)
        kernel(p, paths, hinges, rows[cut], grounds, roads, SPACING, forces, throttles, engine, starts,
               step, figures[cut], states[cut], kept[cut])  # fmt: skip

    begins = range(0, count, AT_ONCE)
    if len(begins) == 1:
        part(0)
    else:
        with ThreadPoolExecutor(threads or min(os.cpu_count() or 1, MOST_THREADS)) as pool:
            list(pool.map(part, begins))
    figures[:, at.LOAD_SQUARES] = np.sqrt(figures[:, at.LOAD_SQUARES] / max(steps, 1))
    return RowsMotion(np.asarray(np.arange(kept_steps) * step), states, kept, figures)


def _ground(scene: Scene) -> tuple[float, ...]:
    surface, foot = scene.surface, scene.drive.foot
    law, falls = law_of(surface), load_sensitivity(surface)
    holds = (0.0, 1.0) if foot is None else (foot.slip, foot.time)
    return (surface.grip if scene.drive.limited else NO_LIMIT), law.shape, law.factor, law.grip, *holds, falls


def _turned(scenes: Sequence[Scene], time: FloatArray) -> tuple[FloatArray, FloatArray]:
    """Return the throttle of each scene at half steps, and the torque that a full throttle gives over speed."""
    turning = scenes[0].drive.turning
    if turning is None:
        return np.zeros((len(scenes), len(time))), np.zeros((2, 1))
    throttles = np.stack([np.interp(time, s.drive.time, s.drive.turning.throttle) for s in scenes if s.drive.turning])
    return throttles, np.array([turning.speeds, turning.torques])
