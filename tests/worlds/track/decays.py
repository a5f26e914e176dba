"""Made decays of a pushed corner: a quarter car with a nonlinear shock, friction and a tyre, and what a logger wrote.

The body (mass m) stands on spring, shock and friction, those on the wheel (mass u), that on the tyre. A hand pushes the
body down, holds, and lets go. The shock's force is a law of its own shape for each direction; friction is a bristle
(Dahl): stiff until it slides. Everything at the wheel, SI, positive in compression.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

GRAVITY = 9.80665
STEP = 2.5e-4  #: of the integration [s]


@dataclass(frozen=True)
class Corner:
    """A corner as it truly is, at the wheel."""

    sprung: float  #: [kg]
    unsprung: float  #: [kg]
    spring: float  #: [N/m]
    tyre: float  #: [N/m]
    tyre_damping: float  #: [N s/m]
    slow: tuple[float, float]  #: slope of the shock's force near zero speed, compression and rebound [N s/m]
    fast: tuple[float, float]  #: the same far above the knee [N s/m]
    knee: float  #: speed about which it turns [m/s]
    friction: float  #: [N]
    shock_ratio: float  #: shock travel per wheel travel

    def damping(self, v):
        """Force of the shock at a speed: steep, then less so, turning smoothly over the knee."""
        side = np.where(v > 0, 0, 1)
        slow, fast = np.take(self.slow, side), np.take(self.fast, side)
        speed = np.abs(v)
        return np.sign(v) * (fast * speed + (slow - fast) * self.knee * np.log1p(speed / self.knee))


@dataclass(frozen=True)
class Decay:
    """What was logged, and what was true."""

    corner: Corner
    time: np.ndarray  #: [s]
    travel: np.ndarray  #: of the shock, as logged [m]
    axes: np.ndarray  #: of a phone on the body, shape (n, 3) [m/s²]
    frequency: float  #: of the body's mode, undamped, at the stated amplitude [Hz]
    ratio: float  #: its damping ratio there


def any_corner(random: np.random.Generator) -> Corner:
    """A corner as cars have them."""
    sprung = random.uniform(180.0, 420.0)
    frequency, ratio = random.uniform(1.3, 2.6), random.uniform(0.15, 0.45)
    spring = sprung * (2 * np.pi * frequency) ** 2
    slow = 2 * ratio * np.sqrt(spring * sprung)
    more = random.uniform(1.0, 2.5)  # rebound over compression
    digressive = random.uniform(0.3, 1.0)
    pair = (slow * 2 / (1 + more), slow * 2 * more / (1 + more))
    return Corner(
        sprung, random.uniform(28.0, 45.0), spring, spring * random.uniform(4.0, 8.0), random.uniform(50.0, 300.0),
        pair, tuple(digressive * s for s in pair), random.uniform(0.05, 0.2),
        random.uniform(0.0, 0.06) * sprung * GRAVITY * 0.5, random.uniform(0.6, 1.0),
    )  # fmt: skip


def truth(corner: Corner, amplitude: float) -> tuple[float, float]:
    """Frequency [Hz] and ratio of the body's mode, the shock by energy per cycle at an amplitude of its travel."""
    omega = np.sqrt(corner.spring / corner.sprung)
    for _ in range(50):
        phase = np.linspace(0.0, 2 * np.pi, 2001)[:-1]
        v = amplitude * omega * np.cos(phase)
        c = np.mean(corner.damping(v) * v) * 2 / (amplitude * omega) ** 2
        m, u, k, t, b = corner.sprung, corner.unsprung, corner.spring, corner.tyre, corner.tyre_damping
        matrix = np.array([
            [0, 1, 0, 0], [-k / m, -c / m, k / m, c / m], [0, 0, 0, 1], [k / u, c / u, -(k + t) / u, -(c + b) / u],
        ])  # fmt: skip
        roots = np.linalg.eigvals(matrix)
        roots = roots[roots.imag > 0]
        body = roots[np.argmin(np.abs(roots))]
        if abs(abs(body) - omega) < 1e-9:
            break
        omega = abs(body)
    return omega / 2 / np.pi, -body.real / abs(body)


def pushes(random: np.random.Generator, corner: Corner, count: int) -> tuple[np.ndarray, np.ndarray]:
    """The hand's force over time: pressed down, held, let go, so many times."""
    waits, force, at = [random.uniform(0.5, 1.5)], [], 0.0
    time, press = [0.0], [0.0]
    for _ in range(count):
        deep = random.uniform(0.018, 0.045) * corner.spring
        at += waits[-1] if not force else random.uniform(2.0, 3.5)
        into, hold, out = random.uniform(0.3, 0.8), random.uniform(0.0, 0.5), random.uniform(0.02, 0.06)
        time += [at, at + into, at + into + hold + 1e-3, at + into + hold + out]
        press += [0.0, deep, deep, 0.0]
        at = time[-1]
        force.append(deep)
    return np.array([*time, at + random.uniform(2.0, 3.5)]), np.array([*press, 0.0])


def driven(corner: Corner, time: np.ndarray, press: np.ndarray) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    """Time, travel of the shock at the wheel, and acceleration of the body (upward positive), by small steps."""
    t = np.arange(0.0, time[-1], STEP)
    hand = np.interp(t, time, press)
    z = w = vz = vw = stuck = 0.0  # body and wheel, downward positive; friction's force
    travel, acceleration = np.empty(len(t)), np.empty(len(t))
    bristle = corner.friction / 2e-4 if corner.friction else 0.0
    slow, fast, knee = corner.slow, corner.fast, corner.knee
    for n, push in enumerate(hand):
        v = vz - vw
        side = 0 if v > 0 else 1
        speed = abs(v)
        force = fast[side] * speed + (slow[side] - fast[side]) * knee * np.log1p(speed / knee)
        force = corner.spring * (z - w) + (force if v > 0 else -force) + stuck
        az = (push - force) / corner.sprung
        aw = (force - corner.tyre * w - corner.tyre_damping * vw) / corner.unsprung
        travel[n], acceleration[n] = z - w, -az
        vz, vw = vz + az * STEP, vw + aw * STEP
        z, w = z + vz * STEP, w + vw * STEP
        if bristle:
            v = vz - vw
            stuck += bristle * v * (1 - np.sign(v) * stuck / corner.friction) * STEP
            stuck = min(max(stuck, -corner.friction), corner.friction)
    return t, travel, acceleration


def turned(random: np.random.Generator, up: np.ndarray, tilt: float, gravity: bool) -> np.ndarray:
    """A phone's three axes: lying any way up, tilted by some degrees, with or without gravity."""
    axis = np.zeros(3)
    axis[random.integers(3)] = random.choice([-1.0, 1.0])
    across = np.cross(axis, random.normal(size=3))
    across /= np.linalg.norm(across)
    angle = np.radians(random.uniform(0.0, tilt))
    vertical = np.cos(angle) * axis + np.sin(angle) * across
    return np.outer(up + (GRAVITY if gravity else 0.0), vertical)


def decay(seed: int, amplitude: float = 0.010, corner: Corner | None = None) -> Decay:
    """A log of one to four pushes, by a potentiometer on the shock and by a phone."""
    random = np.random.default_rng(seed)
    made = corner or any_corner(random)
    t, travel, up = driven(made, *pushes(random, made, int(random.integers(1, 5))))
    rate = np.exp(random.uniform(np.log(25.0), np.log(400.0)))
    at = np.arange(0.0, t[-1], 1 / rate)
    jitter = random.normal(0.0, 0.02 / rate, len(at)) if random.random() < 0.5 else 0.0
    when = np.clip(at + jitter, 0.0, t[-1])
    axes = turned(random, np.interp(when, t, up), 20.0, bool(random.random() < 0.6))
    axes = axes + random.normal(0.0, random.uniform(0.02, 0.10), axes.shape)
    step = random.choice([2e-5, 1e-4])
    logged = np.interp(when, t, travel) * made.shock_ratio + random.normal(0.0, random.uniform(2e-5, 2e-4), len(at))
    logged = np.round((logged + random.uniform(0.02, 0.06)) / step) * step
    frequency, ratio = truth(made, amplitude)
    return Decay(made, at, logged, axes, frequency, ratio)
