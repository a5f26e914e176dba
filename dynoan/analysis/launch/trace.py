"""From the states of the half-car to what people look at: travel, loads, forces, and whether the energy adds up."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from dynoan.analysis.launch.drive import Scene
from dynoan.analysis.launch.hinges import Hinges
from dynoan.analysis.launch.model import Axle, Half
from dynoan.analysis.launch.run import Sides, States
from dynoan.model.arrays import FloatArray
from dynoan.units import GRAVITY


@dataclass(frozen=True)
class AxleTrace:
    """One axle of m settings over n times, at the wheel, left and right together; shapes (m, n)."""

    rise: FloatArray  #: of the body over the axle [m]
    rise_rate: FloatArray  #: [m/s]
    wheel: FloatArray  #: height of the wheels above rest [m]
    travel: FloatArray  #: positive in compression [m]
    velocity: FloatArray  #: of travel [m/s]
    load: FloatArray  #: of the tyres [N]
    drive: FloatArray  #: [N]
    damper: FloatArray  #: [N]


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
    table: FloatArray  #: as in `States`


def traced_out(half: Half, scene: Scene, states: States, damping: Sides) -> Trace:
    """Return travel, loads and forces from the states."""
    z, pitch, front, rear, dz, rate, dfront, drear = states.values.transpose(1, 0, 2)
    a, b = half.arms
    body = [(z + a * pitch, dz + a * rate, front, dfront), (z - b * pitch, dz - b * rate, rear, drear)]
    axles = [
        _axle(axle, scene.grip, states.table[:, [i, i + 2]], motion, damping[2 * i : 2 * i + 2])
        for i, (axle, motion) in enumerate(zip((half.front, half.rear), body, strict=True))
    ]
    return Trace(states.time, z, dz, pitch, rate, axles[0], axles[1], states.table)


def _axle(
    axle: Axle, grip: float, table: FloatArray, motion: tuple[FloatArray, ...], damping: tuple[Hinges, ...]
) -> AxleTrace:
    rise, rise_rate, wheel, wheel_rate = motion
    load = np.maximum(axle.static_load + axle.tyre * (table[:, 0] - wheel), 0.0)
    drive = np.clip(table[:, 1], -grip * load, grip * load)
    velocity = wheel_rate - rise_rate
    damper = _force(damping[0], velocity) - _force(damping[1], -velocity)
    return AxleTrace(rise, rise_rate, wheel, wheel - rise, velocity, load, drive, damper)


def _force(side: Hinges, velocity: FloatArray) -> FloatArray:
    out = np.zeros_like(velocity)
    for knot, gain in zip(side.knots.T, side.gains.T, strict=True):
        out += gain[:, None] * np.maximum(velocity - knot[:, None], 0.0)
    return out


def energy_miss(half: Half, trace: Trace) -> FloatArray:
    """Return by how much the energy does not add up, as a share of all the work that went in or out; shape (m,).

    Energy held (motion, springs, gas, stops, tyres, height) against the work of drive, links and road less what the
    dampers took. A wrong sign or a force that acts on one body only shows here.
    """
    work = half.frame.height * (trace.front.drive + trace.rear.drive) * trace.pitch_rate
    held = 0.5 * half.sprung * trace.heave_rate**2 + 0.5 * half.pitch_inertia * trace.pitch_rate**2
    held = held + half.sprung * GRAVITY * trace.heave
    spent = np.zeros_like(work)
    for axle, moved, road in ((half.front, trace.front, 0), (half.rear, trace.rear, 1)):
        held = held + _held(axle, moved, trace.table[:, road])
        # The links push the body up and the wheel down by the same force.
        work = work - axle.slope * moved.drive * moved.velocity
        work = work + moved.load * np.gradient(trace.table[:, road], trace.time)
        spent = spent + moved.damper * moved.velocity
    step = trace.time[1] - trace.time[0]
    flow = (work[:, 1:] + work[:, :-1] - spent[:, 1:] - spent[:, :-1]) / 2 * step
    turned = (np.abs(work).sum(axis=1) + np.abs(spent).sum(axis=1)) * step
    miss = held[:, 1:] - held[:, :1] - np.cumsum(flow, axis=1)
    return np.asarray(np.abs(miss).max(axis=1) / np.maximum(turned, 1e-9))


def _held(axle: Axle, moved: AxleTrace, road: FloatArray) -> FloatArray:
    """Energy in springs, gas, stops, tyres and unsprung mass of an axle."""
    u = moved.travel
    spring = np.maximum(axle.spring * u + axle.preload, 0.0) ** 2 / (2 * axle.spring)
    # The spring carries `preload`; what else holds the body up at rest (the gas) is a constant force.
    steady = axle.sprung * GRAVITY - axle.preload
    stops = np.maximum(u - axle.bump, 0.0) ** 2 + np.maximum(-u - axle.droop, 0.0) ** 2
    tyre = np.maximum(axle.static_load + axle.tyre * (road - moved.wheel), 0.0) ** 2 / (2 * axle.tyre)
    wheel = axle.unsprung * (0.5 * (moved.velocity + moved.rise_rate) ** 2 + GRAVITY * moved.wheel)
    return np.asarray(spring + steady * u + axle.gas * u**2 / 2 + axle.stop_rate * stops / 2 + tyre + wheel)
