"""From the states of the half-car to the trace that figures and pictures are made of."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from dynoan.analysis.launch.hinges import Hinges
from dynoan.analysis.launch.model import Axle, HalfCar
from dynoan.analysis.launch.scene import Scene
from dynoan.analysis.launch.sides import Sides
from dynoan.analysis.launch.trace import AxleTrace, Trace
from dynoan.model.arrays import FloatArray
from tests.oracles.small_angle.layout import FRONT_ROAD, FRONT_WANTED, REAR_ROAD, REAR_WANTED
from tests.oracles.small_angle.running import States


def traced_out(half: HalfCar, scene: Scene, states: States, damping: Sides) -> Trace:
    """Return travel, loads and forces from the states of m settings, run with `damping` on `scene`."""
    z, pitch, front, rear, dz, rate, dfront, drear = states.values.transpose(1, 0, 2)
    arms, of = half.arms, states.table.T
    ahead = _Moved(z + arms.front * pitch, dz + arms.front * rate, front, dfront, of[FRONT_ROAD], of[FRONT_WANTED])
    behind = _Moved(z - arms.rear * pitch, dz - arms.rear * rate, rear, drear, of[REAR_ROAD], of[REAR_WANTED])
    return Trace(
        states.time, z, dz, pitch, rate,
        _axle(half.front, scene.grip, ahead, (damping.front_compression, damping.front_rebound)),
        _axle(half.rear, scene.grip, behind, (damping.rear_compression, damping.rear_rebound)),
    )  # fmt: skip


class _Moved(NamedTuple):
    rise: FloatArray
    rise_rate: FloatArray
    wheel: FloatArray
    wheel_rate: FloatArray
    road: FloatArray
    wanted: FloatArray


def _axle(axle: Axle, grip: float, moved: _Moved, damping: tuple[Hinges, Hinges]) -> AxleTrace:
    compression, rebound = damping
    load = np.maximum(axle.static_load + axle.tyre * (moved.road - moved.wheel), 0.0)
    velocity = moved.wheel_rate - moved.rise_rate
    return AxleTrace(
        rise=moved.rise, rise_rate=moved.rise_rate, wheel=moved.wheel, travel=moved.wheel - moved.rise,
        velocity=velocity, load=load, drive=np.clip(moved.wanted, -grip * load, grip * load),
        damper=_force(compression, velocity) - _force(rebound, -velocity), road=moved.road, wanted=moved.wanted,
    )  # fmt: skip


def _force(side: Hinges, velocity: FloatArray) -> FloatArray:
    out = np.zeros_like(velocity)
    for knot, gain in zip(side.knots.T, side.gains.T, strict=True):
        out += gain[:, None] * np.maximum(velocity - knot[:, None], 0.0)
    return out
