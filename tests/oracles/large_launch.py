"""A launch at large angles, written from the physics alone: bodies, links and constraint forces.

Three bodies in the plane (x ahead, z up, angles nose up): the sprung body, the front wheels as a point on a straight
guide of the body, the rear axle as a rigid body held by two rods of fixed length. The rods and the guide are
constraints with Lagrange multipliers, kept by Baumgarte's method; scipy integrates. Nothing here is minimal
coordinates, path slopes or instant centres: what the links do comes out of the rods' forces.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass, field

import numpy as np
from scipy.integrate import solve_ivp

G = 9.80665
STIFF = 200.0  #: Baumgarte: errors of the constraints die at this rate [1/s]


@dataclass(frozen=True)
class Rods:
    """The side-view links of the rear axle: points from the ground under the axle, ahead and up, at rest. [m]"""

    axle: tuple[tuple[float, float], tuple[float, float]]  #: lower, upper
    body: tuple[tuple[float, float], tuple[float, float]]


@dataclass(frozen=True)
class World:
    """The car and what is done to it. SI; both wheels of an axle together."""

    sprung: float
    inertia: float
    front: float  #: unsprung mass
    rear: float
    to_front: float  #: sprung centre of gravity to the front axle
    to_rear: float
    height: float  #: of the sprung centre of gravity
    radius: float  #: loaded, at rest
    tyre: tuple[float, float]  #: rates, front and rear
    rods: Rods
    #: force in compression beyond the static one, of travel and its rate; front and rear
    springs: tuple[Callable[[float, float], float], Callable[[float, float], float]]
    #: drive force at the rear, of time and tyre load; the torque is that force times the loaded radius
    drive: Callable[[float, float], float] = lambda _t, _n: 0.0
    bar: tuple[float, float, float] | None = None  #: wheelie bar: behind the rear axle, above the ground, rate
    tyre_damping: tuple[float, float] = (0.0, 0.0)
    torque: Callable[[float, float], float] | None = None  #: of time and wheel speed, in the place of `drive`
    slip: Callable[[float, float], float] | None = None  #: tyre force of slip and load
    spin: float = 1.0  #: inertia of both driven wheels
    engine: float = 0.0  #: inertia of what drives them, as the wheels feel it; it takes its torque before the axle
    slowest: float = 3.0  #: speed below which slip is over this
    #: a driver who lifts: the slip he holds, the time his foot needs from floor to off, and how far it is down at first
    driver: tuple[float, float, float] | None = None
    #: force of brakes that hold the front wheels, of time, place and speed of their centre: their tyres push so
    brake: Callable[[float, float, float], float] = lambda _t, _x, _v: 0.0
    extra: dict[str, float] = field(default_factory=dict)

    @property
    def static(self) -> tuple[float, float]:
        base = self.to_front + self.to_rear
        return (
            G * (self.sprung * self.to_rear / base + self.front),
            G * (self.sprung * self.to_front / base + self.rear),
        )


@dataclass(frozen=True)
class Ran:
    time: np.ndarray
    heave: np.ndarray
    pitch: np.ndarray
    x: np.ndarray
    front_wheel: np.ndarray  #: height of the centre above rest
    rear_wheel: np.ndarray
    front_load: np.ndarray
    rear_load: np.ndarray
    wheel_speed: np.ndarray  #: of the rear tyres' tread [m/s]
    over: float | None  #: when the centre of gravity passed over the rear wheels
    front_travel: np.ndarray  #: along the body's guide, compression positive
    rear_travel: np.ndarray
    rear_x: np.ndarray  #: of the rear wheels' centre
    foot: np.ndarray  #: how far down the driver's foot is


def run(world: World, duration: float, step: float = 1e-3) -> Ran:
    """Integrate the launch."""
    w = world
    start = np.zeros(18)
    start[:8] = [0.0, w.height, 0.0, w.to_front, w.radius, -w.to_rear, w.radius, 0.0]
    start[17] = 0.0 if w.driver is None else w.driver[2]

    def behind(_t: float, y: np.ndarray) -> float:
        return float(y[0] - y[5])  # centre of gravity ahead of the rear wheels

    behind.terminal = True  # type: ignore[attr-defined]
    at = np.arange(0.0, duration + step / 2, step)
    found = solve_ivp(lambda t, y: _rates(w, t, y), (0.0, duration), start, method="LSODA", t_eval=at, events=behind,
                      rtol=1e-8, atol=1e-10, max_step=5e-3)  # fmt: skip
    y = found.y
    front, rear = (np.array([_load(w, i, *of) for of in y[[z, z + 8]].T.tolist()]) for i, z in enumerate((4, 6)))
    over = float(found.t_events[0][0]) if len(found.t_events[0]) else None
    travels = [
        -np.sin(y[2]) * (y[at] - y[0]) + np.cos(y[2]) * (y[at + 1] - y[1]) + w.height - w.radius for at in (3, 5)
    ]
    return Ran(found.t, y[1] - w.height, y[2], y[0], y[4] - w.radius, y[6] - w.radius, front, rear,
               y[16] * w.radius, over, *travels, y[5], y[17])  # fmt: skip


def under_load(grip: float, load: float, falls: float, static: float) -> float:
    """Return the grip under a load, whose logarithm falls in proportion to that of the load."""
    return math.exp(math.log(grip) - falls * (math.log(load) - math.log(static))) if load > 0 else grip


def falling_grip(
    peak: float, sliding: float, steep: float, falls: float = 0.0, static: float = 1.0
) -> Callable[[float, float], float]:
    """Return the force of slip and load of a tyre that grips less when it spins.

    ``X = N μ sin(C atan(B κ))``: C so that endless slip leaves the sliding grip, B so that the slope at no slip is
    `steep`; both found by bisection, of nothing but those two sentences. Under another load than the static one μ is
    another, and the slope at no slip the same.
    """

    def root(off: Callable[[float], float], low: float, high: float) -> float:
        for _ in range(200):
            middle = (low + high) / 2
            low, high = (middle, high) if off(middle) > 0 else (low, middle)
        return (low + high) / 2

    shape = root(lambda c: math.sin(c * math.pi / 2) - sliding / peak, 1.0, 2.0)
    small = 1e-9
    factor = root(lambda b: steep - peak * math.sin(shape * math.atan(b * small)) / small, 0.0, 1e4)

    def of(kappa: float, n: float) -> float:
        most = under_load(peak, n, falls, static)
        return n * most * math.sin(shape * math.atan(factor * peak / most * kappa))

    return of


def _load(w: World, i: int, z: float, vz: float) -> float:
    """Return what an axle's tyres push with, of the height and the rate of their wheels' centre."""
    elastic = w.static[i] + w.tyre[i] * (w.radius - z)
    return max(elastic - w.tyre_damping[i] * vz, 0.0) if elastic > 0 else 0.0


def _rates(w: World, t: float, y: np.ndarray) -> np.ndarray:
    """State: x, z, θ of the body; x, z front; x, z, φ rear; their rates; wheel speed; how far down the foot is.

    In plain numbers: arrays of two take ten times as long, and a launch asks for this ten thousand times.
    """
    q, v, spin, foot = y[:8].tolist(), y[8:16].tolist(), float(y[16]), float(y[17])
    sin, cos = math.sin(q[2]), math.cos(q[2])  # the body's axes are (cos, sin) ahead and (−sin, cos) up
    force = [0.0, -w.sprung * G, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0]
    for i, (m, at) in enumerate(((w.front, 3), (w.rear, 5))):
        force[at + 1] += _load(w, i, q[at + 1], v[at + 1]) - m * G
        rx, rz = q[at] - q[0], q[at + 1] - q[1]
        along = -sin * rx + cos * rz
        rate = -sin * (v[at] - v[0]) + cos * (v[at + 1] - v[1]) - v[2] * (cos * rx + sin * rz)
        s = w.static[i] - m * G + w.springs[i](along + w.height - w.radius, rate)
        force[at] += s * sin
        force[at + 1] -= s * cos
        force[0] -= s * sin
        force[1] += s * cos
        force[2] += s * (rx * cos + rz * sin)
    spun, moved = _driven(w, t, q, v, spin, foot, force)
    held = w.brake(t, q[3], v[3])
    force[3] += held
    force[2] += held * q[4]  # the knuckles pass the braking torque to the body
    if w.bar is not None:
        back, up, rate_of_bar = w.bar
        ahead, above = -w.to_rear - back, up - w.height
        push = max(-rate_of_bar * (q[1] + ahead * sin + above * cos), 0.0)
        force[1] += push
        force[2] += push * (ahead * cos - above * sin)
    rows, right = _constraints(w, q, v)
    system = np.zeros((11, 11))
    inert = (w.sprung, w.sprung, w.inertia, w.front, w.front, w.rear, w.rear, w.extra.get("axle_inertia", 1e-3))
    np.fill_diagonal(system[:8, :8], inert)
    system[8:, :8] = rows
    system[:8, 8:] = system[8:, :8].T
    a = np.linalg.solve(system, np.array([*force, *right]))[:8]
    return np.array([*v, *a, spun, moved])


def _driven(
    w: World, t: float, q: list[float], v: list[float], spin: float, foot: float, force: list[float]
) -> tuple[float, float]:
    """Add what drives to the forces; return how fast the wheels spin up, and how fast the foot goes down."""
    arm, load = q[6], _load(w, 1, q[6], v[6])
    spun = moved = 0.0
    if w.torque is None:
        x = w.drive(t, load)
        torque = x * arm
    else:
        assert w.slip is not None
        kappa = (spin * w.radius - v[5]) / max(abs(v[5]), w.slowest)
        x, made = w.slip(kappa, load), w.torque(t, spin)
        if w.driver is not None:
            held, fastest, _ = w.driver
            moved = min(max(1.0 - kappa / held, -1.0), 1.0) / fastest
            # He comes to the ends of the pedal within a thousandth of it: one that stopped dead would hold up the steps
            moved *= min(max((foot if moved < 0 else 1.0 - foot) / 1e-3, 0.0), 1.0)
            made *= min(max(foot, 0.0), 1.0)
        spun = (made - x * arm) / (w.spin + w.engine)
        torque = made - w.engine * spun  # what is left for the axle and its links
    force[5] += x
    force[7] += torque
    return spun, moved


def _constraints(w: World, q: list[float], v: list[float]) -> tuple[list[list[float]], list[float]]:
    """Rows of the Jacobian and what they must give: guide of the front wheels, two rods of the rear axle."""
    sin, cos = math.sin(q[2]), math.cos(q[2])
    rx, rz, rvx, rvz = q[3] - q[0], q[4] - q[1], v[3] - v[0], v[4] - v[1]
    ahead, up = rx * cos + rz * sin, -rx * sin + rz * cos
    gone = rvx * cos + rvz * sin + v[2] * up  # the guide's rate
    bias = 2 * v[2] * (-rvx * sin + rvz * cos) - v[2] ** 2 * ahead
    rows = [[-cos, -sin, up, cos, sin, 0.0, 0.0, 0.0]]
    right = [-bias - 2 * STIFF * gone - STIFF**2 * (ahead - w.to_front)]
    of_axle = math.sin(q[7]), math.cos(q[7])
    for on_axle, on_body in zip(w.rods.axle, w.rods.body, strict=True):
        pa = _turned(*of_axle, on_axle[0], on_axle[1] - w.radius)  # from the wheel centre
        pb = _turned(sin, cos, on_body[0] - w.to_rear, on_body[1] - w.height)  # from the body's centre of gravity
        length2 = (on_axle[0] - on_body[0]) ** 2 + (on_axle[1] - on_body[1]) ** 2
        dx, dz = q[5] + pa[0] - q[0] - pb[0], q[6] + pa[1] - q[1] - pb[1]
        dvx, dvz = v[5] - v[7] * pa[1] - v[0] + v[2] * pb[1], v[6] + v[7] * pa[0] - v[1] - v[2] * pb[0]
        rows.append([-dx, -dz, dx * pb[1] - dz * pb[0], 0.0, 0.0, dx, dz, -dx * pa[1] + dz * pa[0]])
        spin2, turn2 = v[7] ** 2, v[2] ** 2
        bias = dvx**2 + dvz**2 + dx * (turn2 * pb[0] - spin2 * pa[0]) + dz * (turn2 * pb[1] - spin2 * pa[1])
        right.append(-bias - 2 * STIFF * (dx * dvx + dz * dvz) - STIFF**2 * 0.5 * (dx**2 + dz**2 - length2))
    return rows, right


def _turned(sin: float, cos: float, x: float, z: float) -> tuple[float, float]:
    return cos * x - sin * z, sin * x + cos * z
