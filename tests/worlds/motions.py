"""Motions of a dyno: what the driven end does, on a fine grid in time, positive in compression and about mid-stroke.

``x(t) = X(t) shape(θ(t))``. Shapes: `sine` (servo, scotch yoke), `crank` (with a connecting rod of finite length),
`triangle` (a ramp of constant speed with rounded corners). Schedules: a `staircase` of speeds by frequency at one
stroke, the same by `amplitude` at one frequency, a `chirp` (speed rising without steps). A single speed is a staircase
of one. A `course` is no cycle at all: tones of a road up to some highest one, each as fast as the others, out of step.
Machines start and end at rest and change speed linearly. An uneven crank speed is a first and second harmonic
of the angle (flywheel and load): common practice, no source.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass

import numpy as np

from tests.worlds.valves import FloatArray

FINE_HZ = 10_000
"""Rate at which everything is simulated [Hz]; every recorded rate divides it."""
SHORTEST = 1.0
"""A speed is held for at least this long [s]."""
LONGEST = 8.0
"""A speed is held for no longer than this [s], two turns at the least: nobody waits at the slow end."""
COURSE = 25.0
"""A course lasts so long [s]."""


@dataclass(frozen=True)
class Motion:
    """What the machine is told to do."""

    peaks_m_s: tuple[float, ...]  #: peak speeds in the order run; for a chirp its first and last [m/s]
    half_stroke_m: float = 0.025
    shape: str = "crank"  #: a key of `SHAPES`
    schedule: str = "staircase"  #: a key of `SCHEDULES`
    detail: float = 0.15  #: crank: crank radius over rod length; triangle: sharpness below 1
    cycles: int = 3  #: per speed, within `SHORTEST` and `LONGEST`
    uneven: float = 0.0  #: share by which the angular speed varies within a turn
    uneven_phase: float = 0.0  #: of that variation [rad]
    change_s: float = 0.3  #: time to change from one speed to the next [s]
    pause_s: float = 0.0  #: standstill between speeds [s]
    dwell: float = 0.0  #: turns each speed is held for, however long that takes; 0: as `cycles` says
    tones: tuple[float, ...] = ()  #: of a course, all else being its greatest speed [Hz]


@dataclass(frozen=True)
class Path:
    """The motion on the fine grid."""

    time: FloatArray  #: [s]
    x: FloatArray  #: [m]
    v: FloatArray  #: [m/s]
    a: FloatArray  #: [m/s²]
    turns: FloatArray  #: turns since the start

    @property
    def covered(self) -> float:
        """Highest speed [m/s] reached in both directions."""
        return float(min(self.v.max(), -self.v.min()))


def _sine(angle: FloatArray, _: float) -> FloatArray:
    return -np.cos(angle)


def _crank(angle: FloatArray, ratio: float) -> FloatArray:
    """Slider-crank about mid-stroke: exact geometry, so that both strokes do not look alike in time."""
    return -np.cos(angle) + (np.sqrt(1.0 - (ratio * np.sin(angle)) ** 2) - 1.0) / ratio


def _triangle(angle: FloatArray, sharp: float) -> FloatArray:
    ramp: FloatArray = -np.arcsin(sharp * np.cos(angle)) / np.arcsin(sharp)
    return ramp


SHAPES: Mapping[str, Callable[[FloatArray, float], FloatArray]] = {
    "sine": _sine,
    "crank": _crank,
    "triangle": _triangle,
}


def _steepest(motion: Motion) -> float:
    """Return the greatest slope of the shape, per radian."""
    angle = np.linspace(0.0, 2.0 * np.pi, 3601)
    return float(np.max(np.abs(np.gradient(SHAPES[motion.shape](angle, motion.detail), angle))))


def _held(angular: FloatArray, motion: Motion) -> FloatArray:
    """Return how long each angular speed [rad/s] is held [s]: whole turns."""
    turn = 2.0 * np.pi / angular
    if motion.dwell:
        return motion.dwell * turn
    few = np.maximum(2.0, np.minimum(motion.cycles, np.floor(LONGEST / turn)))
    return turn * np.maximum(few, np.ceil(SHORTEST / turn))


def _steps(levels: FloatArray, held: FloatArray, motion: Motion) -> tuple[FloatArray, FloatArray]:
    """Return corners (time, level) of a staircase from rest to rest, with standstills where the motion has them."""
    times, heights = [0.0, 0.2], [0.0, 0.0]
    for level, hold in zip(levels, held, strict=True):
        times += [times[-1] + motion.change_s, times[-1] + motion.change_s + hold]
        heights += [level, level]
        if motion.pause_s:
            times += [times[-1] + motion.change_s, times[-1] + motion.change_s + motion.pause_s]
            heights += [0.0, 0.0]
    times += [times[-1] + motion.change_s, times[-1] + motion.change_s + 0.2]
    return np.array(times), np.array([*heights, 0.0, 0.0])


def _staircase(motion: Motion, slope: float) -> tuple[FloatArray, FloatArray, FloatArray]:
    angular = np.array(motion.peaks_m_s) / (motion.half_stroke_m * slope)
    times, heights = _steps(angular, _held(angular, motion), motion)
    return times, heights, np.full_like(times, motion.half_stroke_m)


def _amplitude(motion: Motion, slope: float) -> tuple[FloatArray, FloatArray, FloatArray]:
    angular = max(motion.peaks_m_s) / (motion.half_stroke_m * slope)
    strokes = np.array(motion.peaks_m_s) / (angular * slope)
    times, heights = _steps(strokes, _held(np.full_like(strokes, angular), motion), motion)
    return times, np.full_like(times, angular), heights


def _chirp(motion: Motion, slope: float) -> tuple[FloatArray, FloatArray, FloatArray]:
    ends = np.array(motion.peaks_m_s) / (motion.half_stroke_m * slope)
    angular = np.geomspace(ends[0], ends[-1], 60)
    # Ten steps of the grid share the turns of one speed of a staircase.
    each = _held(angular, motion) / 10.0
    times = 0.2 + motion.change_s + np.concatenate(([0.0], np.cumsum(each[:-1])))
    full = np.array([0.0, 0.2, *times, times[-1] + motion.change_s, times[-1] + motion.change_s + 0.2])
    return full, np.array([0.0, 0.0, *angular, 0.0, 0.0]), np.full_like(full, motion.half_stroke_m)


SCHEDULES: Mapping[str, Callable[[Motion, float], tuple[FloatArray, FloatArray, FloatArray]]] = {
    "staircase": _staircase,
    "amplitude": _amplitude,
    "chirp": _chirp,
}


def _course(motion: Motion) -> Path:
    """Return tones out of step (phases of a golden angle), led in and out over a second each; a turn is a second."""
    dt, tones = 1.0 / FINE_HZ, np.array(motion.tones)
    time = np.arange(0.0, COURSE, dt)
    out_of_step = motion.uneven_phase + np.pi * (3.0 - np.sqrt(5.0)) * np.arange(len(tones)) ** 2
    x = np.zeros_like(time)
    for tone, phase in zip(tones, out_of_step, strict=True):
        x += np.sin(2.0 * np.pi * tone * time + phase) / tone
    x *= np.clip(np.minimum(time, COURSE - time), 0.0, 1.0) ** 2
    x *= min(max(motion.peaks_m_s) / np.max(np.abs(np.gradient(x, dt))), motion.half_stroke_m / np.max(np.abs(x)))
    v = np.gradient(x, dt)
    return Path(time, x, v, np.gradient(v, dt), time)


def run(motion: Motion) -> Path:
    """Return the motion on the fine grid (`FINE_HZ`)."""
    if motion.tones:
        return _course(motion)
    corners, angular, stroke = SCHEDULES[motion.schedule](motion, _steepest(motion))
    dt = 1.0 / FINE_HZ
    time = np.arange(0.0, corners[-1], dt)
    angle = np.cumsum(np.interp(time, corners, angular)) * dt
    angle += motion.uneven * (np.sin(angle + motion.uneven_phase) + 0.25 * np.sin(2.0 * angle))
    x = np.interp(time, corners, stroke) * SHAPES[motion.shape](angle, motion.detail)
    v = np.gradient(x, dt)
    return Path(time, x, v, np.gradient(v, dt), angle / (2.0 * np.pi))
