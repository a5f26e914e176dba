"""What people look at of a launch: travel, loads and forces; and whether the energy of the half-car adds up."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from dynoan.analysis.launch.model import Axle, HalfCar
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
