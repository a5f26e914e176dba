"""A car leaving the line at any angle by Lagrange's equations in its own five coordinates; from the physics alone.

Coordinates: place and height of the sprung mass's centre, pitch (nose up), front and rear wheel travel (up, from rest).
Wheels ride on paths fixed in the body: the front straight along the body's vertical, the rear where rods or an arm
let it. No constraint forces, no small angles. Numbers are of both wheels of an axle. SI.
"""

from __future__ import annotations

from dataclasses import dataclass, field

import numpy as np
from scipy.integrate import solve_ivp
from scipy.interpolate import make_interp_spline
from scipy.optimize import fsolve

G = 9.80665
#: reach of the tables of a wheel's path about rest [m], and their step
REACH, STEP = 0.16, 0.002
#: speed over which seal friction turns its sign [m/s]
STICK = 0.002


@dataclass(frozen=True)
class Axle:
    """Both wheels of an axle, all at the wheel."""

    unsprung: float
    spring: float
    tyre: float
    damping: object  #: force over wheel speed, both wheels
    tyre_damping: float = 0.0
    friction: float = 0.0
    bump: float = 1.0  #: travel to the stop
    droop: float = 1.0
    bump_stop: tuple = ((0.0, 0.0), (1.0, 600e3))  #: squeezed, force; its last slope goes on
    droop_stop: tuple = ((0.0, 0.0), (1.0, 600e3))


@dataclass(frozen=True)
class Whole:
    """The car: masses, lengths, links as points ahead of and above the ground under the rear axle."""

    mass: float
    to_rear: float  #: centre of gravity ahead of the rear axle
    wheelbase: float
    height: float
    inertia: float  #: of the sprung mass in pitch
    radius: float
    front: Axle
    rear: Axle
    rods: tuple = ()  #: pairs of (end at the axle, end at the body)
    pivot: tuple | None = None  #: of a swing arm fixed to the axle
    torque_on_body: bool = False
    spin: float = 0.0  #: inertia of both driven wheels about their axle, which roll without slip

    @property
    def sprung(self):
        return self.mass - self.front.unsprung - self.rear.unsprung

    @property
    def centre(self):
        """Sprung mass's centre, ahead of the rear axle and above the ground."""
        ahead = (self.mass * self.to_rear - self.front.unsprung * self.wheelbase) / self.sprung
        up = (self.mass * self.height - (self.mass - self.sprung) * self.radius) / self.sprung
        return ahead, up


def path(car):
    """Rear wheel centre's way ahead and the axle's turn (nose up) in the body's frame, against its travel."""
    travels = np.arange(-REACH, REACH + STEP / 2, STEP)
    if car.pivot is not None:
        ahead, up = car.pivot[0], car.pivot[1] - car.radius
        length, rest = np.hypot(ahead, up), np.arctan2(up, ahead)
        turns = np.arcsin((up - travels) / length) - rest
        ways = ahead - length * np.cos(rest + turns)
        found = np.column_stack([ways, turns])
    elif car.rods:
        found = rod_path(car, travels)
    else:
        found = np.zeros((len(travels), 2))
    spline = make_interp_spline(travels, found, k=5)
    return spline, spline.derivative(), spline.derivative(2)


def rod_path(car, travels):
    ends = [(np.array(a) - (0, car.radius), np.array(b) - (0, car.radius)) for a, b in car.rods]
    lengths = [np.linalg.norm(a - b) for a, b in ends]

    def off(unknown, up):
        way, turn = unknown
        c, s = np.cos(turn), np.sin(turn)
        wheel = np.array([way, up])
        return [
            np.linalg.norm(wheel + np.array([c * a[0] - s * a[1], s * a[0] + c * a[1]]) - b) - length
            for (a, b), length in zip(ends, lengths, strict=True)
        ]

    out = np.zeros((len(travels), 2))
    rest = len(travels) // 2
    for order in (range(rest, len(travels)), range(rest, -1, -1)):
        last = np.zeros(2)
        for i in order:
            last = fsolve(off, last, args=(travels[i],), xtol=1e-10)
            out[i] = last
    return out


def stop(curve, squeezed):
    travel, force = np.array(curve).T
    if squeezed <= travel[-1]:
        return float(np.interp(squeezed, travel, force))
    return float(force[-1] + (force[-1] - force[-2]) / (travel[-1] - travel[-2]) * (squeezed - travel[-1]))


def strut(axle, rest, u, v):
    """What spring, stops, damper and seals push body and wheel apart with, and the part that turns to heat."""
    held = (
        max(rest + axle.spring * u, 0.0) + stop(axle.bump_stop, u - axle.bump) - stop(axle.droop_stop, -u - axle.droop)
    )
    return held, axle.damping(v) + axle.friction * np.tanh(v / STICK)


@dataclass
class Ran:
    time: np.ndarray
    states: np.ndarray  #: x, z, pitch, front, rear travel and their speeds
    loads: np.ndarray  #: front, rear
    drive: np.ndarray
    wheels: np.ndarray  #: heights of the wheel centres, front and rear, above their rest
    over: float | None  #: when the mass centre of the whole car came to stand behind the rear contact patch
    parts: dict = field(default_factory=dict)


class Motion:
    """The equations of one car under one drive, a function of time, rear load and forward speed."""

    def __init__(self, car, drive, road=None):
        self.road = road or (lambda end, place: (0.0, 0.0))  #: its height under a wheel, and its slope
        self.car, self.drive, (self.way, self.way1, self.way2) = car, drive, path(car)
        ahead, up = car.centre
        self.at = (np.array([car.wheelbase - ahead, car.radius - up]), np.array([-ahead, car.radius - up]))
        self.rest_z = up
        self.ups = np.arange(-REACH, REACH, 1e-5)  #: so fine that straight lines between are exact enough
        self.ways = [of(self.ups)[:, 0] for of in (self.way, self.way1, self.way2)]
        self.turning = self.way1(self.ups)[:, 1]
        share = ahead / car.wheelbase
        self.rest = (car.sprung * G * share, car.sprung * G * (1 - share))
        self.squeezed = tuple(
            (rest + axle.unsprung * G) / axle.tyre for rest, axle in zip(self.rest, (car.front, car.rear), strict=True)
        )

    def wheel(self, end, q):
        """Place of a wheel centre in the body's frame and its first and second derivatives by travel."""
        u = q[3 + end]
        if end == 0:
            return self.at[0] + (0, u), np.array([0.0, 1.0]), np.zeros(2)
        way, slope, bend = (float(np.interp(u, self.ups, of)) for of in self.ways)
        return self.at[1] + (way, u), np.array([slope, 1.0]), np.array([bend, 0.0])

    def seen(self, end, q, p):
        """A wheel's place, its Jacobian and what of its acceleration no second derivative of q brings."""
        c, s = np.cos(q[2]), np.sin(q[2])
        turn, turned = np.array([[c, -s], [s, c]]), np.array([[-s, -c], [c, -s]])
        point, first, second = self.wheel(end, q)
        jacobian = np.zeros((2, 5))
        jacobian[0, 0] = jacobian[1, 1] = 1.0
        jacobian[:, 2], jacobian[:, 3 + end] = turned @ point, turn @ first
        spin, u = p[2], p[3 + end]
        bias = -(spin**2) * (turn @ point) + 2 * spin * u * (turned @ first) + u**2 * (turn @ second)
        return q[:2] + turn @ point, jacobian, bias

    def forces(self, t, q, p):
        car, found = self.car, {}
        for end, axle in enumerate((car.front, car.rear)):
            place, jacobian, bias = self.seen(end, q, p)
            up, slope = self.road(end, place[0])
            squeezed = self.squeezed[end] - (place[1] - up - car.radius)
            ahead, lifting = jacobian @ p
            speed = slope * ahead - lifting
            load = max(axle.tyre * squeezed + axle.tyre_damping * speed, 0.0) if squeezed > 0 else 0.0
            found[end] = place, jacobian, bias, load, strut(axle, self.rest[end], q[3 + end], p[3 + end])
        rear = found[1]
        return found, self.drive(t, rear[3], (rear[1] @ p)[0])

    def rates(self, t, y):
        car, q, p = self.car, y[:5], y[5:10]
        found, thrust = self.forces(t, q, p)
        mass = np.diag([car.sprung, car.sprung, car.inertia, 0.0, 0.0])
        given = np.array([0.0, -car.sprung * G, 0.0, 0.0, 0.0])
        for end, axle in enumerate((car.front, car.rear)):
            _, jacobian, bias, load, (held, lost) = found[end]
            mass = mass + axle.unsprung * jacobian.T @ jacobian
            given = given + jacobian.T @ (np.array([thrust * end, load - axle.unsprung * G]) - axle.unsprung * bias)
            given[3 + end] -= held + lost
        #: of the shafts on the wheels: what the contact patch asks and what spins the wheels up
        torque = thrust * (found[1][0][1] + car.spin / (car.mass * car.radius))
        given[2] += torque
        if not car.torque_on_body:
            given[4] += torque * float(np.interp(q[4], self.ups, self.turning))
        return np.concatenate([p, np.linalg.solve(mass, given), [self.power(found, thrust, torque, q, p)]])

    def power(self, found, thrust, torque, q, p):
        """What goes in by the drive less what goes to heat in dampers and tyres."""
        turning = p[2] + (0.0 if self.car.torque_on_body else float(np.interp(q[4], self.ups, self.turning)) * p[4])
        total = thrust * (found[1][1] @ p)[0] + torque * turning
        for end, axle in enumerate((self.car.front, self.car.rear)):
            place, jacobian, _, load, (_, lost) = found[end]
            squeezed = max(self.squeezed[end] - (place[1] - self.car.radius), 0.0)
            total += (load - axle.tyre * squeezed) * (jacobian @ p)[1] - lost * p[3 + end]
        return total

    def energy(self, q, p):
        """Kinetic and stored energy."""
        car = self.car
        total = car.sprung * (p[0] ** 2 + p[1] ** 2) / 2 + car.inertia * p[2] ** 2 / 2 + car.sprung * G * q[1]
        for end, axle in enumerate((car.front, car.rear)):
            place, jacobian, _ = self.seen(end, q, p)
            total += axle.unsprung * (np.sum((jacobian @ p) ** 2) / 2 + G * place[1])
            squeezed = max(self.squeezed[end] - (place[1] - car.radius), 0.0)
            ways = np.linspace(0.0, q[3 + end], 4001)
            held = [strut(axle, self.rest[end], u, 0.0)[0] for u in ways]
            total += axle.tyre * squeezed**2 / 2 + np.trapezoid(held, ways)
        return total


def stepped(motion, start, duration, step, fine=1e-3):
    """Runge and Kutta's fourth order by fixed steps, for rough roads; times, and states as columns."""
    every, y, out = round(step / fine), start, [start]
    count = round(duration / fine)
    for i in range(count):
        t = i * fine
        a = motion.rates(t, y)
        b = motion.rates(t + fine / 2, y + fine / 2 * a)
        c = motion.rates(t + fine / 2, y + fine / 2 * b)
        d = motion.rates(t + fine, y + fine * c)
        y = y + fine / 6 * (a + 2 * b + 2 * c + d)
        if (i + 1) % every == 0:
            out.append(y)
    return np.arange(len(out)) * step, np.array(out).T


def leave(car, drive, duration, step=0.002, *, over=True, road=None):
    """Run a car; `drive(t, load, speed)` is the force at the driven contact patches."""
    motion = Motion(car, drive, road)
    start = np.concatenate([[0.0, motion.rest_z], np.zeros(9)])

    def behind(_t, y):
        ends = [motion.seen(end, y[:5], y[5:10])[0] for end in (0, 1)]
        masses = (car.front.unsprung, car.rear.unsprung)
        centre = (car.sprung * y[0] + sum(m * e[0] for m, e in zip(masses, ends, strict=True))) / car.mass
        return centre - ends[1][0]

    behind.terminal, behind.direction = over, -1
    times = np.arange(0.0, duration + step / 2, step)
    if road is None:
        solved = solve_ivp(
            motion.rates, (0, duration), start, "LSODA", t_eval=times, rtol=1e-6, atol=1e-8, max_step=0.01,
            events=behind,
        )  # fmt: skip
        time, y, ended = solved.t, solved.y, solved.t_events[0]
    else:
        (time, y), ended = stepped(motion, start, duration, step), ()
    each = [motion.forces(t, s[:5], s[5:10]) for t, s in zip(time, y.T, strict=True)]
    loads = np.array([[found[0][3], found[1][3]] for found, _ in each]).T
    wheels = np.array([[found[0][0][1], found[1][0][1]] for found, _ in each]).T - car.radius
    when = float(ended[0]) if len(ended) else None
    return Ran(time, y, loads, np.array([f for _, f in each]), wheels, when, {"motion": motion})
