"""A corner pushed and let go by hand, logged by a shock's pot or by a phone; from the physics alone.

Two masses, spring, a damper with a knee and unlike directions, dry friction that truly sticks, a tyre with damping
that cannot pull. Hands push down, hold and let go over some hundredths of a second. SI, compression positive.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from scipy.optimize import brentq

G = 9.80665
STEP = 2.5e-4  #: of the integration
STUCK = 5e-6  #: slower than what a step may turn round, the slider is held if the force allows


@dataclass(frozen=True)
class Pushed:
    """One corner, all at the wheel but `ratio`, and how it was pushed and logged."""

    sprung: float
    unsprung: float
    spring: float
    ratio: float  #: shock travel per wheel travel
    slopes: tuple[float, float]  #: at the shock below the knee: compression, rebound
    knee: float
    beyond: float  #: share of the slope above the knee
    friction: float
    tyre: float
    tyre_damping: float
    pushes: tuple[tuple[float, float], ...]  #: how far down [m], how long held [s]
    let_go: float  #: over which the hands leave [s]
    rate: float
    phone: bool
    tilt: float  #: of the phone [rad]
    seed: int


def draw(seed):
    """A corner nobody chose."""
    rng = np.random.default_rng(seed)
    sprung, hertz = rng.uniform(140, 320), rng.uniform(1.1, 2.6)
    tyre = rng.uniform(150e3, 320e3)
    ride = (2 * np.pi * hertz) ** 2 * sprung
    spring = 1 / (1 / ride - 1 / tyre)
    ratio = rng.uniform(0.6, 1.0)
    critical = 2 * np.sqrt(spring * sprung) / ratio**2
    slopes = tuple(critical * rng.uniform(low, high) for low, high in ((0.08, 0.35), (0.12, 0.5)))
    pushes = tuple((rng.uniform(0.025, 0.055), rng.uniform(0.4, 1.2)) for _ in range(int(rng.integers(3, 6))))
    return Pushed(
        sprung, rng.uniform(18, 42), spring, ratio, slopes, rng.uniform(0.04, 0.2), rng.uniform(0.25, 1.0),
        rng.uniform(0.0, 60.0), tyre, rng.uniform(0.0, 300.0), pushes, rng.uniform(0.01, 0.05),
        float(np.exp(rng.uniform(np.log(25), np.log(400)))), bool(rng.random() < 0.5), rng.uniform(0, np.radians(20)),
        seed,
    )  # fmt: skip


def damper(of, speed):
    """Force at the shock over its speed."""
    size = np.abs(speed)
    slope = np.where(np.asarray(speed) > 0, of.slopes[0], of.slopes[1])
    return np.sign(speed) * slope * (np.minimum(size, of.knee) + of.beyond * np.maximum(size - of.knee, 0))


def hands(of):
    """What the hands press with, over time: they push down over a third of a second, hold, let go."""
    ride = 1 / (1 / of.spring + 1 / of.tyre)
    times, forces, now = [0.0, 1.5], [0.0, 0.0], 1.5
    for deep, held in of.pushes:
        times += [now + 0.35, now + 0.35 + held, now + 0.35 + held + of.let_go, now + held + 3.6]
        forces += [deep * ride, deep * ride, 0.0, 0.0]
        now = times[-1]
    return np.array(times), np.array(forces)


def sway(of):
    """Suspension travel, body's height and its acceleration, over time."""
    when, force = hands(of)
    time = np.arange(0.0, when[-1], STEP)
    pressed = np.interp(time, when, force)
    rest = (of.sprung + of.unsprung) * G
    z = w = vz = vw = 0.0
    out = np.zeros((3, len(time)))
    low = [s * of.ratio**2 for s in of.slopes]
    for i, push in enumerate(pressed):
        travel, speed = w - z, vw - vz
        slope, size = (low[0] if speed > 0 else low[1]), abs(speed)
        knee = of.knee / of.ratio
        smooth = slope * (min(size, knee) + of.beyond * max(size - knee, 0.0)) * (1 if speed > 0 else -1)
        tyre = max(rest - of.tyre * w - of.tyre_damping * vw, 0.0) - rest
        strut = of.spring * travel + smooth
        # the dry friction that would bring the slider to rest within this step, as far as there is so much
        free = (tyre - strut) / of.unsprung - (strut - push) / of.sprung
        wanted = (speed / STEP + free) / (1 / of.unsprung + 1 / of.sprung)
        strut += min(max(wanted, -of.friction), of.friction)
        az, aw = (strut - push) / of.sprung, (tyre - strut) / of.unsprung
        out[:, i] = travel, z, az
        vz += az * STEP
        vw += aw * STEP
        z += vz * STEP
        w += vw * STEP
    return time, out


def logged(of):
    """Times and what was logged at them: shock travel, or the phone's three axes."""
    rng = np.random.default_rng(of.seed + 10_000)
    time, (travel, _, lifted) = sway(of)
    at = np.arange(0.0, time[-1], 1 / of.rate)
    if not of.phone:
        shock = np.interp(at, time, travel) * of.ratio
        noisy = shock + 0.1e-3 * rng.standard_normal(len(at)) + rng.uniform(0.02, 0.12)
        return at, np.round(noisy / 0.1e-3) * 0.1e-3
    about = rng.uniform(0, 2 * np.pi)
    up = np.array([np.sin(of.tilt) * np.cos(about), np.sin(of.tilt) * np.sin(about), np.cos(of.tilt)])
    up = up[rng.permutation(3)] * rng.choice([-1, 1])
    # a phone's chip means over its own step before it is read
    window = max(round(1 / of.rate / STEP), 1)
    felt = np.convolve(lifted, np.ones(window) / window, "same")
    axes = np.outer(np.interp(at, time, felt) + G, up)
    return at, axes + 0.03 * rng.standard_normal(axes.shape) + rng.uniform(-0.15, 0.15, 3)


def equivalent(of, amplitude):
    """Damping at the wheel that takes the same energy a cycle at an amplitude of travel, in the body's mode."""

    def off(damping):
        swing = mode(of, damping)
        phase = np.linspace(0, 2 * np.pi, 4001)
        speed = of.ratio * amplitude * abs(swing.imag) * np.cos(phase)
        taken = np.trapezoid(damper(of, speed) * speed, phase) / abs(swing.imag)
        return taken / (np.pi * abs(swing.imag) * amplitude**2) - damping

    return brentq(off, 1.0, 1.4 * np.sqrt(of.spring * of.sprung))


def mode(of, damping):
    """The body's eigenvalue of the corner with a linear damper."""
    m = np.diag([1 / of.sprung, 1 / of.unsprung])
    k = np.array([[of.spring, -of.spring], [-of.spring, of.spring + of.tyre]])
    c = np.array([[damping, -damping], [-damping, damping + of.tyre_damping]])
    roots = np.linalg.eigvals(np.block([[np.zeros((2, 2)), np.eye(2)], [-m @ k, -m @ c]]))
    up = roots[roots.imag > 0]
    return up[np.argmin(np.abs(up))] if len(up) else roots[np.argmin(np.abs(roots))]


def truth(of, amplitude=0.010):
    """Ratio and frequency as it swings at an amplitude, and the frequency without the shock."""
    swing, free = mode(of, equivalent(of, amplitude)), mode(of, 0.0)
    return -swing.real / abs(swing), abs(swing) / 2 / np.pi, abs(swing.imag) / 2 / np.pi, abs(free.imag) / 2 / np.pi
