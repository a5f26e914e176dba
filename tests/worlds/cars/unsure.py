"""A car as its file states it and as it stands there, and what it does, from the physics alone.

Every stated value carries a ± within which the true one lies 19 times of 20: the truth is drawn from the normal law of
that half-width. The true car leaves the line as bodies, rods and constraint forces (`tests.oracles.large_launch`); its
figures are read off that motion by their own sentences. Nothing here knows how a band is reckoned.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Any

import numpy as np
from scipy.stats import norm

from tests.oracles import large_launch as oracle

G = oracle.G
HALVES = 1.959964  #: standard deviations in a ± that holds 95 %
RISE = 0.15  #: over which the drive comes in [s]
STEP = 2e-3
#: all the grip there is: a force so many times what the driven tyres hold at rest, limited by the grip
FULL = 2.0
SPINS = 0.3  #: slip beyond which a wheel spins


RODS = oracle.Rods(((0.0, 0.24), (0.03, 0.43)), ((0.52, 0.25), (0.43, 0.41)))


@dataclass(frozen=True)
class Stated:
    """What a car's file states; masses are what the scales show under one wheel. SI."""

    wheelbase: float = 2.43
    cg_height: float = 0.51
    pitch_inertia: float = 1150.0
    wheel_radius: float = 0.30
    front_mass: float = 268.0
    rear_mass: float = 237.0
    front_unsprung: float = 34.0
    rear_unsprung: float = 32.0
    front_spring: float = 45e3
    rear_spring: float = 42e3
    spring_ratio: float = 0.95
    front_ratio: float = 0.92  #: shock travel per wheel travel
    rear_ratio: float = 0.92
    front_tyre: float = 210e3
    rear_tyre: float = 210e3
    grip: float = 1.05
    sliding: float = 0.85  #: grip when the wheels spin
    falls: float = 0.1  #: power of its load by which a tyre's grip falls
    stiffness: float = 15.0  #: of the tyre over its load, at no slip
    wheel_inertia: float = 0.9  #: of one driven wheel
    coefficient: float = 3500.0  #: of each shock: force over speed
    #: the shocks of an axle over their curve, in compression and in rebound
    front_push: float = 1.0
    front_pull: float = 1.0
    rear_push: float = 1.0
    rear_pull: float = 1.0
    rods: oracle.Rods = RODS


#: the ± of the file, by key
PLUS_MINUS: dict[str, float] = {
    "cg_height": 0.020, "pitch_inertia": 120.0, "front_spring": 1.5e3, "rear_spring": 1.5e3, "front_ratio": 0.02,
    "rear_ratio": 0.02, "front_tyre": 20e3, "rear_tyre": 20e3, "grip": 0.05, "sliding": 0.03,
    "falls": 0.05,
}  # fmt: skip
#: the same of the shocks, where their curves are no surer than a map of a few tests: the curves' bands
CURVES = dict.fromkeys(("front_push", "front_pull", "rear_push", "rear_pull"), 0.10)


def drawn(stated: Stated, count: int, seed: int = 1, plus_minus: Mapping[str, float] = PLUS_MINUS) -> list[Stated]:
    """Return cars that may stand there when that is what their file, and their curves' bands, state.

    Each value takes each of `count` equally likely parts of its law once, paired at random (a Latin hypercube), so that
    how often a band holds hangs little on the luck of the draw.
    """
    dice = np.random.default_rng(seed)
    parts = [norm.ppf((dice.permutation(count) + dice.uniform(size=count)) / count) for _ in plus_minus]
    return [
        replace(stated, **{
            key: getattr(stated, key) + half / HALVES * float(part[i])
            for (key, half), part in zip(plus_minus.items(), parts, strict=True)
        })
        for i in range(count)
    ]  # fmt: skip


def world(car: Stated, torque: float | None) -> oracle.World:
    """Return its bodies and rods, driven by a torque at both driven wheels, or by all the force that the grip holds."""
    masses = [2 * car.front_mass, 2 * car.rear_mass]
    wheels = [2 * car.front_unsprung, 2 * car.rear_unsprung]
    sprung = [m - u for m, u in zip(masses, wheels, strict=True)]
    height = (sum(masses) * car.cg_height - sum(wheels) * car.wheel_radius) / sum(sprung)
    to_front = car.wheelbase * sprung[1] / sum(sprung)

    def side(spring: float, ratio: float, weight: float, shock: tuple[float, float]) -> Any:
        rate, damping = 2 * spring * car.spring_ratio**2, 2 * car.coefficient * ratio**2
        # a spring pushes and never pulls
        return lambda u, v: max(rate * u + weight, 0.0) - weight + damping * v * shock[int(v < 0)]

    return oracle.World(
        sum(sprung), car.pitch_inertia, wheels[0], wheels[1], to_front, car.wheelbase - to_front, height,
        car.wheel_radius, (2 * car.front_tyre, 2 * car.rear_tyre), car.rods,
        (side(car.front_spring, car.front_ratio, sprung[0] * G, (car.front_push, car.front_pull)),
         side(car.rear_spring, car.rear_ratio, sprung[1] * G, (car.rear_push, car.rear_pull))),
        **_driven(car, torque, masses[1] * G),
    )  # fmt: skip


def _driven(car: Stated, torque: float | None, weight: float) -> dict[str, Any]:
    if torque is None:
        held = lambda n: n * oracle.under_load(car.grip, n, car.falls, weight)  # noqa: E731
        return {"drive": lambda t, n: min(FULL * car.grip * weight * min(t / RISE, 1.0), held(n))}
    return {
        "torque": lambda t, _w: torque * min(t / RISE, 1.0), "spin": 2 * car.wheel_inertia,
        "slip": oracle.falling_grip(car.grip, car.sliding, car.stiffness, car.falls, weight),
    }  # fmt: skip


def _slip(w: oracle.World, ran: oracle.Ran) -> np.ndarray:
    if w.torque is None:
        return np.zeros_like(ran.time)
    v = np.gradient(ran.rear_x, ran.time)
    return np.asarray((ran.wheel_speed - v) / np.maximum(np.abs(v), w.slowest))


def _force(car: Stated, torque: float | None, w: oracle.World, ran: oracle.Ran) -> np.ndarray:
    if torque is None:
        return np.array([w.drive(t, n) for t, n in zip(ran.time, ran.rear_load, strict=True)])
    assert w.slip is not None
    return np.array([w.slip(k, n) for k, n in zip(_slip(w, ran), ran.rear_load, strict=True)])


def figures(car: Stated, torque: float | None, duration: float) -> dict[str, float]:
    """Return what the true car does on level ground, by the keys that a launch gives them."""
    w = world(car, torque)
    ran = oracle.run(w, duration, STEP)
    t, pitch = ran.time, ran.pitch
    nose, tail = ran.heave + w.to_front * np.sin(pitch), ran.heave - w.to_rear * np.sin(pitch)
    late = t >= t[-1] * 0.9
    force = _force(car, torque, w, ran)
    short = w.static[1] + force * car.cg_height / car.wheelbase - ran.rear_load
    end = pitch[late].mean()
    outside = np.flatnonzero(np.abs(pitch - end) > 0.05 * abs(end))
    mass = 2 * (car.front_mass + car.rear_mass)
    lifted = ran.front_wheel - w.static[0] / w.tyre[0]
    out = {
        "level_nose_rise_m": nose.max(), "level_nose_rise_rate_m_s": np.gradient(nose, t).max(),
        "level_rear_squat_m": max(-tail.min(), 0.0), "level_rear_lift_m": max(tail.max(), 0.0),
        "level_pitch_peak_rad": pitch.max(), "level_pitch_rate_peak_rad_s": np.gradient(pitch, t).max(),
        "level_steady_after_s": t[min(outside[-1] + 1, len(t) - 1)] if len(outside) else 0.0,
        "nose_rise_end_m": nose[late].mean(), "pitch_end_rad": end,
        "front_wheel_height_m": max(lifted.max(), 0.0),
        "front_wheel_lift_s": np.count_nonzero(ran.front_load[:-1] <= 0) * STEP,
        "front_load_end_n": ran.front_load[late].mean(), "rear_load_end_n": ran.rear_load[late].mean(),
        "driven_load_least_n": ran.rear_load[:-1].min(), "driven_load_dip_n": short[:-1].max(),
        "driven_load_rms_n": np.sqrt((short[:-1] ** 2).mean()),
        "acceleration_end_m_s2": force[late].mean() / mass, "drive_force_mean_n": force[:-1].mean(),
        "distance_m": ran.x[-1], "speed_end_m_s": np.gradient(ran.x, t)[-1],
    }  # fmt: skip
    if torque is not None:
        out["wheelspin_s"] = np.count_nonzero(_slip(w, ran)[:-1] > SPINS) * STEP
    for axle, travel, ratio in (
        ("front", ran.front_travel, car.front_ratio), ("rear", ran.rear_travel, car.rear_ratio)
    ):  # fmt: skip
        v = np.gradient(travel, t) * ratio
        out[f"{axle}_shock_compression_peak_m_s"] = max(v.max(), 0.0)
        out[f"{axle}_shock_rebound_peak_m_s"] = max(-v.min(), 0.0)
        out[f"{axle}_shock_rms_m_s"] = np.sqrt((v**2).mean())
    return {key: float(value) for key, value in out.items()}
