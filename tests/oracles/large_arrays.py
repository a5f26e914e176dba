"""Stepping the car at large angles: any number of settings, bands and roads side by side, as rows of arrays.

Fourth-order Runge-Kutta over whole arrays: a step costs about the same for one row and for fifty, and nothing has to be
compiled. The work done on the car is a state too, so that the energy can be held against it; a driver's foot stays.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np

from dynoan.analysis.launch.assumptions import FRICTION_GIVES, FRICTION_TURN
from dynoan.analysis.launch.large.layout import FOOT, FRONT, FRONT_SPIN, PITCH, RATES, REAR, STATES, WORK, X, Z
from dynoan.analysis.launch.large.model import LargeCar
from dynoan.analysis.launch.large.motion import Angle, AxleState, Push, accelerations, wheel_centre
from dynoan.analysis.launch.large.springs import path_at, suspension
from dynoan.analysis.launch.large.tyre import SLOWEST, SlipLaw
from dynoan.analysis.launch.model import Axle
from dynoan.analysis.launch.sides import Sides
from dynoan.model.arrays import FloatArray, IntArray
from dynoan.units import GRAVITY


@dataclass(frozen=True)
class Ground:
    """Roads as heights at even distances, and which of them each row drives over."""

    heights: FloatArray  #: from the start on, shape (roads, n) [m]
    spacing: float  #: [m]
    road: IntArray  #: of each row, shape (m,)

    def at(self, place: FloatArray) -> tuple[FloatArray, FloatArray]:
        """Return height and slope under places of the rows, by cubics through four heights; (m,) each. [m], [1]"""
        if self.heights.shape[1] < 4:
            return np.zeros_like(place), np.zeros_like(place)
        s = np.clip(place / self.spacing, 1.0, self.heights.shape[1] - 2.001)
        i = s.astype(int)
        w = s - i
        h0, h1, h2, h3 = (self.heights[self.road, i + k] for k in (-1, 0, 1, 2))
        c1, c2, c3 = (h2 - h0) / 2, h0 - 2.5 * h1 + 2 * h2 - h3 / 2, (h3 - h0) / 2 + 1.5 * (h1 - h2)
        return h1 + w * (c1 + w * (c2 + w * c3)), (c1 + w * (2 * c2 + w * 3 * c3)) / self.spacing


@dataclass(frozen=True)
class Pull:
    """What drives the rows: forces asked for, or torques with slip; at half steps."""

    force: FloatArray  #: asked at both axles together, by road or row alike, shape (2·steps + 1, m) [N]
    grip: FloatArray  #: that limits it, shape (m,); infinite where nothing does
    torque: FloatArray | None = (
        None  #: at the driven wheels together, shape (2·steps + 1, m); with it slip counts [N·m]
    )
    laws: tuple[SlipLaw, ...] = ()  #: of the surfaces
    law: IntArray | None = None  #: which of them each row stands on, shape (m,)
    falls: float = 0.0  #: by which power of its load over that at rest a tyre's grip falls [1]


class Stepper:
    """The right-hand side for rows of one car."""

    def __init__(self, car: LargeCar, damping: Sides, ground: Ground, pull: Pull) -> None:
        self.car, self.ground, self.pull = car, ground, pull
        half = car.half
        self.axles = (half.front, half.rear)
        self.body = (half.sprung, half.pitch_inertia)
        arms = half.arms
        self.places = (arms.front, -arms.rear)
        self.depth = car.height - car.radius
        self.knots = np.stack([side.knots.T for side in damping])  # (4, hinges, m)
        self.gains = np.stack([side.gains.T for side in damping])
        self.held = (half.front.sprung * GRAVITY, half.rear.sprung * GRAVITY)
        self.spins = pull.torque is not None

    def start(self, rows: int) -> FloatArray:
        """Return the states at rest, shape (STATES, m). [SI]"""
        y = np.zeros((STATES, rows))
        y[Z] = self.car.height
        return y

    def rates(self, y: FloatArray, at: int) -> tuple[FloatArray, dict[str, Any]]:
        """Return the states' rates at half step `at`, shape (STATES, m), and what acts. [SI]"""
        out = np.empty_like(y)
        angle = Angle(np.sin(y[PITCH]), np.cos(y[PITCH]), y[RATES + PITCH])
        dampers = self._dampers(y[RATES + FRONT], y[RATES + REAR])
        states, pushes, acts = [], [], []
        work = np.zeros(y.shape[1])
        for i, axle in enumerate(self.axles):
            state = AxleState(self.places[i], self.depth, axle.unsprung, y[FRONT + i], y[RATES + FRONT + i],
                              path_at(self.car.paths[i], y[FRONT + i]))  # fmt: skip
            push, act, gained = self._axle(i, y, state, angle, dampers[i], at)
            states.append(state)
            pushes.append(push)
            acts.append(act)
            work = work + gained
            out[FRONT_SPIN + i] = act["spun"]
        bar, other = self._body(y, angle)
        a = accelerations(self.body, (states[0], states[1]), angle, (pushes[0], pushes[1]), other)
        out[:RATES] = y[RATES : 2 * RATES]
        out[RATES + X], out[RATES + Z], out[RATES + PITCH] = a.x, a.z, a.pitch
        out[RATES + FRONT], out[RATES + REAR], out[WORK], out[FOOT] = a.front, a.rear, work, 0.0
        return out, {"axles": acts, "bar": bar, "states": states, "angle": angle, "dampers": dampers}

    def _dampers(self, front: FloatArray, rear: FloatArray) -> list[FloatArray]:
        v = np.stack([front, -front, rear, -rear])
        force = np.einsum("shm,shm->sm", self.gains, np.maximum(v[:, None, :] - self.knots, 0.0))
        return [force[0] - force[1], force[2] - force[3]]

    def _axle(
        self, i: int, y: FloatArray, state: AxleState, angle: Angle, damper: FloatArray, at: int
    ) -> tuple[Push, dict[str, Any], FloatArray]:
        axle, car = self.axles[i], self.car
        dx, dz, vx, vz = wheel_centre(state, angle)
        ahead, up = y[RATES + X] + vx, y[RATES + Z] + vz
        height = y[Z] + dz
        road, slope = self.ground.at(y[X] + dx - self.places[i] + (0.0 if i == 0 else -car.half.frame.wheelbase))
        squash = road - height + car.radius
        spring = np.maximum(axle.static_load + axle.tyre * squash, 0.0)
        damped = np.where(spring > 0, np.maximum(spring + car.tyre_damping[i] * (slope * ahead - up), 0.0), 0.0)
        arm = height - road
        force, torque, spun, slip = self._drive(i, y, damped, ahead, arm, at)
        gripping = np.arctanh(car.stuck[i]) / (1.0 + (state.travel / FRICTION_GIVES) ** 4)
        friction = car.friction[i] * np.tanh(state.rate / FRICTION_TURN + gripping) if car.friction[i] else 0.0
        s = self.held[i] + suspension(axle, state.travel) + damper + friction - car.stuck[i] * car.friction[i]
        turned = angle.rate + state.path.turn * state.rate
        work = force * ahead + torque * turned + spring * slope * ahead + (damped - spring) * up
        work = work - (damper + friction) * state.rate + car.spin[i] * spun * y[FRONT_SPIN + i]
        push = Push(force, damped - axle.unsprung * GRAVITY, s, torque)
        act = {"load": damped, "force": force, "spun": spun, "slip": slip, "height": height - car.radius, "up": up,
               "road": road, "spring": spring}  # fmt: skip
        return push, act, work

    def _drive(
        self, i: int, y: FloatArray, load: FloatArray, ahead: FloatArray, arm: FloatArray, at: int
    ) -> tuple[FloatArray, FloatArray, FloatArray, FloatArray]:
        share, pull = self.axles[i].share, self.pull
        none = np.zeros_like(load)
        if share == 0.0:
            return none, none, none, none
        if not self.spins:
            most = pull.grip * self._keeps(i, load) * load
            force = np.minimum(np.maximum(share * pull.force[at], -most), most)
            return force, force * arm, none, none
        speed = y[FRONT_SPIN + i]
        slip = (speed * self.car.radius - ahead) / np.maximum(np.abs(ahead), SLOWEST)
        keeps = self._keeps(i, load)
        force = load * keeps * _grip(pull, slip / keeps)
        over = share * pull.torque[at] - force * arm if pull.torque is not None else none
        return force, force * arm + self.car.through[i] * over, over / self.car.spin[i], slip

    def _keeps(self, i: int, load: FloatArray) -> FloatArray:
        """Return an axle's grip under its loads over that at rest; a tyre in the air has none to lose. [1]"""
        share = np.where(load > 0, load / self.axles[i].static_load, 1.0)
        return np.asarray(share**-self.pull.falls)

    def _body(self, y: FloatArray, angle: Angle) -> tuple[FloatArray, tuple[Any, Any, Any]]:
        weight = -self.body[0] * GRAVITY
        if self.car.bar is None:
            none = np.zeros(y.shape[1])
            return none, (0.0, weight, 0.0)
        ahead, up = self.places[1] - self.car.bar.behind, self.car.bar.above - self.car.height
        off = angle.cosine * ahead - angle.sine * up
        push = np.maximum(-self.car.bar.rate * (y[Z] + angle.sine * ahead + angle.cosine * up), 0.0)
        return push, (0.0, weight + push, push * off)

    def energy(self, y: FloatArray, acts: dict[str, Any]) -> FloatArray:
        """Return the energy held: motion, height, springs, stops, gas, tyres, bar; shape (m,). [J]"""
        angle, states = acts["angle"], acts["states"]
        total = kinetic(self.body, (states[0], states[1]), angle, (y[RATES + X], y[RATES + Z]))
        total = total + self.body[0] * GRAVITY * y[Z]
        for i, axle in enumerate(self.axles):
            act = acts["axles"][i]
            total = total + 0.5 * self.car.spin[i] * y[FRONT_SPIN + i] ** 2
            total = total + axle.unsprung * GRAVITY * act["height"] + act["spring"] ** 2 / (2 * axle.tyre)
            total = total + stored(axle, y[FRONT + i]) + self.held[i] * y[FRONT + i]
            total = total - self.car.stuck[i] * self.car.friction[i] * y[FRONT + i]
        if self.car.bar is not None:
            total = total + acts["bar"] ** 2 / (2 * self.car.bar.rate)
        return np.asarray(total)


def _grip(pull: Pull, slip: FloatArray) -> FloatArray:
    if len(pull.laws) == 1 or pull.law is None:
        return pull.laws[0].at(slip)
    shape, factor, grip = (
        np.array([getattr(law, n) for law in pull.laws])[pull.law] for n in ("shape", "factor", "grip")
    )
    return np.asarray(grip * np.sin(shape * np.arctan(factor * slip)))


def kinetic(
    body: tuple[float, float], axles: tuple[AxleState, AxleState], angle: Angle, speed: tuple[FloatArray, FloatArray]
) -> FloatArray:
    """Return the kinetic energy of body and wheels, the spin of the wheels aside, of the shape of the state. [J]"""
    vx, vz = speed
    total = 0.5 * body[0] * (vx * vx + vz * vz) + 0.5 * body[1] * angle.rate * angle.rate
    for axle in axles:
        _, _, dx, dz = wheel_centre(axle, angle)
        total = total + 0.5 * axle.mass * ((vx + dx) ** 2 + (vz + dz) ** 2)
    return np.asarray(total)


def stored(axle: Axle, u: FloatArray) -> FloatArray:
    """Return the energy of `suspension`, of the travel's shape. [J]

    Parameters
    ----------
    axle, u
        As there.
    """
    spring = np.maximum(axle.spring * u + axle.preload, 0.0) ** 2 / (2 * axle.spring) - axle.preload * u
    bump, droop = axle.hinges
    for way, hinges in ((1.0, bump), (-1.0, droop)):
        for at, rate in hinges:
            spring = spring + rate * np.maximum(way * u - at, 0.0) ** 2 / 2
    return np.asarray(spring + axle.gas * u**2 / 2)
