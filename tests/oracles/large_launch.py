"""A launch at large angles, written from the physics alone: bodies, links and constraint forces.

Three bodies in the plane (x ahead, z up, angles nose up): the sprung body, the front wheels as a point on a straight
guide of the body, the rear axle as a rigid body held by two rods of fixed length. The rods and the guide are
constraints with Lagrange multipliers, kept by Baumgarte's method; scipy integrates. Nothing here is minimal
coordinates, path slopes or instant centres: what the links do comes out of the rods' forces.
"""

from __future__ import annotations

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
    found = solve_ivp(lambda t, y: _rates(w, t, y)[0], (0.0, duration), start, method="LSODA", t_eval=at, events=behind,
                      rtol=1e-8, atol=1e-10, max_step=5e-3)  # fmt: skip
    y = found.y
    loads = np.array([_rates(w, t, s)[1] for t, s in zip(found.t, y.T, strict=True)])
    over = float(found.t_events[0][0]) if len(found.t_events[0]) else None
    travels = [
        -np.sin(y[2]) * (y[at] - y[0]) + np.cos(y[2]) * (y[at + 1] - y[1]) + w.height - w.radius for at in (3, 5)
    ]
    return Ran(found.t, y[1] - w.height, y[2], y[0], y[4] - w.radius, y[6] - w.radius, loads[:, 0], loads[:, 1],
               y[16] * w.radius, over, *travels, y[5], y[17])  # fmt: skip


def falling_grip(peak: float, sliding: float, steep: float) -> Callable[[float, float], float]:
    """Return the force of slip and load of a tyre that grips less when it spins.

    ``X = N μ sin(C atan(B κ))``: C so that endless slip leaves the sliding grip, B so that the slope at no slip is
    `steep`; both found by bisection, of nothing but those two sentences.
    """

    def root(off: Callable[[float], float], low: float, high: float) -> float:
        for _ in range(200):
            middle = (low + high) / 2
            low, high = (middle, high) if off(middle) > 0 else (low, middle)
        return (low + high) / 2

    shape = root(lambda c: float(np.sin(c * np.pi / 2)) - sliding / peak, 1.0, 2.0)
    small = 1e-9
    factor = root(lambda b: steep - peak * float(np.sin(shape * np.arctan(b * small))) / small, 0.0, 1e4)
    return lambda kappa, n: n * peak * float(np.sin(shape * np.arctan(factor * kappa)))


def _rates(w: World, t: float, y: np.ndarray) -> tuple[np.ndarray, tuple[float, float]]:
    """State: x, z, θ of the body; x, z front; x, z, φ rear; their rates; wheel speed; how far down the foot is."""
    q, v = y[:8], y[8:16]
    c, th = q[:2], q[2]
    e1, e2 = np.array([np.cos(th), np.sin(th)]), np.array([-np.sin(th), np.cos(th)])
    mass = np.diag([w.sprung, w.sprung, w.inertia, w.front, w.front, w.rear, w.rear, w.extra.get("axle_inertia", 1e-3)])
    force = np.zeros(8)
    force[1] -= w.sprung * G
    loads = []
    for i, (m, at) in enumerate(((w.front, 3), (w.rear, 5))):
        p, pv = q[at : at + 2], v[at : at + 2]
        n = max(w.static[i] + w.tyre[i] * (w.radius - p[1]) - w.tyre_damping[i] * pv[1], 0.0) if (
            w.static[i] + w.tyre[i] * (w.radius - p[1]) > 0) else 0.0  # fmt: skip
        loads.append(n)
        force[at + 1] += n - m * G
        r, rv = p - c, pv - v[:2]
        along = float(r @ e2)
        rate = float(rv @ e2) + v[2] * float(r @ -e1)
        depth = w.height - w.radius
        base = w.static[i] - m * G
        s = base + w.springs[i](along + depth, rate)
        force[at : at + 2] -= s * e2
        force[:2] += s * e2
        force[2] += s * (r[0] * e2[1] - r[1] * e2[0])
    arm = q[6]
    moved = 0.0
    if w.torque is None:
        x = w.drive(t, loads[1])
        torque, spun = x * arm, 0.0
    else:
        assert w.slip is not None
        kappa = (y[16] * w.radius - v[5]) / max(abs(v[5]), w.slowest)
        x, made = w.slip(kappa, loads[1]), w.torque(t, y[16])
        if w.driver is not None:
            held, fastest, _ = w.driver
            moved = float(np.clip(1.0 - kappa / held, -1.0, 1.0)) / fastest
            # He comes to the ends of the pedal within a thousandth of it: one that stopped dead would hold up the steps
            moved *= float(np.clip((y[17] if moved < 0 else 1.0 - y[17]) / 1e-3, 0.0, 1.0))
            made *= float(np.clip(y[17], 0.0, 1.0))
        spun = (made - x * arm) / (w.spin + w.engine)
        torque = made - w.engine * spun  # what is left for the axle and its links
    force[5] += x
    force[7] += torque
    held = w.brake(t, q[3], v[3])
    force[3] += held
    force[2] += held * q[4]  # the knuckles pass the braking torque to the body
    if w.bar is not None:
        back, up, rate_of_bar = w.bar
        local = np.array([-w.to_rear - back, up - w.height])
        place = c + local[0] * e1 + local[1] * e2
        push = max(-rate_of_bar * place[1], 0.0)
        force[1] += push
        force[2] += push * (place[0] - c[0])
    rows, right = _constraints(w, q, v, e1, e2)
    k = len(right)
    system = np.block([[mass, rows.T], [rows, np.zeros((k, k))]])
    a = np.linalg.solve(system, np.concatenate([force, right]))[:8]
    return np.concatenate([v, a, [spun, moved]]), (loads[0], loads[1])


def _constraints(
    w: World, q: np.ndarray, v: np.ndarray, e1: np.ndarray, e2: np.ndarray
) -> tuple[np.ndarray, np.ndarray]:
    """Rows of the Jacobian and what they must give: guide of the front wheels, two rods of the rear axle."""
    rows, right = [], []
    r, rv = q[3:5] - q[:2], v[3:5] - v[:2]
    row = np.zeros(8)
    row[:2], row[3:5], row[2] = -e1, e1, float(r @ e2)
    bias = 2 * v[2] * float(rv @ e2) - v[2] ** 2 * float(r @ e1)
    rows.append(row)
    right.append(-bias - 2 * STIFF * float(row @ v) - STIFF**2 * (float(r @ e1) - w.to_front))
    turn = lambda a, p: np.array([np.cos(a) * p[0] - np.sin(a) * p[1], np.sin(a) * p[0] + np.cos(a) * p[1]])  # noqa: E731
    for on_axle, on_body in zip(w.rods.axle, w.rods.body, strict=True):
        la = np.array([on_axle[0], on_axle[1] - w.radius])  # from the wheel centre
        lb = np.array([on_body[0] - w.to_rear, on_body[1] - w.height])  # from the body's centre of gravity
        length2 = (on_axle[0] - on_body[0]) ** 2 + (on_axle[1] - on_body[1]) ** 2
        pa, pb = turn(q[7], la), turn(q[2], lb)
        d = q[5:7] + pa - q[:2] - pb
        na, nb = np.array([-pa[1], pa[0]]), np.array([-pb[1], pb[0]])
        dv = v[5:7] + v[7] * na - v[:2] - v[2] * nb
        row = np.zeros(8)
        row[5:7], row[7], row[:2], row[2] = d, float(d @ na), -d, -float(d @ nb)
        bias = float(dv @ dv) + float(d @ (-(v[7] ** 2) * pa + v[2] ** 2 * pb))
        rows.append(row)
        right.append(-bias - 2 * STIFF * float(d @ dv) - STIFF**2 * 0.5 * (float(d @ d) - length2))
    return np.array(rows), np.array(right)
