"""From the states of the half-car to what people look at: travel, loads, forces, and whether the energy adds up."""

from __future__ import annotations

from dataclasses import dataclass
from typing import NamedTuple

import numpy as np

from dynoan.analysis.launch.hinges import Hinges
from dynoan.analysis.launch.layout import FRONT_ROAD, FRONT_WANTED, REAR_ROAD, REAR_WANTED
from dynoan.analysis.launch.model import Axle, HalfCar
from dynoan.analysis.launch.run import Sides, States
from dynoan.analysis.launch.scene import Scene
from dynoan.model.arrays import FloatArray
from dynoan.units import GRAVITY

_NO_WORK = 1e-9  #: keeps the share finite where nothing happened [J]


@dataclass(frozen=True)
class AxleTrace:
    """One axle of m settings over n times, at the wheel, left and right together; shapes (m, n)."""

    rise: FloatArray  #: of the body over the axle [m]
    rise_rate: FloatArray  #: [m/s]
    wheel: FloatArray  #: height of the wheels above rest [m]
    travel: FloatArray  #: positive in compression [m]
    velocity: FloatArray  #: of travel [m/s]
    load: FloatArray  #: of the tyres [N]
    drive: FloatArray  #: what the tyres hold of the drive asked for [N]
    damper: FloatArray  #: of both shocks [N]
    road: FloatArray  #: height under the wheels, shape (n,) [m]
    wanted: FloatArray  #: the drive asked for, shape (n,) [N]


@dataclass(frozen=True)
class Trace:
    """The launch of m settings over n times."""

    time: FloatArray  #: shape (n,) [s]
    heave: FloatArray  #: of the sprung mass, (m, n) [m]
    heave_rate: FloatArray  #: [m/s]
    pitch: FloatArray  #: nose up [rad]
    pitch_rate: FloatArray  #: [rad/s]
    front: AxleTrace
    rear: AxleTrace
    energy_off: FloatArray | None = None  #: where the run itself kept account, a share, shape (m,)


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


def energy_miss(half: HalfCar, trace: Trace) -> FloatArray:
    """Return by how much the energy does not add up, a share of all work in and out; shape (m,). [1]

    Energy held (motion, springs, gas, stops, tyres, height) against the work of drive, links and road less what the
    dampers took. A wrong sign or a force that acts on one body only shows here.
    """
    work = half.frame.height * (trace.front.drive + trace.rear.drive) * trace.pitch_rate
    held = 0.5 * half.sprung * trace.heave_rate**2 + 0.5 * half.pitch_inertia * trace.pitch_rate**2
    held = held + half.sprung * GRAVITY * trace.heave
    spent = np.zeros_like(work)
    for axle, moved in ((half.front, trace.front), (half.rear, trace.rear)):
        held = held + _held(axle, moved)
        # The links push the body up and the wheel down by the same force.
        work = work - axle.slope * moved.drive * moved.velocity
        work = work + moved.load * np.gradient(moved.road, trace.time)
        spent = spent + moved.damper * moved.velocity
    step = trace.time[1] - trace.time[0]
    flow = (work[:, 1:] + work[:, :-1] - spent[:, 1:] - spent[:, :-1]) / 2 * step
    turned = (np.abs(work).sum(axis=1) + np.abs(spent).sum(axis=1)) * step
    miss = held[:, 1:] - held[:, :1] - np.cumsum(flow, axis=1)
    return np.asarray(np.abs(miss).max(axis=1) / np.maximum(turned, _NO_WORK))


def _held(axle: Axle, moved: AxleTrace) -> FloatArray:
    """Energy in springs, gas, stops, tyres and unsprung mass of an axle."""
    u = moved.travel
    spring = np.maximum(axle.spring * u + axle.preload, 0.0) ** 2 / (2 * axle.spring)
    # The spring carries `preload`; what else holds the body up at rest (the gas) is a constant force.
    steady = axle.sprung * GRAVITY - axle.preload
    stops = np.maximum(u - axle.bump, 0.0) ** 2 + np.maximum(-u - axle.droop, 0.0) ** 2
    tyre = np.maximum(axle.static_load + axle.tyre * (moved.road - moved.wheel), 0.0) ** 2 / (2 * axle.tyre)
    wheel = axle.unsprung * (0.5 * (moved.velocity + moved.rise_rate) ** 2 + GRAVITY * moved.wheel)
    return np.asarray(spring + steady * u + axle.gas * u**2 / 2 + axle.stop_rate * stops / 2 + tyre + wheel)
